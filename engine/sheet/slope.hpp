#pragma once

#include "engine/units/interval.hpp"

#include <cstdint>
#include <utility>
#include <vector>

/// Intervals that know how they change with each variable: the enclosure of a value and of its
/// partial derivatives over the box of all variables.
///
/// A value that rises (or falls) in a variable all over the box takes its extremes at that
/// variable's ends. This is what lets a quantity that is used twice vary once: `x / x` has a slope
/// of [0, 0] up to rounding and so no width (see docs/science.md, "How sure a result is").
namespace jarful::sheet {

struct Slope {
    units::Interval value;
    /// Derivative by variable, sorted by variable; absent means 0.
    std::vector<std::pair<std::uint32_t, units::Interval>> by;

    Slope() = default;
    Slope(units::Interval v) : value(v) {} // NOLINT: a constant is a slope
    Slope(double v) : value(v) {}          // NOLINT

    [[nodiscard]] static Slope variable(std::uint32_t id, units::Interval range);
};

/// factor_a * da + factor_b * db for every variable.
[[nodiscard]] std::vector<std::pair<std::uint32_t, units::Interval>>
combine(const Slope& a, units::Interval factor_a, const Slope& b, units::Interval factor_b);
/// factor * da for every variable.
[[nodiscard]] std::vector<std::pair<std::uint32_t, units::Interval>> scale(const Slope& a,
                                                                           units::Interval factor);

[[nodiscard]] Slope operator-(const Slope& a);
[[nodiscard]] Slope operator+(const Slope& a, const Slope& b);
[[nodiscard]] Slope operator-(const Slope& a, const Slope& b);
[[nodiscard]] Slope operator*(const Slope& a, const Slope& b);
[[nodiscard]] Slope operator/(const Slope& a, const Slope& b);
[[nodiscard]] Slope min(const Slope& a, const Slope& b);
[[nodiscard]] Slope max(const Slope& a, const Slope& b);
[[nodiscard]] Slope abs(const Slope& a);
[[nodiscard]] Slope sqrt(const Slope& a);
[[nodiscard]] Slope round(const Slope& a);
[[nodiscard]] Slope floor(const Slope& a);
[[nodiscard]] Slope ceil(const Slope& a);
[[nodiscard]] Slope pow(const Slope& a, int exponent);
[[nodiscard]] Slope pow(const Slope& a, const Slope& exponent);
/// Either of two branches: nothing is known about how it changes where the branch changes.
[[nodiscard]] Slope either(const Slope& condition, const Slope& a, const Slope& b);

} // namespace jarful::sheet
