#pragma once

#include "engine/language/parse.hpp"

#include <gtest/gtest.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// Short ways to parse and to look at what came out, for the tests of the language.
namespace jarful::language::testing {

struct Parsed {
    Document document;
    Findings findings;
};

inline Parsed parse_bytes(std::string bytes) {
    Parsed p;
    auto source = read_source("test.jarful", std::move(bytes), p.findings);
    if (source) p.document = parse(std::move(*source), p.findings);
    return p;
}

/// One line in a recipe.
inline Parsed parse_line(std::string_view line) {
    return parse_bytes("recipe \"Ferry Lane\"\n" + std::string(line) + "\n");
}

/// One line in a kitchen.
inline Parsed parse_kitchen_line(std::string_view line) {
    return parse_bytes("kitchen \"Quay Street\"\n" + std::string(line) + "\n");
}

/// The codes in order, with a blank between.
inline std::string codes(const Findings& findings) {
    std::string all;
    for (const Diagnostic& d : findings.all())
        all += (all.empty() ? "" : " ") + d.code;
    return all;
}

/// The statement of the second line, which must be of this sort.
template <class S>
const S& second(const Parsed& p) {
    static const S none{};
    EXPECT_EQ(codes(p.findings), "");
    if (p.document.lines.size() < 2) {
        ADD_FAILURE() << "there is no second statement";
        return none;
    }
    const S* s = std::get_if<S>(&p.document.lines[1].statement);
    if (s == nullptr) {
        ADD_FAILURE() << "the second statement is of another sort";
        return none;
    }
    return *s;
}

/// An expression with all its groups in parentheses: `(a + (b * c))`.
inline std::string show(const Expressions& e, NodeId id, std::string_view text) {
    static const char* signs[] = {"",     "",      "",     "-",    "^",  "*",   "/",
                                  " of ", " per ", "+",    "-",    "<",  "<=",  ">",
                                  ">=",   " and ", " or ", "not ", "if", "call"};
    const Node& n = e[id];
    const auto raw = [&] {
        return std::string(text.substr(n.place.begin, n.place.end - n.place.begin));
    };
    switch (n.kind) {
    case NodeKind::amount:
    case NodeKind::unit: {
        std::string s = raw();
        while (!s.empty() && s.front() == '(')
            s = s.substr(1, s.size() - 2);
        return s;
    }
    case NodeKind::name:
        return e.names[n.index];
    case NodeKind::negate:
    case NodeKind::negation:
        return "(" + std::string(signs[static_cast<int>(n.kind)]) + show(e, n.a, text) + ")";
    case NodeKind::choose:
        return "(if " + show(e, n.a, text) + " then " + show(e, n.b, text) + " else " +
               show(e, n.c, text) + ")";
    case NodeKind::call: {
        std::string s(text.substr(n.sign.begin, n.sign.end - n.sign.begin));
        s += "(";
        for (NodeId i = 0; i < n.b; ++i)
            s += (i == 0 ? "" : ", ") + show(e, e.arguments[n.a + i], text);
        return s + ")";
    }
    default:
        return "(" + show(e, n.a, text) + signs[static_cast<int>(n.kind)] + show(e, n.b, text) +
               ")";
    }
}

/// The same for an expression that stands alone; the codes of its faults if it is refused.
inline std::string grouped(std::string_view text) {
    Findings findings;
    const auto lone = parse_expression(text, findings);
    if (!lone) return codes(findings);
    EXPECT_TRUE(findings.empty());
    return show(lone->expressions, lone->root, text);
}

inline std::string repeated(std::string_view piece, std::size_t times) {
    std::string s;
    s.reserve(piece.size() * times);
    for (std::size_t i = 0; i < times; ++i)
        s += piece;
    return s;
}

} // namespace jarful::language::testing
