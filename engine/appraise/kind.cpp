#include "engine/appraise/judge.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>

namespace jarful::appraise {

using larder::Role;
using units::Interval;

namespace {

/// Kinds by what the jar is mostly filled with.
std::string_view family(std::string_view id) {
    static const std::map<std::string_view, std::string_view> table{
        {"cabbage-white", "cabbage"},
        {"cabbage-red", "cabbage"},
        {"cabbage-savoy", "cabbage"},
        {"cabbage-napa", "napa"},
        {"cucumber", "cucumbers"},
        {"cucumber-pickling", "cucumbers"},
        {"carrot", "roots"},
        {"carrot-baby", "roots"},
        {"carrot-black", "roots"},
        {"parsnip", "roots"},
        {"kohlrabi", "roots"},
        {"celeriac", "roots"},
        {"rutabaga", "roots"},
        {"turnip", "radish"},
        {"radish", "radish"},
        {"daikon", "radish"},
        {"radish-icicle", "radish"},
        {"beet", "beets"},
        {"garlic", "garlic"},
        {"green-beans", "green-beans"},
        {"cauliflower", "cauliflower"},
        {"mustard-greens", "mustard-greens"},
        {"onion", "onions"},
        {"onion-pearl", "onions"},
        {"onion-sweet", "onions"},
        {"shallot", "onions"},
        {"tomato-green", "green-tomatoes"},
        {"mushroom", "mushrooms"},
        {"mushroom-brown", "mushrooms"},
        {"mushroom-oyster", "mushrooms"},
        {"olive", "olives"},
        {"lemon", "lemons"},
        {"lime", "lemons"},
        {"pepper-fresh", "peppers"},
        {"pepper-green", "peppers"},
        {"pepper-red", "peppers"},
        {"chilli-green", "peppers"},
        {"chilli-fresh", "peppers"},
        {"chilli", "peppers"},
        {"jalapeno", "peppers"},
        {"serrano", "peppers"},
        {"pepper-wax", "peppers"},
        {"pepper-banana", "peppers"}};
    const auto place = table.find(id);
    return place == table.end() ? "mixed" : place->second;
}

struct Contents {
    std::map<std::string_view, Interval> families;
    Interval all{0.0};
    bool unknown = false;
    std::set<std::string_view> ids;
    double acid = 0, acid_low = 0, water = 0;
    bool vinegar = false, oil = false, gochugaru = false, dressing = false, acid_unknown = false;
    bool sugar_heavy = false;
};

Contents contents_of(const Document& doc) {
    Contents c;
    for (const Reading& r : doc.readings) {
        if (r.line.sort != LineSort::ingredient || r.line.left_out || r.item.material == nullptr)
            continue;
        const larder::Material& m = *r.item.material;
        c.ids.insert(m.id);
        if (m.id == "oil") c.oil = true;
        if (m.id == "gochugaru") c.gochugaru = true;
        if (m.role == Role::acid) {
            c.vinegar = c.vinegar || m.id.starts_with("vinegar");
            if (r.line.grams)
                c.acid += r.line.grams->high, c.acid_low += r.line.grams->low;
            else
                c.acid_unknown = true;
        }
        if (m.role == Role::water && r.line.grams) c.water += r.line.grams->low;
        const bool vegetable = m.role == Role::vegetable || (m.id == "garlic" && false);
        if (!vegetable) continue;
        if (!r.line.grams) {
            c.unknown = true;
            c.families[family(m.id)] = c.families[family(m.id)] + Interval{0.0};
            continue;
        }
        c.families[family(m.id)] = c.families[family(m.id)] + *r.line.grams;
        c.all = c.all + *r.line.grams;
    }
    return c;
}

const larder::Kind* named(std::string_view name) {
    return larder::find_kind(name);
}

} // namespace

Guess guess_kind(const Document& doc, const Totals& t) {
    Guess g;
    const Contents c = contents_of(doc);
    const auto title_says = [&](std::initializer_list<std::string_view> words) {
        std::string folded;
        for (char ch : doc.title)
            folded += ch >= 'A' && ch <= 'Z' ? static_cast<char>(ch + 32) : ch;
        return std::any_of(words.begin(), words.end(),
                           [&](std::string_view w) { return folded.find(w) != std::string::npos; });
    };
    const bool ferments =
        doc.says({"ferment",   "fermented",         "fermenting",   "fermentation",
                  "lacto",     "lactofermented",    "sauerkraut",   "kimchi",
                  "kraut",     "choucroute",        "fermentieren", "brined",
                  "crock",     "airlock",           "burp",         "kvass",
                  "fermenter", "lactofermentation", "milchsauer",   "sour"}) ||
        doc.has("lacto fermented");

    // ---- No ferment at all ----
    const double liquid = c.water + c.acid;
    const double share = liquid > 0 ? c.acid / liquid : 0;
    const double least_share =
        c.acid_low + t.water.high > 0 ? c.acid_low / std::max(1.0, t.water.high) : 0;
    const bool much_vinegar =
        c.acid > 0 &&
        (c.water > 0 ? share >= 0.25 : c.all.high > 0 && c.acid > 0.05 * c.all.middle());
    if (c.acid > 0 && (much_vinegar || least_share > 0.25)) {
        const bool salad = c.oil || title_says({"salad", "slaw", "salat", "salade"});
        g.not_a_ferment = true;
        g.reason =
            salad ? "It is dressed with vinegar or lemon juice" +
                        std::string(c.oil ? " and oil" : "") +
                        ", which is a salad: nothing in it is meant to sour by itself."
                  : fmt::format(
                        "It is soured with vinegar or another acid ({} % of its liquid), not by "
                        "fermenting: it is a vinegar pickle. A salt range for ferments does not "
                        "apply, and the acid is what keeps it: follow a tested recipe.",
                        units::print_number(std::min(1.0, c.water > 0 ? share : 1.0) * 100, 2));
        return g;
    }
    if (title_says({"salad", "slaw", "salat", "salade"}) && !ferments &&
        (c.oil || c.acid > 0 || c.acid_unknown || doc.says({"dressing", "mayonnaise", "mayo"}))) {
        g.not_a_ferment = true;
        g.reason = "It is a salad with a dressing: nothing in it is meant to sour by itself.";
        return g;
    }
    if ((title_says({"quick pickle", "refrigerator pickle", "quick-pickle", "pickled"}) ||
         c.vinegar) &&
        (c.acid_unknown && !ferments)) {
        g.not_a_ferment = true;
        g.reason = "It is soured with vinegar, not by fermenting: a quick pickle.";
        return g;
    }
    const bool cooked = doc.says({"preheat", "oven", "bake", "saute", "roast", "grill", "fry",
                                  "skillet", "backofen", "braten", "four"});
    if (!ferments && (cooked || !t.any_salt)) {
        const bool some = !doc.readings.empty();
        if (some && (cooked || (!t.salt_unknown && c.acid == 0 && t.rates.empty()))) {
            g.not_a_ferment = cooked || c.all.high > 0 || c.unknown;
            if (g.not_a_ferment) {
                g.reason =
                    cooked ? "It is cooked in a pan or an oven and nothing is said of fermenting."
                           : "There is no salt in it, and nothing is said of fermenting.";
                return g;
            }
        }
    }
    if (c.acid > 0 && share > 0.1) g.unsure_ferment = true;
    if (c.acid > 0 && c.water <= 0) g.unsure_ferment = true;

    // ---- Which ferment ----
    const bool water = t.water.high > std::max(30.0, 0.12 * t.vegetables.low) || t.water_guessed ||
                       t.water_unknown ||
                       std::any_of(t.rates.begin(), t.rates.end(), [](const Totals::Rate& r) {
                           return r.of == Whole::water || r.of == Whole::brine;
                       });
    std::string_view lead;
    bool plain = false;
    for (const auto& [name, grams] : c.families) {
        Interval rest{0.0};
        for (const auto& [other, g2] : c.families) {
            if (other != name) rest = rest + g2;
        }
        const bool only = c.families.size() == 1;
        if (only || (!c.unknown && grams.low > 2.0 * rest.high) ||
            (c.unknown && grams.low > 2000 && false)) {
            lead = name;
            plain = true;
        }
    }
    const auto is = [&](std::string_view kind, std::string reason, std::string method = {}) {
        g.kind = named(kind);
        g.reason = std::move(reason);
        g.method = std::move(method);
    };
    if (doc.says({"kimchi", "kimchee", "gimchi"}) &&
        (c.families.contains("napa") || c.families.contains("radish") ||
         c.families.contains("cabbage") || title_says({"kimchi", "kimchee"}))) {
        is("kimchi", "It calls itself kimchi.");
        return g;
    }
    if (title_says({"kvass"}) && c.families.contains("beets")) {
        is("beet-kvass", "It calls itself kvass, and is of beetroot.");
        return g;
    }
    if (title_says({"shalgam", "salgam"})) {
        is("shalgam", "It calls itself shalgam.");
        return g;
    }
    if (c.families.empty()) {
        if (t.vegetables.high > 0) {
            is("garlic", "Garlic is all that the jar holds besides brine and spices.");
            return g;
        }
        if (doc.says({"sauerkraut", "kraut"}) || doc.has("per 5 pounds of cabbage") ||
            std::any_of(doc.readings.begin(), doc.readings.end(), [](const Reading& r) {
                return r.ratio && r.ratio->material && family(r.ratio->material->id) == "cabbage";
            })) {
            if (!water) {
                is("kraut", "It is salt for cabbage, without water.");
                return g;
            }
        }
        g.reason = "No vegetable is named.";
        return g;
    }
    if (!plain) {
        const bool cabbage_most = c.families.contains("cabbage") && !c.unknown &&
                                  c.families.at("cabbage").low > 0.5 * c.all.high;
        if (c.gochugaru && c.families.contains("napa")) {
            is("kimchi", "Napa cabbage with Korean red pepper powder.");
        } else if (cabbage_most && !water && doc.says({"sauerkraut", "kraut", "choucroute"})) {
            is("kraut", "It calls itself kraut, and is mostly cabbage.");
        } else if (c.unknown && c.families.size() > 1) {
            g.reason = "It is a mixture, and how much there is of some of it is not said.";
            is("mixed", "Several vegetables, none of them plainly the most.");
        } else {
            is("mixed", "Several vegetables, none of them plainly the most.");
        }
        return g;
    }
    if (lead == "cabbage") {
        const bool whole = doc.has("whole head") || doc.has("whole cabbage") ||
                           doc.has("heads whole") || title_says({"whole", "heads"});
        if (whole && water)
            is("whole-head", "Whole heads of cabbage in brine.");
        else if (!water)
            is("kraut", "Cabbage with salt and no water: kraut.");
        else if (t.water.high < 0.35 * t.vegetables.low &&
                 doc.says({"sauerkraut", "kraut", "choucroute"}))
            is("kraut", "It calls itself kraut; the water is little.");
        else
            g.reason =
                "Cabbage with a good deal of brine may be kraut, whole heads or mixed pickles.";
        return g;
    }
    if (lead == "napa") {
        if (c.gochugaru)
            is("kimchi", "Napa cabbage with Korean red pepper powder.");
        else
            g.reason = "Napa cabbage with salt may be kimchi or a sort of kraut.";
        return g;
    }
    if (lead == "radish" && water) {
        g.reason = "Radishes or turnips in brine: the range for radish is for dry-salted ones.";
        is("mixed", "Radishes or turnips in brine are judged as mixed vegetables in brine.");
        return g;
    }
    if (lead == "peppers") {
        const bool mash = doc.says({"mash", "blend", "puree", "processor", "blender"}) ||
                          title_says({"hot sauce"});
        if (mash && !water)
            is("pepper-mash", "Ground peppers with salt and no water.");
        else if (!mash && water)
            is("peppers", "Peppers in brine.");
        else if (water)
            is("peppers", "Peppers in brine, blended afterwards.");
        else
            g.reason = "Peppers with salt and no water may be a mash or pieces.";
        return g;
    }
    if (lead == "green-beans" || lead == "mustard-greens") {
        is(lead, lead == "green-beans" ? "Green beans." : "Mustard greens.",
           water ? "in-brine" : "dry-salted");
        return g;
    }
    if (lead == "cucumbers" || lead == "mushrooms") {
        is(lead, lead == "cucumbers" ? "Cucumbers in brine." : "Mushrooms.",
           lead == "cucumbers" || water ? "in-brine" : "dry-salted");
        return g;
    }
    if (lead == "beets" && doc.says({"kvass"})) {
        is("beet-kvass", "Beetroot, and it speaks of kvass.");
        return g;
    }
    if (const larder::Kind* kind = named(lead)) {
        g.kind = kind;
        g.reason = fmt::format("Mostly {}.", kind->title);
        return g;
    }
    g.reason = "What sort of ferment it is cannot be told from the list.";
    return g;
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
