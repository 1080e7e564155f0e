#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

/// What the formulas of a recipe may not say; and bounds of the house in units of every sort.
namespace jarful::test {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

const std::string head = "recipe \"Kraut\"\nkind kraut\ngiven cabbage = 2 kg\n"
                         "weigh salt = 2.2 % of cabbage as canning salt\nlet packed = 0.9 kg/L\n";

TEST(FormulaFaults, areNamedByWhatIsWrong) {
    struct Case {
        const char* line;
        const char* code;
    };
    for (const Case& c : {
             Case{"let a = 19 °C\nlet b = 21 °C\nlet c = a + b", "wrong-dimension"},
             Case{"let a = 3 + 19 °C", "wrong-dimension"},
             Case{"let a = (cabbage > 1 kg) + 1", "wrong-dimension"},
             Case{"let a = cabbage ^ 4 * cabbage ^ 4 * cabbage ^ 8", "absurd-dimension"},
             Case{"let a = min(cabbage)", "wrong-arguments"},
             Case{"let a = round(cabbage, 1 g, 2 g, 3 g)", "wrong-arguments"},
             Case{"let a = cover(2 cm, packed)", "wrong-dimension"},
             Case{"let a = if cabbage then 1 else 2", "wrong-dimension"},
             Case{"let a = if cabbage > 1 kg then 1 g else 2 L", "wrong-dimension"},
             Case{"let a = sqrt(cabbage)", "wrong-dimension"},
             Case{"let a = not cabbage", "wrong-dimension"},
         })
        EXPECT_THAT(check(head + c.line + "\n").codes, ElementsAre(c.code)) << c.line;
}

TEST(Formulas, compareAndChoose) {
    for (const char* line :
         {"let a = if cabbage <= 2 kg and salt >= 40 g then 1 g else 2 g",
          "let a = if not (cabbage < 1 kg) or salt > 1 kg then abs(-3 g) else 2 g",
          "let a = cover(cabbage + salt, packed)", "let a = sqrt(4 cm^2) + ceil(1.2 cm, 1 cm)"})
        EXPECT_THAT(check(head + line + "\n").codes, IsEmpty()) << line;
}

TEST(Bounds, areSaidInTheUnitOfWhatIsHeld) {
    struct Case {
        const char* line;
        const char* unit;
        double value;
    };
    for (const Case& c : {
             Case{"hold cabbage / packed at most 3 L", "mL", 2000 / 0.9},
             Case{"hold 3 cm at least 2 cm", "cm", 3},
             Case{"hold packed between 0.8 kg/L and 1 kg/L", "g/mL", 0.9},
             Case{"hold 90 min at most 2 h", "min", 90},
             Case{"hold cabbage at least 1 kg", "g", 2000},
             Case{"hold salt / cabbage at least 0.02", "", 0.022},
             Case{"hold salt / cabbage at least 2 %", "%", 2.2},
         }) {
        const Outcome o = check(head + c.line + "\n");
        ASSERT_TRUE(o.check) << c.line << "\n" << o.said;
        ASSERT_EQ(o.check->checks.size(), 1U);
        EXPECT_EQ(o.check->checks[0].unit, c.unit) << c.line;
        EXPECT_NEAR(o.check->checks[0].value.middle(), c.value, 1e-6) << c.line;
        EXPECT_EQ(o.check->checks[0].verdict, plan::Verdict::inside) << c.line;
    }
}

} // namespace
} // namespace jarful::test
