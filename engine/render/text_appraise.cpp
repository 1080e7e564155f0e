#include "engine/render/appraise_report.hpp"
#include "engine/render/ruler.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

using appraise::Appraisal;
using appraise::Line;
using appraise::LineSort;
using appraise::Verdict;
using units::Interval;

std::string grams(Interval g, Units units) {
    // No more digits than such a figure can carry.
    const auto round_to = [](double x) {
        if (x <= 0) return 0.0;
        const double step = std::pow(10, std::floor(std::log10(x)) - 2);
        return std::round(x / step) * step;
    };
    const std::string low = g.low <= 0 ? "0 g" : mass(round_to(g.low), units);
    const std::string high = mass(round_to(g.high), units);
    return low == high ? low : low + " to " + high;
}

std::string mark_of(const Line& line) {
    if (!line.understood) return "?";
    if (line.left_out) return "-";
    return "";
}

std::string reading_of(const Line& line, Units units) {
    if (!line.understood)
        return line.could_matter ? "NOT UNDERSTOOD" : "not understood; no amount, no matter";
    std::string out(line.material->name);
    if (line.per) {
        if (line.amount && line.amount->unit == "%") {
            out += ", as a percentage";
            if (!line.per->of.empty()) out += " of " + line.per->of;
        } else {
            if (line.grams) out += ", " + grams(*line.grams, units);
            out += " for each " + units::print_number(line.per->amount.low, 4) + " " +
                   line.per->amount.unit;
            if (!line.per->of.empty()) out += " of " + line.per->of;
        }
    } else if (line.grams) {
        out += ", " + grams(*line.grams, units);
    } else if (line.role == larder::Role::salt || line.role == larder::Role::vegetable ||
               line.role == larder::Role::water) {
        out += ", no weight to be had";
    }
    if (line.optional) out += " (optional)";
    return out;
}

void print_lines(Page& page, const Appraisal& a, Units units) {
    page.heading("WHAT I READ");
    std::size_t method = 0;
    std::size_t other = 0;
    const int right = 36;
    const int left = page.width() - right - 9;
    for (const Line& line : a.lines) {
        if (line.sort == LineSort::method) ++method;
        if (line.sort == LineSort::remark || line.sort == LineSort::heading) ++other;
        if (line.sort != LineSort::ingredient && line.sort != LineSort::unknown) continue;
        page.row({{.text = mark_of(line), .width = 1, .bold = true},
                  {.text = line.text.substr(0, 300), .width = left},
                  {.text = reading_of(line, units), .width = right, .bold = !line.understood}});
        for (const std::string& note : line.notes)
            page.paragraph(note, 7, 7);
    }
    std::string rest;
    if (method > 0)
        rest += std::to_string(method) + (method == 1 ? " line" : " lines") + " of method";
    if (other > 0) {
        rest += (rest.empty() ? "" : " and ") + std::to_string(other) +
                (other == 1 ? " heading or remark" : " headings and remarks");
    }
    if (!rest.empty()) page.paragraph(capital(rest) + ", of which nothing is weighed.");
}

void print_sum(Page& page, const Appraisal& a, Units units) {
    page.heading("WHAT THAT COMES TO");
    const auto row = [&](const char* what, const std::optional<Interval>& g, const char* none) {
        page.row({{.text = what, .width = 26}, {.text = g ? grams(*g, units) : none, .width = 40}});
    };
    row("vegetables", a.vegetables_g, "cannot be told");
    row("salt", a.salt_g, "cannot be told");
    row("water and other liquid", a.water_g, "cannot be told");
    const auto percent_row = [&](const char* what, const appraise::Percent& p) {
        if (p) page.row({{.text = what, .width = 26}, {.text = percents(*p), .width = 40}});
    };
    percent_row("salt, of the vegetables", a.of_vegetables);
    if (a.water_g && a.water_g->high > 0)
        percent_row("of vegetables and water", a.of_vegetables_and_water);
    percent_row("of the brine", a.of_brine);
    percent_row("of everything in the jar", a.of_everything);
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

std::string verdict_heading(const Appraisal& a) {
    switch (a.verdict) {
    case Verdict::inside:
        return "VERDICT: inside " + range_standing(a.low, a.high);
    case Verdict::below:
        return "VERDICT: BELOW " + range_standing(a.low, a.high);
    case Verdict::above:
        return "VERDICT: ABOVE " + range_standing(a.low, a.high);
    case Verdict::undecided:
        return "VERDICT: UNDECIDED";
    case Verdict::not_a_ferment:
        return "VERDICT: NOT A FERMENT";
    }
    return "VERDICT";
}

void rests_on(Page& page, const std::optional<plan::RangeEnd>& end, const std::string& what) {
    if (!end) return;
    std::string source = end->source.empty() ? "no source" : end->source;
    if (source.starts_with("common practice"))
        source = end->status;
    else if (!end->status.empty())
        source += "; " + end->status;
    page.paragraph(what + percent(end->percent) + " %, rests on: " + stopped(source), 2, 4);
}

void print_verdict(Page& page, const Appraisal& a) {
    page.heading(verdict_heading(a));
    if (!a.kind.empty()) {
        std::string kind =
            a.kind_title + " (" + a.kind + (a.method.empty() ? "" : " " + a.method) + "). ";
        page.paragraph("Judged as " + kind + stopped(a.kind_reason));
    }
    print_ruler(page, a);
    page.paragraph(stopped(a.reason));
    if (!a.decides.empty()) page.paragraph("What would settle it: " + stopped(a.decides));
    if (a.low && a.high && a.low->source == a.high->source && a.low->status == a.high->status) {
        std::string source = a.low->source.starts_with("common practice")
                                 ? a.low->status
                                 : a.low->source + "; " + a.low->status;
        page.paragraph(
            "The range, " + range_words(a.low, a.high) + ", rests on: " + stopped(source), 2, 4);
    } else {
        rests_on(page, a.low, "Its low end, ");
        rests_on(page, a.high, "Its high end, ");
    }
    if (a.right_g_per_kg) {
        page.paragraph("Right would be " + units::print_number(a.right_g_per_kg->low, 3) + " to " +
                       units::print_number(a.right_g_per_kg->high, 3) +
                       " g of salt for each kilogram of " + a.right_of + ".");
    }
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
