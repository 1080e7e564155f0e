#include "engine/plan/chart.hpp"

#include "cli/commands.hpp"
#include "cli/options.hpp"
#include "cli/request.hpp"
#include "cli/terminal.hpp"
#include "engine/render/chart_report.hpp"

#include <array>

namespace jarful::cli {

namespace {

struct ChartOptions {
    std::string recipe;
    std::string varied; ///< name=FROM..TO
    RequestWords request;
    std::optional<std::string> every;
    std::optional<std::string> kitchen;
    std::optional<render::Units> units;
    enum class Form : std::uint8_t { text, json, csv, markdown } form = Form::text;
};

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
        return render::chart_markdown(chart, chart.any().shown);
    case ChartOptions::Form::text:
        break;
    }
    return render::chart_text(chart, result_style(chart.any().shown));
}

int answer(const ChartOptions& options) {
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
    std::optional<Ready> ready = make_ready(
        options.recipe,
        {options.kitchen, options.units,
         options.form == ChartOptions::Form::json || options.form == ChartOptions::Form::csv},
        "There is no chart");
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

int run(const Command& command, const std::vector<std::string>& words) {
    ChartOptions options;
    bool json = false;
    bool csv = false;
    bool markdown = false;
    Options reader(command);
    reader.recipe(options.recipe, options.request);
    reader.text("--every", options.every);
    reader.text("--for", options.request.moving);
    reader.text("--kitchen", options.kitchen);
    reader.units(options.units);
    reader.flag("--json", json);
    reader.flag("--csv", csv);
    reader.flag("--markdown", markdown);
    if (const auto failed = reader.parse(words)) return *failed;
    if (json + csv + markdown > 1) {
        return usage_fault("One of --json, --csv and --markdown at a time.", command);
    }
    using Form = ChartOptions::Form;
    options.form = json ? Form::json : csv ? Form::csv : markdown ? Form::markdown : Form::text;
    // The one with a range in it is what the rows go by.
    auto& settings = options.request.settings;
    const auto varied = std::find_if(settings.begin(), settings.end(), [](const std::string& s) {
        return s.find("..") != std::string::npos;
    });
    if (varied == settings.end()) {
        return usage_fault("From where to where? Say it as in cabbage=500g..5kg.", command);
    }
    options.varied = *varied;
    settings.erase(varied);
    return answer(options);
}

constexpr std::array flags{
    Flag{"--every", "AMOUNT", "the step from row to row; a round one if not said"},
    without_flag,
    yes_flag,
    Flag{"--for", "NAME", "what may move, where the rows go by something that is worked out"},
    kitchen_flag,
    units_flag,
    json_flag,
    Flag{"--csv", "", "the rows for a spreadsheet: grams and millilitres, commas between"},
    Flag{"--markdown", "", "the table as Markdown"},
};
constexpr std::array<std::string_view, 4> examples{
    "jarful chart winter-kraut cabbage=500g..5kg",
    "jarful chart winter-kraut cabbage=500g..5kg --every 250g --markdown",
    "jarful chart winter-kraut salt=10g..60g --csv",
    "jarful chart winter-kraut fill=1L..8L",
};

} // namespace

const Command chart_command{
    .name = "chart",
    .usage = "RECIPE NAME=FROM..TO [NAME=AMOUNT …] [OPTIONS]",
    .about = "the recipe as a table, to hang beside the scale",
    .more =
        "A row for each weight (or volume, for fill) from FROM to TO, 60 rows at most. Only "
        "readings whose worst case keeps the salt and the bounds of the house are shown; where "
        "there are none, a dash and the reason. Exit status: 0 if every row holds, 1 if some do "
        "not, 2 if there is no chart.",
    .flags = flags,
    .examples = examples,
    .run = run,
};

} // namespace jarful::cli
