#include "engine/appraise/reading.hpp"

#include <algorithm>

namespace jarful::appraise {

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

} // namespace

void settle_salt(Reading& r, Tokens all, std::span<const std::vector<Token>> asides) {
    which_salt(r, all);
    for (const std::vector<Token>& aside : asides)
        flavoured_salt(r, aside);
}

} // namespace jarful::appraise
