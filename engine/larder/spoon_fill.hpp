#pragma once

#include "engine/units/interval.hpp"

#include <cstdint>
#include <optional>
#include <string_view>

namespace jarful::larder {

/// How full a spoon or cup is.
enum class SpoonFill : std::uint8_t { heaped, rounded, generous, scant, level };

/// Times a level one. Common practice, no source; wide on purpose.
[[nodiscard]] units::Interval spoon_fill(SpoonFill fill);

/// The same by the word before it, in the program's own language: "heaped", "scant". The word
/// folded (fold()); empty if it says nothing of the sort.
[[nodiscard]] std::optional<units::Interval> spoon_fill(std::string_view folded);

} // namespace jarful::larder
