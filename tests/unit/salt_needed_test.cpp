#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

#include <cmath>

// The grams that would do are readings: poured, they are inside, and a step less or more is not.

namespace jarful::plan {
namespace {

test::Outcome with_salt(const std::string& recipe, double grams) {
    return test::weigh_with(recipe, [&](Request& request) {
        language::Findings own;
        char text[40];
        std::snprintf(text, sizeof text, "salt=%.1fg", grams);
        request.poured.push_back(read_setting(text, own).value());
    });
}

Verdict verdict_with(const std::string& recipe, double grams) {
    const test::Outcome o = with_salt(recipe, grams);
    EXPECT_TRUE(o.out && o.out->salt) << o.said;
    return o.out && o.out->salt ? o.out->salt->verdict : Verdict::undecided;
}

std::string kraut(const std::string& salt) {
    return "recipe \"Kraut\"\nkind kraut\ngiven cabbage = 2 kg\nweigh carrot = 10 % of cabbage\n"
           "weigh salt = " +
           salt + " as canning salt\n";
}

void expect_edges(const std::string& recipe) {
    const test::Outcome o = test::weigh(recipe);
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_TRUE(o.out->salt_needed) << recipe;
    const SaltNeeded& needed = *o.out->salt_needed;
    ASSERT_TRUE(needed.high_g);
    EXPECT_EQ(needed.name, "salt");
    EXPECT_LT(needed.low_g, *needed.high_g);
    EXPECT_EQ(verdict_with(recipe, needed.low_g), Verdict::inside) << needed.low_g;
    EXPECT_NE(verdict_with(recipe, needed.low_g - needed.step_g), Verdict::inside);
    EXPECT_EQ(verdict_with(recipe, *needed.high_g), Verdict::inside) << *needed.high_g;
    EXPECT_NE(verdict_with(recipe, *needed.high_g + needed.step_g), Verdict::inside);
}

TEST(SaltNeeded, is_inside_when_it_is_poured_and_a_step_less_or_more_is_not) {
    expect_edges(kraut("1.5 % of (cabbage + carrot)"));
    expect_edges(kraut("4 % of (cabbage + carrot)"));
    expect_edges("recipe \"Beans\"\nkind green-beans in-brine\ngiven beans = 1 kg\n"
                 "weigh water = 0.8 kg\nweigh salt = 1 % of water as canning salt\n");
}

// 2 % and 3 % of 2200 g are 44 and 66 g; by a scale of 1 g that is off by 1.5 g, on weights that
// are off by 1.5 g each.
TEST(SaltNeeded, is_what_the_range_allows_less_what_the_scales_may_be_off) {
    const test::Outcome o = test::weigh(kraut("1.5 % of (cabbage + carrot)"));
    ASSERT_TRUE(o.out && o.out->salt_needed) << o.said;
    EXPECT_DOUBLE_EQ(o.out->salt_needed->low_g, std::ceil(0.02 * 2203 + 1.5));
    EXPECT_DOUBLE_EQ(*o.out->salt_needed->high_g, std::floor(0.03 * 2197 - 1.5));
}

TEST(SaltNeeded, holds_with_an_optional_line_and_without_it) {
    const std::string recipe = "recipe \"Apple\"\nkind kraut\ngiven cabbage = 2 kg\n"
                               "weigh apple = 20 % of cabbage optional\n"
                               "weigh salt = 1 % of cabbage as canning salt\n";
    expect_edges(recipe);
}

// 2 to 2.5 % of 2200 g within the range of 2 to 3 %.
TEST(SaltNeeded, keeps_the_bounds_of_the_house_too) {
    const std::string recipe =
        kraut("1.5 % of (cabbage + carrot)") + "hold salt / (cabbage + carrot) at most 2.5 %\n";
    const test::Outcome o = test::weigh(recipe);
    ASSERT_TRUE(o.out && o.out->salt_needed) << o.said;
    EXPECT_DOUBLE_EQ(o.out->salt_needed->low_g, std::ceil(0.02 * 2203 + 1.5));
    EXPECT_DOUBLE_EQ(*o.out->salt_needed->high_g, std::floor(0.025 * 2197 - 1.5));
    EXPECT_EQ(with_salt(recipe, *o.out->salt_needed->high_g).out->verdict, Verdict::inside);
    EXPECT_NE(with_salt(recipe, *o.out->salt_needed->high_g + 1).out->verdict, Verdict::inside);
}

TEST(SaltNeeded, is_not_said_where_the_salt_is_inside_or_two_lines_are_salt) {
    EXPECT_FALSE(test::weigh(kraut("2.5 % of (cabbage + carrot)")).out->salt_needed);
    const test::Outcome two = test::weigh("recipe \"Two\"\nkind kraut\ngiven cabbage = 1 kg\n"
                                          "weigh first = 0.5 % of cabbage as canning salt\n"
                                          "weigh second = 0.5 % of cabbage as canning salt\n");
    ASSERT_TRUE(two.out) << two.said;
    EXPECT_FALSE(two.out->salt_needed);
}

// What is printed is as it was before the question was asked.
TEST(SaltNeeded, changes_nothing_of_what_is_weighed) {
    const test::Outcome o = test::weigh(kraut("1.5 % of (cabbage + carrot)"));
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(o.out->items.back().reading_g, 33);
    EXPECT_EQ(o.out->salt->verdict, Verdict::below);
    EXPECT_NEAR(o.out->items.back().truth.high, 34.5, 1e-9);
}

} // namespace
} // namespace jarful::plan
