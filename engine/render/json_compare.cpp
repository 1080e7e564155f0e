#include "engine/render/compare_report.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using plan::ComparedAmount;

std::optional<int> count(const ComparedAmount& a) {
    if (!a.pieces) return std::nullopt;
    return static_cast<int>(a.reading_g);
}
std::optional<double> exact_pieces(const ComparedAmount& a) {
    if (!a.pieces) return std::nullopt;
    return a.exact_g;
}
std::optional<double> exact_g(const ComparedAmount& a) {
    if (a.pieces) return std::nullopt;
    return a.exact_g;
}
std::optional<double> reading_g(const ComparedAmount& a) {
    if (a.pieces) return std::nullopt;
    return a.reading_g;
}
constexpr auto amount_fields = fields<ComparedAmount>({
    {"word", text<&ComparedAmount::word>,
     "given, total, share, weigh, count, cap, measure or brine."},
    {"count", sometimes(whole<count>), "Whole pieces, instead of the weights."},
    {"exact", sometimes(number<exact_pieces>), "Pieces before they were made whole."},
    {"exact_g", sometimes(number<exact_g>), "What the recipe comes to.", "g"},
    {"reading_g", sometimes(number<reading_g>), "What to wait for on the scale.", "g"},
    {"share_percent", maybe(number<&ComparedAmount::share_percent>),
     "Of all that counts as vegetable; null without any, and for pieces."},
    {"material", maybe(text<&ComparedAmount::material>), "As resolved."},
    {"role", maybe(text<&ComparedAmount::role>), "What it is in the jar, in words."},
    {"fate", text<&ComparedAmount::fate>, "What becomes of it, in words."},
    {"label", maybe(text<&ComparedAmount::label>), "The text beside it."},
    {"strength", maybe(text<&ComparedAmount::strength>), "Of a brine made beforehand."},
});
constexpr Shape<ComparedAmount> amount{"compared_amount", "What one of the two makes of it.",
                                       table<amount_fields>};

using plan::ComparedLine;
std::string_view change_of(const ComparedLine& line) {
    if (!line.before) return "appeared";
    if (!line.after) return "gone";
    return line.differs() ? "changed" : "same";
}
constexpr auto line_changes = one_of_words({"same", "changed", "appeared", "gone"});
constexpr auto line_fields = fields<ComparedLine>({
    {"name", text<&ComparedLine::name>, "The name in the recipe."},
    {"change", choice<line_changes, change_of>, "What has become of it."},
    {"before", maybe(object<amount, &ComparedLine::before>), "Null where there is no such line."},
    {"after", maybe(object<amount, &ComparedLine::after>), "Null where there is no such line."},
    {"remarks", texts<&ComparedLine::remarks>,
     "What else is another: its material, role, fate, words."},
});
constexpr Shape<ComparedLine> line{"compared_line", "A quantity of either.", table<line_fields>};

using plan::ComparedText;
using TextChange = ComparedText::Sort;
std::string_view text_change(TextChange sort) {
    static constexpr std::string_view names[] = {"appeared", "gone", "changed", "moved"};
    return names[static_cast<std::size_t>(sort)];
}
constexpr auto text_changes = one_of<TextChange>(
    text_change, {TextChange::appeared, TextChange::gone, TextChange::changed, TextChange::moved});
constexpr auto text_fields = fields<ComparedText>({
    {"change", choice<text_changes, &ComparedText::sort>, "What has become of it."},
    {"before", maybe(text<&ComparedText::before>), "As `tidy` writes it."},
    {"after", maybe(text<&ComparedText::after>), "As `tidy` writes it."},
});
constexpr Shape<ComparedText> compared_text{
    "compared_text", "A line of words that is not the same.", table<text_fields>};

using plan::ComparedFigure;
constexpr auto figure_fields = fields<ComparedFigure>({
    {"before", maybe(number<&ComparedFigure::before>), "Null where there is none."},
    {"after", maybe(number<&ComparedFigure::after>), "Null where there is none."},
});
constexpr Shape<ComparedFigure> figure{"compared_figure", "A figure of both.",
                                       table<figure_fields>};

struct Side {
    std::string_view name, title;
    std::optional<int> version;
    std::string_view kind;
    const plan::ComparedSalt* salt;
};
const plan::SaltJudgement* salt_of(const Side& side) {
    return side.salt->salt ? &*side.salt->salt : nullptr;
}
std::string_view why_not(const Side& side) {
    return side.salt->why_not;
}
constexpr auto side_fields = fields<Side>({
    {"name", text<&Side::name>, "What it is called: a path, with the revision and its date."},
    {"title", text<&Side::title>, "As in the recipe."},
    {"version", maybe(whole<&Side::version>), "As in the recipe."},
    {"kind", maybe(text<&Side::kind>), "With its method."},
    {"salt", maybe(object<salt, salt_of>), "As `weigh` has it; null if the salt is not judged."},
    {"salt_not_judged", maybe(text<why_not>), "Why not."},
});
constexpr Shape<Side> side_shape{"compared_side", "One of the two.", table<side_fields>};

using plan::Comparison;
struct Compared {
    const Comparison* both;
    const render::ComparedNames* names;
};
template <auto member>
inline constexpr auto of_both = through<&Compared::both, member>;
bool same(const Compared& c) {
    return c.both->same();
}
Side before(const Compared& c) {
    return {c.names->before, c.both->title_before, c.both->version_before, c.both->kind_before,
            &c.both->salt_before};
}
Side after(const Compared& c) {
    return {c.names->after, c.both->title_after, c.both->version_after, c.both->kind_after,
            &c.both->salt_after};
}
constexpr auto compare_fields = fields<Compared>({
    {"same", flag<same>,
     "Whether the food is the same: everything here but names, titles, versions and `aside`."},
    {"batch", text<of_both<&Comparison::batch>>, "What both were made for, in words."},
    {"before", object<side_shape, before>},
    {"after", object<side_shape, after>},
    {"lines", list<line, of_both<&Comparison::lines>>,
     "Every quantity of either, those of `after` first, in their order."},
    {"holds", list<compared_text, of_both<&Comparison::holds>>,
     "Bounds of the house that are not the same."},
    {"method", list<compared_text, of_both<&Comparison::method>>,
     "Steps and rests that are not the same, or stand elsewhere."},
    {"afterwards", list<compared_text, of_both<&Comparison::later>>,
     "`tend`, `ready` and `keep` lines that are not the same."},
    {"fill_ml", object<figure, of_both<&Comparison::fill_ml>>, "The room that the batch takes.",
     "mL"},
    {"headspace_percent", object<figure, of_both<&Comparison::headspace_percent>>,
     "Of the brimful volume."},
    {"headspace_cm", object<figure, of_both<&Comparison::headspace_cm>>, "Where it is a height.",
     "cm"},
    {"topup_percent", object<figure, of_both<&Comparison::topup_percent>>,
     "Salt of the top-up, in g to 100 g of water."},
    {"aside", texts<of_both<&Comparison::aside>>,
     "What is no food, in sentences: title, version, sources, the batch that is written."},
});
constexpr Shape<Compared> compare_shape{"compare", "Two recipes.", table<compare_fields>};

} // namespace

constexpr Result compare_result{
    "compare", "jarful.compare/1",
    "The answer of `jarful compare --json`: two recipes, or one at two times, made for the same "
    "batch.",
    compare_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string compare_json(const plan::Comparison& comparison, const ComparedNames& names) {
    return fields::document(fields::compare_result, fields::compare_shape,
                            fields::Compared{&comparison, &names});
}

} // namespace jarful::render
