#pragma once

#include "engine/units/dimension.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

/// The units of the language: a table of exact definitions, and compound units built from it.
namespace jarful::units {

/// Which spoons and cups a bare `tsp`, `tbsp`, `cup`, `floz`, `pint`, `quart` or `gallon` means.
enum class Spoons : std::uint8_t { unstated, us, metric, imperial };

/// One row of the table. Base units: g, cm (so mL is cm³), s, K, piece.
struct Unit {
    std::string_view symbol; ///< canonical spelling, as `tidy` writes it
    Dimension dimension;
    double factor;     ///< how many base units one of these is (exactly rounded)
    double offset;     ///< added after the factor for a temperature point (K); 0 elsewhere
    bool percent;      ///< `%`, which the language tells from a plain number
    Spoons system;     ///< the system a prefixed measure belongs to; unstated if bare or none
    bool bare_measure; ///< depends on the kitchen's `spoons` line (tsp, tbsp, cup, …)
    std::string_view definition; ///< in words, with the figures it is exact by
    std::string_view source;     ///< the document the definition rests on
};

/// Index into the unit table.
using UnitId = std::uint8_t;

[[nodiscard]] std::span<const Unit> unit_table();
/// The unit with this index; the first of the table if there is none such.
[[nodiscard]] const Unit& unit(UnitId id);

/// Every accepted spelling of a unit with the unit it stands for ("litre", "l", "L" …).
/// Spellings are case-sensitive where two units differ by case, otherwise listed in the cases that
/// people use. Prefixed measures ("us cup", "metric tbsp", "imperial pint") are listed with one
/// blank.
struct Spelling {
    std::string_view text;
    UnitId id;
};
[[nodiscard]] std::span<const Spelling> unit_spellings();

/// The unit spelled so, prefixes with one blank; empty if there is none.
[[nodiscard]] std::optional<UnitId> find_unit(std::string_view spelling);

/// Whether a word is a unit's spelling, or the first word of one ("us", "metric", "imperial").
[[nodiscard]] bool is_unit_word(std::string_view word);

/// The spelling nearest to a misspelt one (for "did you mean": `gramms` gives `grams`, `T` gives
/// `tbsp`); empty if none is close.
[[nodiscard]] std::optional<std::string_view> nearest_unit(std::string_view misspelt);

/// A unit as written in one piece: `kg`, `kg/L`, `g/lb`, `cm^2`, `us tbsp`. The product of powers
/// of table units; at most four factors.
struct CompoundUnit {
    struct Factor {
        UnitId id;
        std::int8_t exponent;
        friend bool operator==(const Factor&, const Factor&) = default;
    };
    static constexpr std::size_t capacity = 4;
    Factor factors[capacity] = {};
    std::uint8_t size = 0;

    friend bool operator==(const CompoundUnit&, const CompoundUnit&) = default;

    /// A unit by itself, to the first power.
    [[nodiscard]] static CompoundUnit of(UnitId id);
    /// Empty if the exponents leave their bounds.
    [[nodiscard]] std::optional<Dimension> dimension() const;
    /// Factor to base units, with a bare measure read in `spoons` (unstated reads as US).
    [[nodiscard]] double factor(Spoons spoons = Spoons::unstated) const;
    /// A value in this unit in base units, and back. Divides where the factor has no exact double
    /// (2.2 % is 2.2 / 100), so it is never worse than multiplying by factor(). No offset: a
    /// temperature is read as a difference.
    [[nodiscard]] double to_base(double value, Spoons spoons = Spoons::unstated) const;
    [[nodiscard]] double from_base(double base, Spoons spoons = Spoons::unstated) const;
    /// The first factor that is a bare measure, if any.
    [[nodiscard]] std::optional<UnitId> bare_measure() const;
    /// The one unit it is, if it is just one to the first power.
    [[nodiscard]] std::optional<UnitId> single() const;
    /// Whether it is `%` alone.
    [[nodiscard]] bool percent() const;
    /// As `tidy` writes it; read_unit reads it back to the same factors as long as the first
    /// exponent is positive. A unit without a positive exponent is written `1/…`, which only people
    /// can read. Empty if there is no factor.
    [[nodiscard]] std::string text() const;
};

/// Reads a compound unit written without blanks (a measure's prefix excepted): unit { ("/" | "*")
/// unit }, each with an optional `^` whole number from 1 to max_exponent. Empty if any part is not
/// a unit, if there are more than four, or if an exponent leaves its bounds.
[[nodiscard]] std::optional<CompoundUnit> read_unit(std::string_view text);

/// The longest compound unit at the start of `text`, and how many bytes it takes (`g` of
/// `g/cabbage`, `%` of `% of`); empty if there is none. Never ends inside a word.
struct UnitText {
    CompoundUnit unit;
    std::size_t length = 0;
};
[[nodiscard]] std::optional<UnitText> read_unit_prefix(std::string_view text);

/// A temperature point: °C or °F to kelvin and back (t/°C = (t/°F - 32)/1.8, NIST SP 811, 2008,
/// Appendix B.8); from_kelvin to nine decimals, so that 292.15 K is 19 °C. Any other unit goes
/// through its factor alone.
[[nodiscard]] double to_kelvin(UnitId id, double value);
[[nodiscard]] double from_kelvin(UnitId id, double kelvin);

/// The unit that a bare measure stands for in a system (`tbsp` in `metric` is `metric tbsp`); the
/// unit itself if it is not a bare measure or the system has none of it.
[[nodiscard]] UnitId resolve_measure(UnitId id, Spoons spoons);

} // namespace jarful::units
