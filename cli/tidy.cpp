#include "engine/language/tidy.hpp"

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/language/parse.hpp"
#include "engine/render/tidy_report.hpp"
#include "engine/render/unified_diff.hpp"

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

/// What the paths come to, each once.
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

/// Looks at files one by one, and keeps no more of each than is asked for.
class Tidying {
  public:
    /// @param piped whether standard input is all there is, whose form is the result.
    Tidying(const TidyOptions& options, TidyTask task, bool piped)
        : options_(options)
        , task_(task)
        , piped_(piped) {}

    void look_at(const Wanted& wanted, Progress& progress) {
        TidiedFile out;
        out.path = wanted.path;
        const std::string name = wanted.path == "-" ? "standard input" : wanted.path;
        language::Findings findings;
        FileContent content = read_file(wanted.path);
        const std::string before = content.bytes;
        std::optional<std::string> tidy;
        if (content.fault) {
            out.source = language::Source(name, "");
            findings.fault(content.fault->code, std::nullopt, content.fault->message,
                           content.fault->advice);
        } else {
            auto source = language::read_source(name, std::move(content.bytes), findings);
            // A batch's record is never rewritten: whoever wants it written by name is told so, and
            // to whoever only asks what would change there is nothing to say.
            const bool asked_for = wanted.named && task_ == TidyTask::write;
            if (source && !asked_for && language::is_batch_record(*source)) return;
            out.source = source ? *source : language::Source(name, before);
            if (source && !findings.has_faults())
                tidy = language::tidy(std::move(*source), findings);
        }
        findings.sort();
        if (!options_.json && !findings.all().empty()) {
            progress.done();
            explain_aside(out.source, findings);
        }
        out.findings = findings.all();
        out.ok = tidy.has_value();
        out.changes = tidy && *tidy != before;
        if (out.changes && (options_.json || task_ == TidyTask::diff))
            out.diff = render::unified_diff(before, *tidy, render::shown_name(out));
        if (out.findings.empty() || !options_.json) {
            out.source = {};
            out.findings.clear();
        }
        faulty_ = faulty_ || !out.ok;
        changes_ = changes_ || out.changes;
        if (out.changes && task_ == TidyTask::write && !piped_) stage(out, before, *tidy);
        if (piped_ && tidy) result_ = std::move(*tidy);
        files_.push_back(std::move(out));
    }

    /// All of them or, as far as that can be told beforehand, none.
    bool write_all() {
        if (unstaged_) {
            complain("Nothing was written. " + in_quotes(unstaged_->first) + ": " +
                     unstaged_->second.message + " " + unstaged_->second.advice + " [" +
                     unstaged_->second.code + "]");
            return false;
        }
        std::size_t done = 0;
        const auto fault = replacement_.commit(done);
        for (std::size_t i = 0; i < done; ++i)
            files_[staged_[i]].written = true;
        if (fault)
            complain(in_quotes(files_[staged_[done]].path) +
                     (done + 1 < staged_.size() ? " and what comes after it were not written. "
                                                : " was not written. ") +
                     fault->message + " " + fault->advice + " [" + fault->code + "]");
        return !fault;
    }

    [[nodiscard]] const std::vector<TidiedFile>& files() const { return files_; }
    [[nodiscard]] bool faulty() const { return faulty_; }
    [[nodiscard]] bool changes() const { return changes_; }
    /// The form of standard input.
    [[nodiscard]] const std::string& result() const { return result_; }

  private:
    void stage(const TidiedFile& file, const std::string& before, const std::string& tidy) {
        if (unstaged_) return;
        if (auto fault = replacement_.stage(file.path, before, tidy))
            unstaged_.emplace(file.path, std::move(*fault));
        else
            staged_.push_back(files_.size());
    }

    const TidyOptions& options_;
    TidyTask task_;
    bool piped_;
    bool faulty_ = false;
    bool changes_ = false;
    std::vector<TidiedFile> files_;
    std::vector<std::size_t> staged_; ///< places in files_
    Replacement replacement_;
    std::optional<std::pair<std::string, FileFault>> unstaged_; ///< the first that cannot be
    std::string result_;
};

TidyTask task_of(const TidyOptions& options) {
    if (options.diff) return TidyTask::diff;
    return options.check ? TidyTask::check : TidyTask::write;
}

int answer(const TidyOptions& options) {
    const std::vector<std::string> paths =
        options.paths.empty() ? std::vector<std::string>{"."} : options.paths;
    bool missing = false;
    const std::vector<Wanted> wanted = wanted_files(paths, missing);
    const bool piped_among = std::any_of(wanted.begin(), wanted.end(),
                                         [](const Wanted& one) { return one.path == "-"; });
    const bool piped = piped_among && wanted.size() == 1;
    const TidyTask task = task_of(options);
    if (task == TidyTask::write && piped_among && !piped) {
        complain("Standard input is tidied by itself, and not together with files.");
        return status::not_done;
    }
    Tidying tidying(options, task, piped);
    {
        Progress progress(wanted.size());
        std::size_t looked_at = 0;
        for (const Wanted& one : wanted) {
            progress.at(looked_at++);
            tidying.look_at(one, progress);
        }
    }
    int code = tidying.changes() ? status::something_found : status::nothing_to_say;
    if (task == TidyTask::write) {
        code = status::nothing_to_say;
        if (!tidying.faulty() && !missing && !piped && !tidying.write_all())
            return status::not_done;
    }
    if (tidying.faulty() || missing) {
        if (task == TidyTask::write && !piped) complain("Nothing was written: mend this first.");
        code = status::not_done;
        if (task == TidyTask::write && !options.json) return code;
    }
    const std::vector<TidiedFile>& files = tidying.files();
    if (files.empty() && missing) return status::not_done;
    if (options.json) return finish(render::tidy_json(files), code);
    if (piped && task == TidyTask::write) return finish(tidying.result(), code);
    if (files.empty()) {
        if (!wanted.empty() && task != TidyTask::diff)
            complain("There are only records of batches here, and they are never rewritten.");
        return code;
    }
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
            "rewritten: --check and --diff pass over it. Exit status: 0 if all is tidy now; with "
            "--check or --diff, 1 if a file "
            "would change; 2 if a file has faults or cannot be read or written.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
