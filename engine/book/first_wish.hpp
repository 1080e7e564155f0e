#pragma once

#include "engine/book/first_kinds.hpp"
#include "engine/book/first_recipe.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What is wanted of a first recipe, understood. For this room only.
namespace jarful::book {

/// Something that goes in beside the produce: `carrot=6%`.
struct Addition {
    std::string name;
    larder::Role role = larder::Role::other;
    std::string line; ///< behind "weigh NAME = " or "count NAME = "
    bool count = false;
    bool room = false;  ///< it takes room in the jar that is worth counting
    std::string called; ///< what the larder calls it; empty where that is its name
};

struct Wish {
    const larder::Kind* kind = nullptr; ///< of the larder or of the house, which outlive it
    const larder::Ruling* ruling = nullptr;
    const Start* start = nullptr;
    Way way = Way::in_brine;
    std::string lead;   ///< the produce's name
    double percent = 0; ///< of the ruling's basis
    bool said = false;  ///< whether it was asked for, and is no default
    std::vector<Addition> additions;
};

/// A name as it is spoken: without underscores.
[[nodiscard]] std::string spoken(std::string_view name);

/// Finds the kind, its ruling and its start, and reads the salt and the additions. Empty, with
/// faults that have no place, where that cannot be done.
[[nodiscard]] std::optional<Wish> understand(const FirstRecipe& said, language::Findings& findings);

/// A figure of a recipe, to four digits.
[[nodiscard]] std::string print_figure(double value);

} // namespace jarful::book
