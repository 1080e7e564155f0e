#include "engine/plan/as_weighed.hpp"

#include "engine/sheet/evaluate.hpp"

#include <algorithm>

namespace jarful::plan {

using sheet::CellId;
using sheet::Formula;
using sheet::Op;
using sheet::Step;

AsWeighed::AsWeighed(Model& model, By by)
    : model_(model) {
    for (const Entry& e : model.entries) {
        if (e.left_out || (!e.absent && (by == By::exact_amounts || !e.shown))) continue;
        if (known_.empty()) known_.resize(model.sheet->size());
        known_[e.cell] = e.absent ? 0 : *e.shown;
    }
}

bool AsWeighed::leaf(CellId cell) const {
    const sheet::Cell& c = model_.sheet->cell(cell);
    return (c.weighed && !c.expected) || c.formula.empty() || model_.sheet->entered(cell);
}

/// Every cell beneath a formula. Without recursion: a recipe may be a chain of thousands of lines.
void AsWeighed::compute(const Formula& formula) {
    std::vector<CellId> work;
    const auto visit = [&](const Formula& f) {
        bool ready = true;
        for (const Step& s : f.steps) {
            if (s.op != Op::cell || known_[s.a]) continue;
            ready = false;
            work.push_back(s.a);
        }
        return ready;
    };
    visit(formula);
    while (!work.empty()) {
        const CellId id = work.back();
        if (!known_[id]) {
            if (leaf(id)) {
                known_[id] = model_.sheet->value(id);
            } else {
                if (!visit(model_.sheet->cell(id).formula)) continue;
                known_[id] = run(model_.sheet->cell(id).formula);
            }
        }
        work.pop_back();
    }
}

double AsWeighed::run(const Formula& formula) {
    const auto steps = sheet::evaluate_steps<double>(
        formula, [&](CellId id) { return *known_[id]; },
        [&](sheet::UnknownId id) { return model_.sheet->unknowns()[id].typical; });
    return steps.back();
}

double AsWeighed::value(const Formula& formula) {
    if (known_.empty() || formula.empty()) return model_.sheet->value(formula);
    compute(formula);
    return run(formula);
}

double AsWeighed::value(CellId cell) {
    if (known_.empty()) return model_.sheet->value(cell);
    return value(Formula::of_cell(cell));
}

double AsWeighed::value(const Formula& formula, units::Interval bounds, double factor) {
    const double found = value(formula) * factor;
    return bounds.low <= bounds.high ? std::clamp(found, bounds.low, bounds.high) : found;
}

} // namespace jarful::plan
