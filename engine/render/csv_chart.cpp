#include "engine/render/chart_report.hpp"
#include "engine/render/csv.hpp"
#include "engine/units/amount.hpp"

namespace jarful::render {

namespace {

std::string number(double value) {
    return units::print_number(value, 9);
}

std::string unit_of(units::Dimension dimension) {
    if (dimension == units::dim::mass) return "_g";
    if (dimension == units::dim::volume) return "_mL";
    return "";
}

} // namespace

std::string chart_csv(const plan::Chart& chart) {
    std::vector<ChartColumn> columns = chart_columns(chart);
    // In grams throughout, so what the rows go by needs no second column.
    std::erase_if(columns, [&](const ChartColumn& c) { return c.name == chart.name; });
    std::vector<std::string> head{chart.name + unit_of(chart.dimension)};
    for (const ChartColumn& column : columns) {
        head.push_back(column.name + (column.each_jar ? "_pieces_each_jar"
                                      : column.pieces ? "_pieces"
                                                      : "_g"));
    }
    for (const char* name : {"fills_mL", "salt_low_percent", "salt_high_percent", "holds", "note"})
        head.emplace_back(name);
    std::string out;
    csv_line(out, head);
    for (const plan::ChartRow& row : chart.rows) {
        std::vector<std::string> fields{number(row.value)};
        for (const ChartColumn& column : columns) {
            if (!row.holds) {
                fields.emplace_back();
                continue;
            }
            const plan::Item* item = chart_item(*row.out, column);
            fields.push_back(item == nullptr ? std::to_string(row.out->counts[column.index].count)
                                             : number(item->reading_g));
        }
        const bool filled = row.holds && row.out->room;
        const bool salted = row.holds && row.out->salt;
        fields.push_back(filled ? number(row.out->room->fill_ml) : "");
        fields.push_back(salted ? number(row.out->salt->figure.bounds.low) : "");
        fields.push_back(salted ? number(row.out->salt->figure.bounds.high) : "");
        fields.emplace_back(row.holds ? "yes" : "no");
        fields.push_back(row.note);
        csv_line(out, fields);
    }
    return out;
}

} // namespace jarful::render
