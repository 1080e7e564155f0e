#include "cli/manual.hpp"

#include "cli/commands.hpp"
#include "cli/help.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/language/characters.hpp"

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

/// Text that the page's language takes for text: its own signs escaped, everything that is not
/// ASCII by its number.
std::string plain(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const language::Decoded next = language::decode(text);
        const bool by_number = next.value >= 0x80 || next.value == '`' || next.value == '\'' ||
                               next.value == '^' || next.value == '~';
        if (by_number) {
            out += "\\[u" + language::code_point_name(next.value).substr(2) + "]";
        } else if (next.value == '\\') {
            out += "\\e";
        } else {
            out += (next.value == '-' ? "\\" : "") + std::string(text.substr(0, 1));
        }
        text.remove_prefix(next.length);
    }
    return out;
}

/// Text, broken at blanks into lines that are not long; one that begins like a request is kept from
/// being one.
std::string text_lines(std::string_view text) {
    constexpr std::size_t longest = 78;
    std::string out;
    std::string line;
    const auto end_line = [&] {
        if (!line.empty()) out += (line.starts_with('.') ? "\\&" : "") + line + "\n";
        line.clear();
    };
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        const std::string word = plain(text.substr(0, end));
        if (line.size() + word.size() >= longest) end_line();
        line += (line.empty() ? "" : " ") + word;
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    end_line();
    return out;
}

/// What ends a sentence ends a line, as the page's language wants it.
std::string paragraph(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        std::size_t end = text.find(". ");
        end = end == std::string_view::npos ? text.size() : end + 1;
        out += text_lines(text.substr(0, end));
        text.remove_prefix(end);
        while (text.starts_with(' '))
            text.remove_prefix(1);
    }
    return out;
}

/// An argument of a macro, in quotes, so that no word of it is taken for a macro itself.
std::string quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : plain(text))
        out += c == '"' ? "\\(dq" : std::string(1, c);
    return out + "\"";
}

/// A few words as a sentence.
std::string sentence(std::string_view words) {
    std::string out(words);
    if (!out.empty() && out.front() >= 'a' && out.front() <= 'z')
        out.front() = static_cast<char>(out.front() - 'a' + 'A');
    return out + ".";
}

std::string flag_list(std::span<const Flag> flags) {
    if (flags.empty()) return "";
    std::string out = ".Bl -tag -width Ds\n";
    for (const Flag& flag : flags) {
        out += ".It Fl " + quoted(flag.name.substr(1));
        if (!flag.value.empty()) out += " Ar " + quoted(flag.value);
        out += "\n" + text_lines(sentence(flag.about));
    }
    return out + ".El\n";
}

std::string command_part(const Command& command) {
    std::string out = ".Ss " + quoted(command.name) + "\n.Nm\n.Cm " + quoted(command.name) + "\n";
    out += text_lines(command.usage) + ".Pp\n" + text_lines(sentence(command.about));
    out += ".Pp\n" + paragraph(command.more) + flag_list(command.flags);
    if (command.examples.empty()) return out;
    out += ".Pp\nExamples:\n.Bd -literal -offset indent\n";
    for (const std::string_view example : command.examples)
        out += plain(example) + "\n";
    return out + ".Ed\n";
}

/// "November 25, 2026" for "2026-11-25", as the page's language has it.
std::string written_out(std::string_view day) {
    static constexpr std::array months{"January",   "February", "March",    "April",
                                       "May",       "June",     "July",     "August",
                                       "September", "October",  "November", "December"};
    const auto digits = [&](std::size_t at) { return (day[at] - '0') * 10 + (day[at + 1] - '0'); };
    return std::string(months.at(static_cast<std::size_t>(digits(5) - 1))) + " " +
           std::to_string(digits(8)) + ", " + std::string(day.substr(0, 4));
}

struct Named {
    std::string_view name;
    std::string_view about;
};

template <std::size_t N>
std::string list_of(const char* macro, const std::array<Named, N>& entries) {
    std::string out = ".Bl -tag -width Ds\n";
    for (const Named& entry : entries)
        out +=
            ".It " + std::string(macro) + " " + quoted(entry.name) + "\n" + paragraph(entry.about);
    return out + ".El\n";
}

constexpr std::array environment{
    Named{"HOME", "Where ~ in git's core.hooksPath leads; only book --set-up asks."},
    Named{"NO_COLOR", "If this is set to anything, there is no colour on a terminal."},
    Named{"TERM", "If this is dumb, there is neither colour nor editing of lines."},
};
constexpr std::array files{
    Named{"RECIPE.jarful", "A recipe."},
    Named{"kitchen.jarful",
          "Scales and jars, beside the recipes or in a folder above them. Without "
          "one, a scale that reads 1 g up to 5 kg is assumed."},
};
constexpr std::array statuses{
    Named{"0", "There is nothing to say."},
    Named{"1", "Something was found: salt outside its range, or it cannot be told; a difference."},
    Named{"2", "It could not be done: the words were not understood, a file could not be read or "
               "written or has faults."},
};
constexpr std::string_view cautions =
    "Jarful gives quantities. It does not make food safe: it says \"inside the published range\" "
    "and names the range. Before eating, the pH must be at 4.6 or below and have fallen there "
    "steadily; test it. Throw away what is slimy, foul or mouldy, untasted. A working jar makes "
    "gas: use an airlock or a loose lid.";

int run(const Command& command, const std::vector<std::string>& words) {
    if (!words.empty()) return stray_word(words.front(), command);
    return finish(manual_text(), status::nothing_to_say);
}

constexpr std::array<std::string_view, 1> examples{"jarful manual | man -l -"};

} // namespace

std::string manual_text() {
    std::string out =
        ".Dd " + written_out(JARFUL_DATE) + "\n.Dt JARFUL 1\n.Os \"jarful " JARFUL_VERSION "\"\n";
    out += ".Sh NAME\n.Nm jarful\n.Nd house recipes for fermented vegetables\n";
    out += ".Sh SYNOPSIS\n.Nm\n.Ar command\n.Op Ar word ...\n";
    out += ".Nm\n.Cm help\n.Op Ar command\n";
    out += ".Sh DESCRIPTION\n" + paragraph(about_program) + ".Pp\n" + paragraph(about_streams);
    out += ".Pp\nEverywhere:\n" + flag_list(everywhere());
    out += ".Sh COMMANDS\n";
    for (const auto list : {commands(), quiet_commands()}) {
        for (const Command* command : list)
            out += command_part(*command);
    }
    out += ".Sh ENVIRONMENT\n" + list_of("Ev", environment);
    out += ".Sh FILES\n" + list_of("Pa", files);
    out += ".Sh EXIT STATUS\n" + list_of("Li", statuses);
    out += ".Sh CAVEATS\n" + paragraph(cautions);
    return out;
}

const Command manual_command{
    .name = "manual",
    .usage = "",
    .about = "this manual page, for man",
    .more = "It is in the language of manual pages, mdoc. Exit status: 0.",
    .flags = {},
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
