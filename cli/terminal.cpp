#include "cli/terminal.hpp"

#include "cli/command.hpp"

#include <cerrno>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <string>
#include <unistd.h>

namespace jarful::cli {

namespace {

/// Writes everything; 0, or the error number.
int write_all(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const ssize_t n = ::write(descriptor, text.data(), text.size());
        if (n < 0) {
            if (errno == EINTR) continue;
            return errno;
        }
        text.remove_prefix(static_cast<std::size_t>(n));
    }
    return 0;
}

bool in_colour(int descriptor) {
    if (::isatty(descriptor) == 0) return false;
    const char* no = std::getenv("NO_COLOR");
    if (no != nullptr && *no != '\0') return false;
    const char* term = std::getenv("TERM");
    return term == nullptr || std::strcmp(term, "dumb") != 0;
}

long long now_ms() {
    using namespace std::chrono;
    return duration_cast<milliseconds>(steady_clock::now().time_since_epoch()).count();
}

} // namespace

bool write_result(std::string_view text) {
    const int error = write_all(STDOUT_FILENO, text);
    if (error == 0 || error == EPIPE) return true;
    complain(std::string("The result could not be written: ") + std::strerror(error) + ".");
    return false;
}

int finish(std::string_view result, int status) {
    return write_result(result) ? status : status::not_done;
}

void write_aside(std::string_view text) {
    // Where even that cannot be written there is nobody left to tell.
    static_cast<void>(write_all(STDERR_FILENO, text));
}

void complain(std::string_view sentence) {
    constexpr std::string_view name = "jarful: ";
    std::string out;
    for (const std::string& line : render::wrap(sentence, 80 - static_cast<int>(name.size()))) {
        out += (out.empty() ? std::string(name) : std::string(name.size(), ' ')) + line + '\n';
    }
    write_aside(out);
}

bool result_in_colour() {
    return in_colour(STDOUT_FILENO);
}
bool aside_in_colour() {
    return in_colour(STDERR_FILENO);
}

render::TextStyle result_style(render::Units units, bool full) {
    return {.units = units, .colour = result_in_colour(), .brief = !full};
}

Progress::Progress(std::size_t total)
    : total_(total)
    , terminal_(::isatty(STDERR_FILENO) != 0)
    , started_ms_(now_ms()) {
}

Progress::~Progress() {
    done();
}

void Progress::done() {
    if (shown_) write_aside("\r\x1b[K");
    shown_ = false;
}

void Progress::at(std::size_t done) {
    if (!terminal_) return;
    const long long now = now_ms();
    if (now - started_ms_ < 1000 || now - last_ms_ < 200) return;
    last_ms_ = now;
    shown_ = true;
    write_aside("\rLooked at " + std::to_string(done) + " of " + std::to_string(total_) +
                " files ");
}

} // namespace jarful::cli
