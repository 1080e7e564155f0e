#pragma once

#include "engine/appraise/quantity.hpp"
#include "engine/larder/larder.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

/// A sentence as amounts and words with their meanings, and the matcher of patterns that runs over
/// it. For this room only.
namespace jarful::appraise {

/// An amount, a word, a name of the larder or a mark.
struct Piece {
    Concepts is;
    std::size_t first = 0;                      ///< token
    std::size_t count = 1;                      ///< tokens
    Quantity quantity;                          ///< of an amount; of a bare measure, one of it
    const larder::Material* material = nullptr; ///< of a name of the larder
    double number = 0;                          ///< of a number without a measure
};

struct Sentence {
    std::span<const Token> tokens;
    std::vector<Piece> pieces;

    /// Whether a piece has one of the meanings.
    [[nodiscard]] bool has(Concepts some) const;
    /// As written, from a piece to another, both included.
    [[nodiscard]] std::string_view text(std::size_t first, std::size_t last) const;
    [[nodiscard]] std::string_view text() const;
};

/// Takes a sentence apart. Of more than 400 tokens only the first 400 are read.
[[nodiscard]] Sentence sentence_of(std::span<const Token> tokens, Numbers numbers, Tongue tongue);

/// Where a pattern was found: the first and last piece, and the pieces that it names.
struct Match {
    std::size_t first = 0, last = 0;
    std::size_t captures[26] = {};
    unsigned captured = 0;
    [[nodiscard]] bool has(char name) const { return ((captured >> (name - 'a')) & 1U) != 0; }
    /// The piece of a name that has been found.
    [[nodiscard]] std::size_t at(char name) const { return captures[name - 'a']; }
};

/// The first place at or behind a piece where a row of steps fits; the shortest way from there.
[[nodiscard]] std::optional<Match> match(std::span<const Step> steps, const Sentence& sentence,
                                         std::size_t from = 0);

} // namespace jarful::appraise
