#include "engine/language/grammar_config.hpp"

/// The grammar of expressions: docs/language.md, from `expr` down to `primary`. Each rule's value
/// is the node it built.
namespace jarful::language {

namespace grammar {

namespace {

// ---- Tokens. ----

/// Of tokens that stand behind no `>`, so that nobody reads it.
constexpr std::string_view an_operator = "expected-word|an operator";

bool read_times_or_of(Cursor& first, Cursor last, State& state, Sign& out) {
    return read_operator<NodeKind::multiply>(first, last, state, out) ||
           read_operator<NodeKind::of>(first, last, state, out);
}

constexpr Token<NodeId, read_amount_node> amount_node{"expected-quantity|a quantity"};
constexpr Token<NodeId, read_unit_node> unit_node{"expected-unit|a unit"};
constexpr Token<NodeId, read_name_node> name_node{"expected-quantity|a quantity"};
constexpr Token<NodeId, read_exponent> exponent_digits{"expected-whole|a whole number"};
constexpr Token<FunctionWord, read_function> function_word{"expected-quantity|a quantity"};
constexpr Token<Place, read_open> open{an_operator};
constexpr Token<Place, read_close> close{"expected-close|\")\""};
constexpr Token<Sign, read_minus> minus{"expected-quantity|a quantity"};
constexpr Token<Sign, read_not> not_sign{"expected-quantity|a condition"};
constexpr Token<Sign, read_if> if_sign{"expected-quantity|a quantity"};
constexpr Token<Sign, read_operator<NodeKind::power>> power_sign{an_operator};
constexpr Token<Sign, read_operator<NodeKind::per>> per_sign{an_operator};
constexpr Token<Sign, read_operator<NodeKind::divide>> divide_sign{an_operator};
constexpr Token<Sign, read_times_or_of> times_sign{an_operator};
constexpr Token<Sign, read_operator<NodeKind::add, NodeKind::subtract>> plus_sign{an_operator};
constexpr Token<Sign, read_operator<NodeKind::less, NodeKind::greater_equal>> comparison_sign{
    an_operator};
constexpr Token<Sign, read_operator<NodeKind::both>> and_sign{an_operator};
constexpr Token<Sign, read_operator<NodeKind::either>> or_sign{an_operator};

// ---- Actions. ----

template <class C>
State& state_of(C& context) {
    return x3::get<state_tag>(context);
}

/// The first operand is the value so far.
struct StartAction {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context) = x3::_attr(context);
    }
};
constexpr StartAction start{};

/// An operator and its right operand take the value so far as their left one.
struct CombineAction {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context) = add_binary(state_of(context), x3::_val(context), x3::_attr(context));
    }
};
constexpr CombineAction combine{};

struct PrefixAction {
    template <class C>
    void operator()(C& context) const {
        const Operation& op = x3::_attr(context);
        x3::_val(context) = add_prefix(state_of(context), op.sign.kind, op.sign.place, op.right);
    }
};
constexpr PrefixAction prefix{};

struct Group {
    Place open;
    NodeId inner = no_node;
    Place close;
};

struct GroupAction {
    template <class C>
    void operator()(C& context) const {
        const Group& g = x3::_attr(context);
        parenthesise(state_of(context), g.inner, g.open, g.close);
        x3::_val(context) = g.inner;
    }
};
constexpr GroupAction group_action{};

struct ChoiceAction {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context) = add_choice(state_of(context), x3::_attr(context));
    }
};
constexpr ChoiceAction choice_action{};

struct CallAction {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context) = add_call(state_of(context), x3::_attr(context));
    }
};
constexpr CallAction call_action{};

struct ArgumentAction {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context).arguments.push_back(x3::_attr(context));
    }
};
constexpr ArgumentAction argument{};

// ---- Rules, from the loosest to the tightest. ----

constexpr const char* a_quantity = "expected-quantity|a quantity";
constexpr const char* a_condition = "expected-quantity|a condition";

const x3::rule<struct expr_rule, NodeId> expr{a_quantity};
const x3::rule<struct choice_rule, Choice> choice{a_quantity};
const x3::rule<struct condition_rule, NodeId> condition{a_condition};
const x3::rule<struct or_rule, Operation> or_part{a_condition};
const x3::rule<struct conjunction_rule, NodeId> conjunction{a_condition};
const x3::rule<struct and_rule, Operation> and_part{a_condition};
const x3::rule<struct negation_rule, NodeId> negation{a_quantity};
const x3::rule<struct not_rule, Operation> not_part{a_condition};
const x3::rule<struct comparison_rule, NodeId> comparison{a_quantity};
const x3::rule<struct comparison_part_rule, Operation> comparison_part{a_quantity};
const x3::rule<struct sum_rule, NodeId> sum{a_quantity};
const x3::rule<struct sum_part_rule, Operation> sum_part{a_quantity};
const x3::rule<struct product_rule, NodeId> product{a_quantity};
const x3::rule<struct product_part_rule, Operation> product_part{a_quantity};
const x3::rule<struct rate_rule, NodeId> rate{a_quantity};
const x3::rule<struct rate_part_rule, Operation> rate_part{a_quantity};
const x3::rule<struct signed_rule, NodeId> signed_value{a_quantity};
const x3::rule<struct minus_rule, Operation> minus_part{a_quantity};
const x3::rule<struct power_rule, NodeId> power{a_quantity};
const x3::rule<struct power_part_rule, Operation> power_part{a_quantity};
const x3::rule<struct exponent_rule, NodeId> exponent{
    "expected-whole|a whole number, or something in parentheses,"};
const x3::rule<struct minus_digits_rule, Operation> minus_digits{"expected-whole|a whole number"};
const x3::rule<struct primary_rule, NodeId> primary{a_quantity};
const x3::rule<struct call_rule, Call> call{a_quantity};
const x3::rule<struct group_rule, Group> group{a_quantity};

const auto sign = put<&Operation::sign>;
const auto right = put<&Operation::right>;

const auto choice_def = if_sign[put<&Choice::sign>] >
                        nested[expr[put<&Choice::condition>] > word("then") >
                               expr[put<&Choice::yes>] > word("else") > expr[put<&Choice::no>]];
const auto expr_def = choice[choice_action] | condition[start];

const auto or_part_def = or_sign[sign] > conjunction[right];
const auto condition_def = conjunction[start] >> *or_part[combine];
const auto and_part_def = and_sign[sign] > negation[right];
const auto conjunction_def = negation[start] >> *and_part[combine];
const auto not_part_def = not_sign[sign] > nested[negation[right]];
const auto negation_def = not_part[prefix] | comparison[start];
const auto comparison_part_def = comparison_sign[sign] > sum[right];
// A chained comparison is read in order to be refused; so is a chained power below.
const auto comparison_def = sum[start] >> *comparison_part[combine];

const auto sum_part_def = plus_sign[sign] > product[right];
const auto sum_def = product[start] >> *sum_part[combine];
const auto product_part_def =
    (divide_sign[sign] > (unit_node[right] | rate[right])) | (times_sign[sign] > rate[right]);
const auto product_def = rate[start] >> *product_part[combine];
const auto rate_part_def = per_sign[sign] > (unit_node[right] | signed_value[right]);
const auto rate_def = signed_value[start] >> *rate_part[combine];

const auto minus_part_def = minus[sign] > nested[signed_value[right]];
const auto signed_value_def = minus_part[prefix] | power[start];
const auto minus_digits_def = minus[sign] > exponent_digits[right];
const auto exponent_def = exponent_digits[start] | minus_digits[prefix] | group[group_action];
const auto power_part_def = power_sign[sign] > exponent[right];
const auto power_def = primary[start] >> *power_part[combine];

const auto group_def =
    (open[put<&Group::open>] > nested[expr[put<&Group::inner>]]) > close[put<&Group::close>];
const auto call_def =
    ((function_word[put<&Call::name>] > open) >
     nested[expr[argument] >> *(comma > expr[argument])]) > close[put<&Call::close>];
const auto primary_def =
    amount_node[start] | group[group_action] | call[call_action] | name_node[start];

BOOST_SPIRIT_DEFINE(expr, choice, condition, or_part, conjunction, and_part, negation, not_part,
                    comparison, comparison_part, sum, sum_part, product, product_part, rate,
                    rate_part, signed_value, minus_part, power, power_part, exponent, minus_digits,
                    primary, call, group)

/// As a token for other grammars: false, with nothing moved, if nothing of the sort begins here.
template <class Rule>
bool read(const Rule& rule, Cursor& first, Cursor last, State& state, NodeId& out) {
    try {
        return x3::parse(first, last, x3::with<state_tag>(state)[rule], out);
    } catch (const x3::expectation_failure<Cursor>& failure) {
        refuse_expected(state, failure.which(), failure.where(), last);
    }
}

} // namespace

} // namespace grammar

bool read_expression(Cursor& first, Cursor last, State& state, NodeId& out) {
    return grammar::read(grammar::expr, first, last, state, out);
}

bool read_sum(Cursor& first, Cursor last, State& state, NodeId& out) {
    return grammar::read(grammar::sum, first, last, state, out);
}

bool read_rate(Cursor& first, Cursor last, State& state, NodeId& out) {
    return grammar::read(grammar::rate, first, last, state, out);
}

} // namespace jarful::language
