#include "engine/sheet/evaluate.hpp"
#include "engine/sheet/point_engine.hpp"
#include "engine/sheet/sheet.hpp"
#include "engine/sheet/tape.hpp"
#include "tests/property/random_sheet.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <limits>
#include <map>
#include <set>

namespace jarful::sheet {
namespace {

// Ten times as many cases as usual: most random formulas are dull. RC_PARAMS still rules.
const int more_cases = setenv("RC_PARAMS", "max_success=1000", 0);

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

RC_GTEST_PROP(SheetProperty, a_tape_computes_doubles_to_the_last_bit, ()) {
    Dice dice(*rc::gen::arbitrary<std::uint64_t>());
    const std::vector<CellId> cells{0, 1, 2};
    Formula f;
    Trees(dice, f, cells, 2).number(*rc::gen::inRange(1, 6));
    constexpr std::size_t count = 300;
    std::array<std::vector<double>, 5> values; // of three cells and two unknowns
    for (std::vector<double>& list : values) {
        list.resize(count);
        for (double& x : list)
            x = dice.number();
    }
    Tape tape;
    std::array<Tape::Operand, 5> laid;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const bool still = dice.one_in(3);
        if (still) std::fill(values[i].begin(), values[i].end(), values[i].front());
        laid[i] = still ? Tape::Operand::of(values[i].front()) : tape.add(values[i]);
    }
    std::vector<double> all(count, -1);
    tape.run(tape.add(
                 f, [&](CellId c) { return laid[c]; }, [&](UnknownId u) { return laid[3 + u]; }),
             all);
    for (std::size_t i = 0; i < count; ++i) {
        const double one = evaluate_steps<double>(
                               f, [&](CellId c) { return values[c][i]; },
                               [&](UnknownId u) { return values[3 + u][i]; })
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
        case 0: {
            const double value = dice.number();
            sheet.set(id, value);
            const auto before = entered.find(id);
            if (before != entered.end() && same_bits(before->second, value)) break; // no change
            entered[id] = value;
            stale.erase(id);
            spoil(id);
            break;
        }
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

struct Entry {
    CellId id;
    double value;
    Interval bounds;
};

/// One thing that may have happened: the truth of every cell, from the causes of error alone. What
/// was weighed by its formula was computed from the numbers on the display. Written from the words
/// in sheet.hpp, not from enclosure.cpp.
class World {
  public:
    World(const Made& made, const std::vector<double>& exact,
          const std::map<CellId, Entry>& entered, const std::map<CellId, Interval>& observed,
          Dice& dice)
        : truth_(made.cells.size())
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
