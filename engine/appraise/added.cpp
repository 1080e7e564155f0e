#include "engine/appraise/judge.hpp"
#include "engine/appraise/line.hpp"
#include "engine/appraise/text.hpp"
#include "engine/larder/fold.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::appraise {

using larder::Basis;
using larder::Role;
using units::Interval;

namespace {

/// Olives among other vegetables are those of the shop, which bring salt of their own.
void cured_olives(const Document& doc, std::vector<Deed>& all) {
    for (const Reading& r : doc.readings) {
        if (!in_jar(r) || r.item.material->id != "olive") continue;
        const auto tokens = tokens_of(r.line.text);
        if (std::any_of(tokens.begin(), tokens.end(),
                        [](const Token& t) { return t.is.any(Concept::uncured); }))
            continue;
        all.push_back({fmt::format("The olives in {} are likely cured, with salt of their own "
                                   "that nobody states.",
                                   quoted(r.line)),
                       "Leave them out until it is served, or say that they are raw.", false,
                       Deed::Effect::more_salt});
    }
}

/// Water whose amount only the method says, or the jar it fills; the list's "water to cover" is
/// then no estimate of it.
void water_of_the_method(const Document& doc, const Totals& totals, std::vector<Deed>& all) {
    if (!totals.water_guessed || totals.salt.high <= 0) return;
    for (const Added& added : doc.account.added) {
        if (added.material->role != Role::water || !(added.grams > 0)) continue;
        all.push_back({fmt::format("How much water there is stands in the method only: \"{}\".",
                                   beginning(added.sentence, 120)),
                       "Write that amount behind the water of the list, if it all goes in.", false,
                       Deed::Effect::more_water, added.grams});
        return;
    }
    const double most = (totals.vegetables.high + totals.water.high) * 1.05;
    const double vessel_ml = doc.account.vessel_ml ? doc.account.vessel_ml->high : 0;
    if (vessel_ml > most)
        all.push_back({fmt::format("A vessel of {} L is named: filled up, it takes more water than "
                                   "covers the vegetables.",
                                   units::print_number(vessel_ml / 1000, 2)),
                       "Weigh the water you pour in.", false, Deed::Effect::more_water, vessel_ml});
}

/// So much brine is to be made, and the list's water is more or less than that.
void brine_of_the_method(const Document& doc, const Totals& totals, std::vector<Deed>& all) {
    if (!(totals.water.high > 0) || totals.water_guessed || totals.water_unknown) return;
    for (const WaterInMethod& brine : doc.account.brine) {
        // Brine is a little more than its water, and rounded.
        const Interval reach{0.85 * brine.grams.low, 1.1 * brine.grams.high};
        if (brine.conditional || (reach.low <= totals.water.high && reach.high >= totals.water.low))
            continue;
        all.push_back({fmt::format("The method speaks of another amount of brine than the list has "
                                   "water: \"{}\".",
                                   beginning(brine.text, 120)),
                       "Write the water that goes in, all of it, and the salt for it.", false,
                       Deed::Effect::anything});
        return;
    }
}

/// Whether a line of the list is about what the method adds.
bool names(const Document& doc, const Totals& totals, const Added& added) {
    const std::string words = larder::singular(larder::fold(added.words));
    return std::any_of(doc.readings.begin(), doc.readings.end(), [&](const Reading& r) {
        if (r.item.material == nullptr || !r.line.role || r.line.left_out) return false;
        const larder::Material& m = *r.item.material;
        if (added.more) return false;
        // More of it than the whole list has.
        const bool water = added.material->role == Role::water;
        const Interval all = water ? totals.water : totals.vegetables;
        const bool told =
            water ? !totals.water_guessed && !totals.water_unknown : !totals.vegetables_unknown;
        if (told && all.high > 0 && added.grams > 1.1 * all.high) return false;
        if (added.material->role == Role::water) return m.role == Role::water;
        if (&m == added.material) return true;
        if (m.role != added.material->role || is_liquid(*added.material)) return false;
        if (m.role == Role::acid) return true;
        if (m.id == "mixed-vegetables" || added.material->id == "mixed-vegetables") return true;
        // "the cabbage" of a list of napa cabbage.
        const std::string line = larder::singular(larder::fold(r.item.words)) + " " +
                                 larder::singular(larder::fold(m.name)) + " ";
        for (const std::string_view word : larder::words_of(words)) {
            if (word.size() > 3 && line.find(std::string(word) + " ") != std::string::npos)
                return true;
        }
        return false;
    });
}

} // namespace

std::vector<Deed> deeds_that_count(const Document& doc, const Totals& totals,
                                   const larder::Kind* kind, const larder::Ruling* ruling) {
    std::vector<Deed> all = doc.account.deeds;
    for (const Added& added : doc.account.added) {
        if (names(doc, totals, added)) continue;
        all.push_back({fmt::format("The method adds {} that the list does not name: \"{}\".",
                                   added.material->role == Role::vegetable ? "vegetables"
                                                                           : added.material->name,
                                   beginning(added.sentence, 120)),
                       "Write it, with its weight, among the lines of the list.", false,
                       added.material->role == Role::water ? Deed::Effect::more_water
                                                           : Deed::Effect::more_things,
                       added.grams});
    }
    water_of_the_method(doc, totals, all);
    brine_of_the_method(doc, totals, all);
    if (kind == nullptr || kind->name != "olives") cured_olives(doc, all);
    const bool brine = ruling != nullptr && ruling->basis == Basis::of_brine;
    std::erase_if(all, [&](const Deed& deed) { return deed.leaves_brine && brine; });
    return all;
}

void apply(const Deed& one, Totals& t) {
    switch (one.effect) {
    case Deed::Effect::less_salt:
        t.kept.low = 0;
        break;
    case Deed::Effect::more_salt:
        t.more_salt.high = endless;
        break;
    case Deed::Effect::less_brine: {
        const double water = t.water.high;
        const double least = bound("water to cover, least") * t.vegetables.low;
        t.brine.low = water > 0 ? std::min(1.0, least / water) : 0;
        break;
    }
    case Deed::Effect::more_water: {
        const double factor =
            t.water.high > 0 || t.water_guessed ? bound("water to cover, most") : bound("top-up");
        t.more_water.high +=
            one.grams > 0
                ? 1.1 * one.grams
                : (t.vegetables_unknown || t.no_vegetables ? endless : factor * t.vegetables.high);
        break;
    }
    case Deed::Effect::anything:
        t.kept.low = 0;
        t.more_salt.high = endless;
        break;
    case Deed::Effect::more_things:
        t.more_vegetables.high += one.grams > 0 ? 1.1 * one.grams : endless;
        t.more_water.high += one.grams > 0 ? 1.1 * one.grams : endless;
        t.more_salt.high = endless;
        break;
    }
}

} // namespace jarful::appraise
