#pragma once

#include "engine/plan/plan.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Where a value comes from: the lines, the operations with their units, the sources, and what
/// makes it unsure. Plain data, each figure also in words.
namespace jarful::plan {

/// A value and what it is. `value` and `bounds` are in base units (g, mL, cm, s, K; a ratio as it
/// is, 0.022 for 2.2 %).
struct TraceValue {
    double value = 0;
    units::Interval bounds; ///< what the truth may be: scales, spoons, stated uncertainty
    units::Dimension dimension;
    bool percent = false;            ///< is read as a percentage
    std::string text;                ///< "42 g", in a unit that fits
    std::string low_text, high_text; ///< rounded outward
    std::string sort;                ///< "a weight", "a volume", …
};

/// A line of the recipe, quoted.
struct TraceLine {
    std::uint32_t number = 0; ///< from 1
    std::string text;         ///< without the blanks at its ends
    std::string file;         ///< of an inherited line: the file that it stands in
};

/// One operation: `words` with names, `figures` with their values and units, and what it comes to.
struct TraceOperation {
    std::string words;   ///< "2.2 % × (cabbage + carrot)"
    std::string figures; ///< "0.022 × 1908 g"; empty where nothing can be put in
    std::string result;  ///< "41.976 g"
    std::string sort;    ///< "a weight"
};

/// A quantity, a total, a figure or a number of the recipe that the value is made of.
struct TraceNode {
    enum class Sort : std::uint8_t {
        quantity, ///< a line of the recipe
        total,    ///< one of the names that are always there, or the verdict
        house,    ///< a constant of the kitchen
        figure,   ///< of the larder, or which spoon is meant: not known exactly
        literal   ///< written in a line
    };
    Sort sort = Sort::quantity;
    std::string name;
    std::string what;  ///< "given", "weighed", "working value", …
    std::string label; ///< as written in the recipe
    TraceValue value;
    std::optional<TraceLine> line;
    std::string how;     ///< "set to 1.84 kg", "worked out backwards", …; empty: by its line
    std::string reading; ///< "42.0 g on \"pocket\""; empty for what is not weighed
    std::vector<TraceOperation> operations;
    std::vector<std::size_t> uses; ///< indices of nodes, in the order of use
    std::string source;            ///< of a figure: document, publisher, year, section
    std::string status;            ///< of a figure: "published", …
};

/// Where a constant comes from.
struct TraceSource {
    std::string what;   ///< "how fine sea salt lies in the spoon", "lb"
    std::string figure; ///< "1.2 g/mL (1.05 to 1.35 g/mL)", "453.59237 g"
    std::string source;
    std::string status; ///< "published", "common practice, …", "by definition", "of the house"
};

/// One cause of the width of a value.
struct TraceCause {
    std::string label;      ///< "the weighing of salt", "how fine sea salt lies in the spoon"
    std::string low, high;  ///< what the cause itself may be; empty if it is not one figure
    double width = 0;       ///< in base units of the value: the most it moves the value alone
    std::string width_text; ///< "0.3 g", "0.02 percentage points"
};

struct Trace {
    std::string title;            ///< of the recipe
    std::string name;             ///< as found
    std::vector<TraceNode> nodes; ///< the first is what was asked for; each thing once
    std::vector<TraceSource> sources;
    std::vector<TraceCause> causes; ///< widest first
    /// For a line that is written in spoons or with a spread, but weighed: what it would be
    /// if it were not weighed.
    std::optional<TraceValue> unweighed;
    std::vector<TraceCause> unweighed_causes;
    std::optional<SaltJudgement> salt; ///< of `verdict`
};

/// Traces a name of the recipe: a quantity, a brine, a constant of the kitchen, `all_produce`,
/// `all_salt`, `all_water`, `everything`; `fill`, `headspace`, `topup`; and `verdict` (or `salt%`),
/// the salt on the basis that its range is stated on. Empty if the recipe, the request or the name
/// has faults. See weigh() for the others.
/// @param name_findings of the name, with places in it.
[[nodiscard]] std::optional<Trace> trace(const language::Document& recipe,
                                         const kitchen::Kitchen& kitchen, const Request& request,
                                         std::string_view name, language::Findings& findings,
                                         RequestFindings& request_findings,
                                         language::Findings& name_findings);

/// What can be traced, in the order written; the names that are always there come last. Empty if
/// the recipe has faults.
[[nodiscard]] std::vector<std::string> traceable_names(const language::Document& recipe,
                                                       const kitchen::Kitchen& kitchen);

} // namespace jarful::plan
