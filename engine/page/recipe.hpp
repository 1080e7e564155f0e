#pragma once

#include "engine/kitchen/kitchen.hpp"
#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"
#include "engine/load/texts.hpp"

#include <optional>
#include <string>
#include <vector>

/// Texts as the engine wants them. For this room.
namespace jarful::page {

/// Findings with the text that their places are in.
struct Found {
    language::Source source;
    language::Findings findings;
};

/// A recipe and its kitchen, read from the texts that a page carries.
struct PageRecipe {
    language::Document document;
    kitchen::Kitchen kitchen;
    std::vector<Found> found; ///< what is wrong with the files, or remarkable in them
    bool sound = false;       ///< there are no faults
};

[[nodiscard]] PageRecipe read_recipe(const load::Texts& texts);

} // namespace jarful::page
