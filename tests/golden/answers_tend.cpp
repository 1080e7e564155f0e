#include "engine/language/parse.hpp"
#include "engine/tend/identity.hpp"
#include "engine/tend/learn.hpp"
#include "engine/tend/standing.hpp"
#include "tests/golden/answers.hpp"

#include <fmt/core.h>

#include <array>
#include <cstdlib>
#include <sstream>
#include <vector>

namespace jarful::test {

namespace {

using namespace tend;

std::string ids(const char* what, const std::vector<const larder::TimingRow*>& rows) {
    std::string out = rows.empty() ? "" : std::string("; ") + what;
    for (const larder::TimingRow* row : rows)
        out += " " + std::string(row->id);
    return out;
}

/// `KIND METHOD CELSIUS…`, `-` for a method or a temperature that is not known.
std::string of_outlook(const std::string& question) {
    const std::vector<std::string> w = words(question);
    std::string out;
    for (std::size_t i = 2; i < w.size(); ++i) {
        const auto celsius =
            w.at(i) == "-" ? std::nullopt : std::optional(std::strtod(w.at(i).c_str(), nullptr));
        const Outlook o = outlook(w.at(0), w.at(1) == "-" ? "" : w.at(1), celsius);
        out += w.at(i) + " °C: ";
        if (o.window)
            out += fmt::format("day {} to {} by {}{}", o.window->days.from, o.window->days.to,
                               o.window->row->id,
                               o.window->other ? " and " + std::string(o.window->other->id) : "");
        if (o.ph_by)
            out += fmt::format("; pH by day {} by {}{}", o.ph_by->day, o.ph_by->row->id,
                               o.ph_by->general ? ", of any" : "");
        out += ids("warned by", o.warnings);
        // The same at any temperature.
        if (i == 2)
            out += ids("ruling", o.ruling) + ids("beside", o.beside) + ids("store", o.store);
        out += "\n";
    }
    return out;
}

/// `read TEXT`, `days DATE N`, `months DATE N`, `between DATE DATE`, `celsius N`, `id TEXT`.
std::string of_date(const std::string& question) {
    const std::string text = question.substr(std::min(question.find(' ') + 1, question.size()));
    if (question.starts_with("read")) {
        const auto date = read_date(text);
        return date ? print_date(*date) + ", " + print_long_date(*date) : "no day";
    }
    if (question.starts_with("id")) return blob_id(text) + " " + named_uuid(text);
    if (question.starts_with("celsius")) return print_celsius(std::strtod(text.c_str(), nullptr));
    const std::vector<std::string> w = words(question);
    const Date from = read_date(w.at(1)).value();
    const int n = std::atoi(w.at(2).c_str());
    if (w.at(0) == "days") return print_date(add_days(from, n));
    if (w.at(0) == "months") return print_date(add_months(from, n));
    return std::to_string(days_between(from, read_date(w.at(2)).value()));
}

std::string of_schedule(const Schedule& s) {
    std::string out;
    for (const Duty& d : s.duties) {
        out += fmt::format("  {}{}{}:", d.task, d.open_ended ? ", open ended" : "",
                           d.times_a_day > 1 ? fmt::format(", {} a day", d.times_a_day) : "");
        for (const int day : d.days)
            out += fmt::format(" {}", day);
        out += "; before and after:";
        for (const int day : {0, 1, 2, 5, 8, 14, 40}) {
            const auto before = d.due_before(day);
            const auto after = d.due_after(day);
            out += fmt::format(" {}{}{}{}", before ? std::to_string(*before) : "-",
                               d.due_on(day) ? "!" : "<", day,
                               after ? fmt::format("<{}", *after) : "");
        }
        out += "\n";
    }
    out += fmt::format("  ready {}", key(s.ready.from));
    if (s.ready.days) out += fmt::format(" day {} to {}", s.ready.days->from, s.ready.days->to);
    out += ": " + s.ready.why + "\n";
    for (const plan::TextPiece& piece : s.ready.remark)
        out += "    says " + piece.words + "\n";
    out += fmt::format("  keep {} {} {}", s.keeping.where, s.keeping.count, s.keeping.period);
    if (s.keeping.move_day) out += fmt::format(", moved on day {}", *s.keeping.move_day);
    if (s.keeping.keeps_until) out += ", until " + print_date(*s.keeping.keeps_until);
    out += "\n  entries";
    for (const Entry& e : s.entries)
        out += fmt::format(" {}:{}{}", e.day, key(e.what),
                           e.what == EntryWhat::tend ? fmt::format("#{}", e.duty) : "");
    return out + "\n";
}

std::string of_standing(const Standing& s) {
    std::string out = fmt::format(
        "  day {}{}{}{}, last pH {}{}, last {} °C, last note {}\n", s.day,
        s.begun ? "" : ", not begun", s.ended ? ", ended" : "", s.moved ? ", moved" : "",
        digits(s.last_ph), s.last_ph_date ? " on " + print_date(*s.last_ph_date) : "",
        digits(s.last_celsius), s.last_note ? print_date(*s.last_note) : "-");
    for (const Finding& f : s.findings) {
        out += fmt::format("    {}{}{} {}: {}\n", key(f.concern), f.wrong() ? " (wrong)" : "",
                           f.task.empty() ? "" : " " + f.task, f.days_late, f.text);
        if (!f.advice.empty()) out += "      " + f.advice + "\n";
        if (!f.source.empty()) out += "      by " + f.source + "\n";
    }
    return out;
}

std::string of_entries(const std::vector<std::pair<Date, Logged>>& entries) {
    std::string out;
    for (const auto& [date, entry] : entries)
        out += "    " + print_date(date) + " " + print_entry(entry) + "\n";
    return out;
}

/// The lines of a record; `! on DATE` asks how it stands, `! meant WORDS` which entries are meant.
std::string of_batch(const std::string& question) {
    std::string lines;
    std::vector<std::string> asked;
    std::istringstream in(question);
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with("! "))
            asked.push_back(line.substr(2));
        else
            lines += line + "\n";
    }
    language::Findings findings;
    auto source = language::read_source("batch.jarful",
                                        "batch \"Kraut\" of \"kraut.jarful\"\n" + lines, findings);
    const auto document = language::parse(std::move(source).value(), findings);
    const auto record = read_record(document, findings);
    std::string out = told(document.source, findings);
    if (!record) return out + "  no record\n";
    out += print_record(*record);
    for (const Weighed& w : record->weighings)
        out += (w.taken_back ? "taken back: " : "") + print_weighed(w);
    for (const Note& n : record->notes) {
        out += (n.empty() ? "empty: " : "") + print_note(n);
        for (const Correction& c : n.corrections)
            out += "  " + print_correction(c);
    }
    out += of_schedule(standing(*record, record->begun).schedule);
    for (const std::string& one : asked) {
        const std::string rest = one.substr(one.find(' ') + 1);
        out += one + "\n";
        if (one.starts_with("on "))
            out += of_standing(standing(*record, read_date(rest).value()));
        else
            out += of_entries(entries_meant(*record, rest, std::nullopt));
    }
    return out;
}

/// A recipe, and its batches behind lines `== NAME`.
std::string of_lessons(const std::string& question) {
    language::Findings findings;
    std::vector<std::pair<std::string, std::string>> parts{{"recipe", ""}};
    std::istringstream in(question);
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with("== "))
            parts.emplace_back(line.substr(3), "");
        else
            parts.back().second += line + "\n";
    }
    const std::string& text = parts.front().second;
    auto source = language::read_source("kraut.jarful", text, findings);
    const auto recipe = language::parse(std::move(source).value(), findings);
    std::vector<Lesson> lessons;
    for (std::size_t i = 1; i < parts.size(); ++i) {
        auto own = language::read_source(
            "batch.jarful", "batch \"B\" of \"kraut.jarful\"\n" + parts[i].second, findings);
        const auto document = language::parse(std::move(own).value(), findings);
        if (auto record = read_record(document, findings))
            lessons.push_back({parts[i].first, std::move(*record)});
    }
    std::string out = told(recipe.source, findings);
    std::vector<std::string> held_back;
    const auto none = [](std::string_view, const std::string&) { return language::FoundBase{}; };
    const auto proposals = learn(recipe, kitchen::default_kitchen(), lessons, none, held_back);
    for (const Proposal& p : proposals) {
        out += fmt::format("  {}{}: `{}` to `{}`\n    {}\n", p.what, p.added ? ", added" : "",
                           p.old_text, p.new_text, p.meaning);
        for (const std::string& line : p.evidence)
            out += "    " + line + "\n";
    }
    for (const std::string& line : held_back)
        out += "  held back: " + line + "\n";
    return out + with_changes(text, recipe.source, proposals);
}

constexpr std::array all{Sort{"outlooks", of_outlook}, Sort{"dates", of_date},
                         Sort{"batches", of_batch}, Sort{"lessons", of_lessons}};

} // namespace

std::span<const Sort> tend_sorts() {
    return all;
}

} // namespace jarful::test
