#pragma once

#include "engine/plan/weigh_out.hpp"

#include <string>

namespace jarful::render {

/// The weigh-out as JSON, format "jarful.weigh/1"; described in docs/schemas/weigh.json. Masses in
/// g, volumes in mL, percentages written 2.2. Ends with a line break.
[[nodiscard]] std::string weigh_json(const plan::WeighOut& out);

} // namespace jarful::render
