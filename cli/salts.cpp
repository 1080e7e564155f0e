#include "cli/commands.hpp"
#include "cli/load.hpp"
#include "cli/terminal.hpp"
#include "engine/render/convert_report.hpp"

namespace jarful::cli {

int run_salts(const SaltsOptions& options) {
    larder::Measures measures = larder::Measures::unstated;
    if (options.measures) {
        measures = *options.measures;
    } else {
        Kitchens kitchens(options.kitchen);
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
                               : render::salts_text(measures, result_style()),
                  status::nothing_to_say);
}

} // namespace jarful::cli
