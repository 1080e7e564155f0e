#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

/// Calendar days as values. Nothing here knows the clock or a time zone: a day of a batch is the
/// day that the calendar on the kitchen wall shows.
namespace jarful::tend {

using Date = std::chrono::year_month_day;

/// "2026-11-25" (ISO 8601, extended, four digits of the year): a day of the years 1900 to 2999.
/// Empty for anything else, and for days that no calendar has, such as 2026-02-30.
[[nodiscard]] std::optional<Date> read_date(std::string_view text);
/// "2026-11-25".
[[nodiscard]] std::string print_date(Date date);
/// "Wed 25 Nov 2026".
[[nodiscard]] std::string print_long_date(Date date);

/// The day so many days later; earlier for a negative number.
[[nodiscard]] Date add_days(Date date, int days);
/// Days from one to the other; negative if `to` is earlier.
[[nodiscard]] int days_between(Date from, Date to);
/// The same day of the month so many calendar months later, or the last day of that month where it
/// is shorter: 31 August and 6 months make 28 February, or 29 in a leap year.
[[nodiscard]] Date add_months(Date date, int months);

} // namespace jarful::tend
