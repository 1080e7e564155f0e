#include "engine/sheet/builder.hpp"
#include "engine/sheet/evaluate.hpp"
#include "engine/sheet/point_engine.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace jarful::sheet {
namespace {

using language::Findings;
using units::Interval;

/// Builds a sheet from "name = expression" pairs; weighed cells begin with '*'.
class Sheets : public ::testing::Test {
  protected:
    Sheet make(std::initializer_list<std::pair<const char*, const char*>> lines) {
        Builder builder(findings);
        for (const auto& [name, text] : lines) {
            const bool weighed = name[0] == '*';
            builder.define_text(weighed ? name + 1 : name, text, weighed);
        }
        good = builder.resolve();
        return good ? builder.build() : Sheet({}, {});
    }

    std::vector<std::string> codes() const {
        std::vector<std::string> out;
        for (const language::Diagnostic& d : findings.all())
            out.push_back(d.code);
        return out;
    }

    Findings findings;
    bool good = false;
};

TEST_F(Sheets, work_out_cells_in_any_order) {
    Sheet s = make({{"salt", "2.2 % of (cabbage + carrot)"},
                    {"carrot", "6 % of cabbage"},
                    {"cabbage", "1.80 kg"}});
    ASSERT_TRUE(good);
    EXPECT_DOUBLE_EQ(s.value(*s.find("salt")), 0.022 * (1800 + 108));
    EXPECT_FALSE(s.find("caraway").has_value());
}

TEST_F(Sheets, know_what_depends_on_what) {
    Sheet s = make({{"a", "1 kg"}, {"b", "2 * a"}, {"c", "a + b"}, {"d", "3 g"}});
    ASSERT_TRUE(good);
    const CellId a = *s.find("a"), b = *s.find("b"), c = *s.find("c"), d = *s.find("d");
    EXPECT_THAT(s.dependencies(c), ::testing::UnorderedElementsAre(a, b));
    EXPECT_THAT(s.dependents(a), ::testing::UnorderedElementsAre(b, c));
    EXPECT_THAT(s.dependents(d), ::testing::IsEmpty());
}

TEST_F(Sheets, compute_only_what_a_change_touches) {
    Sheet s = make({{"cabbage", "1 kg"},
                    {"beet", "2 kg"},
                    {"salt", "2 % of cabbage"},
                    {"stock", "salt / 5 %"},
                    {"sugar", "1 % of beet"}});
    ASSERT_TRUE(good);
    for (CellId id = 0; id < s.size(); ++id)
        (void)s.value(id);
    const std::size_t first = s.evaluations();
    EXPECT_EQ(first, s.size());
    for (CellId id = 0; id < s.size(); ++id)
        (void)s.value(id);
    EXPECT_EQ(s.evaluations(), first) << "nothing changed, nothing is computed";
    s.set(*s.find("cabbage"), 1500);
    for (CellId id = 0; id < s.size(); ++id)
        (void)s.value(id);
    EXPECT_EQ(s.evaluations(), first + 2) << "salt and what is made of it, not beet or sugar";
    EXPECT_DOUBLE_EQ(s.value(*s.find("salt")), 30);
    s.set(*s.find("beet"), 1000);
    (void)s.value(*s.find("salt"));
    EXPECT_EQ(s.evaluations(), first + 2) << "sugar has not been asked for";
}

TEST_F(Sheets, go_back_to_the_formula) {
    Sheet s = make({{"cabbage", "1 kg"}, {"salt", "2 % of cabbage"}});
    ASSERT_TRUE(good);
    const CellId salt = *s.find("salt");
    s.set(salt, 50);
    EXPECT_TRUE(s.entered(salt));
    EXPECT_DOUBLE_EQ(s.value(salt), 50);
    s.set(*s.find("cabbage"), 2000);
    EXPECT_DOUBLE_EQ(s.value(salt), 50) << "what is entered stays";
    s.clear(salt);
    EXPECT_DOUBLE_EQ(s.value(salt), 40);
}

TEST_F(Sheets, report_a_circle_with_its_whole_path) {
    (void)make({{"a", "b + 1 g"}, {"b", "2 * c"}, {"c", "a / 2"}, {"d", "a"}});
    ASSERT_FALSE(good);
    ASSERT_THAT(codes(), ::testing::ElementsAre("cycle"));
    const std::string& m = findings.all()[0].message;
    EXPECT_THAT(m, ::testing::HasSubstr("a → b → c → a"));
}

TEST_F(Sheets, report_a_line_that_is_worked_out_from_itself) {
    (void)make({{"a", "2 * a"}});
    ASSERT_THAT(codes(), ::testing::ElementsAre("cycle"));
    EXPECT_THAT(findings.all()[0].message, ::testing::HasSubstr("from itself"));
}

TEST_F(Sheets, report_two_circles_separately) {
    (void)make({{"a", "b"}, {"b", "a"}, {"c", "d"}, {"d", "c"}});
    EXPECT_THAT(codes(), ::testing::ElementsAre("cycle", "cycle"));
}

TEST_F(Sheets, suggest_the_nearest_name) {
    (void)make({{"cabbage", "1 kg"}, {"salt", "2 % of cabage"}});
    ASSERT_THAT(codes(), ::testing::ElementsAre("unknown-name"));
    EXPECT_THAT(findings.all()[0].advice, ::testing::HasSubstr("cabbage"));
}

TEST_F(Sheets, refuse_to_add_grams_to_litres) {
    (void)make({{"a", "1 kg + 2 L"}});
    ASSERT_THAT(codes(), ::testing::ElementsAre("wrong-dimension"));
    EXPECT_THAT(findings.all()[0].advice, ::testing::HasSubstr("density"));
}

TEST_F(Sheets, check_dimensions_of_every_operator) {
    for (const char* bad :
         {"1 kg + 2", "1 kg - 5 cm", "min(1 g, 2 mL)", "max(1 g, 2)", "round(1 g)",
          "round(10 g, 2 mL)", "sqrt(2 g)", "2 ^ (1 g)", "(1 g) ^ (1/2)",
          "if 1 g then 2 g else 3 g", "if 1 g > 2 mL then 1 else 2", "if 1 > 2 then 1 g else 1 mL",
          "20 °C * 2", "(20 °C - 10 °C) * 1 g"}) {
        Findings own;
        Builder b(own);
        b.define_text("x", bad);
        EXPECT_FALSE(b.resolve()) << bad;
    }
    for (const char* fine : {"1 kg + 2 g", "round(104 g, 5 g)", "(2 cm)^3", "sqrt(4 cm^2)",
                             "20 °C + 2 °C", "if 1 g > 2 g or not 1 < 2 then 3 g else 4 g",
                             "min(1 g, 2 kg, 3 oz)", "2 ^ -1", "1 g per kg"}) {
        Findings own;
        Builder b(own);
        b.define_text("x", fine);
        const bool ok = b.resolve();
        std::string said;
        for (const auto& d : own.all())
            said += d.code + ": " + d.message + "\n";
        EXPECT_TRUE(ok) << fine << "\n" << said;
    }
}

TEST_F(Sheets, keep_points_and_differences_of_temperature_apart) {
    Sheet s = make({{"a", "20 °C + 2 °C"}, {"b", "22 °C - 20 °C"}, {"c", "a - 20 °C"}});
    ASSERT_TRUE(good);
    EXPECT_DOUBLE_EQ(s.value(*s.find("a")), 295.15);
    EXPECT_EQ(s.cell(*s.find("a")).type.sort, Type::Sort::temperature_point);
    // The right operand of a minus is a difference: 22 °C less two degrees is a temperature.
    EXPECT_EQ(s.cell(*s.find("b")).type.sort, Type::Sort::temperature_point);
}

TEST_F(Sheets, find_where_a_division_by_zero_happened) {
    Sheet s = make({{"a", "1 g - 1 g"}, {"b", "2 g / a"}, {"c", "b + 1"}});
    ASSERT_TRUE(good);
    const auto fault = s.fault(*s.find("c"));
    ASSERT_TRUE(fault);
    EXPECT_EQ(fault->sort, ComputeFault::Sort::division_by_zero);
    EXPECT_EQ(s.cell(fault->cell).name, "b");
    EXPECT_FALSE(s.fault(*s.find("a")));
}

TEST_F(Sheets, leave_a_branch_alone_that_is_not_taken) {
    Sheet s = make({{"a", "0 g"}, {"b", "if a > 0 g then 1 g / a else 3"}});
    ASSERT_TRUE(good);
    EXPECT_DOUBLE_EQ(s.value(*s.find("b")), 3);
    EXPECT_FALSE(s.fault(*s.find("b")));
}

// ---- How sure a result is ----

TEST_F(Sheets, let_a_quantity_that_is_used_twice_vary_once) {
    Sheet s = make({{"x", "100 g ± 10 g"}, {"ratio", "x / x"}, {"none", "x - x"}});
    ASSERT_TRUE(good);
    EXPECT_NEAR(s.interval(*s.find("ratio")).width(), 0, 1e-12);
    EXPECT_TRUE(s.interval(*s.find("ratio")).contains(1));
    EXPECT_NEAR(s.interval(*s.find("none")).width(), 0, 1e-9);
}

TEST_F(Sheets, see_through_products_and_working_values) {
    Sheet s = make({{"x", "100 g ± 10 g"},
                    {"y", "5 kg ± 1 kg"},
                    {"part", "6 % of x"},
                    {"fraction", "part / x"},
                    {"mixed", "x * y / x"},
                    {"part_of_all", "x / (x + y)"}});
    ASSERT_TRUE(good);
    EXPECT_NEAR(s.interval(*s.find("fraction")).width(), 0, 1e-12);
    EXPECT_NEAR(s.interval(*s.find("mixed")).low, 4000, 1e-6);
    EXPECT_NEAR(s.interval(*s.find("mixed")).high, 6000, 1e-6);
    EXPECT_NEAR(s.interval(*s.find("part_of_all")).low, 90.0 / 6090, 1e-9);
    EXPECT_NEAR(s.interval(*s.find("part_of_all")).high, 110.0 / 4110, 1e-9);
}

TEST_F(Sheets, do_not_expand_the_formula_of_what_was_weighed) {
    // Salt is set from the displayed 1.80 kg; the cabbage's own error does not move it. By hand:
    // 39.6 / 1850 = 2.1405 %, 39.6 / 1750 = 2.2629 %.
    Sheet s = make({{"*cabbage", "1.80 kg ± 50 g"},
                    {"*salt", "2.2 % of cabbage"},
                    {"ratio", "salt / cabbage"}});
    ASSERT_TRUE(good);
    const Interval i = s.interval(*s.find("ratio"));
    EXPECT_NEAR(i.low, 0.021405, 1e-6);
    EXPECT_NEAR(i.high, 0.022629, 1e-6);
    // With half a gram on the salt: 39.1 / 1850 and 40.1 / 1750.
    s.observe(*s.find("salt"), Interval(39.1, 40.1));
    const Interval j = s.interval(*s.find("ratio"));
    EXPECT_NEAR(j.low, 39.1 / 1850, 1e-9);
    EXPECT_NEAR(j.high, 40.1 / 1750, 1e-9);
    EXPECT_DOUBLE_EQ(s.value(*s.find("salt")), 39.6) << "the exact figure stays";
    s.forget_observations();
    EXPECT_NEAR(s.interval(*s.find("ratio")).low, 0.021405, 1e-6);
}

TEST_F(Sheets, carry_errors_through_working_values) {
    Sheet s = make(
        {{"packed", "0.85..0.95 kg/L"}, {"*cabbage", "1.80 kg"}, {"space", "cabbage / packed"}});
    ASSERT_TRUE(good);
    const Interval i = s.interval(static_cast<CellId>(2));
    EXPECT_NEAR(i.low, 1800 / 0.95, 1e-6);
    EXPECT_NEAR(i.high, 1800 / 0.85, 1e-6);
}

TEST_F(Sheets, enclose_what_neither_rises_nor_falls) {
    Sheet s = make({{"x", "0..2"}, {"y", "(x - 1) * (x - 1)"}});
    ASSERT_TRUE(good);
    const Interval i = s.interval(*s.find("y"));
    EXPECT_LE(i.low, 0);
    EXPECT_GE(i.high, 1);
}

TEST_F(Sheets, tell_the_causes_of_doubt_widest_first) {
    Sheet s = make({{"*cabbage", "1.80 kg"}, {"*salt", "40 g"}, {"ratio", "salt / cabbage"}});
    ASSERT_TRUE(good);
    s.observe(*s.find("cabbage"), Interval(1798, 1802));
    s.observe(*s.find("salt"), Interval(38.5, 41.5));
    const auto causes = s.causes(Formula::of_cell(*s.find("ratio")));
    ASSERT_EQ(causes.size(), 2u);
    EXPECT_EQ(causes[0].label, "salt");
    EXPECT_NEAR(causes[0].width, 3.0 / 1800, 2e-5);
}

TEST_F(Sheets, widen_a_bare_spoon_to_the_metric_one) {
    Sheet s = make({{"v", "1 tbsp"}});
    ASSERT_TRUE(good);
    EXPECT_DOUBLE_EQ(s.value(0), 14.78676478125); // NIST SP 811, Appendix B.8
    EXPECT_NEAR(s.interval(0).high, 15, 1e-9);
    EXPECT_NEAR(s.interval(0).low, 14.78676478125, 1e-9);
    Findings own;
    Builder metric(own, units::Spoons::metric);
    metric.define_text("v", "1 tbsp");
    ASSERT_TRUE(metric.resolve());
    Sheet m = metric.build();
    EXPECT_DOUBLE_EQ(m.value(0), 15);
    EXPECT_NEAR(m.interval(0).width(), 0, 1e-12);
}

TEST_F(Sheets, know_nothing_about_a_quotient_whose_divisor_may_be_nothing) {
    Sheet s = make({{"x", "(0..2) - 1"}, {"y", "1 / x"}, {"z", "1 / (x * x)"}, {"w", "1 / x^-1"}});
    ASSERT_TRUE(good);
    EXPECT_EQ(s.interval(*s.find("y")), units::whole_line);
    EXPECT_EQ(s.interval(*s.find("z")), units::whole_line);
    EXPECT_TRUE(s.interval(*s.find("w")).contains(Interval(-1, 1)));
}

TEST_F(Sheets, know_nothing_about_a_root_of_what_may_be_negative) {
    Sheet s = make({{"x", "(0..5) - 1"}, {"y", "sqrt(x)"}, {"z", "if y < 1 then 2 else 3"}});
    ASSERT_TRUE(good);
    EXPECT_EQ(s.interval(*s.find("y")), units::whole_line);
    EXPECT_TRUE(s.interval(*s.find("z")).contains(Interval(2, 3)));
}

TEST_F(Sheets, find_the_range_of_steps_kinks_and_branches) {
    Sheet s = make({{"x", "1.4..3.6"},
                    {"steps", "round(x) / x"},
                    {"kink", "max(x, 2) - x"},
                    {"branch", "if x > 2 then x else 10 - x"},
                    {"both_ways", "x * (5 - x)"}});
    ASSERT_TRUE(good);
    // By hand: 1/1.4 is the least and 2/1.5 the most; 0 to 0.6; 2 to 8.6; 5.04 to 6.25.
    EXPECT_TRUE(s.interval(*s.find("steps")).contains(Interval(1 / 1.4, 2 / 1.5)));
    EXPECT_TRUE(s.interval(*s.find("kink")).contains(Interval(0, 0.6)));
    EXPECT_TRUE(s.interval(*s.find("branch")).contains(Interval(2, 8.6)));
    EXPECT_TRUE(s.interval(*s.find("both_ways")).contains(Interval(5.04, 6.25)));
}

TEST_F(Sheets, try_both_ends_where_the_direction_depends_on_something_else) {
    // Rises in x where y > z, falls where y < z: no sign can be told over the whole box.
    Sheet s =
        make({{"x", "1..2"}, {"y", "1..3"}, {"z", "1..3"}, {"ratio", "(x * 2 + y) / (x * 2 + z)"}});
    ASSERT_TRUE(good);
    EXPECT_NEAR(s.interval(*s.find("ratio")).low, 3.0 / 5, 1e-12);
    EXPECT_NEAR(s.interval(*s.find("ratio")).high, 5.0 / 3, 1e-12);
}

TEST_F(Sheets, stay_sure_with_thousands_of_causes) {
    std::vector<Cell> cells(4001);
    Formula sum;
    std::uint32_t total = 0;
    for (CellId i = 0; i < 4000; ++i) {
        cells[i].name = "c" + std::to_string(i);
        cells[i].weighed = true;
        cells[i].formula.constant(1);
        const std::uint32_t c = sum.cell(i);
        total = i == 0 ? c : sum.apply(Op::add, total, c);
    }
    cells[4000].name = "sum";
    cells[4000].formula = sum;
    Sheet s(cells, {});
    for (CellId i = 0; i < 4000; ++i)
        s.observe(i, Interval(0.5, 1.5));
    EXPECT_NEAR(s.interval(4000).low, 2000, 1e-6);
    EXPECT_NEAR(s.interval(4000).high, 6000, 1e-6);
    EXPECT_TRUE(s.causes(Formula::of_cell(4000)).empty());
}

// ---- Faults ----

TEST_F(Sheets, do_not_let_a_division_by_zero_pass_for_nothing) {
    Sheet s = make({{"a", "0 g"},
                    {"b", "5 / (1 g / a)"},
                    {"c", "min(2, 1 g / a)"},
                    {"d", "if 1 g / a > 3 then 1 else 2"}});
    ASSERT_TRUE(good);
    for (const char* name : {"b", "c", "d"}) {
        EXPECT_TRUE(std::isfinite(s.value(*s.find(name)))) << name;
        const auto fault = s.fault(*s.find(name));
        ASSERT_TRUE(fault) << name;
        EXPECT_EQ(fault->sort, ComputeFault::Sort::division_by_zero) << name;
    }
    s.set(*s.find("a"), 2);
    EXPECT_FALSE(s.fault(*s.find("b")));
    EXPECT_DOUBLE_EQ(s.value(*s.find("b")), 10);
}

TEST(SheetOfInputs, says_what_has_not_been_set) {
    std::vector<Cell> cells(2);
    cells[0].name = "input";
    cells[1].name = "twice";
    const std::uint32_t c = cells[1].formula.cell(0);
    cells[1].formula.apply(Op::add, c, c);
    Sheet s(cells, {});
    EXPECT_TRUE(std::isnan(s.value(0)));
    EXPECT_TRUE(s.fault(0));
    ASSERT_TRUE(s.fault(1));
    EXPECT_EQ(s.fault(1)->cell, 0u);
    s.set(0, 2);
    EXPECT_EQ(s.value(1), 4);
    EXPECT_FALSE(s.fault(1));
    s.clear(0);
    EXPECT_TRUE(std::isnan(s.value(0))) << "nothing to go back to";
}

TEST(SheetOfAChain, goes_through_a_hundred_thousand_cells) {
    constexpr CellId length = 100'000;
    std::vector<Cell> cells(length);
    cells[0].formula.constant(0);
    for (CellId i = 1; i < length; ++i) {
        const std::uint32_t before = cells[i].formula.cell(i - 1);
        const std::uint32_t one = cells[i].formula.constant(1);
        cells[i].formula.apply(i == 1 ? Op::divide : Op::add, i == 1 ? one : before,
                               i == 1 ? before : one);
    }
    Sheet s(cells, {});
    ASSERT_TRUE(s.fault(length - 1));
    EXPECT_EQ(s.fault(length - 1)->cell, 1u);
    s.set(0, 1);
    EXPECT_EQ(s.value(length - 1), length - 1.0);
    EXPECT_EQ(s.evaluations(), 2u * length - 1);
    EXPECT_EQ(s.interval(length - 1), Interval(length - 1.0));
}

// ---- Trying values ----

TEST_F(Sheets, try_many_values_without_changing_anything) {
    Sheet s = make({{"cabbage", "1 kg"}, {"salt", "2 % of cabbage"}, {"rest", "cabbage - salt"}});
    ASSERT_TRUE(good);
    const std::vector<double> tried{500, 1000, 2000};
    std::vector<double> out(3);
    EXPECT_EQ(s.what_if(*s.find("cabbage"), tried, *s.find("rest"), out), 3u);
    EXPECT_EQ(out, (std::vector<double>{490, 980, 1960}));
    EXPECT_EQ(s.evaluations(), 0u);
    EXPECT_DOUBLE_EQ(s.value(*s.find("salt")), 20);
    EXPECT_EQ(s.what_if(*s.find("rest"), tried, *s.find("salt"), out), 3u);
    EXPECT_EQ(out, (std::vector<double>{20, 20, 20})) << "it does not depend on that";
}

// ---- Two evaluators, one meaning ----

TEST_F(Sheets, agree_with_the_plain_evaluator_to_the_last_bit) {
    for (const char* text : {"2.2 % of 1.8437 kg", "(0.1 + 0.2) * 3", "2^(0.5) per 7", "1 / 3 * 3",
                             "round(1234.5 g, 7 g)", "min(3, 2, 5) - max(0.1, 0.2)",
                             "if 2 > 1 and not 3 < 2 then sqrt(2) else 5", "-2^2", "(1/3)^5",
                             "floor(-2.5) + ceil(-2.5) + round(-2.5)", "abs(-3 g) / 7 g"}) {
        Findings own;
        Builder b(own);
        const CellId id = b.define_text("x", text);
        ASSERT_TRUE(b.resolve()) << text;
        const Formula f = b.cell(id).formula;
        Sheet s = b.build();
        const double plain =
            evaluate_steps<double>(
                f, [](CellId) { return 0.0; }, [&](UnknownId u) { return s.unknowns()[u].typical; })
                .back();
        EXPECT_EQ(s.value(id), plain) << text;
        EXPECT_TRUE(s.interval(id).contains(plain)) << text;
    }
}

TEST(PointEngine, reads_what_is_too_long_for_the_parser) {
    Formula f;
    std::uint32_t sum = f.constant(0.1);
    for (int i = 0; i < 5000; ++i)
        sum = f.apply(Op::add, sum, f.constant(0.1));
    EXPECT_TRUE(print_for_parser(f, {}).empty());
    PointEngine engine;
    EXPECT_NEAR(engine.evaluate(f, {}, {}), 500.1, 1e-6);
}

TEST_F(Sheets, count_the_parts_of_what_a_function_is_given) {
    std::string sum = "1";
    for (int i = 0; i < 600; ++i)
        sum += " + 1";
    int refused = 0;
    for (const std::string& text :
         {"min(2, " + sum + ")", "min(" + sum + ", 2)", "if 1 < 2 then 1 else " + sum,
          "if " + sum + " < 2 then 1 else 2", "-(" + sum + ")", "2 * (" + sum + ")",
          "(" + sum + ") * 2", "(" + sum + ")^2", "not " + sum + " < 2"}) {
        Findings own;
        Builder b(own);
        b.define_text("x", text);
        EXPECT_FALSE(b.resolve()) << text.substr(0, 20);
        refused += own.all().size() == 1 && own.all()[0].code == "long-expression" ? 1 : 0;
    }
    EXPECT_EQ(refused, 9);
}

TEST_F(Sheets, suggest_a_name_for_a_hundred_that_are_wrong_and_no_more) {
    Builder b(findings);
    b.define_text("cabbage", "1 kg");
    for (int i = 0; i < 102; ++i)
        b.define_text("x" + std::to_string(i), "cabage");
    EXPECT_FALSE(b.resolve());
    int suggested = 0;
    for (const auto& d : findings.all())
        suggested += d.advice == "Did you mean \"cabbage\"?" ? 1 : 0;
    EXPECT_EQ(findings.all().size(), 102u);
    EXPECT_EQ(suggested, 100);
}

TEST_F(Sheets, refuse_an_expression_of_too_many_parts) {
    std::string text = "1";
    for (int i = 0; i < 600; ++i)
        text += " + 1";
    Builder b(findings);
    b.define_text("x", text);
    EXPECT_FALSE(b.resolve());
    EXPECT_THAT(codes(), ::testing::ElementsAre("long-expression"));
}

} // namespace
} // namespace jarful::sheet
