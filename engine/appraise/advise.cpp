#include "engine/appraise/judge.hpp"
#include "engine/appraise/text.hpp"
#include "engine/plan/model.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using units::Interval;

namespace {

void caution(Appraisal& a, std::string_view id) {
    const larder::Caution* c = larder::find_caution(id);
    if (c == nullptr) return;
    if (std::any_of(a.cautions.begin(), a.cautions.end(),
                    [&](const plan::Warning& w) { return w.id == id; }))
        return;
    a.cautions.push_back(
        {std::string(c->id), std::string(c->title), std::string(c->text), std::string(c->source)});
}

bool inside(const Appraisal& a, const Percent& p) {
    if (!p || (!a.low && !a.high)) return false;
    return plan::compare(*p, a.low ? std::optional(a.low->percent) : std::nullopt,
                         a.high ? std::optional(a.high->percent) : std::nullopt) ==
           plan::Verdict::inside;
}

/// A teaspoon where a tablespoon would land inside, and the other way round; salt named twice.
void slips(Appraisal& a, const Document& doc) {
    if (!a.basis || doc.readings.size() > 400) return;
    const bool outside = a.verdict == Verdict::below || a.verdict == Verdict::above;
    std::vector<std::size_t> salts;
    for (std::size_t i = 0; i < doc.readings.size(); ++i) {
        if (in_jar(doc.readings[i]) && doc.readings[i].line.role == Role::salt) salts.push_back(i);
    }
    for (const std::size_t i : salts) {
        const Reading& r = doc.readings[i];
        if (!outside || !r.amount || !r.line.grams || r.amount->measure == nullptr) continue;
        const bool tea = r.amount->measure->unit == "tsp" && a.verdict == Verdict::below;
        const bool table = r.amount->measure->unit == "tbsp" && a.verdict == Verdict::above;
        if (!tea && !table) continue;
        Document other = doc;
        const double factor = tea ? 3.0 : 1.0 / 3.0;
        other.readings[i].line.grams =
            Interval{r.line.grams->low * factor, r.line.grams->high * factor};
        std::vector<std::string> unused;
        if (inside(a, add_up(other, unused).on(*a.basis))) {
            a.advice.push_back(fmt::format("A likely slip: \"{}\" says {} where {} would land "
                                           "inside the range. Ask whoever wrote it; do "
                                           "not guess.",
                                           beginning(r.line.text, 80),
                                           tea ? "teaspoons" : "tablespoons",
                                           tea ? "tablespoons" : "teaspoons"));
        }
    }
    if (salts.size() > 1 && a.verdict != Verdict::not_a_ferment) {
        for (std::size_t i = 1; i < salts.size(); ++i) {
            const Line& one = doc.readings[salts[0]].line;
            const Line& two = doc.readings[salts[i]].line;
            if (!one.amount || !two.amount || one.amount->unit != two.amount->unit ||
                one.amount->low != two.amount->low)
                continue;
            a.advice.push_back(
                fmt::format("Salt stands in it twice with the same amount (lines {} and {}): is it "
                            "the same salt? Both are counted.",
                            one.number, two.number));
        }
    }
}

void next_steps(Appraisal& a) {
    switch (a.verdict) {
    case Verdict::inside:
        a.advice.emplace_back(
            "What to do next: weigh vegetables and salt in grams each time, keep it all under "
            "the brine, and check the pH before you eat.");
        break;
    case Verdict::below:
    case Verdict::above:
        if (a.right_g_per_kg) {
            a.advice.push_back(fmt::format("What to do next: do not use it as it stands. Weigh, "
                                           "and take {} to {} g of salt for each kilogram "
                                           "of {}.",
                                           units::print_number(a.right_g_per_kg->low, 3),
                                           units::print_number(a.right_g_per_kg->high, 3),
                                           a.right_of));
        }
        break;
    case Verdict::undecided:
        if (a.right_g_per_kg) {
            a.advice.push_back(fmt::format("What to do next: weigh, and you need no verdict: {} to "
                                           "{} g of salt for each kilogram of {}.",
                                           units::print_number(a.right_g_per_kg->low, 3),
                                           units::print_number(a.right_g_per_kg->high, 3),
                                           a.right_of));
        }
        break;
    case Verdict::not_a_ferment:
        a.advice.emplace_back(
            "What to do next: follow a tested recipe for what it is, without changing its vinegar, "
            "and keep it in the refrigerator unless that recipe has a canning process.");
        break;
    }
}

/// What is to be said of the salts of a list, and of garlic in oil.
void of_the_things(Appraisal& a, const Document& doc) {
    bool garlic = false;
    bool oil = false;
    bool spooned = false;
    for (const Reading& r : doc.readings) {
        if (!in_jar(r)) continue;
        const larder::Material& m = *r.item.material;
        garlic = garlic || m.id == "garlic" || m.role == Role::vegetable;
        oil = oil || m.id == "oil";
        if (m.role != Role::salt) continue;
        switch (m.warning) {
        case larder::SaltWarning::reduced_sodium:
            caution(a, "reduced-sodium");
            break;
        case larder::SaltWarning::curing:
            caution(a, "curing-salt");
            break;
        case larder::SaltWarning::may_cloud:
        case larder::SaltWarning::not_recommended:
            caution(a, "which-salt");
            break;
        case larder::SaltWarning::none:
            break;
        }
        if (r.amount && !r.amount->weighed() && r.weights.empty() &&
            !r.amount->is(Measure::Sort::percent))
            spooned = true;
    }
    if (spooned) caution(a, "flake-salt");
    for (const Reading& r : doc.readings) {
        // What else is the matter with a line is said there.
        if (r.line.could_matter && r.item.salty_words && r.line.notes.empty()) {
            a.advice.push_back(fmt::format(
                "\"{}\" speaks of a salt that is not known here. Read its label: it must be "
                "plain salt, with no seasoning, nitrite or potassium in it.",
                beginning(r.line.text, 80)));
            caution(a, "which-salt");
        }
    }
    if (oil && garlic) caution(a, "garlic-oil");
}

/// What is to be said of how it is kept.
void of_the_keeping(Appraisal& a, const Document& doc) {
    const bool ferment = a.verdict != Verdict::not_a_ferment;
    if (ferment) {
        if (doc.method_lines >= 2 && !doc.says.any(Concept::under_brine))
            a.advice.emplace_back(
                "The method does not say to keep the vegetables under the brine. They must be.");
        caution(a, "submerged");
    }
    // Of the canning of "canning salt" nothing is kept.
    if (doc.says.any(Concept::shelf) ||
        (doc.says.any(Concept::canning) && !doc.says.any(Concept::canning_salt)))
        caution(a, "canning");
    if (!ferment) return;
    caution(a, "ph");
    caution(a, "discard");
    caution(a, "gas");
    const larder::Kind* kind = a.kind.empty() ? nullptr : larder::find_kind(a.kind);
    if (kind == nullptr) return;
    for (const std::string_view id : kind->cautions)
        caution(a, id);
}

} // namespace

void advise(Appraisal& a, const Document& doc, const Totals& totals) {
    slips(a, doc);
    of_the_things(a, doc);
    of_the_keeping(a, doc);
    if (totals.water_guessed || totals.vegetables.width() > 0.3 * totals.vegetables.high)
        caution(a, "no-weight");
    caution(a, "not-a-certificate");
    const bool bare = std::any_of(doc.readings.begin(), doc.readings.end(), [](const Reading& r) {
        return in_jar(r) && r.amount && r.amount->is(Measure::Sort::volume) &&
               !r.amount->measure->metric_spoon && !r.amount->measure->factor.point();
    });
    if (bare)
        a.assumptions.emplace_back(
            "Spoons and cups are taken from the US ones to the metric ones.");
    next_steps(a);
}

} // namespace jarful::appraise
