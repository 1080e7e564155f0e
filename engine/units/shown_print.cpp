#include "engine/units/display.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::units {

namespace {

/// What is nearer to a step than the noise of arithmetic is on it.
constexpr double noise = 1e-7;

/// Outward to a whole number of steps.
double outward(double value, double step, bool up) {
    const double steps = value / step;
    return (up ? std::ceil(steps - noise) : std::floor(steps + noise)) * step;
}

} // namespace

std::string print_mass(double grams, Shown shown) {
    if (shown.style() == Style::metric) return print_mass(grams);
    if (!(shown.finest_g > 0) || !std::isfinite(grams)) return print_mass(grams, Style::us);
    const double steps = std::round(grams / shown.finest_g);
    // Less than half a step would be nothing on that scale, and is some all the same.
    if (steps == 0 && grams != 0) return print_number(grams / ounce_g, 2) + " oz";
    const double ounces = steps * (shown.finest_g / ounce_g);
    return std::abs(ounces) < 16 - noise ? print_number(ounces, 6) + " oz"
                                         : print_mass(ounces * ounce_g, Style::us);
}

std::string print_volume(double ml, Shown shown) {
    return print_volume(ml, shown.style());
}

std::string print_temperature(double kelvin, Shown shown) {
    return print_temperature(kelvin, shown.style());
}

std::string print_value(double base_value, Dimension dimension, Shown shown) {
    if (dimension == dim::mass) return print_mass(base_value, shown);
    return print_value(base_value, dimension, shown.style());
}

std::string print_between(const std::string& low, const std::string& high) {
    if (low == high) return low;
    const std::size_t unit = high.find(' ');
    const bool shared = unit != std::string::npos && low.ends_with(high.substr(unit)) &&
                        std::count(low.begin(), low.end(), ' ') == 1 &&
                        std::count(high.begin(), high.end(), ' ') == 1;
    if (!shared) return low + " to " + high;
    return low.substr(0, low.find(' ')) + " to " + high;
}

std::string print_reading_bounds(Interval truth, double step_g, Shown shown) {
    if (!std::isfinite(truth.low) || !std::isfinite(truth.high)) return "not known";
    truth.low = std::max(truth.low, 0.0);
    truth.high = std::max(truth.high, 0.0);
    const bool ounces = reads_ounces(step_g);
    if (ounces && shown.style() == Style::us)
        return print_between(print_reading(outward(truth.low, step_g, false), step_g),
                             print_reading(outward(truth.high, step_g, true), step_g));
    // A step of ounces is coarse: grams to a tenth are more than it tells.
    const int decimals = ounces ? 1 : reading_decimals(step_g) + 1;
    const double places = std::pow(10.0, decimals);
    const auto figure = [&](double grams, bool up) {
        return print_fixed(outward(grams * places, 1, up) / places, decimals);
    };
    return figure(truth.low, false) + " to " + figure(truth.high, true) + " g";
}

} // namespace jarful::units
