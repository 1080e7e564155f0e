#pragma once

#include <cstdint>
#include <string>
#include <string_view>

/// Characters: UTF-8 in and out, and which of them letters are. Only characters.cpp knows the
/// Unicode library.
namespace jarful::language {

/// One character at the start of a text. An invalid byte is one character of its own.
struct Decoded {
    char32_t value = 0xFFFD;
    std::uint8_t length = 1; ///< bytes
    bool valid = false;
};

/// Decodes the first character; `text` must not be empty. Refuses overlong forms, surrogates and
/// values above U+10FFFF (RFC 3629, section 3).
[[nodiscard]] Decoded decode(std::string_view text);

/// A letter of any script.
[[nodiscard]] bool is_letter(char32_t c);
/// A letter, a decimal digit, `_`, or a mark that belongs to the letter before it.
[[nodiscard]] bool is_name_character(char32_t c);
/// U+202A–202E, U+2066–2069, U+200E, U+200F, U+061C: invisible, and turn the direction of writing.
[[nodiscard]] bool turns_direction(char32_t c);
/// C0 other than tab and line feed, DEL, and C1.
[[nodiscard]] bool is_control(char32_t c);

[[nodiscard]] constexpr bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
[[nodiscard]] constexpr bool is_ascii_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// How many bytes at the start of `text` a name takes: 0 if it does not begin with a letter.
[[nodiscard]] std::size_t name_length(std::string_view text);
/// The same for a word, which may also hold `-`.
[[nodiscard]] std::size_t word_length(std::string_view text);
/// Whether `text` begins with a character that could go on with a name.
[[nodiscard]] bool goes_on_with_name(std::string_view text);

/// Characters (code points; an invalid byte counts as one).
[[nodiscard]] std::size_t count_characters(std::string_view text);
/// Columns that a character takes on a terminal: 0, 1 or 2.
[[nodiscard]] int columns_of(char32_t c);
/// Normalisation form C (Unicode Standard Annex 15). Invalid UTF-8 comes back unchanged.
[[nodiscard]] std::string to_nfc(std::string_view text);
/// "U+202E".
[[nodiscard]] std::string code_point_name(char32_t c);

} // namespace jarful::language
