#include "cli/commands.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/render/convert_report.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct SaltsOptions {
    std::optional<larder::Measures> measures; ///< empty: the kitchen's
    std::optional<std::string> kitchen;
    bool full = false;
    bool json = false;
};

int answer(const SaltsOptions& options) {
    larder::Measures measures = larder::Measures::unstated;
    if (options.measures) {
        measures = *options.measures;
    } else {
        Kitchens kitchens(KitchenWords{options.kitchen});
        const LoadedKitchen& kitchen = kitchens.of("-");
        explain_aside(kitchen.file.document.source, kitchen.file.findings);
        if (!kitchen.ok()) {
            complain("The kitchen has faults, so that its spoons are not known. `--spoons us` "
                     "does without it.");
            return status::not_done;
        }
        measures = larder::measures_of(kitchen.kitchen.spoons);
    }
    return finish(options.json ? render::salts_json(measures)
                               : render::salts_text(
                                     measures, result_style(render::Units::metric, options.full)),
                  status::nothing_to_say);
}

int run(const Command& command, const std::vector<std::string>& words) {
    SaltsOptions options;
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    reader.spoons(options.measures);
    reader.text("--kitchen", options.kitchen);
    reader.flag("--full", options.full);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    if (!positionals.empty()) return stray_word(positionals.front(), command);
    return answer(options);
}

constexpr std::array flags{spoons_flag, this_kitchen_flag, full_flag, json_flag};
constexpr std::array<std::string_view, 2> examples{
    "jarful salts",
    "jarful salts --spoons metric",
};

} // namespace

const Command salts_command{
    .name = "salts",
    .usage = "[OPTIONS]",
    .about = "the salts side by side: a spoon of each, what replaces what",
    .more = "For every salt what a teaspoon and a tablespoon weigh, how many tablespoons replace "
            "one of fine table salt, and what to beware of.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
