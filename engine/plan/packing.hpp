#pragma once

#include "engine/plan/plan.hpp"

/// A batch as it is packed.
namespace jarful::plan {

/// A weigh-out in jars. They are chosen from the kitchen's own, those with less air where there is
/// a choice, unless the request names some or asks how much it takes to fill a room, or the kitchen
/// has none; without jars where the recipe does not say what room it takes.
///
/// See weigh() for the parameters.
[[nodiscard]] std::optional<WeighOut> pack(const language::Document& recipe,
                                           const kitchen::Kitchen& kitchen, Request request,
                                           language::Findings& findings,
                                           RequestFindings& request_findings);

/// Whether the salt and every bound of the house are kept for certain, every number can be shown on
/// a scale, and the jars that were named take it all.
[[nodiscard]] bool all_well(const WeighOut& out);

} // namespace jarful::plan
