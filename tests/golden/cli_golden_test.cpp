/// The whole program, run as a person runs it: words in, two streams and a status out.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <poll.h>
#include <regex>
#include <sstream>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;

const fs::path home = fs::path(JARFUL_SOURCE_DIR) / "tests/golden/cli";

struct Outcome {
    std::string result; ///< standard output
    std::string aside;  ///< standard error
    int status = -1;
};

/// Runs the program in the book's folder or in another one, without a shell.
Outcome run(std::vector<std::string> words, const fs::path& input = "/dev/null",
            const std::string& folder = "book") {
    words.insert(words.begin(), "jarful");
    std::vector<char*> arguments;
    for (std::string& word : words)
        arguments.push_back(word.data());
    arguments.push_back(nullptr);
    std::array<int, 2> out{};
    std::array<int, 2> err{};
    if (::pipe(out.data()) != 0 || ::pipe(err.data()) != 0) return {};
    const pid_t child = ::fork();
    if (child == 0) {
        const int in = ::open(input.c_str(), O_RDONLY);
        if (in < 0 || ::chdir((home / folder).c_str()) != 0) ::_exit(99);
        ::dup2(in, STDIN_FILENO);
        ::dup2(out[1], STDOUT_FILENO);
        ::dup2(err[1], STDERR_FILENO);
        for (const int descriptor : {in, out[0], out[1], err[0], err[1]})
            ::close(descriptor);
        ::execv(JARFUL_PROGRAM, arguments.data());
        ::_exit(98);
    }
    ::close(out[1]);
    ::close(err[1]);
    Outcome outcome;
    std::array<pollfd, 2> open{{{out[0], POLLIN, 0}, {err[0], POLLIN, 0}}};
    std::size_t left = 2;
    while (left > 0 && ::poll(open.data(), open.size(), -1) > 0) {
        for (std::size_t i = 0; i < open.size(); ++i) {
            if (open[i].revents == 0) continue;
            std::array<char, 4096> buffer{};
            const ssize_t n = ::read(open[i].fd, buffer.data(), buffer.size());
            if (n > 0) {
                (i == 0 ? outcome.result : outcome.aside)
                    .append(buffer.data(), static_cast<std::size_t>(n));
            } else {
                ::close(open[i].fd);
                open[i].fd = -1;
                --left;
            }
        }
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    outcome.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return outcome;
}

/// A case is a file of words, one a line; `< FILE` is standard input, and `@ FOLDER` where it runs,
/// if not in the book. Beside it stands what comes.
struct Case {
    std::string name;
    std::vector<std::string> words;
    fs::path input = "/dev/null";
    std::string folder = "book";
};

void PrintTo(const Case& c, std::ostream* out) {
    *out << c.name;
}

std::vector<Case> cases() {
    std::vector<Case> out;
    for (const auto& entry : fs::directory_iterator(home / "cases")) {
        if (entry.path().extension() != ".words") continue;
        Case c;
        c.name = entry.path().stem().string();
        std::ifstream file(entry.path());
        for (std::string line; std::getline(file, line);) {
            if (line.starts_with("< ")) {
                c.input = home / "book" / line.substr(2);
            } else if (line.starts_with("@ ")) {
                c.folder = line.substr(2);
            } else {
                c.words.push_back(line);
            }
        }
        out.push_back(std::move(c));
    }
    std::sort(out.begin(), out.end(), [](auto& a, auto& b) { return a.name < b.name; });
    return out;
}

/// Without the hash in a mark, which changes with any letter of a file.
std::string without_hash(std::string text) {
    constexpr std::string_view before = " with the mark ";
    const std::size_t at = text.rfind(before);
    if (at != std::string::npos) text.replace(at + before.size(), 16, "(hash)");
    return text;
}

class CliGolden : public ::testing::TestWithParam<Case> {};

TEST_P(CliGolden, comesOutAsExpected) {
    const Outcome outcome = run(GetParam().words, GetParam().input, GetParam().folder);
    std::ostringstream got;
    got << "status " << outcome.status << "\n== standard error\n"
        << outcome.aside << "== standard output\n"
        << without_hash(outcome.result);
    const fs::path path = home / "cases" / (GetParam().name + ".expected");
    if (std::getenv("JARFUL_UPDATE_GOLDEN") != nullptr) {
        std::ofstream(path) << got.str();
        return;
    }
    std::ifstream file(path);
    ASSERT_TRUE(file) << "there is no " << path << "; JARFUL_UPDATE_GOLDEN=1 writes it";
    std::ostringstream expected;
    expected << file.rdbuf();
    EXPECT_EQ(got.str(), expected.str());
}

INSTANTIATE_TEST_SUITE_P(Cli, CliGolden, ::testing::ValuesIn(cases()),
                         [](const auto& one) { return one.param.name; });

/// A figure in a unit of grams, litres, metres or degrees Celsius; with either blank between.
const std::regex& metric_figure() {
    static const std::regex found("[0-9](?: |\xc2\xa0)(?:m?g|kg|[mcd]?L|[mc]m|\xc2\xb0"
                                  "C)(?![a-zA-Z])");
    return found;
}

TEST(Cli, speaksOfNothingMetricInAKitchenThatIsKeptInOunces) {
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"weigh", "kraut"},
             {"weigh", "kraut", "cabbage=20lb"},
             {"weigh", "kraut", "--bowl", "1lb"},
             {"weigh", "kraut", "jar=tall,tall"},
             {"weigh", "half-sours"},
             {"weigh", "kraut", "salt=2oz"},
             {"jars", "kraut"},
             {"jars", "kraut", "cabbage=20lb"},
             {"jars", "half-sours"},
             {"tend", "kraut", "--start", "2026-11-25"},
             {"tend", "kraut", "--start", "2026-11-25", "--room", "90F"},
             {"tend", "kraut", "--start", "2026-11-25", "-o", "-"},
             {"card", "kraut"},
             {"card", "half-sours", "--md"},
             {"card", "kraut", "--svg"},
             {"card", "kraut", "--label"},
             {"mend", "kraut", "--poured", "salt=3oz"},
             {"mend", "kraut", "--poured", "salt=1/2oz"},
             {"check", "kraut"},
             {"batch", "show", "kraut", "--today", "2026-11-29"},
         }) {
        const Outcome outcome = run(words, "/dev/null", "ounces");
        std::string what;
        for (const std::string& word : words)
            what += word + " ";
        EXPECT_NE(outcome.status, 2) << what << outcome.aside;
        std::smatch found;
        // A line of a drawing goes on with an L, too.
        const std::string shown =
            std::regex_replace(outcome.result, std::regex(" d=\"[^\"]*\""), "");
        EXPECT_FALSE(std::regex_search(shown, found, metric_figure())) << what << "\n"
                                                                       << found.str() << " in\n"
                                                                       << outcome.result;
        EXPECT_FALSE(std::regex_search(outcome.aside, found, metric_figure())) << outcome.aside;
    }
}

TEST(Cli, writesJsonInBaseUnitsWhateverTheKitchenSays) {
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"weigh", "kraut", "--json"},
             {"jars", "kraut", "--json"},
             {"tend", "kraut", "--start", "2026-11-25", "--json"},
             {"mend", "kraut", "--poured", "salt=3oz", "--json"},
             {"check", "kraut", "--json"},
         }) {
        const Outcome us = run(words, "/dev/null", "ounces");
        std::vector<std::string> asked = words;
        if (words.front() != "check") asked.insert(asked.end(), {"--units", "metric"});
        EXPECT_EQ(us.result, run(asked, "/dev/null", "ounces").result);
        static const std::regex ounces("[0-9] (?:oz|lb|fl oz|quarts?|pints?|\xc2\xb0"
                                       "F)(?![a-zA-Z])");
        std::smatch found;
        const std::string text = std::regex_replace(
            // Steps say what the display shows, which is ounces.
            us.result,
            std::regex("\"(?:text|title|note|source)\": \"[^\n]*|\n *\"[^\"\n]*\",?(?=\n)"), "");
        EXPECT_FALSE(std::regex_search(text, found, ounces)) << words.front() << found.str();
    }
}

TEST(Cli, readsARecipeFromStandardInput) {
    const Outcome named = run({"weigh", "small-kraut", "--full"});
    const Outcome piped = run({"weigh", "-", "--full"}, home / "book/small-kraut.jarful");
    EXPECT_EQ(named.status, 0);
    EXPECT_EQ(piped.status, 0);
    EXPECT_EQ(named.result, piped.result);
    EXPECT_EQ(named.aside, "");
}

TEST(Cli, refusesEndlessFilesDevicesAndPipes) {
    EXPECT_EQ(run({"weigh", "/dev/zero"}).status, 2);
    EXPECT_EQ(run({"check", "/dev/zero"}).status, 2);
    const Outcome endless = run({"weigh", "-"}, "/dev/zero");
    EXPECT_EQ(endless.status, 2);
    EXPECT_EQ(endless.result, "");
    EXPECT_NE(endless.aside, "");
    const fs::path pipe =
        fs::temp_directory_path() / ("jarful-pipe-" + std::to_string(::getpid()) + ".jarful");
    ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
    const Outcome outcome = run({"weigh", pipe.string()});
    ::unlink(pipe.c_str());
    EXPECT_EQ(outcome.status, 2);
    EXPECT_NE(outcome.aside.find("[not-a-file]"), std::string::npos);
}

TEST(Cli, aFileThatMayNotBeReadIsSaid) {
    if (::geteuid() == 0) GTEST_SKIP() << "root may read everything";
    const fs::path file =
        fs::temp_directory_path() / ("jarful-locked-" + std::to_string(::getpid()) + ".jarful");
    std::ofstream(file) << "recipe \"Locked\"\n";
    fs::permissions(file, fs::perms::none);
    const Outcome outcome = run({"weigh", file.string()});
    fs::remove(file);
    EXPECT_EQ(outcome.status, 2);
    EXPECT_NE(outcome.aside.find("[unreadable-file]"), std::string::npos);
}

TEST(Cli, aClosedPipeIsNoFault) {
    std::array<int, 2> out{};
    ASSERT_EQ(::pipe(out.data()), 0);
    ::close(out[0]);
    const pid_t child = ::fork();
    if (child == 0) {
        ::dup2(out[1], STDOUT_FILENO);
        ::execl(JARFUL_PROGRAM, "jarful", "ranges", nullptr);
        ::_exit(98);
    }
    ::close(out[1]);
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
}

TEST(Cli, aFullDiskIsAFault) {
    const pid_t child = ::fork();
    if (child == 0) {
        ::dup2(::open("/dev/full", O_WRONLY), STDOUT_FILENO);
        ::dup2(::open("/dev/null", O_WRONLY), STDERR_FILENO);
        ::execl(JARFUL_PROGRAM, "jarful", "ranges", nullptr);
        ::_exit(98);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_EQ(WEXITSTATUS(status), 2);
}

TEST(Cli, everyOptionThatHelpNamesIsUnderstood) {
    for (const std::string command : {"weigh", "chart", "brine", "check", "ranges"}) {
        std::istringstream help(run({"help", command}).result);
        EXPECT_EQ(run({command, "--help"}).status, 0);
        for (std::string line; std::getline(help, line);) {
            const std::size_t at = line.find("--");
            if (at != 2) continue;
            const std::string option = line.substr(at, line.find(' ', at) - at);
            const Outcome outcome = run({command, option, "x", "--no-such-option"});
            EXPECT_EQ(outcome.status, 2);
            EXPECT_NE(outcome.aside.find("\"--no-such-option\""), std::string::npos) << option;
        }
    }
}

} // namespace
