#pragma once

#include "engine/plan/brine_sheet.hpp"
#include "engine/render/page.hpp"

#include <string>

namespace jarful::render {

/// A brine for the one who mixes it. Ends with a line break.
/// @param asked the words as typed.
[[nodiscard]] std::string brine_text(const plan::BrineSheet& sheet, const std::string& asked,
                                     const TextStyle& style);

/// The same as JSON, format "jarful.brine/1"; described in docs/schemas/brine.json.
[[nodiscard]] std::string brine_json(const plan::BrineSheet& sheet, const std::string& asked);

} // namespace jarful::render
