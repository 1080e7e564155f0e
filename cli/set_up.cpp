#include "cli/set_up.hpp"

#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/past.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/book/set_up.hpp"

#include <filesystem>
#include <sys/stat.h>

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
            auto fault = writing.stage(path, wanted.text);
            if (!fault) fault = writing.commit(done);
            if (fault) return failed(*fault, path);
            say("Added to .gitattributes: *.jarful text diff=jarful");
        } else {
            if (const auto fault = create_file(path, wanted.text)) return failed(*fault, path);
            say("Wrote .gitattributes: *.jarful text diff=jarful");
        }
    }

    /// Where git looks for hooks.
    [[nodiscard]] fs::path hooks() const {
        const auto set = repository_.setting("core.hooksPath");
        if (!set || set->empty()) return fs::path(repository_.git_folder()) / "hooks";
        return fs::path(repository_.work_tree()) / *set;
    }

    void hook() {
        const fs::path path = hooks() / "pre-commit";
        std::error_code error;
        if (fs::exists(fs::symlink_status(path, error))) {
            const FileContent content = read_file(path.string());
            if (!content.fault && content.bytes == book::pre_commit_hook()) {
                say("The pre-commit hook is there.");
                return;
            }
            say("There is a pre-commit hook already, and it is left as it is: " + path.string());
            say("To have it check recipes too, let it run ours, which stands beside it:");
            const fs::path beside = hooks() / "pre-commit-jarful";
            said_ += "  \"$(dirname \"$0\")/pre-commit-jarful\" || exit 1\n";
            if (!fs::exists(fs::symlink_status(beside, error))) write_hook(beside);
            return;
        }
        if (write_hook(path)) {
            say("Wrote the pre-commit hook, which checks what is staged: " + path.string());
        }
    }

    bool write_hook(const fs::path& path) {
        std::error_code error;
        fs::create_directories(path.parent_path(), error);
        const auto fault = create_file(path.string(), book::pre_commit_hook());
        if (fault) {
            failed(*fault, path.string());
            return false;
        }
        if (::chmod(path.c_str(), 0755) != 0) {
            failed({"unwritable-file", "It could not be made a program.", ""}, path.string());
            return false;
        }
        return true;
    }

    void settings() {
        const auto wanted = book::git_settings();
        if (!write_config_) {
            say("What is left is for you to set, or for `jarful book --set-up --write-config`:");
            for (const auto& [name, value] : wanted)
                said_ += "  git config " + name + " " + quoted(value) + '\n';
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

    /// For a shell.
    static std::string quoted(const std::string& text) {
        std::string out = "'";
        for (const char c : text)
            out += c == '\'' ? std::string("'\\''") : std::string(1, c);
        return out + "'";
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
