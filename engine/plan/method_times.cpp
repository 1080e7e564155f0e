#include "engine/plan/method_times.hpp"

#include "engine/units/amount.hpp"

#include <fmt/core.h>

namespace jarful::plan {

namespace {

using language::Findings;

bool time(const language::Literal& literal, std::string_view what, Findings& findings) {
    const units::Amount& a = literal.amount;
    if (a.dimension != units::dim::time) {
        findings.fault(
            "wrong-dimension", literal.place,
            fmt::format("{} is a time; this is {}.", what,
                        a.temperature_point ? "a temperature" : units::describe(a.dimension)),
            "Write it as in `30 min`, `12 h` or `2 days`.");
        return false;
    }
    constexpr double year = 366 * 86'400.0;
    if (a.low > 0 && a.high <= 5 * year) return true;
    findings.fault("absurd-amount", literal.place,
                   fmt::format("{} cannot be {}.", what, units::print_time(a.value)),
                   "Check the number and the unit.");
    return false;
}

bool near(const std::optional<language::Whole>& day, Findings& findings) {
    constexpr int longest = 5 * 366;
    if (!day || day->value <= longest) return true;
    findings.fault("absurd-amount", day->place,
                   fmt::format("Day {} is more than five years away.", day->value),
                   "Check the number: days are counted from the packing of the jar.");
    return false;
}

bool in_order(const std::optional<language::Whole>& from, const std::optional<language::Whole>& to,
              Findings& findings) {
    if (!from || !to || from->value <= to->value) return true;
    findings.fault("reversed-days", to->place,
                   fmt::format("Day {} comes before day {}.", to->value, from->value),
                   "Write the earlier day first.");
    return false;
}

bool temperature(const std::optional<language::Literal>& literal, Findings& findings) {
    if (!literal) return true;
    const units::Amount& a = literal->amount;
    // From a cold cellar to warmer than any ferment: a slip of °C and °F falls outside.
    constexpr double coldest = units::zero_celsius - 10;
    constexpr double warmest = units::zero_celsius + 50;
    if (a.temperature_point && a.value >= coldest && a.value <= warmest) return true;
    findings.fault("absurd-amount", literal->place,
                   a.temperature_point
                       ? fmt::format("Nothing ferments at {}.", units::print_temperature(a.value))
                       : "What stands after `at` is a temperature.",
                   "Write it as in `at 18 to 22 °C`.");
    return false;
}

} // namespace

// Every check is made, so that all that is wrong is said at once.

bool can_be_meant(const language::RestLine& line, Findings& findings) {
    return time(line.time, "A rest", findings);
}

bool can_be_meant(const language::TendLine& line, Findings& findings) {
    bool good = true;
    for (const auto* day : {&line.from_day, &line.to_day, &line.on_day})
        good &= near(*day, findings);
    if (line.every) good &= time(*line.every, "How often something is done", findings);
    good &= in_order(line.from_day, line.to_day, findings);
    return good;
}

bool can_be_meant(const language::ReadyLine& line, Findings& findings) {
    bool good = near(line.from_day, findings);
    good &= near(line.to_day, findings);
    good &= in_order(line.from_day, line.to_day, findings);
    good &= temperature(line.from_temperature, findings);
    good &= temperature(line.to_temperature, findings);
    return good;
}

bool can_be_meant(const language::KeepLine& line, Findings& findings) {
    static constexpr int days[] = {1, 7, 31, 366};
    constexpr int longest = 50 * 366;
    if (line.count.value <= longest / days[static_cast<std::size_t>(line.period)]) return true;
    findings.fault("absurd-amount", line.count.place, "Nothing keeps for fifty years.",
                   "Check the number and the word after it.");
    return false;
}

} // namespace jarful::plan
