#pragma once

#include <string>
#include <vector>

namespace jarful::cli {

/// Runs the program.
/// @param words the command line without the program's name.
/// @return the exit status.
int run(const std::vector<std::string>& words);

} // namespace jarful::cli
