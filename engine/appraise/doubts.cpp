#include "engine/appraise/deed_words.hpp"
#include "engine/appraise/reading.hpp"
#include "engine/larder/fold.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Tokens = std::span<const Token>;

namespace {

/// A curing salt or one with potassium is never plain salt, wherever in the line it is named.
void which_salt(Reading& r, Tokens all) {
    bool curing = false;
    bool reduced = false;
    bool denied = false;
    const bool pink_rock = has_word(all, {"himalaya", "himalayan", "rock", "rose"});
    const bool sodium = has_word(all, {"sodium", "salt", "natrium"});
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i].sort != Token::Sort::word) continue;
        const std::string& word = all[i].folded;
        const auto holds = [&](std::string_view part) {
            return word.find(part) != std::string::npos;
        };
        curing = curing || any_word(all, i, {"cure", "cures", "cured", "curing", "prague"}) ||
                 holds("nitrit") || holds("nitrat") || holds("pokel") || holds("saltpet") ||
                 holds("salpet") || (word == "pink" && !pink_rock);
        reduced = reduced || holds("potassium") || holds("kalium") || holds("natriumarm") ||
                  holds("natriumred") ||
                  any_word(all, i, {"lite", "kcl", "substitute", "allege", "diatsalz"}) ||
                  (sodium && any_word(all, i, {"reduced", "reduit", "lower", "low"}));
        const bool number = word == "no" && (is_mark(all, i + 1, ".") || is_mark(all, i + 1, "#"));
        denied = denied || (word == "no" && !number) ||
                 any_word(all, i,
                          {"not", "non", "without", "free", "never", "ohne", "kein", "keine",
                           "nicht", "frei", "sans", "pas"});
    }
    if (has_word(all, {"dishwasher", "dishwashers", "softener", "icing", "deicing", "tausalz",
                       "streusalz", "spulmaschine", "spulmaschinen"}))
        r.doubt = "It speaks of a salt that is not for eating.";
    if (!curing && !reduced) return;
    if (denied) {
        r.doubt = "It speaks of another salt: write which salt goes in, and no other.";
        return;
    }
    r.item.material =
        larder::Larder().find(curing ? "curing salt" : "reduced sodium salt")->material;
    r.item.choices = {r.item.material};
}

/// "salt (garlic)", "salt (seasoned)" say what makes another thing of it.
void flavoured_salt(Reading& r, Tokens aside) {
    if (aside.empty() || aside.size() > 3) return;
    std::string name;
    for (const Token& t : aside) {
        if (t.sort != Token::Sort::word ||
            any_word({&t, 1}, 0, {"for", "in", "with", "from", "to", "plus", "per", "and", "or"}))
            return;
        name += t.folded + " ";
    }
    if (!larder::Larder().find(name + "salt"))
        r.doubt = "It may be another thing than plain salt: which is meant is not said.";
}

/// "22 g salt, use half", "1 kg cabbage (x2)": a part of the amount, or a multiple.
bool part_or_multiple(Tokens words, bool salt) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        // "pricked twice" is how it is done.
        const bool done = i > 0 && words[i - 1].folded.ends_with("ed");
        if ((is_word(words, i, "twice") && !done) ||
            any_word(words, i,
                     {"double", "doubled", "triple", "tripled", "doppelt", "doppelte", "zweimal"}))
            return true;
        // "plus another head" leaves the amount open: it is at least so much.
        if ((is_word(words, i, "another") && !(i > 0 && any_word(words, i - 1, {"plus", "and"}))) ||
            (is_word(words, i, "of") && any_word(words, i + 1, {"them", "these"})))
            return true;
        const bool half = any_word(words, i, {"half", "halfte", "moitie"});
        if (half && any_word(words, i + 1, {"is", "are", "wird", "est"})) return true;
        if (any_word(words, i, {"only", "nur", "seulement"}) && i + 1 < words.size() &&
            words[i + 1].sort == Token::Sort::number)
            return true;
        if (half && salt) return true;
        if (half && (any_word(words, i + 1, {"of"}) ||
                     (i > 0 && any_word(words, i - 1, {"use", "only", "just"}))))
            return true;
        const auto number = [&](std::size_t at) {
            return at < words.size() && words[at].sort == Token::Sort::number;
        };
        if ((is_word(words, i, "x") || is_word(words, i, "times")) &&
            ((i > 0 && number(i - 1)) || number(i + 1)))
            return true;
    }
    return false;
}

/// "30 g salt, use only two thirds", "2 tbsp salt less 1 tsp", "as much again for the rest".
bool less_or_again(Tokens words, bool salt) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool fraction = any_word(words, i,
                                       {"third", "thirds", "quarter", "quarters", "drittel",
                                        "viertel", "tiers", "halfte", "moitie", "fraction"});
        const bool digits = words[i].sort == Token::Sort::number && words[i].fraction;
        const bool only = i > 0 && any_word(words, i - 1,
                                            {"use", "only", "just", "nur", "seulement", "take",
                                             "two", "zwei", "deux", "les", "one", "a", "ein"});
        const bool of =
            any_word(words, i + 1, {"of", "davon", "des", "der", "du", "de", "von", "vom"});
        if (fraction && (salt || (of && only))) return true;
        if (digits && (of || (salt && only))) return true;
        if (!salt) continue;
        if (any_word(words, i, {"minus", "moins", "abzuglich", "nochmals", "nochmal", "autant"}) ||
            (is_word(words, i, "less") && !any_word(words, i + 1, {"than"})) ||
            (is_word(words, i, "weniger") && !any_word(words, i + 1, {"als"})) ||
            (any_word(words, i, {"again"}) && i > 0 && any_word(words, i - 1, {"much", "and"})))
            return true;
    }
    return false;
}

/// "half a cabbage leaf", "2 carrot strips": no whole piece.
void part_of_a_piece(Reading& r, Tokens words) {
    if (!r.amount || r.amount->measure != nullptr || !r.weights.empty()) return;
    for (std::size_t i = 1; i < words.size() && words[i].sort == Token::Sort::word; ++i) {
        if (any_word(words, i, {"in", "into", "cut", "with", "and", "to", "for"})) return;
        const auto part = measure_at(words, i, true);
        if (!part || part->tokens != 1 || !part->measure->part) continue;
        if (any_word(words, i + 1, {"on", "off", "removed", "left", "trimmed", "intact", "and"}))
            return;
        r.amount->measure = part->measure;
        return;
    }
}

/// "2 pints water (UK)": whose pints they are, wherever in its line that is said.
void whose_measure(Reading& r, Tokens all) {
    if (!r.amount || !r.amount->is(Measure::Sort::volume) ||
        !has_word(all, {"uk", "imperial", "british", "englische", "englisch", "imperiale"}))
        return;
    const Measure& said = *r.amount->measure;
    if (!said.customary) return;
    const Measure* const meant = said.imperial;
    if (meant != nullptr && !has_word(all, {"us", "american", "not", "or"}))
        r.amount->measure = meant;
    else
        r.doubt = "Whose spoon or cup that is, and how much it holds, cannot be told: write it in "
                  "mL.";
}

/// "1 kg cabbage (and carrots)"
bool adds_thing(const std::vector<Token>& aside, const larder::Material& material, Tongue tongue) {
    if (!any_word(aside, 0, {"and", "plus", "with", "und", "mit", "et", "avec"}) &&
        !is_mark(aside, 0, "+") && !is_mark(aside, 0, "&"))
        return false;
    std::vector<Token> words(aside.begin() + 1, aside.end());
    std::erase_if(words, [](const Token& t) { return t.sort == Token::Sort::number; });
    const Item item = item_of(words, tongue);
    if (item.material == nullptr || item.material == &material) return false;
    const Role role = item.material->role;
    return role == Role::vegetable || role == Role::salt || role == Role::water ||
           role == Role::seasoning || role == Role::acid || is_liquid(*item.material);
}

/// "25 g salt, rinsed off before packing", "1 kg cabbage, salted and drained": not all of the salt
/// stays.
bool poured_off(Tokens all, Role role) {
    bool salted = role != Role::vegetable;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const bool off = rinse_word(all, i) || drain_word(all, i) || discard_word(all, i) ||
                         any_word(all, i, {"squeezed", "wrung", "desalted", "ausgedruckt"}) ||
                         (wash_word(all, i) && any_word(all, i + 1, {"off", "out", "away"}));
        // "rinsed salt-packed" is none; water is "drained" of nothing, but may be thrown away.
        if (off && salted && !denied(all, i) &&
            (role != Role::water || discard_word(all, i) || is_word(all, i + 1, "off")))
            return true;
        if (off && any_word(all, i + 1, {"of", "from", "after", "nach", "apres"}) &&
            salt_word(all, i + 2))
            return true;
        // "soaked in salt water"
        salted = salted ||
                 (i > 0 && (salt_word(all, i) || brine_word(all, i)) &&
                  (any_word(all, i - 1, {"in", "with", "mit", "au"}) ||
                   (i > 1 && any_word(all, i - 2, {"in", "with", "mit", "avec"})))) ||
                 any_word(all, i,
                          {"salted", "presalted", "brined", "gesalzen", "gesalzener", "gesalzenes",
                           "eingesalzen", "salee", "sales", "salees"}) ||
                 (is_word(all, i, "sale") && !(i > 0 && any_word(all, i - 1, {"on", "for"})));
    }
    return false;
}

/// "1 L water (half vinegar)", "1 kg cucumbers, in vinegar".
bool names_acid(Tokens all) {
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (acid_word(all, i) && !denied(all, i)) return true;
    }
    return false;
}

/// "with core and outer leaves", "gross weight": as bought.
bool as_it_comes(Tokens all) {
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (denied(all, i)) continue;
        if (any_word(all, i,
                     {"untrimmed", "ungeputzt", "ungeputzter", "ungeputztes", "unpeeled",
                      "ungeschalt", "uncored", "brutto", "bruttogewicht"}))
            return true;
        if (is_word(all, i, "gross") && is_word(all, i + 1, "weight")) return true;
        if (any_word(all, i, {"with", "including", "mit", "incl"})) {
            for (std::size_t j = i + 1; j < all.size() && j <= i + 5; ++j) {
                const bool leaves =
                    is_word(all, j, "outer") && any_word(all, j + 1, {"leaf", "leaves"});
                if (!leaves && !any_word(all, j, {"core", "cores", "strunk"})) continue;
                // "with the core cut out"
                return !has_word(all.subspan(j), {"removed", "out", "discarded", "off", "reserved",
                                                  "kept", "aside", "entfernt"});
            }
        }
    }
    return false;
}

/// The word behind a number that may be a measure nobody here knows: "1 stone cabbage", "2 trugs of
/// carrots", "1 lug cucumbers".
std::string_view unknown_unit(const Reading& r, Tokens words) {
    if (!r.amount || r.amount->measure != nullptr || !r.weights.empty() || words.size() < 2 ||
        words[0].sort != Token::Sort::word || words[1].sort != Token::Sort::word)
        return {};
    const std::string_view unit = words[0].text;
    const auto capital = [&](std::size_t i) {
        return words[i].text[0] >= 'A' && words[i].text[0] <= 'Z';
    };
    // "1 1/2 Vidalia onions": a name, and no measure.
    if (capital(0) && !capital(1)) return {};
    if (any_word(
            words, 0,
            {"stone",    "stones",   "peck",    "pecks",        "bushel",   "bushels",   "catty",
             "catties",  "ton",      "tons",    "tonne",        "tonnes",   "cwt",       "tael",
             "jin",      "kan",      "maund",   "maunds",       "seer",     "viss",      "dram",
             "drams",    "drachm",   "grain",   "grains",       "scruple",  "barrel",    "barrels",
             "crate",    "crates",   "sack",    "sacks",        "case",     "cases",     "punnet",
             "punnets",  "tray",     "trays",   "tub",          "tubs",     "carton",    "cartons",
             "basket",   "baskets",  "bucket",  "buckets",      "pail",     "pails",     "load",
             "loads",    "zentner",  "quintal", "quintals",     "scoop",    "scoops",    "spoon",
             "spoons",   "spoonful", "ladle",   "ladles",       "mug",      "mugs",      "glass",
             "glasses",  "bowl",     "bowls",   "bowlful",      "mound",    "mounds",    "pile",
             "piles",    "heap",     "heaps",   "lot",          "lots",     "batch",     "batches",
             "pot",      "pots",     "jarful",  "capful",       "shovel",   "loffel",    "becher",
             "schussel", "eimer",    "korb",    "sacke",        "cuillere", "cuilleres", "bol",
             "seau",     "panier",   "cagette", "hundredweight"}))
        return unit;
    const std::string& word = words[0].folded;
    const Item rest = item_of(words.subspan(1), r.item.tongue);
    const bool stranger = word.size() > 1 && !is_preparation(word) && !larder::find_exact(word) &&
                          !larder::find_exact(word + " " + words[1].folded) &&
                          rest.material == r.item.material;
    if (!stranger) return {};
    if (any_word(words, 1, {"of", "de", "d", "von"})) return unit;
    // One of many, or many of one: "1 lug cucumbers", "2 lug cabbage".
    std::size_t last = 1;
    while (last + 1 < words.size() && words[last + 1].sort == Token::Sort::word &&
           !is_preparation(words[last + 1].folded))
        ++last;
    const std::string& noun = words[last].folded;
    const bool plural = larder::singular(noun) != noun;
    const bool own = !foreign_tongue(r.item.tongue); // the plural is known
    const bool one = r.amount->count == units::Interval(1.0);
    return own && one == plural && r.amount->count.low >= 1 ? unit : std::string_view();
}

} // namespace

void settle_doubts(Reading& r, Tokens all, Tokens words,
                   std::span<const std::vector<Token>> asides) {
    if (r.item.material == nullptr) return;
    const Role role = r.item.material->role;
    const bool salt = role == Role::salt;
    if (r.item.material->id == "black-tea" && r.amount && r.amount->is(Measure::Sort::volume) &&
        r.amount->base().high >= 60)
        r.doubt = "Whether that is the drink or its leaves is not said.";
    whose_measure(r, all);
    if (role == Role::vegetable) part_of_a_piece(r, words);
    if (!salt && role != Role::vegetable && role != Role::water && role != Role::seasoning) return;
    if (const std::string_view unit = unknown_unit(r, words); !unit.empty())
        r.doubt =
            fmt::format("The unit \"{}\" is not known: how much that is cannot be told.", unit);
    if (role == Role::vegetable && as_it_comes(all)) {
        r.item.untrimmed = true;
        r.item.trimmed = false;
    }
    if (role != Role::seasoning && poured_off(all, role))
        r.doubt = "It is rinsed or poured off again, or part of it: how much stays is not said.";
    if (role != Role::seasoning && names_acid(all))
        r.doubt = "It speaks of vinegar too: write that, with its amount, on a line of its own.";
    bool open = part_or_multiple(words, salt) || less_or_again(words, salt);
    for (const std::vector<Token>& aside : asides)
        open = open || part_or_multiple(aside, salt) || less_or_again(aside, salt);
    if (open)
        r.doubt = "It speaks of a part of the amount, or of a multiple: how much is meant is not "
                  "said.";
    for (const std::vector<Token>& aside : asides) {
        if (adds_thing(aside, *r.item.material, r.item.tongue))
            r.doubt = "It names more than one thing: how much there is of each is not said.";
    }
    if (!salt) return;
    which_salt(r, all);
    for (const std::vector<Token>& aside : asides)
        flavoured_salt(r, aside);
}

} // namespace jarful::appraise
