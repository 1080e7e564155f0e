#pragma once

#include <array>
#include <string_view>

/// For this room.
namespace jarful::units {

/// Room for any double.
using ShortestText = std::array<char, 32>;

/// A finite value in the fewest digits that read back as the same double, as "ddd.ddd" or
/// "d.ddde±dd". Does not look at the locale.
[[nodiscard]] std::string_view shortest(double value, ShortestText& room);

} // namespace jarful::units
