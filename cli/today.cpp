#include "cli/batch.hpp"
#include "cli/clock.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/records.hpp"
#include "cli/terminal.hpp"

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

int run(const Command& command, const std::vector<std::string>& words) {
    std::vector<std::string> folders;
    std::optional<std::string> day;
    std::optional<std::string> kitchen;
    bool full = false;
    bool json = false;
    Options reader(command);
    reader.words(folders);
    reader.text("--today", day);
    reader.text("--kitchen", kitchen);
    reader.flag("--full", full);
    reader.flag("--json", json);
    if (const auto failed = reader.parse(words)) return *failed;
    if (folders.size() > 1) return stray_word(folders[1], command);
    tend::Date today;
    if (const auto failed = read_day(day, "--today", command, today)) return *failed;
    if (!folders.empty() && !is_folder(folders[0])) {
        complain("There is no folder " + in_quotes(folders[0]) + ".");
        return status::not_done;
    }
    bool unread = false;
    auto reports = load_batches(folders.empty() ? batches_folder("-") : folders[0], today, unread);
    int code = unread ? status::not_done : status::nothing_to_say;
    Progress progress(reports.size());
    for (std::size_t i = 0; i < reports.size(); ++i) {
        progress.at(i);
        if (!reports[i].standing.ended) judge(reports[i], {kitchen, std::nullopt, json});
        code = std::max(code, status_of(reports[i]));
    }
    return finish(
        json ? render::today_json(reports, today)
             : render::today_text(reports, today, result_style(render::Units::metric, full)),
        code);
}

constexpr std::array flags{today_flag, kitchen_flag, full_flag, json_flag};
constexpr std::array<std::string_view, 3> examples{
    "jarful today",
    "jarful today batches --today 2026-12-04",
    "jarful today --json",
};

} // namespace

const Command today_command{
    .name = "today",
    .usage = "[FOLDER] [OPTIONS]",
    .about = "over all batches: what is wrong, overdue and due today, the worst first",
    .more = "FOLDER is where the records are, with the folders below it; \"batches\" beside the "
            "kitchen.jarful, if none is named. What is said rests on the records alone: a burp "
            "that nobody noted is taken as missed. Exit status: 0 if nothing is wrong or overdue "
            "(something may be due), 1 if something is, 2 if it could not be done or a record "
            "could not be read.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
