#pragma once

#include "engine/appraise/quantity.hpp"
#include "engine/larder/larder.hpp"

#include <array>
#include <bitset>
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

/// The most pieces that a sentence has.
inline constexpr std::size_t most_pieces = 128;
/// Pieces of a sentence, a bit for each.
using Places = std::bitset<most_pieces>;

class Sentence {
  public:
    std::span<const Token> tokens;
    std::vector<Piece> pieces;

    void add(Piece piece);
    /// Gives a piece a meaning more.
    void mark(std::size_t piece, Concept c);
    /// What is so where the sentence stands, or of all of it.
    void say(Concepts some) { said_ = said_ | some; }
    /// The meanings of all pieces, and what was said.
    [[nodiscard]] Concepts said() const { return said_; }
    /// Whether a piece has one of the meanings, or one of them was said.
    [[nodiscard]] bool has(Concepts some) const { return said_.any(some); }
    /// The pieces that have one of the meanings.
    [[nodiscard]] Places places(Concepts some) const;

    /// As written, from a piece to another, both included.
    [[nodiscard]] std::string_view text(std::size_t first, std::size_t last) const;
    [[nodiscard]] std::string_view text() const;

  private:
    std::array<Places, static_cast<std::size_t>(Concept::last)> where_;
    Concepts said_;
};

/// Takes a sentence apart. Only its first `most_pieces` tokens are read.
[[nodiscard]] Sentence sentence_of(std::span<const Token> tokens, Numbers numbers, Tongue tongue);

/// Where a row was found: the first and last piece, and the pieces that it names.
struct Match {
    std::size_t first = 0, last = 0;
    std::array<std::size_t, 26> captures{};
    unsigned captured = 0;
    [[nodiscard]] bool has(char name) const { return ((captured >> (name - 'a')) & 1U) != 0; }
    /// The piece of a name that has been found.
    [[nodiscard]] std::size_t at(char name) const {
        return captures[static_cast<std::size_t>(name - 'a')];
    }
};

/// A row laid over a sentence. The time it takes grows with the gaps of the row, and hardly with
/// the sentence: every place is tried at once.
class Fit {
  public:
    Fit(const Pattern& pattern, const Sentence& sentence);
    explicit operator bool() const { return fits_; }
    /// The first place at or behind a piece; the shortest way from there. A row without steps fits
    /// everywhere.
    [[nodiscard]] std::optional<Match> first(std::size_t from = 0) const;
    /// Every piece that a name can stand for.
    [[nodiscard]] Places all(char name) const;

  private:
    [[nodiscard]] Places matching(const Step& step) const;

    const Pattern& pattern_;
    const Sentence& sentence_;
    bool fits_ = false;
    std::vector<Places> on_the_way_; ///< of each step: pieces from which the rest of the row fits
};

/// The first row of an event that fits at or behind a piece.
[[nodiscard]] std::optional<Match> find(Event event, const Sentence& sentence,
                                        std::size_t from = 0);

/// Gives pieces, or the sentence where the row names none, what a mark says; false if it does not
/// fit.
bool apply_mark(const Pattern& mark, Sentence& sentence);
/// All marks, in their order.
void apply_marks(Sentence& sentence);

} // namespace jarful::appraise
