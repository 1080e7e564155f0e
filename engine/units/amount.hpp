#pragma once

#include "engine/units/interval.hpp"
#include "engine/units/unit.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

/// Amounts as people write them, and numbers as people read them.
namespace jarful::units {

/// Why a number or an amount could not be read. `begin` and `end` are byte offsets in the text that
/// was given; the words are a finished sentence for the cook.
struct ReadFault {
    enum class Kind : std::uint8_t {
        not_a_number,     ///< no digit where a number should begin
        decimal_comma,    ///< `1,5 kg`
        hyphen_range,     ///< `2-3 tbsp`, `2 to 3 tbsp`
        hyphen_mixed,     ///< `1-1/2 cup`
        bare_point,       ///< `.5` or `5.`
        zero_denominator, ///< `1/0`
        too_large,        ///< outside ±1e15, or so small that it would be read as 0
        unknown_unit,     ///< a word where only a unit can stand
        missing_unit,     ///< a unit is needed here
        unit_mismatch,    ///< `2 lb 3 cm`, `2 kg..3 L`, `1 kg ± 5 mL`
        unit_order,       ///< `3 oz 2 lb`: parts must become smaller
        reversed_range,   ///< `3..2`
        left_over         ///< something stands after the amount
    };
    Kind kind;
    std::size_t begin = 0;
    std::size_t end = 0;
    std::string message; ///< what is wrong, a sentence
    std::string advice;  ///< what to write instead, a sentence; may be empty
};

/// Largest magnitude of a number in a recipe.
inline constexpr double max_number = 1e15;

/// 0 °C in kelvin, by the definition of the degree Celsius.
inline constexpr double zero_celsius = 273.15;

/// A literal amount: value, unit, and how sure it is. All numbers are in base units (see Unit);
/// a bare measure is taken as US and marked, so that the kitchen can say otherwise.
struct Amount {
    double value = 0; ///< the middle of a range
    double low = 0;   ///< equals value where nothing is said
    double high = 0;
    Dimension dimension;
    CompoundUnit unit;         ///< as written; of the last part for `2 lb 3 oz`; size 0 if none
    bool percent = false;      ///< written with %
    bool plain_number = false; ///< written without any unit
    bool fraction = false;     ///< written as `1/2`, `1 1/2` or `½`
    bool range = false;        ///< written with `..`
    bool uncertain = false;    ///< written with `±`
    bool temperature_point = false; ///< a single °C or °F: value in kelvin with the offset applied
    double difference = 0;          ///< the same temperature read as a difference (K); 0 elsewhere
    /// The bare measure it is written in, if any (the last of several): its factor is what the
    /// kitchen's spoons decide. See in_spoons.
    std::optional<UnitId> bare_measure;

    /// The three figures in one system of spoons.
    struct Measured {
        double value = 0;
        double low = 0;
        double high = 0;
        friend bool operator==(const Measured&, const Measured&) = default;
    };
    /// The same amount with its bare measures read as metric and as imperial ones; equal to value,
    /// low and high where there is no bare measure. `1 cup 2 tbsp` has two of them, so that no
    /// single ratio would do.
    Measured metric;
    Measured imperial;

    [[nodiscard]] Interval interval() const { return {low, high}; }
    /// The amount as a kitchen with these spoons means it (unstated is US, as read).
    [[nodiscard]] Amount in_spoons(Spoons spoons) const;

    /// The same amount, written in the same way.
    friend bool operator==(const Amount&, const Amount&) = default;
};

/// How far a number reaches: used by the grammar, which reads amounts inside longer text.
struct NumberText {
    double value = 0;
    std::size_t length = 0; ///< bytes read
    bool whole = false;     ///< digits only
    bool fraction = false;
};

/// Reads the number at the start of `text`: digits with an optional point and digits, a fraction of
/// two whole numbers without blanks (`1/2`), a mixed number (`1 1/2`, `1½`, `1 ½`) or a vulgar
/// fraction. Never looks at the locale. Does not read a sign, an exponent, `inf` or `nan`.
/// The second part of a mixed number is a proper fraction. Refuses what cooks write and what could
/// be read two ways: `1,5`, `.5`, `5.`, `1/0`, and digits joined by a hyphen or dash without blanks
/// (`2-3`, `1-1/2`); so a caller that reads dates must take them apart itself.
[[nodiscard]] std::optional<NumberText> read_number(std::string_view text,
                                                    ReadFault* fault = nullptr);

/// Reads a whole amount: number unit {number unit} [`..` …] [(`±` | `+/-`) number unit]; blanks
/// between number and unit are optional. A unit is not required. Fills `fault` and returns empty if
/// anything is wrong or left over. In `2..3 tbsp` the unit serves both ends. Of several parts all
/// but the last are whole numbers, and the units become smaller. After `±`, `%` means percent of
/// the value unless the value is itself written in %; a temperature there is a difference.
[[nodiscard]] std::optional<Amount> read_amount(std::string_view text, ReadFault* fault = nullptr);

/// Reads the longest amount at the start of `text` and says how many bytes it took; what follows is
/// left to the caller (the grammar, the command line's `4.2kg+3.9kg`). Blanks before the amount are
/// counted, blanks after it are not. Stops before a word that is not a unit; `length` is 0 on a
/// fault.
[[nodiscard]] std::optional<Amount> read_amount_prefix(std::string_view text, std::size_t& length,
                                                       ReadFault* fault = nullptr);

/// A number for people: up to `digits` significant digits without trailing zeros, never in
/// exponent form between 1e-6 and 1e15, never "-0", and never 0 for what is not 0. Halves go away
/// from zero, judged on the shortest decimal form of the value. `digits` is held to 1..17. What is
/// not finite prints as "unbounded", "-unbounded" or "not a number", here and in all below.
[[nodiscard]] std::string print_number(double value, int digits = 6);

/// A number with a fixed count of decimals (held to 0..20), half away from zero, never "-0".
[[nodiscard]] std::string print_fixed(double value, int decimals);

/// Which units to print masses, volumes and lengths in.
enum class Style : std::uint8_t { metric, us };

/// A mass in base units for people: `0.4 g`, `40.5 g`, `1 840 g` is not used: from 1 kg it is
/// `1.84 kg`. `us` gives `1 lb 4.2 oz`. Three significant digits at least, never 0 for what is not
/// 0.
[[nodiscard]] std::string print_mass(double grams, Style style = Style::metric);
/// A mass to a scale's step: 1840 with step 1 is `1840 g`, 40.2 with step 0.1 is `40.2 g`. What the
/// step would round to nothing, or a step that is not above 0, prints as print_mass does.
[[nodiscard]] std::string print_reading(double grams, double step_g);
/// A volume in mL for people: `0.5 mL`, `250 mL`, `1.5 L`; `us` gives tsp, tbsp, fl oz, pint,
/// quart, gallon.
[[nodiscard]] std::string print_volume(double ml, Style style = Style::metric);
/// A ratio as a percentage without the sign: 0.022 → `2.2`; two decimals at most, more when the
/// value would otherwise print as 0.
[[nodiscard]] std::string print_percent(double ratio, int decimals = 2);
/// A value of any dimension for people, in the unit that suits it. A temperature is taken as a
/// point in kelvin.
[[nodiscard]] std::string print_value(double base_value, Dimension dimension,
                                      Style style = Style::metric);
/// A time in seconds: `30 min`, `2 h`, `1 day`, `3 weeks`; the largest unit in which it is whole,
/// else three digits in the largest of which there is at least one.
[[nodiscard]] std::string print_time(double seconds);
/// A temperature point in kelvin: `19 °C` (one decimal at most) or `66 °F` (whole).
[[nodiscard]] std::string print_temperature(double kelvin, Style style = Style::metric);

} // namespace jarful::units
