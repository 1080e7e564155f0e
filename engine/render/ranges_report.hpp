#pragma once

#include "engine/larder/larder.hpp"
#include "engine/render/page.hpp"

#include <string>

/// The salt ranges with their sources.
namespace jarful::render {

/// All kinds in one table, each with what its range rests on.
[[nodiscard]] std::string ranges_text(const TextStyle& style);
/// One kind at length: its rulings and why, every row side by side, its cautions.
[[nodiscard]] std::string ranges_text(const larder::Kind& kind, const TextStyle& style);

/// Format "jarful.ranges/1"; described in docs/schemas/ranges.json. Of one kind, or of all for
/// nullptr.
[[nodiscard]] std::string ranges_json(const larder::Kind* kind);

} // namespace jarful::render
