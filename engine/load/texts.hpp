#pragma once

#include "engine/load/load.hpp"

#include <optional>
#include <string>
#include <vector>

/// A recipe and what belongs to it as texts, for who has no folder: a page, another program.
namespace jarful::load {

/// A text with the name that people know it by.
struct NamedText {
    std::string name;
    std::string text;
};

struct Texts {
    std::string recipe = {};
    std::optional<std::string> kitchen = {}, house = {}; ///< empty: the built-in kitchen; none
    std::vector<NamedText> bases = {};                   ///< by the names in `based on` lines
    std::string name = "the recipe";                     ///< what findings call the recipe
};

/// Parsed, whatever came of it; what is wrong stands with each of the two.
struct Together {
    LoadedFile recipe; ///< with what it inherits
    LoadedKitchen kitchen;
};
[[nodiscard]] Together put_together(const Texts& texts);
/// The kitchen alone, with the house file.
[[nodiscard]] LoadedKitchen kitchen_of(const Texts& texts);

} // namespace jarful::load
