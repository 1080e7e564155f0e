#include "engine/render/appraise_report.hpp"
#include "engine/render/appraise_words.hpp"
#include "engine/render/ruler.hpp"
#include "engine/render/words.hpp"

#include <cmath>

namespace jarful::render {

namespace {

using appraise::Appraisal;
using appraise::Line;

std::string mark_of(const Line& line) {
    if (!line.understood) return "?";
    if (line.left_out) return "-";
    return "";
}

void print_lines(Page& page, const Appraisal& a, Units units) {
    page.heading("WHAT I READ");
    const int right = 36;
    const int left = page.width() - right - 9;
    for (const Line& line : a.lines) {
        if (!is_shown(line)) continue;
        page.row({{.text = mark_of(line), .width = 1, .bold = true},
                  {.text = line.text.substr(0, 300), .width = left},
                  {.text = reading_words(line, units), .width = right, .bold = !line.understood}});
        for (const std::string& note : line.notes)
            page.paragraph(note, 7, 7);
    }
    const std::string rest = other_lines(a);
    if (!rest.empty()) page.paragraph(rest);
}

void print_sum(Page& page, const Appraisal& a, Units units) {
    page.heading("WHAT THAT COMES TO");
    for (const AppraisedSum& sum : appraised_sums(a, units))
        page.row({{.text = sum.what, .width = 26}, {.text = sum.figure, .width = 40}});
}

void print_ruler(Page& page, const Appraisal& a) {
    if (!a.percent || !std::isfinite(a.percent->high) || (!a.low && !a.high)) return;
    std::vector<double> shown{a.percent->low, a.percent->high};
    if (a.low) shown.push_back(a.low->percent);
    if (a.high) shown.push_back(a.high->percent);
    const Ruler ruler(shown, page.width() - 6);
    const std::string margin(3, ' ');
    page.gap();
    page.raw(margin + "this recipe, " + percents(*a.percent));
    page.raw(margin + ruler.stretch(*a.percent));
    page.raw(margin + ruler.marks());
    page.raw(margin + ruler.figures());
    page.raw(margin + ruler.words(a.low ? std::optional(a.low->percent) : std::nullopt,
                                  a.high ? std::optional(a.high->percent) : std::nullopt));
    page.gap();
}

void print_verdict(Page& page, const Appraisal& a) {
    page.heading("VERDICT: " + verdict_words(a));
    const std::string kind = judged_as(a);
    if (!kind.empty()) page.paragraph(kind);
    print_ruler(page, a);
    page.paragraph(stopped(a.reason));
    const std::string lean = lean_words(a);
    if (!lean.empty()) page.paragraph(lean);
    if (!a.decides.empty()) page.paragraph("What would settle it: " + stopped(a.decides));
    for (const std::string& words : appraised_range(a))
        page.paragraph(words, 2, 4);
    const std::string right = right_words(a);
    if (!right.empty()) page.paragraph(right);
}

} // namespace

std::string appraise_text(const Appraisal& a, const TextStyle& style) {
    Page page(style);
    if (!a.title.empty()) page.paragraph(a.title, 0, 0, true);
    print_verdict(page, a);
    print_lines(page, a, style.units);
    print_sum(page, a, style.units);
    if (!a.advice.empty()) {
        page.heading("ADVICE");
        for (const std::string& advice : a.advice)
            page.item("*", stopped(advice), 2, 4);
    }
    if (!a.assumptions.empty()) {
        page.heading("TAKEN FOR GRANTED");
        for (const std::string& note : a.assumptions)
            page.item("*", stopped(note), 2, 4);
    }
    if (!a.cautions.empty()) {
        page.heading("MIND");
        for (const plan::Warning& caution : a.cautions)
            page.titled(caution.title, caution.text);
    }
    return page.text();
}

} // namespace jarful::render
