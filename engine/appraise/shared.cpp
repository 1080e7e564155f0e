#include "engine/appraise/shared.hpp"

#include "engine/appraise/item.hpp"
#include "engine/appraise/quantity.hpp"

#include <algorithm>
#include <optional>

namespace jarful::appraise {

using Tokens = std::span<const Token>;

namespace {

std::vector<Token> run(Tokens tokens, std::size_t from, std::size_t to) {
    return {tokens.begin() + static_cast<std::ptrdiff_t>(from),
            tokens.begin() + static_cast<std::ptrdiff_t>(to)};
}

/// A word that gives the amount beside it to each of several things.
bool each_at(Tokens tokens, std::size_t i) {
    if (!means(tokens, i, Concept::each_of_them)) return false;
    // "salt for each jar", "in jeder" give so much for something.
    if (i > 0 && means(tokens, i - 1,
                       {Concept::purpose, Concept::within, Concept::upon, Concept::per_plain,
                        Concept::per_each, Concept::between}))
        return false;
    // "20 g Salz je kg" is a ratio; "je 20 g" at the beginning, or behind a mark, is not.
    return !means(tokens, i, Concept::per_each) ||
           ((i == 0 || tokens[i - 1].sort == Token::Sort::mark) && i + 1 < tokens.size() &&
            tokens[i + 1].sort == Token::Sort::number);
}

struct Parts {
    std::vector<Token> amount; ///< one run of the line
    std::vector<Token> things;
};

/// In front: "500 g each of …", "500 g of each: …", "je 500 g …".
std::optional<Parts> amount_in_front(Tokens tokens, std::size_t begin, const FoundQuantity& q) {
    std::size_t at = begin + q.tokens;
    bool each = begin > 0;
    for (; at < tokens.size(); ++at) {
        if (each_at(tokens, at))
            each = true;
        else if (!means(tokens, at, {Concept::of, Concept::the}) && !is_mark(tokens, at, ":"))
            break;
    }
    if (!each) return std::nullopt;
    return Parts{run(tokens, begin, begin + q.tokens), run(tokens, at, tokens.size())};
}

/// The amount, and the tokens that name the things.
std::optional<Parts> parts_of(Tokens tokens) {
    const std::size_t begin = each_at(tokens, 0) ? 1 : 0;
    if (const auto q = quantity_at(tokens, begin, {})) return amount_in_front(tokens, begin, *q);
    // Behind: "cabbage and carrots, 500 g each", "Kohl und Karotten, je 500 g".
    for (std::size_t i = 1; i < tokens.size(); ++i) {
        if (each_at(tokens, i) && means(tokens, i, Concept::per_each)) {
            const auto q = quantity_at(tokens, i + 1, {}, false);
            if (!q) continue;
            return Parts{run(tokens, i + 1, i + 1 + q->tokens), run(tokens, 0, i)};
        }
        if (tokens[i].sort != Token::Sort::number && about_at(tokens, i) == 0) continue;
        const auto q = quantity_at(tokens, i, {}, false);
        if (!q || !each_at(tokens, i + q->tokens)) continue;
        std::vector<Token> things = run(tokens, 0, i);
        const Tokens behind = tokens.subspan(i + q->tokens + 1);
        things.insert(things.end(), behind.begin(), behind.end());
        return Parts{run(tokens, i, i + q->tokens), things};
    }
    return std::nullopt;
}

struct Things {
    std::vector<std::vector<Token>> each;
    std::string aside; ///< what stands in parentheses, which holds for each
    bool clear = true; ///< no number, vessel or alternative among them
};

Things things_of(Tokens tokens) {
    Things out;
    out.each.emplace_back();
    int depth = 0;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const Token& token = tokens[i];
        const bool word = token.sort == Token::Sort::word;
        if (is_mark(tokens, i, "(") || is_mark(tokens, i, "[")) {
            ++depth;
        } else if (is_mark(tokens, i, ")") || is_mark(tokens, i, "]")) {
            depth = std::max(0, depth - 1);
        } else if (token.sort == Token::Sort::number) {
            out.clear = false;
        } else if (depth > 0) {
            out.aside += (out.aside.empty() ? "" : " ") + std::string(token.text);
        } else if (means(tokens, i, Concept::sum) ||
                   (!word && token.text != "'" && token.text != "." &&
                    !(token.text == "-" && token.glued))) {
            if (!out.each.back().empty()) out.each.emplace_back();
        } else if (word || token.text != ".") {
            out.clear = out.clear && !means(tokens, i, {Concept::either, Concept::vessel});
            out.each.back().push_back(token);
        }
    }
    for (std::vector<Token>& thing : out.each) {
        while (!thing.empty() && thing.back().sort == Token::Sort::mark)
            thing.pop_back();
    }
    std::erase_if(out.each, [](const std::vector<Token>& thing) {
        return std::all_of(thing.begin(), thing.end(), [](const Token& t) {
            return t.sort == Token::Sort::mark || t.is.any(Concept::preparation);
        });
    });
    return out;
}

} // namespace

Shared shared_amount(Tokens tokens, Tongue tongue) {
    Shared out;
    if (tokens.size() > 80 || !speaks_of(tokens, Concept::each_of_them)) return out;
    const auto parts = parts_of(tokens);
    if (!parts) return out;
    const Things things = things_of(parts->things);
    if (things.each.size() < 2) return out;
    out.each = true;
    if (!things.clear || things.each.size() > 12) return out;
    // A name that is short of its noun borrows the last one: "green and red cabbage".
    const Token noun = things.each.back().back();
    const bool thing = larder::find_exact(noun.folded) != nullptr;
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < things.each.size(); ++i) {
        std::string name = text_of(things.each[i]);
        std::vector<Token> longer = things.each[i];
        longer.push_back(noun);
        const bool last = i + 1 == things.each.size();
        const bool alone = item_of(things.each[i], tongue).material != nullptr;
        if (!last && (!alone || !thing) && item_of(longer, tongue).material != nullptr)
            name += " " + std::string(noun.text);
        else if (!alone)
            return out;
        lines.push_back(text_of(parts->amount) + " " + name +
                        (things.aside.empty() ? "" : " (" + things.aside + ")"));
    }
    out.lines = std::move(lines);
    return out;
}

} // namespace jarful::appraise
