#include "engine/language/grammar_config.hpp"
#include "engine/language/statements.hpp"

/// The statements that hold quantities, the vessel, and the bounds of the house.
namespace jarful::language {

namespace grammar {

namespace {

// Why the tail is three rules: `optional` and `discarded` leave their places behind.
struct Fate {
    Place place;
};

bool read_fate(Cursor& first, Cursor last, State& state, std::string_view name, Fate& out) {
    if (!read_keyword(first, last, state, name)) return false;
    out.place = state.place(first - name.size(), first);
    return true;
}

bool read_optional(Cursor& first, Cursor last, State& state, Fate& out) {
    return read_fate(first, last, state, "optional", out);
}

bool read_discarded(Cursor& first, Cursor last, State& state, Fate& out) {
    return read_fate(first, last, state, "discarded", out);
}

constexpr Token<Fate, read_optional> optional_word{"expected-word|the word \"optional\""};
constexpr Token<Fate, read_discarded> discarded_word{"expected-word|the word \"discarded\""};

template <bool Tail::*Which>
struct FateAction {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context).*Which = true;
        x3::_val(context).fate = x3::_attr(context).place;
    }
};

/// The line's word decides which fields the tail may use; `total` and `let` have a label only.
const x3::rule<struct tail_rule, Tail> tail{"expected-word|the rest of the line"};
const auto fate_part = optional_word[FateAction<&Tail::optional>{}] |
                       (discarded_word[FateAction<&Tail::discarded>{}] >>
                        -(word("keeps") > amount[put<&Tail::keeps>]));
const auto tail_def = -fate_part >> -(word("as") > material[put<&Tail::material>]) >>
                      -((word("counts") > word("as")) > role[put<&Tail::role>]) >>
                      -text[put<&Tail::label>];

const x3::rule<struct label_rule, Tail> label{"expected-word|the rest of the line"};
const auto label_def = -text[put<&Tail::label>];

const x3::rule<struct quantity_rule, Quantity> quantity{"expected-name|a name"};
const auto quantity_def = ((new_name[put<&Quantity::name>] > equals) >
                           expression[put<&Quantity::value>]) > tail[put<&Quantity::tail>];

const x3::rule<struct plain_rule, Quantity> plain{"expected-name|a name"};
const auto plain_def = ((new_name[put<&Quantity::name>] > equals) >
                        expression[put<&Quantity::value>]) > label[put<&Quantity::tail>];

const x3::rule<struct count_rule, Quantity> count{"expected-name|a name"};
const auto each_jar = word("each") > word("jar")[flag<&Quantity::each_jar>];
const auto count_def =
    (((new_name[put<&Quantity::name>] > equals) > expression[put<&Quantity::value>]) >>
     -each_jar) >>
    tail[put<&Quantity::tail>];

/// The name after `replaces` is defined elsewhere, and is still no word of the language.
const x3::rule<struct measure_rule, Quantity> measure{"expected-name|a name"};
const auto measure_def =
    (((new_name[put<&Quantity::name>] > word("about")) > amount[put<&Quantity::about>]) >>
     -(word("of") > new_name[put<&Quantity::about_of>]) >>
     -(word("replaces") > new_name[put<&Quantity::replaces>])) >>
    tail[put<&Quantity::tail>];

struct SolventAction {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context).of_water = x3::_attr(context);
    }
};

bool read_solvent(Cursor& first, Cursor last, State& state, bool& water) {
    water = read_keyword(first, last, state, "water");
    return water || read_keyword(first, last, state, "brine");
}

constexpr Token<bool, read_solvent> solvent{"expected-word|\"water\" or \"brine\""};

const x3::rule<struct brine_rule, BrineLine> brine{"expected-name|a name"};
const auto brine_strength = ((new_name[put<&BrineLine::name>] > equals) >
                             rate_level[put<&BrineLine::strength>]) >
                            (word("of") > solvent[SolventAction{}]);
const auto brine_def = (((brine_strength > comma) > word("make")) >
                        expression[put<&BrineLine::make>]) >>
                       -(word("as") > material[put<&BrineLine::material>]) >>
                       -text[put<&BrineLine::label>];

const x3::rule<struct fill_rule, FillLine> fill{"expected-quantity|a quantity"};
const auto fill_def = expression[put<&FillLine::value>];

const x3::rule<struct headspace_rule, HeadspaceLine> headspace{"expected-quantity|a quantity"};
const auto headspace_def = expression[put<&HeadspaceLine::value>];

const x3::rule<struct topup_rule, TopUpLine> topup{"expected-quantity|a quantity"};
const auto topup_def = expression[put<&TopUpLine::value>] >>
                       -(word("as") > material[put<&TopUpLine::material>]);

struct HeldAction {
    template <class C>
    void operator()(C& context) const {
        HoldLine& line = x3::_val(context);
        line.value = x3::_attr(context);
        line.value_place = x3::get<state_tag>(context).pool[line.value].place;
    }
};

struct BetweenAction {
    template <class C>
    void operator()(C& context) const {
        HoldLine& line = x3::_val(context);
        line.at_most = x3::_attr(context);
        check_bounds(x3::get<state_tag>(context), line.at_least, line.at_most);
    }
};

const x3::rule<struct hold_rule, HoldLine> hold{"expected-quantity|a quantity"};
const auto between = ((word("between") > sum_level[put<&HoldLine::at_least>]) > word("and")) >
                     sum_level[BetweenAction{}];
constexpr Otherwise no_bound{"expected-bound|\"between\", \"at least\" or \"at most\""};
constexpr Otherwise no_side{"expected-word|\"least\" or \"most\""};

const auto at_bound = word("at") > ((word("least") > sum_level[put<&HoldLine::at_least>]) |
                                    (word("most") > sum_level[put<&HoldLine::at_most>]) | no_side);

const auto hold_def =
    (expression[HeldAction{}] > (between | at_bound | no_bound)) >> -text[put<&HoldLine::why>];

BOOST_SPIRIT_DEFINE(tail, label, quantity, plain, count, measure, brine, fill, headspace, topup,
                    hold)

template <class Rule>
Statement quantity_line(const Rule& rule, QuantityWord which, Cursor& first, Cursor last,
                        State& state) {
    Quantity value;
    value.word = which;
    run(rule, rule.name, first, last, state, value);
    value.word = which;
    return value;
}

} // namespace

} // namespace grammar

Statement parse_quantity_statement(Word1 id, Cursor& first, Cursor last, State& state) {
    using namespace grammar;
    switch (id) {
    case Word1::given:
        return quantity_line(quantity, QuantityWord::given, first, last, state);
    case Word1::total:
        return quantity_line(plain, QuantityWord::total, first, last, state);
    case Word1::share:
        return quantity_line(quantity, QuantityWord::share, first, last, state);
    case Word1::weigh:
        return quantity_line(quantity, QuantityWord::weigh, first, last, state);
    case Word1::count:
        return quantity_line(count, QuantityWord::count, first, last, state);
    case Word1::measure:
        return quantity_line(measure, QuantityWord::measure, first, last, state);
    case Word1::cap:
        return quantity_line(quantity, QuantityWord::cap, first, last, state);
    case Word1::brine:
        return statement<BrineLine>(brine, first, last, state);
    case Word1::fill:
        return statement<FillLine>(fill, first, last, state);
    case Word1::headspace:
        return statement<HeadspaceLine>(headspace, first, last, state);
    case Word1::topup:
        return statement<TopUpLine>(topup, first, last, state);
    case Word1::hold:
        return statement<HoldLine>(hold, first, last, state);
    default:
        return quantity_line(plain, QuantityWord::let, first, last, state);
    }
}

} // namespace jarful::language
