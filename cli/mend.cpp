#include "engine/plan/mend.hpp"

#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/mend_report.hpp"

#include <algorithm>

namespace jarful::cli {

namespace {

/// Reads `NAME=AMOUNT`; a fault is explained at once.
bool read_one(const std::string& text, std::optional<plan::Setting>& setting) {
    language::Findings findings;
    setting = plan::read_setting(text, findings);
    explain_aside(request_source(text), findings);
    return setting.has_value() && !findings.has_faults();
}

int nothing_mended(const std::string& why) {
    complain("Nothing was worked out: " + why);
    return status::not_done;
}

} // namespace

int run_mend(const MendOptions& options) {
    plan::MendRequest request;
    bool asked_well = read_request(options.request, request.request);
    for (const std::string& text : options.lost) {
        std::optional<plan::Setting> setting;
        asked_well = read_one(text, setting) && asked_well;
        if (setting) request.lost.push_back(std::move(*setting));
    }
    const std::string evaporated = "evaporated=" + options.evaporated.value_or("");
    if (options.evaporated) asked_well = read_one(evaporated, request.evaporated) && asked_well;
    std::optional<Ready> ready =
        make_ready(options.recipe, options.kitchen, "Nothing was worked out");
    if (!ready) return status::not_done;
    if (!asked_well) return nothing_mended("say again what happened.");
    LoadedFile& recipe = ready->recipe;
    plan::MendFindings found;
    const auto out = plan::mend(recipe.document, ready->kitchen, request, recipe.findings, found);
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    explain_request(options.request, found.request);
    for (std::size_t i = 0; i < found.lost.size() && i < options.lost.size(); ++i)
        explain_aside(request_source(options.lost[i]), found.lost[i]);
    explain_aside(request_source(evaporated), found.evaporated);
    if (!out)
        return nothing_mended(recipe.ok() ? "say again what happened." : "mend the recipe first.");
    return finish(options.json ? render::mend_json(*out)
                               : render::mend_text(*out, result_style(options.units)),
                  out->nothing_to_mend ? status::nothing_to_say : status::something_found);
}

} // namespace jarful::cli
