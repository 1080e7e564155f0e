#pragma once

#include "engine/sheet/formula.hpp"
#include "engine/sheet/slope.hpp"

#include <cmath>
#include <span>
#include <vector>

/// The one meaning of a formula, for every kind of number: double, Interval and Slope.
namespace jarful::sheet {

/// Truth of a comparison: 0, 1, or [0, 1] where it cannot be told.
template <class Number>
struct Kind;

template <>
struct Kind<double> {
    static double less(double a, double b, bool or_equal) { return or_equal ? a <= b : a < b; }
    static double both(double a, double b) { return a != 0 && b != 0; }
    static double any(double a, double b) { return a != 0 || b != 0; }
    static double negation(double a) { return a == 0; }
    static double choose(double c, double a, double b) { return c != 0 ? a : b; }
    static double min(double a, double b) { return b < a ? b : a; }
    static double max(double a, double b) { return a < b ? b : a; }
    static double abs(double a) { return std::fabs(a); }
    static double sqrt(double a) { return std::sqrt(a); }
    static double round(double a) { return std::round(a); }
    static double floor(double a) { return std::floor(a); }
    static double ceil(double a) { return std::ceil(a); }
    static double pow(double a, double b) { return std::pow(a, b); }
    static double whole_pow(double a, int e) { return std::pow(a, static_cast<double>(e)); }
};

template <>
struct Kind<units::Interval> {
    using I = units::Interval;
    /// Not 0, whatever the truth is. Ends that are NaN leave it open.
    static bool surely(I a) { return a.low > 0 || a.high < 0; }
    static bool surely_not(I a) { return a.low == 0 && a.high == 0; }
    static I less(I a, I b, bool or_equal) {
        if (or_equal ? a.high <= b.low : a.high < b.low) return I(1.0);
        if (or_equal ? a.low > b.high : a.low >= b.high) return I(0.0);
        return {0.0, 1.0};
    }
    static I both(I a, I b) {
        return {surely(a) && surely(b) ? 1.0 : 0.0, surely_not(a) || surely_not(b) ? 0.0 : 1.0};
    }
    static I any(I a, I b) {
        return {surely(a) || surely(b) ? 1.0 : 0.0, surely_not(a) && surely_not(b) ? 0.0 : 1.0};
    }
    static I negation(I a) { return {surely_not(a) ? 1.0 : 0.0, surely(a) ? 0.0 : 1.0}; }
    static I choose(I c, I a, I b) {
        if (surely(c)) return a;
        if (surely_not(c)) return b;
        return units::hull(a, b);
    }
    static I min(I a, I b) { return units::min(a, b); }
    static I max(I a, I b) { return units::max(a, b); }
    static I abs(I a) { return units::abs(a); }
    static I sqrt(I a) { return units::sqrt(a); }
    static I round(I a) { return units::round(a); }
    static I floor(I a) { return units::floor(a); }
    static I ceil(I a) { return units::ceil(a); }
    static I pow(I a, I b) { return units::pow(a, b); }
    static I whole_pow(I a, int e) { return units::pow(a, e); }
};

template <>
struct Kind<Slope> {
    using Truth = Kind<units::Interval>;
    static Slope less(const Slope& a, const Slope& b, bool or_equal) {
        return unknown_truth(Truth::less(a.value, b.value, or_equal), a, b);
    }
    static Slope both(const Slope& a, const Slope& b) {
        return unknown_truth(Truth::both(a.value, b.value), a, b);
    }
    static Slope any(const Slope& a, const Slope& b) {
        return unknown_truth(Truth::any(a.value, b.value), a, b);
    }
    static Slope negation(const Slope& a) {
        return unknown_truth(Truth::negation(a.value), a, Slope());
    }
    static Slope choose(const Slope& c, const Slope& a, const Slope& b) {
        if (Truth::surely(c.value)) return a;
        if (Truth::surely_not(c.value)) return b;
        return either(c, a, b);
    }
    static Slope min(const Slope& a, const Slope& b) { return sheet::min(a, b); }
    static Slope max(const Slope& a, const Slope& b) { return sheet::max(a, b); }
    static Slope abs(const Slope& a) { return sheet::abs(a); }
    static Slope sqrt(const Slope& a) { return sheet::sqrt(a); }
    static Slope round(const Slope& a) { return sheet::round(a); }
    static Slope floor(const Slope& a) { return sheet::floor(a); }
    static Slope ceil(const Slope& a) { return sheet::ceil(a); }
    static Slope pow(const Slope& a, const Slope& b) { return sheet::pow(a, b); }
    static Slope whole_pow(const Slope& a, int e) { return sheet::pow(a, e); }
};

/// Computes every step into `v`, which has room for them; the last value is the result. `cell(id)`
/// and `unknown(id)` give leaves.
template <class Number, class CellValue, class UnknownValue>
void evaluate_steps(std::span<const Step> steps, CellValue&& cell, UnknownValue&& unknown,
                    Number* v) {
    using K = Kind<Number>;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const Step& s = steps[i];
        Number& to = v[i];
        switch (s.op) {
        case Op::constant:
            to = Number(s.value);
            break;
        case Op::cell:
            to = cell(s.a);
            break;
        case Op::unknown:
            to = unknown(s.a);
            break;
        case Op::negate:
            to = -v[s.a];
            break;
        case Op::add:
            to = v[s.a] + v[s.b];
            break;
        case Op::subtract:
            to = v[s.a] - v[s.b];
            break;
        case Op::multiply:
            to = v[s.a] * v[s.b];
            break;
        case Op::divide:
            to = v[s.a] / v[s.b];
            break;
        case Op::power:
            to = K::pow(v[s.a], v[s.b]);
            break;
        case Op::whole_power:
            to = K::whole_pow(v[s.a], static_cast<int>(static_cast<std::int32_t>(s.b)));
            break;
        case Op::min:
            to = K::min(v[s.a], v[s.b]);
            break;
        case Op::max:
            to = K::max(v[s.a], v[s.b]);
            break;
        case Op::abs:
            to = K::abs(v[s.a]);
            break;
        case Op::sqrt:
            to = K::sqrt(v[s.a]);
            break;
        case Op::round:
            to = K::round(v[s.a]);
            break;
        case Op::floor:
            to = K::floor(v[s.a]);
            break;
        case Op::ceil:
            to = K::ceil(v[s.a]);
            break;
        case Op::less:
            to = K::less(v[s.a], v[s.b], false);
            break;
        case Op::less_equal:
            to = K::less(v[s.a], v[s.b], true);
            break;
        case Op::both:
            to = K::both(v[s.a], v[s.b]);
            break;
        case Op::either:
            to = K::any(v[s.a], v[s.b]);
            break;
        case Op::negation:
            to = K::negation(v[s.a]);
            break;
        case Op::choose:
            to = K::choose(v[s.a], v[s.b], v[s.c]);
            break;
        }
    }
}

/// The same into a list of its own.
template <class Number, class CellValue, class UnknownValue>
std::vector<Number> evaluate_steps(const Formula& formula, CellValue&& cell,
                                   UnknownValue&& unknown) {
    std::vector<Number> v(formula.steps.size());
    evaluate_steps<Number>(std::span(formula.steps), cell, unknown, v.data());
    return v;
}

} // namespace jarful::sheet
