#include "engine/plan/limits.hpp"

#include "engine/plan/as_weighed.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace jarful::plan {

using sheet::CellId;
using sheet::Formula;
using sheet::Op;
using sheet::Step;
using units::Interval;

// ---- Variants ----

std::vector<Variant> variants_of(const Model& model) {
    struct Toggle {
        std::size_t entry;
        bool cap;
    };
    std::vector<Toggle> toggles;
    for (std::size_t i = 0; i < model.entries.size(); ++i) {
        const Entry& e = model.entries[i];
        if (e.left_out) continue;
        if (e.fate == Fate::optional || e.fate == Fate::on_top)
            toggles.push_back({i, e.fate == Fate::on_top});
    }
    std::vector<Variant> variants(std::size_t{1} << toggles.size());
    for (std::size_t mask = 1; mask < variants.size(); ++mask) {
        Variant& v = variants[mask];
        for (std::size_t i = 0; i < toggles.size(); ++i) {
            if ((mask >> i & 1) == 0) continue;
            const std::string& name = model.entries[toggles[i].entry].name;
            v.absent.push_back(toggles[i].entry);
            (toggles[i].cap ? v.cap : v.optional) = true;
            v.text += v.text.empty() ? "" : ", ";
            v.text += toggles[i].cap ? fmt::format("before the {} on top dissolves", name)
                                     : fmt::format("without {}", name);
        }
    }
    return variants;
}

InVariant::InVariant(Model& model, const Variant& variant)
    : model_(model) {
    for (const std::size_t i : variant.absent) {
        Entry& e = model.entries[i];
        kept_.push_back({i, model.sheet->observed(e.cell), e.shown});
        observe(model, e, 0, Interval(0.0));
        e.absent = true;
    }
}

InVariant::~InVariant() {
    for (const Kept& k : kept_) {
        Entry& e = model_.entries[k.entry];
        e.absent = false;
        e.shown = k.shown;
        if (k.observed)
            model_.sheet->observe(e.cell, *k.observed);
        else
            model_.sheet->forget_observation(e.cell);
    }
}

// ---- Limits ----

namespace {

bool fixed(const Formula& f) {
    return std::none_of(f.steps.begin(), f.steps.end(),
                        [](const Step& s) { return s.op == Op::cell || s.op == Op::unknown; });
}

/// `a - b` as one formula.
Formula difference(const Formula& a, const Formula& b) {
    Formula f = a;
    const auto left = static_cast<std::uint32_t>(f.steps.size() - 1);
    const auto shift = static_cast<std::uint32_t>(f.steps.size());
    for (Step s : b.steps) {
        const std::size_t uses = sheet::operands(s.op);
        if (uses >= 1) s.a += shift;
        if (uses >= 2) s.b += shift;
        if (uses >= 3) s.c += shift;
        f.steps.push_back(s);
    }
    f.apply(Op::subtract, left, static_cast<std::uint32_t>(f.steps.size() - 1));
    return f;
}

LimitEnd end_of(const Model& model, const Formula& value, const Formula& bound, double factor) {
    LimitEnd end;
    end.bound = bound;
    if (fixed(bound))
        end.figure = model.sheet->value(bound) * factor;
    else
        end.margin = difference(value, bound);
    return end;
}

bool salt_is_known(const Model& model) {
    return std::none_of(model.entries.begin(), model.entries.end(), [](const Entry& e) {
        return !e.left_out && !e.replaced && e.keeps_unknown;
    });
}

} // namespace

std::optional<Limit> salt_limit(const Model& model) {
    if (model.ruling == nullptr || !salt_is_known(model)) return std::nullopt;
    if (!model.ruling->low && !model.ruling->high) return std::nullopt;
    Limit l;
    l.value = basis_formula(model.totals, model.ruling->basis);
    l.factor = 100;
    const auto end = [](double percent) {
        LimitEnd e;
        e.bound = Formula::of_constant(percent / 100);
        e.figure = percent;
        return e;
    };
    if (model.ruling->low) l.low = end(model.ruling->low->percent);
    if (model.ruling->high) l.high = end(model.ruling->high->percent);
    l.text = "the salt";
    return l;
}

Limit hold_limit(const Model& model, const Bound& b) {
    Limit l;
    l.value = b.value;
    l.factor = 1 / hold_unit(model, b).second;
    if (!b.low.empty()) l.low = end_of(model, b.value, b.low, l.factor);
    if (!b.high.empty()) l.high = end_of(model, b.value, b.high, l.factor);
    l.text = std::string(model.document->source.at(b.line->value_place));
    return l;
}

std::vector<Limit> limits_of(const Model& model) {
    std::vector<Limit> limits;
    if (auto salt = salt_limit(model)) limits.push_back(std::move(*salt));
    for (const Bound& b : model.holds)
        limits.push_back(hold_limit(model, b));
    return limits;
}

EndFigure end_figure(Model& model, const Limit& limit, const LimitEnd& end) {
    if (end.figure) return {*end.figure, std::nullopt};
    const Interval bounds = model.sheet->enclose(end.bound) * Interval(limit.factor);
    return {AsWeighed(model).value(end.bound, bounds, limit.factor), bounds};
}

Verdict verdict_of(Model& model, const Limit& limit) {
    sheet::Sheet& sheet = *model.sheet;
    std::optional<Interval> value;
    // As far from the bound as the value is, wherever the bound itself lies.
    const auto against = [&](const LimitEnd& end, double& figure) {
        if (end.figure) {
            figure = *end.figure;
            if (!value) value = sheet.enclose(limit.value) * Interval(limit.factor);
            return *value;
        }
        figure = sheet.value(end.bound) * limit.factor;
        return sheet.enclose(end.margin) * Interval(limit.factor) + Interval(figure);
    };
    Verdict verdict = Verdict::inside;
    double figure = 0;
    if (limit.low) {
        const Interval from = against(*limit.low, figure);
        verdict = compare(from, figure, std::nullopt);
    }
    if (limit.high) {
        const Interval from = against(*limit.high, figure);
        verdict = worst(verdict, compare(from, std::nullopt, figure));
    }
    return verdict;
}

bool exact_amounts_keep(Model& model, const Limit& limit) {
    AsWeighed exact(model, AsWeighed::By::exact_amounts);
    const auto figure = [&](const Formula& f) { return exact.value(f) * limit.factor; };
    std::optional<double> low;
    std::optional<double> high;
    if (limit.low) low = limit.low->figure ? *limit.low->figure : figure(limit.low->bound);
    if (limit.high) high = limit.high->figure ? *limit.high->figure : figure(limit.high->bound);
    return compare(Interval(figure(limit.value)), low, high) == Verdict::inside;
}

std::vector<sheet::Share> causes_of(Model& model, const Limit& limit) {
    for (const auto* end : {&limit.low, &limit.high})
        if (*end && !(*end)->figure) return model.sheet->causes((*end)->margin);
    return model.sheet->causes(limit.value);
}

// ---- What depends on what ----

namespace {

/// For each entry its index, by its cell.
std::unordered_map<CellId, std::size_t> entries_by_cell(const Model& model) {
    std::unordered_map<CellId, std::size_t> out;
    for (std::size_t i = 0; i < model.entries.size(); ++i)
        out.emplace(model.entries[i].cell, i);
    return out;
}

std::vector<std::size_t> weighings(const Model& model, const Limit& limit,
                                   const std::unordered_map<CellId, std::size_t>& by_cell) {
    std::vector<std::size_t> found;
    std::unordered_map<CellId, bool> seen;
    std::vector<CellId> work = limit.value.cells();
    for (const auto* end : {&limit.low, &limit.high})
        if (*end)
            for (const CellId id : (*end)->bound.cells())
                work.push_back(id);
    while (!work.empty()) {
        const CellId id = work.back();
        work.pop_back();
        if (!seen.emplace(id, true).second) continue;
        const auto entry = by_cell.find(id);
        if (entry != by_cell.end()) found.push_back(entry->second);
        // What was weighed is what it is, whatever it was worked out from.
        const sheet::Cell& cell = model.sheet->cell(id);
        if ((cell.weighed && !cell.expected) || model.sheet->entered(id)) continue;
        const auto used = model.sheet->dependencies(id);
        work.insert(work.end(), used.begin(), used.end());
    }
    std::sort(found.begin(), found.end());
    return found;
}

} // namespace

std::vector<std::size_t> weighings_of(const Model& model, const Limit& limit) {
    return weighings(model, limit, entries_by_cell(model));
}

std::vector<Watched> watched(const Model& model, const std::vector<Limit>& limits,
                             const std::vector<Variant>& variants) {
    std::vector<Watched> out;
    const auto by_cell = entries_by_cell(model);
    for (std::size_t l = 0; l < limits.size(); ++l) {
        out.push_back({l, 0});
        if (variants.size() == 1) continue;
        const std::vector<std::size_t> matters = weighings(model, limits[l], by_cell);
        for (std::size_t v = 1; v < variants.size(); ++v) {
            const std::vector<std::size_t>& absent = variants[v].absent;
            if (std::includes(matters.begin(), matters.end(), absent.begin(), absent.end()))
                out.push_back({l, v});
        }
    }
    return out;
}

} // namespace jarful::plan
