#pragma once

#include <cstdint>
#include <string>
#include <string_view>

/// The mark in a file that Jarful made, by which it is known again before it is replaced. It
/// carries a hash of the rest, so that a file which somebody has changed since is known, too. It
/// keeps accidents off, not forgers.
namespace jarful::render {

/// How a mark is written into a file so that whoever reads the file passes over it.
enum class MarkForm : std::uint8_t {
    markup,   ///< a comment of HTML, SVG and Markdown, at the end
    script,   ///< a comment of JavaScript, at the end
    style,    ///< a comment of CSS, at the end
    calendar, ///< a property of iCalendar that is ours (RFC 5545, section 3.8.8.2)
    manifest, ///< a member of the JSON object that the file is
};

/// What the files are called that carry a mark.
namespace made {
inline constexpr std::string_view card = "card";
inline constexpr std::string_view labels = "sheet of labels";
inline constexpr std::string_view picture = "picture";
inline constexpr std::string_view card_text = "card in Markdown";
inline constexpr std::string_view page = "page";
inline constexpr std::string_view page_part = "part of a page";
inline constexpr std::string_view calendar = "calendar";
} // namespace made

/// A hash of a content in 16 hexadecimal digits: FNV-1a of 64 bits; the constants are those of the
/// published algorithm.
[[nodiscard]] std::string content_hash(std::string_view content);

/// A file with its mark.
/// @param text the whole file. @param what it is, as in `made`.
[[nodiscard]] std::string with_mark(std::string text, std::string_view what, MarkForm form);

/// What a file says of itself.
struct Mark {
    enum class State : std::uint8_t {
        none,    ///< it carries no mark, and no version of Jarful writes such a file
        changed, ///< Jarful made it, and its content is another now
        sound,   ///< as Jarful made it, or made by a version that wrote no marks
    };
    State state = State::none;
    std::string what; ///< as in `made`; empty if there is no mark
};
[[nodiscard]] Mark mark_in(std::string_view text);

} // namespace jarful::render
