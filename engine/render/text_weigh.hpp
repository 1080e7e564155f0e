#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

#include <string>

namespace jarful::render {

/// The weigh-out as the cook sees it. Ends with a line break.
[[nodiscard]] std::string weigh_text(const plan::WeighOut& out, const TextStyle& style);

} // namespace jarful::render
