#include "engine/language/command_line.hpp"
#include "engine/language/explain.hpp"
#include "engine/render/check_report.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

using plan::Verdict;

class Screen {
  public:
    Screen(const CheckSummary& sum, const TextStyle& style)
        : sum_(sum)
        , style_(style)
        , page_(style) {}

    std::string text() {
        judged("BELOW the range: a safety matter", sum_.shown.below, sum_.below);
        judged("UNDECIDED", sum_.shown.undecided, sum_.undecided);
        judged("ABOVE the range: a quality matter", sum_.shown.above, sum_.above);
        faulty();
        not_judged();
        const bool quiet = page_.text().empty();
        if (!quiet) page_.gap();
        page_.paragraph(in_all(), 0, 0);
        if (!quiet || sum_.recipes == 0) page_.paragraph("Next: " + check_next(sum_), 0, 6, true);
        return page_.text();
    }

  private:
    void more(std::size_t shown, int all) {
        const int rest = all - static_cast<int>(shown);
        if (rest > 0) page_.paragraph(std::to_string(rest) + " more: --full shows them.", 2, 2);
    }

    void judged(const std::string& title, const std::vector<CheckedFile>& files, int all) {
        if (files.empty()) return;
        page_.heading(title);
        for (const CheckedFile& file : files)
            one(file);
        more(files.size(), all);
    }

    /// What is out of bounds in a file, a line each.
    void one(const CheckedFile& file) {
        const plan::CheckResult& result = *file.result;
        bool named = false;
        const auto row = [&](const std::string& words) {
            page_.row({{.text = named ? "" : file.path, .width = 27},
                       {.text = words, .width = page_.width() - 31}});
            named = true;
        };
        if (result.salt && result.salt->verdict != Verdict::inside) {
            const plan::SaltJudgement& salt = *result.salt;
            row("salt " +
                (salt.verdict == Verdict::undecided ? percents(salt.figure.bounds)
                                                    : percent(salt.figure.percent) + " %") +
                " " + std::string(larder::describe(salt.figure.basis)) + "; the range is " +
                range_words(salt.low, salt.high));
        }
        for (const plan::HoldCheck& check : result.checks)
            if (check.verdict != Verdict::inside)
                row("your limit: " + stopped(hold_in_short(check)));
    }

    void faulty() {
        const std::vector<CheckedFile>& files = sum_.shown.faulty;
        if (files.empty()) return;
        page_.heading("FAULTY, so not judged");
        for (const CheckedFile& file : files) {
            if (&file == &files.front()) {
                first_fault(file);
                continue;
            }
            page_.row({{.text = file.path, .width = 27},
                       {.text = file.findings.empty() ? "it cannot be read"
                                                      : file.findings.front().message,
                        .width = page_.width() - 31}});
        }
        more(files.size(), sum_.faulty);
    }

    /// The first fault of the first file as it stands there; the rest of them follow from it
    /// mostly.
    void first_fault(const CheckedFile& file) {
        if (file.findings.empty()) return page_.paragraph(file.path + " cannot be read.");
        const auto fault =
            std::find_if(file.findings.begin(), file.findings.end(), [](const auto& finding) {
                return finding.severity == language::Severity::fault;
            });
        const std::string words = language::explain(
            file.source, fault == file.findings.end() ? file.findings.front() : *fault,
            {.colour = style_.colour});
        for (std::size_t begin = 0; begin < words.size();) {
            const std::size_t end = std::min(words.find('\n', begin), words.size());
            page_.raw("  " + words.substr(begin, end - begin));
            begin = end + 1;
        }
        if (file.findings.size() > 1) {
            page_.paragraph(
                number_of(static_cast<int>(file.findings.size()) - 1, "more finding",
                          "more findings") +
                " in it: " +
                language::command_line({"jarful", "check", language::path_word(file.path)}));
        }
    }

    void not_judged() {
        const std::vector<CheckedFile>& files = sum_.shown.not_judged;
        if (files.empty()) return;
        page_.heading("NOT JUDGED");
        for (const CheckedFile& file : files) {
            const bool said = file.result && !file.result->no_salt_reason.empty();
            page_.row({{.text = file.path, .width = 27},
                       {.text = said ? file.result->no_salt_reason : "it says no kind of ferment",
                        .width = page_.width() - 31}});
        }
        more(files.size(), sum_.not_judged);
    }

    /// "27 files: 1 below, …": every file is in one of the numbers.
    [[nodiscard]] std::string in_all() const {
        std::vector<std::string> parts;
        const auto add = [&](int number, const std::string& words) {
            if (number > 0) parts.push_back(std::to_string(number) + " " + words);
        };
        const bool all_inside = sum_.recipes > 0 && sum_.inside == sum_.recipes && sum_.faulty == 0;
        if (all_inside) {
            parts.push_back(number_of(sum_.recipes, "recipe, inside its range",
                                      "recipes, all inside their range"));
        } else {
            add(sum_.below, "below");
            add(sum_.undecided, "undecided");
            add(sum_.above, "above");
            add(sum_.faulty - sum_.unread, "with faults");
            add(sum_.unread, "not read");
            add(sum_.not_judged, "not judged");
            add(sum_.inside, "inside");
        }
        if (sum_.kitchens > 0) parts.push_back(number_of(sum_.kitchens, "kitchen", "kitchens"));
        if (sum_.houses > 0) parts.push_back(number_of(sum_.houses, "house file", "house files"));
        if (sum_.records > 0)
            parts.push_back(number_of(sum_.records, "batch record", "batch records"));
        std::string words;
        for (const std::string& part : parts)
            words += (words.empty() ? "" : all_inside ? "; " : ", ") + part;
        return number_of(sum_.files, "file", "files") + (words.empty() ? "" : ": " + words) + ".";
    }

    const CheckSummary& sum_;
    TextStyle style_;
    Page page_;
};

} // namespace

std::string check_screen(const CheckSummary& sum, const TextStyle& style) {
    return Screen(sum, style).text();
}

} // namespace jarful::render
