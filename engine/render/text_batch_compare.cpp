#include "engine/render/batch_compare_report.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <map>

namespace jarful::render {

using tend::days_between;
using tend::print_date;

std::vector<std::string> compared_names(const BatchReport& a, const BatchReport& b) {
    std::vector<std::string> out;
    for (const BatchReport* report : {&a, &b})
        for (const auto* list : {&report->record.planned, &report->record.weighings})
            for (const tend::Weighed& one : *list)
                if (std::find(out.begin(), out.end(), one.name) == out.end())
                    out.push_back(one.name);
    return out;
}

KnownWeight known_weight(const tend::Record& record, const std::string& name) {
    if (const tend::Weighed* weighed = record.weighed(name)) return {weighed, false};
    return {record.plan_of(name), true};
}

std::optional<int> day_of_deed(const tend::Record& record, std::string_view deed) {
    const auto date = record.did(deed);
    if (!date) return std::nullopt;
    return days_between(record.begun, *date);
}

namespace {

std::string amount(const tend::Record& record, const std::string& name, Units units) {
    const KnownWeight known = known_weight(record, name);
    const tend::Weighed* one = known.weighed;
    if (one == nullptr) return "-";
    return (one->pieces ? units::print_number(one->amount, 9) : mass(one->amount, units)) +
           (known.planned              ? " (plan)"
            : one->corrections.empty() ? ""
                                       : " (corrected)");
}

std::string note_words(const tend::Note& note, Units units) {
    std::string out;
    const auto add = [&](const std::string& words) { out += (out.empty() ? "" : ", ") + words; };
    if (note.ph) add("pH " + units::print_number(*note.ph, 4));
    if (note.celsius) add(tend::print_warmth(*note.celsius, units));
    if (note.filled_ml) add("fills " + units::print_volume(*note.filled_ml, units));
    for (const std::string& deed : note.did)
        add(deed);
    if (!note.text.empty()) add(note.text);
    if (!note.corrections.empty()) add(correction_words(note.corrections, units));
    return out;
}

/// Day by day, what was noted of each.
std::map<int, std::pair<std::string, std::string>> days_of(const BatchReport& a,
                                                           const BatchReport& b, Units units) {
    std::map<int, std::pair<std::string, std::string>> out;
    for (const bool first : {true, false}) {
        const tend::Record& record = first ? a.record : b.record;
        for (const tend::Note* note : record.by_date()) {
            auto& cell = out[days_between(record.begun, note->date)];
            std::string& words = first ? cell.first : cell.second;
            words += (words.empty() ? "" : "; ") + note_words(*note, units);
        }
    }
    return out;
}

std::string salt_of(const BatchReport& report) {
    if (!report.made || !report.made->salt) return "not judged";
    const plan::SaltJudgement& salt = *report.made->salt;
    return percents(salt.figure.bounds) + ", " + std::string(plan::describe(salt.verdict));
}

class ComparePage {
  public:
    ComparePage(const BatchReport& a, const BatchReport& b, const TextStyle& style)
        : a_(a)
        , b_(b)
        , units_(style.units)
        , style_(style)
        , page_(style)
        , side_((page_.width() - 22) / 2) {}

    std::string text() {
        page_.heading(a_.record.title == b_.record.title
                          ? a_.record.title
                          : a_.record.title + " and " + b_.record.title);
        row("", a_.name, b_.name, true);
        row("begun", print_date(a_.record.begun), print_date(b_.record.begun));
        if (a_.record.revision != b_.record.revision)
            row("revision", a_.record.revision.substr(0, 10), b_.record.revision.substr(0, 10));
        row("salt", salt_of(a_), salt_of(b_));
        for (const char* deed : {"ready", "move", "end"})
            row(deed, day(a_.record, deed), day(b_.record, deed));
        page_.heading("WEIGHED");
        for (const std::string& name : compared_names(a_, b_))
            row(name, amount(a_.record, name, units_), amount(b_.record, name, units_));
        const auto days = days_of(a_, b_, units_);
        if (!days.empty()) page_.heading("DAY BY DAY");
        int hidden = 0;
        for (const auto& [number, cells] : days) {
            Page one(style_);
            row(one, fmt::format("day {}", number), cells.first, cells.second);
            if (hidden > 0 || !page_.has_room_for(one, 2))
                ++hidden;
            else
                page_.append(one);
        }
        for (const BatchReport* report : {&a_, &b_})
            for (const std::string& remark : report->remarks)
                page_.paragraph(report->name + ": " + stopped(remark), 0, 2);
        page_.more(hidden > 0 ? number_of(hidden, "later day", "later days") : "");
        return page_.text();
    }

  private:
    static std::string day(const tend::Record& record, const char* deed) {
        const auto number = day_of_deed(record, deed);
        return number ? fmt::format("day {}", *number) : "-";
    }

    void row(const std::string& what, const std::string& first, const std::string& second,
             bool bold = false) {
        row(page_, what, first, second, bold);
    }

    void row(Page& page, const std::string& what, const std::string& first,
             const std::string& second, bool bold = false) const {
        page.row({{.text = what, .width = 14, .dim = true},
                  {.text = first, .width = side_, .bold = bold},
                  {.text = second, .width = side_, .bold = bold}});
    }

    const BatchReport& a_;
    const BatchReport& b_;
    Units units_;
    TextStyle style_;
    Page page_;
    int side_;
};

} // namespace

std::string batch_compare_text(const BatchReport& a, const BatchReport& b, const TextStyle& style) {
    return ComparePage(a, b, style).text();
}

} // namespace jarful::render
