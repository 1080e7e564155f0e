#include "tests/bench/made_sheet.hpp"

#include <benchmark/benchmark.h>
#include <chrono>

// How fast a sheet is made, and how fast it follows a change, beside the bare parser.

namespace {

using namespace jarful;
using namespace jarful::bench;
using Clock = std::chrono::steady_clock;

/// Everything that loading takes: reading every line, resolving, lowering, the first values.
void load(benchmark::State& state) {
    const auto cells = static_cast<std::size_t>(state.range(0));
    for (auto _ : state) {
        sheet::Sheet sheet = made_sheet(cells);
        benchmark::DoNotOptimize(sum_of(sheet));
    }
    state.counters["per_cell"] = benchmark::Counter(static_cast<double>(cells),
                                                    benchmark::Counter::kIsIterationInvariantRate |
                                                        benchmark::Counter::kInvert);
}
BENCHMARK(load)->Arg(1'000)->Arg(10'000)->Arg(100'000)->Unit(benchmark::kMillisecond);

/// One given changed, everything that depends on it computed again: ours against nothing but the
/// Eval calls, turn by turn in one run, so that a busy machine slows both.
void change(benchmark::State& state) {
    sheet::Sheet sheet = made_sheet(static_cast<std::size_t>(state.range(0)));
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
    sheet::Sheet sheet = made_sheet(static_cast<std::size_t>(state.range(0)));
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
