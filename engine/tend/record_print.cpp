#include "engine/tend/record.hpp"
#include "engine/tend/schedule.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <cmath>

namespace jarful::tend {

namespace {

/// A text of the language on one line: control characters and line breaks become blanks.
std::string quoted(std::string_view text, bool braces) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (braces && (c == '{' || c == '}')) out += c;
        out += static_cast<unsigned char>(c) < 0x20 || c == 0x7F ? ' ' : c;
    }
    return out + '"';
}

std::string words(const plan::RichText& text) {
    std::string out;
    for (const plan::TextPiece& piece : text)
        out += piece.words;
    return out;
}

std::string amount(const Weighed& weighed) {
    const std::string figure = units::print_number(weighed.amount, 9);
    return weighed.pieces ? figure : figure + " g";
}

std::string interval(double seconds) {
    struct Unit {
        double seconds;
        const char* word;
    };
    for (const Unit& unit : {Unit{86'400, "day"}, Unit{3600, "h"}, Unit{60, "min"}}) {
        const double count = seconds / unit.seconds;
        if (count >= 1 && std::abs(count - std::round(count)) < 1e-9)
            return fmt::format("{} {}{}", static_cast<long long>(std::round(count)), unit.word,
                               unit.seconds == 86'400 && count > 1.5 ? "s" : "");
    }
    return units::print_number(seconds / 60, 9) + " min";
}

std::string method_line(const plan::MethodLine& line) {
    using Sort = plan::MethodLine::Sort;
    std::string out;
    if (line.sort == Sort::tend) {
        out = "tend " + line.task;
        if (line.on_day) {
            out += fmt::format(" on day {}", *line.on_day);
        } else {
            out += " every " + interval(line.seconds.value_or(86'400));
            if (line.from_day) out += fmt::format(" from day {}", *line.from_day);
            if (line.to_day) out += fmt::format(" to day {}", *line.to_day);
        }
    } else if (line.sort == Sort::ready) {
        out = fmt::format("ready day {}", line.from_day.value_or(0));
        if (line.to_day) out += fmt::format(" to day {}", *line.to_day);
        if (line.from_kelvin) {
            std::string from = print_celsius(*line.from_kelvin - units::zero_celsius);
            // The unit at the end serves both.
            if (line.to_kelvin) from.resize(from.size() - std::string_view(" °C").size());
            out += " at " + from;
        }
        if (line.to_kelvin) out += " to " + print_celsius(*line.to_kelvin - units::zero_celsius);
    } else {
        out = fmt::format("keep {} for {} {}", line.task, line.count, line.period);
        if (line.count != 1) out += "s";
    }
    const std::string text = words(line.text);
    if (!text.empty()) out += " " + quoted(text, true);
    return out + "\n";
}

} // namespace

std::string print_record(const Record& record) {
    std::string out =
        "batch " + quoted(record.title, false) + " of " + quoted(record.recipe, false);
    if (!record.revision.empty()) out += " revision " + quoted(record.revision, false);
    out += "\nbegun " + print_date(record.begun) + "\n";
    if (!record.kind.empty())
        out += "kind " + record.kind + (record.method.empty() ? "" : " " + record.method) + "\n";
    if (record.room_celsius) out += "room " + print_celsius(*record.room_celsius) + "\n";
    for (const std::string& name : record.vessels)
        out += "vessel " + name + "\n";
    for (const std::string& name : record.without)
        out += "left_out " + name + "\n";
    for (const std::string& remark : record.remarks)
        out += "note " + quoted(remark, false) + "\n";
    out += "\n# The plan.\n";
    for (const Weighed& planned : record.planned)
        out += "planned " + planned.name + " = " + amount(planned) + "\n";
    for (const plan::MethodLine& line : record.tending)
        out += method_line(line);
    return out + "\n# What was really done. Lines are only added.\n";
}

std::string print_entry(const Logged& entry) {
    using What = Logged::What;
    switch (entry.what) {
    case What::weighed:
        return "weighed " + entry.name + " = " +
               amount(
                   {.name = entry.name, .amount = entry.value, .pieces = entry.pieces, .date = {}});
    case What::ph:
        return "pH " + units::print_number(entry.value, 4);
    case What::temperature:
        return "at " + print_celsius(entry.value);
    case What::filled:
        return "filled " + units::print_number(entry.value, 7) + " mL";
    case What::deed:
        return "did " + entry.words;
    case What::text:
        break;
    }
    return quoted(entry.words, false);
}

std::string print_correction(const Correction& correction) {
    std::string after = "nothing";
    if (correction.after) {
        // The word that says what it is stands before the old one.
        after = print_entry(*correction.after);
        const bool worded = correction.before.what != Logged::What::text;
        if (correction.before.what == Logged::What::weighed)
            after.erase(0, after.find('=') + 2);
        else if (worded)
            after.erase(0, after.find(' ') + 1);
    }
    return "corrected " + print_date(correction.date) + " " + print_entry(correction.before) +
           " on " + print_date(correction.of) + " to " + after +
           (correction.why.empty() ? "" : " " + quoted(correction.why, false)) + "\n";
}

std::string print_weighed(const Weighed& weighed) {
    return "weighed " + weighed.name + " = " + amount(weighed) + " on " +
           print_date(weighed.date.value_or(Date{})) + "\n";
}

std::string print_note(const Note& note) {
    std::string out = "noted " + print_date(note.date);
    if (note.ph) out += " pH " + units::print_number(*note.ph, 4);
    if (note.celsius) out += " at " + print_celsius(*note.celsius);
    if (note.filled_ml) out += " filled " + units::print_number(*note.filled_ml, 7) + " mL";
    for (std::size_t i = 0; i < note.did.size(); ++i)
        out += (i == 0 ? " did " : ", ") + note.did[i];
    if (!note.text.empty()) out += " " + quoted(note.text, false);
    return out + "\n";
}

} // namespace jarful::tend
