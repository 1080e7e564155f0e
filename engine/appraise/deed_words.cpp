#include "engine/appraise/deed_words.hpp"

#include "engine/appraise/text.hpp"
#include "engine/larder/larder.hpp"

namespace jarful::appraise {

using larder::Role;
using Tokens = std::span<const Token>;

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
    return brine_word(t, i) ||
           any_word(t, i,
                    {"liquid", "liquids", "juice", "juices", "moisture", "flussigkeit", "saft",
                     "safts", "saftes", "sud", "jus", "liquide"});
}

bool water_word(Tokens t, std::size_t i) {
    return any_word(t, i, {"water", "wasser", "leitungswasser", "eau"});
}

bool acid_word(Tokens t, std::size_t i) {
    return any_word(t, i, {"vinegar", "vinaigre"}) || holds(t, i, "essig");
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
                     "couvercle",  "couvercles", "saladier", "cloth",     "bag",      "moat",
                     "outside"});
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
    const larder::Material* const m = named(w, nullptr).material;
    return m != nullptr && m->role == Role::vegetable;
}

bool rinse_word(Tokens t, std::size_t i) {
    return any_word(t, i,
                    {"rinse", "rinses", "rinsed", "rinsing", "desalt", "dessaler", "dessalez",
                     "wassern", "abwaschen", "auswaschen", "abgewaschen", "ausgewaschen",
                     "abbrausen"}) ||
           holds(t, i, "rinc") || holds(t, i, "spul");
}

bool drain_word(Tokens t, std::size_t i) {
    return any_word(t, i, {"drain", "draining", "drained", "strain", "straining", "strained"}) ||
           holds(t, i, "egoutt") || holds(t, i, "abgie") || holds(t, i, "abtropf") ||
           holds(t, i, "abgetropf") || holds(t, i, "abgego") || holds(t, i, "abschutt") ||
           holds(t, i, "abgeschutt") || holds(t, i, "abseih");
}

bool discard_word(Tokens t, std::size_t i) {
    return any_word(t, i,
                    {"discard", "discarding", "discarded", "throw", "thrown", "dump", "dumped",
                     "jeter", "jetez", "jete", "jetee", "vider", "videz"}) ||
           holds(t, i, "wegschutt") || holds(t, i, "weggie") || holds(t, i, "weggeschutt") ||
           holds(t, i, "weggego") || holds(t, i, "wegwerf") || holds(t, i, "weggeworf") ||
           holds(t, i, "wegkipp") || holds(t, i, "weggekipp") || holds(t, i, "abkipp") ||
           holds(t, i, "auskipp") || holds(t, i, "wegleer") || holds(t, i, "ausleer");
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
                      "ne", "pas", "kein", "nie"}))
            return true;
    }
    return any_word(t, i + 1, {"pas", "nicht"}) || any_word(t, i + 2, {"pas", "nicht"});
}

/// "into jars", "fill the jars": where something goes, not what is meant.
bool whither(Tokens t, std::size_t i) {
    for (std::size_t back = 1; back <= 3 && back <= i; ++back) {
        if (any_word(t, i - back,
                     {"into", "in", "to", "onto", "inside", "over", "dans", "fill", "pack", "stuff",
                      "between", "on", "en", "au", "aux", "ins", "auf"}))
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

namespace {

bool pronoun(Tokens t, std::size_t i) {
    return any_word(t, i, {"it", "them"});
}

/// A leaf that only lies on top: "the reserved outer leaf", "a cabbage leaf".
bool covering_leaf(Tokens t, std::size_t i) {
    if (any_word(t, i, {"leaf"})) return true;
    if (!any_word(t, i, {"leaves"})) return false;
    for (std::size_t back = 1; back <= 3 && back <= i; ++back) {
        if (any_word(t, i - back, {"outer", "reserved"})) return true;
    }
    return false;
}

/// What "it" at a place stands for: the nearest thing named before it, which "into the jar" is not.
What meant_by(Tokens t, std::size_t at) {
    for (std::size_t i = at; i-- > 0;) {
        if (pronoun(t, i)) continue;
        if (vegetable_word(t, i)) return What::vegetable;
        if (vessel_word(t, i) && !whither(t, i) && !(i > 0 && any_word(t, i - 1, {"of", "from"})) &&
            !(i > 1 && any_word(t, i - 2, {"of", "from"})))
            return What::vessel;
    }
    return What::vegetable;
}

/// "a jar that has been rinsed", "into a jar, rinsed and dried": of a participle, the nearest noun.
What described(Tokens t, std::size_t verb) {
    // "clean, rinsed and dried jars"
    for (std::size_t i = verb + 1; i < t.size() && i <= verb + 3; ++i) {
        if (vessel_word(t, i)) return What::vessel;
        if (!any_word(t, i, {"and", "clean"}) && !t[i].folded.ends_with("ed")) break;
    }
    bool mark = false;
    bool clause = false;
    What found = What::nothing;
    for (std::size_t i = verb; i-- > 0;) {
        if (t[i].sort == Token::Sort::mark) mark = true;
        clause = clause || any_word(t, i, {"that", "which"});
        if (found == What::nothing && vessel_word(t, i)) {
            found = What::vessel;
            if (!mark && clause) return found;
        } else if (vegetable_word(t, i)) {
            if (!mark && !clause) return What::nothing;
            // "the cabbage into the jar, rinsed": either of them.
            return found == What::vessel && has_word(t, {"beforehand"}) ? found : What::vegetable;
        }
    }
    return mark || clause ? found : What::nothing;
}

/// "wash jars, rinse well and drain": the clause before washes vessels, and names nothing else.
bool goes_on_with_vessels(Tokens t, std::size_t end) {
    for (std::size_t i = end; i-- > 0;) {
        if (vegetable_word(t, i)) return false;
        if (!vessel_word(t, i) || whither(t, i)) continue;
        for (std::size_t back = 1; back <= 3 && back <= i; ++back) {
            if (wash_word(t, i - back) || rinse_word(t, i - back) ||
                any_word(t, i - back,
                         {"sterilise", "sterilize", "scald", "clean", "scrub", "boil"}))
                return true;
        }
        return false;
    }
    return false;
}

} // namespace

What object_of(Tokens t, std::size_t verb) {
    const bool participle = verb < t.size() && t[verb].folded.ends_with("ed");
    if (participle) {
        if (const What what = described(t, verb); what != What::nothing) return what;
    }
    // "dans un bocal rince"
    if (verb > 0 && any_word(t, verb, {"rince", "rinces", "rincee", "rincees"}) &&
        vessel_word(t, verb - 1))
        return What::vessel;
    for (std::size_t i = verb + 1; i < t.size() && i < verb + 14; ++i) {
        if (other_verb(t, i) || any_word(t, i, {"before", "after", "until", "when", "if"})) break;
        if (covering_leaf(t, i) || (vegetable_word(t, i) && covering_leaf(t, i + 1)))
            return What::vessel;
        if (vessel_word(t, i)) {
            if (whither(t, i)) continue;
            return What::vessel;
        }
        if (salt_word(t, i)) return What::salt;
        if (pronoun(t, i)) return meant_by(t, i);
        if (vegetable_word(t, i)) return What::vegetable;
    }
    for (std::size_t i = verb; i-- > 0;) {
        if (t[i].sort == Token::Sort::mark && (t[i].text == "," || t[i].text == ":"))
            return t[i].text == "," && goes_on_with_vessels(t, i) ? What::vessel : What::nothing;
        if (pronoun(t, i)) return meant_by(t, i);
        if (vegetable_word(t, i)) return What::vegetable;
        if (vessel_word(t, i) && !whither(t, i)) return What::vessel;
    }
    return What::nothing;
}

bool at_table(Tokens t, std::size_t verb) {
    // "To use, rinse the lemons."
    if (is_word(t, 0, "to") && is_word(t, 1, "use") && is_mark(t, 2, ",")) return true;
    const auto table = [&](std::size_t i) {
        return any_word(t, i,
                        {"serve", "serving", "eating", "eat", "cook", "cooking", "servieren",
                         "servir", "essen", "manger", "verzehr"});
    };
    const auto led = [&](std::size_t i, std::size_t floor) {
        for (std::size_t back = 1; back <= 2 && back <= i - floor; ++back) {
            if (any_word(t, i - back, {"before", "when", "vor", "avant", "beim", "zum", "prior"}) ||
                (back == 1 && any_word(t, i - back, {"to", "for", "at", "nach", "de", "pour"})))
                return true;
        }
        return false;
    };
    for (std::size_t i = 0; i < verb; ++i) {
        // "until ready to eat" says how long.
        bool until = false;
        for (std::size_t back = 1; back <= 4 && back <= i; ++back)
            until = until || any_word(t, i - back, {"until", "bis", "ready"});
        if (table(i) && !until &&
            (i == 0 || led(i, 0) ||
             any_word(t, i + 1, {"with", "mit", "avec", "alongside", "over", "on", "topped"})))
            return true;
    }
    bool ripe = false;
    for (std::size_t i = 0; i < verb; ++i)
        ripe = ripe ||
               any_word(t, i,
                        {"week", "weeks", "month", "months", "fermented", "wochen", "monate",
                         "semaines", "mois"}) ||
               (i > 0 && is_word(t, i, "ready") && any_word(t, i - 1, {"when", "once"}));
    for (std::size_t i = verb + 1; i < t.size() && i <= verb + 8; ++i) {
        if (t[i].sort == Token::Sort::mark || other_verb(t, i) ||
            any_word(t, i, {"until", "ready", "bis"}))
            break;
        const bool joined = any_word(t, i, {"and", "und", "et"});
        if (joined && !(ripe && table(i + 1))) break;
        if (table(i) && (led(i, verb) || (ripe && any_word(t, i - 1, {"and", "und", "et"}))))
            return true;
    }
    return false;
}

bool conditional(Tokens t) {
    // "Tut er es nicht, …"
    for (std::size_t i = 1; i + 1 < t.size() && i <= 5; ++i) {
        if (t[i].is.any(Concept::negation) && is_mark(t, i + 1, ",") &&
            t[i - 1].is.any(Concept::pronoun))
            return true;
    }
    return has_word(t, {"if", "unless", "wenn", "falls", "si", "needed", "necessary", "should",
                        "can", "may", "could", "optional", "optionally", "variation", "instead"});
}

std::string said(const std::string& sentence) {
    return "\"" + std::string(beginning(sentence, 120)) + "\"";
}

} // namespace jarful::appraise
