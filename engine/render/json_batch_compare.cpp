#include "engine/render/batch_compare_report.hpp"
#include "engine/render/fields/dates.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using render::BatchReport;
using render::KnownWeight;

std::optional<double> grams(const KnownWeight& known) {
    if (known.weighed->pieces) return std::nullopt;
    return known.weighed->amount;
}
std::optional<double> pieces(const KnownWeight& known) {
    if (!known.weighed->pieces) return std::nullopt;
    return known.weighed->amount;
}
constexpr auto weight_fields = fields<KnownWeight>({
    {"g", maybe(number<grams>), "A weight.", "g"},
    {"pieces", maybe(number<pieces>), "Or pieces."},
    {"planned_only", flag<&KnownWeight::planned>, "Nothing is noted as weighed: this is the plan."},
});
constexpr Shape<KnownWeight> known_weight{"known_weight", "What was weighed of a batch.",
                                          table<weight_fields>};

/// A name in both.
struct BothWeights {
    std::string name;
    KnownWeight first, second;
};
const KnownWeight* known(const KnownWeight& weight) {
    return weight.weighed == nullptr ? nullptr : &weight;
}
const KnownWeight* of_first(const BothWeights& both) {
    return known(both.first);
}
const KnownWeight* of_second(const BothWeights& both) {
    return known(both.second);
}
constexpr auto both_fields = fields<BothWeights>({
    {"name", text<&BothWeights::name>, "The recipe's."},
    {"first", maybe(object<known_weight, of_first>), "Of the first batch."},
    {"second", maybe(object<known_weight, of_second>), "Of the second."},
});
constexpr Shape<BothWeights> both_weights{"both_weights", "What was weighed of one name.",
                                          table<both_fields>};

struct CountedNote {
    const tend::Note* note;
    int day;
};
using tend::Note;
template <auto member>
inline constexpr auto of_note = through<&CountedNote::note, member>;
constexpr auto note_fields = fields<CountedNote>({
    {"day", whole<&CountedNote::day>, "Days from the packing."},
    {"ph", maybe(number<of_note<&Note::ph>>), "pH."},
    {"celsius", maybe(number<of_note<&Note::celsius>>), "Temperature.", "°C"},
    {"did", texts<of_note<&Note::did>>, "What was done."},
    {"text", maybe(text<of_note<&Note::text>>), "In words."},
});
constexpr Shape<CountedNote> counted_note{"counted_note", "What was noted of a day.",
                                          table<note_fields>};

tend::Date begun(const BatchReport& report) {
    return report.record.begun;
}
std::string_view revision(const BatchReport& report) {
    return report.record.revision;
}
const plan::SaltJudgement* salt_of(const BatchReport& report) {
    return report.made && report.made->salt ? &*report.made->salt : nullptr;
}
std::optional<int> ready_day(const BatchReport& report) {
    return render::day_of_deed(report.record, "ready");
}
std::optional<int> move_day(const BatchReport& report) {
    return render::day_of_deed(report.record, "move");
}
std::optional<int> end_day(const BatchReport& report) {
    return render::day_of_deed(report.record, "end");
}
std::vector<CountedNote> notes(const BatchReport& report) {
    std::vector<CountedNote> out;
    for (const Note* note : report.record.by_date())
        out.push_back({note, tend::days_between(report.record.begun, note->date)});
    return out;
}
constexpr auto side_fields = fields<BatchReport>({
    {"name", text<&BatchReport::name>, "The file's name without its ending."},
    {"begun", date<begun>, "Day 0."},
    {"revision", maybe(text<revision>), "git's id of the recipe's content."},
    {"salt", maybe(object<salt, salt_of>), "By what was really weighed; null if it is not judged."},
    {"ready_day", maybe(whole<ready_day>), "The day on which it was noted as ready."},
    {"move_day", maybe(whole<move_day>), "As moved to the cold."},
    {"end_day", maybe(whole<end_day>), "As ended."},
    {"notes", list<counted_note, notes>, "By date."},
    {"remarks", texts<&BatchReport::remarks>, "About the recipe, in sentences."},
});
constexpr Shape<BatchReport> side{"compared_batch", "One of the two batches.", table<side_fields>};

struct TwoBatches {
    std::vector<const BatchReport*> both;
};
std::vector<BothWeights> weighed(const TwoBatches& two) {
    const BatchReport& a = *two.both.front();
    const BatchReport& b = *two.both.back();
    std::vector<BothWeights> out;
    for (std::string& name : render::compared_names(a, b)) {
        const KnownWeight first = render::known_weight(a.record, name);
        const KnownWeight second = render::known_weight(b.record, name);
        out.push_back({std::move(name), first, second});
    }
    return out;
}
constexpr auto compare_fields = fields<TwoBatches>({
    {"batches", at_least(2, at_most(2, list<side, &TwoBatches::both>)), "Two of them."},
    {"weighed", list<both_weights, weighed>, "By name."},
});
constexpr Shape<TwoBatches> compare_shape{"batch_compare", "Two batches.", table<compare_fields>};

} // namespace

constexpr Result batch_compare_result{
    "batch_compare", "jarful.batch_compare/1",
    "The answer of `jarful batch compare --json`: the first batch named and the second.",
    compare_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string batch_compare_json(const BatchReport& a, const BatchReport& b) {
    return fields::document(fields::batch_compare_result, fields::compare_shape,
                            fields::TwoBatches{{&a, &b}});
}

} // namespace jarful::render
