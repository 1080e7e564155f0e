#include "engine/language/grammar_config.hpp"
#include "engine/language/statements.hpp"

/// The statements of a batch's record.
namespace jarful::language {

namespace grammar {

namespace {

constexpr Token<Day, read_day> day{"expected-date|a day, as in 2026-11-25,"};
constexpr Token<Word, read_deed> deed{"expected-task|what was done, such as burp or taste,"};

const x3::rule<struct batch_rule, BatchHeader> batch{"expected-text|a text in quotes"};
const auto batch_def = ((text[put<&BatchHeader::title>] > word("of")) >
                        text[put<&BatchHeader::recipe>]) >>
                       -(word("revision") > text[put<&BatchHeader::revision>]);

const x3::rule<struct begun_rule, BegunLine> begun{"expected-date|a day, as in 2026-11-25,"};
const auto begun_def = day[put<&BegunLine::day>];

const x3::rule<struct left_out_rule, LeftOutLine> left_out{"expected-name|a name"};
const auto left_out_def = new_name[put<&LeftOutLine::name>];

const x3::rule<struct vessel_rule, InVesselLine> in_vessel{"expected-name|a name"};
const auto in_vessel_def = new_name[put<&InVesselLine::name>];

const x3::rule<struct planned_rule, PlannedLine> planned{"expected-name|a name"};
const auto planned_def =
    (new_name[put<&PlannedLine::name>] > equals) > amount[put<&PlannedLine::amount>];

const x3::rule<struct weighed_rule, WeighedLine> weighed{"expected-name|a name"};
const auto weighed_def =
    (((new_name[put<&WeighedLine::name>] > equals) > amount[put<&WeighedLine::amount>]) >
     word("on")) > day[put<&WeighedLine::day>];

const x3::rule<struct noted_rule, NotedLine> noted{"expected-date|a day, as in 2026-11-25,"};
struct AddDeed {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context).did.push_back(std::move(x3::_attr(context)));
    }
};
const auto deeds = (word("did") > deed[AddDeed{}]) >> *(comma > deed[AddDeed{}]);
const auto noted_def =
    ((((day[put<&NotedLine::day>] >> -(word("pH") > amount[put<&NotedLine::ph>])) >>
       -(word("at") > amount[put<&NotedLine::temperature>])) >>
      -(word("filled") > amount[put<&NotedLine::filled>])) >>
     -deeds) >>
    -text[put<&NotedLine::text>];

BOOST_SPIRIT_DEFINE(batch, begun, left_out, in_vessel, planned, weighed, noted)

} // namespace

} // namespace grammar

Statement parse_batch_statement(Word1 id, Cursor& first, Cursor last, State& state) {
    using namespace grammar;
    switch (id) {
    case Word1::batch:
        return statement<BatchHeader>(batch, first, last, state);
    case Word1::begun:
        return statement<BegunLine>(begun, first, last, state);
    case Word1::left_out:
        return statement<LeftOutLine>(left_out, first, last, state);
    case Word1::vessel:
        return statement<InVesselLine>(in_vessel, first, last, state);
    case Word1::planned:
        return statement<PlannedLine>(planned, first, last, state);
    case Word1::weighed:
        return statement<WeighedLine>(weighed, first, last, state);
    default:
        return statement<NotedLine>(noted, first, last, state);
    }
}

} // namespace jarful::language
