#include "engine/render/counter_report.hpp"
#include "engine/render/jar_words.hpp"
#include "engine/render/text_jars.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/text_weigh.hpp"
#include "engine/render/trace_report.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

using plan::WeighOut;

/// Something that a scale shows, or a number of pieces.
struct Shown {
    std::string name;
    std::string text;
};

std::string item_words(const plan::Item& item, Units units) {
    if (item.too_small) return "too little for the scale";
    std::string words = reading_words(item.reading_g, item.step_g, units);
    if (item.portions.size() > 1) {
        std::vector<std::string> parts;
        for (const plan::Portion& p : item.portions)
            parts.push_back(units::print_reading(p.reading_g, item.step_g));
        words += " in " + std::to_string(parts.size()) + " goes, " + listed(parts);
    }
    if (item.display_g)
        words += ", the display " + units::print_reading(*item.display_g, item.step_g);
    if (item.poured) words += ", poured";
    return words;
}

/// All readings, in the order of the sheet.
std::vector<Shown> readings(const WeighOut& out, Units units) {
    std::vector<Shown> all;
    for (const auto* items : {&out.givens, &out.items})
        for (const plan::Item& item : *items)
            all.push_back({item.name, item_words(item, units)});
    for (const plan::Stock& s : out.stocks) {
        all.push_back({s.salt.name, item_words(s.salt, units)});
        all.push_back({s.water.name, item_words(s.water, units)});
    }
    for (const plan::Count& c : out.counts)
        all.push_back({c.name, std::to_string(c.count) + (c.each_jar ? " each jar" : "")});
    return all;
}

const Shown* find(const std::vector<Shown>& all, const std::string& name) {
    const auto it =
        std::find_if(all.begin(), all.end(), [&](const Shown& s) { return s.name == name; });
    return it == all.end() ? nullptr : &*it;
}

std::string salt_words(const WeighOut& out) {
    return out.salt ? salt_in_short(*out.salt) : std::string("not judged");
}

/// "2.19 to 2.21 %, inside the published range": where it comes from.
std::string salt_before(const WeighOut& out) {
    if (!out.salt) return "not judged";
    return percent(out.salt->figure.percent) + " %, " + verdict_words(*out.salt);
}

void row(Page& page, const std::string& name, const std::string& text) {
    const int width = std::max(12, columns(visible(name)));
    page.row({{.text = name, .width = width, .bold = true},
              {.text = text, .width = page.width() - width - 4}});
}

bool readings_changed(Page& page, const WeighOut* before, const WeighOut& after, Units units) {
    const std::vector<Shown> now = readings(after, units);
    const std::vector<Shown> old =
        before == nullptr ? std::vector<Shown>{} : readings(*before, units);
    bool any = false;
    for (const Shown& s : now) {
        const Shown* was = find(old, s.name);
        if (was != nullptr && was->text == s.text) continue;
        any = true;
        row(page, s.name, was == nullptr ? s.text : was->text + " → " + s.text);
    }
    for (const Shown& s : old) {
        if (find(now, s.name) != nullptr) continue;
        any = true;
        row(page, s.name, s.text + " → left out");
    }
    return any;
}

bool salt_changed(Page& page, const WeighOut* before, const WeighOut& after) {
    const std::string now = salt_words(after);
    if (before == nullptr) {
        row(page, "SALT", now);
        return true;
    }
    if (salt_words(*before) == now) return false;
    const std::string was = salt_before(*before);
    row(page, "SALT", was == salt_before(after) ? now : was + " → " + now);
    return true;
}

bool bounds_changed(Page& page, const WeighOut* before, const WeighOut& after) {
    bool any = false;
    for (std::size_t i = 0; i < after.checks.size(); ++i) {
        const plan::HoldCheck& now = after.checks[i];
        const bool known = before != nullptr && i < before->checks.size();
        if (known ? before->checks[i].verdict == now.verdict : now.verdict == plan::Verdict::inside)
            continue;
        any = true;
        row(page, "BOUND", hold_judged(now));
    }
    return any;
}

/// Sentences that are there now and were not before.
bool sentences_changed(Page& page, const WeighOut* before, const WeighOut& after, Units units) {
    bool any = false;
    const auto say = [&](const std::string& now, const std::string& was) {
        if (now.empty() || now == was) return;
        any = true;
        page.paragraph(now, 2, 4);
    };
    const auto refusal = [&](const WeighOut& out) {
        if (!out.no_reading) return std::string();
        return "NO READING HOLDS for " + out.no_reading->limit +
               ": the numbers are the nearest ones. What would do: " +
               what_would_do(*out.no_reading, units) + ".";
    };
    const WeighOut none;
    const WeighOut& old = before == nullptr ? none : *before;
    say(named_jars(after, units), named_jars(old, units));
    say(chosen_jars_words(after), chosen_jars_words(old));
    say(refusal(after), refusal(old));
    if (old.no_reading && !after.no_reading) say("The readings hold again.", "");
    const auto unplaced = [](const WeighOut& out) {
        return out.bowl && out.bowl->scale.empty()
                   ? std::string("No scale carries that bowl with everything in it.")
                   : std::string();
    };
    say(unplaced(after), unplaced(old));
    return any;
}

void print_change(Page& page, const plan::CounterReply& reply, Units units) {
    if (!reply.after) return;
    const WeighOut* before = reply.before ? &*reply.before : nullptr;
    const WeighOut& after = *reply.after;
    const bool read = readings_changed(page, before, after, units);
    const bool salt = salt_changed(page, before, after);
    const bool bounds = bounds_changed(page, before, after);
    const bool said = sentences_changed(page, before, after, units);
    if (!read && !salt && !bounds && !said) page.paragraph("Nothing changes.");
}

void print_check(Page& page, const WeighOut& out, Units units) {
    row(page, "SALT", salt_words(out));
    if (out.salt && !out.salt->reason.empty()) page.paragraph(stopped(out.salt->reason));
    if (out.salt && !out.salt->decides.empty()) page.paragraph(stopped(out.salt->decides));
    for (const plan::HoldCheck& check : out.checks)
        row(page, "BOUND", hold_judged(check));
    sentences_changed(page, nullptr, out, units);
}

void print_help(Page& page) {
    const auto line = [&](std::string_view usage, std::string_view about) {
        page.row({{.text = std::string(usage), .width = 20, .bold = true},
                  {.text = std::string(about), .width = 54}});
    };
    line("NAME=AMOUNT", "what the scale shows, as in cabbage=1.84kg; of any other line of the "
                        "recipe: what makes it so, as in salt=24g");
    line("jar=NAME,NAME", "what fills these jars; fill=1.2L: what fills so much room");
    for (const plan::CounterWord& word : plan::counter_words())
        line(word.usage, word.about);
}

} // namespace

std::string counter_text(const plan::CounterReply& reply, const TextStyle& style) {
    Page page(style);
    using Sort = plan::CounterReply::Sort;
    switch (reply.sort) {
    case Sort::nothing:
    case Sort::quit:
        break;
    case Sort::changed:
        print_change(page, reply, style.units);
        break;
    case Sort::said:
        break;
    case Sort::check:
        if (reply.after) print_check(page, *reply.after, style.units);
        break;
    case Sort::sheet:
        return reply.after ? weigh_text(*reply.after, style) : std::string();
    case Sort::jars:
        return reply.after ? jars_text(*reply.after, style) : std::string();
    case Sort::why:
        return reply.trace ? trace_in_short(*reply.trace, style) : std::string();
    case Sort::help:
        print_help(page);
        break;
    }
    for (const std::string& note : reply.notes)
        page.paragraph(note);
    return page.text();
}

} // namespace jarful::render
