#include "cli/candidates.hpp"
#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

/// A line for each candidate, so that neither a name nor its words may hold a line's end or a tab.
std::string one_line(std::string_view text) {
    std::string out(text);
    std::replace_if(
        out.begin(), out.end(), [](unsigned char c) { return c < 0x20 || c == 0x7f; }, ' ');
    return out;
}

bool can_be_typed(std::string_view word) {
    return std::none_of(word.begin(), word.end(),
                        [](unsigned char c) { return c < 0x20 || c == 0x7f; });
}

int run(const Command& command, const std::vector<std::string>& words) {
    if (words.size() < 2 || words.front() != "--")
        return usage_fault("Write -- and then the words.", command);
    const Candidates found = candidates({words.begin() + 1, words.end()});
    std::string out;
    for (const Candidate& candidate : found.words) {
        if (!can_be_typed(candidate.word)) continue;
        out += candidate.word;
        if (!candidate.about.empty()) out += "\t" + one_line(candidate.about);
        out += '\n';
    }
    if (found.files) out += ":files\n";
    return finish(out, status::nothing_to_say);
}

constexpr std::array<std::string_view, 2> examples{
    "jarful complete -- weigh win",
    "jarful complete -- weigh winter-kraut \"\"",
};

} // namespace

const Command complete_command{
    .name = "complete",
    .usage = "-- WORD …",
    .about = "what a word that is being typed may become; the shells' completions ask it",
    .more = "WORD … is what follows the program's name on the command line, up to the word being "
            "typed, which may be empty. Each line is a candidate and, behind a tab, a few words "
            "about it; a last line `:files` says that files and folders do as well. Exit status: "
            "0, whether there is anything to offer or not.",
    .flags = {},
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
