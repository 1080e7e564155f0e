#include "engine/kitchen/fitting.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <chrono>
#include <cmath>
#include <iostream>
#include <random>

namespace jarful::kitchen {
namespace {

/// What a choice is judged by: fewest, least empty, fewest different.
struct Best {
    int count = 1 << 30;
    double empty = 1e300;
    int different = 1 << 30;
};

/// Every choice there is.
void try_all(const std::vector<Vessel>& v, double volume, std::size_t at, int count, double room,
             int different, Best& best) {
    if (at == v.size()) {
        if (room < volume * (1 - 1e-11)) return;
        const double empty = room - volume;
        const bool better = count != best.count         ? count < best.count
                            : empty < best.empty - 1e-3 ? true
                            : empty > best.empty + 1e-3 ? false
                                                        : different < best.different;
        if (better)
            best = {count, std::min(empty, count == best.count ? best.empty : empty), different};
        return;
    }
    for (int n = 0; n <= v[at].have; ++n)
        try_all(v, volume, at + 1, count + n, room + n * v[at].brimful_ml, different + (n > 0),
                best);
}

/// A small kitchen: round volumes, of which many come to the same, or odd ones.
rc::Gen<std::vector<Vessel>> small_kitchen() {
    // At full size from the first case on: otherwise most kitchens would be empty.
    return rc::gen::resize(rc::kNominalSize, rc::gen::exec([] {
                               const int lines = *rc::gen::inRange(1, 7);
                               const bool odd = *rc::gen::arbitrary<bool>();
                               std::vector<Vessel> out;
                               for (int i = 0; i < lines; ++i) {
                                   Vessel v;
                                   v.name = "v" + std::to_string(i);
                                   v.have = *rc::gen::inRange(0, 4);
                                   v.brimful_ml =
                                       odd ? *rc::gen::inRange(1'000, 50'000'000) / 7919.0
                                           : *rc::gen::inRange(1, 13) * 250.0;
                                   out.push_back(v);
                               }
                               return out;
                           }));
}

int any_number(int from, int to) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(from, to));
}

RC_GTEST_PROP(Fitting, is_what_trying_every_choice_comes_to, ()) {
    const std::vector<Vessel> v = *small_kitchen();
    double all = 0;
    for (const Vessel& each : v)
        all += each.have * each.brimful_ml;
    const double volume = any_number(1, 1'050'000) * 1e-6 * std::max(all, 1.0);
    const Fit f = fit(v, {}, volume);
    double room = 0;
    std::vector<int> times(v.size());
    for (const Filled& each : f.filled) {
        room += each.usable_ml;
        ++times[each.vessel];
        RC_ASSERT(each.fill_ml <= each.usable_ml);
    }
    for (std::size_t i = 0; i < v.size(); ++i)
        RC_ASSERT(times[i] <= v[i].have);
    Best best;
    try_all(v, volume, 0, 0, 0, 0, best);
    if (best.count == 1 << 30) { // not everything fits
        RC_ASSERT(f.unplaced_ml > 0);
        RC_ASSERT(std::abs(room - all) <= 1e-9 * all);
        RC_ASSERT(!f.why.empty());
        return;
    }
    RC_ASSERT(f.exact);
    RC_ASSERT(f.unplaced_ml == 0);
    RC_ASSERT(static_cast<int>(f.filled.size()) == best.count);
    RC_ASSERT(std::abs(f.empty_ml - best.empty) <= 2.1e-3);
    double placed = 0;
    for (const Filled& each : f.filled)
        placed += each.fill_ml;
    RC_ASSERT(std::abs(placed - volume) <= 1e-9 * volume);
}

RC_GTEST_PROP(Fitting, takes_as_few_different_vessels_as_any_choice_as_good, ()) {
    // Round volumes only: there sums are equal or far apart.
    std::vector<Vessel> v = *small_kitchen();
    for (Vessel& each : v)
        each.brimful_ml = std::max(250.0, std::round(each.brimful_ml / 250) * 250);
    const double volume = any_number(1, 60) * 125.0;
    const Fit f = fit(v, {}, volume);
    Best best;
    try_all(v, volume, 0, 0, 0, 0, best);
    if (best.count == 1 << 30) return;
    std::vector<int> used(v.size());
    int different = 0;
    for (const Filled& each : f.filled)
        if (used[each.vessel]++ == 0) ++different;
    RC_ASSERT(different == best.different);
}

/// Not a bound to be met by any machine: the figure is reported.
TEST(FittingTime, forty_different_jars) {
    std::mt19937_64 random(11);
    double worst = 0;
    for (const auto& [low, high] : {std::pair{200.0, 5000.0}, std::pair{1000.0, 1100.0}}) {
        for (double part : {0.2, 0.5, 0.8}) {
            std::uniform_real_distribution<double> volume(low, high);
            std::vector<Vessel> v(40);
            double all = 0;
            for (Vessel& each : v) {
                each.brimful_ml = volume(random);
                all += each.brimful_ml;
            }
            const auto begin = std::chrono::steady_clock::now();
            const Fit f = fit(v, {}, part * all);
            const std::chrono::duration<double, std::milli> took =
                std::chrono::steady_clock::now() - begin;
            worst = std::max(worst, took.count());
            EXPECT_TRUE(f.exact);
        }
    }
    RecordProperty("worst_ms", std::to_string(worst));
    std::cout << "forty different jars: " << worst << " ms at worst of six kitchens\n";
}

} // namespace
} // namespace jarful::kitchen
