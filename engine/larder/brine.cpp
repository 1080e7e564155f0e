#include "engine/larder/larder.hpp"
#include "engine/larder/tables.hpp"

#include <algorithm>
#include <array>

namespace jarful::larder {

namespace {

/// Four neighbouring nodes of a rising column and what each counts at `x`: the cubic through four
/// points (Lagrange). A straight line would be 0.2 kg/m³ off between 0 and 10 °C, where water is
/// densest in between.
struct Weights {
    std::size_t first = 0;
    std::array<double, 4> weight{};
};

Weights weights(std::span<const double> nodes, double x) {
    const auto above = std::upper_bound(nodes.begin(), nodes.end(), x) - nodes.begin();
    Weights w;
    w.first = static_cast<std::size_t>(
        std::clamp<std::ptrdiff_t>(above - 2, 0, static_cast<std::ptrdiff_t>(nodes.size()) - 4));
    for (std::size_t i = 0; i < 4; ++i) {
        w.weight[i] = 1;
        for (std::size_t j = 0; j < 4; ++j) {
            if (i == j) continue;
            const double node = nodes[w.first + j];
            w.weight[i] *= (x - node) / (nodes[w.first + i] - node);
        }
    }
    return w;
}

} // namespace

std::optional<Figure> brine_density(double salt_fraction, double celsius) {
    const tables::BrineGrid& grid = tables::brine;
    double percent = salt_fraction * 100;
    // 0.26 times 100 is a hair above 26: what the caller means is the edge itself.
    if (percent > grid.percent.back() && salt_fraction <= 0.26) percent = grid.percent.back();
    const bool inside = percent >= grid.percent.front() && percent <= grid.percent.back() &&
                        celsius >= grid.celsius.front() && celsius <= grid.celsius.back();
    if (!inside) return std::nullopt; // also for a NaN, which compares with nothing

    const Weights across = weights(grid.percent, percent);
    const Weights down = weights(grid.celsius, celsius);
    double density = 0;
    for (std::size_t row = 0; row < 4; ++row) {
        const double* const line =
            grid.density.data() + (down.first + row) * grid.percent.size() + across.first;
        double here = 0;
        for (std::size_t column = 0; column < 4; ++column)
            here += across.weight[column] * line[column];
        density += down.weight[row] * here;
    }
    return Figure{(density - grid.error) / 1000, density / 1000, (density + grid.error) / 1000,
                  grid.status, grid.source};
}

} // namespace jarful::larder
