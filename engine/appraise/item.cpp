#include "engine/appraise/item.hpp"

#include "engine/larder/fold.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace jarful::appraise {

using larder::Material;
using larder::Role;
using Words = std::vector<std::string>;

namespace {

constexpr std::string_view preparations =
    "fresh freshly organic vegan vegetarian large medium small big whole raw ripe firm crisp young "
    "tender clean "
    "washed "
    "rinsed peeled trimmed cored quartered halved sliced shredded chopped diced minced grated "
    "julienned julienne cut thinly finely fine coarsely roughly coarse lengthwise lengthways "
    "crosswise into piece pieces chunk chunks round rounds stick sticks spear spears strip strips "
    "matchstick matchsticks coin coins ribbon ribbons cube cubes cubed wedge wedges inch inches cm "
    "mm "
    "thick thin smashed crushed bruised cracked toasted drained deseeded seeded stemmed pitted "
    "scrubbed unpeeled skin on skinned your favorite favourite good quality best local homegrown "
    "homemade garden heirloom packed loosely tightly lightly firmly optional divided about "
    "approximately extra more few several some any other each removed reserved outer leaves leaf "
    "ends end tips separated broken torn bite sized size half halves shredding slicing unwaxed "
    "thawed patted dry dried-off preferably high mixed assorted plain pure natural unrefined "
    "additional very well and the of a an or if needed desired like you until as with without "
    "blossom stem stems tops tough core cores seeds-removed shaved spiralized mandolined bulk "
    "untrimmed prepared weighed weight firm-headed solid heavy unblemished blemish sound mature "
    "dissolved stirred mixed chlorinated unchlorinated dechlorinated filtered boiled cooled warm "
    "cold hot "
    "lukewarm tepid non untreated freshly-dug long tender-crisp split slit pricked topped tailed "
    "thumb sprigs sprig "
    "fronds frond stalks stalk store bought such cleaned total adjust taste "
    "frisch frische frischer frisches frischen frischem fein feine feiner feines feingehackt grob "
    "gehobelt gehobelter geschnitten geschnittener gerieben geriebene geraspelt geraspelte "
    "geschalt "
    "geschalte gewurfelt gehackt gehackte gehackter ganze ganzer ganzes bio klein kleine kleiner "
    "kleines kleinen gross grosse grosser grosses grossen in streifen scheiben wurfel stucke stuck "
    "stifte geputzt gewaschen zerdruckt nach belieben und der die das vom von oder etwas halbiert "
    "geviertelt optional gemahlen getrocknet frischgemahlen festkochend fester feste festen "
    "mittelgrosse "
    "mittelgrosser mittelgrosses pro gestr gehauft "
    "frais fraiche fraiches rape rapee rapees rapes emince emincee emincees eminces finement hache "
    "hachee hachees haches coupe coupee coupees coupes en rondelles rondelle lamelles batonnets "
    "pele pelee pelees epluche epluchee epluchees entier entiere entiers entieres petit petite "
    "petits petites gros grosse grosses moyen moyenne moyennes moyens de d du des la le les l et "
    "ou facultatif lave lavee lavees ecrase ecrasee ecrasees tres bien biologique non traite moulu";

const std::set<std::string_view>& preparation_words() {
    static const std::set<std::string_view> all = [] {
        std::set<std::string_view> set;
        for (const std::string_view word : larder::words_of(preparations))
            set.insert(word);
        return set;
    }();
    return all;
}

bool among(std::string_view word, std::initializer_list<std::string_view> list) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

/// Where the thing itself ends and a remark about it begins.
bool remark_word(const std::string& word) {
    return among(word, {"for",  "to",         "from", "with", "without",   "until",  "if",
                        "such", "preferably", "per",  "at",   "that",      "which",  "when",
                        "as",   "plus",       "in",   "into", "depending", "enough", "by",
                        "zum",  "fur",        "mit",  "ohne", "nach",      "pour",   "avec",
                        "sans", "selon",      "cut",  "beim", "ideally"});
}

std::string joined(const Words& words, std::size_t first, std::size_t count) {
    std::string out;
    for (std::size_t i = first; i < first + count; ++i) {
        if (!out.empty()) out += ' ';
        out += words[i];
    }
    return out;
}

const larder::Larder& pantry() {
    static const larder::Larder larder;
    return larder;
}

/// Words that make another food of a known one wherever they stand.
bool makes_another(std::string_view word) {
    return among(word, {"salt",       "juice",    "cream",     "creamed", "soup",      "stock",
                        "broth",      "beef",     "pork",      "chicken", "ham",       "bacon",
                        "cod",        "fish",     "cheese",    "butter",  "buttered",  "salad",
                        "chips",      "chip",     "crackers",  "pie",     "bread",     "cake",
                        "candy",      "candied",  "jam",       "relish",  "stuffed",   "free",
                        "substitute", "flavored", "flavoured", "powder",  "oil",       "sauce",
                        "paste",      "kraut",    "pickled",   "canned",  "tinned",    "cooked",
                        "fried",      "roasted",  "smoked",    "salted",  "preserved", "fermented",
                        "brine",      "saft",     "ol",        "pulver",  "jus",       "huile",
                        "poudre",     "confit",   "sel",       "salz",    "dried",     "dehydrated",
                        "frozen",     "noodles",  "rolls",     "mix",     "seasoning", "blend"});
}

bool grain_word(std::string_view word) {
    return among(word, {"coarse", "flake", "flakes", "flaked", "flaky", "crystals", "crystal",
                        "large", "rock", "chunky", "grob", "grobe", "grobes", "gros"});
}

/// The thing that a run of words without commas stands for.
Named resolve(const Words& all, Tongue tongue, Words& rest_before, Words& rest_after) {
    Words words = all;
    if (words.empty() || words.size() > 12) return {};
    if (const Named k = named(joined(words, 0, words.size()), tongue); k.material) return k;
    // The longest known run, the last of equals, whose neighbours do no harm.
    for (std::size_t count = words.size() - 1; count > 0; --count) {
        for (std::size_t first = words.size() - count + 1; first-- > 0;) {
            const std::string name = joined(words, first, count);
            if (count == 1 && is_preparation(name)) continue;
            if (count == 1 &&
                among(name, {"bean", "beans", "squash", "culture", "cure", "tea", "leaf", "mash",
                             "pickle", "greens"}) &&
                (first > 0 && !is_preparation(words[first - 1]))) {
                continue;
            }
            const Named known = named(name, tongue);
            if (!known.material) continue;
            const Role role = known.material->role;
            const bool soft =
                role == Role::vegetable || role == Role::aromatic || role == Role::other;
            bool fits = true;
            std::size_t strangers = 0;
            for (std::size_t i = 0; i < words.size() && fits; ++i) {
                if (i >= first && i < first + count) continue;
                const bool before = i < first;
                if (makes_another(words[i])) fits = false;
                // "cabbage carrots" are two things run together.
                if (const Named other = named(words[i], tongue);
                    other.material && other.material != known.material &&
                    (other.material->role == Role::vegetable ||
                     other.material->role == Role::salt || other.material->role == Role::water))
                    fits = false;
                if (role == Role::salt && grain_word(words[i])) continue;
                if (is_preparation(words[i])) continue;
                ++strangers;
                if (!soft) fits = false;
                if (!before && !(known.tongue && known.tongue->adjectives_behind)) fits = false;
            }
            if (strangers > 2 || !fits) continue;
            if (known.tongue == base_tongue()) {
                // The larder's own care about what parts of names stand for.
                const auto match = pantry().find(joined(words, 0, words.size()));
                if (role == Role::salt || role == Role::seasoning) {
                    if (!match) return {};
                    if (match->material != known.material) {
                        if (match->material->warning == larder::SaltWarning::curing ||
                            match->material->warning == larder::SaltWarning::reduced_sodium) {
                            return {match->material, base_tongue()};
                        }
                        continue;
                    }
                } else if (!match) {
                    continue;
                }
            }
            rest_before.assign(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(first));
            rest_after.assign(words.begin() + static_cast<std::ptrdiff_t>(first + count),
                              words.end());
            return known;
        }
    }
    return {};
}

bool joins(std::string_view word) {
    return among(word, {"and", "und", "et", "plus", "with", "mit", "avec", "sowie"});
}

bool trimming(std::string_view word) {
    return among(word, {"shredded",    "cored",    "trimmed",   "peeled",    "sliced", "grated",
                        "chopped",     "prepared", "diced",     "julienned", "cubed",  "gehobelt",
                        "geschnitten", "geschalt", "geraspelt", "emince",    "rape",   "rapees",
                        "epluche",     "cleaned",  "quartered", "minced"});
}

void take_choice(Item& item, const Material* material) {
    if (material == nullptr) return;
    if (item.material == nullptr) item.material = material;
    if (std::find(item.choices.begin(), item.choices.end(), material) == item.choices.end()) {
        item.choices.push_back(material);
    }
}

/// A head phrase with its alternatives: "kosher or sea salt", "caraway or dill seeds".
void read_phrase(Item& item, const Words& words, Tongue tongue) {
    Words before, after;
    if (const Named k = resolve(words, tongue, before, after); k.material) {
        const auto middle = std::find_if(words.begin(), words.end(), [](const std::string& w) {
            return w == "or" || w == "and" || w == "oder" || w == "und" || w == "ou" || w == "et";
        });
        const bool whole = before.empty() && after.empty();
        if (whole || middle == words.end()) {
            take_choice(item, k.material);
            item.tongue = k.tongue;
            if (k.material->role == Role::salt) {
                const bool grainy =
                    std::any_of(before.begin(), before.end(),
                                [](const std::string& w) { return grain_word(w); }) ||
                    std::any_of(after.begin(), after.end(),
                                [](const std::string& w) { return grain_word(w); });
                if (grainy) take_choice(item, pantry().find("coarse salt")->material);
            }
            return;
        }
    }
    // Apart at "or" and "and"; a part that is short of its noun borrows the last word.
    std::vector<Words> parts(1);
    bool choice = false;
    bool sum = false;
    for (const std::string& word : words) {
        if (word == "or" || word == "oder" || word == "ou" || word == "and" || word == "und" ||
            word == "et") {
            (word[0] == 'o' ? choice : sum) = true;
            parts.emplace_back();
        } else {
            parts.back().push_back(word);
        }
    }
    std::erase_if(parts, [](const Words& part) {
        return std::all_of(part.begin(), part.end(),
                           [](const std::string& w) { return is_preparation(w); });
    });
    if (parts.empty() || parts.size() > 6) return;
    const std::string noun = parts.back().empty() ? std::string() : parts.back().back();
    const auto vegetable = [&](const std::string& name) {
        const Named k = named(name, tongue);
        return k.material != nullptr && k.material->role == Role::vegetable;
    };
    Item found;
    bool all = true;
    bool borrowed = true;
    for (const Words& part : parts) {
        Words b, a;
        Words with_noun = part;
        with_noun.push_back(noun);
        Named k;
        // "cabbage and turnips" are two things, and no turnip cabbage.
        const bool last = &part == &parts.back();
        const Named alone = resolve(part, tongue, b, a);
        const bool by_itself =
            vegetable(noun) && alone.material && alone.material->role == Role::vegetable;
        if (!last && !by_itself) k = resolve(with_noun, tongue, b, a);
        if (!k.material || (!b.empty() && !a.empty())) {
            k = resolve(part, tongue, b, a);
            borrowed = borrowed && last;
        }
        if (!k.material) {
            all = false;
            continue;
        }
        take_choice(found, k.material);
        found.tongue = k.tongue;
    }
    if (!all) return;
    found.several = sum && found.choices.size() > 1;
    if (choice || sum) {
        item.material = found.material;
        item.choices = found.choices;
        item.tongue = found.tongue;
        item.several = found.several;
        item.one_noun = borrowed;
    } else {
        take_choice(item, found.material);
    }
}

/// What a remark about a thing names besides it: of the head only what follows "with" or "plus".
std::vector<const Material*> named_besides(const Words& words, bool head, Tongue tongue) {
    std::vector<const Material*> out;
    std::size_t at = 0;
    const auto take = [&] {
        Words run;
        for (; at < words.size() && !(remark_word(words[at]) || joins(words[at])); ++at)
            run.push_back(words[at]);
        Item found;
        if (!run.empty() && run.front() != "or" && run.front() != "oder" && run.front() != "ou")
            read_phrase(found, run, tongue);
        out.insert(out.end(), found.choices.begin(), found.choices.end());
    };
    if (!head) take();
    for (; at < words.size(); ++at) {
        if (head && !remark_word(words[at])) continue; // "cabbage and carrots" is read as a whole
        if (!joins(words[at])) continue;
        ++at;
        take();
        --at;
    }
    return out;
}

} // namespace

bool is_preparation(std::string_view folded) {
    return preparation_words().contains(folded);
}

Item item_of(std::span<const Token> tokens, Tongue tongue) {
    Item item;
    // Segments at commas, semicolons, colons and dashes that stand free.
    std::vector<Words> segments(1);
    bool remark = false;
    std::string shown;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const Token& token = tokens[i];
        if (token.sort == Token::Sort::word) {
            if (!remark) {
                if (!shown.empty() && !(i > 0 && token.glued && tokens[i - 1].text == "'"))
                    shown += ' ';
                shown += token.text;
            }
            if (among(token.folded, {"untrimmed", "unpeeled"})) item.untrimmed = true;
            if (trimming(token.folded)) item.trimmed = true;
            if (token.folded.find("salt") != std::string::npos || token.folded == "sel" ||
                token.folded.find("salz") != std::string::npos || token.folded == "sodium" ||
                token.folded == "brine") {
                item.salty_words = true;
            }
            segments.back().push_back(token.folded);
            continue;
        }
        if (token.sort == Token::Sort::mark) {
            const bool free_dash = token.text == "-" && !token.glued;
            if (token.text == "," || token.text == ";" || token.text == ":" || free_dash) {
                if (!segments.back().empty()) segments.emplace_back();
            } else if (token.text == "'") {
                // "d'ail": two words; "cook's": one
                if (i + 1 < tokens.size() && tokens[i + 1].glued && i > 0 &&
                    tokens[i - 1].text.size() > 2)
                    ++i;
            } else if (token.text == "&" || token.text == "+") {
                segments.back().emplace_back("and");
            } else if (token.text == "/") {
                segments.back().emplace_back("or");
            }
        }
    }
    for (Words& segment : segments) {
        // Articles say nothing.
        while (!segment.empty() && among(segment.front(), {"of", "the", "de", "d", "du", "des",
                                                           "la", "le", "les", "l", "and"}))
            segment.erase(segment.begin());
    }
    std::erase_if(segments, [](const Words& s) { return s.empty(); });
    item.words = shown;
    if (segments.empty()) return item;

    // The head: with its remark where that is part of a name ("sel sans iode"), else without.
    const auto until_remark = [](const Words& words) {
        Words out;
        for (std::size_t i = 0; i < words.size(); ++i) {
            if (i > 0 && remark_word(words[i])) break;
            out.push_back(words[i]);
        }
        return out;
    };
    std::size_t head = 0;
    while (head + 1 < segments.size() &&
           std::all_of(segments[head].begin(), segments[head].end(),
                       [](const std::string& w) { return is_preparation(w); })) {
        ++head;
    }
    const auto whole =
        named(joined(segments[head], 0, std::min<std::size_t>(segments[head].size(), 8)), tongue);
    if (whole.material && segments[head].size() <= 8) {
        take_choice(item, whole.material);
        item.tongue = whole.tongue;
    } else {
        read_phrase(item, until_remark(segments[head]), tongue);
    }
    // "salt, kosher", "pepper, black": the tail may name which.
    for (std::size_t i = 0; i < segments.size() && i < 4; ++i) {
        if (i == head) continue;
        Words turned = until_remark(segments[i]);
        const Words front = until_remark(segments[head]);
        turned.insert(turned.end(), front.begin(), front.end());
        if (turned.size() > 8) continue;
        const Named k = named(joined(turned, 0, turned.size()), tongue);
        // "cabbage, turnips" are two things, where "onion, spring" is one.
        const Named alone = named(joined(segments[i], 0, segments[i].size()), tongue);
        if (k.material && alone.material && alone.material != k.material) continue;
        if (k.material && (!item.material || k.material->role == item.material->role)) {
            item.material = k.material;
            item.choices = {k.material};
            item.tongue = k.tongue;
        }
    }
    for (std::size_t i = head; i < segments.size(); ++i) {
        for (const Material* other : named_besides(segments[i], i == head, tongue)) {
            if (std::find(item.choices.begin(), item.choices.end(), other) == item.choices.end())
                item.besides.push_back(other);
        }
    }
    // A warning anywhere in the line holds for its salt.
    if (item.material && item.material->role == Role::salt) {
        std::string line;
        for (const Words& segment : segments)
            line += joined(segment, 0, segment.size()) + " ";
        if (line.size() < 160) {
            const auto match = pantry().find(line);
            if (match && (match->material->warning == larder::SaltWarning::curing ||
                          match->material->warning == larder::SaltWarning::reduced_sodium)) {
                item.material = match->material;
                item.choices = {match->material};
            }
        }
    }
    return item;
}

} // namespace jarful::appraise
