#include "cli/arguments.hpp"

#include "cli/commands.hpp"
#include "cli/help.hpp"
#include "cli/terminal.hpp"
#include "engine/units/nearest.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>

/// The one file that knows the argument parser: its header is the slowest of all to compile.
namespace jarful::cli {

namespace {

std::string in_quotes(std::string_view text) {
    return "\"" + std::string(text) + "\"";
}

std::string more_help(std::string_view command) {
    return "`jarful help " + std::string(command) + "` shows how.";
}

int usage_fault(const std::string& sentence, std::string_view command) {
    complain(sentence + " " + more_help(command));
    return status::not_done;
}

/// An option that is not there, with the nearest one that is.
int unknown_option(const std::string& option, const Command& command) {
    const std::string name = option.substr(0, option.find('='));
    std::vector<std::string_view> known{"--help"};
    for (const Flag& flag : command.flags)
        known.push_back(flag.name);
    std::string sentence =
        "`jarful " + std::string(command.name) + "` has no option " + in_quotes(name) + ".";
    if (const auto near = units::nearest(name, known)) {
        sentence += " Did you mean " + in_quotes(*near) + "?";
    }
    return usage_fault(sentence, command.name);
}

int unknown_command(const std::string& word) {
    if (word.starts_with('-')) {
        complain("There is no option " + in_quotes(word) +
                 " here. The command comes first: `jarful weigh RECIPE`. `jarful --help` shows "
                 "them all.");
        return status::not_done;
    }
    std::vector<std::string_view> known{"help"};
    for (const Command& command : commands())
        known.push_back(command.name);
    std::string sentence = "There is no command " + in_quotes(word) + ".";
    if (word.ends_with(".jarful")) {
        sentence += " Did you mean `jarful weigh " + word + "`?";
    } else if (const auto near = units::nearest(word, known)) {
        sentence += " Did you mean " + in_quotes(*near) + "?";
    }
    complain(sentence + " `jarful --help` shows them all.");
    return status::not_done;
}

/// One command's options: parses, and says in our words what is wrong.
class Parser {
  public:
    explicit Parser(const Command& command)
        : command_(command) {
        app_.set_help_flag();
        app_.allow_extras();
    }

    void flag(const char* name, bool& value) { app_.add_flag(name, value); }
    void text(const char* name, std::optional<std::string>& value) {
        app_.add_option_function<std::string>(name, [&value](const std::string& v) { value = v; })
            ->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
    }
    void texts(const char* name, std::vector<std::string>& values) {
        app_.add_option(name, values)->allow_extra_args(false);
    }
    void positionals(std::vector<std::string>& values) { app_.add_option("words", values); }

    /// The exit status if parsing failed.
    std::optional<int> parse(std::vector<std::string> words) {
        for (const std::string& word : words) {
            for (const Flag& flag : command_.flags) {
                if (flag.value.empty() && word.starts_with(std::string(flag.name) + "=")) {
                    return failed(flag.name);
                }
            }
        }
        std::reverse(words.begin(), words.end()); // the parser wants the last word first
        try {
            app_.parse(std::move(words));
        } catch (const CLI::ParseError& error) {
            return failed(error.what());
        }
        for (const std::string& extra : app_.remaining()) {
            if (extra.starts_with('-')) return unknown_option(extra, command_);
        }
        return std::nullopt;
    }

  private:
    int failed(std::string_view what) const {
        for (const Flag& flag : command_.flags) {
            if (what.find(flag.name) == std::string_view::npos) continue;
            return usage_fault(flag.value.empty() ? in_quotes(flag.name) + " takes no value."
                                                  : in_quotes(flag.name) + " needs " +
                                                        std::string(flag.value) + " after it.",
                               command_.name);
        }
        return usage_fault("That cannot be understood.", command_.name);
    }

    const Command& command_;
    CLI::App app_;
};

/// What follows the recipe's name: settings, and `without NAME`.
std::optional<int> read_words(const std::vector<std::string>& words, const Command& command,
                              std::string& recipe, RequestWords& request) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        const std::string& word = words[i];
        if (word == "without") {
            if (i + 1 == words.size()) {
                return usage_fault("\"without\" needs the name of an optional line after it.",
                                   command.name);
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
                               command.name);
        }
    }
    if (recipe.empty()) return usage_fault("Which recipe?", command.name);
    return std::nullopt;
}

std::optional<int> read_units(const std::optional<std::string>& word, const Command& command,
                              render::Units& units) {
    if (word == "us") {
        units = render::Units::us;
    } else if (word == "both") {
        units = render::Units::both;
    } else if (word && word != "metric") {
        static constexpr std::string_view known[] = {"metric", "us", "both"};
        std::string sentence = "There are no units called " + in_quotes(*word) + ".";
        if (const auto near = units::nearest(*word, known)) {
            sentence += " Did you mean " + in_quotes(*near) + "?";
        }
        return usage_fault(sentence + " Write metric, us or both.", command.name);
    }
    return std::nullopt;
}

int weigh(const Command& command, const std::vector<std::string>& words) {
    WeighOptions options;
    std::optional<std::string> units;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.texts("--without", options.request.without);
    parser.texts("--poured", options.request.poured);
    parser.text("--for", options.request.moving);
    parser.text("--bowl", options.request.bowl);
    parser.text("--kitchen", options.kitchen);
    parser.text("--units", units);
    parser.flag("--json", options.json);
    if (const auto failed = parser.parse(words)) return *failed;
    if (const auto failed = read_units(units, command, options.units)) return *failed;
    if (const auto failed = read_words(positionals, command, options.recipe, options.request)) {
        return *failed;
    }
    return command.name == "jars" ? run_jars(options) : run_weigh(options);
}

int mend(const Command& command, const std::vector<std::string>& words) {
    MendOptions options;
    std::optional<std::string> units;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.texts("--without", options.request.without);
    parser.texts("--poured", options.request.poured);
    parser.texts("--lost", options.lost);
    parser.text("--evaporated", options.evaporated);
    parser.text("--kitchen", options.kitchen);
    parser.text("--units", units);
    parser.flag("--json", options.json);
    if (const auto failed = parser.parse(words)) return *failed;
    if (const auto failed = read_units(units, command, options.units)) return *failed;
    if (const auto failed = read_words(positionals, command, options.recipe, options.request)) {
        return *failed;
    }
    return run_mend(options);
}

int chart(const Command& command, const std::vector<std::string>& words) {
    ChartOptions options;
    std::optional<std::string> units;
    bool json = false;
    bool csv = false;
    bool markdown = false;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.text("--every", options.every);
    parser.texts("--without", options.request.without);
    parser.text("--for", options.request.moving);
    parser.text("--kitchen", options.kitchen);
    parser.text("--units", units);
    parser.flag("--json", json);
    parser.flag("--csv", csv);
    parser.flag("--markdown", markdown);
    if (const auto failed = parser.parse(words)) return *failed;
    if (const auto failed = read_units(units, command, options.units)) return *failed;
    if (json + csv + markdown > 1) {
        return usage_fault("One of --json, --csv and --markdown at a time.", command.name);
    }
    using Form = ChartOptions::Form;
    options.form = json ? Form::json : csv ? Form::csv : markdown ? Form::markdown : Form::text;
    if (const auto failed = read_words(positionals, command, options.recipe, options.request)) {
        return *failed;
    }
    // The one with a range in it is what the rows go by.
    auto& settings = options.request.settings;
    const auto varied = std::find_if(settings.begin(), settings.end(), [](const std::string& s) {
        return s.find("..") != std::string::npos;
    });
    if (varied == settings.end()) {
        return usage_fault("From where to where? Say it as in cabbage=500g..5kg.", command.name);
    }
    options.varied = *varied;
    settings.erase(varied);
    return run_chart(options);
}

int brine(const Command& command, const std::vector<std::string>& words) {
    BrineOptions options;
    std::optional<std::string> units;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.text("--salt", options.salt);
    parser.text("--of", options.of);
    parser.text("--at", options.at);
    parser.text("--kitchen", options.kitchen);
    parser.text("--units", units);
    parser.flag("--json", options.json);
    if (const auto failed = parser.parse(words)) return *failed;
    if (const auto failed = read_units(units, command, options.units)) return *failed;
    for (const std::string& word : positionals)
        options.words += (options.words.empty() ? "" : " ") + word;
    return run_brine(options);
}

int trace(const Command& command, const std::vector<std::string>& words) {
    TraceOptions options;
    bool json = false;
    bool dot = false;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.texts("--without", options.request.without);
    parser.texts("--poured", options.request.poured);
    parser.text("--for", options.request.moving);
    parser.text("--kitchen", options.kitchen);
    parser.flag("--json", json);
    parser.flag("--dot", dot);
    if (const auto failed = parser.parse(words)) return *failed;
    if (json && dot) return usage_fault("One of --json and --dot at a time.", command.name);
    using Form = TraceOptions::Form;
    options.form = json ? Form::json : dot ? Form::dot : Form::text;
    if (positionals.size() > 1 && positionals[1].find('=') == std::string::npos) {
        options.name = positionals[1];
        positionals.erase(positionals.begin() + 1);
    }
    if (const auto failed = read_words(positionals, command, options.recipe, options.request)) {
        return *failed;
    }
    if (options.name.empty()) {
        return usage_fault("Trace what? Name a line of the recipe, or verdict for its salt.",
                           command.name);
    }
    return run_trace(options);
}

int counter(const Command& command, const std::vector<std::string>& words) {
    CounterOptions options;
    std::optional<std::string> units;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.texts("--without", options.request.without);
    parser.text("--kitchen", options.kitchen);
    parser.text("--units", units);
    if (const auto failed = parser.parse(words)) return *failed;
    if (const auto failed = read_units(units, command, options.units)) return *failed;
    if (const auto failed = read_words(positionals, command, options.recipe, options.request)) {
        return *failed;
    }
    return run_counter(options);
}

int check(const Command& command, const std::vector<std::string>& words) {
    CheckOptions options;
    Parser parser(command);
    parser.positionals(options.paths);
    parser.text("--kitchen", options.kitchen);
    parser.flag("--json", options.json);
    if (const auto failed = parser.parse(words)) return *failed;
    return run_check(options);
}

int ranges(const Command& command, const std::vector<std::string>& words) {
    RangesOptions options;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.flag("--json", options.json);
    if (const auto failed = parser.parse(words)) return *failed;
    // A kind of two words may be written as two: "green beans".
    for (const std::string& word : positionals)
        options.kind += (options.kind.empty() ? "" : " ") + word;
    return run_ranges(options);
}

/// The spoons named; a status if there are none of that name.
std::optional<int> read_spoons(const std::optional<std::string>& word, const Command& command,
                               std::optional<larder::Measures>& measures) {
    if (!word) return std::nullopt;
    measures = larder::find_measures(*word);
    if (measures) return std::nullopt;
    static constexpr std::string_view known[] = {"us", "metric", "imperial", "label"};
    std::string sentence = "There are no spoons called " + in_quotes(*word) + ".";
    if (const auto near = units::nearest(*word, known)) {
        sentence += " Did you mean " + in_quotes(*near) + "?";
    }
    return usage_fault(sentence + " Write us, metric, imperial or label.", command.name);
}

int convert(const Command& command, std::vector<std::string> words) {
    // "-40F" is a temperature and no option.
    for (std::string& word : words) {
        if (word.size() > 1 && word[0] == '-' && word[1] >= '0' && word[1] <= '9') {
            word.replace(0, 1, "−");
        }
    }
    ConvertOptions options;
    std::optional<std::string> spoons;
    std::optional<std::string> per;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.text("--per", per);
    parser.text("--spoons", spoons);
    parser.text("--kitchen", options.kitchen);
    parser.flag("--json", options.json);
    if (const auto failed = parser.parse(std::move(words))) return *failed;
    if (const auto failed = read_spoons(spoons, command, options.measures)) return *failed;
    for (const std::string& word : positionals)
        options.text += (options.text.empty() ? "" : " ") + word;
    if (options.text.empty()) return usage_fault("Convert what?", command.name);
    options.per = per.value_or("");
    return run_convert(options);
}

int salts(const Command& command, const std::vector<std::string>& words) {
    SaltsOptions options;
    std::optional<std::string> spoons;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.text("--spoons", spoons);
    parser.text("--kitchen", options.kitchen);
    parser.flag("--json", options.json);
    if (const auto failed = parser.parse(words)) return *failed;
    if (const auto failed = read_spoons(spoons, command, options.measures)) return *failed;
    if (!positionals.empty()) {
        return usage_fault("The word " + in_quotes(positionals.front()) +
                               " is not understood here.",
                           command.name);
    }
    return run_salts(options);
}

int appraise(const Command& command, const std::vector<std::string>& words) {
    AppraiseOptions options;
    std::optional<std::string> units, kind, salt;
    std::vector<std::string> positionals;
    Parser parser(command);
    parser.positionals(positionals);
    parser.text("--kind", kind);
    parser.text("--salt", salt);
    parser.texts("--weighs", options.weighs);
    parser.text("--as-recipe", options.as_recipe);
    parser.text("--units", units);
    parser.flag("--json", options.json);
    if (const auto failed = parser.parse(words)) return *failed;
    if (const auto failed = read_units(units, command, options.units)) return *failed;
    if (kind) options.kind = *kind;
    if (salt) options.salt = *salt;
    for (const std::string& word : positionals) {
        if (word.find('=') != std::string::npos) {
            options.weighs.push_back(word);
        } else if (options.path.empty()) {
            options.path = word;
        } else {
            return usage_fault("The word " + in_quotes(word) + " is not understood here.",
                               command.name);
        }
    }
    return run_appraise(options);
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
    if (std::any_of(rest.begin(), rest.end(), asks_for_help)) return help({first});
    if (first == "weigh" || first == "jars") return weigh(*command, rest);
    if (first == "mend") return mend(*command, rest);
    if (first == "chart") return chart(*command, rest);
    if (first == "appraise") return appraise(*command, rest);
    if (first == "brine") return brine(*command, rest);
    if (first == "check") return check(*command, rest);
    if (first == "convert") return convert(*command, rest);
    if (first == "salts") return salts(*command, rest);
    if (first == "trace") return trace(*command, rest);
    if (first == "counter") return counter(*command, rest);
    return ranges(*command, rest);
}

} // namespace jarful::cli
