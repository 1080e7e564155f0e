#include "engine/sheet/slope.hpp"

#include <cmath>
#include <limits>

namespace jarful::sheet {

using units::Interval;

namespace {
constexpr double infinity = std::numeric_limits<double>::infinity();

/// The derivative of a function that rises in steps: nothing below 0, anything above.
constexpr Interval rising{0, infinity};

Slope through(const Slope& a, Interval value, Interval derivative) {
    Slope r(value);
    r.by = scale(a, derivative);
    return r;
}
} // namespace

Slope Slope::variable(std::uint32_t id, Interval range) {
    Slope s(range);
    s.by.emplace_back(id, Interval(1.0));
    return s;
}

std::vector<std::pair<std::uint32_t, Interval>> combine(const Slope& a, Interval factor_a,
                                                        const Slope& b, Interval factor_b) {
    std::vector<std::pair<std::uint32_t, Interval>> out;
    out.reserve(a.by.size() + b.by.size());
    auto i = a.by.begin();
    auto j = b.by.begin();
    while (i != a.by.end() || j != b.by.end()) {
        if (j == b.by.end() || (i != a.by.end() && i->first < j->first)) {
            out.emplace_back(i->first, factor_a * i->second);
            ++i;
        } else if (i == a.by.end() || j->first < i->first) {
            out.emplace_back(j->first, factor_b * j->second);
            ++j;
        } else {
            out.emplace_back(i->first, factor_a * i->second + factor_b * j->second);
            ++i;
            ++j;
        }
    }
    return out;
}

std::vector<std::pair<std::uint32_t, Interval>> scale(const Slope& a, Interval factor) {
    std::vector<std::pair<std::uint32_t, Interval>> out;
    out.reserve(a.by.size());
    for (const auto& [id, d] : a.by)
        out.emplace_back(id, factor * d);
    return out;
}

Slope operator-(const Slope& a) { return through(a, -a.value, Interval(-1.0)); }

Slope operator+(const Slope& a, const Slope& b) {
    Slope r(a.value + b.value);
    r.by = combine(a, Interval(1.0), b, Interval(1.0));
    return r;
}

Slope operator-(const Slope& a, const Slope& b) {
    Slope r(a.value - b.value);
    r.by = combine(a, Interval(1.0), b, Interval(-1.0));
    return r;
}

Slope operator*(const Slope& a, const Slope& b) {
    Slope r(a.value * b.value);
    r.by = combine(a, b.value, b, a.value);
    return r;
}

Slope operator/(const Slope& a, const Slope& b) {
    Slope r(a.value / b.value);
    r.by = combine(a, Interval(1.0) / b.value, b, -(r.value / b.value));
    return r;
}

Slope min(const Slope& a, const Slope& b) {
    if (a.value.high <= b.value.low) return a;
    if (b.value.high <= a.value.low) return b;
    Slope r(units::min(a.value, b.value));
    r.by = combine(a, Interval(0.0, 1.0), b, Interval(0.0, 1.0));
    return r;
}

Slope max(const Slope& a, const Slope& b) { return -min(-a, -b); }

Slope abs(const Slope& a) {
    if (a.value.low >= 0) return a;
    if (a.value.high <= 0) return -a;
    return through(a, units::abs(a.value), Interval(-1.0, 1.0));
}

Slope sqrt(const Slope& a) {
    const Interval root = units::sqrt(a.value);
    const Interval derivative =
        root.low > 0 ? Interval(0.5) / root : Interval(0, infinity);
    return through(a, root, derivative);
}

Slope round(const Slope& a) { return through(a, units::round(a.value), rising); }
Slope floor(const Slope& a) { return through(a, units::floor(a.value), rising); }
Slope ceil(const Slope& a) { return through(a, units::ceil(a.value), rising); }

Slope pow(const Slope& a, int exponent) {
    const Interval derivative =
        exponent == 0 ? Interval(0.0)
                      : Interval(static_cast<double>(exponent)) * units::pow(a.value, exponent - 1);
    return through(a, units::pow(a.value, exponent), derivative);
}

Slope pow(const Slope& a, const Slope& exponent) {
    Slope r(units::pow(a.value, exponent.value));
    // Rarely used: nothing better than "may change either way" is needed.
    r.by = combine(a, units::whole_line, exponent, units::whole_line);
    return r;
}

Slope either(const Slope& condition, const Slope& a, const Slope& b) {
    Slope r(units::hull(a.value, b.value));
    Slope branches;
    branches.by = combine(a, units::whole_line, b, units::whole_line);
    r.by = combine(branches, Interval(1.0), condition, units::whole_line);
    return r;
}

} // namespace jarful::sheet
