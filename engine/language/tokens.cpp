#include "engine/language/tokens.hpp"

#include "engine/language/characters.hpp"
#include "engine/units/nearest.hpp"
#include "engine/units/unit.hpp"

#include <array>
#include <chrono>
#include <utility>

/// Words, names, signs and texts' surroundings. Amounts stand in tokens_amount.cpp, texts in
/// tokens_text.cpp.
namespace jarful::language {

namespace {

std::string_view rest(Cursor first, Cursor last) {
    return {first, static_cast<std::size_t>(last - first)};
}

/// What people call a role, and what it is called here.
std::optional<std::string_view> everyday_role(std::string_view word) {
    static constexpr std::array<std::array<std::string_view, 2>, 8> roles{{{"fruit", "vegetable"},
                                                                           {"produce", "vegetable"},
                                                                           {"spice", "aromatic"},
                                                                           {"herb", "aromatic"},
                                                                           {"sauce", "seasoning"},
                                                                           {"vinegar", "acid"},
                                                                           {"liquid", "water"},
                                                                           {"brine", "water"}}};
    for (const auto& role : roles)
        if (role[0] == word) return role[1];
    return std::nullopt;
}

/// A word out of a list; a word that is near one of them is refused with that one.
bool read_listed(Cursor& first, Cursor last, State& state, std::span<const std::string_view> list,
                 const char* code, const char* what, Word& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    const std::size_t length = word_length(rest(at, last));
    if (length == 0) return false;
    const std::string_view word(at, length);
    const Place place = state.place(at, at + length);
    if (!contains(list, word)) {
        std::string advice;
        std::vector<Fix> fixes;
        if (const auto near = units::nearest(word, list)) {
            advice = "Did you mean \"" + std::string(*near) + "\"? ";
            fixes.push_back({place, std::string(*near)});
        } else if (const auto meant = everyday_role(word);
                   list.data() == role_words().data() && meant) {
            advice = "Here that is \"" + std::string(*meant) + "\". ";
            fixes.push_back({place, std::string(*meant)});
        }
        advice += "Write one of";
        for (std::size_t i = 0; i < list.size(); ++i)
            advice += (i == 0 ? " " : i + 1 == list.size() ? " or " : ", ") + std::string(list[i]);
        refuse(code, place, quoted(word) + " is not " + what + ".", advice + ".", std::move(fixes));
    }
    out = {std::string(word), place};
    first = at + length;
    return true;
}

bool read_word_sign(Cursor& first, Cursor last, State& state, std::string_view word, NodeKind kind,
                    Sign& out) {
    if (!read_keyword(first, last, state, word)) return false;
    out = {kind, state.place(first - word.size(), first)};
    return true;
}

bool read_sign(Cursor& first, Cursor last, State& state, std::string_view symbol, NodeKind kind,
               Sign& out) {
    if (!read_symbol(first, last, state, symbol)) return false;
    out = {kind, state.place(first - symbol.size(), first)};
    return true;
}

struct OperatorForm {
    std::string_view written;
    std::optional<NodeKind> kind; ///< empty for what only looks like an operator
};
/// A form stands before those that it begins with.
constexpr std::array operator_forms{
    OperatorForm{"of", NodeKind::of},
    OperatorForm{"+/-", {}}, // a stated uncertainty, out of place
    OperatorForm{"+", NodeKind::add},
    OperatorForm{"-", NodeKind::subtract},
    OperatorForm{"*", NodeKind::multiply},
    OperatorForm{"/", NodeKind::divide},
    OperatorForm{"per", NodeKind::per},
    OperatorForm{"^", NodeKind::power},
    OperatorForm{"<=", NodeKind::less_equal},
    OperatorForm{"<", NodeKind::less},
    OperatorForm{">=", NodeKind::greater_equal},
    OperatorForm{">", NodeKind::greater},
    OperatorForm{"\xE2\x89\xA4", NodeKind::less_equal},
    OperatorForm{"\xE2\x89\xA5", NodeKind::greater_equal},
    OperatorForm{"and", NodeKind::both},
    OperatorForm{"or", NodeKind::either},
};

/// What an operator can begin with.
constexpr std::array<bool, 256> begins_operator = [] {
    std::array<bool, 256> out{};
    for (const OperatorForm& form : operator_forms)
        out[static_cast<unsigned char>(form.written.front())] = true;
    return out;
}();

} // namespace

bool read_keyword(Cursor& first, Cursor last, State& state, std::string_view word) {
    const Cursor at = skip_blanks(first, last, state.comments);
    if (at == last || *at != word.front()) return false;
    const std::string_view here = rest(at, last);
    if (!here.starts_with(word) || goes_on_with_name(here.substr(word.size()))) return false;
    first = at + word.size();
    return true;
}

bool read_symbol(Cursor& first, Cursor last, State& state, std::string_view symbol) {
    const Cursor at = skip_blanks(first, last, state.comments);
    if (at == last || *at != symbol.front() || !rest(at, last).starts_with(symbol)) return false;
    first = at + symbol.size();
    return true;
}

void look_for_operator(Cursor at, Cursor last, State& state) {
    OperatorBehind& behind = state.behind;
    const Cursor begin = skip_blanks(at, last, state.comments);
    behind = {at, last, std::nullopt, begin, begin};
    if (begin == last || !begins_operator[static_cast<unsigned char>(*begin)]) return;
    const std::string_view here = rest(begin, last);
    for (const OperatorForm& form : operator_forms) {
        if (*begin != form.written.front() || !here.starts_with(form.written)) continue;
        if (is_ascii_letter(*begin) && goes_on_with_name(here.substr(form.written.size())))
            continue;
        behind.kind = form.kind;
        behind.end = begin + form.written.size();
        break;
    }
}

bool read_new_name(Cursor& first, Cursor last, State& state, Word& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    const std::size_t length = name_length(rest(at, last));
    if (length == 0) {
        // Digits or `_` in front, with letters behind, are an attempt at a name.
        Cursor end = at;
        while (goes_on_with_name(rest(end, last)))
            end += decode(rest(end, last)).length;
        if (end == at) return false;
        refuse("bad-name", state.place(at, end),
               "A name begins with a letter; " + quoted(rest(at, end)) + " does not.",
               "Letters, digits and _ may follow the first letter.");
    }
    const std::string_view word(at, length);
    const Place place = state.place(at, at + length);
    if (is_reserved(word)) refuse_reserved(state, place);
    std::string name = to_nfc(word);
    if (name.size() > limits::name_characters) {
        const std::size_t count = count_characters(name);
        if (count > limits::name_characters)
            refuse("name-too-long", place,
                   "This name has " + std::to_string(count) + " characters; a name may have " +
                       std::to_string(limits::name_characters) + ".",
                   "Give it a shorter one, and put the rest in a label.");
    }
    out = {std::move(name), place};
    first = at + length;
    return true;
}

bool read_word(Cursor& first, Cursor last, State& state, Word& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    const std::size_t length = word_length(rest(at, last));
    if (length == 0) return false;
    const Place place = state.place(at, at + length);
    if (count_characters({at, length}) > limits::name_characters)
        refuse("name-too-long", place,
               "This word has more than " + std::to_string(limits::name_characters) +
                   " characters.",
               "Write a shorter one.");
    out = {to_nfc({at, length}), place};
    first = at + length;
    return true;
}

bool read_material(Cursor& first, Cursor last, State& state, Word& out) {
    Cursor at = skip_blanks(first, last, state.comments);
    const Cursor begin = at;
    Cursor end = at;
    out.value.clear();
    while (at < last) {
        Cursor stop = at;
        while (stop < last && (goes_on_with_name(rest(stop, last)) ||
                               (stop > at && (*stop == '-' || *stop == '\''))))
            stop += decode(rest(stop, last)).length;
        const std::string_view word(at, static_cast<std::size_t>(stop - at));
        if (word.empty() || word.front() == '_' || contains(tail_words(), word)) break;
        if (!out.value.empty()) out.value += ' ';
        out.value += to_nfc(word);
        end = stop;
        at = skip_blanks(stop, last, state.comments);
    }
    if (end == begin) return false;
    out.place = state.place(begin, end);
    if (count_characters(out.value) > 2 * limits::name_characters)
        refuse("name-too-long", out.place, "The name of this material is too long.",
               "Write a shorter one.");
    first = end;
    return true;
}

bool read_role(Cursor& first, Cursor last, State& state, Word& out) {
    return read_listed(first, last, state, role_words(), "unknown-role", "a role", out);
}

bool read_task(Cursor& first, Cursor last, State& state, Word& out) {
    return read_listed(first, last, state, task_words(), "unknown-task", "a task", out);
}

bool read_period(Cursor& first, Cursor last, State& state, Period& out) {
    Word word;
    if (!read_listed(first, last, state, period_words(), "unknown-period", "a length of time",
                     word))
        return false;
    out = *find_period(word.value);
    return true;
}

bool read_cold(Cursor& first, Cursor last, State& state, Word& out) {
    static constexpr std::array<std::string_view, 2> list{"cold", "cool"};
    return read_listed(first, last, state, list, "unknown-place", "a place to keep it", out);
}

bool read_spoons(Cursor& first, Cursor last, State& state, units::Spoons& out) {
    static constexpr std::array<std::string_view, 3> list{"us", "metric", "imperial"};
    Word word;
    if (!read_listed(first, last, state, list, "unknown-spoons", "a set of spoons", word))
        return false;
    out = word.value == "us"       ? units::Spoons::us
          : word.value == "metric" ? units::Spoons::metric
                                   : units::Spoons::imperial;
    return true;
}

bool read_system(Cursor& first, Cursor last, State& state, units::Shown::System& out) {
    static constexpr std::array<std::string_view, 2> list{"us", "metric"};
    Word word;
    if (!read_listed(first, last, state, list, "unknown-units", "a set of units", word))
        return false;
    out = word.value == "us" ? units::Shown::System::us : units::Shown::System::metric;
    return true;
}

bool read_deed(Cursor& first, Cursor last, State& state, Word& out) {
    return read_listed(first, last, state, deed_words(), "unknown-task", "something to do", out);
}

bool read_day(Cursor& first, Cursor last, State& state, Day& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    Cursor end = at;
    while (end < last && (is_digit(*end) || *end == '-' || *end == '.' || *end == '/'))
        ++end;
    if (end == at || !is_digit(*at)) return false;
    const std::string_view text(at, static_cast<std::size_t>(end - at));
    const auto number = [&](std::size_t from, std::size_t digits) {
        int value = 0;
        for (std::size_t i = from; i < from + digits; ++i) {
            if (!is_digit(text[i])) return -1;
            value = value * 10 + (text[i] - '0');
        }
        return value;
    };
    const bool form = text.size() == 10 && text[4] == '-' && text[7] == '-';
    const int year = form ? number(0, 4) : -1;
    const int month = form ? number(5, 2) : -1;
    const int day = form ? number(8, 2) : -1;
    if (year < 0 || month < 0 || day < 0)
        refuse("not-a-date", state.place(at, end), quoted(text) + " is not a date.",
               "Write year, month and day, as in 2026-11-25.");
    const std::chrono::year_month_day date{std::chrono::year{year},
                                           std::chrono::month{static_cast<unsigned>(month)},
                                           std::chrono::day{static_cast<unsigned>(day)}};
    if (!date.ok() || year < 1900 || year > 2999)
        refuse("no-such-day", state.place(at, end), "There is no day " + std::string(text) + ".",
               "Days of the years 1900 to 2999 are understood.");
    out = {year, month, day, state.place(at, end)};
    first = end;
    return true;
}

bool read_whole(Cursor& first, Cursor last, State& state, Whole& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    Cursor end = at;
    std::int64_t value = 0;
    while (end < last && is_digit(*end)) {
        if (value <= 1'000'000'000) value = value * 10 + (*end - '0');
        ++end;
    }
    if (end == at) return false;
    if (value > 1'000'000'000)
        refuse("too-large", state.place(at, end), "This number is too large.",
               "Whole numbers go up to 1000000000 here.");
    if (end + 1 < last && (*end == '.' || *end == '/' || *end == ',') && is_digit(end[1])) {
        Cursor stop = end + 1;
        while (stop < last && is_digit(*stop))
            ++stop;
        refuse("expected-whole", state.place(at, stop),
               "Only a whole number can stand here, not " + quoted(rest(at, stop)) + ".",
               form_advice(state));
    }
    out = {static_cast<int>(value), state.place(at, end)};
    first = end;
    return true;
}

bool read_name_node(Cursor& first, Cursor last, State& state, NodeId& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    const std::size_t length = name_length(rest(at, last));
    if (length == 0) return false;
    const std::string_view word(at, length);
    const Place place = state.place(at, at + length);
    const bool standing = is_standing_name(word);
    if (!standing) {
        if (find_function(word) && !units::is_unit_word(word))
            refuse("bare-function", place,
                   quoted(word) + " is a function, and no parentheses follow it.",
                   "Write \"" + std::string(word) + "(…)\" with what it works on.");
        if (is_language_word(word)) return false;
        if (units::is_unit_word(word))
            refuse("bare-unit", place, quoted(word) + " is a unit, and no number stands before it.",
                   "Write \"1 " + std::string(word) +
                       "\". A unit without a number stands only after \"per\" or \"/\".",
                   {{place, "1 " + std::string(word)}});
    }
    const Cursor next = skip_spaces(at + length, last);
    if (!standing && next < last && *next == '(') {
        if (const auto near = units::nearest(word, function_names()))
            refuse("unknown-function", place, "There is no function called " + quoted(word) + ".",
                   "Did you mean \"" + std::string(*near) + "\"?", {{place, std::string(*near)}});
        refuse("unknown-function", place, "There is no function called " + quoted(word) + ".",
               "The functions are min, max, abs, sqrt, round, floor, ceil and cover. To multiply, "
               "write * before the parenthesis.");
    }
    std::string name = to_nfc(word);
    if (name.size() > limits::name_characters && count_characters(name) > limits::name_characters)
        refuse("name-too-long", place,
               "No name is as long as this: a name may have " +
                   std::to_string(limits::name_characters) + " characters.");
    out = add_name(state, std::move(name), place);
    first = at + length;
    return true;
}

bool read_function(Cursor& first, Cursor last, State& state, FunctionWord& out) {
    const Cursor at = skip_blanks(first, last, state.comments);
    const std::size_t length = name_length(rest(at, last));
    if (length == 0) return false;
    const auto function = find_function({at, length});
    if (!function) return false;
    const Cursor next = skip_spaces(at + length, last);
    if (next == last || *next != '(') return false;
    out = {*function, state.place(at, at + length)};
    first = at + length;
    return true;
}

bool read_open(Cursor& first, Cursor last, State& state, Place& out) {
    if (!read_symbol(first, last, state, "(")) return false;
    out = state.place(first - 1, first);
    state.open.push_back(out);
    return true;
}

bool read_close(Cursor& first, Cursor last, State& state, Place& out) {
    if (!read_symbol(first, last, state, ")")) return false;
    out = state.place(first - 1, first);
    if (!state.open.empty()) state.open.pop_back();
    return true;
}

bool read_minus(Cursor& first, Cursor last, State& state, Sign& out) {
    return read_sign(first, last, state, "-", NodeKind::negate, out);
}

bool read_not(Cursor& first, Cursor last, State& state, Sign& out) {
    return read_word_sign(first, last, state, "not", NodeKind::negation, out);
}

bool read_if(Cursor& first, Cursor last, State& state, Sign& out) {
    return read_word_sign(first, last, state, "if", NodeKind::choose, out);
}

} // namespace jarful::language
