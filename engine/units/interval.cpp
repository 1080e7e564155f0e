#include "engine/units/interval.hpp"

#include "engine/units/bits.hpp"

#include <cstdint>

namespace jarful::units {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double largest = std::numeric_limits<double>::max();
constexpr double smallest = std::numeric_limits<double>::denorm_min();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr Interval nothing_known{not_a_number, not_a_number};

bool has_nan(Interval a) {
    return std::isnan(a.low) || std::isnan(a.high);
}

// A finite result may have overflowed; the true one is then still at least the largest double.
double stepped_down(double nearest) {
    return nearest == infinity ? largest : step_down(nearest);
}
double stepped_up(double nearest) {
    return nearest == -infinity ? -largest : step_up(nearest);
}

/// What rounding lost in `sum` = a + b, exactly (D. E. Knuth, The Art of Computer Programming,
/// vol. 2, section 4.2.2, theorem B); NaN after an overflow.
double lost_in_sum(double a, double b, double sum) {
    const double b_seen = sum - a;
    return (a - (sum - b_seen)) + (b - b_seen);
}

double sum_low(double a, double b) {
    const double sum = a + b;
    if (std::isnan(sum)) {
        return -infinity; // two unbounded ends against each other
    }
    return lost_in_sum(a, b, sum) >= 0 ? sum : stepped_down(sum);
}

double sum_high(double a, double b) {
    const double sum = a + b;
    if (std::isnan(sum)) {
        return infinity;
    }
    return lost_in_sum(a, b, sum) <= 0 ? sum : stepped_up(sum);
}

bool unit_factor(double x) {
    return x == 1 || x == -1;
}

double product_low(double a, double b) {
    if (a == 0 || b == 0) {
        return 0;
    }
    const double product = a * b;
    if (unit_factor(a) || unit_factor(b)) {
        return product;
    }
    if (product == 0) {
        return (a > 0) == (b > 0) ? 0 : -smallest;
    }
    return stepped_down(product);
}

double product_high(double a, double b) {
    return -product_low(-a, b);
}

/// Lower bound of a / b; b is not 0.
double quotient_low(double a, double b) {
    if (a == 0) {
        return 0;
    }
    const bool positive = (a > 0) == (b > 0);
    const double quotient = a / b;
    if (std::isnan(quotient)) {
        return positive ? 0 : -infinity; // unbounded over unbounded
    }
    if (unit_factor(b)) {
        return quotient;
    }
    if (std::abs(a) == std::abs(b)) {
        return positive ? 1 : -1;
    }
    if (quotient == 0) {
        return positive ? 0 : -smallest;
    }
    return stepped_down(quotient);
}

double quotient_high(double a, double b) {
    return -quotient_low(-a, b);
}

template <typename Low, typename High>
Interval at_corners(Interval a, Interval b, Low low, High high) {
    return {
        std::min({low(a.low, b.low), low(a.low, b.high), low(a.high, b.low), low(a.high, b.high)}),
        std::max(
            {high(a.low, b.low), high(a.low, b.high), high(a.high, b.low), high(a.high, b.high)})};
}

/// x to a whole power above 0, for x from 0 up.
Interval whole_power(double x, std::uint32_t exponent) {
    Interval result = 1.0;
    Interval square = x;
    while (true) {
        if ((exponent & 1U) != 0) {
            result = result * square;
        }
        exponent >>= 1U;
        if (exponent == 0) {
            return result;
        }
        square = square * square;
    }
}

// The library's pow is not correctly rounded; the usual ones stay within one unit in the last
// place, and two steps leave room.
double power_low(double x, double y) {
    if (y == 0 || x == 1) {
        return 1;
    }
    if (y == 1) {
        return x;
    }
    const double p = std::pow(x, y);
    if (x == 0 || std::isinf(x) || std::isinf(y)) {
        return p;
    }
    return std::max(0.0, step_down(stepped_down(p)));
}

double power_high(double x, double y) {
    if (y == 0 || x == 1) {
        return 1;
    }
    if (y == 1) {
        return x;
    }
    const double p = std::pow(x, y);
    if (x == 0 || std::isinf(x) || std::isinf(y)) {
        return p;
    }
    return step_up(step_up(p));
}

} // namespace

double step_up(double x) {
    if (!std::isfinite(x)) {
        return x;
    }
    if (x == 0) {
        return smallest;
    }
    // The bits of a double count upward with its magnitude.
    const std::uint64_t bits = bits_of(x);
    return double_of(x > 0 ? bits + 1 : bits - 1);
}

double step_down(double x) {
    return -step_up(-x);
}

Interval operator-(Interval a) {
    return {-a.high, -a.low};
}

Interval operator+(Interval a, Interval b) {
    if (has_nan(a) || has_nan(b)) {
        return nothing_known;
    }
    return {sum_low(a.low, b.low), sum_high(a.high, b.high)};
}

Interval operator-(Interval a, Interval b) {
    return a + (-b);
}

Interval operator*(Interval a, Interval b) {
    if (has_nan(a) || has_nan(b)) {
        return nothing_known;
    }
    if (a.low >= 0 && b.low >= 0) {
        return {product_low(a.low, b.low), product_high(a.high, b.high)};
    }
    return at_corners(a, b, product_low, product_high);
}

Interval operator/(Interval a, Interval b) {
    if (has_nan(a) || has_nan(b)) {
        return nothing_known;
    }
    if (b.contains(0.0)) {
        return whole_line;
    }
    if (a.low >= 0 && b.low > 0) {
        return {quotient_low(a.low, b.high), quotient_high(a.high, b.low)};
    }
    return at_corners(a, b, quotient_low, quotient_high);
}

Interval hull(Interval a, Interval b) {
    if (has_nan(a) || has_nan(b)) {
        return nothing_known;
    }
    return {std::min(a.low, b.low), std::max(a.high, b.high)};
}

Interval min(Interval a, Interval b) {
    if (has_nan(a) || has_nan(b)) {
        return nothing_known;
    }
    return {std::min(a.low, b.low), std::min(a.high, b.high)};
}

Interval max(Interval a, Interval b) {
    if (has_nan(a) || has_nan(b)) {
        return nothing_known;
    }
    return {std::max(a.low, b.low), std::max(a.high, b.high)};
}

Interval abs(Interval a) {
    if (has_nan(a)) {
        return nothing_known;
    }
    if (a.low >= 0) {
        return a;
    }
    if (a.high <= 0) {
        return -a;
    }
    return {0, std::max(-a.low, a.high)};
}

Interval sqrt(Interval a) {
    if (has_nan(a) || a.low < 0) {
        return nothing_known;
    }
    const auto exact = [](double x) { return x == 0 || x == 1; };
    return {exact(a.low) ? a.low : stepped_down(std::sqrt(a.low)),
            exact(a.high) ? a.high : step_up(std::sqrt(a.high))};
}

Interval round(Interval a) {
    return {std::round(a.low), std::round(a.high)};
}
Interval floor(Interval a) {
    return {std::floor(a.low), std::floor(a.high)};
}
Interval ceil(Interval a) {
    return {std::ceil(a.low), std::ceil(a.high)};
}

Interval pow(Interval a, int exponent) {
    if (has_nan(a)) {
        return nothing_known;
    }
    if (exponent == 0) {
        return 1.0;
    }
    const auto magnitude =
        static_cast<std::uint32_t>(exponent < 0 ? -static_cast<std::int64_t>(exponent) : exponent);
    if (exponent < 0 && a.contains(0.0)) {
        return whole_line;
    }
    const auto signed_power = [&](double x) {
        const Interval p = whole_power(std::abs(x), magnitude);
        return x < 0 && magnitude % 2 == 1 ? -p : p;
    };
    Interval result;
    if (magnitude % 2 == 0) {
        const Interval sizes = abs(a);
        result = {signed_power(sizes.low).low, signed_power(sizes.high).high};
    } else {
        result = {signed_power(a.low).low, signed_power(a.high).high};
    }
    return exponent < 0 ? Interval(1.0) / result : result;
}

Interval pow(Interval a, Interval exponent) {
    if (has_nan(a) || has_nan(exponent) || a.low < 0) {
        return nothing_known;
    }
    if (exponent.point() && std::abs(exponent.low) <= 1000 &&
        exponent.low == std::trunc(exponent.low)) {
        return pow(a, static_cast<int>(exponent.low));
    }
    if (a.low == 0 && exponent.low < 0) {
        return {0, infinity};
    }
    // The logarithm of a power is bilinear, so that its extremes are at the corners.
    return at_corners(a, exponent, power_low, power_high);
}

} // namespace jarful::units
