#include "engine/appraise/reading.hpp"
#include "engine/appraise/sentence.hpp"
#include "engine/larder/fold.hpp"

#include <fmt/core.h>

#include <algorithm>

/// What is doubtful about a line of a list, by the rows of patterns.json for lines.
namespace jarful::appraise {

using larder::Role;
using Tokens = std::span<const Token>;

namespace {

/// A run of words as the rows see it.
Sentence taken_apart(Tokens tokens, Tongue tongue, Concepts said = {}) {
    Sentence s = sentence_of(tokens, {}, tongue);
    s.say(said);
    apply_marks(s);
    return s;
}

/// A curing salt or one with potassium is never plain salt, wherever in the line it is named.
void which_salt(Reading& r, const Sentence& all) {
    if (find(Event::line_no_food, all)) r.doubt = "It speaks of a salt that is not for eating.";
    const bool curing = find(Event::line_curing, all).has_value();
    if (!curing && !find(Event::line_reduced, all)) return;
    if (find(Event::line_not_this_salt, all)) {
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
            t.is.any({Concept::purpose, Concept::within, Concept::from, Concept::also, Concept::per,
                      Concept::either}))
            return;
        name += t.folded + " ";
    }
    if (!larder::Larder().find(name + "salt"))
        r.doubt = "It may be another thing than plain salt: which is meant is not said.";
}

/// "half a cabbage leaf", "2 carrot strips": no whole piece.
void part_of_a_piece(Reading& r, Tokens words) {
    if (!r.amount || !r.weights.empty()) return;
    const bool whole = r.amount->measure == nullptr || r.amount->measure->unit == "piece";
    if (!whole) return; // "2 whole cabbage leaves" are leaves
    for (std::size_t i = 1; i < words.size() && words[i].sort == Token::Sort::word; ++i) {
        if (words[i].is.any({Concept::within, Concept::cut, Concept::also, Concept::purpose}))
            return;
        const auto part = measure_at(words, i, true);
        if (!part || part->tokens != 1 || !part->measure->part) continue;
        // "carrot slices into the jar", but "leaves to lay on top".
        if (i + 1 < words.size() && !words[i + 1].is.any(Concept::purpose) &&
            words[i + 1].is.any({Concept::whither, Concept::off, Concept::left, Concept::cut,
                                 Concept::wipe, Concept::also}))
            return;
        r.amount->measure = part->measure;
        return;
    }
}

/// "2 pints water (UK)": whose pints they are, wherever in its line that is said.
void whose_measure(Reading& r, const Sentence& all) {
    if (!r.amount || !r.amount->is(Measure::Sort::volume) || !find(Event::line_imperial, all))
        return;
    const Measure& said = *r.amount->measure;
    if (!said.customary) return;
    const Measure* const meant = said.imperial;
    if (meant != nullptr && !all.has({Concept::american, Concept::negation, Concept::either}))
        r.amount->measure = meant;
    else
        r.doubt = "Whose spoon or cup that is, and how much it holds, cannot be told: write it in "
                  "mL.";
}

/// "1 kg cabbage (and carrots)"
bool adds_thing(const std::vector<Token>& aside, const larder::Material& material, Tongue tongue) {
    const Sentence s = sentence_of(aside, {}, tongue);
    if (s.pieces.empty() || !s.pieces.front().is.any(Concept::also)) return false;
    std::vector<Token> words(aside.begin() + 1, aside.end());
    std::erase_if(words, [](const Token& t) { return t.sort == Token::Sort::number; });
    const Item item = item_of(words, tongue);
    if (item.material == nullptr || item.material == &material) return false;
    const Role role = item.material->role;
    return role == Role::vegetable || role == Role::salt || role == Role::water ||
           role == Role::seasoning || role == Role::acid || is_liquid(*item.material);
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
    if (words[0].is.any(Concept::unknown_measure)) return unit;
    const std::string& word = words[0].folded;
    const Item rest = item_of(words.subspan(1), r.item.tongue);
    const bool stranger = word.size() > 1 && !is_preparation(word) && !larder::find_exact(word) &&
                          !larder::find_exact(word + " " + words[1].folded) &&
                          rest.material == r.item.material;
    if (!stranger) return {};
    if (words[1].is.any(Concept::of)) return unit;
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

/// A word behind the name of a thing that nobody here knows: "25 g salt, twenty either way will not
/// kill you". In front of a name it says of what sort the thing is.
/// @param most how many of them do no harm
std::string_view unknown_word(Tokens all, Tongue tongue, std::size_t most) {
    const auto names = [&](const Token& t) {
        return t.is.any({Concept::salt, Concept::water, Concept::vegetable, Concept::food,
                         Concept::brine}) ||
               named(t.folded, tongue).material != nullptr;
    };
    const auto first = std::find_if(all.begin(), all.end(), [&](const Token& t) {
        return t.sort == Token::Sort::word && names(t);
    });
    if (first == all.end()) return {};
    for (auto t = first + 1; t != all.end(); ++t) {
        if (t->sort != Token::Sort::word || t->folded.size() < 3) continue;
        // "salt, twenty either way"
        const bool bare_number = most == 0 && t->number >= 2 && t->is.empty() &&
                                 !means(all, static_cast<std::size_t>(t - all.begin()) + 1,
                                        {Concept::time, Concept::days});
        if (!bare_number && (!t->is.empty() || t->number != 0 || names(*t) ||
                             knows_form(t->folded, tongue == nullptr ? *base_tongue() : *tongue)))
            continue;
        const bool capital = t->text[0] >= 'A' && t->text[0] <= 'Z';
        if (capital && (tongue == nullptr || !tongue->capital_nouns)) continue;
        const auto at = static_cast<std::size_t>(t - all.begin());
        if (measure_at(all, at, true) || (at > 0 && t->glued && all[at - 1].text == "-")) continue;
        if (most-- == 0) return t->text;
    }
    return {};
}

/// What is said where a line of a thing begins: salt is in it already, water is poured by itself.
Concepts said_of(Role role) {
    if (role == Role::salt) return {Concept::salted, Concept::salt, Concept::salty};
    return role == Role::water ? Concepts(Concept::in_water) : Concepts{};
}

} // namespace

void settle_doubts(Reading& r, Tokens all, Tokens words,
                   std::span<const std::vector<Token>> asides) {
    if (r.item.material == nullptr) return;
    const Role role = r.item.material->role;
    const bool salt = role == Role::salt;
    const Tongue tongue = r.item.tongue;
    if (r.item.material->id == "black-tea" && r.amount && r.amount->is(Measure::Sort::volume) &&
        r.amount->base().high >= 60)
        r.doubt = "Whether that is the drink or its leaves is not said.";
    const Sentence line = taken_apart(all, tongue, said_of(role));
    whose_measure(r, line);
    if (role == Role::vegetable) part_of_a_piece(r, words);
    if (!salt && role != Role::vegetable && role != Role::water && role != Role::seasoning) return;
    if (const std::string_view unit = unknown_unit(r, words); !unit.empty())
        r.doubt =
            fmt::format("The unit \"{}\" is not known: how much that is cannot be told.", unit);
    if (role == Role::vegetable && find(Event::line_as_bought, line)) {
        r.item.untrimmed = true;
        r.item.trimmed = false;
    }
    if (role == Role::vegetable && find(Event::line_salted, line))
        r.doubt = "It is salted already: how much salt it brings is not said.";
    if (role != Role::seasoning && find(Event::line_poured, line))
        r.doubt = "It is rinsed or poured off again, or part of it: how much stays is not said.";
    if (role != Role::seasoning && find(Event::line_acid, line))
        r.doubt = "It speaks of vinegar too: write that, with its amount, on a line of its own.";
    bool open = find(Event::line_part, taken_apart(words, tongue, said_of(role))).has_value();
    for (const std::vector<Token>& aside : asides) {
        // "(4 tsp if no whey is used)" is the other amount, and known.
        const auto other = quantity_at(aside, 0, {});
        if (other && means(aside, other->tokens, Concept::condition)) continue;
        open = open || find(Event::line_part, taken_apart(aside, tongue, said_of(role)));
    }
    if (open)
        r.doubt = "It speaks of a part of the amount, or of a multiple: how much is meant is not "
                  "said.";
    for (const std::vector<Token>& aside : asides) {
        if (adds_thing(aside, *r.item.material, tongue))
            r.doubt = "It names more than one thing: how much there is of each is not said.";
    }
    if (salt) which_salt(r, line);
    if (role != Role::seasoning && r.item.material->warning == larder::SaltWarning::none) {
        // Of a vegetable a strange word says of what sort it is; more of them do in a language of
        // which fewer words are listed.
        const bool thorough = tongue == nullptr || tongue->thorough;
        const std::size_t most = role != Role::vegetable ? 0 : thorough ? 1 : 2;
        const std::string_view word = unknown_word(all, tongue, most);
        if (!word.empty()) r.doubt = fmt::format("What \"{}\" says of it is not understood.", word);
    }
    if (!salt) return;
    for (const std::vector<Token>& aside : asides)
        flavoured_salt(r, aside);
}

} // namespace jarful::appraise
