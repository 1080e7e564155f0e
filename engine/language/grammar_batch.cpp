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

/// What sort of entry is corrected.
template <CorrectedLine::What What>
struct Of {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context).what = What;
    }
};
constexpr Otherwise no_entry{
    "expected-entry|\"weighed\", \"pH\", \"at\", \"filled\", \"did\" or a text"};
constexpr Otherwise no_amount{"expected-amount|an amount, or the word \"nothing\","};
constexpr Otherwise no_deed{"expected-task|what was done, or the word \"nothing\","};
constexpr Otherwise no_text{"expected-text|a text in quotes, or the word \"nothing\","};

using What = CorrectedLine::What;
const auto nothing = word("nothing")[flag<&CorrectedLine::nothing>];
const auto to_amount = nothing | amount[put<&CorrectedLine::after>] | no_amount;
const auto to_deed = nothing | deed[put<&CorrectedLine::deed_after>] | no_deed;
const auto to_text = nothing | text[put<&CorrectedLine::text_after>] | no_text;
const auto on_that_day = (word("on") > day[put<&CorrectedLine::of>]) > word("to");
const auto figure = (word("pH")[Of<What::ph>{}] | word("at")[Of<What::temperature>{}] |
                     word("filled")[Of<What::filled>{}]) > amount[put<&CorrectedLine::before>] >
                    on_that_day > to_amount;
const auto weighing = word("weighed")[Of<What::weighed>{}] > new_name[put<&CorrectedLine::name>] >
                      equals > amount[put<&CorrectedLine::before>] > on_that_day > to_amount;
const auto done =
    word("did")[Of<What::deed>{}] > deed[put<&CorrectedLine::deed_before>] > on_that_day > to_deed;
const auto said = text[put<&CorrectedLine::text_before>] > on_that_day > to_text;

const x3::rule<struct corrected_rule, CorrectedLine> corrected{
    "expected-date|a day, as in 2026-11-25,"};
const auto corrected_def =
    (day[put<&CorrectedLine::day>] > (figure | weighing | done | said | no_entry)) >>
    -text[put<&CorrectedLine::why>];

BOOST_SPIRIT_DEFINE(batch, begun, left_out, in_vessel, planned, weighed, noted, corrected)

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
    case Word1::corrected:
        return statement<CorrectedLine>(corrected, first, last, state);
    default:
        return statement<NotedLine>(noted, first, last, state);
    }
}

} // namespace jarful::language
