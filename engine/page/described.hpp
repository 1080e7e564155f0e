#pragma once

#include "engine/render/fields/fields.hpp"

#include <string_view>
#include <vector>

/// Every result that has a schema. Here and not in engine/render, which knows nothing of pages; not
/// in the engine for pages.
namespace jarful::page {

/// Those of the commands by name, then those of pages.
[[nodiscard]] std::vector<const fields::Result*> described_results();

/// By the name of its schema, in which blanks and hyphens count as low lines: "batch compare" is
/// "batch_compare". Null if there is none.
[[nodiscard]] const fields::Result* described_result(std::string_view name);

} // namespace jarful::page
