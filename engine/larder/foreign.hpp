#pragma once

#include "engine/larder/larder.hpp"

#include <optional>
#include <string>
#include <string_view>

/// Names of materials in other languages than the program's own, for reading recipes from
/// elsewhere. Which languages there are, and their names, is data: `names_de` and its like.
namespace jarful::larder {

/// The built-in material of a name in a language ("Weißkohl" in "de", "gros sel" in "fr"): the
/// whole name, case, accents and blanks alike; nullptr if there is none, or no such language.
/// @param tag of two letters, as behind `names_` in the data
[[nodiscard]] const Material* find_foreign(std::string_view name, std::string_view tag);

/// A name of one word, folded, and the built-in material that it stands for.
struct Spelling {
    std::string word;
    const Material* material = nullptr;
};
/// The name that is one slip away from a folded word: a letter too few, too many, another one, or
/// two that have changed places. Empty if there is none, if the word has fewer than six letters, or
/// if names of several materials are as near.
/// @param tag of two letters for a language besides the program's own; may be empty
[[nodiscard]] std::optional<Spelling> spelt_right(std::string_view folded, std::string_view tag);

} // namespace jarful::larder
