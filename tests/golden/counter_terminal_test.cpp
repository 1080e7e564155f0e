/// The conversation at the counter as a person has it, and what else a terminal is told: keys typed
/// on it.

#include <gtest/gtest.h>

#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <dlfcn.h>
#include <filesystem>
#include <poll.h>
#include <pty.h>
#include <string>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

namespace {

using namespace std::chrono_literals;

/// The program on a terminal of its own.
class OnATerminal {
  public:
    explicit OnATerminal(const char* terminal = "vt100", const char* command = "counter",
                         const char* recipe = "small-kraut") {
        winsize size{};
        size.ws_row = 24;
        size.ws_col = 100;
        child_ = ::forkpty(&keyboard_, nullptr, nullptr, &size);
        if (child_ != 0) return;
        ::setenv("TERM", terminal, 1);
        ::setenv("NO_COLOR", "1", 1);
        ::setenv("LC_ALL", "C.UTF-8", 1);
        const std::filesystem::path book =
            std::filesystem::path(JARFUL_SOURCE_DIR) / "tests/golden/cli/book";
        if (::chdir(book.c_str()) != 0) ::_exit(99);
        ::execl(JARFUL_PROGRAM, "jarful", command, recipe, nullptr);
        ::_exit(98);
    }
    ~OnATerminal() {
        if (child_ > 0) {
            ::kill(child_, SIGKILL);
            ::waitpid(child_, nullptr, 0);
        }
        ::close(keyboard_);
    }
    OnATerminal(const OnATerminal&) = delete;
    OnATerminal& operator=(const OnATerminal&) = delete;

    void type(const std::string& keys) {
        mark_ = shown_.size();
        ASSERT_EQ(::write(keyboard_, keys.data(), keys.size()), static_cast<ssize_t>(keys.size()));
    }

    /// Waits until a text has come since the last keys, and after what was waited for last.
    [[nodiscard]] bool shows(const std::string& text) {
        const auto until = std::chrono::steady_clock::now() + 20s;
        std::size_t at = 0;
        while ((at = shown_.find(text, mark_)) == std::string::npos) {
            if (std::chrono::steady_clock::now() > until || !read_some()) return false;
        }
        mark_ = at + text.size();
        return true;
    }

    /// Waits for a text and the prompt after it: keys that come before the prompt are not edited.
    [[nodiscard]] bool answers(const std::string& text) {
        return shows(text) && shows("> ") && edits();
    }

    /// Waits until the terminal gives keys one by one, which is a moment after the prompt.
    [[nodiscard]] bool edits() {
        for (int i = 0; i < 2000; ++i) {
            termios now{};
            if (::tcgetattr(keyboard_, &now) == 0 && (now.c_lflag & ICANON) == 0) return true;
            ::usleep(1000);
        }
        return false;
    }

    /// The exit status, once the program ends; -1 if it does not.
    int status() {
        while (read_some()) {
        }
        int status = 0;
        const auto until = std::chrono::steady_clock::now() + 20s;
        while (::waitpid(child_, &status, WNOHANG) == 0) {
            if (std::chrono::steady_clock::now() > until) return -1;
            ::usleep(10'000);
        }
        child_ = -1;
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }

    [[nodiscard]] std::string since() const { return shown_.substr(mark_); }

  private:
    bool read_some() {
        pollfd ready{keyboard_, POLLIN, 0};
        if (::poll(&ready, 1, 10'000) <= 0) return false;
        std::array<char, 4096> buffer{};
        const ssize_t n = ::read(keyboard_, buffer.data(), buffer.size());
        if (n <= 0) return false;
        shown_.append(buffer.data(), static_cast<std::size_t>(n));
        return true;
    }

    int keyboard_ = -1;
    pid_t child_ = -1;
    std::string shown_;
    std::size_t mark_ = 0;
};

bool editing_is_there() {
    void* library = ::dlopen("libedit.so.2", RTLD_NOW);
    if (library != nullptr) ::dlclose(library);
    return library != nullptr && JARFUL_LINE_EDITING;
}

const std::string up = "\x1b[A";
const std::string control_c = "\x03";
const std::string control_d = "\x04";

TEST(CounterOnATerminal, completesRecallsCancelsAndEnds) {
    if (!editing_is_there()) GTEST_SKIP() << "libedit is not installed";
    OnATerminal counter;
    ASSERT_TRUE(counter.shows("> ") && counter.edits()) << counter.since();
    counter.type("cabb\t1.84kg\r");
    ASSERT_TRUE(counter.answers("1840 g")) << counter.since();
    // What was typed before comes back, and a key at its end makes it another amount.
    counter.type("undo\r");
    ASSERT_TRUE(counter.answers("1800 g")) << counter.since();
    counter.type(up + up + "\x7f\x7f\x7f" + "6kg\r");
    ASSERT_TRUE(counter.answers("1860 g")) << counter.since();
    // Two words begin so: both are shown, and the line stays.
    counter.type("wi\t\t");
    ASSERT_TRUE(counter.shows("without")) << counter.since();
    counter.type(control_c);
    ASSERT_TRUE(counter.shows("> ") && counter.edits());
    counter.type("jar=ta\t\r");
    ASSERT_TRUE(counter.answers("TOO LITTLE")) << counter.since();
    counter.type("x" + control_c + control_d);
    EXPECT_EQ(counter.status(), 1) << counter.since(); // the jar does not take it all
}

TEST(CounterOnATerminal, doesWithoutEditingOnADumbOne) {
    OnATerminal counter("dumb");
    ASSERT_TRUE(counter.shows("> ")) << counter.since();
    counter.type("poured salt=80g" + control_c);
    ASSERT_TRUE(counter.shows("> ")) << counter.since();
    counter.type("cabbage=1.84kg\n");
    ASSERT_TRUE(counter.shows("→ 1840 g")) << counter.since();
    counter.type("poured salt=80g\n");
    ASSERT_TRUE(counter.shows("ABOVE")) << counter.since();
    counter.type("quit\n");
    EXPECT_EQ(counter.status(), 1);
}

TEST(LanguageServerOnATerminal, saysThatItIsForAnEditor) {
    OnATerminal server("vt100", "language-server", nullptr);
    ASSERT_TRUE(server.shows("messages of an editor")) << server.since();
    ASSERT_TRUE(server.shows("Ctrl-D leaves it.")) << server.since();
    server.type(control_d);
    EXPECT_EQ(server.status(), 2);
}

} // namespace
