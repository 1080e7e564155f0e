#include "cli/bases.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/assist/frames.hpp"
#include "engine/assist/server.hpp"

#include <array>
#include <cerrno>
#include <filesystem>
#include <poll.h>
#include <unistd.h>

namespace jarful::cli {

namespace fs = std::filesystem;

namespace {

/// What is on the disk, as the other commands see it.
class Disk : public assist::Files {
  public:
    [[nodiscard]] FileContent read(const std::string& path) const override {
        // "-" would be the editor's own messages.
        if (path.empty() || path == "-" || path.find("://") != std::string::npos)
            return {"", FileFault{"missing-file", "There is no such file.", ""}};
        return read_file(path);
    }
    [[nodiscard]] std::optional<std::string> kitchen_of(const std::string& path) const override {
        return cli::kitchen_of(place_of(path));
    }
    [[nodiscard]] std::optional<std::string> house_of(const std::string& path) const override {
        return cli::house_of(place_of(path));
    }
    [[nodiscard]] language::FoundBase find_base(std::string_view name,
                                                const std::string& from) const override {
        return cli::find_base(name, place_of(from));
    }
    [[nodiscard]] std::vector<std::string> book_of(const std::string& path) const override {
        const fs::path folder = fs::path(absolute(place_of(path))).parent_path();
        const auto root = book_root(folder);
        std::vector<std::string> out;
        if (!root) {
            // Any folder at all: what lies in it, and nothing below.
            std::error_code error;
            for (fs::directory_iterator it(folder, error), end; !error && it != end;
                 it.increment(error))
                if (it->path().extension() == ".jarful") out.push_back(cli::shown(it->path()));
            return out;
        }
        for (const std::string& file : files_below(root->string()))
            out.push_back(cli::shown(file));
        return out;
    }
    [[nodiscard]] std::string shown(const std::string& absolute) const override {
        return cli::shown(absolute);
    }
    [[nodiscard]] std::string absolute(const std::string& path) const override {
        std::error_code error;
        const fs::path whole = fs::absolute(path, error);
        return (error ? fs::path(path) : whole).lexically_normal().string();
    }

  private:
    /// A text that has no file yet is taken to lie in the current folder.
    static std::string place_of(const std::string& path) {
        return path.find(':') != std::string::npos && !is_file(path) ? "-" : path;
    }
};

/// Whether there is something to read, or the end; waits for it if asked to.
bool readable(bool wait) {
    pollfd input{STDIN_FILENO, POLLIN, 0};
    while (true) {
        const int found = ::poll(&input, 1, wait ? -1 : 0);
        if (found >= 0) return found > 0;
        if (errno != EINTR) return true; // reading says what is wrong
    }
}

class Serving {
  public:
    explicit Serving(const assist::Files& files)
        : server_(files) {}

    int run() {
        while (!server_.ended()) {
            if (server_.idle() && input_ended_) break;
            // Messages that are there already may cancel or outdate what waits.
            constexpr std::size_t most_waiting = 256;
            const bool wait = server_.idle();
            if (!input_ended_ && (wait || server_.waiting() < most_waiting) && readable(wait)) {
                if (!read()) return status::not_done;
                if (!server_.idle()) continue;
            }
            for (const std::string& message : server_.work())
                if (!write_result(assist::framed(message))) return status::not_done;
        }
        return server_.ended() && server_.ended_well() ? status::nothing_to_say : status::not_done;
    }

  private:
    bool read() {
        std::array<char, std::size_t{64} * 1024> piece{};
        ssize_t n = 0;
        do
            n = ::read(STDIN_FILENO, piece.data(), piece.size());
        while (n < 0 && errno == EINTR);
        if (n < 0) {
            complain("The editor's messages cannot be read.");
            return false;
        }
        if (n == 0) input_ended_ = true;
        frames_.feed({piece.data(), static_cast<std::size_t>(n)});
        while (auto message = frames_.next()) {
            if (message->trouble.empty())
                server_.receive(message->body);
            else
                server_.receive_trouble(message->trouble);
        }
        // Nobody can tell where the next message begins.
        if (frames_.broken()) input_ended_ = true;
        return true;
    }

    assist::Server server_;
    assist::Frames frames_;
    bool input_ended_ = false;
};

int run(const Command& command, const std::vector<std::string>& words) {
    bool stdio = false;
    std::vector<std::string> stray;
    Options reader(command);
    reader.flag("--stdio", stdio);
    reader.words(stray);
    if (const auto failed = reader.parse(words)) return *failed;
    if (!stray.empty()) return stray_word(stray.front(), command);
    if (::isatty(STDIN_FILENO) == 1)
        complain("This waits for the messages of an editor, which starts it by itself; Ctrl-D "
                 "leaves it.");
    const Disk disk;
    return Serving(disk).run();
}

constexpr std::array flags{
    Flag{"--stdio", "", "standard input and output, which is what it uses in any case"},
};
constexpr std::array<std::string_view, 1> examples{"jarful language-server"};

} // namespace

const Command language_server_command{
    .name = "language-server",
    .usage = "[OPTIONS]",
    .about = "for an editor: faults, amounts and names while a recipe is written",
    .more =
        "Speaks the Language Server Protocol 3.17 on standard input and output: an editor starts "
        "it and asks it, and it changes no file. It says what `jarful check` says, also of what "
        "is not saved yet, and behind each line what it comes to in the kitchen. "
        "docs/how-to/editor.md shows how editors are set up. Exit status: 0 after `shutdown` "
        "and `exit`, 2 if the editor went away without them.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
