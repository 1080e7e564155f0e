#include "engine/appraise/deeds.hpp"

#include "engine/appraise/item.hpp"
#include "engine/appraise/quantity.hpp"
#include "engine/appraise/text.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

bool holds(Tokens tokens, std::size_t at, std::string_view part) {
    return at < tokens.size() && tokens[at].sort == Token::Sort::word &&
           tokens[at].folded.find(part) != std::string::npos;
}

bool salt_word(Tokens t, std::size_t i) {
    return (holds(t, i, "salt") && !holds(t, i, "unsalt")) || holds(t, i, "salz") ||
           any_word(t, i, {"sel", "saler", "salez", "salant"});
}

bool brine_word(Tokens t, std::size_t i) {
    return holds(t, i, "brine") || any_word(t, i, {"lake", "salzlake", "saumure"});
}

/// The water of a brine or of the vegetables themselves.
bool liquid_word(Tokens t, std::size_t i) {
    return brine_word(t, i) || any_word(t, i,
                                        {"liquid", "liquids", "juice", "juices", "moisture",
                                         "flussigkeit", "saft", "jus", "liquide"});
}

bool water_word(Tokens t, std::size_t i) {
    return any_word(t, i, {"water", "wasser", "leitungswasser", "eau"});
}

bool vessel_word(Tokens t, std::size_t i) {
    if (i >= t.size() || t[i].sort != Token::Sort::word) return false;
    const std::string& w = t[i].folded;
    return w.ends_with("glas") || w.ends_with("glaser") || w.ends_with("glasern") ||
           any_word(t, i,
                    {"jar",        "jars",       "lid",      "lids",      "crock",    "crocks",
                     "bottle",     "bottles",    "weight",   "weights",   "hands",    "hand",
                     "bowl",       "bowls",      "colander", "equipment", "utensils", "container",
                     "containers", "plate",      "plates",   "stone",     "stones",   "airlock",
                     "rim",        "rims",       "ring",     "rings",     "band",     "bands",
                     "knife",      "board",      "bucket",   "tub",       "tools",    "deckel",
                     "topf",       "schussel",   "hande",    "sieb",      "bocal",    "bocaux",
                     "couvercle",  "couvercles", "saladier", "cloth",     "bag",      "moat"});
}

bool vegetable_word(Tokens t, std::size_t i) {
    if (i >= t.size() || t[i].sort != Token::Sort::word) return false;
    if (any_word(t, i,
                 {"it",     "them",     "everything", "vegetables", "veg",     "veggies", "leaves",
                  "heads",  "quarters", "wedges",     "shreds",     "slices",  "kraut",   "pieces",
                  "strips", "mixture",  "gemuse",     "blatter",    "legumes", "feuilles"}))
        return true;
    const std::string& w = t[i].folded;
    if (w.size() < 3) return false;
    const larder::Material* m = larder::find_exact(w);
    if (m == nullptr) m = larder::find_foreign(w, Tongue::german);
    if (m == nullptr) m = larder::find_foreign(w, Tongue::french);
    return m != nullptr && m->role == Role::vegetable;
}

bool rinse_word(Tokens t, std::size_t i) {
    return any_word(t, i,
                    {"rinse", "rinses", "rinsed", "rinsing", "desalt", "dessaler", "dessalez",
                     "wassern", "abwaschen", "auswaschen", "abgewaschen", "ausgewaschen",
                     "abbrausen"}) ||
           holds(t, i, "rinc") || holds(t, i, "spul");
}

bool wash_word(Tokens t, std::size_t i) {
    return any_word(
        t, i,
        {"wash", "washes", "washed", "washing", "waschen", "gewaschen", "laver", "lavez", "lave"});
}

bool denied(Tokens t, std::size_t i) {
    for (std::size_t back = 1; back <= 4 && back <= i; ++back) {
        if (t[i - back].sort == Token::Sort::mark && t[i - back].text != "'") break;
        if (any_word(t, i - back,
                     {"not", "don't", "dont", "never", "without", "no", "nicht", "ohne", "sans",
                      "ne", "kein", "nie"}))
            return true;
    }
    return any_word(t, i + 1, {"pas", "nicht"}) || any_word(t, i + 2, {"pas", "nicht"});
}

/// "into jars", "fill the jars": where something goes, not what is meant.
bool whither(Tokens t, std::size_t i) {
    for (std::size_t back = 1; back <= 3 && back <= i; ++back) {
        if (any_word(t, i - back,
                     {"into", "in", "to", "onto", "inside", "over", "dans", "fill", "pack", "stuff",
                      "between", "on"}))
            return true;
    }
    return false;
}

bool other_verb(Tokens t, std::size_t i) {
    return any_word(t, i,
                    {"drain", "fill", "pack", "put", "place", "press", "squeeze", "add", "mix",
                     "return", "leave", "let", "taste", "stuff", "transfer", "toss", "combine",
                     "then"});
}

enum class What : std::uint8_t { nothing, vessel, vegetable, salt };

/// What the verb at a place is about: ahead of it, or before it.
What object_of(Tokens t, std::size_t verb) {
    for (std::size_t i = verb + 1; i < t.size() && i < verb + 14; ++i) {
        if (other_verb(t, i) || any_word(t, i, {"before", "after", "until", "when", "if"})) break;
        if (vessel_word(t, i)) {
            if (whither(t, i)) continue;
            return What::vessel;
        }
        if (salt_word(t, i)) return What::salt;
        if (vegetable_word(t, i)) return What::vegetable;
    }
    for (std::size_t i = verb; i-- > 0;) {
        if (t[i].sort == Token::Sort::mark && (t[i].text == "," || t[i].text == ":")) break;
        if (vegetable_word(t, i)) return What::vegetable;
        if (vessel_word(t, i) && !whither(t, i)) return What::vessel;
    }
    return What::nothing;
}

/// Words that leave it open whether it is done at all, or say that it is done at table.
bool at_table(Tokens t) {
    return has_word(t, {"serve", "serving", "eating", "eat", "cook", "cooking", "servieren",
                        "servir", "essen", "manger"});
}

bool conditional(Tokens t) {
    return has_word(t, {"if", "unless", "wenn", "falls", "si", "needed", "necessary", "should",
                        "can", "may", "could", "optional", "optionally", "variation", "instead"});
}

std::string text_of(Tokens tokens) {
    if (tokens.empty()) return {};
    const char* begin = tokens.front().text.data();
    const char* end = tokens.back().text.data() + tokens.back().text.size();
    return {begin, static_cast<std::size_t>(end - begin)};
}

std::string said(const std::string& sentence) {
    return "\"" + std::string(beginning(sentence, 120)) + "\"";
}

} // namespace

struct Deeds::Sentence {
    Tokens t;
    Tongue tongue = Tongue::unknown;
    bool salt = false, brine = false, water = false;
    bool makes_brine = false; ///< salt goes into water here, and not yet to the vegetables
    bool only_measures = false;
    bool before_salting = false; ///< "before salting"
    bool after_salting = false;
    std::size_t salt_at = 0;
};

void Deeds::read(Tokens t, Tongue tongue) {
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
    bool thing = false;
    for (std::size_t i = 0; i < t.size(); ++i)
        thing = thing || (vegetable_word(t, i) && !(heated && is_word(t, i, "it")));
    s.makes_brine = (s.salt || s.brine) && !put_on && !thing &&
                    (s.water || has_word(t, {"dissolve", "dissolved", "dissolves", "auflosen",
                                             "losen", "dissoudre"}));
    s.only_measures =
        has_word(t, {"measure", "weigh", "calculate", "buy", "choose", "gather"}) && !put_on &&
        !has_word(t, {"mix", "add", "knead", "work", "pound", "coat", "combine", "stir", "leave"});
    rinses(s);
    takes_salt_off(s);
    pours_off(s);
    uses_part(s);
    leaves_over(s);
    adds_water(s);
    adds_things(s);
    follow(s);
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
    if (rinsed_ || at_table(t) || s.before_salting) return;
    for (std::size_t i = 0; i < t.size(); ++i) {
        const bool wash = wash_word(t, i);
        if ((!wash && !rinse_word(t, i)) || denied(t, i)) continue;
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
        if (stage_ == Stage::salted || of_salt || s.after_salting || behind) rinsed_ = true;
    }
}

/// "Run under cold water", "soak in fresh water", "shake off the excess salt": rinsed by other
/// words.
void Deeds::takes_salt_off(const Sentence& s) {
    const Tokens t = s.t;
    if (rinsed_ || at_table(t) || s.before_salting) return;
    const bool salted = stage_ == Stage::salted;
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
                            !(s.salt && !has_word(t, {"remove", "out"}));
        const bool taken =
            any_word(t, i, {"remove", "shake", "brush", "scrape", "knock", "wipe"}) &&
            near(5, salt_word);
        if ((taken || (salted && (under || soaked))) && !denied(t, i) &&
            object_of(t, i) != What::vessel)
            rinsed_ = true;
    }
}

void Deeds::pours_off(const Sentence& s) {
    const Tokens t = s.t;
    if (at_table(t) || has_word(t, {"reserve", "reserving", "reserved", "save", "saving", "keep",
                                    "keeping", "catch", "mold", "mould", "scum", "slimy"}))
        return;
    const bool salted = stage_ == Stage::salted || s.after_salting;
    bool found = false;
    for (std::size_t i = 0; i < t.size() && !found; ++i) {
        if (denied(t, i)) continue;
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
        if (any_word(t, i,
                     {"drain", "draining", "strain", "straining", "egoutter", "egouttez",
                      "colander", "sieve", "strainer", "sieb", "passoire"}) ||
            holds(t, i, "abgie") || holds(t, i, "abtropf") || holds(t, i, "abgego"))
            found = now && !s.before_salting && (liquid || object_of(t, i) != What::vessel);
        else if (any_word(t, i, {"lift", "remove", "take", "scoop"}))
            found = now && liquid && near(6, {"out", "from"});
        else if (any_word(t, i, {"leave", "leaving"}))
            found = now && liquid && near(7, {"behind"});
        else if (any_word(t, i, {"pour", "tip", "ladle", "siphon"}))
            found = now && near(3, {"off", "away", "out"});
        else if (any_word(t, i, {"squeeze", "wring", "press", "squeezing", "pressing"}))
            found = now && (near(2, {"out"}) || near(4, {"dry"})) && !has_word(t, {"air"});
        else if (holds(t, i, "ausdruck") || any_word(t, i, {"essorer", "essorez"}))
            found = now;
        else if (any_word(t, i, {"discard", "discarding", "throw", "dump", "jeter", "jetez"}) ||
                 holds(t, i, "wegschutt") || holds(t, i, "weggie"))
            found = (now || stage_ == Stage::brine || s.brine) && liquid && !has_word(t, {"if"});
    }
    if (found)
        done_.push_back({"By the method brine is poured off, or may be, and salt with it: " +
                             said(text_of(t)) + ".",
                         "Salt by weight and keep all the brine that comes of it; or weigh what is "
                         "added after it is poured off."});
}

void Deeds::uses_part(const Sentence& s) {
    const Tokens t = s.t;
    if (s.salt && has_word(t, {"all", "alles", "tout"}) &&
        has_word(t, {"need", "use", "brauchen", "utiliser"}) &&
        has_word(t, {"not", "won't", "don't", "wont", "nicht", "pas"}))
        part_ = text_of(t);
    // The rest of it follows, or it is strewn in layers.
    if (has_word(t, {"repeat", "again", "remaining", "rest", "other", "restliche", "restlichen",
                     "restliches", "reste", "layer", "layers", "layering", "each"})) {
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
        if (j > i + 1 && (salt_word(t, j) || brine_word(t, j))) part_ = text_of(t);
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
        over = over || (is_word(t, i, "much") && i > 0 && is_word(t, i - 1, "as"));
        if (any_word(t, i, {"enough", "genug", "assez"})) {
            for (std::size_t j = i + 1; j <= i + 4; ++j)
                over = over || brine_word(t, j) || any_word(t, j, {"liquid"});
        }
    }
    if (!over) return;
    done_.push_back({"By the method not all of the brine goes in: " + said(text_of(t)) + ".",
                     "Weigh the water and the salt of the brine that you pour in.", true});
}

void Deeds::adds_water(const Sentence& s) {
    const Tokens t = s.t;
    // A bag, an airlock, the rim of a crock that is filled with water.
    if (!s.water || conditional(t) || at_table(t) ||
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
        if (!water_word(t, i) || salt_word(t, i - 1) || brine_word(t, i - 1)) continue;
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
                   (stage_ != Stage::raw &&
                    any_word(t, j, {"fresh", "plain", "frisches", "frischem"}));
            poured = poured || any_word(t, j,
                                        {"add", "cover", "top", "fill", "pour", "ajouter",
                                         "couvrir", "ajoutez"});
            if (t[j].sort == Token::Sort::number) {
                const auto q = quantity_at(t, j, {}, false);
                amount = amount || (q && j + q->tokens <= i &&
                                    (q->quantity.is(Sort::volume) || q->quantity.weighed()) &&
                                    q->quantity.base().high >= 20);
                if (amount) grams = q->quantity.base().low;
            }
        }
        // "mit Wasser auffüllen": the verb stands behind.
        for (std::size_t j = i + 1; j < t.size() && j <= i + 4; ++j)
            poured = poured || holds(t, j, "auffull") || holds(t, j, "aufgie") ||
                     holds(t, j, "bedeck") || holds(t, j, "zugeb") || holds(t, j, "hinzu");
        if (!amount && !poured) continue;
        Added added;
        added.sentence = text_of(t);
        added.material = larder::find_exact("water");
        added.more = more && poured;
        added.grams = grams;
        added_.push_back(std::move(added));
        return;
    }
}

void Deeds::adds_things(const Sentence& s) {
    const Tokens t = s.t;
    if (conditional(t) || at_table(t) || added_.size() > 50) return;
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
        if (!q || (!number && !q->quantity.weighed() && !q->quantity.is(Sort::volume))) continue;
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
    if (has_word(words, {"leaf", "leaves", "core", "stem", "head", "days", "hours", "weeks",
                         "times", "minutes"}))
        return;
    const Item item = item_of(words, s.tongue);
    if (item.material == nullptr) return;
    const Role role = item.material->role;
    if (role != Role::vegetable && role != Role::seasoning) return;
    Added added;
    added.sentence = text_of(t);
    added.material = item.material;
    added.words = item.words;
    if (quantity.weighed()) added.grams = quantity.base().low;
    added_.push_back(std::move(added));
}

std::vector<Deed> Deeds::done() const {
    std::vector<Deed> out = done_;
    if (!part_.empty())
        out.push_back({"By the method only a part of the salt goes in: " + said(part_) + ".",
                       "Weigh the salt that goes in, and write only that."});
    return out;
}

} // namespace jarful::appraise
