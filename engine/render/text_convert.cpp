#include "engine/render/convert_report.hpp"
#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

using larder::Conversion;
using larder::Spread;

/// Rounded to so many significant digits, downward or upward; what is that figure already, but for
/// the noise of binary arithmetic, stays.
double outward(double value, int digits, bool up) {
    if (value == 0 || !std::isfinite(value)) return value;
    const int power = digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(value))));
    const double scale = std::pow(10.0, power);
    const double scaled = value * scale;
    const double near = std::round(scaled);
    if (std::abs(near - scaled) <= 1e-9 * std::abs(scaled)) return near / scale;
    return (up ? std::ceil(scaled) : std::floor(scaled)) / scale;
}

/// The three figures as they are printed.
struct Figures {
    std::string low, typical, high;
    bool exact = false;
};

Figures figures_of(const Spread& spread, int digits = 3) {
    if (spread.exact()) {
        const std::string all = units::print_number(spread.typical, 6);
        return {all, all, all, true};
    }
    // No rounder than the thousand, and never so round that the ends fall together.
    if (std::abs(spread.high) >= 1000) digits = std::max(digits, 4);
    return {units::print_number(outward(spread.low, digits, false), 9),
            units::print_number(spread.typical, digits),
            units::print_number(outward(spread.high, digits, true), 9), false};
}

std::string with_unit(const std::string& figure, const std::string& unit) {
    return figure + " " + unit;
}

void add_once(std::vector<std::string>& list, const std::string& text) {
    if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end()) {
        list.push_back(text);
    }
}

void print_lists(Page& page, const std::vector<std::string>& notes,
                 const std::vector<std::string>& reckonings,
                 const std::vector<std::string>& sources) {
    if (!notes.empty() || !reckonings.empty()) page.gap();
    for (const std::string& reckoning : reckonings)
        page.paragraph("Calculated with " + stopped(reckoning), 2, 4);
    for (const std::string& note : notes)
        page.paragraph(stopped(note), 2, 4);
    page.gap();
    bool first = true;
    for (const std::string& source : sources) {
        page.item(first ? "Source:" : "", stopped(source), 2, 10);
        first = false;
    }
}

} // namespace

std::string convert_text(const Conversion& conversion, const TextStyle& style) {
    Page page(style);
    const Figures figures = figures_of(conversion.result);
    page.paragraph(conversion.from + (figures.exact ? " = " : " = about ") +
                       with_unit(figures.typical, conversion.to),
                   0, 4, true);
    if (!figures.exact) {
        page.gap();
        const int width = 10;
        for (const auto& [name, figure] :
             {std::pair{"low", &figures.low}, std::pair{"typical", &figures.typical},
              std::pair{"high", &figures.high}}) {
            page.row({{.text = name, .width = width},
                      {.text = with_unit(*figure, conversion.to), .width = 40}});
        }
    }
    std::vector<std::string> reckonings;
    add_once(reckonings, conversion.reckoning);
    print_lists(page, conversion.notes, reckonings, conversion.sources);
    return page.text();
}

std::string convert_text(std::span<const ConvertedLine> lines, const TextStyle& style) {
    Page page(style);
    std::vector<std::string> notes, reckonings, sources;
    const int figure = 9;
    const int unit = 6;
    const int from = page.width() - 3 * (figure + 2) - unit - 2;
    page.row({{.text = "", .width = from},
              {.text = "low", .width = figure, .right = true, .dim = true},
              {.text = "typical", .width = figure, .right = true, .dim = true},
              {.text = "high", .width = figure, .right = true, .dim = true},
              {.text = "", .width = unit}},
             0);
    for (const ConvertedLine& line : lines) {
        if (!line.outcome.conversion) {
            page.row({{.text = line.text, .width = from},
                      {.text = "not converted", .width = 3 * figure + 4}},
                     0);
            continue;
        }
        const Conversion& c = *line.outcome.conversion;
        const Figures f = figures_of(c.result);
        page.row({{.text = c.from, .width = from},
                  {.text = f.low, .width = figure, .right = true},
                  {.text = f.typical, .width = figure, .right = true},
                  {.text = f.high, .width = figure, .right = true},
                  {.text = c.to, .width = unit}},
                 0);
        for (const std::string& note : c.notes)
            add_once(notes, note);
        add_once(reckonings, c.reckoning);
        for (const std::string& source : c.sources)
            add_once(sources, source);
    }
    print_lists(page, notes, reckonings, sources);
    return page.text();
}

namespace {

std::string three(const std::optional<Spread>& spread) {
    if (!spread) return "by weight only";
    if (spread->exact()) return units::print_number(spread->typical, 3);
    // A tenth of a gram is all that a spoon can say.
    return units::print_fixed(std::floor(spread->low * 10) / 10, 1) + " " +
           units::print_fixed(spread->typical, 1) + " " +
           units::print_fixed(std::ceil(spread->high * 10) / 10, 1);
}

std::string replacing(const larder::SaltGrain& grain) {
    if (!grain.replaces) return "by weight only";
    if (grain.replaces->exact()) return "1 tbsp";
    const Figures f = figures_of(*grain.replaces, 2);
    return f.typical + " tbsp (" + f.low + " to " + f.high + ")";
}

std::string spoons_note(larder::Measures measures) {
    switch (measures) {
    case larder::Measures::us:
        return "US spoons: tsp 4.93 mL, tbsp 14.79 mL.";
    case larder::Measures::metric:
        return "Metric spoons: tsp 5 mL, tbsp 15 mL.";
    case larder::Measures::imperial:
        return "Imperial spoons: tsp 5.92 mL, tbsp 17.76 mL.";
    case larder::Measures::label:
        return "Spoons of the label rule: tsp 5 mL, tbsp 15 mL (21 CFR 101.9(b)(5)(viii)).";
    case larder::Measures::unstated:
        break;
    }
    return "Nobody says which spoons: US ones are taken, and the figures reach to the metric ones.";
}

class SaltsPage {
  public:
    SaltsPage(larder::Measures measures, const TextStyle& style)
        : page_(style)
        , grains_(larder::compare_salts(measures)) {
        page_.heading("Salt by the spoon, in grams: low, typical, high");
        page_.paragraph("By weight every salt here is the same, gram for gram; by the spoon it is "
                        "not. " +
                            spoons_note(measures) +
                            " The last column says how many tablespoons hold as much as one of "
                            "fine table salt.",
                        0, 0);
    }

    std::string text() {
        page_.gap();
        head();
        for (const larder::SaltGrain& grain : grains_)
            if (grain.tablespoon && !grain.material->vague) row(grain);
        page_.heading("Names that do not say the grain");
        page_.paragraph("Such a spoon may be any of several salts. Ask which, or weigh.", 0, 0);
        page_.gap();
        for (const larder::SaltGrain& grain : grains_)
            if (grain.tablespoon && grain.material->vague) row(grain);
        page_.heading("By weight only");
        for (const larder::SaltGrain& grain : grains_) {
            if (!grain.tablespoon) page_.titled(grain.material->name, words(grain));
        }
        if (!page_.brief()) page_.heading("What to know of each");
        for (const larder::SaltGrain& grain : grains_) {
            if (!page_.brief() && grain.tablespoon && !grain.material->vague) {
                page_.titled(grain.material->name, words(grain));
            }
        }
        page_.next("jarful convert 2 tbsp canning salt to g");
        page_.more("what to know of each, sources");
        return page_.text();
    }

  private:
    static constexpr int name_ = 24;
    static constexpr int spoon_ = 14;
    Page page_;
    std::vector<larder::SaltGrain> grains_;

    [[nodiscard]] int rest() const { return page_.width() - name_ - 2 * spoon_ - 6; }

    void head() {
        page_.row({{.text = "", .width = name_},
                   {.text = "1 tsp", .width = spoon_, .dim = true},
                   {.text = "1 tbsp", .width = spoon_, .dim = true},
                   {.text = "for 1 tbsp of fine", .width = rest(), .dim = true}},
                  0);
    }
    void row(const larder::SaltGrain& grain) {
        page_.row({{.text = std::string(grain.material->name), .width = name_, .bold = true},
                   {.text = three(grain.teaspoon), .width = spoon_},
                   {.text = three(grain.tablespoon), .width = spoon_},
                   {.text = replacing(grain), .width = rest()}},
                  0);
    }
    static std::string words(const larder::SaltGrain& grain) {
        const larder::Material& m = *grain.material;
        std::string out;
        const auto add = [&](std::string_view text) {
            if (text.empty()) return;
            if (!out.empty()) out += " ";
            out += stopped(text);
        };
        if (m.warning != larder::SaltWarning::may_cloud || m.note.empty()) {
            add(larder::warning_words(m.warning));
        }
        add(m.note);
        if (m.bulk_density) {
            add("Source: " + std::string(m.bulk_density->source) + " (" +
                std::string(larder::describe(m.bulk_density->status)) + ")");
        }
        return out;
    }
};

} // namespace

std::string salts_text(larder::Measures measures, const TextStyle& style) {
    return SaltsPage(measures, style).text();
}

} // namespace jarful::render
