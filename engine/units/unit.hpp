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
    double factor;           ///< how many base units one of these is (exactly rounded)
    double offset;           ///< added after the factor for a temperature point (K); 0 elsewhere
    bool percent;            ///< `%`, which the language tells from a plain number
    Spoons system;           ///< the system a prefixed measure belongs to; unstated if bare or none
    bool bare_measure;       ///< depends on the kitchen's `spoons` line (tsp, tbsp, cup, …)
    std::string_view definition; ///< in words, with the figures it is exact by
    std::string_view source;     ///< the document the definition rests on
};

/// Index into the unit table.
using UnitId = std::uint8_t;

[[nodiscard]] std::span<const Unit> unit_table();
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

/// The unit nearest to a misspelt one (for "did you mean"); empty if none is close.
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

    [[nodiscard]] static CompoundUnit of(UnitId id);
    /// Empty if the exponents leave their bounds.
    [[nodiscard]] std::optional<Dimension> dimension() const;
    /// Factor to base units, with a bare measure read in `spoons` (unstated reads as US).
    [[nodiscard]] double factor(Spoons spoons = Spoons::unstated) const;
    /// The one unit it is, if it is just one to the first power.
    [[nodiscard]] std::optional<UnitId> single() const;
    [[nodiscard]] bool percent() const;
    /// As `tidy` writes it.
    [[nodiscard]] std::string text() const;
};

/// Reads a compound unit written without blanks (a measure's prefix excepted): unit { ("/" | "*")
/// unit }, each with an optional `^` whole number. Empty if any part is not a unit.
[[nodiscard]] std::optional<CompoundUnit> read_unit(std::string_view text);

/// The unit that a bare measure stands for in a system (`tbsp` in `metric` is `metric tbsp`); the
/// unit itself if it is not a bare measure or the system has none of it.
[[nodiscard]] UnitId resolve_measure(UnitId id, Spoons spoons);

} // namespace jarful::units
