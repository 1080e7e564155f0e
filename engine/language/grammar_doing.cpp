#include "engine/language/grammar_config.hpp"
#include "engine/language/statements.hpp"

#include <string>

/// The statements that say what to do.
namespace jarful::language {

namespace grammar {

namespace {

constexpr Token<Word, read_task> task{"expected-task|a task, such as burp or taste,"};
constexpr Token<Period, read_period> period{"expected-unit|days, weeks, months or years"};
constexpr Token<Word, read_cold> cold{"expected-word|\"cold\" or \"cool\""};

const x3::rule<struct step_rule, StepLine> step{"expected-text|a text in quotes"};
const auto step_def = templ[put<&StepLine::text>];

const x3::rule<struct rest_rule, RestLine> rest{"expected-amount|a length of time"};
const auto rest_def = amount[put<&RestLine::time>] >> -templ[put<&RestLine::text>];

const x3::rule<struct tend_rule, TendLine> tend{"expected-task|a task, such as burp or taste,"};
const auto every = (word("every") > amount[put<&TendLine::every>]) >>
                   -((word("from") > word("day")) > whole[put<&TendLine::from_day>]) >>
                   -((word("to") > word("day")) > whole[put<&TendLine::to_day>]);
const auto on_day = (word("on") > word("day")) > whole[put<&TendLine::on_day>];

constexpr Otherwise no_time{"expected-word|\"every\" or \"on day\""};

const auto tend_def =
    (task[put<&TendLine::task>] > (every | on_day | no_time)) >> -templ[put<&TendLine::text>];

const x3::rule<struct ready_rule, ReadyLine> ready{"expected-word|the word \"day\""};
const auto ready_days = (word("day") > whole[put<&ReadyLine::from_day>]) >>
                        -((word("to") > word("day")) > whole[put<&ReadyLine::to_day>]);
const auto ready_at = (word("at") > amount[put<&ReadyLine::from_temperature>]) >>
                      -(word("to") > amount[put<&ReadyLine::to_temperature>]);
const auto ready_def = (ready_days >> -ready_at) >> -templ[put<&ReadyLine::text>];

const x3::rule<struct keep_rule, KeepLine> keep{"expected-word|\"cold\" or \"cool\""};
const auto keep_def = (((cold[put<&KeepLine::where>] > word("for")) >
                        whole[put<&KeepLine::count>]) > period[put<&KeepLine::period>]) >>
                      -templ[put<&KeepLine::text>];

BOOST_SPIRIT_DEFINE(step, rest, tend, ready, keep)

/// `at 21 to 24 °C`: the unit at the end serves both.
void share_unit(const State& state, ReadyLine& line) {
    if (!line.from_temperature || !line.to_temperature) return;
    Literal& from = *line.from_temperature;
    const Literal& to = *line.to_temperature;
    if (!from.amount.plain_number || to.amount.plain_number) return;
    const std::string with_unit = std::string(state.at(from.place)) + " " + to.amount.unit.text();
    units::ReadFault fault;
    auto amount = units::read_amount(with_unit, &fault);
    if (!amount) refuse("unit-mismatch", from.place, fault.message, fault.advice);
    from.amount = *amount;
}

} // namespace

} // namespace grammar

Statement parse_doing_statement(Word1 id, Cursor& first, Cursor last, State& state) {
    using namespace grammar;
    switch (id) {
    case Word1::rest:
        return statement<RestLine>(rest, first, last, state);
    case Word1::tend:
        return statement<TendLine>(tend, first, last, state);
    case Word1::keep:
        return statement<KeepLine>(keep, first, last, state);
    case Word1::ready: {
        ReadyLine line;
        run(ready, ready.name, first, last, state, line);
        share_unit(state, line);
        return line;
    }
    default:
        return statement<StepLine>(step, first, last, state);
    }
}

} // namespace jarful::language
