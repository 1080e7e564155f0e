#include "cli/line_editor.hpp"

#include "cli/terminal.hpp"

#include <algorithm>
#include <cerrno>
#include <clocale>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <dlfcn.h>
#include <poll.h>
#include <unistd.h>

#if __has_include(<histedit.h>)
#include <histedit.h>
#define JARFUL_HAS_LIBEDIT 1
#else
#define JARFUL_HAS_LIBEDIT 0
#endif

namespace jarful::cli {

namespace {

constexpr std::size_t longest_line = 1u << 16;

volatile std::sig_atomic_t interrupted = 0;

void note_interrupt(int) {
    interrupted = 1;
}

/// Lines as they come. On a terminal Ctrl-C throws the line away (the terminal itself forgets what
/// was typed); elsewhere it ends the program as usual.
class PlainLines final : public LineSource {
  public:
    PlainLines(std::string prompt, bool typed)
        : prompt_(std::move(prompt))
        , typed_(typed) {
        if (!typed_) return;
        struct sigaction action {};
        action.sa_handler = note_interrupt;
        ::sigaction(SIGINT, &action, nullptr);
        // Ctrl-C comes in only while waiting for a line: just before it, it would be missed.
        sigset_t interrupt;
        ::sigemptyset(&interrupt);
        ::sigaddset(&interrupt, SIGINT);
        ::sigprocmask(SIG_BLOCK, &interrupt, &while_waiting_);
        ::sigdelset(&while_waiting_, SIGINT);
    }

    Event next(std::string& line) override {
        line.clear();
        if (typed_) write_aside(prompt_);
        bool any = false;
        for (;;) {
            if (at_ == buffer_.size() && !fill()) {
                if (interrupted == 0) return any ? Event::line : Event::end;
                interrupted = 0;
                write_aside("\n");
                return Event::cancelled;
            }
            const std::size_t end = std::min(buffer_.find('\n', at_), buffer_.size());
            const std::size_t room = longest_line - std::min(longest_line, line.size());
            line.append(buffer_, at_, std::min(end - at_, room));
            any = true;
            at_ = end;
            if (at_ == buffer_.size()) continue;
            ++at_;
            return Event::line;
        }
    }

    [[nodiscard]] bool typed() const override { return typed_; }

  private:
    bool fill() {
        buffer_.resize(4096);
        at_ = 0;
        ssize_t n = 0;
        if (typed_ && !wait()) {
            buffer_.clear();
            return false;
        }
        do {
            n = ::read(STDIN_FILENO, buffer_.data(), buffer_.size());
        } while (n < 0 && errno == EINTR && interrupted == 0);
        buffer_.resize(n > 0 ? static_cast<std::size_t>(n) : 0);
        return n > 0;
    }

    /// Until something can be read; false if Ctrl-C was faster.
    bool wait() {
        pollfd input{STDIN_FILENO, POLLIN, 0};
        while (interrupted == 0) {
            if (::ppoll(&input, 1, nullptr, &while_waiting_) >= 0 || errno != EINTR) break;
        }
        return interrupted == 0;
    }

    std::string prompt_;
    bool typed_;
    sigset_t while_waiting_{};
    std::string buffer_;
    std::size_t at_ = 0;
};

#if JARFUL_HAS_LIBEDIT

/// The functions of libedit that are used, found when the program runs.
struct Library {
    decltype(&::el_init) init = nullptr;
    decltype(&::el_end) end = nullptr;
    decltype(&::el_set) set = nullptr;
    decltype(&::el_gets) gets = nullptr;
    decltype(&::el_line) line = nullptr;
    decltype(&::el_insertstr) insert = nullptr;
    decltype(&::el_deletestr) erase = nullptr;
    decltype(&::history_init) history_init = nullptr;
    decltype(&::history_end) history_end = nullptr;
    decltype(&::history) history = nullptr;

    bool load() {
        // Never closed: the library may have left things behind that run at the end.
        void* handle = ::dlopen("libedit.so.2", RTLD_NOW | RTLD_LOCAL);
        if (handle == nullptr) return false;
        const auto find = [&](auto& function, const char* name) {
            void* address = ::dlsym(handle, name);
            // POSIX lets a function's address be kept in a void*; the language has no cast for it.
            static_assert(sizeof function == sizeof address);
            std::memcpy(&function, &address, sizeof address);
            return address != nullptr;
        };
        return find(init, "el_init") && find(end, "el_end") && find(set, "el_set") &&
               find(gets, "el_gets") && find(line, "el_line") && find(insert, "el_insertstr") &&
               find(erase, "el_deletestr") && find(history_init, "history_init") &&
               find(history_end, "history_end") && find(history, "history");
    }
};

class EditedLines final : public LineSource {
  public:
    EditedLines(const Library& library, std::string prompt,
                std::function<WordChoice(std::string_view)> complete)
        : lib_(library)
        , prompt_(std::move(prompt))
        , complete_(std::move(complete)) {
        self = this;
        std::setlocale(LC_CTYPE, ""); // so that letters beyond ASCII are letters
        editor_ = lib_.init("jarful", stdin, stdout, stderr);
        history_ = lib_.history_init();
        if (editor_ == nullptr || history_ == nullptr) return;
        HistEvent event{};
        lib_.history(history_, &event, H_SETSIZE, 500);
        lib_.history(history_, &event, H_SETUNIQUE, 1);
        lib_.set(editor_, EL_PROMPT, show_prompt);
        lib_.set(editor_, EL_EDITOR, "emacs");
        lib_.set(editor_, EL_HIST, lib_.history, history_);
        lib_.set(editor_, EL_ADDFN, "complete-word", "names and words", complete_word);
        lib_.set(editor_, EL_BIND, "^I", "complete-word", nullptr);
        // Ctrl-C is a key like others: it throws the line away.
        lib_.set(editor_, EL_ADDFN, "cancel-line", "throw the line away", cancel_line);
        lib_.set(editor_, EL_SETTY, "-d", "-isig", nullptr);
        lib_.set(editor_, EL_BIND, "^C", "cancel-line", nullptr);
    }

    ~EditedLines() override {
        if (editor_ != nullptr) lib_.end(editor_);
        if (history_ != nullptr) lib_.history_end(history_);
        self = nullptr;
    }

    EditedLines(const EditedLines&) = delete;
    EditedLines& operator=(const EditedLines&) = delete;

    [[nodiscard]] bool ready() const { return editor_ != nullptr && history_ != nullptr; }

    Event next(std::string& line) override {
        line.clear();
        cancelled_ = false;
        int count = 0;
        const char* text = lib_.gets(editor_, &count);
        if (cancelled_) {
            write_aside("\n");
            return Event::cancelled;
        }
        if (text == nullptr || count <= 0) {
            write_aside("\n");
            return Event::end;
        }
        line.assign(text, std::min(static_cast<std::size_t>(count), longest_line));
        while (!line.empty() && (line.back() == '\n' || line.back() == '\r'))
            line.pop_back();
        if (line.find_first_not_of(" \t") != std::string::npos) {
            HistEvent event{};
            lib_.history(history_, &event, H_ENTER, line.c_str());
        }
        return Event::line;
    }

    [[nodiscard]] bool typed() const override { return true; }

  private:
    static char* show_prompt(EditLine*) { return self->prompt_.data(); }

    static unsigned char cancel_line(EditLine*, int) {
        self->cancelled_ = true;
        return CC_EOF;
    }

    static unsigned char complete_word(EditLine* editor, int) { return self->complete_at(editor); }

    unsigned char complete_at(EditLine* editor) {
        const LineInfo* info = lib_.line(editor);
        const std::string typed(info->buffer, info->cursor);
        const WordChoice choice = complete_(typed);
        if (choice.words.empty()) return CC_REFRESH_BEEP;
        std::string common = choice.words.front();
        for (const std::string& word : choice.words) {
            std::size_t same = 0;
            while (same < std::min(common.size(), word.size()) && common[same] == word[same])
                ++same;
            common.resize(same);
        }
        // Never half a letter.
        while (!common.empty() && choice.words.size() > 1 && in_letter(choice.words[0], common))
            common.pop_back();
        const std::size_t there = typed.size() - std::min(choice.from, typed.size());
        std::string missing = common.substr(std::min(there, common.size()));
        if (choice.words.size() == 1 && !common.ends_with('=')) missing += ' ';
        if (!missing.empty()) {
            return lib_.insert(editor, missing.c_str()) == -1 ? CC_ERROR : CC_REFRESH;
        }
        std::string list = "\n";
        for (const std::string& word : choice.words)
            list += word + "  ";
        std::fputs((list + "\n").c_str(), stdout);
        std::fflush(stdout);
        return CC_REDISPLAY;
    }

    static bool in_letter(const std::string& whole, const std::string& part) {
        return part.size() < whole.size() &&
               (static_cast<unsigned char>(whole[part.size()]) & 0xC0) == 0x80;
    }

    static inline EditedLines* self = nullptr; ///< there is one standard input

    Library lib_;
    std::string prompt_;
    std::function<WordChoice(std::string_view)> complete_;
    EditLine* editor_ = nullptr;
    History* history_ = nullptr;
    bool cancelled_ = false;
};

#endif

} // namespace

std::unique_ptr<LineSource> line_source(const std::string& prompt,
                                        std::function<WordChoice(std::string_view)> complete) {
    const bool typed = ::isatty(STDIN_FILENO) != 0 && ::isatty(STDOUT_FILENO) != 0;
#if JARFUL_HAS_LIBEDIT
    const char* term = std::getenv("TERM");
    const bool able = term != nullptr && std::strcmp(term, "dumb") != 0;
    Library library;
    if (typed && able && library.load()) {
        auto lines = std::make_unique<EditedLines>(library, prompt, std::move(complete));
        if (lines->ready()) return lines;
    }
#else
    static_cast<void>(complete);
#endif
    return std::make_unique<PlainLines>(prompt, typed);
}

} // namespace jarful::cli
