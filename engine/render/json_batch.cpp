#include "engine/render/batch_report.hpp"
#include "engine/render/fields/dates.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

#include <utility>

namespace jarful::fields {

namespace {

using render::BatchReport;
using tend::days_between;

// ---- Entries, and how they were put right. ----

using tend::Logged;
using What = Logged::What;

std::string_view what_word(What what) {
    static constexpr std::string_view names[] = {"weighed", "ph",  "celsius",
                                                 "filled",  "did", "text"};
    return names[static_cast<std::size_t>(what)];
}
constexpr auto what_words = one_of<What>(
    what_word, {What::weighed, What::ph, What::temperature, What::filled, What::deed, What::text});
constexpr auto entry_units = one_of_words({"g", "mL", "°C"});

bool in_words(const Logged& entry) {
    return entry.what == What::deed || entry.what == What::text;
}
std::optional<double> value(const Logged& entry) {
    if (in_words(entry)) return std::nullopt;
    return entry.value;
}
std::string_view unit(const Logged& entry) {
    if (entry.what == What::weighed && !entry.pieces) return "g";
    if (entry.what == What::filled) return "mL";
    return entry.what == What::temperature ? "°C" : "";
}
/// A text may be empty, and is a text.
std::optional<std::string_view> words(const Logged& entry) {
    if (!in_words(entry)) return std::nullopt;
    return entry.words;
}
constexpr auto entry_fields = fields<Logged>({
    {"what", choice<what_words, &Logged::what>, "What sort of entry it is."},
    {"name", maybe(text<&Logged::name>), "Of what was weighed."},
    {"value", maybe(number<value>),
     "What the scale, the strip or the thermometer said, in `unit`; null for words."},
    {"unit", maybe(choice<entry_units, unit>), "Null for pieces, a pH and words."},
    {"words", maybe(text<words>), "A task or a text."},
});
constexpr Shape<Logged> entry{"entry", "One thing that was noted or weighed.", table<entry_fields>};

using tend::Correction;
constexpr auto correction_fields = fields<Correction>({
    {"date", date<&Correction::date>, "When it was corrected."},
    {"of", date<&Correction::of>, "The day of the entry."},
    {"before", object<entry, &Correction::before>},
    {"after", maybe(object<entry, &Correction::after>), "Null if it was taken back."},
    {"why", maybe(text<&Correction::why>), "In the cook's words."},
});
constexpr Shape<Correction> correction{"correction", "An entry put right.",
                                       table<correction_fields>};

using tend::Weighed;
std::optional<double> grams(const Weighed& one) {
    if (one.pieces) return std::nullopt;
    return one.amount;
}
std::optional<double> pieces(const Weighed& one) {
    if (!one.pieces) return std::nullopt;
    return one.amount;
}
constexpr auto weighed_fields = fields<Weighed>({
    {"name", text<&Weighed::name>, "The recipe's name for it."},
    {"g", maybe(number<grams>), "A weight.", "g"},
    {"pieces", maybe(number<pieces>), "Or pieces."},
    {"date", maybe(date<&Weighed::date>), "When it was weighed; null in a plan."},
    {"taken_back", flag<&Weighed::taken_back>, "Whether it was never weighed so."},
    {"corrections", list<correction, &Weighed::corrections>,
     "How it was put right, in the order written; its own values are the corrected ones."},
});
constexpr Shape<Weighed> weighed{"weighed", "A weight or a number of pieces.",
                                 table<weighed_fields>};

// ---- How a batch stands. ----

using tend::Concern;
constexpr auto concern_words = one_of<Concern>(
    tend::key, {Concern::ph_high, Concern::salt_low, Concern::ph_rising, Concern::too_cold,
                Concern::too_warm, Concern::missed, Concern::past_keeping, Concern::salt_off,
                Concern::silence, Concern::due, Concern::unknown});

using tend::Finding;
constexpr auto finding_fields = fields<Finding>({
    {"concern", choice<concern_words, &Finding::concern>,
     "What it is, in the order of their weight."},
    {"wrong", flag<&Finding::wrong>,
     "It is more than a task of today or something that nobody can tell."},
    {"task", maybe(text<&Finding::task>), "Of `missed` and `due`: the task; ph, ready or move."},
    {"days_late", whole<&Finding::days_late>, "Of what is overdue."},
    {"text", text<&Finding::text>, "A sentence."},
    {"advice", maybe(text<&Finding::advice>), "What to do."},
    {"source", maybe(text<&Finding::source>), "Of the figure that it rests on."},
});
constexpr Shape<Finding> finding{"finding", "What is wrong, overdue, due or not known.",
                                 table<finding_fields>};

std::string_view title(const BatchReport& report) {
    return report.record.title;
}
tend::Date begun(const BatchReport& report) {
    return report.record.begun;
}
int day(const BatchReport& report) {
    return report.standing.day;
}
std::string_view state(const BatchReport& report) {
    const tend::Standing& standing = report.standing;
    if (standing.ended) return "ended";
    if (standing.moved) return "in the cold";
    return standing.begun ? "working" : "not begun";
}
constexpr auto state_words = one_of_words({"not begun", "working", "in the cold", "ended"});
std::optional<double> last_ph(const BatchReport& report) {
    return report.standing.last_ph;
}
std::optional<double> last_celsius(const BatchReport& report) {
    return report.standing.last_celsius;
}
std::optional<tend::Date> last_note(const BatchReport& report) {
    return report.standing.last_note;
}
std::span<const Finding> findings(const BatchReport& report) {
    return report.standing.findings;
}
constexpr auto head_fields = fields<BatchReport>({
    {"path", text<&BatchReport::path>, "The record's file."},
    {"name", text<&BatchReport::name>, "The file's name without its ending."},
    {"title", text<title>, "The recipe's title."},
    {"begun", date<begun>, "The day on which the jar was packed."},
    {"day", whole<day>, "Today, counted from there."},
    {"state", choice<state_words, state>, "Where the batch is."},
    {"last_ph", maybe(number<last_ph>), "The last pH that was noted."},
    {"last_celsius", maybe(number<last_celsius>), "The last temperature.", "°C"},
    {"last_note", maybe(date<last_note>), "The last day of which something is noted."},
    {"findings", list<finding, findings>, "The worst first."},
    {"damage", texts<&BatchReport::damage>, "What of the record could not be read, in sentences."},
});
constexpr Shape<BatchReport> head{"batch_head", "How a batch stands.", table<head_fields>};

// ---- One batch at length. ----

/// A note with its day counted.
struct DatedNote {
    const tend::Note* note = nullptr;
    int day = 0;
};
template <auto member>
inline constexpr auto of_note = through<&DatedNote::note, member>;
using tend::Note;
constexpr auto note_fields = fields<DatedNote>({
    {"date", date<of_note<&Note::date>>, "The day."},
    {"day", whole<&DatedNote::day>, "The same, counted."},
    {"ph", maybe(number<of_note<&Note::ph>>), "pH."},
    {"celsius", maybe(number<of_note<&Note::celsius>>), "Temperature.", "°C"},
    {"filled_ml", maybe(number<of_note<&Note::filled_ml>>), "The room that the batch really takes.",
     "mL"},
    {"did", texts<of_note<&Note::did>>, "What was done."},
    {"text", maybe(text<of_note<&Note::text>>), "In words."},
    {"corrections", list<correction, of_note<&Note::corrections>>,
     "How it was put right, in the order written; its own values are the corrected ones."},
});
constexpr Shape<DatedNote> note{"batch_note", "What was noted of a day.", table<note_fields>};

using tend::Record;
constexpr auto recipe_fields = fields<Record>({
    {"path", maybe(text<&Record::recipe>), "From the record's folder."},
    {"revision", maybe(text<&Record::revision>),
     "git's id of its content when the batch was begun."},
    {"kind", maybe(text<&Record::kind>), "The kind of ferment."},
    {"method", maybe(text<&Record::method>), "The kind's method."},
});
constexpr Shape<Record> recipe{"batch_recipe", "The recipe of a batch.", table<recipe_fields>};

std::vector<DatedNote> notes(const Record& record) {
    std::vector<DatedNote> out;
    for (const Note* one : record.by_date())
        out.push_back({one, days_between(record.begun, one->date)});
    return out;
}
constexpr auto record_fields = fields<Record>({
    {"recipe", object<recipe, itself<Record>>},
    {"room_celsius", maybe(number<&Record::room_celsius>), "How warm the room was to be.", "°C"},
    {"vessels", texts<&Record::vessels>, "Jars that were used."},
    {"without", texts<&Record::without>, "Optional lines that were left out."},
    {"planned", list<weighed, &Record::planned>, "The plan."},
    {"weighed", list<weighed, &Record::weighings>,
     "What was really weighed, corrected, in the order written; of one name the last that was not "
     "taken back counts."},
});
constexpr Shape<Record> record{"batch_record", "What the record says.", table<record_fields>};

const plan::SaltJudgement* salt_of(const BatchReport& report) {
    return report.made && report.made->salt ? &*report.made->salt : nullptr;
}
std::span<const plan::HoldCheck> checks(const BatchReport& report) {
    if (!report.made) return {};
    return report.made->checks;
}
std::vector<DatedNote> notes_of(const BatchReport& report) {
    return notes(report.record);
}
constexpr auto batch_fields = fields<BatchReport>({
    {"today", date<&BatchReport::today>, "The day that it is said of."},
    parts<head, itself<BatchReport>>,
    parts<record, &BatchReport::record>,
    {"salt", maybe(object<salt, salt_of>), "By what was really weighed; null if it is not judged."},
    {"checks", list<check, checks>, "Bounds of the house."},
    {"notes", list<note, notes_of>, "By date."},
    {"remarks", texts<&BatchReport::remarks>, "About the recipe, in sentences."},
});
constexpr Shape<BatchReport> batch_shape{"batch", "A batch at length.", table<batch_fields>};

// ---- Several. ----

struct Batches {
    const std::vector<BatchReport>* reports;
};
const std::vector<BatchReport>& all(const Batches& of) {
    return *of.reports;
}
constexpr auto batches_fields = fields<Batches>({
    {"batches", list<head, all>, "By path."},
});
constexpr Shape<Batches> batches_shape{"batches", "Batches as they stand.", table<batches_fields>};

struct NamedFinding {
    Finding finding;
    std::string batch;
};
constexpr auto named_finding_fields = fields<NamedFinding>({
    parts<finding, &NamedFinding::finding>,
    {"batch", text<&NamedFinding::batch>, "The batch's name."},
});
constexpr Shape<NamedFinding> named_finding{"named_finding", "A finding of one of several batches.",
                                            table<named_finding_fields>};

struct Today {
    tend::Date today;
    std::vector<NamedFinding> findings;
    Batches batches;
};
constexpr auto today_fields = fields<Today>({
    {"today", date<&Today::today>, "The day."},
    {"findings", list<named_finding, &Today::findings>, "Of all batches, the worst first."},
    parts<batches_shape, &Today::batches>,
});
constexpr Shape<Today> today_shape{"today", "What is to be done today.", table<today_fields>};

/// The order is the findings' own; the name of its batch goes with each.
std::vector<NamedFinding> in_order(const std::vector<BatchReport>& reports) {
    std::vector<Finding> order;
    for (const BatchReport& report : reports)
        for (Finding one : report.standing.findings) {
            one.text = report.name + '\n' + one.text;
            tend::add_finding(order, std::move(one));
        }
    std::vector<NamedFinding> out;
    for (Finding& one : order) {
        const std::size_t cut = one.text.find('\n');
        std::string name = one.text.substr(0, cut);
        one.text.erase(0, cut + 1);
        out.push_back({std::move(one), std::move(name)});
    }
    return out;
}

} // namespace

constexpr Result batch_result{
    "batch", "jarful.batch/1",
    "The answer of `jarful batch show --json`. Masses in g, volumes in mL, temperatures °C, dates "
    "ISO 8601.",
    batch_shape};
constexpr Result batches_result{"batches", "jarful.batches/1",
                                "The answer of `jarful batch list --json`.", batches_shape};
constexpr Result today_result{"today", "jarful.today/1", "The answer of `jarful today --json`.",
                              today_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string batch_json(const BatchReport& report) {
    return fields::document(fields::batch_result, fields::batch_shape, report);
}

std::string batches_json(const std::vector<BatchReport>& reports) {
    return fields::document(fields::batches_result, fields::batches_shape,
                            fields::Batches{&reports});
}

std::string today_json(const std::vector<BatchReport>& reports, tend::Date today) {
    return fields::document(fields::today_result, fields::today_shape,
                            fields::Today{today, fields::in_order(reports), {&reports}});
}

} // namespace jarful::render
