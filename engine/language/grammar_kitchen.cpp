#include "engine/language/grammar_config.hpp"
#include "engine/language/statements.hpp"

/// What a file is, remarks and materials, and the statements of a kitchen.
namespace jarful::language {

namespace grammar {

namespace {

constexpr Token<Word, read_word> kind_word{"expected-kind|a kind of ferment, such as kraut,"};
constexpr Token<units::Spoons, read_spoons> spoons_word{
    "expected-word|\"us\", \"metric\" or \"imperial\""};
constexpr Token<units::Shown::System, read_system> system_word{
    "expected-word|\"us\" or \"metric\""};

const x3::rule<struct language_rule, LanguageLine> language{"expected-whole|a whole number"};
const auto language_def = whole[put<&LanguageLine::version>];

const x3::rule<struct recipe_rule, RecipeHeader> recipe{"expected-text|the title in quotes"};
const auto recipe_def = text[put<&RecipeHeader::title>] >>
                        -(word("version") > whole[put<&RecipeHeader::version>]);

const x3::rule<struct kitchen_rule, KitchenHeader> kitchen{
    "expected-text|the name of the kitchen in quotes"};
const auto kitchen_def = text[put<&KitchenHeader::name>];

const x3::rule<struct house_rule, HouseHeader> house{
    "expected-text|the name of the house in quotes"};
const auto house_def = text[put<&HouseHeader::name>];

const x3::rule<struct kind_rule, KindLine> kind{"expected-kind|a kind of ferment, such as kraut,"};
const auto kind_def = kind_word[put<&KindLine::kind>] >> -kind_word[put<&KindLine::method>];

const x3::rule<struct remark_rule, RemarkLine> remark{"expected-text|a text in quotes"};
const auto remark_def = text[put<&RemarkLine::text>];

const x3::rule<struct based_rule, BasedOnLine> based{"expected-word|the word \"on\""};
const auto based_def = word("on") > text[put<&BasedOnLine::base>];

const x3::rule<struct without_rule, WithoutLine> without{"expected-name|a name"};
const auto without_def = new_name[put<&WithoutLine::name>];

/// The method of a kind, where no word of the range stands.
bool read_method(Cursor& first, Cursor last, State& state, Word& out) {
    for (const char* word : {"of", "between", "at"}) {
        Cursor probe = first;
        if (read_keyword(probe, last, state, word)) return false;
    }
    return read_word(first, last, state, out);
}

/// What a range is a share of; its value is the word that other outputs use.
bool read_basis(Cursor& first, Cursor last, State& state, Word& out) {
    const Cursor begin = skip_blanks(first, last, state.comments);
    if (read_keyword(first, last, state, "vegetables")) {
        out.value = "of_vegetables";
        Cursor probe = first;
        if (read_keyword(probe, last, state, "and") && read_keyword(probe, last, state, "water")) {
            first = probe;
            out.value = "of_vegetables_and_water";
        }
    } else if (read_keyword(first, last, state, "brine")) {
        out.value = "of_brine";
    } else if (read_keyword(first, last, state, "everything")) {
        out.value = "of_everything";
    } else {
        return false;
    }
    out.place = state.place(begin, first);
    return true;
}

constexpr Token<Word, read_method> method_word{"expected-word|a method"};
constexpr Token<Word, read_basis> basis_words{
    "expected-word|\"vegetables\", \"vegetables and water\", \"brine\" or \"everything\""};
constexpr Otherwise no_range{"expected-bound|\"between\", \"at least\" or \"at most\""};
constexpr Otherwise no_side{"expected-word|\"least\" or \"most\""};

const x3::rule<struct range_rule, RangeLine> range{
    "expected-kind|a kind of ferment, such as kraut,"};
const auto range_between = ((word("between") > amount[put<&RangeLine::low>]) > word("and")) >
                           amount[put<&RangeLine::high>];
const auto range_at = word("at") > ((word("least") > amount[put<&RangeLine::low>]) |
                                    (word("most") > amount[put<&RangeLine::high>]) | no_side);
const auto range_def =
    ((kind_word[put<&RangeLine::kind>] >> -method_word[put<&RangeLine::method>] >>
      -(word("of") > basis_words[put<&RangeLine::basis>])) >
     (range_between | range_at | no_range)) >>
    -text[put<&RangeLine::reason>];

/// A property of a material that is set twice on its line.
template <auto Member>
struct PutOnce {
    template <class C>
    void operator()(C& context) const {
        auto& field = x3::_val(context).*Member;
        auto& value = x3::_attr(context);
        if (field)
            refuse("said-twice", value.place, "This property of the material is said twice.",
                   "Keep one of them.");
        field = std::move(value);
    }
};
template <auto Member>
constexpr PutOnce<Member> put_once{};

const x3::rule<struct material_rule, MaterialLine> material_line{
    "expected-text|the name of the material in quotes"};
const auto property = (word("density") > amount[put_once<&MaterialLine::density>]) |
                      (word("salt") > amount[put_once<&MaterialLine::salt>]) |
                      (word("water") > amount[put_once<&MaterialLine::water>]) |
                      (word("piece") > amount[put_once<&MaterialLine::piece>]) |
                      (word("source") > text[put_once<&MaterialLine::source>]);
const auto material_line_def =
    ((text[put<&MaterialLine::name>] > word("is")) > role[put<&MaterialLine::role>]) >> *property;

const x3::rule<struct scale_rule, ScaleLine> scale{"expected-name|a name"};
const auto scale_def = ((((new_name[put<&ScaleLine::name>] > word("reads")) >
                          amount[put<&ScaleLine::step>]) > word("up")) >
                        (word("to") > amount[put<&ScaleLine::capacity>])) >>
                       -(word("within") > amount[put<&ScaleLine::tolerance>]) >>
                       -(word("bowl") > amount[put<&ScaleLine::bowl>]) >>
                       -(word("use") > amount[put<&ScaleLine::use>]);

const x3::rule<struct vessel_rule, VesselLine> vessel{"expected-name|a name"};
const auto vessel_room = (((new_name[put<&VesselLine::name>] > word("holds")) >
                           amount[put<&VesselLine::brimful>]) > word("brimful"));
const auto vessel_width = (word("across") > amount[put<&VesselLine::across>]) |
                          (word("section") > amount[put<&VesselLine::section>]);
const auto vessel_def = (vessel_room >> -vessel_width) >>
                        -(word("weights") > amount[put<&VesselLine::weights>]) >>
                        -(word("have") > whole[put<&VesselLine::have>]);

const x3::rule<struct spoons_rule, SpoonsLine> spoons{
    "expected-word|\"us\", \"metric\" or \"imperial\""};
const auto spoons_def = spoons_word[put<&SpoonsLine::spoons>];

const x3::rule<struct units_rule, UnitsLine> units_line{"expected-word|\"us\" or \"metric\""};
const auto units_line_def = system_word[put<&UnitsLine::system>];

const x3::rule<struct room_rule, RoomLine> room{"expected-amount|a temperature"};
const auto room_def = amount[put<&RoomLine::temperature>];

BOOST_SPIRIT_DEFINE(language, recipe, kitchen, house, range, kind, remark, based, without,
                    material_line, scale, vessel, spoons, units_line, room)

Statement remark_line(RemarkLine::Sort sort, Cursor& first, Cursor last, State& state) {
    RemarkLine line;
    run(remark, remark.name, first, last, state, line);
    line.sort = sort;
    return line;
}

Statement vessel_line(bool crock, Cursor& first, Cursor last, State& state) {
    VesselLine line;
    run(vessel, vessel.name, first, last, state, line);
    line.crock = crock;
    return line;
}

} // namespace

} // namespace grammar

Statement parse_kitchen_statement(Word1 id, Cursor& first, Cursor last, State& state) {
    using namespace grammar;
    switch (id) {
    case Word1::language:
        return statement<LanguageLine>(language, first, last, state);
    case Word1::recipe:
        return statement<RecipeHeader>(recipe, first, last, state);
    case Word1::kitchen:
        return statement<KitchenHeader>(kitchen, first, last, state);
    case Word1::house:
        return statement<HouseHeader>(house, first, last, state);
    case Word1::range:
        return statement<RangeLine>(range, first, last, state);
    case Word1::kind:
        return statement<KindLine>(kind, first, last, state);
    case Word1::by:
        return remark_line(RemarkLine::Sort::by, first, last, state);
    case Word1::source:
        return remark_line(RemarkLine::Sort::source, first, last, state);
    case Word1::based:
        return statement<BasedOnLine>(based, first, last, state);
    case Word1::without:
        return statement<WithoutLine>(without, first, last, state);
    case Word1::material:
        return statement<MaterialLine>(material_line, first, last, state);
    case Word1::scale:
        return statement<ScaleLine>(scale, first, last, state);
    case Word1::jar:
        return vessel_line(false, first, last, state);
    case Word1::crock:
        return vessel_line(true, first, last, state);
    case Word1::spoons:
        return statement<SpoonsLine>(spoons, first, last, state);
    case Word1::units:
        return statement<UnitsLine>(units_line, first, last, state);
    case Word1::room:
        return statement<RoomLine>(room, first, last, state);
    default:
        return remark_line(RemarkLine::Sort::note, first, last, state);
    }
}

} // namespace jarful::language
