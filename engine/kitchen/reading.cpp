#include "engine/kitchen/reading.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace jarful::kitchen {

namespace {

/// How many goes an amount takes on a scale; at least one.
double goes(const Scale& scale, double grams) {
    // A hair over the capacity by binary noise is not a second go.
    return std::max(1.0, std::ceil(grams / most_at_once(scale) - 1e-9));
}

} // namespace

double most_at_once(const Scale& scale) {
    // Nor is the last step lost by it.
    const double steps = std::floor(scale.room_g() / scale.step_g + 1e-9);
    return multiple_of_step(std::max(1.0, steps), scale.step_g);
}

double multiple_of_step(double steps, double step_g) {
    const double parts = std::round(1 / step_g);
    if (parts >= 1 && std::fabs(parts * step_g - 1) < 1e-12) return steps / parts;
    return steps * step_g;
}

double round_to_step(double grams, double step_g) {
    // The small push keeps 40.25 on a 0.1 g scale a half, whatever its last bit.
    return multiple_of_step(std::floor(grams / step_g + 0.5 + 1e-9), step_g);
}

std::size_t best_scale(const Kitchen& kitchen, double grams) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < kitchen.scales.size(); ++i) {
        const Scale& a = kitchen.scales[i];
        const Scale& b = kitchen.scales[best];
        const auto key = [&](const Scale& s) {
            return std::tuple(goes(s, grams), s.error_g(), s.step_g);
        };
        if (key(a) < key(b)) best = i;
    }
    return best;
}

std::vector<double> portions_of(double total_g, int count, double step_g) {
    std::vector<double> portions;
    const double steps = std::round(total_g / step_g);
    const double each = std::floor(steps / count);
    double more = steps - each * count;
    for (int i = 0; i < count; ++i, more -= 1)
        portions.push_back(multiple_of_step(more >= 0.5 ? each + 1 : each, step_g));
    return portions;
}

Reading read_on(const Kitchen& kitchen, std::size_t scale, double grams) {
    const Scale& s = kitchen.scales[scale];
    Reading r;
    r.scale = scale;
    r.total_g = round_to_step(grams, s.step_g);
    const double count = goes(s, r.total_g);
    r.portions =
        portions_of(r.total_g, static_cast<int>(std::min<double>(count, most_goes)), s.step_g);
    const double error = s.error_g() * count;
    r.truth = units::Interval(r.total_g) + units::Interval(-error, error);
    r.truth.low = std::max(0.0, r.truth.low);
    return r;
}

Reading best_reading(const Kitchen& kitchen, double grams) {
    Reading r = read_on(kitchen, best_scale(kitchen, grams), grams);
    // Where the number to wait for is better shown by another scale it is read there, so that
    // whoever gives the number back is taken to have used the same one.
    for (int i = 0; i < 3; ++i) {
        const std::size_t better = best_scale(kitchen, r.total_g);
        if (better == r.scale) break;
        r = read_on(kitchen, better, r.total_g);
    }
    return r;
}

} // namespace jarful::kitchen
