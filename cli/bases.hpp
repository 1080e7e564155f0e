#pragma once

#include "engine/language/inherit.hpp"

/// Where recipes find what they are based on.
namespace jarful::cli {

/// Looks beside the recipe, then in the book's folder (the nearest one above with a kitchen, a
/// house file or a .git) and in its folder "recipes". What a link leads to outside of the book is
/// refused.
[[nodiscard]] language::FoundBase find_base(std::string_view name, const std::string& from);

/// Whether a file's text seems to have a `based on` line; a text that only looks so counts, too.
[[nodiscard]] bool says_based_on(std::string_view text);

} // namespace jarful::cli
