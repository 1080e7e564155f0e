#include "engine/render/ruler.hpp"

#include "engine/units/amount.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

std::string blanks(int count) {
    return std::string(static_cast<std::size_t>(std::max(0, count)), ' ');
}

/// Writes words into a line at a column, after what stands there with a blank between.
void put(std::string& line, int at, const std::string& words) {
    const int least = line.empty() ? 0 : static_cast<int>(line.size()) + 1;
    at = std::max(at, least);
    line += blanks(at - static_cast<int>(line.size())) + words;
}

} // namespace

Ruler::Ruler(const std::vector<double>& shown, int room) {
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const double figure : shown) {
        if (!std::isfinite(figure)) continue;
        const double kept = std::clamp(figure, 0.0, 100.0);
        low = std::min(low, kept);
        high = std::max(high, kept);
    }
    if (low > high) low = high = 2;
    const int columns_free = std::max(room, 30) - 2 * margin;
    // Ten columns from one long mark to the next, and a little free at both ends.
    for (const double step : {0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0}) {
        const double stride = 10 * step;
        const double first = std::max(0.0, std::floor((low - 2 * step) / stride + 1e-9));
        const double last = std::max(first + 2, std::ceil((high + 2 * step) / stride - 1e-9));
        step_ = step;
        from_ = first * stride;
        length_ = static_cast<int>(std::lround((last - first) * 10));
        if (length_ <= columns_free) break;
    }
}

int Ruler::column(double percent) const {
    const double at = (percent - from_) / step_;
    return margin + static_cast<int>(std::lround(std::clamp(at, -1.0, length_ + 1.0)));
}

std::string Ruler::marks() const {
    std::string line = blanks(margin);
    for (int i = 0; i <= length_; ++i) {
        line += i % 10 == 0 ? '|' : i % 5 == 0 ? ':' : '.';
    }
    return line;
}

std::string Ruler::figures() const {
    std::string line;
    const int decimals = step_ < 0.1 ? 1 : 0;
    for (int i = 0; i <= length_; i += 10) {
        const std::string figure = units::print_fixed(from_ + i * step_, decimals);
        put(line, margin + i - static_cast<int>(figure.size()) / 2, figure);
    }
    return line + " %";
}

std::string Ruler::stretch(units::Interval bounds) const {
    if (std::isnan(bounds.low) || std::isnan(bounds.high)) return "";
    const int low = column(bounds.low);
    const int high = column(bounds.high);
    const bool before = low < margin;
    const bool beyond = high > margin + length_;
    std::string line = blanks(std::max(low, 0));
    if (low == high) return line + (before ? '<' : beyond ? '>' : 'v');
    line += before ? '<' : '[';
    line += std::string(static_cast<std::size_t>(high - low - 1), '=');
    return line + (beyond ? '>' : ']');
}

std::string Ruler::words(std::optional<double> low, std::optional<double> high) const {
    std::string line;
    if (low) put(line, column(*low) - 1, "low");
    if (high) put(line, column(*high) - 1, "high");
    return line;
}

} // namespace jarful::render
