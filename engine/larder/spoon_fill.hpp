#pragma once

#include "engine/units/interval.hpp"

#include <optional>
#include <string_view>

namespace jarful::larder {

/// How full a spoon or cup is by the word before it, beside a level one: "heaped", "scant",
/// "gestrichener", "bombée". The word folded (fold()); empty if it says nothing of the sort. Common
/// practice, no source; wide on purpose.
[[nodiscard]] std::optional<units::Interval> spoon_fill(std::string_view folded);

} // namespace jarful::larder
