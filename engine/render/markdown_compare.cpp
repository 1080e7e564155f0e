#include "engine/render/compare_report.hpp"
#include "engine/render/words.hpp"

namespace jarful::render {

namespace {

using plan::ComparedText;

std::string shown(std::string_view text) {
    return markdown(visible(text));
}

void add_texts(std::string& out, std::string_view heading, const std::vector<ComparedText>& texts) {
    if (texts.empty()) return;
    out += "\n### " + std::string(heading) + "\n\n";
    for (const ComparedText& text : texts) {
        switch (text.sort) {
        case ComparedText::Sort::appeared:
            out += "- new: " + shown(text.after) + "\n";
            break;
        case ComparedText::Sort::gone:
            out += "- gone: " + shown(text.before) + "\n";
            break;
        case ComparedText::Sort::changed:
            out += "- before: " + shown(text.before) + "\n- now: " + shown(text.after) + "\n";
            break;
        case ComparedText::Sort::moved:
            out += "- moved: " + shown(text.after) + "\n";
            break;
        }
    }
}

} // namespace

std::string compare_markdown(const plan::Comparison& comparison, const ComparedNames& names,
                             Units units) {
    std::string out = "## " + shown(comparison.title_after) + "\n\n";
    out += "Before: " + shown(names.before) + "  \nNow: " + shown(names.after) + "\n\n";
    out += shown(compare_batch(comparison)) + "\n";
    if (comparison.same()) out += "\nThe food is the same.\n";
    const auto rows = compare_rows(comparison, units);
    if (!rows.empty()) {
        out += "\n### Amounts, with their share of the vegetables\n\n";
        out += "| | before | now | change |\n| --- | ---: | ---: | --- |\n";
        for (const CompareRow& row : rows)
            out += "| " + shown(row.name) + " | " + shown(row.before) + " | " + shown(row.after) +
                   " | " + shown(row.change) + " |\n";
    }
    if (comparison.salt_differs) {
        out += "\n### Salt\n\n- before: " + shown(compare_salt_words(comparison.salt_before)) +
               "\n- now: " + shown(compare_salt_words(comparison.salt_after)) + "\n";
    }
    const auto facts = compare_facts(comparison, units);
    if (!facts.empty()) out += "\n### Kind and vessel\n\n";
    for (const std::string& fact : facts)
        out += "- " + shown(fact) + "\n";
    add_texts(out, "Bounds of the house", comparison.holds);
    add_texts(out, "Method", comparison.method);
    add_texts(out, "Afterwards", comparison.later);
    if (!comparison.aside.empty()) out += "\n### Beside the food\n\n";
    for (const std::string& aside : comparison.aside)
        out += "- " + shown(aside) + "\n";
    return out;
}

} // namespace jarful::render
