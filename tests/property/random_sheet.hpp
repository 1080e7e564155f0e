#pragma once

#include "engine/sheet/evaluate.hpp"
#include "engine/sheet/sheet.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <map>
#include <numeric>
#include <random>
#include <string>
#include <vector>

/// Random expressions and sheets for property tests.
namespace jarful::sheet {

using units::Interval;

inline bool same_bits(double a, double b) {
    return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b) ||
           (std::isnan(a) && std::isnan(b));
}

/// Chance, from one number that rapidcheck chose.
class Dice {
  public:
    explicit Dice(std::uint64_t seed)
        : engine_(seed) {}

    std::uint32_t below(std::uint32_t n) {
        return std::uniform_int_distribution<std::uint32_t>(0, n - 1)(engine_);
    }
    bool one_in(std::uint32_t n) { return below(n) == 0; }
    double between(double low, double high) {
        if (!(low < high)) return low;
        return std::clamp(std::uniform_real_distribution<double>(low, high)(engine_), low, high);
    }
    /// An end half of the time.
    double point_of(Interval i) {
        const std::uint32_t which = below(4);
        return which == 0 ? i.low : which == 1 ? i.high : between(i.low, i.high);
    }
    /// Numbers as in recipes, small whole ones, and some that are neither.
    double number() {
        switch (below(8)) {
        case 0:
            return static_cast<double>(below(5)) - 1;
        case 1:
            return between(-10, 10);
        case 2:
            return one_in(4) ? between(0, 1) * 1e-290 : between(0, 1) * 1e5;
        case 3:
            return one_in(4) ? 1e160 : 0.5;
        default:
            return static_cast<double>(below(5'000'000)) / 1000;
        }
    }
    Interval around(double x) {
        const double reach = std::fabs(x) * between(0, one_in(3) ? 1.5 : 0.05);
        return {x - (one_in(4) ? 0 : reach), x + (one_in(4) ? 0 : reach)};
    }

  private:
    std::mt19937_64 engine_;
};

/// Adds a random tree over the cells and unknowns to a formula and returns its step.
class Trees {
  public:
    Trees(Dice& dice, Formula& f, const std::vector<CellId>& cells, std::uint32_t unknowns)
        : dice_(dice)
        , f_(f)
        , cells_(cells)
        , unknowns_(unknowns) {}

    std::uint32_t number(int depth) {
        if (depth <= 0 || dice_.one_in(6)) return leaf();
        switch (dice_.below(18)) {
        case 0:
            return f_.apply(Op::negate, number(depth - 1));
        case 1:
        case 2:
        case 3:
            return two(Op::add, depth);
        case 4:
        case 5:
            return two(Op::subtract, depth);
        case 6:
        case 7:
            return two(Op::multiply, depth);
        case 8:
        case 9:
        case 10:
            return two(Op::divide, depth);
        case 11:
            return power(depth);
        case 12:
            return two(dice_.one_in(2) ? Op::min : Op::max, depth);
        case 13:
            return f_.apply(dice_.one_in(2) ? Op::abs : Op::sqrt, number(depth - 1));
        case 14: {
            const Op op = dice_.one_in(3) ? Op::round : dice_.one_in(2) ? Op::floor : Op::ceil;
            return f_.apply(op, number(depth - 1));
        }
        case 15:
            return used_twice(depth);
        default:
            return choose(depth);
        }
    }

  private:
    std::uint32_t leaf() {
        const std::uint32_t which = dice_.below(5);
        if (which < 3 && !cells_.empty())
            return f_.cell(cells_[dice_.below(static_cast<std::uint32_t>(cells_.size()))]);
        if (which == 3 && unknowns_ != 0) return f_.unknown(dice_.below(unknowns_));
        return f_.constant(dice_.number());
    }

    std::uint32_t two(Op op, int depth) {
        const std::uint32_t a = number(depth - 1);
        return f_.apply(op, a, number(depth - 1));
    }

    std::uint32_t used_twice(int depth) {
        const std::uint32_t a = number(depth - 2);
        const std::uint32_t b = f_.apply(Op::add, a, number(depth - 2));
        return f_.apply(Op::divide, a, b);
    }

    std::uint32_t power(int depth) {
        const std::uint32_t base = number(depth - 1);
        if (dice_.one_in(3)) return f_.apply(Op::power, base, number(depth - 2));
        Step s;
        s.op = Op::whole_power;
        s.a = base;
        s.b = static_cast<std::uint32_t>(static_cast<std::int32_t>(dice_.below(7)) - 3);
        return f_.add(s);
    }

    std::uint32_t truth(int depth) {
        if (depth > 1 && dice_.one_in(3)) {
            const std::uint32_t a = truth(depth - 1);
            if (dice_.one_in(3)) return f_.apply(Op::negation, a);
            return f_.apply(dice_.one_in(2) ? Op::both : Op::either, a, truth(depth - 1));
        }
        return two(dice_.one_in(2) ? Op::less : Op::less_equal, depth);
    }

    std::uint32_t choose(int depth) {
        Step s;
        s.op = Op::choose;
        s.a = truth(depth - 1);
        s.b = number(depth - 1);
        s.c = number(depth - 1);
        return f_.add(s);
    }

    Dice& dice_;
    Formula& f_;
    const std::vector<CellId>& cells_;
    std::uint32_t unknowns_;
};

/// A random sheet: what it is made of, so that it can be made again.
struct Made {
    std::vector<Cell> cells;
    std::vector<Unknown> unknowns;
    std::vector<CellId> order; ///< each uses earlier ones only

    [[nodiscard]] Sheet sheet() const { return Sheet(cells, unknowns); }
};

inline Made random_sheet(Dice& dice, std::uint32_t size, int depth) {
    Made m;
    for (std::uint32_t i = 0; i < 3; ++i) {
        Unknown u;
        u.label = "unknown " + std::to_string(i);
        u.typical = dice.number();
        const Interval range = dice.around(u.typical);
        u.low = range.low;
        u.high = range.high;
        m.unknowns.push_back(u);
    }
    m.cells.resize(size);
    m.order.resize(size);
    std::iota(m.order.begin(), m.order.end(), 0u);
    for (std::uint32_t i = size; i > 1; --i)
        std::swap(m.order[i - 1], m.order[dice.below(i)]);
    std::vector<CellId> earlier;
    for (CellId id : m.order) {
        Cell& cell = m.cells[id];
        cell.name = "cell " + std::to_string(id);
        cell.weighed = dice.one_in(2);
        const int here = earlier.size() < 2 ? 0 : static_cast<int>(dice.below(depth + 1));
        Trees trees(dice, cell.formula, earlier, 3);
        trees.number(here);
        earlier.push_back(id);
    }
    return m;
}

/// The value of every cell by the plain evaluator alone; entered ones as they are.
inline std::vector<double> plainly(const Made& m, const std::map<CellId, double>& entered = {}) {
    std::vector<double> values(m.cells.size());
    for (CellId id : m.order) {
        const auto it = entered.find(id);
        values[id] = it != entered.end()
                         ? it->second
                         : evaluate_steps<double>(
                               m.cells[id].formula, [&](CellId c) { return values[c]; },
                               [&](UnknownId u) { return m.unknowns[u].typical; })
                               .back();
    }
    return values;
}

} // namespace jarful::sheet
