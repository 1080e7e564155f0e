#include "engine/plan/warning.hpp"

#include <algorithm>
#include <array>

namespace jarful::plan {

namespace {

/// Where the measure begins that ends at `end`, if it is one in a metric unit: "21 to 24 °C".
std::size_t metric_begin(std::string_view text, std::size_t end) {
    static constexpr std::array<std::string_view, 7> known{" °C", " mm", " cm", " g",
                                                           " kg", " mL", " L"};
    const std::string_view before = text.substr(0, end);
    const auto unit = std::find_if(known.begin(), known.end(),
                                   [&](std::string_view u) { return before.ends_with(u); });
    if (unit == known.end()) return end;
    std::size_t at = end - unit->size();
    const auto number = [&] {
        while (at > 0 && (text[at - 1] == '.' || (text[at - 1] >= '0' && text[at - 1] <= '9')))
            --at;
    };
    const std::size_t last = at;
    number();
    if (at == last) return end; // a unit without a number
    constexpr std::string_view to = " to ";
    if (!text.substr(0, at).ends_with(to)) return at;
    const std::size_t one = at;
    at -= to.size();
    const std::size_t first = at;
    number();
    return at == first ? one : at;
}

} // namespace

std::string in_own_measures(std::string_view text, units::Shown shown) {
    if (shown.style() == units::Style::metric) return std::string(text);
    std::string out;
    std::size_t done = 0;
    for (std::size_t open = text.find(" ("); open != text.npos; open = text.find(" (", open + 1)) {
        const std::size_t close = text.find(')', open);
        const std::size_t begin = metric_begin(text, open);
        if (close == text.npos || begin == open || begin < done) continue;
        out += text.substr(done, begin - done);
        out += text.substr(open + 2, close - open - 2);
        done = close + 1;
    }
    return out += text.substr(done);
}

Warning warning_of(const larder::Caution& caution, units::Shown shown) {
    return {std::string(caution.id), std::string(caution.title),
            in_own_measures(caution.text, shown), std::string(caution.source)};
}

} // namespace jarful::plan
