#include "engine/appraise/bounds.hpp"

#include "engine/larder/larder.hpp"

#include <algorithm>
#include <array>
#include <cstring>

namespace jarful::appraise {

using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

// The table of docs/appraise.md.
std::array<BoundRow, 15> rows{{
    {"dense", 1.4, "g/mL", "the densest that a cup or spoon of an unknown thing is",
     "ours: above any food in the larder but salt"},
    {"piece", 2000, "g", "a piece of an unknown thing",
     "ours: the largest heads and roots of the larder"},
    {"small piece", 200, "g", "a piece that is called small", "ours"},
    {"leaf", 60, "g", "a leaf", "ours: an outer leaf of a large cabbage"},
    {"slice", 120, "g", "a slice, a strip, a ring", "ours"},
    {"sprig", 30, "g", "a sprig, a twig", "ours"},
    {"clove", 20, "g", "a clove", "ours: the largest of garlic"},
    {"length", 150, "g", "a piece that is told by its length", "ours: two fingers of horseradish"},
    {"bunch", 500, "g", "a bunch", "common practice, no source"},
    {"package", 1000, "g", "a tin, a jar, a bag whose size is not said", "ours"},
    {"salt of a seasoning", 0.3, "of 1", "the salt in a sauce, paste, stock or cheese",
     "composition tables of the larder's seasonings, rounded up"},
    {"salt of a brine", 0.27, "of 1", "the salt in brine",
     "saturation, the larder's salometer table"},
    {"water to cover, least", 0.25, "of vegetables", "water that is poured until it covers",
     "common practice, no source"},
    {"water to cover, most", 1.5, "of vegetables", "water that is poured until it covers",
     "common practice, no source"},
    {"top-up", 0.5, "of vegetables", "water that tops up what has given its own juice", "ours"},
}};

double most_of_count(std::string_view unit, bool small) {
    if (unit == "leaf") return bound("leaf");
    if (unit == "slice" || unit == "stick" || unit == "spear" || unit == "stalk")
        return bound("slice");
    if (unit == "sprig") return bound("sprig");
    if (unit == "clove" || unit == "pod") return bound("clove");
    if (unit == "bunch") return bound("bunch");
    return small ? bound("small piece") : bound("piece");
}

/// What a line speaks of, by its words.
struct Spoken {
    bool salt = false, brine = false, seasoning = false, spice = false, water = false, food = false,
         small = false, fills = false, remark = false, person = false;
    std::size_t words = 0, strangers = 0;
};

Spoken spoken_of(Tokens tokens) {
    Spoken s;
    for (const Token& t : tokens) {
        if (t.sort != Token::Sort::word) continue;
        ++s.words;
        s.salt = s.salt || t.is.any(Concept::salty);
        s.brine = s.brine || t.is.any({Concept::brine, Concept::liquid, Concept::starter});
        s.seasoning = s.seasoning || t.is.any(Concept::seasoning_word);
        s.water = s.water || t.is.any({Concept::water, Concept::acid, Concept::whey});
        s.small = s.small || t.is.any({Concept::small, Concept::part_of_piece});
        s.fills = s.fills || t.is.any({Concept::fill, Concept::enough, Concept::vessel});
        s.remark = s.remark || t.is.any({Concept::remark, Concept::heading, Concept::yield});
        s.person = s.person || t.is.any(Concept::person);
        const larder::Material* m = larder::find_exact(t.folded);
        const bool aromatic = m != nullptr && m->role == larder::Role::aromatic;
        s.spice = s.spice || aromatic || t.is.any(Concept::spice);
        s.food = s.food || (m != nullptr && m->role == larder::Role::vegetable) ||
                 t.is.any(Concept::vegetable);
        // Words that only say how a thing is cut, or how big, do not say what it is.
        constexpr Concepts telling = Concepts::up_to(Concept::person);
        s.strangers += !t.is.any(telling) && t.number == 0 && m == nullptr ? 1 : 0;
    }
    return s;
}

} // namespace

std::span<const BoundRow> bound_rows() {
    return rows;
}

double bound(const char* key) {
    for (const BoundRow& row : rows) {
        if (std::strcmp(row.key, key) == 0) return row.value;
    }
    return endless;
}

void widen_bound(const char* key, double factor) {
    for (BoundRow& row : rows) {
        if (std::strcmp(row.key, key) == 0) row.value *= factor;
    }
}

double most_of(const Quantity& q, bool small) {
    if (q.unclear || q.open) return endless;
    const double about = q.about ? 1.1 : 1;
    if (q.measure == nullptr)
        return q.count.high * about *
               (small || q.size == Size::small ? bound("small piece") : bound("piece"));
    switch (q.measure->sort) {
    case Sort::mass:
        return q.base().high;
    case Sort::volume:
    case Sort::loose:
        return q.base().high * bound("dense");
    case Sort::count:
        return q.count.high * about * most_of_count(q.measure->unit, small);
    case Sort::package:
        return q.count.high * about * bound("package");
    case Sort::length:
        return q.count.high > 0 ? bound("length") : 0;
    case Sort::percent:
        return endless;
    }
    return endless;
}

Bounds bounds_of(Tokens tokens, Numbers numbers) {
    const Spoken s = spoken_of(tokens);
    double most = 0;
    bool amount = false;
    bool weighed = false; ///< more than a spice is: by weight, or by the cup
    for (std::size_t i = 0; i < tokens.size();) {
        const bool digits = tokens[i].sort == Token::Sort::number;
        if (!digits && (i > 0 || tokens[i].number == 0)) {
            ++i;
            continue;
        }
        const auto q = quantity_at(tokens, i, numbers);
        if (!q || q->tokens == 0) {
            ++i;
            continue;
        }
        const std::size_t end = i + q->tokens;
        // "2 hours", "1/4-inch slices" are no amounts of anything.
        const bool time = end < tokens.size() && tokens[end].is.any(Concept::time);
        const bool percent = q->quantity.is(Sort::percent) && !s.salt && !s.brine;
        if (!time && !percent) {
            amount = true;
            weighed = weighed || q->quantity.weighed() || q->quantity.base().high >= 150;
            most += most_of(q->quantity, s.small);
        }
        i = end;
    }
    // "1 tsp for each jar": nobody says how many there are.
    for (std::size_t i = 0; i + 1 < tokens.size(); ++i) {
        if (amount && tokens[i].is.any({Concept::per, Concept::each}) &&
            tokens[i + 1].is.any({Concept::vessel, Concept::batch}))
            most = endless;
    }
    Bounds out;
    if (s.salt) out.salt = amount ? most : endless;
    if (!amount) {
        if (s.brine) out.salt = out.water = endless;
        if (s.seasoning && !s.remark) out.salt = endless;
        if (s.water) out.water = endless;
        const bool thing = s.food || (s.strangers > 0 && s.words <= 6 && !s.person && !s.remark);
        if (thing && !s.spice) out.as_others = true;
        if (thing && s.fills && !s.spice) out.vegetables = out.water = endless;
        return out;
    }
    if (s.brine) out.salt = std::max(out.salt, most * bound("salt of a brine"));
    if (s.seasoning) out.salt = std::max(out.salt, most * bound("salt of a seasoning"));
    if (s.spice && !weighed && !s.food && !s.water && !s.brine && !s.seasoning) return out;
    out.vegetables = out.water = most;
    return out;
}

bool names_equipment(Tokens tokens, Numbers numbers) {
    std::size_t i = 0;
    bool noun = false;
    int depth = 0;
    for (; i < tokens.size();) {
        const Token& t = tokens[i];
        if (t.sort == Token::Sort::mark) {
            if (t.text == "(" || t.text == "[") ++depth;
            if (t.text == ")" || t.text == "]") depth = std::max(0, depth - 1);
            if (depth == 0 && (t.text == "," || t.text == ";" || t.text == ":")) return noun;
            ++i;
            continue;
        }
        if (t.is.any({Concept::salty, Concept::water, Concept::brine, Concept::seasoning_word,
                      Concept::acid}))
            return false;
        if (t.sort == Token::Sort::number || t.number != 0) {
            const auto q = quantity_at(tokens, i, numbers);
            const std::size_t taken = q ? std::max<std::size_t>(q->tokens, 1) : 1;
            if (q && q->quantity.is(Sort::package) && depth == 0) noun = true;
            i += taken;
            continue;
        }
        if (depth == 0 && i > 0 &&
            t.is.any({Concept::purpose, Concept::within, Concept::also, Concept::condition}))
            return noun;
        if (depth == 0 && t.is.any(Concept::of) && noun) {
            // "a jar of about 1.5 litres", and not "a jar of beans".
            for (std::size_t j = i + 1; j < tokens.size() && j <= i + 3; ++j) {
                if (tokens[j].sort == Token::Sort::number) return true;
            }
            return false;
        }
        if (depth == 0) noun = t.is.any({Concept::vessel, Concept::kitchen});
        ++i;
    }
    return noun;
}

} // namespace jarful::appraise
