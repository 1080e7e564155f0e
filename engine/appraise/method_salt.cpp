#include "engine/appraise/method_salt.hpp"

#include "engine/appraise/deed_words.hpp"
#include "engine/appraise/line.hpp"
#include "engine/appraise/number_words.hpp"
#include "engine/appraise/sections.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Unit = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

bool measured(const Quantity& q) {
    return q.is(Unit::mass) || q.is(Unit::volume) || q.is(Unit::percent) || q.is(Unit::loose);
}

/// Whether a number begins here: in digits, in words, or an article that counts one measure.
bool number_begins(Tokens t, std::size_t i) {
    if (i >= t.size()) return false;
    if (t[i].sort == Token::Sort::number || number_words_at(t, i)) return true;
    const bool article = any_word(t, i,
                                  {"a", "an", "one", "half", "ein", "eine", "einen", "einem",
                                   "einer", "halbe", "halber", "halben", "un", "une", "demi"});
    const auto q = article ? quantity_at(t, i, {}) : std::nullopt;
    return q && (q->quantity.is(Unit::mass) || q->quantity.is(Unit::volume));
}

bool is_salt(Tokens words, Tongue tongue) {
    const Item item = item_of(words, tongue);
    return item.material != nullptr && item.material->role == Role::salt;
}

/// The words behind an amount that say what it is of: up to a number, a mark, or a word that goes
/// on with something else; of salt as many as name it.
std::size_t end_of_thing(Tokens t, std::size_t behind, Tongue tongue) {
    std::size_t end = behind;
    while (end < t.size() && end < behind + 7 && t[end].sort == Token::Sort::word &&
           !number_words_at(t, end) &&
           !among(t[end].folded, {"per", "for", "to", "into", "over", "in", "on", "and", "with",
                                  "pro", "par", "until", "at", "from", "auf", "je", "pour"}))
        ++end;
    for (std::size_t last = end; last > behind; --last) {
        if (is_salt(t.subspan(behind, last - behind), tongue)) return last;
    }
    return end;
}

/// "25 g on each layer", "two handfuls for every portion": how often it is taken is not said.
bool for_each_of_several(Tokens t) {
    return has_word(t, {"each",    "every",     "layer",   "layers",     "batch",       "batches",
                        "portion", "portions",  "lot",     "lots",       "half",        "halves",
                        "again",   "repeat",    "twice",   "times",      "per",         "jar",
                        "jars",    "jede",      "jeder",   "jedes",      "jeden",       "jedem",
                        "schicht", "schichten", "lage",    "lagen",      "portionen",   "halfte",
                        "je",      "pro",       "jeweils", "glas",       "glaser",      "couche",
                        "couches", "lit",       "lits",    "chaque",     "fois",        "moitie",
                        "par",     "bocal",     "bocaux",  "third",      "quarter",     "drittel",
                        "viertel", "tiers",     "autant",  "mal",        "part",        "parts",
                        "handful", "charge",    "chargen", "lagenweise", "schichtweise"});
}

} // namespace

void scan_salt(Document& doc, Tokens tokens, const larder::Material* salt) {
    bool speaks = false;
    for (std::size_t i = 0; i < tokens.size(); ++i)
        speaks = speaks || salt_word(tokens, i) || brine_word(tokens, i);
    if (!speaks) return;
    const bool conditional = has(tokens, {"if", "needed", "necessary", "bag", "plastic", "falls",
                                          "wenn", "si", "should", "topping"});
    const Numbers numbers{doc.tongue == Tongue::german || doc.tongue == Tongue::french,
                          doc.tongue != Tongue::unknown};
    std::vector<SaltInMethod> found;
    std::optional<units::Interval> beside;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (!number_begins(tokens, i)) continue;
        const auto q = quantity_at(tokens, i, numbers, tokens[i].sort != Token::Sort::number);
        if (!q) continue;
        const std::size_t behind = i + q->tokens;
        const Quantity& quantity = q->quantity;
        if (!measured(quantity)) {
            i = behind - 1;
            continue;
        }
        const std::size_t end = end_of_thing(tokens, behind, doc.tongue);
        const Tokens thing = tokens.subspan(behind, end - behind);
        const bool brine = quantity.is(Unit::percent) && has(thing, {"brine"});
        if (!brine && !is_salt(thing, doc.tongue)) {
            if (quantity.weighed() && quantity.base().high >= 100)
                beside = beside ? units::hull(*beside, quantity.base()) : quantity.base();
            i = behind - 1;
            continue;
        }
        SaltInMethod one;
        one.text = text_of(tokens);
        one.conditional = conditional;
        // "for every 5 pounds use 3 tbsp salt", or behind it.
        const std::size_t last = std::min(tokens.size(), end + 14);
        std::string words = text_of(tokens.subspan(i, last - i));
        if (const auto per = per_word(tokens.first(i), numbers, true)) {
            words = text_of(tokens.subspan(i, end - i)) + " " +
                    text_of(tokens.subspan(per->at, i - per->at));
        }
        if (const auto close = words.find(')'); close != std::string::npos) words.resize(close);
        one.reading = ingredient(words, doc.tongue, salt);
        // "100 g salt over the cabbage" is one of salt.
        if (!one.reading.line.understood || one.reading.line.role != Role::salt)
            one.reading = ingredient(text_of(tokens.subspan(i, end - i)), doc.tongue, salt);
        if (one.reading.line.understood && one.reading.line.role == Role::salt)
            found.push_back(std::move(one));
        i = end - 1;
    }
    for (SaltInMethod& one : found) {
        if (!one.reading.ratio) {
            one.beside = beside;
            one.repeated = for_each_of_several(tokens);
        }
        doc.method_salt.push_back(std::move(one));
    }
}

bool rate_beside(Document& doc, const Reading& line, const larder::Material* salt) {
    SaltInMethod one;
    one.text = line.line.text;
    one.of_line = true;
    one.reading = ingredient(line.rate_beside->amount + " " +
                                 std::string(line.item.material->name) + " " + line.rate_beside->of,
                             doc.tongue, salt);
    if (!one.reading.line.understood || one.reading.line.role != Role::salt || !one.reading.ratio)
        return false;
    doc.method_salt.push_back(std::move(one));
    return true;
}

} // namespace jarful::appraise
