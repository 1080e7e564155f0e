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

/// Both batches' names of what was planned or weighed, in the order of the first. This and what
/// follows is for these files only.
[[nodiscard]] std::vector<std::string> compared_names(const BatchReport& a, const BatchReport& b);
/// What was weighed; where nothing was, the plan, which is said; null where there is neither.
struct KnownWeight {
    const tend::Weighed* weighed = nullptr;
    bool planned = false;
};
[[nodiscard]] KnownWeight known_weight(const tend::Record& record, const std::string& name);
/// The day, counted from the packing, on which something was first done.
[[nodiscard]] std::optional<int> day_of_deed(const tend::Record& record, std::string_view deed);

/// pH and temperature over the days, as one SVG that needs nothing else: lines told apart by their
/// dashes and marks, not by colour, and all figures in its description. Up to four batches.
[[nodiscard]] std::string batch_plot_svg(const std::vector<const BatchReport*>& reports);

} // namespace jarful::render
