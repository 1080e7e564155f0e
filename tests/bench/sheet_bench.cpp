#include "engine/language/diagnostic.hpp"
#include "engine/sheet/builder.hpp"
#include "engine/sheet/point_engine.hpp"

#include <fmt/format.h>
#include <muParser.h>

#include <algorithm>
#include <benchmark/benchmark.h>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <string>
#include <vector>

// How fast a sheet is made, and how fast it follows a change, beside the bare parser.

namespace {

using namespace jarful;
using Clock = std::chrono::steady_clock;

/// A recipe of many lines: a given, and lines that are made of it and of the lines before, as
/// recipes make them. Half of the lines rest on one given and half on another.
sheet::Sheet made(std::size_t cells) {
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

double sum_of(sheet::Sheet& sheet) {
    double sum = 0;
    for (sheet::CellId id = 0; id < sheet.size(); ++id)
        sum += sheet.value(id);
    return sum;
}

/// Everything that loading takes: reading every line, resolving, lowering, the first values.
void load(benchmark::State& state) {
    const auto cells = static_cast<std::size_t>(state.range(0));
    for (auto _ : state) {
        sheet::Sheet sheet = made(cells);
        benchmark::DoNotOptimize(sum_of(sheet));
    }
    state.counters["per_cell"] = benchmark::Counter(static_cast<double>(cells),
                                                    benchmark::Counter::kIsIterationInvariantRate |
                                                        benchmark::Counter::kInvert);
}
BENCHMARK(load)->Arg(1'000)->Arg(10'000)->Arg(100'000)->Unit(benchmark::kMillisecond);

/// One cell as the bare parser computes it: a compiled expression over bound variables.
struct Kept {
    sheet::CellId id;
    std::unique_ptr<mu::Parser> parser;
};

/// Parsers kept for the cells that a change of `given` touches, each after those it uses. They are
/// stripped of everything that muParser offers and the formula does not use, or 50,000 of them
/// would take a gigabyte.
std::vector<Kept> keep_parsers(sheet::Sheet& sheet, sheet::CellId given,
                               std::vector<double>& values) {
    std::vector<char> touched(sheet.size());
    touched[given] = 1;
    std::vector<Kept> kept;
    for (sheet::CellId id = 0; id < sheet.size(); ++id) { // generated in order
        values[id] = sheet.value(id);
        for (sheet::CellId used : sheet.dependencies(id))
            touched[id] = static_cast<char>(touched[id] | touched[used]);
        if (id == given || touched[id] == 0) continue;
        auto parser = std::make_unique<mu::Parser>();
        parser->EnableOptimizer(false);
        parser->ClearFun();
        parser->ClearConst();
        parser->DefineFun("jmin", [](double a, double b) { return b < a ? b : a; });
        parser->DefineFun("jmax", [](double a, double b) { return a < b ? b : a; });
        parser->DefineFun("jround", [](double x) { return std::round(x); });
        for (sheet::CellId used : sheet.dependencies(id))
            parser->DefineVar(fmt::format("c{}", used), &values[used]);
        parser->SetExpr(sheet::print_for_parser(sheet.cell(id).formula, sheet.unknowns()));
        values[id] = parser->Eval();
        kept.push_back({id, std::move(parser)});
    }
    return kept;
}

/// One given changed, everything that depends on it computed again: ours against nothing but the
/// Eval calls, turn by turn in one run, so that a busy machine slows both.
void change(benchmark::State& state) {
    sheet::Sheet sheet = made(static_cast<std::size_t>(state.range(0)));
    std::vector<double> values(sheet.size());
    const sheet::CellId given = 0;
    const std::vector<Kept> kept = keep_parsers(sheet, given, values);
    std::chrono::duration<double> ours{0}, bare{0};
    const std::size_t evaluations = sheet.evaluations();
    double weight = 1800;
    for (auto _ : state) {
        weight = weight > 2500 ? 1500 : weight + 1;
        const auto start = Clock::now();
        sheet.set(given, weight);
        for (const Kept& k : kept)
            benchmark::DoNotOptimize(sheet.value(k.id));
        const auto middle = Clock::now();
        values[given] = weight;
        for (const Kept& k : kept)
            values[k.id] = k.parser->Eval();
        const auto end = Clock::now();
        ours += middle - start;
        bare += end - middle;
        state.SetIterationTime(std::chrono::duration<double>(middle - start).count());
    }
    for (const Kept& k : kept)
        if (values[k.id] != sheet.value(k.id)) state.SkipWithError("the two do not agree");
    const auto rounds = static_cast<double>(state.iterations());
    const auto touched = static_cast<double>(kept.size());
    state.counters["touched"] = touched;
    state.counters["evaluated"] = static_cast<double>(sheet.evaluations() - evaluations) / rounds;
    state.counters["ns/cell"] = ours.count() / rounds / touched * 1e9;
    state.counters["bare_ns/cell"] = bare.count() / rounds / touched * 1e9;
    state.counters["ratio"] = ours / bare;
}
BENCHMARK(change)->Arg(100)->Arg(10'000)->Arg(100'000)->UseManualTime()->Unit(
    benchmark::kMicrosecond);

/// Ten thousand trial values for one given, all the way to the last line.
void what_if(benchmark::State& state) {
    sheet::Sheet sheet = made(static_cast<std::size_t>(state.range(0)));
    std::vector<double> tried(10'240), out(tried.size());
    for (std::size_t i = 0; i < tried.size(); ++i)
        tried[i] = 1000 + static_cast<double>(i) / 10;
    const auto last = static_cast<sheet::CellId>(sheet.size() - 2);
    for (auto _ : state)
        benchmark::DoNotOptimize(sheet.what_if(0, tried, last, out));
    state.counters["values/s"] = benchmark::Counter(static_cast<double>(tried.size()),
                                                    benchmark::Counter::kIsIterationInvariantRate);
}
BENCHMARK(what_if)->Arg(100)->Unit(benchmark::kMicrosecond);

} // namespace

BENCHMARK_MAIN();
