#include "engine/render/batch_report.hpp"
#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;
using tend::days_between;
using tend::print_date;

namespace {

Json optional(const std::optional<double>& value) {
    return value ? json_number(*value) : Json(nullptr);
}

Json date(const std::optional<tend::Date>& value) {
    return value ? Json(print_date(*value)) : Json(nullptr);
}

Json entry(const tend::Logged& one) {
    using What = tend::Logged::What;
    static constexpr const char* names[] = {"weighed", "ph", "celsius", "filled", "did", "text"};
    Json out{{"what", names[static_cast<std::size_t>(one.what)]}};
    const bool words = one.what == What::deed || one.what == What::text;
    out["name"] = json_text(one.name);
    out["value"] = words ? Json(nullptr) : json_number(one.value);
    out["unit"] = one.what == What::weighed && !one.pieces ? Json("g")
                  : one.what == What::filled               ? Json("mL")
                  : one.what == What::temperature          ? Json("°C")
                                                           : Json(nullptr);
    out["words"] = words ? Json(one.words) : Json(nullptr);
    return out;
}

Json corrections(const std::vector<tend::Correction>& list) {
    Json out = Json::array();
    for (const tend::Correction& one : list)
        out.push_back(Json{{"date", print_date(one.date)},
                           {"of", print_date(one.of)},
                           {"before", entry(one.before)},
                           {"after", one.after ? entry(*one.after) : Json(nullptr)},
                           {"why", json_text(one.why)}});
    return out;
}

Json weighings(const std::vector<tend::Weighed>& list) {
    Json out = Json::array();
    for (const tend::Weighed& one : list)
        out.push_back(Json{{"name", one.name},
                           {"g", one.pieces ? Json(nullptr) : json_number(one.amount)},
                           {"pieces", one.pieces ? json_number(one.amount) : Json(nullptr)},
                           {"date", date(one.date)},
                           {"taken_back", one.taken_back},
                           {"corrections", corrections(one.corrections)}});
    return out;
}

Json findings(const std::vector<tend::Finding>& list) {
    Json out = Json::array();
    for (const tend::Finding& one : list)
        out.push_back(Json{{"concern", tend::key(one.concern)},
                           {"wrong", one.wrong()},
                           {"task", json_text(one.task)},
                           {"days_late", one.days_late},
                           {"text", one.text},
                           {"advice", json_text(one.advice)},
                           {"source", json_text(one.source)}});
    return out;
}

const char* state(const tend::Standing& standing) {
    if (standing.ended) return "ended";
    if (standing.moved) return "in the cold";
    return standing.begun ? "working" : "not begun";
}

/// What the list and today's page have of a batch too.
Json head(const BatchReport& report) {
    const tend::Standing& standing = report.standing;
    return Json{{"path", report.path},
                {"name", report.name},
                {"title", report.record.title},
                {"begun", print_date(report.record.begun)},
                {"day", standing.day},
                {"state", state(standing)},
                {"last_ph", optional(standing.last_ph)},
                {"last_celsius", optional(standing.last_celsius)},
                {"last_note", date(standing.last_note)},
                {"findings", findings(standing.findings)},
                {"damage", report.damage}};
}

Json heads(const std::vector<BatchReport>& reports) {
    Json out = Json::array();
    for (const BatchReport& report : reports)
        out.push_back(head(report));
    return out;
}

Json notes(const tend::Record& record) {
    Json out = Json::array();
    for (const tend::Note* note : record.by_date())
        out.push_back(Json{{"date", print_date(note->date)},
                           {"day", days_between(record.begun, note->date)},
                           {"ph", optional(note->ph)},
                           {"celsius", optional(note->celsius)},
                           {"filled_ml", optional(note->filled_ml)},
                           {"did", note->did},
                           {"text", json_text(note->text)},
                           {"corrections", corrections(note->corrections)}});
    return out;
}

} // namespace

std::string batch_json(const BatchReport& report) {
    const tend::Record& record = report.record;
    Json out;
    out["format"] = "jarful.batch/1";
    out["today"] = print_date(report.today);
    out.update(head(report));
    out["recipe"] = Json{{"path", json_text(record.recipe)},
                         {"revision", json_text(record.revision)},
                         {"kind", json_text(record.kind)},
                         {"method", json_text(record.method)}};
    out["room_celsius"] = optional(record.room_celsius);
    out["vessels"] = record.vessels;
    out["without"] = record.without;
    out["planned"] = weighings(record.planned);
    out["weighed"] = weighings(record.weighings);
    out["salt"] = report.made && report.made->salt ? json_salt(*report.made->salt) : Json(nullptr);
    Json checks = Json::array();
    if (report.made)
        for (const plan::HoldCheck& check : report.made->checks)
            checks.push_back(json_check_line(check));
    out["checks"] = std::move(checks);
    out["notes"] = notes(record);
    out["remarks"] = report.remarks;
    return dumped(out);
}

std::string batches_json(const std::vector<BatchReport>& reports) {
    Json out;
    out["format"] = "jarful.batches/1";
    out["batches"] = heads(reports);
    return dumped(out);
}

std::string today_json(const std::vector<BatchReport>& reports, tend::Date today) {
    Json out;
    out["format"] = "jarful.today/1";
    out["today"] = print_date(today);
    std::vector<tend::Finding> order;
    // The order is the findings' own; the name of its batch goes with each.
    for (const BatchReport& report : reports)
        for (tend::Finding finding : report.standing.findings) {
            finding.text = report.name + '\n' + finding.text;
            tend::add_finding(order, std::move(finding));
        }
    Json list = Json::array();
    for (tend::Finding finding : order) {
        const std::size_t cut = finding.text.find('\n');
        const std::string name = finding.text.substr(0, cut);
        finding.text.erase(0, cut + 1);
        Json one = findings({finding}).front();
        one["batch"] = name;
        list.push_back(std::move(one));
    }
    out["findings"] = std::move(list);
    out["batches"] = heads(reports);
    return dumped(out);
}

} // namespace jarful::render
