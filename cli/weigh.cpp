#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/text_weigh.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct WeighOptions {
    std::string recipe; ///< a path, "-", or a name from the book
    RequestWords request;
    std::optional<std::string> kitchen;
    std::optional<render::Units> units;
    bool full = false;
    bool json = false;
};

int answer(const WeighOptions& options) {
    const auto weighed =
        weigh_out({options.recipe, options.request, {options.kitchen, options.units, options.json}},
                  "Nothing was weighed");
    if (!weighed) return status::not_done;
    const plan::WeighOut& out = weighed->out;
    if (options.json) return finish(render::weigh_json(out), status_of(out));
    const render::TextStyle style = result_style(out.shown);
    return finish(options.full ? render::weigh_text(out, style)
                               : render::weigh_screen(out, style, options.recipe),
                  status_of(out));
}

int run(const Command& command, const std::vector<std::string>& words) {
    WeighOptions options;
    Options reader(command);
    reader.recipe(options.recipe, options.request);
    reader.texts("--poured", options.request.poured);
    reader.text("--for", options.request.moving);
    reader.text("--bowl", options.request.bowl);
    reader.text("--kitchen", options.kitchen);
    reader.units(options.units);
    reader.flag("--full", options.full);
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
    Flag{"--bowl", "AMOUNT",
         "the empty bowl that all is weighed into: shows what the display says with each thing"},
    kitchen_flag,
    units_flag,
    full_flag,
    json_flag,
};
constexpr std::array<std::string_view, 11> examples{
    "jarful weigh winter-kraut",
    "jarful weigh winter-kraut --full",
    "jarful weigh winter-kraut cabbage=1.84kg",
    "jarful weigh winter-kraut cabbage=\"4 lb 1 oz\" --units both",
    "jarful weigh kraut-with-apple without apple",
    "jarful weigh winter-kraut salt=24g",
    "jarful weigh winter-kraut salt=2.5%",
    "jarful weigh winter-kraut jar=tall,squat --for cabbage",
    "jarful weigh winter-kraut cabbage=1.84kg --poured salt=52g",
    "jarful weigh winter-kraut cabbage=1.84kg --bowl 640g",
    "jarful weigh - < recipe.jarful",
};

} // namespace

const Command weigh_command{
    .name = "weigh",
    .usage = "RECIPE [NAME=AMOUNT …] [without NAME] [OPTIONS]",
    .about = "what to put on the scale for the produce that you have",
    .more =
        "RECIPE is a path, the name of a recipe of the book without its ending, or - for "
        "standard input. NAME=AMOUNT sets what the recipe calls given; several weighings may "
        "be added up, as in cabbage=4.2kg+3.9kg. Any other line of the recipe, and fill=1.2L or "
        "jar=tall,squat, asks for the batch that makes it so. salt=2.5% tries another share of "
        "salt, of what the range is a percentage of. Jars that are not named are chosen "
        "from the kitchen's own, as `jarful jars` shows. Exit status: 0 if the salt and the bounds "
        "of the house are kept and the jars take it all, 1 if not or if it cannot be told, 2 if "
        "nothing was weighed.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
