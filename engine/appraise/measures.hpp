#pragma once

#include "engine/appraise/tokens.hpp"
#include "engine/units/interval.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

/// The measures that recipes use, in English, German and French, and what people abbreviate them
/// to. For this room only.
namespace jarful::appraise {

struct Measure {
    enum class Sort : std::uint8_t {
        mass,    ///< factor in g
        volume,  ///< factor in mL
        count,   ///< a word for pieces: head, clove, leaf
        loose,   ///< a volume without a rule: pinch, handful; factor in mL, wide
        package, ///< a tin, a jar, a bag: of no known size
        length,  ///< an inch of ginger
        percent
    };
    std::string_view unit; ///< as in the JSON: "tbsp", "g", "head"
    Sort sort = Sort::count;
    /// How many g or mL; for a bare spoon or cup from the US to the metric one.
    units::Interval factor;
    Tongue tongue = Tongue::unknown; ///< of a word that only one language has
    bool metric_spoon = false;       ///< EL, TL, c. à s.: 15 and 5 mL
};

/// A measure and how many tokens it takes, the full stops behind it included.
struct FoundMeasure {
    const Measure* measure = nullptr;
    std::size_t tokens = 0;
};

/// The longest measure at a place among tokens; "T" and "t", "C" and "c" by their case.
/// `after_number` says that a number stands directly before it: single letters are measures only
/// there.
[[nodiscard]] std::optional<FoundMeasure> measure_at(std::span<const Token> tokens, std::size_t at,
                                                     bool after_number);

[[nodiscard]] const Measure& percent_measure();

/// The imperial measure of the same name: an imperial pint for a pint; nullptr where a line that
/// says "imperial" leaves the size open, as of a spoon.
[[nodiscard]] const Measure* imperial_measure(const Measure& measure);

/// Whether a word for pieces is one for a part of a whole piece: a slice, a leaf, peel, a core.
[[nodiscard]] bool part_of_piece(const Measure& measure);

} // namespace jarful::appraise
