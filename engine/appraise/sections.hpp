#pragma once

#include "engine/appraise/document.hpp"

#include <span>
#include <string_view>
#include <vector>

/// What the words of a line say about its place in a recipe. For this room only.
namespace jarful::appraise {

[[nodiscard]] std::size_t count_words(std::span<const Token> tokens);

/// The section that a heading opens; false, and the section untouched, if none.
[[nodiscard]] bool heading_section(std::span<const Token> tokens, Section& section);

/// A line that speaks of servings, times, ratings: nothing that goes in the jar.
[[nodiscard]] bool remark(std::span<const Token> tokens);

/// A line of jars and bowls.
[[nodiscard]] bool equipment(std::span<const Token> tokens);

/// Whether a line names a ferment, a pickle or a salad.
[[nodiscard]] bool names_dish(std::string_view text, std::span<const Token> tokens);

/// "for the brine and for rinsing": a use that leaves the jar behind one that does not.
[[nodiscard]] bool shares_use(std::span<const Token> tokens);

/// "if needed", "for topping up": what may not be used at all.
[[nodiscard]] bool only_if_needed(std::span<const Token> tokens);

/// Where "plus more" begins, whose words do not speak of the amount before it; else the end.
[[nodiscard]] std::size_t end_of_amount(std::span<const Token> tokens);

/// Where the things of a run-on line begin, each with an amount: "2 lb beans 48 oz water".
[[nodiscard]] std::vector<std::size_t> beginnings_of_things(std::span<const Token> tokens,
                                                            Numbers numbers);

/// Whether most words of a text mean nothing here: it is in a language that is not read. A few
/// words do not tell.
[[nodiscard]] bool foreign(std::string_view text);

/// "no soaking", "without rinsing", "do not rinse": a bath that is not there.
[[nodiscard]] bool denies_bath(std::span<const Token> tokens);

} // namespace jarful::appraise
