#pragma once

#include "engine/appraise/concept.hpp"
#include "engine/appraise/measure.hpp"
#include "engine/larder/larder.hpp"
#include "engine/larder/word_table.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

/// The words of the languages that are read, compiled from engine/appraise/data/*.json into
/// constant tables. A language more is a file more. For this room only.
namespace jarful::appraise {

/// What a word means. Words that mean the same share one.
struct Meaning {
    Concepts concepts;
    double number = 0;  ///< of a number word, one that is joined of several too; else 0
    bool opens = false; ///< a phrase begins with it
};

/// A name of a measure that is only one as it is written: "T", "#".
struct WrittenMeasure {
    std::string_view text;
    const Measure* measure = nullptr;
};

/// What is particular to one language.
struct Lexicon {
    std::string_view language;  ///< as it calls itself in the data
    std::string_view tag;       ///< "en"; names of materials are those of `names_en` in the larder
    bool base = false;          ///< the language of the larder's own `names`
    bool decimal_comma = false; ///< a comma before the decimals, a point between thousands
    bool capital_nouns = false; ///< a capital within a line is a noun, and no name
    bool adjectives_behind = false; ///< "sel gris": what follows a noun says of what sort it is
    bool thorough = false; ///< so many of its words are listed that one which is not is strange
    // Folded words, each with the place of its meaning among all meanings.
    larder::PackedTable words;
    larder::PackedTable stems;                ///< "rinc" for "rinc*"
    larder::PackedTable tails;                ///< "salz" for "*salz"
    larder::PackedTable phrases;              ///< words with one blank between
    larder::PackedTable spelled;              ///< small letters that are not folded: "à"
    std::string_view number_joint;            ///< "und" of "fünfundzwanzig"; empty if none
    std::string_view number_half;             ///< "einhalb" of "zweieinhalb"
    std::string_view endings;                 ///< of words, with one blank between: "s ed ing"
    larder::PackedTable tells;                ///< words that show the language
    larder::PackedTable as_written;           ///< the same, in these very letters: "EL"
    std::span<const WrittenMeasure> measures; ///< that are told by how they are written
};

/// More are refused when the tables are compiled.
inline constexpr std::size_t most_languages = 8;

/// The languages that are read. The first is the one of the larder's own names; it is tried for
/// words that another does not know.
[[nodiscard]] std::span<const Lexicon> lexicons();

/// Which language a line is written in; nullptr where that does not show.
using Tongue = const Lexicon*;
[[nodiscard]] inline Tongue base_tongue() {
    return &lexicons().front();
}
/// Whether the larder lists names of its own for a language.
[[nodiscard]] inline bool foreign_tongue(Tongue tongue) {
    return tongue != nullptr && !tongue->base;
}

/// The languages whose words are heard: one and the first of the tables, or all of them.
struct Languages {
    Tongue only = nullptr;
};

/// What a folded word means: nothing if it is not there. Where one language is heard, what the
/// first of the tables says counts if that one does not know it. A whole word ("flake") rules out
/// what it would mean by how it begins or ends ("lake").
[[nodiscard]] Meaning meaning_of(std::string_view folded, Languages heard = {});
/// Whether a folded word is listed as a whole in a language.
[[nodiscard]] bool is_listed(std::string_view folded, const Lexicon& lexicon);
/// Whether a language has a folded word under another ending: "wilting" for "wilt".
[[nodiscard]] bool knows_form(std::string_view folded, const Lexicon& lexicon);
/// What a word means by its very letters; nothing for most. @param word in small letters
[[nodiscard]] Concepts meaning_as_spelled(std::string_view word, Languages heard);
/// What a folded phrase means: its words with one blank between. Of the first of the tables always.
[[nodiscard]] Concepts meaning_of_phrase(std::string_view folded, Languages heard);
/// Which languages: for each of lexicons() a bit, the lowest for the first.
using Which = std::uint32_t;
/// Those that a text is in as a folded word shows; or as a word shows by its very letters ("EL").
[[nodiscard]] Which languages_that_tell(std::string_view folded);
[[nodiscard]] Which languages_that_write(std::string_view text);

/// A folded name of a measure, in whatever language.
struct MeasureName {
    std::string_view name; ///< of several words with one blank between
    const Measure* measure = nullptr;
    Tongue tongue = nullptr;         ///< the only language that has it, unless that is the base
    bool only_behind_number = false; ///< a single letter, or a plain word besides
};
/// As it stands in the tables, where names that stand for the same share one.
struct MeasureMeaning {
    const Measure* measure = nullptr;
    Tongue tongue = nullptr;
    bool only_behind_number = false;
};
[[nodiscard]] const MeasureName* find_measure(std::string_view folded);
/// Every name, sorted.
[[nodiscard]] std::span<const MeasureName> measure_names();

/// A material that a folded name stands for, and in which language it does.
struct Named {
    const larder::Material* material = nullptr;
    Tongue tongue = nullptr;
};
/// The larder's material of a whole folded name: in the language itself, then among the larder's
/// own names; where the language is not known, in any.
[[nodiscard]] Named named(std::string_view folded, Tongue tongue);

/// What a row of patterns.json is a sign of. A mark gives a concept to a piece, or to what is said;
/// the others are told to whoever keeps the accounts, in this order.
#define JARFUL_EVENTS(X)                                                                           \
    X(mark)                                                                                        \
    X(salt_example)                                                                                \
    X(salt_rate)                                                                                   \
    X(salt_percent)                                                                                \
    X(salt_factor)                                                                                 \
    X(salt_total)                                                                                  \
    X(salt_each)                                                                                   \
    X(water_amount)                                                                                \
    X(brine_amount)                                                                                \
    X(water_poured)                                                                                \
    X(vessel_filled)                                                                               \
    X(thing_added)                                                                                 \
    X(liquid_added)                                                                                \
    X(vessel_size)                                                                                 \
    X(for_one)                                                                                     \
    X(many)                                                                                        \
    X(for_each)                                                                                    \
    X(rinsed)                                                                                      \
    X(put_back)                                                                                    \
    X(poured)                                                                                      \
    X(squeezed)                                                                                    \
    X(lost)                                                                                        \
    X(may_be_poured)                                                                               \
    X(rest_follows)                                                                                \
    X(part_used)                                                                                   \
    X(brine_parted)                                                                                \
    X(left_over)                                                                                   \
    X(salt_added)                                                                                  \
    X(salt_again)                                                                                  \
    X(amount_again)                                                                                \
    X(part_salted)                                                                                 \
    X(rest_likewise)                                                                               \
    X(whole_salt)                                                                                  \
    X(brine_made)                                                                                  \
    X(salted)                                                                                      \
    X(plain_water)                                                                                 \
    X(not_yet_salted)                                                                              \
    X(unexplained)                                                                                 \
    X(title_part)                                                                                  \
    X(line_part)                                                                                   \
    X(line_poured)                                                                                 \
    X(line_salted)                                                                                 \
    X(line_acid)                                                                                   \
    X(line_as_bought)                                                                              \
    X(line_not_this_salt)                                                                          \
    X(line_curing)                                                                                 \
    X(line_reduced)                                                                                \
    X(line_no_food)                                                                                \
    X(line_imperial)

enum class Event : std::uint8_t {
#define JARFUL_EVENT(name) name,
    JARFUL_EVENTS(JARFUL_EVENT)
#undef JARFUL_EVENT
        last
};

/// "salt_rate"
[[nodiscard]] std::string_view name_of(Event event);

/// A step of a row: what has to stand next, how far on, and what may not stand about it.
struct Step {
    Concepts any;                    ///< one of these
    Concepts also, too;              ///< and one of each of these, if there are any
    Concepts never;                  ///< and none of these
    Concepts not_between;            ///< what may not stand between the step before and this one
    Concepts not_before, not_behind; ///< what may not stand near it, on either side
    std::uint8_t gap = 0;            ///< the most pieces between the step before and this one
    std::uint8_t before = 0, behind = 0; ///< how near that is, in pieces
    bool optional = false;
    char capture = 0; ///< a name for what is found here, 0 for none
};

/// One row of engine/appraise/data/patterns.json.
struct Pattern {
    Event event = Event::mark;
    Concept gives = Concept::last;  ///< of a mark: the concept, for the piece that is named x
    std::string_view row;           ///< as written, for whoever asks why
    std::span<const Concepts> said; ///< one of each set has to be in the sentence, or to be so
    Concepts unsaid;                ///< and none of these
    std::span<const Step> steps;    ///< none: what is said alone decides
};
/// All rows, by their events in the order of these.
[[nodiscard]] std::span<const Pattern> patterns();
/// Those of one event.
[[nodiscard]] std::span<const Pattern> patterns(Event event);

/// What the compiled tables hold, as it stands there: for lexicon.cpp.
namespace tables {

/// A step whose sets are told by their places among all sets: rows share most of them.
struct PackedStep {
    std::uint16_t any = 0, also = 0, too = 0, never = 0;
    std::uint16_t not_between = 0, not_before = 0, not_behind = 0;
    std::uint8_t gap = 0, before = 0, behind = 0;
    bool optional = false;
    char capture = 0;
};
/// A row, with how many of what is said and of the steps are its own: they stand in order.
struct PackedPattern {
    Event event = Event::mark;
    Concept gives = Concept::last;
    std::uint8_t said = 0, steps = 0;
    std::uint16_t unsaid = 0, letters = 0;
};
[[nodiscard]] std::span<const Concepts> concept_sets();
[[nodiscard]] std::span<const std::uint16_t> said(); ///< places of sets
[[nodiscard]] std::span<const PackedStep> steps();
[[nodiscard]] std::span<const PackedPattern> patterns();
[[nodiscard]] std::string_view rows_as_written(); ///< one behind the other; empty in a page

[[nodiscard]] std::span<const Meaning> meanings();
[[nodiscard]] std::span<const MeasureMeaning> measure_meanings();
[[nodiscard]] const larder::PackedTable& measure_names(); ///< with places in measure_meanings()
} // namespace tables

} // namespace jarful::appraise
