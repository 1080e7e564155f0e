#pragma once

#include "engine/language/source.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// A text as an editor holds it, and its places as an editor counts them.
namespace jarful::assist {

/// Both from 0; `character` in the units of an Encoding.
struct Position {
    std::uint32_t line = 0;
    std::uint32_t character = 0;
    friend bool operator==(const Position&, const Position&) = default;
};
struct Range {
    Position start, end;
    friend bool operator==(const Range&, const Range&) = default;
};

/// What a character of a position counts: bytes of UTF-8, or units of UTF-16.
enum class Encoding : std::uint8_t { utf8, utf16 };

/// Places of the engine are bytes of what language::read_source() makes of a text: without a
/// byte-order mark and without the CR of a CRLF. This knows where they stand in the text itself.
class Text {
  public:
    explicit Text(std::string raw = {});

    [[nodiscard]] const std::string& raw() const { return raw_; }
    /// The text as the engine reads it, as far as it is UTF-8.
    [[nodiscard]] const std::string& read() const { return removed_.empty() ? raw_ : read_; }

    /// A byte of the raw text; what lies behind a line's end or the text's is moved to it (LSP
    /// 3.17, Position).
    [[nodiscard]] std::size_t raw_offset(Position position, Encoding encoding) const;
    [[nodiscard]] Position raw_position(std::size_t raw, Encoding encoding) const;

    /// The same in bytes of what the engine reads.
    [[nodiscard]] std::uint32_t offset(Position position, Encoding encoding) const;
    [[nodiscard]] Position position(std::uint32_t offset, Encoding encoding) const;
    [[nodiscard]] Range range(language::Place place, Encoding encoding) const;
    /// The same for a line and column as the engine counts them.
    [[nodiscard]] Position position(language::LineColumn at, Encoding encoding) const;

    /// Puts words in a range's place.
    void replace(Range range, Encoding encoding, std::string_view words);

  private:
    void index();
    /// The engine's offset from which on one more byte was left out before it.
    struct Removed {
        std::uint32_t at = 0;
        std::uint32_t bytes = 0; ///< up to there, this one included
    };
    std::string raw_;
    std::string read_;               ///< empty where it is the raw text
    std::vector<std::size_t> lines_; ///< where each begins
    std::vector<Removed> removed_;
};

} // namespace jarful::assist
