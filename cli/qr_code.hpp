#pragma once

#include "engine/render/card.hpp"

#include <optional>
#include <string>

/// Codes that a telephone's camera reads. The library is loaded when it is needed.
namespace jarful::cli {

/// The code of a text, of medium correction of errors, as small as it can be.
/// @param why a sentence and what to do, where there is none: the library is not installed, or the
///   text is too long.
[[nodiscard]] std::optional<render::SquareCode> qr_code(const std::string& text, std::string& why);

} // namespace jarful::cli
