#pragma once

#include "engine/sheet/sheet.hpp"

#include <optional>
#include <span>
#include <vector>

/// How sure a result is: rigorous enclosures over the box of all causes of error.
namespace jarful::sheet {

/// What an enclosure is computed from; `values` of every cell that is reached must be fresh.
struct EnclosureInput {
    std::span<const Cell> cells;
    std::span<const Unknown> unknowns;
    std::span<const std::uint32_t> rank;
    std::span<const double> values;
    std::span<const char> entered;
    std::span<const std::optional<units::Interval>> bounds;
    std::span<const std::optional<units::Interval>> observed;
};

[[nodiscard]] units::Interval enclose_formula(const EnclosureInput& in, const Formula& formula);
[[nodiscard]] std::vector<Share> causes_of_width(const EnclosureInput& in, const Formula& formula);

} // namespace jarful::sheet
