#pragma once

#include "cli/command.hpp"

/// Every command; each stands in a file of its own.
namespace jarful::cli {

extern const Command appraise_command;
extern const Command brine_command;
extern const Command chart_command;
extern const Command check_command;
extern const Command compare_command;
extern const Command complete_command;
extern const Command convert_command;
extern const Command counter_command;
extern const Command jars_command;
extern const Command mend_command;
extern const Command new_command;
extern const Command ranges_command;
extern const Command salts_command;
extern const Command tend_command;
extern const Command tidy_command;
extern const Command trace_command;
extern const Command weigh_command;

/// All of them, in the order in which the help lists those of the overview.
[[nodiscard]] std::span<const Command* const> commands();
/// @return null if there is none of that name.
[[nodiscard]] const Command* find_command(std::string_view name);

} // namespace jarful::cli
