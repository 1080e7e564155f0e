#pragma once

#include <string>
#include <string_view>
#include <vector>

/// One spelling for the many ways a name is written. The program that compiles the tables and the
/// lookup at run time share these functions, so that both sort and search by the same key.
namespace jarful::larder {

/// Lower case, blanks for hyphens, underscores and punctuation, one blank between words, no
/// apostrophes, and plain letters for the accented ones of Europe's Latin alphabets ("jalapeño" →
/// "jalapeno", "Żółć" → "zolc", "œuf" → "oeuf").
[[nodiscard]] std::string fold(std::string_view name);

/// A folded name with every word in the singular as the program's own language spells it: -s, -es,
/// -ies and "leaves". The result is a key, not always a word ("brussels" → "brussel").
[[nodiscard]] std::string singular(std::string_view folded);

/// The words of a folded name. The views point into `folded`.
[[nodiscard]] std::vector<std::string_view> words_of(std::string_view folded);

} // namespace jarful::larder
