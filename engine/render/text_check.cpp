#include "engine/language/command_line.hpp"
#include "engine/language/explain.hpp"
#include "engine/render/check_report.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

using language::Severity;
using plan::Verdict;

std::string state(const CheckedFile& file) {
    if (!file.read) return "NOT READ";
    if (!file.ok()) return "FAULTY";
    if (file.sort == CheckedFile::Sort::kitchen) return "kitchen";
    if (file.sort == CheckedFile::Sort::house) return "house";
    if (file.sort == CheckedFile::Sort::batch) return "batch";
    if (!file.result || !file.result->verdict) return "not judged";
    switch (*file.result->verdict) {
    case Verdict::inside:
        return "inside";
    case Verdict::below:
        return "BELOW";
    case Verdict::above:
        return "ABOVE";
    case Verdict::undecided:
        break;
    }
    return "UNDECIDED";
}

/// What the verdict of the file is about, where that is not the salt alone: ": …", or nothing.
std::string about(const CheckedFile& file) {
    if (!file.ok() || !file.result) return {};
    const plan::CheckResult& result = *file.result;
    const bool bound = std::any_of(result.checks.begin(), result.checks.end(),
                                   [](const auto& c) { return c.verdict != Verdict::inside; });
    if (!bound) return {};
    const bool salt = result.salt && result.salt->verdict != Verdict::inside;
    return salt ? ": the salt, and a bound of the house" : ": a bound of the house, not the salt";
}

void print_bounds(Page& page, const plan::CheckResult& result) {
    const auto below = [&](const std::string& words) { page.paragraph(words, 14, 16); };
    for (const plan::HoldCheck& check : result.checks) {
        if (check.verdict == Verdict::inside) continue;
        below(capital(plan::describe(check.verdict)) + ": " + stopped(hold_in_short(check)));
        if (!check.decides.empty()) below("What would decide it: " + stopped(check.decides));
    }
}

void print_file(Page& page, const CheckedFile& file) {
    page.row({{.text = state(file), .width = 10, .bold = true},
              {.text = file.path + about(file), .width = page.width() - 14}});
    const auto below = [&](const std::string& words) { page.paragraph(words, 14, 16); };
    if (!file.ok() || !file.result) return;
    const plan::CheckResult& result = *file.result;
    const bool salt_first = result.salt && result.salt->verdict != Verdict::inside;
    if (!salt_first) print_bounds(page, result); // what broke stands under the headline
    if (result.salt) {
        below(stopped(salt_in_short(*result.salt)));
        const bool inside = result.salt->verdict == Verdict::inside;
        if (of_the_house(*result.salt)) below(stopped(result.salt->why));
        if (!inside && !result.salt->reason.empty()) below(stopped(result.salt->reason));
        if (!result.salt->decides.empty()) {
            below("What would decide it: " + stopped(result.salt->decides));
        }
        if (!result.salt->nearby.empty() && inside) {
            below("It lies near an edge, where the sources differ: " +
                  language::command_line({"jarful", "ranges", result.kind}) + " shows them.");
        } else if (!result.salt->nearby.empty()) {
            below("What the sources say near this figure:");
            print_nearby(page, result.salt->nearby, 16);
        }
    } else {
        below("Salt not judged: " + stopped(result.no_salt_reason.empty()
                                                ? "the recipe says no kind of ferment"
                                                : result.no_salt_reason));
    }
    if (!result.one_jar.empty()) below(stopped(result.one_jar));
    if (salt_first) print_bounds(page, result);
}

} // namespace

std::string check_next(const CheckSummary& sum) {
    if (sum.unread > 0)
        return "name a file that can be read in place of " + visible(sum.first_unread) + ".";
    if (sum.faulty > 0) return "mend " + visible(sum.first_faulty) + ", and check again.";
    if (sum.below > 0) return "raise what is too low in " + visible(sum.first_below) + " first.";
    if (sum.above > 0) return "lower what is too high in " + visible(sum.first_above) + ".";
    if (sum.undecided > 0) return "settle " + visible(sum.first_undecided) + ".";
    return "nothing to mend. To make one: jarful weigh RECIPE";
}

bool CheckedFile::ok() const {
    return std::none_of(findings.begin(), findings.end(), [](const language::Diagnostic& d) {
        return d.severity == Severity::fault;
    });
}

namespace {

void show(std::vector<CheckedFile>& group, const CheckedFile& file) {
    if (group.size() < most_shown) group.push_back(file);
}

} // namespace

void CheckSummary::add(const CheckedFile& file) {
    ++files;
    if (file.read && file.ok()) {
        recipes += file.sort == CheckedFile::Sort::recipe;
        kitchens += file.sort == CheckedFile::Sort::kitchen;
        houses += file.sort == CheckedFile::Sort::house;
        records += file.sort == CheckedFile::Sort::batch;
    }
    add_to_group(file);
    const auto count = [&](int& number, std::string& first) {
        if (++number == 1) first = file.path;
    };
    if (!file.read) {
        ++faulty;
        count(unread, first_unread);
    } else if (!file.ok()) {
        ++faulty;
        if (first_faulty.empty()) first_faulty = file.path;
    } else if (file.result && file.result->verdict) {
        switch (*file.result->verdict) {
        case Verdict::inside:
            ++inside;
            break;
        case Verdict::below:
            count(below, first_below);
            break;
        case Verdict::above:
            count(above, first_above);
            break;
        case Verdict::undecided:
            count(undecided, first_undecided);
            break;
        }
    }
}

void CheckSummary::add_to_group(const CheckedFile& file) {
    if (!file.read || !file.ok()) return show(shown.faulty, file);
    if (file.sort != CheckedFile::Sort::recipe) return;
    if (!file.result || !file.result->verdict) {
        ++not_judged;
        return show(shown.not_judged, file);
    }
    switch (*file.result->verdict) {
    case Verdict::inside:
        return;
    case Verdict::below:
        return show(shown.below, file);
    case Verdict::above:
        return show(shown.above, file);
    case Verdict::undecided:
        return show(shown.undecided, file);
    }
}

void CheckSummary::add(const CheckSummary& later) {
    const auto take = [](int& number, std::string& first, int more, const std::string& its_first) {
        if (number == 0) first = its_first;
        number += more;
    };
    files += later.files;
    recipes += later.recipes;
    kitchens += later.kitchens;
    houses += later.houses;
    records += later.records;
    not_judged += later.not_judged;
    for (const auto group :
         {&Shown::below, &Shown::undecided, &Shown::above, &Shown::faulty, &Shown::not_judged}) {
        for (const CheckedFile& file : later.shown.*group)
            show(shown.*group, file);
    }
    inside += later.inside;
    take(below, first_below, later.below, later.first_below);
    take(above, first_above, later.above, later.first_above);
    take(undecided, first_undecided, later.undecided, later.first_undecided);
    if (first_faulty.empty()) first_faulty = later.first_faulty;
    faulty += later.faulty;
    take(unread, first_unread, later.unread, later.first_unread);
}

std::string check_text_of(const CheckedFile& file, const TextStyle& style) {
    Page page(style);
    print_file(page, file);
    std::string out = page.text();
    if (file.findings.empty()) return out;
    return out + '\n' + language::explain_all(file.source, file.findings, {.colour = style.colour});
}

std::string check_text_end(const CheckSummary& sum, const TextStyle& style) {
    std::vector<std::string> parts;
    const auto add = [&](int number, const std::string& words) {
        if (number > 0) parts.push_back(std::to_string(number) + " " + words);
    };
    add(sum.inside, "inside");
    add(sum.below, "below (a safety matter)");
    add(sum.above, "above (a quality matter)");
    add(sum.undecided, "undecided");
    add(sum.faulty - sum.unread, "with faults");
    add(sum.unread, "not read");
    Page page(style);
    page.raw("");
    page.paragraph(number_of(sum.files, "file", "files") +
                       (parts.empty() ? "" : ": " + listed(parts)) + ".",
                   0, 0);
    page.paragraph("Next: " + check_next(sum), 0, 6, true);
    return page.text();
}

} // namespace jarful::render
