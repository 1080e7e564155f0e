#include "engine/plan/working.hpp"

#include "engine/sheet/evaluate.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace jarful::plan {

using language::NodeKind;
using language::Place;
using sheet::Formula;
using sheet::Op;
using sheet::Step;
using sheet::Type;
using units::Dimension;

namespace {

constexpr int digits = 6;
/// Longer texts are cut: a line of a trace is to be read.
constexpr std::size_t most_words = 160;

/// "g", "mL", "g/mL", "cm^2", "1/g": base units, with cm³ as mL; empty for a plain number.
std::string unit_of(const Type& type) {
    const Dimension d = type.dimension;
    const bool volume = d.length % 3 == 0;
    const struct {
        const char* symbol;
        int exponent;
    } parts[] = {{"g", d.mass},
                 {volume ? "mL" : "cm", volume ? d.length / 3 : d.length},
                 {"s", d.time},
                 {"K", d.temperature},
                 {"piece", d.count}};
    std::string above;
    std::string below;
    for (const auto& part : parts) {
        if (part.exponent == 0) continue;
        std::string& side = part.exponent > 0 ? above : below;
        const int exponent = std::abs(part.exponent);
        side += fmt::format("{}{}", side.empty() ? "" : "*", part.symbol);
        if (exponent > 1) side += fmt::format("^{}", exponent);
    }
    if (below.empty()) return above;
    return fmt::format("{}/{}", above.empty() ? "1" : above, below);
}

std::string shortened(std::string text) {
    if (text.size() <= most_words) return text;
    std::size_t end = most_words;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80)
        --end;
    return text.substr(0, end) + "…";
}

/// How tightly an operation binds, for its parentheses.
int binding(Op op) {
    switch (op) {
    case Op::choose:
        return 0;
    case Op::both:
    case Op::either:
    case Op::negation:
        return 1;
    case Op::less:
    case Op::less_equal:
        return 2;
    case Op::add:
    case Op::subtract:
        return 3;
    case Op::multiply:
    case Op::divide:
        return 4;
    case Op::negate:
        return 5;
    case Op::power:
    case Op::whole_power:
        return 6;
    default:
        return 7;
    }
}

std::string_view sign(Op op) {
    switch (op) {
    case Op::add:
        return " + ";
    case Op::subtract:
        return " - ";
    case Op::multiply:
        return " × ";
    case Op::divide:
        return " / ";
    case Op::power:
    case Op::whole_power:
        return "^";
    case Op::less:
        return " < ";
    case Op::less_equal:
        return " ≤ ";
    case Op::both:
        return " and ";
    case Op::either:
        return " or ";
    default:
        return {};
    }
}

std::string_view function(Op op) {
    switch (op) {
    case Op::min:
        return "min";
    case Op::max:
        return "max";
    case Op::abs:
        return "abs";
    case Op::sqrt:
        return "sqrt";
    case Op::round:
        return "round";
    case Op::floor:
        return "floor";
    case Op::ceil:
        return "ceil";
    default:
        return {};
    }
}

bool is_leaf(Op op) {
    return op == Op::constant || op == Op::cell || op == Op::unknown;
}

bool is_sum(Op op) {
    return op == Op::add || op == Op::subtract;
}

} // namespace

std::string working_text(double value, const Type& type, bool percent) {
    if (type.sort == Type::Sort::truth) return value != 0 ? "yes" : "no";
    if (type.sort == Type::Sort::temperature_point) return units::print_temperature(value);
    if (percent) return units::print_number(value * 100, digits) + " %";
    const Dimension d = type.dimension;
    if (d.plain()) return units::print_number(value, digits);
    if (d == units::dim::count) return units::print_number(value, digits) + " pieces";
    if (d == units::dim::temperature) return units::print_number(value, digits) + " °C";
    if (d == units::dim::time) return units::print_time(value);
    return units::print_number(value, digits) + " " + unit_of(type);
}

std::string outward_text(double value, const Type& type, bool percent, bool up) {
    const bool scaled = type.sort == Type::Sort::number && std::isfinite(value) && value != 0 &&
                        type.dimension != units::dim::time;
    if (scaled) {
        const double shown = percent ? value * 100 : value;
        const double step = std::pow(10.0, std::floor(std::log10(std::fabs(shown))) - 4);
        const double steps = shown / step;
        const double noise = 1e-6; // nearer than that to a step is on it
        const double whole = up ? std::ceil(steps - noise) : std::floor(steps + noise);
        value = percent ? whole * step / 100 : whole * step;
    }
    return working_text(value, type, percent);
}

TraceValue trace_value(double value, units::Interval bounds, const Type& type, bool percent) {
    TraceValue v;
    v.value = value;
    v.bounds = bounds;
    v.dimension = type.dimension;
    v.percent = percent;
    const bool prints_itself = type.sort != Type::Sort::number || percent || type.dimension.plain();
    v.text = prints_itself || type.dimension == units::dim::count ||
                     type.dimension == units::dim::temperature
                 ? working_text(value, type, percent)
                 : units::print_value(value, type.dimension);
    v.low_text = outward_text(bounds.low, type, percent, false);
    v.high_text = outward_text(bounds.high, type, percent, true);
    v.sort = sheet::describe(type);
    return v;
}

Working::Working(Model& model)
    : model_(model)
    , as_weighed_(model) {
    const language::Expressions& pool = model.document->expressions;
    for (language::NodeId id = 0; id < pool.nodes.size(); ++id) {
        const language::Node& n = pool[id];
        const Key key{n.place.begin, n.place.end};
        if (n.kind == NodeKind::amount || n.kind == NodeKind::unit) leaves_[key] = id;
        using language::Function;
        if (n.kind == NodeKind::call && n.function == Function::cover) covers_[key] = id;
        if (n.kind == NodeKind::call && n.b == 2 &&
            (n.function == Function::round || n.function == Function::floor ||
             n.function == Function::ceil))
            roundings_[key] = id;
    }
}

const language::Node* Working::node_at(Place place) const {
    if (place.empty()) return nullptr;
    const auto found = leaves_.find({place.begin, place.end});
    return found == leaves_.end() ? nullptr : &model_.document->expressions[found->second];
}

bool Working::rounding_at(Place place) const {
    return !place.empty() && roundings_.count({place.begin, place.end}) != 0;
}

bool Working::cover_at(Place place) const {
    return !place.empty() && covers_.count({place.begin, place.end}) != 0;
}

const units::Amount* Working::amount_at(Place place) const {
    const language::Node* n = node_at(place);
    if (n == nullptr || n->kind != NodeKind::amount) return nullptr;
    return &model_.document->expressions.amounts[n->index];
}

const units::CompoundUnit* Working::unit_at(Place place) const {
    const language::Node* n = node_at(place);
    if (n == nullptr || n->kind != NodeKind::unit) return nullptr;
    return &model_.document->expressions.units[n->index];
}

std::string Working::written(Place place) const {
    return std::string(model_.document->source.at(place));
}

std::vector<Shape> Working::shapes(const Formula& formula, const Type& type) const {
    std::vector<Shape> out(formula.steps.size());
    std::vector<Key> seen; // what follows at the same place are the kitchen's measures: ratios
    const auto first_at = [&](Place place) {
        const Key key{place.begin, place.end};
        if (std::find(seen.begin(), seen.end(), key) != seen.end()) return false;
        seen.push_back(key);
        return true;
    };
    for (std::size_t i = 0; i < formula.steps.size(); ++i) {
        const Step& s = formula.steps[i];
        Shape& shape = out[i];
        switch (s.op) {
        case Op::constant:
        case Op::unknown: {
            if (s.op == Op::unknown && model_.sheet->unknowns()[s.a].place.empty()) {
                const std::string& label = model_.sheet->unknowns()[s.a].label;
                if (label.starts_with("how dense") || label.ends_with("lies in the spoon"))
                    shape.type.dimension = units::dim::density;
                else if (label.starts_with("what one "))
                    shape.type.dimension = units::dim::mass;
                break;
            }
            const units::Amount* a = amount_at(s.place);
            const units::CompoundUnit* u = unit_at(s.place);
            if ((a == nullptr && u == nullptr) || !first_at(s.place)) break;
            shape.literal = true;
            if (u != nullptr) {
                shape.bare_unit = true;
                shape.type.dimension = u->dimension().value_or(Dimension{});
            } else {
                shape.type.dimension = a->dimension;
                shape.percent = a->percent;
                if (a->temperature_point && s.value == a->value)
                    shape.type.sort = Type::Sort::temperature_point;
            }
            break;
        }
        case Op::cell:
            shape.type = model_.sheet->cell(s.a).type;
            break;
        case Op::multiply:
            shape.type.dimension = units::multiply(out[s.a].type.dimension, out[s.b].type.dimension)
                                       .value_or(Dimension{});
            break;
        case Op::divide:
            shape.type.dimension = units::divide(out[s.a].type.dimension, out[s.b].type.dimension)
                                       .value_or(Dimension{});
            break;
        case Op::whole_power:
            shape.type.dimension =
                units::power(out[s.a].type.dimension, static_cast<std::int32_t>(s.b))
                    .value_or(Dimension{});
            break;
        case Op::sqrt:
            shape.type.dimension =
                units::square_root(out[s.a].type.dimension).value_or(Dimension{});
            break;
        case Op::subtract:
            shape.type = out[s.a].type;
            if (out[s.b].type.sort == Type::Sort::temperature_point)
                shape.type.sort = Type::Sort::number;
            break;
        case Op::choose:
            shape.type = out[s.b].type;
            break;
        case Op::less:
        case Op::less_equal:
        case Op::both:
        case Op::either:
        case Op::negation:
            shape.type.sort = Type::Sort::truth;
            break;
        default:
            shape.type = out[s.a].type;
            break;
        }
    }
    if (!out.empty()) out.back().type = type;
    return out;
}

std::vector<double> Working::values(const Formula& formula, By by) {
    sheet::Sheet& sheet = *model_.sheet;
    return sheet::evaluate_steps<double>(
        formula,
        [&](sheet::CellId id) {
            return by == By::what_is_in ? as_weighed_.value(id) : sheet.value(id);
        },
        [&](sheet::UnknownId id) { return sheet.unknowns()[id].typical; });
}

std::string Working::leaf_words(const Step& step, const Shape& shape, double value) const {
    if (step.op == Op::cell) return model_.sheet->cell(step.a).name;
    if (shape.literal) return written(step.place);
    if (step.op == Op::unknown) {
        const sheet::Unknown& u = model_.sheet->unknowns()[step.a];
        if (u.label == "as stated") return written(u.place);
        return "[" + u.label + "]";
    }
    return working_text(value, shape.type);
}

std::vector<TraceOperation> Working::operations(const Formula& formula, const Type& type, By by) {
    const std::vector<Shape> shape = shapes(formula, type);
    const std::vector<double> value = values(formula, by);
    const std::size_t count = formula.steps.size();
    std::vector<std::string> words(count);
    std::vector<int> bind(count, 7);
    std::vector<std::string> sums(count); // a sum so far, as figures
    std::vector<bool> merged(count, false);
    std::vector<TraceOperation> found(count);
    std::vector<bool> shown(count, false);

    const auto guarded = [](const std::string& text, bool in_parentheses) {
        return in_parentheses ? "(" + text + ")" : text;
    };
    const auto figure = [&](std::uint32_t i) {
        const std::string text = working_text(value[i], shape[i].type);
        return value[i] < 0 ? "(" + text + ")" : text;
    };
    for (std::size_t i = 0; i < count; ++i) {
        const Step& s = formula.steps[i];
        if (is_leaf(s.op)) {
            words[i] = leaf_words(s, shape[i], value[i]);
            continue;
        }
        bind[i] = binding(s.op);
        std::string figures;
        const auto operand = [&](std::uint32_t k, bool right) {
            return guarded(words[k], bind[k] < bind[i] || (right && bind[k] == bind[i]));
        };
        if (!sign(s.op).empty() && s.op != Op::whole_power) {
            words[i] = fmt::format("{}{}{}", operand(s.a, false), sign(s.op), operand(s.b, true));
            // A chain of + and - is one line.
            const bool chain = is_sum(s.op) && is_sum(formula.steps[s.a].op);
            if (chain) merged[s.a] = true;
            figures =
                fmt::format("{}{}{}", chain ? sums[s.a] : figure(s.a), sign(s.op), figure(s.b));
            if (is_sum(s.op)) sums[i] = figures;
        } else if (s.op == Op::whole_power) {
            const auto exponent = static_cast<std::int32_t>(s.b);
            words[i] = fmt::format("{}^{}", operand(s.a, true), exponent);
            figures = fmt::format("({})^{}", figure(s.a), exponent);
        } else if (s.op == Op::negate) {
            words[i] = "-" + operand(s.a, true);
        } else if (s.op == Op::negation) {
            words[i] = "not " + operand(s.a, true);
        } else if (s.op == Op::choose) {
            words[i] = fmt::format("if {} then {} else {}", words[s.a], words[s.b], words[s.c]);
            figures = fmt::format("if {} then {} else {}", figure(s.a), figure(s.b), figure(s.c));
        } else {
            const bool two = s.op == Op::min || s.op == Op::max;
            words[i] = two ? fmt::format("{}({}, {})", function(s.op), words[s.a], words[s.b])
                           : fmt::format("{}({})", function(s.op), words[s.a]);
            figures = two ? fmt::format("{}({}, {})", function(s.op), figure(s.a), figure(s.b))
                          : fmt::format("{}({})", function(s.op), figure(s.a));
        }
        // That cover() is never less than the room of the vessel, nor than nothing, is shown only
        // where it matters.
        if ((s.op == Op::max) && cover_at(s.place) && value[i] == value[s.a]) {
            words[i] = words[s.a];
            bind[i] = bind[s.a];
            continue;
        }
        // Rounding to a step is several operations here, and one to the reader.
        if (rounding_at(s.place)) {
            words[i] = written(s.place);
            bind[i] = 7;
            figures.clear();
            const bool last = i + 1 == count || !(formula.steps[i + 1].place == s.place);
            if (!last) continue;
        }
        words[i] = shortened(std::move(words[i]));
        found[i] = {words[i], shortened(std::move(figures)), working_text(value[i], shape[i].type),
                    sheet::describe(shape[i].type)};
        shown[i] = true;
    }
    std::vector<TraceOperation> out;
    for (std::size_t i = 0; i < count; ++i)
        if (shown[i] && !merged[i]) out.push_back(std::move(found[i]));
    return out;
}

} // namespace jarful::plan
