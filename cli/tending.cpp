#include "cli/tending.hpp"

#include "cli/options.hpp"
#include "engine/units/amount.hpp"

namespace jarful::cli {

std::optional<int> read_celsius(const std::string& typed, std::string_view option,
                                const Command& command, std::optional<double>& celsius) {
    // The degree sign is not on every keyboard: 19C is 19 °C.
    std::string text = typed;
    if (!text.empty() && (text.back() == 'C' || text.back() == 'F') &&
        text.find("°") == std::string::npos)
        text.insert(text.size() - 1, "°");
    const auto amount = units::read_amount(text);
    const double value = amount ? amount->value - units::zero_celsius : 0;
    if (!amount || !amount->temperature_point || value < -10 || value > 50) {
        return usage_fault(in_quotes(typed) + " behind " + std::string(option) +
                               " is no temperature of a jar. Write it as in 19C or 66F.",
                           command);
    }
    celsius = value;
    return std::nullopt;
}

} // namespace jarful::cli
