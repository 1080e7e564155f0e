#include "engine/sheet/point_engine.hpp"

#include "engine/sheet/evaluate.hpp"

#include <fmt/core.h>
#include <muParser.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace jarful::sheet {

namespace {

// muParser refuses expressions over 20,000 characters.
constexpr std::size_t longest_text = 19'000;

double round_away(double x) {
    return std::round(x);
}
double floor_of(double x) {
    return std::floor(x);
}
double ceil_of(double x) {
    return std::ceil(x);
}
double power_of(double a, double b) {
    return std::pow(a, b);
}
double smaller(double a, double b) {
    return Kind<double>::min(a, b);
}
double larger(double a, double b) {
    return Kind<double>::max(a, b);
}
double absolute(double x) {
    return std::fabs(x);
}
double root(double x) {
    return std::sqrt(x);
}

/// Opening, separators and end of each operation's text.
struct Shape {
    const char* open;
    const char* between;
    const char* then;
    const char* close;
    int operands;
};

Shape shape(Op op) {
    switch (op) {
    case Op::negate:
        return {"(-(", "", "", "))", 1};
    case Op::add:
        return {"(", "+", "", ")", 2};
    case Op::subtract:
        return {"(", "-", "", ")", 2};
    case Op::multiply:
        return {"(", "*", "", ")", 2};
    case Op::divide:
        return {"(", "/", "", ")", 2};
    case Op::power:
        return {"jpow(", ",", "", ")", 2};
    case Op::whole_power:
        return {"jpow(", ",", "", ")", 1}; // the exponent is a number
    case Op::min:
        return {"jmin(", ",", "", ")", 2};
    case Op::max:
        return {"jmax(", ",", "", ")", 2};
    case Op::abs:
        return {"jabs(", "", "", ")", 1};
    case Op::sqrt:
        return {"jsqrt(", "", "", ")", 1};
    case Op::round:
        return {"jround(", "", "", ")", 1};
    case Op::floor:
        return {"jfloor(", "", "", ")", 1};
    case Op::ceil:
        return {"jceil(", "", "", ")", 1};
    case Op::less:
        return {"(", "<", "", ")", 2};
    case Op::less_equal:
        return {"(", "<=", "", ")", 2};
    case Op::both:
        return {"(", "&&", "", ")", 2};
    case Op::either:
        return {"(", "||", "", ")", 2};
    case Op::negation:
        return {"(", "", "", "==0)", 1};
    case Op::choose:
        return {"((", ")?(", "):(", "))", 3};
    case Op::constant:
    case Op::cell:
    case Op::unknown:
        break;
    }
    return {"", "", "", "", 0};
}

/// As many digits as bring the number back; in parentheses only where a minus could be misread.
std::string number(double value) {
    return std::signbit(value) ? fmt::format("({})", value) : fmt::format("{}", value);
}

} // namespace

std::string print_for_parser(const Formula& formula, std::span<const Unknown> unknowns) {
    if (formula.empty()) return {};
    std::string out;
    // An explicit stack: a sum of thousands of terms is a tree thousands deep.
    struct Task {
        std::uint32_t step;
        std::string text; ///< to be written as it is; a step to be printed if empty
    };
    std::vector<Task> tasks{{static_cast<std::uint32_t>(formula.steps.size() - 1), {}}};
    while (!tasks.empty()) {
        const Task task = std::move(tasks.back());
        tasks.pop_back();
        if (!task.text.empty()) {
            out += task.text;
            continue;
        }
        if (out.size() > longest_text) return {};
        const Step& s = formula.steps[task.step];
        switch (s.op) {
        case Op::constant:
        case Op::unknown: {
            const double value = s.op == Op::constant ? s.value : unknowns[s.a].typical;
            if (!std::isfinite(value)) return {}; // the parser has no word for it
            out += number(value);
            continue;
        }
        case Op::cell:
            out += fmt::format("c{}", s.a);
            continue;
        default:
            break;
        }
        const Shape form = shape(s.op);
        out += form.open;
        if (s.op == Op::whole_power)
            tasks.push_back({0, fmt::format(",({}))", static_cast<std::int32_t>(s.b))});
        else
            tasks.push_back({0, form.close});
        if (form.operands == 3) {
            tasks.push_back({s.c, {}});
            tasks.push_back({0, form.then});
        }
        if (form.operands >= 2) {
            tasks.push_back({s.b, {}});
            tasks.push_back({0, form.between});
        }
        tasks.push_back({s.a, {}});
    }
    return out.size() > longest_text ? std::string{} : out;
}

struct PointEngine::State {
    mu::Parser parser;
    std::vector<double> slots;
};

PointEngine::PointEngine()
    : state_(std::make_unique<State>()) {
    mu::Parser& p = state_->parser;
    p.EnableOptimizer(false); // it folds constants in another order, and other bits come out
    p.DefineFun("jround", round_away);
    p.DefineFun("jfloor", floor_of);
    p.DefineFun("jceil", ceil_of);
    p.DefineFun("jpow", power_of);
    p.DefineFun("jmin", smaller);
    p.DefineFun("jmax", larger);
    p.DefineFun("jabs", absolute);
    p.DefineFun("jsqrt", root);
}

PointEngine::~PointEngine() = default;
PointEngine::PointEngine(PointEngine&&) noexcept = default;
PointEngine& PointEngine::operator=(PointEngine&&) noexcept = default;

double PointEngine::evaluate(const Formula& formula, std::span<const double> cells,
                             std::span<const Unknown> unknowns) {
    if (formula.empty()) return std::numeric_limits<double>::quiet_NaN();
    // A plain number needs no parser.
    if (formula.steps.size() == 1 && formula.steps[0].op == Op::constant)
        return formula.steps[0].value;
    const std::string text = print_for_parser(formula, unknowns);
    if (text.empty()) {
        return evaluate_steps<double>(
                   formula, [&](CellId id) { return cells[id]; },
                   [&](UnknownId id) { return unknowns[id].typical; })
            .back();
    }
    State& s = *state_;
    const std::vector<CellId> used = formula.cells();
    s.slots.resize(used.size());
    s.parser.ClearVar();
    for (std::size_t i = 0; i < used.size(); ++i) {
        s.slots[i] = cells[used[i]];
        s.parser.DefineVar(fmt::format("c{}", used[i]), &s.slots[i]);
    }
    s.parser.SetExpr(text);
    return s.parser.Eval();
}

} // namespace jarful::sheet
