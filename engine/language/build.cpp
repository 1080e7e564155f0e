#include "engine/language/build.hpp"

#include "engine/language/characters.hpp"

#include <algorithm>
#include <utility>

namespace jarful::language {

namespace {

std::uint16_t height(const State& state, NodeId id) {
    return id == no_node ? std::uint16_t{0} : state.heights[id];
}

NodeId push(State& state, const Node& node, std::uint16_t below) {
    if (below >= tree_height)
        refuse("long-expression", node.place,
               "This expression is too long: more than " + std::to_string(tree_height) +
                   " operations hang on one another.",
               "Give parts of it names of their own with \"let\" lines.");
    state.pool.nodes.push_back(node);
    state.heights.push_back(static_cast<std::uint16_t>(below + 1));
    return static_cast<NodeId>(state.pool.nodes.size() - 1);
}

/// The `of` in an unparenthesised chain of products, or no_node.
NodeId bare_of(const State& state, NodeId id) {
    while (true) {
        const Node& n = state.pool[id];
        if (n.parenthesised) return no_node;
        if (n.kind == NodeKind::of) return id;
        if (n.kind != NodeKind::multiply && n.kind != NodeKind::divide) return no_node;
        id = n.a;
    }
}

/// A division by anything but a bare unit in an unparenthesised chain of products, or no_node.
NodeId bare_division(const State& state, NodeId id) {
    while (true) {
        const Node& n = state.pool[id];
        if (n.parenthesised) return no_node;
        if (n.kind == NodeKind::divide && state.pool[n.b].kind != NodeKind::unit) return id;
        if (n.kind != NodeKind::multiply && n.kind != NodeKind::divide && n.kind != NodeKind::of)
            return no_node;
        id = n.a;
    }
}

/// Whether an operand begins with a number written with a stroke: `1/2`, `1 1/2`.
bool begins_with_fraction(const State& state, NodeId id) {
    while (!state.pool[id].parenthesised && state.pool[id].kind == NodeKind::per)
        id = state.pool[id].a;
    const Node& n = state.pool[id];
    if (n.parenthesised || n.kind != NodeKind::amount) return false;
    for (const char c : state.at(n.place)) {
        if (c == '/') return true;
        if (!is_digit(c) && c != ' ' && c != '\t') return false;
    }
    return false;
}

std::string words(const State& state, Place place) {
    return own_words(state.at(place));
}

std::string words(const State& state, NodeId id) {
    return words(state, state.pool[id].place);
}

/// Offers both readings, in words and to be written.
[[noreturn]] void refuse_two_ways(const char* code, Place whole, std::string message,
                                  const std::string& first, const std::string& second,
                                  const std::string& more = {}) {
    refuse(code, whole, std::move(message), "Write \"" + first + "\" or \"" + second + "\"." + more,
           fixes_with(whole, {first, second}));
}

[[noreturn]] void refuse_of_beside_sum(const State& state, NodeId left, const Operation& op,
                                       NodeId of, bool of_is_left) {
    const Place whole{state.pool[left].place.begin, state.pool[op.right].place.end};
    const Node& n = state.pool[of];
    const std::string sign = " " + std::string(state.at(op.sign.place)) + " ";
    const NodeId side = of_is_left ? left : op.right;
    const std::string before = words(state, {state.pool[side].place.begin, n.sign.begin});
    const std::string after = words(state, {n.sign.end, state.pool[side].place.end});
    const std::string other = words(state, of_is_left ? op.right : left);
    const std::string first = of_is_left ? before + " of (" + after + sign + other + ")"
                                         : "(" + other + sign + before + ") of " + after;
    const std::string second = of_is_left ? "(" + before + " of " + after + ")" + sign + other
                                          : other + sign + "(" + before + " of " + after + ")";
    refuse_two_ways("ambiguous-of", whole,
                    std::string("This can be read two ways, because \"") +
                        std::string(state.at(op.sign.place)) +
                        "\" stands beside an \"of\" without parentheses.",
                    first, second);
}

void check_products(const State& state, NodeId left, const Operation& op) {
    const Place whole{state.pool[left].place.begin, state.pool[op.right].place.end};
    if (op.sign.kind == NodeKind::of) {
        const NodeId division = bare_division(state, left);
        if (division == no_node) return;
        const Node& n = state.pool[division];
        const std::string before = words(state, {state.pool[left].place.begin, n.sign.begin});
        const std::string after = words(state, {n.sign.end, state.pool[left].place.end});
        const std::string right = words(state, op.right);
        refuse_two_ways("ambiguous-slash", whole,
                        "This can be read two ways, because a \"/\" stands before an \"of\" "
                        "without parentheses.",
                        "(" + before + " / " + after + ") of " + right,
                        before + " / (" + after + " of " + right + ")");
    }
    if (op.sign.kind == NodeKind::divide && begins_with_fraction(state, op.right)) {
        const std::string left_text = words(state, left);
        const std::string right = words(state, op.right);
        std::string spaced = right;
        if (const std::size_t stroke = spaced.find('/'); stroke != std::string::npos)
            spaced.replace(stroke, 1, " / ");
        refuse_two_ways(
            "ambiguous-slash", whole,
            "This can be read two ways, because a fraction follows straight after a \"/\".",
            left_text + " / (" + right + ")", left_text + " / " + spaced);
    }
}

void check_power(const State& state, NodeId base, const Operation& op) {
    const Node& n = state.pool[base];
    if (n.parenthesised) return;
    const Place whole{n.place.begin, state.pool[op.right].place.end};
    const std::string left = words(state, base);
    const std::string right = words(state, op.right);
    if (n.kind == NodeKind::power) {
        refuse_two_ways("ambiguous-power", whole,
                        "This can be read two ways: powers are not chained.",
                        "(" + left + ")^" + right,
                        words(state, n.a) + "^(" + words(state, n.b) + "^" + right + ")");
    }
    if (n.kind != NodeKind::amount) return;
    const units::Amount& amount = state.pool.amounts[n.index];
    if (begins_with_fraction(state, base)) {
        std::string spaced = left;
        if (const std::size_t stroke = spaced.find('/'); stroke != std::string::npos)
            spaced.replace(stroke, 1, " / ");
        refuse_two_ways(
            "ambiguous-power", whole,
            "This can be read two ways, because a fraction stands straight before \"^\".",
            "(" + left + ")^" + right, spaced + "^" + right);
    }
    if (!amount.plain_number || amount.fraction || amount.range || amount.uncertain) {
        const bool unit = !amount.plain_number && !amount.percent;
        const std::string message =
            "This can be read two ways, because an amount stands straight before \"^\".";
        const std::string inside = "(" + left + ")^" + right;
        if (unit)
            refuse_two_ways("ambiguous-power", whole, message, inside, left + "^" + right,
                            " Without blanks, the power belongs to the unit alone.");
        refuse("ambiguous-power", whole, message, "Write \"" + inside + "\".",
               fixes_with(whole, {inside}));
    }
}

void check_comparison(const State& state, NodeId left, const Operation& op) {
    const Node& n = state.pool[left];
    if (n.parenthesised || n.kind < NodeKind::less || n.kind > NodeKind::greater_equal) return;
    const Place whole{n.place.begin, state.pool[op.right].place.end};
    const std::string both = words(state, left) + " and " + words(state, n.b) + " " +
                             std::string(state.at(op.sign.place)) + " " + words(state, op.right);
    refuse("chained-comparison", whole, "Comparisons are not chained.", "Write \"" + both + "\".",
           fixes_with(whole, {both}));
}

} // namespace

NodeId add_amount(State& state, const Literal& literal) {
    Node n;
    n.kind = NodeKind::amount;
    n.place = literal.place;
    n.index = static_cast<std::uint32_t>(state.pool.amounts.size());
    state.pool.amounts.push_back(literal.amount);
    return push(state, n, 0);
}

NodeId add_unit(State& state, units::CompoundUnit unit, Place place) {
    Node n;
    n.kind = NodeKind::unit;
    n.place = place;
    n.index = static_cast<std::uint32_t>(state.pool.units.size());
    state.pool.units.push_back(unit);
    return push(state, n, 0);
}

NodeId add_name(State& state, std::string name, Place place) {
    Node n;
    n.kind = NodeKind::name;
    n.place = place;
    n.index = static_cast<std::uint32_t>(state.pool.names.size());
    state.pool.names.push_back(std::move(name));
    return push(state, n, 0);
}

NodeId add_prefix(State& state, NodeKind kind, Place sign, NodeId operand) {
    Node n;
    n.kind = kind;
    n.sign = sign;
    n.place = {sign.begin, state.pool[operand].place.end};
    n.a = operand;
    return push(state, n, height(state, operand));
}

NodeId add_binary(State& state, NodeId left, const Operation& op) {
    const NodeKind kind = op.sign.kind;
    if (kind == NodeKind::add || kind == NodeKind::subtract) {
        if (const NodeId of = bare_of(state, left); of != no_node)
            refuse_of_beside_sum(state, left, op, of, true);
        if (const NodeId of = bare_of(state, op.right); of != no_node)
            refuse_of_beside_sum(state, left, op, of, false);
    } else if (kind == NodeKind::of || kind == NodeKind::divide) {
        check_products(state, left, op);
    } else if (kind == NodeKind::power) {
        check_power(state, left, op);
    } else if (kind >= NodeKind::less && kind <= NodeKind::greater_equal) {
        check_comparison(state, left, op);
    }
    Node n;
    n.kind = kind;
    n.sign = op.sign.place;
    n.place = {state.pool[left].place.begin, state.pool[op.right].place.end};
    n.a = left;
    n.b = op.right;
    return push(state, n, std::max(height(state, left), height(state, op.right)));
}

NodeId add_choice(State& state, const Choice& choice) {
    Node n;
    n.kind = NodeKind::choose;
    n.sign = choice.sign.place;
    n.place = {choice.sign.place.begin, state.pool[choice.no].place.end};
    n.a = choice.condition;
    n.b = choice.yes;
    n.c = choice.no;
    return push(state, n, std::max({height(state, n.a), height(state, n.b), height(state, n.c)}));
}

NodeId add_call(State& state, const Call& call) {
    Node n;
    n.kind = NodeKind::call;
    n.function = call.name.function;
    n.sign = call.name.place;
    n.place = {call.name.place.begin, call.close.end};
    const std::size_t given = call.arguments.size();
    const std::string name(function_name(n.function));
    const char* wants = nullptr;
    switch (n.function) {
    case Function::abs:
    case Function::sqrt:
        if (given != 1) wants = "one value in its parentheses";
        break;
    case Function::round:
    case Function::floor:
    case Function::ceil:
        if (given > 2) wants = "a value, and a step if need be: round(cabbage / 3, 5 g)";
        break;
    case Function::cover:
        if (given != 2)
            wants = "two values, the produce and its packed density: "
                    "cover(cucumbers, 0.58 kg/L)";
        break;
    case Function::min:
    case Function::max:
        if (given < 2) wants = "two values or more: min(a, b)";
        break;
    }
    if (wants != nullptr)
        refuse("wrong-arguments", n.place,
               "\"" + name + "\" does not work with " + std::to_string(given) +
                   (given == 1 ? " value." : " values."),
               "It takes " + std::string(wants) + ".");
    n.a = static_cast<NodeId>(state.pool.arguments.size());
    n.b = static_cast<NodeId>(given);
    std::uint16_t below = 0;
    for (const NodeId argument : call.arguments) {
        state.pool.arguments.push_back(argument);
        below = std::max(below, height(state, argument));
    }
    return push(state, n, below);
}

void parenthesise(State& state, NodeId node, Place open, Place close) {
    Node& n = state.pool.nodes[node];
    n.parenthesised = true;
    n.place = {open.begin, close.end};
}

void check_bounds(const State& state, NodeId low, NodeId high) {
    const Node& a = state.pool[low];
    const Node& b = state.pool[high];
    if (a.kind != NodeKind::amount || b.kind != NodeKind::amount) return;
    const units::Amount& first = state.pool.amounts[a.index];
    const units::Amount& second = state.pool.amounts[b.index];
    if (!first.plain_number || second.plain_number) return;
    std::string with_unit = words(state, low) + " " + second.unit.text();
    refuse("ambiguous-between", {a.place.begin, b.place.end},
           "The first bound has no unit and the second has one, so the first could be a plain "
           "number.",
           "Write \"between " + with_unit + " and " + words(state, high) + "\".",
           fixes_with({a.place.begin, b.place.end}, {with_unit + " and " + words(state, high)}));
}

} // namespace jarful::language
