#pragma once

#include <string>

namespace jarful::cli {

/// The manual page, in mdoc(7) and ASCII, from the same entries as the help.
[[nodiscard]] std::string manual_text();

} // namespace jarful::cli
