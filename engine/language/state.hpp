#pragma once

#include "engine/language/parse.hpp"
#include "engine/language/words.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What the grammar of one line shares: where it is, what it builds, and how it gives up. Private
/// to this room, and free of the parser library.
namespace jarful::language {

using Cursor = const char*;

/// The first fault of a line ends the reading of that line; it is thrown inside this room only.
struct Refusal {
    Diagnostic diagnostic;
};

/// How high the tree of an expression may grow. Nesting is bounded by limits::nesting; a sum of
/// very many terms grows as high without any nesting, and rooms further down walk the tree.
inline constexpr std::uint16_t tree_height = 250;

/// The operator that stands behind an operand. Every level of the grammar asks for its own in turn,
/// so it is read once and remembered.
struct OperatorBehind {
    Cursor asked = nullptr; ///< where it was looked for, and up to where
    Cursor last = nullptr;
    std::optional<NodeKind> kind; ///< empty: none stands there
    Cursor begin = nullptr;
    Cursor end = nullptr;
};

struct State {
    std::string_view text;                    ///< the whole source: places count from its start
    Expressions& pool;                        ///< where expressions are built
    Findings& findings;                       ///< for faults that do not end the line
    const StatementWord* statement = nullptr; ///< the line's statement; null for a lone expression
    bool comments = true;                     ///< whether `#` begins a comment (not in a hole)
    int depth = 0;                            ///< of nesting, right now
    bool faulty = false;                      ///< a fault was found that did not end the line
    std::vector<Place> open = {};             ///< parentheses not closed yet
    std::vector<std::uint16_t> heights = {};  ///< of the pool's nodes
    OperatorBehind behind = {};

    [[nodiscard]] std::uint32_t offset(Cursor at) const {
        return static_cast<std::uint32_t>(at - text.data());
    }
    [[nodiscard]] Place place(Cursor from, Cursor to) const { return {offset(from), offset(to)}; }
    [[nodiscard]] std::string_view at(Place p) const {
        return text.substr(p.begin, p.end - p.begin);
    }
};

/// Counts nesting while it lives; refuses past limits::nesting.
class Deeper {
  public:
    Deeper(State& state, Cursor where);
    ~Deeper() { --state_.depth; }
    Deeper(const Deeper&) = delete;
    Deeper& operator=(const Deeper&) = delete;

  private:
    State& state_;
};

[[noreturn]] void refuse(std::string code, Place place, std::string message,
                         std::string advice = {}, std::vector<Fix> fixes = {});

[[nodiscard]] Cursor skip_blanks_slowly(Cursor first, Cursor last, bool comments);

/// Past blanks, line ends within a logical line, and comments. Every token asks; mostly there are
/// none.
[[nodiscard]] inline Cursor skip_blanks(Cursor first, Cursor last, bool comments) {
    if (first < last && *first == ' ') ++first;
    if (first<last&& * first> ' ' && *first != '#' && *first != '\x7F') return first;
    return skip_blanks_slowly(first, last, comments);
}
/// Past blanks and tabs only.
[[nodiscard]] Cursor skip_spaces(Cursor first, Cursor last);

/// A piece of the user's own text for a sentence: blanks made single, shortened in the middle.
[[nodiscard]] std::string quoted(std::string_view text, std::size_t characters = 40);
/// The same without the quotation marks.
[[nodiscard]] std::string own_words(std::string_view text, std::size_t characters = 60);

/// The word, number or sign at a place, for "X stands here"; empty at the end.
[[nodiscard]] Place thing_at(const State& state, Cursor at, Cursor last);

/// Refuses what stands at `at`, where something else was expected. `which` is "code|noun phrase",
/// as the grammar names its parts.
[[noreturn]] void refuse_expected(const State& state, std::string_view which, Cursor at,
                                  Cursor last);
/// Refuses what is left over after a complete statement or expression.
[[noreturn]] void refuse_left_over(const State& state, Cursor at, Cursor last);
/// Refuses a word that follows an amount directly and means nothing there. In a formula it may be a
/// name that lacks its operator.
[[noreturn]] void refuse_word_after_amount(const State& state, Place amount, Place word,
                                           bool formula);
/// Refuses a word of the language or a unit where a name is wanted.
[[noreturn]] void refuse_reserved(const State& state, Place word);
/// "How such a line reads", or empty.
[[nodiscard]] std::string form_advice(const State& state);

} // namespace jarful::language
