#include "cli/set_up.hpp"

#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/past.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/book/set_up.hpp"
#include "engine/language/command_line.hpp"

#include <cstdlib>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

namespace jarful::cli {

namespace {

namespace fs = std::filesystem;

/// What was done, line by line, and whether all of it was.
class SetUp {
  public:
    SetUp(const book::Repository& repository, bool write_config)
        : repository_(repository)
        , write_config_(write_config) {}

    int run() {
        attributes();
        hook();
        settings();
        return finish(said_, failed_ ? status::not_done : status::nothing_to_say);
    }

  private:
    void say(const std::string& sentence) {
        for (const std::string& line : render::wrap(sentence, 80))
            said_ += line + '\n';
    }

    void failed(const FileFault& fault, const std::string& path) {
        complain(in_quotes(path) + " was not written. " + fault.message +
                 (fault.advice.empty() ? "" : " " + fault.advice));
        failed_ = true;
    }

    void attributes() {
        const std::string path = repository_.work_tree() + "/.gitattributes";
        std::error_code error;
        if (fs::is_symlink(fs::symlink_status(path, error)))
            return failed({"linked-file",
                           "It is a link, which git does not follow, and may lead anywhere.",
                           "Put a file in its place."},
                          path);
        std::string there;
        const bool has = is_file(path);
        if (has) {
            FileContent content = read_file(path);
            if (content.fault) return failed(*content.fault, path);
            there = std::move(content.bytes);
        }
        const book::Attributes wanted = book::with_attributes(there);
        if (!wanted.driver.empty()) {
            say(".gitattributes already says \"" + wanted.driver +
                "\" for *.jarful, and is left as it is. For our driver, write: *.jarful "
                "diff=jarful");
        } else if (wanted.same) {
            say(".gitattributes already has what is needed.");
        } else if (has) {
            Replacement writing;
            std::size_t done = 0;
            auto fault = writing.stage(path, there, wanted.text);
            if (!fault) fault = writing.commit(done);
            if (fault) return failed(*fault, path);
            say("Added to .gitattributes: *.jarful text diff=jarful");
        } else {
            if (const auto fault = create_file(path, wanted.text)) return failed(*fault, path);
            say("Wrote .gitattributes: *.jarful text diff=jarful");
        }
    }

    /// A folder in which git looks for hooks.
    struct Hooks {
        fs::path folder;
        bool ours = false; ///< lies in this repository
    };

    /// Where git looks for hooks, as git-config(1) says of `core.hooksPath`: "~/" is the
    /// home folder, and what is not absolute begins at the work tree.
    [[nodiscard]] Hooks hooks() const {
        const auto set = repository_.setting("core.hooksPath");
        fs::path folder = fs::path(repository_.git_folder()) / "hooks";
        if (set && !set->empty()) {
            const char* const home = std::getenv("HOME");
            if (set->starts_with("~/") && home != nullptr && *home != '\0') {
                folder = fs::path(home) / set->substr(2);
            } else if (set->starts_with('~') || set->starts_with("%(prefix)")) {
                return {*set, false}; // of another user or of git's own installation
            } else {
                folder = fs::path(repository_.work_tree()) / *set;
            }
        }
        const auto below = [&](const std::string& root) {
            std::error_code error;
            const fs::path from = fs::weakly_canonical(folder, error)
                                      .lexically_relative(fs::weakly_canonical(root, error));
            return !error && !from.empty() && *from.begin() != "..";
        };
        return {folder, below(repository_.work_tree()) || below(repository_.git_folder())};
    }

    void hook() {
        const Hooks hooks = this->hooks();
        const fs::path path = hooks.folder / "pre-commit";
        std::error_code error;
        if (!hooks.ours) {
            // Other repositories may have their hooks there, too.
            const fs::path own = fs::path(repository_.git_folder()) / "pre-commit-jarful";
            say("Git is told (core.hooksPath) to look for hooks in a folder outside of this "
                "repository, where nothing is written: " +
                hooks.folder.string());
            return beside(own, "\"$(git rev-parse --git-common-dir)/pre-commit-jarful\"");
        }
        if (!fs::exists(fs::symlink_status(path, error))) {
            if (write_hook(path))
                say("Wrote the pre-commit hook, which checks what is staged: " + path.string());
            return;
        }
        const FileContent content = read_file(path.string());
        if (!content.fault && content.bytes == book::pre_commit_hook()) return revive(path);
        say("There is a pre-commit hook already, and it is left as it is: " + path.string());
        if (::access(path.c_str(), X_OK) != 0)
            say("It is not active: it is not marked as a program, and git passes over it.");
        beside(hooks.folder / "pre-commit-jarful", "\"$(dirname \"$0\")/pre-commit-jarful\"");
    }

    /// Our hook for a hook of somebody else's to run.
    void beside(const fs::path& own, const std::string& call) {
        say("To have recipes checked when you commit, let the hook there run ours:");
        said_ += "  " + call + " || exit 1\n";
        std::error_code error;
        if (!fs::exists(fs::symlink_status(own, error))) {
            if (write_hook(own)) say("It is written to: " + own.string());
            return;
        }
        const FileContent content = read_file(own.string());
        if (!content.fault && content.bytes == book::pre_commit_hook()) return revive(own);
        say("There is another file of its name, which is left as it is: " + own.string());
        failed_ = true;
    }

    /// Our hook is there; git passes over it where it is no program.
    void revive(const fs::path& path) {
        if (::access(path.c_str(), X_OK) == 0) return say("The pre-commit hook is there.");
        std::error_code error;
        if (!fs::is_symlink(fs::symlink_status(path, error)) && ::chmod(path.c_str(), 0755) == 0)
            return say("The pre-commit hook was there and not active: it was not marked as a "
                       "program. Now it is.");
        say("The pre-commit hook is there and not active: it is not marked as a program, and git "
            "passes over it. To mark it: " +
            language::command_line({"chmod", "+x", path.string()}));
        failed_ = true;
    }

    bool write_hook(const fs::path& path) {
        std::error_code error;
        fs::create_directories(path.parent_path(), error);
        const auto fault = create_file(path.string(), book::pre_commit_hook(), 0777);
        if (fault) failed(*fault, path.string());
        return !fault;
    }

    void settings() {
        const auto wanted = book::git_settings();
        if (!write_config_) {
            say("What is left is for you to set, or for `jarful book --set-up --write-config`:");
            for (const auto& [name, value] : wanted)
                said_ += "  " + language::command_line({"git", "config", name, value}) + '\n';
            return;
        }
        for (const auto& [name, value] : wanted) {
            const auto now = repository_.setting(name);
            if (now && *now == value) {
                say("Set already: " + name);
            } else if (const auto trouble = repository_.set(name, value)) {
                complain_of(*trouble);
                failed_ = true;
            } else {
                say("Set: " + name + (now && !now->empty() ? ", in place of: " + *now : ""));
            }
        }
    }

    const book::Repository& repository_;
    bool write_config_;
    std::string said_;
    bool failed_ = false;
};

} // namespace

int set_up_book(const std::string& folder, bool write_config) {
    const auto repository = open_book(folder);
    if (!repository) return status::not_done;
    if (repository->work_tree().empty()) {
        complain("A bare repository has no work tree in which recipes are written; set up the "
                 "clone that you work in.");
        return status::not_done;
    }
    return SetUp(*repository, write_config).run();
}

} // namespace jarful::cli
