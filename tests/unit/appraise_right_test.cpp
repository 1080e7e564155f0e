#include "engine/appraise/appraise.hpp"

#include <gtest/gtest.h>

#include <cstdio>
#include <string>

// The grams of salt that are said to be right for a list are inside, put in the place of its own.

namespace jarful::appraise {
namespace {

Appraisal appraised(const std::string& text, std::size_t line = 0, double grams = 0) {
    Request request;
    if (line > 0) {
        char salt[40];
        std::snprintf(salt, sizeof salt, "%g g salt", grams);
        request.lines.push_back({line, salt});
    }
    Refusal refusal;
    auto out = appraise(text, request, refusal);
    EXPECT_TRUE(out) << refusal.message;
    return out.value_or(Appraisal{});
}

void expect_right(const std::string& text, std::size_t salt_line) {
    const auto right = right_for_list(appraised(text));
    ASSERT_TRUE(right) << text;
    EXPECT_LT(right->low, right->high);
    EXPECT_EQ(appraised(text, salt_line, right->low).verdict, Verdict::inside) << right->low;
    EXPECT_EQ(appraised(text, salt_line, right->high).verdict, Verdict::inside) << right->high;
    EXPECT_NE(appraised(text, salt_line, right->low * 0.97 - 1).verdict, Verdict::inside);
    EXPECT_NE(appraised(text, salt_line, right->high * 1.03 + 1).verdict, Verdict::inside);
}

TEST(RightForList, is_inside_in_the_place_of_the_lists_own_salt) {
    expect_right("Plain kraut\n2 kg white cabbage, shredded\n2 tbsp salt\n", 3);
    expect_right("Kraut\n1 medium head of cabbage (2 lb)\n1 Tbsp salt\n", 3);
    expect_right("Summer jar\n4 lb pickling cucumbers\n2 quarts water\n3 tbsp salt\n", 4);
}

// 2 to 3 % of 2 kg.
TEST(RightForList, is_the_range_of_what_the_list_weighs) {
    const auto right =
        right_for_list(appraised("Kraut\n2 kg white cabbage, shredded\n70 g salt\n"));
    ASSERT_TRUE(right);
    EXPECT_DOUBLE_EQ(right->low, 40);
    EXPECT_DOUBLE_EQ(right->high, 60);
}

TEST(RightForList, is_not_said_where_no_amount_is_right_for_certain) {
    EXPECT_FALSE(right_for_list(appraised("Kraut\n1 cabbage\n1 tbsp salt\n"))) << "500 to 2000 g";
    EXPECT_FALSE(right_for_list(appraised("Kraut\ncabbage\n1 tbsp salt\n")));
    EXPECT_FALSE(right_for_list(
        appraised("Cucumber salad\n1 kg cucumbers\n300 ml vinegar\n100 ml water\n1 tsp salt\n")));
}

} // namespace
} // namespace jarful::appraise
