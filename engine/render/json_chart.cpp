#include "engine/render/chart_report.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using plan::Chart;
using render::ChartColumn;

/// What is weighed in a row.
struct ChartItem {
    const ChartColumn* column;
    const plan::Item* item;
};
std::string_view name_of(const ChartItem& one) {
    return one.column->name;
}
template <auto member>
inline constexpr auto of_item = through<&ChartItem::item, member>;
std::vector<plan::Portion> portions_of(const ChartItem& one) {
    return one.item->too_small ? std::vector<plan::Portion>() : one.item->portions;
}
using plan::Item;
constexpr auto chart_item_fields = fields<ChartItem>({
    {"name", text<name_of>,
     "The name in the recipe; \"NAME: salt\" and \"NAME: water\" for a brine's parts."},
    {"exact_g", maybe(number<of_item<&Item::exact_g>>), "What the recipe comes to.", "g"},
    {"reading_g", maybe(number<of_item<&Item::reading_g>>),
     "What to wait for, of all portions together.", "g"},
    {"step_g", number<of_item<&Item::step_g>>, "The scale's step.", "g"},
    {"scale", maybe(text<of_item<&Item::scale>>), "The scale's name."},
    {"too_small", flag<of_item<&Item::too_small>>, "Too little for the scale."},
    {"portions", list<portion, portions_of>,
     "One, or several where it is more than the scale carries; none where it is too little for the "
     "scale."},
});
constexpr Shape<ChartItem> chart_item_shape{"chart_item", "What is weighed in a row.",
                                            table<chart_item_fields>};

struct ChartCount {
    std::string_view name;
    int count;
};
constexpr auto chart_count_fields = fields<ChartCount>({
    {"name", text<&ChartCount::name>, "The name in the recipe."},
    {"count", whole<&ChartCount::count>, "Whole pieces."},
});
constexpr Shape<ChartCount> chart_count{"chart_count", "What is counted in a row.",
                                        table<chart_count_fields>};

using plan::SaltJudgement;
constexpr auto chart_salt_fields = fields<SaltJudgement>({
    parts<basis_figure, &SaltJudgement::figure>,
    {"verdict", choice<verdict_words, &SaltJudgement::verdict>},
});
constexpr Shape<SaltJudgement> chart_salt{
    "chart_salt", "The salt on the basis that its range is stated on, by the readings of the row.",
    table<chart_salt_fields>};

/// A row, with what is needed to read it.
struct ChartRow {
    const Chart* chart;
    const std::vector<ChartColumn>* columns;
    const plan::ChartRow* row;
};
template <auto member>
inline constexpr auto of_row = through<&ChartRow::row, member>;
std::vector<ChartItem> items(const ChartRow& one) {
    std::vector<ChartItem> out;
    if (!one.row->holds) return out;
    for (const ChartColumn& column : *one.columns)
        if (column.name != one.chart->name)
            if (const Item* item = render::chart_item(*one.row->out, column))
                out.push_back({&column, item});
    return out;
}
std::vector<ChartCount> counts(const ChartRow& one) {
    std::vector<ChartCount> out;
    if (!one.row->holds) return out;
    for (const ChartColumn& column : *one.columns)
        if (column.name != one.chart->name && render::chart_item(*one.row->out, column) == nullptr)
            out.push_back({column.name, one.row->out->counts[column.index].count});
    return out;
}
std::optional<double> fill_ml(const ChartRow& one) {
    if (!one.row->holds || !one.row->out->room) return std::nullopt;
    return one.row->out->room->fill_ml;
}
const SaltJudgement* salt_of(const ChartRow& one) {
    return one.row->out && one.row->out->salt ? &*one.row->out->salt : nullptr;
}
constexpr auto chart_row_fields = fields<ChartRow>({
    {"value", number<of_row<&plan::ChartRow::value>>, "Of what the rows go by, in `unit`."},
    {"holds", flag<of_row<&plan::ChartRow::holds>>,
     "Whether the worst case of all readings keeps every bound."},
    {"note", maybe(text<of_row<&plan::ChartRow::note>>), "Why it does not."},
    {"items", list<chart_item_shape, items>, "What is weighed; empty where the row does not hold."},
    {"counts", list<chart_count, counts>, "What is counted; empty where the row does not hold."},
    {"fill_ml", maybe(number<fill_ml>), "The room that it takes; null if the recipe does not say.",
     "mL"},
    {"salt", maybe(object<chart_salt, salt_of>),
     "Null if it is not judged, or the row cannot be weighed."},
});
constexpr Shape<ChartRow> chart_row{"chart_row", "A row of the chart.", table<chart_row_fields>};

RecipeHead recipe(const Chart& chart) {
    return recipe_head(chart.any());
}
KitchenHead kitchen(const Chart& chart) {
    return kitchen_head(chart.any());
}
const std::vector<std::string>& left_out(const Chart& chart) {
    return chart.any().left_out;
}
std::string_view unit_of(const Chart& chart) {
    if (chart.dimension == units::dim::mass) return "g";
    if (chart.dimension == units::dim::volume) return "mL";
    if (chart.dimension == units::dim::length) return "cm";
    return "";
}

struct ChartRows {
    const Chart* chart;
    std::vector<ChartColumn> columns;
};
std::vector<ChartRow> rows_of(const ChartRows& of) {
    std::vector<ChartRow> out;
    for (const plan::ChartRow& row : of.chart->rows)
        out.push_back({of.chart, &of.columns, &row});
    return out;
}
const Chart& chart_of(const ChartRows& of) {
    return *of.chart;
}
constexpr auto chart_head_fields = fields<Chart>({
    {"recipe", object<recipe_head_shape, recipe>},
    {"kitchen", object<kitchen_head_shape, kitchen>},
    {"left_out", texts<left_out>, "Names of optional lines that were left out."},
    {"name", text<&Chart::name>, "What the rows go by."},
    {"unit", text<unit_of>, "g, mL or cm; empty for a plain number."},
    {"all_hold", flag<&Chart::all_hold>, "Whether every row holds."},
});
constexpr Shape<Chart> chart_head{"chart_head", "What a chart is of.", table<chart_head_fields>};
constexpr auto chart_fields = fields<ChartRows>({
    parts<chart_head, chart_of>,
    {"rows",
     at_least(2, at_most(static_cast<int>(plan::most_chart_rows), list<chart_row, rows_of>)),
     "One for each amount, rising; 60 at most."},
});
constexpr Shape<ChartRows> chart_shape{"chart", "A chart.", table<chart_fields>};

} // namespace

constexpr Result chart_result{
    "chart", "jarful.chart/1",
    "The answer of `jarful chart --json`. Masses in g, volumes in mL, percentages written 2.2 for "
    "2.2 %.",
    chart_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string chart_json(const plan::Chart& chart) {
    return fields::document(fields::chart_result, fields::chart_shape,
                            fields::ChartRows{&chart, chart_columns(chart)});
}

} // namespace jarful::render
