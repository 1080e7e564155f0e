#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

/// The commands and their options, as they are shown and looked up. Parsing is in arguments.cpp.
namespace jarful::cli {

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
};

[[nodiscard]] std::span<const Command> commands();
[[nodiscard]] const Command* find_command(std::string_view name);

/// The help of the whole program, and of one command.
[[nodiscard]] std::string help_text(bool colour);
[[nodiscard]] std::string help_text(const Command& command, bool colour);

} // namespace jarful::cli
