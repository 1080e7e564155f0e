#include "cli/commands.hpp"

#include <array>

namespace jarful::cli {

namespace {

// At the scale; afterwards; what comes from elsewhere; the book. One a line, so that two additions
// do not meet.
// clang-format off
constexpr std::array all_commands{
    &weigh_command,
    &jars_command,
    &chart_command,
    &card_command,
    &page_command,
    &counter_command,
    &mend_command,
    &brine_command,
    &trace_command,
    &tend_command,
    &batch_command,
    &today_command,
    &appraise_command,
    &convert_command,
    &salts_command,
    &ranges_command,
    &new_command,
    &check_command,
    &tidy_command,
    &compare_command,
    &book_command,
    &schema_command,
};
// clang-format on
constexpr std::array all_quiet_commands{
    &complete_command,
    &language_server_command,
    &manual_command,
};

} // namespace

std::span<const Command* const> commands() {
    return all_commands;
}

std::span<const Command* const> quiet_commands() {
    return all_quiet_commands;
}

const Command* find_command(std::string_view name) {
    for (const auto list : {commands(), quiet_commands()}) {
        for (const Command* command : list) {
            if (command->name == name) return command;
        }
    }
    return nullptr;
}

} // namespace jarful::cli
