#include "engine/appraise/reading.hpp"

#include "engine/appraise/text.hpp"
#include "engine/appraise/tongue.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::appraise {

using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

/// Tokens outside parentheses, and each parenthesis by itself (nested ones run together).
struct Apart {
    std::vector<Token> main;
    std::vector<std::vector<Token>> asides;
    std::vector<std::size_t> places; ///< in main, where each aside stood
};

Apart apart(const std::vector<Token>& tokens) {
    Apart out;
    int depth = 0;
    for (const Token& token : tokens) {
        const bool mark = token.sort == Token::Sort::mark;
        if (mark && (token.text == "(" || token.text == "[")) {
            if (depth++ == 0) {
                out.asides.emplace_back();
                out.places.push_back(out.main.size());
            }
            continue;
        }
        if (mark && (token.text == ")" || token.text == "]")) {
            depth = std::max(0, depth - 1);
            continue;
        }
        (depth > 0 ? out.asides.back() : out.main).push_back(token);
    }
    return out;
}

/// A quantity in g or mL that stands at a place.
bool measured_at(Tokens tokens, std::size_t at) {
    const auto q = quantity_at(tokens, at, {}, false);
    return q && measured(q->quantity);
}

/// "plus more", "or extra", "more if needed": words that speak of more than the amount.
bool more_at(Tokens tokens, std::size_t at) {
    if (means(tokens, at, Concept::more_word)) {
        if (means(tokens, at + 1, Concept::than)) return measured_at(tokens, at + 2);
        return !means(tokens, at + 1, {Concept::time, Concept::times}) &&
               !(at > 0 && means(tokens, at - 1, {Concept::negation, Concept::when}));
    }
    return (means(tokens, at, {Concept::sum, Concept::either}) || is_mark(tokens, at, "+")) &&
           means(tokens, at + 1, {Concept::some_more, Concept::some_other});
}

/// "1 tsp salt (or to taste)", "2 kg cabbage, plus more", "1 L water, as needed", "1 head, at least
/// 2 kg"; not "trimmed as needed", "at least 3 weeks".
bool open_at(Tokens all, std::size_t i) {
    if (means(all, i, Concept::to_taste) || more_at(all, i)) return true;
    if (means(all, i, Concept::as_needed))
        return !(i > 0 && means(all, i - 1,
                                {Concept::trimmed, Concept::cut, Concept::wash, Concept::rinse}));
    if (means(all, i, Concept::at_least)) {
        const std::size_t behind = i + words_taken(all, i);
        return behind >= all.size() || all[behind].sort != Token::Sort::number ||
               measured_at(all, behind);
    }
    // "2 kg+ cabbage"
    return i > 0 && is_mark(all, i, "+") && all[i].glued &&
           !(i + 1 < all.size() && all[i + 1].sort == Token::Sort::number);
}

/// A ratio in parentheses: "(1 tsp per jar)", "(per kg)". @return whether it is one
bool ratio_aside(Reading& r, Tokens aside, Numbers numbers, Tongue tongue) {
    const auto per = per_word(aside, numbers);
    if (!per) return false;
    const auto ratio = ratio_of(aside.subspan(per->at + per->tokens), numbers, tongue);
    if (!ratio) return false;
    if (const auto q = quantity_at(aside, 0, numbers); q && measured(q->quantity)) {
        if (!r.amount) {
            r.amount = q->quantity;
            r.ratio = ratio;
        } else if (r.item.salty_words) {
            r.rate_beside = {text_of(aside.first(q->tokens)), text_of(aside.subspan(per->at))};
            // "25 g Salz (je Glas 1 TL)": two amounts that cannot be held against each other.
            r.left_over = r.left_over || ratio->of == Whole::other;
        }
        return true;
    }
    // "(per jar)", "(for each kg)": the amount in front is so much for so much.
    if (per->at != 0 || r.ratio) return false;
    r.ratio = ratio;
    return true;
}

/// One quantity in parentheses, which ends in front of a place.
void quantity_aside(Reading& r, Tokens aside, Quantity quantity, std::size_t end,
                    bool directly_behind) {
    const bool said_or = means(aside, 0, Concept::either);
    quantity.each = means(aside, end, {Concept::each, Concept::per}) ||
                    (directly_behind && is_mark(aside, 1, "-"));
    quantity.together = speaks_of(aside, {Concept::in_all, Concept::together}) ||
                        // "10 heads (500 g peeled cloves)"
                        (!quantity.each && speaks_of(aside, Concept::cloves));
    // "2 tsp salt (4 tsp if no whey is used)"
    if (r.amount && means(aside, end, Concept::condition) && measured(quantity)) {
        r.alternatives.push_back({quantity, std::nullopt, true});
    } else if (quantity.is(Sort::mass)) {
        r.weights.push_back(quantity);
    } else if (quantity.is(Sort::volume) && r.amount) {
        if (directly_behind && r.amount->measure == nullptr && quantity.each)
            r.weights.push_back(quantity);
        else
            r.alternatives.push_back({quantity, std::nullopt, said_or});
    } else if (r.item.salty_words && quantity.measure == nullptr && said_or) {
        r.left_over = true; // "45 g salt (or half of that)"
    } else if (!r.amount && (quantity.is(Sort::count) || quantity.is(Sort::volume))) {
        r.amount = quantity;
    }
}

/// What stands in parentheses.
void read_aside(Reading& r, Tokens aside, Numbers numbers, Tongue tongue, bool directly_behind) {
    if (aside.empty()) return;
    if (means(aside, 0, Concept::optional)) r.line.optional = true;
    if (ratio_aside(r, aside, numbers, tongue)) return;
    std::size_t at = 0;
    while (at < aside.size() &&
           (is_mark(aside, at, "=") ||
            means(aside, at, {Concept::either, Concept::of, Concept::amounting})))
        ++at;
    while (at < aside.size()) {
        const auto q = quantity_at(aside, at, numbers);
        if (!q || q->tokens == 0) {
            ++at;
            continue;
        }
        at += q->tokens;
        if (!q->quantity.is(Sort::percent)) {
            quantity_aside(r, aside, q->quantity, at, directly_behind);
            continue;
        }
        // "salt (2 % of the weight)", "25 g salt (2.5 %)"
        if (!r.item.salty_words) continue;
        if (!r.amount)
            r.amount = q->quantity;
        else
            r.rate_beside = {text_of(aside.subspan(at - q->tokens, q->tokens)),
                             text_of(aside.subspan(at))};
    }
}

/// Behind the item: "Salt: 3 tbsp", "fine sea salt 40 g", "cabbage, 5 lb". The place of the amount.
std::optional<std::size_t> trailing_amount(Tokens tokens, Numbers numbers, FoundQuantity& found) {
    for (std::size_t i = 1; i < tokens.size(); ++i) {
        if (tokens[i].sort != Token::Sort::number && about_at(tokens, i) == 0) continue;
        if (tokens[i].sort != Token::Sort::number &&
            (i + 1 >= tokens.size() ||
             tokens[i + about_at(tokens, i) >= tokens.size() ? i : i + about_at(tokens, i)].sort !=
                 Token::Sort::number)) {
            continue;
        }
        const auto q = quantity_at(tokens, i, numbers, false);
        if (!q) continue;
        const Quantity& quantity = q->quantity;
        const bool end = i + q->tokens >= tokens.size() || is_mark(tokens, i + q->tokens, ",") ||
                         is_mark(tokens, i + q->tokens, ".") || is_mark(tokens, i + q->tokens, ";");
        const bool behind_mark = is_mark(tokens, i - 1, ":") || is_mark(tokens, i - 1, "-") ||
                                 is_mark(tokens, i - 1, ",") || is_word(tokens, i - 1, "x");
        const bool counted = quantity.measure == nullptr || quantity.is(Sort::count);
        if (quantity.is(Sort::length) || quantity.is(Sort::package)) continue;
        if (counted && !(behind_mark && (end || quantity.measure != nullptr))) continue;
        if (!counted || behind_mark) {
            found = *q;
            return i;
        }
    }
    return std::nullopt;
}

void cut(std::vector<Token>& tokens, std::size_t first, std::size_t count) {
    const auto begin = tokens.begin() + static_cast<std::ptrdiff_t>(first);
    tokens.erase(begin,
                 begin + static_cast<std::ptrdiff_t>(std::min(count, tokens.size() - first)));
}

/// What a number in the rest of a line is, with the words around it.
struct Loose {
    Tokens rest;
    std::size_t first = 0; ///< with what is before it: "about"
    std::size_t end = 0;
    Quantity quantity;
    [[nodiscard]] bool before(Concepts some) const {
        return first > 0 && means(rest, first - 1, some);
    }
};

/// Whether such a number may be one that matters: not how it is cut ("in 1/4-inch slices", "cut
/// into 4 pieces"), nor the weight of pieces, which is taken.
bool matters(Reading& r, const Loose& n) {
    const Quantity& q = n.quantity;
    const bool salt = r.item.salty_words;
    // "the peel of 3 beets"
    const bool of_part =
        r.amount && r.amount->is(Sort::count) && r.amount->measure->part && n.before(Concept::of);
    if (q.is(Sort::length)) return of_part; // how long or thick the pieces are
    if (q.is(Sort::mass) && r.amount && !r.amount->weighed()) {
        Quantity weight = q;
        weight.each = means(n.rest, n.end, Concept::each);
        r.weights.push_back(weight);
        // "3 tbsp salt with 5 lb cabbage": the weight of another thing.
        return of_part || n.before({Concept::sum, Concept::also, Concept::purpose, Concept::upon});
    }
    // The strength of a vinegar matters not.
    if (q.is(Sort::percent))
        return of_part || salt || speaks_of(n.rest, {Concept::brine, Concept::not_plain_salt});
    // "2 kg cabbage plus 4 carrots"
    if (n.before(Concept::sum) || (n.first > 0 && is_mark(n.rest, n.first - 1, "+"))) return true;
    if (n.before(Concept::cut_into)) return of_part; // "cut into 4 pieces"
    // "1 kg cabbage, or 2 for a big crock"
    if (q.measure == nullptr && n.before(Concept::either) &&
        means(n.rest, n.end, {Concept::purpose, Concept::condition, Concept::when}))
        return true;
    return of_part || salt || measured(q);
}

/// Numbers in what is left. Takes out what it can read.
void rest_of_line(Reading& r, std::vector<Token>& rest, Numbers numbers) {
    for (std::size_t i = 0; i < rest.size(); ++i) {
        if (rest[i].sort != Token::Sort::number) continue;
        const auto q = quantity_at(rest, i, numbers, false);
        if (!q) {
            r.left_over = true;
            continue;
        }
        const std::size_t about = i >= 1 && about_at(rest, i - 1) == 1 ? 1 : 0;
        if (matters(r, {rest, i - about, i + q->tokens, q->quantity})) r.left_over = true;
        cut(rest, i - about, q->tokens + about);
        i = i == about ? static_cast<std::size_t>(-1) : i - about - 1;
    }
}

/// "3 tbsp per 5 lb": takes the ratio out of a line, and leaves what the salt is.
void take_ratio(Reading& r, std::vector<Token>& main, Numbers numbers, Tongue tongue) {
    // The "to" of "4 lb to 5 lb" belongs to the amount.
    const auto opening = quantity_at(main, 0, numbers);
    const std::size_t opened = opening ? opening->tokens : 0;
    auto per = per_word(Tokens(main).subspan(opened > 0 ? opened - 1 : 0), numbers);
    if (!per) return;
    per->at += opened > 0 ? opened - 1 : 0;
    const Tokens behind = Tokens(main).subspan(per->at + per->tokens);
    const auto q = quantity_at(behind, 0, numbers);
    const auto m = measure_at(behind, 0, true);
    r.ratio = ratio_of(behind, numbers, tongue);
    std::size_t taken = q && (q->quantity.is(Sort::mass) || q->quantity.is(Sort::volume))
                            ? q->tokens
                        : m ? m->tokens
                            : behind.size();
    std::vector<Token> after(
        behind.begin() + static_cast<std::ptrdiff_t>(std::min(taken, behind.size())), behind.end());
    // "10 g/lb salt": the item stands behind; "20 g salt per kg cabbage": in front.
    bool words_before = false;
    const auto first = quantity_at(main, 0, numbers);
    for (std::size_t i = first ? first->tokens : 0; i < per->at; ++i)
        words_before = words_before || main[i].sort == Token::Sort::word;
    const bool to = means(main, per->at, Concept::ratio_word) && per->tokens == 1;
    main.resize(per->at);
    if (!words_before)
        main.insert(main.end(), after.begin(), after.end());
    else if (has_number(after))
        r.left_over = true;
    // "1 tbsp to 50 g salt" is a range in two sorts of measure.
    if (!words_before && to && r.ratio && r.ratio->material &&
        r.ratio->material->role == larder::Role::salt)
        r.doubt = "Two amounts of salt: which of them is meant is not said.";
    if (!words_before && r.ratio && r.ratio->per && r.ratio->of == Whole::other) {
        r.ratio->of = r.ratio->per->weighed() ? Whole::vegetables : Whole::water;
    }
}

/// Behind an amount in front: how full the spoon is, and the same amount in other measures.
void take_more_of_amount(Reading& r, std::vector<Token>& main, Numbers numbers) {
    // "cups packed shredded cabbage"
    if (means(main, 0, Concept::packed) && r.amount->is(Sort::volume)) {
        r.amount->fill = packed_fill;
        r.amount->packed = true;
    }
    if (means(main, 0, Concept::heaped)) r.amount->fill = *fill_of(main.front());
    if (means(main, 0, {Concept::heaped, Concept::level})) cut(main, 0, 1);
    // "4 cups/1 litre", "5 lb / 2.3 kg", "3 tbsp or 54 g", "3 tbsp = 54 g"
    while (is_mark(main, 0, "/") || is_mark(main, 0, "=") || is_mark(main, 0, "|") ||
           means(main, 0, Concept::either)) {
        const auto other = quantity_at(main, 1, numbers);
        if (!other || !measured(other->quantity)) break;
        if (other->quantity.is(Sort::mass))
            r.weights.push_back(other->quantity);
        else
            r.alternatives.push_back(
                {other->quantity, std::nullopt, means(main, 0, Concept::either)});
        cut(main, 0, 1 + other->tokens);
    }
}

/// The amount, in front or behind; true if the first parenthesis stood inside it: "1 (2-pound)
/// head".
bool take_amount(Reading& r, Apart& parts, Numbers numbers, Tongue tongue) {
    std::vector<Token>& main = parts.main;
    if (const auto q = quantity_at(main, 0, numbers)) {
        r.amount = q->quantity;
        const std::size_t end = q->tokens;
        cut(main, 0, end);
        const bool inside =
            !parts.places.empty() && parts.places.front() < end && parts.places.front() > 0;
        for (std::size_t& place : parts.places)
            place = place > end ? place - end : 0;
        take_more_of_amount(r, main, numbers);
        return inside;
    }
    FoundQuantity found;
    if (const auto place = trailing_amount(main, numbers, found)) {
        r.amount = found.quantity;
        std::size_t first = *place;
        std::size_t count = found.tokens;
        if (first > 0 && (is_mark(main, first - 1, ":") || is_mark(main, first - 1, "-") ||
                          is_mark(main, first - 1, "=") || is_word(main, first - 1, "x") ||
                          (is_mark(main, first - 1, ",") && first + count >= main.size()))) {
            --first;
            ++count;
        }
        cut(main, first, count);
        // "water 1300 ml drawn the day before": how it is prepared, where it is no other thing.
        const Tokens before = Tokens(main).first(first);
        const Tokens behind = Tokens(main).subspan(first);
        if (!behind.empty() && behind.front().sort == Token::Sort::word && !has_number(behind) &&
            !speaks_of(behind, {Concept::salty_word, Concept::brine, Concept::liquid, Concept::acid,
                                Concept::of, Concept::also}) &&
            item_of(before, tongue).material != nullptr &&
            item_of(behind, tongue).material == nullptr)
            main.resize(first);
    }
    return false;
}

/// Reads the parentheses. @return the words of a short one that may name the item
std::vector<Token> read_asides(Reading& r, const Apart& parts, Numbers numbers, Tongue tongue) {
    const bool had_amount = r.amount.has_value();
    r.item.salty_words = speaks_of(parts.main, Concept::salt);
    std::vector<Token> aside_words;
    for (std::size_t i = 0; i < parts.asides.size(); ++i) {
        const bool behind = had_amount && parts.places[i] == 0;
        read_aside(r, parts.asides[i], numbers, tongue, behind);
        if (!has_number(parts.asides[i]) && parts.asides[i].size() <= 4 &&
            !parts.asides[i].empty()) {
            // "salt (kosher)", "scallions (green onions)"
            aside_words.assign(parts.asides[i].begin(), parts.asides[i].end());
        }
    }
    return aside_words;
}

/// "1 (2-pound) head cabbage", "2 (2 lb) heads": each weighs so much; the word goes.
void take_pieces(Reading& r, std::vector<Token>& main, bool inside_amount) {
    const bool plain_pieces =
        r.amount && (r.amount->measure == nullptr || (inside_amount && r.amount->is(Sort::count)) ||
                     (inside_amount && r.amount->is(Sort::package)));
    if (!plain_pieces) return;
    Quantity front = *r.amount;
    if (inside_amount && !r.weights.empty()) r.weights.front().each = true;
    if (const auto m = measure_at(main, 0, true);
        m && (m->measure->sort == Sort::count || m->measure->sort == Sort::package)) {
        front.measure = m->measure;
        cut(main, 0, m->tokens);
    }
    if (!r.weights.empty() && front.count.point()) {
        const bool single = front.count.low == 1;
        if (single || r.weights.front().each) {
            Quantity weight = r.weights.front();
            weight.count = {weight.count.low * front.count.low,
                            weight.count.high * front.count.high};
            weight.each = false;
            weight.open = weight.open || front.open;
            r.amount = weight;
            r.weights.erase(r.weights.begin());
        } else {
            r.amount = front;
        }
    } else {
        r.amount = front;
    }
}

/// "3 tbsp canning salt or 1/4 cup kosher salt"
void take_alternative(Reading& r, std::vector<Token>& main, Numbers numbers, Tongue tongue) {
    for (std::size_t i = 1; i < main.size(); ++i) {
        if (!means(main, i, Concept::either) && !is_mark(main, i, "/") && !is_mark(main, i, "="))
            continue;
        const auto q = quantity_at(main, i + 1, numbers, false);
        if (!q || !measured(q->quantity)) continue;
        const Tokens tail = Tokens(main).subspan(i + 1 + q->tokens);
        if (is_mark(main, i, "=")) {
            // "2 cabbages = 2 kg once cored"
            if (!q->quantity.is(Sort::mass) || has_number(tail)) return;
            r.weights.push_back(q->quantity);
            main.erase(main.begin() + static_cast<std::ptrdiff_t>(i),
                       main.begin() + static_cast<std::ptrdiff_t>(i + 1 + q->tokens));
            return;
        }
        Alternative alternative{q->quantity, std::nullopt, !is_mark(main, i, "/")};
        // "or 12 g for a milder kraut": the same thing.
        const bool remark = means(tail, 0, {Concept::tail_begins, Concept::condition});
        if (!tail.empty() && !remark) alternative.item = item_of(tail, tongue);
        if (alternative.item && alternative.item->material == nullptr) alternative.item.reset();
        r.alternatives.push_back(alternative);
        if (has_number(tail)) r.left_over = true;
        main.resize(i);
        break;
    }
}

/// "salt to taste", "water to cover", "as needed"
void read_open_end(Reading& r, Tokens main, Tokens all) {
    r.cover = r.cover || speaks_of(main, {Concept::cover, Concept::fill});
    // In parentheses too: "1 tsp salt (or to taste)".
    for (std::size_t i = 0; r.amount && i < all.size(); ++i)
        r.open = r.open || open_at(all, i);
    r.open =
        r.open || (r.amount && r.amount->open) ||
        std::any_of(r.weights.begin(), r.weights.end(), [](const Quantity& q) { return q.open; }) ||
        std::any_of(r.alternatives.begin(), r.alternatives.end(),
                    [](const Alternative& other) { return other.quantity.open; });
}

/// "6 red chillies, weighed whole 130 g": pieces, and what they weigh together.
void take_weight_behind(Reading& r, std::vector<Token>& main, Numbers numbers) {
    const bool pieces = r.amount && (r.amount->measure == nullptr || r.amount->is(Sort::count));
    if (!pieces || !r.weights.empty() || !r.alternatives.empty()) return;
    for (std::size_t i = 1; i < main.size(); ++i) {
        if (main[i].sort != Token::Sort::number) continue;
        const auto q = quantity_at(main, i, numbers, false);
        if (!q || !q->quantity.is(Sort::mass) || i + q->tokens != main.size()) return;
        r.weights.push_back(q->quantity);
        main.resize(i);
        while (main.size() > 1 &&
               (is_mark(main, main.size() - 1, ",") || is_mark(main, main.size() - 1, "=") ||
                main.back().is.any({Concept::weight, Concept::measure, Concept::amounting,
                                    Concept::about, Concept::in_all, Concept::plain})))
            main.pop_back();
        return;
    }
}

/// What the words that are left stand for.
void read_item(Reading& r, const std::vector<Token>& words, const std::vector<Token>& aside_words,
               Tokens all, Tongue tongue) {
    r.item = item_of(words, tongue);
    if (r.item.tongue == nullptr) r.item.tongue = tongue;
    r.item.salty_words = r.item.salty_words || speaks_of(all, Concept::salty_word);
    if (!aside_words.empty()) {
        std::vector<Token> both = aside_words;
        if (r.item.material == nullptr && words.empty()) {
            r.item = item_of(both, tongue);
        } else {
            both.insert(both.end(), words.begin(), words.end());
            const Item more = item_of(both, tongue);
            if (more.material && r.item.material && more.material->role == r.item.material->role &&
                more.material != r.item.material && more.choices.size() == 1) {
                const bool vague = r.item.material->vague;
                if (vague) {
                    r.item.material = more.material;
                    r.item.choices = {more.material};
                }
            }
        }
    }
}

} // namespace

bool as_bought(const Reading& r) {
    if (r.item.untrimmed) return true;
    if (r.item.trimmed || r.item.material == nullptr) return false;
    return r.amount && (r.amount->is(Sort::count) || r.amount->measure == nullptr) &&
           !r.weights.empty();
}

namespace {

/// "2.5 % of cabbage weight" behind "salt:" is no part of the item.
void leave_out_what_of(std::vector<Token>& words) {
    const auto of = std::find_if(words.begin(), words.end(), [](const Token& t) {
        return t.is.any({Concept::of, Concept::by});
    });
    if (of != words.begin()) words.erase(of, words.end());
    std::erase_if(words, [](const Token& t) { return t.sort == Token::Sort::number; });
}

} // namespace

Reading take_apart(std::string_view line, Tongue around) {
    Reading r;
    const std::vector<Token> all = tokens_of(line);
    const Tongue tongue = tongue_of_line(all, around);
    r.item.tongue = tongue;
    const Numbers numbers = numbers_in(tongue);
    Apart parts = apart(all);
    std::vector<Token>& main = parts.main;

    r.line.optional = speaks_of(all, Concept::optional);
    r.brine = speaks_of(all, Concept::brine);
    if (means(main, 0, Concept::optional) && is_mark(main, 1, ":")) cut(main, 0, 2);

    // "juice of 2 lemons", "juice of 1 lemon"
    const std::size_t of = means(main, 1, Concept::also) && means(main, 2, Concept::part_of_piece)
                               ? 3
                               : 1; // "juice and zest of half a lime"
    if (means(main, 0, Concept::juice) && means(main, of, Concept::of)) {
        r.juice = true;
        cut(main, 0, of + 1);
    }

    take_ratio(r, main, numbers, tongue);
    const bool inside_amount = take_amount(r, parts, numbers, tongue);
    const bool had_amount = r.amount.has_value();
    const std::vector<Token> aside_words = read_asides(r, parts, numbers, tongue);
    if (!r.amount && !r.weights.empty()) { // "Cabbage (2 kg)"
        r.amount = r.weights.front();
        r.weights.erase(r.weights.begin());
    }
    take_weight_behind(r, main, numbers);
    if (had_amount && !parts.places.empty() && parts.places.front() == 0)
        take_pieces(r, main, inside_amount);
    if (means(main, 0, Concept::each)) {
        r.each = true;
        cut(main, 0, 1);
    }
    take_alternative(r, main, numbers, tongue);
    read_open_end(r, main, all);
    if (means(main, 0, {Concept::enough, Concept::some_other})) cut(main, 0, 1);

    // A percentage: of what?
    if (r.amount && r.amount->is(Sort::percent) && !r.ratio) {
        Ratio ratio;
        ratio.of = whole_of(all);
        r.ratio = ratio;
    }

    r.item.salty_words = speaks_of(all, Concept::salty_word);
    if (r.amount && !r.amount->is(Sort::percent)) rest_of_line(r, main, numbers);
    if (!r.amount) {
        for (const Token& t : main)
            r.left_over = r.left_over || t.sort == Token::Sort::number;
    }
    std::vector<Token> words = main;
    if (r.amount && r.amount->is(Sort::percent)) leave_out_what_of(words);
    read_item(r, words, aside_words, all, tongue);
    change_material(r, words, all);
    settle_doubts(r, all, words, parts.asides);
    return r;
}

} // namespace jarful::appraise
