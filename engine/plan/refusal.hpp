#pragma once

#include "engine/plan/holding.hpp"

#include <optional>
#include <string>

/// Private to the room: what would do where no reading keeps every bound.
namespace jarful::plan {

/// Each way was tried with the same search for readings that is used to weigh.
struct Refusal {
    std::string text; ///< which bound cannot be kept on these scales
    /// The smallest batch, as a given and its weight, which a scale can show; all givens grow with
    /// it. Empty if none up to fifty times the batch does.
    std::optional<std::string> batch_name;
    std::optional<double> batch_g;
    std::optional<double> step_g; ///< a scale of this step, as exact as its step, would do
    /// Salt weighed as a brine: so much of a solution of `brine_percent` salt.
    std::optional<double> brine_percent, brine_g;
};

/// Finds out; leaves the model as it was. @param settler has settled and does not hold.
[[nodiscard]] Refusal explain_refusal(Model& model, const kitchen::Kitchen& kitchen,
                                      Settler& settler);

} // namespace jarful::plan
