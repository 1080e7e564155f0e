#include "tests/unit/language_support.hpp"

/// How expressions are grouped, what is refused because it could be read two ways, and how deep
/// they may go.
namespace jarful::language::testing {

TEST(LanguageExpression, GroupsByThePrecedenceTable) {
    EXPECT_EQ(grouped("a + b * c"), "(a+(b*c))");
    EXPECT_EQ(grouped("a * b + c"), "((a*b)+c)");
    EXPECT_EQ(grouped("a - b - c"), "((a-b)-c)");
    EXPECT_EQ(grouped("a / b / c"), "((a/b)/c)");
    EXPECT_EQ(grouped("a / b * c"), "((a/b)*c)");
    EXPECT_EQ(grouped("-a ^ 2"), "(-(a^2))");
    EXPECT_EQ(grouped("- - a"), "(-(-a))");
    EXPECT_EQ(grouped("-a per kg"), "((-a) per kg)");
    EXPECT_EQ(grouped("a ^ -2"), "(a^(-2))");
    EXPECT_EQ(grouped("2 ^ (1/2)"), "(2^1/2)");
    EXPECT_EQ(grouped("a * b per c"), "(a*(b per c))");
    EXPECT_EQ(grouped("a per b per c"), "((a per b) per c)");
    EXPECT_EQ(grouped("1.5 g per kg of cabbage"), "((1.5 g per kg) of cabbage)");
    EXPECT_EQ(grouped("3 tbsp per 5 lb of cabbage"), "((3 tbsp per 5 lb) of cabbage)");
    EXPECT_EQ(grouped("2 % of a * b"), "((2 % of a)*b)");
    EXPECT_EQ(grouped("2 % of a / b"), "((2 % of a)/b)");
    EXPECT_EQ(grouped("a * 2 % of b"), "((a*2 %) of b)");
    EXPECT_EQ(grouped("2.2 % of (cabbage + carrot)"), "(2.2 % of (cabbage+carrot))");
    EXPECT_EQ(grouped("(2.2 % of cabbage) + carrot"), "((2.2 % of cabbage)+carrot)");
    EXPECT_EQ(grouped("a + b < c * d"), "((a+b)<(c*d))");
    EXPECT_EQ(grouped("a <= b"), "(a<=b)");
    EXPECT_EQ(grouped("a ≤ b"), "(a<=b)");
    EXPECT_EQ(grouped("a ≥ b"), "(a>=b)");
    EXPECT_EQ(grouped("a >= b"), "(a>=b)");
    EXPECT_EQ(grouped("not a < b and c > d or e < f"), "(((not (a<b)) and (c>d)) or (e<f))");
    EXPECT_EQ(grouped("a < b or c < d and e < f"), "((a<b) or ((c<d) and (e<f)))");
    EXPECT_EQ(grouped("not not a < b"), "(not (not (a<b)))");
    EXPECT_EQ(grouped("if a < b then c else d + e"), "(if (a<b) then c else (d+e))");
    EXPECT_EQ(grouped("if a < b then c else if d < e then f else k"),
              "(if (a<b) then c else (if (d<e) then f else k))");
    EXPECT_EQ(grouped("1 + (if a < b then c else d)"), "(1+(if (a<b) then c else d))");
}

TEST(LanguageExpression, ReadsUnitsInOnePieceAsOneUnit) {
    EXPECT_EQ(grouped("cabbage / 0.9 kg/L"), "(cabbage/0.9 kg/L)");
    EXPECT_EQ(grouped("10 g/lb of cabbage"), "(10 g/lb of cabbage)");
    EXPECT_EQ(grouped("5 cm^2"), "5 cm^2");
    EXPECT_EQ(grouped("salt / kg"), "(salt/kg)");
    EXPECT_EQ(grouped("10 g / lb of cabbage"), "((10 g/lb) of cabbage)");
    EXPECT_EQ(grouped("2 kg / 2"), "(2 kg/2)");
    EXPECT_EQ(grouped("2 g per us tbsp"), "(2 g per us tbsp)");
    EXPECT_EQ(grouped("30 min"), "30 min");
    EXPECT_EQ(grouped("min(a, 30 min)"), "min(a, 30 min)");
    EXPECT_EQ(grouped("a / min(b, c)"), "(a/min(b, c))");
    EXPECT_EQ(grouped("a per min"), "(a per min)");
    EXPECT_EQ(grouped("2 lb 3 oz + 1 h 30 min"), "(2 lb 3 oz+1 h 30 min)");
    EXPECT_EQ(grouped("1 1/2 tsp"), "1 1/2 tsp");
    EXPECT_EQ(grouped("½ cup"), "½ cup");
    EXPECT_EQ(grouped("1½ tsp + ¾ cup"), "(1½ tsp+¾ cup)");
    EXPECT_EQ(grouped("2..3 tbsp"), "2..3 tbsp");
    EXPECT_EQ(grouped("1.80 kg ± 5 g"), "1.80 kg ± 5 g");
    EXPECT_EQ(grouped("1.80 kg +/- 5 g + a"), "(1.80 kg +/- 5 g+a)");
    EXPECT_EQ(grouped("1/2 * a"), "(1/2*a)");
    EXPECT_EQ(grouped("3 / 4"), "(3/4)");
    EXPECT_EQ(grouped("cabbage/2"), "(cabbage/2)");
    EXPECT_EQ(grouped("3 -2"), "(3-2)");
    EXPECT_EQ(grouped("a-2"), "(a-2)");
}

TEST(LanguageExpression, KeepsAmountsAndTheirPlaces) {
    Findings findings;
    const std::string text = "a + (1/2 tsp)";
    const auto lone = parse_expression(text, findings);
    ASSERT_TRUE(lone);
    const Node& sum = lone->expressions[lone->root];
    EXPECT_EQ(sum.place, (Place{0, 13}));
    EXPECT_EQ(sum.sign, (Place{2, 3}));
    EXPECT_FALSE(sum.parenthesised);
    const Node& right = lone->expressions[sum.b];
    EXPECT_TRUE(right.parenthesised);
    EXPECT_EQ(right.place, (Place{4, 13}));
    const units::Amount& amount = lone->expressions.amounts[right.index];
    EXPECT_TRUE(amount.fraction);
    EXPECT_EQ(amount.dimension, units::dim::volume);
    EXPECT_NEAR(amount.value, 2.46446, 1e-4); // half of 4.92892 mL
}

TEST(LanguageExpression, CallsHaveTheirArgumentsInOrder) {
    EXPECT_EQ(grouped("max(a, min(b, c, 3), d)"), "max(a, min(b, c, 3), d)");
    EXPECT_EQ(grouped("round(cabbage / 3, 5 g)"), "round((cabbage/3), 5 g)");
    EXPECT_EQ(grouped("floor(a)"), "floor(a)");
    EXPECT_EQ(grouped("ceil (a, 2)"), "ceil(a, 2)");
    EXPECT_EQ(grouped("sqrt(a) + abs(-b)"), "(sqrt(a)+abs((-b)))");
    EXPECT_EQ(grouped("cover(cucumbers, 0.58 kg/L)"), "cover(cucumbers, 0.58 kg/L)");
    EXPECT_EQ(grouped("all_salt / everything"), "(all_salt/everything)");
    EXPECT_EQ(grouped("all_produce + all_water"), "(all_produce+all_water)");
    for (const char* bad : {"abs(a, b)", "sqrt(a, b)", "round(a, b, c)", "floor(a, b, c)",
                            "ceil(a, b, c)", "cover(a)", "cover(a, b, c)", "min(a)", "max(a)"})
        EXPECT_EQ(grouped(bad), "wrong-arguments") << bad;
}

TEST(LanguageExpression, RefusesASumBesideAnOf) {
    for (const char* bad :
         {"2.2 % of cabbage + carrot", "2.2 % of cabbage - carrot", "carrot + 2.2 % of cabbage",
          "carrot - 2 % of cabbage", "2 % of (a) + b", "2 % of a * 3 + b", "a + b + 2 % of c",
          "-2 % of a + b", "2 % of a + 3 % of b"})
        EXPECT_EQ(grouped(bad), "ambiguous-of") << bad;
}

TEST(LanguageExpression, RefusesASlashBeforeAnOf) {
    for (const char* bad : {"a / 2 of b", "a / c of b", "a / 2 kg of b", "a / 2 * c of b"})
        EXPECT_EQ(grouped(bad), "ambiguous-slash") << bad;
    EXPECT_EQ(grouped("(a / 2) of b"), "((a/2) of b)");
    EXPECT_EQ(grouped("a / (2 of b)"), "(a/(2 of b))");
    EXPECT_EQ(grouped("6 / 1/2"), "ambiguous-slash");
    EXPECT_EQ(grouped("a / 1 1/2 cup"), "ambiguous-slash");
    EXPECT_EQ(grouped("6 / (1/2)"), "(6/1/2)");
}

TEST(LanguageExpression, RefusesPowersThatCouldBeReadTwoWays) {
    for (const char* bad :
         {"1/2^2", "5 cm ^ 2", "½^2", "2 %^2", "2..3^2", "2^3^2", "a^2^2", "2^1/2"})
        EXPECT_EQ(grouped(bad), "ambiguous-power") << bad;
    EXPECT_EQ(grouped("(1/2)^2"), "(1/2^2)");
    EXPECT_EQ(grouped("(5 cm)^2"), "(5 cm^2)");
    EXPECT_EQ(grouped("(2^3)^2"), "((2^3)^2)");
    EXPECT_EQ(grouped("a^1.5"), "expected-whole");
    EXPECT_EQ(grouped("a^b"), "expected-whole");
}

TEST(LanguageExpression, RefusesHyphensBetweenNumbers) {
    EXPECT_EQ(grouped("3-2"), "ambiguous-minus");
    EXPECT_EQ(grouped("2-3 tbsp"), "ambiguous-minus");
    EXPECT_EQ(grouped("1-1/2 cup"), "hyphen-mixed");
}

TEST(LanguageExpression, ShowsBothReadingsInTheOwnWords) {
    const auto advice = [](std::string_view text) {
        Findings findings;
        EXPECT_FALSE(parse_expression(text, findings));
        return findings.empty() ? std::string() : findings.all().front().advice;
    };
    EXPECT_EQ(advice("2.2 % of cabbage + carrot"),
              "Write \"2.2 % of (cabbage + carrot)\" or \"(2.2 % of cabbage) + carrot\".");
    EXPECT_EQ(advice("carrot - 2 % of cabbage"),
              "Write \"(carrot - 2 %) of cabbage\" or \"carrot - (2 % of cabbage)\".");
    EXPECT_EQ(advice("a / 2 of b"), "Write \"(a / 2) of b\" or \"a / (2 of b)\".");
    EXPECT_EQ(advice("1/2^2"), "Write \"(1/2)^2\" or \"1 / 2^2\".");
    EXPECT_EQ(advice("6 / 1/2"), "Write \"6 / (1/2)\" or \"6 / 1 / 2\".");
    EXPECT_EQ(advice("3-2"), "Write \"3 - 2\" to subtract, or \"2..3\" for a range.");
}

TEST(LanguageExpression, RefusesNumbersOfOtherShapes) {
    EXPECT_EQ(grouped("1,5 kg"), "decimal-comma");
    EXPECT_EQ(grouped(".5 kg"), "bare-point");
    EXPECT_EQ(grouped("5. kg"), "bare-point");
    EXPECT_EQ(grouped("1/0"), "zero-denominator");
    EXPECT_EQ(grouped("1e5"), "number-exponent");
    EXPECT_EQ(grouped("1e5 + 2"), "number-exponent");
    EXPECT_EQ(grouped("9999999999999999"), "too-large");
    EXPECT_EQ(grouped("3..2 kg"), "reversed-range");
    EXPECT_EQ(grouped("2 lb 3 cm"), "unit-mismatch");
    EXPECT_EQ(grouped("min(1,2)"), "decimal-comma");
    EXPECT_EQ(grouped("min(1, 2)"), "min(1, 2)");
}

TEST(LanguageExpression, KnowsUnitsFromNamesAfterAnAmount) {
    EXPECT_EQ(grouped("3 gramms per kg"), "unknown-unit");
    EXPECT_EQ(grouped("3 wombles"), "unknown-unit");
    EXPECT_EQ(grouped("3 g/cabbage"), "slash-without-blanks");
    EXPECT_EQ(grouped("kg"), "bare-unit");
    EXPECT_EQ(grouped("5 * kg"), "bare-unit");
    EXPECT_EQ(grouped("5 % fo a"), "left-over");
    const Parsed defined = parse_line("given cabbage = 1 kg\nlet x = 3 cabbage");
    EXPECT_EQ(codes(defined.findings), "missing-operator");
}

TEST(LanguageExpression, SaysWhatIsMissingOrLeftOver) {
    EXPECT_EQ(grouped(""), "expected-quantity");
    EXPECT_EQ(grouped("   "), "expected-quantity");
    EXPECT_EQ(grouped("a +"), "expected-quantity");
    EXPECT_EQ(grouped("a of"), "expected-quantity");
    EXPECT_EQ(grouped("a per"), "expected-quantity");
    EXPECT_EQ(grouped("()"), "expected-quantity");
    EXPECT_EQ(grouped("(a"), "expected-close");
    EXPECT_EQ(grouped("a)"), "stray-close");
    EXPECT_EQ(grouped("if a then b"), "expected-word");
    EXPECT_EQ(grouped("a < b < c"), "chained-comparison");
    EXPECT_EQ(grouped("(a < b) < c"), "((a<b)<c)");
    EXPECT_EQ(grouped("a ± 3 g"), "stray-uncertainty");
    EXPECT_EQ(grouped("a + if b then c else d"), "expected-quantity");
    EXPECT_EQ(grouped("between"), "expected-quantity");
    EXPECT_EQ(grouped("mix(a, b)"), "unknown-function");
    EXPECT_EQ(grouped("wombling(a)"), "unknown-function");
    EXPECT_EQ(grouped("sqrt"), "bare-function");
    EXPECT_EQ(grouped("a b"), "missing-operator");
    EXPECT_EQ(grouped("a = b"), "left-over");
    EXPECT_EQ(grouped("3 \xE2\x88\x92 2"), "odd-character"); // the printed minus sign
    EXPECT_EQ(grouped("3 × a"), "odd-character");
    EXPECT_EQ(grouped("a # b"), "left-over");
    EXPECT_EQ(grouped("\xFF"), "expected-quantity");
}

TEST(LanguageExpression, NestsSixtyDeepAndNoDeeper) {
    for (const auto& [open, inner, close] :
         std::vector<std::array<std::string, 3>>{{"(", "a", ")"},
                                                 {"-", "a", ""},
                                                 {"not ", "a < b", ""},
                                                 {"abs(", "a", ")"},
                                                 {"if a < b then c else ", "d", ""}}) {
        EXPECT_EQ(grouped(repeated(open, 60) + inner + repeated(close, 60)).find("too-deep"),
                  std::string::npos)
            << open;
        EXPECT_EQ(grouped(repeated(open, 61) + inner + repeated(close, 61)), "too-deep") << open;
        EXPECT_EQ(grouped(repeated(open, 100'000) + inner + repeated(close, 100'000)), "too-deep")
            << open;
        EXPECT_EQ(grouped(repeated(open, 100'000)), "too-deep") << open;
    }
}

TEST(LanguageExpression, RefusesSumsThatGrowATreeWithoutNesting) {
    EXPECT_EQ(grouped("a" + repeated(" + a", 200)).substr(0, 4), "((((");
    EXPECT_EQ(grouped("a" + repeated(" + a", 249)).substr(0, 4), "((((");
    EXPECT_EQ(grouped("a" + repeated(" + a", 250)), "long-expression");
    EXPECT_EQ(grouped("a" + repeated(" + a", 100'000)), "long-expression");
    EXPECT_EQ(grouped("a" + repeated(" per a", 1000)), "long-expression");
}

} // namespace jarful::language::testing
