#pragma once

#include "cli/command.hpp"
#include "engine/tend/dates.hpp"

#include <chrono>
#include <optional>
#include <string>

/// The one place that asks what time it is. `--today` answers for it, so that what depends on the
/// day can be tried on any.
namespace jarful::cli {

inline constexpr Flag today_flag{
    "--today", "DATE", "take this for today, as in 2026-11-25; otherwise the clock's day"};

/// The day on the clock of this machine, where it stands.
[[nodiscard]] tend::Date today();
[[nodiscard]] std::chrono::sys_seconds now();

/// A day that was typed behind an option; today for none.
/// @return a status if it is no day, which has then been said.
[[nodiscard]] std::optional<int> read_day(const std::optional<std::string>& typed,
                                          std::string_view option, const Command& command,
                                          tend::Date& day);

} // namespace jarful::cli
