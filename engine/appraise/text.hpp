#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Pasted text made plain enough to read. For this room only.
namespace jarful::appraise {

/// One spelling for what word processors and web pages set in many: vulgar fractions as `1/2` (a
/// blank before them after a digit), dashes as `-`, curly quotes as straight ones, the
/// multiplication sign as `x`, odd blanks as blanks; pictures, boxes, zero-width and broken
/// characters become blanks. Linear in the length of the text.
[[nodiscard]] std::string clean(std::string_view bytes);

/// Lines without their ends (LF, CRLF, CR, U+2028). The views point into `text`.
[[nodiscard]] std::vector<std::string_view> lines_of(std::string_view text);

/// Lower case of ASCII letters.
[[nodiscard]] std::string lower(std::string_view text);

/// As many whole characters of a text as `most` bytes hold.
[[nodiscard]] std::string_view beginning(std::string_view text, std::size_t most);

[[nodiscard]] std::string_view trimmed(std::string_view text);

} // namespace jarful::appraise
