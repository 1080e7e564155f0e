#include "engine/units/interval.hpp"

#include <climits>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

namespace jarful::units {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();
constexpr double largest = std::numeric_limits<double>::max();
constexpr double tiny = std::numeric_limits<double>::denorm_min();
const double nan_value = std::numeric_limits<double>::quiet_NaN();

bool all_nan(Interval i) {
    return std::isnan(i.low) && std::isnan(i.high);
}

TEST(IntervalStep, AgreesWithTheLibrarysNextafter) {
    for (double x : {0.0, -0.0, 1.0, -1.0, 0.1, -0.1, 1e300, -1e300, tiny, -tiny, largest, -largest,
                     std::numeric_limits<double>::min(), 2.0, 4.0, 1.0 / 3}) {
        EXPECT_EQ(step_up(x), std::nextafter(x, inf)) << x;
        EXPECT_EQ(step_down(x), std::nextafter(x, -inf)) << x;
    }
}

TEST(IntervalStep, LeavesInfinitiesAndNanAlone) {
    EXPECT_EQ(step_up(inf), inf);
    EXPECT_EQ(step_down(inf), inf);
    EXPECT_EQ(step_up(-inf), -inf);
    EXPECT_EQ(step_down(-inf), -inf);
    EXPECT_TRUE(std::isnan(step_up(nan_value)));
    EXPECT_TRUE(std::isnan(step_down(nan_value)));
}

TEST(Interval, SumsThatAreExactStayPoints) {
    EXPECT_EQ(Interval(1800) + Interval(36), Interval(1836));
    EXPECT_EQ(Interval(0.1) + Interval(0), Interval(0.1));
    EXPECT_EQ(Interval(0.1) - Interval(0.1), Interval(0));
}

TEST(Interval, SumsThatAreNotExactAreStepped) {
    const Interval sum = Interval(0.1) + Interval(0.2);
    EXPECT_LT(sum.low, sum.high);
    EXPECT_EQ(sum.high, step_up(sum.low));
    EXPECT_TRUE(sum.contains(0.1 + 0.2));
}

TEST(Interval, ProductsWithZeroAndOneAreExact) {
    const Interval a{-2, 3};
    EXPECT_EQ(a * Interval(1), a);
    EXPECT_EQ(a * Interval(0), Interval(0));
    EXPECT_EQ(a * Interval(-1), Interval(-3, 2));
    EXPECT_EQ(whole_line * Interval(0), Interval(0));
    EXPECT_EQ(a / Interval(1), a);
    EXPECT_EQ(Interval(0.3) / Interval(0.3), Interval(1));
    EXPECT_EQ(Interval(-0.3) / Interval(0.3), Interval(-1));
}

TEST(Interval, ProductsTakeTheOuterCorners) {
    const Interval p = Interval(-2, 3) * Interval(-5, 7);
    EXPECT_TRUE(p.contains(Interval(-15, 21)));
    EXPECT_GT(p.low, -15.001);
    EXPECT_LT(p.high, 21.001);
}

TEST(Interval, ProductsOfAmountsNeverGoBelowZero) {
    EXPECT_GE((Interval(tiny) * Interval(tiny)).low, 0);
    EXPECT_GT((Interval(tiny) * Interval(tiny)).high, 0);
    EXPECT_GE((Interval(0, 1) * Interval(0, 1)).low, 0);
    EXPECT_GE((Interval(tiny) / Interval(largest)).low, 0);
}

TEST(Interval, DivisionByWhatContainsZeroSaysNothing) {
    EXPECT_EQ(Interval(1) / Interval(0), whole_line);
    EXPECT_EQ(Interval(1) / Interval(-1, 1), whole_line);
    EXPECT_EQ(Interval(1) / Interval(0, 2), whole_line);
    EXPECT_EQ(Interval(0) / Interval(0), whole_line);
}

TEST(Interval, OverflowStaysAnEnclosure) {
    const Interval p = Interval(1e308) * Interval(10);
    EXPECT_EQ(p.low, largest);
    EXPECT_EQ(p.high, inf);
    const Interval s = Interval(-largest) + Interval(-largest);
    EXPECT_EQ(s.low, -inf);
    EXPECT_EQ(s.high, -largest);
}

TEST(Interval, UnboundedEndsDoNotCrash) {
    EXPECT_EQ(whole_line + whole_line, whole_line);
    EXPECT_EQ(whole_line - whole_line, whole_line);
    EXPECT_EQ(whole_line * whole_line, whole_line);
    EXPECT_EQ(Interval(inf) + Interval(-inf), whole_line);
    EXPECT_EQ(abs(whole_line), Interval(0, inf));
    EXPECT_EQ(hull(whole_line, Interval(1)), whole_line);
    EXPECT_EQ((Interval(1, inf) / Interval(1, inf)).low, 0);
    EXPECT_EQ((Interval(1, inf) / Interval(1, inf)).high, inf);
    EXPECT_EQ(sqrt(Interval(0, inf)), Interval(0, inf));
}

TEST(Interval, NanMakesBothEndsNan) {
    const std::vector<Interval> bad{{nan_value, 1}, {1, nan_value}, {nan_value, nan_value}};
    for (Interval b : bad) {
        EXPECT_TRUE(all_nan(b + Interval(1)));
        EXPECT_TRUE(all_nan(Interval(1) - b));
        EXPECT_TRUE(all_nan(b * Interval(0)));
        EXPECT_TRUE(all_nan(b / Interval(2)));
        EXPECT_TRUE(all_nan(Interval(2) / b));
        EXPECT_TRUE(all_nan(hull(b, Interval(1))));
        EXPECT_TRUE(all_nan(min(Interval(1), b)));
        EXPECT_TRUE(all_nan(max(b, Interval(1))));
        EXPECT_TRUE(all_nan(abs(b)));
        EXPECT_TRUE(all_nan(sqrt(b)));
        EXPECT_TRUE(all_nan(pow(b, 2)));
        EXPECT_TRUE(all_nan(pow(b, Interval(0.5))));
        EXPECT_TRUE(all_nan(pow(Interval(2), b)));
    }
}

TEST(Interval, MinMaxHullAndAbsAreExact) {
    EXPECT_EQ(min(Interval(1, 5), Interval(2, 3)), Interval(1, 3));
    EXPECT_EQ(max(Interval(1, 5), Interval(2, 3)), Interval(2, 5));
    EXPECT_EQ(hull(Interval(1, 2), Interval(4, 5)), Interval(1, 5));
    EXPECT_EQ(abs(Interval(-3, 2)), Interval(0, 3));
    EXPECT_EQ(abs(Interval(-3, -2)), Interval(2, 3));
    EXPECT_EQ(-Interval(1, 2), Interval(-2, -1));
}

TEST(Interval, SquareRootEnclosesAndRefusesNegatives) {
    EXPECT_TRUE(sqrt(Interval(2)).contains(std::sqrt(2.0)));
    EXPECT_GT(sqrt(Interval(2)).width(), 0);
    EXPECT_EQ(sqrt(Interval(0, 1)), Interval(0, 1));
    EXPECT_TRUE(all_nan(sqrt(Interval(-1, 1))));
}

TEST(Interval, RoundsBothEndsLikeTheLibrary) {
    EXPECT_EQ(round(Interval(1.5, 2.4)), Interval(2, 2));
    EXPECT_EQ(round(Interval(-0.5, 0.5)), Interval(-1, 1));
    EXPECT_EQ(floor(Interval(-0.5, 1.9)), Interval(-1, 1));
    EXPECT_EQ(ceil(Interval(-0.5, 1.1)), Interval(0, 2));
}

TEST(IntervalPower, IsTightOverZero) {
    const Interval square = pow(Interval(-2, 1), 2);
    EXPECT_EQ(square.low, 0);
    EXPECT_TRUE(square.contains(4.0));
    EXPECT_LT(square.high, 4.0001);
    const Interval cube = pow(Interval(-2, 1), 3);
    EXPECT_TRUE(cube.contains(Interval(-8, 1)));
    EXPECT_GT(cube.low, -8.0001);
}

TEST(IntervalPower, KnowsTheSpecialExponents) {
    EXPECT_EQ(pow(Interval(-2, 1), 0), Interval(1));
    EXPECT_EQ(pow(Interval(-2, 1), 1), Interval(-2, 1));
    EXPECT_EQ(pow(Interval(-2, 1), -1), whole_line);
    EXPECT_TRUE(pow(Interval(2, 4), -2).contains(Interval(1.0 / 16, 0.25)));
    EXPECT_TRUE(pow(Interval(-4, -2), -1).contains(Interval(-0.5, -0.25)));
    EXPECT_GE(pow(Interval(1.5), INT_MAX).low, largest);
    EXPECT_TRUE(pow(Interval(0.5), INT_MIN).contains(inf));
}

TEST(IntervalPower, TakesAnyExponentOfWhatIsNotNegative) {
    EXPECT_TRUE(pow(Interval(4, 9), Interval(0.5)).contains(Interval(2, 3)));
    EXPECT_TRUE(pow(Interval(2), Interval(-1, 1)).contains(Interval(0.5, 2)));
    EXPECT_TRUE(pow(Interval(0.5, 2), Interval(-1, 3)).contains(Interval(0.5, 8)));
    EXPECT_TRUE(all_nan(pow(Interval(-1, 4), Interval(0.5))));
    EXPECT_EQ(pow(Interval(0, 4), Interval(-0.5, 1)), Interval(0, inf));
    EXPECT_TRUE(pow(Interval(0, 4), Interval(0.5)).contains(Interval(0, 2)));
    EXPECT_EQ(pow(Interval(0, 4), Interval(0.5)).low, 0);
    EXPECT_EQ(pow(Interval(3), Interval(0)), Interval(1));
}

} // namespace
} // namespace jarful::units
