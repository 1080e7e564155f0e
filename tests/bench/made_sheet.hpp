#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/sheet/builder.hpp"
#include "engine/sheet/point_engine.hpp"

#include <fmt/format.h>
#include <muParser.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string>
#include <vector>

/// Sheets to measure with, and the bare parser beside them.
namespace jarful::bench {

/// A recipe of many lines: a given, and lines that are made of it and of the lines before, as
/// recipes make them. Half of the lines rest on one given and half on another.
inline sheet::Sheet made_sheet(std::size_t cells) {
    language::Findings findings;
    sheet::Builder builder(findings);
    builder.define_text("cabbage", "1.80 kg", true);
    builder.define_text("beet", "2.40 kg", true);
    std::size_t at = 2;
    for (; at < cells; ++at) {
        const auto name = [&](std::size_t back) {
            return at < 2 * back + 2 ? std::string(at % 2 == 0 ? "cabbage" : "beet")
                                     : fmt::format("c{}", at - 2 * back);
        };
        std::string text;
        switch (at / 2 % 5) {
        case 0:
            text = fmt::format("2.2 % of ({} + {})", name(7), name(3));
            break;
        case 1:
            text = fmt::format("1.5 g per kg of {}", at % 2 == 0 ? "cabbage" : "beet");
            break;
        case 2:
            text = fmt::format("max({} * 0.9, 5 g) + {} / 30", name(5), name(1));
            break;
        case 3:
            text = fmt::format("6 % of {}", at % 2 == 0 ? "cabbage" : "beet");
            break;
        default:
            text = fmt::format("round({} / 3, 5 g) + 0.3 * {}", name(2), name(4));
            break;
        }
        builder.define_text(fmt::format("c{}", at), text);
    }
    if (!builder.resolve()) {
        std::fputs("the generated recipe has faults\n", stderr);
        std::exit(1);
    }
    return builder.build();
}

inline double sum_of(sheet::Sheet& sheet) {
    double sum = 0;
    for (sheet::CellId id = 0; id < sheet.size(); ++id)
        sum += sheet.value(id);
    return sum;
}

/// One cell as the bare parser computes it: a compiled expression over bound variables.
struct Kept {
    sheet::CellId id;
    std::unique_ptr<mu::Parser> parser;
};

/// A parser stripped of everything that muParser offers and the formulas do not use.
inline std::unique_ptr<mu::Parser> bare_parser() {
    auto parser = std::make_unique<mu::Parser>();
    parser->EnableOptimizer(false);
    parser->ClearFun();
    parser->ClearConst();
    parser->DefineFun("jmin", [](double a, double b) { return b < a ? b : a; });
    parser->DefineFun("jmax", [](double a, double b) { return a < b ? b : a; });
    parser->DefineFun("jround", [](double x) { return std::round(x); });
    return parser;
}

/// Parsers kept for the cells that a change of `given` touches, each after those it uses. Whole
/// ones would take a gigabyte, where there are 50,000.
inline std::vector<Kept> keep_parsers(sheet::Sheet& sheet, sheet::CellId given,
                                      std::vector<double>& values) {
    std::vector<char> touched(sheet.size());
    touched[given] = 1;
    std::vector<Kept> kept;
    for (sheet::CellId id = 0; id < sheet.size(); ++id) { // generated in order
        values[id] = sheet.value(id);
        for (sheet::CellId used : sheet.dependencies(id))
            touched[id] = static_cast<char>(touched[id] | touched[used]);
        if (id == given || touched[id] == 0) continue;
        auto parser = bare_parser();
        for (sheet::CellId used : sheet.dependencies(id))
            parser->DefineVar(fmt::format("c{}", used), &values[used]);
        parser->SetExpr(sheet::print_for_parser(sheet.cell(id).formula, sheet.unknowns()));
        values[id] = parser->Eval();
        kept.push_back({id, std::move(parser)});
    }
    return kept;
}

} // namespace jarful::bench
