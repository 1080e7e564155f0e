#pragma once

#include "engine/units/interval.hpp"

#include <cstdint>
#include <string_view>

/// What a measure is: a row of engine/appraise/data/measures.json. For this room only.
namespace jarful::appraise {

struct Measure {
    enum class Sort : std::uint8_t {
        mass,    ///< factor in g
        volume,  ///< factor in mL
        count,   ///< a word for pieces: head, clove, leaf
        loose,   ///< a volume without a rule: pinch, handful; factor in mL, wide
        package, ///< a tin, a jar, a bag: of no known size
        length,  ///< an inch of ginger; factor in cm
        percent
    };
    std::string_view unit; ///< as in the JSON: "tbsp", "g", "head"
    Sort sort = Sort::count;
    /// How many g or mL; for a bare spoon or cup from the US to the metric one.
    units::Interval factor;
    bool metric_spoon = false;         ///< EL, TL, c. à s.: 15 and 5 mL
    bool customary = false;            ///< whose it is decides how much it holds: a pint, a cup
    bool part = false;                 ///< of a whole piece: a slice, a leaf, peel, a core
    const Measure* imperial = nullptr; ///< the imperial one of the same name
    std::string_view bound;            ///< the row of the table of bounds for one of it
};

} // namespace jarful::appraise
