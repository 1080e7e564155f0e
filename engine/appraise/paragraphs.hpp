#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

/// Lines of prose that were broken to fit a column, put together again. For this room only.
namespace jarful::appraise {

/// A line of a text, or several of them that are one paragraph.
struct Paragraph {
    std::size_t number = 0; ///< of its first line, from 1
    std::string_view text;
    bool prose = false; ///< of several lines
};

/// The lines of a cleaned text, in order, empty ones too. Lines between two empty ones are prose if
/// they fill a column (each but the last at least six tenths as long as the longest, which has 45
/// bytes or more), if fewer than half of them begin as things of a list do, and if a sentence ends
/// within them: then they are put together, up to a line that begins with a bullet or the number of
/// a step, or to 4,000 bytes. Linear.
/// @param text its line ends within a paragraph become blanks; the views point into it
[[nodiscard]] std::vector<Paragraph> paragraphs_of(std::string& text);

} // namespace jarful::appraise
