#include "engine/appraise/sentence.hpp"

#include "engine/larder/fold.hpp"

#include <algorithm>
#include <bit>

namespace jarful::appraise {

using larder::Role;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

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

/// What a word of an amount means besides.
constexpr Concept kept_by_amounts[] = {Concept::part,    Concept::half,   Concept::some_few,
                                       Concept::portion, Concept::little, Concept::vessel,
                                       Concept::jars,    Concept::airlock};

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
    if (q->quantity.count == units::Interval(1.0)) piece.is.add(Concept::one);
    if (q->quantity.count.low >= 2) piece.is.add(Concept::several);
    // "half of the cabbage" stays a part, besides being 0.5, and "a bag" a bag; "a kilo and a half"
    // is none.
    const bool sized =
        piece.is.any({Concept::mass, Concept::volume}) || q->quantity.is(Sort::length);
    for (std::size_t i = at; i < at + q->tokens; ++i) {
        for (const Concept c : kept_by_amounts) {
            const bool of_it = c == Concept::half || c == Concept::part || c == Concept::portion;
            if (t[i].is.any(c) && !(sized && of_it)) piece.is.add(c);
        }
    }
    const std::size_t end = at + q->tokens;
    if (q->quantity.measure == nullptr) {
        // "2 hours", "3-4 days"; and a number that is an article.
        if (end < t.size() && t[end].is.any(Concept::time)) {
            piece.count += 1;
            piece.is = t[end].is;
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
        if (digits && t[at].fraction) piece.is.add(Concept::part);
    }
    return piece;
}

/// "the kilo", "per quart", "au litre": a measure without a number, which is one of it.
std::optional<Piece> bare_measure(Tokens t, std::size_t at) {
    if (at == 0 || t[at].sort != Token::Sort::word) return std::nullopt;
    if (at + 1 < t.size() && t[at + 1].text == "'") return std::nullopt; // "dans l'eau"
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

/// Words that no name of the larder begins or ends with: they need not be looked up.
constexpr Concepts no_name{Concept::the,     Concept::of,       Concept::within, Concept::purpose,
                           Concept::also,    Concept::function, Concept::per,    Concept::either,
                           Concept::when,    Concept::after,    Concept::until,  Concept::passive,
                           Concept::pronoun, Concept::negation, Concept::person, Concept::put};

bool nameable(const Token& t) {
    return t.sort == Token::Sort::word && t.folded.size() > 2 && !t.is.any(no_name);
}

/// What is known of a word that means nothing here: that it says nothing, or that it is strange
/// where that says something. A capital within a sentence is a name.
Concepts otherwise(Tokens all, std::size_t at, Tongue tongue) {
    const Token& t = all[at];
    if (tongue == nullptr) tongue = base_tongue();
    if (!t.is.empty() || t.number != 0 || t.folded.size() < 3) return {};
    if (knows_form(t.folded, *tongue)) return Concept::known;
    const bool name = at > 0 && t.text[0] >= 'A' && t.text[0] <= 'Z' && !tongue->capital_nouns;
    return tongue->thorough && !name && !measure_at(all, at, true) ? Concepts(Concept::strange)
                                                                   : Concepts{};
}

/// A word, or two that are one name.
Piece word_at(Tokens t, std::size_t at, Tongue tongue) {
    Piece piece;
    piece.first = at;
    piece.is = t[at].is;
    const larder::Material* m = nullptr;
    if (at + 1 < t.size() && nameable(t[at]) && nameable(t[at + 1])) {
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
    if (m == nullptr && nameable(t[at])) m = named(t[at].folded, tongue).material;
    if (m == nullptr) {
        piece.is = piece.is | otherwise(t, at, tongue);
        return piece;
    }
    piece.material = m;
    if (m->role == Role::vegetable)
        piece.is = piece.is | Concepts{Concept::food, Concept::vegetable};
    if (m->role == Role::salt) piece.is = piece.is | Concepts{Concept::salt, Concept::salty};
    if (m->role == Role::water) piece.is.add(Concept::water);
    if (m->id == "starter-brine")
        piece.is = piece.is | Concepts{Concept::brine, Concept::old_brine};
    if (m->role == Role::acid) piece.is.add(Concept::acid);
    if (m->role == Role::aromatic) piece.is.add(Concept::spice);
    return piece;
}

Piece mark_at(Tokens t, std::size_t at) {
    Piece piece;
    piece.first = at;
    const std::string_view text = t[at].text;
    const bool dash = text == "-" && !t[at].glued;
    if (text == "," || text == ":" || text == ";" || dash) piece.is = Concept::comma;
    if (text == "(" || text == "[") piece.is = Concept::open_aside;
    if (text == ")" || text == "]") piece.is = Concept::close_aside;
    if (text == "*") piece.is = Concept::times;
    if (text == "/") piece.is = {Concept::per, Concept::either};
    if (text == "&" || text == "+") piece.is = Concept::also;
    return piece;
}

} // namespace

void Sentence::add(Piece piece) {
    const std::size_t at = pieces.size();
    for (std::size_t word = 0; word < Concepts::parts; ++word) {
        for (std::uint64_t bits = piece.is.part(word); bits != 0; bits &= bits - 1)
            where_[64 * word + static_cast<std::size_t>(std::countr_zero(bits))].set(at);
    }
    said_ = said_ | piece.is;
    pieces.push_back(piece);
}

void Sentence::mark(std::size_t piece, Concept c) {
    pieces[piece].is.add(c);
    where_[static_cast<std::size_t>(c)].set(piece);
    said_.add(c);
}

Places Sentence::places(Concepts some) const {
    Places out;
    for (std::size_t word = 0; word < Concepts::parts; ++word) {
        for (std::uint64_t bits = some.part(word) & said_.part(word); bits != 0; bits &= bits - 1)
            out |= where_[64 * word + static_cast<std::size_t>(std::countr_zero(bits))];
    }
    return out;
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
    s.tokens = tokens.first(std::min(tokens.size(), most_pieces));
    const Tokens t = s.tokens;
    s.pieces.reserve(t.size());
    for (std::size_t i = 0; i < t.size();) {
        // An apostrophe or a hyphen within a word is none.
        if (t[i].text == "'" || (t[i].text == "-" && t[i].glued)) {
            ++i;
            continue;
        }
        auto piece = amount_at(t, i, numbers);
        if (!piece) piece = bare_measure(t, i);
        if (!piece) piece = t[i].sort == Token::Sort::word ? word_at(t, i, tongue) : mark_at(t, i);
        i += piece->count;
        s.add(*piece);
    }
    if (s.pieces.empty()) return s;
    s.mark(0, Concept::start);
    s.mark(s.pieces.size() - 1, Concept::end);
    return s;
}

namespace {

/// From places backwards over a gap: every place from which one of them is near enough.
Places backwards(Places from, const Step& step, Places barrier) {
    Places out;
    Places reach = from >> 1;
    for (unsigned i = 0; i <= step.gap && reach.any(); ++i) {
        out |= reach;
        reach = (reach & ~barrier) >> 1;
    }
    return out;
}

/// The same the other way.
Places forwards(Places from, const Step& step, Places barrier) {
    Places out;
    Places reach = from << 1;
    for (unsigned i = 0; i <= step.gap && reach.any(); ++i) {
        out |= reach;
        reach = (reach & ~barrier) << 1;
    }
    return out;
}

/// Whether a row may fit, by what is said at all.
bool may_fit(const Pattern& p, const Sentence& s) {
    const Concepts said = s.said();
    if (said.any(p.unsaid)) return false;
    for (const Concepts some : p.said) {
        if (!said.any(some)) return false;
    }
    return std::all_of(p.steps.begin(), p.steps.end(), [&](const Step& step) {
        return step.optional || (said.any(step.any) && (step.also.empty() || said.any(step.also)) &&
                                 (step.too.empty() || said.any(step.too)));
    });
}

} // namespace

Places Fit::matching(const Step& step) const {
    Places out = sentence_.places(step.any);
    for (const Concepts some : {step.also, step.too}) {
        if (!some.empty()) out &= sentence_.places(some);
    }
    if (!step.never.empty()) out &= ~sentence_.places(step.never);
    if (step.before > 0) {
        Places near = sentence_.places(step.not_before);
        for (unsigned i = 0; i < step.before && out.any(); ++i)
            out &= ~(near <<= 1);
    }
    if (step.behind > 0) {
        Places near = sentence_.places(step.not_behind);
        for (unsigned i = 0; i < step.behind && out.any(); ++i)
            out &= ~(near >>= 1);
    }
    return out;
}

Fit::Fit(const Pattern& pattern, const Sentence& sentence)
    : pattern_(pattern)
    , sentence_(sentence) {
    if (!may_fit(pattern, sentence)) return;
    const auto steps = pattern.steps;
    fits_ = true;
    if (steps.empty()) return;
    on_the_way_.resize(steps.size());
    Places next; // where the rest of the row, from the step behind on, may be entered
    next.set();
    for (std::size_t i = steps.size(); i-- > 0;) {
        on_the_way_[i] = matching(steps[i]) & next;
        if (i == 0) break;
        const Places entered =
            backwards(on_the_way_[i], steps[i], sentence_.places(steps[i].not_between));
        next = steps[i].optional ? next | entered : entered;
        if (next.none()) break;
    }
    fits_ = on_the_way_.front().any();
}

std::optional<Match> Fit::first(std::size_t from) const {
    if (!fits_) return std::nullopt;
    Match out;
    if (pattern_.steps.empty()) return from == 0 ? std::optional(out) : std::nullopt;
    const auto next_in = [&](const Places& some, std::size_t at, std::size_t end) {
        while (at < end && !some[at])
            ++at;
        return at;
    };
    const std::size_t size = sentence_.pieces.size();
    const auto take = [&](const Step& step, std::size_t at) {
        out.last = at;
        if (step.capture == 0) return;
        out.captures[static_cast<std::size_t>(step.capture - 'a')] = at;
        out.captured |= 1U << (step.capture - 'a');
    };
    out.first = next_in(on_the_way_.front(), from, size);
    if (out.first == size) return std::nullopt;
    take(pattern_.steps.front(), out.first);
    for (std::size_t i = 1; i < pattern_.steps.size(); ++i) {
        const Step& step = pattern_.steps[i];
        const Places barrier = sentence_.places(step.not_between);
        const Places here = forwards(Places{}.set(out.last), step, barrier) & on_the_way_[i];
        if (here.any()) take(step, next_in(here, out.last + 1, size));
    }
    return out;
}

Places Fit::all(char name) const {
    if (!fits_ || pattern_.steps.empty()) return {};
    Places at = on_the_way_.front();
    for (std::size_t i = 0;; ++i) {
        if (pattern_.steps[i].capture == name) return at;
        if (i + 1 == pattern_.steps.size()) return {};
        const Step& next = pattern_.steps[i + 1];
        const Places reached =
            forwards(at, next, sentence_.places(next.not_between)) & on_the_way_[i + 1];
        at = next.optional ? at | reached : reached;
    }
}

std::optional<Match> find(Event event, const Sentence& s, std::size_t from) {
    std::optional<Match> best;
    for (const Pattern& p : patterns(event)) {
        const auto found = Fit(p, s).first(from);
        if (found && (!best || found->first < best->first)) best = found;
    }
    return best;
}

bool apply_mark(const Pattern& mark, Sentence& s) {
    const Fit fit(mark, s);
    if (!fit) return false;
    const Places marked = fit.all('x');
    for (std::size_t i = 0; i < s.pieces.size() && marked.any(); ++i) {
        if (marked[i]) s.mark(i, mark.gives);
    }
    if (marked.none()) s.say(mark.gives);
    return true;
}

void apply_marks(Sentence& s) {
    for (const Pattern& mark : patterns(Event::mark))
        apply_mark(mark, s);
}

} // namespace jarful::appraise
