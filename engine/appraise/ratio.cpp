#include "engine/appraise/number_words.hpp"
#include "engine/appraise/reading.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

bool sized_measure(Tokens tokens, std::size_t at) {
    const auto m = measure_at(tokens, at, true);
    return m && (m->measure->sort == Sort::mass || m->measure->sort == Sort::volume);
}

/// A mass or a volume at a place. @param bare or such a measure by itself: "litre"
bool quantity_follows(Tokens tokens, std::size_t at, Numbers numbers, bool bare) {
    if (at >= tokens.size()) return false;
    const auto q = quantity_at(tokens, at, numbers);
    return (q && sized(q->quantity)) || (bare && sized_measure(tokens, at));
}

/// "salt to the kilo", "2 oz a pound", "au kilo", "aufs Kilo": how many tokens the words before the
/// measure take; 0 if they are none. A kilo, a pound, a litre, but no spoon.
std::size_t article_at(Tokens tokens, std::size_t i) {
    if (i == 0) return 0;
    constexpr Concepts article = {Concept::article, Concept::the, Concept::each_thing};
    const auto much = [&](std::size_t at) {
        const auto m = measure_at(tokens, at, true);
        return m && (m->measure->sort == Sort::mass || m->measure->sort == Sort::volume) &&
               m->measure->factor.low >= 100;
    };
    if (means(tokens, i, Concept::purpose) && means(tokens, i + 1, article) && much(i + 2))
        return 2;
    if (means(tokens, i, Concept::per_the) && much(i + 1)) return 1;
    // "25 g salt a kilo", but not "salt and a kilo".
    const bool behind =
        means(tokens, i - 1, {Concept::salt, Concept::salty}) ||
        (i > 1 && tokens[i - 1].sort == Token::Sort::word && measure_at(tokens, i - 1, true));
    return behind && means(tokens, i, article) && much(i + 1) ? 1 : 0;
}

/// Whether a place lies within a range: between ends such as lie within reach of one another.
bool within_quantity(Tokens tokens, std::size_t at, Numbers numbers) {
    for (std::size_t back = 1; back <= 3 && back <= at; ++back) {
        if (tokens[at - back].sort != Token::Sort::number) continue;
        const auto q = quantity_at(tokens, at - back, numbers, false);
        return q && q->tokens > back && q->quantity.count.high < 21 * q->quantity.count.low;
    }
    return false;
}

/// "water/jar", "g/kg", "salt/kg"
bool stroke_at(Tokens tokens, std::size_t i) {
    if (i == 0 || !is_mark(tokens, i, "/")) return false;
    const bool word = tokens[i - 1].sort == Token::Sort::word;
    return (word && means(tokens, i + 1, {Concept::vessel, Concept::batch})) ||
           (word && sized_measure(tokens, i + 1)) ||
           (measure_at(tokens, i - 1, true) && measure_at(tokens, i + 1, true));
}

/// How many tokens a per word at a place takes; 0 if none stands there.
std::size_t per_at(Tokens tokens, std::size_t i, Numbers numbers, bool opening) {
    if (means(tokens, i, Concept::per_plain) && !means(tokens, i, Concept::percent_word))
        return means(tokens, i + 1, Concept::each_thing) ? 2 : 1;
    if (means(tokens, i, {Concept::purpose, Concept::within, Concept::ratio_word}) &&
        means(tokens, i + 1, Concept::each_thing))
        return 2;
    if (const std::size_t taken = article_at(tokens, i)) return taken;
    if (means(tokens, i, Concept::per_each) && quantity_follows(tokens, i + 1, numbers, true))
        return 1;
    if (i > 0 && means(tokens, i, Concept::per_each) &&
        means(tokens, i + 1, {Concept::vessel, Concept::batch, Concept::yield, Concept::person}))
        return 1;
    if (stroke_at(tokens, i)) return 1;
    const bool placed =
        i == 0 ? opening
               : (tokens[i - 1].sort == Token::Sort::word && !number_words_at(tokens, i - 1)) ||
                     is_mark(tokens, i - 1, ")");
    // "2 to 3 lb" and "500 g to 1 kg" are ranges; "3 tbsp salt to 5 lb cabbage" a ratio.
    return placed && means(tokens, i, Concept::ratio_word) &&
                   quantity_follows(tokens, i + 1, numbers, false) &&
                   !within_quantity(tokens, i, numbers)
               ? 1
               : 0;
}

/// What a material is, as a whole that salt is for.
Whole whole_of(const larder::Material& material) {
    if (material.role == Role::vegetable || material.id == "garlic") return Whole::vegetables;
    return material.role == Role::water ? Whole::water : Whole::other;
}

} // namespace

std::optional<PerWord> per_word(Tokens tokens, Numbers numbers, bool opening) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (const std::size_t taken = per_at(tokens, i, numbers, opening)) return PerWord{i, taken};
    }
    return std::nullopt;
}

Whole whole_of(Tokens tokens) {
    const bool water = speaks_of(tokens, {Concept::water, Concept::liquid});
    const bool brine = speaks_of(tokens, Concept::brine);
    const bool vegetables = speaks_of(tokens, {Concept::vegetable, Concept::weight}) ||
                            std::any_of(tokens.begin(), tokens.end(), [](const Token& t) {
                                if (t.sort != Token::Sort::word || t.folded.size() < 3)
                                    return false;
                                const auto* m = named(t.folded, nullptr).material;
                                return m != nullptr && whole_of(*m) == Whole::vegetables;
                            });
    if (speaks_of(tokens, Concept::in_all) ||
        (water && vegetables && speaks_of(tokens, Concept::sum)))
        return Whole::vegetables_and_water;
    if (water && !brine) return Whole::water;
    if (brine && speaks_of(tokens, Concept::of) && speaks_of(tokens, Concept::weight))
        return Whole::brine;
    return vegetables && !brine ? Whole::vegetables : Whole::unsaid;
}

std::optional<Ratio> ratio_of(Tokens tokens, Numbers numbers, Tongue tongue) {
    if (tokens.empty()) return std::nullopt;
    Ratio ratio;
    std::size_t at = 0;
    if (const auto q = quantity_at(tokens, 0, numbers); q && sized(q->quantity)) {
        ratio.per = q->quantity;
        at = q->tokens;
    } else if (sized_measure(tokens, 0)) {
        const auto m = measure_at(tokens, 0, true);
        ratio.per.emplace().count = {1, 1};
        ratio.per->measure = m->measure;
        at = m->tokens;
    } else {
        ratio.of = Whole::other;
        return ratio;
    }
    if (ratio.per->unclear) return std::nullopt;
    std::size_t end = at;
    while (end < tokens.size() && !is_mark(tokens, end, ",") && !is_mark(tokens, end, ".") &&
           !is_mark(tokens, end, ";"))
        ++end;
    const Tokens words = tokens.subspan(at, end - at);
    if (const Item item = item_of(words, tongue); item.material != nullptr) {
        ratio.material = item.material;
        ratio.of = whole_of(*item.material);
        return ratio;
    }
    if (speaks_of(words, {Concept::vessel, Concept::batch})) {
        ratio.of = Whole::other;
        return ratio;
    }
    ratio.of = whole_of(words);
    if (ratio.of == Whole::unsaid && speaks_of(words, Concept::brine)) ratio.of = Whole::brine;
    // A weight without a word is one of vegetables, a volume one of water.
    if (ratio.of == Whole::unsaid)
        ratio.of = ratio.per->weighed() ? Whole::vegetables : Whole::water;
    return ratio;
}

} // namespace jarful::appraise
