#include "engine/sheet/enclosure.hpp"

#include "engine/sheet/evaluate.hpp"

#include <boost/unordered/unordered_flat_map.hpp>

#include <algorithm>
#include <cmath>

// The box of causes: one variable for each unknown (it varies once, however often it is used) and
// one for each cell that was weighed or entered with an error. Evaluating over the whole box gives
// a first enclosure and the sign of every slope; where a slope keeps its sign, the extreme lies at
// that variable's end, so the variable is fixed there and the rest evaluated again. Where only the
// course is known (see Course), it lies at one of the two ends, and both are tried. For the ratios
// of a recipe this gives the exact range.

namespace jarful::sheet {

using units::Interval;

namespace {

struct Variable {
    bool is_cell = false;
    std::uint32_t id = 0;
    Interval range;
};

/// A cell as it is seen: with its error, or as the number on the display.
enum class View : char { truth, display };

struct Seen {
    CellId cell;
    View view;
};

class Box {
  public:
    Box(const EnclosureInput& in, const Formula& formula)
        : in_(in)
        , formula_(formula) {
        gather();
        ranges_.reserve(variables_.size());
        for (const Variable& v : variables_)
            ranges_.push_back(v.range);
        std::size_t steps = formula.steps.size();
        for (const Seen& seen : order_)
            steps += in.cells[seen.cell].formula.steps.size() + 1;
        slopes_ = steps * variables_.size();
    }

    [[nodiscard]] const std::vector<Variable>& variables() const { return variables_; }

    template <class Number>
    Number evaluate(const std::vector<Interval>& ranges) const {
        std::vector<Number> memo(order_.size());
        for (std::size_t i = 0; i < order_.size(); ++i)
            memo[i] = seen_value<Number>(order_[i], memo, ranges);
        return run<Number>(formula_, View::truth, memo, ranges);
    }

    [[nodiscard]] Interval enclose() const {
        if (variables_.empty() || too_much()) return known(evaluate<Interval>(ranges_));
        const Slope whole = evaluate<Slope>(ranges_);
        int forks = may_fork();
        const Interval low = corner(ranges_, whole, false, forks);
        forks = may_fork();
        const Interval high = corner(ranges_, whole, true, forks);
        Interval result{std::max(whole.value.low, low.low), std::min(whole.value.high, high.high)};
        if (!(result.low <= result.high)) result = whole.value;
        return known(result);
    }

    /// Slopes with every cause would fill the memory: a list of thousands of weighings, each of
    /// them a cause in all the sums that follow.
    [[nodiscard]] bool too_much() const { return slopes_ > most_slopes; }

    /// At most how much one variable can change the value, by either measure.
    static double effect(const Change& c, Interval value, Interval range) {
        const double by_slope =
            std::max(std::fabs(c.derivative.low), std::fabs(c.derivative.high)) * range.width();
        const double e = std::max(std::fabs(c.elasticity.low), std::fabs(c.elasticity.high));
        if (!relative(value, range) || !std::isfinite(e)) return by_slope;
        const double size = std::max(std::fabs(value.low), std::fabs(value.high));
        const double by_ratio = size * std::expm1(e * std::log(range.high / range.low));
        return std::isnan(by_slope) ? by_ratio : std::min(by_slope, by_ratio);
    }

    [[nodiscard]] std::vector<Interval> ranges() const { return ranges_; }

  private:
    static constexpr int most_forks = 64;  ///< corners tried for each end of a result
    static constexpr int most_rounds = 32; ///< of fixing what has become steady
    static constexpr std::size_t most_slopes = 2'000'000; ///< 40 bytes each

    /// Fewer in a large box, so that a result takes seconds at the very worst.
    [[nodiscard]] int may_fork() const {
        return static_cast<int>(std::min<std::size_t>(most_forks, most_slopes / (slopes_ + 1)));
    }

    /// Ends that are not numbers say nothing: anything is possible.
    static Interval known(Interval i) {
        return std::isnan(i.low) || std::isnan(i.high) ? units::whole_line : i;
    }

    /// Whether elasticities mean something.
    static bool relative(Interval value, Interval range) {
        return range.low > 0 && (value.low > 0 || value.high < 0);
    }

    /// Which end of a variable makes the value largest; 0 if it makes no difference worth a name.
    struct Lean {
        bool known = false;
        int sign = 0;
        double effect = 0; ///< how much the value may still change, where sign is 0
    };

    static Lean lean(const Change& c, Interval value, Interval range) {
        const double most = effect(c, value, range);
        const double size = std::max(std::fabs(value.low), std::fabs(value.high));
        if (most <= 1e-12 * size) return {true, 0, most};
        if (c.derivative.low >= 0) return {true, 1, 0};
        if (c.derivative.high <= 0) return {true, -1, 0};
        if (!relative(value, range)) return {};
        const int direction = value.low > 0 ? 1 : -1;
        if (c.elasticity.low >= 0) return {true, direction, 0};
        if (c.elasticity.high <= 0) return {true, -direction, 0};
        return {};
    }

    /// Encloses the value where every variable with a steady slope stands at the end that makes the
    /// result largest (or smallest). Fixing some may make others steady: repeat while it does. Each
    /// step is sound by itself: the signs hold all over the box that is left at that moment.
    [[nodiscard]] Interval corner(std::vector<Interval> ranges, Slope current, bool largest,
                                  int& forks) const {
        double pad = 0;
        const Change* open = nullptr; // steady, but it is not known which way
        for (int round = 0; round < most_rounds; ++round) {
            bool changed = false;
            open = nullptr;
            for (const Change& c : current.by) {
                Interval& r = ranges[c.id];
                if (r.point()) continue;
                const Lean l = lean(c, current.value, r);
                if (!l.known) {
                    if (c.course != Course::any) open = &c;
                    continue;
                }
                if (l.sign == 0) {
                    pad += l.effect;
                    r = Interval(r.middle());
                } else {
                    r = Interval((l.sign > 0) == largest ? r.high : r.low);
                }
                changed = true;
            }
            if (!changed) break;
            open = nullptr; // belongs to the slopes before
            current = evaluate<Slope>(ranges);
        }
        Interval end = current.value;
        if (open != nullptr && forks > 0) {
            --forks;
            const std::uint32_t id = open->id;
            const Interval r = ranges[id];
            ranges[id] = Interval(r.low);
            const Interval at_low = corner(ranges, evaluate<Slope>(ranges), largest, forks);
            ranges[id] = Interval(r.high);
            end = units::hull(at_low, corner(ranges, evaluate<Slope>(ranges), largest, forks));
        }
        if (pad == 0) return end;
        pad *= 1 + 1e-9; // it was itself computed with errors of some 1e-16
        return end + Interval(-pad, pad);
    }

    [[nodiscard]] static std::uint64_t key(CellId id, View view) {
        return (static_cast<std::uint64_t>(id) << 1) | (view == View::display ? 1u : 0u);
    }

    /// Whether the view of a cell is a leaf, not computed from its formula.
    [[nodiscard]] bool leaf(CellId id, View view) const {
        if (in_.entered[id] || in_.cells[id].formula.empty()) return true;
        if (!in_.cells[id].weighed) return false;
        return view == View::display || in_.observed[id].has_value();
    }

    /// How the formula of a cell that is no leaf sees what it uses. What is weighed was computed
    /// from the numbers on the display; what is still to be weighed comes of what is really in.
    [[nodiscard]] View inner(Seen seen) const {
        const Cell& cell = in_.cells[seen.cell];
        return cell.weighed && !cell.expected ? View::display : seen.view;
    }

    void gather() {
        std::vector<Seen> work;
        auto visit = [&](const Formula& f, View view) {
            for (const Step& s : f.steps) {
                if (s.op == Op::unknown) unknown_variable(s.a);
                if (s.op == Op::cell && index_.emplace(key(s.a, view), 0).second)
                    work.push_back({s.a, view});
            }
        };
        visit(formula_, View::truth);
        while (!work.empty()) {
            const Seen next = work.back();
            work.pop_back();
            order_.push_back(next);
            if (leaf(next.cell, next.view)) {
                cell_variable(next);
            } else {
                visit(in_.cells[next.cell].formula, inner(next));
            }
        }
        std::sort(order_.begin(), order_.end(), [&](const Seen& a, const Seen& b) {
            return in_.rank[a.cell] != in_.rank[b.cell] ? in_.rank[a.cell] < in_.rank[b.cell]
                                                        : a.view > b.view;
        });
        for (std::size_t i = 0; i < order_.size(); ++i)
            index_[key(order_[i].cell, order_[i].view)] = i;
    }

    void unknown_variable(UnknownId id) {
        if (unknown_index_.count(id) != 0) return;
        unknown_index_[id] = static_cast<std::uint32_t>(variables_.size());
        variables_.push_back({false, id, in_.unknowns[id].interval()});
    }

    void cell_variable(Seen seen) {
        if (seen.view == View::display) return;
        Interval range(in_.values[seen.cell]);
        if (in_.observed[seen.cell])
            range = *in_.observed[seen.cell];
        else if (in_.bounds[seen.cell])
            range = *in_.bounds[seen.cell];
        if (range.point()) return;
        cell_index_[seen.cell] = static_cast<std::uint32_t>(variables_.size());
        variables_.push_back({true, seen.cell, range});
    }

    template <class Number>
    Number variable(std::uint32_t index, const std::vector<Interval>& ranges) const {
        if constexpr (std::is_same_v<Number, Slope>) {
            if (ranges[index].point()) return Slope(ranges[index]);
            return Slope::variable(index, ranges[index]);
        } else {
            return Number(ranges[index]);
        }
    }

    template <class Number>
    Number seen_value(Seen seen, const std::vector<Number>& memo,
                      const std::vector<Interval>& ranges) const {
        if (leaf(seen.cell, seen.view)) {
            if (seen.view == View::truth) {
                const auto it = cell_index_.find(seen.cell);
                if (it != cell_index_.end()) return variable<Number>(it->second, ranges);
                if (in_.observed[seen.cell]) return Number(*in_.observed[seen.cell]);
                if (in_.bounds[seen.cell]) return Number(*in_.bounds[seen.cell]);
            }
            return Number(Interval(in_.values[seen.cell]));
        }
        const Cell& cell = in_.cells[seen.cell];
        return run<Number>(cell.formula, inner(seen), memo, ranges);
    }

    template <class Number>
    Number run(const Formula& f, View view, const std::vector<Number>& memo,
               const std::vector<Interval>& ranges) const {
        return evaluate_steps<Number>(
                   f, [&](CellId id) -> Number { return memo[index_.at(key(id, view))]; },
                   [&](UnknownId id) -> Number {
                       return variable<Number>(unknown_index_.at(id), ranges);
                   })
            .back();
    }

    const EnclosureInput& in_;
    const Formula& formula_;
    std::vector<Variable> variables_;
    std::vector<Interval> ranges_;
    std::size_t slopes_ = 0; ///< at most so many in one evaluation
    std::vector<Seen> order_;
    boost::unordered_flat_map<std::uint64_t, std::size_t> index_;
    boost::unordered_flat_map<UnknownId, std::uint32_t> unknown_index_;
    boost::unordered_flat_map<CellId, std::uint32_t> cell_index_;
};

} // namespace

Interval enclose_formula(const EnclosureInput& in, const Formula& formula) {
    return Box(in, formula).enclose();
}

std::vector<Share> causes_of_width(const EnclosureInput& in, const Formula& formula) {
    const Box box(in, formula);
    if (box.variables().empty() || box.too_much()) return {};
    const Slope whole = box.evaluate<Slope>(box.ranges());
    const double most = box.enclose().width();
    std::vector<Share> shares;
    for (const Change& c : whole.by) {
        const Variable& v = box.variables()[c.id];
        // The slope of a step has no bound, but no cause does more than all of them together.
        const double width = std::min(most, Box::effect(c, whole.value, v.range));
        if (!(width > 0)) continue;
        shares.push_back({v.is_cell ? in.cells[v.id].name : in.unknowns[v.id].label, width});
    }
    std::stable_sort(shares.begin(), shares.end(),
                     [](const Share& a, const Share& b) { return a.width > b.width; });
    return shares;
}

} // namespace jarful::sheet
