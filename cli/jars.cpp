#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/json_jars.hpp"
#include "engine/render/text_jars.hpp"

namespace jarful::cli {

int run_jars(const WeighOptions& options) {
    const auto nothing_chosen = [](const std::string& why) {
        complain("No jar was chosen: " + why);
        return status::not_done;
    };
    plan::Request request;
    const bool asked_well = read_request(options.request, request);
    std::optional<Ready> ready = make_ready(options.recipe, options.kitchen, "No jar was chosen");
    if (!ready) return status::not_done;
    if (!asked_well) return nothing_chosen("say again what you have.");
    LoadedFile& recipe = ready->recipe;
    plan::RequestFindings found;
    request.choose_jars = true;
    const auto out = plan::weigh(recipe.document, ready->kitchen, request, recipe.findings, found);
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    explain_request(options.request, found);
    if (!out) {
        return nothing_chosen(ready->kitchen.vessels.empty() ? "describe one first."
                              : recipe.ok()                  ? "say again what you have."
                                                             : "mend the recipe first.");
    }
    const bool all_well =
        out->verdict == plan::Verdict::inside && out->jar_choice->unplaced_ml <= 0;
    return finish(options.json ? render::jars_json(*out)
                               : render::jars_text(*out, result_style(options.units)),
                  all_well ? status::nothing_to_say : status::something_found);
}

} // namespace jarful::cli
