#include "engine/appraise/deeds.hpp"

#include "engine/appraise/deed_words.hpp"
#include "engine/appraise/item.hpp"
#include "engine/appraise/number_words.hpp"
#include "engine/appraise/quantity.hpp"
#include "engine/appraise/reading.hpp"
#include "engine/appraise/text.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

void Deeds::read(Tokens t, Tongue tongue) {
    // What runs on without a full stop is read in parts: every word looks about itself.
    constexpr std::size_t longest = 100;
    for (; t.size() > longest; t = t.subspan(longest))
        read(t.first(longest), tongue);
    if (t.empty()) return;
    Sentence s;
    s.t = t;
    s.tongue = tongue;
    for (std::size_t i = 0; i < t.size(); ++i) {
        const bool salt = salt_word(t, i) || brine_word(t, i);
        if (salt && !s.salt && !s.brine) s.salt_at = i;
        s.salt = s.salt || salt_word(t, i);
        s.brine = s.brine || brine_word(t, i);
        s.water = s.water || water_word(t, i);
        if (!salt) continue;
        for (std::size_t back = 1; back <= 3 && back <= i; ++back) {
            if (any_word(t, i - back, {"before", "vor", "avant"})) s.before_salting = true;
            if (any_word(t, i - back, {"after", "once", "nach", "apres"})) s.after_salting = true;
        }
    }
    const bool put_on = has_word(t, {"pour", "over", "cover", "submerge", "soak", "pack", "toss",
                                     "rub", "massage", "sprinkle", "layer"});
    // "Boil water and salt and let it cool": the brine itself.
    const bool heated = has_word(
        t, {"boil", "boiling", "cool", "heat", "simmer", "dissolve", "dissolves", "dissolved"});
    // "Make the brine and set it aside": "it" is what was named before it.
    bool thing = false;
    for (std::size_t i = 0; i < t.size(); ++i)
        thing =
            thing || (vegetable_word(t, i) &&
                      !(is_word(t, i, "it") && (heated || ((s.salt || s.brine) && s.salt_at < i))));
    const bool made = s.brine && has_word(t, {"make", "prepare", "mix", "stir", "start",
                                              "zubereiten", "herstellen", "ansetzen", "anruhren",
                                              "preparer", "preparez", "faire", "faites"});
    s.makes_brine =
        (s.salt || s.brine) && !put_on && !thing &&
        (s.water || made ||
         has_word(t, {"dissolve", "dissolved", "dissolves", "auflosen", "losen", "dissoudre"}));
    s.only_measures =
        has_word(t, {"measure", "weigh", "calculate", "buy", "choose", "gather"}) && !put_on &&
        !has_word(t, {"mix", "add", "knead", "work", "pound", "coat", "combine", "stir", "leave"});
    rinses(s);
    takes_salt_off(s);
    puts_back(s);
    pours_off(s);
    adds_salt(s);
    adds_liquid(s);
    uses_part(s);
    takes_again(s);
    repeats(s);
    salts_later(s);
    parts_brine(s);
    fills_vessel(s);
    leaves_over(s);
    adds_water(s);
    adds_things(s);
    follow(s);
    salt_before_ = s.salt;
    // What is washed or cut thereafter has not met the salt.
    bool clean = false;
    for (std::size_t i = 0; i < t.size(); ++i)
        clean = clean || wash_word(t, i);
    if (clean || has_word(t, {"shred", "slice", "cut", "chop", "grate", "peel", "trim", "core",
                              "quarter", "scrub", "hobeln", "schneiden", "raspeln", "schalen",
                              "emincer", "couper", "raper", "eplucher"}))
        early_.clear();
}

/// Whether the vegetables have met the salt by now.
void Deeds::follow(const Sentence& s) {
    if (s.makes_brine) {
        stage_ = std::max(stage_, Stage::brine);
    } else if ((s.salt || s.brine) && !s.only_measures && !s.before_salting) {
        stage_ = Stage::salted;
    } else if (stage_ == Stage::brine &&
               has_word(s.t,
                        {"add", "put", "pack", "pour", "cover", "submerge", "soak", "place", "fill",
                         "layer", "leave", "overnight", "hours", "steep", "immerse"})) {
        stage_ = Stage::salted;
    }
}

void Deeds::rinses(const Sentence& s) {
    const Tokens t = s.t;
    if (rinsed_ || s.before_salting) return;
    for (std::size_t i = 0; i < t.size(); ++i) {
        const bool wash = wash_word(t, i);
        if ((!wash && !rinse_word(t, i)) || denied(t, i) || at_table(t, i)) continue;
        const What object = object_of(t, i);
        // "into a rinsed crock"
        if (object == What::vessel || vessel_word(t, i + 1)) continue;
        const bool off = any_word(t, i + 1, {"off", "away", "out"}) ||
                         any_word(t, i + 2, {"off", "away", "out"});
        if (wash && !off && object == What::nothing) continue;
        // "Rinse the cabbage, salt it": another clause; "rinse off the salt", "the salted cabbage".
        bool of_salt = false;
        for (std::size_t j = i + 1; j < t.size() && j <= i + 6; ++j) {
            if (t[j].sort == Token::Sort::mark || any_word(t, j, {"and", "then", "und", "et"}))
                break;
            of_salt = of_salt || salt_word(t, j) || brine_word(t, j);
        }
        const bool behind = (s.salt || s.brine) && s.salt_at < i && !s.makes_brine;
        if (stage_ == Stage::salted || of_salt || s.after_salting || behind)
            rinsed_ = true;
        else if (!wash && stage_ == Stage::raw)
            early_ = text_of(t);
    }
}

/// "Run under cold water", "soak in fresh water", "shake off the excess salt": rinsed by other
/// words.
void Deeds::takes_salt_off(const Sentence& s) {
    const Tokens t = s.t;
    if (rinsed_ || s.before_salting) return;
    // "the salted cabbage" has been; "salt" by itself goes in.
    const bool salt = std::any_of(t.begin(), t.end(),
                                  [](const Token& token) { return token.is.any(Concept::salt); });
    const bool salted = stage_ == Stage::salted || (s.salt && !salt);
    for (std::size_t i = 0; i < t.size(); ++i) {
        const auto near = [&](std::size_t most, auto is) {
            for (std::size_t j = i + 1; j <= i + most && j < t.size(); ++j) {
                if (is(t, j)) return true;
            }
            return false;
        };
        const bool under =
            any_word(t, i, {"under", "unter", "sous"}) && near(4, water_word) &&
            (has_word(t, {"run", "hold", "flush", "cold", "running", "tap", "wash"}) ||
             !is_word(t, i, "under"));
        const bool soaked = any_word(t, i,
                                     {"soak", "soaking", "steep", "steeping", "einweichen",
                                      "tremper", "run", "flush"}) &&
                            near(8, water_word) && !s.brine &&
                            !(salt && !has_word(t, {"remove", "out"}));
        const bool taken =
            any_word(t, i, {"remove", "shake", "brush", "scrape", "knock", "wipe"}) &&
            near(5, salt_word) && !has_word(t, {"rim", "rims", "lid", "lids", "edge"});
        if ((taken || (salted && (under || soaked))) && !denied(t, i) && !at_table(t, i) &&
            object_of(t, i) != What::vessel)
            rinsed_ = true;
    }
}

/// "then add another tablespoon of salt": besides the salt that the list gives.
void Deeds::adds_salt(const Sentence& s) {
    const Tokens t = s.t;
    if (!s.salt) return;
    const bool on_top = has_word(t, {"dessus", "daruber", "daruberstreuen", "obenauf"}) ||
                        (has_word(t, {"on"}) && has_word(t, {"top"}));
    const bool adds = has_word(t, {"add", "adding", "sprinkle", "ajouter", "ajoutez", "streuen",
                                   "hinzufugen", "zugeben", "dazugeben", "strew", "stir", "mix"});
    bool whole = false;
    for (std::size_t i = 0; i < t.size(); ++i) {
        if (!any_word(t, i, {"salt", "salz", "sel"}) || denied(t, i)) continue;
        if (water_word(t, i + 1) || brine_word(t, i + 1)) continue; // "more salt water"
        bool more = any_word(t, i + 1, {"supplementaire", "supplementaires"});
        const bool behind = any_word(t, i + 1, {"more", "extra", "mehr", "zusatzlich"});
        bool amount = false;
        bool number = false;
        bool of_the = false;
        for (std::size_t back = 1; back <= 6 && back <= i; ++back) {
            const std::size_t j = i - back;
            if (t[j].sort == Token::Sort::mark && t[j].text != "'" && t[j].text != "-") break;
            // "another layer of cabbage and salt"
            if (vegetable_word(t, j) || any_word(t, j, {"and", "und", "et", "layer", "remaining"}))
                break;
            of_the =
                of_the ||
                any_word(t, j, {"the", "this", "that", "your", "du", "dem", "vom", "des", "le"});
            more =
                more || any_word(t, j,
                                 {"another", "additional", "extra", "more", "noch", "encore",
                                  "weitere", "weiteren", "weiteres", "zusatzlich", "zusatzliches"});
            number = number || t[j].sort == Token::Sort::number;
            const auto m = measure_at(t, j, true);
            amount = amount || (m && m->measure->sort != Sort::count && t[j].text.size() > 1);
        }
        // "rub with the salt": all of it, so that an amount of salt thereafter is another.
        const bool all = !amount && !number && (of_the || any_word(t, i - 1, {"with", "mit"}));
        whole = whole || (i > 0 && all);
        more = more || (behind && (amount || number));
        if (is_word(t, i + 1, "than") || (of_the && !more)) continue;
        const bool of_list = of_the && !is_word(t, i - 1, "extra");
        if (more && of_list && !any_word(t, i - 1, {"more", "additional"})) continue;
        const bool rule = has_word(t, {"per", "every", "each", "pro", "je"});
        const bool brine = conditional(t) && (s.water || s.brine);
        const bool off = has_word(t, {"off", "remove", "shake", "rinse", "brush"});
        const bool besides =
            amount && !rule && ((whole_salt_ && (adds || on_top)) || (on_top && !number));
        const bool per = has_word(t, {"per", "every", "pro"});
        // "adding more salt as you go until all of it is used"
        const bool of_all = has_word(t.subspan(i), {"all", "rest"}) && has_word(t, {"until"});
        if ((more && !off && !brine && !per && !of_all) || (besides && !conditional(t))) {
            done_.push_back(
                {"The method adds salt besides what the list gives: " + said(text_of(t)) + ".",
                 "Weigh all the salt that goes in, and write it on one line.", false,
                 Deed::Effect::more_salt});
            return;
        }
    }
    whole_salt_ = whole_salt_ || (whole && !s.only_measures && !s.before_salting);
}

/// "cover with vinegar", "a cup of juice from the last batch".
void Deeds::adds_liquid(const Sentence& s) {
    const Tokens t = s.t;
    if (conditional(t) || added_.size() > 50) return;
    for (std::size_t i = 0; i < t.size(); ++i) {
        std::string_view name;
        if (acid_word(t, i))
            name = "vinegar";
        else if (any_word(t, i, {"whey", "molke"}) ||
                 (is_word(t, i, "lait") && i > 1 && is_word(t, i - 2, "petit")))
            name = "whey";
        else if ((any_word(t, i, {"starter", "backslop"}) && !vessel_word(t, i + 1)) ||
                 holds(t, i, "krautsaft") ||
                 (is_word(t, i, "pickle") && any_word(t, i + 1, {"juice", "brine"})))
            name = "starter brine";
        else if (liquid_word(t, i)) {
            // "brine from an older ferment", "juice of the last batch", "some old brine"
            const auto older = [&](std::size_t j) {
                return any_word(t, j,
                                {"last", "previous", "older", "old", "earlier", "another", "other",
                                 "ferment", "batch", "letzten", "alten", "alte", "precedent",
                                 "precedente", "ancienne"});
            };
            if (i > 0 && any_word(t, i - 1, {"old", "older", "previous", "alte", "alter"}))
                name = "starter brine";
            if (any_word(t, i + 1, {"from", "of", "vom", "aus", "von", "de", "d", "der"})) {
                for (std::size_t j = i + 2; j <= i + 6; ++j)
                    if (older(j)) name = "starter brine";
            }
        }
        if (name.empty() || denied(t, i) || at_table(t, i)) continue;
        bool poured = false;
        bool little = false;
        for (std::size_t back = 1; back <= 12 && back <= i; ++back) {
            const std::size_t j = i - back;
            if (rinse_word(t, j) || wash_word(t, j) || any_word(t, j, {"wipe", "clean", "dip"})) {
                poured = false;
                break;
            }
            little =
                little || any_word(t, j, {"teaspoon", "tsp", "splash", "dash", "drop", "drops"});
            poured = poured || any_word(t, j,
                                        {"add", "adding", "stir", "cover", "pour", "top", "mix",
                                         "fill", "put", "use", "include", "ajouter", "ajoutez",
                                         "verser", "versez", "couvrir", "mit"});
        }
        for (std::size_t j = i + 1; j < t.size() && j <= i + 4; ++j)
            poured = poured || holds(t, j, "zugeb") || holds(t, j, "zugie") ||
                     holds(t, j, "hinzu") || holds(t, j, "aufgie") || holds(t, j, "auffull") ||
                     holds(t, j, "dazu") || holds(t, j, "angie");
        if (!poured || little) continue;
        Added added;
        added.sentence = text_of(t);
        added.material = larder::Larder().find(name)->material;
        added.words = name;
        added_.push_back(std::move(added));
        return;
    }
}

void Deeds::uses_part(const Sentence& s) {
    const Tokens t = s.t;
    if (s.salt && has_word(t, {"all", "alles", "tout"}) &&
        has_word(t, {"need", "use", "brauchen", "utiliser"}) &&
        has_word(t, {"not", "won't", "don't", "wont", "nicht", "pas"}))
        part_ = text_of(t);
    // "Save the remaining salt for another batch"
    for (std::size_t i = 0; i < t.size(); ++i) {
        if (!any_word(t, i, {"save", "keep", "store", "reserve", "discard", "aside"})) continue;
        bool rest = false;
        for (std::size_t j = is_word(t, i, "aside") ? 0 : i + 1; j < t.size() && j <= i + 7; ++j) {
            rest = rest ||
                   any_word(t, j, {"remaining", "rest", "leftover", "extra", "excess", "half"});
            if (rest && salt_word(t, j)) {
                part_ = text_of(t);
                return;
            }
        }
    }
    // The rest of it follows, or it is strewn in layers.
    if (has_word(t, {"repeat", "again", "remainder", "remaining", "rest", "other", "restliche",
                     "restlichen", "restliches", "reste", "layer", "layers", "layering", "each"})) {
        part_.clear();
        return;
    }
    for (std::size_t i = 0; i < t.size(); ++i) {
        const bool part =
            any_word(t, i,
                     {"half", "third", "thirds", "quarter", "quarters", "part", "some", "most",
                      "halfte", "drittel", "viertel", "moitie", "tiers", "partie"}) ||
            (t[i].sort == Token::Sort::number && t[i].fraction);
        if (!part) continue;
        std::size_t j = i + 1;
        while (any_word(t, j,
                        {"of", "the", "your", "this", "that", "des", "der", "vom", "du", "de", "la",
                         "measured"}))
            ++j;
        if (is_word(t, i + 1, "less") && salt_word(t, i + 2)) part_ = text_of(t);
        if (j > i + 1 && (salt_word(t, j) || brine_word(t, j))) part_ = text_of(t);
        // "Pour half over the carrots"
        const bool ready = stage_ == Stage::brine || s.makes_brine || s.brine ||
                           (stage_ == Stage::raw && !bath_ && has_word(t, {"pour", "ladle"}));
        const std::size_t verb =
            i > 1 && any_word(t, i - 1, {"a", "one", "about", "the"}) ? i - 2 : i - 1;
        if (ready && i > 0 && any_word(t, verb, {"pour", "use", "add", "ladle", "tip"}) &&
            any_word(t, i + 1, {"over", "on", "onto", "into", "in"}))
            part_ = text_of(t);
    }
}

void Deeds::leaves_over(const Sentence& s) {
    const Tokens t = s.t;
    const bool liquid = s.brine || has_word(t, {"liquid", "flussigkeit", "liquide"}) ||
                        (stage_ != Stage::raw && has_word(t, {"it"}));
    if (!liquid && !(s.salt && s.water)) return;
    bool over = has_word(t, {"leftover", "leftovers", "ubrig"});
    for (std::size_t i = 0; i < t.size(); ++i) {
        over = over || (is_word(t, i, "left") && any_word(t, i + 1, {"over"}));
        over = over || (is_word(t, i, "left") && i + 1 >= t.size());
        over = over || (is_word(t, i, "left") && is_mark(t, i + 1, "-"));
        over = over || (any_word(t, i, {"all", "alle", "tout", "toute"}) &&
                        has_word(t, {"need", "use", "brauchen", "utiliser"}) &&
                        has_word(t, {"not", "won't", "don't", "wont", "nicht", "pas"}));
        over =
            over || (any_word(t, i, {"excess", "extra", "surplus", "spare", "remaining", "rest"}) &&
                     has_word(t, {"discard", "save", "keep", "reserve", "refrigerate", "store",
                                  "freeze", "throw"}));
        over = over || (is_word(t, i, "much") && i > 0 && is_word(t, i - 1, "as") &&
                        !has_word(t, {"squeeze", "press", "wring", "massage", "knead", "drain"}));
        // "knead until there is enough brine"
        if (any_word(t, i, {"enough", "genug", "assez"}) && !denied(t, i) &&
            !has_word(t.first(i), {"until", "bis", "jusqu"})) {
            for (std::size_t j = i + 1; j <= i + 4; ++j)
                over = over || brine_word(t, j) || any_word(t, j, {"liquid"});
        }
    }
    if (!over) return;
    done_.push_back({"By the method not all of the brine goes in: " + said(text_of(t)) + ".",
                     "Weigh the water and the salt of the brine that you pour in.", true,
                     Deed::Effect::less_brine});
}

void Deeds::adds_water(const Sentence& s) {
    const Tokens t = s.t;
    // A bag, an airlock, the rim of a crock that is filled with water.
    if (!s.water || conditional(t) ||
        has_word(t, {"airlock", "bag", "bags", "moat", "channel", "trough", "filled"}))
        return;
    if (has_word(t, {"rinse",      "rinsed",    "rinsing", "wash",     "washed",  "soak",
                     "soaked",     "soaking",   "bath",    "ice",      "iced",    "blanch",
                     "sterilize",  "sterilise", "airlock", "bag",      "bags",    "moat",
                     "channel",    "trough",    "filled",  "running",  "hands",   "scald",
                     "einweichen", "waschen",   "spulen",  "abspulen", "tremper", "rincer"}) &&
        !has_word(t, {"cover", "top"}))
        return;
    for (std::size_t i = 1; i < t.size(); ++i) {
        if (denied(t, i)) continue;
        if (!water_word(t, i) || salt_word(t, i - 1) || brine_word(t, i - 1) || at_table(t, i))
            continue;
        bool amount = false;
        bool poured = false;
        bool more = false;
        double grams = 0;
        for (std::size_t back = 1; back <= 8 && back <= i; ++back) {
            const std::size_t j = i - back;
            if (t[j].sort == Token::Sort::mark && (t[j].text == "," || t[j].text == ";")) break;
            if (salt_word(t, j) || brine_word(t, j)) break;
            if (rinse_word(t, j) || wash_word(t, j) || is_word(t, j, "under")) {
                amount = poured = false;
                break;
            }
            more = more || any_word(t, j, {"more", "additional", "extra", "another"}) ||
                   ((stage_ != Stage::raw || (s.brine && s.salt_at < j)) &&
                    (any_word(t, j, {"fresh", "plain", "tap", "frisches", "frischem"}) ||
                     is_word(t, i, "leitungswasser")));
            poured = poured || any_word(t, j,
                                        {"add", "cover", "top", "fill", "pour", "ajouter",
                                         "couvrir", "ajoutez", "dilute", "thin", "completer",
                                         "completez", "recouvrir", "verser", "versez"});
            const bool word = number_words_at(t, j) ||
                              any_word(t, j,
                                       {"half", "one", "a", "an", "ein", "einen", "einem", "un",
                                        "une", "halben", "halber", "demi"});
            if (is_word(t, j, "another") && measure_at(t, j + 1, true)) amount = true;
            if (t[j].sort == Token::Sort::number || word) {
                const auto q = quantity_at(t, j, {}, word);
                amount = amount || (q && j + q->tokens <= i &&
                                    (q->quantity.is(Sort::volume) || q->quantity.weighed()) &&
                                    q->quantity.base().high >= 20);
                if (amount) grams = q->quantity.base().low;
            }
        }
        // "mit Wasser auffüllen": the verb stands behind.
        for (std::size_t j = i + 1; j < t.size() && j <= i + 4; ++j)
            poured = poured || holds(t, j, "auffull") || holds(t, j, "aufgie") ||
                     holds(t, j, "bedeck") || holds(t, j, "zugeb") || holds(t, j, "hinzu") ||
                     holds(t, j, "zugie") || holds(t, j, "nachgie") || holds(t, j, "ubergie") ||
                     holds(t, j, "angie") || holds(t, j, "eingie") || holds(t, j, "nachfull") ||
                     holds(t, j, "zufug") ||
                     any_word(t, j, {"daruber", "druber", "drauf", "dessus"});
        // "the water, a gallon of it, is boiled"
        for (std::size_t j = i + 1; j < t.size() && j <= i + 3 && !amount; ++j) {
            const bool word = t[j].sort == Token::Sort::word;
            const auto q = word && !number_words_at(t, j) && !any_word(t, j, {"a", "one", "un"})
                               ? std::nullopt
                               : quantity_at(t, j, {}, word);
            if (!q || !q->quantity.is(Sort::volume) || q->quantity.base().high < 250) continue;
            const std::size_t end = j + q->tokens;
            amount = end >= t.size() || t[end].sort == Token::Sort::mark ||
                     any_word(t, end, {"of", "is", "are", "davon", "in"});
            if (amount) grams = q->quantity.base().low;
        }
        if (!amount && !poured) continue;
        Added added;
        added.sentence = text_of(t);
        added.material = larder::find_exact("water");
        added.more = more && (poured || amount);
        added.grams = grams;
        added_.push_back(std::move(added));
        return;
    }
}

void Deeds::adds_things(const Sentence& s) {
    const Tokens t = s.t;
    if (conditional(t) || added_.size() > 50) return;
    // "Add any other vegetables you like."
    if (has_word(t, {"vegetables", "veggies", "veg"}) && has_word(t, {"any", "other", "like"}) &&
        has_word(t, {"add", "adding"}))
        added_.push_back(
            {text_of(t), larder::Larder().find("mixed vegetables")->material, {}, true, 0});
    for (std::size_t i = 0; i < t.size(); ++i) {
        const bool number = t[i].sort == Token::Sort::number;
        if (!number && !any_word(t, i,
                                 {"a", "an", "one", "two", "three", "four", "half", "ein", "eine",
                                  "un", "une"}))
            continue;
        const auto q = quantity_at(t, i, {});
        // "a carrot" may be any of them; "two carrots" and "a bunch of radishes" are added.
        const bool several = any_word(t, i, {"two", "three", "four"});
        // "a few carrots"
        const bool some = any_word(t, i + 1, {"few", "couple", "several"});
        if (some && has_word(t, {"add", "stir", "mix", "toss"}) && !at_table(t, i))
            adds_thing(s, i, {Quantity{}, is_word(t, i + 2, "of") ? 3u : 2u});
        if (!q || (!number && !several && !q->quantity.weighed() && !q->quantity.is(Sort::volume) &&
                   !q->quantity.is(Sort::count)))
            continue;
        if (at_table(t, i)) continue;
        adds_thing(s, i, *q);
        i += q->tokens - 1;
    }
}

/// What an amount is of: the words behind it, or those that it stands behind in parentheses.
void Deeds::adds_thing(const Sentence& s, std::size_t at, const FoundQuantity& found) {
    const Tokens t = s.t;
    const Quantity& quantity = found.quantity;
    for (std::size_t back = 1; back <= 2 && back <= at; ++back) {
        // "for every 5 lb of cabbage"
        if (any_word(t, at - back,
                     {"per", "for", "every", "each", "pro", "je", "auf", "par", "pour", "into",
                      "about"}))
            return;
    }
    const bool much = quantity.weighed() ? quantity.base().high >= 20
                      : quantity.is(Sort::volume) || quantity.is(Sort::loose)
                          ? quantity.base().high >= 4
                          : quantity.measure == nullptr || quantity.is(Sort::count);
    if (!much) return;
    std::size_t first = at + found.tokens;
    std::size_t end = first;
    if (at > 0 && is_mark(t, at - 1, "(")) {
        end = at - 1;
        first = end;
        while (first > 0 && end - first < 3 && t[first - 1].sort == Token::Sort::word)
            --first;
    } else {
        while (end < t.size() && end < first + 5 && t[end].sort == Token::Sort::word &&
               !any_word(t, end,
                         {"per", "for", "to", "into", "over", "in", "on", "and", "with", "until",
                          "at", "from", "und", "et", "mit", "avec", "then"}))
            ++end;
    }
    const Tokens words = t.subspan(first, end - first);
    // "huile d'olive (1/2 litre)"
    // The amount of an oil is none of the thing that it is pressed from.
    const std::size_t from = first - std::min<std::size_t>(first, 4);
    const Tokens about = t.subspan(from, end - from);
    if (std::any_of(about.begin(), about.end(),
                    [](const Token& token) { return token.is.any(Concept::oil); }))
        return;
    if (has_word(words, {"leaf", "leaves", "core", "stem", "head", "days", "hours", "weeks",
                         "times", "minutes"}))
        return;
    const Item item = item_of(words, s.tongue);
    if (item.material == nullptr) return;
    const Role role = item.material->role;
    if (role != Role::vegetable && role != Role::seasoning && role != Role::acid &&
        !is_liquid(*item.material))
        return;
    Added added;
    added.sentence = text_of(t);
    added.material = item.material;
    added.words = item.words;
    if (quantity.weighed()) added.grams = quantity.base().low;
    added_.push_back(std::move(added));
}

std::vector<Deed> Deeds::done() const {
    std::vector<Deed> out = done_;
    if (!squeezed_.empty()) out.push_back(poured(squeezed_));
    // A method that never says when it is salted: it may be by then.
    if (!early_.empty() && stage_ == Stage::raw) out.push_back(poured(early_));
    if (!part_.empty())
        out.push_back({"By the method only a part of the salt goes in: " + said(part_) + ".",
                       "Weigh the salt that goes in, and write only that."});
    return out;
}

} // namespace jarful::appraise
