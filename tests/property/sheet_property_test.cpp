#include "engine/sheet/block.hpp"
#include "engine/sheet/evaluate.hpp"
#include "engine/sheet/point_engine.hpp"
#include "engine/sheet/sheet.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <limits>
#include <map>
#include <numeric>
#include <random>
#include <set>

namespace jarful::sheet {
namespace {

using units::Interval;

// Ten times as many cases as usual: most random formulas are dull. RC_PARAMS still rules.
const int more_cases = setenv("RC_PARAMS", "max_success=1000", 0);

bool same_bits(double a, double b) {
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

struct Entry {
    CellId id;
    double value;
    Interval bounds;
};

/// A random sheet: what it is made of, so that it can be made again.
struct Made {
    std::vector<Cell> cells;
    std::vector<Unknown> unknowns;
    std::vector<CellId> order; ///< each uses earlier ones only

    [[nodiscard]] Sheet sheet() const { return Sheet(cells, unknowns); }
};

Made random_sheet(Dice& dice, std::uint32_t size, int depth) {
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
std::vector<double> plainly(const Made& m, const std::map<CellId, double>& entered = {}) {
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

Made arbitrary_sheet(std::uint32_t largest = 12, int depth = 4) {
    Dice dice(*rc::gen::arbitrary<std::uint64_t>());
    return random_sheet(dice, *rc::gen::inRange<std::uint32_t>(1, largest + 1),
                        *rc::gen::inRange(1, depth + 1));
}

// ---- One meaning ----

RC_GTEST_PROP(SheetProperty, the_parser_and_the_plain_evaluator_agree_to_the_last_bit, ()) {
    const Made m = arbitrary_sheet();
    Sheet sheet = m.sheet();
    const std::vector<double> expected = plainly(m);
    PointEngine engine;
    for (CellId id : m.order) {
        RC_ASSERT(same_bits(sheet.value(id), expected[id]));
        RC_ASSERT(
            same_bits(engine.evaluate(m.cells[id].formula, expected, m.unknowns), expected[id]));
        RC_ASSERT(!print_for_parser(m.cells[id].formula, m.unknowns).empty());
    }
    RC_ASSERT(sheet.evaluations() == m.cells.size());
}

RC_GTEST_PROP(SheetProperty, a_block_is_256_doubles_to_the_last_bit, ()) {
    Dice dice(*rc::gen::arbitrary<std::uint64_t>());
    const std::vector<CellId> cells{0, 1, 2};
    Formula f;
    Trees(dice, f, cells, 2).number(*rc::gen::inRange(1, 6));
    std::array<Block, 3> blocks;
    std::array<Block, 2> unknowns;
    for (std::size_t i = 0; i < Block::size; ++i) {
        for (Block& b : blocks)
            b[i] = dice.number();
        for (Block& b : unknowns)
            b[i] = dice.number();
    }
    const Block all =
        evaluate_steps<Block>(
            f, [&](CellId c) { return blocks[c]; }, [&](UnknownId u) { return unknowns[u]; })
            .back();
    for (std::size_t i = 0; i < Block::size; ++i) {
        const double one = evaluate_steps<double>(
                               f, [&](CellId c) { return blocks[c][i]; },
                               [&](UnknownId u) { return unknowns[u][i]; })
                               .back();
        RC_ASSERT(same_bits(all[i], one));
    }
}

RC_GTEST_PROP(SheetProperty, trying_values_gives_what_entering_them_would, ()) {
    const Made m = arbitrary_sheet(20, 3);
    Dice dice(*rc::gen::arbitrary<std::uint64_t>());
    const auto size = static_cast<std::uint32_t>(m.cells.size());
    Sheet sheet = m.sheet();
    std::map<CellId, double> entered;
    if (dice.one_in(2)) {
        entered[dice.below(size)] = dice.number();
        sheet.set(entered.begin()->first, entered.begin()->second);
    }
    const std::vector<double> before = plainly(m, entered);
    for (CellId id = 0; id < size; ++id)
        (void)sheet.value(id);
    const std::size_t evaluations = sheet.evaluations();

    const CellId input = dice.below(size), output = dice.below(size);
    std::vector<double> tried(300), more(300), out(300, -1), both(300, -1);
    for (double& x : tried)
        x = dice.number();
    for (double& x : more)
        x = dice.number();
    RC_ASSERT(sheet.what_if(input, tried, output, out) == 300u);
    const std::array<Trial, 2> trials{Trial{Trial::What::cell, input, tried},
                                      Trial{Trial::What::unknown, 1, more}};
    RC_ASSERT(sheet.sample(trials, Formula::of_cell(output), both) == 300u);
    for (std::size_t i : {0u, 1u, 254u, 255u, 256u, 257u, 299u}) {
        auto with = entered;
        with[input] = tried[i];
        RC_ASSERT(same_bits(out[i], plainly(m, with)[output]));
        Made other = m;
        other.unknowns[1].typical = more[i];
        RC_ASSERT(same_bits(both[i], plainly(other, with)[output]));
    }
    for (CellId id = 0; id < size; ++id)
        RC_ASSERT(same_bits(sheet.value(id), before[id]));
    RC_ASSERT(sheet.evaluations() == evaluations);
}

// ---- Only what a change touches ----

RC_GTEST_PROP(SheetProperty, computing_again_equals_computing_from_scratch, ()) {
    const Made m = arbitrary_sheet(20, 3);
    Dice dice(*rc::gen::arbitrary<std::uint64_t>());
    const auto size = static_cast<std::uint32_t>(m.cells.size());
    Sheet sheet = m.sheet();
    std::map<CellId, double> entered;
    std::set<CellId> stale(m.order.begin(), m.order.end());
    std::size_t evaluations = 0;

    // What has to be computed, told from the graph alone.
    const auto spoil = [&](CellId changed) {
        std::set<CellId> touched{changed};
        for (CellId id : m.order)
            for (CellId used : m.cells[id].formula.cells())
                if (touched.count(used) != 0 && entered.count(id) == 0) touched.insert(id);
        touched.erase(changed);
        stale.insert(touched.begin(), touched.end());
    };
    std::function<void(CellId)> need = [&](CellId id) {
        if (stale.erase(id) == 0) return;
        ++evaluations;
        for (CellId used : m.cells[id].formula.cells())
            need(used);
    };

    const int changes = *rc::gen::inRange(1, 20);
    for (int i = 0; i < changes; ++i) {
        const CellId id = dice.below(size);
        switch (dice.below(3)) {
        case 0:
            entered[id] = dice.number();
            sheet.set(id, entered[id]);
            stale.erase(id);
            spoil(id);
            break;
        case 1:
            sheet.clear(id);
            if (entered.erase(id) != 0) {
                stale.insert(id);
                spoil(id);
            }
            break;
        default:
            need(id);
            RC_ASSERT(same_bits(sheet.value(id), plainly(m, entered)[id]));
            RC_ASSERT(sheet.evaluations() == evaluations);
        }
    }
    const std::vector<double> expected = plainly(m, entered);
    for (CellId id = 0; id < size; ++id) {
        need(id);
        RC_ASSERT(same_bits(sheet.value(id), expected[id]));
        RC_ASSERT(sheet.evaluations() == evaluations);
    }
}

// ---- How sure a result is ----

/// Whether nothing on the way was infinite or no number: then the result means something.
template <class Values>
bool sound(const Formula& f, const Values& steps) {
    return steps.size() == f.steps.size() &&
           std::all_of(steps.begin(), steps.end(), [](double x) { return std::isfinite(x); });
}

RC_GTEST_PROP(SheetProperty, the_interval_of_a_formula_holds_every_point_of_its_leaves, ()) {
    Dice dice(*rc::gen::arbitrary<std::uint64_t>());
    const std::vector<CellId> cells{0, 1, 2};
    Formula f;
    Trees(dice, f, cells, 0).number(*rc::gen::inRange(1, 6));
    std::array<Interval, 3> leaves;
    for (Interval& leaf : leaves)
        leaf = dice.around(dice.number());
    const Interval all = evaluate_steps<Interval>(
                             f, [&](CellId c) { return leaves[c]; }, [](UnknownId) { return 0.0; })
                             .back();
    for (int i = 0; i < 50; ++i) {
        std::array<double, 3> at{};
        for (std::size_t k = 0; k < 3; ++k)
            at[k] = dice.point_of(leaves[k]);
        const auto steps = evaluate_steps<double>(
            f, [&](CellId c) { return at[c]; }, [](UnknownId) { return 0.0; });
        if (!sound(f, steps)) continue;
        RC_ASSERT(std::isnan(all.low) || all.contains(steps.back()));
    }
}

/// One thing that may have happened: the truth of every cell, from the causes of error alone. What
/// was weighed by its formula was computed from the numbers on the display. Written from the words
/// in sheet.hpp, not from enclosure.cpp.
class World {
  public:
    World(const Made& made, const std::vector<double>& exact,
          const std::map<CellId, Entry>& entered, const std::map<CellId, Interval>& observed,
          Dice& dice)
        : made_(made)
        , exact_(exact)
        , truth_(made.cells.size())
        , display_(made.cells.size()) {
        for (const Unknown& u : made.unknowns)
            unknowns_.push_back(dice.point_of(u.interval()));
        for (CellId id : made.order) {
            const Cell& cell = made.cells[id];
            const auto seen = observed.find(id);
            const auto set = entered.find(id);
            const bool leaf = set != entered.end();
            display_[id] = leaf || cell.weighed ? Interval(exact[id]) : run(cell.formula, display_);
            if ((leaf || cell.weighed) && seen != observed.end())
                truth_[id] = Interval(dice.point_of(seen->second));
            else if (leaf)
                truth_[id] = Interval(dice.point_of(set->second.bounds));
            else
                truth_[id] = run(cell.formula, cell.weighed ? display_ : truth_);
        }
    }

    /// The result, as the small interval that surely holds its true value; empty if it means
    /// nothing.
    [[nodiscard]] std::optional<Interval> result(const Formula& f) {
        const Interval r = run(f, truth_);
        if (!sound_ || std::isnan(r.low) || std::isnan(r.high)) return std::nullopt;
        return r;
    }

  private:
    Interval run(const Formula& f, const std::vector<Interval>& cells) {
        const auto steps = evaluate_steps<Interval>(
            f, [&](CellId c) { return cells[c]; },
            [&](UnknownId u) { return Interval(unknowns_[u]); });
        for (const Interval& i : steps)
            sound_ = sound_ && std::isfinite(i.low) && std::isfinite(i.high);
        return steps.back();
    }

    const Made& made_;
    const std::vector<double>& exact_;
    std::vector<Interval> truth_, display_;
    std::vector<double> unknowns_;
    bool sound_ = true;
};

RC_GTEST_PROP(SheetProperty, the_enclosure_holds_a_thousand_samples_of_all_causes, ()) {
    const Made m = arbitrary_sheet(8, 3);
    Dice dice(*rc::gen::arbitrary<std::uint64_t>());
    const auto size = static_cast<std::uint32_t>(m.cells.size());
    Sheet sheet = m.sheet();
    std::map<CellId, Entry> entered;
    std::map<CellId, double> values;
    std::map<CellId, Interval> observed;
    for (CellId id = 0; id < size; ++id) {
        if (!dice.one_in(3)) continue;
        const double x = dice.number();
        entered[id] = {id, x, dice.around(x)};
        values[id] = x;
        sheet.set(id, x, entered[id].bounds);
    }
    const std::vector<double> exact = plainly(m, values);
    for (CellId id = 0; id < size; ++id) {
        if (!dice.one_in(2) || !std::isfinite(exact[id])) continue;
        observed[id] = dice.around(exact[id]);
        sheet.observe(id, observed[id]);
    }
    const CellId last = m.order.back();
    Formula f = Formula::of_cell(last);
    if (dice.one_in(2)) {
        f = {};
        Trees(dice, f, m.order, 3).number(3);
    }
    const Interval enclosure = sheet.enclose(f);
    RC_ASSERT(enclosure.low <= enclosure.high);
    for (int i = 0; i < 1000; ++i) {
        World world(m, exact, entered, observed, dice);
        const auto result = world.result(f);
        if (!result) continue;
        RC_ASSERT(enclosure.low <= result->high && result->low <= enclosure.high);
    }
}

RC_GTEST_PROP(SheetProperty, the_point_lies_in_the_interval, ()) {
    const Made m = arbitrary_sheet(8, 3);
    Sheet sheet = m.sheet();
    for (CellId id : m.order) {
        const double x = sheet.value(id);
        if (sheet.fault(id)) break;
        const Interval i = sheet.interval(id);
        // The interval holds the truth; the point is that but for rounding, which shows where
        // large numbers cancel.
        const double slack = 1e-12 * std::max(std::fabs(i.low), std::fabs(i.high)) + 1e-7;
        RC_ASSERT(i.low - slack <= x && x <= i.high + slack);
    }
}

/// Sums of weighings in every order, some by way of working values, over other such sums.
RC_GTEST_PROP(SheetProperty, a_ratio_of_sums_is_no_wider_than_its_vertices, ()) {
    Dice dice(*rc::gen::arbitrary<std::uint64_t>());
    const auto weighings = *rc::gen::inRange<std::uint32_t>(1, 7);
    std::vector<Cell> cells;
    std::vector<Interval> truth;
    for (std::uint32_t i = 0; i < weighings; ++i) {
        Cell cell;
        cell.name = "weighing " + std::to_string(i);
        cell.weighed = true;
        const double x = dice.between(1, 2000);
        cell.formula.constant(x);
        const double error = x * dice.between(0, dice.one_in(2) ? 0.01 : 0.9);
        truth.push_back({x - error, x + error});
        cells.push_back(cell);
    }
    // Two working values: weighted sums, the second perhaps with the first in it.
    std::array<std::vector<double>, 2> weights;
    for (std::size_t k = 0; k < 2; ++k) {
        Cell cell;
        cell.name = k == 0 ? "part" : "whole";
        auto& w = weights[k];
        w.assign(weighings, 0);
        std::optional<std::uint32_t> sum;
        const auto add = [&](std::uint32_t step) {
            sum = sum ? cell.formula.apply(Op::add, *sum, step) : step;
        };
        const bool with_part = k == 1 && dice.one_in(2);
        for (std::uint32_t i = 0; i < weighings; ++i) {
            if (dice.one_in(2) && !(i == 0 && !with_part)) continue;
            const double factor = dice.one_in(2) ? 1 : dice.between(0.01, 1);
            w[i] += factor;
            const auto c = cell.formula.cell(i);
            add(factor == 1 ? c
                            : cell.formula.apply(Op::multiply, cell.formula.constant(factor), c));
        }
        if (with_part) {
            for (std::uint32_t i = 0; i < weighings; ++i)
                w[i] += weights[0][i];
            add(cell.formula.cell(weighings));
        }
        cells.push_back(cell);
    }
    Sheet sheet(cells, {});
    for (std::uint32_t i = 0; i < weighings; ++i)
        sheet.observe(i, truth[i]);
    Formula ratio;
    const auto part = ratio.cell(weighings);
    ratio.apply(Op::divide, part, ratio.cell(weighings + 1));

    long double low = std::numeric_limits<long double>::infinity(), high = -low;
    for (std::uint32_t corner = 0; corner < (1u << weighings); ++corner) {
        long double above = 0, below = 0;
        for (std::uint32_t i = 0; i < weighings; ++i) {
            const long double x = (corner >> i & 1u) != 0 ? truth[i].high : truth[i].low;
            above += weights[0][i] * x;
            below += weights[1][i] * x;
        }
        low = std::min(low, above / below);
        high = std::max(high, above / below);
    }
    const Interval i = sheet.enclose(ratio);
    RC_ASSERT(std::fabs(i.low - static_cast<double>(low)) <= 1e-9 * static_cast<double>(high));
    RC_ASSERT(std::fabs(i.high - static_cast<double>(high)) <= 1e-9 * static_cast<double>(high));
    RC_ASSERT(i.low <= static_cast<double>(low) * (1 + 1e-15));
    RC_ASSERT(i.high >= static_cast<double>(high) * (1 - 1e-15));
}

} // namespace
} // namespace jarful::sheet
