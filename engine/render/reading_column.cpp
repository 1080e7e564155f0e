#include "engine/render/reading_column.hpp"

#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

std::size_t decimals_in(const std::string& figure) {
    const std::size_t point = figure.find('.');
    return point == std::string::npos ? 0 : figure.size() - point;
}

} // namespace

std::string reading_figure(double grams, double step_g) {
    std::string shown = units::print_reading(grams, step_g);
    if (shown.ends_with(" g")) shown.resize(shown.size() - 2);
    return shown;
}

void ReadingColumn::add(double grams, double step_g) {
    if (!units::reads_ounces(step_g))
        decimals_ = std::max(decimals_, decimals_in(reading_figure(grams, step_g)));
}

std::string ReadingColumn::figure(double grams, double step_g) const {
    const std::string shown = reading_figure(grams, step_g);
    if (units::reads_ounces(step_g)) return shown;
    const std::size_t missing = decimals_ - std::min(decimals_, decimals_in(shown));
    return shown + std::string(missing, ' ') + " g";
}

} // namespace jarful::render
