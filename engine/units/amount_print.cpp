#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"
#include "engine/units/shortest.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace jarful::units {

namespace {

/// A finite value in the fewest decimal digits that read back as the same double. Rounding is done
/// on these, so that 2.675 is 2.68 for a cook, whatever its bits are.
class Decimal {
  public:
    explicit Decimal(double value)
        : negative_(std::signbit(value)) {
        // "d.ddde±dd", "ddd.ddd" or "0.000ddd"; fmt does not look at the locale unless asked.
        ShortestText room;
        std::string_view text = shortest(std::abs(value), room);
        if (const std::size_t e = text.find('e'); e != text.npos) {
            point_ = exponent(text.substr(e + 1));
            text = text.substr(0, e);
        }
        bool after_point = false;
        for (const char c : text) {
            if (c == '.') {
                after_point = true;
                continue;
            }
            if (size_ > 0 || c != '0') digits_[size_++] = c;
            if (size_ > 0 && !after_point) ++point_;
            if (size_ == 0 && after_point) --point_; // a zero between the point and the first digit
        }
        if (size_ == 0) point_ = 0;
    }

    [[nodiscard]] bool zero() const {
        return std::all_of(digits_.begin(), digits_.begin() + size_,
                           [](char c) { return c == '0'; });
    }

    /// Times a power of ten, exactly.
    void shift(int places) { point_ += zero() ? 0 : places; }

    /// Keeps `decimals` places after the point, halves away from zero.
    void round_to(int decimals) { keep(static_cast<std::int64_t>(point_) + decimals); }
    void round_to_significant(int digits) { keep(digits); }

    /// All digits, without an exponent; trailing zeros of the decimals are cut unless `decimals`
    /// says how many there are to be.
    [[nodiscard]] std::string text(int decimals = -1) const {
        const int size = static_cast<int>(size_);
        const auto digit = [&](int i) {
            return i >= 0 && i < size ? digits_[static_cast<std::size_t>(i)] : '0';
        };
        int last = point_ + decimals; // behind the last digit that is written
        if (decimals < 0) {
            last = size;
            while (last > point_ && digit(last - 1) == '0')
                --last;
        }
        std::string result = negative_ && !zero() ? "-" : "";
        if (point_ <= 0) result += '0';
        for (int i = 0; i < point_; ++i)
            result += digit(i);
        if (last > point_) result += '.';
        for (int i = point_; i < last; ++i)
            result += digit(i);
        return result;
    }

  private:
    bool negative_;
    ShortestText digits_; ///< the first of them is not 0, unless it was rounded to that
    std::size_t size_ = 0;
    int point_ = 0; ///< how many digits stand before the point; may be negative

    static int exponent(std::string_view text) {
        int value = 0;
        for (const char c : text)
            if (c >= '0' && c <= '9') value = 10 * value + (c - '0');
        return text.starts_with('-') ? -value : value;
    }

    void keep(std::int64_t count) {
        if (count >= static_cast<std::int64_t>(size_)) {
            return;
        }
        if (count < 0) {
            size_ = 0;
            point_ = 0;
            return;
        }
        const bool up = digits_[static_cast<std::size_t>(count)] >= '5';
        size_ = static_cast<std::size_t>(count);
        if (!up) {
            return;
        }
        for (std::size_t i = size_; i > 0; --i) {
            if (digits_[i - 1] != '9') {
                ++digits_[i - 1];
                return;
            }
            digits_[i - 1] = '0';
        }
        std::copy_backward(digits_.begin(), digits_.begin() + size_, digits_.begin() + size_ + 1);
        digits_[0] = '1';
        ++size_;
        ++point_;
    }
};

std::string not_finite(double value) {
    return std::isnan(value) ? "not a number" : value > 0 ? "unbounded" : "-unbounded";
}

/// At most `decimals` places, without trailing zeros; two significant digits where that would be 0.
std::string print_short(double value, int decimals) {
    if (!std::isfinite(value)) {
        return not_finite(value);
    }
    Decimal d(value);
    d.round_to(decimals);
    return d.zero() && value != 0 ? print_number(value, 2) : d.text();
}

/// A size with the unit that suits it, for values that may be negative.
template <typename Print>
std::string with_sign(double value, Print print) {
    return value < 0 ? "-" + print(-value) : print(value + 0.0);
}

std::string named(const std::string& number, std::string_view one, std::string_view many) {
    return number + " " + std::string(number == "1" ? one : many);
}

std::string us_mass(double grams) {
    const double ounces = grams / ounce_g;
    if (ounces < 15.95) {
        return print_number(ounces, 3) + " oz";
    }
    if (ounces > 1e12) {
        return print_number(grams / pound_g, 4) + " lb";
    }
    const double tenths = std::round(ounces * 10);
    const double pounds = std::floor(tenths / 160);
    const double rest = tenths - pounds * 160;
    std::string text = print_number(pounds, 17) + " lb";
    if (rest > 0) {
        text += " " + print_fixed(rest / 10, std::fmod(rest, 10) == 0 ? 0 : 1) + " oz";
    }
    return text;
}

std::string metric_mass(double grams) {
    if (grams >= 999.95) {
        return print_number(grams / 1000, 4) + " kg";
    }
    return print_number(grams, grams < 100 ? 3 : 4) + " g";
}

std::string us_volume(double ml) {
    struct Measure {
        double ml;
        std::string_view one;
        std::string_view many;
    };
    // The unit table's US figures, largest first. The spoons have no plural in writing.
    constexpr std::array measures{
        Measure{3785.411784, "gallon", "gallons"}, Measure{946.352946, "quart", "quarts"},
        Measure{473.176473, "pint", "pints"},      Measure{29.5735295625, "fl oz", "fl oz"},
        Measure{14.78676478125, "tbsp", "tbsp"},   Measure{4.92892159375, "tsp", "tsp"}};
    const Measure* chosen = &measures.back();
    for (const Measure& m : measures) {
        if (ml / m.ml >= 0.995) { // prints as 1
            chosen = &m;
            break;
        }
    }
    return named(print_short(ml / chosen->ml, 2), chosen->one, chosen->many);
}

std::string metric_volume(double ml) {
    return ml >= 999.5 ? print_number(ml / 1000, 3) + " L" : print_number(ml, 3) + " mL";
}

std::string print_length(double cm, Style style) {
    if (style == Style::us) {
        return print_number(cm / 2.54, 3) + " in";
    }
    if (cm >= 99.95) {
        return print_number(cm / 100, 3) + " m";
    }
    return cm > 0 && cm < 0.9995 ? print_number(cm * 10, 3) + " mm" : print_number(cm, 3) + " cm";
}

/// Base units of any dimension, such as `g/piece` or `cm^2`: first what is above the stroke.
std::string base_units(Dimension d) {
    struct Base {
        std::string_view symbol;
        int exponent;
    };
    const bool volumes = d.length % 3 == 0;
    const std::array bases{Base{"g", d.mass},
                           Base{volumes ? "mL" : "cm", volumes ? d.length / 3 : d.length},
                           Base{"min", d.time}, Base{"°C", d.temperature}, Base{"piece", d.count}};
    std::string over;
    std::string under;
    for (const Base& b : bases) {
        const std::string power =
            std::abs(b.exponent) > 1 ? "^" + std::to_string(std::abs(b.exponent)) : "";
        if (b.exponent > 0) {
            over += (over.empty() ? "" : "*") + std::string(b.symbol) + power;
        } else if (b.exponent < 0) {
            under += "/" + std::string(b.symbol) + power;
        }
    }
    return over.empty() ? "per " + under.substr(1) : over + under;
}

} // namespace

std::string print_number(double value, int digits) {
    if (!std::isfinite(value)) {
        return not_finite(value);
    }
    digits = std::clamp(digits, 1, 17);
    const double size = std::abs(value);
    if (size != 0 && (size < 1e-6 || size > max_number)) {
        return fmt::format("{:.{}g}", value, digits);
    }
    Decimal d(value);
    d.round_to_significant(digits);
    return d.text();
}

std::string print_fixed(double value, int decimals) {
    if (!std::isfinite(value)) {
        return not_finite(value);
    }
    decimals = std::clamp(decimals, 0, 20);
    Decimal d(value);
    d.round_to(decimals);
    return d.text(decimals);
}

std::string print_mass(double grams, Style style) {
    if (!std::isfinite(grams)) {
        return not_finite(grams);
    }
    return with_sign(grams, style == Style::us ? us_mass : metric_mass);
}

namespace {

constexpr int most_decimals = 6;

/// Decimals that write a number out; most_decimals if so many do not.
int decimals_of(double number) {
    int decimals = 0;
    for (double scaled = number; decimals < most_decimals; ++decimals, scaled *= 10) {
        if (std::abs(scaled - std::round(scaled)) <= 1e-9 * scaled) break;
    }
    return decimals;
}

} // namespace

bool reads_ounces(double step_g) {
    return step_g > 0 && std::isfinite(step_g) && decimals_of(step_g) == most_decimals &&
           decimals_of(step_g / ounce_g) <= 4;
}

int reading_decimals(double step_g) {
    const int decimals = step_g > 0 && std::isfinite(step_g) ? decimals_of(step_g) : 0;
    return decimals == most_decimals ? 2 : decimals;
}

std::string print_reading(double grams, double step_g) {
    if (!std::isfinite(grams) || !(step_g > 0) || !std::isfinite(step_g)) {
        return print_mass(grams);
    }
    const double steps = std::round(grams / step_g);
    if (!std::isfinite(steps) || (steps == 0 && grams != 0)) {
        return print_mass(grams);
    }
    if (!reads_ounces(step_g)) return print_fixed(steps * step_g, reading_decimals(step_g)) + " g";
    const double step = step_g / ounce_g;
    const double ounces = std::abs(steps) * step;
    // The noise of the arithmetic must not make 16 oz of a pound.
    const double pounds = std::floor(ounces / 16 + 1e-9);
    const std::string rest = print_fixed(std::max(0.0, ounces - 16 * pounds), decimals_of(step));
    return (steps < 0 ? "-" : "") + (pounds > 0 ? print_fixed(pounds, 0) + " lb " : "") + rest +
           " oz";
}

std::string print_volume(double ml, Style style) {
    if (!std::isfinite(ml)) {
        return not_finite(ml);
    }
    return with_sign(ml, style == Style::us ? us_volume : metric_volume);
}

std::string print_percent(double ratio, int decimals) {
    if (!std::isfinite(ratio)) {
        return not_finite(ratio);
    }
    Decimal exact(ratio);
    exact.shift(2); // multiplying by 100 would round once more
    Decimal d = exact;
    d.round_to(std::clamp(decimals, 0, 20));
    if (d.zero() && ratio != 0) {
        d = exact;
        d.round_to_significant(2);
    }
    return d.text();
}

std::string print_time(double seconds) {
    if (!std::isfinite(seconds)) {
        return not_finite(seconds);
    }
    struct Step {
        double seconds;
        double up_to; // beyond this count even a whole one is easier in a larger unit
        std::string_view one;
        std::string_view many;
    };
    constexpr std::array steps{Step{604800, 1e9, "week", "weeks"}, Step{86400, 1000, "day", "days"},
                               Step{3600, 100, "h", "h"}, Step{60, 180, "min", "min"}};
    return with_sign(seconds, [&](double s) {
        const Step* chosen = &steps.back();
        for (auto u = steps.rbegin(); u != steps.rend(); ++u) {
            if (s >= u->seconds) {
                chosen = &*u;
            }
        }
        for (const Step& u : steps) {
            const double count = s / u.seconds;
            const double whole = std::round(count);
            if (whole >= 1 && whole <= u.up_to && std::abs(count - whole) <= 1e-9 * whole) {
                return named(print_number(whole, 15), u.one, u.many);
            }
        }
        return named(print_number(s / chosen->seconds, 3), chosen->one, chosen->many);
    });
}

std::string print_temperature(double kelvin, Style style) {
    if (!std::isfinite(kelvin)) {
        return not_finite(kelvin);
    }
    if (style == Style::us) {
        return print_fixed(from_kelvin(*find_unit("°F"), kelvin), 0) + " °F";
    }
    Decimal d(from_kelvin(*find_unit("°C"), kelvin));
    d.round_to(1);
    return d.text() + " °C";
}

std::string print_value(double base_value, Dimension dimension, Style style) {
    if (!std::isfinite(base_value)) {
        return not_finite(base_value);
    }
    if (dimension == dim::plain) {
        return print_number(base_value);
    }
    if (dimension == dim::mass) {
        return print_mass(base_value, style);
    }
    if (dimension == dim::volume) {
        return print_volume(base_value, style);
    }
    if (dimension == dim::length) {
        return with_sign(base_value, [&](double cm) { return print_length(cm, style); });
    }
    if (dimension == dim::time) {
        return print_time(base_value);
    }
    if (dimension == dim::temperature) {
        return print_temperature(base_value, style);
    }
    if (dimension == dim::count) {
        return named(print_number(base_value), "piece", "pieces");
    }
    if (dimension == dim::density) { // g/mL is kg/L
        return style == Style::us ? print_number(base_value * 236.5882365 / ounce_g, 3) + " oz/cup"
                                  : print_number(base_value, 3) + " kg/L";
    }
    const double minutes = std::pow(60.0, dimension.time);
    return print_number(base_value / minutes, 4) + " " + base_units(dimension);
}

} // namespace jarful::units
