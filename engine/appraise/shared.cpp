#include "engine/appraise/shared.hpp"

#include "engine/appraise/item.hpp"
#include "engine/appraise/quantity.hpp"

#include <algorithm>
#include <optional>

namespace jarful::appraise {

using Tokens = std::span<const Token>;

namespace {

/// A word that gives the amount beside it to each of several things.
bool each_at(Tokens tokens, std::size_t i) {
    if (!any_word(tokens, i, {"each", "apiece", "jeweils", "chacun", "chacune", "chaque", "je"}))
        return false;
    // "salt for each jar", "in jeder" give so much for something.
    if (i > 0 && any_word(tokens, i - 1,
                          {"for", "to", "per", "in", "into", "on", "with", "from", "pour", "par",
                           "dans", "between"}))
        return false;
    // "20 g Salz je kg" is a ratio; "je 20 g" at the beginning, or behind a mark, is not.
    if (is_word(tokens, i, "je"))
        return (i == 0 || tokens[i - 1].sort == Token::Sort::mark) && i + 1 < tokens.size() &&
               tokens[i + 1].sort == Token::Sort::number;
    return true;
}

struct Parts {
    std::vector<Token> amount; ///< one run of the line
    std::vector<Token> things;
};

/// The amount, and the tokens that name the things.
std::optional<Parts> parts_of(Tokens tokens) {
    const auto run = [&](std::size_t from, std::size_t to) {
        return std::vector<Token>(tokens.begin() + static_cast<std::ptrdiff_t>(from),
                                  tokens.begin() + static_cast<std::ptrdiff_t>(to));
    };
    // In front: "500 g each of …", "500 g of each: …", "je 500 g …".
    const bool first = each_at(tokens, 0);
    const std::size_t begin = first ? 1 : 0;
    if (const auto q = quantity_at(tokens, begin, {})) {
        std::size_t at = begin + q->tokens;
        bool each = first;
        while (at < tokens.size()) {
            if (each_at(tokens, at))
                each = true;
            else if (!any_word(tokens, at, {"of", "de", "d", "the"}) && !is_mark(tokens, at, ":"))
                break;
            ++at;
        }
        if (!each) return std::nullopt;
        return Parts{run(begin, begin + q->tokens), run(at, tokens.size())};
    }
    // Behind: "cabbage and carrots, 500 g each", "Kohl und Karotten, je 500 g".
    for (std::size_t i = 1; i < tokens.size(); ++i) {
        if (is_word(tokens, i, "je") && each_at(tokens, i)) {
            const auto q = quantity_at(tokens, i + 1, {}, false);
            if (!q) continue;
            return Parts{run(i + 1, i + 1 + q->tokens), run(0, i)};
        }
        const auto q = quantity_at(tokens, i, {}, false);
        if (!q || !each_at(tokens, i + q->tokens)) continue;
        std::vector<Token> things = run(0, i);
        const std::vector<Token> behind = run(i + q->tokens + 1, tokens.size());
        things.insert(things.end(), behind.begin(), behind.end());
        return Parts{run(i, i + q->tokens), things};
    }
    return std::nullopt;
}

} // namespace

Shared shared_amount(Tokens tokens, Tongue tongue) {
    Shared out;
    if (tokens.size() > 80) return out;
    const auto parts = parts_of(tokens);
    if (!parts) return out;
    // The things, without what stands in parentheses, which holds for each.
    std::vector<std::vector<Token>> things(1);
    std::string aside;
    bool clear = true;
    int depth = 0;
    for (std::size_t i = 0; i < parts->things.size(); ++i) {
        const Token& token = parts->things[i];
        const Tokens here(parts->things);
        if (is_mark(here, i, "(") || is_mark(here, i, "[")) {
            ++depth;
        } else if (is_mark(here, i, ")") || is_mark(here, i, "]")) {
            depth = std::max(0, depth - 1);
        } else if (token.sort == Token::Sort::number) {
            clear = false;
        } else if (depth > 0) {
            aside += (aside.empty() ? "" : " ") + std::string(token.text);
        } else if (any_word(here, i, {"and", "und", "et", "plus", "sowie"}) ||
                   (token.sort == Token::Sort::mark && token.text != "'" && token.text != "." &&
                    !(token.text == "-" && token.glued))) {
            if (!things.back().empty()) things.emplace_back();
        } else if (token.sort == Token::Sort::word || token.text != ".") {
            if (any_word(here, i, {"or", "oder", "ou", "jar", "jars", "glas", "bocal"}))
                clear = false;
            things.back().push_back(token);
        }
    }
    for (std::vector<Token>& thing : things) {
        while (!thing.empty() && thing.back().sort == Token::Sort::mark)
            thing.pop_back();
    }
    std::erase_if(things, [](const std::vector<Token>& thing) {
        return std::all_of(thing.begin(), thing.end(), [](const Token& t) {
            return t.sort == Token::Sort::mark || is_preparation(t.folded);
        });
    });
    if (things.size() < 2) return out;
    out.each = true;
    if (!clear || things.size() > 12) return out;
    // A name that is short of its noun borrows the last one: "green and red cabbage".
    const Token noun = things.back().back();
    const bool thing = larder::find_exact(noun.folded) != nullptr;
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < things.size(); ++i) {
        std::string name = text_of(things[i]);
        std::vector<Token> longer = things[i];
        longer.push_back(noun);
        const bool last = i + 1 == things.size();
        const bool alone = item_of(things[i], tongue).material != nullptr;
        if (!last && (!alone || !thing) && item_of(longer, tongue).material != nullptr)
            name += " " + std::string(noun.text);
        else if (!alone)
            return out;
        lines.push_back(text_of(parts->amount) + " " + name +
                        (aside.empty() ? "" : " (" + aside + ")"));
    }
    out.lines = std::move(lines);
    return out;
}

} // namespace jarful::appraise
