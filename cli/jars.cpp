#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/json_jars.hpp"
#include "engine/render/text_jars.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct JarsOptions {
    std::string recipe; ///< a path, "-", or a name from the book
    RequestWords request;
    std::optional<std::string> kitchen;
    std::optional<render::Units> units;
    bool json = false;
};

int answer(const JarsOptions& options) {
    const auto weighed = weigh_out(
        {options.recipe, options.request, {options.kitchen, options.units, options.json}, true},
        "No jar was chosen");
    if (!weighed) return status::not_done;
    const plan::WeighOut& out = weighed->out;
    return finish(options.json ? render::jars_json(out)
                               : render::jars_text(out, result_style(out.shown)),
                  status_of(out));
}

int run(const Command& command, const std::vector<std::string>& words) {
    JarsOptions options;
    Options reader(command);
    reader.recipe(options.recipe, options.request);
    reader.texts("--poured", options.request.poured);
    reader.text("--for", options.request.moving);
    reader.text("--kitchen", options.kitchen);
    reader.units(options.units);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    return answer(options);
}

constexpr std::array flags{
    without_flag,
    yes_flag,
    Flag{"--for", "NAME", "what may move to answer a question; everything else stays"},
    Flag{"--poured", "NAME=AMOUNT",
         "what really went in, and is judged in place of the recipe's; may be given again"},
    kitchen_flag,
    units_flag,
    json_flag,
};
constexpr std::array<std::string_view, 3> examples{
    "jarful jars winter-kraut",
    "jarful jars winter-kraut cabbage=4.2kg",
    "jarful jars half-sours cucumbers=1.9kg --json",
};

} // namespace

const Command jars_command{
    .name = "jars",
    .usage = "RECIPE [NAME=AMOUNT …] [without NAME] [OPTIONS]",
    .about = "which of the kitchen's jars a batch goes into, and what goes into each",
    .more = "Everything is placed if it can be, then in the fewest vessels, without one that is "
            "under two thirds full where there is such a choice, then with the least room left "
            "empty; none is filled past its headspace. jar=tall,squat names them instead. These "
            "are the jars of every other command, too. What the recipe fills is said by its `fill` "
            "line. The jars are described in the kitchen. Exit status: 0 if everything has its "
            "place and every jar's salt is inside, 1 if not, 2 if nothing was chosen.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
