#pragma once

#include "engine/render/batch_report.hpp"

#include <string>
#include <vector>

/// Batches side by side.
namespace jarful::render {

[[nodiscard]] std::string batch_compare_text(const BatchReport& a, const BatchReport& b,
                                             const TextStyle& style);
/// Format "jarful.batch_compare/1", described in docs/schemas/batch_compare.json.
[[nodiscard]] std::string batch_compare_json(const BatchReport& a, const BatchReport& b);

/// pH and temperature over the days, as one SVG that needs nothing else: lines told apart by their
/// dashes and marks, not by colour, and all figures in its description. Up to four batches.
[[nodiscard]] std::string batch_plot_svg(const std::vector<const BatchReport*>& reports);

} // namespace jarful::render
