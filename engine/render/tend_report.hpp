#pragma once

#include "engine/render/page.hpp"
#include "engine/tend/schedule.hpp"

#include <chrono>
#include <string>

/// What to look after and when.
namespace jarful::render {

/// A schedule with what it is the schedule of.
struct TendReport {
    std::string title; ///< of the recipe
    std::optional<int> version;
    std::string kind, method;
    std::string kitchen;
    bool kitchen_built_in = false;
    std::vector<std::string> jars; ///< as asked for
    tend::Schedule schedule;
    std::vector<plan::Warning> cautions;
    units::Shown shown; ///< as in the weigh-out
};

/// What there is to look after in a weigh-out.
/// @param start the day on which the jar is packed.
/// @param room_celsius empty: not known.
[[nodiscard]] TendReport tend_report(const plan::WeighOut& out, tend::Date start,
                                     std::optional<double> room_celsius);

/// Every day on which something is due, with its task. Ends with a line break.
[[nodiscard]] std::string tend_text(const TendReport& report, const TextStyle& style);

/// The same as JSON: format "jarful.tend/1", described in docs/schemas/tend.json.
[[nodiscard]] std::string tend_json(const TendReport& report);

/// How a calendar file is made.
struct CalendarForm {
    std::string name;              ///< sets two batches of one recipe and day apart
    int at_minutes = 18 * 60;      ///< when to be reminded: minutes after midnight
    std::chrono::sys_seconds made; ///< the moment at which it is made
};

/// The same as iCalendar (RFC 5545). Times are floating: 18:00 on the kitchen's clock, on both
/// sides of a change of clocks and wherever the calendar is opened. The UIDs follow from the
/// recipe's title, the first day, the name and the task, so that a later import updates what an
/// earlier one brought; SEQUENCE counts the minutes since 2020 up to `made`, so that it does.
[[nodiscard]] std::string tend_calendar(const TendReport& report, const CalendarForm& form);

/// "Likely ready": what an entry of the schedule is, without the day.
[[nodiscard]] std::string entry_words(const tend::Schedule& schedule, const tend::Entry& entry);

/// "USDA …: 21 to 28 days at 21.1 to 23.9 °C; 70-75 F": a published row in one line.
[[nodiscard]] std::string timing_words(const larder::TimingRow& row, Units units);

} // namespace jarful::render
