#pragma once

#include "engine/render/fields/fields.hpp"

#include <vector>

namespace jarful::cli {

/// Every result that has a schema: those of the commands by name, then those of pages.
[[nodiscard]] std::vector<const fields::Result*> described_results();

} // namespace jarful::cli
