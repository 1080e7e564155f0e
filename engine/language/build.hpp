#pragma once

#include "engine/language/state.hpp"

/// Nodes for the pool, and the refusals that need both sides of an operator to be seen.
namespace jarful::language {

/// An operator or a parenthesis, with its place.
struct Sign {
    NodeKind kind = NodeKind::add;
    Place place;
};

struct Operation {
    Sign sign;
    NodeId right = no_node;
};

struct FunctionWord {
    Function function = Function::min;
    Place place;
};

struct Call {
    FunctionWord name;
    std::vector<NodeId> arguments;
    Place close;
};

struct Choice {
    Sign sign;
    NodeId condition = no_node, yes = no_node, no = no_node;
};

[[nodiscard]] NodeId add_amount(State& state, const Literal& literal);
[[nodiscard]] NodeId add_unit(State& state, units::CompoundUnit unit, Place place);
[[nodiscard]] NodeId add_name(State& state, std::string name, Place place);
[[nodiscard]] NodeId add_prefix(State& state, NodeKind kind, Place sign, NodeId operand);
/// Refuses what could be read two ways.
[[nodiscard]] NodeId add_binary(State& state, NodeId left, const Operation& operation);
[[nodiscard]] NodeId add_choice(State& state, const Choice& choice);
/// Refuses a wrong number of arguments.
[[nodiscard]] NodeId add_call(State& state, const Call& call);
/// Marks a node as written in parentheses.
void parenthesise(State& state, NodeId node, Place open, Place close);
/// Refuses `between 2 and 2.5 %`.
void check_bounds(const State& state, NodeId low, NodeId high);

} // namespace jarful::language
