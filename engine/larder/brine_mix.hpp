#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/larder/larder.hpp"
#include "engine/units/amount.hpp"
#include "engine/units/interval.hpp"

#include <optional>
#include <string>
#include <string_view>

/// Salt water: strengths by every gauge, and how much of what to mix. Masses in g of pure salt and
/// water, volumes in mL. See docs/brine.md.
namespace jarful::larder {

/// How a strength is measured.
enum class Gauge : std::uint8_t {
    percent_of_brine, ///< g of salt in 100 g of the finished brine
    percent_of_water, ///< g of salt to 100 g of water
    g_per_l_of_brine, ///< g of salt in a litre of the finished brine, at the temperature said
    g_per_l_of_water, ///< g of salt to a litre of water, at the temperature said
    salometer,        ///< degrees: 100 is saturated at 60 °F, 26.395 % of the brine
    baume,            ///< degrees for what is heavier than water: 145 - 145 / SG, at 60 °F
    specific_gravity  ///< against water of the same temperature, the one said
};

inline constexpr double default_celsius = 20;
/// 60 °F, at which salometer and Baumé degrees are defined.
inline constexpr double gauge_celsius = (60.0 - 32.0) / 1.8;

/// Density of a brine in g/mL up to saturation. Beyond the table's 26 % a straight line goes on for
/// the last 0.395 points, and the error stated is twice the table's.
/// @param fraction salt / (salt + water), 0 to 0.26395. @param celsius 0 to 30. Empty outside.
[[nodiscard]] std::optional<Figure> density_to_saturation(double fraction, double celsius);

/// One strength by every gauge.
struct Strength {
    double fraction = 0; ///< salt / (salt + water)
    double celsius = default_celsius;
    double percent_of_brine = 0, percent_of_water = 0;
    double g_per_l_of_brine = 0, g_per_l_of_water = 0;
    double salometer = 0, baume = 0, specific_gravity = 1;
    Figure density; ///< g/mL, with its error
};

/// Empty beyond saturation, below nothing, and outside 0 to 30 °C.
[[nodiscard]] std::optional<Strength> strength_of(double fraction, double celsius);

/// The fraction that a gauge's figure stands for. What is weighed may come out beyond saturation:
/// then it is only a ratio (up to, not including, 1). Empty for what no brine shows: 100 % and
/// more, less than nothing, a density above that of saturated brine, a temperature outside 0 to 30.
[[nodiscard]] std::optional<double> fraction_by(Gauge gauge, double figure, double celsius);

/// A strength as it was asked for.
struct AskedStrength {
    double figure = 0;
    Gauge gauge = Gauge::percent_of_brine;
    bool said = false; ///< whether "of water" or "of brine" stood there, where it matters
    language::Place place;
    [[nodiscard]] bool basis_matters() const { return gauge <= Gauge::g_per_l_of_water; }
};

/// A question about brine.
struct BrineQuestion {
    std::optional<units::Amount> amount; ///< a mass or a volume
    bool amount_of_water = false;        ///< otherwise of the finished brine
    std::optional<double> salt_g;        ///< the salt that is to hand
    std::optional<AskedStrength> at;     ///< alone, with an amount or a salt, or the aim of `from`
    std::optional<AskedStrength> from;   ///< of the brine that is there
    double celsius = default_celsius;
    bool of_water = false; ///< how a bare % or g/L is taken
    bool assumed = false;  ///< nobody said so
};

/// Reads `1.5 L at 3.5 %`, `2 L of water at 5 %`, `1 L from 5 % to 2 %`, `at 3.5 %`, `in 1 L of
/// water`, `40 salometer`, `1.036 sg` …
/// @param salt_g with it, an amount or a strength is enough. @param of_water what --of says.
[[nodiscard]] std::optional<BrineQuestion>
read_brine_question(std::string_view text, std::optional<double> salt_g,
                    std::optional<bool> of_water, double celsius, language::Findings& findings);

/// The weight of the salt to hand, and the temperature in °C; faults with places in `text`.
[[nodiscard]] std::optional<double> read_brine_salt(std::string_view text,
                                                    language::Findings& findings);
[[nodiscard]] std::optional<double> read_brine_celsius(std::string_view text,
                                                       language::Findings& findings);

/// What to mix.
struct BrineMix {
    double salt_g = 0;  ///< to put in
    double water_g = 0; ///< to put in
    double water_ml = 0;
    double had_g = 0; ///< brine that was there before, when one is diluted or strengthened
    double had_ml = 0;
    double brine_g = 0; ///< what comes of it
    units::Interval brine_ml;
    double undissolved_g = 0; ///< of the salt, what stays at the bottom
};

struct BrineAnswer {
    enum class Sort : std::uint8_t {
        gauges,     ///< a strength by every gauge
        mix,        ///< salt and water for an amount, or for the salt to hand
        found,      ///< salt and water are known, and their strength was asked for
        dilute,     ///< water to add to a brine
        strengthen, ///< salt to add to a brine
        too_strong  ///< more salt than dissolves
    } sort = Sort::gauges;
    double fraction = 0;              ///< asked for, or come out
    std::optional<Strength> strength; ///< empty if too strong
    std::optional<Strength> from;
    std::optional<BrineMix> mix;
    /// Diluting: how to come to the amount in the end, rather than beginning with it.
    std::optional<BrineMix> in_the_end;
    /// Whether the brine's amount was not said, and 1 kg is taken.
    bool amount_taken = false;
};

/// Always an answer to a question that was read without faults.
[[nodiscard]] BrineAnswer answer_brine(const BrineQuestion& question);

/// The same question with a bare % or g/L taken the other way; empty where nothing was assumed, or
/// it cannot be.
[[nodiscard]] std::optional<BrineQuestion> taken_otherwise(const BrineQuestion& question);

} // namespace jarful::larder
