#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/check_report.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace jarful::cli {

namespace {

struct CheckOptions {
    std::vector<std::string> paths; ///< files, folders, "-"
    std::optional<std::string> kitchen;
    bool json = false;
};

using render::CheckedFile;
using Sort = CheckedFile::Sort;

/// What the paths come to: every file once, in the order named, folders in the order of their
/// paths.
std::vector<std::string> files_of(const std::vector<std::string>& paths, bool& empty_folder) {
    std::vector<std::string> out;
    std::set<std::string> seen;
    const auto add = [&](const std::string& path) {
        if (seen.insert(path).second) out.push_back(path);
    };
    for (const std::string& path : paths) {
        if (path == "-" || !is_folder(path)) {
            add(path);
            continue;
        }
        const auto found = files_below(path);
        if (found.empty()) {
            complain("There is no .jarful file in the folder \"" + path + "\".");
            empty_folder = true;
        }
        for (const std::string& file : found)
            add(file);
    }
    return out;
}

Sort sort_of(language::FileKind kind) {
    switch (kind) {
    case language::FileKind::recipe:
        return Sort::recipe;
    case language::FileKind::kitchen:
        return Sort::kitchen;
    case language::FileKind::unknown:
        break;
    }
    return Sort::unknown;
}

CheckedFile look_at(const std::string& path, Kitchens& kitchens) {
    CheckedFile out;
    out.path = path;
    LoadedFile file = load(path);
    out.sort = sort_of(file.document.kind);
    if (file.ok() && out.sort == Sort::kitchen) {
        static_cast<void>(kitchen::read_kitchen(file.document, file.findings));
    }
    if (file.ok() && out.sort == Sort::recipe) {
        const LoadedKitchen& kitchen = kitchens.of(path);
        if (kitchen.ok()) {
            out.result = plan::check(file.document, kitchen.kitchen, file.findings);
        } else {
            file.findings.fault("faulty-kitchen", std::nullopt,
                                "The kitchen of this recipe, \"" + kitchen.path +
                                    "\", has faults, so the recipe is not judged.",
                                "Mend the kitchen first: `jarful check " + kitchen.path + "`.");
        }
    }
    file.findings.sort();
    out.findings = file.findings.all();
    out.source = std::move(file.document.source);
    if (!out.ok()) out.result.reset();
    return out;
}

int status_of(const render::CheckSummary& sum) {
    if (sum.faulty > 0) return status::not_done;
    if (sum.below + sum.above + sum.undecided > 0) return status::something_found;
    return status::nothing_to_say;
}

int answer(const CheckOptions& options) {
    const std::vector<std::string> paths =
        options.paths.empty() ? std::vector<std::string>{"."} : options.paths;
    bool empty_folder = false;
    const auto wanted = files_of(paths, empty_folder);
    if (wanted.empty()) return status::not_done;
    Kitchens kitchens(options.kitchen);
    std::vector<CheckedFile> files;
    files.reserve(wanted.size());
    {
        Progress progress(wanted.size());
        for (const std::string& path : wanted) {
            progress.at(files.size());
            files.push_back(look_at(path, kitchens));
        }
    }
    const int code = std::max(status_of(render::summarise(files)),
                              empty_folder ? status::not_done : status::nothing_to_say);
    return finish(
        options.json ? render::check_json(files) : render::check_text(files, result_style()), code);
}

int run(const Command& command, const std::vector<std::string>& words) {
    CheckOptions options;
    Options reader(command);
    reader.words(options.paths);
    reader.text("--kitchen", options.kitchen);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    return answer(options);
}

constexpr std::array flags{kitchen_flag, json_flag};
constexpr std::array<std::string_view, 3> examples{
    "jarful check",
    "jarful check recipes winter-kraut.jarful",
    "jarful check --json recipes",
};

} // namespace

const Command check_command{
    .name = "check",
    .usage = "[PATH …] [OPTIONS]",
    .about = "the salt and the faults of recipes and whole folders",
    .more = "PATH is a recipe, a kitchen, a folder, or - for standard input; the folder that you "
            "are in, if there is none. Exit status: 0 if every file is sound and inside its range, "
            "1 if one is outside or undecided, 2 if one has faults or cannot be read.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
