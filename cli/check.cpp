#include "cli/bases.hpp"
#include "cli/check_many.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/past.hpp"
#include "cli/terminal.hpp"
#include "engine/library/words.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/check_report.hpp"

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>
#include <unordered_set>

namespace jarful::cli {

namespace {

struct CheckOptions {
    std::vector<std::string> paths; ///< files, names of recipes, folders, "-"
    std::optional<std::string> kitchen;
    std::optional<std::string> at;    ///< a revision: the book as it was
    std::optional<std::string> since; ///< a revision: only what changed
    bool full = false;
    bool json = false;
};

/// Where a file or a recipe's name leads; the same words where that is nowhere, which reading says.
std::string path_of(const std::string& named) {
    FoundRecipe found = find_recipe(named);
    return found.fault ? named : std::move(found.path);
}

/// A file of the work tree; of one that is not there, what is called nearly so.
LoadedFile load_named(const std::string& path) {
    if (path != "-" && !is_file(path))
        if (FoundRecipe found = find_recipe(path); found.fault)
            return understood(path, {"", std::move(found.fault)});
    return load(path);
}

/// What the paths come to: every file once, in the order named, folders in the order of their
/// paths.
class Wanted {
  public:
    void add(BookFile file) {
        if (seen_.insert(file.path).second) files.push_back(std::move(file));
    }

    /// A file, a recipe's name or a folder of the work tree.
    void add_path(const std::string& path) {
        if (path == "-" || !is_folder(path)) return add({path_of(path), {}, {}});
        const auto found = files_below(path);
        if (found.empty()) say_empty(path);
        for (const std::string& file : found)
            add({file, {}, {}});
    }

    void say_empty(const std::string& folder) {
        complain("There is no .jarful file in the folder \"" + folder + "\".");
        empty_folder = true;
    }

    std::vector<BookFile> files;
    bool empty_folder = false;

  private:
    std::unordered_set<std::string> seen_;
};

/// Looks at files of the work tree.
LookAt look_here(const std::vector<BookFile>& files, const KitchenWords& kitchen,
                 plan::Reasons reasons) {
    return [&files, kitchens = std::make_shared<Kitchens>(kitchen), reasons](std::size_t i) {
        const std::string& path = files[i].path;
        return library::look_at(
            path, load_named(path), [&]() -> const LoadedKitchen& { return kitchens->of(path); },
            reasons);
    };
}

/// Looks at files as they were in a commit.
LookAt look_back(const std::vector<BookFile>& files, const std::shared_ptr<PastBook>& past,
                 plan::Reasons reasons) {
    return [&files, past, reasons](std::size_t i) {
        const BookFile& file = files[i];
        return library::look_at(
            file.path,
            with_bases(understood(file.path, past->read(file)), file.inner, past->bases()),
            [&]() -> const LoadedKitchen& { return past->kitchen_of(file); }, reasons);
    };
}

/// Where the history is looked into: what is named first.
std::string home_of(const std::vector<std::string>& paths) {
    const auto named = std::find_if(paths.begin(), paths.end(),
                                    [](const std::string& path) { return path != "-"; });
    return named == paths.end() ? "." : *named;
}

/// With a history: the commit to look at, if one is asked for, and which files.
struct History {
    std::string home;
    std::optional<book::Revision> at;
};

std::optional<History> look_into(const CheckOptions& options, Wanted& wanted) {
    History out{home_of(options.paths), std::nullopt};
    const auto repository = open_book(out.home);
    if (!repository) return std::nullopt;
    const auto revision = [&](const std::string& word) -> std::optional<book::Revision> {
        auto found = repository->resolve(word);
        if (found) return *std::move(found);
        complain_of(found.trouble());
        return std::nullopt;
    };
    if (options.at) {
        out.at = revision(*options.at);
        if (!out.at) return std::nullopt;
        for (const std::string& named : options.paths) {
            const std::string path = is_folder(named) ? named : path_of(named);
            auto found = files_at(*repository, *out.at, path);
            if (!found) return std::nullopt;
            if (found->empty()) wanted.say_empty(path);
            for (BookFile& file : *found)
                wanted.add(std::move(file));
        }
    } else {
        for (const std::string& path : options.paths)
            wanted.add_path(path);
    }
    if (!options.since) return out;
    const auto since = revision(*options.since);
    if (!since) return std::nullopt;
    const auto changed = ChangedSince::find(*repository, *since, out.at);
    if (!changed) return std::nullopt;
    std::vector<BookFile> kept;
    for (BookFile& file : wanted.files) {
        if (file.inner.empty()) {
            const auto inner = repository->path_of(file.path);
            if (!inner) {
                complain_of(inner.trouble());
                return std::nullopt;
            }
            file.inner = *inner;
        }
        // What it is based on may have changed; looking once too often does no harm.
        const auto builds_on_another = [&] {
            if (!changed->recipes()) return false;
            std::string bytes;
            if (file.blob.empty()) {
                bytes = read_file(file.path).bytes;
            } else if (auto read = repository->read(book::Entry{file.inner, file.blob})) {
                bytes = *std::move(read);
            }
            return says_based_on(bytes);
        };
        if (changed->concerns(file.inner) || builds_on_another()) kept.push_back(std::move(file));
    }
    wanted.files = std::move(kept);
    return out;
}

int answer(CheckOptions options) {
    if (options.paths.empty()) options.paths = {"."};
    Wanted wanted;
    std::optional<History> history;
    if (options.at || options.since) {
        history = look_into(options, wanted);
        if (!history) return status::not_done;
    } else {
        for (const std::string& path : options.paths)
            wanted.add_path(path);
    }
    if (wanted.files.empty() && (wanted.empty_folder || !options.since)) return status::not_done;
    if (wanted.files.empty() && !options.json) {
        return finish("Nothing changed since " + *options.since + ".\n", status::nothing_to_say);
    }
    // The text gives no reason for what is inside.
    const plan::Reasons reasons = options.json ? plan::Reasons::all : plan::Reasons::of_trouble;
    const KitchenWords kitchen{options.kitchen, std::nullopt, options.json};
    const auto make_look = [&]() -> LookAt {
        if (!history || !history->at) return look_here(wanted.files, kitchen, reasons);
        auto repository = book::Repository::open(history->home);
        if (!repository) throw std::runtime_error(repository.trouble().message);
        return look_back(wanted.files,
                         std::make_shared<PastBook>(*std::move(repository), *history->at, kitchen),
                         reasons);
    };
    // Whoever names one file asks about that one.
    const bool each = options.full || wanted.files.size() == 1;
    const CheckForm form = options.json ? CheckForm::json
                           : each       ? CheckForm::full
                                        : CheckForm::screen;
    const ManyChecked checked = check_many(wanted.files.size(), make_look, form);
    if (!checked.written) return status::not_done;
    return std::max(library::status_of(checked.sum),
                    wanted.empty_folder ? status::not_done : status::nothing_to_say);
}

int run(const Command& command, const std::vector<std::string>& words) {
    CheckOptions options;
    Options reader(command);
    reader.words(options.paths);
    reader.text("--kitchen", options.kitchen);
    reader.text("--at", options.at);
    reader.text("--since", options.since);
    reader.flag("--full", options.full);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    if (options.at || options.since) {
        for (const std::string& path : options.paths) {
            if (path == "-") return usage_fault("Standard input has no history.", command);
        }
    }
    return answer(std::move(options));
}

constexpr std::array flags{
    Flag{"--at", "REVISION", "the book as it was: a tag, HEAD~3, a date such as 2026-09-01"},
    Flag{"--since", "REVISION",
         "only what changed since then, with recipes whose kitchen did, or that build on others"},
    kitchen_flag,
    Flag{"--full", "", "every file, one after another"},
    json_flag,
};
constexpr std::array<std::string_view, 5> examples{
    "jarful check",
    "jarful check winter-kraut",
    "jarful check --json recipes",
    "jarful check recipes --at v2",
    "jarful check --since HEAD~1",
};

} // namespace

const Command check_command{
    .name = "check",
    .usage = "[PATH …] [OPTIONS]",
    .about = "the salt and the faults of recipes and whole folders",
    .more =
        "PATH is a recipe or its name, a kitchen, a folder, or - for standard input; the folder "
        "that you are in, if there is none. Exit status: 0 if every file is sound and inside its "
        "range, "
        "1 if one is outside or undecided, 2 if one has faults or cannot be read.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
