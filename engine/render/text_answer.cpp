#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"
#include "engine/units/display.hpp"

#include <cmath>

namespace jarful::render {

namespace {

/// "1029 g of cabbage" as the scale shows it, or a total by its exact value.
std::string moved_words(const plan::WeighOut& out, const plan::Answer::Moved& moved, Units units) {
    std::string figure = mass(moved.entered_g, units);
    for (const plan::Item& item : out.givens) {
        if (item.name != moved.name) continue;
        figure = reading_words(moved.entered_g, item.step_g, units);
    }
    return figure + " of " + visible(moved.name);
}

std::string jar_words(const std::vector<std::string>& jars) {
    std::vector<std::string> shown;
    for (const std::string& name : jars)
        shown.push_back(visible(name));
    return listed(shown);
}

} // namespace

std::string answer_words(const plan::WeighOut& out, Units units) {
    if (!out.answer) return "";
    std::vector<std::string> moved;
    for (const plan::Answer::Moved& one : out.answer->moved)
        moved.push_back(moved_words(out, one, units));
    std::string words =
        "Asked: " + visible(out.answer->asked) + ". Answer: take " + listed(moved) + ".";
    if (!out.answer->others_g.empty() && !out.answer->moved.empty()) {
        std::vector<std::string> others;
        for (const double grams : out.answer->others_g)
            others.push_back(mass(grams, units));
        words += " It has other answers too, farther from the recipe: " + listed(others) + " of " +
                 visible(out.answer->moved.front().name) + ".";
    }
    return words;
}

void print_answer(Page& page, const plan::WeighOut& out, Units units) {
    if (out.answer) page.paragraph(answer_words(out, units), 0, 0, true);
}

std::string what_would_do(const plan::NoReading& none, Units units) {
    std::vector<std::string> ways;
    if (none.batch_name && none.batch_g) {
        ways.push_back("a batch from " + mass(none.batch_g.value_or(0), units) + " of " +
                       visible(none.batch_name.value_or("")) + " on");
    }
    if (none.step_g) {
        const double step = none.step_g.value_or(1);
        const bool ounces = units == Units::us && units::reads_ounces(step);
        ways.push_back(
            "a scale that reads " +
            (ounces ? units::print_reading(step, step) : units::print_number(step) + " g") +
            " and is as exact");
    }
    if (none.brine_percent && none.brine_g) {
        const double brine = none.brine_g.value_or(0);
        const Units one = units == Units::us ? units : Units::metric;
        const double salt = brine * none.brine_percent.value_or(0) / 100;
        ways.push_back("weighing the salt as brine, " + mass(brine, one) + " that has " +
                       percent(none.brine_percent.value_or(0)) + " % salt in it, and leaving out " +
                       mass(brine - salt, one) + " of the water");
    }
    if (ways.empty()) return "no larger batch and no finer scale that was tried";
    std::string words;
    for (std::size_t i = 0; i < ways.size(); ++i) {
        words += (i == 0 ? "" : i + 1 == ways.size() ? "; or " : "; ") + ways[i];
    }
    return words;
}

void print_refusal(Page& page, const plan::WeighOut& out, Units units) {
    if (!out.no_reading) return;
    page.heading("NO READING HOLDS");
    page.paragraph("By its exact amounts the recipe keeps " + visible(out.no_reading->limit) +
                   " in bounds, but no number on these scales keeps it there for certain. What "
                   "would do: " +
                   what_would_do(*out.no_reading, units) + ".");
    page.paragraph("The numbers below are the nearest ones, and not to be relied on.");
}

std::string bowl_words(const plan::WeighOut& out, Units units) {
    if (!out.bowl) return "";
    const std::string bowl = "One bowl of " + mass(out.bowl->tare_g, units);
    if (out.bowl->scale.empty())
        return bowl + ": no scale carries it with everything in it, so weigh each thing by itself.";
    return bowl + " on " + visible(out.bowl->scale) +
           ": do not tare it, and wait for what the display shows with each thing.";
}

void print_bowl(Page& page, const plan::WeighOut& out, Units units) {
    if (out.bowl) page.paragraph(bowl_words(out, units), 0, 0);
}

std::string moved_reason(const plan::WeighOut& out) {
    std::string kept = out.salt ? "the salt" : "";
    if (!out.checks.empty())
        kept += kept.empty() ? "the house's bounds" : " and the house's bounds";
    return "not the nearest: keeps " + (kept.empty() ? "the bounds" : kept) + " inside";
}

std::string named_jars(const plan::WeighOut& out, Units units) {
    if (out.chosen_jars.empty() || !out.room) return "";
    const bool one = out.chosen_jars.size() == 1;
    std::string words = (one ? "The jar that you named, " : "The jars that you named, ") +
                        jar_words(out.chosen_jars) + (one ? ", takes " : ", take ") +
                        volume(out.usable_ml, units) + " under the headspace";
    const double spare = out.usable_ml - out.room->fill_ml;
    if (spare < -1e-9 * out.usable_ml) {
        words += ": TOO LITTLE by " + volume(-spare, units);
    } else if (spare > 0.01 * out.usable_ml) {
        words += ", " + volume(spare, units) + " more than it fills";
    }
    return words + ".";
}

} // namespace jarful::render
