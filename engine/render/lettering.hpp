#pragma once

#include <string>
#include <string_view>
#include <vector>

/// How much room words take in a drawing or on a sheet. A reader has whichever font their machine
/// has, so each letter is taken as wide as the widest of the usual ones sets it.
namespace jarful::render {

/// The width of a line of words, in sizes of the letters (em): 0 for none. Control characters and
/// broken UTF-8 count as a wide letter each; marks that turn the direction of writing count
/// nothing.
[[nodiscard]] double width_of_words(std::string_view words, bool bold = false);

/// Words in lines that are no wider than `room`, broken at blanks; a word that is wider than a
/// line is broken within. No line for no words.
/// @param room in sizes of the letters; a letter that is wider stands in a line of its own.
[[nodiscard]] std::vector<std::string> lines_of_words(std::string_view words, double room,
                                                      bool bold = false);

/// How many lines that comes to.
[[nodiscard]] int line_count(std::string_view words, double room, bool bold = false);

} // namespace jarful::render
