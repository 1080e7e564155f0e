#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/load.hpp"
#include "cli/terminal.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/text_weigh.hpp"

namespace jarful::cli {

namespace {

/// What was typed beside the recipe's name, as a text that can be underlined.
language::Source request_source(const std::string& text) {
    return {"the request", text};
}

/// Reads every setting; faults are explained at once.
bool read_settings(const WeighOptions& options, plan::Request& request) {
    bool sound = true;
    for (const std::string& text : options.settings) {
        language::Findings findings;
        auto setting = plan::read_setting(text, findings);
        explain_aside(request_source(text), findings);
        if (setting && !findings.has_faults()) {
            request.settings.push_back(std::move(*setting));
        } else {
            sound = false;
        }
    }
    request.without = options.without;
    return sound;
}

void explain_request(const WeighOptions& options, const plan::RequestFindings& found) {
    for (std::size_t i = 0; i < found.settings.size() && i < options.settings.size(); ++i) {
        explain_aside(request_source(options.settings[i]), found.settings[i]);
    }
    for (std::size_t i = 0; i < found.without.size() && i < options.without.size(); ++i) {
        explain_aside(request_source(options.without[i]), found.without[i]);
    }
}

int nothing_weighed(const std::string& why) {
    complain("Nothing was weighed: " + why);
    return status::not_done;
}

} // namespace

int run_weigh(const WeighOptions& options) {
    const FoundRecipe found = find_recipe(options.recipe);
    if (found.fault) {
        complain(found.fault->message + " " + found.fault->advice);
        return status::not_done;
    }
    LoadedFile recipe = load(found.path);
    const language::Source& source = recipe.document.source;
    if (recipe.ok() && recipe.document.kind == language::FileKind::kitchen) {
        recipe.findings.fault("not-a-recipe", std::nullopt,
                              "This is a kitchen, and a recipe is wanted.",
                              "Name a file that begins with a `recipe` line; `jarful check` looks "
                              "at kitchens too.");
    }
    plan::Request request;
    const bool asked_well = read_settings(options, request);
    Kitchens kitchens(options.kitchen);
    const LoadedKitchen& kitchen = kitchens.of(found.path);
    if (!kitchen.ok()) explain_aside(kitchen.file.document.source, kitchen.file.findings);
    if (!recipe.ok()) {
        recipe.findings.sort();
        explain_aside(source, recipe.findings);
        return recipe.read ? nothing_weighed("mend the recipe first.") : status::not_done;
    }
    if (!kitchen.ok()) {
        return kitchen.file.read ? nothing_weighed("mend the kitchen first.") : status::not_done;
    }
    if (!asked_well) return nothing_weighed("say again what you have.");

    plan::RequestFindings request_findings;
    const auto out =
        plan::weigh(recipe.document, kitchen.kitchen, request, recipe.findings, request_findings);
    recipe.findings.sort();
    explain_aside(source, recipe.findings);
    explain_request(options, request_findings);
    if (!out) {
        return nothing_weighed(recipe.ok() ? "say again what you have." : "mend the recipe first.");
    }
    const int code =
        out->verdict == plan::Verdict::inside ? status::nothing_to_say : status::something_found;
    return finish(options.json ? render::weigh_json(*out)
                               : render::weigh_text(*out, result_style(options.units)),
                  code);
}

} // namespace jarful::cli
