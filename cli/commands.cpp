#include "cli/commands.hpp"

#include <array>

namespace jarful::cli {

namespace {

// One a line, so that two additions do not meet.
// clang-format off
constexpr std::array all_commands{
    &appraise_command,
    &weigh_command,
    &chart_command,
    &mend_command,
    &brine_command,
    &jars_command,
    &trace_command,
    &counter_command,
    &tend_command,
    &compare_command,
    &check_command,
    &new_command,
    &tidy_command,
    &ranges_command,
    &convert_command,
    &salts_command,
};
// clang-format on

} // namespace

std::span<const Command* const> commands() {
    return all_commands;
}

const Command* find_command(std::string_view name) {
    for (const Command* command : all_commands) {
        if (command->name == name) return command;
    }
    return nullptr;
}

} // namespace jarful::cli
