#pragma once

#include "engine/larder/convert.hpp"
#include "engine/page/recipe.hpp"
#include "engine/plan/weigh_out.hpp"

#include <optional>
#include <string>
#include <vector>

/// For a reader without a scale: spoons, and how far they may be off. For this room.
namespace jarful::page {

struct Spoonful {
    std::string name;
    std::string text;                    ///< "2 tbsp and 1 3/4 tsp"; empty if it cannot be told
    std::optional<double> low_g, high_g; ///< what so many spoons may weigh
    std::string warning;                 ///< sentences; may be empty
};

/// Everything of a weigh-out that can be measured in spoons: salts, spices and what is poured; not
/// the vegetables.
/// @param grain id of the salt that the reader has; empty: the recipe's.
[[nodiscard]] std::vector<Spoonful> by_the_spoon(const plan::WeighOut& out,
                                                 const PageRecipe& recipe, const std::string& grain,
                                                 larder::Measures measures);

/// The salts that can be measured by the spoon: id and name, heaviest spoon first.
struct Grain {
    std::string id, name;
};
[[nodiscard]] std::vector<Grain> salt_grains();

} // namespace jarful::page
