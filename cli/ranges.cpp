#include "cli/commands.hpp"
#include "cli/terminal.hpp"
#include "engine/render/ranges_report.hpp"

namespace jarful::cli {

int run_ranges(const RangesOptions& options) {
    const larder::Kind* kind = nullptr;
    if (!options.kind.empty()) {
        kind = larder::find_kind(options.kind);
        if (kind == nullptr) {
            const auto near = larder::nearest_kind(options.kind);
            std::string advice = "`jarful ranges` lists all kinds.";
            if (near) advice = "Did you mean \"" + std::string(*near) + "\"? " + advice;
            complain("There is no kind of ferment called \"" + options.kind + "\". " + advice);
            return status::not_done;
        }
    }
    if (options.json) return finish(render::ranges_json(kind), status::nothing_to_say);
    return finish(kind == nullptr ? render::ranges_text(result_style())
                                  : render::ranges_text(*kind, result_style()),
                  status::nothing_to_say);
}

} // namespace jarful::cli
