#include "engine/appraise/quantity.hpp"

#include "engine/appraise/number_words.hpp"
#include "engine/larder/spoon_fill.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace jarful::appraise {

using units::Interval;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

bool is_word(Tokens tokens, std::size_t at, std::string_view folded) {
    return at < tokens.size() && tokens[at].sort == Token::Sort::word &&
           tokens[at].folded == folded;
}

bool any_word(Tokens tokens, std::size_t at, std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view w) { return is_word(tokens, at, w); });
}

bool has_word(Tokens tokens, std::initializer_list<std::string_view> words) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (any_word(tokens, i, words)) return true;
    }
    return false;
}

bool is_mark(Tokens tokens, std::size_t at, std::string_view mark) {
    return at < tokens.size() && tokens[at].sort == Token::Sort::mark && tokens[at].text == mark;
}

Interval Quantity::base() const {
    if (measure == nullptr) return {};
    Interval out{count.low * measure->factor.low * fill.low,
                 count.high * measure->factor.high * fill.high};
    // "About" is taken as a tenth either way: common practice, no source.
    if (about) out = {out.low * 0.9, out.high * 1.1};
    return out;
}

namespace {

bool number_at(Tokens tokens, std::size_t at) {
    return at < tokens.size() && tokens[at].sort == Token::Sort::number;
}

struct Count {
    double value = 0;
    std::size_t tokens = 0;
    bool unclear = false;
    bool whole = false;
    bool apart = false; ///< groups of digits with a blank between, which may be two numbers
};

std::optional<Count> word_number(Tokens tokens, std::size_t at) {
    if (at >= tokens.size() || tokens[at].sort != Token::Sort::word) return std::nullopt;
    static constexpr std::pair<std::string_view, double> table[] = {
        {"a", 1},         {"an", 1},       {"one", 1},      {"two", 2},     {"three", 3},
        {"four", 4},      {"five", 5},     {"six", 6},      {"seven", 7},   {"eight", 8},
        {"nine", 9},      {"ten", 10},     {"eleven", 11},  {"twelve", 12}, {"fifteen", 15},
        {"twenty", 20},   {"dozen", 12},   {"ein", 1},      {"eine", 1},    {"einen", 1},
        {"einer", 1},     {"einem", 1},    {"zwei", 2},     {"drei", 3},    {"vier", 4},
        {"funf", 5},      {"sechs", 6},    {"un", 1},       {"une", 1},     {"deux", 2},
        {"trois", 3},     {"quatre", 4},   {"cinq", 5},     {"half", 0.5},  {"halbe", 0.5},
        {"halber", 0.5},  {"halben", 0.5}, {"halbes", 0.5}, {"demi", 0.5},  {"demie", 0.5},
        {"quarter", 0.25}};
    for (const auto& [word, value] : table) {
        if (tokens[at].folded != word) continue;
        Count c{value, 1, false, value >= 1};
        // "half a", "a half", "a quarter", "one dozen", "a dozen", "half a dozen", "ein halber".
        if (value == 0.5 || value == 0.25) {
            if (any_word(tokens, at + 1, {"a", "an"})) c.tokens = 2;
            if (is_word(tokens, at + 1, "of") && any_word(tokens, at + 2, {"a", "an"}))
                c.tokens = 3;
            if (is_word(tokens, at + c.tokens, "dozen")) {
                c.value *= 12;
                ++c.tokens;
            }
            return c;
        }
        if (any_word(tokens, at + 1,
                     {"half", "halbe", "halber", "halben", "halbes", "demi", "demie"}) &&
            value == 1) {
            return Count{0.5, 2, false, false};
        }
        if (is_word(tokens, at + 1, "quarter") && value == 1) return Count{0.25, 2, false, false};
        if (is_word(tokens, at + 1, "dozen")) return Count{value * 12, 2, false, true};
        if ((is_word(tokens, at + 1, "couple") || is_word(tokens, at + 1, "few")) && value == 1) {
            const std::size_t of = is_word(tokens, at + 2, "of") ? 1 : 0;
            return Count{is_word(tokens, at + 1, "few") ? 3.0 : 2.0, 2 + of, false, true};
        }
        // "one and a half", "two and a half".
        if (is_word(tokens, at + 1, "and") && is_word(tokens, at + 2, "a") &&
            is_word(tokens, at + 3, "half")) {
            return Count{value + 0.5, 4, false, false};
        }
        const auto longer = number_words_at(tokens, at);
        if (longer && longer->tokens > 1) return Count{longer->value, longer->tokens, false, true};
        return c;
    }
    if (const auto number = number_words_at(tokens, at))
        return Count{number->value, number->tokens, false, true};
    return std::nullopt;
}

/// "2 500 g", "2'500 g": groups of three digits behind the first, joined to one number. A blank may
/// part two numbers just as well ("2 500 g bags"), unless the group begins with a 0, or the line is
/// in a language that sets thousands apart so.
void join_groups(Tokens tokens, std::size_t at, Numbers numbers, Count& c) {
    if (tokens[at].text.size() > 3 || tokens[at].text.starts_with('0')) return;
    const auto group = [&](std::size_t i) {
        return number_at(tokens, i) && tokens[i].whole && tokens[i].text.size() == 3;
    };
    for (;;) {
        const std::size_t next = at + c.tokens;
        const bool stroke = is_mark(tokens, next, "'") && tokens[next].glued && group(next + 1) &&
                            tokens[next + 1].glued;
        const bool blank = group(next) && !tokens[next].glued;
        if (!stroke && !blank) return;
        const Token& digits = tokens[stroke ? next + 1 : next];
        c.value = c.value * 1000 + digits.value;
        c.apart = c.apart || (blank && !numbers.comma && !digits.text.starts_with('0'));
        c.tokens += stroke ? 2 : 1;
    }
}

/// "11/4" may be 11/4 or 1 1/4 whose blank was lost.
bool run_together(const Token& token) {
    const std::size_t stroke = token.text.find('/');
    if (!token.fraction || stroke < 2 || stroke == std::string_view::npos ||
        token.numerator < token.denominator)
        return false;
    double behind = 0;
    for (const char c : token.text.substr(1, stroke - 1))
        behind = behind * 10 + (c - '0');
    return behind > 0 && behind < token.denominator;
}

/// A number in digits, mixed ones too: "1", "1 1/2", "1-1/2", "1 and 1/2", "1 & 1/2".
std::optional<Count> digit_number(Tokens tokens, std::size_t at, Numbers numbers) {
    if (!number_at(tokens, at)) return std::nullopt;
    const Token& first = tokens[at];
    Count c;
    c.tokens = 1;
    c.whole = first.whole;
    c.value = numbers.comma ? first.comma_value : first.value;
    // "1,500 kg" in a line whose language is not told, "1.500 kg" where a comma is the mark: two
    // readings that people use, a thousand times apart.
    if (first.ambiguous) {
        const bool comma = first.text.find(',') != std::string_view::npos;
        c.unclear = numbers.comma ? !comma : comma && !numbers.told;
    }
    if (!std::isfinite(c.value)) return std::nullopt;
    c.unclear = c.unclear || run_together(first);
    if (!first.whole) return c;
    join_groups(tokens, at, numbers, c);
    if (c.tokens > 1) return c;
    const auto proper = [&](std::size_t i) {
        return number_at(tokens, i) && tokens[i].fraction &&
               tokens[i].numerator < tokens[i].denominator;
    };
    std::size_t second = 0;
    if (proper(at + 1) && !tokens[at + 1].glued) {
        second = at + 1;
    } else if (is_mark(tokens, at + 1, "-") && proper(at + 2) && tokens[at + 1].glued &&
               tokens[at + 2].glued) {
        second = at + 2;
    } else if ((any_word(tokens, at + 1, {"and", "und", "et"}) || is_mark(tokens, at + 1, "&")) &&
               proper(at + 2)) {
        second = at + 2;
    }
    if (second != 0) {
        c.value += tokens[second].value;
        c.tokens = second + 1 - at;
        c.whole = false;
    } else if (any_word(tokens, at + 1, {"and"}) && is_word(tokens, at + 2, "a") &&
               is_word(tokens, at + 3, "half")) {
        c.value += 0.5;
        c.tokens = 4;
    } else if (is_word(tokens, at + 1, "dozen") || is_word(tokens, at + 1, "dz")) {
        c.value *= 12;
        c.tokens = 2;
    }
    return c;
}

std::optional<Count> count_at(Tokens tokens, std::size_t at, Numbers numbers, bool words) {
    // "a 1/4 of a teaspoon"
    if (words && at + 1 < tokens.size() && any_word(tokens, at, {"a", "an", "the"}) &&
        tokens[at + 1].fraction) {
        if (auto c = digit_number(tokens, at + 1, numbers)) {
            c->tokens += 1;
            if (is_word(tokens, at + c->tokens, "of") &&
                any_word(tokens, at + c->tokens + 1, {"a", "an"}))
                c->tokens += 2;
            return c;
        }
    }
    if (auto c = digit_number(tokens, at, numbers)) return c;
    if (words) return word_number(tokens, at);
    return std::nullopt;
}

/// Adjectives of a measure; true if one was read.
bool manner_at(Tokens tokens, std::size_t& at, Quantity& q) {
    const auto fill = at < tokens.size() && tokens[at].sort == Token::Sort::word
                          ? larder::spoon_fill(tokens[at].folded)
                          : std::nullopt;
    if (fill) {
        q.fill = *fill;
        ++at;
        if (is_word(tokens, at - 1, "gestr") && is_mark(tokens, at, ".")) ++at;
        return true;
    }
    if (any_word(tokens, at, {"packed", "tightly", "firmly", "lightly", "loosely", "loose"})) {
        if (any_word(tokens, at, {"packed", "tightly", "firmly"})) {
            q.packed = true;
            q.fill = {1.0, 1.6};
        }
        ++at;
        if (is_word(tokens, at, "packed")) ++at;
        return true;
    }
    if (any_word(tokens, at,
                 {"small", "smallish", "kleiner", "kleine", "kleines", "kleinen", "petit"})) {
        q.size = Size::small;
        ++at;
        return true;
    }
    if (any_word(tokens, at,
                 {"medium", "mittlere", "mittlerer", "mittelgrosser", "moyen", "moyenne", "average",
                  "med"})) {
        q.size = Size::medium;
        ++at;
        if (is_mark(tokens, at, "-") &&
            any_word(tokens, at + 1, {"size", "sized", "large", "small"}))
            at += 2;
        if (any_word(tokens, at, {"sized", "size"})) ++at;
        return true;
    }
    if (any_word(tokens, at,
                 {"large", "big", "grosser", "grosse", "grosses", "grossen", "gros", "grande",
                  "huge", "jumbo", "lg", "extra"})) {
        // "gros sel" and "extra virgin" are names, not sizes.
        if (is_word(tokens, at, "gros") && is_word(tokens, at + 1, "sel")) return false;
        if (is_word(tokens, at, "extra") && !is_word(tokens, at + 1, "large")) return false;
        if (is_word(tokens, at, "extra")) ++at;
        q.size = Size::large;
        ++at;
        return true;
    }
    return false;
}

/// "2 x 400 g", "1 2-lb", "one 2 lb": so many of so much.
bool multiple_at(Tokens tokens, std::size_t& at, Quantity& q, Numbers numbers) {
    std::size_t i = at;
    const bool times = is_word(tokens, i, "x") || is_mark(tokens, i, "*");
    if (times) ++i;
    const auto second = digit_number(tokens, i, numbers);
    if (!second) return false;
    i += second->tokens;
    if (is_mark(tokens, i, "-")) ++i;
    const auto measure = measure_at(tokens, i, true);
    if (!measure) return false;
    const Sort sort = measure->measure->sort;
    if (sort != Sort::mass && sort != Sort::volume) return false;
    if (!times && q.count.low != std::floor(q.count.low)) return false;
    q.count = {q.count.low * second->value, q.count.high * second->value};
    q.unclear = q.unclear || second->unclear;
    q.measure = measure->measure;
    at = i + measure->tokens;
    return true;
}

/// "up to 3", "at least 3": one end is known, the other is not.
struct Ends {
    bool open_low = false;
    bool open_high = false;
};

Ends ends_at(Tokens tokens, std::size_t& at) {
    bool open_low = false;
    bool open_high = false;
    if (any_word(tokens, at, {"up", "bis", "jusqu"}) &&
        (is_word(tokens, at + 1, "to") || is_word(tokens, at + 1, "zu") ||
         number_at(tokens, at + 1))) {
        open_low = true;
        at += number_at(tokens, at + 1) ? 1 : 2;
    } else if (is_word(tokens, at, "at") && any_word(tokens, at + 1, {"least", "most"})) {
        open_high = is_word(tokens, at + 1, "least");
        open_low = !open_high;
        at += 2;
    } else if ((is_word(tokens, at, "au") && is_word(tokens, at + 1, "moins")) ||
               (is_word(tokens, at, "more") && is_word(tokens, at + 1, "than")) ||
               (is_word(tokens, at, "plus") && is_word(tokens, at + 1, "de") &&
                number_at(tokens, at + 2))) {
        open_high = true;
        at += 2;
    } else if (any_word(tokens, at, {"minimum", "mindestens"}) ||
               (any_word(tokens, at, {"over", "uber"}) && number_at(tokens, at + 1))) {
        open_high = true;
        ++at;
    } else if (any_word(tokens, at, {"under", "unter", "maximum", "hochstens"}) &&
               number_at(tokens, at + 1)) {
        open_low = true;
        ++at;
    }
    return {open_low, open_high};
}

/// "generous tablespoon sea salt", "pinch of salt": one of it. @param begin where the words before
/// the measure began
std::optional<FoundQuantity> bare_measure_at(Tokens tokens, std::size_t begin, std::size_t at,
                                             Quantity q) {
    const auto bare = measure_at(tokens, at, false);
    if (!bare) return std::nullopt;
    const Sort sort = bare->measure->sort;
    if (sort == Sort::mass || sort == Sort::length || sort == Sort::package) return std::nullopt;
    if (sort == Sort::count && !is_word(tokens, at + bare->tokens, "of")) return std::nullopt;
    if (sort == Sort::volume && at == begin) return std::nullopt;
    q.count = {1, 1};
    q.measure = bare->measure;
    return FoundQuantity{q, at + bare->tokens - begin};
}

/// How many times the low end of a range in two measures its high end may be.
constexpr double most_apart = 20;

/// The far end of a range: "2 to 3", "2 lb to 3 lb", "between 2 and 3". False where a dash makes
/// none of it: "3-2 tbsp".
bool range_at(Tokens tokens, std::size_t& at, Quantity& q, Numbers numbers, bool words,
              bool between) {
    // "2 lb to 3 lb": the measure may stand behind both.
    const std::optional<FoundMeasure> inner = measure_at(tokens, at, true);
    const std::size_t i = at + (inner ? inner->tokens : 0);
    const bool dash = is_mark(tokens, i, "-");
    const bool word = any_word(tokens, i, {"to", "or", "bis", "a", "oder", "ou"}) ||
                      (between && any_word(tokens, i, {"and", "und"}));
    const bool accent = i < tokens.size() && is_word(tokens, i, "a") && tokens[i].text != "a";
    if (!dash && (!word || (is_word(tokens, i, "a") && !accent))) return true;
    const std::size_t j = i + 1 + about_at(tokens, i + 1);
    const auto second = count_at(tokens, j, numbers, words && word && !accent);
    if (!second) return true;
    const std::size_t end = j + second->tokens;
    const auto outer = measure_at(tokens, end, true);
    const bool same = !inner || (outer && outer->measure->unit == inner->measure->unit);
    if (!same && outer && outer->measure->sort == inner->measure->sort &&
        !any_word(tokens, i, {"or", "oder", "ou"}) &&
        (inner->measure->sort == Sort::mass || inner->measure->sort == Sort::volume)) {
        // "500 g to 1 kg": two measures of a sort. What is many times apart, "20 g to 1 kg", is
        // more likely so much for so much.
        const double factor = outer->measure->factor.high / inner->measure->factor.high;
        const double high = second->value * factor;
        if (between || !(high > most_apart * q.count.low)) {
            q.unclear = q.unclear || second->unclear || high < q.count.low;
            q.count.high = std::max(q.count.low, high);
            q.measure = inner->measure;
            at = end + outer->tokens;
            return true;
        }
    }
    // "3 tbsp or 54 g" is an alternative, no range, and "1 or 2" a range; "1 14-oz"
    // neither. "1-2 lb" with a falling pair is no range.
    const bool rising = second->value > q.count.low;
    const bool inch = outer && outer->measure->sort == Sort::length && !inner;
    if (same && rising && !(inch && is_mark(tokens, end, "-"))) {
        q.count.high = second->value;
        q.unclear = q.unclear || second->unclear;
        at = end;
        return true;
    }
    if (same && !rising && dash && second->value == q.count.low) {
        at = end;
        return true;
    }
    return !dash || inner;
}

/// "%" and its words; how many tokens they take.
std::size_t percent_at(Tokens tokens, std::size_t at) {
    if (is_mark(tokens, at, "%") || any_word(tokens, at, {"percent", "prozent", "pct"})) return 1;
    return is_word(tokens, at, "per") && is_word(tokens, at + 1, "cent") ? 2 : 0;
}

/// The measure behind a number, with its adjectives.
FoundQuantity measured_at(Tokens tokens, std::size_t begin, std::size_t at, Quantity q) {
    std::size_t behind = at;
    if (is_mark(tokens, behind, "-") && behind < tokens.size() && tokens[behind].glued &&
        measure_at(tokens, behind + 1, true)) {
        ++behind; // "2-pound", "1-inch"
    }
    std::size_t adjectives = behind;
    const Quantity before_adjectives = q;
    while (manner_at(tokens, adjectives, q)) {
    }
    if (const std::size_t taken = percent_at(tokens, behind)) {
        q.measure = &percent_measure();
        return FoundQuantity{q, behind + taken - begin};
    }
    // "2 of the heads" has no measure; "3 metric cups" has.
    if (const auto measure = measure_at(tokens, adjectives, true)) {
        q.measure = measure->measure;
        // "1.500 g", "1,500 g": nobody weighs thousandths.
        if (q.count.low >= 1000 &&
            (measure->measure->unit == "g" || measure->measure->unit == "mL"))
            q.unclear = false;
        at = adjectives + measure->tokens;
        // "1 head, 1-inch piece of ginger": "piece" behind an inch is the inch's.
        if (q.is(Sort::length)) {
            if (is_mark(tokens, at, "-")) ++at;
            const auto piece = measure_at(tokens, at, true);
            if (piece && piece->measure->sort == Sort::count) at += piece->tokens;
        }
        return FoundQuantity{q, at - begin};
    }
    if (adjectives > behind) {
        // "3 large carrots"
        return FoundQuantity{q, adjectives - begin};
    }
    q = before_adjectives;
    return FoundQuantity{q, at - begin};
}

std::optional<FoundQuantity> simple_at(Tokens tokens, std::size_t at, Numbers numbers, bool words) {
    const std::size_t begin = at;
    Quantity q;
    for (std::size_t taken = about_at(tokens, at); taken != 0; taken = about_at(tokens, at)) {
        q.about = true;
        at += taken;
    }
    const bool between = is_word(tokens, at, "between") || is_word(tokens, at, "zwischen");
    if (between) ++at;
    const Ends ends = ends_at(tokens, at);
    while (manner_at(tokens, at, q)) {
    }
    const auto first = count_at(tokens, at, numbers, words);
    if (!first) return words ? bare_measure_at(tokens, begin, at, q) : std::nullopt;
    at += first->tokens;
    q.count = {first->value, first->value};
    q.unclear = first->unclear;
    // "2+ lb": at least so much.
    if (is_mark(tokens, at, "+") && tokens[at].glued && !number_at(tokens, at + 1)) {
        q.open = true;
        ++at;
    }
    const bool whole = range_at(tokens, at, q, numbers, words, between);
    // "between 900 g and 1 kg" that is no range is no sum either.
    if (between && q.count.point()) q.unclear = true;
    if (ends.open_low) q.count.low = 0;
    if (ends.open_high) q.open = true;
    if (q.measure != nullptr) return FoundQuantity{q, at - begin}; // of two measures
    FoundQuantity found = multiple_at(tokens, at, q, numbers) ? FoundQuantity{q, at - begin}
                                                              : measured_at(tokens, begin, at, q);
    found.quantity.unclear = found.quantity.unclear || !whole || first->apart;
    return found;
}

/// How many tokens "and a half" takes behind a measure; 0 if it does not stand there, or is the
/// half of another thing.
std::size_t half_behind(Tokens tokens, std::size_t at) {
    if (is_word(tokens, at, "et") && any_word(tokens, at + 1, {"demi", "demie"})) return 2;
    if (is_word(tokens, at, "and") && is_word(tokens, at + 1, "a") &&
        is_word(tokens, at + 2, "half") && !measure_at(tokens, at + 3, true) &&
        !any_word(tokens, at + 3, {"a"}))
        return 3;
    return 0;
}

bool compatible(const Quantity& a, const Quantity& b) {
    if (a.measure == nullptr || b.measure == nullptr) return false;
    if (a.measure->sort != b.measure->sort) return false;
    return a.measure->sort == Sort::mass || a.measure->sort == Sort::volume;
}

void add(Quantity& sum, const Quantity& more) {
    const double low = more.base().low / (sum.measure->factor.low * sum.fill.low);
    const double high = more.base().high / (sum.measure->factor.high * sum.fill.high);
    const double ratio = more.measure->factor.low / sum.measure->factor.low;
    // Written amounts stay written amounts: 2 tbsp plus 1 tsp are 2.333 tbsp, whatever the spoon.
    const bool plain = more.fill.point() && more.fill.low == 1 && !more.about && sum.fill.point() &&
                       sum.fill.low == 1;
    sum.count.low += plain ? more.count.low * ratio : low;
    sum.count.high += plain ? more.count.high * ratio : high;
    sum.unclear = sum.unclear || more.unclear;
}

} // namespace

std::size_t about_at(Tokens tokens, std::size_t at) {
    if (is_mark(tokens, at, "~")) return 1;
    if (!any_word(tokens, at,
                  {"about", "approximately", "approx", "appr", "around", "roughly", "ca", "circa",
                   "env", "environ", "etwa", "ungefahr", "rund", "nearly", "almost", "c", "zirka",
                   "just"})) {
        return 0;
    }
    if (is_word(tokens, at, "c"))
        return is_mark(tokens, at + 1, ".") && number_at(tokens, at + 2) ? 2 : 0;
    if (is_word(tokens, at, "just")) {
        return any_word(tokens, at + 1, {"over", "under"}) ? 2 : 0;
    }
    if (is_mark(tokens, at + 1, ".")) return 2;
    return 1;
}

std::optional<FoundQuantity> quantity_at(Tokens tokens, std::size_t at, Numbers numbers,
                                         bool words) {
    auto found = simple_at(tokens, at, numbers, words);
    if (!found) return std::nullopt;
    // "two litres and a half", "deux litres et demi".
    if (const std::size_t half = half_behind(tokens, at + found->tokens);
        half > 0 && found->quantity.measure != nullptr && found->quantity.count.point()) {
        found->quantity.count = found->quantity.count + Interval(0.5);
        found->tokens += half;
    }
    // "1 lb 4 oz", "2 tbsp plus 1 tsp", "1 tbsp and 1 tsp".
    for (int parts = 0; parts < 4; ++parts) {
        std::size_t next = at + found->tokens;
        const bool plus = any_word(tokens, next, {"plus", "and", "und", "et"}) ||
                          is_mark(tokens, next, "+") || is_mark(tokens, next, "&");
        if (plus) {
            if (any_word(tokens, next + 1, {"more", "extra", "additional", "mehr"}) ||
                (any_word(tokens, next + 1, {"a"}) &&
                 any_word(tokens, next + 2, {"little", "bit"}))) {
                found->quantity.open = true;
                found->tokens += 2;
                break;
            }
            ++next;
        }
        if (found->quantity.measure == nullptr || !number_at(tokens, next)) {
            if (!plus || found->quantity.measure == nullptr) break;
        }
        const auto more = simple_at(tokens, next, numbers, plus && words);
        if (!more || !compatible(found->quantity, more->quantity)) break;
        if (!plus && !(more->quantity.measure->factor.high < found->quantity.measure->factor.low))
            break;
        add(found->quantity, more->quantity);
        found->tokens = next + more->tokens - at;
    }
    return found;
}

} // namespace jarful::appraise
