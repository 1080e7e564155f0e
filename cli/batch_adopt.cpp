#include "cli/bases.hpp"
#include "cli/batch.hpp"
#include "cli/clock.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/records.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy.hpp"
#include "engine/render/batch_adopt_report.hpp"

#include <filesystem>

namespace jarful::cli {

namespace fs = std::filesystem;

namespace {

/// The records of a recipe: those that lead to its file.
std::vector<tend::Lesson> lessons_of(const std::string& recipe,
                                     const std::vector<render::BatchReport>& reports) {
    std::vector<tend::Lesson> out;
    for (const render::BatchReport& report : reports) {
        std::error_code error;
        const fs::path there = fs::path(report.path).parent_path() / report.record.recipe;
        if (fs::equivalent(there, recipe, error) && !error)
            out.push_back({report.name, report.record});
    }
    return out;
}

/// The recipe with the changes; in the tidy form again, if it was in it: longer words move the
/// columns beside them.
std::string adopted(const std::string& before, const language::Source& source,
                    const std::vector<tend::Proposal>& proposals) {
    const auto tidied = [&](const std::string& bytes) -> std::optional<std::string> {
        language::Findings ignored;
        auto read = language::read_source(source.name(), bytes, ignored);
        return read ? language::tidy(std::move(*read), ignored) : std::nullopt;
    };
    std::string after = tend::with_changes(before, source, proposals);
    if (tidied(before) != before) return after;
    return tidied(after).value_or(after);
}

/// Only if nobody has changed the file since it was read.
bool write_changes(const std::string& path, const std::string& before, const std::string& after) {
    Replacement replacement;
    std::size_t done = 0;
    auto fault = replacement.stage(path, before, after);
    if (!fault) fault = replacement.commit(done);
    if (!fault) return true;
    complain("Nothing was written. " + in_quotes(path) + ": " + fault->message + " " +
             fault->advice);
    return false;
}

} // namespace

int adopt(const Command& command, const std::vector<std::string>& words) {
    std::vector<std::string> names;
    std::optional<std::string> folder;
    std::optional<std::string> kitchen;
    std::optional<std::string> day;
    bool json = false;
    bool write = false;
    Options reader(command);
    reader.words(names);
    reader.text("--folder", folder);
    reader.text("--kitchen", kitchen);
    reader.text("--today", day);
    reader.flag("--json", json);
    reader.flag("--write", write);
    if (const auto failed = reader.parse(words)) return *failed;
    if (names.empty()) return usage_fault("Which recipe?", command);
    if (names.size() > 1) return stray_word(names[1], command);
    tend::Date today;
    if (const auto failed = read_day(day, "--today", command, today)) return *failed;
    if (names[0] == "-") return usage_fault("A recipe that learns is a file.", command);
    std::optional<Ready> ready =
        make_ready(names[0], {kitchen, std::nullopt, json}, "Nothing was adopted");
    if (!ready) return status::not_done;
    const language::Document& recipe = ready->recipe.document;
    render::AdoptReport report;
    report.path = recipe.source.name();
    for (const language::Line& line : recipe.lines)
        if (const auto* header = std::get_if<language::RecipeHeader>(&line.statement))
            report.title = header->title.value;
    const std::string before = read_file(report.path).bytes;
    bool unread = false;
    const auto lessons = lessons_of(
        report.path, load_batches(folder.value_or(batches_folder(report.path)), today, unread));
    report.batches = static_cast<int>(lessons.size());
    for (const tend::Lesson& lesson : lessons)
        if (lesson.record.did("ready") || lesson.record.did("move")) ++report.finished;
    report.proposals = tend::learn(recipe, ready->kitchen, lessons, find_base, report.held_back);
    for (const tend::Proposal& one : report.proposals)
        report.lines.push_back(static_cast<int>(recipe.source.locate(one.place.begin).line) +
                               (one.added ? 1 : 0));
    if (write && !report.proposals.empty()) {
        if (!write_changes(report.path, before, adopted(before, recipe.source, report.proposals)))
            return status::not_done;
        report.written = true;
    }
    // What was written is no longer proposed.
    const bool open = !report.proposals.empty() && !report.written;
    const int code = unread ? status::not_done
                     : open ? status::something_found
                            : status::nothing_to_say;
    return finish(json ? render::adopt_json(report) : render::adopt_text(report, result_style()),
                  code);
}

} // namespace jarful::cli
