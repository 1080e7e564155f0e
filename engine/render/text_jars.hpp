#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

#include <string>

namespace jarful::render {

/// Which jars a batch goes into and what goes into each, as the cook sees it. Ends with what to do
/// next and a line break.
/// @param out with `jars` and `jar_choice`.
[[nodiscard]] std::string jars_text(const plan::WeighOut& out, const TextStyle& style);

/// The jars of a weigh-out for which they were asked: a section, or nothing. For this room.
void print_jars(Page& page, const plan::WeighOut& out, Units units);

} // namespace jarful::render
