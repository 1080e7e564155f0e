#include "engine/plan/measured.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <vector>

namespace jarful::plan {

using language::QuantityWord;
using sheet::CellId;
using units::Interval;

namespace {

/// How far beyond what a recipe expects a weight is still taken without a word (common practice, no
/// source): drained vegetables vary, a digit too many does not hide.
constexpr double least_of_low = 0.75;
constexpr double most_of_high = 1.25;

/// Whether one cell is worked out from another, at however many removes, or is that one.
bool rests_on(const sheet::Sheet& sheet, CellId cell, CellId wanted) {
    std::vector<bool> seen(sheet.size(), false);
    std::vector<CellId> open{cell};
    while (!open.empty()) {
        const CellId id = open.back();
        open.pop_back();
        if (id == wanted) return true;
        if (seen[id]) continue;
        seen[id] = true;
        for (const CellId from : sheet.dependencies(id))
            open.push_back(from);
    }
    return false;
}

bool taken(const Entry& e) {
    return e.word == QuantityWord::measure && !e.left_out && (e.entered || e.poured);
}

/// What went in before a measure was taken, at most: all that does not rest on it. Empty if what it
/// takes the place of was counted, so that nobody knows its weight.
std::optional<double> at_most_in(Model& model, const Entry& measure) {
    double sum = 0;
    for (const Entry& e : model.entries) {
        if (e.left_out || e.word == QuantityWord::measure || e.fate == Fate::stock) continue;
        if (rests_on(*model.sheet, e.cell, measure.cell)) continue;
        if (e.word != QuantityWord::count) {
            sum += std::max(0.0, model.sheet->interval(e.cell).high);
        } else if (e.material != nullptr && e.material->piece) {
            sum += model.sheet->value(e.cell) * e.material->piece->high;
        } else if (e.replaced) {
            return std::nullopt;
        }
    }
    return sum;
}

class Doubter {
  public:
    Doubter(Model& model, const Request& request)
        : model_(model)
        , request_(request) {}

    bool run(RequestFindings& findings) {
        if (std::none_of(model_.entries.begin(), model_.entries.end(), taken)) return true;
        forget_weighed(model_);
        for (Entry& e : model_.entries)
            if (e.poured && !e.left_out) observe(model_, e, e.poured->value, e.poured->bounds);
        bool believed = true;
        for (std::size_t i = 0; i < request_.settings.size(); ++i)
            believed = doubt(request_.settings[i], false, findings.settings[i]) && believed;
        for (std::size_t i = 0; i < request_.poured.size(); ++i)
            believed = doubt(request_.poured[i], true, findings.poured[i]) && believed;
        forget_weighed(model_);
        return believed;
    }

  private:
    bool doubt(const Setting& setting, bool poured, language::Findings& findings) {
        const auto i = model_.find_entry(setting.name);
        if (!i || !taken(model_.entries[*i])) return true;
        const Entry& e = model_.entries[*i];
        const auto& weighed = poured ? e.poured : e.entered;
        if (!weighed) return true;
        const std::string is = fmt::format("\"{}\" is entered as {}", e.name,
                                           units::print_mass(weighed->value, model_.shown()));
        const auto most = at_most_in(model_, e);
        if (most && weighed->bounds.low > *most * (1 + 1e-9)) {
            findings.fault("measured-impossible", setting.value_place,
                           fmt::format("{}, and no more than {} went in before it, water included.",
                                       is, units::print_mass(*most, model_.shown())),
                           "Check the number and the unit, and what the recipe is given.");
            return false;
        }
        if (setting.certain) return true;
        // The formula, and not the cell: that holds what was entered.
        const sheet::Formula expected = model_.sheet->cell(e.cell).formula;
        const Interval range = model_.sheet->enclose(expected);
        if (weighed->value >= least_of_low * range.low &&
            weighed->value <= most_of_high * range.high)
            return true;
        findings.fault("measured-unlikely", setting.value_place,
                       range.low == range.high
                           ? fmt::format("{}, where {} is expected.", is,
                                         units::print_mass(range.low, model_.shown()))
                           : fmt::format("{}, where {} to {} is expected.", is,
                                         units::print_mass(range.low, model_.shown()),
                                         units::print_mass(range.high, model_.shown())),
                       "Weigh it again, and look at the number, the unit and what the recipe is "
                       "given. If it is so, say that you mean it (on the command line: --yes).");
        return false;
    }

    Model& model_;
    const Request& request_;
};

} // namespace

void close_baths(Model& model) {
    for (Entry& e : model.entries)
        e.over = false;
    for (const Entry& measure : model.entries) {
        if (!taken(measure)) continue;
        for (Entry& e : model.entries)
            e.over = e.over ||
                     (e.fate == Fate::discarded && !rests_on(*model.sheet, e.cell, measure.cell));
    }
    for (std::size_t b = 0; b < model.brines.size(); ++b) {
        bool poured = false;
        bool open = false;
        for (const Entry& e : model.entries) {
            if (e.poured_from != b || e.left_out) continue;
            poured = true;
            open = open || !e.over;
        }
        if (!poured || open) continue;
        model.entries[model.brines[b].salt].over = true;
        model.entries[model.brines[b].water].over = true;
    }
}

bool changes_the_past(const Model& model, CellId cell) {
    return std::any_of(model.entries.begin(), model.entries.end(), [&](const Entry& e) {
        return e.over && rests_on(*model.sheet, e.cell, cell);
    });
}

bool doubt_measured(Model& model, const Request& request, RequestFindings& findings) {
    return Doubter(model, request).run(findings);
}

} // namespace jarful::plan
