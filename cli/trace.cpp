#include "engine/plan/trace.hpp"

#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/trace_report.hpp"

namespace jarful::cli {

int run_trace(const TraceOptions& options) {
    const auto nothing_traced = [](const std::string& why) {
        complain("Nothing was traced: " + why);
        return status::not_done;
    };
    plan::Request request;
    const bool asked_well = read_request(options.request, request);
    std::optional<Ready> ready = make_ready(options.recipe, options.kitchen, "Nothing was traced");
    if (!ready) return status::not_done;
    if (!asked_well) return nothing_traced("say again what you have.");
    LoadedFile& recipe = ready->recipe;
    plan::RequestFindings found;
    language::Findings name_findings;
    const auto out = plan::trace(recipe.document, ready->kitchen, request, options.name,
                                 recipe.findings, found, name_findings);
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    explain_request(options.request, found);
    explain_aside(request_source(options.name), name_findings);
    if (!out) return nothing_traced(recipe.ok() ? "ask again." : "mend the recipe first.");
    using Form = TraceOptions::Form;
    return finish(options.form == Form::json  ? render::trace_json(*out)
                  : options.form == Form::dot ? render::trace_dot(*out)
                                              : render::trace_text(*out, result_style()),
                  status::nothing_to_say);
}

} // namespace jarful::cli
