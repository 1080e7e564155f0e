#pragma once

#include "engine/appraise/quantity.hpp"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

/// The words by which a method says what is done, and to what. For this room only.
namespace jarful::appraise {

/// Whether the word at a place has a part: "abgie" of "abgiessen".
[[nodiscard]] bool holds(std::span<const Token> t, std::size_t at, std::string_view part);

[[nodiscard]] bool salt_word(std::span<const Token> t, std::size_t i);
[[nodiscard]] bool brine_word(std::span<const Token> t, std::size_t i);
/// The water of a brine or of the vegetables themselves.
[[nodiscard]] bool liquid_word(std::span<const Token> t, std::size_t i);
[[nodiscard]] bool water_word(std::span<const Token> t, std::size_t i);
[[nodiscard]] bool acid_word(std::span<const Token> t, std::size_t i);
[[nodiscard]] bool vessel_word(std::span<const Token> t, std::size_t i);
[[nodiscard]] bool vegetable_word(std::span<const Token> t, std::size_t i);
[[nodiscard]] bool rinse_word(std::span<const Token> t, std::size_t i);
[[nodiscard]] bool wash_word(std::span<const Token> t, std::size_t i);
/// "drain", "pour off", "abgiessen": of a word by itself.
[[nodiscard]] bool drain_word(std::span<const Token> t, std::size_t i);
[[nodiscard]] bool discard_word(std::span<const Token> t, std::size_t i);

/// "do not rinse"
[[nodiscard]] bool denied(std::span<const Token> t, std::size_t i);
/// "into jars", "fill the jars": where something goes, not what is meant.
[[nodiscard]] bool whither(std::span<const Token> t, std::size_t i);
/// A verb after which another clause begins.
[[nodiscard]] bool other_verb(std::span<const Token> t, std::size_t i);

enum class What : std::uint8_t { nothing, vessel, vegetable, salt };
/// What the verb at a place is about: ahead of it, or before it.
[[nodiscard]] What object_of(std::span<const Token> t, std::size_t verb);

/// Whether the verb at a place is done at table: "before serving, rinse", "rinse before eating".
[[nodiscard]] bool at_table(std::span<const Token> t, std::size_t verb);
/// Words that leave it open whether it is done at all.
[[nodiscard]] bool conditional(std::span<const Token> t);

/// The words of a sentence in quotation marks.
[[nodiscard]] std::string said(const std::string& sentence);

} // namespace jarful::appraise
