#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"
#include "engine/render/new_report.hpp"

namespace jarful::fields {

namespace {

using book::WrittenRecipe;
constexpr auto new_salt_fields = fields<WrittenRecipe>({
    {"percent", number<&WrittenRecipe::salt_percent>, "What the recipe puts in."},
    {"basis", choice<basis_words, &WrittenRecipe::basis>},
});
constexpr Shape<WrittenRecipe> new_salt{"new_salt", "The salt of a first recipe.",
                                        table<new_salt_fields>};

constexpr auto written_recipe_fields = fields<WrittenRecipe>({
    {"kind", text<&WrittenRecipe::kind>, "The kind of ferment."},
    {"method", maybe(text<&WrittenRecipe::method>), "Null for a kind that is made in one way."},
    {"salt", object<new_salt, itself<WrittenRecipe>>},
    {"text", text<&WrittenRecipe::text>, "The recipe."},
});
constexpr Shape<WrittenRecipe> written_recipe{"written_recipe", "What was written.",
                                              table<written_recipe_fields>};

using render::NewRecipe;
constexpr auto new_fields = fields<NewRecipe>({
    {"path", text<&NewRecipe::path>,
     "Where it was written; - for standard output, where nothing is written but this."},
    {"title", text<&NewRecipe::title>, "The recipe's."},
    parts<written_recipe, &NewRecipe::written>,
});
constexpr Shape<NewRecipe> new_shape{"new", "A first recipe.", table<new_fields>};

} // namespace

constexpr Result new_result{"new", "jarful.new/1",
                            "The answer of `jarful new --json`. Percentages written 2.2 for 2.2 %.",
                            new_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string new_json(const NewRecipe& recipe) {
    return fields::document(fields::new_result, fields::new_shape, recipe);
}

} // namespace jarful::render
