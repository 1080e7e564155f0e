#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"
#include "engine/render/ranges_report.hpp"

namespace jarful::fields {

namespace {

using larder::Bound;
std::string_view row_id(const Bound& bound) {
    return bound.row == nullptr ? std::string_view() : bound.row->id.view();
}
std::string_view row_source(const Bound& bound) {
    return bound.row == nullptr ? std::string_view() : bound.row->source.view();
}
std::string_view row_standing(const Bound& bound) {
    return bound.row == nullptr ? std::string_view() : larder::standing(*bound.row);
}
constexpr auto bound_fields = fields<Bound>({
    {"percent", number<&Bound::percent>, "Where the range ends.", "percent"},
    {"row", maybe(text<row_id>), "The row it rests on."},
    {"source", maybe(text<row_source>), "Document."},
    {"status", maybe(choice<standing_words, row_standing>)},
});
constexpr Shape<Bound> bound{"bound", "One end of a ruling range.", table<bound_fields>};

using larder::Ruling;
constexpr auto ruling_fields = fields<Ruling>({
    {"method", maybe(text<&Ruling::method>), "Null if the kind knows one method only."},
    {"title", text<&Ruling::title>, "In words."},
    {"basis", choice<basis_words, &Ruling::basis>},
    {"low", maybe(object<bound, &Ruling::low>), "Null if there is no low end."},
    {"high", maybe(object<bound, &Ruling::high>), "Null if there is no high end."},
    {"typical", maybe(number<&Ruling::typical>), "A usual figure.", "percent"},
    {"why", text<&Ruling::why>, "Which row rules and why."},
});
constexpr Shape<Ruling> ruling{"ruling", "How the salt is judged, made by one method.",
                               table<ruling_fields>};

using larder::RangeRow;
using larder::RowRole;
constexpr auto row_role_words =
    one_of<RowRole>(larder::describe, {RowRole::limit, RowRole::recommendation, RowRole::studied,
                                       RowRole::composition, RowRole::recipe_derived,
                                       RowRole::practice, RowRole::judgement});
constexpr auto row_fields = fields<RangeRow>({
    {"id", text<&RangeRow::id>, "Stable key."},
    {"method", text<&RangeRow::method>, "As the source has it."},
    {"basis", choice<basis_words, &RangeRow::basis>},
    {"low", maybe(number<&RangeRow::low>), "The least that the source says; null if it says none.",
     "percent"},
    {"typical", maybe(number<&RangeRow::typical>),
     "The one figure that it names, or its usual one; null likewise.", "percent"},
    {"high", maybe(number<&RangeRow::high>), "The most that it says; null likewise.", "percent"},
    {"what", choice<row_role_words, &RangeRow::role>, "What sort of figure it is."},
    {"source", text<&RangeRow::source>, "Document."},
    {"section", maybe(text<&RangeRow::section>), "Where in it."},
    {"status", choice<status_words, &RangeRow::status>},
    {"note", maybe(text<&RangeRow::note>), "Remark."},
});
constexpr Shape<RangeRow> row{"range_row", "One figure from one source.", table<row_fields>};

using larder::Caution;
constexpr auto kind_caution_fields = fields<Caution>({
    {"id", text<&Caution::id>, "Stable key."},
    {"title", text<&Caution::title>, "A few words."},
    {"text", text<&Caution::text>, "What to do."},
    {"source", text<&Caution::source>, "Document."},
    {"status", choice<status_words, &Caution::status>},
});
constexpr Shape<Caution> kind_caution{"kind_caution", "A caution particular to a kind.",
                                      table<kind_caution_fields>};

using larder::Kind;
std::vector<const RangeRow*> rows(const Kind& kind) {
    std::vector<const RangeRow*> out;
    for (const std::uint16_t index : kind.rows)
        out.push_back(&larder::range_rows()[index]);
    return out;
}
std::vector<const Caution*> cautions(const Kind& kind) {
    std::vector<const Caution*> out;
    for (const std::string_view id : kind.cautions)
        if (const Caution* found = larder::find_caution(id)) out.push_back(found);
    return out;
}
constexpr auto kind_fields = fields<Kind>({
    {"name", text<&Kind::name>, "As in a recipe's `kind` line."},
    {"title", text<&Kind::title>, "In words."},
    {"names", texts<&Kind::names>, "Other accepted names."},
    {"method_needed", flag<&Kind::method_needed>, "Whether a recipe has to say the method."},
    {"rulings", at_least(1, list<ruling, &Kind::rulings>), "How the salt is judged, by method."},
    {"rows", list<row, rows>, "Every figure of the kind, ruling or not."},
    {"cautions", list<kind_caution, cautions>, "Cautions particular to the kind."},
});
constexpr Shape<Kind> kind_shape{"kind", "A kind of ferment.", table<kind_fields>};

struct Ranges {
    const Kind* one; ///< null: all
    const larder::House* house;
};
std::optional<std::string_view> house(const Ranges& ranges) {
    if (ranges.house == nullptr) return std::nullopt;
    return ranges.house->name();
}
std::vector<const Kind*> kinds(const Ranges& ranges) {
    if (ranges.one != nullptr) return {ranges.one};
    return render::kinds_with(ranges.house);
}
constexpr auto ranges_fields = fields<Ranges>({
    {"house", maybe(text<house>),
     "Whose ranges stand in place of the published ones; null without a house.jarful."},
    {"kinds", list<kind_shape, kinds>, "One, or all."},
});
constexpr Shape<Ranges> ranges_shape{"ranges", "Salt ranges.", table<ranges_fields>};

} // namespace

constexpr Result ranges_result{
    "ranges", "jarful.ranges/1",
    "The answer of `jarful ranges --json`: of one kind, or of all. Percentages written 2.2 for "
    "2.2 %.",
    ranges_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string ranges_json(const larder::Kind* kind, const larder::House* house) {
    return fields::document(fields::ranges_result, fields::ranges_shape,
                            fields::Ranges{kind, house});
}

} // namespace jarful::render
