#include "engine/render/json_parts.hpp"
#include "engine/render/tend_report.hpp"
#include "engine/render/words.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using tend::print_date;

using Json = nlohmann::ordered_json;

namespace {

Json optional(const std::optional<double>& value) {
    return value ? json_number(*value) : Json(nullptr);
}

Json row(const larder::TimingRow* found) {
    if (found == nullptr) return nullptr;
    return Json{{"id", found->id},
                {"celsius_low", optional(found->celsius_low)},
                {"celsius_high", optional(found->celsius_high)},
                {"days_low", optional(found->days_low)},
                {"days_high", optional(found->days_high)},
                {"ph_low", optional(found->ph_low)},
                {"ph_high", optional(found->ph_high)},
                {"source", found->source},
                {"section", json_text(std::string(found->section))},
                {"status", larder::describe(found->status)},
                {"note", json_text(std::string(found->note))}};
}

Json rows(const std::vector<const larder::TimingRow*>& found) {
    Json out = Json::array();
    for (const larder::TimingRow* one : found)
        out.push_back(row(one));
    return out;
}

Json span(const tend::Schedule& schedule, const std::optional<tend::Days>& days) {
    if (!days) return nullptr;
    return Json{{"from_day", days->from},
                {"to_day", days->to},
                {"from", print_date(schedule.date(days->from))},
                {"to", print_date(schedule.date(days->to))}};
}

Json ready(const tend::Schedule& schedule) {
    const auto& window = schedule.published.window;
    return Json{{"likely", span(schedule, schedule.ready.days)},
                {"from", tend::key(schedule.ready.from)},
                {"estimate", schedule.ready.from == tend::ReadyFrom::estimate},
                {"why", schedule.ready.why},
                {"remark", json_text(plain(schedule.ready.remark, Units::metric))},
                {"published", window ? span(schedule, window->days) : Json(nullptr)},
                {"published_row", window ? row(window->row) : Json(nullptr)}};
}

Json ph(const tend::Schedule& schedule) {
    const auto& by = schedule.published.ph_by;
    return Json{{"at_most", json_number(tend::ph_limit)},
                {"source", tend::ph_limit_source},
                {"by_day", by ? Json(by->day) : Json(nullptr)},
                {"by", by ? Json(print_date(schedule.date(by->day))) : Json(nullptr)},
                {"row", by ? row(by->row) : Json(nullptr)},
                {"any_kind", by && by->general}};
}

Json duty(const tend::Schedule& schedule, const tend::Duty& duty) {
    Json dates = Json::array();
    for (const int day : duty.days)
        dates.push_back(print_date(schedule.date(day)));
    return Json{{"task", duty.task},
                {"every_days",
                 duty.every_seconds ? json_number(*duty.every_seconds / 86'400) : Json(nullptr)},
                {"times_a_day", duty.times_a_day},
                {"open_ended", duty.open_ended},
                {"days", duty.days},
                {"dates", std::move(dates)},
                {"text", json_text(plain(duty.remark, Units::metric))}};
}

Json keeping(const tend::Schedule& schedule) {
    const tend::Keeping& keep = schedule.keeping;
    const bool known = keep.count > 0;
    return Json{
        {"where", keep.where},
        {"count", known ? Json(keep.count) : Json(nullptr)},
        {"period", known ? Json(keep.period) : Json(nullptr)},
        {"move_day", keep.move_day ? Json(*keep.move_day) : Json(nullptr)},
        {"move", keep.move_day ? Json(print_date(schedule.date(*keep.move_day))) : Json(nullptr)},
        {"until", keep.keeps_until ? Json(print_date(*keep.keeps_until)) : Json(nullptr)},
        {"remark", json_text(plain(keep.remark, Units::metric))}};
}

Json entry(const tend::Schedule& schedule, const tend::Entry& one) {
    const bool task = one.what == tend::EntryWhat::tend;
    return Json{{"date", print_date(one.date)},
                {"day", one.day},
                {"what", tend::key(one.what)},
                {"task", task ? Json(schedule.duties[one.duty].task) : Json(nullptr)},
                {"times", task ? schedule.duties[one.duty].times_a_day : 1},
                {"text", entry_words(schedule, one)}};
}

} // namespace

std::string tend_json(const TendReport& report) {
    const tend::Schedule& schedule = report.schedule;
    Json out;
    out["format"] = "jarful.tend/1";
    out["recipe"] = Json{{"title", report.title},
                         {"version", report.version ? Json(*report.version) : Json(nullptr)},
                         {"kind", json_text(report.kind)},
                         {"method", json_text(report.method)}};
    out["kitchen"] = Json{{"name", report.kitchen}, {"built_in", report.kitchen_built_in}};
    out["jars"] = report.jars;
    out["start"] = print_date(schedule.start);
    out["room_celsius"] = optional(schedule.room_celsius);
    out["ready"] = ready(schedule);
    out["ph"] = ph(schedule);
    out["warnings"] = rows(schedule.published.warnings);
    Json duties = Json::array();
    for (const tend::Duty& one : schedule.duties)
        duties.push_back(duty(schedule, one));
    out["duties"] = std::move(duties);
    out["keeping"] = keeping(schedule);
    Json entries = Json::array();
    for (const tend::Entry& one : schedule.entries)
        entries.push_back(entry(schedule, one));
    out["entries"] = std::move(entries);
    out["published"] = Json{{"ruling", rows(schedule.published.ruling)},
                            {"beside", rows(schedule.published.beside)},
                            {"store", rows(schedule.published.store)}};
    Json cautions = Json::array();
    for (const plan::Warning& warning : report.cautions)
        cautions.push_back(Json{{"id", warning.id},
                                {"title", warning.title},
                                {"text", warning.text},
                                {"source", json_text(warning.source)}});
    out["cautions"] = std::move(cautions);
    return dumped(out);
}

} // namespace jarful::render
