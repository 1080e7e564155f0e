#include "engine/larder/convert_parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace jarful::larder::conversion {

namespace {

using units::Amount;
using units::CompoundUnit;
using units::Interval;
using units::Spoons;

/// mL of a bare measure on a nutrition label; empty for those that the rule does not name.
std::optional<double> label_ml(std::string_view measure) {
    if (measure == "tsp") return 5.0;
    if (measure == "tbsp") return 15.0;
    if (measure == "floz") return 30.0;
    if (measure == "cup") return 240.0;
    return std::nullopt;
}

/// A figure with its spread, in base units.
struct Value {
    double typical = 0;
    Interval bounds;
};

Value times(const Value& a, const Figure& f) {
    return {a.typical * f.typical, a.bounds * f.interval()};
}
Value over(const Value& a, const Figure& f) {
    return {a.typical / f.typical, a.bounds / f.interval()};
}

/// The value of an amount in one system of spoons.
Value value_of(const Amount& amount, System system) {
    const Amount read = amount.in_spoons(system.spoons);
    Value out{read.value, {read.low, read.high}};
    if (system.label && amount.bare_measure) {
        const double ratio = label_ratio(amount.unit).value_or(1);
        out = {out.typical * ratio, out.bounds * Interval(ratio)};
    }
    return out;
}

Value routed(const Value& value, const Material* material, Way way) {
    switch (way) {
    case Way::by_density:
        return times(value, *material->bulk_density);
    case Way::into_volume:
        return over(value, *material->bulk_density);
    case Way::by_piece:
        return times(value, *material->piece);
    case Way::as_written:
        break;
    }
    return value;
}

Spread temperature(const Amount& amount, const CompoundUnit& to) {
    const units::UnitId id = to.single().value_or(0);
    return {units::from_kelvin(id, amount.low), units::from_kelvin(id, amount.value),
            units::from_kelvin(id, amount.high)};
}

Spread in_system(const Task& task, System system) {
    const Amount& amount = task.words.what.amount;
    if (amount.temperature_point) return temperature(amount, task.to);
    const Value a = routed(value_of(amount, system), task.material, task.what_route.way);
    Value ratio = a;
    if (task.words.per) {
        const Value b =
            routed(value_of(task.words.per->amount, system), task.per_material, task.per_route.way);
        ratio = {a.typical / b.typical, a.bounds / b.bounds};
    }
    const double label = system.label ? label_ratio(task.to).value_or(1) : 1;
    Spread out;
    out.typical = task.to.from_base(ratio.typical, system.spoons) / label;
    // Nothing is unsure: then the ends are the figure itself, not its neighbours.
    const bool exact =
        amount.low == amount.high && task.what_route.way == Way::as_written &&
        (!task.words.per || (task.words.per->amount.low == task.words.per->amount.high &&
                             task.per_route.way == Way::as_written));
    if (exact) {
        out.low = out.high = out.typical;
        return out;
    }
    const Interval factor = Interval(task.to.factor(system.spoons)) * Interval(label);
    const Interval bounds = ratio.bounds / factor;
    out.low = std::min(bounds.low, out.typical);
    out.high = std::max(bounds.high, out.typical);
    return out;
}

} // namespace

std::optional<double> label_ratio(const CompoundUnit& unit) {
    double ratio = 1;
    for (std::size_t i = 0; i < unit.size; ++i) {
        const units::Unit& u = units::unit(unit.factors[i].id);
        if (!u.bare_measure) continue;
        const auto ml = label_ml(u.symbol);
        if (!ml) return std::nullopt;
        ratio *= std::pow(*ml / u.factor, unit.factors[i].exponent);
    }
    return ratio;
}

bool in_one_unit(const Amount& amount) {
    // Seen from what the metric and the imperial measure would make of it.
    const double us = amount.unit.factor(Spoons::us);
    const auto agrees = [&](const Amount::Measured& m, Spoons spoons) {
        const double expected = amount.value * (amount.unit.factor(spoons) / us);
        return std::abs(m.value - expected) <= 1e-9 * std::abs(expected);
    };
    return amount.unit.bare_measure() && agrees(amount.metric, Spoons::metric) &&
           agrees(amount.imperial, Spoons::imperial);
}

std::vector<System> systems(const Task& task) {
    switch (task.measures) {
    case Measures::us:
        return {{Spoons::us, false}};
    case Measures::metric:
        return {{Spoons::metric, false}};
    case Measures::imperial:
        return {{Spoons::imperial, false}};
    case Measures::label:
        return {{Spoons::us, true}};
    case Measures::unstated:
        break;
    }
    if (!task.measures_matter) return {{Spoons::us, false}};
    return {{Spoons::us, false}, {Spoons::metric, false}};
}

std::optional<Spread> reckon(const Task& task) {
    std::optional<Spread> out;
    for (const System& system : systems(task)) {
        const Spread one = in_system(task, system);
        const bool sane = std::isfinite(one.low) && std::isfinite(one.high) &&
                          std::isfinite(one.typical) && std::abs(one.high) <= units::max_number;
        if (!sane) return std::nullopt;
        if (!out) {
            out = one;
        } else {
            out->low = std::min(out->low, one.low);
            out->high = std::max(out->high, one.high);
        }
    }
    // A ± that is wider than the amount reaches to nothing, and not below it.
    if (out && !task.words.what.amount.temperature_point) out->low = std::max(out->low, 0.0);
    return out;
}

} // namespace jarful::larder::conversion
