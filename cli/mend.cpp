#include "engine/plan/mend.hpp"

#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/mend_report.hpp"

#include <algorithm>
#include <array>

namespace jarful::cli {

namespace {

struct MendOptions {
    std::string recipe;
    RequestWords request;
    std::vector<std::string> lost;         ///< name=amount
    std::optional<std::string> evaporated; ///< a volume or a weight of water
    std::optional<std::string> kitchen;
    std::optional<render::Units> units;
    bool json = false;
};

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

int answer(const MendOptions& options) {
    plan::MendRequest request;
    bool asked_well = read_request(options.request, request.request);
    for (const std::string& text : options.lost) {
        std::optional<plan::Setting> setting;
        asked_well = read_one(text, setting) && asked_well;
        if (setting) request.lost.push_back(std::move(*setting));
    }
    const std::string evaporated = "evaporated=" + options.evaporated.value_or("");
    if (options.evaporated) asked_well = read_one(evaporated, request.evaporated) && asked_well;
    std::optional<Ready> ready = make_ready(
        options.recipe, {options.kitchen, options.units, options.json}, "Nothing was worked out");
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
                               : render::mend_text(*out, result_style(out->shown)),
                  out->nothing_to_mend ? status::nothing_to_say : status::something_found);
}

int run(const Command& command, const std::vector<std::string>& words) {
    MendOptions options;
    Options reader(command);
    reader.recipe(options.recipe, options.request);
    reader.texts("--poured", options.request.poured);
    reader.texts("--lost", options.lost);
    reader.text("--evaporated", options.evaporated);
    reader.text("--kitchen", options.kitchen);
    reader.units(options.units);
    reader.flag("--json", options.json);
    if (const auto failed = reader.parse(words)) return *failed;
    return answer(options);
}

constexpr std::array flags{
    Flag{"--poured", "NAME=AMOUNT", "what really went in; may be given again"},
    Flag{"--lost", "NAME=AMOUNT", "so much of it is gone; may be given again"},
    Flag{"--evaporated", "AMOUNT", "water that has gone from an open crock"},
    without_flag,
    yes_flag,
    kitchen_flag,
    units_flag,
    json_flag,
};
constexpr std::array<std::string_view, 4> examples{
    "jarful mend winter-kraut cabbage=1.84kg --poured salt=62g",
    "jarful mend winter-kraut cabbage=1.84kg --poured salt=25g jar=tall,squat",
    "jarful mend winter-kraut cabbage=1.84kg --lost cabbage=600g",
    "jarful mend half-sours --evaporated 120ml",
};

} // namespace

const Command mend_command{
    .name = "mend",
    .usage = "RECIPE [NAME=AMOUNT …] [OPTIONS]",
    .about = "too much or too little went in: what to add to come back",
    .more =
        "Says what is wrong with what is in the jar by now, and each thing that can be added by "
        "weight to bring it back inside every bound, with the room that it takes. Exit status: 0 "
        "if nothing needs mending, 1 if something does, 2 if nothing was worked out.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
