#pragma once

#include <string_view>

/// What is not taken apart where a line ends.
namespace jarful::units {

/// Whether a word is a number and the next one its unit, so that no line ends between them: "1.84"
/// and "kg", "(1/4" and "tsp)," but not "day" and "21". Marks of punctuation around both are passed
/// over.
[[nodiscard]] bool stay_together(std::string_view word, std::string_view next);

} // namespace jarful::units
