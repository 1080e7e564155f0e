#include "engine/sheet/slope.hpp"

#include <cmath>
#include <limits>

namespace jarful::sheet {

using units::Interval;
using units::whole_line;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// The derivative of a function that rises in steps: nothing below 0, anything above.
constexpr Interval rising{0, infinity};

bool keeps_sign(Interval i) {
    return i.low > 0 || i.high < 0;
}

/// Runs over the variables of two slopes; `combine(da, ea, db, eb)` gives the change of the result.
template <class Combine>
void merge(Slope& out, const Slope& a, const Slope& b, Combine&& combine) {
    const Interval none(0.0);
    out.by.reserve(a.by.size() + b.by.size());
    auto i = a.by.begin();
    auto j = b.by.begin();
    while (i != a.by.end() || j != b.by.end()) {
        Change c;
        if (j == b.by.end() || (i != a.by.end() && i->id < j->id)) {
            c = combine(i->derivative, i->elasticity, none, none);
            c.id = (i++)->id;
        } else if (i == a.by.end() || j->id < i->id) {
            c = combine(none, none, j->derivative, j->elasticity);
            c.id = (j++)->id;
        } else {
            c = combine(i->derivative, i->elasticity, j->derivative, j->elasticity);
            c.id = (i++)->id;
            ++j;
        }
        if (!keeps_sign(out.value)) c.elasticity = whole_line;
        out.by.push_back(c);
    }
}

Slope through(const Slope& a, Interval value, Interval derivative, Interval elasticity) {
    Slope r(value);
    r.by.reserve(a.by.size());
    for (const Change& c : a.by) {
        const bool meaningful = keeps_sign(value) && keeps_sign(a.value);
        r.by.push_back(
            {c.id, derivative * c.derivative, meaningful ? elasticity * c.elasticity : whole_line});
    }
    return r;
}

/// Anything may happen to the result as the variables of both sides change.
void anything(Slope& out, const Slope& a, const Slope& b) {
    merge(out, a, b, [](Interval, Interval, Interval, Interval) {
        return Change{0, whole_line, whole_line};
    });
}

} // namespace

Slope Slope::variable(std::uint32_t id, Interval range) {
    Slope s(range);
    s.by.push_back({id, Interval(1.0), range.low > 0 ? Interval(1.0) : whole_line});
    return s;
}

Slope operator-(const Slope& a) {
    return through(a, -a.value, Interval(-1.0), Interval(1.0));
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
    merge(r, a, b, [&](Interval da, Interval ea, Interval db, Interval eb) {
        return Change{0, da + db, like ? eb + share * (ea - eb) : whole_line};
    });
    return r;
}

Slope operator-(const Slope& a, const Slope& b) {
    Slope r(a.value - b.value);
    merge(r, a, b, [&](Interval da, Interval ea, Interval db, Interval eb) {
        return Change{0, da - db, (a.value * ea - b.value * eb) / r.value};
    });
    return r;
}

Slope operator*(const Slope& a, const Slope& b) {
    Slope r(a.value * b.value);
    merge(r, a, b, [&](Interval da, Interval ea, Interval db, Interval eb) {
        return Change{0, da * b.value + db * a.value, ea + eb};
    });
    return r;
}

Slope operator/(const Slope& a, const Slope& b) {
    Slope r(a.value / b.value);
    const Interval inverse = Interval(1.0) / b.value;
    const Interval by_b = r.value / b.value;
    merge(r, a, b, [&](Interval da, Interval ea, Interval db, Interval eb) {
        return Change{0, da * inverse - db * by_b, ea - eb};
    });
    return r;
}

Slope min(const Slope& a, const Slope& b) {
    if (a.value.high <= b.value.low) return a;
    if (b.value.high <= a.value.low) return b;
    Slope r(units::min(a.value, b.value));
    merge(r, a, b, [](Interval da, Interval ea, Interval db, Interval eb) {
        return Change{0, hull(da, db), hull(ea, eb)};
    });
    return r;
}

Slope max(const Slope& a, const Slope& b) {
    return -min(-a, -b);
}

Slope abs(const Slope& a) {
    if (a.value.low >= 0) return a;
    if (a.value.high <= 0) return -a;
    return through(a, units::abs(a.value), Interval(-1.0, 1.0), whole_line);
}

Slope sqrt(const Slope& a) {
    const Interval root = units::sqrt(a.value);
    const Interval derivative = root.low > 0 ? Interval(0.5) / root : Interval(0, infinity);
    return through(a, root, derivative, Interval(0.5));
}

Slope round(const Slope& a) {
    return through(a, units::round(a.value), rising, rising);
}
Slope floor(const Slope& a) {
    return through(a, units::floor(a.value), rising, rising);
}
Slope ceil(const Slope& a) {
    return through(a, units::ceil(a.value), rising, rising);
}

Slope pow(const Slope& a, int exponent) {
    const Interval derivative =
        exponent == 0 ? Interval(0.0)
                      : Interval(static_cast<double>(exponent)) * units::pow(a.value, exponent - 1);
    return through(a, units::pow(a.value, exponent), derivative,
                   Interval(static_cast<double>(exponent)));
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
