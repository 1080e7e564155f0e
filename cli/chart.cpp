#include "engine/plan/chart.hpp"

#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/chart_report.hpp"

namespace jarful::cli {

namespace {

/// What --every says; empty if it cannot be read, which has then been explained.
std::optional<units::Amount> read_every(const std::string& text) {
    language::Findings findings;
    units::ReadFault wrong;
    auto amount = units::read_amount(text, &wrong);
    if (!amount) {
        findings.fault("bad-amount",
                       language::Place{static_cast<std::uint32_t>(wrong.begin),
                                       static_cast<std::uint32_t>(wrong.end)},
                       wrong.message,
                       wrong.advice.empty() ? "Write it as in `--every 250g`." : wrong.advice);
        explain_aside(request_source(text), findings);
    }
    return amount;
}

std::string in_form(const plan::Chart& chart, const ChartOptions& options) {
    switch (options.form) {
    case ChartOptions::Form::json:
        return render::chart_json(chart);
    case ChartOptions::Form::csv:
        return render::chart_csv(chart);
    case ChartOptions::Form::markdown:
        return render::chart_markdown(chart, options.units);
    case ChartOptions::Form::text:
        break;
    }
    return render::chart_text(chart, result_style(options.units));
}

} // namespace

int run_chart(const ChartOptions& options) {
    const auto no_chart = [](const std::string& why) {
        complain("There is no chart: " + why);
        return status::not_done;
    };
    plan::ChartRequest request;
    bool asked_well = read_request(options.request, request.rest);
    language::Findings findings;
    const auto varied = plan::read_setting(options.varied, findings);
    explain_aside(request_source(options.varied), findings);
    asked_well = asked_well && varied;
    if (options.every) {
        request.every = read_every(*options.every);
        asked_well = asked_well && request.every;
    }
    std::optional<Ready> ready = make_ready(options.recipe, options.kitchen, "There is no chart");
    if (!ready) return status::not_done;
    if (!asked_well) return no_chart("say again from where to where.");
    request.varied = *varied;
    LoadedFile& recipe = ready->recipe;
    plan::ChartFindings found;
    const auto chart =
        plan::chart(recipe.document, ready->kitchen, request, recipe.findings, found);
    recipe.findings.sort();
    explain_aside(recipe.document.source, recipe.findings);
    explain_aside(request_source(options.varied), found.varied);
    explain_aside(request_source(options.every ? "--every " + *options.every : options.varied),
                  found.every);
    explain_request(options.request, found.rest);
    if (!chart) {
        return no_chart(recipe.ok() ? "say again what you want." : "mend the recipe first.");
    }
    return finish(in_form(*chart, options),
                  chart->all_hold() ? status::nothing_to_say : status::something_found);
}

} // namespace jarful::cli
