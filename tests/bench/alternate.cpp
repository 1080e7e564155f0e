// Runs commands in turn, again and again, and says how long each took and how much memory it had:
// turn by turn, so that a machine that is busy with other things slows them all alike.
//
//   alternate ROUNDS -- COMMAND [WORD …] [<FILE] -- COMMAND …
//
// A first round is not counted. Output goes nowhere. Each command gives a line of JSON: median and
// the quarters of the wall time in milliseconds, the median of the processor's time, the greatest
// resident memory in kB, the exit status. Linked statically and kept small: the kernel counts a
// child's memory from before it becomes another program, when it is still this one's.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <spawn.h>
#include <string>
#include <sys/resource.h>
#include <sys/wait.h>
#include <vector>

extern char** environ;

namespace {

struct Command {
    std::vector<char*> words;
    const char* input = "/dev/null";
    std::vector<double> ms;
    std::vector<double> cpu_ms;
    long peak_kb = 0;
    int status = -1;
};

double ms_of(const timeval& time) {
    return static_cast<double>(time.tv_sec) * 1e3 + static_cast<double>(time.tv_usec) / 1e3;
}

bool run(Command& command, bool counted) {
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, command.input, O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 2, "/dev/null", O_WRONLY, 0);
    const auto start = std::chrono::steady_clock::now();
    pid_t child = 0;
    const int failed = posix_spawnp(&child, command.words.front(), &actions, nullptr,
                                    command.words.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0) {
        std::fprintf(stderr, "alternate: %s: %s\n", command.words.front(), std::strerror(failed));
        return false;
    }
    int status = 0;
    rusage used{};
    if (wait4(child, &status, 0, &used) != child) return false;
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    if (counted) {
        command.ms.push_back(took.count());
        command.cpu_ms.push_back(ms_of(used.ru_utime) + ms_of(used.ru_stime));
    }
    command.peak_kb = std::max(command.peak_kb, used.ru_maxrss);
    command.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    return true;
}

double at(const std::vector<double>& sorted, double share) {
    return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1) + 0.5)];
}

} // namespace

int main(int argc, char** argv) {
    std::vector<Command> commands;
    const int rounds = argc > 1 ? std::atoi(argv[1]) : 0;
    for (int i = 2; i < argc; ++i) {
        if (std::strcmp(argv[i], "--") == 0) {
            commands.emplace_back();
        } else if (commands.empty()) {
            break;
        } else if (argv[i][0] == '<') {
            commands.back().input = argv[i] + 1;
        } else {
            commands.back().words.push_back(argv[i]);
        }
    }
    if (rounds < 1 || commands.empty()) {
        std::fputs("alternate ROUNDS -- COMMAND [WORD …] [<FILE] -- COMMAND …\n", stderr);
        return 2;
    }
    for (Command& command : commands) {
        if (command.words.empty()) return 2;
        command.words.push_back(nullptr);
    }
    for (int round = 0; round <= rounds; ++round) {
        for (Command& command : commands) {
            if (!run(command, round > 0)) return 2;
        }
    }
    for (Command& command : commands) {
        std::sort(command.ms.begin(), command.ms.end());
        std::sort(command.cpu_ms.begin(), command.cpu_ms.end());
        std::printf("{\"median_ms\": %.6f, \"low_ms\": %.6f, \"high_ms\": %.6f, \"cpu_ms\": %.6f, "
                    "\"peak_kb\": %ld, \"status\": %d}\n",
                    at(command.ms, 0.5), at(command.ms, 0.25), at(command.ms, 0.75),
                    at(command.cpu_ms, 0.5), command.peak_kb, command.status);
    }
}
