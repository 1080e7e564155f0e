#include "engine/appraise/appraise.hpp"

#include <gtest/gtest.h>

#include <string>

/// How much each measure of a list holds. By water, so that nothing but the measure is in question.
namespace {

using namespace jarful;

/// The grams that a line comes to.
units::Interval grams(const std::string& line) {
    const appraise::Line read = appraise::read_line(line);
    EXPECT_TRUE(read.understood && read.grams) << line;
    return read.grams.value_or(units::Interval{});
}

/// Millilitres of water, by what a litre of it weighs to the same reader.
units::Interval millilitres(const std::string& measure) {
    const units::Interval litre = grams("1 litre water");
    const units::Interval one = grams("1 " + measure + " water");
    return {1000 * one.low / litre.low, 1000 * one.high / litre.high};
}

struct Holds {
    const char* measure;
    double low, high; ///< mL
};

void expect_all(const std::vector<Holds>& rows) {
    for (const Holds& row : rows) {
        const units::Interval got = millilitres(row.measure);
        EXPECT_NEAR(got.low, row.low, 1e-6 * row.low) << row.measure;
        EXPECT_NEAR(got.high, row.high, 1e-6 * row.high) << row.measure;
    }
}

// NIST SP 811 (2008), Appendix B.8: US gallon 3.785 411 784 L and its parts; imperial gallon
// 4.546 09 L, whose pint is an eighth and whose fluid ounce is a hundred-and-sixtieth of it.
TEST(AppraiseMeasures, USAndImperialMeasuresAreTheirOwn) {
    const double us = 3785.411784;
    const double imperial = 4546.09;
    expect_all({{"us gallon", us, us},
                {"us quart", us / 4, us / 4},
                {"us pint", us / 8, us / 8},
                {"us cup", us / 16, us / 16},
                {"us fl oz", us / 128, us / 128},
                {"us tablespoon", us / 256, us / 256},
                {"us teaspoon", us / 768, us / 768},
                {"imperial gallon", imperial, imperial},
                {"imperial quart", imperial / 4, imperial / 4},
                {"imperial pint", imperial / 8, imperial / 8},
                {"uk pint", imperial / 8, imperial / 8},
                {"imperial fl oz", imperial / 160, imperial / 160}});
}

TEST(AppraiseMeasures, MetricMeasuresAreTheirOwn) {
    expect_all({{"metric cup", 250, 250},
                {"metric tablespoon", 15, 15},
                {"metric teaspoon", 5, 5},
                {"ml", 1, 1},
                {"cl", 10, 10},
                {"dl", 100, 100}});
}

// Where a list does not say whose spoon it means, it may be a US one or a metric one.
TEST(AppraiseMeasures, ABareSpoonOrCupReachesFromTheUSOneToTheMetricOne) {
    expect_all({{"cup", 3785.411784 / 16, 250},
                {"tablespoon", 3785.411784 / 256, 15},
                {"teaspoon", 3785.411784 / 768, 5},
                // A gill is a quarter of a pint, of either pint.
                {"gill", 3785.411784 / 32, 4546.09 / 32}});
}

// What these hold is common practice, no source: wide on purpose, so that no verdict hangs on them.
TEST(AppraiseMeasures, WhatHasNoRuleIsWide) {
    for (const char* loose : {"pinch", "dash", "drop", "handful", "tasse", "verre"}) {
        const units::Interval got = millilitres(loose);
        EXPECT_GT(got.low, 0) << loose;
        EXPECT_GE(got.high, 2 * got.low) << loose;
    }
    EXPECT_LE(millilitres("pinch").high, 1);
    EXPECT_LE(millilitres("drop").high, 0.1);
}

/// How much more such a spoon holds than a level one of the same salt.
units::Interval fullness(const std::string& manner, const std::string& behind = "") {
    const units::Interval level = grams("1 tbsp fine sea salt");
    const units::Interval full = grams("1 " + manner + " tbsp " + behind + "fine sea salt");
    return {full.low / level.low, full.high / level.high};
}

// Common practice, no source: cooks count a heaped spoon as two level ones, and a heap on a small
// round spoon is a little more than that. A range that ends below two calls salt `inside` that is
// above.
TEST(AppraiseMeasures, AHeapedSpoonMayHoldTwoLevelOnesAndMore) {
    for (const units::Interval full :
         {fullness("heaped"), fullness("heaping"), fullness("", "heaped ")}) {
        EXPECT_NEAR(full.low, 1.2, 1e-9);
        EXPECT_NEAR(full.high, 2.2, 1e-9);
        EXPECT_GT(full.high, 2);
    }
    const units::Interval german = grams("1 gehäufter EL feines Meersalz");
    const units::Interval level = grams("1 gestrichener EL feines Meersalz");
    EXPECT_NEAR(german.low / level.low, 1.2, 1e-9);
    EXPECT_NEAR(german.high / level.high, 2.2, 1e-9);
}

// Common practice, no source.
TEST(AppraiseMeasures, OtherMannersOfFillingASpoon) {
    const units::Interval rounded = fullness("rounded");
    EXPECT_NEAR(rounded.low, 1.1, 1e-9);
    EXPECT_NEAR(rounded.high, 1.7, 1e-9);
    const units::Interval generous = fullness("generous");
    EXPECT_NEAR(generous.low, 1.0, 1e-9);
    EXPECT_NEAR(generous.high, 1.5, 1e-9);
    const units::Interval scant = fullness("scant");
    EXPECT_NEAR(scant.low, 0.75, 1e-9);
    EXPECT_NEAR(scant.high, 1.0, 1e-9);
    const units::Interval packed = fullness("packed");
    EXPECT_NEAR(packed.low, 1.0, 1e-9);
    EXPECT_NEAR(packed.high, 1.6, 1e-9);
    const units::Interval level = fullness("level");
    EXPECT_NEAR(level.low, 1.0, 1e-9);
    EXPECT_NEAR(level.high, 1.0, 1e-9);
}

} // namespace
