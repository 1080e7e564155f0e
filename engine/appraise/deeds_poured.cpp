#include "engine/appraise/deed_words.hpp"
#include "engine/appraise/deeds.hpp"

/// What a method pours off, squeezes out, keeps and puts back.
namespace jarful::appraise {

using Tokens = std::span<const Token>;

namespace {

/// "reserve the brine", "catch the juices in a bowl": the liquid itself, for this jar.
bool keeps_liquid(Tokens t) {
    const auto keeps = [&](std::size_t i) {
        return any_word(t, i, {"reserve",   "reserving",  "reserved",   "save",   "saving",
                               "saved",     "keep",       "keeping",    "kept",   "catch",
                               "catching",  "collect",    "collecting", "retain", "retaining",
                               "reserver",  "reservez",   "reservant",  "garder", "gardez",
                               "conserver", "conservant", "recueillir"}) ||
               holds(t, i, "auffang") || holds(t, i, "aufgefang") || holds(t, i, "aufheb");
    };
    // "for soup", "for another batch" is not for this jar.
    const auto elsewhere = [&](std::size_t from) {
        for (std::size_t i = from; i < t.size() && i < from + 5; ++i) {
            if (any_word(t, i, {"for", "fur", "pour", "zum"}))
                return !has_word(t.subspan(i), {"jar", "jars", "later", "topping", "covering",
                                                "packing", "filling", "cover", "top"});
        }
        return false;
    };
    for (std::size_t i = 0; i < t.size(); ++i) {
        if (!keeps(i) || denied(t, i)) continue;
        // Ahead of the word: no other thing, and no other clause, between.
        for (std::size_t j = i + 1; j < t.size() && j <= i + 6; ++j) {
            if (t[j].sort == Token::Sort::mark || is_word(t, j, "in")) break;
            if (liquid_word(t, j) || water_word(t, j)) {
                if (elsewhere(j)) return false;
                return true;
            }
            if (is_word(t, j, "it") || vegetable_word(t, j)) {
                // "drain off the liquid and keep it"
                bool liquid = false;
                bool thing = false;
                for (std::size_t back = i; back-- > 0 && !liquid && !thing;) {
                    liquid = liquid_word(t, back);
                    thing = vegetable_word(t, back);
                }
                if (is_word(t, j, "it") && liquid && !elsewhere(j)) return true;
                break;
            }
        }
        // "the brine is kept", "den Saft auffangen"
        for (std::size_t back = 1; back <= 4 && back <= i; ++back) {
            if (t[i - back].sort == Token::Sort::mark || vegetable_word(t, i - back) ||
                drain_word(t, i - back))
                break;
            if (is_word(t, i - back, "and")) break;
            if ((liquid_word(t, i - back) || water_word(t, i - back)) && !elsewhere(i)) return true;
        }
    }
    return false;
}

/// "the liquid is then discarded"
bool passive(Tokens t, std::size_t i) {
    for (std::size_t back = 1; back <= 3 && back <= i; ++back) {
        if (any_word(t, i - back,
                     {"is", "are", "was", "were", "been", "be", "being", "wird", "werden", "est",
                      "sont", "get", "gets"}))
            return true;
    }
    return false;
}

/// "remove the excess liquid", "get rid of the juice"; not "remove bubbles from the brine".
bool loses_liquid(Tokens t, std::size_t i) {
    if (!any_word(t, i, {"remove", "removing", "empty", "lose", "spoon", "blot", "mop", "rid"}))
        return false;
    std::size_t j = i + 1;
    while (any_word(
        t, j,
        {"the", "any", "all", "excess", "extra", "of", "some", "its", "off", "out", "away", "up"}))
        ++j;
    return liquid_word(t, j) || water_word(t, j);
}

/// "pack the cabbage and its brine", "tip everything, juice and all, into the jar".
bool packs_liquid(Tokens t, std::size_t from) {
    bool put = false;
    for (std::size_t i = from; i < t.size(); ++i) {
        put = put || any_word(t, i,
                              {"pack", "tip", "put", "add", "return", "transfer", "pour", "place",
                               "fill", "stuff", "press", "tamp", "scoop"});
        if (!put || !liquid_word(t, i)) continue;
        if (is_word(t, i + 1, "and") && is_word(t, i + 2, "all")) return true;
        for (std::size_t back = 1; back <= 3 && back <= i - from; ++back) {
            if (any_word(t, i - back, {"and", "with", "plus", "all", "including"})) return true;
        }
    }
    return false;
}

} // namespace

/// What was squeezed out goes in after all.
void Deeds::puts_back(const Sentence& s) {
    if (squeezed_.empty() || !packs_liquid(s.t, 0) ||
        has_word(s.t, {"discard", "off", "without", "not", "fresh", "new"}))
        return;
    squeezed_.clear();
}

void Deeds::pours_off(const Sentence& s) {
    const Tokens t = s.t;
    if (keeps_liquid(t)) return;
    const bool mold = has_word(t, {"mold", "mould", "scum", "slimy", "foam"});
    const bool salted = stage_ == Stage::salted || s.after_salting;
    bool found = false;
    bool squeezed = false;
    for (std::size_t i = 0; i < t.size() && !found; ++i) {
        if (denied(t, i) || t[i].sort != Token::Sort::word) continue;
        const bool now = salted || ((s.salt || s.brine) && s.salt_at < i && !s.makes_brine);
        const auto near = [&](std::size_t most, std::initializer_list<std::string_view> words) {
            for (std::size_t j = i + 1; j <= i + most; ++j) {
                if (any_word(t, j, words)) return true;
            }
            return false;
        };
        bool liquid = false;
        for (std::size_t j = i + 1; j < t.size() && j <= i + 9; ++j)
            liquid = liquid || liquid_word(t, j) || salt_word(t, j) || water_word(t, j);
        // "den Saft weggiessen", "the liquid is discarded"
        bool before = false;
        bool own = false; // of the vegetables: there is none without salt
        for (std::size_t back = 1; back <= 7 && back <= i; ++back) {
            if (t[i - back].sort == Token::Sort::mark) break;
            before = before || liquid_word(t, i - back) || water_word(t, i - back);
            own = own || liquid_word(t, i - back);
        }
        for (std::size_t j = i + 1; j < t.size() && j <= i + 4; ++j)
            own = own || liquid_word(t, j) || any_word(t, j, {"rendue", "rendu"});
        own = own && !bath_ && !s.makes_brine;
        const bool portion = any_word(t, i + 1, {"what", "as", "some", "only"}) ||
                             (is_word(t, i + 1, "a") && is_word(t, i + 2, "portion"));
        const bool foreign = has_word(t, {"air", "bubbles", "bubble"}) || mold;
        // "the drained cabbage", once it is salted; not "over the drained carrots".
        const bool described = t[i].folded.ends_with("ed") && !passive(t, i);
        bool cleaned = false;
        for (std::size_t back = 1; back <= 3 && back <= i; ++back)
            cleaned = cleaned || wash_word(t, i - back) || rinse_word(t, i - back);
        const bool as_drained =
            !s.brine && !cleaned && (stage_ == Stage::salted || !vegetable_word(t, i + 1));
        if ((drain_word(t, i) && (!described || as_drained)) ||
            any_word(t, i, {"colander", "sieve", "strainer", "sieb", "passoire"}))
            found = (now || (own && stage_ == Stage::raw)) && !s.before_salting &&
                    !(portion && has_word(t, {"need", "want", "eat"})) &&
                    (liquid || object_of(t, i) != What::vessel);
        else if ((holds(t, i, "gie") || holds(t, i, "schutt")) &&
                 any_word(t, t.size() - 1, {"ab", "weg"}))
            found = (now || own) && (liquid || before);
        else if (loses_liquid(t, i))
            found = now;
        else if (any_word(t, i, {"lift", "remove", "take", "scoop"}))
            found = now && liquid && near(6, {"out", "from"}) && !foreign && !portion &&
                    object_of(t, i) != What::vessel;
        else if (any_word(t, i, {"leave", "leaving"}))
            found = (now || !bath_) && liquid && near(7, {"behind"});
        else if (any_word(t, i, {"pour", "tip", "ladle", "siphon", "poured", "tipped"}))
            found =
                (now || (s.brine && !s.makes_brine && liquid)) && near(3, {"off", "away", "out"});
        else if (any_word(t, i, {"squeeze", "wring", "press", "squeezing", "pressing"}))
            found = squeezed =
                now && (near(2, {"out"}) || near(4, {"dry"})) && !has_word(t, {"air"});
        else if (any_word(t, i, {"spin", "pat"}))
            found = now && near(5, {"dry"}) && object_of(t, i) != What::vessel;
        else if (holds(t, i, "ausdruck") || any_word(t, i, {"essorer", "essorez"}))
            found = squeezed = now;
        else if (discard_word(t, i))
            found = (now || own || stage_ == Stage::brine || s.brine) &&
                    (liquid || before || own) && !has_word(t, {"if"}) && !mold;
        // "Leave for a week, strain": it is ripe by then.
        const bool ripe = has_word(t.first(i), {"days", "day", "week", "weeks", "month", "months",
                                                "tage", "wochen", "jours", "semaines"});
        if (drain_word(t, i) && !described && !found && stage_ == Stage::raw && !bath_ && !ripe &&
            !s.before_salting && !s.makes_brine && !at_table(t, i) && !portion &&
            object_of(t, i) != What::vessel)
            early_ = text_of(t);
        if (found && at_table(t, i)) found = squeezed = false;
        if (found && squeezed && packs_liquid(t, i + 1)) found = false;
    }
    if (!found) {
        bath_ = bath_ || (s.water && !s.salt && !s.brine);
        return;
    }
    if (squeezed)
        squeezed_ = text_of(t);
    else
        done_.push_back(poured(text_of(t)));
}

Deed Deeds::poured(const std::string& sentence) {
    return {"By the method brine is poured off, or may be, and salt with it: " + said(sentence) +
                ".",
            "Salt by weight and keep all the brine that comes of it; or weigh what is added after "
            "it is poured off."};
}

} // namespace jarful::appraise
