#pragma once

#include "engine/book/first_recipe.hpp"
#include "engine/render/page.hpp"

#include <string>

/// What `new` wrote, and how it is said.
namespace jarful::render {

struct NewRecipe {
    std::string path; ///< "-" for standard output
    std::string title;
    book::WrittenRecipe written;
};

/// Where it is and what to do with it.
[[nodiscard]] std::string new_text(const NewRecipe& recipe, const TextStyle& style);
/// Format "jarful.new/1"; described in docs/schemas/new.json.
[[nodiscard]] std::string new_json(const NewRecipe& recipe);

} // namespace jarful::render
