#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/library/words.hpp"
#include "engine/render/convert_report.hpp"

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

struct ConvertOptions {
    std::string text; ///< the words as typed, joined by blanks; "-" for lines of standard input
    std::string per;  ///< what stood after --per; empty if nothing did
    std::optional<larder::Measures> measures; ///< empty: the kitchen's
    std::optional<std::string> kitchen;
    bool json = false;
};

using library::Counter;

/// The kitchen at hand; false, after saying why, if it has faults.
bool set_counter(const std::optional<std::string>& named,
                 const std::optional<larder::Measures>& measures, Counter& counter) {
    Kitchens kitchens(KitchenWords{named});
    const LoadedKitchen& kitchen = kitchens.of("-");
    explain_aside(kitchen.file.document.source, kitchen.file.findings);
    if (!kitchen.ok()) {
        complain("Nothing was converted: the kitchen has faults.");
        return false;
    }
    counter = library::counter_of(kitchen.kitchen, measures);
    return true;
}

/// The lines of standard input that hold something, without comments.
std::vector<render::ConvertedLine> lines_of(std::string_view bytes) {
    std::vector<render::ConvertedLine> out;
    std::size_t number = 0;
    while (!bytes.empty()) {
        const std::size_t end = std::min(bytes.find('\n'), bytes.size());
        std::string line(bytes.substr(0, end));
        bytes.remove_prefix(std::min(end + 1, bytes.size()));
        ++number;
        line = line.substr(0, line.find(" #"));
        if (line.starts_with('#')) line.clear();
        const std::size_t first = line.find_first_not_of(" \t\r");
        if (first == std::string::npos) continue;
        out.push_back({number, line.substr(first, line.find_last_not_of(" \t\r") - first + 1), {}});
    }
    return out;
}

int convert_lines(const ConvertOptions& options, const Counter& counter) {
    const FileContent input = read_file("-");
    if (input.fault) {
        complain("Nothing was converted. " + input.fault->message + " " + input.fault->advice);
        return status::not_done;
    }
    constexpr std::size_t most_bytes = 1024 * 1024;
    if (input.bytes.size() > most_bytes) {
        complain("Nothing was converted: there is more than 1 MiB to read.");
        return status::not_done;
    }
    std::vector<render::ConvertedLine> lines = lines_of(input.bytes);
    if (lines.empty()) {
        complain("There is nothing to convert. Write an amount on each line, such as `2 tbsp "
                 "canning salt to g`.");
        return status::not_done;
    }
    int worst = status::nothing_to_say;
    Progress progress(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
        progress.at(i);
        render::ConvertedLine& line = lines[i];
        line.outcome = larder::convert({line.text, options.per, counter.measures}, counter.larder);
        if (line.outcome.fault) {
            worst = status::not_done;
            complain("Line " + std::to_string(line.line) + ": " +
                     library::sentences_of(*line.outcome.fault));
        }
    }
    return finish(options.json ? render::convert_json(lines)
                               : render::convert_text(lines, result_style()),
                  worst);
}

int answer(const ConvertOptions& options) {
    Counter counter;
    if (!set_counter(options.kitchen, options.measures, counter)) return status::not_done;
    if (options.text == "-") return convert_lines(options, counter);
    const larder::ConversionOutcome outcome =
        larder::convert({options.text, options.per, counter.measures}, counter.larder);
    if (outcome.fault) {
        complain(library::sentences_of(*outcome.fault));
        return status::not_done;
    }
    return finish(options.json ? render::convert_json(*outcome.conversion)
                               : render::convert_text(*outcome.conversion, result_style()),
                  status::nothing_to_say);
}

int run(const Command& command, const std::vector<std::string>& typed) {
    // "-40F" is a temperature and no option.
    std::vector<std::string> words = typed;
    for (std::string& word : words) {
        if (word.size() > 1 && word[0] == '-' && word[1] >= '0' && word[1] <= '9') {
            word.replace(0, 1, "−");
        }
    }
    ConvertOptions options;
    std::optional<std::string> per;
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    reader.text("--per", per);
    reader.spoons(options.measures);
    reader.text("--kitchen", options.kitchen);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(std::move(words))) return *failed;
    options.text = joined(positionals);
    if (options.text.empty()) return usage_fault("Convert what?", command);
    options.per = per.value_or("");
    return answer(options);
}

constexpr std::array flags{
    Flag{"--per", "AMOUNT", "what the amount is for: the answer is in percent of that"},
    spoons_flag, this_kitchen_flag, json_flag};
constexpr std::array<std::string_view, 7> examples{
    "jarful convert \"2 tbsp\" \"coarse flake kosher salt\"",
    "jarful convert 500 g caraway seed to tbsp",
    "jarful convert \"3/4 cup\" \"canning salt\" --per \"25 lb\"",
    "jarful convert 4 tbsp canning salt per 1 quart water to %",
    "jarful convert \"10 g/lb\" to %",
    "jarful convert 68F to C",
    "jarful convert - < amounts.txt",
};

} // namespace

const Command convert_command{
    .name = "convert",
    .usage = "AMOUNT [MATERIAL] [per AMOUNT] [to UNIT] [OPTIONS]",
    .about = "spoons in grams, pounds in kilograms, rates in percent, degrees",
    .more = "The words may stand in quotes or not; - reads a line for each amount from standard "
            "input. A spoon or cup becomes a weight only through a named material, with the least "
            "and the most that it may be. `label` is the rule for nutrition labels: tsp 5 mL, tbsp "
            "15 mL, fl oz 30 mL, cup 240 mL. Exit status: 0 if everything was converted, 2 if "
            "anything was not.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
