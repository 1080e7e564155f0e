#include "engine/render/weigh_words.hpp"

#include "engine/render/jar_words.hpp"
#include "engine/render/text_jars.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

using plan::Fate;
using plan::Item;
using plan::Verdict;

namespace {

std::string meaning(Verdict verdict) {
    switch (verdict) {
    case Verdict::below:
        return "Below the range is a safety matter: with too little salt harmful microbes can grow "
               "before the jar is sour.";
    case Verdict::above:
        return "Above the range is a quality matter: it sours slowly or not at all, and it tastes "
               "of salt.";
    case Verdict::inside:
    case Verdict::undecided:
        break;
    }
    return "";
}

bool was_poured(const Item& item) {
    return item.poured;
}

std::string resting_on(const plan::RangeEnd& end) {
    std::string source = end.source.empty() ? "no source" : end.source;
    if (source.starts_with("common practice") && end.status.starts_with("common practice")) {
        return end.status;
    }
    if (source == end.status || source.find(end.status) != std::string::npos) return source;
    return end.status.empty() ? source : source + "; " + end.status;
}

} // namespace

std::vector<const Item*> items_in_order(const plan::WeighOut& out) {
    std::vector<const Item*> items;
    const auto add = [&](const Item& item) {
        const auto same = [&](const Item* other) { return other->name == item.name; };
        if (std::none_of(items.begin(), items.end(), same)) items.push_back(&item);
    };
    for (const Item& item : out.givens)
        add(item);
    for (const Item& item : out.items)
        add(item);
    return items;
}

bool on_a_scale(const Item& item) {
    return item.fate != Fate::stock && !item.too_small &&
           (item.fate != Fate::later || item.entered);
}

std::vector<plan::Portion> portions_of(const Item& item) {
    if (!item.portions.empty() && !item.entered) return item.portions;
    return {plan::Portion{item.scale, item.reading_g}};
}

std::string material_of(const std::string& material, const std::string& name) {
    return material.empty() || material == name ? "" : visible(material);
}

std::string named(const std::string& name, const std::string& material) {
    const std::string known = material_of(material, name);
    return known.empty() ? visible(name) : visible(name) + " (" + known + ")";
}

std::vector<std::string> remarks_of(const plan::WeighOut& out, const Item& item, Units units) {
    std::vector<std::string> remarks;
    if (portions_of(item).size() > 1) {
        remarks.push_back("together " + units::print_reading(item.reading_g, item.step_g) +
                          ", really " + reading_between(item.truth, item.step_g, units));
        if (item.room_g > 0)
            remarks.push_back("in " + std::to_string(portions_of(item).size()) +
                              " goes: " + visible(item.scale) + " takes " +
                              weighed_mass(item.room_g, item.step_g, units) +
                              " at a time as the kitchen uses it");
    }
    const std::string other = beside(item.reading_g, item.step_g, units);
    if (!other.empty()) remarks.push_back(other);
    const std::string material = material_of(item.material, item.name);
    if (!material.empty()) remarks.push_back(material);
    if (!item.label.empty()) remarks.push_back(item.label);
    if (item.fate == Fate::optional) remarks.emplace_back("if you like it");
    if (item.fate == Fate::discarded) remarks.emplace_back("poured off again");
    if (item.fate == Fate::on_top) remarks.emplace_back("as a layer on top");
    if (item.display_g) {
        remarks.push_back("the display shows " +
                          units::print_reading(*item.display_g, item.step_g));
    }
    if (item.moved) remarks.push_back(moved_reason(out));
    if (item.poured) remarks.emplace_back("what really went in, as you say");
    if (item.solved) remarks.emplace_back("worked out from what you asked");
    if (item.entered) remarks.emplace_back("as you entered it");
    if (item.poured || std::abs(item.exact_g - item.reading_g) > 0.02 * std::abs(item.reading_g)) {
        remarks.push_back("the recipe comes to " + units::print_mass(item.exact_g, units.style()));
    }
    if (item.written_ml) {
        std::string words =
            "the recipe says " + volume(*item.written_ml, units == Units::us ? units : Units::both);
        if (item.spread_g) words += ", which may weigh " + masses(*item.spread_g, units);
        remarks.push_back(words);
    } else if (item.spoon_ml) {
        remarks.push_back("by the spoon about " + by_spoon(*item.spoon_ml, units));
    }
    return remarks;
}

std::string pinch_words(const Item& item, Units units) {
    std::string words = named(item.name, item.material) + ": " + mass(item.exact_g, units);
    if (item.spoon_ml) {
        words += ", which is about " + by_spoon(*item.spoon_ml, units);
    } else {
        words += ", about a pinch; a finer scale would show it";
    }
    if (item.fate == Fate::optional) words += "; if you like it";
    if (!item.label.empty()) words += "; " + item.label;
    return words + ".";
}

std::string later_words(const Item& item, Units units) {
    std::string words = named(item.name, item.material) + ": likely " + masses(item.truth, units);
    if (!item.label.empty()) words += "; " + item.label;
    return stopped(words) + " Then add " + visible(item.name) + "=WEIGHT to this command.";
}

std::string title_words(const plan::WeighOut& out) {
    std::string title = out.title.empty() ? "A recipe without a title" : out.title;
    if (out.version) title += ", version " + std::to_string(*out.version);
    return title;
}

std::string kind_words(const plan::WeighOut& out) {
    std::string kind = out.kind;
    if (!out.method.empty()) kind += " " + out.method;
    if (!out.kind_title.empty()) kind += (kind.empty() ? "" : ": ") + out.kind_title;
    return kind.empty() ? kind : stopped(capital(kind));
}

std::string made_from(const plan::WeighOut& out, Units units) {
    const auto open = [](const Item* item) {
        return item->fate == Fate::later && !item->entered && item->word != "measure";
    };
    const std::vector<const Item*> items = items_in_order(out);
    const bool known = std::none_of(items.begin(), items.end(), open);
    double total = out.in_jar_g;
    std::vector<std::string> from;
    for (const Item& item : out.givens)
        from.push_back(weighed_mass(item.reading_g, item.step_g, units) + " of " +
                       visible(item.name));
    std::string words;
    if (units != Units::us || units.finest_g <= 0) {
        if (total >= 1000) total = std::round(total / 10) * 10;
    }
    if (known && total > 0) words = "About " + mass(total, units) + " goes in the jar";
    if (!from.empty()) words += (words.empty() ? "Made from " : ", from ") + listed(from);
    return words.empty() ? "Nothing is weighed." : words + ".";
}

std::string stock_title(const plan::Stock& stock) {
    return visible(stock.name) + ", " + percent(stock.strength_percent) + " % salt " +
           (stock.of_water ? "of the water" : "of the brine");
}

std::string stock_words(const plan::Stock& stock, Units units) {
    std::string words = "Makes " + volume(stock.made_ml, units) + ", which weighs " +
                        mass(stock.made_g, units) + ". " + mass(stock.poured_g, units) +
                        " of it goes in the jar";
    if (stock.left_g < 0) {
        words += ", which is " + mass(-stock.left_g, units) + " MORE than is made: mix more of it";
    } else {
        words += ", " + mass(stock.left_g, units) + " is left over";
    }
    if (!stock.label.empty()) words += "; " + stock.label;
    return words + ".";
}

std::string top_up_words(const plan::TopUp& mix, Units units) {
    const std::string salt = mix.material.empty() ? "salt" : visible(mix.material);
    const std::string unit = units == Units::us ? " oz" : " g";
    std::string words = "Dissolve " + weighed_mass(mix.salt_g, mix.salt_step_g, units) + " of " +
                        salt + " in " + weighed_mass(mix.water_g, mix.water_step_g, units) +
                        " of water, a glass, and pour until everything is under. That is " +
                        percent(mix.percent) + unit + " of salt to 100" + unit + " of water";
    words += mix.stated
                 ? ", as the recipe says."
                 : ". The recipe says nothing, so this is: " +
                       stopped(mix.source.empty() ? "common practice, no source" : mix.source);
    if (mix.before_percent && mix.after_percent &&
        percent(*mix.before_percent) == percent(*mix.after_percent)) {
        words += " One glass leaves the whole jar at " + percent(*mix.after_percent) +
                 " % salt, as it was.";
    } else if (mix.before_percent && mix.after_percent) {
        words += " One glass takes the whole jar from " + percent(*mix.before_percent) + " to " +
                 percent(*mix.after_percent) + " % salt.";
    }
    return words;
}

std::string room_words(const plan::WeighOut& out, Units units) {
    if (!out.room) return chosen_jars_words(out);
    const plan::Room& room = *out.room;
    std::string words = "It fills " + volume(room.fill_ml, units);
    if (room.fill_bounds.width() > 0.02 * std::abs(room.fill_ml) &&
        std::isfinite(room.fill_bounds.width())) {
        const Units one = units == Units::us ? units : Units::metric;
        words += ", from " + volume(room.fill_bounds.low, one) + " to " +
                 volume(room.fill_bounds.high, one);
    }
    words += ".";
    if (room.headspace_percent) {
        words += " Leave " + percent(*room.headspace_percent) + " % of the jar free on top.";
    }
    if (room.headspace_cm) {
        words += " Leave " + units::print_value(*room.headspace_cm, units::dim::length, units) +
                 " free on top.";
    }
    if (room.brimful_ml) {
        words += " A vessel of " + volume(*room.brimful_ml, units) +
                 " brimful would hold it, or several that come to it.";
    }
    for (const std::string& jars : {named_jars(out, units), chosen_jars_words(out)})
        if (!jars.empty()) words += " " + jars;
    return words;
}

std::string in_the_way(const plan::WeighOut& out, Units units) {
    const bool poured = std::any_of(out.givens.begin(), out.givens.end(), was_poured) ||
                        std::any_of(out.items.begin(), out.items.end(), was_poured);
    const auto broken = [](const auto& judged) {
        return judged.verdict == Verdict::below || judged.verdict == Verdict::above;
    };
    if (poured && ((out.salt && broken(*out.salt)) ||
                   std::any_of(out.checks.begin(), out.checks.end(), broken))) {
        // What is in already is mended: another recipe would not take it out again.
        return "do not pack this. Ask `jarful mend` with the same words what to add, so that what "
               "was poured comes inside.";
    }
    if (out.salt && out.salt->verdict == Verdict::below) {
        return "do not pack this. Raise the salt in the recipe until it comes inside " +
               range_words(out.salt->low, out.salt->high) + ", and ask again.";
    }
    if (out.salt && out.salt->verdict == Verdict::above) {
        return "lower the salt in the recipe until it comes inside " +
               range_words(out.salt->low, out.salt->high) + ", and ask again.";
    }
    for (const plan::HoldCheck& check : out.checks) {
        if (check.verdict == Verdict::below || check.verdict == Verdict::above) {
            return "the house's own bound on " + check.text +
                   " is broken. Change the recipe or the bound, and ask again.";
        }
    }
    if (out.no_reading) {
        return "do not weigh by these numbers. What would do: " +
               what_would_do(*out.no_reading, units) + ".";
    }
    if (out.salt && out.salt->verdict == Verdict::undecided) {
        return "settle the salt. " +
               (out.salt->decides.empty() ? "Use a finer scale, or a larger batch."
                                          : stopped(capital(out.salt->decides))) +
               (poured ? " Or ask `jarful mend` with the same words." : "");
    }
    for (const plan::HoldCheck& check : out.checks) {
        if (check.verdict == Verdict::undecided && !check.decides.empty()) {
            return "settle the bound on " + check.text + ". " + stopped(capital(check.decides));
        }
    }
    return "";
}

std::string weigh_in_words(const std::string& scale, const std::string& what, double reading_g,
                           double step_g) {
    return "put the bowl on " + (scale.empty() ? "the scale" : visible(scale)) + ", zero it, add " +
           visible(what) + " until it shows " + units::print_reading(reading_g, step_g) + ".";
}

namespace {

std::string wait_for(const Item& item, bool begun) {
    if (item.display_g) {
        return std::string(begun ? "leave the bowl on " : "put the empty bowl on ") +
               visible(item.scale) + ", do not zero it, and add " + visible(item.name) +
               " until it shows " + units::print_reading(*item.display_g, item.step_g) + ".";
    }
    const plan::Portion first = portions_of(item).front();
    return weigh_in_words(first.scale.empty() ? item.scale : first.scale, item.name,
                          first.reading_g, item.step_g);
}

} // namespace

std::string next_words(const plan::WeighOut& out, Units units) {
    std::string obstacle = in_the_way(out, units);
    if (!obstacle.empty()) return obstacle;
    obstacle = jars_in_the_way(out, units);
    if (!obstacle.empty()) return obstacle;
    const std::vector<const Item*> items = items_in_order(out);
    const bool begun = std::any_of(items.begin(), items.end(), [](const Item* other) {
        return other->display_g && (other->entered || other->poured);
    });
    if (!out.stocks.empty()) return wait_for(out.stocks.front().water, begun) + " Then the salt.";
    for (const Item* item : items) {
        if (on_a_scale(*item) && !item->poured) return wait_for(*item, begun);
    }
    return "pack the jar, press until the juice covers, and write the date on it.";
}

std::string salt_headline(const plan::SaltJudgement& salt) {
    return percent(salt.figure.percent) + " % " + std::string(larder::describe(salt.figure.basis)) +
           ", " + verdict_words(salt);
}

std::vector<std::string> salt_reasons(const plan::SaltJudgement& salt) {
    std::vector<std::string> out;
    if (!salt.reason.empty()) out.push_back(stopped(salt.reason));
    const std::string matter = meaning(salt.verdict);
    const bool said = salt.reason.find("safety matter") != std::string::npos ||
                      salt.reason.find("quality matter") != std::string::npos;
    if (!matter.empty() && !said) out.push_back(matter);
    if (!salt.decides.empty()) out.push_back("What would decide it: " + stopped(salt.decides));
    return out;
}

std::vector<std::string> range_rests_on(const plan::SaltJudgement& salt) {
    if (salt.low && salt.high && salt.low->source == salt.high->source &&
        salt.low->status == salt.high->status) {
        return {"The range, " + range_words(salt.low, salt.high) +
                ", rests on: " + stopped(resting_on(*salt.low))};
    }
    std::vector<std::string> out;
    if (salt.low) {
        out.push_back("Its low end, " + percent(salt.low->percent) +
                      " %, rests on: " + stopped(resting_on(*salt.low)));
    }
    if (salt.high) {
        out.push_back("Its high end, " + percent(salt.high->percent) +
                      " %, rests on: " + stopped(resting_on(*salt.high)));
    }
    return out;
}

std::string loud(Verdict verdict) {
    std::string word(plan::describe(verdict));
    if (verdict == Verdict::inside) return word;
    std::transform(word.begin(), word.end(), word.begin(),
                   [](char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 32) : c; });
    return word;
}

std::string hold_words(const plan::HoldCheck& check) {
    std::string words = stopped(hold_in_short(check));
    if (!check.why.empty()) words += " " + stopped(capital(check.why));
    if (check.verdict != Verdict::inside) {
        if (!check.reason.empty()) words += " " + stopped(check.reason);
        if (!check.decides.empty()) words += " What would decide it: " + stopped(check.decides);
    }
    return words;
}

std::string length(double cm, Units units) {
    // A tenth of a centimetre, or of an inch, is as near as a jar can be measured.
    const double tenth = units == Units::us ? 0.254 : 0.1;
    const double shown = std::round(cm / tenth) * tenth;
    return units::print_value(shown, units::dim::length, units);
}

} // namespace jarful::render
