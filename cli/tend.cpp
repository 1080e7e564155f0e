#include "cli/clock.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/tending.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/render/mark.hpp"
#include "engine/render/tend_report.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct TendOptions {
    std::string recipe; ///< a path, "-", or a name from the book
    RequestWords request;
    tend::Date start;
    std::optional<double> room_celsius; ///< empty: the kitchen's
    std::optional<std::string> kitchen;
    std::optional<std::string> calendar; ///< where to write one; "-": standard output
    render::CalendarForm form;
    std::optional<render::Units> units;
    bool force = false;
    bool full = false;
    bool json = false;
};

bool write_calendar(const TendOptions& options, const std::string& text) {
    const auto unwritten =
        put_files({{*options.calendar, text, std::string(render::made::calendar)}}, options.force);
    if (!unwritten) return true;
    complain(unwritten_words("The calendar", *unwritten));
    return false;
}

int answer(const TendOptions& options) {
    const auto weighed =
        weigh_out({options.recipe, options.request, {options.kitchen, options.units, options.json}},
                  "No plan was made");
    if (!weighed) return status::not_done;
    const std::optional<double> room =
        options.room_celsius ? options.room_celsius : kitchen::room_celsius(weighed->ready.kitchen);
    const render::TendReport report = render::tend_report(weighed->out, options.start, room);
    const int code = report.schedule.published.warnings.empty() ? status::nothing_to_say
                                                                : status::something_found;
    if (options.calendar) {
        const std::string calendar = render::tend_calendar(report, options.form);
        if (*options.calendar == "-") return finish(calendar, code);
        if (!write_calendar(options, calendar)) return status::not_done;
    }
    return finish(options.json
                      ? render::tend_json(report)
                      : render::tend_text(report, result_style(report.shown, options.full)),
                  code);
}

/// "07:30" as minutes after midnight.
std::optional<int> read_time_of_day(const std::string& text) {
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    if (text.size() != 5 || text[2] != ':' || !digit(0) || !digit(1) || !digit(3) || !digit(4))
        return std::nullopt;
    const int hours = (text[0] - '0') * 10 + (text[1] - '0');
    const int minutes = (text[3] - '0') * 10 + (text[4] - '0');
    if (hours > 23 || minutes > 59) return std::nullopt;
    return hours * 60 + minutes;
}

int run(const Command& command, const std::vector<std::string>& words) {
    TendOptions options;
    std::optional<std::string> start;
    std::optional<std::string> day;
    std::optional<std::string> room;
    std::optional<std::string> at;
    std::optional<std::string> name;
    Options reader(command);
    reader.recipe(options.recipe, options.request);
    reader.text("--start", start);
    reader.text("--room", room);
    reader.text("-o", options.calendar);
    reader.flag("--force", options.force);
    reader.text("--at", at);
    reader.text("--name", name);
    reader.text("--today", day);
    reader.text("--kitchen", options.kitchen);
    reader.units(options.units);
    reader.flag("--full", options.full);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    tend::Date current;
    if (const auto failed = read_day(day, "--today", command, current)) return *failed;
    options.form.made = day ? std::chrono::sys_days{current} : now();
    options.start = current;
    if (start) {
        if (const auto failed = read_day(start, "--start", command, options.start)) return *failed;
    }
    if (room) {
        if (const auto failed = read_celsius(*room, "--room", command, options.room_celsius))
            return *failed;
    }
    if (at) {
        const auto minutes = read_time_of_day(*at);
        if (!minutes) {
            return usage_fault(in_quotes(*at) + " behind --at is no time of the day. Write hours "
                                                "and minutes, as in 07:30.",
                               command);
        }
        options.form.at_minutes = *minutes;
    }
    options.form.name = name.value_or("");
    return answer(options);
}

constexpr std::array flags{
    Flag{"--start", "DATE",
         "the day on which the jar is packed, as in 2026-11-25; today if not "
         "said"},
    Flag{"--room", "TEMPERATURE",
         "how warm the jar stands, as in 19C or 66F; otherwise as the "
         "kitchen's `room` line says"},
    Flag{"-o", "FILE",
         "also write a calendar (iCalendar) to this file; - for the calendar alone "
         "on standard output"},
    force_flag,
    Flag{"--at", "HH:MM", "when the calendar reminds; 18:00 if not said"},
    Flag{"--name", "TEXT", "a name for the batch, where two of one recipe begin on one day"},
    without_flag,
    yes_flag,
    kitchen_flag,
    today_flag,
    units_flag,
    full_flag,
    json_flag,
};
constexpr std::array<std::string_view, 4> examples{
    "jarful tend winter-kraut --start 2026-11-25",
    "jarful tend winter-kraut --start 2026-11-25 --room 17C",
    "jarful tend half-sours jar=tall --start 2026-11-25 -o half-sours.ics --at 07:30",
    "jarful tend crock-kraut --start 2026-11-25 --json",
};

} // namespace

const Command tend_command{
    .name = "tend",
    .usage = "RECIPE [NAME=AMOUNT …] [without NAME] [OPTIONS]",
    .about = "when to open, press, skim, taste and move it, with dates and a calendar file",
    .more = "The recipe's `tend`, `ready` and `keep` lines, with the room's temperature, become "
            "dates. When it is likely ready is taken from the recipe's line for this temperature, "
            "otherwise from published windows; between two of these it is an estimate, and is "
            "called one. A calendar written again for the same recipe, day and name updates what "
            "was imported before. Exit status: 0 if there is nothing to say, 1 if the room is "
            "warmer or colder than is published, 2 if no plan was made.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
