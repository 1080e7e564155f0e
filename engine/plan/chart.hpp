#pragma once

#include "engine/plan/plan.hpp"

#include <optional>
#include <string>
#include <vector>

/// A recipe as a table: one weigh-out a row, for the wall beside the scale.
namespace jarful::plan {

inline constexpr std::size_t most_chart_rows = 60;

struct ChartRequest {
    /// `cabbage=500g..5kg`: one part, a range, above nothing. It may be anything that a request may
    /// set or ask for, but `jar`.
    Setting varied;
    std::optional<units::Amount> every; ///< a round step, if empty
    Request rest;                       ///< what is the same in every row
};

struct ChartFindings {
    language::Findings varied, every;
    RequestFindings rest;
    [[nodiscard]] bool has_faults() const;
};

struct ChartRow {
    double value = 0;            ///< of what varies, in base units: as the scale shows a given
    double label = 0;            ///< the round figure of the row, in base units
    std::optional<WeighOut> out; ///< empty if no batch makes it so
    bool holds = false;          ///< the worst case of all readings keeps every bound
    std::string note;            ///< why it does not: the rest of a sentence; else empty
};

struct Chart {
    std::string name; ///< of what varies
    units::Dimension dimension;
    bool us = false;            ///< the rows go by pounds, quarts …
    std::vector<ChartRow> rows; ///< one at least of which has a weigh-out
    [[nodiscard]] const WeighOut& any() const;
    [[nodiscard]] bool all_hold() const;
};

/// Round figures from `from` to `to`, both ends included: multiples of `every`, or, if that is 0,
/// of a step of 1, 2, 2.5 or 5 that gives about twenty rows. Empty if there would be more than
/// most_chart_rows, or if from is not below to.
[[nodiscard]] std::vector<double> chart_values(double from, double to, double every);

/// Empty if the recipe or the request has faults, or no row can be weighed at all.
[[nodiscard]] std::optional<Chart> chart(const language::Document& recipe,
                                         const kitchen::Kitchen& kitchen,
                                         const ChartRequest& request, language::Findings& findings,
                                         ChartFindings& chart_findings);

} // namespace jarful::plan
