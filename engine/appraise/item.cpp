#include "engine/appraise/item.hpp"

#include "engine/larder/foreign.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Material;
using larder::Role;
using Words = std::vector<const Token*>;
using Some = std::span<const Token* const>;

namespace {

/// Words of more than these are no name.
constexpr std::size_t longest_name = 8;

bool is(const Token* word, Concepts some) {
    return word->is.any(some);
}

bool any(Some words, Concepts some) {
    return std::any_of(words.begin(), words.end(), [&](const Token* w) { return is(w, some); });
}

std::string joined(Some words) {
    std::string out;
    for (const Token* word : words) {
        // "huile d'olive" is folded to "huile dolive".
        const bool elided = word->glued && out.size() > 1 && out[out.size() - 2] == ' ';
        if (!out.empty() && !elided) out += ' ';
        out += word->folded;
    }
    return out;
}

Named named(Some words, Tongue tongue) {
    return words.empty() || words.size() > longest_name ? Named{} : named(joined(words), tongue);
}

const larder::Larder& pantry() {
    static const larder::Larder larder;
    return larder;
}

bool changed_salt(const Material& material) {
    return material.warning == larder::SaltWarning::curing ||
           material.warning == larder::SaltWarning::reduced_sodium;
}

/// A name within a run of words, and what stands on both sides of it.
struct Found {
    Named name;
    Some before, after;
};

/// Whether the words around a name leave it what it is.
bool neighbours_fit(const Found& found, Tongue tongue) {
    const Role role = found.name.material->role;
    const bool soft = role == Role::vegetable || role == Role::aromatic || role == Role::other;
    const bool behind_too = found.name.tongue != nullptr && found.name.tongue->adjectives_behind;
    std::size_t strangers = 0;
    for (const Some side : {found.before, found.after}) {
        for (const Token* word : side) {
            if (is(word, Concept::another_food)) return false;
            // "cabbage carrots" are two things run together.
            const Material* const other = named(Some(&word, 1), tongue).material;
            if (other != nullptr && other != found.name.material &&
                (other->role == Role::vegetable || other->role == Role::salt ||
                 other->role == Role::water))
                return false;
            if (role == Role::salt && is(word, Concept::grain)) continue;
            if (is(word, Concept::preparation)) continue;
            if (++strangers > 2 || !soft || (side.data() == found.after.data() && !behind_too))
                return false;
        }
    }
    return true;
}

/// The larder's own care about what parts of its names stand for.
Named cared_for(const Found& found, Some words) {
    const Named& name = found.name;
    if (name.tongue != base_tongue()) return name;
    const auto match = pantry().find(joined(words));
    if (!match) return {};
    const Role role = name.material->role;
    if ((role != Role::salt && role != Role::seasoning) || match->material == name.material)
        return name;
    return changed_salt(*match->material) ? Named{match->material, name.tongue} : Named{};
}

/// The thing that a run of words without commas stands for: the longest name in it, the last of
/// equals, whose neighbours do no harm.
Found resolve(Some words, Tongue tongue) {
    if (words.empty() || words.size() > 12) return {};
    if (const Named k = named(words, tongue); k.material) return {k, {}, {}};
    for (std::size_t count = std::min(words.size() - 1, longest_name); count > 0; --count) {
        for (std::size_t first = words.size() - count + 1; first-- > 0;) {
            const Token* const word = words[first];
            if (count == 1 &&
                (is(word, Concept::preparation) || (is(word, Concept::alone_only) && first > 0 &&
                                                    !is(words[first - 1], Concept::preparation))))
                continue;
            Found found{named(words.subspan(first, count), tongue), words.first(first),
                        words.subspan(first + count)};
            if (!found.name.material || !neighbours_fit(found, tongue)) continue;
            const Role role = found.name.material->role;
            found.name = cared_for(found, words);
            if (found.name.material) return found;
            // A salt or a seasoning that the larder does not take for one is none.
            if ((role == Role::salt || role == Role::seasoning) && !pantry().find(joined(words)))
                return {};
        }
    }
    return {};
}

void take_choice(Item& item, const Material* material) {
    if (material == nullptr) return;
    if (item.material == nullptr) item.material = material;
    if (std::find(item.choices.begin(), item.choices.end(), material) == item.choices.end())
        item.choices.push_back(material);
}

/// Words apart at "or" and "and"; none of what only says how a thing is prepared.
struct Parts {
    std::vector<Words> parts;
    bool choice = false, sum = false;
};

Parts parts_of(Some words) {
    Parts out;
    out.parts.emplace_back();
    for (const Token* word : words) {
        const bool choice = is(word, Concept::either);
        if (!choice && !is(word, Concept::sum)) {
            out.parts.back().push_back(word);
            continue;
        }
        (choice ? out.choice : out.sum) = true;
        out.parts.emplace_back();
    }
    std::erase_if(out.parts, [](const Words& part) {
        return std::all_of(part.begin(), part.end(),
                           [](const Token* w) { return is(w, Concept::preparation); });
    });
    return out;
}

/// Alternatives, and sums: "kosher or sea salt", "caraway or dill seeds". A part that is short of
/// its noun borrows the last word.
void read_parts(Item& item, Some words, Tongue tongue) {
    const Parts apart = parts_of(words);
    if (apart.parts.empty() || apart.parts.size() > 6) return;
    const Token* const noun = apart.parts.back().back();
    const auto vegetable = [](const Named& k) {
        return k.material != nullptr && k.material->role == Role::vegetable;
    };
    const bool thing = vegetable(named(Some(&noun, 1), tongue));
    Item found;
    bool borrowed = true;
    for (const Words& part : apart.parts) {
        const bool last = &part == &apart.parts.back();
        const Found alone = resolve(part, tongue);
        Found k;
        // "cabbage and turnips" are two things, and no turnip cabbage.
        if (!last && !(thing && vegetable(alone.name))) {
            Words with_noun = part;
            with_noun.push_back(noun);
            k = resolve(with_noun, tongue);
            // Names point into `with_noun` no longer than this.
            if (!k.before.empty() && !k.after.empty()) k = {};
        }
        if (!k.name.material) {
            k = alone;
            borrowed = borrowed && last;
        }
        if (!k.name.material) return;
        take_choice(found, k.name.material);
        found.tongue = k.name.tongue;
    }
    if (!apart.choice && !apart.sum) return take_choice(item, found.material);
    item.material = found.material;
    item.choices = found.choices;
    item.tongue = found.tongue;
    item.several = apart.sum && found.choices.size() > 1;
    item.one_noun = borrowed;
}

/// A head phrase with its alternatives.
void read_phrase(Item& item, Some words, Tongue tongue) {
    const Found found = resolve(words, tongue);
    const bool whole = found.before.empty() && found.after.empty();
    if (!found.name.material || (!whole && any(words, {Concept::either, Concept::sum})))
        return read_parts(item, words, tongue);
    take_choice(item, found.name.material);
    item.tongue = found.name.tongue;
    if (found.name.material->role == Role::salt &&
        (any(found.before, Concept::grain) || any(found.after, Concept::grain)))
        take_choice(item, pantry().find("coarse salt")->material);
}

/// Words up to where the thing ends and a remark about it begins.
Some until_remark(Some words) {
    for (std::size_t i = 1; i < words.size(); ++i) {
        if (is(words[i], Concept::tail_begins)) return words.first(i);
    }
    return words;
}

/// What a remark about a thing names besides it: of the head only what follows "with" or "plus".
void take_besides(Item& item, Some words, bool head, Tongue tongue) {
    std::size_t at = 0;
    const auto take = [&] {
        const std::size_t first = at;
        while (at < words.size() && !is(words[at], {Concept::tail_begins, Concept::also}))
            ++at;
        Item found;
        if (at > first && !is(words[first], Concept::either))
            read_phrase(found, words.subspan(first, at - first), tongue);
        for (const Material* other : found.choices) {
            if (std::find(item.choices.begin(), item.choices.end(), other) == item.choices.end())
                item.besides.push_back(other);
        }
    };
    if (!head) take();
    while (at < words.size()) {
        // "cabbage and carrots" is read as a whole
        const bool more =
            is(words[at], Concept::also) && (!head || is(words[at], Concept::tail_begins));
        ++at;
        if (more) take();
    }
}

/// Words in segments: apart at commas, semicolons, colons and dashes that stand free.
std::vector<Words> segments_of(std::span<const Token> tokens, Item& item) {
    static const Token both = [] {
        Token t;
        t.is = {Concept::sum, Concept::also};
        return t;
    }();
    static const Token either = [] {
        Token t;
        t.is = Concept::either;
        return t;
    }();
    std::vector<Words> segments(1);
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const Token& token = tokens[i];
        if (token.sort == Token::Sort::word) {
            const bool elided = i > 0 && token.glued && tokens[i - 1].text == "'";
            if (!item.words.empty() && !elided) item.words += ' ';
            item.words += token.text;
            item.untrimmed = item.untrimmed || token.is.any(Concept::untrimmed);
            item.trimmed = item.trimmed || token.is.any(Concept::trimmed);
            item.salty_words = item.salty_words || token.is.any(Concept::salty_word);
            segments.back().push_back(&token);
        } else if (token.sort == Token::Sort::mark) {
            const bool free_dash = token.text == "-" && !token.glued;
            if (token.text == "," || token.text == ";" || token.text == ":" || free_dash) {
                if (!segments.back().empty()) segments.emplace_back();
            } else if (token.text == "'") {
                // "d'ail": two words; "cook's": one
                if (i + 1 < tokens.size() && tokens[i + 1].glued && i > 0 &&
                    tokens[i - 1].text.size() > 2)
                    ++i;
            } else if (token.text == "&" || token.text == "+") {
                segments.back().push_back(&both);
            } else if (token.text == "/") {
                segments.back().push_back(&either);
            }
        }
    }
    for (Words& segment : segments) {
        // Articles say nothing.
        while (!segment.empty() && is(segment.front(), {Concept::of, Concept::the, Concept::sum}))
            segment.erase(segment.begin());
    }
    std::erase_if(segments, [](const Words& s) { return s.empty(); });
    return segments;
}

/// "salt, kosher", "pepper, black": the tail may name which.
void take_tail(Item& item, Some head, Some tail, Tongue tongue) {
    const Some turned = until_remark(tail);
    Words both(turned.begin(), turned.end());
    const Some front = until_remark(head);
    both.insert(both.end(), front.begin(), front.end());
    const Named k = named(both, tongue);
    if (!k.material || (item.material && k.material->role != item.material->role)) return;
    // "cabbage, turnips" are two things, where "onion, spring" is one.
    const Named alone = named(tail, tongue);
    if (alone.material && alone.material != k.material) return;
    item.material = k.material;
    item.choices = {k.material};
    item.tongue = k.tongue;
}

/// A warning anywhere in the line holds for its salt.
void take_warning(Item& item, const std::vector<Words>& segments) {
    if (item.material == nullptr || item.material->role != Role::salt) return;
    std::string line;
    for (const Words& segment : segments)
        line += joined(segment) + " ";
    if (line.size() >= 160) return;
    const auto match = pantry().find(line);
    if (!match || !changed_salt(*match->material)) return;
    item.material = match->material;
    item.choices = {match->material};
}

} // namespace

bool is_preparation(std::string_view folded) {
    return meaning_of(folded).concepts.any(Concept::preparation);
}

namespace {

Item as_written(std::span<const Token> tokens, Tongue tongue) {
    Item item;
    const std::vector<Words> segments = segments_of(tokens, item);
    if (segments.empty()) return item;
    std::size_t head = 0;
    while (head + 1 < segments.size() &&
           std::all_of(segments[head].begin(), segments[head].end(),
                       [](const Token* w) { return is(w, Concept::preparation); }))
        ++head;
    // With its remark where that is part of a name ("sel sans iode"), else without.
    if (const Named whole = named(segments[head], tongue); whole.material) {
        take_choice(item, whole.material);
        item.tongue = whole.tongue;
    } else {
        read_phrase(item, until_remark(segments[head]), tongue);
    }
    for (std::size_t i = 0; i < segments.size() && i < 4; ++i) {
        if (i != head) take_tail(item, segments[head], segments[i], tongue);
    }
    for (std::size_t i = head; i < segments.size(); ++i)
        take_besides(item, segments[i], i == head, tongue);
    take_warning(item, segments);
    return item;
}

/// The vegetable at the end of a noun that is written together: "Bauerngurken".
std::optional<larder::Spelling> head_noun(const Token& t, Tongue tongue) {
    constexpr std::size_t shortest = 5; // of the noun; ours
    for (const Lexicon& lexicon : lexicons()) {
        if (!lexicon.capital_nouns || (tongue != nullptr && tongue != &lexicon)) continue;
        for (std::size_t i = 3; i + shortest <= t.folded.size(); ++i) {
            const std::string end = t.folded.substr(i);
            const Material* const m = larder::find_foreign(end, lexicon.tag);
            if (m != nullptr && m->role == Role::vegetable) return larder::Spelling{end, m};
        }
    }
    return std::nullopt;
}

/// With the names of vegetables and spices as they are spelt, where there is a slip in them:
/// "cabbge". Empty where there are none.
std::vector<Token> without_slips(std::span<const Token> tokens, Tongue tongue) {
    std::vector<Token> out;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const Token& t = tokens[i];
        const bool listed = is_listed(t.folded, *base_tongue()) ||
                            (tongue != nullptr && is_listed(t.folded, *tongue));
        if (t.sort != Token::Sort::word || listed || t.number != 0) continue;
        std::optional<larder::Spelling> right;
        for (const Lexicon& lexicon : lexicons())
            if (!right && (tongue == nullptr || tongue == &lexicon))
                right = larder::spelt_right(t.folded, lexicon.tag);
        if (!right) right = head_noun(t, tongue);
        if (!right ||
            (right->material->role != Role::vegetable && right->material->role != Role::aromatic))
            continue;
        if (out.empty()) out.assign(tokens.begin(), tokens.end());
        out[i].folded = right->word;
    }
    return out;
}

} // namespace

Item item_of(std::span<const Token> tokens, Tongue tongue) {
    Item item = as_written(tokens, tongue);
    if (item.material != nullptr) return item;
    const std::vector<Token> right = without_slips(tokens, tongue);
    return right.empty() ? item : as_written(right, tongue);
}

} // namespace jarful::appraise
