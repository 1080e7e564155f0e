#pragma once

#include "cli/command.hpp"
#include "engine/kitchen/kitchen.hpp"
#include "engine/render/tend_report.hpp"

#include <optional>
#include <string>

/// What the commands beside the jar share.
namespace jarful::cli {

/// A temperature that was typed behind an option, as in 19C or 66F: -10 to 50 °C.
/// @return a status if it is none, which has then been said.
[[nodiscard]] std::optional<int> read_celsius(const std::string& typed, std::string_view option,
                                              const Command& command,
                                              std::optional<double>& celsius);

} // namespace jarful::cli
