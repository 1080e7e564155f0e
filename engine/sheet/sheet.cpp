#include "engine/sheet/sheet.hpp"

#include "engine/sheet/enclosure.hpp"
#include "engine/sheet/evaluate.hpp"
#include "engine/sheet/point_engine.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <unordered_map>

namespace jarful::sheet {

struct Sheet::State {
    std::vector<Cell> cells;
    std::vector<Unknown> unknowns;
    std::vector<std::vector<CellId>> dependencies;
    std::vector<std::vector<CellId>> dependents;
    std::vector<std::uint32_t> rank; ///< position in an order in which each follows what it uses
    std::unordered_map<std::string_view, CellId> by_name;

    std::vector<double> values;
    std::vector<char> stale;
    std::vector<char> entered;
    std::vector<std::optional<units::Interval>> bounds; ///< of what was entered
    std::vector<std::optional<units::Interval>> observed;
    std::size_t evaluations = 0;
    PointEngine engine;

    void order();
    void spoil(CellId id);
    void refresh(CellId id);
    std::vector<CellId> stale_beneath(const std::vector<CellId>& roots) const;
    std::optional<ComputeFault> locate(const Formula& formula, CellId owner);
    EnclosureInput enclosure_input();
};

void Sheet::State::order() {
    dependencies.resize(cells.size());
    dependents.resize(cells.size());
    for (CellId id = 0; id < cells.size(); ++id) {
        dependencies[id] = cells[id].formula.cells();
        for (CellId used : dependencies[id])
            dependents[used].push_back(id);
    }
    std::vector<std::uint32_t> waiting(cells.size());
    std::vector<CellId> ready;
    for (CellId id = 0; id < cells.size(); ++id) {
        waiting[id] = static_cast<std::uint32_t>(dependencies[id].size());
        if (waiting[id] == 0) ready.push_back(id);
    }
    rank.assign(cells.size(), 0);
    for (std::size_t next = 0; next < ready.size(); ++next) {
        rank[ready[next]] = static_cast<std::uint32_t>(next);
        for (CellId user : dependents[ready[next]])
            if (--waiting[user] == 0) ready.push_back(user);
    }
}

void Sheet::State::spoil(CellId id) {
    std::vector<CellId> work{id};
    while (!work.empty()) {
        const CellId current = work.back();
        work.pop_back();
        for (CellId user : dependents[current]) {
            if (stale[user] || entered[user]) continue;
            stale[user] = 1;
            work.push_back(user);
        }
    }
}

std::vector<CellId> Sheet::State::stale_beneath(const std::vector<CellId>& roots) const {
    std::vector<CellId> found;
    std::unordered_map<CellId, bool> visited;
    std::vector<CellId> work = roots;
    while (!work.empty()) {
        const CellId id = work.back();
        work.pop_back();
        if (!stale[id] || !visited.emplace(id, true).second) continue;
        found.push_back(id);
        work.insert(work.end(), dependencies[id].begin(), dependencies[id].end());
    }
    std::sort(found.begin(), found.end(), [&](CellId a, CellId b) { return rank[a] < rank[b]; });
    return found;
}

void Sheet::State::refresh(CellId id) {
    if (!stale[id]) return;
    for (CellId next : stale_beneath({id})) {
        values[next] = engine.evaluate(cells[next].formula, values, unknowns);
        stale[next] = 0;
        ++evaluations;
    }
}

std::optional<ComputeFault> Sheet::State::locate(const Formula& formula, CellId owner) {
    const std::vector<double> steps = evaluate_steps<double>(
        formula, [&](CellId id) { return values[id]; },
        [&](UnknownId id) { return unknowns[id].typical; });
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (std::isfinite(steps[i])) continue;
        const Step& s = formula.steps[i];
        if (s.op == Op::cell) {
            // The fault lies further back; report it where it happened.
            const std::optional<ComputeFault> inner = locate(cells[s.a].formula, s.a);
            if (inner) return inner;
        }
        // A branch that is not taken may be anything.
        if (std::isfinite(steps.back())) return std::nullopt;
        const bool by_zero = s.op == Op::divide && steps[s.b] == 0;
        return ComputeFault{by_zero ? ComputeFault::Sort::division_by_zero
                                    : ComputeFault::Sort::not_finite,
                            owner, s.place};
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
    s.bounds.resize(s.cells.size());
    s.observed.resize(s.cells.size());
    for (CellId id = 0; id < s.cells.size(); ++id)
        if (s.cells[id].formula.empty()) s.stale[id] = 0; // NaN until it is set
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
    return state_->dependencies[id];
}
std::span<const CellId> Sheet::dependents(CellId id) const {
    return state_->dependents[id];
}
std::span<const Unknown> Sheet::unknowns() const {
    return state_->unknowns;
}

void Sheet::set(CellId id, double value, units::Interval bounds) {
    State& s = *state_;
    s.values[id] = value;
    s.entered[id] = 1;
    s.stale[id] = 0;
    s.bounds[id] = bounds;
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

void Sheet::observe(CellId id, units::Interval truth) {
    state_->observed[id] = truth;
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
    for (CellId id : formula.cells())
        state_->refresh(id);
    return state_->engine.evaluate(formula, state_->values, state_->unknowns);
}

std::optional<ComputeFault> Sheet::fault(CellId id) {
    if (std::isfinite(value(id))) return std::nullopt;
    return state_->locate(state_->cells[id].formula, id);
}

std::optional<ComputeFault> Sheet::fault(const Formula& formula) {
    if (std::isfinite(value(formula))) return std::nullopt;
    return state_->locate(formula, no_cell);
}

units::Interval Sheet::interval(CellId id) {
    return enclose(Formula::of_cell(id));
}

units::Interval Sheet::enclose(const Formula& formula) {
    for (CellId id : formula.cells())
        state_->refresh(id);
    return enclose_formula(state_->enclosure_input(), formula);
}

std::vector<Share> Sheet::causes(const Formula& formula) {
    for (CellId id : formula.cells())
        state_->refresh(id);
    return causes_of_width(state_->enclosure_input(), formula);
}

std::size_t Sheet::evaluations() const {
    return state_->evaluations;
}

} // namespace jarful::sheet
