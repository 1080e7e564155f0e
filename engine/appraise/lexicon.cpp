#include "engine/appraise/lexicon.hpp"

#include <algorithm>

namespace jarful::appraise {

namespace {

const LexiconWord* find(std::span<const LexiconWord> words, std::string_view word) {
    const auto place = std::lower_bound(
        words.begin(), words.end(), word,
        [](const LexiconWord& entry, std::string_view w) { return entry.word < w; });
    return place != words.end() && place->word == word ? &*place : nullptr;
}

} // namespace

Meaning meaning_of(std::string_view folded, const Lexicon& lexicon) {
    Meaning out;
    constexpr std::size_t longest = 40;
    if (folded.size() > longest) return out;
    if (const LexiconWord* word = find(lexicon.words, folded)) {
        out.concepts = word->concepts;
        out.number = word->number;
    }
    for (std::size_t length = 3; length <= folded.size() && !lexicon.stems.empty(); ++length) {
        if (const LexiconWord* stem = find(lexicon.stems, folded.substr(0, length)))
            out.concepts = out.concepts | stem->concepts;
    }
    for (std::size_t length = 3; length < folded.size() && !lexicon.tails.empty(); ++length) {
        if (const LexiconWord* tail = find(lexicon.tails, folded.substr(folded.size() - length)))
            out.concepts = out.concepts | tail->concepts;
    }
    return out;
}

} // namespace jarful::appraise
