#include "engine/sheet/slope.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace jarful::sheet {

using units::Interval;
using units::whole_line;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// How a function changes that may rise in steps or without bound: nothing below 0, anything above.
constexpr Interval rising{0, infinity};

bool keeps_sign(Interval i) {
    return i.low > 0 || i.high < 0;
}

/// Runs over the variables of two slopes; `combine(a, b)` gives the change of the result, where a
/// side that knows nothing of the variable is null.
template <class Combine>
void merge(Slope& out, const Slope& a, const Slope& b, Combine&& combine) {
    out.by.reserve(a.by.size() + b.by.size());
    auto i = a.by.begin();
    auto j = b.by.begin();
    while (i != a.by.end() || j != b.by.end()) {
        Change c;
        if (j == b.by.end() || (i != a.by.end() && i->id < j->id)) {
            c = combine(&*i, nullptr);
            c.id = (i++)->id;
        } else if (i == a.by.end() || j->id < i->id) {
            c = combine(nullptr, &*j);
            c.id = (j++)->id;
        } else {
            c = combine(&*i, &*j);
            c.id = (i++)->id;
            ++j;
        }
        if (!keeps_sign(out.value)) c.elasticity = whole_line;
        out.by.push_back(c);
    }
}

Interval derivative(const Change* c) {
    return c == nullptr ? Interval(0.0) : c->derivative;
}
Interval elasticity(const Change* c) {
    return c == nullptr ? Interval(0.0) : c->elasticity;
}

/// Of a sum or difference: with a constant it keeps its course.
Course course_of_sum(const Change* a, const Change* b) {
    if (a == nullptr) return b->course;
    if (b == nullptr) return a->course;
    return a->course == Course::straight && b->course == Course::straight ? Course::straight
                                                                          : Course::any;
}

Course course_of_product(const Change* a, const Change* b) {
    if (a == nullptr) return b->course;
    if (b == nullptr) return a->course;
    return Course::any;
}

/// Of a quotient whose divisor is nowhere 0.
Course course_of_quotient(const Change* a, const Change* b) {
    if (b == nullptr) return a->course;
    if (a == nullptr) return std::max(b->course, Course::ratio);
    return a->course == Course::straight && b->course == Course::straight ? Course::ratio
                                                                          : Course::any;
}

/// Through a function of one value. `steadily`: one that rises or falls all over `a`.
Slope through(const Slope& a, Interval value, Interval derivative, Interval elasticity,
              bool steadily) {
    Slope r(value);
    r.by.reserve(a.by.size());
    const bool meaningful = keeps_sign(value) && keeps_sign(a.value);
    for (const Change& c : a.by) {
        r.by.push_back({c.id, steadily ? std::max(c.course, Course::steady) : Course::any,
                        derivative * c.derivative,
                        meaningful ? elasticity * c.elasticity : whole_line});
    }
    return r;
}

/// Anything may happen to the result as the variables of both sides change.
void anything(Slope& out, const Slope& a, const Slope& b) {
    merge(out, a, b, [](const Change*, const Change*) {
        return Change{0, Course::any, whole_line, whole_line};
    });
}

} // namespace

Slope Slope::variable(std::uint32_t id, Interval range) {
    Slope s(range);
    s.by.push_back(
        {id, Course::straight, Interval(1.0), range.low > 0 ? Interval(1.0) : whole_line});
    return s;
}

Slope operator-(const Slope& a) {
    Slope r(-a.value);
    r.by.reserve(a.by.size());
    for (const Change& c : a.by)
        r.by.push_back({c.id, c.course, -c.derivative, c.elasticity});
    return r;
}

Slope operator+(const Slope& a, const Slope& b) {
    Slope r(a.value + b.value);
    // With like signs the elasticity of a sum is a mean of theirs, weighted by their shares.
    const bool like =
        (a.value.low > 0 && b.value.low > 0) || (a.value.high < 0 && b.value.high < 0);
    Interval share(0.0, 1.0);
    if (like) {
        share = Interval(1.0) / (Interval(1.0) + b.value / a.value);
        share = {std::fmax(share.low, 0.0), std::fmin(share.high, 1.0)};
    }
    merge(r, a, b, [&](const Change* x, const Change* y) {
        const Interval ea = elasticity(x), eb = elasticity(y);
        return Change{0, course_of_sum(x, y), derivative(x) + derivative(y),
                      like ? eb + share * (ea - eb) : whole_line};
    });
    return r;
}

Slope operator-(const Slope& a, const Slope& b) {
    Slope r(a.value - b.value);
    merge(r, a, b, [&](const Change* x, const Change* y) {
        return Change{0, course_of_sum(x, y), derivative(x) - derivative(y),
                      (a.value * elasticity(x) - b.value * elasticity(y)) / r.value};
    });
    return r;
}

Slope operator*(const Slope& a, const Slope& b) {
    Slope r(a.value * b.value);
    merge(r, a, b, [&](const Change* x, const Change* y) {
        return Change{0, course_of_product(x, y), derivative(x) * b.value + derivative(y) * a.value,
                      elasticity(x) + elasticity(y)};
    });
    return r;
}

Slope operator/(const Slope& a, const Slope& b) {
    Slope r(a.value / b.value);
    const Interval inverse = Interval(1.0) / b.value;
    const Interval by_b = r.value / b.value;
    const bool no_pole = keeps_sign(b.value);
    merge(r, a, b, [&](const Change* x, const Change* y) {
        return Change{0, no_pole ? course_of_quotient(x, y) : Course::any,
                      derivative(x) * inverse - derivative(y) * by_b,
                      elasticity(x) - elasticity(y)};
    });
    return r;
}

Slope min(const Slope& a, const Slope& b) {
    if (a.value.high <= b.value.low) return a;
    if (b.value.high <= a.value.low) return b;
    Slope r(units::min(a.value, b.value));
    merge(r, a, b, [](const Change* x, const Change* y) {
        // Against something that stands still, what is steady stays so.
        const Course course = x != nullptr && y != nullptr
                                  ? Course::any
                                  : std::max((x != nullptr ? x : y)->course, Course::steady);
        return Change{0, course, hull(derivative(x), derivative(y)),
                      hull(elasticity(x), elasticity(y))};
    });
    return r;
}

Slope max(const Slope& a, const Slope& b) {
    return -min(-a, -b);
}

Slope abs(const Slope& a) {
    if (a.value.low >= 0) return a;
    if (a.value.high <= 0) return -a;
    return through(a, units::abs(a.value), Interval(-1.0, 1.0), whole_line, false);
}

Slope sqrt(const Slope& a) {
    const Interval root = units::sqrt(a.value);
    const Interval derivative = root.low > 0 ? Interval(0.5) / root : rising;
    return through(a, root, derivative, Interval(0.5), a.value.low >= 0);
}

Slope round(const Slope& a) {
    return through(a, units::round(a.value), rising, rising, true);
}
Slope floor(const Slope& a) {
    return through(a, units::floor(a.value), rising, rising, true);
}
Slope ceil(const Slope& a) {
    return through(a, units::ceil(a.value), rising, rising, true);
}

Slope pow(const Slope& a, int exponent) {
    const Interval derivative =
        exponent == 0 ? Interval(0.0)
                      : Interval(static_cast<double>(exponent)) * units::pow(a.value, exponent - 1);
    // An odd power rises everywhere, an even one on each side of 0; a negative one has a pole
    // there.
    const bool steadily = keeps_sign(a.value) || (exponent > 0 && exponent % 2 != 0);
    return through(a, units::pow(a.value, exponent), derivative,
                   Interval(static_cast<double>(exponent)), steadily);
}

Slope pow(const Slope& a, const Slope& exponent) {
    Slope r(units::pow(a.value, exponent.value));
    anything(r, a, exponent); // rarely used: no more than this is needed
    return r;
}

Slope either(const Slope& condition, const Slope& a, const Slope& b) {
    Slope branches(units::hull(a.value, b.value));
    anything(branches, a, b);
    Slope r(branches.value);
    anything(r, branches, condition);
    return r;
}

Slope unknown_truth(Interval truth, const Slope& a, const Slope& b) {
    Slope r(truth);
    if (!truth.point()) anything(r, a, b);
    return r;
}

} // namespace jarful::sheet
