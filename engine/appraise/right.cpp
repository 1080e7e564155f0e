#include "engine/appraise/appraise.hpp"

#include <cmath>

namespace jarful::appraise {

using larder::Basis;
using units::Interval;

namespace {

/// What the salt is held against, in g.
std::optional<Interval> base_of(const Appraisal& a) {
    switch (*a.basis) {
    case Basis::of_vegetables:
        return a.vegetables_g;
    case Basis::of_vegetables_and_water:
        if (!a.vegetables_g || !a.water_g) return std::nullopt;
        return *a.vegetables_g + *a.water_g;
    case Basis::of_brine:
    case Basis::of_water:
        return a.water_g;
    case Basis::of_evened_brine:
    case Basis::of_everything:
    case Basis::of_drained_brine:
        break;
    }
    return std::nullopt;
}

/// Whether the percentage is as wide as the masses alone make it: where a line that is not
/// understood widens it, no amount of salt is right for certain.
bool explained(const Appraisal& a, Interval base) {
    if (!a.salt_g || !a.percent || !std::isfinite(a.percent->high)) return false;
    const Interval whole =
        *a.basis == Basis::of_brine || *a.basis == Basis::of_water ? base + *a.salt_g : base;
    constexpr double slack = 1e-3; // of what the sums were rounded to
    return a.salt_g->low / whole.high * 100 <= a.percent->low * (1 + slack) + slack &&
           a.salt_g->high / base.low * 100 >= a.percent->high * (1 - slack) - slack;
}

} // namespace

std::optional<Interval> right_for_list(const Appraisal& a) {
    if (!a.basis || !a.right_g_per_kg || a.verdict == Verdict::not_a_ferment) return std::nullopt;
    const std::optional<Interval> base = base_of(a);
    if (!base || !(base->low > 0) || !std::isfinite(base->high) || !explained(a, *base))
        return std::nullopt;
    const double low = a.right_g_per_kg->low * base->high / 1000;
    const double high = a.right_g_per_kg->high * base->low / 1000;
    // Inward, to what a kitchen scale for this much salt mostly shows (ours).
    const double step = high >= 100 ? 1 : high >= 10 ? 0.1 : 0.01;
    const double least = std::ceil(low / step - 1e-9) * step;
    const double most = std::floor(high / step + 1e-9) * step;
    if (!(least <= most)) return std::nullopt;
    return Interval{least, most};
}

} // namespace jarful::appraise
