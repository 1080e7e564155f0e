#include "engine/larder/compile/packed.hpp"
#include "engine/larder/constant.hpp"
#include "engine/larder/larder.hpp"

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace {

using jarful::larder::ConstantText;
using jarful::larder::Entry;
using jarful::larder::Slice;

extern const char letters[];
const char letters[] = "cabbagecarrotbay";
using Text = ConstantText<letters>;

extern const int numbers[];
const int numbers[] = {2, 3, 5, 7, 11};
using Numbers = Slice<int, numbers>;
using Number = Entry<int, numbers>;

TEST(constant, a_text_is_told_by_its_place) {
    constexpr Text carrot{7, 6};
    EXPECT_EQ(carrot.view(), "carrot");
    EXPECT_EQ(std::string_view(carrot).data(), letters + 7);
    EXPECT_EQ(carrot.size(), 6u);
    EXPECT_FALSE(carrot.empty());
    EXPECT_TRUE(Text().empty());
    EXPECT_EQ(Text(), "");
    EXPECT_EQ(fmt::format("{:>8}", carrot), "  carrot");
}

TEST(constant, a_text_may_lie_elsewhere) {
    const std::string own = "ash turnip";
    const Text text{std::string_view(own)};
    EXPECT_EQ(text.view().data(), own.data());
    EXPECT_EQ(text.view(), own);
    const Text copy = text;
    EXPECT_EQ(copy, text);
    EXPECT_EQ(Text("carrot"), Text(7, 6)) << "what it says counts, and not where it lies";
    EXPECT_NE(Text("carrots"), Text(7, 6));
    EXPECT_TRUE(Text(std::string_view()).empty());
}

TEST(constant, a_slice_is_told_by_its_first_element) {
    constexpr Numbers some{1, 3};
    EXPECT_EQ(std::vector<int>(some.begin(), some.end()), (std::vector<int>{3, 5, 7}));
    EXPECT_EQ(some.data(), numbers + 1);
    EXPECT_EQ(some.front(), 3);
    EXPECT_EQ(some.back(), 7);
    EXPECT_EQ(some[1], 5);
    EXPECT_TRUE(Numbers().empty());
    EXPECT_EQ(Numbers().begin(), Numbers().end());
}

TEST(constant, a_slice_may_lie_elsewhere) {
    const std::vector<int> own{4, 6};
    const Numbers some{std::span<const int>(own)};
    EXPECT_EQ(some.data(), own.data());
    EXPECT_EQ(some.size(), 2u);
    EXPECT_EQ(some.back(), 6);
    EXPECT_TRUE(Numbers(std::span<const int>()).empty());
}

TEST(constant, an_entry_is_a_pointer_or_none) {
    const int own = 9;
    EXPECT_EQ(static_cast<const int*>(Number()), nullptr);
    EXPECT_EQ(static_cast<const int*>(Number::at(0)), numbers);
    EXPECT_EQ(*Number::at(4), 11);
    EXPECT_EQ(static_cast<const int*>(Number(&own)), &own);
}

/// Nothing of them grows beyond what a pointer and a size took.
TEST(constant, takes_no_more_room_than_what_it_stands_for) {
    EXPECT_EQ(sizeof(Text), sizeof(std::string_view));
    EXPECT_EQ(sizeof(Numbers), sizeof(std::span<const int>));
}

TEST(constant, the_compiler_of_the_tables_writes_each_text_once) {
    jarful::larder::compile::TextBlob blob;
    EXPECT_EQ(blob.add("cabbage"), "{0, 7}");
    EXPECT_EQ(blob.add("bay"), "{7, 3}");
    EXPECT_EQ(blob.add("cabbage"), "{0, 7}");
    EXPECT_EQ(blob.add("age"), "{4, 3}") << "part of another";
    EXPECT_EQ(blob.add(""), "{}");
    EXPECT_EQ(blob.array("texts"), "constinit const char texts[] =\n    \"cabbagebay\";\n");
}

TEST(constant, the_compiler_of_the_tables_puts_lists_behind_each_other) {
    jarful::larder::compile::Pool pool;
    EXPECT_EQ(pool.array("int", "none"), "constinit const int none[] = {\n{}};\n");
    EXPECT_EQ(pool.add({"2", "3"}), "{0, 2}");
    EXPECT_EQ(pool.add({}), "{}");
    EXPECT_EQ(pool.add({"5"}), "{2, 1}");
    EXPECT_EQ(pool.array("int", "some"), "constinit const int some[] = {\n2,\n3,\n5,\n};\n");
}

/// The tables themselves, through what they refer to by places.
TEST(constant, the_larder_refers_into_its_own_tables) {
    using namespace jarful::larder;
    for (const Kind& kind : kinds()) {
        for (const Ruling& ruling : kind.rulings) {
            for (const auto& bound : {ruling.low, ruling.high}) {
                if (!bound) continue;
                const RangeRow* row = bound->row;
                EXPECT_EQ(row, find_range_row(bound->row->id)) << kind.name;
            }
        }
        for (const std::uint16_t row : kind.rows)
            EXPECT_EQ(range_rows()[row].kind, kind.name);
    }
}

} // namespace
