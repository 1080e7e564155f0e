#include "tests/bench/what_if.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::bench {

// As someone would write it by hand who needs no other recipe. Grams and millilitres.
void what_if_native(const double* cabbages, double* totals, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
        const double cabbage = cabbages[i];
        const double carrot = 0.06 * cabbage;
        const double onion = std::min(0.04 * cabbage, 90.0);
        const double produce = cabbage + carrot + onion;
        const double salt = 0.022 * produce;
        const double caraway = 0.0015 * cabbage;
        const double juniper = std::max(0.0005 * cabbage, 1.0);
        const double bay = cabbage / 1000;
        const double volume = produce / 0.9;
        const double headspace = std::max(0.12 * volume, 100.0);
        const double pot = volume + headspace;
        totals[i] = produce + salt + caraway + juniper + 0.2 * bay + 0.001 * pot;
    }
}

} // namespace jarful::bench
