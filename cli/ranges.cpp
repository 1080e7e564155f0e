#include "cli/commands.hpp"
#include "cli/load.hpp"
#include "cli/options.hpp"
#include "cli/terminal.hpp"
#include "engine/render/ranges_report.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct RangesOptions {
    std::string kind; ///< empty: all
    bool full = false;
    bool json = false;
};

int answer(const RangesOptions& options) {
    const LoadedHouse loaded = load_house("-");
    if (!loaded.ok) return status::not_done;
    const larder::House* house = loaded.house.get();
    const larder::Kind* kind = nullptr;
    if (!options.kind.empty()) {
        kind = house != nullptr ? house->find_kind(options.kind) : larder::find_kind(options.kind);
        if (kind == nullptr) {
            const auto near = house != nullptr ? house->nearest_kind(options.kind)
                                               : larder::nearest_kind(options.kind);
            std::string advice = "`jarful ranges` lists all kinds.";
            if (near) advice = "Did you mean \"" + std::string(*near) + "\"? " + advice;
            complain("There is no kind of ferment called \"" + options.kind + "\". " + advice);
            return status::not_done;
        }
    }
    if (options.json) return finish(render::ranges_json(kind, house), status::nothing_to_say);
    const render::TextStyle style = result_style(render::Units::metric, options.full);
    return finish(kind == nullptr ? render::ranges_text(house, style)
                                  : render::ranges_text(*kind, style),
                  status::nothing_to_say);
}

int run(const Command& command, const std::vector<std::string>& words) {
    RangesOptions options;
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    reader.flag("--full", options.full);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    // A kind of two words may be written as two: "green beans".
    options.kind = joined(positionals);
    return answer(options);
}

constexpr std::array flags{full_flag, json_flag};
constexpr std::array<std::string_view, 3> examples{
    "jarful ranges",
    "jarful ranges kraut",
    "jarful ranges --json kimchi",
};

} // namespace

const Command ranges_command{
    .name = "ranges",
    .usage = "[KIND] [OPTIONS]",
    .about = "the salt ranges of every kind of ferment, with sources",
    .more = "With a KIND, that one at length: which figure rules and why, and all figures side by "
            "side. The ranges of a house.jarful in this folder or above it stand in place of the "
            "published ones, and say so.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
