#include "engine/appraise/tongue.hpp"

#include "engine/appraise/text.hpp"
#include "engine/larder/foreign.hpp"

#include <algorithm>
#include <vector>

namespace jarful::appraise {

using Tokens = std::span<const Token>;

namespace {

/// How many words show each language.
class Votes {
  public:
    void count(const Token& token, bool as_written) {
        const Which told =
            token.sort == Token::Sort::word ? languages_that_tell(token.folded) : Which{0};
        const Which written = as_written ? languages_that_write(token.text) : Which{0};
        for (std::size_t i = 0; (told | written) >> i != 0; ++i)
            votes_[i] += ((told >> i) & 1U) + 2 * ((written >> i) & 1U);
    }

    /// Whether a language has three times the votes of any other, and at least six.
    [[nodiscard]] bool plainly(const Lexicon& lexicon) const {
        const auto at = static_cast<std::size_t>(&lexicon - lexicons().data());
        for (std::size_t i = 0; i < votes_.size(); ++i) {
            if (i != at && votes_[i] * 3 > votes_[at]) return false;
        }
        return votes_[at] >= 6;
    }

    [[nodiscard]] bool base() const { return votes_.front() > 0; }

    /// The language that is ahead of all others; nullptr if none is.
    [[nodiscard]] Tongue ahead() const {
        const auto most = std::max_element(votes_.begin(), votes_.end());
        if (std::count(votes_.begin(), votes_.end(), *most) > 1) return nullptr;
        return &lexicons()[static_cast<std::size_t>(most - votes_.begin())];
    }

  private:
    std::vector<unsigned> votes_ = std::vector<unsigned>(lexicons().size());
};

/// The one language, besides the base, that has a word as a name; nullptr if none has, or several.
Tongue tongue_of_name(const Token& token, bool capital_nouns) {
    Tongue found = nullptr;
    for (const Lexicon& lexicon : lexicons()) {
        if (lexicon.base || (capital_nouns && !lexicon.capital_nouns) ||
            larder::find_foreign(token.folded, lexicon.tag) == nullptr)
            continue;
        if (found != nullptr) return nullptr;
        found = &lexicon;
    }
    return found;
}

} // namespace

TextTongue tongue_of_text(std::string_view text) {
    Votes votes;
    for (const std::string_view line : lines_of(text.substr(0, 8000))) {
        for (const Token& t : tokens_of(line))
            votes.count(t, true);
    }
    if (const Tongue ahead = votes.ahead()) return {ahead, votes.plainly(*ahead)};
    return {votes.base() ? base_tongue() : nullptr, false};
}

Tongue tongue_of_line(Tokens tokens, Tongue around) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const bool number = i > 0 && tokens[i - 1].sort == Token::Sort::number;
        if (const auto m = measure_at(tokens, i, number); m && m->tongue != nullptr)
            return m->tongue;
    }
    Votes votes;
    for (const Token& t : tokens)
        votes.count(t, false);
    if (const Tongue ahead = votes.ahead()) return ahead;
    // A noun with a capital within the line, where one language has it as a name.
    for (std::size_t i = 1; i < tokens.size() && around == nullptr; ++i) {
        const Token& t = tokens[i];
        if (t.sort != Token::Sort::word || t.text[0] < 'A' || t.text[0] > 'Z' || t.text.size() < 4)
            continue;
        if (const Tongue tongue = tongue_of_name(t, true)) return tongue;
    }
    for (const Token& t : tokens) {
        if (t.sort != Token::Sort::word || t.text.size() < 3 || larder::find_exact(t.folded))
            continue;
        if (const Tongue tongue = tongue_of_name(t, false)) return tongue;
    }
    return around;
}

Numbers numbers_in(Tongue tongue) {
    return {tongue != nullptr && tongue->decimal_comma, tongue != nullptr};
}

} // namespace jarful::appraise
