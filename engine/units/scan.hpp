#pragma once

#include "engine/units/amount.hpp"

#include <cstddef>
#include <string_view>
#include <utility>

/// How the readers of this room take text apart. Not for other rooms.
namespace jarful::units::scan {

/// The code point at `at` and its length in bytes; 0 and 0 at the end. A byte that is not UTF-8 is
/// U+FFFD, one byte long.
struct CodePoint {
    char32_t value = 0;
    std::size_t length = 0;
};
[[nodiscard]] CodePoint code_point(std::string_view text, std::size_t at);

/// Where the blanks that begin at `at` end: space, tab, and the no-break and thin spaces that word
/// processors put between a number and its unit.
[[nodiscard]] std::size_t skip_blanks(std::string_view text, std::size_t at);

/// Where the digits that begin at `at` end.
[[nodiscard]] std::size_t skip_digits(std::string_view text, std::size_t at);
[[nodiscard]] bool digit_at(std::string_view text, std::size_t at);

/// Where the word that begins at `at` ends: letters of any script, digits, `_` and the signs of
/// degree, or `%` alone.
[[nodiscard]] std::size_t skip_word(std::string_view text, std::size_t at);

/// Length of a hyphen, minus sign or dash at `at`; 0 if there is none.
[[nodiscard]] std::size_t dash_at(std::string_view text, std::size_t at);

/// Whether a number could begin here: a digit or a vulgar fraction.
[[nodiscard]] bool number_at(std::string_view text, std::size_t at);

/// Fills a fault if one is wanted.
inline void report(ReadFault* fault, ReadFault::Kind kind, std::size_t begin, std::size_t end,
                   std::string message, std::string advice) {
    if (fault != nullptr) {
        *fault = {kind, begin, end, std::move(message), std::move(advice)};
    }
}

} // namespace jarful::units::scan
