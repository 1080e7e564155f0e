#include "engine/plan/chart.hpp"

#include "engine/kitchen/reading.hpp"
#include "engine/plan/packing.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using language::Findings;

namespace {

constexpr double aimed_rows = 20;

/// A step of 1, 2, 2.5 or 5 times a power of ten, the smallest that gives no more rows than aimed.
double round_step(double span, double rows = aimed_rows) {
    const double rough = span / rows;
    const double power = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double step : {1.0, 2.0, 2.5, 5.0})
        if (step * power >= rough * (1 - 1e-9)) return step * power;
    return 10 * power;
}

/// Multiples of the unit that the range is written in, in base units. A part of the noise of
/// factors is taken off again: 0.75 kg is 750 g.
std::vector<double> row_values(const ChartRequest& request, ChartFindings& findings) {
    const Setting& varied = request.varied;
    const auto refuse = [&](std::string code, std::string message, std::string advice) {
        findings.varied.fault(std::move(code), varied.value_place, std::move(message),
                              std::move(advice));
        return std::vector<double>{};
    };
    if (varied.name == "jar" || varied.parts.size() != 1 || !varied.parts[0].range)
        return refuse("chart-range", "A chart goes from one amount to another.",
                      "Write it as in `cabbage=500g..5kg`.");
    const units::Amount& range = varied.parts[0];
    if (!(range.low > 0))
        return refuse("chart-range", "A chart begins above nothing.",
                      "Begin with the smallest batch that you make.");
    if (range.temperature_point || range.high > 1e9)
        return refuse("chart-range", "No batch reaches so far.", "Check the number and the unit.");
    double step = 0;
    if (request.every) {
        const units::Amount& every = *request.every;
        if (every.dimension != range.dimension || !(every.value > 0) || every.range) {
            findings.every.fault("chart-step", std::nullopt,
                                 fmt::format("The step has to be {} above nothing.",
                                             units::describe(range.dimension)),
                                 "Write it as in `--every 250g`.");
            return {};
        }
        step = every.value;
    }
    const double factor = range.unit.size > 0 ? range.unit.factor() : 1;
    std::vector<double> values =
        chart_values(range.low / factor, range.high / factor, step / factor);
    if (values.empty()) {
        const double least =
            factor * round_step((range.high - range.low) / factor, most_chart_rows - 2);
        findings.every.fault(
            "chart-too-long", std::nullopt,
            fmt::format("A chart has at most {} rows.", most_chart_rows),
            fmt::format("Take a step of {} or more.", units::print_value(least, range.dimension)));
        return {};
    }
    for (double& value : values)
        value *= factor;
    return values;
}

/// Why a row that was weighed does not hold; empty if it does.
std::string fault_of(const WeighOut& out) {
    if (out.no_reading) {
        std::string words =
            fmt::format("no reading keeps {} in bounds on these scales", out.no_reading->limit);
        if (out.no_reading->step_g)
            words += fmt::format("; one that reads {} g would",
                                 units::print_number(*out.no_reading->step_g));
        return words;
    }
    const auto words = [](Verdict v) {
        return v == Verdict::undecided ? std::string("undecided")
                                       : fmt::format("{} its range", describe(v));
    };
    if (out.salt && out.salt->verdict != Verdict::inside)
        return "the salt is " + words(out.salt->verdict);
    for (const HoldCheck& c : out.checks)
        if (c.verdict != Verdict::inside) return c.text + " is " + words(c.verdict);
    for (const JarShare& jar : out.jars)
        if (jar.salt && jar.salt->verdict != Verdict::inside)
            return "the salt in " + jar.name + " is " + words(jar.salt->verdict);
    // A row shows what to weigh, in whatever it may be packed: only jars that were named can be too
    // small for it.
    const bool named = out.jar_choice && out.jar_choice->by_name;
    return named && !all_well(out) ? "it is more than the jars take" : "";
}

/// The first fault of a row's request, without its stop.
std::string first_fault(const RequestFindings& found, const Findings& findings) {
    std::vector<const Findings*> lists;
    for (const Findings& f : found.settings)
        lists.push_back(&f);
    lists.push_back(&found.moving);
    lists.push_back(&findings);
    for (const Findings* list : lists) {
        for (const language::Diagnostic& d : list->all()) {
            if (d.severity != language::Severity::fault) continue;
            std::string words = d.message;
            while (words.ends_with('.'))
                words.pop_back();
            return words;
        }
    }
    return "it cannot be weighed";
}

bool is_given(const language::Document& recipe, const std::string& name) {
    for (const language::Line& line : recipe.lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q != nullptr && q->name.value == name) return q->word == language::QuantityWord::given;
    }
    return false;
}

} // namespace

bool ChartFindings::has_faults() const {
    return varied.has_faults() || every.has_faults() || rest.has_faults();
}

const WeighOut& Chart::any() const {
    const auto row =
        std::find_if(rows.begin(), rows.end(), [](const ChartRow& r) { return r.out.has_value(); });
    return *row->out;
}

bool Chart::all_hold() const {
    return std::all_of(rows.begin(), rows.end(), [](const ChartRow& r) { return r.holds; });
}

std::vector<double> chart_values(double from, double to, double every) {
    if (!(from < to) || !std::isfinite(to) || !(every >= 0)) return {};
    const double step = every > 0 ? every : round_step(to - from);
    // With a step that was asked for the rows count from the first; else they are round themselves.
    const double origin = every > 0 ? from : 0;
    if ((to - from) / step > static_cast<double>(most_chart_rows) + 1) return {};
    std::vector<double> values{from};
    const double first = std::floor((from - origin) / step + 1e-9) + 1;
    for (double k = first;; ++k) {
        const double value = origin + k * step;
        if (value > to * (1 - 1e-9)) break;
        values.push_back(value);
    }
    values.push_back(to);
    if (values.size() > most_chart_rows) return {};
    return values;
}

std::optional<Chart> chart(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                           const ChartRequest& request, Findings& findings,
                           ChartFindings& chart_findings) {
    const std::vector<double> values = row_values(request, chart_findings);
    if (values.empty()) return std::nullopt;
    const units::Amount& range = request.varied.parts[0];
    Chart out;
    out.name = request.varied.name;
    out.dimension = range.dimension;
    if (const auto unit = range.unit.single()) {
        const std::string_view symbol = units::unit(*unit).symbol;
        out.us = symbol == "lb" || symbol == "oz" || units::unit(*unit).bare_measure ||
                 units::unit(*unit).system == units::Spoons::us;
    }
    const bool given = range.dimension == units::dim::mass && is_given(recipe, out.name);
    std::optional<Findings> first_findings;
    std::optional<RequestFindings> first_request;
    bool any = false;
    Findings recipe_findings;
    Weighing weighing(recipe, kitchen, recipe_findings);
    for (const double label : values) {
        ChartRow row;
        row.label = label;
        row.value = label;
        if (given) { // it is weighed, so it is what a scale shows
            const kitchen::Reading reading = kitchen::best_reading(kitchen, label);
            if (reading.total_g > 0) row.value = reading.total_g;
        }
        units::Amount amount = range;
        amount.range = false;
        amount.value = amount.low = amount.high = row.value;
        Request asked = request.rest;
        Setting setting = request.varied;
        setting.parts = {amount};
        setting.certain = true; // nobody has weighed it
        asked.settings.insert(asked.settings.begin(), std::move(setting));
        Findings row_findings = recipe_findings;
        RequestFindings row_request;
        row.out = weighing.by(asked, row_findings, row_request);
        if (row.out) {
            row.note = fault_of(*row.out);
            row.holds = row.note.empty();
            any = true;
        } else {
            row.note = first_fault(row_request, row_findings);
        }
        if (!first_findings) {
            first_findings = std::move(row_findings);
            first_request = std::move(row_request);
        }
        out.rows.push_back(std::move(row));
    }
    if (any) {
        for (const language::Diagnostic& d : first_findings->all())
            if (d.severity == language::Severity::remark) findings.add(d);
        return out;
    }
    findings = std::move(*first_findings);
    if (!first_request->settings.empty()) {
        chart_findings.varied = std::move(first_request->settings.front());
        first_request->settings.erase(first_request->settings.begin());
    }
    chart_findings.rest = std::move(*first_request);
    return std::nullopt;
}

} // namespace jarful::plan
