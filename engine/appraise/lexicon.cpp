#include "engine/appraise/lexicon.hpp"

#include "engine/larder/fold.hpp"
#include "engine/larder/foreign.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <vector>

namespace jarful::appraise {

namespace {

using larder::WordTable;

/// The tables of one sort of all languages as one.
WordTable all_of(larder::PackedTable Lexicon::*sort,
                 WordTable::Letters letters = WordTable::Letters::as_packed) {
    std::vector<larder::PackedTable> out;
    for (const Lexicon& lexicon : lexicons())
        out.push_back(lexicon.*sort);
    return {out, letters};
}

/// The words of all languages, unpacked when a first one is asked for.
struct Unpacked {
    WordTable words = all_of(&Lexicon::words);
    WordTable stems = all_of(&Lexicon::stems);
    WordTable tails = all_of(&Lexicon::tails, WordTable::Letters::backwards);
    WordTable phrases = all_of(&Lexicon::phrases);
    WordTable spelled = all_of(&Lexicon::spelled);
    WordTable tells = all_of(&Lexicon::tells);
    WordTable as_written = all_of(&Lexicon::as_written);
};

const Unpacked& unpacked() {
    static const Unpacked all;
    return all;
}

/// The place of a language among lexicons().
std::uint8_t place_of(const Lexicon& lexicon) {
    return static_cast<std::uint8_t>(&lexicon - lexicons().data());
}

const Meaning& meaning(const WordTable::Entry& entry) {
    return tables::meanings()[entry.number];
}

Which bit(std::uint8_t language) {
    return Which{1} << language;
}

Which all_or(Tongue only) {
    return only == nullptr ? ~Which{0} : bit(place_of(*only));
}

constexpr std::size_t longest_word = 40; ///< longer ones mean nothing

/// What all words mean together that some languages have under a text.
Concepts united(const WordTable& words, std::string_view text, Which heard) {
    Concepts out;
    for (const WordTable::Entry& entry : words.find_all(text))
        if ((heard & bit(entry.table)) != 0) out = out | meaning(entry).concepts;
    return out;
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
    NumberWord out;
    unpacked().words.find_beginnings(text, [&](const WordTable::Entry& entry) {
        if (entry.table == place_of(lexicon) && entry.word.size() > 1 && meaning(entry).number >= 1)
            out = {entry.word.size(), meaning(entry).number};
    });
    return out;
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

namespace {

/// What a word means by how it begins and how it ends, in each language.
class Parts {
  public:
    Parts(std::string_view folded, Which heard) {
        constexpr std::size_t fewest = 3; // letters
        const auto take = [&](const WordTable::Entry& entry) {
            if ((heard & bit(entry.table)) == 0) return;
            found_ |= bit(entry.table);
            concepts_[entry.table] = concepts_[entry.table] | meaning(entry).concepts;
        };
        unpacked().stems.find_beginnings(folded, [&](const WordTable::Entry& entry) {
            if (entry.word.size() >= fewest) take(entry);
        });
        std::array<char, longest_word> backwards{};
        const auto end = std::reverse_copy(folded.begin(), folded.end(), backwards.begin());
        const std::string_view turned(backwards.data(),
                                      static_cast<std::size_t>(end - backwards.begin()));
        unpacked().tails.find_beginnings(turned, [&](const WordTable::Entry& entry) {
            if (entry.word.size() >= fewest && entry.word.size() < folded.size()) take(entry);
        });
    }

    /// What they mean in some of the languages.
    [[nodiscard]] Concepts in(Which some) const {
        Concepts out;
        for (std::size_t i = 0; (found_ & some) >> i != 0; ++i)
            if (((found_ & some) >> i & 1U) != 0) out = out | concepts_[i];
        return out;
    }

  private:
    Which found_ = 0;
    std::array<Concepts, most_languages> concepts_;
};

Meaning meaning_in(std::string_view folded, Which heard) {
    Meaning out;
    if (folded.size() > longest_word) return out;
    Which whole = 0;
    for (const WordTable::Entry& entry : unpacked().words.find_all(folded)) {
        if ((heard & bit(entry.table)) == 0) continue;
        const Meaning& m = meaning(entry);
        // "sale" is dirty where "salé" is salted.
        const bool says_nothing = m.concepts == Concepts(Concept::known) && m.number == 0;
        if (!says_nothing) whole |= bit(entry.table);
        out.concepts = out.concepts | m.concepts;
        if (out.number == 0) out.number = m.number;
        out.opens = out.opens || m.opens;
    }
    // "flake" is a word, and none that ends with "Lake".
    const Parts parts(folded, heard);
    out.concepts = out.concepts | parts.in(whole != 0 ? whole : heard);
    if (out.number != 0) return out;
    for (const Lexicon& lexicon : lexicons()) {
        const Which one = bit(place_of(lexicon));
        if ((heard & one) == 0 || (whole & one) != 0 || !parts.in(one).empty()) continue;
        if (out.number == 0) out.number = joined_number(folded, lexicon);
    }
    return out;
}

} // namespace

Meaning meaning_of(std::string_view folded, Languages heard) {
    const Meaning out = meaning_in(folded, all_or(heard.only));
    const bool unknown = out.concepts.empty() && out.number == 0;
    if (!unknown || heard.only == nullptr || heard.only == base_tongue()) return out;
    return meaning_in(folded, bit(place_of(*base_tongue())));
}

bool is_listed(std::string_view folded, const Lexicon& lexicon) {
    const auto found = unpacked().words.find_all(folded);
    return std::any_of(found.begin(), found.end(), [&](const WordTable::Entry& entry) {
        return entry.table == place_of(lexicon);
    });
}

bool knows_form(std::string_view folded, const Lexicon& lexicon) {
    const auto knows = [&](std::string_view word) {
        return word.size() > 2 && is_listed(word, lexicon);
    };
    const auto knows_with = [&](std::string_view stem) {
        if (knows(stem)) return true;
        const std::string_view shorter = stem.substr(0, stem.size() - 1);
        // "chopped", "tidied".
        if (stem.size() > 2 && stem.back() == stem[stem.size() - 2] && knows(shorter)) return true;
        if (stem.back() == 'i' && knows(std::string(shorter) + 'y')) return true;
        for (const std::string_view ending : larder::words_of(lexicon.endings))
            if (knows(std::string(stem) + std::string(ending))) return true;
        return knows(std::string(stem) + 'e');
    };
    for (const std::string_view ending : larder::words_of(lexicon.endings)) {
        if (folded.size() > ending.size() + 2 && folded.ends_with(ending) &&
            knows_with(folded.substr(0, folded.size() - ending.size())))
            return true;
    }
    return !lexicon.endings.empty() && folded.size() > 2 && knows_with(folded);
}

Concepts meaning_as_spelled(std::string_view word, Languages heard) {
    return united(unpacked().spelled, word, all_or(heard.only));
}

Concepts meaning_of_phrase(std::string_view folded, Languages heard) {
    return united(unpacked().phrases, folded, all_or(heard.only) | bit(place_of(*base_tongue())));
}

Which languages_that_tell(std::string_view folded) {
    Which out = 0;
    for (const WordTable::Entry& entry : unpacked().tells.find_all(folded))
        out |= bit(entry.table);
    return out;
}

Which languages_that_write(std::string_view text) {
    Which out = 0;
    for (const WordTable::Entry& entry : unpacked().as_written.find_all(text))
        out |= bit(entry.table);
    return out;
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
