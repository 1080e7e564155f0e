/// Runs a target over files, without a fuzzer: what ctest does with every seed and every input that
/// was ever found to break something.

#include "tests/fuzz/fuzz.hpp"

#include <algorithm>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <unistd.h>
#include <vector>

namespace {

std::vector<std::string> inputs(int count, char** paths) {
    std::vector<std::string> out;
    for (int i = 0; i < count; ++i) {
        if (!std::filesystem::exists(paths[i])) continue;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(paths[i])) {
            if (!entry.is_regular_file()) continue;
            std::ifstream in(entry.path(), std::ios::binary);
            out.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
        }
    }
    std::sort(out.begin(), out.end());
    return out;
}

/// A few bytes changed, taken out, doubled, or brought in from another input.
std::string changed(std::string text, const std::vector<std::string>& all, std::mt19937& draw) {
    const auto below = [&](std::size_t n) { return n == 0 ? 0 : draw() % n; };
    for (std::size_t times = 1 + below(4); times > 0; --times) {
        const std::size_t at = below(text.size() + 1);
        const std::size_t length = below(std::min<std::size_t>(text.size() - at + 1, 24));
        switch (below(5)) {
        case 0:
            text.erase(at, length);
            break;
        case 1:
            text.insert(at, text.substr(at, length));
            break;
        case 2:
            text.insert(at, 1, static_cast<char>(draw()));
            break;
        case 3:
            if (at < text.size()) text[at] = static_cast<char>(draw());
            break;
        default: {
            const std::string& other = all[below(all.size())];
            const std::size_t from = below(other.size() + 1);
            text.insert(at, other.substr(from, below(40)));
        }
        }
    }
    return text;
}

const std::string* latest = nullptr;

/// The input that broke it, as it is, on standard error: to be kept under findings/.
void show_latest(int signal) {
    if (latest != nullptr)
        static_cast<void>(!::write(STDERR_FILENO, latest->data(), latest->size()));
    std::signal(signal, SIG_DFL);
    std::raise(signal);
}

} // namespace

/// replay ROUNDS FOLDER…: every input as it is, then ROUNDS changed ones, always the same.
int main(int argc, char** argv) {
    if (argc < 3) {
        std::fprintf(stderr, "usage: %s ROUNDS FOLDER…\n", argv[0]);
        return 2;
    }
    const long rounds = std::strtol(argv[1], nullptr, 10);
    const std::vector<std::string> all = inputs(argc - 2, argv + 2);
    if (all.empty()) {
        std::fprintf(stderr, "There is no input.\n");
        return 2;
    }
    const auto run = [](const std::string& input) {
        latest = &input;
        fuzz_one(input);
    };
    std::signal(SIGABRT, show_latest);
    std::signal(SIGSEGV, show_latest);
    for (const std::string& one : all)
        run(one);
    std::mt19937 draw(20260901);
    for (long i = 0; i < rounds; ++i)
        run(changed(all[static_cast<std::size_t>(i) % all.size()], all, draw));
    std::printf("%zu inputs and %ld changed ones\n", all.size(), rounds);
    return 0;
}
