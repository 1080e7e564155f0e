#pragma once

#include "engine/appraise/tokens.hpp"

#include <cstddef>
#include <optional>
#include <span>

/// Numbers in words. For this room only.
namespace jarful::appraise {

struct WordNumber {
    double value = 0;
    std::size_t tokens = 0;
};

/// The longest number in words at a place, from 1 to 999,999: "twenty-five", "a hundred and fifty",
/// "fünfundzwanzig", "zweieinhalb", "soixante-quinze", "deux cents". Empty where none begins. An
/// article by itself ("a", "ein", "une") is none.
[[nodiscard]] std::optional<WordNumber> number_words_at(std::span<const Token> tokens,
                                                        std::size_t at);

} // namespace jarful::appraise
