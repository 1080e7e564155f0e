#pragma once

#include <optional>
#include <string>

/// The engine that goes into pages.
namespace jarful::cli {

/// The engine's module, packed by gzip: from the file that was named, else the one installed with
/// this program, else the one built beside it.
/// @param why a sentence and what to do, where there is none.
[[nodiscard]] std::optional<std::string> page_engine(const std::optional<std::string>& named,
                                                     std::string& why);

} // namespace jarful::cli
