#pragma once

#include "engine/plan/chart.hpp"
#include "engine/render/page.hpp"

#include <string>

namespace jarful::render {

/// A chart for the kitchen wall: tables one under another where they are wider than the page. Only
/// readings that hold; where none do, a dash, and the reason below. Ends with a line break.
[[nodiscard]] std::string chart_text(const plan::Chart& chart, const TextStyle& style);

/// The same as one Markdown table with its title and notes.
[[nodiscard]] std::string chart_markdown(const plan::Chart& chart, Units units);

/// Rows with commas between, by RFC 4180: lines end in CR LF, the first names the columns; weights
/// in g, volumes in mL, points for decimals. A reading that does not hold is an empty field.
[[nodiscard]] std::string chart_csv(const plan::Chart& chart);

/// Format "jarful.chart/1"; described in docs/schemas/chart.json.
[[nodiscard]] std::string chart_json(const plan::Chart& chart);

/// What is weighed or counted in a chart, in order. Private to these four.
struct ChartColumn {
    std::string name;      ///< as in the recipe; for a brine's parts "strong: salt"
    bool pieces = false;   ///< counted
    std::size_t list = 0;  ///< 0 givens, 1 items, 2 counts, 3 stocks' water, 4 stocks' salt
    std::size_t index = 0; ///< in its list
    bool each_jar = false;
};
[[nodiscard]] std::vector<ChartColumn> chart_columns(const plan::Chart& chart);
/// The item of a column in a row that was weighed; null for a count.
[[nodiscard]] const plan::Item* chart_item(const plan::WeighOut& out, const ChartColumn& column);

} // namespace jarful::render
