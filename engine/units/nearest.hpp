#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

/// "Did you mean": the known word nearest to a misspelt one.
namespace jarful::units {

/// How many slips turn one word into the other: a letter added, left out, changed, or two
/// neighbours swapped (optimal string alignment; bytes, case counts). Stops early: whatever is more
/// than `bound` comes back as `bound + 1`. `bound` is at least 0.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b, int bound);

/// How many slips are forgiven in a word of this many letters: one for every three letters, at
/// least 1 and at most 4.
[[nodiscard]] int forgiven_slips(std::size_t letters);

/// The known word with the fewest slips, the first of equals; empty if none is within what is
/// forgiven or the word is empty. Case of ASCII letters does not count.
[[nodiscard]] std::optional<std::string_view> nearest(std::string_view word,
                                                      std::span<const std::string_view> known);

} // namespace jarful::units
