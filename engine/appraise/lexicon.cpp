#include "engine/appraise/lexicon.hpp"

#include "engine/larder/foreign.hpp"

#include <algorithm>

namespace jarful::appraise {

namespace {

const LexiconWord* find(std::span<const LexiconWord> words, std::string_view word) {
    const auto place = std::lower_bound(
        words.begin(), words.end(), word,
        [](const LexiconWord& entry, std::string_view w) { return entry.word < w; });
    return place != words.end() && place->word == word ? &*place : nullptr;
}

const larder::Material* foreign(std::string_view folded, const Lexicon& lexicon) {
    return lexicon.base ? nullptr : larder::find_foreign(folded, lexicon.tag);
}

} // namespace

Meaning meaning_of(std::string_view folded, const Lexicon& lexicon) {
    Meaning out;
    constexpr std::size_t longest = 40;
    if (folded.size() > longest) return out;
    if (const LexiconWord* word = find(lexicon.words, folded)) {
        out.concepts = word->concepts;
        out.number = word->number;
        out.opens = word->opens;
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

Concepts meaning_of_phrase(std::string_view folded, const Lexicon& lexicon) {
    const LexiconWord* phrase = find(lexicon.phrases, folded);
    return phrase == nullptr ? Concepts{} : phrase->concepts;
}

const MeasureName* find_measure(std::string_view folded) {
    const std::span<const MeasureName> all = measure_names();
    const auto place = std::lower_bound(
        all.begin(), all.end(), folded,
        [](const MeasureName& entry, std::string_view name) { return entry.name < name; });
    return place != all.end() && place->name == folded ? &*place : nullptr;
}

Named named(std::string_view folded, Tongue tongue) {
    if (foreign_tongue(tongue)) {
        if (const auto* m = foreign(folded, *tongue)) return {m, tongue};
    }
    if (const auto* m = larder::find_exact(folded)) return {m, base_tongue()};
    if (tongue != nullptr) return {};
    for (const Lexicon& lexicon : lexicons()) {
        if (const auto* m = foreign(folded, lexicon)) return {m, &lexicon};
    }
    return {};
}

} // namespace jarful::appraise
