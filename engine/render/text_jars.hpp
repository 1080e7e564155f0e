#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

#include <string>

namespace jarful::render {

/// Which jars a batch goes into and what goes into each, as the cook sees it. Ends with what to do
/// next and a line break.
/// @param out with `jars` and `jar_choice`.
[[nodiscard]] std::string jars_text(const plan::WeighOut& out, const TextStyle& style);

/// What has no place in them: a section, or nothing. For this room.
void print_left_over(Page& page, const plan::WeighOut& out, Units units);
/// That a jar by itself is not inside, or that the jars do not take it all, and what to do about
/// it; empty if all is well. The rest of a sentence after "Next: ".
[[nodiscard]] std::string jars_in_the_way(const plan::WeighOut& out, Units units);

/// The jars of a weigh-out and what goes into each: a section, or nothing. For this room.
void print_jars(Page& page, const plan::WeighOut& out, Units units);

} // namespace jarful::render
