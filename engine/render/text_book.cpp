#include "engine/render/book_report.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/words.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

using plan::Verdict;

std::string state(const BookRecipe& recipe) {
    if (recipe.faults > 0) return "FAULTY";
    if (!recipe.verdict) return "not judged";
    switch (*recipe.verdict) {
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

std::string history_of(const BookRecipe& recipe) {
    std::string out;
    if (recipe.changed) {
        out = "Last changed " + recipe.changed->date() + " in " + recipe.changed->short_id + ": " +
              stopped(recipe.changed->summary);
    }
    if (recipe.standing && *recipe.standing != book::Standing::same) {
        out += (out.empty() ? "" : " ") + stopped(capital(describe(*recipe.standing)));
    }
    return out;
}

void print_recipe(Page& page, const BookRecipe& recipe) {
    const std::string title = recipe.title.empty() ? recipe.path : recipe.title;
    const std::string version =
        recipe.version ? ", version " + std::to_string(*recipe.version) : std::string();
    const bool salt = recipe.salt && recipe.salt->verdict != Verdict::inside;
    const bool bound =
        !salt && recipe.faults == 0 && recipe.verdict.value_or(Verdict::inside) != Verdict::inside;
    page.row({{.text = state(recipe), .width = 10, .bold = true},
              {.text = title + version + (bound ? ": a bound of the house, not the salt" : ""),
               .width = page.width() - 14}});
    const auto below = [&](const std::string& words) { page.paragraph(words, 14, 16); };
    std::string what = recipe.kind;
    if (!recipe.method.empty()) what += ", " + recipe.method;
    below(what.empty() ? recipe.path : what + " · " + recipe.path);
    if (recipe.faults > 0) {
        below(std::to_string(recipe.faults) + (recipe.faults == 1 ? " fault: " : " faults: ") +
              stopped(recipe.first_fault));
    } else if (recipe.salt) {
        below(stopped(salt_in_short(*recipe.salt)));
    }
    if (const std::string history = history_of(recipe); !history.empty()) below(history);
}

/// A recipe in one line: its verdict, its file, and its salt or what is wrong.
void print_line(Page& page, const BookRecipe& recipe) {
    std::string words = recipe.faults > 0 ? recipe.first_fault : "";
    if (recipe.faults == 0 && recipe.salt) {
        const plan::SaltJudgement& salt = *recipe.salt;
        words = "salt " + percent(salt.figure.percent) + " % " +
                std::string(larder::describe(salt.figure.basis));
        if (salt.verdict != Verdict::inside)
            words += "; the range is " + range_words(salt.low, salt.high);
    }
    if (words.empty()) words = recipe.kind.empty() ? "it says no kind of ferment" : recipe.kind;
    if (recipe.faults == 0 && recipe.salt && recipe.salt->verdict == Verdict::inside &&
        recipe.verdict.value_or(Verdict::inside) != Verdict::inside)
        words = "your own limit, not the salt's range";
    if (recipe.standing && *recipe.standing != book::Standing::same)
        words += "; " + std::string(describe(*recipe.standing));
    page.row({{.text = state(recipe), .width = 10, .bold = true},
              {.text = recipe.path, .width = 26},
              {.text = words, .width = page.width() - 40}},
             0);
}

std::string sum(const BookReport& report) {
    std::size_t inside = 0, outside = 0, undecided = 0, unjudged = 0, faulty = 0, uncommitted = 0;
    for (const BookRecipe& recipe : report.recipes) {
        if (recipe.faults > 0) {
            ++faulty;
        } else if (!recipe.verdict) {
            ++unjudged;
        } else if (*recipe.verdict == Verdict::inside) {
            ++inside;
        } else {
            ++(*recipe.verdict == Verdict::undecided ? undecided : outside);
        }
        if (report.history && recipe.standing != book::Standing::same) ++uncommitted;
    }
    std::vector<std::string> parts;
    const auto add = [&](std::size_t number, const std::string& words) {
        if (number > 0) parts.push_back(std::to_string(number) + " " + words);
    };
    add(inside, "inside");
    add(outside, "outside");
    add(undecided, "undecided");
    add(unjudged, "not judged");
    add(faulty, "with faults");
    const std::size_t count = report.recipes.size();
    std::string out = std::to_string(count) + (count == 1 ? " recipe" : " recipes");
    if (count != report.of) out += " of " + std::to_string(report.of);
    if (!parts.empty()) out += ": " + listed(parts);
    out += ".";
    if (uncommitted > 0) {
        out += " " + std::to_string(uncommitted) +
               (uncommitted == 1 ? " is not as committed." : " are not as committed.");
    }
    return out;
}

} // namespace

std::string_view describe(book::Standing standing) {
    switch (standing) {
    case book::Standing::same:
        return "as committed";
    case book::Standing::changed:
        return "changed, and not committed yet";
    case book::Standing::not_committed:
        return "not committed yet";
    case book::Standing::gone:
        return "gone";
    case book::Standing::conflict:
        break;
    }
    return "in the middle of a merge";
}

std::string book_text(const BookReport& report, const TextStyle& style) {
    Page page(style);
    for (const BookRecipe& recipe : report.recipes)
        page.brief() ? print_line(page, recipe) : print_recipe(page, recipe);
    if (!report.recipes.empty()) page.gap();
    page.paragraph(sum(report), 0, 0);
    if (!report.recipes.empty()) page.more("titles, kinds, ranges, history");
    return page.text();
}

} // namespace jarful::render
