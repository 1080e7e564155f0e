#include "engine/render/compare_report.hpp"
#include "engine/render/words.hpp"

namespace jarful::render {

namespace {

using plan::ComparedText;

/// Sentences of a recipe as they were and as they are.
void print_texts(Page& page, std::string_view heading, const std::vector<ComparedText>& texts) {
    if (texts.empty()) return;
    page.heading(heading);
    for (const ComparedText& text : texts) {
        switch (text.sort) {
        case ComparedText::Sort::appeared:
            page.item("new", text.after, 2, 10);
            break;
        case ComparedText::Sort::gone:
            page.item("gone", text.before, 2, 10);
            break;
        case ComparedText::Sort::changed:
            page.item("before", text.before, 2, 10);
            page.item("now", text.after, 2, 10);
            break;
        case ComparedText::Sort::moved:
            page.item("moved", text.after, 2, 10);
            break;
        }
    }
}

void print_rows(Page& page, const std::vector<CompareRow>& rows) {
    if (rows.empty()) return;
    page.heading("Amounts, with their share of the vegetables");
    page.row({{.text = "", .width = 16},
              {.text = "before", .width = 18, .right = true, .dim = true},
              {.text = "now", .width = 18, .right = true, .dim = true},
              {.text = "change", .width = 16, .right = true, .dim = true}});
    for (const CompareRow& row : rows) {
        if (row.name.empty()) {
            page.item("", row.change, 2, 6);
            continue;
        }
        page.row({{.text = row.name, .width = 16, .bold = true},
                  {.text = row.before, .width = 18, .right = true},
                  {.text = row.after, .width = 18, .right = true},
                  {.text = row.change, .width = 16, .right = true}});
    }
}

} // namespace

std::string compare_text(const plan::Comparison& comparison, const ComparedNames& names,
                         const TextStyle& style) {
    Page page(style);
    page.heading(comparison.title_after);
    page.item("before", names.before, 2, 10);
    page.item("now", names.after, 2, 10);
    page.paragraph(compare_batch(comparison));
    if (comparison.same()) {
        page.gap();
        page.paragraph("The food is the same.", 0, 0, true);
    }
    print_rows(page, compare_rows(comparison, style.units));
    if (comparison.salt_differs) {
        page.heading("Salt");
        page.item("before", compare_salt_words(comparison.salt_before), 2, 10);
        page.item("now", compare_salt_words(comparison.salt_after), 2, 10);
    }
    const auto facts = compare_facts(comparison, style.units);
    if (!facts.empty()) page.heading("Kind and vessel");
    for (const std::string& fact : facts)
        page.paragraph(fact, 2, 4);
    print_texts(page, "Bounds of the house", comparison.holds);
    print_texts(page, "Method", comparison.method);
    print_texts(page, "Afterwards", comparison.later);
    if (!comparison.aside.empty()) page.heading("Beside the food");
    for (const std::string& aside : comparison.aside)
        page.paragraph(aside, 2, 4);
    return page.text();
}

} // namespace jarful::render
