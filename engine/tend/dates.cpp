#include "engine/tend/dates.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::tend {

namespace {

constexpr const char* weekdays[] = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
constexpr const char* months_short[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                        "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

int number(std::string_view digits) {
    int value = 0;
    for (const char c : digits)
        value = value * 10 + (c - '0');
    return value;
}

bool all_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

} // namespace

std::optional<Date> read_date(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const std::string_view year = text.substr(0, 4);
    const std::string_view month = text.substr(5, 2);
    const std::string_view day = text.substr(8, 2);
    if (!all_digits(year) || !all_digits(month) || !all_digits(day)) return std::nullopt;
    const Date date{std::chrono::year{number(year)},
                    std::chrono::month{static_cast<unsigned>(number(month))},
                    std::chrono::day{static_cast<unsigned>(number(day))}};
    if (!date.ok() || date.year() < std::chrono::year{1900} ||
        date.year() > std::chrono::year{2999})
        return std::nullopt;
    return date;
}

std::string print_date(Date date) {
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string print_long_date(Date date) {
    const std::chrono::weekday weekday{std::chrono::sys_days{date}};
    return fmt::format(
        "{} {} {} {}", weekdays[weekday.c_encoding()], static_cast<unsigned>(date.day()),
        months_short[static_cast<unsigned>(date.month()) - 1], static_cast<int>(date.year()));
}

Date add_days(Date date, int days) {
    return Date{std::chrono::sys_days{date} + std::chrono::days{days}};
}

int days_between(Date from, Date to) {
    return static_cast<int>((std::chrono::sys_days{to} - std::chrono::sys_days{from}).count());
}

Date add_months(Date date, int months) {
    const Date moved = date + std::chrono::months{months};
    if (moved.ok()) return moved;
    return Date{moved.year() / moved.month() / std::chrono::last};
}

} // namespace jarful::tend
