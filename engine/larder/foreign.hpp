#pragma once

#include "engine/larder/larder.hpp"

#include <string_view>

/// Names of materials in other languages than the program's own, for reading recipes from
/// elsewhere. Which languages there are, and their names, is data: `names_de` and its like.
namespace jarful::larder {

/// The built-in material of a name in a language ("Weißkohl" in "de", "gros sel" in "fr"): the
/// whole name, case, accents and blanks alike; nullptr if there is none, or no such language.
/// @param tag of two letters, as behind `names_` in the data
[[nodiscard]] const Material* find_foreign(std::string_view name, std::string_view tag);

} // namespace jarful::larder
