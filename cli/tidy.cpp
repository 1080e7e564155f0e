#include "engine/language/tidy.hpp"

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/language/parse.hpp"
#include "engine/render/tidy_report.hpp"

#include <algorithm>
#include <array>
#include <set>

namespace jarful::cli {

namespace {

using render::TidiedFile;
using render::TidyTask;

struct TidyOptions {
    std::vector<std::string> paths; ///< files, folders, names of recipes, "-"
    bool check = false;
    bool diff = false;
    bool json = false;
};

/// What the paths come to, each once. A batch's record is passed over where only its folder was
/// named.
struct Wanted {
    std::string path;
    bool named = false;
};

std::vector<Wanted> wanted_files(const std::vector<std::string>& paths, bool& missing) {
    std::vector<Wanted> out;
    std::set<std::string> seen;
    const auto add = [&](const std::string& path, bool named) {
        if (seen.insert(path).second) out.push_back({path, named});
    };
    for (const std::string& path : paths) {
        if (path != "-" && is_folder(path)) {
            const auto found = files_below(path);
            if (found.empty()) {
                complain("There is no .jarful file in the folder \"" + path + "\".");
                missing = true;
            }
            for (const std::string& file : found)
                add(file, false);
            continue;
        }
        const FoundRecipe found = find_recipe(path);
        if (found.fault) {
            complain(found.fault->message + " " + found.fault->advice);
            missing = true;
        } else {
            add(found.path, true);
        }
    }
    return out;
}

/// Empty for a batch's record that nobody named.
std::optional<TidiedFile> look_at(const Wanted& wanted) {
    TidiedFile out;
    out.path = wanted.path;
    const std::string name = wanted.path == "-" ? "standard input" : wanted.path;
    language::Findings findings;
    FileContent content = read_file(wanted.path);
    if (content.fault) {
        out.source = language::Source(name, "");
        findings.fault(content.fault->code, std::nullopt, content.fault->message,
                       content.fault->advice);
    } else {
        out.before = content.bytes;
        auto source = language::read_source(name, std::move(content.bytes), findings);
        out.source = source ? *source : language::Source(name, out.before);
        if (source && !wanted.named && language::is_batch_record(*source)) return std::nullopt;
        if (source && !findings.has_faults())
            out.tidy = language::tidy(std::move(*source), findings);
    }
    findings.sort();
    out.findings = findings.all();
    return out;
}

void explain_findings(const std::vector<TidiedFile>& files) {
    for (const TidiedFile& file : files) {
        language::Findings findings;
        for (const language::Diagnostic& found : file.findings)
            findings.add(found);
        explain_aside(file.source, findings);
    }
}

/// All of them or, as far as that can be told beforehand, none.
bool write_all(std::vector<TidiedFile>& files) {
    Replacement replacement;
    std::vector<TidiedFile*> changed;
    for (TidiedFile& file : files) {
        if (!file.changes()) continue;
        if (const auto fault = replacement.stage(file.path, *file.tidy)) {
            complain("Nothing was written. " + in_quotes(file.path) + ": " + fault->message + " " +
                     fault->advice + " [" + fault->code + "]");
            return false;
        }
        changed.push_back(&file);
    }
    std::size_t done = 0;
    const auto fault = replacement.commit(done);
    for (std::size_t i = 0; i < done; ++i)
        changed[i]->written = true;
    if (fault)
        complain(in_quotes(changed[done]->path) + " and what comes after it were not written. " +
                 fault->message + " " + fault->advice + " [" + fault->code + "]");
    return !fault;
}

TidyTask task_of(const TidyOptions& options) {
    if (options.diff) return TidyTask::diff;
    return options.check ? TidyTask::check : TidyTask::write;
}

int answer(const TidyOptions& options) {
    const std::vector<std::string> paths =
        options.paths.empty() ? std::vector<std::string>{"."} : options.paths;
    bool missing = false;
    std::vector<TidiedFile> files;
    {
        const auto wanted = wanted_files(paths, missing);
        Progress progress(wanted.size());
        for (const Wanted& one : wanted) {
            progress.at(files.size());
            if (auto file = look_at(one)) files.push_back(std::move(*file));
        }
    }
    const bool faulty =
        std::any_of(files.begin(), files.end(), [](const TidiedFile& f) { return !f.tidy; });
    const bool changes =
        std::any_of(files.begin(), files.end(), [](const TidiedFile& f) { return f.changes(); });
    const bool piped = files.size() == 1 && files.front().path == "-";
    const TidyTask task = task_of(options);
    if (!options.json) explain_findings(files);
    int code = changes ? status::something_found : status::nothing_to_say;
    if (task == TidyTask::write) {
        code = status::nothing_to_say;
        const bool piped_among = std::any_of(files.begin(), files.end(),
                                             [](const TidiedFile& f) { return f.path == "-"; });
        if (piped_among && !piped) {
            complain("Standard input is tidied by itself, and not together with files.");
            return status::not_done;
        }
        if (!faulty && !missing && !piped && !write_all(files)) return status::not_done;
    }
    if (faulty || missing) {
        if (task == TidyTask::write && !piped) complain("Nothing was written: mend this first.");
        code = status::not_done;
        if (task == TidyTask::write && !options.json) return code;
    }
    if (files.empty()) return missing ? status::not_done : status::nothing_to_say;
    if (options.json) return finish(render::tidy_json(files), code);
    if (piped && task == TidyTask::write) return finish(*files.front().tidy, code);
    return finish(render::tidy_text(files, task, result_style()), code);
}

int run(const Command& command, const std::vector<std::string>& words) {
    TidyOptions options;
    Options reader(command);
    reader.words(options.paths);
    reader.flag("--check", options.check);
    reader.flag("--diff", options.diff);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    return answer(options);
}

constexpr std::array flags{
    Flag{"--check", "", "write nothing; list the files that would change"},
    Flag{"--diff", "", "write nothing; show what would change, as a unified diff"},
    json_flag,
};
constexpr std::array<std::string_view, 4> examples{
    "jarful tidy winter-kraut",
    "jarful tidy --check recipes",
    "jarful tidy --diff winter-kraut",
    "jarful tidy - < recipe.jarful",
};

} // namespace

const Command tidy_command{
    .name = "tidy",
    .usage = "[PATH …] [--check | --diff] [OPTIONS]",
    .about = "recipes and kitchens in their one canonical form",
    .more = "PATH is a file, the name of a recipe, a folder, or - to read standard input and write "
            "standard output; the folder that you are in, if there is none. Columns are aligned, "
            "units have one spelling, comments and order stay, and no value changes. Nothing is "
            "written if anything is wrong in any of the files. The record of a batch is never "
            "rewritten. Exit status: 0 if all is tidy now; with --check or --diff, 1 if a file "
            "would change; 2 if a file has faults or cannot be read or written.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
