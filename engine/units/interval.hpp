#pragma once

#include <algorithm>
#include <cmath>
#include <limits>

/// Closed intervals of doubles whose operations step outward by the next representable number.
///
/// The processor's rounding modes are left alone: switching them is slow, does not survive an
/// optimiser, and does not exist everywhere. Round to nearest is at most half a step off, so one
/// step outward always encloses the true result (IEEE 754-2019, clause 4.3.1).
///
/// Sums, and products and quotients with 0 or 1, are not stepped where they are exact. An end that
/// overflows stays an enclosure. An end that is NaN makes both ends of the result NaN.
namespace jarful::units {

struct Interval {
    double low = 0;
    double high = 0;

    constexpr Interval() = default;
    constexpr Interval(double point)
        : low(point)
        , high(point) {} // NOLINT: a point is an interval
    constexpr Interval(double l, double h)
        : low(l)
        , high(h) {}

    friend constexpr bool operator==(const Interval&, const Interval&) = default;

    [[nodiscard]] constexpr double width() const { return high - low; }
    [[nodiscard]] constexpr double middle() const { return low + (high - low) / 2; }
    [[nodiscard]] constexpr bool contains(double x) const { return low <= x && x <= high; }
    [[nodiscard]] constexpr bool contains(Interval i) const {
        return low <= i.low && i.high <= high;
    }
    [[nodiscard]] constexpr bool point() const { return low == high; }
};

/// The largest double below x (x itself for an infinity or NaN).
[[nodiscard]] double step_down(double x);
/// The smallest double above x (x itself for an infinity or NaN).
[[nodiscard]] double step_up(double x);

/// Everything, for results about which nothing is known.
inline constexpr Interval whole_line{-std::numeric_limits<double>::infinity(),
                                     std::numeric_limits<double>::infinity()};

[[nodiscard]] Interval operator-(Interval a);
[[nodiscard]] Interval operator+(Interval a, Interval b);
[[nodiscard]] Interval operator-(Interval a, Interval b);
/// Product; 0 times an unbounded end counts as 0.
[[nodiscard]] Interval operator*(Interval a, Interval b);
/// Quotient; the whole line if `b` contains 0.
[[nodiscard]] Interval operator/(Interval a, Interval b);

/// Smallest interval that holds both.
[[nodiscard]] Interval hull(Interval a, Interval b);
[[nodiscard]] Interval min(Interval a, Interval b);
[[nodiscard]] Interval max(Interval a, Interval b);
[[nodiscard]] Interval abs(Interval a);
/// Square root; NaN ends if `a` reaches below 0.
[[nodiscard]] Interval sqrt(Interval a);
/// Nearest whole number, halves away from zero (as std::round).
[[nodiscard]] Interval round(Interval a);
[[nodiscard]] Interval floor(Interval a);
[[nodiscard]] Interval ceil(Interval a);
/// Power with a whole exponent: tight also where `a` straddles 0. A negative exponent over an
/// interval that contains 0 gives the whole line.
[[nodiscard]] Interval pow(Interval a, int exponent);
/// Power with any exponent, for a base that is nowhere negative; NaN ends otherwise.
[[nodiscard]] Interval pow(Interval a, Interval exponent);

} // namespace jarful::units
