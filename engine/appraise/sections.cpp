#include "engine/appraise/sections.hpp"

#include <algorithm>

namespace jarful::appraise {

using Tokens = std::span<const Token>;

bool among(std::string_view word, std::initializer_list<std::string_view> list) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

bool has(Tokens tokens, std::initializer_list<std::string_view> list) {
    return std::any_of(tokens.begin(), tokens.end(), [&](const Token& t) {
        return t.sort == Token::Sort::word && among(t.folded, list);
    });
}

std::size_t count_words(Tokens tokens) {
    return static_cast<std::size_t>(std::count_if(
        tokens.begin(), tokens.end(), [](const Token& t) { return t.sort == Token::Sort::word; }));
}

bool has_number(Tokens tokens) {
    return std::any_of(tokens.begin(), tokens.end(),
                       [](const Token& t) { return t.sort == Token::Sort::number; });
}

bool verb(std::string_view word) {
    return among(
        word, {"add",     "allow",       "arrange",  "bake",     "beat",    "blend",   "boil",
               "bring",   "burp",        "check",    "chill",    "chop",    "clean",   "combine",
               "cook",    "cool",        "core",     "cover",    "cut",     "discard", "dissolve",
               "divide",  "drain",       "ferment",  "fill",     "fold",    "grate",   "heat",
               "keep",    "knead",       "ladle",    "layer",    "leave",   "let",     "lay",
               "make",    "massage",     "measure",  "mix",      "pack",    "peel",    "place",
               "pour",    "preheat",     "prepare",  "press",    "process", "pull",    "put",
               "quarter", "refrigerate", "remove",   "repeat",   "rinse",   "rub",     "salt",
               "seal",    "serve",       "set",      "shred",    "simmer",  "skim",    "slice",
               "soak",    "spread",      "sprinkle", "stand",    "start",   "stir",    "store",
               "strain",  "stuff",       "submerge", "taste",    "tamp",    "tightly", "top",
               "toss",    "transfer",    "trim",     "turn",     "use",     "wait",    "wash",
               "weigh",   "wipe",        "work",     "when",     "after",   "once",    "then",
               "in",      "if",          "using",    "with",     "the",     "at",      "this",
               "these",   "you",         "your",     "it",       "don't",   "do",      "for",
               "den",     "die",         "das",      "alles",    "mit",     "waschen", "schneiden",
               "hobeln",  "laver",       "couper",   "melanger", "emincer", "ajouter", "verser",
               "fermer",  "laisser",     "pour",     "combine"});
}

bool heading_section(const std::string& folded, Section& section) {
    // Whole words: "preserved" is no serving.
    const std::string padded = " " + folded + " ";
    const auto says = [&](std::initializer_list<std::string_view> phrases) {
        return std::any_of(phrases.begin(), phrases.end(), [&](std::string_view phrase) {
            return padded.find(" " + std::string(phrase) + " ") != std::string::npos;
        });
    };
    const auto opens = [&](std::initializer_list<std::string_view> phrases) {
        return std::any_of(phrases.begin(), phrases.end(), [&](std::string_view phrase) {
            return padded.starts_with(" " + std::string(phrase) + " ");
        });
    };
    if (says({"equipment", "tool", "tools", "you will need", "special supplies"})) {
        section = Section::equipment;
    } else if (says({"instruction", "instructions", "direction", "directions", "method", "methods",
                     "procedure", "procedures", "preparation", "preparations", "zubereitung",
                     "how to make", "step", "steps", "what to do"})) {
        section = Section::method;
    } else if (says({"note", "notes", "nutrition", "nutritional", "comment", "comments", "storage",
                     "tip", "tips"})) {
        section = Section::notes;
    } else if (says({"top up", "topping up", "extra brine", "if needed", "if necessary",
                     "additional brine"})) {
        section = Section::top_up;
    } else if (says({"serve", "serving", "servings", "servieren", "servir", "garnish", "garnishes",
                     "garnishing", "topping", "toppings"})) {
        section = Section::serving;
    } else if (says({"soak", "soaking", "soaked", "salting", "initial brine", "first brine"})) {
        section = Section::soak;
    } else if (says({"brine", "brines", "brining", "lake", "salzlake", "saumure"})) {
        section = Section::brine;
    } else if (says({"ingredient", "ingredients", "zutaten", "vegetable", "vegetables", "paste",
                     "spices", "main"}) ||
               opens({"for the", "fur", "pour"})) {
        section = Section::main;
    } else {
        return false;
    }
    return true;
}

namespace {

bool amount(const Quantity& q) {
    return q.is(Measure::Sort::mass) || q.is(Measure::Sort::volume) || q.is(Measure::Sort::loose);
}

bool vessel(Tokens tokens, std::size_t at) {
    return at < tokens.size() &&
           (tokens[at].folded.ends_with("glas") || // "Bügelglas"
            has(tokens.subspan(at, 1),
                {"jar",    "jars",    "crock",     "crocks",     "bowl", "bowls", "bag",
                 "bags",   "bucket",  "buckets",   "pot",        "pots", "jug",   "jugs",
                 "tub",    "tubs",    "container", "containers", "pail", "basin", "vessel",
                 "bottle", "bottles", "glas",      "glaser",     "topf", "bocal", "bocaux",
                 "lid",    "lids",    "airlock",   "airlocks",   "band", "bands", "eimer"}));
}

bool burden(Tokens tokens, std::size_t at) {
    return at < tokens.size() && has(tokens.subspan(at, 1), {"weight", "weights", "stone", "stones",
                                                             "scale", "scales", "gewicht"});
}

/// What vessels and weights are said to be.
bool of_equipment(Tokens tokens, std::size_t at) {
    return at < tokens.size() &&
           has(tokens.subspan(at, 1),
               {"glass",      "clean",     "large",      "small",      "medium",   "big",
                "wide",       "mouth",     "mason",      "canning",    "screw",    "swing",
                "clip",       "top",       "fermenting", "ferment",    "heavy",    "fermentation",
                "preserving", "pickling",  "sterilized", "sterilised", "sterile",  "ceramic",
                "stoneware",  "plastic",   "zip",        "zipper",     "lock",     "freezer",
                "food",       "grade",     "lidded",     "sealable",   "metal",    "resealable",
                "wooden",     "stainless", "steel",      "non",        "reactive", "nonreactive",
                "mixing",     "kitchen",   "digital",    "accurate",   "capacity", "size",
                "sized",      "half",      "each",       "a",          "an",       "and",
                "or",         "the",       "one",        "similar",    "washed",   "empty",
                "sauber",     "saubere",   "sauberes",   "grosse",     "grosses",  "grosser",
                "propre",     "grand",     "verre"});
}

/// Where what the equipment is for begins.
bool purpose(Tokens tokens, std::size_t at) {
    return at < tokens.size() &&
           has(tokens.subspan(at, 1), {"for", "with", "to", "in", "on", "that", "which", "as",
                                       "fur", "mit", "zum", "pour", "avec", "enough", "per"});
}

/// A mass, a volume or a handful; the size of a jar only if it is asked for.
bool amounts(Tokens tokens, bool sizes = false) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (i > 0 && tokens[i].sort != Token::Sort::number) continue;
        const auto q = quantity_at(tokens, i, {}, i == 0);
        if (!q || !amount(q->quantity)) continue;
        if (sizes) return true;
        std::size_t next = i + q->tokens;
        while (next < tokens.size() && (of_equipment(tokens, next) || tokens[next].text == "-"))
            ++next;
        if (!(q->quantity.is(Measure::Sort::volume) ? vessel(tokens, next) : burden(tokens, next)))
            return true;
        i = next;
    }
    return false;
}

/// "1 L jar", "2 (1-quart) jars with lids", "a 2 kg weight": each word before its purpose is known.
/// A mass is that of a weight, a volume that of a vessel: "a 500 g bag" is one of food.
bool plain_equipment(Tokens tokens) {
    bool noun = false;
    bool holds = false;
    bool weighs = false;
    bool mass = false;
    bool volume = false;
    std::size_t i = 0;
    while (i < tokens.size()) {
        if (const auto q = tokens[i].sort == Token::Sort::number || i == 0
                               ? quantity_at(tokens, i, {}, i == 0)
                               : std::nullopt) {
            mass = mass || q->quantity.weighed();
            volume = volume || q->quantity.is(Measure::Sort::volume);
            if (q->quantity.is(Measure::Sort::loose) || q->quantity.is(Measure::Sort::percent))
                return false;
            if (q->quantity.is(Measure::Sort::package)) {
                noun = true;
                holds = true;
            }
            i += std::max<std::size_t>(1, q->tokens);
            continue;
        }
        if (vessel(tokens, i) || burden(tokens, i)) {
            holds = holds || vessel(tokens, i);
            weighs = weighs || burden(tokens, i);
            noun = true;
        } else if (noun && has(tokens.subspan(i, 1), {"of", "about", "de", "von"}) &&
                   (amounts(tokens.subspan(i + 1, std::min<std::size_t>(3, tokens.size() - i - 1)),
                            true))) {
            // "a jar of about 1.5 litres"
        } else if (purpose(tokens, i)) {
            if (!noun || amounts(tokens.subspan(i))) return false;
            break;
        } else if (tokens[i].sort == Token::Sort::word && !of_equipment(tokens, i)) {
            return false;
        }
        ++i;
    }
    return noun && (!mass || weighs) && (!volume || holds);
}

/// A word for jars, bowls and tools, anywhere.
bool equipment_word(Tokens tokens) {
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (vessel(tokens, i)) return true;
    }
    return has(tokens, {"jar",         "jars",   "lid",     "lids",      "crock",    "airlock",
                        "cheesecloth", "bowl",   "knife",   "mandoline", "mandolin", "weights",
                        "plate",       "towel",  "tamper",  "pounder",   "funnel",   "scale",
                        "grater",      "band",   "bands",   "bag",       "cloth",    "thermometer",
                        "gloves",      "bucket", "blender", "glas",      "bocal",    "deckel",
                        "weight",      "stone",  "cutting", "processor"});
}

/// Of a line that opens with a count, the thing: "1 cabbage knife"; not "3 roots to fill the jar".
bool counts_equipment(Tokens tokens, std::size_t first) {
    std::size_t end = first;
    while (
        end < tokens.size() &&
        (tokens[end].sort == Token::Sort::word || (tokens[end].text == "-" && tokens[end].glued)) &&
        !purpose(tokens, end) && !has(tokens.subspan(end, 1), {"of", "from"}))
        ++end;
    return end > first && end <= first + 6 && equipment_word(tokens.subspan(end - 1, 1));
}

} // namespace

bool remark(Tokens tokens) {
    if (tokens.empty()) return true;
    static constexpr std::string_view opening[] = {
        "yield",    "yields",       "makes",         "serves",      "serving",    "servings",
        "prep",     "total",        "cook",          "time",        "active",     "posted",
        "updated",  "published",    "author",        "by",          "course",     "cuisine",
        "calories", "rating",       "print",         "jump",        "difficulty", "keyword",
        "ergibt",   "portionen",    "personnes",     "temps",       "nutrition",  "fat",
        "protein",  "sodium",       "carbohydrates", "source",      "copyright",  "page",
        "ready",    "hands",        "share",         "pin",         "save",       "scale",
        "storage",  "keeps",        "level",         "category",    "recipe",     "duration",
        "ferment",  "fermentation", "fermenting",    "temperature", "headspace"};
    // What stands on labels and below titles, with amounts that are no ingredients.
    static constexpr std::string_view with_amount[] = {
        "yield",   "yields", "makes",         "serves",    "serving",   "servings",
        "ergibt",  "fat",    "carbohydrates", "nutrition", "portionen", "calories",
        "protein", "sodium", "headspace",     "personnes", "prep",      "time"};
    const bool weighed = amounts(tokens);
    const auto among_these = [](const auto& list, const Token& t) {
        return std::find(std::begin(list), std::end(list), std::string_view(t.folded)) !=
               std::end(list);
    };
    for (const Token& t : tokens) {
        if (t.sort != Token::Sort::word) continue;
        if (weighed ? among_these(with_amount, t) : among_these(opening, t)) return true;
        break;
    }
    if (weighed || has(tokens, {"salt", "salz", "sel", "brine"})) return false;
    const auto counted = [&](std::size_t i) {
        return has(tokens.subspan(i, 1),
                   {"minutes", "minute",    "mins",      "min",      "hours",   "hour",
                    "hrs",     "days",      "weeks",     "stars",    "ratings", "votes",
                    "reviews", "comments",  "kcal",      "servings", "persons", "people",
                    "minuten", "stunden",   "tage",      "wochen",   "jours",   "semaines",
                    "heures",  "portionen", "personnes", "shares",   "views",   "http",
                    "https",   "www"});
    };
    // "3 to 4 weeks", "4.8 from 30 votes"; not "3 roots, 3 days old".
    const auto q = quantity_at(tokens, 0, {});
    for (std::size_t i = q ? q->tokens : 0; i < tokens.size(); ++i) {
        if (counted(i)) return true;
        if (q && tokens[i].sort == Token::Sort::word &&
            !has(tokens.subspan(i, 1), {"to", "or", "and", "from", "of", "out", "based", "on",
                                        "about", "bis", "a", "g", "x"}))
            return false;
    }
    return false;
}

bool equipment(Tokens tokens) {
    if (!equipment_word(tokens) ||
        has(tokens, {"salt", "salz", "sel", "water", "wasser", "eau", "brine"}))
        return false;
    // "Something to weigh it down, a stone for one", "Ingredients for a 1 L jar:"
    if (has(tokens.first(1), {"something", "anything", "zutaten", "ingredients"}))
        return !amounts(tokens);
    const auto q = quantity_at(tokens, 0, {});
    if ((q && q->quantity.is(Measure::Sort::package)) || amounts(tokens, true))
        return plain_equipment(tokens);
    if (q) return counts_equipment(tokens, q->tokens);
    // "Cheesecloth and a jar"; not "roots for the jar".
    std::size_t end = 0;
    while (end < tokens.size() && !purpose(tokens, end))
        ++end;
    return equipment_word(tokens.first(end));
}

bool names_dish(std::string_view text, Tokens tokens) {
    return larder::find_kind(text) != nullptr ||
           has(tokens, {"sauerkraut", "kimchi",       "kraut",      "pickles",     "kvass",
                        "slaw",       "recipe",       "salad",      "fermented",   "lacto",
                        "choucroute", "giardiniera",  "relish",     "sours",       "mash",
                        "pickled",    "preserved",    "milchsauer", "fermentiert", "fermentierte",
                        "eingelegt",  "lactofermente"});
}

bool shares_use(Tokens tokens) {
    const auto leaves = [](Tokens some) {
        return has(some, {"serving", "garnish", "serve", "garnishing", "soaking", "rinsing",
                          "blanching", "washing", "soak", "sterilizing"});
    };
    const auto find = [&](std::size_t from, std::string_view word) {
        while (from < tokens.size() && tokens[from].folded != word)
            ++from;
        return from;
    };
    const std::size_t first = find(0, "for");
    const std::size_t second = find(first, "and");
    return second < tokens.size() && !leaves(tokens.subspan(first, second - first)) &&
           leaves(tokens.subspan(second));
}

bool only_if_needed(Tokens tokens) {
    const auto at = [&](std::size_t i, std::initializer_list<std::string_view> list) {
        return i < tokens.size() && has(tokens.subspan(i, 1), list);
    };
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        // "peeled if needed" speaks of the peeling.
        const bool of_a_deed = i > 0 && !at(i - 1, {"added", "used"}) &&
                               (tokens[i - 1].folded.ends_with("ed") || at(i - 1, {"cut"}));
        if (!of_a_deed && at(i, {"if", "wenn", "falls", "si"}) &&
            (at(i + 1, {"needed", "necessary", "required", "notig", "besoin", "necessaire"}) ||
             (at(i + 1, {"it", "they"}) && at(i + 3, {"needed", "necessary", "required"}))))
            return true;
        if (at(i, {"bei"}) && at(i + 1, {"bedarf"})) return true;
        if (at(i, {"topping"}) || (at(i, {"top"}) && at(i + 1, {"up"}))) return true;
        // "top-up brine"
        if (at(i, {"top"}) && i + 2 < tokens.size() && tokens[i + 1].text == "-" &&
            at(i + 2, {"up"}))
            return true;
    }
    return false;
}

std::size_t end_of_amount(Tokens tokens) {
    for (std::size_t i = 1; i < tokens.size(); ++i) {
        if (has(tokens.subspan(i, 1), {"more", "mehr"})) return i;
        if ((has(tokens.subspan(i, 1), {"plus", "and", "or"}) || tokens[i].text == "+") &&
            i + 1 < tokens.size() &&
            has(tokens.subspan(i + 1, 1), {"extra", "additional", "another", "some"}))
            return i;
    }
    return tokens.size();
}

bool denies_bath(Tokens tokens) {
    for (std::size_t i = 1; i < tokens.size(); ++i) {
        if (!has(tokens.subspan(i, 1), {"soak", "soaking", "soaked", "rinse", "rinsing", "rinsed",
                                        "einweichen", "abspulen", "trempage", "rincage"}))
            continue;
        const std::size_t first = i >= 2 ? i - 2 : 0;
        if (has(tokens.subspan(first, i - first),
                {"no", "not", "without", "never", "don't", "dont", "ohne", "sans"}))
            return true;
    }
    return false;
}

} // namespace jarful::appraise
