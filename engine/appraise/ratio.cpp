#include "engine/appraise/number_words.hpp"
#include "engine/appraise/reading.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

/// "salt to the kilo", "2 oz a pound", "au kilo", "aufs Kilo": how many tokens the words before the
/// measure take; 0 if they are none. A kilo, a pound, a litre, but no spoon.
std::size_t article_at(Tokens tokens, std::size_t i) {
    if (i == 0) return 0;
    const auto much = [&](std::size_t at) {
        const auto m = measure_at(tokens, at, true);
        return m && (m->measure->sort == Sort::mass || m->measure->sort == Sort::volume) &&
               m->measure->factor.low >= 100;
    };
    if (any_word(tokens, i, {"to", "for", "auf", "fur"}) &&
        any_word(tokens, i + 1, {"the", "a", "an", "das", "ein", "einen", "jedes"}) && much(i + 2))
        return 2;
    if (any_word(tokens, i, {"au", "aufs", "ans", "furs"}) && much(i + 1)) return 1;
    // "25 g salt a kilo", but not "salt and a kilo".
    const bool behind =
        tokens[i - 1].sort == Token::Sort::word &&
        (tokens[i - 1].folded.find("sal") != std::string::npos ||
         any_word(tokens, i - 1, {"sel"}) || (i > 1 && measure_at(tokens, i - 1, true)));
    if (behind && any_word(tokens, i, {"a", "an", "the", "le", "la", "das", "the"}) && much(i + 1))
        return 1;
    return 0;
}

/// Words between what is given and what it is for.
bool joins_ratio(Tokens tokens, std::size_t i) {
    // "à", which an article looks like.
    const bool accent = is_word(tokens, i, "a") && tokens[i].text.size() > 1;
    return accent ||
           any_word(tokens, i, {"for", "to", "auf", "pour", "in", "dans", "zu", "fur", "bei"});
}

} // namespace

std::optional<PerWord> per_word(Tokens tokens, Numbers numbers, bool opening) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const auto quantity_follows = [&](std::size_t at, bool bare) {
            if (at >= tokens.size()) return false;
            const auto q = quantity_at(tokens, at, numbers);
            if (q && (q->quantity.is(Sort::mass) || q->quantity.is(Sort::volume))) return true;
            const auto m = measure_at(tokens, at, true);
            return bare && m &&
                   (m->measure->sort == Sort::mass || m->measure->sort == Sort::volume);
        };
        // A word between the ends of a range, such as lie within reach of one another.
        const auto within_quantity = [&](std::size_t at) {
            for (std::size_t back = 1; back <= 3 && back <= at; ++back) {
                if (tokens[at - back].sort != Token::Sort::number) continue;
                const auto q = quantity_at(tokens, at - back, numbers, false);
                return q && q->tokens > back && q->quantity.count.high < 21 * q->quantity.count.low;
            }
            return false;
        };
        if (any_word(tokens, i, {"per", "pro"}) && !is_word(tokens, i + 1, "cent")) {
            const std::size_t each = any_word(tokens, i + 1, {"each", "every"}) ? 1 : 0;
            return PerWord{i, 1 + each};
        }
        if (any_word(tokens, i, {"for", "to", "pour", "with", "in", "a"}) &&
            any_word(tokens, i + 1, {"each", "every", "chaque"})) {
            return PerWord{i, 2};
        }
        if (any_word(tokens, i, {"zu", "auf", "fur", "bei"}) &&
            any_word(tokens, i + 1, {"jedem", "jedes", "jeden", "jeder"}) &&
            quantity_follows(i + 2, true))
            return PerWord{i, 2};
        if (const std::size_t taken = article_at(tokens, i)) return PerWord{i, taken};
        if (is_word(tokens, i, "every") && quantity_follows(i + 1, true)) return PerWord{i, 1};
        if (any_word(tokens, i, {"par", "je"}) && quantity_follows(i + 1, true))
            return PerWord{i, 1};
        if (i > 0 && any_word(tokens, i, {"par", "je"}) &&
            any_word(tokens, i + 1,
                     {"bocal", "pot", "jarre", "chou", "tete", "personne", "glas", "topf", "kopf",
                      "person", "portion"}))
            return PerWord{i, 1};
        // "water/jar"
        if (i > 0 && is_mark(tokens, i, "/") && tokens[i - 1].sort == Token::Sort::word &&
            any_word(tokens, i + 1, {"jar", "crock", "glas", "bocal", "batch"}))
            return PerWord{i, 1};
        const bool placed =
            i == 0 ? opening
                   : (tokens[i - 1].sort == Token::Sort::word && !number_words_at(tokens, i - 1)) ||
                         is_mark(tokens, i - 1, ")");
        if (placed && joins_ratio(tokens, i) && quantity_follows(i + 1, false)) {
            // "2 to 3 lb" and "500 g to 1 kg" are ranges; "3 tbsp salt to 5 lb cabbage" a ratio.
            if (!within_quantity(i)) return PerWord{i, 1};
        }
        if (i > 0 && is_mark(tokens, i, "/") && measure_at(tokens, i - 1, true) &&
            measure_at(tokens, i + 1, true)) {
            return PerWord{i, 1};
        }
        if (i > 0 && is_mark(tokens, i, "/") && tokens[i - 1].sort == Token::Sort::word &&
            measure_at(tokens, i + 1, true) &&
            (measure_at(tokens, i + 1, true)->measure->sort == Sort::mass ||
             measure_at(tokens, i + 1, true)->measure->sort == Sort::volume)) {
            return PerWord{i, 1};
        }
    }
    return std::nullopt;
}

Whole whole_of(Tokens tokens) {
    const bool water = has_word(tokens, {"water", "wasser", "eau", "liquid"});
    const bool brine = has_word(tokens, {"brine", "lake", "salzlake", "saumure"});
    const bool total = has_word(tokens, {"total", "everything", "combined", "together"});
    const bool vegetables = has_word(
        tokens, {"cabbage",   "cabbages", "vegetable", "vegetables", "veg",    "veggies", "produce",
                 "kraut",     "kohl",     "weisskohl", "gemuse",     "chou",   "legumes", "peppers",
                 "cucumbers", "carrots",  "roots",     "beans",      "weight", "gewicht", "poids",
                 "mash",      "garlic",   "radishes",  "daikon",     "beets",  "turnips", "lemons",
                 "chillies",  "chilies",  "chiles"});
    if (total || (water && vegetables && has_word(tokens, {"and", "plus", "und", "et"})))
        return Whole::vegetables_and_water;
    if (water && !brine) return Whole::water;
    if (brine && has_word(tokens, {"of"}) && has_word(tokens, {"weight"})) return Whole::brine;
    if (brine) return Whole::unsaid;
    if (vegetables) return Whole::vegetables;
    return Whole::unsaid;
}

std::optional<Ratio> ratio_of(Tokens tokens, Numbers numbers, Tongue tongue) {
    if (tokens.empty()) return std::nullopt;
    Ratio ratio;
    std::size_t at = 0;
    if (const auto q = quantity_at(tokens, 0, numbers);
        q && (q->quantity.is(Sort::mass) || q->quantity.is(Sort::volume))) {
        ratio.per = q->quantity;
        at = q->tokens;
    } else if (const auto m = measure_at(tokens, 0, true);
               m && (m->measure->sort == Sort::mass || m->measure->sort == Sort::volume)) {
        Quantity one;
        one.count = {1, 1};
        one.measure = m->measure;
        ratio.per = one;
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
    const Item item = item_of(words, tongue);
    if (item.material != nullptr) {
        ratio.material = item.material;
        switch (item.material->role) {
        case Role::vegetable:
            ratio.of = Whole::vegetables;
            break;
        case Role::water:
            ratio.of = Whole::water;
            break;
        case Role::aromatic:
            ratio.of = item.material->id == "garlic" ? Whole::vegetables : Whole::other;
            break;
        default:
            ratio.of = Whole::other;
        }
        return ratio;
    }
    if (has_word(words, {"jar", "jars", "crock", "bocal", "glas", "container", "head", "batch"})) {
        ratio.of = Whole::other;
        return ratio;
    }
    ratio.of = whole_of(words);
    if (ratio.of == Whole::unsaid && has_word(words, {"brine", "lake", "saumure"}))
        ratio.of = Whole::brine;
    // A weight without a word is one of vegetables, a volume one of water.
    if (ratio.of == Whole::unsaid)
        ratio.of = ratio.per->weighed() ? Whole::vegetables : Whole::water;
    return ratio;
}

} // namespace jarful::appraise
