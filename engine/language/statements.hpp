#pragma once

#include "engine/language/state.hpp"

/// The grammar of one statement, by its first word. `first` stands behind that word and is moved to
/// the end of what was read; what is left over is the caller's to refuse. Throws Refusal.
namespace jarful::language {

/// given total share weigh count let measure cap brine fill headspace topup hold.
[[nodiscard]] Statement parse_quantity_statement(Word1 word, Cursor& first, Cursor last,
                                                 State& state);
/// step rest tend ready keep.
[[nodiscard]] Statement parse_doing_statement(Word1 word, Cursor& first, Cursor last, State& state);
/// language recipe kind by source note material, kitchen scale jar crock spoons units room.
[[nodiscard]] Statement parse_kitchen_statement(Word1 word, Cursor& first, Cursor last,
                                                State& state);

/// batch begun left_out vessel planned weighed noted corrected.
[[nodiscard]] Statement parse_batch_statement(Word1 word, Cursor& first, Cursor last, State& state);

} // namespace jarful::language
