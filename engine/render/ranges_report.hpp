#pragma once

#include "engine/larder/house.hpp"
#include "engine/larder/larder.hpp"
#include "engine/render/page.hpp"

#include <string>
#include <vector>

/// The salt ranges with their sources.
namespace jarful::render {

/// The larder's kinds as the house has them, and behind them the house's own.
/// @param house nullptr: the book has none.
[[nodiscard]] std::vector<const larder::Kind*> kinds_with(const larder::House* house);

/// All kinds in one table, each with what its range rests on: those of the house in place of the
/// published ones, and its own kinds at the end.
/// @param house nullptr: the book has none.
[[nodiscard]] std::string ranges_text(const larder::House* house, const TextStyle& style);
/// One kind at length: its rulings and why, every row side by side, its cautions.
[[nodiscard]] std::string ranges_text(const larder::Kind& kind, const TextStyle& style);

/// Format "jarful.ranges/1"; described in docs/schemas/ranges.json. Of one kind, or of all for
/// nullptr.
[[nodiscard]] std::string ranges_json(const larder::Kind* kind, const larder::House* house);

} // namespace jarful::render
