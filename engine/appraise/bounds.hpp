#pragma once

#include "engine/appraise/quantity.hpp"

#include <span>

/// What a line can be at most that is not understood. For this room only.
namespace jarful::appraise {

/// The most of each that a line may bring, in g; what it brings at least is nothing.
/// `endless` where there is no end to it.
struct Bounds {
    double vegetables = 0;
    double water = 0;
    double salt = 0;
    bool as_others = false; ///< a vegetable of no amount: as much as all others together

    [[nodiscard]] bool nothing() const {
        return vegetables <= 0 && water <= 0 && salt <= 0 && !as_others;
    }
};

/// What has no upper end, for a calculation: so much that nothing beside it counts.
inline constexpr double endless = 1e15;

/// One row of the table of bounds; docs/appraise.md prints it, and a test widens each.
struct BoundRow {
    const char* key;
    double value;
    const char* unit;
    const char* what;
    const char* source;
};
[[nodiscard]] std::span<const BoundRow> bound_rows();
/// The value of a row. @param key one of them
[[nodiscard]] double bound(const char* key);
/// For tests alone: multiplies a row's value from now on.
void widen_bound(const char* key, double factor);

/// The most that a quantity of a thing that nobody here knows weighs, in g.
[[nodiscard]] double most_of(const Quantity& quantity, bool small);

/// What the tokens of a line that is not understood may be at most.
[[nodiscard]] Bounds bounds_of(std::span<const Token> tokens, Numbers numbers);

/// Whether a line names nothing but a vessel, a tool or a weight, with what it holds or is for.
[[nodiscard]] bool names_equipment(std::span<const Token> tokens, Numbers numbers);

} // namespace jarful::appraise
