#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "cli/writing.hpp"
#include "engine/book/first_recipe.hpp"
#include "engine/render/new_report.hpp"

#include <array>
#include <filesystem>

namespace jarful::cli {

namespace {

struct NewOptions {
    std::string title;
    std::optional<std::string> kind;
    std::vector<std::string> with; ///< each may hold several, with commas between
    std::optional<std::string> salt;
    std::optional<std::string> output;
    bool json = false;
};

std::vector<std::string> parts_of(const std::vector<std::string>& lists) {
    std::vector<std::string> out;
    for (const std::string& list : lists) {
        std::size_t begin = 0;
        while (begin <= list.size()) {
            const std::size_t end = std::min(list.find(',', begin), list.size());
            out.push_back(list.substr(begin, end - begin));
            begin = end + 1;
        }
    }
    return out;
}

/// Where the recipe goes: as named, with the ending if it has none; by its title otherwise.
std::string path_of(const NewOptions& options) {
    if (!options.output) return book::file_name(options.title);
    const std::filesystem::path path(*options.output);
    if (*options.output == "-" || path.has_extension()) return *options.output;
    return *options.output + ".jarful";
}

int answer(const NewOptions& options, const Command& command) {
    if (!options.kind)
        return usage_fault("A new recipe is of some kind: --kind kraut, for example. `jarful "
                           "ranges` lists the kinds.",
                           command);
    const std::string path = path_of(options);
    const LoadedHouse loaded = load_house(path);
    if (!loaded.ok) return status::not_done;
    language::Findings findings;
    const auto written = book::first_recipe({options.title, *options.kind, parts_of(options.with),
                                             options.salt, loaded.house, loaded.materials},
                                            findings);
    if (!written) {
        for (const language::Diagnostic& found : findings.all())
            complain(found.message + " " + found.advice + " [" + found.code + "]");
        return status::not_done;
    }
    if (path != "-") {
        if (const auto fault = create_file(path, written->text)) {
            complain(in_quotes(path) + ": " + fault->message + " " + fault->advice + " [" +
                     fault->code + "]");
            return status::not_done;
        }
    }
    const render::NewRecipe report{path, options.title, *written};
    if (options.json) return finish(render::new_json(report), status::nothing_to_say);
    return finish(path == "-" ? written->text : render::new_text(report, result_style()),
                  status::nothing_to_say);
}

int run(const Command& command, const std::vector<std::string>& words) {
    NewOptions options;
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    reader.text("--kind", options.kind);
    reader.texts("--with", options.with);
    reader.text("--salt", options.salt);
    reader.text("-o,--output", options.output);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    if (positionals.empty()) return usage_fault("A new recipe has a title.", command);
    options.title = joined(positionals);
    return answer(options, command);
}

constexpr std::array flags{
    Flag{"--kind", "KIND", "the kind of ferment, with its method where it needs one"},
    Flag{"--with", "NAME=AMOUNT,…",
         "what else goes in: a percentage of the produce, or so much for each kilogram, as in "
         "carrot=6%,caraway=1.5g/kg,bay=1/kg; may be given again"},
    Flag{"--salt", "PERCENT",
         "how much salt, on the basis of the range; what is typical of the kind if not said"},
    Flag{"-o", "FILE", "where to write it; - for standard output"},
    json_flag,
};
constexpr std::array<std::string_view, 4> examples{
    "jarful new \"Winter kraut\" --kind kraut",
    "jarful new \"Winter kraut\" --kind kraut --with carrot=6%,caraway=1.5g/kg --salt 2.2%",
    "jarful new \"August beans\" --kind \"green-beans in-brine\" --with garlic=1%",
    "jarful new \"Half-sours\" --kind cucumbers -o -",
};

} // namespace

const Command new_command{
    .name = "new",
    .usage = "\"TITLE\" --kind KIND [OPTIONS]",
    .about = "a first recipe of a kind, to be changed from there",
    .more =
        "Writes a recipe that checks clean, with remarks that say what its lines mean. The "
        "file is named after the title, in the folder that you are in; one that is there is "
        "never touched. A house.jarful there or above it is heeded: its ranges, its kinds and its "
        "materials. Exit status: 0 if it was written, 2 if not.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
