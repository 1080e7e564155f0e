#include "engine/appraise/sentence.hpp"

#include "engine/larder/fold.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

constexpr std::size_t longest = 400;

Concepts kind_of(const Quantity& q) {
    if (q.measure == nullptr) return Concept::count;
    switch (q.measure->sort) {
    case Sort::mass:
        return Concept::mass;
    case Sort::volume:
        return Concept::volume;
    case Sort::percent:
        return Concept::percent;
    case Sort::loose:
        return Concept::loose;
    case Sort::count:
        return Concept::count;
    case Sort::package:
        return {Concept::count, Concept::vessel};
    case Sort::length:
        break;
    }
    return {};
}

/// "2 prozentige", "the 5-percent".
bool percent_word(Tokens t, std::size_t at) {
    return at < t.size() && t[at].sort == Token::Sort::word &&
           (t[at].folded.starts_with("prozent") || t[at].folded.starts_with("percent"));
}

/// The amount that begins at a token.
std::optional<Piece> amount_at(Tokens t, std::size_t at, Numbers numbers) {
    const bool digits = t[at].sort == Token::Sort::number;
    if (!digits && t[at].number == 0) return std::nullopt;
    const auto q = quantity_at(t, at, numbers);
    if (!q || q->tokens == 0) return std::nullopt;
    Piece piece;
    piece.first = at;
    piece.count = q->tokens;
    piece.quantity = q->quantity;
    piece.is = kind_of(q->quantity);
    const std::size_t end = at + q->tokens;
    if (q->quantity.measure == nullptr) {
        // "2 hours", "3-4 days"; and a number that is an article.
        if (end < t.size() && t[end].is.any(Concept::time)) {
            piece.count += 1;
            piece.is = Concept::time;
            return piece;
        }
        const std::size_t word = end < t.size() && is_mark(t, end, "-") ? end + 1 : end;
        if (percent_word(t, word)) {
            piece.count = word + 1 - at;
            piece.is = {Concept::percent, Concept::ratio};
            piece.quantity.measure = &percent_measure();
            return piece;
        }
        if (!digits && t[at].number == 1 && q->tokens == 1) return std::nullopt;
        piece.is.add(Concept::number);
        piece.number = q->quantity.count.high;
        // "half of the cabbage" stays a part, besides being 0.5.
        if (!digits) piece.is = piece.is | t[at].is;
        if (digits && t[at].fraction) piece.is.add(Concept::part);
    }
    return piece;
}

/// "the kilo", "per quart", "au litre": a measure without a number, which is one of it.
std::optional<Piece> bare_measure(Tokens t, std::size_t at) {
    if (at == 0 || t[at].sort != Token::Sort::word) return std::nullopt;
    if (!t[at - 1].is.any({Concept::the, Concept::per, Concept::purpose, Concept::within}) &&
        !is_mark(t, at - 1, "/"))
        return std::nullopt;
    const auto m = measure_at(t, at, true);
    if (!m || (m->measure->sort != Sort::mass && m->measure->sort != Sort::volume))
        return std::nullopt;
    Piece piece;
    piece.first = at;
    piece.count = m->tokens;
    piece.quantity.count = {1, 1};
    piece.quantity.measure = m->measure;
    piece.is = {Concept::bare_measure, kind_of(piece.quantity) == Concepts(Concept::mass)
                                           ? Concept::mass
                                           : Concept::volume};
    return piece;
}

/// A word, or two that are one name.
Piece word_at(Tokens t, std::size_t at, Tongue tongue) {
    Piece piece;
    piece.first = at;
    piece.is = t[at].is;
    const larder::Material* m = nullptr;
    if (at + 1 < t.size() && t[at + 1].sort == Token::Sort::word) {
        m = named(t[at].folded + " " + t[at + 1].folded, tongue).material;
        if (m != nullptr) {
            piece.is = piece.is | t[at + 1].is;
            piece.count = 2;
        }
    }
    // "salted water" and "salt water" are brine.
    const bool water_next = at + 1 < t.size() && t[at + 1].is.any(Concept::water);
    if (t[at].is.any(Concept::salty) &&
        (water_next || (at + 1 < t.size() && t[at + 1].is.any(Concept::brine)))) {
        piece.is = {Concept::brine, Concept::liquid};
        piece.count = 2;
        return piece;
    }
    if (m == nullptr && t[at].folded.size() > 2) m = named(t[at].folded, tongue).material;
    if (m == nullptr) return piece;
    piece.material = m;
    if (m->role == Role::vegetable)
        piece.is = piece.is | Concepts{Concept::food, Concept::vegetable};
    if (m->role == Role::salt) piece.is = piece.is | Concepts{Concept::salt, Concept::salty};
    if (m->role == Role::water) piece.is.add(Concept::water);
    if (m->role == Role::acid) piece.is.add(Concept::acid);
    if (m->role == Role::aromatic) piece.is.add(Concept::spice);
    return piece;
}

Piece mark_at(Tokens t, std::size_t at) {
    Piece piece;
    piece.first = at;
    const std::string_view text = t[at].text;
    if (text == "," || text == ":" || text == ";") piece.is = Concept::comma;
    if (text == "(" || text == "[") piece.is = Concept::open_aside;
    if (text == ")" || text == "]") piece.is = Concept::close_aside;
    if (text == "*") piece.is = Concept::times;
    if (text == "/") piece.is = {Concept::per, Concept::either};
    if (text == "&" || text == "+") piece.is = Concept::also;
    return piece;
}

/// The rest of a row, from a step and a place on.
bool follow(std::span<const Step> steps, const Sentence& s, std::size_t step, std::size_t at,
            Match& found) {
    if (step == steps.size()) return true;
    const Step& next = steps[step];
    for (std::size_t i = at; i < s.pieces.size() && i <= at + next.gap; ++i) {
        if (s.pieces[i].is.any(next.any)) {
            const Match before = found;
            found.last = i;
            if (next.capture != 0) {
                found.captures[next.capture - 'a'] = i;
                found.captured |= 1U << (next.capture - 'a');
            }
            if (follow(steps, s, step + 1, i + 1, found)) return true;
            found = before;
        }
        if (s.pieces[i].is.any(next.not_between)) break;
    }
    return next.optional && follow(steps, s, step + 1, at, found);
}

} // namespace

bool Sentence::has(Concepts some) const {
    return std::any_of(pieces.begin(), pieces.end(),
                       [&](const Piece& p) { return p.is.any(some); });
}

std::string_view Sentence::text(std::size_t first, std::size_t last) const {
    if (pieces.empty()) return {};
    const Token& begin = tokens[pieces[first].first];
    const Token& end = tokens[pieces[last].first + pieces[last].count - 1];
    return {begin.text.data(),
            static_cast<std::size_t>(end.text.data() + end.text.size() - begin.text.data())};
}

std::string_view Sentence::text() const {
    return pieces.empty() ? std::string_view{} : text(0, pieces.size() - 1);
}

Sentence sentence_of(Tokens tokens, Numbers numbers, Tongue tongue) {
    Sentence s;
    s.tokens = tokens.first(std::min(tokens.size(), longest));
    const Tokens t = s.tokens;
    for (std::size_t i = 0; i < t.size();) {
        if (auto amount = amount_at(t, i, numbers)) {
            i += amount->count;
            s.pieces.push_back(*amount);
            continue;
        }
        if (auto measure = bare_measure(t, i)) {
            i += measure->count;
            s.pieces.push_back(*measure);
            continue;
        }
        s.pieces.push_back(t[i].sort == Token::Sort::word ? word_at(t, i, tongue) : mark_at(t, i));
        i += s.pieces.back().count;
    }
    return s;
}

std::optional<Match> match(std::span<const Step> steps, const Sentence& s, std::size_t from) {
    for (std::size_t i = from; i < s.pieces.size(); ++i) {
        if (!s.pieces[i].is.any(steps.front().any)) continue;
        Match found;
        found.first = found.last = i;
        if (steps.front().capture != 0) {
            found.captures[steps.front().capture - 'a'] = i;
            found.captured = 1U << (steps.front().capture - 'a');
        }
        if (follow(steps, s, 1, i + 1, found)) return found;
    }
    return std::nullopt;
}

} // namespace jarful::appraise
