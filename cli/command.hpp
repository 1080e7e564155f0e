#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What a command is to the rest of the program: its words for the help, and what runs it.
namespace jarful::cli {

/// Exit status of every command.
namespace status {
inline constexpr int nothing_to_say = 0;
inline constexpr int something_found = 1; ///< outside a range, undecided, a difference
inline constexpr int not_done = 2;        ///< usage, unreadable, faults in a file
} // namespace status

/// An option, as it is shown and looked up.
struct Flag {
    std::string_view name;  ///< "--units"
    std::string_view value; ///< "metric|us|both"; empty for one that stands alone
    std::string_view about;
};

struct Command {
    std::string_view name;
    std::string_view usage; ///< what follows the command's name
    std::string_view about; ///< one line
    std::string_view more;  ///< a paragraph
    std::span<const Flag> flags;
    std::span<const std::string_view> examples;
    /// Prints its result on standard output and everything else on standard error.
    /// @param words what was typed behind the command's name.
    /// @return the exit status.
    int (*run)(const Command& command, const std::vector<std::string>& words);
};

} // namespace jarful::cli
