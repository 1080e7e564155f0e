#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

#include <algorithm>

// What is printed is what is judged. The expectations are worked out by hand, by docs/language.md,
// "How sure it is": a scale that reads 1 g within 1 g is off by 1.5 g.

namespace jarful::plan {
namespace {

using ::testing::HasSubstr;

const Item& item(const WeighOut& w, std::string_view name) {
    for (const auto* list : {&w.givens, &w.items})
        for (const Item& i : *list)
            if (i.name == name) return i;
    throw std::runtime_error("no such item");
}

test::Outcome pour(const std::string& text, const std::vector<std::string>& poured,
                   const kitchen::Kitchen& kitchen = kitchen::default_kitchen()) {
    return test::weigh_with(
        text,
        [&](Request& request) {
            for (const std::string& p : poured) {
                language::Findings own;
                request.poured.push_back(read_setting(p, own).value());
            }
        },
        kitchen);
}

const std::string capped = "recipe \"Capped\"\nkind kraut\ngiven cabbage = 1 kg\n"
                           "weigh salt = 2.1 % of cabbage as canning salt\n"
                           "cap salt_cap = 0.3 % of cabbage as canning salt\n";

// 21 g is what is nearest, and may be 19.5 g on 1001.5 g: 1.947 %, before the cap dissolves.
TEST(JudgingACap, takes_a_reading_that_holds_before_it_dissolves_and_after) {
    const test::Outcome o = test::weigh(capped);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(item(*o.out, "salt").reading_g, 22);
    EXPECT_EQ(o.out->verdict, Verdict::inside);
    ASSERT_EQ(o.out->salt->variants.size(), 1u);
    EXPECT_NEAR(o.out->salt->variants[0].bounds.low, 100 * 20.5 / 1001.5, 1e-9);
    EXPECT_NEAR(o.out->salt->variants[0].bounds.high, 100 * 23.5 / 998.5, 1e-9);
}

TEST(JudgingACap, is_undecided_with_the_nearest_reading_poured) {
    const test::Outcome o = pour(capped, {"cabbage=1000g", "salt=21g", "salt_cap=3g"});
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_EQ(o.out->salt->variants[0].verdict, Verdict::undecided);
    EXPECT_NEAR(o.out->salt->variants[0].bounds.low, 100 * 19.5 / 1001.5, 1e-9);
    EXPECT_EQ(o.out->verdict, Verdict::undecided);
}

// Other lines are what they are whether the cap has dissolved or not, also those that name it.
TEST(JudgingACap, changes_no_other_line_while_it_lies_there) {
    const test::Outcome o =
        test::check("recipe \"Rest\"\nkind kraut\ngiven cabbage = 1 kg\n"
                    "weigh salt = (2.5 % of cabbage) - salt_cap as canning salt\n"
                    "cap salt_cap = 1 % of cabbage as canning salt\n");
    ASSERT_TRUE(o.check) << o.said;
    EXPECT_EQ(o.check->salt->verdict, Verdict::below) << "1.5 % until it dissolves";
    EXPECT_NEAR(o.check->salt->variants[0].bounds.high, 1.5, 1e-9);
}

// 2.6 % of (1000 + 300) g are 33.8 g: on the cabbage alone 3.38 %.
const std::string with_apple = "recipe \"Apple\"\nkind kraut\ngiven cabbage = 1 kg\n"
                               "weigh apple = 30 % of cabbage optional\n"
                               "weigh salt = 2.6 % of (cabbage + apple) as canning salt\n";

TEST(JudgingAnOptionalLine, leaves_the_printed_numbers_of_the_others_as_they_are) {
    const test::Outcome o = test::weigh(with_apple);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_EQ(o.out->verdict, Verdict::above);
    EXPECT_NEAR(o.out->salt->variants[0].bounds.low, 100 * 32.5 / 1001.5, 1e-9);
    EXPECT_THAT(o.out->salt->reason, HasSubstr("Without apple"));
    EXPECT_THAT(o.out->salt->decides, HasSubstr("optional"));
    // Left out by name, the salt is worked out without it.
    const test::Outcome without =
        test::weigh(with_apple, {}, kitchen::default_kitchen(), {"apple"});
    ASSERT_TRUE(without.out) << without.said;
    EXPECT_DOUBLE_EQ(item(*without.out, "salt").reading_g, 26);
    EXPECT_EQ(without.out->verdict, Verdict::inside);
}

const std::string bounded = "recipe \"Bounded\"\nkind kraut\ngiven cabbage = 1 kg\n"
                            "weigh apple = 11 % of cabbage\n"
                            "weigh salt = 2.4 % of (cabbage + apple) as canning salt\n";

TEST(JudgingABoundThatIsAnExpression, goes_by_what_was_poured_on_both_sides) {
    for (const char* bound :
         {"hold apple at most 12 % of cabbage\n", "hold apple / cabbage at most 12 %\n"}) {
        const test::Outcome o = pour(bounded + bound, {"cabbage=900g", "apple=119g"});
        ASSERT_TRUE(o.out) << o.said;
        EXPECT_EQ(o.out->checks[0].verdict, Verdict::above) << bound;
        // 109 g may be 110.5 g, and 12 % of 898.5 g are 107.8 g.
        const test::Outcome near = pour(bounded + bound, {"cabbage=900g", "apple=109g"});
        EXPECT_EQ(near.out->checks[0].verdict, Verdict::undecided) << bound;
        const test::Outcome far = pour(bounded + bound, {"cabbage=900g", "apple=105g"});
        EXPECT_EQ(far.out->checks[0].verdict, Verdict::inside) << bound;
    }
}

TEST(JudgingABoundThatIsAnExpression, counts_an_error_on_both_sides_once) {
    // The water may be anything; whether it is more than itself less 1 g may not.
    const test::Outcome o = test::weigh(bounded + "hold apple at most apple + 1 g\n"
                                                  "hold apple at least apple - 0.001 g\n");
    ASSERT_TRUE(o.out) << o.said;
    for (const HoldCheck& c : o.out->checks)
        EXPECT_EQ(c.verdict, Verdict::inside) << c.reason;
}

TEST(JudgingAGiven, lies_about_the_number_that_is_waited_for) {
    const kitchen::Kitchen coarse =
        test::kitchen_of("kitchen \"coarse\"\nscale old reads 50 g up to 5 kg within 1 g\n");
    const test::Outcome o = test::weigh("recipe \"Coarse\"\nkind kraut\ngiven cabbage = 976 g\n"
                                        "weigh salt = 4 kg per 8 kg of cabbage as canning salt\n",
                                        {}, coarse);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(item(*o.out, "cabbage").reading_g, 1000);
    EXPECT_DOUBLE_EQ(item(*o.out, "cabbage").truth.low, 974);
    EXPECT_DOUBLE_EQ(item(*o.out, "cabbage").truth.high, 1026);
}

TEST(JudgingAMeasure, is_as_unsure_as_what_it_is_a_share_of) {
    const test::Outcome o = test::weigh("recipe \"Soaked\"\nkind kimchi\n"
                                        "given napa = 1 kg ± 100 g as napa cabbage\n"
                                        "measure drained about 70..90 % of napa replaces napa\n"
                                        "weigh salt = 3 % of drained as canning salt\n");
    ASSERT_TRUE(o.out) << o.said;
    const Item& drained = item(*o.out, "drained");
    EXPECT_NEAR(drained.truth.low, 630, 1e-9);
    EXPECT_NEAR(drained.truth.high, 990, 1e-9);
    EXPECT_NEAR(o.out->salt->figure.bounds.low, 100 * 22.5 / (22.5 + 990), 1e-9);
    EXPECT_NEAR(o.out->salt->figure.bounds.high, 100 * 25.5 / (25.5 + 630), 1e-9);
}

TEST(JudgingAMeasure, follows_what_was_poured) {
    const test::Outcome o =
        pour("recipe \"Soaked\"\nkind kimchi\ngiven napa = 1 kg as napa cabbage\n"
             "measure drained about 70..90 % of napa replaces napa\n"
             "weigh salt = 3 % of drained as canning salt\n",
             {"napa=2kg"});
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(item(*o.out, "drained").reading_g, 1600);
    EXPECT_NEAR(item(*o.out, "drained").truth.high, 0.9 * 2001.5, 1e-9);
    EXPECT_EQ(o.out->salt->verdict, Verdict::below) << "24 g in 1.4 kg at the least";
}

// Many bounds that need one reading each are seen to each by itself.
TEST(JudgingManyBounds, moves_what_each_of_them_needs) {
    std::string text = "recipe \"Many\"\ngiven cabbage = 1 kg\n";
    for (int i = 0; i < 60; ++i) {
        const std::string name = "part_" + std::to_string(i);
        text += "weigh " + name + " = 10.4 g per kg of cabbage counts as other\n" + "hold " + name +
                " at least 9.4 g\n";
    }
    const test::Outcome o = test::weigh(text);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_FALSE(o.out->no_reading);
    EXPECT_EQ(o.out->verdict, Verdict::inside);
    for (const Item& i : o.out->items)
        EXPECT_DOUBLE_EQ(i.reading_g, 11) << i.name;
}

} // namespace
} // namespace jarful::plan
