#pragma once

#include "engine/units/interval.hpp"

#include <cstdint>
#include <vector>

/// Intervals that know how they change with each variable, over the box of all variables.
///
/// A value that rises (or falls) in a variable all over the box takes its extremes at that
/// variable's ends. Two enclosures of how it changes are carried along, since each sees what the
/// other misses: the derivative, which is exact for sums, and the elasticity x/f · df/dx, which is
/// exact for products and quotients (of `x / x` it is 1 - 1). Both bound the change between any two
/// values of the variable, not only the slope at a place, so that steps (`round`, `floor`) and
/// kinks
/// (`min`) obey the same rules: a step is the limit of ever steeper rises. See docs/science.md,
/// "Uncertainty and rounding".
namespace jarful::sheet {

/// How a value depends on one variable while all others stand still, as its formula is written.
/// Each sort includes those before it. All but the last rise or fall over the whole range of the
/// variable, though it may depend on the others which of the two: the extremes lie at the ends.
enum class Course : std::uint8_t {
    straight, ///< a + b x
    ratio,    ///< (a + b x) / (c + d x), without a pole
    steady,   ///< rises all the way or falls all the way
    any
};

/// How a value changes with one variable.
struct Change {
    std::uint32_t id = 0;
    Course course = Course::any;
    units::Interval derivative;
    /// Meaningful only where value and variable both keep a sign; the whole line otherwise.
    units::Interval elasticity;
};

struct Slope {
    units::Interval value;
    std::vector<Change> by; ///< sorted by variable; one that is absent changes nothing

    Slope() = default;
    Slope(units::Interval v)
        : value(v) {} // NOLINT: a constant is a slope
    Slope(double v)
        : value(v) {} // NOLINT

    [[nodiscard]] static Slope variable(std::uint32_t id, units::Interval range);
};

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

/// A condition about two values: it may change with whatever they change with, if it may change.
[[nodiscard]] Slope unknown_truth(units::Interval truth, const Slope& a, const Slope& b);

} // namespace jarful::sheet
