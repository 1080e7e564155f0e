#pragma once

#include "cli/command.hpp"

#include <string>

namespace jarful::cli {

inline constexpr std::string_view about_program =
    "House recipes for fermented vegetables, scaled to the produce, the jar and the scale that you "
    "have, with the salt held to published ranges.";
inline constexpr std::string_view about_streams =
    "Results go to standard output, everything else to standard error. NO_COLOR turns colour off.";

/// Options that stand in a command's place.
[[nodiscard]] std::span<const Flag> everywhere();

/// The help of the whole program, and of one command.
[[nodiscard]] std::string help_text(bool colour);
[[nodiscard]] std::string help_text(const Command& command, bool colour);

} // namespace jarful::cli
