#include "engine/render/card.hpp"

#include "engine/render/card_parts.hpp"
#include "engine/render/jar_words.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/weigh_words.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace jarful::render {

namespace {

using plan::Fate;
using plan::Item;
using plan::Verdict;

bool runs_from_right(std::uint32_t c) {
    const auto in = [c](std::uint32_t a, std::uint32_t b) { return c >= a && c <= b; };
    return in(0x590, 0x8ff) || in(0xfb1d, 0xfdff) || in(0xfe70, 0xfefc) || in(0x10800, 0x10fff) ||
           in(0x1e800, 0x1efff);
}

/// A number and its unit stay on one line: the blank between them becomes one that is not broken.
std::string kept_together(std::string_view text) {
    static constexpr std::string_view units[] = {"g",  "kg", "mL",  "L",   "cm", "mm", "%",   "°C",
                                                 "°F", "h",  "min", "day", "lb", "oz", "tsp", "in"};
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool after_digit =
            text[i] == ' ' && i > 0 && text[i - 1] >= '0' && text[i - 1] <= '9';
        const std::string_view rest = text.substr(i + 1);
        const std::string_view word =
            rest.substr(0, std::min(rest.find_first_of(" .,;:)"), rest.size()));
        const bool unit =
            after_digit && std::find(std::begin(units), std::end(units), word) != std::end(units);
        out += unit ? "\xc2\xa0" : text.substr(i, 1);
    }
    return out;
}

std::vector<std::string> all_shown(const std::vector<std::string>& texts) {
    std::vector<std::string> out;
    for (const std::string& text : texts)
        out.push_back(shown(stopped(text)));
    return out;
}

/// A number as the scale shows it, without the unit.
std::string display(double grams, double step_g) {
    std::string figure = units::print_reading(grams, step_g);
    if (figure.ends_with(" g")) figure.resize(figure.size() - 2);
    return figure;
}

/// A name as it is read aloud.
std::string spoken(const std::string& name) {
    std::string out = shown(name);
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

void add_item(CardNumbers& numbers, const plan::WeighOut& out, const Item& item, Units units) {
    const std::vector<plan::Portion> portions = portions_of(item);
    for (std::size_t i = 0; i < portions.size(); ++i) {
        CardNumber row;
        row.figure = display(portions[i].reading_g, item.step_g);
        row.unit = units::reads_ounces(item.step_g) ? "" : "g";
        row.name = spoken(item.name);
        if (portions.size() > 1) {
            row.name += ", go " + std::to_string(i + 1) + " of " + std::to_string(portions.size());
        } else {
            row.truth = reading_between(item.truth, item.step_g, units);
        }
        row.scale = shown(portions[i].scale.empty() ? item.scale : portions[i].scale);
        if (i + 1 == portions.size()) {
            for (const std::string& remark : remarks_of(out, item, units))
                row.beside += (row.beside.empty() ? "" : "; ") + shown(remark);
        }
        numbers.rows.push_back(std::move(row));
    }
}

CardNumbers stock_numbers(const plan::WeighOut& out, const plan::Stock& stock, Units units) {
    CardNumbers numbers;
    numbers.heading = "Mix first: " + shown(stock_title(stock));
    for (const Item* item : {&stock.water, &stock.salt})
        add_item(numbers, out, *item, units);
    numbers.words = shown(stock_words(stock, units));
    return numbers;
}

CardNumbers weigh_numbers(const plan::WeighOut& out, Units units) {
    CardNumbers numbers;
    numbers.heading = "Weigh, in this order";
    for (const Item* item : items_in_order(out)) {
        if (on_a_scale(*item)) add_item(numbers, out, *item, units);
    }
    if (out.bowl) numbers.words = shown(bowl_words(out, units));
    return numbers;
}

CardNumbers count_numbers(const plan::WeighOut& out) {
    CardNumbers numbers;
    numbers.heading = "Count";
    numbers.weighed = false;
    for (const plan::Count& count : out.counts) {
        CardNumber row;
        row.figure = std::to_string(count.count);
        row.name = spoken(count.name);
        std::vector<std::string> remarks;
        if (count.each_jar) remarks.emplace_back("in each jar");
        const std::string material = material_of(count.material, count.name);
        if (!material.empty()) remarks.push_back(material);
        if (count.fate == Fate::optional)
            remarks.emplace_back("if you like it");
        else if (count.fate != Fate::in_jar)
            remarks.emplace_back(plan::describe(count.fate));
        if (std::abs(count.exact - count.count) > 1e-9)
            remarks.push_back("the recipe comes to " + units::print_number(count.exact, 3));
        if (!count.label.empty()) remarks.push_back(count.label);
        for (const std::string& remark : remarks)
            row.beside += (row.beside.empty() ? "" : "; ") + shown(remark);
        numbers.rows.push_back(std::move(row));
    }
    return numbers;
}

CardNumbers by_the_spoon(const plan::WeighOut& out, Units units) {
    CardNumbers numbers;
    numbers.heading = "Too little for the scale: by the spoon";
    for (const Item* item : items_in_order(out)) {
        if (!item->too_small || item->fate == Fate::stock) continue;
        numbers.words += (numbers.words.empty() ? "" : " ") + shown(pinch_words(*item, units));
    }
    return numbers;
}

CardNumbers weighed_later(const plan::WeighOut& out, Units units) {
    CardNumbers numbers;
    numbers.heading = "Weigh later";
    std::vector<std::string> settings;
    for (const Item* item : items_in_order(out)) {
        if (item->fate != Fate::later || item->entered) continue;
        CardNumber row;
        row.unit = units == Units::us ? "oz" : "g";
        row.name = spoken(item->name);
        row.beside = "likely " + masses(item->truth, units);
        const std::string material = material_of(item->material, item->name);
        for (const std::string& more : {material, item->label})
            if (!more.empty()) row.beside += "; " + shown(more);
        settings.push_back(shown(item->name) + "=WEIGHT");
        numbers.rows.push_back(std::move(row));
    }
    if (!settings.empty())
        numbers.words = "What depends on it is then worked out anew: ask for the card again with " +
                        listed(settings) + ".";
    return numbers;
}

std::vector<std::string> what_was_asked(const plan::WeighOut& out, Units units) {
    std::vector<std::string> asked;
    const std::string answer = answer_words(out, units);
    if (!answer.empty()) asked.push_back(shown(answer));
    if (!out.left_out.empty()) asked.push_back(shown("Made without " + listed(out.left_out) + "."));
    return asked;
}

std::vector<std::string> obstacles_of(const plan::WeighOut& out, Units units) {
    std::vector<std::string> found;
    const std::string first = in_the_way(out, units);
    if (!first.empty()) found.push_back(shown(capital(first)));
    if (out.no_reading) {
        found.push_back(shown("By its exact amounts the recipe keeps " + out.no_reading->limit +
                              " in bounds, but no number on these scales keeps it there for "
                              "certain: the numbers here are the nearest, and not to be relied "
                              "on."));
    }
    const bool batch_well = !out.salt || out.salt->verdict == Verdict::inside;
    for (const plan::JarShare& jar : out.jars) {
        // What is wrong with the whole batch is wrong with every jar.
        if (!batch_well || !jar.salt || jar.salt->verdict == Verdict::inside) continue;
        found.push_back(
            shown("Do not pack it into these jars. " + jar.name + ": " + jar_salt_words(jar)));
        break;
    }
    if (out.jar_choice && out.jar_choice->unplaced_ml > 0) {
        found.push_back(std::string(out.jar_choice->by_name ? "These jars" : "The kitchen's jars") +
                        " do not take it all: " + volume(out.jar_choice->unplaced_ml, units) +
                        " (" + mass(out.jar_choice->unplaced_g, units) + ") has no place.");
    }
    return found;
}

CardSalt salt_of(const plan::WeighOut& out) {
    CardSalt card;
    for (const plan::HoldCheck& check : out.checks)
        card.bounds.push_back(shown(capital(loud(check.verdict)) + ": " + hold_words(check)));
    if (!out.salt) {
        card.headline = "not judged";
        card.words.push_back(shown(out.no_salt_reason.empty()
                                       ? "The recipe says no kind of ferment."
                                       : stopped(out.no_salt_reason)));
        return card;
    }
    const plan::SaltJudgement& salt = *out.salt;
    card.judged = true;
    card.headline = shown(salt_headline(salt));
    card.basis = std::string(larder::describe(salt.figure.basis));
    GaugeFigure gauge;
    gauge.batch = salt.figure.bounds;
    if (salt.low) gauge.low = salt.low->percent;
    if (salt.high) gauge.high = salt.high->percent;
    if (!std::isnan(gauge.batch.low) && !std::isnan(gauge.batch.high)) card.gauge = gauge;
    // The headline says all there is to say of what is inside.
    if (salt.verdict != Verdict::inside) {
        for (const std::string& words : salt_reasons(salt))
            card.words.push_back(shown(words));
    }
    for (const auto& variant : salt.variants) {
        if (variant.verdict == Verdict::inside && salt.verdict == Verdict::inside) continue;
        card.words.push_back(shown(capital(variant.text) + ": " + percents(variant.bounds) + ", " +
                                   loud(variant.verdict) + "."));
    }
    return card;
}

JarFigure figure_of_jar(const plan::JarShare& jar) {
    JarFigure figure;
    figure.brimful_ml = jar.brimful_ml;
    figure.weights_ml = jar.weights_ml;
    figure.crock = jar.crock;
    if (!jar.level_cm || !jar.headspace_cm) return figure;
    const double height = *jar.level_cm + *jar.headspace_cm;
    if (!(height > 0)) return figure;
    figure.level_cm = *jar.level_cm;
    figure.width_cm = 2 * std::sqrt(jar.brimful_ml / height / std::numbers::pi);
    return figure;
}

CardPortion portion_of(const plan::WeighOut& out, const AlikeJars& alike) {
    CardPortion portion;
    const std::string first = std::to_string(alike.first + 1);
    const std::string last = std::to_string(alike.first + alike.count);
    portion.title = alike.count == 1 ? "Into jar " + first + ":"
                                     : "Into each of jars " + first +
                                           (alike.count == 2 ? " and " : " to ") + last + ":";
    for (const plan::JarItem& item : weighed_into(out.jars[alike.first]))
        if (!none_of_it(item)) portion.parts.push_back({figure_of(item), spoken(item.name)});
    return portion;
}

/// Jars of one sort, filled alike, though a gram more of something may go into one than the other.
bool of_one_kind(const plan::JarShare& a, const plan::JarShare& b) {
    return a.name == b.name && std::abs(a.fill_ml - b.fill_ml) < 0.5;
}

/// "Jar 1", "Jars 1 and 2", "Jars 1 to 3".
std::string numbered(const AlikeJars& alike) {
    const std::string first = std::to_string(alike.first + 1);
    if (alike.count == 1) return "Jar " + first;
    return "Jars " + first + (alike.count == 2 ? " and " : " to ") +
           std::to_string(alike.first + alike.count);
}

/// The jars' own salt: once where all are inside, otherwise of each and in full where it is not.
void add_salt_of(CardJar& jar, const plan::WeighOut& out, const std::vector<AlikeJars>& all) {
    const auto salt = [&](const AlikeJars& alike) -> const auto& {
        return out.jars[alike.first].salt;
    };
    const auto inside = [&](const AlikeJars& alike) {
        return !salt(alike) || salt(alike)->verdict == Verdict::inside;
    };
    if (from_one_bowl(out) && out.salt && !all.empty())
        jar.salt.push_back(
            shown("Salt of each: that of the bowl, " + verdict_words(*out.salt) + "."));
    const bool well = std::all_of(all.begin(), all.end(), inside);
    for (const AlikeJars& alike : all) {
        if (!salt(alike)) continue;
        std::string words = "Salt of each: " + verdict_words(*salt(alike)) + ".";
        if (!well)
            words = numbered(alike) + ": " +
                    (inside(alike) ? "salt " + verdict_words(*salt(alike)) + "."
                                   : jar_salt_words(out.jars[alike.first]));
        if (std::find(jar.salt.begin(), jar.salt.end(), shown(words)) == jar.salt.end())
            jar.salt.push_back(shown(words));
    }
}

std::vector<CardJar> jars_of(const plan::WeighOut& out, Units units) {
    std::vector<CardJar> jars;
    std::vector<std::vector<AlikeJars>> of_jar;
    const plan::JarShare* before = nullptr;
    for (const AlikeJars& alike : alike_jars(out)) {
        const plan::JarShare& share = out.jars[alike.first];
        if (before == nullptr || !of_one_kind(*before, share)) {
            CardJar jar;
            jar.figure = figure_of_jar(share);
            jar.count = 0;
            jar.level = shown(level_words(share, units));
            jars.push_back(std::move(jar));
            of_jar.emplace_back();
        }
        before = &share;
        CardJar& jar = jars.back();
        jar.count += static_cast<int>(alike.count);
        if (out.jars.size() == 1) continue;
        jar.portions.push_back(portion_of(out, alike));
        of_jar.back().push_back(alike);
    }
    for (std::size_t i = 0; i < jars.size(); ++i)
        add_salt_of(jars[i], out, of_jar[i]);
    std::size_t first = 0;
    for (CardJar& jar : jars) {
        const plan::JarShare& share = out.jars[first];
        const std::string sort = share.crock ? "crock" : "jar";
        jar.title =
            shown((jar.count == 1 ? capital(sort) : std::to_string(jar.count) + " " + sort + "s") +
                  ": " + share.name + ", " + volume(share.brimful_ml, units) + " brimful");
        first += static_cast<std::size_t>(jar.count);
    }
    return jars;
}

/// Whether the jars take it; without jars how much room it takes, and why none is drawn.
std::string room_of(const plan::WeighOut& out, Units units) {
    if (!out.jars.empty()) return shown(named_jars(out, units));
    std::string words = shown(room_words(out, units));
    words += words.empty() ? "" : " ";
    words += "No jar is drawn: ";
    words += !out.room              ? "the recipe does not say what room the batch takes."
             : out.kitchen_built_in ? "there is no kitchen that says which jars there are."
                                    : "none was chosen.";
    return words;
}

void add_sources(Card& card, const plan::WeighOut& out) {
    card.sources = all_shown(out.sources);
    if (out.salt) {
        for (const std::string& words : range_rests_on(*out.salt))
            card.sources.push_back(shown(words));
    }
    std::vector<std::string> named;
    for (const plan::Warning& caution : out.cautions) {
        if (caution.source.empty()) continue;
        if (std::find(named.begin(), named.end(), caution.source) == named.end())
            named.push_back(caution.source);
    }
    if (named.empty()) return;
    std::string words = "The cautions rest on: ";
    for (std::size_t i = 0; i < named.size(); ++i)
        words += (i == 0 ? "" : "; ") + named[i];
    card.sources.push_back(shown(stopped(words)));
}

} // namespace

std::string shown(std::string_view text) {
    std::string out = kept_together(visible(text));
    for (std::string_view rest = out; !rest.empty();) {
        const Character c = first_character(rest);
        if (runs_from_right(c.code)) {
            // First strong isolate … pop directional isolate: what runs from right to left does not
            // turn what stands beside it.
            return "\xe2\x81\xa8" + out + "\xe2\x81\xa9";
        }
        rest.remove_prefix(c.bytes);
    }
    return out;
}

std::string note_of(const CardNumber& number) {
    std::string note = number.beside;
    if (!number.truth.empty())
        note += (note.empty() ? "may really be " : "; may really be ") + number.truth;
    return note;
}

double JarFigure::height_cm() const {
    return width_cm > 0 ? brimful_ml / (std::numbers::pi / 4 * width_cm * width_cm) : 0;
}

Card make_card(const plan::WeighOut& out, const CardTimes& times, Units units) {
    Card card;
    card.units = units;
    card.title = shown(title_words(out));
    card.kind = shown(kind_words(out));
    card.made_from = shown(made_from(out, units));
    card.kitchen =
        out.kitchen_built_in
            ? "No kitchen was found, so one scale is taken as given: 1 g steps up to 5 kg."
            : "Kitchen: " + shown(stopped(out.kitchen));
    card.asked = what_was_asked(out, units);
    card.obstacles = obstacles_of(out, units);
    for (const plan::Stock& stock : out.stocks)
        card.numbers.push_back(stock_numbers(out, stock, units));
    for (CardNumbers numbers : {weigh_numbers(out, units), count_numbers(out),
                                by_the_spoon(out, units), weighed_later(out, units)}) {
        if (!numbers.rows.empty() || !numbers.words.empty())
            card.numbers.push_back(std::move(numbers));
    }
    card.salt = salt_of(out);
    card.jars = jars_of(out, units);
    card.room = room_of(out, units);
    bool looked_after = false;
    for (const plan::MethodLine& line : out.method_lines) {
        looked_after = looked_after || !is_step(line);
        if (is_step(line))
            (looked_after ? card.afterwards : card.method).push_back(shown(sentence(line, units)));
    }
    if (out.top_up) card.top_up = shown(top_up_words(*out.top_up, units));
    add_dates(card, times, units);
    for (const plan::Warning& caution : out.cautions)
        card.cautions.push_back({shown(caution.title), shown(stopped(caution.text))});
    card.assumptions = all_shown(out.assumptions);
    add_sources(card, out);
    return card;
}

} // namespace jarful::render
