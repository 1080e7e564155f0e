#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

#include <string>
#include <string_view>

namespace jarful::render {

/// The answer for a cook at the scale, in the 24 lines of a terminal where it can be: the verdict,
/// what to weigh, what must be known while weighing, cautions in short, what to do next. Ends with
/// a line break.
/// @param recipe as the cook named it, for the commands that are offered
[[nodiscard]] std::string weigh_screen(const plan::WeighOut& out, const TextStyle& style,
                                       std::string_view recipe);

/// Everything that is known about it. Ends with a line break.
[[nodiscard]] std::string weigh_text(const plan::WeighOut& out, const TextStyle& style);

} // namespace jarful::render
