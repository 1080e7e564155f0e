#include "engine/tend/outlook.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::tend {

using larder::TimingRow;
using larder::TimingWhat;

namespace {

constexpr double half_a_degree_fahrenheit = 5.0 / 18.0;
/// What is still a room, for rows that name no temperature; our reading, in °C.
constexpr double coldest_room = 15;

Days whole_days(double low, double high) {
    return {static_cast<int>(std::floor(low + 1e-9)), static_cast<int>(std::ceil(high - 1e-9))};
}

bool without_temperature(const TimingRow& row) {
    return !row.celsius_low && !row.celsius_high;
}

bool at(const TimingRow& row, std::optional<double> celsius) {
    if (without_temperature(row)) return true;
    return celsius && covers(row.celsius_low, row.celsius_high, *celsius);
}

/// Between two windows of one source, days are taken to fall evenly as it gets warmer, from the
/// warm end of the colder to the cold end of the warmer. Not where the temperatures are only our
/// reading of words.
std::optional<Window> between(const std::vector<const TimingRow*>& rows, double celsius) {
    const auto usable = [](const TimingRow* row) {
        return row->celsius_low && row->celsius_high && !row->celsius_read;
    };
    const TimingRow* colder = nullptr;
    const TimingRow* warmer = nullptr;
    for (const TimingRow* row : rows) {
        if (!usable(row)) continue;
        if (*row->celsius_high < celsius &&
            (colder == nullptr || *row->celsius_high > *colder->celsius_high))
            colder = row;
        if (*row->celsius_low > celsius &&
            (warmer == nullptr || *row->celsius_low < *warmer->celsius_low))
            warmer = row;
    }
    if (colder == nullptr || warmer == nullptr || colder->source != warmer->source)
        return std::nullopt;
    const double share =
        (celsius - *colder->celsius_high) / (*warmer->celsius_low - *colder->celsius_high);
    const auto mix = [share](double cold, double warm) { return cold + (warm - cold) * share; };
    return Window{whole_days(mix(*colder->days_low, *warmer->days_low),
                             mix(*colder->days_high, *warmer->days_high)),
                  colder, warmer};
}

std::optional<Window> ruling_window(const std::vector<const TimingRow*>& rows,
                                    std::optional<double> celsius) {
    for (const TimingRow* row : rows) {
        if (at(*row, celsius))
            return Window{whole_days(*row->days_low, *row->days_high), row, nullptr};
    }
    if (!celsius) return std::nullopt;
    return between(rows, *celsius);
}

bool warns(const TimingRow& row, std::optional<double> celsius) {
    if (!celsius) return false;
    if (row.what == TimingWhat::too_cold)
        return *celsius < *row.celsius_high - half_a_degree_fahrenheit;
    return row.what == TimingWhat::too_warm &&
           *celsius > *row.celsius_low + half_a_degree_fahrenheit;
}

/// The row of the kind itself; else the one for any, unless this kind is known to take longer.
std::optional<PhBy> ph_by(std::string_view kind, std::string_view method, const Outlook& found,
                          std::optional<double> celsius) {
    std::optional<PhBy> best;
    for (const TimingRow& row : larder::timing_rows()) {
        if (!row.rules_ph) continue;
        const bool general = row.kind == "any";
        if (!general && (row.kind != kind || (!row.method.empty() && row.method != method)))
            continue;
        if (!at(row, celsius)) continue;
        const PhBy here{whole_days(*row.days_high, *row.days_high).to, &row, general};
        if (!best || (best->general && !general)) best = here;
    }
    if (!best || !best->general) return best;
    const auto longer = [&](const TimingRow* row) { return *row->days_high > best->day; };
    if (std::any_of(found.ruling.begin(), found.ruling.end(), longer)) return std::nullopt;
    // Cold slows every ferment: a row that names no temperature is not held against a cellar.
    if (celsius && *celsius < coldest_room) return std::nullopt;
    return best;
}

} // namespace

bool covers(std::optional<double> low, std::optional<double> high, double celsius) {
    return (!low || celsius >= *low - half_a_degree_fahrenheit) &&
           (!high || celsius <= *high + half_a_degree_fahrenheit);
}

Outlook outlook(std::string_view kind, std::string_view method, std::optional<double> celsius) {
    Outlook found;
    std::string_view name = kind;
    std::string_view way = method;
    if (const larder::Kind* known = larder::find_kind(kind)) {
        name = known->name;
        if (const larder::Ruling* ruling = larder::find_ruling(*known, method))
            way = ruling->method;
    }
    for (const TimingRow& row : larder::timing_rows()) {
        if (row.kind != name || (!row.method.empty() && row.method != way)) continue;
        if (row.what == TimingWhat::ferment && row.days_low && row.days_high) {
            (row.rules_days ? found.ruling : found.beside).push_back(&row);
        } else if (row.what == TimingWhat::store) {
            found.store.push_back(&row);
        } else if (warns(row, celsius)) {
            found.warnings.push_back(&row);
        }
    }
    found.window = ruling_window(found.ruling, celsius);
    found.ph_by = ph_by(name, way, found, celsius);
    return found;
}

} // namespace jarful::tend
