#pragma once

#include "engine/plan/trace.hpp"

#include <optional>
#include <string>
#include <vector>

/// The values of many names at once. Apart from trace.hpp, since few want it.
namespace jarful::plan {

/// For each name of a quantity the value that trace() gives it at the recipe's own amounts, from
/// one model; empty where there is none of that name. All empty if the recipe has faults.
/// @param recipe of FileKind::recipe, parsed without faults.
[[nodiscard]] std::vector<std::optional<TraceValue>>
trace_values(const language::Document& recipe, const kitchen::Kitchen& kitchen,
             const std::vector<std::string>& names);

} // namespace jarful::plan
