#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/tend/dates.hpp"
#include "engine/tend/outlook.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// A recipe's lines of what to look after, with dates. The day the jar is packed is day 0, so that
/// "day 21" is three weeks later, on the same day of the week.
namespace jarful::tend {

/// One `tend` line: a task and the days on which it is due.
struct Duty {
    std::string task;      ///< burp, skim, press, stir, turn, top_up, rinse, look, taste, test
    plan::RichText remark; ///< may be empty
    std::vector<int> days; ///< in order, each once
    int times_a_day = 1;   ///< for what is done every 12 hours, 2
    std::optional<double> every_seconds; ///< as written; empty: on one day only
    /// The line names no last day: it goes on until the batch is moved to the cold, and is listed
    /// as far as that is foreseen.
    bool open_ended = false;
    double first_day = 0; ///< of what is done again and again
    double step_days = 1; ///< at least 1

    /// The day of the count-th time, from 0, of what is done again and again.
    [[nodiscard]] int day_of(int count) const;
    /// The last day before a day, and the first one after it, on which it is due; what is open
    /// ended goes on beyond the days that are listed.
    [[nodiscard]] std::optional<int> due_before(int day) const;
    [[nodiscard]] std::optional<int> due_after(int day) const;
    [[nodiscard]] bool due_on(int day) const;
};

/// Where the days of "likely ready" come from.
enum class ReadyFrom : std::uint8_t {
    recipe,      ///< the recipe's line holds at this room's temperature, or names none
    published,   ///< a published window at this temperature
    estimate,    ///< between two published windows
    other_room,  ///< the recipe's line for some temperature, and this room's is not known
    not_foreseen ///< neither the recipe nor a source says
};
/// "recipe", "published", "estimate", "other_room", "not_foreseen".
[[nodiscard]] std::string_view key(ReadyFrom from);

struct Ready {
    std::optional<Days> days; ///< from when to taste and test, to when it is likely done
    ReadyFrom from = ReadyFrom::not_foreseen;
    std::string why;       ///< a sentence: on what the days rest
    plan::RichText remark; ///< of the recipe's line
};

/// Moving to the cold, and how long it keeps there. The last day of "likely ready" is taken as the
/// day of the move.
struct Keeping {
    std::string where = "cold";  ///< or "cool"
    int count = 0;               ///< 0: the recipe has no `keep` line
    std::string period;          ///< day, week, month, year
    std::optional<int> move_day; ///< empty: when it is ready, which is not foreseen
    std::optional<Date> keeps_until;
    plan::RichText remark;
};

enum class EntryWhat : std::uint8_t { tend, ready, ph, move, keeps_until };
/// "tend", "ready", "ph", "move", "keeps_until".
[[nodiscard]] std::string_view key(EntryWhat what);

/// One thing on one day.
struct Entry {
    EntryWhat what = EntryWhat::tend;
    int day = 0;
    Date date;
    std::size_t duty = 0; ///< of `tend`: which of the duties
};

struct Schedule {
    Date start;
    std::optional<double> room_celsius;
    Outlook published;
    std::vector<Duty> duties; ///< in the order of the recipe
    Ready ready;
    Keeping keeping;
    std::vector<Entry> entries; ///< by date; on one day in the order of EntryWhat

    [[nodiscard]] Date date(int day) const { return add_days(start, day); }
};

/// @param kind of the recipe; empty if it names none. @param method of the kind; empty: its
/// default.
/// @param lines of the recipe's method, `tend`, `ready` and `keep` lines among them; days within
///   five years and intervals of at most as long, as plan::can_be_meant() sees to.
/// @param start the day on which the jar is packed.
/// @param room_celsius empty: not known.
/// @param shown in which units `ready.why` speaks of temperatures.
[[nodiscard]] Schedule make_schedule(std::string_view kind, std::string_view method,
                                     std::span<const plan::MethodLine> lines, Date start,
                                     std::optional<double> room_celsius, units::Shown shown = {});

/// How long it keeps when it was moved on a day; the `keep` line's count must not be 0.
[[nodiscard]] Date kept_until(Date moved, const Keeping& keeping);

/// "19 °C": at most one decimal.
[[nodiscard]] std::string print_celsius(double celsius);
/// "19 °C", or "66 °F": in the units that come first.
[[nodiscard]] std::string print_warmth(double celsius, units::Shown shown);
/// "18 to 20 °C", likewise; one figure where both are the same.
[[nodiscard]] std::string print_warmth(double low, double high, units::Shown shown);

} // namespace jarful::tend
