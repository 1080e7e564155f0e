#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

/// Parts of the weigh-out's text, each a section or nothing. For this room.
namespace jarful::render {

/// The salt, judged or not, with its ruler, and the house bounds.
void print_salt(Page& page, const plan::WeighOut& out);
/// How the same salt comes out on other bases.
void print_other_bases(Page& page, const plan::WeighOut& out);
void print_holds(Page& page, const plan::WeighOut& out);

/// Rows that bear on a figure near the edge of its range, a line or two each.
void print_nearby(Page& page, const std::vector<plan::NearbyRow>& rows, int indent);

/// A judgement in a few lines, for a list of recipes: figure, range, verdict.
[[nodiscard]] std::string salt_in_short(const plan::SaltJudgement& salt);
[[nodiscard]] std::string hold_in_short(const plan::HoldCheck& check);

} // namespace jarful::render
