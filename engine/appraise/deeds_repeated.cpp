#include "engine/appraise/deed_words.hpp"
#include "engine/appraise/deeds.hpp"
#include "engine/appraise/number_words.hpp"

#include <algorithm>

/// What a method does once more, for a part only, or later; and what it fills.
namespace jarful::appraise {

using Tokens = std::span<const Token>;

namespace {

bool article(Tokens t, std::size_t i) {
    return any_word(t, i, {"of",  "the", "your", "this", "that", "all",   "des",
                           "der", "die", "dem",  "vom",  "von",  "du",    "de",
                           "la",  "le",  "l",    "d",    "its",  "deren", "den"}) ||
           is_mark(t, i, "'");
}

/// "half of", "a third of the", "die Hälfte der", "la moitié du": where what it is a part of
/// stands; 0 if no part is named here.
std::size_t part_of(Tokens t, std::size_t i) {
    const bool word =
        any_word(t, i, {"half",    "halves", "third",   "thirds",  "quarter", "quarters", "part",
                        "portion", "halfte", "drittel", "viertel", "teil",    "moitie",   "tiers",
                        "quart",   "partie", "fifth",   "most",    "some",    "halben",   "halbe"});
    if (!word && !(t[i].sort == Token::Sort::number && t[i].fraction)) return 0;
    std::size_t j = i + 1;
    while (article(t, j))
        ++j;
    return any_word(t, i, {"halben", "halbe"}) || j > i + 1 ? j : 0;
}

/// "a cup of the juice", "retirer un verre de jus": where what it is a measure of stands; 0 if it
/// is none of what is there already.
std::size_t measure_of(Tokens t, std::size_t i) {
    const bool word = t[i].sort == Token::Sort::word;
    if (word && !number_words_at(t, i) &&
        !any_word(t, i, {"a", "an", "one", "some", "ein", "eine", "einen", "un", "une"}))
        return 0;
    const auto q = quantity_at(t, i, {}, word);
    if (!q || !(q->quantity.is(Measure::Sort::volume) || q->quantity.is(Measure::Sort::package) ||
                q->quantity.is(Measure::Sort::loose)))
        return 0;
    bool there = false;
    std::size_t j = i + q->tokens;
    for (; article(t, j); ++j)
        there = there || any_word(t, j, {"the", "du", "des", "der", "vom", "la"});
    const bool taken = has_word(t, {"remove",    "take",       "spoon",     "ladle",   "lift",
                                    "retirer",   "retirez",    "prelever",  "enlever", "abnehmen",
                                    "entnehmen", "abschopfen", "wegnehmen", "discard", "throw",
                                    "jeter",     "jetez",      "keep",      "reserve", "garder"});
    return (there || taken) && j > i + q->tokens ? j : 0;
}

bool again_word(Tokens t, std::size_t i) {
    return any_word(t, i,
                    {"again", "nochmals", "nochmal", "erneut", "remettre", "remettez", "rajouter",
                     "rajoutez", "resaler", "resalt", "nachsalzen", "additional"}) ||
           (is_word(t, i, "noch") && is_word(t, i + 1, "einmal")) ||
           (is_word(t, i, "once") && is_word(t, i + 1, "more")) ||
           (is_word(t, i, "de") && is_word(t, i + 1, "nouveau"));
}

/// "the next day", "am zweiten Tag", "le lendemain", "two days later".
bool later(Tokens t) {
    for (std::size_t i = 0; i < t.size(); ++i) {
        if (any_word(t, i, {"later", "tomorrow", "lendemain", "surlendemain", "darauf", "spater"}))
            return true;
        const bool day =
            any_word(t, i,
                     {"day", "days", "morning", "evening", "night", "week", "tag", "tage", "tagen",
                      "morgen", "abend", "woche", "jour", "jours", "matin", "semaine"});
        if (!day || i == 0) continue;
        if (any_word(t, i - 1,
                     {"next", "following", "second", "third", "fourth", "nachsten", "nachster",
                      "folgenden", "zweiten", "dritten", "vierten", "anderen", "deuxieme",
                      "troisieme", "quatrieme"}) ||
            any_word(t, i + 1, {"two", "three", "four", "later", "suivant", "after", "plus"}) ||
            (i + 1 < t.size() && t[i + 1].sort == Token::Sort::number && is_word(t, i, "day")))
            return true;
        for (std::size_t back = 1; back <= 3 && back <= i; ++back) {
            if (any_word(t, i - back, {"after", "nach", "apres"})) return true;
        }
    }
    return false;
}

/// An amount of salt, or one that says neither what it is of nor how long it takes.
bool salt_amount(Tokens t, std::size_t i, std::size_t& end) {
    const bool word = t[i].sort == Token::Sort::word;
    if (word && !number_words_at(t, i) &&
        !any_word(t, i, {"a", "an", "ein", "einen", "une", "half"}))
        return false;
    const auto q = quantity_at(t, i, {}, word);
    if (!q) return false;
    const Quantity& quantity = q->quantity;
    if (!quantity.weighed() && !quantity.is(Measure::Sort::volume) &&
        !quantity.is(Measure::Sort::loose))
        return false;
    end = i + q->tokens;
    return true;
}

} // namespace

/// "as much again for the rest", "noch einmal so viel", "encore autant de sel".
void Deeds::takes_again(const Sentence& s) {
    const Tokens t = s.t;
    if (!s.salt && !salt_before_) return;
    for (std::size_t i = 0; i < t.size(); ++i) {
        const bool as_much = (is_word(t, i, "as") && is_word(t, i + 1, "much") &&
                              (any_word(t, i + 2, {"again", "more"}) || salt_word(t, i + 2)));
        const bool same =
            any_word(t, i, {"same", "equal", "gleiche", "gleichen", "selbe", "meme"}) &&
            any_word(t, i + 1, {"amount", "quantity", "weight", "menge", "quantite", "dose"});
        const bool so_viel =
            (any_word(t, i, {"ebensoviel", "genausoviel"}) ||
             (any_word(t, i, {"soviel", "viel"}) && i > 0 &&
              any_word(t, i - 1, {"so", "einmal", "nochmal", "ebenso", "genauso", "gleich"}))) &&
            (salt_word(t, i + 1) ||
             has_word(t.first(i), {"noch", "nochmal", "nochmals", "ebenso", "genauso", "gleich"}));
        const bool autant = is_word(t, i, "autant") && !is_word(t, i + 1, "que");
        const bool once_more =
            again_word(t, i) &&
            any_word(t, i + 1, {"the", "as", "das", "die", "la", "so", "einmal"}) &&
            salt_word(t, t.size() - 1);
        if (!(as_much || same || so_viel || autant || once_more) || denied(t, i)) continue;
        // "as much water as it takes", "autant de chou"
        bool other = false;
        for (std::size_t j = i + 1; j < t.size() && j <= i + 5; ++j) {
            if (salt_word(t, j)) break;
            other = other || water_word(t, j) || liquid_word(t, j) || vegetable_word(t, j) ||
                    acid_word(t, j);
        }
        if (other && !has_word(t, {"half", "halfte", "moitie", "rest", "reste"})) continue;
        done_.push_back({"The method takes as much salt again: " + said(text_of(t)) + ".",
                         "Weigh all the salt that goes in, and write it on one line.", false,
                         Deed::Effect::more_salt});
        return;
    }
}

/// "Salt half of the cabbage. Do the same with the rest.", "salt for one batch".
void Deeds::repeats(const Sentence& s) {
    const Tokens t = s.t;
    const bool all_used = has_word(t, {"until", "bis", "jusqu", "used", "aufgebraucht",
                                       "epuisement", "ending", "finish", "finishing"});
    const auto again = [&](std::string_view why) {
        done_.push_back({"By the method the salt is for a part of it, and is taken more than once, "
                         "or may be: " +
                             said(std::string(why)) + ".",
                         "Weigh all the salt that goes in, and write it on one line.", false,
                         Deed::Effect::more_salt});
        part_salted_.clear();
    };
    bool part_of_salt = false;
    bool part_of_vegetable = false;
    for (std::size_t i = 0; i < t.size(); ++i) {
        const std::size_t of = part_of(t, i);
        if (of == 0) continue;
        part_of_salt = part_of_salt || salt_word(t, of) || brine_word(t, of);
        part_of_vegetable = part_of_vegetable || (vegetable_word(t, of) && !is_word(t, of, "it"));
    }
    if (s.salt && !part_of_salt && !s.makes_brine) {
        for (std::size_t i = 1; i < t.size(); ++i) {
            const bool batch =
                any_word(t, i, {"batch", "lot", "load", "portion", "charge", "fournee", "tour"}) ||
                holds(t, i, "batches");
            if (!batch) continue;
            for (std::size_t back = 1; back <= 2 && back <= i; ++back) {
                const bool one = any_word(t, i - back,
                                          {"each", "every", "per", "single", "jede", "jeder",
                                           "jedes", "pro", "je", "chaque", "par"}) ||
                                 (any_word(t, i - back, {"one", "a", "eine", "une"}) && i > back &&
                                  any_word(t, i - back - 1, {"for", "fur", "pour"}));
                if (one) return again(text_of(t));
            }
        }
        if (part_of_vegetable) part_salted_ = text_of(t);
    }
    const bool repeat =
        has_word(t, {"repeat",  "repeating", "same",        "likewise",    "ditto",      "ebenso",
                     "genauso", "ebenfalls", "wiederholen", "wiederhole",  "wiederholt", "dasselbe",
                     "gleiche", "gleichen",  "recommencer", "recommencez", "repeter",    "repetez",
                     "idem",    "pareil",    "meme",        "again",       "too",        "also",
                     "auch",    "aussi"});
    const bool rest =
        has_word(t, {"rest", "other", "remaining", "remainder", "second", "zweite", "zweiten",
                     "andere", "anderen", "restliche", "restlichen", "reste", "autre", "autres",
                     "seconde", "deuxieme", "third", "fourth"});
    if (!part_salted_.empty() && repeat && rest && !part_of_salt && !all_used) again(text_of(t));
}

/// "The next day stir in 25 g more", "am nächsten Tag nochmals salzen".
void Deeds::salts_later(const Sentence& s) {
    const Tokens t = s.t;
    // A brine that is made only if the juice does not cover is as strong as it says.
    if (conditional(t) && (s.water || s.brine)) return;
    const bool when = later(t);
    for (std::size_t i = 0; i < t.size(); ++i) {
        bool more = false;
        std::size_t end = 0;
        if (salt_word(t, i) && !water_word(t, i + 1)) {
            for (std::size_t back = 1; back <= 2 && back <= i; ++back)
                more = more || again_word(t, i - back);
            more = more || again_word(t, i + 1) || again_word(t, i + 2);
            more = more && !has_word(t, {"rinse", "taste", "spulen"});
        } else if (salt_amount(t, i, end)) {
            bool salt = false;
            for (std::size_t j = end; j < t.size() && j < end + 4; ++j) {
                if (t[j].sort == Token::Sort::mark || vegetable_word(t, j) || water_word(t, j))
                    break;
                salt = salt || salt_word(t, j);
            }
            const bool besides =
                any_word(t, end, {"more", "again", "mehr", "extra", "additional", "nochmals"}) ||
                (is_word(t, end, "de") && is_word(t, end + 1, "plus"));
            bool before = false;
            for (std::size_t back = 1; back <= 3 && back <= i; ++back)
                before = before || again_word(t, i - back) ||
                         any_word(t, i - back, {"another", "noch", "encore", "weitere", "further"});
            const bool thing = end < t.size() && t[end].sort == Token::Sort::word && !besides &&
                               !salt && !any_word(t, end, {"and", "und", "et", "in", "dazu", "zu"});
            const bool salted = stage_ == Stage::salted || s.after_salting;
            more = (salt && ((when && (salted || before)) || (before && salted))) ||
                   (!thing && salted && (besides || before) && !s.water);
            // "1 kg more cabbage", "another 500 g of carrots" are other things.
            for (std::size_t j = end; more && !salt && j < t.size() && j < end + 4; ++j)
                more = !vegetable_word(t, j) && !water_word(t, j) && !liquid_word(t, j);
        }
        if (!more || denied(t, i)) continue;
        done_.push_back({"The method salts again: " + said(text_of(t)) + ".",
                         "Weigh all the salt that goes in, and write it on one line.", false,
                         Deed::Effect::more_salt});
        return;
    }
}

/// "half of the brine", "a third of the juice": the other part goes elsewhere.
void Deeds::parts_brine(const Sentence& s) {
    const Tokens t = s.t;
    // "pour half of the brine over the beans, the rest later": all of it goes in.
    bool gone = false;
    for (std::size_t i = 0; i < t.size(); ++i)
        gone = gone || discard_word(t, i) || drain_word(t, i) ||
               (any_word(t, i, {"pour", "tip", "ladle", "siphon", "lose", "spoon"}) &&
                any_word(t, i + 1, {"away", "off", "out"}));
    for (std::size_t i = 0; i < t.size() && !gone; ++i)
        gone = measure_of(t, i) != 0;
    if (!gone &&
        has_word(t, {"rest", "remaining", "other", "reste", "restliche", "restlichen", "autre"}))
        return;
    if (has_word(t, {"overflow", "bubble", "bubbles", "spill", "escape", "leak", "seep", "rise",
                     "evaporate", "deborder", "uberlaufen"}))
        return;
    // Of fruit it is no brine.
    const bool fruit =
        !s.brine && has_word(t, {"lemon", "lemons", "lime", "limes", "orange", "oranges", "zitrone",
                                 "zitronen", "citron", "citrons", "apple", "apples"});
    for (std::size_t i = 0; i < t.size(); ++i) {
        const std::size_t of = std::max(part_of(t, i), measure_of(t, i));
        const bool brine = of != 0 && !fruit && liquid_word(t, of);
        if (!brine || denied(t, i) || at_table(t, i)) continue;
        done_.push_back(
            {"By the method a part of the brine goes in, or stays: " + said(text_of(t)) + ".",
             "Weigh the water and the salt that stay with the vegetables."});
        return;
    }
}

/// "a two-litre jar", "bocal de 5 litres", "gallon crock": how much goes in at most.
void Deeds::fills_vessel(const Sentence& s) {
    const Tokens t = s.t;
    const auto vessel = [&](std::size_t i) {
        return any_word(t, i, {"jar",      "jars",    "crock",  "crocks",    "bottle",  "container",
                               "bucket",   "tub",     "keg",    "barrel",    "cask",    "pail",
                               "demijohn", "pot",     "topf",   "steintopf", "gartopf", "fass",
                               "eimer",    "bocal",   "bocaux", "jarre",     "tonneau", "seau",
                               "vessel",   "pitcher", "jug",    "flasche"}) ||
               (i < t.size() && (t[i].folded.ends_with("glas") || t[i].folded.ends_with("glaser")));
    };
    for (std::size_t i = 0; i < t.size(); ++i) {
        const bool word = t[i].sort == Token::Sort::word;
        std::size_t end = i;
        double ml = 0;
        if (!word || number_words_at(t, i) ||
            any_word(t, i, {"a", "an", "half", "one", "ein", "einen", "einem", "un", "une"})) {
            const auto q = quantity_at(t, i, {}, word);
            if (q && q->quantity.is(Measure::Sort::volume)) {
                ml = q->quantity.base().high;
                end = i + q->tokens;
            }
        } else if (const auto m = measure_at(t, i, false);
                   m && m->measure->sort == Measure::Sort::volume) {
            ml = m->measure->factor.high;
            end = i + m->tokens;
        }
        if (ml < 200) continue;
        bool is = false;
        for (std::size_t j = end; j < end + 4 && j < t.size(); ++j) {
            if (water_word(t, j) || brine_word(t, j)) break;
            is = is || vessel(j);
        }
        for (std::size_t back = 1; back <= 4 && back <= i; ++back)
            is = is || (vessel(i - back) && !water_word(t, end) && !water_word(t, end + 1));
        if (is) vessel_ml_ = std::max(vessel_ml_, ml);
    }
}

} // namespace jarful::appraise
