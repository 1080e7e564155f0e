#include "engine/render/fields/dates.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"
#include "engine/render/tend_report.hpp"
#include "engine/render/words.hpp"

namespace jarful::fields {

namespace {

using larder::TimingRow;
using tend::Schedule;

std::string remark_words(const plan::RichText& text) {
    return render::plain(text, render::Units::metric);
}

// ---- What is published. ----

constexpr auto timing_fields = fields<TimingRow>({
    {"id", text<&TimingRow::id>, "A stable key."},
    {"celsius_low", maybe(number<&TimingRow::celsius_low>), "The temperature that it is for.",
     "°C"},
    {"celsius_high", maybe(number<&TimingRow::celsius_high>), "Its upper end.", "°C"},
    {"days_low", maybe(number<&TimingRow::days_low>), "Days from the packing of the jar."},
    {"days_high", maybe(number<&TimingRow::days_high>), "Its upper end."},
    {"ph_low", maybe(number<&TimingRow::ph_low>), "pH that is reached."},
    {"ph_high", maybe(number<&TimingRow::ph_high>), "Its upper end."},
    {"source", text<&TimingRow::source>, "Document, publisher, year."},
    {"section", maybe(text<&TimingRow::section>), "Where in it."},
    {"status", choice<status_words, &TimingRow::status>},
    {"note", maybe(text<&TimingRow::note>), "In the source's words or about them."},
});
constexpr Shape<TimingRow> timing_row{"timing_row", "A published row.", table<timing_fields>};

using tend::Outlook;
constexpr auto outlook_fields = fields<Outlook>({
    {"ruling", list<timing_row, &Outlook::ruling>, "Those that a schedule goes by."},
    {"beside", list<timing_row, &Outlook::beside>, "Others, which may disagree."},
    {"store", list<timing_row, &Outlook::store>, "Of keeping."},
});
constexpr Shape<Outlook> outlook{"outlook", "Every published window of a kind.",
                                 table<outlook_fields>};

/// Days with their dates.
struct DaySpan {
    int from_day, to_day;
    tend::Date from, to;
};
constexpr auto span_fields = fields<DaySpan>({
    {"from_day", whole<&DaySpan::from_day>, "The first day."},
    {"to_day", whole<&DaySpan::to_day>, "The last."},
    {"from", date<&DaySpan::from>, "The first day's date."},
    {"to", date<&DaySpan::to>, "The last day's date."},
});
constexpr Shape<DaySpan> day_span{"day_span", "Days, counted and by date.", table<span_fields>};
std::optional<DaySpan> span_of(const Schedule& schedule, const std::optional<tend::Days>& days) {
    if (!days) return std::nullopt;
    return DaySpan{days->from, days->to, schedule.date(days->from), schedule.date(days->to)};
}

// ---- When it is ready, and what the pH must come to. ----

using tend::ReadyFrom;
constexpr auto ready_words =
    one_of<ReadyFrom>(tend::key, {ReadyFrom::recipe, ReadyFrom::published, ReadyFrom::estimate,
                                  ReadyFrom::other_room, ReadyFrom::not_foreseen});

std::optional<DaySpan> likely(const Schedule& s) {
    return span_of(s, s.ready.days);
}
ReadyFrom ready_from(const Schedule& s) {
    return s.ready.from;
}
bool is_estimate(const Schedule& s) {
    return s.ready.from == ReadyFrom::estimate;
}
const std::string& ready_why(const Schedule& s) {
    return s.ready.why;
}
std::string ready_remark(const Schedule& s) {
    return remark_words(s.ready.remark);
}
std::optional<DaySpan> published_days(const Schedule& s) {
    const auto& window = s.published.window;
    return window ? span_of(s, window->days) : std::nullopt;
}
const TimingRow* published_row(const Schedule& s) {
    return s.published.window ? s.published.window->row : nullptr;
}
constexpr auto ready_fields = fields<Schedule>({
    {"likely", maybe(object<day_span, likely>),
     "The days that the plan goes by; null if nothing foresees them."},
    {"from", choice<ready_words, ready_from>,
     "On what they rest: the recipe's line for this temperature, a published window, one between "
     "two published windows, the recipe's line where the room's temperature is not known, or "
     "nothing."},
    {"estimate", flag<is_estimate>, "Worked out between two published windows."},
    {"why", text<ready_why>, "A sentence."},
    {"remark", maybe(text<ready_remark>), "The recipe's."},
    {"published", maybe(object<day_span, published_days>),
     "The published window at this temperature, or the estimate; null if there is none."},
    {"published_row", maybe(object<timing_row, published_row>),
     "The row that it rests on; of an estimate the colder one."},
});
constexpr Shape<Schedule> ready{"ready", "When it is likely ready.", table<ready_fields>};

double ph_limit(const Schedule& /*unused*/) {
    return tend::ph_limit;
}
std::string_view ph_source(const Schedule& /*unused*/) {
    return tend::ph_limit_source;
}
std::optional<int> ph_day(const Schedule& s) {
    if (!s.published.ph_by) return std::nullopt;
    return s.published.ph_by->day;
}
std::optional<tend::Date> ph_date(const Schedule& s) {
    if (!s.published.ph_by) return std::nullopt;
    return s.date(s.published.ph_by->day);
}
const TimingRow* ph_row(const Schedule& s) {
    return s.published.ph_by ? s.published.ph_by->row : nullptr;
}
bool ph_of_any_kind(const Schedule& s) {
    return s.published.ph_by && s.published.ph_by->general;
}
constexpr auto ph_fields = fields<Schedule>({
    {"at_most", number<ph_limit>, "The limit."},
    {"source", text<ph_source>, "Of the limit."},
    {"by_day", maybe(whole<ph_day>), "By this day; null if no published row says."},
    {"by", maybe(date<ph_date>), "Its date."},
    {"row", maybe(object<timing_row, ph_row>), "The row that says so."},
    {"any_kind", flag<ph_of_any_kind>, "The row is for ferments of any kind."},
});
constexpr Shape<Schedule> ph{"ph", "What the pH must come to, and by when it should.",
                             table<ph_fields>};

// ---- Duties, keeping, entries. ----

struct DatedDuty {
    const Schedule* schedule;
    const tend::Duty* duty;
};
using tend::Duty;
template <auto member>
inline constexpr auto of_duty = through<&DatedDuty::duty, member>;
std::optional<double> every_days(const DatedDuty& one) {
    if (!one.duty->every_seconds) return std::nullopt;
    return *one.duty->every_seconds / 86'400;
}
std::vector<tend::Date> duty_dates(const DatedDuty& one) {
    std::vector<tend::Date> out;
    for (const int day : one.duty->days)
        out.push_back(one.schedule->date(day));
    return out;
}
std::string duty_text(const DatedDuty& one) {
    return remark_words(one.duty->remark);
}
constexpr auto duty_fields = fields<DatedDuty>({
    {"task", word<task_words, of_duty<&Duty::task>>, "What is to be done."},
    {"every_days", maybe(number<every_days>), "How often, in days; null for one day."},
    {"times_a_day", whole<of_duty<&Duty::times_a_day>>,
     "More than 1 for what is done every few hours."},
    {"open_ended", flag<of_duty<&Duty::open_ended>>,
     "It goes on until the batch is moved to the cold."},
    {"days", wholes<of_duty<&Duty::days>>, "Its days."},
    {"dates", dates<duty_dates>, "Their dates."},
    {"text", maybe(text<duty_text>), "The line's remark."},
});
constexpr Shape<DatedDuty> duty{"duty", "A `tend` line of the recipe.", table<duty_fields>};

const std::string& where(const Schedule& s) {
    return s.keeping.where;
}
std::optional<int> keep_count(const Schedule& s) {
    if (s.keeping.count <= 0) return std::nullopt;
    return s.keeping.count;
}
std::optional<std::string_view> keep_period(const Schedule& s) {
    if (s.keeping.count <= 0) return std::nullopt;
    return s.keeping.period;
}
std::optional<int> move_day(const Schedule& s) {
    return s.keeping.move_day;
}
std::optional<tend::Date> move_date(const Schedule& s) {
    if (!s.keeping.move_day) return std::nullopt;
    return s.date(*s.keeping.move_day);
}
std::optional<tend::Date> keeps_until(const Schedule& s) {
    return s.keeping.keeps_until;
}
std::string keep_remark(const Schedule& s) {
    return remark_words(s.keeping.remark);
}
constexpr auto keeping_fields = fields<Schedule>({
    {"where", choice<place_words, where>, "What kind of place."},
    {"count", maybe(whole<keep_count>),
     "How many periods it keeps; null if the recipe does not say."},
    {"period", maybe(word<period_words, keep_period>),
     "What is counted; a month is a calendar month."},
    {"move_day", maybe(whole<move_day>), "The last day of the likely ones."},
    {"move", maybe(date<move_date>), "Its date."},
    {"until", maybe(date<keeps_until>), "How long it keeps from there."},
    {"remark", maybe(text<keep_remark>), "The recipe's."},
});
constexpr Shape<Schedule> keeping{"keeping", "Moving to the cold.", table<keeping_fields>};

using tend::EntryWhat;
constexpr auto entry_words =
    one_of<EntryWhat>(tend::key, {EntryWhat::tend, EntryWhat::ready, EntryWhat::ph, EntryWhat::move,
                                  EntryWhat::keeps_until});
struct DatedEntry {
    const Schedule* schedule;
    const tend::Entry* entry;
};
using tend::Entry;
template <auto member>
inline constexpr auto of_entry = through<&DatedEntry::entry, member>;
const Duty* duty_of(const DatedEntry& one) {
    return one.entry->what == EntryWhat::tend ? &one.schedule->duties[one.entry->duty] : nullptr;
}
std::optional<std::string_view> entry_task(const DatedEntry& one) {
    const Duty* found = duty_of(one);
    if (found == nullptr) return std::nullopt;
    return found->task;
}
int entry_times(const DatedEntry& one) {
    const Duty* found = duty_of(one);
    return found == nullptr ? 1 : found->times_a_day;
}
std::string entry_text(const DatedEntry& one) {
    return render::entry_words(*one.schedule, *one.entry);
}
constexpr auto entry_fields = fields<DatedEntry>({
    {"date", date<of_entry<&Entry::date>>, "The day."},
    {"day", whole<of_entry<&Entry::day>>, "The same, counted."},
    {"what", choice<entry_words, of_entry<&Entry::what>>, "What it is."},
    {"task", maybe(word<task_words, entry_task>), "Of `tend`: what is to be done."},
    {"times", whole<entry_times>, "How often on this day."},
    {"text", text<entry_text>, "In words."},
});
constexpr Shape<DatedEntry> dated_entry{"calendar_entry", "One thing on one day.",
                                        table<entry_fields>};

// ---- The whole. ----

std::vector<DatedDuty> duties(const Schedule& s) {
    std::vector<DatedDuty> out;
    for (const Duty& one : s.duties)
        out.push_back({&s, &one});
    return out;
}
std::vector<DatedEntry> entries(const Schedule& s) {
    std::vector<DatedEntry> out;
    for (const Entry& one : s.entries)
        out.push_back({&s, &one});
    return out;
}
const std::vector<const TimingRow*>& room_warnings(const Schedule& s) {
    return s.published.warnings;
}
constexpr auto schedule_fields = fields<Schedule>({
    {"start", date<&Schedule::start>, "The day on which the jar is packed."},
    {"room_celsius", maybe(number<&Schedule::room_celsius>),
     "How warm it stands; null if not known.", "°C"},
    {"ready", object<ready, itself<Schedule>>},
    {"ph", object<ph, itself<Schedule>>},
    {"warnings", list<timing_row, room_warnings>,
     "What is published of rooms as warm or as cold as this one."},
    {"duties", list<duty, duties>, "The recipe's `tend` lines."},
    {"keeping", object<keeping, itself<Schedule>>},
    {"entries", list<dated_entry, entries>, "One thing on one day, in order."},
    {"published", object<outlook, &Schedule::published>},
});
constexpr Shape<Schedule> schedule_shape{"schedule", "What to look after, with dates.",
                                         table<schedule_fields>};

using render::TendReport;
constexpr auto tend_fields = fields<TendReport>({
    {"recipe", object<recipe_head_shape, recipe_head<TendReport>>},
    {"kitchen", object<kitchen_head_shape, kitchen_head<TendReport>>},
    {"jars", texts<&TendReport::jars>, "Jars that were asked for."},
    parts<schedule_shape, &TendReport::schedule>,
    {"cautions", list<caution, &TendReport::cautions>, "What can hurt, and what to do."},
});
constexpr Shape<TendReport> tend_shape{"tend", "What to look after.", table<tend_fields>};

} // namespace

constexpr Result tend_result{
    "tend", "jarful.tend/1",
    "The answer of `jarful tend --json`: what to look after, with dates. The day on which the jar "
    "is packed is day 0. Dates are ISO 8601, temperatures °C.",
    tend_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string tend_json(const TendReport& report) {
    return fields::document(fields::tend_result, fields::tend_shape, report);
}

} // namespace jarful::render
