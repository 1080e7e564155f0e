#include "engine/units/interval.hpp"

#include <gtest/gtest.h>

#include <cfenv>
#include <cmath>
#include <limits>
#include <vector>

/// The ends of an interval to the last bit: no sum is wider than it must be, a product, a quotient
/// and a root are one step wide on either side, and a result of intervals has the outermost of the
/// results of their ends.
namespace jarful::units {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();
constexpr double largest = std::numeric_limits<double>::max();
constexpr double tiny = std::numeric_limits<double>::denorm_min();

double below(double x) {
    return std::nextafter(x, -inf);
}
double above(double x) {
    return std::nextafter(x, inf);
}

/// Of every size, with halves and thirds of a step among them, and both signs.
std::vector<double> values() {
    std::vector<double> out{0};
    for (const double x :
         {1.0, 2.0, 3.0, 0.1, 1.0 / 3, 0.022, 36.0, 1800.0, above(1.0), below(1.0), 1e16, 1e-16,
          1e300, 1e-300, largest, tiny, std::numeric_limits<double>::min()}) {
        out.push_back(x);
        out.push_back(-x);
    }
    return out;
}

/// a + b with the processor told which way to round.
double rounded_sum(double a, double b, int way) {
    const int usual = std::fegetround();
    std::fesetround(way);
    const volatile double x = a;
    const volatile double y = b;
    const volatile double sum = x + y;
    std::fesetround(usual);
    return sum;
}

TEST(IntervalEnds, ofASumAreTheNearestOnEitherSide) {
    for (const double a : values()) {
        for (const double b : values()) {
            const Interval sum = Interval(a) + Interval(b);
            EXPECT_EQ(sum.low, rounded_sum(a, b, FE_DOWNWARD)) << a << " + " << b;
            EXPECT_EQ(sum.high, rounded_sum(a, b, FE_UPWARD)) << a << " + " << b;
            EXPECT_EQ(Interval(a) - Interval(b), Interval(a) + Interval(-b));
        }
    }
}

/// One step to either side of what was rounded to nearest; what is lost below the least double or
/// above the greatest is still enclosed.
Interval one_step_about(double nearest, bool positive) {
    if (nearest == 0) return positive ? Interval(0, tiny) : Interval(-tiny, 0);
    if (nearest == inf) return {largest, inf};
    if (nearest == -inf) return {-inf, -largest};
    return {below(nearest), above(nearest)};
}

TEST(IntervalEnds, ofAProductAreOneStepAwayUnlessAFactorIsNothingOrOne) {
    for (const double a : values()) {
        for (const double b : values()) {
            const Interval product = Interval(a) * Interval(b);
            if (a == 0 || b == 0 || std::abs(a) == 1 || std::abs(b) == 1) {
                EXPECT_EQ(product, Interval(a * b)) << a << " * " << b;
            } else {
                EXPECT_EQ(product, one_step_about(a * b, (a > 0) == (b > 0))) << a << " * " << b;
            }
        }
    }
}

TEST(IntervalEnds, ofAQuotientAreOneStepAwayUnlessItIsExact) {
    for (const double a : values()) {
        for (const double b : values()) {
            if (b == 0) continue;
            const Interval quotient = Interval(a) / Interval(b);
            if (a == 0 || std::abs(b) == 1) {
                EXPECT_EQ(quotient, Interval(a / b)) << a << " / " << b;
            } else if (std::abs(a) == std::abs(b)) {
                EXPECT_EQ(quotient, Interval(a == b ? 1 : -1)) << a << " / " << b;
            } else {
                EXPECT_EQ(quotient, one_step_about(a / b, (a > 0) == (b > 0))) << a << " / " << b;
            }
        }
    }
}

TEST(IntervalEnds, thatAreUnboundedStayEnclosures) {
    for (const double sign : {1.0, -1.0}) {
        for (const double x : {3.0, inf}) {
            const Interval up(inf);
            const Interval by(sign * x);
            EXPECT_TRUE((up * by).contains(sign * inf)) << sign * x;
            EXPECT_GE(std::abs((up * by).low), largest);
        }
        const Interval quotient = Interval(sign * inf) / Interval(inf);
        EXPECT_EQ(quotient, sign > 0 ? Interval(0, inf) : Interval(-inf, 0));
        EXPECT_EQ(Interval(sign) / Interval(inf),
                  sign > 0 ? Interval(0, tiny) : Interval(-tiny, 0));
    }
    EXPECT_EQ(Interval(inf) * Interval(0), Interval(0));
    EXPECT_EQ(Interval(0) * Interval(-inf), Interval(0));
}

std::vector<Interval> intervals() {
    const double ends[] = {-inf, -7, -2, -1, -0.3, 0, 0.3, 1, 2, 7, inf};
    std::vector<Interval> out;
    for (const double low : ends)
        for (const double high : ends)
            if (low <= high && !(low == high && std::isinf(low))) out.emplace_back(low, high);
    return out;
}

TEST(IntervalEnds, ofIntervalsAreTheOutermostOfTheirCorners) {
    for (const Interval a : intervals()) {
        for (const Interval b : intervals()) {
            Interval product(inf, -inf), quotient(inf, -inf);
            for (const double x : {a.low, a.high}) {
                for (const double y : {b.low, b.high}) {
                    const Interval p = Interval(x) * Interval(y);
                    product = {std::min(product.low, p.low), std::max(product.high, p.high)};
                    const Interval q = Interval(x) / Interval(y);
                    quotient = {std::min(quotient.low, q.low), std::max(quotient.high, q.high)};
                }
            }
            EXPECT_EQ(a * b, product)
                << a.low << ".." << a.high << " * " << b.low << ".." << b.high;
            const bool through_nothing = b.low <= 0 && b.high >= 0;
            EXPECT_EQ(a / b, through_nothing ? whole_line : quotient)
                << a.low << ".." << a.high << " / " << b.low << ".." << b.high;
            EXPECT_EQ(min(a, b), Interval(std::min(a.low, b.low), std::min(a.high, b.high)));
            EXPECT_EQ(max(a, b), Interval(std::max(a.low, b.low), std::max(a.high, b.high)));
            EXPECT_EQ(hull(a, b), Interval(std::min(a.low, b.low), std::max(a.high, b.high)));
        }
        const bool over_nothing = a.low < 0 && a.high > 0;
        EXPECT_EQ(abs(a), over_nothing ? Interval(0, std::max(-a.low, a.high))
                                       : Interval(std::min(std::abs(a.low), std::abs(a.high)),
                                                  std::max(std::abs(a.low), std::abs(a.high))));
        EXPECT_EQ(-a, Interval(-a.high, -a.low));
    }
}

TEST(IntervalEnds, ofARootAreOneStepAwayUnlessItIsNothingOrOne) {
    for (const double x : values()) {
        if (x < 0) {
            EXPECT_TRUE(std::isnan(sqrt(Interval(x)).low)) << x;
        } else if (x == 0 || x == 1) {
            EXPECT_EQ(sqrt(Interval(x)), Interval(x));
        } else {
            EXPECT_EQ(sqrt(Interval(x)), Interval(below(std::sqrt(x)), above(std::sqrt(x)))) << x;
        }
    }
    EXPECT_EQ(sqrt(Interval(1, 9)), Interval(1, above(3.0)));
    EXPECT_EQ(sqrt(Interval(0, 9)), Interval(0, above(3.0)));
    EXPECT_EQ(sqrt(Interval(4, 9)), Interval(below(2.0), above(3.0)));
}

/// Holds the figure and is no wider than the steps of so many products.
void expect_tight(Interval found, double figure, int exponent) {
    EXPECT_TRUE(found.contains(figure)) << figure << ", exponent " << exponent;
    EXPECT_LE(found.width(), std::abs(figure) * 2.3e-16 * (2 * std::abs(exponent) + 2))
        << figure << ", exponent " << exponent;
}

TEST(IntervalPowers, ofWholeExponentsAreTheProduct) {
    for (const double base : {2.0, 3.0, -2.0, -3.0, 0.5, -0.5, 10.0}) {
        double product = 1;
        for (int exponent = 0; exponent <= 13; ++exponent, product *= base) {
            expect_tight(pow(Interval(base), exponent), product, exponent);
            expect_tight(pow(Interval(base), -exponent), 1 / product, -exponent);
            if (base > 0)
                expect_tight(pow(Interval(base), Interval(double(exponent))), product, exponent);
        }
    }
    for (int exponent = 1; exponent < 9; ++exponent) {
        EXPECT_EQ(pow(Interval(0), exponent), Interval(0)) << exponent;
        EXPECT_EQ(pow(Interval(1), exponent), Interval(1)) << exponent;
        EXPECT_EQ(pow(Interval(-1), exponent), Interval(exponent % 2 == 0 ? 1 : -1)) << exponent;
        EXPECT_EQ(pow(Interval(1), -exponent), Interval(1)) << exponent;
    }
}

/// One end: on the outer side of the figure, by a few steps at most.
void expect_end(double found, double figure, bool low) {
    EXPECT_TRUE(low ? found <= figure : found >= figure) << found << " beside " << figure;
    EXPECT_NEAR(found, figure, std::abs(figure) * 2e-15);
}

TEST(IntervalPowers, ofIntervalsReachFromEndToEnd) {
    const Interval even = pow(Interval(-2, 3), 4);
    EXPECT_EQ(even.low, 0);
    expect_end(even.high, 81, false);
    expect_end(pow(Interval(-3, 2), 4).high, 81, false);
    expect_end(pow(Interval(-3, -2), 4).low, 16, true);
    expect_end(pow(Interval(-3, 2), 3).low, -27, true);
    expect_end(pow(Interval(-3, 2), 3).high, 8, false);
    expect_end(pow(Interval(2, 4), -2).low, 1.0 / 16, true);
    expect_end(pow(Interval(2, 4), -2).high, 0.25, false);
    expect_end(pow(Interval(-4, -2), -3).low, -0.125, true);
    expect_end(pow(Interval(-4, -2), -3).high, -1.0 / 64, false);
    for (const int exponent : {-1, -2, -3}) {
        EXPECT_EQ(pow(Interval(0, 3), exponent), whole_line);
        EXPECT_EQ(pow(Interval(-3, 0), exponent), whole_line);
    }
}

TEST(IntervalPowers, ofAnyExponentAreTwoStepsAboutTheLibrarys) {
    for (const double base : {0.25, 0.7, 2.0, 3.5, 1e5}) {
        for (const double exponent : {0.5, -0.5, 1.5, -2.25, 3.75}) {
            const double p = std::pow(base, exponent);
            EXPECT_EQ(pow(Interval(base), Interval(exponent)),
                      Interval(below(below(p)), above(above(p))))
                << base << " ^ " << exponent;
        }
        EXPECT_EQ(pow(Interval(base), Interval(0, 0.5)).contains(1), true);
        EXPECT_EQ(pow(Interval(base), Interval(1, 1.5)).contains(base), true);
    }
    // 1 to any power, any base to the power 0 or 1, and nothing at all are exact.
    EXPECT_EQ(pow(Interval(1), Interval(0.5, 2.5)), Interval(1));
    EXPECT_EQ(pow(Interval(4, 4), Interval(0, 1)), Interval(1, 4));
    EXPECT_EQ(pow(Interval(0, 4), Interval(1, 1)), Interval(0, 4));
    EXPECT_EQ(pow(Interval(0), Interval(0.5)), Interval(0));
    EXPECT_EQ(pow(Interval(0.25, 0.25), Interval(0.5, inf)).low, 0);
    EXPECT_EQ(pow(Interval(4, inf), Interval(0.5)).high, inf);
    EXPECT_EQ(pow(Interval(0, 4), Interval(-0.5)), Interval(0, inf));
    EXPECT_EQ(pow(Interval(0, 4), Interval(-0.5, 0.5)), Interval(0, inf));
    EXPECT_EQ(pow(Interval(0, 4), Interval(0, 0.5)).low, 0);
    EXPECT_EQ(pow(Interval(0.5, 4), Interval(-0.5)).low, below(below(0.5)));
    EXPECT_TRUE(std::isnan(pow(Interval(-0.001, 4), Interval(0.5)).low));
    EXPECT_EQ(pow(Interval(tiny), Interval(1.5)).low, 0);
}

} // namespace
} // namespace jarful::units
