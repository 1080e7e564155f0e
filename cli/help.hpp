#pragma once

#include "cli/command.hpp"

#include <string>

namespace jarful::cli {

/// The help of the whole program, and of one command.
[[nodiscard]] std::string help_text(bool colour);
[[nodiscard]] std::string help_text(const Command& command, bool colour);

} // namespace jarful::cli
