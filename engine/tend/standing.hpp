#pragma once

#include "engine/tend/record.hpp"
#include "engine/tend/schedule.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// How a batch stands on a day: what is due, what is overdue, and what is not as it should be.
namespace jarful::tend {

/// The worst first.
enum class Concern : std::uint8_t {
    ph_high,      ///< above 4.6 past the day by which it should have come down
    salt_low,     ///< below its range, by what was really weighed
    ph_rising,    ///< it was down and has come up again
    too_cold,     ///< the last temperature is colder than what is published
    too_warm,     ///< or warmer
    missed,       ///< a task that was due and of which nothing is noted
    past_keeping, ///< the end of its keeping time is over
    salt_off,     ///< above its range, or it cannot be told
    silence,      ///< nothing was noted for long
    due,          ///< to be done today
    unknown       ///< cannot be told: no published row says
};
/// "ph_high", "salt_low", …
[[nodiscard]] std::string_view key(Concern concern);

struct Finding {
    Concern concern = Concern::due;
    std::string task;   ///< of `missed` and `due`: the task, or "ph", "ready", "move"
    int days_late = 0;  ///< of what is overdue
    std::string text;   ///< a sentence: what there is
    std::string advice; ///< a sentence: what to do; may be empty
    std::string source; ///< of the figure it rests on; may be empty
    /// Whether it is more than a task of today or an answer that nobody has.
    [[nodiscard]] bool wrong() const {
        return concern != Concern::due && concern != Concern::unknown;
    }
};

struct Standing {
    Schedule schedule;
    int day = 0;       ///< today, counted from the packing
    bool begun = true; ///< false: the batch begins on a later day
    bool ended = false, moved = false;
    std::optional<double> last_ph;
    std::optional<Date> last_ph_date;
    std::optional<double> last_celsius;
    std::optional<Date> last_note;
    std::vector<Finding> findings; ///< the worst first
};

/// How long a batch in the room may go without a line in its record. Common practice, no source.
inline constexpr int silent_days = 7;
/// How long what was done every so often and is over now is still asked for. Our own choice.
inline constexpr int after_days = 3;

/// How the batch stands on the evening before `today` and what is due on it. Lines of later days
/// are left out of account. The salt is not looked at: that takes the recipe; see add_finding.
/// @param shown in which units the findings speak of temperatures.
[[nodiscard]] Standing standing(const Record& record, Date today, units::Shown shown = {});

/// Puts a finding in its place.
void add_finding(std::vector<Finding>& findings, Finding finding);

} // namespace jarful::tend
