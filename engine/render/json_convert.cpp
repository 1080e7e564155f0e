#include "engine/render/convert_report.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using larder::Conversion;
using larder::Spread;

// ---- What both results have. ----

units::Interval ends(const Spread& spread) {
    return {spread.low, spread.high};
}
constexpr auto spread_fields = fields<Spread>({
    {"low", bounded(low<ends>), "The least that it may be."},
    {"typical", number<&Spread::typical>, "The usual figure."},
    {"high", bounded(high<ends>), "The most that it may be."},
});
constexpr Shape<Spread> spread{"spread", "A figure with its spread.", table<spread_fields>};

using larder::Measures;
constexpr Choice<Measures, 4> measures_words{
    "measures",
    "Which spoons and cups were meant.",
    larder::describe,
    {Measures::us, Measures::metric, Measures::imperial, Measures::label}};
constexpr const char* about_spoons =
    "Null if no bare spoon or cup was converted, or if nobody says which.";
constexpr const char* about_assumed =
    "Nobody says which spoons: US ones, with the figures reaching to the metric ones.";

// ---- A conversion. ----

double value(const Conversion& c) {
    return c.result.typical;
}
std::string joined(const Conversion& c) {
    std::string out;
    for (const std::string& source : c.sources)
        out += (out.empty() ? "" : "; ") + source;
    return out;
}
constexpr auto conversion_status = one_of_words(
    {"published", "common practice, no published figure", "from memory", "by definition"});
std::string_view status(const Conversion& c) {
    return c.figure ? larder::describe(c.figure->status) : "by definition";
}
std::string_view material(const Conversion& c) {
    return c.material == nullptr ? std::string_view() : c.material->name.view();
}

/// What was reckoned with.
struct FigureUsed {
    Spread spread;
    std::string_view unit;
};
constexpr auto figure_units = one_of_words({"g/mL", "g"});
constexpr auto figure_fields = fields<FigureUsed>({
    parts<spread, &FigureUsed::spread>,
    {"unit", choice<figure_units, &FigureUsed::unit>,
     "g/mL as it lies in a spoon, or g for each piece."},
});
constexpr Shape<FigureUsed> figure_used{"figure_used", "The weight of a spoonful or of a piece.",
                                        table<figure_fields>};
std::optional<FigureUsed> figure(const Conversion& c) {
    if (!c.figure) return std::nullopt;
    return FigureUsed{{c.figure->low, c.figure->typical, c.figure->high},
                      c.by_piece ? "g" : "g/mL"};
}
Measures spoons(const Conversion& c) {
    return c.measures_matter ? c.measures : Measures::unstated;
}
bool spoons_assumed(const Conversion& c) {
    return c.measures_matter && c.measures == Measures::unstated;
}
constexpr auto conversion_fields = fields<Conversion>({
    {"from", text<&Conversion::from>, "The amount as it was understood."},
    {"to", text<&Conversion::to>, "The unit of the figures."},
    {"value", number<value>, "The figure, in the unit `to`; the same as `typical`."},
    parts<spread, &Conversion::result>,
    {"source", text<joined>, "All sources, joined by semicolons."},
    {"sources", texts<&Conversion::sources>,
     "Documents, or common practice; the material's first."},
    {"status", choice<conversion_status, status>,
     "How far the figure that was reckoned with can be leaned on; by definition where units alone "
     "were converted."},
    {"material", maybe(text<material>), "The material as the larder names it."},
    {"figure", maybe(object<figure_used, figure>), "What was reckoned with."},
    {"spoons", maybe(choice<measures_words, spoons>), about_spoons},
    {"spoons_assumed", flag<spoons_assumed>, about_assumed},
    {"notes", texts<&Conversion::notes>, "What was assumed and what to beware of, in sentences."},
});
constexpr Shape<Conversion> conversion{"conversion", "An amount in another unit.",
                                       table<conversion_fields>};

// ---- Many, line by line. ----

using render::ConvertedLine;
const Conversion& converted(const ConvertedLine& line) {
    return *line.outcome.conversion;
}
template <auto member>
const auto& of_fault(const ConvertedLine& line) {
    return (*line.outcome.fault).*member;
}
constexpr auto line_fields = fields<ConvertedLine>({
    {"line", at_least(1, whole<&ConvertedLine::line>), "The line of standard input."},
    {"text", text<&ConvertedLine::text>, "As it was written."},
});
constexpr Shape<ConvertedLine> asked_line{"asked_line", "A line of standard input.",
                                          table<line_fields>};
constexpr auto converted_fields = fields<ConvertedLine>({
    parts<asked_line, itself<ConvertedLine>>,
    parts<conversion, converted>,
});
constexpr Shape<ConvertedLine> converted_line{"converted_line", "A line that was converted.",
                                              table<converted_fields>};
using Fault = larder::ConversionFault;
constexpr auto fault_fields = fields<ConvertedLine>({
    parts<asked_line, itself<ConvertedLine>>,
    {"code", text<of_fault<&Fault::code>>,
     "What is wrong: nothing, too-long, amount, missing-unit, unknown-unit, left-over, dimension, "
     "out-of-range, measures, per-twice, no-material, unknown-material, vague-material, "
     "no-density, "
     "no-piece."},
    {"message", text<of_fault<&Fault::message>>, "What is wrong, in words."},
    {"advice", maybe(text<of_fault<&Fault::advice>>), "What to write instead."},
    {"nearest", texts<of_fault<&Fault::nearest>>, "Materials that may be meant, nearest first."},
});
constexpr Shape<ConvertedLine> faulty_line{"faulty_line", "A line that was not converted.",
                                           table<fault_fields>};

struct Lines {
    std::span<const ConvertedLine> all;
};
std::vector<const ConvertedLine*> conversions(const Lines& lines) {
    std::vector<const ConvertedLine*> out;
    for (const ConvertedLine& line : lines.all)
        if (line.outcome.conversion) out.push_back(&line);
    return out;
}
std::vector<const ConvertedLine*> faults(const Lines& lines) {
    std::vector<const ConvertedLine*> out;
    for (const ConvertedLine& line : lines.all)
        if (!line.outcome.conversion && line.outcome.fault) out.push_back(&line);
    return out;
}
constexpr auto lines_fields = fields<Lines>({
    {"conversions", list<converted_line, conversions>, "The lines that were converted."},
    {"faults", list<faulty_line, faults>, "The lines that were not."},
});
constexpr Shape<Lines> lines_shape{"converted_lines", "Lines of standard input.",
                                   table<lines_fields>};

// ---- The salts side by side. ----

using larder::SaltGrain;
std::string_view warning_word(larder::SaltWarning warning) {
    switch (warning) {
    case larder::SaltWarning::may_cloud:
        return "may_cloud";
    case larder::SaltWarning::not_recommended:
        return "not_recommended";
    case larder::SaltWarning::reduced_sodium:
        return "reduced_sodium";
    case larder::SaltWarning::curing:
        return "curing";
    case larder::SaltWarning::none:
        break;
    }
    return "";
}
constexpr auto warning_words = one_of<larder::SaltWarning>(
    warning_word, {larder::SaltWarning::may_cloud, larder::SaltWarning::not_recommended,
                   larder::SaltWarning::reduced_sodium, larder::SaltWarning::curing});
template <auto member>
inline constexpr auto of_material = through<&SaltGrain::material, member>;
std::string_view warning_text(const SaltGrain& grain) {
    return larder::warning_words(grain.material->warning);
}
std::string_view source(const SaltGrain& grain) {
    const auto& density = grain.material->bulk_density;
    return density ? density->source.view() : std::string_view();
}
std::optional<larder::Status> status_of(const SaltGrain& grain) {
    const auto& density = grain.material->bulk_density;
    if (!density) return std::nullopt;
    return density->status;
}
using larder::Material;
constexpr auto grain_fields = fields<SaltGrain>({
    {"id", text<of_material<&Material::id>>, "Stable key."},
    {"name", text<of_material<&Material::name>>, "As the larder names it."},
    {"vague", flag<of_material<&Material::vague>>, "The name does not say the grain."},
    {"teaspoon_g", maybe(object<spread, &SaltGrain::teaspoon>),
     "A level teaspoon; null if not known.", "g"},
    {"tablespoon_g", maybe(object<spread, &SaltGrain::tablespoon>),
     "A level tablespoon; null if not known.", "g"},
    {"replaces_tablespoon", maybe(object<spread, &SaltGrain::replaces>),
     "Tablespoons that hold as much as one of fine table salt; null if not known."},
    {"warning", maybe(choice<warning_words, of_material<&Material::warning>>),
     "What has to be said before it is used."},
    {"warning_text", maybe(text<warning_text>), "The same in words."},
    {"note", maybe(text<of_material<&Material::note>>), "Remark."},
    {"source", maybe(text<source>), "Where the weight of a spoon is from."},
    {"status", maybe(choice<status_words, status_of>)},
});
constexpr Shape<SaltGrain> grain_shape{"salt_grain", "A salt beside the others.",
                                       table<grain_fields>};

struct Salts {
    Measures measures;
};
bool assumed(const Salts& salts) {
    return salts.measures == Measures::unstated;
}
std::vector<SaltGrain> grains(const Salts& salts) {
    return larder::compare_salts(salts.measures);
}
constexpr auto salts_fields = fields<Salts>({
    {"spoons", maybe(choice<measures_words, &Salts::measures>), about_spoons},
    {"spoons_assumed", flag<assumed>, about_assumed},
    {"salts", list<grain_shape, grains>, "Every salt of the larder."},
});
constexpr Shape<Salts> salts_shape{"salts", "The salts side by side.", table<salts_fields>};

} // namespace

constexpr Result convert_result{
    "convert", "jarful.convert/1",
    "The answer of `jarful convert --json`: of one amount, or of the lines of standard input.",
    conversion, &lines_shape};
constexpr Result salts_result{
    "salts", "jarful.salts/1",
    "The answer of `jarful salts --json`: first the salts whose name says the grain, heaviest "
    "first, then the vague names, then those that go by weight only.",
    salts_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string convert_json(const larder::Conversion& conversion) {
    return fields::document(fields::convert_result, fields::conversion, conversion);
}

std::string convert_json(std::span<const ConvertedLine> lines) {
    return fields::document(fields::convert_result, fields::lines_shape, fields::Lines{lines});
}

std::string salts_json(larder::Measures measures) {
    return fields::document(fields::salts_result, fields::salts_shape, fields::Salts{measures});
}

} // namespace jarful::render
