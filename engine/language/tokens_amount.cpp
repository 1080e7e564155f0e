#include "engine/language/characters.hpp"
#include "engine/language/tokens.hpp"
#include "engine/units/amount.hpp"
#include "engine/units/unit.hpp"

#include <algorithm>
#include <optional>
#include <utility>

/// Amounts and units inside a line. The reading itself is the units room's; what may follow an
/// amount is a matter of the language.
namespace jarful::language {

namespace {

using Kind = units::ReadFault::Kind;

std::string_view rest(Cursor first, Cursor last) {
    return {first, static_cast<std::size_t>(last - first)};
}

bool vulgar(char32_t c) {
    return (c >= 0xBC && c <= 0xBE) || (c >= 0x2150 && c <= 0x215E) || c == 0x2189;
}

bool begins_number(Cursor at, Cursor last) {
    if (at == last) return false;
    if (is_digit(*at)) return true;
    if (*at == '.' && at + 1 < last) return is_digit(at[1]);
    return static_cast<unsigned char>(*at) >= 0x80 && vulgar(decode(rest(at, last)).value);
}

const char* code_of(Kind kind) {
    switch (kind) {
    case Kind::not_a_number:
        return "expected-quantity";
    case Kind::decimal_comma:
        return "decimal-comma";
    case Kind::hyphen_range:
        return "ambiguous-minus";
    case Kind::hyphen_mixed:
        return "hyphen-mixed";
    case Kind::bare_point:
        return "bare-point";
    case Kind::zero_denominator:
        return "zero-denominator";
    case Kind::too_large:
        return "too-large";
    case Kind::unknown_unit:
        return "unknown-unit";
    case Kind::missing_unit:
        return "missing-unit";
    case Kind::unit_mismatch:
        return "unit-mismatch";
    case Kind::unit_order:
        return "unit-order";
    case Kind::reversed_range:
        return "reversed-range";
    case Kind::left_over:
        return "left-over";
    }
    return "expected-quantity";
}

/// The right form in the user's own figures, as an advice and as what to write.
struct OwnForm {
    std::string advice;
    std::vector<std::string> forms;
};

/// `3-2`: subtraction or range? Both in the user's own figures.
std::optional<OwnForm> minus_advice(std::string_view text) {
    const std::size_t hyphen = text.find('-');
    if (hyphen == std::string_view::npos || hyphen == 0) return std::nullopt;
    const std::string_view left = text.substr(0, hyphen);
    const std::string_view right = text.substr(hyphen + 1);
    const auto a = units::read_number(left);
    const auto b = units::read_number(right);
    if (!a || !b || a->length != left.size()) return std::nullopt;
    const std::string second(right.substr(0, b->length));
    const std::string first(left);
    const std::string rest_of(right.substr(b->length));
    const std::string range = a->value <= b->value ? first + ".." + second : second + ".." + first;
    const std::string less = first + " - " + second;
    return OwnForm{"Write \"" + less + "\" to subtract, or \"" + range + "\" for a range.",
                   {range + rest_of, less + rest_of}};
}

/// The right form in the user's own figures, where that is easily said.
std::optional<OwnForm> own_advice(Kind kind, std::string_view text, bool in_call) {
    std::string form(text);
    switch (kind) {
    case Kind::hyphen_range:
        return minus_advice(text);
    case Kind::hyphen_mixed: {
        const std::size_t hyphen = form.find('-');
        if (hyphen == std::string::npos) return std::nullopt;
        std::string mixed = form;
        mixed.replace(hyphen, 1, " ");
        form.replace(hyphen, 1, " - ");
        return OwnForm{"Write \"" + mixed + "\" for one number, or \"" + form + "\" to subtract.",
                       {mixed, form}};
    }
    case Kind::decimal_comma: {
        const std::size_t comma = form.find(',');
        if (comma == std::string::npos) return std::nullopt;
        form.replace(comma, 1, ".");
        OwnForm out{"Write \"" + form + "\".", {form}};
        if (in_call)
            out.advice += " Between the values of a function, put a blank after the comma.";
        return out;
    }
    case Kind::bare_point:
        if (form.empty()) return std::nullopt;
        form = form.front() == '.' ? "0" + form : form + "0";
        return OwnForm{"Write \"" + form + "\".", {form}};
    default:
        return std::nullopt;
    }
}

[[noreturn]] void refuse_amount(const State& state, Cursor at, Cursor last,
                                const units::ReadFault& fault) {
    const auto size = static_cast<std::size_t>(last - at);
    const std::size_t begin = std::min(fault.begin, size);
    const std::size_t end = std::clamp(fault.end, begin, size);
    const std::string_view text = rest(at + begin, at + end);
    std::string message = fault.message;
    std::string advice = fault.advice;
    std::replace(message.begin(), message.end(), '`', '"');
    std::replace(advice.begin(), advice.end(), '`', '"');
    const Place place = state.place(at + begin, at + end);
    std::vector<Fix> fixes;
    if (auto own = own_advice(fault.kind, text, !state.open.empty())) {
        advice = std::move(own->advice);
        fixes = fixes_with(place, std::move(own->forms));
    } else if (fault.kind == Kind::unknown_unit) {
        if (const auto near = units::nearest_unit(text))
            fixes.push_back({place, std::string(*near)});
    }
    refuse(code_of(fault.kind), place, std::move(message), std::move(advice), std::move(fixes));
}

bool may_follow(const State& state, std::string_view word) {
    if (is_language_word(word) || units::is_unit_word(word)) return true;
    if (state.statement == nullptr) return false;
    // The contents of a material and what stands on a scale are words that are names elsewhere.
    return (state.statement->id == Word1::material && (word == "salt" || word == "water")) ||
           (state.statement->id == Word1::scale && (word == "bowl" || word == "use"));
}

void check_what_follows(const State& state, const Literal& literal, Cursor end, Cursor last,
                        bool formula) {
    const units::CompoundUnit& written = literal.amount.unit;
    for (std::uint8_t i = 0; i < written.size; ++i) {
        if (!units::unit(written.factors[i].id).percent || written.factors[i].exponent == 1)
            continue;
        std::string base = own_words(state.at(literal.place));
        const std::size_t sign = std::min(base.find('^'), base.size());
        const std::string power = base.substr(sign);
        base.resize(sign);
        refuse("ambiguous-power", literal.place,
               "This can be read two ways, because an amount stands straight before \"^\".",
               "Write \"(" + base + ")" + power + "\".",
               fixes_with(literal.place, {"(" + base + ")" + power}));
    }
    const std::string_view here = rest(end, last);
    if (here.size() > 1 && here[0] == '/' && literal.amount.unit.size != 0) {
        const std::size_t length = name_length(here.substr(1));
        if (length != 0 && !units::read_unit_prefix(here.substr(1))) {
            const std::string name(here.substr(1, length));
            const std::string amount = own_words(state.at(literal.place));
            Cursor begin = end;
            while (begin > state.text.data() + literal.place.begin && !is_digit(begin[-1]) &&
                   begin[-1] != ' ' && begin[-1] != '\t')
                --begin;
            const std::string unit(begin, end);
            const Place place = state.place(begin, end + 1 + length);
            refuse("slash-without-blanks", place,
                   quoted(unit + "/" + name) + " is written like one unit, and " + quoted(name) +
                       " is no unit.",
                   "Write \"" + amount + " / " + name + "\" to divide, or \"" + amount +
                       " per kg of " + name + "\" for so much with every kilogram.",
                   fixes_with(place, {unit + " per kg of " + name, unit + " / " + name}));
        }
    }
    if (!here.empty() && (here[0] == 'e' || here[0] == 'E') && here.size() > 1) {
        std::size_t length = 1;
        if (here[length] == '-' || here[length] == '+') ++length;
        const std::size_t digits = length;
        while (length < here.size() && is_digit(here[length]))
            ++length;
        if (length > digits)
            refuse("number-exponent", {literal.place.begin, state.offset(end + length)},
                   "A number is written out here, without an exponent.",
                   "Write all its digits, or use a larger or smaller unit.");
    }
    const Cursor next = skip_blanks(end, last, state.comments);
    const std::size_t length = name_length(rest(next, last));
    if (length != 0 && !may_follow(state, {next, length}))
        refuse_word_after_amount(state, literal.place, state.place(next, next + length), formula);
}

bool read_checked(Cursor& first, Cursor last, State& state, bool formula, Literal& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    if (!begins_number(at, last)) return false;
    // An amount never goes on over the end of a line.
    const Cursor stop = std::find(at, last, '\n');
    units::ReadFault fault;
    std::size_t length = 0;
    auto amount = units::read_amount_prefix(rest(at, stop), length, &fault);
    if (!amount) refuse_amount(state, at, stop, fault);
    const Cursor end = at + length;
    out = {*amount, state.place(at, end)};
    check_what_follows(state, out, end, stop, formula);
    first = end;
    return true;
}

} // namespace

bool read_literal(Cursor& first, Cursor last, State& state, Literal& out) {
    return read_checked(first, last, state, false, out);
}

bool read_amount_node(Cursor& first, Cursor last, State& state, NodeId& out) {
    Literal literal;
    if (!read_checked(first, last, state, true, literal)) return false;
    out = add_amount(state, literal);
    return true;
}

bool read_unit_node(Cursor& first, Cursor last, State& state, NodeId& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    if (at == last || is_digit(*at) || *at == '%') return false;
    // `min` and its like are functions where a parenthesis follows.
    Cursor probe = at;
    FunctionWord function;
    if (read_function(probe, last, state, function)) return false;
    const auto unit = units::read_unit_prefix(rest(at, std::find(at, last, '\n')));
    if (!unit || unit->length == 0) return false;
    out = add_unit(state, unit->unit, state.place(at, at + unit->length));
    first = at + unit->length;
    return true;
}

bool read_exponent(Cursor& first, Cursor last, State& state, NodeId& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    Cursor end = at;
    while (end < last && is_digit(*end))
        ++end;
    if (end == at) return false;
    if (end + 1 < last && (*end == '/' || *end == '.') && is_digit(end[1])) {
        Cursor stop = end + 1;
        while (stop < last && is_digit(*stop))
            ++stop;
        const std::string all(at, stop);
        const std::string whole(at, end);
        if (*end == '.')
            refuse("expected-whole", state.place(at, stop),
                   "The exponent " + quoted(all) + " is not a whole number.",
                   "Write it in parentheses: ^(" + all + ").",
                   fixes_with(state.place(at, stop), {"(" + all + ")"}));
        refuse("ambiguous-power", state.place(at, stop),
               "This can be read two ways, because a fraction follows straight after \"^\".",
               "Write \"^(" + all + ")\", or \"^" + whole + " / " + std::string(end + 1, stop) +
                   "\" to divide the power.",
               fixes_with(state.place(at, stop),
                          {"(" + all + ")", whole + " / " + std::string(end + 1, stop)}));
    }
    units::ReadFault fault;
    std::size_t length = 0;
    auto amount = units::read_amount_prefix(rest(at, end), length, &fault);
    if (!amount) refuse_amount(state, at, end, fault);
    const Literal literal{*amount, state.place(at, end)};
    out = add_amount(state, literal);
    first = end;
    return true;
}

} // namespace jarful::language
