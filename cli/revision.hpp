#pragma once

#include "cli/load.hpp"

#include <optional>
#include <string>

/// Recipes as they are, and as they were at a revision of their book.
namespace jarful::cli {

/// `NAME@REVISION` taken apart.
struct RevisionWords {
    std::string name;
    std::optional<std::string> revision; ///< `HEAD~3`, a tag, a date; empty: as it is here
};
/// The first @ behind a name divides them, unless there is a file of the whole name.
[[nodiscard]] RevisionWords revision_words(const std::string& text);

/// A recipe with what to call it.
struct Recipe {
    LoadedFile file;
    std::string path;  ///< as it is here; of one that is gone, as it was there
    std::string shown; ///< "winter-kraut at HEAD~3 (1f3c2aa, 2026-09-01)"
};

/// Finds and reads one; what is wrong with it has been explained, and then it is empty.
[[nodiscard]] std::optional<Recipe> load_recipe(const RevisionWords& words);

} // namespace jarful::cli
