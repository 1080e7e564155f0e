#pragma once

#include "engine/appraise/concept.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

/// The words of the languages that are read, compiled from engine/appraise/data/*.json into
/// constant tables. A language more is a file more. For this room only.
namespace jarful::appraise {

/// A word of a lexicon, or with `stem` or `tail` its beginning or end.
struct LexiconWord {
    std::string_view word; ///< folded
    Concepts concepts;
    double number = 0; ///< of a number word, else 0
};

struct Lexicon {
    std::string_view language; ///< "English"
    std::string_view tag;      ///< "en"
    bool decimal_comma = false;
    std::span<const LexiconWord> words; ///< sorted
    std::span<const LexiconWord> stems; ///< sorted; "rinc" for "rinc*"
    std::span<const LexiconWord> tails; ///< "salz" for "*salz"
};

/// The languages, as a number of the tables; the first is the one that is tried for words that the
/// others do not know.
using Language = std::uint8_t;

[[nodiscard]] std::span<const Lexicon> lexicons();

/// What a folded word means in a language.
struct Meaning {
    Concepts concepts;
    double number = 0;
};
[[nodiscard]] Meaning meaning_of(std::string_view folded, const Lexicon& lexicon);

/// A step of a pattern: what has to stand next, how far on, and what may not stand between.
struct Step {
    Concepts any;
    Concepts not_between;
    std::uint8_t gap = 0; ///< the most pieces between the step before and this one
    bool optional = false;
    char capture = 0; ///< a name for what is found here, 0 for none
};

/// One row of engine/appraise/data/patterns.json.
struct Pattern {
    std::string_view event; ///< "salt_rate"
    std::string_view row;   ///< as written, for whoever asks why
    std::span<const Step> steps;
};
[[nodiscard]] std::span<const Pattern> patterns();

} // namespace jarful::appraise
