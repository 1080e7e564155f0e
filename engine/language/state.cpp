#include "engine/language/state.hpp"

#include "engine/language/characters.hpp"
#include "engine/units/nearest.hpp"
#include "engine/units/unit.hpp"

#include <array>
#include <cstring>
#include <utility>

/// How a line gives up: the sentences that say what was expected, and what stands there instead.
namespace jarful::language {

namespace {

std::string_view rest(Cursor first, Cursor last) {
    return {first, static_cast<std::size_t>(last - first)};
}

struct CharacterHint {
    char32_t character;
    const char* name;
    const char* advice;
    const char* instead;        ///< what to write; null where the advice cannot tell
    const char* also = nullptr; ///< what else may be meant
};

/// Characters that phones and word processors set instead of the ones the language knows.
constexpr std::array hints{
    CharacterHint{0x2212, "the printed minus sign", "Write an ordinary - instead.", "-"},
    CharacterHint{0x2013, "a dash", "Write - to subtract, or .. for a range: 2..3.", "..", "-"},
    CharacterHint{0x2014, "a long dash", "Write - to subtract, or .. for a range: 2..3.", "..",
                  "-"},
    CharacterHint{0x2010, "a printed hyphen", "Write an ordinary - instead.", "-"},
    CharacterHint{0x00D7, "the printed sign for times", "Write * instead.", "*"},
    CharacterHint{0x00F7, "the printed sign for divided by", "Write / instead.", "/"},
    CharacterHint{0x2215, "a printed division stroke", "Write / instead.", "/"},
    CharacterHint{0x2044, "a printed fraction stroke", "Write / instead.", "/"},
    CharacterHint{0x2026, "three dots in one character", "Write .. for a range: 2..3.", ".."},
    CharacterHint{0x200B, "an invisible space", "Delete it.", ""},
    CharacterHint{0xFEFF, "an invisible byte-order mark", "Delete it.", ""},
    CharacterHint{0x201C, "a printer's quotation mark", "Write a straight \" instead.", "\""},
    CharacterHint{0x201D, "a printer's quotation mark", "Write a straight \" instead.", "\""},
    CharacterHint{0x201E, "a printer's quotation mark", "Write a straight \" instead.", "\""},
};

void refuse_odd_character(const State& state, Cursor at, Cursor last) {
    const Decoded d = decode(rest(at, last));
    for (const CharacterHint& h : hints) {
        if (!d.valid || d.value != h.character) continue;
        const Place place = state.place(at, at + d.length);
        std::vector<Fix> fixes{{place, h.instead}};
        if (h.also != nullptr) fixes.push_back({place, h.also});
        refuse("odd-character", place,
               std::string("This is ") + h.name + ", which the language does not know.", h.advice,
               std::move(fixes));
    }
}

bool defines_names(Word1 id) {
    switch (id) {
    case Word1::given:
    case Word1::total:
    case Word1::share:
    case Word1::weigh:
    case Word1::count:
    case Word1::let:
    case Word1::measure:
    case Word1::brine:
    case Word1::cap:
        return true;
    default:
        return false;
    }
}

/// Whether some line of the source defines this name; asked only once something is wrong.
bool is_defined(const State& state, std::string_view name) {
    std::size_t begin = 0;
    while (begin < state.text.size()) {
        const std::size_t found = state.text.find('\n', begin);
        const std::size_t end = found == std::string_view::npos ? state.text.size() : found;
        const Cursor last = state.text.data() + end;
        const Cursor first = skip_spaces(state.text.data() + begin, last);
        const std::size_t length = name_length(rest(first, last));
        const StatementWord* word = find_statement_word({first, length});
        if (word != nullptr && defines_names(word->id)) {
            const Cursor second = skip_spaces(first + length, last);
            if (rest(second, last).substr(0, name_length(rest(second, last))) == name) return true;
        }
        begin = end + 1;
    }
    return false;
}

std::string where_it_ends(const State& state) {
    if (state.statement == nullptr) return "The text ends";
    return state.comments ? "The line ends" : "The braces end";
}

bool is_text_place(const State& state, Place p) {
    return !p.empty() && state.text[p.begin] == '"';
}

/// "What stands here" as the subject of a sentence.
std::string subject(const State& state, Place thing) {
    if (is_text_place(state, thing)) return "A text stands";
    return quoted(state.at(thing)) + " stands";
}

/// The word of a list that was meant, as an advice and as what to write.
struct Near {
    std::string advice; ///< empty if none is near
    std::vector<Fix> fixes;
};

Near near_word(const State& state, Place place, std::span<const std::string_view> list) {
    const auto near = units::nearest(state.at(place), list);
    if (!near) return {};
    return {"Did you mean \"" + std::string(*near) + "\"?", {{place, std::string(*near)}}};
}

/// `given red cabbage = …`, `given savoy-cabbage = …`.
void refuse_split_name(const State& state, Cursor at, Cursor pos, Cursor last) {
    Cursor begin = at;
    while (begin > state.text.data() &&
           (static_cast<unsigned char>(begin[-1]) >= 0x80 || goes_on_with_name({begin - 1, 1})))
        --begin;
    const bool hyphen = *pos == '-';
    Cursor second = hyphen ? pos + 1 : pos;
    const std::size_t length = name_length(rest(second, last));
    if (length == 0 || is_language_word({second, length})) return;
    const std::string joined = std::string(begin, at) + "_" + std::string(second, length);
    refuse("bad-name", state.place(begin, second + length),
           hyphen ? "A name has no hyphen in it." : "A name is a single word.",
           "Write \"" + joined +
               "\", and the words as you say them in a label at the end of the "
               "line.",
           {{state.place(begin, second + length), joined}});
}

[[noreturn]] void refuse_missing_quantity(const State& state, Place thing,
                                          const std::string& what) {
    const std::string_view word = state.at(thing);
    if (word == "if")
        refuse("expected-quantity", thing,
               "An \"if\" inside a longer expression needs parentheses.",
               "Write \"(if … then … else …)\".");
    if (word_length(word) != 0 && is_language_word(word))
        refuse("expected-quantity", thing,
               quoted(word) + " is a word of the language; " + what + " is expected here.",
               form_advice(state));
    refuse("expected-quantity", thing, subject(state, thing) + " where " + what + " is expected.",
           form_advice(state));
}

} // namespace

Deeper::Deeper(State& state, Cursor where)
    : state_(state) {
    if (state_.depth >= limits::nesting) {
        const std::uint32_t at = state_.offset(where);
        refuse("too-deep", {at, at},
               "This expression is nested more than " + std::to_string(limits::nesting) +
                   " levels deep.",
               "Give its inner parts names of their own with \"let\" lines.");
    }
    ++state_.depth;
}

void refuse(std::string code, Place place, std::string message, std::string advice,
            std::vector<Fix> fixes) {
    throw Refusal{{std::move(code),
                   Severity::fault,
                   place,
                   std::move(message),
                   std::move(advice),
                   {},
                   std::move(fixes)}};
}

namespace {

/// The blank spaces that word processors set, as the units room takes them.
bool is_printed_space(char32_t c) {
    return c == 0xA0 || c == 0x2009 || c == 0x202F;
}

} // namespace

Cursor skip_spaces(Cursor first, Cursor last) {
    while (first < last) {
        const auto c = static_cast<unsigned char>(*first);
        if (c == ' ' || c == '\t') {
            ++first;
        } else if (c == 0xC2 || c == 0xE2) {
            const Decoded d = decode(rest(first, last));
            if (!is_printed_space(d.value)) break;
            first += d.length;
        } else {
            break;
        }
    }
    return first;
}

Cursor skip_blanks_slowly(Cursor first, Cursor last, bool comments) {
    while (first < last) {
        const auto c = static_cast<unsigned char>(*first);
        if (c <= 0x20 || c == 0x7F) {
            ++first; // control characters were reported when the file was read
        } else if (c == '#' && comments) {
            const void* end = std::memchr(first, '\n', static_cast<std::size_t>(last - first));
            first = end == nullptr ? last : static_cast<Cursor>(end);
        } else if (c == 0xE2 || c == 0xD8 || c == 0xC2) {
            const Decoded d = decode(rest(first, last));
            if (!is_printed_space(d.value) && !turns_direction(d.value) && !is_control(d.value))
                break;
            first += d.length;
        } else {
            break;
        }
    }
    return first;
}

std::string own_words(std::string_view text, std::size_t characters) {
    std::string clean;
    bool blank = false;
    std::size_t count = 0;
    for (std::size_t at = 0; at < text.size();) {
        const Decoded d = decode(text.substr(at));
        const std::string_view bytes = text.substr(at, d.length);
        at += d.length;
        if (d.valid && (d.value == ' ' || d.value == '\t' || d.value == '\n')) {
            blank = !clean.empty();
            continue;
        }
        if (count + (blank ? 1 : 0) >= characters) return clean + "…";
        if (blank) {
            clean += ' ';
            ++count;
            blank = false;
        }
        if (!d.valid || is_control(d.value) || turns_direction(d.value)) {
            clean += "\xEF\xBF\xBD";
        } else {
            clean += bytes;
        }
        ++count;
    }
    return clean;
}

std::string quoted(std::string_view text, std::size_t characters) {
    return "\"" + own_words(text, characters) + "\"";
}

Place thing_at(const State& state, Cursor at, Cursor last) {
    const Cursor pos = skip_blanks(at, last, state.comments);
    if (pos == last) return state.place(at, at);
    const std::string_view here = rest(pos, last);
    std::size_t length = word_length(here);
    if (length == 0 && is_digit(*pos)) {
        while (length < here.size() &&
               (goes_on_with_name(here.substr(length)) ||
                (here[length] == '.' && length + 1 < here.size() && is_digit(here[length + 1]))))
            length += decode(here.substr(length)).length;
    } else if (length == 0 && *pos == '"') {
        const std::size_t close = here.find_first_of("\"\n", 1);
        length =
            close == std::string_view::npos ? here.size() : close + (here[close] == '"' ? 1U : 0U);
    } else if (length == 0) {
        length = decode(here).length;
    }
    return state.place(pos, pos + length);
}

std::string form_advice(const State& state) {
    if (state.statement == nullptr || !state.comments) return {};
    return "Such a line reads, for example: " + std::string(state.statement->form);
}

void refuse_reserved(const State& state, Place place) {
    const std::string_view word = state.at(place);
    const bool unit = units::is_unit_word(word) && !is_language_word(word);
    refuse("reserved-name", place,
           quoted(word) + (unit ? " is a unit" : " is a word of the language") +
               " and cannot be a name.",
           "Choose another name, such as \"my_" + std::string(word) + "\".",
           {{place, "my_" + std::string(word)}});
}

void refuse_expected(const State& state, std::string_view which, Cursor at, Cursor last) {
    const std::size_t bar = which.find('|');
    const std::string code(bar == std::string_view::npos ? "left-over" : which.substr(0, bar));
    const std::string what(bar == std::string_view::npos ? which : which.substr(bar + 1));
    const Cursor pos = skip_blanks(at, last, state.comments);
    const Place thing = thing_at(state, at, last);
    if (code == "expected-close" && !state.open.empty()) {
        if (pos != last) refuse_odd_character(state, pos, last);
        Diagnostic d{code, Severity::fault, thing, {}, {}, {}};
        d.message = pos == last ? where_it_ends(state) + " before this parenthesis is closed."
                                : subject(state, thing) +
                                      " where \")\" or an operator such as + or * is expected.";
        d.advice = "Close the parenthesis with \")\".";
        d.related.push_back({state.open.back(), "the parenthesis was opened here"});
        if (pos == last) d.fixes.push_back({{thing.begin, thing.begin}, ")"});
        throw Refusal{std::move(d)};
    }
    if (pos == last)
        refuse(code, thing, where_it_ends(state) + " where " + what + " is expected.",
               form_advice(state));
    refuse_odd_character(state, pos, last);
    if (code == "expected-equals") refuse_split_name(state, at, pos, last);
    if (code == "expected-quantity") refuse_missing_quantity(state, thing, what);
    Near near;
    if (code == "expected-word") {
        // The words that would do stand in quotes in the phrase.
        for (std::size_t from = what.find('"'); from != std::string::npos;) {
            const std::size_t to = what.find('"', from + 1);
            if (to == std::string::npos) break;
            const std::array<std::string_view, 1> wanted{
                std::string_view(what).substr(from + 1, to - from - 1)};
            if (near.advice.empty()) near = near_word(state, thing, wanted);
            from = what.find('"', to + 1);
        }
    }
    refuse(code, thing, subject(state, thing) + " where " + what + " is expected.",
           near.advice.empty() ? form_advice(state) : near.advice, std::move(near.fixes));
}

void refuse_word_after_amount(const State& state, Place amount, Place place, bool formula) {
    static constexpr std::array<std::string_view, 20> joining{
        "of",     "per",    "as",      "and",      "to",   "optional", "discarded",
        "counts", "each",   "every",   "within",   "have", "weights",  "brimful",
        "up",     "across", "section", "replaces", "from", "at"};
    const std::string_view word = state.at(place);
    const std::string number = own_words(state.at(amount));
    const std::string product = "rite \"" + number + " * " + std::string(word) + "\" to multiply";
    const bool has_unit =
        state.at(amount).find_first_not_of("0123456789./ ") != std::string_view::npos;
    if (formula && is_defined(state, word)) {
        const Place both{amount.begin, place.end};
        std::vector<std::string> forms{number + " * " + std::string(word)};
        if (has_unit) forms.insert(forms.begin(), number + " of " + std::string(word));
        refuse("missing-operator", both,
               quoted(word) + " follows " + quoted(number) +
                   " and nothing says what to do with the two.",
               "W" + product +
                   (has_unit ? ", or \"" + number + " of " + std::string(word) + "\"." : "."),
               fixes_with(both, std::move(forms)));
    }
    Near joint = near_word(state, place, joining);
    const auto unit = units::nearest_unit(word);
    if (!joint.advice.empty() && (has_unit || !unit))
        refuse("left-over", place, quoted(word) + " is not a word that can follow an amount.",
               std::move(joint.advice), std::move(joint.fixes));
    if (unit)
        refuse("unknown-unit", place, quoted(word) + " is not a unit.",
               "Did you mean \"" + std::string(*unit) + "\"?", {{place, std::string(*unit)}});
    refuse("unknown-unit", place, quoted(word) + " is not a unit.",
           formula ? "If it is a name, w" + product + "." : form_advice(state));
}

void refuse_left_over(const State& state, Cursor at, Cursor last) {
    static constexpr std::array<std::string_view, 7> possible{
        "optional", "discarded", "keeps", "as", "counts", "each", "replaces"};
    static constexpr std::array<std::string_view, 4> comparing{"between", "at", "least", "most"};
    const Cursor pos = skip_blanks(at, last, state.comments);
    refuse_odd_character(state, pos, last);
    const Place thing = thing_at(state, at, last);
    const std::string_view word = state.at(thing);
    const std::string_view here = rest(pos, last);
    const Word1 id = state.statement != nullptr ? state.statement->id : Word1::let;
    if (*pos == '"')
        refuse("left-over", thing, "A text stands here, and the line is complete without it.",
               "A line has one text, at its end. To go on with it, begin the next line with a text "
               "in quotes.");
    if (*pos == ')')
        refuse("stray-close", thing, "This parenthesis closes nothing.",
               "Delete it, or open one before it.", {{thing, ""}});
    if (here.starts_with("\xC2\xB1") || here.starts_with("+/-"))
        refuse("stray-uncertainty", thing,
               "\"±\" belongs to a number with its unit, and here none stands before it.",
               "Write it with the amount that is unsure, for example 1.80 kg ± 5 g.");
    if (*pos == '=' || *pos == '!')
        refuse("left-over", thing,
               "\"" + std::string(1, *pos) + "\" stands where nothing more is expected.",
               "To compare, write <, <=, > or >=.");
    if (contains(possible, word) && state.comments && state.statement != nullptr) {
        if (id == Word1::let || id == Word1::total)
            refuse("tail-order", thing,
                   quoted(word) + " has no place on a \"" + std::string(state.statement->word) +
                       "\" line.",
                   "A value of this sort has only a label. " + form_advice(state));
        refuse("tail-order", thing, quoted(word) + " stands in the wrong place or a second time.",
               "The order is: optional or discarded, then as MATERIAL, then counts as ROLE, then "
               "the label in quotes.");
    }
    Near near;
    if (word_length(word) != 0) {
        near = near_word(state, thing, possible);
        if (near.advice.empty() && id == Word1::hold) near = near_word(state, thing, comparing);
        if (near.advice.empty() && (is_defined(state, word) || !state.comments))
            refuse("missing-operator", thing,
                   quoted(word) + " follows and nothing says how it belongs to what stands before "
                                  "it.",
                   "Write an operator between them: +, -, *, /, \"of\" or \"per\".");
    }
    refuse("left-over", thing, quoted(word) + " stands where nothing more is expected.",
           near.advice.empty() ? form_advice(state) : near.advice, std::move(near.fixes));
}

} // namespace jarful::language
