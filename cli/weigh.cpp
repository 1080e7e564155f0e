#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/text_weigh.hpp"

namespace jarful::cli {

namespace {

int nothing_weighed(const std::string& why) {
    complain("Nothing was weighed: " + why);
    return status::not_done;
}

/// A range that is not kept for certain, or jars that do not take it all.
bool something_found(const plan::WeighOut& out) {
    const bool too_much =
        !out.chosen_jars.empty() && out.room && out.room->fill_ml > out.usable_ml * (1 + 1e-9);
    return out.verdict != plan::Verdict::inside || out.no_reading || too_much;
}

} // namespace

int run_weigh(const WeighOptions& options) {
    plan::Request request;
    const bool asked_well = read_request(options.request, request);
    std::optional<Ready> ready = make_ready(options.recipe, options.kitchen, "Nothing was weighed");
    if (!ready) return status::not_done;
    if (!asked_well) return nothing_weighed("say again what you have.");
    LoadedFile& recipe = ready->recipe;
    plan::RequestFindings found;
    const auto out = plan::weigh(recipe.document, ready->kitchen, request, recipe.findings, found);
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    explain_request(options.request, found);
    if (!out) {
        return nothing_weighed(recipe.ok() ? "say again what you have." : "mend the recipe first.");
    }
    return finish(options.json ? render::weigh_json(*out)
                               : render::weigh_text(*out, result_style(options.units)),
                  something_found(*out) ? status::something_found : status::nothing_to_say);
}

} // namespace jarful::cli
