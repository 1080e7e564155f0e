#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

/// Commands that a message suggests, to be copied into a shell.
namespace jarful::language {

/// A command of these words, each of which a shell takes for one word and for nothing more,
/// whatever is in it. Every suggested command that has a word of somebody else's in it is written
/// by this function. What would not be seen, or is no UTF-8, is written in digits (`$'\n'`, which
/// POSIX.1 has from 2024 on and common shells had before).
/// @param words the program first.
[[nodiscard]] std::string command_line(std::initializer_list<std::string_view> words);
[[nodiscard]] std::string command_line(const std::vector<std::string>& words);

/// A path as a word of a command: one that begins with "-" is not to be taken for an option.
[[nodiscard]] std::string path_word(std::string_view path);

} // namespace jarful::language
