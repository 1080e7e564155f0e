#include "engine/language/command_line.hpp"
#include "engine/render/batch_report.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

namespace jarful::render {

using tend::Concern;
using tend::days_between;
using tend::print_date;
using tend::print_long_date;

namespace {

std::string figure(double value) {
    return units::print_number(value, 4);
}

std::string amount(const tend::Weighed& weighed, Units units) {
    return weighed.pieces ? units::print_number(weighed.amount, 9) : mass(weighed.amount, units);
}

/// What was noted, as it stands in the record, or as who reads US units would have noted it.
std::string noted_words(const tend::Logged& entry, Units units) {
    using What = tend::Logged::What;
    const bool us = units == Units::us;
    if (us && entry.what == What::weighed && !entry.pieces)
        return entry.name + " = " + mass(entry.value, units);
    if (us && entry.what == What::temperature)
        return "at " + tend::print_warmth(entry.value, units);
    if (us && entry.what == What::filled) return "filled " + volume(entry.value, units);
    const std::string words = tend::print_entry(entry);
    return entry.what == What::weighed ? words.substr(words.find(' ') + 1) : words;
}

/// How many notes a brief page has at most: the last ones.
constexpr std::size_t last_notes = 4;

void print_finding(Page& page, const tend::Finding& finding) {
    std::string words = capital(finding.text);
    if (!finding.advice.empty()) words += " " + finding.advice;
    if (!finding.source.empty() && finding.wrong() && !page.brief())
        words += " (" + finding.source + ")";
    page.row({{.text = concern_words(finding), .width = 12, .bold = finding.wrong()},
              {.text = words, .width = page.width() - 16}});
}

/// Whether a brief page leaves out a source.
bool has_sources(const std::vector<tend::Finding>& findings) {
    return std::any_of(findings.begin(), findings.end(), [](const tend::Finding& finding) {
        return finding.wrong() && !finding.source.empty();
    });
}

class BatchPage {
  public:
    BatchPage(const BatchReport& report, const TextStyle& style)
        : report_(report)
        , record_(report.record)
        , units_(style.units)
        , style_(style)
        , page_(style) {}

    std::string text() {
        head();
        damage();
        now();
        salt();
        Page weighed(style_);
        weighings(weighed);
        const auto noted = record_.by_date();
        const std::size_t last = page_.brief() ? last_notes : noted.size();
        const std::size_t hidden = noted.size() - std::min(last, noted.size());
        Page notes(style_);
        print_notes(notes, {noted.begin() + static_cast<std::ptrdiff_t>(hidden), noted.end()});
        page_.part("what was weighed", weighed, 4);
        page_.part("what was noted", notes, 3);
        next();
        std::string rest =
            hidden > 0 ? number_of(static_cast<int>(hidden), "earlier note", "earlier notes") : "";
        if (has_sources(report_.standing.findings)) rest += rest.empty() ? "sources" : ", sources";
        page_.more(rest);
        return page_.text();
    }

  private:
    void head() {
        page_.heading(record_.title.empty() ? report_.name : record_.title);
        std::string words =
            "Begun " + print_long_date(record_.begun) + "; " + state_words(report_.standing) + ".";
        if (!record_.vessels.empty()) words += " In: " + listed(record_.vessels) + ".";
        if (!record_.without.empty()) words += " Made without " + listed(record_.without) + ".";
        page_.paragraph(words, 0, 0);
        if (!record_.recipe.empty()) {
            std::string from = "Recipe: " + record_.recipe;
            if (!record_.revision.empty()) from += ", revision " + record_.revision.substr(0, 10);
            page_.paragraph(from + ".", 0, 0);
        }
        for (const std::string& remark : report_.remarks)
            page_.paragraph(stopped(remark), 0, 0);
        for (const std::string& remark : record_.remarks)
            page_.paragraph(stopped(remark), 0, 0);
    }

    void damage() {
        if (report_.damage.empty()) return;
        page_.heading("WHAT COULD NOT BE READ");
        for (const std::string& sentence : report_.damage)
            page_.item("-", stopped(sentence), 2, 4);
    }

    void weighings(Page& page) const {
        std::vector<std::string> names;
        const auto add = [&](const std::string& name) {
            if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
        };
        for (const tend::Weighed& planned : record_.planned)
            add(planned.name);
        for (const tend::Weighed& weighed : record_.weighings)
            add(weighed.name);
        if (names.empty()) return;
        page.heading("WEIGHED");
        page.row({{.text = "what", .width = 16, .dim = true},
                  {.text = "planned", .width = 12, .right = true, .dim = true},
                  {.text = "weighed", .width = 12, .right = true, .dim = true},
                  {.text = "on", .width = 12, .dim = true}});
        for (const std::string& name : names) {
            const tend::Weighed* planned = record_.plan_of(name);
            const tend::Weighed* weighed = record_.weighed(name);
            page.row(
                {{.text = name, .width = 16},
                 {.text = planned ? amount(*planned, units_) : "", .width = 12, .right = true},
                 {.text = weighed ? amount(*weighed, units_) : "-", .width = 12, .right = true},
                 {.text = weighed && weighed->date ? print_date(*weighed->date) : "",
                  .width = 12}});
            for (const tend::Weighed& one : record_.weighings)
                if (one.name == name && !one.corrections.empty())
                    page.paragraph(correction_words(one.corrections, units_), 4, 4);
        }
    }

    void salt() {
        page_.heading("SALT");
        if (!report_.made || !report_.made->salt) {
            page_.paragraph(report_.made && !report_.made->no_salt_reason.empty()
                                ? stopped(report_.made->no_salt_reason)
                                : "It is not judged.");
            return;
        }
        page_.paragraph(salt_in_short(*report_.made->salt));
        // The salt itself, or the brine that brings it.
        std::string name;
        bool weighed = false;
        for (const plan::Item& item : report_.made->items) {
            if (!brings_salt(report_, item)) continue;
            if (name.empty()) name = item.name;
            weighed = weighed || record_.weighed(item.name) != nullptr;
        }
        if (!weighed && !name.empty())
            page_.paragraph("That is the plan: no " + name + " is noted as weighed. `" +
                            language::command_line({"jarful", "batch", "note",
                                                    language::path_word(report_.name), "--weighed",
                                                    name + "=…"}) +
                            "` says what really went in.");
        for (const plan::HoldCheck& check : report_.made->checks)
            if (check.verdict != plan::Verdict::inside) page_.paragraph(hold_judged(check));
    }

    void print_notes(Page& page, const std::vector<const tend::Note*>& notes) const {
        if (notes.empty()) return;
        page.heading("NOTED");
        for (const tend::Note* note : notes) {
            std::vector<std::string> parts;
            if (note->ph) parts.push_back("pH " + figure(*note->ph));
            if (note->celsius) parts.push_back(tend::print_warmth(*note->celsius, units_));
            if (note->filled_ml) parts.push_back("fills " + volume(*note->filled_ml, units_));
            for (const std::string& deed : note->did)
                parts.push_back(deed_words(deed));
            std::string words;
            for (const std::string& part : parts)
                words += (words.empty() ? "" : ", ") + part;
            if (!note->text.empty())
                words += (words.empty() ? "" : ". ") + stopped(capital(note->text));
            if (!note->corrections.empty())
                words += (words.empty() ? "" : ". ") + correction_words(note->corrections, units_);
            page.row({{.text = print_date(note->date), .width = 10, .keep = true},
                      {.text = fmt::format("day {}", days_between(record_.begun, note->date)),
                       .width = 7,
                       .keep = true},
                      {.text = words, .width = page.width() - 23}});
        }
    }

    static std::string deed_words(const std::string& deed) {
        if (deed == "ready") return "ready";
        if (deed == "move") return "moved to the cold";
        if (deed == "end") return "ended";
        const std::string words = small(task_words(deed));
        return "did: " + words.substr(0, words.find(':'));
    }

    static std::string small(std::string words) {
        if (!words.empty() && words[0] >= 'A' && words[0] <= 'Z')
            words[0] = static_cast<char>(words[0] - 'A' + 'a');
        return words;
    }

    void now() {
        page_.heading("ON " + print_date(report_.today));
        if (report_.standing.findings.empty()) {
            page_.paragraph("Nothing is due, and nothing is wrong that the record shows.");
            return;
        }
        for (const tend::Finding& finding : report_.standing.findings)
            print_finding(page_, finding);
    }

    void next() { page_.next(next_words()); }

    [[nodiscard]] std::string next_words() const {
        const tend::Standing& standing = report_.standing;
        for (const tend::Finding& finding : standing.findings)
            if (finding.wrong() && !finding.advice.empty()) // the worst is first
                return (finding.task.empty()   ? ""
                        : finding.task == "ph" ? "pH: "
                                               : finding.task + ": ") +
                       finding.advice;
        const tend::Schedule& schedule = standing.schedule;
        for (const tend::Entry& entry : schedule.entries) {
            if (standing.ended || standing.moved) break;
            if (entry.day <= standing.day) continue;
            const std::string what = entry.what == tend::EntryWhat::tend
                                         ? task_words(schedule.duties[entry.duty].task)
                                         : std::string("look at `jarful tend`");
            return "on " + print_long_date(entry.date) + ": " +
                   stopped(small(what.substr(0, what.find(':'))));
        }
        return "nothing is planned.";
    }

    const BatchReport& report_;
    const tend::Record& record_;
    Units units_;
    TextStyle style_;
    Page page_;
};

/// Findings of all batches under one heading, as many as there is room for.
/// @param kept lines that are kept free for what comes below.
void print_group(Page& page, const TextStyle& style, const std::string& heading,
                 const std::vector<const tend::Finding*>& findings, std::size_t kept) {
    if (findings.empty()) return;
    page.heading(heading);
    int hidden = 0;
    for (const tend::Finding* finding : findings) {
        Page one(style);
        if (finding->wrong())
            print_finding(one, *finding);
        else
            one.item("-", finding->text + (finding->advice.empty() ? "" : " " + finding->advice), 2,
                     4);
        if (hidden > 0 || !page.has_room_for(one, 3 + static_cast<int>(kept)))
            ++hidden;
        else
            page.append(one);
    }
    if (hidden > 0) page.paragraph(std::to_string(hidden) + " more: --full shows them.", 2, 2);
}

} // namespace

std::string correction_words(const std::vector<tend::Correction>& corrections, Units units) {
    std::string out;
    for (const tend::Correction& one : corrections) {
        const std::string words = noted_words(one.before, units);
        out += (out.empty() ? "" : " ") + fmt::format("{} was noted; {} on {}{}.", words,
                                                      one.after ? "corrected" : "taken back",
                                                      print_date(one.date),
                                                      one.why.empty() ? "" : " (" + one.why + ")");
    }
    return out;
}

std::string state_words(const tend::Standing& standing) {
    if (standing.ended) return "ended";
    if (standing.moved) return "in the cold";
    if (!standing.begun)
        return fmt::format("begins in {} {}", -standing.day, standing.day == -1 ? "day" : "days");
    return fmt::format("working, day {}", standing.day);
}

std::string concern_words(const tend::Finding& finding) {
    switch (finding.concern) {
    case Concern::ph_high:
        return "pH TOO HIGH";
    case Concern::salt_low:
        return "SALT LOW";
    case Concern::ph_rising:
        return "pH RISING";
    case Concern::too_cold:
        return "TOO COLD";
    case Concern::too_warm:
        return "TOO WARM";
    case Concern::missed:
        return "OVERDUE";
    case Concern::past_keeping:
        return "TOO OLD";
    case Concern::salt_off:
        return "SALT";
    case Concern::silence:
        return "SILENCE";
    case Concern::due:
        return "due";
    case Concern::unknown:
        break;
    }
    return "unknown";
}

bool brings_salt(const BatchReport& report, const plan::Item& item) {
    const auto& stocks = report.made->stocks;
    return item.role == larder::Role::salt ||
           std::any_of(stocks.begin(), stocks.end(),
                       [&](const plan::Stock& stock) { return stock.name == item.material; });
}

std::string batch_text(const BatchReport& report, const TextStyle& style) {
    return BatchPage(report, style).text();
}

std::string batches_text(const std::vector<BatchReport>& reports, const TextStyle& style) {
    Page page(style);
    if (reports.empty()) {
        page.paragraph("There are no batches. `jarful batch start RECIPE` begins one.", 0, 0);
        return page.text();
    }
    const int rest = page.width() - 54;
    page.row({{.text = "batch", .width = 26, .dim = true},
              {.text = "state", .width = 16, .dim = true},
              {.text = "pH", .width = 4, .right = true, .dim = true},
              {.text = "today", .width = rest, .dim = true}},
             0);
    for (const BatchReport& report : reports) {
        std::string words;
        for (const tend::Finding& finding : report.standing.findings) {
            const std::string word = concern_words(finding);
            if (words.find(word) == std::string::npos) words += (words.empty() ? "" : ", ") + word;
        }
        if (!report.damage.empty()) words += (words.empty() ? "" : ", ") + std::string("DAMAGED");
        page.row({{.text = report.name, .width = 26},
                  {.text = state_words(report.standing), .width = 16},
                  {.text = report.standing.last_ph ? figure(*report.standing.last_ph) : "-",
                   .width = 4,
                   .right = true},
                  {.text = words, .width = rest}},
                 0);
    }
    return page.text();
}

std::string today_text(const std::vector<BatchReport>& reports, tend::Date today,
                       const TextStyle& style) {
    Page page(style);
    page.heading(print_long_date(today));
    std::vector<tend::Finding> all;
    std::size_t working = 0;
    for (const BatchReport& report : reports) {
        working += report.standing.ended ? 0U : 1U;
        for (tend::Finding finding : report.standing.findings) {
            finding.text = report.name + ": " + finding.text;
            tend::add_finding(all, std::move(finding));
        }
        for (const std::string& sentence : report.damage)
            page.paragraph(report.name + ": " + stopped(sentence), 0, 2);
    }
    if (reports.empty()) {
        page.paragraph("There are no batches. `jarful batch start RECIPE` begins one.", 0, 0);
        return page.text();
    }
    if (all.empty()) {
        page.paragraph("Nothing is due today, and nothing is overdue.", 0, 0);
        return page.text();
    }
    std::vector<const tend::Finding*> wrong, due, unknown;
    for (const tend::Finding& finding : all)
        (finding.wrong()                   ? wrong
         : finding.concern == Concern::due ? due
                                           : unknown)
            .push_back(&finding);
    const std::size_t for_due = due.empty() ? 0 : 2 + std::min<std::size_t>(due.size(), 5);
    const std::size_t for_unknown = unknown.empty() ? 0 : 3;
    print_group(page, style, "WRONG OR OVERDUE, the worst first", wrong, for_due + for_unknown);
    print_group(page, style, "DUE TODAY", due, for_unknown);
    print_group(page, style, "NOT KNOWN", unknown, 0);
    page.gap();
    page.paragraph(
        fmt::format("{} {} looked at.", working, working == 1 ? "batch was" : "batches were"), 0,
        0);
    page.more(has_sources(all) ? "sources" : "");
    return page.text();
}

} // namespace jarful::render
