#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// Text and its places. Nothing else in the program counts lines.
namespace jarful::language {

/// A half-open range of bytes in a source's text.
struct Place {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;
    friend constexpr bool operator==(const Place&, const Place&) = default;
    [[nodiscard]] constexpr bool empty() const { return begin == end; }
};

/// Where a byte stands for a person: both count from 1, columns in characters.
struct LineColumn {
    std::uint32_t line = 1;
    std::uint32_t column = 1;
};

/// A text with the name that people know it by. The text has no byte-order mark and LF line ends.
class Source {
  public:
    Source() = default;
    /// @param name the file's path as the user gave it, "-" for standard input, or what to call it.
    Source(std::string name, std::string text);

    [[nodiscard]] const std::string& name() const { return name_; }
    [[nodiscard]] std::string_view text() const { return text_; }
    /// The text at a place; clamped to the source.
    [[nodiscard]] std::string_view at(Place place) const;
    /// Line and column of a byte offset; clamped to the end. Works out the line starts when first
    /// asked.
    [[nodiscard]] LineColumn locate(std::uint32_t offset) const;
    /// The line (1-based) without its end; empty beyond the last.
    [[nodiscard]] std::string_view line(std::uint32_t number) const;

  private:
    void index_lines() const;
    std::string name_;
    std::string text_;
    mutable std::vector<std::uint32_t> line_starts_;
};

} // namespace jarful::language
