#pragma once

#include "cli/files.hpp"
#include "engine/kitchen/kitchen.hpp"
#include "engine/language/diagnostic.hpp"
#include "engine/language/inherit.hpp"
#include "engine/language/tree.hpp"
#include "engine/load/load.hpp"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Files as the engine wants them.
namespace jarful::cli {

using load::LoadedFile;
using load::LoadedHouse;
using load::LoadedKitchen;
using load::understood;
using load::with_bases;

/// Reads and parses, with what a recipe inherits from another; what cannot be read is among the
/// findings, without a place.
[[nodiscard]] LoadedFile load(const std::string& path);

/// Which kitchen is named, and in which units a command speaks to people in it: as `--units` said,
/// else as the kitchen says. JSON is in g, mL and °C whatever they say.
struct KitchenWords {
    std::optional<std::string> named;    ///< --kitchen, for all recipes
    std::optional<units::Shown> units{}; ///< --units
    bool json = false;                   ///< --json
};
/// Gives a kitchen these units.
void set_units(kitchen::Kitchen& kitchen, const KitchenWords& words);

/// The house file beside a file or above it, for commands that read no recipe. What is wrong with
/// it is said on standard error.
[[nodiscard]] LoadedHouse load_house(const std::string& beside);

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
