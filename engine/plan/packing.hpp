#pragma once

#include "engine/plan/weigh_out.hpp"

/// A batch as it is packed.
namespace jarful::plan {

/// Whether the salt and every bound of the house are kept for certain, of each jar too, every
/// number can be shown on a scale, and the jars, named or chosen, take it all.
[[nodiscard]] bool all_well(const WeighOut& out);

} // namespace jarful::plan
