#include "cli/arguments.hpp"

#include "cli/commands.hpp"
#include "cli/help.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/language/command_line.hpp"
#include "engine/units/nearest.hpp"

#include <algorithm>

namespace jarful::cli {

namespace {

int unknown_command(const std::string& word) {
    if (word.starts_with('-')) {
        complain("There is no option " + in_quotes(word) +
                 " here. The command comes first: `jarful weigh RECIPE`. `jarful --help` shows "
                 "them all.");
        return status::not_done;
    }
    std::vector<std::string_view> known{"help"};
    for (const Command* command : commands())
        known.push_back(command->name);
    std::string sentence = "There is no command " + in_quotes(word) + ".";
    if (word.ends_with(".jarful")) {
        sentence += " Did you mean `" +
                    language::command_line({"jarful", "weigh", language::path_word(word)}) + "`?";
    } else if (const auto near = units::nearest(word, known)) {
        sentence += " Did you mean " + in_quotes(*near) + "?";
    }
    complain(sentence + " `jarful --help` shows them all.");
    return status::not_done;
}

int help(const std::vector<std::string>& words) {
    if (words.empty()) return finish(help_text(result_in_colour()), status::nothing_to_say);
    const Command* command = find_command(words.front());
    if (command == nullptr) return unknown_command(words.front());
    return finish(help_text(*command, result_in_colour()), status::nothing_to_say);
}

bool asks_for_help(const std::string& word) {
    return word == "--help" || word == "-h";
}

} // namespace

int run(const std::vector<std::string>& words) {
    if (words.empty()) {
        write_aside(help_text(aside_in_colour()));
        return status::not_done;
    }
    const std::string& first = words.front();
    const std::vector<std::string> rest(words.begin() + 1, words.end());
    if (asks_for_help(first)) return help({});
    if (first == "help") {
        if (!rest.empty() && (asks_for_help(rest.front()) || rest.front() == "help")) {
            return help({});
        }
        return help(rest);
    }
    if (first == "--version") {
        return finish("jarful " JARFUL_VERSION "\n", status::nothing_to_say);
    }
    const Command* command = find_command(first);
    if (command == nullptr) return unknown_command(first);
    // The words of another command, which completion is handed, may ask for that one's help.
    const auto end = command == &complete_command && !rest.empty() ? rest.begin() + 1 : rest.end();
    if (std::any_of(rest.begin(), end, asks_for_help)) return help({first});
    return command->run(*command, rest);
}

} // namespace jarful::cli
