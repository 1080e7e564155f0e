#pragma once

#include "engine/kitchen/kitchen.hpp"
#include "engine/language/diagnostic.hpp"
#include "engine/language/inherit.hpp"
#include "engine/language/tree.hpp"
#include "engine/plan/plan.hpp"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Files as the engine wants them, wherever their bytes come from: a disk, an editor, git. What
/// belongs together (a recipe, what it is based on, its kitchen and its house file) is put together
/// here and nowhere else, so that a command and an editor say the same of a file.
namespace jarful::load {

/// Why a file could not be read: a code as in docs/diagnostics.md, and two sentences, which do not
/// name the file.
struct FileFault {
    std::string code;
    std::string message;
    std::string advice; ///< may be empty
};

struct FileContent {
    std::string bytes;
    std::optional<FileFault> fault;
};

/// A file that was read and parsed, whatever came of it.
struct LoadedFile {
    language::Document document; ///< with its source, even where nothing could be parsed
    language::Findings findings;
    bool read = true; ///< whether there was a file to read
    [[nodiscard]] bool ok() const { return !findings.has_faults(); }
};

/// Parses what was read, wherever that was; what it inherits is left to with_bases().
/// @param name the file's name for people.
[[nodiscard]] LoadedFile understood(std::string name, FileContent content);

/// With what a recipe inherits from another.
/// @param path of the file, where `find` looks from.
[[nodiscard]] LoadedFile with_bases(LoadedFile file, const std::string& path,
                                    const language::FindBase& find);

/// A file without faults that is something else than a recipe gets one that says so.
void want_recipe(LoadedFile& file);

/// The kitchen that belongs to a recipe.
struct LoadedKitchen {
    std::string path; ///< empty for the built-in one; the house's where that is what has faults
    kitchen::Kitchen kitchen;
    LoadedFile file; ///< of one from a file
    [[nodiscard]] bool ok() const { return file.ok(); }
};

/// What a book's house file says.
struct LoadedHouse {
    std::shared_ptr<const larder::House>
        house; ///< empty if there is no such file, or it has faults
    std::vector<larder::OwnMaterial> materials;
    bool ok = true; ///< no faults, or no file
};
/// What a house file says; what is wrong with it is put with its findings.
[[nodiscard]] LoadedHouse house_from(LoadedFile& file);

/// Reads and parses the file of a path.
using Load = std::function<LoadedFile(const std::string& path)>;
/// The kitchen of these two files, or the built-in one where there is none: with the ranges of the
/// house file, and its materials, which the kitchen's own go before. What is wrong with the house
/// file is put with what is wrong with the kitchen.
[[nodiscard]] LoadedKitchen kitchen_of_files(const std::optional<std::string>& kitchen,
                                             const std::optional<std::string>& house,
                                             const Load& load);

/// What is to be said of a file: `jarful check` and an editor ask here. What is found is added to
/// the file's findings, which are sorted.
/// @param kitchen_of asked for a recipe without faults only.
/// @return what a recipe without faults comes to; empty for every other file.
[[nodiscard]] std::optional<plan::CheckResult>
examine(LoadedFile& file, const std::function<const LoadedKitchen&()>& kitchen_of,
        plan::Reasons reasons = plan::Reasons::all);

} // namespace jarful::load
