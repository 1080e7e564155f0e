#pragma once

#include "engine/sheet/formula.hpp"
#include "engine/sheet/slope.hpp"

#include <cmath>
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
    static I less(I a, I b, bool or_equal) {
        if (or_equal ? a.high <= b.low : a.high < b.low) return I(1.0);
        if (or_equal ? a.low > b.high : a.low >= b.high) return I(0.0);
        return {0.0, 1.0};
    }
    static I both(I a, I b) {
        return {a.low != 0 && b.low != 0 ? 1.0 : 0.0, a.high != 0 && b.high != 0 ? 1.0 : 0.0};
    }
    static I any(I a, I b) {
        return {a.low != 0 || b.low != 0 ? 1.0 : 0.0, a.high != 0 || b.high != 0 ? 1.0 : 0.0};
    }
    static I negation(I a) { return {a.high != 0 ? 0.0 : 1.0, a.low != 0 ? 0.0 : 1.0}; }
    static I choose(I c, I a, I b) {
        if (c.low != 0) return a;
        if (c.high == 0) return b;
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
        if (c.value.low != 0) return a;
        if (c.value.high == 0) return b;
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

/// Computes every step; the last value is the result. `cell(id)` and `unknown(id)` give leaves.
template <class Number, class CellValue, class UnknownValue>
std::vector<Number> evaluate_steps(const Formula& formula, CellValue&& cell,
                                   UnknownValue&& unknown) {
    using K = Kind<Number>;
    std::vector<Number> v;
    v.reserve(formula.steps.size());
    for (const Step& s : formula.steps) {
        switch (s.op) {
        case Op::constant:
            v.push_back(Number(s.value));
            break;
        case Op::cell:
            v.push_back(cell(s.a));
            break;
        case Op::unknown:
            v.push_back(unknown(s.a));
            break;
        case Op::negate:
            v.push_back(-v[s.a]);
            break;
        case Op::add:
            v.push_back(v[s.a] + v[s.b]);
            break;
        case Op::subtract:
            v.push_back(v[s.a] - v[s.b]);
            break;
        case Op::multiply:
            v.push_back(v[s.a] * v[s.b]);
            break;
        case Op::divide:
            v.push_back(v[s.a] / v[s.b]);
            break;
        case Op::power:
            v.push_back(K::pow(v[s.a], v[s.b]));
            break;
        case Op::whole_power:
            v.push_back(K::whole_pow(v[s.a], static_cast<int>(static_cast<std::int32_t>(s.b))));
            break;
        case Op::min:
            v.push_back(K::min(v[s.a], v[s.b]));
            break;
        case Op::max:
            v.push_back(K::max(v[s.a], v[s.b]));
            break;
        case Op::abs:
            v.push_back(K::abs(v[s.a]));
            break;
        case Op::sqrt:
            v.push_back(K::sqrt(v[s.a]));
            break;
        case Op::round:
            v.push_back(K::round(v[s.a]));
            break;
        case Op::floor:
            v.push_back(K::floor(v[s.a]));
            break;
        case Op::ceil:
            v.push_back(K::ceil(v[s.a]));
            break;
        case Op::less:
            v.push_back(K::less(v[s.a], v[s.b], false));
            break;
        case Op::less_equal:
            v.push_back(K::less(v[s.a], v[s.b], true));
            break;
        case Op::both:
            v.push_back(K::both(v[s.a], v[s.b]));
            break;
        case Op::either:
            v.push_back(K::any(v[s.a], v[s.b]));
            break;
        case Op::negation:
            v.push_back(K::negation(v[s.a]));
            break;
        case Op::choose:
            v.push_back(K::choose(v[s.a], v[s.b], v[s.c]));
            break;
        }
    }
    return v;
}

} // namespace jarful::sheet
