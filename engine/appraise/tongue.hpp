#pragma once

#include "engine/appraise/quantity.hpp"

#include <span>
#include <string_view>

/// Which language a text or a line is written in. For this room only.
namespace jarful::appraise {

/// The language of a text.
struct TextTongue {
    Tongue tongue = nullptr; ///< nullptr where none shows
    /// It has six words and three times as many as any other: what sounds like another language
    /// is none. The measures are ours.
    bool plain = false;
};

/// The language that most words of a cleaned text show, the base where another is not plainly
/// ahead.
[[nodiscard]] TextTongue tongue_of_text(std::string_view text);

/// A line's language by its own measures, words and names. @param around of the lines around it,
/// for one that does not show its own
[[nodiscard]] Tongue tongue_of_line(std::span<const Token> tokens, Tongue around);

/// How numbers are written in a language.
[[nodiscard]] Numbers numbers_in(Tongue tongue);

} // namespace jarful::appraise
