#include "cli/options.hpp"

#include "cli/terminal.hpp"
#include "engine/language/command_line.hpp"
#include "engine/units/nearest.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

/// An option that is not there, with the nearest one that is.
int unknown_option(const std::string& option, const Command& command) {
    const std::string name = option.substr(0, option.find('='));
    std::vector<std::string_view> known{"--help"};
    for (const Flag& flag : command.flags)
        known.push_back(flag.name);
    // A command with several actions lists the options of all of them.
    if (std::find(known.begin(), known.end(), name) != known.end())
        return usage_fault("`" + language::command_line({"jarful", command.name}) +
                               "` has the option " + in_quotes(name) +
                               ", but not for what is asked here.",
                           command);
    std::string sentence = "`" + language::command_line({"jarful", command.name}) +
                           "` has no option " + in_quotes(name) + ".";
    if (const auto near = units::nearest(name, known)) {
        sentence += " Did you mean " + in_quotes(*near) + "?";
    }
    return usage_fault(sentence, command);
}

/// A word that is none of a few.
/// @param none "There are no units called"
int none_of(std::string_view none, const std::string& word, std::span<const std::string_view> known,
            std::string_view instead, const Command& command) {
    std::string sentence = std::string(none) + " " + in_quotes(word) + ".";
    if (const auto near = units::nearest(word, known)) {
        sentence += " Did you mean " + in_quotes(*near) + "?";
    }
    return usage_fault(sentence + " Write " + std::string(instead) + ".", command);
}

std::optional<int> read_units(const std::string& word, const Command& command,
                              std::optional<render::Units>& units) {
    static constexpr std::array<std::string_view, 3> known{"metric", "us", "both"};
    static constexpr std::array meant{render::Units::metric, render::Units::us,
                                      render::Units::both};
    const auto found = std::find(known.begin(), known.end(), word);
    if (found == known.end()) {
        return none_of("There are no units called", word, known, "metric, us or both", command);
    }
    units = meant[static_cast<std::size_t>(found - known.begin())];
    return std::nullopt;
}

std::optional<int> read_spoons(const std::string& word, const Command& command,
                               std::optional<larder::Measures>& measures) {
    static constexpr std::array<std::string_view, 4> known{"us", "metric", "imperial", "label"};
    measures = larder::find_measures(word);
    if (measures) return std::nullopt;
    return none_of("There are no spoons called", word, known, "us, metric, imperial or label",
                   command);
}

} // namespace

std::string in_quotes(std::string_view text) {
    return "\"" + std::string(text) + "\"";
}

std::string joined(const std::vector<std::string>& words) {
    std::string out;
    for (const std::string& word : words)
        out += (out.empty() ? "" : " ") + word;
    return out;
}

int usage_fault(const std::string& sentence, const Command& command) {
    complain(sentence + " `" + language::command_line({"jarful", "help", command.name}) +
             "` shows how.");
    return status::not_done;
}

int stray_word(const std::string& word, const Command& command) {
    return usage_fault("The word " + in_quotes(word) + " is not understood here.", command);
}

std::optional<int> read_words(const std::vector<std::string>& words, const Command& command,
                              std::string& recipe, RequestWords& request) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (word == "without") {
            if (i + 1 == words.size()) {
                return usage_fault("\"without\" needs the name of an optional line after it.",
                                   command);
            }
            request.without.push_back(words[++i]);
        } else if (recipe.empty() && !word.empty()) {
            recipe = word;
        } else if (word.find('=') != std::string::npos && word != "=") {
            request.settings.push_back(word);
        } else {
            return usage_fault("The word " + in_quotes(word) +
                                   " is not understood here. An amount is written without blanks, "
                                   "as in cabbage=1.84kg, or in quotes.",
                               command);
        }
    }
    if (recipe.empty()) return usage_fault("Which recipe?", command);
    return std::nullopt;
}

struct Options::Reader {
    explicit Reader(const Command& its_command)
        : command(its_command) {
        app.set_help_flag();
        app.allow_extras();
    }

    int failed(std::string_view what) const {
        for (const Flag& flag : command.flags) {
            if (what.find(flag.name) == std::string_view::npos) continue;
            return usage_fault(flag.value.empty() ? in_quotes(flag.name) + " takes no value."
                                                  : in_quotes(flag.name) + " needs " +
                                                        std::string(flag.value) + " after it.",
                               command);
        }
        return usage_fault("That cannot be understood.", command);
    }

    /// What has to be looked at once all is parsed.
    std::optional<int> after() {
        if (unit_word) {
            if (const auto wrong = read_units(*unit_word, command, *units)) return wrong;
        }
        if (spoon_word) {
            if (const auto wrong = read_spoons(*spoon_word, command, *spoons)) return wrong;
        }
        if (recipe == nullptr) return std::nullopt;
        return read_words(recipe_words, command, *recipe, *request);
    }

    const Command& command;
    CLI::App app;
    std::optional<render::Units>* units = nullptr;
    std::optional<std::string> unit_word;
    std::optional<larder::Measures>* spoons = nullptr;
    std::optional<std::string> spoon_word;
    std::string* recipe = nullptr;
    RequestWords* request = nullptr;
    std::vector<std::string> recipe_words;
};

Options::Options(const Command& command)
    : reader_(std::make_unique<Reader>(command)) {
}

Options::~Options() = default;

void Options::flag(const char* name, bool& value) {
    reader_->app.add_flag(name, value);
}

void Options::text(const char* name, std::optional<std::string>& value) {
    reader_->app
        .add_option_function<std::string>(name, [&value](const std::string& v) { value = v; })
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
}

void Options::texts(const char* name, std::vector<std::string>& values) {
    reader_->app.add_option(name, values)->allow_extra_args(false);
}

void Options::units(std::optional<render::Units>& value) {
    reader_->units = &value;
    text("--units", reader_->unit_word);
}

void Options::spoons(std::optional<larder::Measures>& value) {
    reader_->spoons = &value;
    text("--spoons", reader_->spoon_word);
}

void Options::words(std::vector<std::string>& values) {
    reader_->app.add_option("words", values);
}

void Options::recipe(std::string& name, RequestWords& request) {
    reader_->recipe = &name;
    reader_->request = &request;
    words(reader_->recipe_words);
    texts("--without", request.without);
    flag("--yes", request.yes);
}

std::optional<int> Options::parse(std::vector<std::string> words) {
    for (const std::string& word : words) {
        for (const Flag& flag : reader_->command.flags) {
            if (flag.value.empty() && word.starts_with(std::string(flag.name) + "=")) {
                return reader_->failed(flag.name);
            }
        }
    }
    std::reverse(words.begin(), words.end()); // the library wants the last word first
    try {
        reader_->app.parse(std::move(words));
    } catch (const CLI::ParseError& error) {
        return reader_->failed(error.what());
    }
    for (const std::string& extra : reader_->app.remaining()) {
        if (extra == "--") continue; // no options behind it, whatever they look like
        if (extra.starts_with('-')) return unknown_option(extra, reader_->command);
    }
    return reader_->after();
}

} // namespace jarful::cli
