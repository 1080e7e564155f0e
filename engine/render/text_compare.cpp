#include "engine/render/compare_report.hpp"
#include "engine/render/words.hpp"

#include <algorithm>

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
    page.gap();
    page.row({{.text = "(% of vegetables)", .width = 18, .dim = true},
              {.text = "before", .width = 18, .right = true, .dim = true},
              {.text = "now", .width = 18, .right = true, .dim = true},
              {.text = "change", .width = 14, .right = true, .dim = true}});
    for (const CompareRow& row : rows) {
        if (row.name.empty()) {
            if (!page.brief()) page.item("", row.change, 2, 6);
            continue;
        }
        page.row({{.text = row.name, .width = 18, .bold = true},
                  {.text = row.before, .width = 18, .right = true},
                  {.text = row.after, .width = 18, .right = true},
                  {.text = row.change, .width = 14, .right = true}});
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
    if (comparison.salt_differs) {
        page.heading("Salt");
        page.item("before", compare_salt_words(comparison.salt_before), 2, 10);
        page.item("now", compare_salt_words(comparison.salt_after), 2, 10);
    }
    const auto rows = compare_rows(comparison, style.units);
    print_rows(page, rows);
    const bool remarks = std::any_of(rows.begin(), rows.end(),
                                     [](const CompareRow& row) { return row.name.empty(); });
    const auto part = [&](const std::string& name, const auto& print) {
        Page one(style);
        print(one);
        page.part(name, one, 1);
    };
    const auto texts = [&](const std::string& heading, const std::vector<ComparedText>& changed) {
        part(heading + ": " + std::to_string(changed.size()),
             [&](Page& one) { print_texts(one, capital(heading), changed); });
    };
    const auto lines = [&](const std::string& heading, const std::vector<std::string>& words) {
        part(heading, [&](Page& one) {
            if (!words.empty()) one.heading(capital(heading));
            for (const std::string& line : words)
                one.paragraph(line, 2, 4);
        });
    };
    lines("kind and vessel", compare_facts(comparison, style.units));
    texts("your limits", comparison.holds);
    texts("method", comparison.method);
    texts("afterwards", comparison.later);
    lines("beside the food", comparison.aside);
    page.more(remarks ? "wording" : "");
    return page.text();
}

} // namespace jarful::render
