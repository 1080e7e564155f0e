#include "engine/appraise/item.hpp"
#include "engine/appraise/sections.hpp"
#include "engine/appraise/text.hpp"

#include <algorithm>

namespace jarful::appraise {

using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

std::vector<std::size_t> beginnings_of_things(Tokens t, Numbers numbers) {
    std::vector<std::size_t> out;
    int depth = 0;
    bool words = true; ///< since the last beginning there is a word
    for (std::size_t i = 0; i < t.size(); ++i) {
        if (is_mark(t, i, "(")) ++depth;
        if (is_mark(t, i, ")")) depth = std::max(0, depth - 1);
        if (depth > 0 || !words) {
            words = words || t[i].sort == Token::Sort::word;
            continue;
        }
        const std::size_t about = about_at(t, i);
        const std::size_t at = i + about;
        if (at >= t.size() || t[at].sort != Token::Sort::number) {
            // "sea salt Filtered water"
            const bool capital = i > 1 && t[i].text[0] >= 'A' && t[i].text[0] <= 'Z' &&
                                 t[i - 1].sort == Token::Sort::word && t[i - 1].text[0] >= 'a' &&
                                 t[i - 1].is.any(Concept::salt);
            if (capital) out.push_back(i);
            continue;
        }
        const auto q = quantity_at(t, i, numbers);
        if (!q) continue;
        const std::size_t end = i + q->tokens;
        const bool joined =
            i > 0 && t[i - 1].is.any({Concept::per, Concept::purpose, Concept::either,
                                      Concept::within, Concept::of, Concept::times});
        const bool amount = q->quantity.is(Sort::mass) || q->quantity.is(Sort::volume) ||
                            q->quantity.is(Sort::loose) || q->quantity.is(Sort::count) ||
                            q->quantity.measure == nullptr;
        const bool time = end < t.size() && t[end].is.any(Concept::time);
        if (amount && !time && !joined && end < t.size()) {
            out.push_back(i);
            words = false;
        }
        i = end - 1;
    }
    return out;
}

bool foreign(std::string_view text) {
    constexpr std::size_t few = 25;
    std::size_t words = 0;
    std::size_t known = 0;
    for (const std::string_view line : lines_of(text.substr(0, 4000))) {
        const std::vector<Token> tokens = tokens_of(line.substr(0, 2000));
        for (std::size_t i = 0; i < tokens.size(); ++i) {
            const Token& t = tokens[i];
            if (t.sort != Token::Sort::word) continue;
            ++words;
            const bool name = named(t.folded, nullptr).material != nullptr;
            known += !t.is.empty() || t.number != 0 || name || measure_at(tokens, i, true) ? 1 : 0;
        }
    }
    return words >= few && known * 20 < words * 9;
}

} // namespace jarful::appraise
