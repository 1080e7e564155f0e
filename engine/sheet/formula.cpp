#include "engine/sheet/formula.hpp"

#include <algorithm>
#include <unordered_set>

namespace jarful::sheet {

std::uint32_t Formula::add(Step step) {
    constexpr std::size_t usual = 8;
    if (steps.empty()) steps.reserve(usual);
    steps.push_back(step);
    return static_cast<std::uint32_t>(steps.size() - 1);
}

std::uint32_t Formula::constant(double value, language::Place place) {
    Step step;
    step.value = value;
    step.place = place;
    return add(step);
}

std::uint32_t Formula::cell(CellId id, language::Place place) {
    Step step;
    step.op = Op::cell;
    step.a = id;
    step.place = place;
    return add(step);
}

std::uint32_t Formula::unknown(UnknownId id, language::Place place) {
    Step step;
    step.op = Op::unknown;
    step.a = id;
    step.place = place;
    return add(step);
}

std::uint32_t Formula::apply(Op op, std::uint32_t a, std::uint32_t b, language::Place place) {
    Step step;
    step.op = op;
    step.a = a;
    step.b = b;
    step.place = place;
    return add(step);
}

std::vector<CellId> Formula::cells() const {
    std::vector<CellId> found;
    // The sum of a long recipe uses thousands of cells: a search among those found would be slow.
    constexpr std::size_t few = 64;
    if (steps.size() <= few) {
        for (const Step& step : steps) {
            if (step.op != Op::cell) continue;
            if (found.empty()) found.reserve(steps.size());
            if (std::find(found.begin(), found.end(), step.a) == found.end())
                found.push_back(step.a);
        }
        return found;
    }
    std::unordered_set<CellId> seen;
    for (const Step& step : steps)
        if (step.op == Op::cell && seen.insert(step.a).second) found.push_back(step.a);
    return found;
}

std::size_t operands(Op op) {
    switch (op) {
    case Op::constant:
    case Op::cell:
    case Op::unknown:
        return 0;
    case Op::negate:
    case Op::whole_power:
    case Op::abs:
    case Op::sqrt:
    case Op::round:
    case Op::floor:
    case Op::ceil:
    case Op::negation:
        return 1;
    case Op::add:
    case Op::subtract:
    case Op::multiply:
    case Op::divide:
    case Op::power:
    case Op::min:
    case Op::max:
    case Op::less:
    case Op::less_equal:
    case Op::both:
    case Op::either:
        return 2;
    case Op::choose:
        return 3;
    }
    return 0;
}

Formula Formula::of_cell(CellId id) {
    Formula f;
    f.cell(id);
    return f;
}

Formula Formula::of_constant(double value) {
    Formula f;
    f.constant(value);
    return f;
}

} // namespace jarful::sheet
