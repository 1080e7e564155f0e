#include "engine/units/nearest.hpp"

#include <gtest/gtest.h>

#include <string>
#include <string_view>

namespace {

using jarful::units::edit_distance;
using jarful::units::forgiven_slips;
using jarful::units::nearest;

TEST(EditDistance, CountsOneForEachSlip) {
    EXPECT_EQ(edit_distance("salt", "salt", 3), 0);
    EXPECT_EQ(edit_distance("salt", "slat", 3), 1) << "neighbours swapped";
    EXPECT_EQ(edit_distance("salt", "sal", 3), 1) << "one left out";
    EXPECT_EQ(edit_distance("salt", "saltt", 3), 1) << "one added";
    EXPECT_EQ(edit_distance("salt", "salz", 3), 1) << "one changed";
    EXPECT_EQ(edit_distance("kitten", "sitting", 5), 3);
    EXPECT_EQ(edit_distance("", "abc", 3), 3);
    EXPECT_EQ(edit_distance("abc", "", 3), 3);
    EXPECT_EQ(edit_distance("", "", 0), 0);
    EXPECT_EQ(edit_distance("ca", "abc", 5), 3) << "a swapped pair is not edited again";
}

TEST(EditDistance, StopsAtItsBound) {
    EXPECT_EQ(edit_distance("kitten", "sitting", 2), 3);
    EXPECT_EQ(edit_distance("kitten", "sitting", 0), 1);
    EXPECT_EQ(edit_distance(std::string(5000, 'a'), "b", 2), 3);
    EXPECT_EQ(edit_distance(std::string(300, 'a'), std::string(301, 'a'), 2), 1);
    EXPECT_EQ(edit_distance(std::string(300, 'a'), std::string(300, 'b'), 2), 3);
}

TEST(EditDistance, IsTheSameBothWays) {
    const std::string_view words[] = {"cabbage", "cabage", "acbbage", "garbage", "", "abgecab"};
    for (const auto a : words) {
        for (const auto b : words)
            EXPECT_EQ(edit_distance(a, b, 9), edit_distance(b, a, 9));
    }
}

TEST(Nearest, FindsTheOneWithTheFewestSlips) {
    const std::string_view known[] = {"kraut", "kimchi", "carrots", "garlic", "ml"};
    EXPECT_EQ(nearest("kruat", known), "kraut");
    EXPECT_EQ(nearest("KRAUT", known), "kraut");
    EXPECT_EQ(nearest("garlick", known), "garlic");
    EXPECT_EQ(nearest("mll", known), "ml");
    EXPECT_FALSE(nearest("bicycle", known));
    EXPECT_FALSE(nearest("", known));
    EXPECT_FALSE(nearest("x", known));
    EXPECT_FALSE(nearest("kraut", {}));
}

TEST(Nearest, OfEqualsTakesTheFirst) {
    const std::string_view known[] = {"hat", "bat", "cat"};
    EXPECT_EQ(nearest("rat", known), "hat");
}

TEST(Nearest, ForgivesMoreInLongerWords) {
    EXPECT_EQ(forgiven_slips(0), 1);
    EXPECT_EQ(forgiven_slips(5), 1);
    EXPECT_EQ(forgiven_slips(6), 2);
    EXPECT_EQ(forgiven_slips(9), 3);
    EXPECT_EQ(forgiven_slips(100), 4);
}

} // namespace
