#pragma once

#include "engine/larder/convert_text.hpp"

#include <string>
#include <vector>

/// A conversion once it is clear what is meant, before it is reckoned. For this room.
namespace jarful::larder::conversion {

/// How an amount becomes what is reckoned with.
enum class Way : std::uint8_t { as_written, by_density, into_volume, by_piece };

struct Route {
    Way way = Way::as_written;
    units::Dimension dimension;
};

/// One reading of the spoons.
struct System {
    units::Spoons spoons = units::Spoons::us;
    bool label = false;
};

/// Everything that is meant. The materials have the figures that their routes need.
struct Task {
    Words words;
    const Material* material = nullptr;
    const Material* per_material = nullptr;
    Route what_route;
    Route per_route;
    units::CompoundUnit to;
    Measures measures = Measures::unstated;
    bool measures_matter = false;
};

/// How much larger a unit is on a label than in US measure; empty if the rule does not say.
[[nodiscard]] std::optional<double> label_ratio(const units::CompoundUnit& unit);
/// Whether an amount is written in one bare measure alone, so that one ratio turns it into another
/// system's.
[[nodiscard]] bool in_one_unit(const units::Amount& amount);
/// The readings of the spoons that a task has to reckon with, the ruling one first.
[[nodiscard]] std::vector<System> systems(const Task& task);
/// The result over all readings of the spoons; empty if it is not finite or out of any sane range.
[[nodiscard]] std::optional<Spread> reckon(const Task& task);

/// "2 tbsp of canning salt per 5 lb".
[[nodiscard]] std::string words_of_task(const Task& task);
/// Fills what is said about a conversion: the figure, its reckoning, notes and sources.
void explain(const Task& task, Conversion& out);

} // namespace jarful::larder::conversion
