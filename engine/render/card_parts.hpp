#pragma once

#include "engine/render/card.hpp"

/// Parts of a card, each made in a file of its own. For this room.
namespace jarful::render {

/// The small print of a number: what is to be known of it, and what may really have been weighed.
[[nodiscard]] std::string note_of(const CardNumber& number);

/// The days on which something is due.
void add_dates(Card& card, const CardTimes& times, Units units);
/// "day 21 to 28", "Wed 16 Dec to Wed 23 Dec 2026": when it is likely ready; empty if that is not
/// foreseen.
[[nodiscard]] std::string ready_days(const CardTimes& times);

} // namespace jarful::render
