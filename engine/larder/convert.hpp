#pragma once

#include "engine/larder/larder.hpp"
#include "engine/units/amount.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// One amount in other units: spoons of a named material in grams, pounds in kilograms, a rate in
/// percent, degrees. Always with the spread that the spoon and the material have, and the source.
namespace jarful::larder {

/// Which spoons and cups are meant. `label` is the rule for nutrition labels in the United States:
/// tsp 5 mL, tbsp 15 mL, fl oz 30 mL, cup 240 mL (21 CFR 101.9(b)(5)(viii)).
enum class Measures : std::uint8_t { unstated, us, metric, imperial, label };
/// By its word, "us", "metric", "imperial" or "label"; empty for any other.
[[nodiscard]] std::optional<Measures> find_measures(std::string_view word);
/// The word; empty for unstated.
[[nodiscard]] std::string_view describe(Measures measures);
/// As a kitchen's `spoons` line says it.
[[nodiscard]] Measures measures_of(units::Spoons spoons);

/// A figure with what it may be at least and at most. `low <= typical <= high`.
struct Spread {
    double low = 0;
    double typical = 0;
    double high = 0;
    [[nodiscard]] bool exact() const { return low == high; }
};

/// What a conversion came to.
struct Conversion {
    std::string from; ///< as understood: "2 tbsp of coarse flake kosher salt, per 5 lb"
    std::string to;   ///< the unit: "g", "%", "°C"
    Spread result;    ///< in that unit
    const Material* material = nullptr; ///< the one whose figure was used, or that was named
    std::optional<Figure> figure;       ///< what was reckoned with: g/mL, or g for each piece
    bool by_piece = false;              ///< the figure is the weight of one piece
    std::string reckoning;              ///< the figure in words; empty if none was needed
    Measures measures = Measures::unstated;
    bool measures_matter = false;     ///< a bare spoon, cup or the like was converted
    std::vector<std::string> sources; ///< documents, the material's first; never empty
    std::vector<std::string> notes;   ///< sentences: what was assumed, what to beware of
};

/// Why nothing was converted.
struct ConversionFault {
    std::string code;    ///< "no-material", "unknown-material", "no-density", "dimension", …
    std::string message; ///< what is wrong, a sentence
    std::string advice;  ///< what to write instead, sentences; may be empty
    std::vector<std::string> nearest; ///< materials that may be meant, nearest first
};

/// Either of the two.
struct ConversionOutcome {
    std::optional<Conversion> conversion;
    std::optional<ConversionFault> fault; ///< exactly if there is no conversion
};

/// What to convert.
struct ConversionRequest {
    /// AMOUNT [of] [MATERIAL] [per AMOUNT [of] [MATERIAL]] [to UNIT], as in "2 tbsp canning salt to
    /// g". Numbers and units as in the language; besides, `F` and `C` behind a number are degrees,
    /// `fl oz` is a fluid ounce, and a minus may stand before a temperature.
    std::string text;
    std::string per; ///< the same as after `per`, kept apart; empty if there is none
    Measures measures = Measures::unstated;
};

/// Converts. Unstated measures are read as US ones and the interval reaches to the metric ones.
/// Never throws; text of any length and any bytes ends in a conversion or a fault.
[[nodiscard]] ConversionOutcome convert(const ConversionRequest& request, const Larder& larder);

/// Longest text that is looked at; a longer one is a fault.
inline constexpr std::size_t longest_conversion = 1000;

/// A salt beside the others. Grams, unless said otherwise.
struct SaltGrain {
    const Material* material = nullptr;
    std::optional<Spread> teaspoon;
    std::optional<Spread> tablespoon;
    std::optional<Spread> replaces; ///< tbsp of it with as much salt as 1 tbsp of fine table salt
};

/// Every salt of the larder: those whose name says the grain by weight of a spoon, heaviest first,
/// then the vague names, then those without a figure.
[[nodiscard]] std::vector<SaltGrain> compare_salts(Measures measures);

/// What has to be said about a salt; empty for SaltWarning::none.
[[nodiscard]] std::string_view warning_words(SaltWarning warning);

} // namespace jarful::larder
