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

/// Lines of a screen that an answer keeps to.
constexpr int screen_lines = 24;

struct TextStyle {
    Units units = Units::metric;
    bool colour = false; ///< bold and dim by terminal codes
    int width = 80;      ///< columns; held to 60 and above
    bool brief = false;  ///< the answer alone, for a screen of 24 lines; otherwise all there is
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

    /// Whether there is room for a part and `below` lines under it: on a brief page as many as a
    /// screen has.
    [[nodiscard]] bool has_room_for(const Page& part, int below) const;
    /// The lines of another page.
    void append(const Page& part);
    /// A part with an empty line above, or, where there is no room for it, its name in more().
    void part(std::string_view name, const Page& part, int below = 3);
    /// The one thing to do next, with an empty line above.
    void next(std::string_view words);
    /// On a brief page, what --full has besides the parts that were left out, and what else can be
    /// asked.
    void more(std::string_view full, std::string_view words = {});

    [[nodiscard]] int width() const { return width_; }
    /// Whether only the answer is wanted; what is left out then is left to --full.
    [[nodiscard]] bool brief() const { return brief_; }
    [[nodiscard]] const std::string& text() const { return out_; }

  private:
    [[nodiscard]] std::string strong(std::string_view text, bool bold, bool dim = false) const;
    std::string out_;
    bool colour_;
    int width_;
    bool brief_;
    std::string left_out_; ///< names of parts
};

} // namespace jarful::render
