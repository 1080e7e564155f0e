#include "engine/appraise/quantity.hpp"

#include "engine/appraise/number_words.hpp"
#include "engine/larder/spoon_fill.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::appraise {

using units::Interval;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

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

/// "half a", "half of a", "half a dozen", "a quarter": a part of one.
Count part_of_one(Tokens tokens, std::size_t at, double value) {
    Count c{value, 1};
    if (means(tokens, at + 1, Concept::article))
        c.tokens = 2;
    else if (means(tokens, at + 1, Concept::of) && means(tokens, at + 2, Concept::article))
        c.tokens = 3;
    if (means(tokens, at + c.tokens, Concept::dozen)) {
        c.value *= 12;
        ++c.tokens;
    }
    return c;
}

/// "and a half"
bool half_at(Tokens tokens, std::size_t at) {
    return means(tokens, at, Concept::sum) && means(tokens, at + 1, Concept::article) &&
           at + 2 < tokens.size() && tokens[at + 2].number == 0.5;
}

std::optional<Count> word_number(Tokens tokens, std::size_t at) {
    if (at >= tokens.size() || tokens[at].sort != Token::Sort::word || tokens[at].number == 0)
        return std::nullopt;
    const double value = tokens[at].number;
    if (value < 1) return part_of_one(tokens, at, value);
    const double next = at + 1 < tokens.size() ? tokens[at + 1].number : 0;
    if (value == 1 && next > 0 && next < 1) return Count{next, 2};
    if (means(tokens, at + 1, Concept::dozen)) return Count{value * 12, 2, false, true};
    if (value == 1 && means(tokens, at + 1, {Concept::couple, Concept::few})) {
        const std::size_t of = means(tokens, at + 2, Concept::of) ? 1 : 0;
        return Count{means(tokens, at + 1, Concept::few) ? 3.0 : 2.0, 2 + of, false, true};
    }
    if (half_at(tokens, at + 1)) return Count{value + 0.5, 4};
    const auto longer = number_words_at(tokens, at);
    if (longer && longer->tokens > 1) return Count{longer->value, longer->tokens, false, true};
    return Count{value, 1, false, true};
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
    } else if ((means(tokens, at + 1, Concept::sum) || is_mark(tokens, at + 1, "&")) &&
               proper(at + 2)) {
        second = at + 2;
    }
    if (second != 0) {
        c.value += tokens[second].value;
        c.tokens = second + 1 - at;
        c.whole = false;
    } else if (half_at(tokens, at + 1)) {
        c.value += 0.5;
        c.tokens = 4;
    } else if (means(tokens, at + 1, Concept::dozen)) {
        c.value *= 12;
        c.tokens = 2;
    }
    return c;
}

std::optional<Count> count_at(Tokens tokens, std::size_t at, Numbers numbers, bool words) {
    // "a 1/4 of a teaspoon"
    if (words && at + 1 < tokens.size() && means(tokens, at, {Concept::article, Concept::the}) &&
        tokens[at + 1].fraction) {
        if (auto c = digit_number(tokens, at + 1, numbers)) {
            c->tokens += 1;
            if (means(tokens, at + c->tokens, Concept::of) &&
                means(tokens, at + c->tokens + 1, Concept::article))
                c->tokens += 2;
            return c;
        }
    }
    if (auto c = digit_number(tokens, at, numbers)) return c;
    if (words) return word_number(tokens, at);
    return std::nullopt;
}

/// The size of pieces, and what may stand behind its word; true if one was read.
bool size_at(Tokens tokens, std::size_t& at, Quantity& q) {
    const std::size_t taken = words_taken(tokens, at);
    if (means(tokens, at, Concept::size_small)) {
        q.size = Size::small;
    } else if (means(tokens, at, Concept::size_medium)) {
        q.size = Size::medium;
        if (is_mark(tokens, at + 1, "-") &&
            means(tokens, at + 2, {Concept::size_word, Concept::size_large, Concept::size_small}))
            at += 2;
        if (means(tokens, at + 1, Concept::size_word)) ++at;
    } else if (means(tokens, at, Concept::size_large) && !means(tokens, at + 1, Concept::salt)) {
        q.size = Size::large; // "gros sel" is a name, and no size
    } else {
        return false;
    }
    at += taken;
    return true;
}

/// Adjectives of a measure; true if one was read.
bool manner_at(Tokens tokens, std::size_t& at, Quantity& q) {
    if (at >= tokens.size() || tokens[at].sort != Token::Sort::word) return false;
    if (const auto fill = fill_of(tokens[at])) {
        q.fill = *fill;
        ++at;
        if (is_mark(tokens, at, ".") && tokens[at].glued) ++at; // "gestr."
        return true;
    }
    const bool packed = means(tokens, at, Concept::packed);
    if (!packed && !means(tokens, at, Concept::loosely)) return size_at(tokens, at, q);
    if (packed) {
        q.packed = true;
        q.fill = packed_fill;
    }
    ++at;
    if (means(tokens, at, Concept::packed)) ++at;
    return true;
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
    // Nobody writes "6 7 tbsp" for six times seven: spoons come in no packages.
    if (!times && (measure->measure->unit == "tbsp" || measure->measure->unit == "tsp"))
        return false;
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
    const Ends ends{means(tokens, at, Concept::at_most), means(tokens, at, Concept::at_least)};
    if (ends.open_low || ends.open_high) at += words_taken(tokens, at);
    return ends;
}

/// "generous tablespoon sea salt", "pinch of salt": one of it. @param begin where the words before
/// the measure began
std::optional<FoundQuantity> bare_measure_at(Tokens tokens, std::size_t begin, std::size_t at,
                                             Quantity q) {
    const auto bare = measure_at(tokens, at, false);
    if (!bare) return std::nullopt;
    const Sort sort = bare->measure->sort;
    if (sort == Sort::mass || sort == Sort::length || sort == Sort::package) return std::nullopt;
    if (sort == Sort::count && !means(tokens, at + bare->tokens, Concept::of)) return std::nullopt;
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
    const bool word =
        means(tokens, i, Concept::range) || (between && means(tokens, i, Concept::sum));
    if (!dash && !word) return true;
    const std::size_t j = i + 1 + about_at(tokens, i + 1);
    const auto second = count_at(tokens, j, numbers, words && word);
    if (!second) return true;
    const std::size_t end = j + second->tokens;
    const auto outer = measure_at(tokens, end, true);
    const bool same = !inner || (outer && outer->measure->unit == inner->measure->unit);
    if (!same && outer && outer->measure->sort == inner->measure->sort &&
        !means(tokens, i, Concept::either) &&
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
    if (is_mark(tokens, at, "%")) return 1;
    return means(tokens, at, Concept::percent_word) ? words_taken(tokens, at) : 0;
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
    const bool between = means(tokens, at, Concept::between);
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
    const auto half = [&](std::size_t i) { return i < tokens.size() && tokens[i].number == 0.5; };
    if (!means(tokens, at, Concept::sum)) return 0;
    if (half(at + 1)) return 2; // "et demi"
    return half_at(tokens, at) && !measure_at(tokens, at + 3, true) &&
                   !means(tokens, at + 3, Concept::article)
               ? 3
               : 0;
}

bool compatible(const Quantity& a, const Quantity& b) {
    if (a.measure == nullptr || b.measure == nullptr) return false;
    return a.measure->sort == b.measure->sort && sized(a);
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

// Beside a level spoon; common practice, no source; wide on purpose.
std::optional<Interval> fill_of(const Token& token) {
    using larder::SpoonFill;
    if (token.is.any(Concept::heaped)) return larder::spoon_fill(SpoonFill::heaped);
    if (token.is.any(Concept::rounded)) return larder::spoon_fill(SpoonFill::rounded);
    if (token.is.any(Concept::generous)) return larder::spoon_fill(SpoonFill::generous);
    if (token.is.any(Concept::scant)) return larder::spoon_fill(SpoonFill::scant);
    if (token.is.any(Concept::level)) return larder::spoon_fill(SpoonFill::level);
    return std::nullopt;
}

bool measured(const Quantity& q) {
    return sized(q) || q.is(Sort::loose);
}

bool sized(const Quantity& q) {
    return q.is(Sort::mass) || q.is(Sort::volume);
}

std::size_t about_at(Tokens tokens, std::size_t at) {
    if (is_mark(tokens, at, "~")) return 1;
    // "c. 20 g"
    if (means(tokens, at, Concept::about_stop))
        return is_mark(tokens, at + 1, ".") && number_at(tokens, at + 2) ? 2 : 0;
    if (!means(tokens, at, Concept::about)) return 0;
    return words_taken(tokens, at) + (is_mark(tokens, at + 1, ".") ? 1 : 0);
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
        const bool plus = means(tokens, next, Concept::sum) || is_mark(tokens, next, "+") ||
                          is_mark(tokens, next, "&");
        if (plus) {
            if (means(tokens, next + 1, Concept::some_more)) {
                found->quantity.open = true;
                found->tokens += 1 + words_taken(tokens, next + 1);
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
