#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Pasted text made plain enough to read. For this room only.
namespace jarful::appraise {

/// One spelling for what word processors and web pages set in many: vulgar fractions as `1/2` (a
/// blank before them after a digit), dashes as `-`, curly quotes as straight ones, the
/// multiplication sign as `x`, odd blanks as blanks; pictures, boxes and broken characters become
/// blanks. A narrow blank between groups of digits is left out: 2 500 set with one is 2500.
/// Characters that turn the direction of writing, and those that are not seen, become `unseen`; but
/// for marks of byte order at the beginning, variants of pictures, and hyphens that only show at
/// the end of a line, which are left out. Linear in the length of the text.
[[nodiscard]] std::string clean(std::string_view bytes);

/// A line in which an amount stands apart behind dots, tabs or many blanks, with a colon there:
/// "Sea salt ...... 60 g" is "Sea salt: 60 g". Two things in columns are apart by a semicolon.
[[nodiscard]] std::string without_columns(std::string_view line);

/// What stands in a cleaned text for a character that is not seen or turns the direction.
inline constexpr char unseen = '\x7f';

/// A line with a visible sign in the place of each `unseen`.
[[nodiscard]] std::string made_visible(std::string_view line);

/// Lines without their ends (LF, CRLF, CR, U+2028). The views point into `text`.
[[nodiscard]] std::vector<std::string_view> lines_of(std::string_view text);

/// Lower case of ASCII letters.
[[nodiscard]] std::string lower(std::string_view text);

/// As many whole characters of a text as `most` bytes hold.
[[nodiscard]] std::string_view beginning(std::string_view text, std::size_t most);

[[nodiscard]] std::string_view trimmed(std::string_view text);

} // namespace jarful::appraise
