#pragma once

#include <array>
#include <cstddef>
#include <utility>

namespace jarful::bench {

/// A recipe of twelve cells, which all go into the last, in the language of recipes.
inline constexpr std::array<std::pair<const char*, const char*>, 12> twelve_cells{{
    {"cabbage", "1.84 kg"},
    {"carrot", "6 % of cabbage"},
    {"onion", "min(4 % of cabbage, 90 g)"},
    {"produce", "cabbage + carrot + onion"},
    {"seasalt", "2.2 % of produce"},
    {"caraway", "1.5 g per kg of cabbage"},
    {"juniper", "max(0.5 g per kg of cabbage, 1 g)"},
    {"bay", "1 per kg of cabbage"},
    {"volume", "produce / 0.90 kg/L"},
    {"headroom", "max(12 % of volume, 100 mL)"},
    {"pot", "volume + headroom"},
    {"whole", "produce + seasalt + caraway + juniper + 0.2 g * bay + 1 g/L * pot"},
}};

/// The same in C++, compiled in a file of its own like any other.
void what_if_native(const double* cabbages, double* totals, std::size_t count);

} // namespace jarful::bench
