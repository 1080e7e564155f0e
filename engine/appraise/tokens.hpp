#pragma once

#include "engine/appraise/lexicon.hpp"

#include <cstdint>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// The words, numbers and marks of a line. For this room only.
namespace jarful::appraise {

struct Token {
    enum class Sort : std::uint8_t { number, word, mark } sort = Sort::mark;
    std::string_view text; ///< as written, cleaned
    std::string folded;    ///< of a word: lower case, plain letters
    bool glued = false;    ///< no blank before it
    /// Of a word: what it means in the languages asked for, and what the phrases mean that begin
    /// with it.
    Concepts is;
    std::size_t phrase = 0; ///< how many tokens the longest of these phrases takes
    double number = 0;      ///< of a number word
    // Of a number:
    double value = 0; ///< read with a decimal point, a comma before three digits being a thousand
    double comma_value =
        0;              ///< read with a decimal comma, a point before three digits being a thousand
    bool whole = false; ///< digits only
    bool fraction = false;  ///< written with a stroke
    bool ambiguous = false; ///< the two readings differ, and both are forms that people use
    double numerator = 0, denominator = 0; ///< of a fraction
};

/// The tokens of a cleaned line, whose text they point into. Numbers are digits with a point or
/// comma, or a fraction of two whole numbers; a word is letters and apostrophes; every other
/// character is a mark of its own (`°` too). At most 4000 tokens; the rest of a longer line is left
/// off.
[[nodiscard]] std::vector<Token> tokens_of(std::string_view line, Languages languages = {});

/// Whether a word that means one of these stands at a place, or anywhere.
[[nodiscard]] bool means(std::span<const Token> tokens, std::size_t at, Concepts some);
[[nodiscard]] bool speaks_of(std::span<const Token> tokens, Concepts some);
/// How many tokens the longest phrase that begins at a place takes; 1 for a word by itself.
[[nodiscard]] std::size_t words_taken(std::span<const Token> tokens, std::size_t at);
[[nodiscard]] bool is_mark(std::span<const Token> tokens, std::size_t at, std::string_view mark);
[[nodiscard]] bool has_number(std::span<const Token> tokens);

[[nodiscard]] bool is_word(std::span<const Token> tokens, std::size_t at, std::string_view folded);
/// Whether one of the words stands at a place, or anywhere.
[[nodiscard]] bool any_word(std::span<const Token> tokens, std::size_t at,
                            std::initializer_list<std::string_view> folded);
[[nodiscard]] bool has_word(std::span<const Token> tokens,
                            std::initializer_list<std::string_view> folded);

/// A run of tokens as it is written in its line.
[[nodiscard]] std::string text_of(std::span<const Token> tokens);

} // namespace jarful::appraise
