#include "engine/plan/trace.hpp"

#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/trace_report.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct TraceOptions {
    std::string recipe;
    std::string name; ///< what is traced
    RequestWords request;
    std::optional<std::string> kitchen;
    enum class Form : std::uint8_t { text, json, dot } form = Form::text;
    bool full = false;
};

int answer(const TraceOptions& options) {
    const auto nothing_traced = [](const std::string& why) {
        complain("Nothing was traced: " + why);
        return status::not_done;
    };
    plan::Request request;
    const bool asked_well = read_request(options.request, request);
    std::optional<Ready> ready = make_ready(
        options.recipe, {options.kitchen, std::nullopt, options.form != TraceOptions::Form::text},
        "Nothing was traced");
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
    return finish(options.form == Form::json ? render::trace_json(*out)
                  : options.form == Form::dot
                      ? render::trace_dot(*out)
                      : render::trace_text(*out, result_style(render::Units::metric, options.full)),
                  status::nothing_to_say);
}

int run(const Command& command, const std::vector<std::string>& words) {
    TraceOptions options;
    bool json = false;
    bool dot = false;
    std::vector<std::string> positionals;
    Options reader(command);
    reader.words(positionals);
    reader.texts("--without", options.request.without);
    reader.flag("--yes", options.request.yes);
    reader.texts("--poured", options.request.poured);
    reader.text("--for", options.request.moving);
    reader.text("--kitchen", options.kitchen);
    reader.flag("--full", options.full);
    reader.flag("--json", json);
    reader.flag("--dot", dot);
    if (const auto failed = reader.parse(words)) return *failed;
    if (json && dot) return usage_fault("One of --json and --dot at a time.", command);
    using Form = TraceOptions::Form;
    options.form = json ? Form::json : dot ? Form::dot : Form::text;
    if (positionals.size() > 1 && positionals[1].find('=') == std::string::npos) {
        options.name = positionals[1];
        positionals.erase(positionals.begin() + 1);
    }
    if (const auto failed = read_words(positionals, command, options.recipe, options.request)) {
        return *failed;
    }
    if (options.name.empty()) {
        return usage_fault("Trace what? Name a line of the recipe, or verdict for its salt.",
                           command);
    }
    return answer(options);
}

constexpr std::array flags{
    without_flag,
    yes_flag,
    Flag{"--poured", "NAME=AMOUNT", "what really went in; may be given again"},
    Flag{"--for", "NAME", "the one given that may move for a question"},
    kitchen_flag,
    full_flag,
    json_flag,
    Flag{"--dot", "", "the graph of what depends on what, for Graphviz"},
};
constexpr std::array<std::string_view, 4> examples{
    "jarful trace winter-kraut salt",
    "jarful trace winter-kraut salt cabbage=1.84kg",
    "jarful trace half-sours verdict",
    "jarful trace winter-kraut everything --dot | dot -Tsvg > kraut.svg",
};

} // namespace

const Command trace_command{
    .name = "trace",
    .usage = "RECIPE NAME [NAME=AMOUNT …] [OPTIONS]",
    .about = "where a number comes from: lines, steps, sources, uncertainty",
    .more = "NAME is a line of the recipe, a constant of the kitchen, all_produce, all_salt, "
            "all_water, everything, fill, headspace, topup, or verdict for the salt that is "
            "judged. Exit status: 0, or 2 if nothing was traced.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
