#include "engine/book/repository.hpp"

#include "engine/book/git.hpp"
#include "engine/book/walk.hpp"
#include "engine/language/command_line.hpp"
#include "engine/units/nearest.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <limits>

namespace jarful::book {

namespace fs = std::filesystem;

namespace {

constexpr std::int64_t day_seconds = 24 * 60 * 60;

std::string in_quotes(std::string_view text) {
    return "\"" + std::string(text) + "\"";
}

std::string without_slash(const char* folder) {
    std::string out = folder == nullptr ? "" : folder;
    while (out.size() > 1 && out.back() == '/')
        out.pop_back();
    return out;
}

/// The nearest folder that is there: a path's own, or one above it.
fs::path folder_at(const std::string& path) {
    std::error_code error;
    fs::path here = fs::absolute(path.empty() ? "." : path, error).lexically_normal();
    if (!here.has_filename()) here = here.parent_path(); // it ended in "/"
    while (!fs::is_directory(here, error) && here.has_relative_path())
        here = here.parent_path();
    return here;
}

/// Days since 1970-01-01 of "2026-09-01"; empty if it is no date.
std::optional<std::int64_t> day_of(std::string_view word) {
    if (word.size() != 10 || word[4] != '-' || word[7] != '-') return std::nullopt;
    const auto number = [&](std::size_t from, std::size_t count) {
        int value = 0;
        for (const char c : word.substr(from, count)) {
            if (c < '0' || c > '9') return -1;
            value = 10 * value + (c - '0');
        }
        return value;
    };
    using namespace std::chrono;
    const int y = number(0, 4);
    const int m = number(5, 2);
    const int d = number(8, 2);
    if (y < 0 || m < 0 || d < 0) return std::nullopt;
    const year_month_day date{year(y), month(static_cast<unsigned>(m)),
                              day(static_cast<unsigned>(d))};
    if (!date.ok()) return std::nullopt;
    return sys_days(date).time_since_epoch().count();
}

/// The day on the committer's own calendar, counted from 1970-01-01.
std::int64_t day_of(const git_time& when) {
    const std::int64_t local = when.time + std::int64_t{when.offset} * 60;
    return (local >= 0 ? local : local - (day_seconds - 1)) / day_seconds;
}

/// A branch or tag that is called nearly so.
std::optional<std::string> near_name(const Repository::Inside& inside, std::string_view word) {
    git_strarray list{};
    if (inside.git.reference_list(&list, inside.repository.get()) != 0) return std::nullopt;
    std::vector<std::string> names{"HEAD"};
    for (std::size_t i = 0; i < list.count; ++i) {
        std::string_view name = list.strings[i];
        for (const std::string_view home : {"refs/heads/", "refs/tags/", "refs/remotes/"}) {
            if (name.starts_with(home)) names.emplace_back(name.substr(home.size()));
        }
    }
    inside.git.strarray_dispose(&list);
    std::sort(names.begin(), names.end());
    const std::vector<std::string_view> known(names.begin(), names.end());
    if (const auto near = units::nearest(word, known)) return std::string(*near);
    return std::nullopt;
}

Trouble no_commits() {
    return {"no-commits", "Nothing has been committed here yet.",
            "Commit once, with `git add .` and `git commit`; then there is a past to look at."};
}

Trouble open_trouble(const Git& git, const std::string& folder, int code) {
    const git_error* last = git.error_last();
    const std::string text = last != nullptr && last->message != nullptr ? last->message : "";
    // The library has two answers for a repository of another user.
    if (code == GIT_EOWNER || text.find("safe.directory") != std::string::npos) {
        return {"not-your-repository",
                "The git repository of " + in_quotes(folder) +
                    " belongs to another user, and git does not let you use it unasked.",
                "If you trust it: " + language::command_line({"git", "config", "--global", "--add",
                                                              "safe.directory", folder})};
    }
    if (code == GIT_ENOTFOUND) {
        return {"not-a-repository",
                "The folder " + in_quotes(folder) + " does not lie in a git repository.",
                "`git init` makes one of it."};
    }
    return {"git-failed",
            "The git repository of " + in_quotes(folder) + " cannot be read: " + text + ".",
            "See what `git status` says there."};
}

} // namespace

std::string Revision::date() const {
    using namespace std::chrono;
    const git_time when{time, zone_minutes, '+'};
    const year_month_day date{sys_days(days(day_of(when)))};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

Repository::Repository(std::unique_ptr<Inside> inside)
    : inside_(std::move(inside)) {
}
Repository::Repository(Repository&&) noexcept = default;
Repository& Repository::operator=(Repository&&) noexcept = default;
Repository::~Repository() = default;

Answer<Repository> Repository::open(const std::string& folder) {
    const Git* git = git_library();
    if (git == nullptr) {
        return Trouble{"no-git-library",
                       std::string("The library that reads git repositories, ") + git_library_file +
                           ", is not installed.",
                       "On Debian: apt-get install libgit2-" LIBGIT2_SOVERSION};
    }
    const std::string start = folder_at(folder).string();
    auto inside =
        std::make_unique<Inside>(Inside{*git, Held<git_repository>(git->repository_free), {}, {}});
    const int code = git->repository_open_ext(inside->repository.out(), start.c_str(), 0, nullptr);
    if (code != 0) return open_trouble(*git, start, code);
    git_repository* repository = inside->repository.get();
    inside->objects = Held<git_odb>(git->odb_free);
    if (const int failed = git->repository_odb(inside->objects.out(), repository); failed != 0)
        return open_trouble(*git, start, failed);
    inside->work_tree = without_slash(git->repository_workdir(repository));
    inside->git_folder = without_slash(git->repository_commondir(repository));
    return Repository(std::move(inside));
}

const std::string& Repository::work_tree() const {
    return inside_->work_tree;
}
const std::string& Repository::git_folder() const {
    return inside_->git_folder;
}

Answer<std::string> Repository::path_of(const std::string& path) const {
    std::error_code error;
    const auto real = [&](const fs::path& p) {
        const fs::path out = fs::weakly_canonical(p, error);
        return error ? p.lexically_normal() : out;
    };
    const fs::path root =
        real(inside_->work_tree.empty() ? inside_->git_folder : inside_->work_tree);
    const fs::path whole = fs::absolute(path.empty() ? "." : path, error).lexically_normal();
    // Not the file itself: a link is committed as a link.
    const fs::path here = whole.has_filename() && !fs::is_directory(whole, error)
                              ? real(whole.parent_path()) / whole.filename()
                              : real(whole);
    std::string inner = here.lexically_relative(root).generic_string();
    while (inner.ends_with('/'))
        inner.pop_back();
    if (inner.empty() || inner == ".." || inner.starts_with("../")) {
        return Trouble{"outside-repository",
                       in_quotes(path) + " lies outside the git repository " +
                           in_quotes(root.string()) + ".",
                       "Name a file of that folder."};
    }
    return inner == "." ? std::string() : inner;
}

Trouble Repository::Inside::failed(const std::string& what) const {
    const git_error* last = git.error_last();
    const bool said = last != nullptr && last->message != nullptr;
    return {"git-failed",
            what + " cannot be read from the git repository" +
                (said ? ": " + std::string(last->message) : "") + ".",
            "See what `git fsck` says there."};
}

Revision Repository::Inside::describe(git_commit* commit) const {
    Revision out;
    char digits[GIT_OID_HEXSZ + 1];
    out.id = git.oid_tostr(digits, sizeof digits, git.commit_id(commit));
    out.short_id = out.id.substr(0, 7);
    git_buf shorter{};
    // NOLINTNEXTLINE(*-reinterpret-cast): a commit is an object
    if (git.object_short_id(&shorter, reinterpret_cast<git_object*>(commit)) == 0) {
        out.short_id = shorter.ptr;
    }
    git.buf_dispose(&shorter);
    const git_time when = git.commit_committer(commit)->when;
    out.time = when.time;
    out.zone_minutes = when.offset;
    const char* summary = git.commit_summary(commit);
    out.summary = summary == nullptr ? "" : summary;
    return out;
}

Answer<Held<git_commit>> Repository::Inside::commit(const Revision& revision) const {
    git_oid id{};
    Held<git_commit> out = commit_place();
    if (git.oid_fromstr(&id, revision.id.c_str()) != 0 || !is_at_most(id, limits::commit_bytes) ||
        git.commit_lookup(out.out(), repository.get(), &id) != 0) {
        return failed("The commit " + revision.id);
    }
    return out;
}

Answer<Held<git_tree>> Repository::Inside::tree(const Revision& revision) const {
    auto found = commit(revision);
    if (!found) return found.trouble();
    auto out = list_of(*git.commit_tree_id(found->get()));
    if (!out) return failed("The content of the commit " + revision.short_id);
    return std::move(*out);
}

Answer<Revision> Repository::head() const {
    const Git& git = inside_->git;
    Held<git_reference> head(git.reference_free);
    const int code = git.repository_head(head.out(), inside_->repository.get());
    if (code == GIT_EUNBORNBRANCH || code == GIT_ENOTFOUND) return no_commits();
    Held<git_object> commit(git.object_free);
    if (code != 0 || git.reference_peel(commit.out(), head.get(), GIT_OBJECT_COMMIT) != 0) {
        return inside_->failed("The last commit");
    }
    // NOLINTNEXTLINE(*-reinterpret-cast): it was asked for as a commit
    return inside_->describe(reinterpret_cast<git_commit*>(commit.get()));
}

namespace {

/// The newest commit of a history that was made on a day or before it.
Answer<Revision> on_or_before(const Repository::Inside& inside, const Revision& head,
                              std::int64_t day, std::string_view word) {
    Walk walk(inside);
    git_oid id{};
    inside.git.oid_fromstr(&id, head.id.c_str());
    walk.push(id);
    while (true) {
        const Held<git_commit> commit = walk.next();
        if (commit.get() == nullptr) break;
        if (day_of(inside.git.commit_committer(commit.get())->when) <= day) {
            return inside.describe(commit.get());
        }
        walk.push_parents(commit.get());
    }
    return Trouble{"unknown-revision",
                   "No commit here is from " + std::string(word) + " or before.",
                   inside.git.repository_is_shallow(inside.repository.get()) == 1
                       ? "This copy holds only the end of the history; `git fetch --unshallow` "
                         "fetches the rest."
                       : "`git log` shows from when on there are some."};
}

Trouble unknown_revision(const Repository::Inside& inside, std::string_view word) {
    Trouble out{"unknown-revision", "There is no revision " + in_quotes(word) + " here.", ""};
    const bool counted = word.find_first_of("~^@") != std::string_view::npos;
    if (counted && inside.git.repository_is_shallow(inside.repository.get()) == 1) {
        out.advice = "This copy holds only the end of the history; `git fetch --unshallow` fetches "
                     "the rest.";
    } else if (const auto near = counted ? std::nullopt : near_name(inside, word)) {
        out.advice = "Did you mean " + in_quotes(*near) + "?";
    } else if (counted) {
        out.advice = "The history may not go back so far; `git log --oneline` shows it.";
    } else {
        out.advice = "A revision is a branch, a tag, the beginning of a commit's id, HEAD~3 for "
                     "three commits ago, or a date such as 2026-09-01.";
    }
    return out;
}

} // namespace

Answer<Revision> Repository::resolve(std::string_view word) const {
    const Git& git = inside_->git;
    const std::string text(word);
    Held<git_object> named(git.object_free);
    Held<git_object> commit(git.object_free);
    const int code =
        text.empty() ? GIT_ENOTFOUND
                     : git.revparse_single(named.out(), inside_->repository.get(), text.c_str());
    if (code == 0 && git.object_peel(commit.out(), named.get(), GIT_OBJECT_COMMIT) == 0) {
        // NOLINTNEXTLINE(*-reinterpret-cast): it was asked for as a commit
        return inside_->describe(reinterpret_cast<git_commit*>(commit.get()));
    }
    if (code == 0) {
        return Trouble{"unknown-revision", in_quotes(word) + " is no commit.",
                       "It is something else of the repository; name a branch, a tag or a commit."};
    }
    const Answer<Revision> last = head();
    if (!last && last.trouble().code == "no-commits") return last.trouble();
    if (code == GIT_EAMBIGUOUS) {
        return Trouble{"ambiguous-revision",
                       "Several commits have an id that begins with " + in_quotes(word) + ".",
                       "Write more of it."};
    }
    if (const auto day = day_of(word)) {
        if (!last) return last.trouble();
        return on_or_before(*inside_, *last, *day, word);
    }
    return unknown_revision(*inside_, word);
}

Answer<std::string> Repository::read(const Revision& revision, std::string_view path) const {
    auto root = inside_->tree(revision);
    if (!root) return root.trouble();
    const auto entry = inside_->entry_at(root->get(), path);
    const auto missing = [&](const std::string& what, const std::string& advice) {
        return Trouble{"not-in-revision",
                       in_quotes(path) + " " + what + " in the commit " + revision.short_id +
                           " of " + revision.date() + ".",
                       advice};
    };
    if (!entry) {
        return missing("is not", "It may have had another name then, or have come later.");
    }
    const git_filemode_t mode = entry->mode;
    if (mode != GIT_FILEMODE_BLOB && mode != GIT_FILEMODE_BLOB_EXECUTABLE) {
        return missing(
            mode == GIT_FILEMODE_LINK ? "is a link to another file" : "is no file but a folder",
            mode == GIT_FILEMODE_LINK ? "Name the file that it leads to." : "Name a file in it.");
    }
    return inside_->blob(entry->id);
}

Answer<std::string> Repository::read(std::string_view word, std::string_view path) const {
    const Answer<Revision> revision = resolve(word);
    if (!revision) return revision.trouble();
    return read(*revision, path);
}

Answer<std::string> Repository::read(const Entry& entry) const {
    git_oid id{};
    if (inside_->git.oid_fromstr(&id, entry.blob.c_str()) != 0) {
        return inside_->failed("The file " + in_quotes(entry.path));
    }
    return inside_->blob(id);
}

} // namespace jarful::book
