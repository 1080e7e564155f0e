#include "engine/appraise/lexicon.hpp"

#include "engine/larder/foreign.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <vector>

namespace jarful::appraise {

namespace {

using larder::WordTable;

/// The words of a language, unpacked when a first one is asked for.
struct Unpacked {
    explicit Unpacked(const Lexicon& lexicon)
        : words(lexicon.words)
        , stems(lexicon.stems)
        , tails(lexicon.tails)
        , phrases(lexicon.phrases)
        , spelled(lexicon.spelled)
        , tells(lexicon.tells)
        , as_written(lexicon.as_written) {
        for (const WordTable::Entry& stem : stems.entries())
            longest_stem = std::max(longest_stem, stem.word.size());
        for (const WordTable::Entry& tail : tails.entries())
            longest_tail = std::max(longest_tail, tail.word.size());
    }
    WordTable words, stems, tails, phrases, spelled, tells, as_written;
    std::size_t longest_stem = 0, longest_tail = 0;
};

/// @param lexicon one of lexicons()
const Unpacked& unpacked(const Lexicon& lexicon) {
    static const std::vector<Unpacked> all(lexicons().begin(), lexicons().end());
    return all[static_cast<std::size_t>(&lexicon - lexicons().data())];
}

/// nullptr if the word is not there.
const Meaning* find(const WordTable& words, std::string_view word) {
    const WordTable::Entry* entry = words.find(word);
    return entry == nullptr ? nullptr : &tables::meanings()[entry->number];
}

/// The names of measures, and what they stand for in the same order.
struct Measures {
    Measures()
        : names(tables::measure_names()) {
        for (const WordTable::Entry& entry : names.entries()) {
            const MeasureMeaning& m = tables::measure_meanings()[entry.number];
            all.push_back({entry.word, m.measure, m.tongue, m.only_behind_number});
        }
    }
    WordTable names;
    std::vector<MeasureName> all;
};

const Measures& measures() {
    static const Measures all;
    return all;
}

const larder::Material* foreign(std::string_view folded, const Lexicon& lexicon) {
    return lexicon.base ? nullptr : larder::find_foreign(folded, lexicon.tag);
}

/// A number word at the beginning of a text.
struct NumberWord {
    std::size_t length = 0; ///< 0 where there is none
    double number = 0;
};

/// The longest number word at the beginning of a text.
NumberWord number_at(std::string_view text, const Lexicon& lexicon) {
    for (std::size_t length = std::min<std::size_t>(text.size(), 12); length > 1; --length) {
        const Meaning* word = find(unpacked(lexicon).words, text.substr(0, length));
        if (word != nullptr && word->number >= 1) return {length, word->number};
    }
    return {};
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
        const NumberWord next = number_at(word, lexicon);
        if (next.length == 0) return 0;
        word.remove_prefix(next.length);
        const double n = next.number;
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
        const NumberWord behind = joined ? NumberWord{} : number_at(word, lexicon);
        if (part != 0 && part < 10 && behind.length > 0 && behind.number < 100) return 0;
        if (joined) word.remove_prefix(lexicon.number_joint.size());
    }
    return sum + part + half;
}

} // namespace

Meaning meaning_of(std::string_view folded, const Lexicon& lexicon) {
    Meaning out;
    constexpr std::size_t longest = 40;
    if (folded.size() > longest) return out;
    const Unpacked& tables = unpacked(lexicon);
    if (const Meaning* word = find(tables.words, folded)) {
        out = *word;
        out.whole = true;
    }
    for (std::size_t length = 3; length <= std::min(folded.size(), tables.longest_stem); ++length) {
        if (const Meaning* stem = find(tables.stems, folded.substr(0, length)))
            out.concepts = out.concepts | stem->concepts;
    }
    for (std::size_t length = 3; length < folded.size() && length <= tables.longest_tail;
         ++length) {
        if (const Meaning* tail = find(tables.tails, folded.substr(folded.size() - length)))
            out.concepts = out.concepts | tail->concepts;
    }
    if (out.number == 0 && out.concepts.empty()) out.number = joined_number(folded, lexicon);
    return out;
}

Concepts meaning_as_spelled(std::string_view word, const Lexicon& lexicon) {
    const Meaning* found = find(unpacked(lexicon).spelled, word);
    return found == nullptr ? Concepts{} : found->concepts;
}

Concepts meaning_of_phrase(std::string_view folded, const Lexicon& lexicon) {
    const Meaning* phrase = find(unpacked(lexicon).phrases, folded);
    return phrase == nullptr ? Concepts{} : phrase->concepts;
}

bool tells(std::string_view folded, const Lexicon& lexicon) {
    return unpacked(lexicon).tells.find(folded) != nullptr;
}

bool tells_as_written(std::string_view text, const Lexicon& lexicon) {
    return unpacked(lexicon).as_written.find(text) != nullptr;
}

const MeasureName* find_measure(std::string_view folded) {
    const Measures& m = measures();
    const WordTable::Entry* entry = m.names.find(folded);
    return entry == nullptr ? nullptr
                            : &m.all[static_cast<std::size_t>(entry - m.names.entries().data())];
}

std::span<const MeasureName> measure_names() {
    return measures().all;
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

std::string_view name_of(Event event) {
    constexpr std::string_view names[] = {
#define JARFUL_EVENT(name) #name,
        JARFUL_EVENTS(JARFUL_EVENT)
#undef JARFUL_EVENT
    };
    return names[static_cast<std::size_t>(event)];
}

namespace {

/// The rows of the tables, unpacked when a first one is asked for.
struct Rows {
    Rows() {
        const auto sets = tables::concept_sets();
        for (const std::uint16_t place : tables::said())
            said.push_back(sets[place]);
        for (const tables::PackedStep& s : tables::steps())
            steps.push_back({sets[s.any], sets[s.also], sets[s.too], sets[s.never],
                             sets[s.not_between], sets[s.not_before], sets[s.not_behind], s.gap,
                             s.before, s.behind, s.optional, s.capture});
        std::size_t said_at = 0;
        std::size_t step_at = 0;
        std::size_t letter = 0;
        const std::string_view written = tables::rows_as_written();
        for (const tables::PackedPattern& p : tables::patterns()) {
            all.push_back({p.event, p.gives,
                           written.substr(std::min(letter, written.size()), p.letters),
                           std::span(said).subspan(said_at, p.said), sets[p.unsaid],
                           std::span(steps).subspan(step_at, p.steps)});
            said_at += p.said;
            step_at += p.steps;
            letter += p.letters;
        }
    }
    std::vector<Concepts> said;
    std::vector<Step> steps;
    std::vector<Pattern> all;
};

} // namespace

std::span<const Pattern> patterns() {
    static const Rows rows;
    return rows.all;
}

std::span<const Pattern> patterns(Event event) {
    static const auto firsts = [] {
        std::array<std::size_t, static_cast<std::size_t>(Event::last) + 1> out{};
        for (const Pattern& p : patterns())
            ++out[static_cast<std::size_t>(p.event) + 1];
        std::partial_sum(out.begin(), out.end(), out.begin());
        return out;
    }();
    const auto e = static_cast<std::size_t>(event);
    return patterns().subspan(firsts[e], firsts[e + 1] - firsts[e]);
}

} // namespace jarful::appraise
