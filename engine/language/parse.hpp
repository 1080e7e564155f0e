#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"

#include <optional>
#include <string>
#include <string_view>

/// Text to statements. The grammar stands in grammar_*.cpp, which alone know the parser library.
namespace jarful::language {

namespace limits {
inline constexpr std::size_t file_bytes = 1u
                                          << 20; ///< a recipe is a page or two; 1 MiB is no recipe
inline constexpr std::size_t name_characters = 64;
inline constexpr std::size_t text_characters = 2000;
inline constexpr int nesting = 60; ///< of expressions: far above need, far below any stack
inline constexpr std::size_t statements = 10'000;
} // namespace limits

/// Checks and cleans raw bytes: size, UTF-8, byte-order mark, CRLF, control and bidirectional
/// characters. Reports every fault with its place and goes on; empty only if the file is too large
/// or written in UTF-16.
[[nodiscard]] std::optional<Source> read_source(std::string name, std::string bytes,
                                                Findings& findings);

/// Parses a recipe or kitchen file. Reports all faults of all lines in one pass; lines that parse
/// are in the document even where others do not. Also reported here: a missing or second header, a
/// statement that does not belong in this sort of file, `language` out of place or too new, words
/// that cannot be names. Names and meanings are not resolved here.
[[nodiscard]] Document parse(Source source, Findings& findings);

/// What an expression that stands alone (a hole in a text, a request's value) says. The place of
/// its nodes counts from the start of `text`. Empty with a fault if anything is wrong or left over.
struct LoneExpression {
    Expressions expressions;
    NodeId root = no_node;
};
[[nodiscard]] std::optional<LoneExpression> parse_expression(std::string_view text,
                                                             Findings& findings);

/// Whether a word is reserved (a word of the language or a unit).
[[nodiscard]] bool is_reserved(std::string_view word);
/// All words of the language, sorted (without the units).
[[nodiscard]] std::vector<std::string_view> reserved_words();
/// Normalises a name to NFC; empty if it is not written like a name or too long (see
/// docs/language.md). Reserved words come back too: ask is_reserved about those.
[[nodiscard]] std::optional<std::string> normalise_name(std::string_view text);

} // namespace jarful::language
