#include "engine/render/chart_report.hpp"
#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

const char* unit_of(units::Dimension dimension) {
    if (dimension == units::dim::mass) return "g";
    if (dimension == units::dim::volume) return "mL";
    if (dimension == units::dim::length) return "cm";
    return "";
}

Json item(const ChartColumn& column, const plan::Item& item) {
    Json portions = Json::array();
    if (!item.too_small) {
        for (const plan::Portion& portion : item.portions) {
            portions.push_back(
                Json{{"scale", portion.scale}, {"reading_g", json_number(portion.reading_g)}});
        }
    }
    return Json{{"name", column.name},
                {"exact_g", json_number(item.exact_g)},
                {"reading_g", json_number(item.reading_g)},
                {"step_g", json_number(item.step_g)},
                {"scale", json_text(item.scale)},
                {"too_small", item.too_small},
                {"portions", std::move(portions)}};
}

Json row(const plan::Chart& chart, const std::vector<ChartColumn>& columns,
         const plan::ChartRow& row) {
    Json items = Json::array();
    Json counts = Json::array();
    if (row.holds) {
        for (const ChartColumn& column : columns) {
            if (column.name == chart.name) continue;
            if (const plan::Item* it = chart_item(*row.out, column)) {
                items.push_back(item(column, *it));
            } else {
                counts.push_back(
                    Json{{"name", column.name}, {"count", row.out->counts[column.index].count}});
            }
        }
    }
    Json salt = nullptr;
    if (row.out && row.out->salt) {
        const plan::SaltJudgement& s = *row.out->salt;
        salt = Json{{"basis", larder::key(s.figure.basis)},
                    {"percent", json_number(s.figure.percent)},
                    {"low", json_low(s.figure.bounds)},
                    {"high", json_high(s.figure.bounds)},
                    {"verdict", plan::describe(s.verdict)}};
    }
    return Json{{"value", json_number(row.value)},
                {"holds", row.holds},
                {"note", json_text(row.note)},
                {"items", std::move(items)},
                {"counts", std::move(counts)},
                {"fill_ml",
                 row.holds && row.out->room ? json_number(row.out->room->fill_ml) : Json(nullptr)},
                {"salt", std::move(salt)}};
}

} // namespace

std::string chart_json(const plan::Chart& chart) {
    const plan::WeighOut& any = chart.any();
    const std::vector<ChartColumn> columns = chart_columns(chart);
    Json rows = Json::array();
    for (const plan::ChartRow& one : chart.rows)
        rows.push_back(row(chart, columns, one));
    Json document;
    document["format"] = "jarful.chart/1";
    document["recipe"] = Json{{"title", any.title},
                              {"version", any.version ? Json(*any.version) : Json(nullptr)},
                              {"kind", json_text(any.kind)},
                              {"method", json_text(any.method)}};
    document["kitchen"] = Json{{"name", any.kitchen}, {"built_in", any.kitchen_built_in}};
    document["left_out"] = any.left_out;
    document["name"] = chart.name;
    document["unit"] = unit_of(chart.dimension);
    document["all_hold"] = chart.all_hold();
    document["rows"] = std::move(rows);
    return dumped(document);
}

} // namespace jarful::render
