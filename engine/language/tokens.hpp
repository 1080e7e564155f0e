#pragma once

#include "engine/language/build.hpp"
#include "engine/language/state.hpp"

/// Readers of the smallest pieces of a line. Each skips the blanks before it, moves `first` behind
/// what it read and returns true, or returns false if something else stands there, or refuses what
/// can only be meant as that piece and is wrong.
namespace jarful::language {

[[nodiscard]] bool read_keyword(Cursor& first, Cursor last, State& state, std::string_view word);
[[nodiscard]] bool read_symbol(Cursor& first, Cursor last, State& state, std::string_view symbol);

/// A name that is given here; refuses reserved words.
[[nodiscard]] bool read_new_name(Cursor& first, Cursor last, State& state, Word& out);
/// A word with hyphens: `whole-head`.
[[nodiscard]] bool read_word(Cursor& first, Cursor last, State& state, Word& out);
/// The words of a material up to the next part of the tail.
[[nodiscard]] bool read_material(Cursor& first, Cursor last, State& state, Word& out);
[[nodiscard]] bool read_role(Cursor& first, Cursor last, State& state, Word& out);
[[nodiscard]] bool read_task(Cursor& first, Cursor last, State& state, Word& out);
[[nodiscard]] bool read_period(Cursor& first, Cursor last, State& state, Period& out);
[[nodiscard]] bool read_cold(Cursor& first, Cursor last, State& state, Word& out);
[[nodiscard]] bool read_spoons(Cursor& first, Cursor last, State& state, units::Spoons& out);
/// What a kitchen shows: `us` or `metric`.
[[nodiscard]] bool read_system(Cursor& first, Cursor last, State& state, units::Shown::System& out);
[[nodiscard]] bool read_whole(Cursor& first, Cursor last, State& state, Whole& out);
[[nodiscard]] bool read_deed(Cursor& first, Cursor last, State& state, Word& out);
/// `2026-11-25`; refuses days that no calendar has.
[[nodiscard]] bool read_day(Cursor& first, Cursor last, State& state, Day& out);
[[nodiscard]] bool read_literal(Cursor& first, Cursor last, State& state, Literal& out);
[[nodiscard]] bool read_text(Cursor& first, Cursor last, State& state, Text& out);
[[nodiscard]] bool read_template(Cursor& first, Cursor last, State& state, Template& out);

// ---- Of expressions. ----

[[nodiscard]] bool read_amount_node(Cursor& first, Cursor last, State& state, NodeId& out);
[[nodiscard]] bool read_unit_node(Cursor& first, Cursor last, State& state, NodeId& out);
[[nodiscard]] bool read_name_node(Cursor& first, Cursor last, State& state, NodeId& out);
/// The exponent's digits as an amount; refuses `2^1/2` and `2^1.5`.
[[nodiscard]] bool read_exponent(Cursor& first, Cursor last, State& state, NodeId& out);
/// A function's name, if an opening parenthesis follows.
[[nodiscard]] bool read_function(Cursor& first, Cursor last, State& state, FunctionWord& out);
[[nodiscard]] bool read_open(Cursor& first, Cursor last, State& state, Place& out);
[[nodiscard]] bool read_close(Cursor& first, Cursor last, State& state, Place& out);
[[nodiscard]] bool read_minus(Cursor& first, Cursor last, State& state, Sign& out);
[[nodiscard]] bool read_not(Cursor& first, Cursor last, State& state, Sign& out);
[[nodiscard]] bool read_if(Cursor& first, Cursor last, State& state, Sign& out);
/// Looks which operator stands behind an operand that ends at `at`.
void look_for_operator(Cursor at, Cursor last, State& state);

/// An operator of the kinds from `From` to `To`. Every level of the grammar asks for its own: only
/// the first of them looks.
template <NodeKind From, NodeKind To = From>
[[nodiscard]] bool read_operator(Cursor& first, Cursor last, State& state, Sign& out) {
    const OperatorBehind& behind = state.behind;
    if (behind.asked != first || behind.last != last) look_for_operator(first, last, state);
    if (!behind.kind || *behind.kind < From || *behind.kind > To) return false;
    out = {*behind.kind, state.place(behind.begin, behind.end)};
    first = behind.end;
    return true;
}

// ---- Whole expressions, from grammar_expression.cpp: tokens to the statements' grammar. ----

/// An `expr` of the grammar.
[[nodiscard]] bool read_expression(Cursor& first, Cursor last, State& state, NodeId& out);
/// A `sum`: no comparison, no `and`.
[[nodiscard]] bool read_sum(Cursor& first, Cursor last, State& state, NodeId& out);
/// A `rate`: what may stand before an `of`.
[[nodiscard]] bool read_rate(Cursor& first, Cursor last, State& state, NodeId& out);

} // namespace jarful::language
