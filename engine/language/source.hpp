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
/// Texts of further files may stand behind it, so that what one recipe inherits from another keeps
/// places that lead to its own file.
class Source {
  public:
    Source() = default;
    /// @param name the file's path as the user gave it, "-" for standard input, or what to call it.
    Source(std::string name, std::string text);

    [[nodiscard]] const std::string& name() const { return name_; }
    /// The name of the file that a byte offset belongs to.
    [[nodiscard]] const std::string& name_at(std::uint32_t offset) const;
    /// Puts another source behind this one; what has to be added to its places from now on.
    std::uint32_t append(const Source& other);
    [[nodiscard]] std::string_view text() const { return text_; }
    /// The text of the file itself, without those that stand behind it.
    [[nodiscard]] std::string_view own_text() const;
    /// The text at a place; clamped to the source.
    [[nodiscard]] std::string_view at(Place place) const;
    /// Line and column of a byte offset, in its own file; clamped to the end. Works out the line
    /// starts when first asked.
    [[nodiscard]] LineColumn locate(std::uint32_t offset) const;
    /// The line (1-based) of the whole text without its end; empty beyond the last.
    [[nodiscard]] std::string_view line(std::uint32_t number) const;
    /// The line that a byte offset lies in.
    [[nodiscard]] std::string_view line_at(std::uint32_t offset) const;

  private:
    /// A further file.
    struct Part {
        std::uint32_t begin = 0;
        std::string name;
    };
    void index_lines() const;
    [[nodiscard]] std::uint32_t line_of(std::uint32_t offset) const;
    [[nodiscard]] const Part* part_of(std::uint32_t offset) const;
    std::string name_;
    std::string text_;
    std::vector<Part> parts_; ///< in the order of their places
    mutable std::vector<std::uint32_t> line_starts_;
};

} // namespace jarful::language
