#include "engine/larder/brine_mix.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::larder {

namespace {

constexpr double table_end = 0.26;    // of brine_density
constexpr double baume_modulus = 145; // for liquids heavier than water, at 60 °F
constexpr double one_kilogram = 1000;

bool table_has(double celsius) {
    return celsius >= 0 && celsius <= 30;
}

/// g/mL of water; the temperature is one of the table's.
double water_density(double celsius) {
    return brine_density(0, celsius)->typical;
}

double specific_gravity(double fraction, double celsius) {
    return density_to_saturation(fraction, celsius)->typical / water_density(celsius);
}

/// The fraction at which a rising function of it reaches a figure, by halving; empty beyond
/// saturation.
template <class Rising>
std::optional<double> reaching(double figure, Rising rising) {
    double low = 0;
    double high = saturation;
    // A little beyond the ends is the noise of printed figures.
    if (figure < rising(low) - 1e-9 || figure > rising(high) + 1e-9) return std::nullopt;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (rising(middle) < figure ? low : high) = middle;
    }
    return (low + high) / 2;
}

/// Volume of a brine with the error of its density.
units::Interval volume_of(double grams, const Figure& density) {
    return {grams / density.high, grams / density.low};
}

double grams_of(const units::Amount& amount, double density) {
    return amount.dimension == units::dim::volume ? amount.value * density : amount.value;
}

/// Salt and water put together.
BrineMix put_together(double salt, double water, double celsius) {
    BrineMix mix;
    mix.salt_g = salt;
    mix.water_g = water;
    mix.water_ml = water / water_density(celsius);
    const double most = water * saturation / (1 - saturation);
    mix.undissolved_g = std::max(0.0, salt - most);
    mix.brine_g = salt - mix.undissolved_g + water;
    const double fraction =
        std::min(saturation, (salt - mix.undissolved_g) / std::max(mix.brine_g, 1e-300));
    if (const auto density = density_to_saturation(fraction, celsius))
        mix.brine_ml = volume_of(mix.brine_g, *density);
    return mix;
}

/// Salt and water for an amount of brine or of water.
BrineMix for_amount(const BrineQuestion& q, double fraction) {
    const units::Amount& amount = *q.amount;
    if (q.amount_of_water) {
        const double water = grams_of(amount, water_density(q.celsius));
        return put_together(water * fraction / (1 - fraction), water, q.celsius);
    }
    // What cannot be is weighed as if it were saturated.
    const Figure density = *density_to_saturation(std::min(fraction, saturation), q.celsius);
    const double brine = grams_of(amount, density.typical);
    return put_together(brine * fraction, brine * (1 - fraction), q.celsius);
}

/// A brine that is there, made weaker with water or stronger with salt.
/// @param had its mass.
BrineMix changed(double had, double from, double to, double celsius) {
    BrineMix mix;
    mix.had_g = had;
    mix.had_ml = had / density_to_saturation(from, celsius)->typical;
    if (to < from)
        mix.water_g = had * (from / to - 1);
    else
        mix.salt_g = had * (to - from) / (1 - to);
    mix.water_ml = mix.water_g / water_density(celsius);
    mix.brine_g = had + mix.water_g + mix.salt_g;
    if (const auto density = density_to_saturation(std::min(to, saturation), celsius))
        mix.brine_ml = volume_of(mix.brine_g, *density);
    return mix;
}

double fraction_of(const AskedStrength& asked, const BrineQuestion& q) {
    Gauge gauge = asked.gauge;
    if (asked.basis_matters() && !asked.said) {
        const bool rate = gauge == Gauge::g_per_l_of_brine || gauge == Gauge::g_per_l_of_water;
        gauge = rate ? (q.of_water ? Gauge::g_per_l_of_water : Gauge::g_per_l_of_brine)
                     : (q.of_water ? Gauge::percent_of_water : Gauge::percent_of_brine);
    }
    return fraction_by(gauge, asked.figure, q.celsius).value_or(0);
}

void change(const BrineQuestion& q, BrineAnswer& a) {
    const double from = fraction_of(*q.from, q);
    a.from = strength_of(from, q.celsius);
    a.sort = a.fraction < from ? BrineAnswer::Sort::dilute : BrineAnswer::Sort::strengthen;
    if (!a.from) { // a brine beyond saturation cannot be there
        a.fraction = from;
        a.sort = BrineAnswer::Sort::too_strong;
        a.strength.reset();
        return;
    }
    a.amount_taken = !q.amount;
    const double had = q.amount ? grams_of(*q.amount, a.from->density.typical) : one_kilogram;
    a.mix = changed(had, from, a.fraction, q.celsius);
    if (!a.strength) {
        a.sort = BrineAnswer::Sort::too_strong;
        const double most = had * (saturation - from) / (1 - saturation);
        a.mix->undissolved_g = a.mix->salt_g - most;
        return;
    }
    const double end = q.amount ? grams_of(*q.amount, a.strength->density.typical) : one_kilogram;
    // so much brine at first that the end comes out as asked
    a.in_the_end = changed(had * end / a.mix->brine_g, from, a.fraction, q.celsius);
}

} // namespace

std::optional<Figure> density_to_saturation(double fraction, double celsius) {
    if (fraction <= table_end) return brine_density(fraction, celsius);
    if (!(fraction <= saturation + 1e-12)) return std::nullopt;
    const auto end = brine_density(table_end, celsius);
    const auto before = brine_density(table_end - 0.01, celsius);
    if (!end || !before) return std::nullopt;
    const double density =
        end->typical + (end->typical - before->typical) * (fraction - table_end) / 0.01;
    const double error = 2 * (end->high - end->typical);
    return Figure{density - error, density, density + error, end->status, end->source};
}

std::optional<Strength> strength_of(double fraction, double celsius) {
    if (!(fraction >= 0) || !table_has(celsius)) return std::nullopt;
    // 26.395 % typed in is saturation itself.
    if (fraction > saturation && fraction < saturation + 1e-9) fraction = saturation;
    const auto density = density_to_saturation(fraction, celsius);
    if (!density) return std::nullopt;
    Strength s;
    s.fraction = fraction;
    s.celsius = celsius;
    s.density = *density;
    s.percent_of_brine = 100 * fraction;
    s.percent_of_water = 100 * fraction / (1 - fraction);
    s.g_per_l_of_brine = 1000 * fraction * density->typical;
    s.g_per_l_of_water = 1000 * fraction / (1 - fraction) * water_density(celsius);
    s.salometer = 100 * fraction / saturation;
    s.specific_gravity = density->typical / water_density(celsius);
    s.baume = baume_modulus - baume_modulus / specific_gravity(fraction, gauge_celsius);
    return s;
}

std::optional<double> fraction_by(Gauge gauge, double figure, double celsius) {
    if (!(figure >= 0) || !std::isfinite(figure) || !table_has(celsius)) return std::nullopt;
    switch (gauge) {
    case Gauge::percent_of_brine:
        if (figure >= 100) return std::nullopt;
        return figure / 100;
    case Gauge::percent_of_water:
        return figure / (100 + figure);
    case Gauge::g_per_l_of_water: {
        const double ratio = figure / 1000 / water_density(celsius);
        return ratio / (1 + ratio);
    }
    case Gauge::g_per_l_of_brine:
        return reaching(figure, [&](double w) {
            return 1000 * w * density_to_saturation(w, celsius)->typical;
        });
    case Gauge::salometer:
        if (figure > 100) return std::nullopt;
        return figure / 100 * saturation;
    case Gauge::baume:
        if (figure >= baume_modulus) return std::nullopt;
        return reaching(baume_modulus / (baume_modulus - figure),
                        [](double w) { return specific_gravity(w, gauge_celsius); });
    case Gauge::specific_gravity:
        return reaching(figure, [&](double w) { return specific_gravity(w, celsius); });
    }
    return std::nullopt;
}

BrineAnswer answer_brine(const BrineQuestion& q) {
    BrineAnswer a;
    using Sort = BrineAnswer::Sort;
    if (!q.at && q.salt_g && q.amount) {
        // Salt and water are there. In an amount of finished brine the water is the rest.
        double water = 0;
        if (q.amount_of_water) {
            water = grams_of(*q.amount, water_density(q.celsius));
        } else if (q.amount->dimension == units::dim::mass) {
            water = std::max(0.0, q.amount->value - *q.salt_g);
        } else if (const auto w = fraction_by(Gauge::g_per_l_of_brine,
                                              1000 * *q.salt_g / q.amount->value, q.celsius)) {
            water = *q.salt_g * (1 - *w) / std::max(*w, 1e-12);
        } else {
            // More than a litre of saturated brine holds: its water, and the salt that is too much.
            const Figure full = *density_to_saturation(saturation, q.celsius);
            water = q.amount->value * full.typical * (1 - saturation);
        }
        a.mix = put_together(*q.salt_g, water, q.celsius);
        a.fraction = *q.salt_g / (*q.salt_g + water);
        a.strength = strength_of(a.fraction, q.celsius);
        a.sort = a.strength ? Sort::found : Sort::too_strong;
        return a;
    }
    if (!q.at) return a;
    a.fraction = fraction_of(*q.at, q);
    a.strength = strength_of(a.fraction, q.celsius);
    if (q.from) {
        change(q, a);
        return a;
    }
    if (q.salt_g) {
        a.mix = put_together(*q.salt_g, *q.salt_g * (1 - a.fraction) / a.fraction, q.celsius);
        a.sort = Sort::mix;
    } else if (q.amount) {
        a.mix = for_amount(q, a.fraction);
        a.sort = Sort::mix;
    }
    if (!a.strength) a.sort = Sort::too_strong;
    return a;
}

std::optional<BrineQuestion> taken_otherwise(const BrineQuestion& q) {
    const auto open = [](const std::optional<AskedStrength>& s) {
        return s && s->basis_matters() && !s->said;
    };
    if (!q.assumed || (!open(q.at) && !open(q.from))) return std::nullopt;
    BrineQuestion other = q;
    other.of_water = !q.of_water;
    other.assumed = false;
    for (const auto* s : {&other.at, &other.from}) {
        if (!open(*s)) continue;
        const bool percent = (*s)->gauge <= Gauge::percent_of_water;
        if (percent && !other.of_water && (*s)->figure >= 100) return std::nullopt;
        const Gauge gauge = percent ? Gauge::percent_of_brine : Gauge::g_per_l_of_brine;
        if (!other.of_water && !fraction_by(gauge, (*s)->figure, q.celsius)) return std::nullopt;
    }
    return other;
}

} // namespace jarful::larder
