#include "engine/render/appraise_report.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using appraise::Appraisal;
using appraise::Line;

// ---- A line. ----

constexpr auto line_sort_words = one_of<appraise::LineSort>(
    appraise::describe,
    {appraise::LineSort::ingredient, appraise::LineSort::heading, appraise::LineSort::method,
     appraise::LineSort::remark, appraise::LineSort::unknown});

using appraise::Amount;
constexpr auto amount_fields = fields<Amount>({
    {"low", number<&Amount::low>, "The less that is written."},
    {"high", number<&Amount::high>,
     "The more that is written; the same where there is one figure."},
    {"unit", text<&Amount::unit>, "\"piece\" for a plain count, \"%\" for a percentage."},
});
constexpr Shape<Amount> amount{"written_amount", "An amount as written.", table<amount_fields>};

using appraise::Per;
constexpr auto per_fields = fields<Per>({
    parts<amount, &Per::amount>,
    {"of", maybe(text<&Per::of>), "vegetables or water; null where it is not said."},
});
constexpr Shape<Per> per{"per", "So much for so much.", table<per_fields>};

std::string_view material(const Line& line) {
    return line.material == nullptr ? std::string_view() : line.material->name.view();
}
constexpr auto line_fields = fields<Line>({
    {"number", how_many<&Line::number>,
     "Of the line in the text, from 1; 0 for salt read from the method."},
    {"text", text<&Line::text>, "As written, without the bullet."},
    {"sort", choice<line_sort_words, &Line::sort>, "What the line is taken for."},
    {"understood", flag<&Line::understood>, "Whether all of it could be read."},
    {"amount", maybe(object<amount, &Line::amount>), "Null where none is written."},
    {"per", maybe(object<per, &Line::per>), "Null where nothing of the kind is written."},
    {"item", maybe(text<&Line::item>), "What is left of the line without amount and preparation."},
    {"material", maybe(text<material>), "The larder's name."},
    {"role", maybe(choice<role_words, &Line::role>)},
    {"grams", maybe(object<interval, &Line::grams>), "In the jar; null if it cannot be told.", "g"},
    {"optional", flag<&Line::optional>, "Whether the cook may leave it out."},
    {"left_out", flag<&Line::left_out>, "Read, but no part of the jar."},
    {"could_matter", flag<&Line::could_matter>,
     "Not understood, and could be salt, vegetable or water."},
    {"notes", texts<&Line::notes>, "What was assumed, in sentences."},
});
constexpr Shape<Line> line{"list_line", "A line of the list.", table<line_fields>};

// ---- The judgement. ----

constexpr Choice<appraise::Verdict, 5> appraised_words{
    "appraised",
    "Below a range is a safety matter, above it a quality one. inside only if the whole interval "
    "is.",
    appraise::describe,
    {appraise::Verdict::inside, appraise::Verdict::below, appraise::Verdict::above,
     appraise::Verdict::undecided, appraise::Verdict::not_a_ferment}};

using appraise::Lean;
unsigned ways(const Lean& /*unused*/) {
    return appraise::lean_draws;
}
std::string_view toward(const Lean& lean) {
    return appraise::describe(lean);
}
constexpr auto lean_fields = fields<Lean>({
    {"ways", how_many<ways>, "How many ways to read the list were looked at."},
    {"inside", how_many<&Lean::inside>, "How many of them come to that."},
    {"below", how_many<&Lean::below>, "How many of them come to that."},
    {"above", how_many<&Lean::above>, "How many of them come to that."},
    {"toward", maybe(text<toward>),
     "What more than half of them come to: below, above, or inside where none is below."},
});
constexpr Shape<Lean> lean{"lean", "Which way an undecided list leans; never a verdict.",
                           table<lean_fields>};

constexpr auto percent_fields = fields<Appraisal>({
    {"of_vegetables", maybe(object<interval, &Appraisal::of_vegetables>), "Salt per vegetables.",
     "percent"},
    {"of_vegetables_and_water", maybe(object<interval, &Appraisal::of_vegetables_and_water>),
     "Salt per vegetables and water together.", "percent"},
    {"of_brine", maybe(object<interval, &Appraisal::of_brine>), "Salt per finished brine.",
     "percent"},
    {"of_everything", maybe(object<interval, &Appraisal::of_everything>),
     "Salt per everything in the jar, itself included.", "percent"},
});
constexpr Shape<Appraisal> salt_percent{
    "salt_percent", "The salt by each basis; null where it cannot be told.", table<percent_fields>};

const units::Interval& right(const Appraisal& a) {
    return *a.right_g_per_kg;
}
constexpr auto right_fields = fields<Appraisal>({
    parts<interval, right>,
    {"of", text<&Appraisal::right_of>, "What each kg is of."},
});
constexpr Shape<Appraisal> right_per_kg{
    "right_per_kg", "Salt in g that would be right for each kg of `of`.", table<right_fields>};
const Appraisal* with_right(const Appraisal& a) {
    return a.right_g_per_kg ? &a : nullptr;
}
std::optional<RangeEnds> range_of(const Appraisal& a) {
    return range_ends(a.low, a.high);
}
std::optional<units::Interval> right_for_list(const Appraisal& a) {
    return appraise::right_for_list(a);
}

constexpr auto appraisal_fields = fields<Appraisal>({
    {"title", maybe(text<&Appraisal::title>), "Of the list."},
    {"lines", list<line, &Appraisal::lines>, "What each line was read as."},
    {"vegetables_g", maybe(object<interval, &Appraisal::vegetables_g>),
     "All vegetables; null if it cannot be told.", "g"},
    {"salt_g", maybe(object<interval, &Appraisal::salt_g>), "All salt, likewise.", "g"},
    {"water_g", maybe(object<interval, &Appraisal::water_g>), "All water, likewise.", "g"},
    {"salt_percent", object<salt_percent, itself<Appraisal>>},
    {"kind", maybe(text<&Appraisal::kind>), "The kind of ferment; null if it cannot be told."},
    {"method", maybe(text<&Appraisal::method>), "The kind's method, where it has several."},
    {"kind_reason", maybe(text<&Appraisal::kind_reason>), "Why it was taken for that."},
    {"basis", maybe(choice<basis_words, &Appraisal::basis>)},
    {"verdict", choice<appraised_words, &Appraisal::verdict>},
    {"lean", maybe(object<lean, &Appraisal::lean>),
     "Of an undecided list whose figures are bounded."},
    {"reason", maybe(text<&Appraisal::reason>), "The verdict in a sentence or two."},
    {"decides", maybe(text<&Appraisal::decides>), "The one thing that would settle it."},
    {"range", maybe(object<range_ends_shape, range_of>), "Null if none rules."},
    {"right_g_per_kg", maybe(object<right_per_kg, with_right>), "Null where it cannot be told."},
    {"right_g", maybe(object<interval, right_for_list>),
     "Salt, in all, that is inside for this list; null where that cannot be told.", "g"},
    {"advice", texts<&Appraisal::advice>, "Slips, contradictions, what to do next."},
    {"assumptions", texts<&Appraisal::assumptions>, "What was taken for granted, in sentences."},
    {"cautions", list<caution, &Appraisal::cautions>, "What can hurt, and what to do."},
});
constexpr Shape<Appraisal> appraisal{"appraisal", "One recipe from elsewhere, judged.",
                                     table<appraisal_fields>};

struct Appraised {
    std::span<const Appraisal> all;
};
const Appraisal* first(const Appraised& of) {
    return of.all.empty() ? nullptr : &of.all.front();
}
std::optional<std::span<const Appraisal>> several(const Appraised& of) {
    if (of.all.size() < 2) return std::nullopt;
    return of.all;
}
constexpr auto appraise_fields = fields<Appraised>({
    parts<appraisal, first>,
    {"recipes", sometimes(list<appraisal, several>),
     "Of a page with several: all of them. The first stands at the top, too."},
});
constexpr Shape<Appraised> appraise_shape{"appraised_all", "All recipes of a text.",
                                          table<appraise_fields>};

} // namespace

constexpr Result appraise_result{
    "appraise", "jarful.appraise/1",
    "The answer of `jarful appraise --json`. Masses in g, percentages written 2.2 for 2.2 %. Of "
    "several recipes of one page the first stands at the top, and all of them in `recipes`.",
    appraise_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string appraise_json(std::span<const appraise::Appraisal> appraisals) {
    return fields::document(fields::appraise_result, fields::appraise_shape,
                            fields::Appraised{appraisals});
}

} // namespace jarful::render
