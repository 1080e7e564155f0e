#include "engine/render/batch_adopt_report.hpp"
#include "engine/render/fields/results.hpp"

namespace jarful::fields {

namespace {

using render::AdoptReport;
using tend::Proposal;

struct LineProposal {
    const Proposal* proposal;
    int line;
};
template <auto member>
inline constexpr auto of_proposal = through<&LineProposal::proposal, member>;
constexpr auto proposal_fields = fields<LineProposal>({
    {"what", text<of_proposal<&Proposal::what>>,
     "salt's name, packed, ready, or the name of a `measure`."},
    {"line", whole<&LineProposal::line>, "The recipe's line."},
    {"old", text<of_proposal<&Proposal::old_text>>, "What stands there."},
    {"new", text<of_proposal<&Proposal::new_text>>, "What is proposed."},
    {"evidence", texts<of_proposal<&Proposal::evidence>>, "A sentence for each batch."},
    {"meaning", maybe(text<of_proposal<&Proposal::meaning>>),
     "What it comes to, in grams or days."},
});
constexpr Shape<LineProposal> proposal{"proposal", "A change of a single line.",
                                       table<proposal_fields>};

constexpr auto recipe_fields = fields<AdoptReport>({
    {"path", text<&AdoptReport::path>, "Its file."},
    {"title", text<&AdoptReport::title>, "Its title."},
});
constexpr Shape<AdoptReport> recipe{"adopting_recipe", "The recipe.", table<recipe_fields>};

std::vector<LineProposal> proposals(const AdoptReport& report) {
    std::vector<LineProposal> out;
    for (std::size_t i = 0; i < report.proposals.size(); ++i)
        out.push_back({&report.proposals[i], report.lines[i]});
    return out;
}
constexpr auto adopt_fields = fields<AdoptReport>({
    {"recipe", object<recipe, itself<AdoptReport>>},
    {"batches", whole<&AdoptReport::batches>, "Records of this recipe."},
    {"finished", whole<&AdoptReport::finished>, "Of these, noted as ready or moved."},
    {"written", flag<&AdoptReport::written>, "The changes were made."},
    {"proposals", list<proposal, proposals>, "Changes of single lines."},
    {"held_back", texts<&AdoptReport::held_back>,
     "Changes that would leave a range or a bound, or of a line that is inherited."},
});
constexpr Shape<AdoptReport> adopt_shape{"batch_adopt", "What a recipe can learn.",
                                         table<adopt_fields>};

} // namespace

constexpr Result batch_adopt_result{"batch_adopt", "jarful.batch_adopt/1",
                                    "The answer of `jarful batch adopt --json`.", adopt_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string adopt_json(const AdoptReport& report) {
    return fields::document(fields::batch_adopt_result, fields::adopt_shape, report);
}

} // namespace jarful::render
