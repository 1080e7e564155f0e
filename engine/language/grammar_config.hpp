#pragma once

#include "engine/language/tokens.hpp"

#include <boost/spirit/home/x3.hpp>

#include <string>
#include <string_view>
#include <type_traits>
#include <utility>

/// What the grammar files share: how the readers of tokens.hpp become parsers, the state in the
/// context, and how an expectation that fails becomes a refusal. The only header of the room that
/// knows the parser library; nothing outside grammar_*.cpp may include it.
namespace jarful::language::grammar {

namespace x3 = boost::spirit::x3;

struct state_tag;
using Context = x3::context<state_tag, State>;

/// A reader as a parser. `name` is "code|noun phrase", for what is expected.
template <class Value, bool (*Read)(Cursor&, Cursor, State&, Value&)>
struct Token : x3::parser<Token<Value, Read>> {
    using attribute_type = Value;
    static constexpr bool has_attribute = true;
    std::string_view name;

    constexpr explicit Token(std::string_view n)
        : name(n) {}

    template <class C, class R, class Attribute>
    bool parse(Cursor& first, const Cursor& last, const C& context, R&, Attribute& out) const {
        Cursor at = first;
        if constexpr (std::is_same_v<Attribute, Value>) {
            if (!Read(at, last, x3::get<state_tag>(context), out)) return false;
        } else {
            Value value{};
            if (!Read(at, last, x3::get<state_tag>(context), value)) return false;
            x3::traits::move_to(value, out);
        }
        first = at;
        return true;
    }
};

/// A word of the language.
struct Keyword : x3::parser<Keyword> {
    using attribute_type = x3::unused_type;
    static constexpr bool has_attribute = false;
    std::string_view word;

    constexpr explicit Keyword(std::string_view w)
        : word(w) {}

    template <class C, class R, class Attribute>
    bool parse(Cursor& first, const Cursor& last, const C& context, R&, Attribute&) const {
        return read_keyword(first, last, x3::get<state_tag>(context), word);
    }
};

/// A sign without a meaning of its own: `=`, `,`.
struct Symbol : x3::parser<Symbol> {
    using attribute_type = x3::unused_type;
    static constexpr bool has_attribute = false;
    std::string_view symbol;
    std::string_view code;

    constexpr Symbol(std::string_view s, std::string_view c)
        : symbol(s)
        , code(c) {}

    template <class C, class R, class Attribute>
    bool parse(Cursor& first, const Cursor& last, const C& context, R&, Attribute&) const {
        return read_symbol(first, last, x3::get<state_tag>(context), symbol);
    }
};

/// Never matches; stands last in a choice to say what the choice is between.
struct Otherwise : x3::parser<Otherwise> {
    using attribute_type = x3::unused_type;
    static constexpr bool has_attribute = false;
    std::string_view name;

    constexpr explicit Otherwise(std::string_view n)
        : name(n) {}

    template <class C, class R, class Attribute>
    bool parse(Cursor&, const Cursor&, const C&, R&, Attribute&) const {
        return false;
    }
};

/// nested[p]: one level deeper, up to limits::nesting.
template <class Subject>
struct Nested : x3::unary_parser<Subject, Nested<Subject>> {
    using base = x3::unary_parser<Subject, Nested<Subject>>;
    static constexpr bool is_pass_through_unary = true;
    static constexpr bool handles_container = Subject::handles_container;

    constexpr explicit Nested(const Subject& inner)
        : base(inner) {}

    template <class C, class R, class Attribute>
    bool parse(Cursor& first, const Cursor& last, const C& context, R& rule, Attribute& out) const {
        const Deeper deeper(x3::get<state_tag>(context), first);
        return this->subject.parse(first, last, context, rule, out);
    }
};

struct NestedMaker {
    template <class Subject>
    constexpr auto operator[](const Subject& inner) const {
        using Parser = typename x3::extension::as_parser<Subject>::value_type;
        return Nested<Parser>(x3::as_parser(inner));
    }
};
inline constexpr NestedMaker nested{};

constexpr Keyword word(std::string_view w) {
    return Keyword(w);
}

/// Puts what was read into a member of the rule's value.
template <auto Member>
struct Put {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context).*Member = std::move(x3::_attr(context));
    }
};
template <auto Member>
inline constexpr Put<Member> put{};

/// Sets a member of the rule's value to true.
template <auto Member>
struct Flag {
    template <class C>
    void operator()(C& context) const {
        x3::_val(context).*Member = true;
    }
};
template <auto Member>
inline constexpr Flag<Member> flag{};

// ---- Tokens that several grammar files use. ----

inline constexpr Symbol equals{"=", "expected-equals"};
inline constexpr Symbol comma{",", "expected-comma"};
inline constexpr Token<Word, read_new_name> new_name{"expected-name|a name"};
inline constexpr Token<Word, read_material> material{"expected-material|the name of a material"};
inline constexpr Token<Word, read_role> role{"expected-role|a role, such as vegetable or salt,"};
inline constexpr Token<Whole, read_whole> whole{"expected-whole|a whole number"};
inline constexpr Token<Literal, read_literal> amount{"expected-amount|an amount"};
inline constexpr Token<Text, read_text> text{"expected-text|a text in quotes"};
inline constexpr Token<Template, read_template> templ{"expected-text|a text in quotes"};
inline constexpr Token<NodeId, read_expression> expression{"expected-quantity|a quantity"};
inline constexpr Token<NodeId, read_sum> sum_level{"expected-quantity|a quantity"};
inline constexpr Token<NodeId, read_rate> rate_level{"expected-quantity|a quantity"};

/// Parses with a rule. Refuses where an expectation fails, and where the rule does not begin.
template <class Rule, class Value>
void run(const Rule& rule, std::string_view name, Cursor& first, Cursor last, State& state,
         Value& value) {
    const Cursor begin = first;
    bool good = false;
    try {
        good = x3::parse(first, last, x3::with<state_tag>(state)[rule], value);
    } catch (const x3::expectation_failure<Cursor>& failure) {
        refuse_expected(state, failure.which(), failure.where(), last);
    }
    if (!good) refuse_expected(state, name, begin, last);
}

/// A statement of one struct.
template <class Value, class Rule>
Statement statement(const Rule& rule, Cursor& first, Cursor last, State& state) {
    Value value{};
    run(rule, rule.name, first, last, state, value);
    return value;
}

} // namespace jarful::language::grammar

namespace boost::spirit::x3 {

template <class Value, bool (*Read)(const char*&, const char*, jarful::language::State&, Value&)>
struct get_info<jarful::language::grammar::Token<Value, Read>> {
    using result_type = std::string;
    std::string operator()(const jarful::language::grammar::Token<Value, Read>& p) const {
        return std::string(p.name);
    }
};

template <>
struct get_info<jarful::language::grammar::Keyword> {
    using result_type = std::string;
    std::string operator()(const jarful::language::grammar::Keyword& p) const {
        return "expected-word|the word \"" + std::string(p.word) + "\"";
    }
};

template <>
struct get_info<jarful::language::grammar::Symbol> {
    using result_type = std::string;
    std::string operator()(const jarful::language::grammar::Symbol& p) const {
        return std::string(p.code) + "|\"" + std::string(p.symbol) + "\"";
    }
};

template <>
struct get_info<jarful::language::grammar::Otherwise> {
    using result_type = std::string;
    std::string operator()(const jarful::language::grammar::Otherwise& p) const {
        return std::string(p.name);
    }
};

template <class Subject>
struct get_info<jarful::language::grammar::Nested<Subject>> {
    using result_type = std::string;
    std::string operator()(const jarful::language::grammar::Nested<Subject>& p) const {
        return what(p.subject);
    }
};

// What stands behind a `>` often carries an action or is a choice of two: say what is inside.
template <class Subject, class Action>
struct get_info<action<Subject, Action>> {
    using result_type = std::string;
    std::string operator()(const action<Subject, Action>& p) const { return what(p.subject); }
};

template <class Left, class Right>
struct get_info<alternative<Left, Right>> {
    using result_type = std::string;
    std::string operator()(const alternative<Left, Right>& p) const { return what(p.right); }
};

template <class Left, class Right>
struct get_info<sequence<Left, Right>> {
    using result_type = std::string;
    std::string operator()(const sequence<Left, Right>& p) const { return what(p.left); }
};

} // namespace boost::spirit::x3
