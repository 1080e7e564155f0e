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
    const auto says = [&](std::string_view part) { return folded.find(part) != std::string::npos; };
    if (says("equipment") || says("tools") || says("you will need") || says("special supplies")) {
        section = Section::equipment;
    } else if (says("instruction") || says("direction") || says("method") || says("procedure") ||
               says("preparation") || says("zubereitung") || says("how to make") || says("steps") ||
               says("what to do")) {
        section = Section::method;
    } else if (says("note") || says("nutrition") || says("comment") || says("storage") ||
               says("tips")) {
        section = Section::notes;
    } else if (says("serv") || says("garnish") || says("topping")) {
        section = Section::serving;
    } else if (says("top up") || says("topping up") || says("extra brine") || says("if needed") ||
               says("additional brine")) {
        section = Section::top_up;
    } else if (says("soak") || says("salting") || says("initial brine") || says("first brine")) {
        section = Section::soak;
    } else if (says("brine") || says("lake") || says("saumure")) {
        section = Section::brine;
    } else if (says("ingredient") || says("zutaten") || says("for the") || says("fur ") ||
               says("pour ") || says("vegetable") || says("paste") || says("spices") ||
               says("main")) {
        section = Section::main;
    } else {
        return false;
    }
    return true;
}

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
    for (const Token& t : tokens) {
        if (t.sort != Token::Sort::word) continue;
        if (std::find(std::begin(opening), std::end(opening), std::string_view(t.folded)) !=
            std::end(opening))
            return true;
        break;
    }
    return has(tokens,
               {"minutes", "minute",   "mins",     "min",     "hours",     "hour",      "hrs",
                "days",    "weeks",    "stars",    "ratings", "votes",     "reviews",   "comments",
                "kcal",    "servings", "persons",  "people",  "minuten",   "stunden",   "tage",
                "wochen",  "jours",    "semaines", "heures",  "portionen", "personnes", "shares",
                "views",   "http",     "https",    "www"}) &&
           !has(tokens, {"salt", "salz", "sel", "brine"});
}

bool equipment(Tokens tokens) {
    return has(tokens, {"jar",         "jars",   "lid",     "lids",      "crock",    "airlock",
                        "cheesecloth", "bowl",   "knife",   "mandoline", "mandolin", "weights",
                        "plate",       "towel",  "tamper",  "pounder",   "funnel",   "scale",
                        "grater",      "band",   "bands",   "bag",       "cloth",    "thermometer",
                        "gloves",      "bucket", "blender", "glas",      "bocal",    "deckel",
                        "weight",      "stone",  "cutting", "processor"}) &&
           !has(tokens, {"salt", "salz", "sel", "water", "wasser", "eau", "brine"});
}

bool names_dish(std::string_view text, Tokens tokens) {
    return larder::find_kind(text) != nullptr ||
           has(tokens, {"sauerkraut", "kimchi",       "kraut",      "pickles",     "kvass",
                        "slaw",       "recipe",       "salad",      "fermented",   "lacto",
                        "choucroute", "giardiniera",  "relish",     "sours",       "mash",
                        "pickled",    "preserved",    "milchsauer", "fermentiert", "fermentierte",
                        "eingelegt",  "lactofermente"});
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
             (at(i + 1, {"it", "they"}) &&
              at(i + 3, {"needed", "necessary", "required"}))))
            return true;
        if (at(i, {"bei"}) && at(i + 1, {"bedarf"})) return true;
        if (at(i, {"top", "topping"}) && at(i + 1, {"up"})) return true;
        // "top-up brine"
        if (at(i, {"top"}) && i + 2 < tokens.size() && tokens[i + 1].text == "-" &&
            at(i + 2, {"up"}))
            return true;
    }
    return false;
}

std::size_t end_of_amount(Tokens tokens) {
    for (std::size_t i = 1; i + 1 < tokens.size(); ++i) {
        if ((has(tokens.subspan(i, 1), {"plus", "and", "or"}) || tokens[i].text == "+") &&
            has(tokens.subspan(i + 1, 1), {"more", "extra", "additional"}))
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
