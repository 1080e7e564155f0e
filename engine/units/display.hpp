#pragma once

#include "engine/units/amount.hpp"

#include <cstdint>
#include <string>

/// What the display of a scale shows, and in which units a cook reads everything else.
namespace jarful::units {

/// The unit table's figures: 1 oz and 1 lb in g, 1 fl oz (US) in mL.
inline constexpr double pound_g = 453.59237;
inline constexpr double ounce_g = pound_g / 16;
inline constexpr double fluid_ounce_ml = 29.5735295625;

/// Whether a step is one of ounces and none of grams: print_reading() then gives pounds and ounces,
/// `5 lb 0.5 oz`.
[[nodiscard]] bool reads_ounces(double step_g);
/// The decimals of a gram that a scale of this step shows; 2 where its steps are none of grams.
[[nodiscard]] int reading_decimals(double step_g);

/// In which units a cook reads: what the kitchen's `units` line says, or `--units` where that is
/// said. One value for all that is printed for people; JSON is in base units whatever it says.
struct Shown {
    enum class System : std::uint8_t {
        metric,
        us,
        both ///< metric, with US units in parentheses
    };
    System system = System::metric;
    /// The finest step of the kitchen's scales that read ounces; 0 if none does. Nothing is printed
    /// in ounces finer than that unless it would be nothing then.
    double finest_g = 0;

    static const Shown metric, us, both;

    /// The style of the figure that comes first.
    [[nodiscard]] Style style() const { return system == System::us ? Style::us : Style::metric; }
    /// The same units in one system or another.
    [[nodiscard]] Shown in(System other) const { return {other, finest_g}; }
    /// Whether the system is the same: scales make no other units.
    friend bool operator==(const Shown& a, const Shown& b) { return a.system == b.system; }
};
inline constexpr Shown Shown::metric{System::metric, 0};
inline constexpr Shown Shown::us{System::us, 0};
inline constexpr Shown Shown::both{System::both, 0};

/// A mass in the units that come first, in US ones no finer than the kitchen's scales.
[[nodiscard]] std::string print_mass(double grams, Shown shown);
/// The others of print_mass's sort in the units that come first.
[[nodiscard]] std::string print_volume(double ml, Shown shown);
[[nodiscard]] std::string print_temperature(double kelvin, Shown shown);
[[nodiscard]] std::string print_value(double base_value, Dimension dimension, Shown shown);
/// Two of one sort as a range: `21 to 24 °C` from `21 °C` and `24 °C`, `4 lb to 4 lb 2 oz`; one
/// where both are the same.
[[nodiscard]] std::string print_between(const std::string& low, const std::string& high);
/// What may really be on a scale of this step when it shows so much, outward: `1838.5 to 1841.5 g`,
/// with one decimal more than the step has. In US units and on a scale that reads ounces outward to
/// whole steps: `4 lb 0.8 oz to 4 lb 1.1 oz`. Less than nothing is nothing.
[[nodiscard]] std::string print_reading_bounds(Interval truth, double step_g, Shown shown);

} // namespace jarful::units
