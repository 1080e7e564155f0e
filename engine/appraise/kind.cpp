#include "engine/appraise/judge.hpp"
#include "engine/larder/family.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>

namespace jarful::appraise {

using larder::Role;
using units::Interval;

namespace {

/// Kinds by what the jar is mostly filled with.
std::string_view family(const larder::Material& material) {
    const std::string_view family = larder::family_of(material);
    return family.empty() ? "mixed" : family;
}

struct Contents {
    std::map<std::string_view, Interval> families;
    Interval all{0.0};
    bool open = false; ///< there may be more of a vegetable
    bool unknown = false;
    bool unread = false; ///< a line may be a vegetable that nobody here knows
    double acid = 0, acid_low = 0, water = 0;
    bool vinegar = false, oil = false, gochugaru = false, acid_unknown = false;
};

Contents contents_of(const Document& doc) {
    Contents c;
    for (const Reading& r : doc.readings) {
        c.unread = c.unread || r.line.could_matter;
        if (r.line.sort != LineSort::ingredient || r.line.left_out || r.item.material == nullptr)
            continue;
        const larder::Material& m = *r.item.material;
        // What only seals the jar has no amount.
        if (m.id == "oil" && r.amount) c.oil = true;
        if (m.id == "gochugaru") c.gochugaru = true;
        if (m.role == Role::acid) {
            c.vinegar = c.vinegar || m.id.view().starts_with("vinegar");
            if (r.line.grams)
                c.acid += r.line.grams->high, c.acid_low += r.line.grams->low;
            else
                c.acid_unknown = true;
        }
        if (m.role == Role::water && r.line.grams) c.water += r.line.grams->low;
        if (m.role != Role::vegetable) continue;
        if (!r.line.grams) {
            c.unknown = true;
            c.families[family(m)] = c.families[family(m)] + Interval{0.0};
            continue;
        }
        // What has no upper end is never plainly the lesser part.
        const Interval grams = r.open ? Interval{r.line.grams->low, 1e15} : *r.line.grams;
        c.families[family(m)] = c.families[family(m)] + grams;
        c.open = c.open || r.open;
        c.all = c.all + *r.line.grams;
    }
    return c;
}

/// Works out which kind of ferment a recipe from elsewhere is.
class Guesser {
  public:
    Guesser(const Document& doc, const Totals& totals)
        : doc_(doc)
        , totals_(totals)
        , contents_(contents_of(doc)) {
        find_lead();
    }

    Guess run() {
        if ((!cured_lemons() && dressed()) || cooked_or_unsalted()) return std::move(g_);
        const Contents& c = contents_;
        // Without water: by the weight of it all. The measure is ours.
        const bool much = c.water > 0 ? acid_share() > 0.1 : c.acid > 0.04 * c.all.middle();
        if (c.acid > 0 && much) g_.unsure_ferment = !cured_lemons();
        if (!by_name()) {
            if (c.families.empty()) {
                no_vegetable();
            } else if (lead_.empty()) {
                mixture();
            } else {
                by_lead();
            }
        }
        return std::move(g_);
    }

  private:
    [[nodiscard]] bool title_says(Concepts some) const { return doc_.title_says.any(some); }
    [[nodiscard]] bool says(Concepts some) const { return doc_.says.any(some); }

    void is(std::string_view kind, std::string reason, std::string method = {}) {
        g_.kind = larder::find_kind(kind);
        g_.reason = std::move(reason);
        g_.method = std::move(method);
    }

    void may_be(std::vector<std::string_view> kinds, std::string reason) {
        g_.near = kinds.front();
        g_.may_be = std::move(kinds);
        g_.reason = std::move(reason);
    }

    bool is_no_ferment(std::string reason) {
        g_.not_a_ferment = true;
        g_.reason = std::move(reason);
        return true;
    }

    /// The family that is all of the vegetables, or more than twice the others.
    void find_lead() {
        for (const auto& [name, grams] : contents_.families) {
            Interval rest{0.0};
            for (const auto& [other, grams_of_other] : contents_.families)
                if (other != name) rest = rest + grams_of_other;
            if (contents_.families.size() == 1 ||
                (!contents_.unknown && grams.low > 2.0 * rest.high))
                lead_ = name;
        }
    }

    [[nodiscard]] bool ferments() const { return says({Concept::ferment, Concept::kraut}); }

    /// Of the liquid that is weighed, how much is vinegar or juice.
    [[nodiscard]] double acid_share() const {
        const double liquid = contents_.water + contents_.acid;
        return liquid > 0 ? contents_.acid / liquid : 0;
    }

    /// Whether there is brine, or only what the salt draws.
    [[nodiscard]] bool watered() const { return watered(totals_.water.high); }

    [[nodiscard]] bool watered(double water) const {
        const Totals& t = totals_;
        return water > std::max(30.0, 0.12 * t.vegetables.low) || t.water_guessed ||
               t.water_unknown ||
               std::any_of(t.rates.begin(), t.rates.end(), [](const Totals::Rate& r) {
                   return r.of == Whole::water || r.of == Whole::brine;
               });
    }

    // ---- No ferment at all ----

    /// Lemons or limes in salt: a cure, whose juice is no vinegar that somebody adds.
    [[nodiscard]] bool cured_lemons() const {
        // A spoon of oil closes the jar; a salad has less salt.
        const bool much_salt =
            totals_.any_salt && totals_.salt.high > 0.05 * contents_.all.middle();
        return lead_ == "lemons" && !contents_.vinegar && contents_.water <= 0 &&
               (!contents_.oil || much_salt) && (totals_.any_salt || says(Concept::salt));
    }

    bool dressed() {
        const Contents& c = contents_;
        const double least_share =
            totals_.water.high > 0 ? c.acid_low / std::max(1.0, totals_.water.high) : 0;
        const bool much_vinegar =
            c.acid > 0 &&
            (c.water > 0 ? acid_share() >= 0.25 : c.all.high > 0 && c.acid > 0.05 * c.all.middle());
        const bool salad = title_says(Concept::salad);
        // The juice of a lemon or two beside vegetables that are to ferment seasons them.
        const bool seasons = !c.vinegar && !c.oil && ferments() &&
                             (c.unknown || c.unread || c.acid <= 0.25 * c.all.high);
        // A spoon of it over pounds of cabbage sours nothing.
        const bool of_weight = c.all.high <= 0 || c.acid > 0.05 * c.all.middle();
        if (c.acid > 0 && !seasons && (much_vinegar || (least_share > 0.25 && of_weight))) {
            if (c.oil || salad)
                return is_no_ferment(
                    fmt::format("It is dressed with vinegar or lemon juice{}, which is a salad: "
                                "nothing in it is meant to sour by itself.",
                                c.oil ? " and oil" : ""));
            return is_no_ferment(fmt::format(
                "It is soured with vinegar or another acid ({} % of its liquid), not by "
                "fermenting: it is a vinegar pickle. A salt range for ferments does not apply, and "
                "the acid is what keeps it: follow a tested recipe.",
                units::print_number(std::min(1.0, c.water > 0 ? acid_share() : 1.0) * 100, 2)));
        }
        if (salad && !ferments() &&
            (c.oil || c.acid > 0 || c.acid_unknown || says(Concept::dressing)))
            return is_no_ferment(
                "It is a salad with a dressing: nothing in it is meant to sour by itself.");
        if ((title_says(Concept::quick_pickle) || c.vinegar) && c.acid_unknown && !ferments())
            return is_no_ferment("It is soured with vinegar, not by fermenting: a quick pickle.");
        return false;
    }

    bool cooked_or_unsalted() {
        const Totals& t = totals_;
        if (ferments() || doc_.readings.empty()) return false;
        const bool something = contents_.all.high > 0 || contents_.unknown;
        if (doc_.cooks)
            return is_no_ferment(
                "It is cooked in a pan or an oven and nothing is said of fermenting.");
        if (!t.any_salt && !t.salt_unknown && contents_.acid == 0 && t.rates.empty() && something)
            return is_no_ferment("There is no salt in it, and nothing is said of fermenting.");
        return false;
    }

    // ---- Which ferment ----

    bool by_name() {
        const auto& families = contents_.families;
        if (says(Concept::kimchi) &&
            (families.contains("napa") || families.contains("radish") ||
             families.contains("cabbage") || title_says(Concept::kimchi))) {
            is("kimchi", "It calls itself kimchi.");
        } else if (title_says(Concept::kvass) && families.contains("beets")) {
            is("beet-kvass", "It calls itself kvass, and is of beetroot.");
        } else if (title_says(Concept::shalgam)) {
            is("shalgam", "It calls itself shalgam.");
        } else {
            return false;
        }
        return true;
    }

    void no_vegetable() {
        const bool of_cabbage =
            std::any_of(doc_.readings.begin(), doc_.readings.end(), [](const Reading& r) {
                return r.ratio && r.ratio->material && family(*r.ratio->material) == "cabbage";
            });
        if (totals_.vegetables.high > 0) {
            is("garlic", "Garlic is all that the jar holds besides brine and spices.");
        } else if (!watered() && (of_cabbage || says(Concept::kraut))) {
            is("kraut", "It is salt for cabbage, without water.");
        } else {
            g_.reason = "No vegetable is named.";
        }
    }

    void mixture() {
        const Contents& c = contents_;
        const bool cabbage_most = c.families.contains("cabbage") && !c.unknown && !c.open &&
                                  c.families.at("cabbage").low > 0.5 * c.all.high;
        if (c.gochugaru && c.families.contains("napa")) {
            is("kimchi", "Napa cabbage with Korean red pepper powder.");
        } else if (cabbage_most && !watered() && says(Concept::kraut)) {
            is("kraut", "It calls itself kraut, and is mostly cabbage.");
        } else {
            is("mixed", "Several vegetables, none of them plainly the most.");
        }
    }

    void by_lead() {
        const bool water = watered();
        if (lead_ == "cabbage") {
            // What tops up the juice of kraut makes no brine of it.
            cabbage(watered(totals_.water.high - totals_.spare_water));
        } else if (lead_ == "napa") {
            if (contents_.gochugaru)
                is("kimchi", "Napa cabbage with Korean red pepper powder.");
            else
                may_be({"kimchi", "kraut"},
                       "Napa cabbage with salt may be kimchi or a sort of kraut.");
        } else if (lead_ == "radish" && water) {
            // The range for radish is for dry-salted ones.
            is("mixed", "Radishes or turnips in brine are judged as mixed vegetables in brine.");
        } else if (lead_ == "peppers") {
            peppers(water);
        } else if (lead_ == "green-beans" || lead_ == "mustard-greens") {
            is(lead_, lead_ == "green-beans" ? "Green beans." : "Mustard greens.",
               water ? "in-brine" : "dry-salted");
        } else if (lead_ == "cucumbers") {
            is(lead_, "Cucumbers in brine.", "in-brine");
        } else if (lead_ == "mushrooms") {
            is(lead_, "Mushrooms.", water ? "in-brine" : "dry-salted");
        } else if (lead_ == "beets" && says(Concept::kvass)) {
            is("beet-kvass", "Beetroot, and it speaks of kvass.");
        } else if (const larder::Kind* kind = larder::find_kind(lead_)) {
            is(lead_, fmt::format("Mostly {}.", kind->title));
        } else {
            g_.near = "mixed";
            g_.reason = "What sort of ferment it is cannot be told from the list.";
        }
    }

    void cabbage(bool water) {
        const bool whole =
            says(Concept::whole_heads) || title_says({Concept::whole_heads, Concept::whole});
        if (whole && water) {
            is("whole-head", "Whole heads of cabbage in brine.");
        } else if (!water) {
            is("kraut", "Cabbage with salt and no water: kraut.");
        } else if (totals_.water.high < 0.35 * totals_.vegetables.low && says(Concept::kraut)) {
            is("kraut", "It calls itself kraut; the water is little.");
        } else {
            may_be({"kraut", "whole-head", "mixed"},
                   "Cabbage with a good deal of brine may be kraut, whole heads or mixed pickles.");
        }
    }

    void peppers(bool water) {
        const bool mash = says(Concept::mash) || title_says(Concept::hot_sauce);
        if (water) {
            is("peppers", mash ? "Peppers in brine, blended afterwards." : "Peppers in brine.");
        } else if (mash) {
            is("pepper-mash", "Ground peppers with salt and no water: a mash at home.", "home");
        } else {
            may_be({"pepper-mash", "peppers"},
                   "Peppers with salt and no water may be a mash or pieces.");
        }
    }

    const Document& doc_;
    const Totals& totals_;
    Contents contents_;
    std::string_view lead_;
    Guess g_;
};

} // namespace

Guess guess_kind(const Document& doc, const Totals& totals) {
    return Guesser(doc, totals).run();
}

void set_kind(Request& request, std::string_view words) {
    request.kind = words;
    request.method.clear();
    if (words.empty() || larder::find_kind(words) != nullptr) return;
    const std::size_t blank = words.rfind(' ');
    if (blank == std::string_view::npos || larder::find_kind(words.substr(0, blank)) == nullptr)
        return;
    request.kind = words.substr(0, blank);
    request.method = words.substr(blank + 1);
}

} // namespace jarful::appraise
