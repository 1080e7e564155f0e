#pragma once

#include <cstdint>

namespace jarful::render {

/// Whether a terminal obeys a character instead of showing it: control characters, and those that
/// turn the direction of writing or end a line unseen.
[[nodiscard]] bool is_obeyed(std::uint32_t code);

} // namespace jarful::render
