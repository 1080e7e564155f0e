#include "engine/sheet/formula.hpp"

#include <algorithm>

namespace jarful::sheet {

std::uint32_t Formula::add(Step step) {
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
    for (const Step& step : steps) {
        if (step.op == Op::cell && std::find(found.begin(), found.end(), step.a) == found.end())
            found.push_back(step.a);
    }
    return found;
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
