#include "engine/appraise/line.hpp"

#include "engine/appraise/text.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

Amount written(const Quantity& q) {
    Amount a;
    a.low = q.count.low;
    a.high = q.count.high;
    a.unit = q.measure == nullptr ? "piece" : std::string(q.measure->unit);
    return a;
}

/// "5 peppercorns" count pieces, "3 bay leaves" leaves: the word is in the name.
void own_piece_word(Reading& r, Tokens tokens) {
    if (!r.line.amount || r.line.amount->unit != "piece" || r.amount->measure != nullptr) return;
    const larder::Material& m = *r.item.material;
    if (m.piece_word == "clove" && speaks_of(tokens, Concept::cloves))
        r.line.amount->unit = "clove";
    else if (m.name.view().find("leaf") != std::string_view::npos &&
             speaks_of(tokens, Concept::leaves))
        r.line.amount->unit = "leaf";
    else if (m.id == "dill-head" || (m.piece_word == "head" && speaks_of(tokens, Concept::heads)))
        r.line.amount->unit = "head";
}

/// Pepper in pieces, or by the hundred grams, is the fresh vegetable and not the spice.
void fresh_pepper(Reading& r) {
    if (r.item.material == nullptr || r.item.material->id != "pepper" || !r.amount) return;
    const Quantity& q = *r.amount;
    const bool pieces = q.measure == nullptr || q.is(Sort::count);
    if (!pieces && !(q.weighed() && q.base().low >= 100)) return;
    const auto fresh = larder::Larder().find("fresh pepper");
    if (!fresh) return;
    r.item.material = fresh->material;
    r.item.choices = {fresh->material};
}

/// The salt that the last words up to "salt" name: "Dunmarrow fine sea salt" is fine sea salt.
const larder::Material* named_salt(Tokens tokens) {
    std::string words;
    const larder::Material* found = nullptr;
    const auto salt = std::find_if(tokens.begin(), tokens.end(), [](const Token& t) {
        return t.sort == Token::Sort::word && t.is.any(Concept::salt);
    });
    if (salt == tokens.end()) return larder::Larder().find("salt")->material;
    for (auto t = salt;; --t) {
        if (t->sort != Token::Sort::word) break;
        words = t->folded + (words.empty() ? "" : " ") + words;
        const larder::Material* m = larder::find_exact(words);
        if (m != nullptr && m->role == Role::salt) found = m;
        if (t == tokens.begin()) break;
    }
    return found != nullptr ? found : larder::Larder().find("salt")->material;
}

/// "10 g de gros sel gris de mer", "4 tsp Harbourlight flake salt": words in front of salt change
/// its grain and not that it is salt, but for those of a closed list.
void plain_salt(Reading& r, Tokens tokens) {
    if (r.item.material != nullptr || !r.amount || r.amount->is(Sort::percent) || r.left_over)
        return;
    bool salt = false;
    bool behind = false; ///< the words are behind the salt
    std::size_t depth = 0;
    // "1 tablespoon plus 1 teaspoon": the amount says nothing of what it is.
    if (const auto opening = quantity_at(tokens, 0, {})) tokens = tokens.subspan(opening->tokens);
    for (const Token& t : tokens) {
        if (t.sort == Token::Sort::mark) {
            if (t.text == "(") ++depth;
            if (t.text == ")" && depth > 0) --depth;
            if (salt && depth == 0 && t.text != ")") behind = true;
            continue;
        }
        // "salt from the hills": what follows says where it is from.
        if (salt && depth == 0 && t.is.any({Concept::of, Concept::function})) behind = true;
        // "salt pork", and not "sel gris".
        const bool tail = r.item.tongue != nullptr && r.item.tongue->adjectives_behind;
        if (salt && !behind && depth == 0 && !tail && !is_preparation(t.folded) &&
            !t.is.any({Concept::large, Concept::small}))
            return;
        if (t.is.any({Concept::not_plain_salt, Concept::water, Concept::brine, Concept::vegetable,
                      Concept::seasoning_word, Concept::acid, Concept::liquid}) ||
            (depth == 0 && t.is.any({Concept::spice, Concept::also})))
            return;
        const larder::Material* m = larder::find_exact(t.folded);
        if (m != nullptr && m->role != Role::salt && depth == 0) return;
        salt = salt || (depth == 0 && t.is.any(Concept::salt));
    }
    if (!salt) return;
    r.item.material = named_salt(tokens);
    r.item.choices = {r.item.material};
    r.line.notes.emplace_back("Taken as plain salt.");
}

/// "half a cabbage leaf", "2 slices of beet": a part of a piece, from none to what it is at most.
void part_of_a_piece(Reading& r, Tokens tokens) {
    if (r.item.material == nullptr || r.item.material->role != Role::vegetable) return;
    // "perhaps a cabbage leaf": two or three of them.
    if (!r.amount && std::any_of(tokens.begin(), tokens.end(),
                                 [](const Token& t) { return t.is.any(Concept::leaf); })) {
        r.line.grams = units::Interval{0.0, 3 * bound("leaf")};
        return;
    }
    if (!r.amount || !r.line.grams ||
        !(r.amount->measure == nullptr || r.amount->is(Sort::count)) || !r.weights.empty())
        return;
    bool leaf = false;
    bool part = false;
    for (const Token& t : tokens) {
        if (t.sort == Token::Sort::mark && t.text != "-" && t.text != "'") break;
        leaf = leaf || t.is.any(Concept::leaf);
        part = part || t.is.any(Concept::part_of_piece);
    }
    if (!part && !leaf) return;
    const double most = leaf ? r.amount->count.high * bound("leaf") : r.line.grams->high;
    r.line.grams =
        units::Interval{0.0, std::min(r.line.grams->high, std::max(most, bound("leaf")))};
    if (!leaf) r.line.grams->high = std::max(r.line.grams->high, most);
    r.line.notes.emplace_back("A part of a piece: from none to all of it.");
}

/// What the verdict hangs on.
bool matters(Role role) {
    return role == Role::salt || role == Role::vegetable || role == Role::water ||
           role == Role::seasoning;
}

/// More than one thing for one amount, one of them salt, vegetable or water: how much there is of
/// each, or whether there is more of another, is not said.
bool another_thing(const Item& item, bool together) {
    const Role role = item.material->role;
    if (item.several) {
        for (const larder::Material* m : item.choices) {
            if (m == item.material) continue;
            if (m->role != role && (matters(m->role) || matters(role))) return true;
            // "1 kg cabbage and carrots" may be 1 kg in all, 1 kg of each, or 1 kg and some
            // carrots.
            if (m->role == role && matters(role) && !item.one_noun &&
                !(together && role == Role::vegetable))
                return true;
        }
    }
    return std::any_of(item.besides.begin(), item.besides.end(), [&](const larder::Material* m) {
        // "salt, canning salt" says which.
        return matters(m->role) && !(m->role == Role::salt && role == Role::salt);
    });
}

/// Several things, vegetables among them, in a line that gives so much of each.
bool shares(const Item& item) {
    bool vegetable = false;
    for (const auto* list : {&item.choices, &item.besides}) {
        for (const larder::Material* m : *list)
            vegetable = vegetable || m->role == Role::vegetable || m->role == Role::water;
    }
    return vegetable && item.choices.size() + item.besides.size() > 1;
}

bool mixed_choice(const Item& item) {
    if (item.several) return false;
    return std::any_of(item.choices.begin(), item.choices.end(), [&](const larder::Material* m) {
        return m->role != item.material->role &&
               (m->role == Role::salt || item.material->role == Role::salt ||
                m->role == Role::seasoning || item.material->role == Role::seasoning);
    });
}

} // namespace

std::string_view without_bullet(std::string_view line) {
    line = trimmed(line);
    while (!line.empty() && (line.front() == '*' || line.front() == '>' || line.front() == '|' ||
                             line.front() == '-' || line.front() == '+' || line.front() == '_' ||
                             line.front() == '=')) {
        line = trimmed(line.substr(1));
    }
    if (line.starts_with("[ ]") || line.starts_with("[x]") || line.starts_with("[X]") ||
        line.starts_with("[]")) {
        line = trimmed(line.substr(line.find(']') + 1));
    }
    if (line.starts_with("o ") && line.size() > 3 && (line[2] >= '0' && line[2] <= '9'))
        line = trimmed(line.substr(2));
    // "1) 5 lb cabbage", "2. 3 tbsp salt": a number of a list, if an amount or a word follows.
    std::size_t digits = 0;
    while (digits < line.size() && digits < 3 && line[digits] >= '0' && line[digits] <= '9')
        ++digits;
    if (digits > 0 && digits + 1 < line.size() && (line[digits] == ')' || line[digits] == '.') &&
        (line[digits + 1] == ' ' || line[digits + 1] == '\t')) {
        const std::string_view rest = trimmed(line.substr(digits + 1));
        if (!rest.empty()) line = rest;
    }
    // "1/ Wash the jar."
    if (digits > 0 && digits + 2 < line.size() && line[digits] == '/' && line[digits + 1] == ' ' &&
        !(line[digits + 2] >= '0' && line[digits + 2] <= '9'))
        line = trimmed(line.substr(digits + 1));
    while (line.starts_with("**") || line.starts_with("__"))
        line = trimmed(line.substr(2));
    while (line.ends_with("**") || line.ends_with("__"))
        line = trimmed(line.substr(0, line.size() - 2));
    return line;
}

namespace {

/// Settles which thing a line is of. @return false, with the reason in its notes, where it is not
/// one
bool settle_thing(Reading& r, bool all_together) {
    Line& line = r.line;
    if (r.item.material == nullptr) return false;
    if (!r.each && another_thing(r.item, all_together)) {
        line.notes.emplace_back(
            "It names more than one thing for one amount: how much there is of each is not said.");
        return false;
    }
    if (r.each && shares(r.item)) {
        line.notes.emplace_back("So much of each of several things: they are not told apart.");
        return false;
    }
    if (!r.each && r.item.several && all_together && line.material->role == Role::vegetable &&
        !r.item.one_noun) {
        r.item.material = larder::Larder().find("mixed vegetables")->material;
        r.item.choices = {r.item.material};
        line.notes.emplace_back("Counted as so much of the mixture.");
    }
    if (r.each) {
        // "1 tsp each salt and sugar": the salt is what counts.
        for (const larder::Material* m : r.item.choices) {
            if (m->role == Role::salt) r.item.material = m;
        }
        if (r.item.material->role == Role::salt) r.item.choices = {r.item.material};
    }
    line.material = r.item.material;
    if (mixed_choice(r.item)) {
        line.notes.emplace_back("Salt or something else: it is not said which.");
        return false;
    }
    return true;
}

/// "je Glas 1 TL Salz", "25 g salt (1 tsp for each jar)"
bool for_each_vessel(Tokens tokens) {
    for (std::size_t i = 0; i + 1 < tokens.size(); ++i) {
        if (tokens[i].is.any({Concept::per, Concept::each}) &&
            tokens[i + 1].is.any({Concept::vessel, Concept::batch}))
            return true;
    }
    return false;
}

/// Whether the amount of a thing may be another than what is read. @return its notes say why
bool amount_in_doubt(Reading& r, bool understood, bool salt) {
    Line& line = r.line;
    bool doubt = false;
    if (r.amount && r.amount->unclear) {
        doubt = true;
        line.notes.emplace_back("The number can be read two ways.");
    }
    if (understood && !doubt && !r.doubt.empty()) {
        doubt = true;
        line.notes.push_back(r.doubt);
    }
    // A number that was not read may be the one that matters.
    if (understood && !doubt && r.left_over && r.item.material->role != Role::aromatic &&
        r.item.material->role != Role::other) {
        doubt = true;
        line.notes.emplace_back("A number in this line is not understood.");
    }
    // A salt counted in pieces or tins is a misreading.
    if (salt && r.amount &&
        (r.amount->measure == nullptr || r.amount->is(Sort::count) || r.amount->is(Sort::length) ||
         r.amount->is(Sort::package)) &&
        r.weights.empty()) {
        doubt = true;
        line.notes.emplace_back("Salt in pieces: the amount is not understood.");
    }
    return doubt;
}

/// What a rate is a rate of, as it is shown.
Per per_of(const Ratio& ratio) {
    Per per;
    if (ratio.per) {
        per.amount = written(*ratio.per);
        if (ratio.per->weighed())
            per.grams = ratio.per->base();
        else if (ratio.per->is(Sort::volume) &&
                 (ratio.of == Whole::water || ratio.of == Whole::brine)) {
            const units::Interval ml = ratio.per->base();
            per.grams = units::Interval{ml.low * 0.9957, ml.high * 0.9998};
        }
    } else {
        per.amount = {100, 100, "%"};
    }
    per.of = ratio.of == Whole::vegetables             ? "vegetables"
             : ratio.of == Whole::water                ? "water"
             : ratio.of == Whole::brine                ? "brine"
             : ratio.of == Whole::vegetables_and_water ? "vegetables and water"
                                                       : "";
    return per;
}

} // namespace

Reading ingredient(std::string_view text, Tongue around, const larder::Material* salt) {
    Reading r = take_apart(text, around);
    fresh_pepper(r);
    const std::vector<Token> all_tokens = tokens_of(text);
    plain_salt(r, all_tokens);
    Line& line = r.line;
    line.text = std::string(text);
    line.item = r.item.words;
    if (r.amount) line.amount = written(*r.amount);
    line.sort = LineSort::ingredient;
    line.material = r.item.material;
    bool understood = settle_thing(r, speaks_of(all_tokens, {Concept::in_all, Concept::together}));
    const bool salt_line = understood && r.item.material->role == Role::salt;
    if (salt_line && !r.ratio) r.left_over = r.left_over || for_each_vessel(all_tokens);
    if (amount_in_doubt(r, understood, salt_line)) understood = false;
    if (!understood && line.notes.empty() && r.left_over && r.amount)
        line.notes.emplace_back("It holds a second amount or number: write one thing and its "
                                "amount on a line.");
    if (!understood) {
        line.material = nullptr;
        line.could_matter = true;
        line.sort = LineSort::unknown;
        r.item.material = nullptr;
        return r;
    }
    line.understood = true;
    line.role = r.item.material->role;
    own_piece_word(r, all_tokens);
    if (r.ratio) line.per = per_of(*r.ratio);
    weigh(r, salt);
    part_of_a_piece(r, all_tokens);
    return r;
}

Line read_line(std::string_view text) {
    const std::string plain = clean(text.substr(0, 4000));
    std::string one = plain;
    std::replace(one.begin(), one.end(), '\n', ' ');
    std::replace(one.begin(), one.end(), '\r', ' ');
    if (one.find(unseen) != std::string::npos) {
        Line line;
        line.text = made_visible(one);
        line.could_matter = true;
        line.notes.emplace_back("It holds characters that are not seen, or that turn the direction "
                                "of writing: type the line anew.");
        return line;
    }
    return ingredient(without_bullet(one), nullptr, nullptr).line;
}

} // namespace jarful::appraise
