#pragma once

#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>
#include <sys/wait.h>
#include <vector>

/// A folder for one test, with a shell in it and git set up for nobody in particular.
namespace jarful::test {

struct Ran {
    std::string said; ///< both streams
    int status = -1;
};

class Scratch {
  public:
    Scratch() {
        std::string form = (std::filesystem::temp_directory_path() / "jarful-test-XXXXXX").string();
        if (::mkdtemp(form.data()) == nullptr) ADD_FAILURE() << "no folder for the test";
        root_ = form;
        // Neither the user's settings nor those of a git that runs this test (as a hook does).
        for (const char* name : {"GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE", "GIT_PREFIX"})
            ::unsetenv(name);
        const std::array<std::pair<const char*, std::string>, 8> settings{{
            {"HOME", (root_ / "home").string()},
            {"XDG_CONFIG_HOME", (root_ / "home/.config").string()},
            {"GIT_CONFIG_NOSYSTEM", "1"},
            {"GIT_CEILING_DIRECTORIES", root_.parent_path().string()},
            {"GIT_AUTHOR_NAME", "Quay Street"},
            {"GIT_AUTHOR_EMAIL", "kitchen@quay.example"},
            {"GIT_COMMITTER_NAME", "Quay Street"},
            {"GIT_COMMITTER_EMAIL", "kitchen@quay.example"},
        }};
        for (const auto& [name, value] : settings)
            ::setenv(name, value.c_str(), 1);
        std::filesystem::create_directories(root_ / "home");
    }
    ~Scratch() {
        std::error_code ignored;
        std::filesystem::remove_all(root_, ignored);
    }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;

    [[nodiscard]] const std::filesystem::path& root() const { return root_; }
    [[nodiscard]] std::string path(std::string_view name) const { return (root_ / name).string(); }

    /// Runs a line of shell in a folder of the scratch.
    [[nodiscard]] Ran run(const std::string& line, std::string_view folder = "") const {
        const std::string command =
            "cd '" + (root_ / folder).string() + "' && { " + line + "\n} 2>&1";
        std::FILE* const pipe = ::popen(command.c_str(), "r");
        Ran out;
        if (pipe == nullptr) return out;
        std::array<char, 4096> buffer{};
        std::size_t n = 0;
        while ((n = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0)
            out.said.append(buffer.data(), n);
        const int status = ::pclose(pipe);
        out.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        return out;
    }

    /// What a line that must succeed says, without the last line's end.
    std::string sh(const std::string& line, std::string_view folder = "") const {
        Ran out = run(line, folder);
        EXPECT_EQ(out.status, 0) << line << "\n" << out.said;
        while (out.said.ends_with('\n'))
            out.said.pop_back();
        return out.said;
    }

    void write(const std::string& name, std::string_view text) const {
        std::filesystem::create_directories((root_ / name).parent_path());
        std::ofstream(root_ / name, std::ios::binary) << text;
    }

  private:
    std::filesystem::path root_;
};

} // namespace jarful::test
