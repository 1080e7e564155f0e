#pragma once

#include "engine/load/load.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Reading files, and finding recipes and kitchens by name.
namespace jarful::cli {

using load::FileContent;
using load::FileFault;

/// The bytes of a regular file, or of standard input for "-": at most one more than a recipe may
/// have, so that a file without end ends here and the reader of recipes says that it is too large.
/// Devices, pipes and folders are refused.
[[nodiscard]] FileContent read_file(const std::string& path);

/// A path as the user would write it: from the current folder if it lies below that.
[[nodiscard]] std::string shown(const std::filesystem::path& path);
/// What stands before the last stroke; empty if there is none.
[[nodiscard]] std::string folder_of(std::string_view path);

/// Whether there is a regular file.
[[nodiscard]] bool is_file(const std::string& path);
[[nodiscard]] bool is_folder(const std::string& path);

/// Every .jarful file in a folder and the folders below it, by path; hidden folders are passed
/// over, links to folders are not followed.
[[nodiscard]] std::vector<std::string> files_below(const std::string& folder);

/// The kitchen.jarful beside a file or in a folder above it, up to a folder with a .git or the
/// root; empty if there is none. For "-" the search begins in the current folder.
[[nodiscard]] std::optional<std::string> kitchen_of(const std::string& path);

/// The root of the book that a folder lies in: the nearest folder, it or one above it, with a
/// kitchen.jarful, a house.jarful or a .git; empty if there is none.
/// @param folder an absolute path.
[[nodiscard]] std::optional<std::filesystem::path> book_root(const std::filesystem::path& folder);

/// The folder of a book that holds the records of its batches.
inline constexpr std::string_view records_folder = "batches";

/// A file of the book's own folders that a recipe can be named by.
struct BookEntry {
    std::string name; ///< without the ending
    std::string path; ///< as the user would write it
};
/// Everything that find_recipe finds by a name without a folder, by name; kitchens left out, and
/// nothing is read.
[[nodiscard]] std::vector<BookEntry> book_entries();

/// The house.jarful beside a file or in a folder above it, likewise.
[[nodiscard]] std::optional<std::string> house_of(const std::string& path);

/// Where a recipe's name led.
struct FoundRecipe {
    std::string path; ///< empty if there is none, or more than one
    std::optional<FileFault> fault;
};

/// A recipe by its path, its path without the ending, or its file's name without the ending: in the
/// current folder and in the book (the nearest folder above with a kitchen.jarful), there and in a
/// folder "recipes"; where none of them has it, anywhere in the book's root, but among the records
/// of batches and in hidden folders.
[[nodiscard]] FoundRecipe find_recipe(const std::string& name);

} // namespace jarful::cli
