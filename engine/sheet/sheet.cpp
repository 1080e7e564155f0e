#include "engine/sheet/sheet.hpp"

#include "engine/sheet/enclosure.hpp"
#include "engine/sheet/evaluate.hpp"
#include "engine/sheet/point_engine.hpp"
#include "engine/sheet/tape.hpp"
#include "engine/units/bits.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <unordered_map>
#include <unordered_set>

namespace jarful::sheet {

namespace {

/// For each cell a list of others, all in one piece of memory.
struct Lists {
    std::vector<std::uint32_t> begin; ///< one more than there are cells
    std::vector<CellId> ids;

    [[nodiscard]] std::span<const CellId> of(CellId id) const {
        return std::span(ids).subspan(begin[id], begin[id + 1] - begin[id]);
    }
};

} // namespace

struct Sheet::State {
    std::vector<Cell> cells;
    std::vector<Unknown> unknowns;
    Lists dependencies;
    Lists dependents;
    std::vector<std::uint32_t> rank; ///< position in an order in which each follows what it uses
    std::unordered_map<std::string_view, CellId> by_name;

    std::vector<double> values;
    std::vector<char> stale;
    std::vector<char> entered;
    std::vector<char> parsed;                           ///< has had a value from muParser
    std::vector<std::optional<units::Interval>> bounds; ///< of what was entered
    std::vector<std::optional<units::Interval>> observed;
    std::unordered_map<CellId, ComputeFault> faults; ///< of cells whose value is not finite
    std::size_t evaluations = 0;
    bool without_parser = false;
    std::optional<PointEngine> engine; ///< made for the first value; it costs more than a sheet
    PointEngine& parser() { return engine ? *engine : engine.emplace(); }

    std::vector<CellId> to_spoil; ///< kept so that their memory is
    struct Visit {
        CellId id;
        std::uint32_t next; ///< index of the dependency to look at
    };
    std::vector<Visit> to_visit;
    std::vector<double> steps;

    void order();
    void spoil(CellId id);
    void refresh(CellId id);
    void refresh_all_of(const Formula& formula);
    bool walk(const Formula& formula);
    void compute(CellId id);
    std::optional<ComputeFault> locate(const Formula& formula, CellId owner);
    EnclosureInput enclosure_input();
};

void Sheet::State::order() {
    const std::size_t size = cells.size();
    dependencies.begin.assign(size + 1, 0);
    dependents.begin.assign(size + 1, 0);
    for (CellId id = 0; id < size; ++id) {
        const std::vector<CellId> used = cells[id].formula.cells();
        dependencies.ids.insert(dependencies.ids.end(), used.begin(), used.end());
        dependencies.begin[id + 1] = static_cast<std::uint32_t>(dependencies.ids.size());
        for (CellId u : used)
            ++dependents.begin[u + 1];
    }
    for (std::size_t i = 0; i < size; ++i)
        dependents.begin[i + 1] += dependents.begin[i];
    dependents.ids.resize(dependencies.ids.size());
    std::vector<std::uint32_t> filled(dependents.begin.begin(), dependents.begin.end() - 1);
    for (CellId id = 0; id < size; ++id)
        for (CellId used : dependencies.of(id))
            dependents.ids[filled[used]++] = id;

    std::vector<std::uint32_t> waiting(size);
    std::vector<CellId> ready;
    ready.reserve(size);
    for (CellId id = 0; id < size; ++id) {
        waiting[id] = static_cast<std::uint32_t>(dependencies.of(id).size());
        if (waiting[id] == 0) ready.push_back(id);
    }
    rank.assign(size, 0);
    for (std::size_t next = 0; next < ready.size(); ++next) {
        rank[ready[next]] = static_cast<std::uint32_t>(next);
        for (CellId user : dependents.of(ready[next]))
            if (--waiting[user] == 0) ready.push_back(user);
    }
}

void Sheet::State::spoil(CellId id) {
    to_spoil.assign(1, id);
    while (!to_spoil.empty()) {
        const CellId current = to_spoil.back();
        to_spoil.pop_back();
        for (CellId user : dependents.of(current)) {
            if (stale[user] != 0 || entered[user] != 0) continue;
            stale[user] = 1;
            to_spoil.push_back(user);
        }
    }
}

void Sheet::State::refresh(CellId id) {
    if (stale[id] == 0) return;
    // Each cell after what it uses, by a stack of our own: a chain may be thousands of cells long.
    to_visit.push_back({id, 0});
    while (!to_visit.empty()) {
        Visit& visit = to_visit.back();
        const std::span<const CellId> used = dependencies.of(visit.id);
        while (visit.next < used.size() && stale[used[visit.next]] == 0)
            ++visit.next;
        if (visit.next < used.size()) {
            to_visit.push_back({used[visit.next], 0});
            continue;
        }
        compute(visit.id);
        to_visit.pop_back();
    }
}

void Sheet::State::refresh_all_of(const Formula& formula) {
    for (const Step& step : formula.steps)
        if (step.op == Op::cell) refresh(step.a);
}

/// Walks the steps; true if all of them are finite.
bool Sheet::State::walk(const Formula& formula) {
    if (steps.size() < formula.steps.size()) steps.resize(formula.steps.size());
    evaluate_steps<double>(
        std::span(formula.steps), [&](CellId id) { return values[id]; },
        [&](UnknownId id) { return unknowns[id].typical; }, steps.data());
    double odd = 0; // NaN as soon as one is not finite
    for (std::size_t i = 0; i < formula.steps.size(); ++i)
        odd += steps[i] * 0;
    return odd == 0;
}

void Sheet::State::compute(CellId id) {
    const Formula& formula = cells[id].formula;
    const bool finite = walk(formula) && !formula.empty();
    if (formula.empty()) {
        values[id] = std::numeric_limits<double>::quiet_NaN();
    } else if (parsed[id] == 0 && !without_parser) {
        values[id] = parser().evaluate(formula, values, unknowns);
        parsed[id] = 1;
    } else {
        values[id] = steps[formula.steps.size() - 1];
    }
    stale[id] = 0;
    ++evaluations;
    if (finite && faults.empty()) return;
    if (const auto fault = finite ? std::nullopt : locate(formula, id))
        faults.insert_or_assign(id, *fault);
    else
        faults.erase(id);
}

/// Finds the first of the steps walked last that is not finite and that the result rests on: a
/// branch that is not taken may be anything, but 5 / (1 / 0) does not pass for nothing.
std::optional<ComputeFault> Sheet::State::locate(const Formula& formula, CellId owner) {
    using Sort = ComputeFault::Sort;
    if (formula.empty())
        return ComputeFault{Sort::not_finite, owner,
                            owner == no_cell ? language::Place{} : cells[owner].place};
    std::vector<char> matters(formula.steps.size());
    matters.back() = 1;
    for (std::size_t i = formula.steps.size(); i-- > 0;) {
        const Step& s = formula.steps[i];
        if (matters[i] == 0) continue;
        if (operands(s.op) >= 1) matters[s.a] = 1;
        if (s.op == Op::choose)
            matters[steps[s.a] != 0 ? s.b : s.c] = 1;
        else if (operands(s.op) == 2)
            matters[s.b] = 1;
    }
    for (std::size_t i = 0; i < formula.steps.size(); ++i) {
        if (matters[i] == 0 || std::isfinite(steps[i])) continue;
        const Step& s = formula.steps[i];
        if (s.op == Op::cell) {
            const auto inner = faults.find(s.a);
            if (inner != faults.end()) return inner->second;
            return ComputeFault{Sort::not_finite, s.a, cells[s.a].place}; // not set, or set so
        }
        const bool by_zero = s.op == Op::divide && steps[s.b] == 0;
        return ComputeFault{by_zero ? Sort::division_by_zero : Sort::not_finite, owner, s.place};
    }
    return std::nullopt;
}

EnclosureInput Sheet::State::enclosure_input() {
    return EnclosureInput{cells, unknowns, rank, values, entered, bounds, observed};
}

Sheet::Sheet(std::vector<Cell> cells, std::vector<Unknown> unknowns)
    : state_(std::make_unique<State>()) {
    State& s = *state_;
    s.cells = std::move(cells);
    s.unknowns = std::move(unknowns);
    s.order();
    for (CellId id = 0; id < s.cells.size(); ++id)
        s.by_name.emplace(s.cells[id].name, id);
    s.values.assign(s.cells.size(), std::numeric_limits<double>::quiet_NaN());
    s.stale.assign(s.cells.size(), 1);
    s.entered.assign(s.cells.size(), 0);
    s.parsed.assign(s.cells.size(), 0);
    s.bounds.resize(s.cells.size());
    s.observed.resize(s.cells.size());
    for (CellId id = 0; id < s.cells.size(); ++id)
        if (s.cells[id].formula.empty()) s.stale[id] = 0; // NaN until it is set
}

void Sheet::do_without_parser() {
    state_->without_parser = true;
}

Sheet::~Sheet() = default;
Sheet::Sheet(Sheet&&) noexcept = default;
Sheet& Sheet::operator=(Sheet&&) noexcept = default;

std::size_t Sheet::size() const {
    return state_->cells.size();
}
const Cell& Sheet::cell(CellId id) const {
    return state_->cells[id];
}

std::optional<CellId> Sheet::find(std::string_view name) const {
    const auto it = state_->by_name.find(name);
    if (it == state_->by_name.end()) return std::nullopt;
    return it->second;
}

std::span<const CellId> Sheet::dependencies(CellId id) const {
    return state_->dependencies.of(id);
}
std::span<const CellId> Sheet::dependents(CellId id) const {
    return state_->dependents.of(id);
}
std::span<const Unknown> Sheet::unknowns() const {
    return state_->unknowns;
}

void Sheet::set(CellId id, double value, units::Interval bounds) {
    State& s = *state_;
    const auto same = [](double a, double b) { return units::bits_of(a) == units::bits_of(b); };
    if (s.entered[id] && same(s.values[id], value) && s.bounds[id] &&
        same(s.bounds[id]->low, bounds.low) && same(s.bounds[id]->high, bounds.high)) {
        return;
    }
    s.values[id] = value;
    s.entered[id] = 1;
    s.stale[id] = 0;
    s.bounds[id] = bounds;
    s.faults.erase(id);
    s.spoil(id);
}

void Sheet::clear(CellId id) {
    State& s = *state_;
    if (!s.entered[id]) return;
    s.entered[id] = 0;
    s.bounds[id].reset();
    s.stale[id] = 1;
    s.spoil(id);
}

bool Sheet::entered(CellId id) const {
    return state_->entered[id] != 0;
}

std::size_t Sheet::what_if(CellId input, std::span<const double> values, CellId output,
                           std::span<double> out) {
    const Trial trial{Trial::What::cell, input, values};
    return sample(std::span(&trial, 1), Formula::of_cell(output), out);
}

std::size_t Sheet::sample(std::span<const Trial> trials, const Formula& output,
                          std::span<double> out) {
    State& s = *state_;
    std::size_t count = out.size();
    std::unordered_map<CellId, const Trial*> tried_cells;
    std::unordered_map<UnknownId, const Trial*> tried_unknowns;
    for (const Trial& t : trials) {
        count = std::min(count, t.values.size());
        (t.what == Trial::What::cell ? tried_cells : tried_unknowns)[t.id] = &t;
    }
    if (output.empty()) {
        std::fill_n(out.begin(), count, std::numeric_limits<double>::quiet_NaN());
        return count;
    }

    // Everything beneath the output, each after what it uses.
    std::vector<CellId> beneath;
    {
        std::unordered_set<CellId> seen;
        std::vector<CellId> work = output.cells();
        while (!work.empty()) {
            const CellId id = work.back();
            work.pop_back();
            if (!seen.insert(id).second) continue;
            beneath.push_back(id);
            if (s.entered[id] != 0 || tried_cells.count(id) != 0) continue;
            const auto used = s.dependencies.of(id);
            work.insert(work.end(), used.begin(), used.end());
        }
    }
    std::sort(beneath.begin(), beneath.end(),
              [&](CellId a, CellId b) { return s.rank[a] < s.rank[b]; });

    // What of it the trials touch goes on the tape.
    Tape tape;
    std::unordered_map<CellId, Tape::Operand> laid;
    std::unordered_map<UnknownId, Tape::Operand> laid_unknowns;
    for (const auto& [id, trial] : tried_unknowns)
        laid_unknowns.emplace(id, tape.add(trial->values.first(count)));
    const auto cell = [&](CellId id) {
        const auto it = laid.find(id);
        return it != laid.end() ? it->second : Tape::Operand::of(s.values[id]);
    };
    const auto unknown = [&](UnknownId id) {
        const auto it = laid_unknowns.find(id);
        return it != laid_unknowns.end() ? it->second : Tape::Operand::of(s.unknowns[id].typical);
    };
    for (CellId id : beneath) {
        const auto tried = tried_cells.find(id);
        if (tried != tried_cells.end()) {
            laid.emplace(id, tape.add(tried->second->values.first(count)));
            continue;
        }
        bool touches = false;
        if (s.entered[id] == 0)
            for (const Step& step : s.cells[id].formula.steps)
                touches = touches || (step.op == Op::cell && laid.count(step.a) != 0) ||
                          (step.op == Op::unknown && tried_unknowns.count(step.a) != 0);
        if (touches) {
            laid.emplace(id, tape.add(s.cells[id].formula, cell, unknown));
        } else {
            s.refresh(id); // what stands still is needed as it is
        }
    }
    tape.run(tape.add(output, cell, unknown), out.first(count));
    return count;
}

void Sheet::observe(CellId id, units::Interval truth) {
    state_->observed[id] = truth;
}

std::optional<units::Interval> Sheet::observed(CellId id) const {
    return state_->observed[id];
}

void Sheet::forget_observation(CellId id) {
    state_->observed[id].reset();
}

void Sheet::forget_observations() {
    for (auto& o : state_->observed)
        o.reset();
}

double Sheet::value(CellId id) {
    state_->refresh(id);
    return state_->values[id];
}

double Sheet::value(const Formula& formula) {
    if (formula.empty()) return std::numeric_limits<double>::quiet_NaN();
    State& s = *state_;
    s.refresh_all_of(formula);
    // Not a cell, and asked for once: walking the steps gives the bits that the parser would give.
    return evaluate_steps<double>(
               formula, [&](CellId id) { return s.values[id]; },
               [&](UnknownId id) { return s.unknowns[id].typical; })
        .back();
}

std::optional<ComputeFault> Sheet::fault(CellId id) {
    const double now = value(id);
    const auto known = state_->faults.find(id);
    if (known != state_->faults.end()) return known->second;
    if (std::isfinite(now)) return std::nullopt;
    return ComputeFault{ComputeFault::Sort::not_finite, id, state_->cells[id].place};
}

std::optional<ComputeFault> Sheet::fault(const Formula& formula) {
    state_->refresh_all_of(formula);
    if (!formula.empty() && state_->walk(formula)) return std::nullopt;
    return state_->locate(formula, no_cell);
}

units::Interval Sheet::interval(CellId id) {
    return enclose(Formula::of_cell(id));
}

units::Interval Sheet::enclose(const Formula& formula) {
    state_->refresh_all_of(formula);
    return enclose_formula(state_->enclosure_input(), formula);
}

std::vector<Share> Sheet::causes(const Formula& formula) {
    state_->refresh_all_of(formula);
    return causes_of_width(state_->enclosure_input(), formula);
}

std::size_t Sheet::evaluations() const {
    return state_->evaluations;
}

} // namespace jarful::sheet
