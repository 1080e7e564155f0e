#pragma once

#include "cli/files.hpp"
#include "engine/kitchen/kitchen.hpp"
#include "engine/language/diagnostic.hpp"
#include "engine/language/inherit.hpp"
#include "engine/language/tree.hpp"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Files as the engine wants them.
namespace jarful::cli {

/// A file that was read and parsed, whatever came of it.
struct LoadedFile {
    language::Document document; ///< with its source, even where nothing could be parsed
    language::Findings findings;
    bool read = true; ///< whether there was a file to read
    [[nodiscard]] bool ok() const { return !findings.has_faults(); }
};

/// Reads and parses, with what a recipe inherits from another; what cannot be read is among the
/// findings, without a place.
[[nodiscard]] LoadedFile load(const std::string& path);
/// Parses what was read, wherever that was; what it inherits is left to with_bases().
/// @param name the file's name for people.
[[nodiscard]] LoadedFile understood(std::string name, FileContent content);

/// With what a recipe inherits from another.
/// @param path of the file, where `find` looks from.
[[nodiscard]] LoadedFile with_bases(LoadedFile file, const std::string& path,
                                    const language::FindBase& find);

/// The kitchen that belongs to a recipe.
struct LoadedKitchen {
    std::string path; ///< empty for the built-in one; the house's where that is what has faults
    kitchen::Kitchen kitchen;
    LoadedFile file; ///< of one from a file
    [[nodiscard]] bool ok() const { return file.ok(); }
};

/// Which kitchen is named, and in which units a command speaks to people in it: as `--units` said,
/// else as the kitchen says. JSON is in g, mL and °C whatever they say.
struct KitchenWords {
    std::optional<std::string> named;    ///< --kitchen, for all recipes
    std::optional<units::Shown> units{}; ///< --units
    bool json = false;                   ///< --json
};
/// Gives a kitchen these units.
void set_units(kitchen::Kitchen& kitchen, const KitchenWords& words);

/// A kitchen from a file; one that is a recipe is a fault.
[[nodiscard]] LoadedKitchen load_kitchen(const std::string& path);
/// Likewise from a file that was parsed.
[[nodiscard]] LoadedKitchen kitchen_from(std::string path, LoadedFile file);

/// What a book's house file says.
struct LoadedHouse {
    std::shared_ptr<const larder::House>
        house; ///< empty if there is no such file, or it has faults
    std::vector<larder::OwnMaterial> materials;
    bool ok = true; ///< no faults, or no file
};
/// The house file beside a file or above it, for commands that read no recipe. What is wrong with
/// it is said on standard error.
[[nodiscard]] LoadedHouse load_house(const std::string& beside);

/// Gives a kitchen what the house file says: its ranges, and its materials, which the kitchen's own
/// go before. What is wrong with the house file is put with what is wrong with the kitchen.
void add_house(LoadedKitchen& kitchen, const std::string& path, LoadedFile file);

/// Kitchens by path, each read once.
class Kitchens {
  public:
    explicit Kitchens(KitchenWords words)
        : words_(std::move(words)) {}
    /// The kitchen of a recipe: the named one, else the one beside it or above it, else the
    /// built-in one; with the house file beside the recipe or above it, if there is one.
    /// It speaks in the units of set_units().
    [[nodiscard]] const LoadedKitchen& of(const std::string& recipe_path);

  private:
    KitchenWords words_;
    std::map<std::string, LoadedKitchen> known_;
    std::map<std::string, const LoadedKitchen*> by_folder_; ///< so that each is looked for once
};

/// All findings of a file as text on standard error.
void explain_aside(const language::Source& source, const language::Findings& findings);

} // namespace jarful::cli
