#include "engine/kitchen/fewest.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

/// The choice of vessels on bare numbers, beside every choice there is.
namespace jarful::kitchen {
namespace {

std::vector<int> chosen(const std::vector<Room>& rooms, double volume) {
    return fewest(rooms, volume).times;
}

TEST(Fewest, allWhereTheyDoNotHoldIt) {
    EXPECT_EQ(chosen({{1000, 2}, {500, 3}}, 3501), (std::vector{2, 3}));
    EXPECT_EQ(chosen({{1000, 2}, {500, 3}}, 3500), (std::vector{2, 3}));
    EXPECT_EQ(chosen({{1000, 0}, {500, 3}}, 1000), (std::vector{0, 2}));
    EXPECT_TRUE(fewest({}, 10).times.empty());
}

TEST(Fewest, takesANoiseOfTheLastDigitsForNothing) {
    EXPECT_EQ(chosen({{0.1, 3}, {1, 1}}, 0.1 + 0.2), (std::vector{0, 1}));
    EXPECT_EQ(chosen({{0.1, 3}}, 0.1 + 0.2), (std::vector{3}));
    EXPECT_EQ(chosen({{100, 9}}, 300 * (1 + 1e-12)), (std::vector{3}));
    EXPECT_EQ(chosen({{100, 9}}, 300 * (1 + 1e-10)), (std::vector{4}));
    EXPECT_EQ(chosen({{1e6, 9}}, 3e6 + 1e-6), (std::vector{3}));
}

/// Every choice of so many vessels: the least room that holds the volume, and how few different
/// ones make a room that is no more than a thousandth of a mL larger.
struct Best {
    int count = std::numeric_limits<int>::max();
    double room = 0;
};

void try_all(const std::vector<Room>& rooms, double volume, std::size_t at, int count, double room,
             Best& best) {
    if (count > best.count) return;
    if (at == rooms.size()) {
        if (room < volume) return;
        if (count < best.count || room < best.room) best = {count, room};
        return;
    }
    for (int n = 0; n <= rooms[at].have; ++n)
        try_all(rooms, volume, at + 1, count + n, room + n * rooms[at].ml, best);
}

// Odd volumes, so that no two choices are alike by chance.
TEST(Fewest, isTheBestOfAllChoices) {
    std::uint64_t state = 12345;
    const auto below = [&](std::uint64_t n) {
        state = state * 6364136223846793005u + 1442695040888963407u;
        return (state >> 33) % n;
    };
    for (int round = 0; round < 400; ++round) {
        std::vector<Room> rooms;
        double all = 0;
        for (std::uint64_t i = 0, n = 1 + below(6); i < n; ++i) {
            rooms.push_back({100 + static_cast<double>(below(2'000'000)) / 1009,
                             static_cast<int>(1 + below(3))});
            all += rooms.back().ml * rooms.back().have;
        }
        const double volume = all * static_cast<double>(1 + below(999)) / 1000;
        const Choice choice = fewest(rooms, volume);
        Best best;
        try_all(rooms, volume, 0, 0, 0, best);
        double room = 0;
        int count = 0;
        for (std::size_t i = 0; i < rooms.size(); ++i) {
            EXPECT_LE(choice.times[i], rooms[i].have);
            room += choice.times[i] * rooms[i].ml;
            count += choice.times[i];
        }
        EXPECT_TRUE(choice.exact);
        EXPECT_EQ(count, best.count) << round;
        EXPECT_NEAR(room, best.room, 2e-3) << round;
    }
}

// Between thirty and sixty different vessels the number of sums passes from what is looked at at
// once to more than is kept: some of them are enough then.
TEST(Fewest, findsAChoiceThatLeavesNextToNothingAmongVeryMany) {
    for (const int many : {26, 30, 32, 34, 36, 38, 42, 60}) {
        std::vector<Room> rooms;
        double volume = -10 * many;
        for (int i = 0; i < many; ++i) {
            rooms.push_back({1200 - i * 7 + std::fmod(i * i * 0.7390851332, 3.0), 1});
            if (i < many / 2) volume += rooms.back().ml;
        }
        const Choice choice = fewest(rooms, volume);
        double room = 0;
        int count = 0;
        for (std::size_t r = 0; r < rooms.size(); ++r) {
            room += choice.times[r] * rooms[r].ml;
            count += choice.times[r];
        }
        EXPECT_TRUE(choice.exact) << many;
        EXPECT_EQ(count, many / 2) << many;
        EXPECT_GE(room, volume * (1 - 1e-11)) << many;
        EXPECT_LE(room - volume, 0.02) << many;
    }
}

// For more than four hundred vessels the largest are taken, and the last one as small as it can be.
TEST(Fewest, ofMoreThanFourHundredTheLargest) {
    const std::vector<Room> rooms{{3, 300}, {10, 300}, {7, 300}};
    const Choice four_hundred = fewest(rooms, 3700);
    EXPECT_TRUE(four_hundred.exact);
    EXPECT_EQ(four_hundred.times, (std::vector{0, 300, 100}));
    const Choice more = fewest(rooms, 3707);
    EXPECT_FALSE(more.exact);
    EXPECT_EQ(more.times, (std::vector{0, 300, 101}));
    EXPECT_EQ(chosen(rooms, 3710), (std::vector{1, 300, 101}));
    EXPECT_EQ(chosen(rooms, 3711), (std::vector{0, 300, 102}));
    EXPECT_EQ(chosen(rooms, 5100), (std::vector{0, 300, 300}));
    EXPECT_EQ(chosen(rooms, 5101), (std::vector{1, 300, 300}));
    EXPECT_EQ(chosen(rooms, 6000), (std::vector{300, 300, 300}));
    const std::vector<Room> four{{10, 500}, {6, 1}, {4, 1}, {2, 1}};
    EXPECT_EQ(chosen(four, 4503), (std::vector{450, 0, 1, 0}))
        << "the smallest that holds the rest";
    EXPECT_EQ(chosen(four, 4505), (std::vector{450, 1, 0, 0}));
    EXPECT_EQ(chosen(four, 4507), (std::vector{451, 0, 0, 0}));
    EXPECT_EQ(chosen(four, 4502), (std::vector{450, 0, 0, 1}));
}

} // namespace
} // namespace jarful::kitchen
