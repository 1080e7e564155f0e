#include "cli/clock.hpp"

#include "cli/options.hpp"

#include <ctime>

namespace jarful::cli {

tend::Date today() {
    const std::time_t moment = std::time(nullptr);
    std::tm parts{};
    ::localtime_r(&moment, &parts);
    return tend::Date{std::chrono::year{parts.tm_year + 1900},
                      std::chrono::month{static_cast<unsigned>(parts.tm_mon) + 1},
                      std::chrono::day{static_cast<unsigned>(parts.tm_mday)}};
}

std::chrono::sys_seconds now() {
    return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
}

std::optional<int> read_day(const std::optional<std::string>& typed, std::string_view option,
                            const Command& command, tend::Date& day) {
    if (!typed) {
        day = today();
        return std::nullopt;
    }
    const auto date = tend::read_date(*typed);
    if (!date) {
        return usage_fault(in_quotes(*typed) + " behind " + std::string(option) +
                               " is no day. Write year, month and day, as in 2026-11-25.",
                           command);
    }
    day = *date;
    return std::nullopt;
}

} // namespace jarful::cli
