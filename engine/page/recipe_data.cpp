#include "engine/page/publish.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

/// schema.org/Recipe, an open vocabulary: https://schema.org/Recipe.
namespace jarful::page {

using Json = nlohmann::ordered_json;

namespace {

std::string spoken(std::string name) {
    std::replace(name.begin(), name.end(), '_', ' ');
    return name;
}

/// "fine sea salt", "white cabbage, cored and shredded, 3 mm": the material where it says more, and
/// how a vegetable is cut.
std::string thing(const std::string& name, const std::string& material, const std::string& label,
                  std::optional<larder::Role> role, plan::Fate fate) {
    std::string out = material.empty() ? spoken(name) : material;
    if (!label.empty() && role == larder::Role::vegetable) out += ", " + label;
    if (fate == plan::Fate::optional) out += " (optional)";
    if (fate == plan::Fate::discarded) out += " (poured off afterwards)";
    return out;
}

std::string line(const plan::Item& item) {
    return units::print_reading(item.reading_g, item.step_g) + " " +
           thing(item.name, item.material, item.label, item.role, item.fate);
}

} // namespace

std::string recipe_data(const plan::WeighOut& weighed) {
    Json ingredients = Json::array();
    for (const plan::Stock& stock : weighed.stocks) {
        ingredients.push_back(line(stock.salt));
        ingredients.push_back(line(stock.water));
    }
    for (const plan::Item* item : render::items_in_order(weighed))
        if (render::on_a_scale(*item) && item->word != "brine") ingredients.push_back(line(*item));
    for (const plan::Count& count : weighed.counts)
        ingredients.push_back(
            std::to_string(count.count) + " " +
            thing(count.name, count.material, count.label, count.role, count.fate));
    Json steps = Json::array();
    for (const plan::MethodLine& method : weighed.method_lines)
        steps.push_back(Json{{"@type", "HowToStep"},
                             {"text", render::sentence(method, render::Units::metric)}});
    Json document{{"@context", "https://schema.org"},
                  {"@type", "Recipe"},
                  {"name", weighed.title},
                  {"inLanguage", "en"}};
    if (weighed.version) document["version"] = *weighed.version;
    if (!weighed.kind_title.empty()) document["recipeCategory"] = weighed.kind_title;
    document["recipeYield"] = render::mass(weighed.in_jar_g, render::Units::metric);
    document["recipeIngredient"] = std::move(ingredients);
    document["recipeInstructions"] = std::move(steps);
    return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace jarful::page
