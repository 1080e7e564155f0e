#pragma once

#include <string>

/// Making git and a book work together.
namespace jarful::cli {

/// Writes `.gitattributes` (adding to one that is there) and a pre-commit hook (never in place of
/// one that is there) for the repository of a folder, and prints the configuration that goes with
/// them, or writes that, too.
/// @return the exit status.
[[nodiscard]] int set_up_book(const std::string& folder, bool write_config);

} // namespace jarful::cli
