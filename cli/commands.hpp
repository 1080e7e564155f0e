#pragma once

#include "cli/command.hpp"

/// Every command; each stands in a file of its own.
namespace jarful::cli {

extern const Command appraise_command;
extern const Command batch_command;
extern const Command book_command;
extern const Command brine_command;
extern const Command card_command;
extern const Command chart_command;
extern const Command check_command;
extern const Command compare_command;
extern const Command complete_command;
extern const Command convert_command;
extern const Command counter_command;
extern const Command jars_command;
extern const Command language_server_command;
extern const Command manual_command;
extern const Command mend_command;
extern const Command new_command;
extern const Command page_command;
extern const Command ranges_command;
extern const Command salts_command;
extern const Command schema_command;
extern const Command tend_command;
extern const Command tidy_command;
extern const Command today_command;
extern const Command trace_command;
extern const Command weigh_command;

/// All that people use, in the order in which the help lists them.
[[nodiscard]] std::span<const Command* const> commands();
/// Those that other programs ask: the overview leaves them out, `jarful help NAME` does not.
[[nodiscard]] std::span<const Command* const> quiet_commands();
/// Of all of them.
/// @return null if there is none of that name.
[[nodiscard]] const Command* find_command(std::string_view name);

} // namespace jarful::cli
