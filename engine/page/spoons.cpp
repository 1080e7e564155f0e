#include "engine/page/spoons.hpp"

#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::page {

namespace {

using larder::Role;

constexpr double teaspoons_in_tablespoon = 3;

double teaspoon_ml(larder::Measures measures) {
    const units::UnitId id = units::find_unit("tsp").value_or(0);
    const units::Spoons spoons =
        measures == larder::Measures::imperial ? units::Spoons::imperial
        : measures == larder::Measures::metric || measures == larder::Measures::label
            ? units::Spoons::metric
            : units::Spoons::us;
    return units::unit(units::resolve_measure(id, spoons)).factor;
}

/// "1 3/4" for 7 quarters.
std::string quarters(long count) {
    static constexpr const char* parts[] = {"", "1/4", "1/2", "3/4"};
    const std::string whole = count >= 4 ? std::to_string(count / 4) : "";
    const std::string part = parts[count % 4];
    return whole.empty() ? part : part.empty() ? whole : whole + " " + part;
}

std::string spoons_words(long quarter_teaspoons) {
    const long in_tablespoon = std::lround(teaspoons_in_tablespoon * 4);
    const long tablespoons = quarter_teaspoons / in_tablespoon;
    const long rest = quarter_teaspoons % in_tablespoon;
    std::string out = tablespoons > 0 ? std::to_string(tablespoons) + " tbsp" : "";
    if (rest > 0) out += (out.empty() ? "" : " and ") + quarters(rest) + " tsp";
    return out;
}

larder::Larder larder_of(const PageRecipe& recipe) {
    larder::Larder out;
    for (const larder::OwnMaterial& own : recipe.kitchen.materials)
        out.add(own);
    language::Findings known; // they were reported when the recipe was read
    for (const language::Line& line : recipe.document.lines)
        if (const auto* own = std::get_if<language::MaterialLine>(&line.statement))
            out.add(kitchen::read_material(*own, known));
    return out;
}

const larder::Material* salt_by_id(const std::string& id) {
    for (const larder::Material& material : larder::materials())
        if (material.id == id && material.role == Role::salt) return &material;
    return nullptr;
}

/// What the spoons may make of the salt, where all of it is in this one item.
std::string salt_doubt(const plan::WeighOut& out, const plan::Item& item, const Spoonful& spoons) {
    const auto salts = std::count_if(out.items.begin(), out.items.end(), [](const auto& other) {
        return other.role == Role::salt && other.fate == plan::Fate::in_jar;
    });
    if (!out.salt || salts != 1 || !(item.reading_g > 0)) return {};
    const auto percent = [&](double grams) {
        return out.salt->figure.percent * grams / item.reading_g;
    };
    const units::Interval bounds{percent(*spoons.low_g), percent(*spoons.high_g)};
    std::string words = "By the spoon it may be " + render::percents(bounds) + " salt " +
                        std::string(larder::describe(out.salt->figure.basis));
    const bool under = out.salt->low && bounds.low < out.salt->low->percent;
    const bool over = out.salt->high && bounds.high > out.salt->high->percent;
    if (!out.salt->low && !out.salt->high) return words + ".";
    const std::string range = render::range_standing(out.salt->low, out.salt->high) + ", " +
                              render::range_words(out.salt->low, out.salt->high);
    if (!under && !over) return words + ", inside " + range + ".";
    words += under && over ? ", which reaches below and above "
             : under       ? ", which reaches below "
                           : ", which reaches above ";
    return words + range + ". Weigh the salt if you can.";
}

void join(std::string& text, const std::string& more) {
    if (more.empty()) return;
    text += (text.empty() ? "" : " ") + more;
}

} // namespace

std::vector<Spoonful> by_the_spoon(const plan::WeighOut& out, const PageRecipe& recipe,
                                   const std::string& grain, larder::Measures measures) {
    const larder::Larder larder = larder_of(recipe);
    const double spoon = teaspoon_ml(measures);
    std::vector<Spoonful> all;
    for (const plan::Item* item : render::items_in_order(out)) {
        const double grams = item->reading_g > 0 ? item->reading_g : item->exact_g;
        if (item->role == Role::vegetable || item->fate == plan::Fate::later || !(grams > 0))
            continue;
        Spoonful one;
        one.name = item->name;
        const bool salt = item->role == Role::salt;
        const larder::Material* material = salt && !grain.empty() ? salt_by_id(grain) : nullptr;
        if (material == nullptr) {
            material = larder.named(item->material.empty() ? item->name : item->material);
        }
        const auto& density = material == nullptr ? std::nullopt : material->bulk_density;
        if (item->role == Role::water) {
            const double ml = std::round(grams / larder::water_density_20c / 10) * 10;
            one.text = render::volume(ml, render::Units::metric);
            one.low_g = one.high_g = ml * larder::water_density_20c;
        } else if (!density) {
            one.warning = "No figure is known for a spoon of it: weigh it.";
        } else {
            const long count = std::max(1L, std::lround(grams / density->typical / spoon * 4));
            const double ml = static_cast<double>(count) / 4 * spoon;
            one.text = spoons_words(count);
            one.low_g = ml * density->low;
            one.high_g = ml * density->high;
            if (salt) one.warning = salt_doubt(out, *item, one);
        }
        if (salt && material != nullptr)
            join(one.warning, std::string(larder::warning_words(material->warning)));
        all.push_back(std::move(one));
    }
    return all;
}

std::vector<Grain> salt_grains() {
    std::vector<Grain> out;
    for (const larder::SaltGrain& grain : larder::compare_salts(larder::Measures::us))
        if (grain.tablespoon)
            out.push_back({std::string(grain.material->id), std::string(grain.material->name)});
    return out;
}

} // namespace jarful::page
