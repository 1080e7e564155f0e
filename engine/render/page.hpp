#pragma once

#include "engine/units/display.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// Text for a terminal: what fits in how many columns. For this room and the command line.
namespace jarful::render {

/// How to print for a person.
using Units = units::Shown;

struct TextStyle {
    Units units = Units::metric;
    bool colour = false; ///< bold and dim by terminal codes
    int width = 80;      ///< columns; held to 60 and above
};

/// A character of UTF-8.
struct Character {
    std::uint32_t code = 0;
    std::size_t bytes = 1; ///< that it takes; 1 for a byte that is none
    bool sound = false;    ///< false for broken UTF-8
};
/// The character at the start of a text that is not empty.
[[nodiscard]] Character first_character(std::string_view text);

/// Text from a file or a command line, fit to be shown: control characters, characters that turn
/// the direction of writing and broken UTF-8 come out as something to see, and change nothing on
/// the terminal.
[[nodiscard]] std::string visible(std::string_view text);

/// How many columns of a terminal a text takes: none for combining marks, two for wide letters.
[[nodiscard]] int columns(std::string_view text);

/// A text in lines of at most `width` columns, broken at blanks, or within a word that is too long
/// for a line. At least one line. Passes the text through visible().
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, int width);

/// A cell of a row.
struct Cell {
    std::string text;
    int width = 0;     ///< of the column; the text is wrapped in it
    bool keep = false; ///< not wrapped, blanks as they are, already visible
    bool right = false;
    bool bold = false;
    bool dim = false;
};

/// Collects lines of text.
class Page {
  public:
    explicit Page(const TextStyle& style);

    /// A heading in bold, with an empty line above unless it is the first on the page.
    void heading(std::string_view text);
    /// An empty line; never two of them.
    void gap();
    /// A line as it is, which has been made visible and is not wrapped.
    void raw(std::string_view text, bool bold = false);
    /// A paragraph, its first line indented by `first`, the others by `rest`.
    void paragraph(std::string_view text, int first = 2, int rest = 2, bool bold = false);
    /// A paragraph behind a mark ("1." or a title), which hangs in the margin.
    void item(std::string_view mark, std::string_view text, int indent = 2, int hang = 6);
    /// A paragraph that begins with a title in bold.
    void titled(std::string_view title, std::string_view text, int indent = 2);
    /// Cells side by side, two columns apart.
    void row(const std::vector<Cell>& cells, int indent = 2);

    [[nodiscard]] int width() const { return width_; }
    [[nodiscard]] const std::string& text() const { return out_; }

  private:
    [[nodiscard]] std::string strong(std::string_view text, bool bold, bool dim = false) const;
    std::string out_;
    bool colour_;
    int width_;
};

} // namespace jarful::render
