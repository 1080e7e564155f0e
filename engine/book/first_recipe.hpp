#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/larder/house.hpp"
#include "engine/larder/larder.hpp"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// A recipe to begin with.
namespace jarful::book {

/// What is said of it. Everything but the kind has a default.
struct FirstRecipe {
    std::string title;
    std::string kind;                ///< "kraut", or with its method "green-beans dry-salted"
    std::vector<std::string> with;   ///< "carrot=6%", "caraway=1.5g/kg", "bay=1/kg", "hot=2"
    std::optional<std::string> salt; ///< "2.2%", on the basis of the ruling range
    std::shared_ptr<const larder::House> house = nullptr; ///< of the book it is written for
    std::vector<larder::OwnMaterial> materials = {};      ///< of that house
};

struct WrittenRecipe {
    std::string text; ///< tidy, and it checks clean
    std::string kind, method;
    larder::Basis basis = larder::Basis::of_vegetables;
    double salt_percent = 0; ///< of that basis
};

/// Writes a first recipe with remarks that teach the language. Its salt is what the larder takes as
/// typical of the kind, or the middle of the ruling range, which is the house's where it has one;
/// the range and its source stand beside it. Empty, with faults that have no place, if the kind is
/// unknown or needs a method, if nothing says how much salt it takes, if an addition cannot be
/// read, or if the salt would not be inside the range.
[[nodiscard]] std::optional<WrittenRecipe> first_recipe(const FirstRecipe& wish,
                                                        language::Findings& findings);

/// A file's name for a title: small ASCII letters, digits and hyphens, at most 60, ending in
/// ".jarful". Accents of Western Europe are dropped; never a folder, a hidden file, or the name of
/// a kitchen or a house file. "recipe.jarful" if nothing is left.
[[nodiscard]] std::string file_name(std::string_view title);

} // namespace jarful::book
