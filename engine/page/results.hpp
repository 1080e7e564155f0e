#pragma once

#include "engine/kitchen/kitchen.hpp"
#include "engine/page/counter_steps.hpp"
#include "engine/page/problems.hpp"
#include "engine/page/spoons.hpp"
#include "engine/plan/weigh_out.hpp"
#include "engine/render/fields/fields.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What the engine says to a page, as plain data and as JSON. For this room, and for whoever asks
/// for the schemas.
namespace jarful::page {

extern const fields::Result page_result;
extern const fields::Result page_load_result;

/// The answer to a question about a weigh-out. What is empty is null.
struct WeighAnswer {
    int status = 0;
    std::string weigh = {}; ///< the document of `weigh`
    std::string card_html = {};
    std::optional<std::vector<CounterStep>> counter = {};
    std::string calendar = {};
    std::optional<std::vector<Spoonful>> spoons = {};
    const std::vector<Problem>* problems = nullptr;
};
/// The answer to a question about a recipe from elsewhere.
struct AppraiseAnswer {
    int status = 0;
    std::string appraise = {}; ///< the document of `appraise`
    std::string html = {};
    const std::vector<Problem>* problems = nullptr;
};
[[nodiscard]] std::string page_json(const WeighAnswer& answer);
[[nodiscard]] std::string page_json(const AppraiseAnswer& answer);

/// A quantity of the recipe.
struct Named {
    std::string name, label;
    double grams = 0; ///< where that is asked for
};
/// What a recipe that can be weighed out has for a page.
struct LoadedRecipe {
    const plan::WeighOut* out = nullptr;
    const kitchen::Kitchen* kitchen = nullptr;
    std::vector<Named> givens, totals, salts, measures;
    std::vector<std::string> optional;
    std::vector<Grain> grains, kinds;
};
struct Loaded {
    std::optional<LoadedRecipe> recipe = {}; ///< empty: it cannot be weighed out
    const std::vector<Problem>* problems = nullptr;
};
[[nodiscard]] std::string page_load_json(const Loaded& loaded);

} // namespace jarful::page
