#include "engine/render/json_parts.hpp"
#include "engine/render/ranges_report.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

Json optional(const std::optional<double>& value) {
    return value ? json_number(*value) : Json(nullptr);
}

Json bound(const std::optional<larder::Bound>& end) {
    if (!end) return nullptr;
    return Json{
        {"percent", json_number(end->percent)},
        {"row", end->row == nullptr ? Json(nullptr) : Json(end->row->id)},
        {"source", end->row == nullptr ? Json(nullptr) : Json(end->row->source)},
        {"status", end->row == nullptr ? Json(nullptr) : Json(larder::standing(*end->row))}};
}

Json ruling(const larder::Ruling& ruling) {
    return Json{{"method", json_text(std::string(ruling.method))},
                {"title", ruling.title},
                {"basis", larder::key(ruling.basis)},
                {"low", bound(ruling.low)},
                {"high", bound(ruling.high)},
                {"typical", optional(ruling.typical)},
                {"why", ruling.why}};
}

Json row(const larder::RangeRow& row) {
    return Json{{"id", row.id},
                {"method", row.method},
                {"basis", larder::key(row.basis)},
                {"low", optional(row.low)},
                {"typical", optional(row.typical)},
                {"high", optional(row.high)},
                {"what", larder::describe(row.role)},
                {"source", row.source},
                {"section", json_text(std::string(row.section))},
                {"status", larder::describe(row.status)},
                {"note", json_text(std::string(row.note))}};
}

Json kind_json(const larder::Kind& kind) {
    Json names = Json::array();
    for (const std::string_view name : kind.names)
        names.push_back(name);
    Json rulings = Json::array();
    for (const larder::Ruling& one : kind.rulings)
        rulings.push_back(ruling(one));
    Json rows = Json::array();
    for (const std::uint16_t index : kind.rows)
        rows.push_back(row(larder::range_rows()[index]));
    Json cautions = Json::array();
    for (const std::string_view id : kind.cautions) {
        if (const larder::Caution* caution = larder::find_caution(id)) {
            cautions.push_back(Json{{"id", caution->id},
                                    {"title", caution->title},
                                    {"text", caution->text},
                                    {"source", caution->source},
                                    {"status", larder::describe(caution->status)}});
        }
    }
    return Json{{"name", kind.name},
                {"title", kind.title},
                {"names", std::move(names)},
                {"method_needed", kind.method_needed},
                {"rulings", std::move(rulings)},
                {"rows", std::move(rows)},
                {"cautions", std::move(cautions)}};
}

} // namespace

std::string ranges_json(const larder::Kind* kind, const larder::House* house) {
    Json kinds = Json::array();
    if (kind != nullptr) {
        kinds.push_back(kind_json(*kind));
    } else {
        for (const larder::Kind* one : kinds_with(house))
            kinds.push_back(kind_json(*one));
    }
    Json document;
    document["format"] = "jarful.ranges/1";
    document["house"] = house == nullptr ? Json(nullptr) : Json(house->name());
    document["kinds"] = std::move(kinds);
    return dumped(document);
}

} // namespace jarful::render
