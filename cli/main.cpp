#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "cli/terminal.hpp"

#include <csignal>
#include <exception>

int main(int argc, char** argv) {
    using namespace jarful::cli;
    // A reader who has seen enough closes the pipe; writing then fails, and that is no error.
    std::signal(SIGPIPE, SIG_IGN);
    // A limit on the size of files shows itself where the file is written, as a full disk does.
    std::signal(SIGXFSZ, SIG_IGN);
    try {
        return run(std::vector<std::string>(argv + (argc > 0 ? 1 : 0), argv + argc));
    } catch (const std::exception& error) {
        // Bad input never comes here: this is no memory, or a mistake of ours.
        complain(std::string("The program failed: ") + error.what() + ".");
        return status::not_done;
    }
}
