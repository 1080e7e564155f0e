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

/// The longest number word at the beginning of a text; nullptr if none is.
const LexiconWord* number_at(std::string_view text, const Lexicon& lexicon) {
    for (std::size_t length = std::min<std::size_t>(text.size(), 12); length > 1; --length) {
        const LexiconWord* word = find(lexicon.words, text.substr(0, length));
        if (word != nullptr && word->number >= 1) return word;
    }
    return nullptr;
}

/// A number whose words are written as one: "zweihundertfünfundzwanzig"; 0 for what is none.
double joined_number(std::string_view word, const Lexicon& lexicon) {
    if (lexicon.number_joint.empty() || word.size() < 6) return 0;
    double half = 0;
    if (word.size() > lexicon.number_half.size() && word.ends_with(lexicon.number_half)) {
        half = 0.5;
        word.remove_suffix(lexicon.number_half.size());
    }
    double sum = 0;
    double part = 0;
    for (double last = 0; !word.empty();) {
        const LexiconWord* const next = number_at(word, lexicon);
        if (next == nullptr) return 0;
        word.remove_prefix(next->word.size());
        const double n = next->number;
        if (n >= 100) {
            if (n == last) return 0;
            const double before = n == 1000 ? sum + part : part;
            sum = (n == 1000 ? 0 : sum) + std::max(before, 1.0) * n;
            part = 0;
            last = n;
        } else {
            // "fünfundzwanzig": a small one, the joint, a large one.
            if (part != 0 && (part > 9 || n < 20)) return 0;
            part += n;
        }
        const bool joined = word.starts_with(lexicon.number_joint);
        if (part != 0 && part < 10 && !word.empty() && !joined && number_at(word, lexicon) &&
            number_at(word, lexicon)->number < 100)
            return 0;
        if (joined) word.remove_prefix(lexicon.number_joint.size());
    }
    return sum + part + half;
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
    if (out.number == 0 && out.concepts.empty()) out.number = joined_number(folded, lexicon);
    return out;
}

Concepts meaning_as_spelled(std::string_view word, const Lexicon& lexicon) {
    const LexiconWord* found = find(lexicon.spelled, word);
    return found == nullptr ? Concepts{} : found->concepts;
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
