#include "engine/page/results.hpp"

#include "engine/render/fields/shared.hpp"
#include "engine/units/display.hpp"

#include <cmath>
#include <numbers>

namespace jarful::page {

using namespace fields;

namespace {

constexpr auto problem_fields = fields::fields<Problem>({
    parts<diagnostic, &Problem::found>,
    {"text", maybe(text<&Problem::text>),
     "What was typed, which the place is in; null where it is in a file."},
});
constexpr Shape<Problem> problem{"problem", "A finding in the sentences of the command line.",
                                 table<problem_fields>};
constexpr const char* about_problems = "A fault among them is why there is no answer.";
constexpr const char* about_status =
    "As the exit status of `jarful weigh` or `jarful appraise`: 0 nothing to say, 1 something was "
    "found, 2 not done.";

// ---- Weighing. ----

constexpr auto step_fields = fields::fields<CounterStep>({
    {"title", text<&CounterStep::title>, "What it is about."},
    {"figure", maybe(text<&CounterStep::figure>), "What to wait for; null where there is nothing."},
    {"unit", maybe(text<&CounterStep::unit>), "Of the figure; null for pieces."},
    {"words", texts<&CounterStep::words>, "Sentences and short lines."},
});
constexpr Shape<CounterStep> counter_step{"counter_step", "One thing to do.", table<step_fields>};

std::optional<units::Interval> weighs(const Spoonful& one) {
    if (!one.low_g || !one.high_g) return std::nullopt;
    return units::Interval{*one.low_g, *one.high_g};
}
constexpr auto spoonful_fields = fields::fields<Spoonful>({
    {"name", text<&Spoonful::name>, "Of the quantity."},
    {"text", maybe(text<&Spoonful::text>), "So many spoons; null where that cannot be told."},
    {"low_g", maybe(at_least(0, bounded(low<weighs>))), "The least that these may weigh.", "g"},
    {"high_g", maybe(at_least(0, bounded(high<weighs>))), "The most that these may weigh.", "g"},
    {"warning", maybe(text<&Spoonful::warning>), "What that means; sentences."},
});
constexpr Shape<Spoonful> spoonful{"spoonful", "A quantity by the spoon.", table<spoonful_fields>};

constexpr auto weigh_fields = fields::fields<WeighAnswer>({
    {"status", at_least(0, at_most(2, whole<&WeighAnswer::status>)), about_status},
    {"weigh", maybe(written<&WeighAnswer::weigh>),
     "The document of `jarful weigh --json`: `jarful schema weigh`. Null where it was refused."},
    {"card_html", maybe(text<&WeighAnswer::card_html>),
     "The inside of a card in HTML, as `jarful card` writes it."},
    {"counter", maybe(list<counter_step, &WeighAnswer::counter>), "The card one step at a time."},
    {"calendar", maybe(text<&WeighAnswer::calendar>),
     "An iCalendar file (RFC 5545); null without a first day."},
    {"spoons", maybe(list<spoonful, &WeighAnswer::spoons>),
     "For a reader without a scale; null for one with a scale."},
    {"problems", sure(list<problem, &WeighAnswer::problems>), about_problems},
});
constexpr Shape<WeighAnswer> weigh_answer{"weigh_answer", "About a weigh-out.",
                                          table<weigh_fields>};

constexpr auto appraise_fields = fields::fields<AppraiseAnswer>({
    {"status", at_least(0, at_most(2, whole<&AppraiseAnswer::status>)), about_status},
    {"appraise", maybe(written<&AppraiseAnswer::appraise>),
     "The document of `jarful appraise --json`: `jarful schema appraise`. Null where it was "
     "refused."},
    {"html", maybe(text<&AppraiseAnswer::html>), "The appraisal in HTML."},
    {"problems", sure(list<problem, &AppraiseAnswer::problems>), about_problems},
});
constexpr Shape<AppraiseAnswer> appraise_answer{"appraise_answer", "About a recipe from elsewhere.",
                                                table<appraise_fields>};

// ---- Loading. ----

constexpr auto named_fields = fields::fields<Named>({
    {"name", text<&Named::name>, "Of the quantity."},
    {"label", maybe(text<&Named::label>), "As written in the recipe."},
});
constexpr Shape<Named> named{"named", "A quantity of the recipe.", table<named_fields>};
constexpr auto weight_fields = fields::fields<Named>({
    parts<named, itself<Named>>,
    {"grams", at_least(0, number<&Named::grams>), "By the recipe."},
});
constexpr Shape<Named> named_weight{"named_weight", "A quantity of the recipe and its weight.",
                                    table<weight_fields>};

constexpr auto choice_fields = fields::fields<Grain>({
    {"id", text<&Grain::id>, "Of the larder's entry; a kind's method stands behind a blank."},
    {"name", text<&Grain::name>, "As printed."},
});
constexpr Shape<Grain> offered{"offered", "Something to choose.", table<choice_fields>};

using kitchen::Vessel;
std::optional<double> across_cm(const Vessel& vessel) {
    if (!vessel.area_cm2) return std::nullopt;
    return 2 * std::sqrt(*vessel.area_cm2 / std::numbers::pi);
}
constexpr auto vessel_fields = fields::fields<Vessel>({
    {"name", text<&Vessel::name>, "Of the vessel."},
    {"brimful_ml", at_least(0, number<&Vessel::brimful_ml>), "Up to the rim.", "mL"},
    {"across_cm", maybe(at_least(0, number<across_cm>)), "Inner width of a round one of this area.",
     "cm"},
    {"have", at_least(0, whole<&Vessel::have>), "How many there are."},
});
constexpr Shape<Vessel> vessel_shape{"vessel", "A jar or crock.", table<vessel_fields>};

using kitchen::Scale;
constexpr auto scale_fields = fields::fields<Scale>({
    {"name", text<&Scale::name>, "Of the scale."},
    {"step_g", at_least(0, number<&Scale::step_g>), "What it reads.", "g"},
    {"capacity_g", at_least(0, number<&Scale::capacity_g>), "What it carries.", "g"},
});
constexpr Shape<Scale> scale_shape{"scale", "A scale.", table<scale_fields>};

using kitchen::Kitchen;
constexpr auto units_words = one_of_words({"metric", "us"});
std::string_view units_word(const Kitchen& kitchen) {
    return kitchen.shown == units::Shown::us ? "us" : "metric";
}
std::optional<double> room_celsius(const Kitchen& kitchen) {
    return kitchen::room_celsius(kitchen);
}
constexpr auto kitchen_fields = fields::fields<Kitchen>({
    {"name", text<&Kitchen::name>, "Of the kitchen."},
    {"built_in", flag<&Kitchen::built_in>, "Nobody has described one."},
    {"units", choice<units_words, units_word>,
     "What is written for readers unless they choose otherwise."},
    {"jars", list<vessel_shape, &Kitchen::vessels>, "Jars and crocks."},
    {"scales", list<scale_shape, &Kitchen::scales>, "Scales."},
    {"room_c", maybe(number<room_celsius>), "How warm it is.", "°C"},
});
constexpr Shape<Kitchen> kitchen_shape{"page_kitchen", "The kitchen of a page.",
                                       table<kitchen_fields>};

RecipeHead recipe_of(const LoadedRecipe& loaded) {
    return recipe_head(*loaded.out);
}
constexpr auto recipe_fields = fields::fields<LoadedRecipe>({
    {"recipe", object<recipe_head_shape, recipe_of>},
    {"givens", list<named_weight, &LoadedRecipe::givens>,
     "What is weighed at the counter and can be set."},
    {"totals", list<named_weight, &LoadedRecipe::totals>, "Totals that can be set."},
    {"salts", list<named, &LoadedRecipe::salts>, "Salts that can be asked backwards."},
    {"measures", list<named, &LoadedRecipe::measures>,
     "What is weighed later, and can be set then."},
    {"optional", texts<&LoadedRecipe::optional>, "Names of lines that can be left out."},
    {"kitchen", sure(object<kitchen_shape, &LoadedRecipe::kitchen>)},
    {"salt_grains", list<offered, &LoadedRecipe::grains>,
     "Salts with a figure for a spoon, heaviest first."},
    {"kinds", list<offered, &LoadedRecipe::kinds>, "Kinds of ferment, for appraising."},
});
constexpr Shape<LoadedRecipe> loaded_recipe{"loaded_recipe", "What a page may ask.",
                                            table<recipe_fields>};

bool is_sound(const Loaded& loaded) {
    return loaded.recipe.has_value();
}
constexpr auto loaded_fields = fields::fields<Loaded>({
    {"ok", flag<is_sound>,
     "Whether the recipe can be weighed out; without that there is nothing but problems."},
    sometimes(parts<loaded_recipe, &Loaded::recipe>),
    {"problems", sure(list<problem, &Loaded::problems>), about_problems},
});
constexpr Shape<Loaded> loaded_shape{"loaded", "A recipe that a page is made for.",
                                     table<loaded_fields>};

} // namespace

constexpr Result page_result{"page", "jarful.page/1",
                             "The engine's answer to a question of a page in a browser, about a "
                             "weigh-out or about a recipe from elsewhere. See docs/page.md.",
                             weigh_answer, &appraise_answer};
constexpr Result page_load_result{
    "page_load", "jarful.page-load/1",
    "What the engine says of the recipe that a page is made for. See docs/page.md.", loaded_shape};

std::string page_json(const WeighAnswer& answer) {
    return document(page_result, weigh_answer, answer, Layout::flush);
}

std::string page_json(const AppraiseAnswer& answer) {
    return document(page_result, appraise_answer, answer, Layout::flush);
}

std::string page_load_json(const Loaded& loaded) {
    return document(page_load_result, loaded_shape, loaded, Layout::flush);
}

} // namespace jarful::page
