#include "engine/plan/model.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using larder::Basis;
using sheet::Formula;
using sheet::Op;
using units::Interval;

std::string_view describe(Verdict verdict) {
    switch (verdict) {
    case Verdict::inside:
        return "inside";
    case Verdict::below:
        return "below";
    case Verdict::above:
        return "above";
    case Verdict::undecided:
        return "undecided";
    }
    return "undecided";
}

std::string_view describe(Fate fate) {
    switch (fate) {
    case Fate::in_jar:
        return "in the jar";
    case Fate::optional:
        return "optional";
    case Fate::discarded:
        return "poured off";
    case Fate::on_top:
        return "on top";
    case Fate::later:
        return "weighed later";
    case Fate::stock:
        return "for the brine";
    }
    return {};
}

std::string_view key(Fate fate) {
    switch (fate) {
    case Fate::in_jar:
        return "in_jar";
    case Fate::optional:
        return "optional";
    case Fate::discarded:
        return "discarded";
    case Fate::on_top:
        return "on_top";
    case Fate::later:
        return "later";
    case Fate::stock:
        return "stock";
    }
    return {};
}

Formula basis_formula(const Totals& t, Basis basis) {
    Formula f;
    const auto salt = f.cell(t.salt);
    switch (basis) {
    case Basis::of_vegetables: {
        const auto produce = f.cell(t.produce);
        f.apply(Op::divide, salt, produce);
        break;
    }
    case Basis::of_vegetables_and_water: {
        const auto produce = f.cell(t.produce);
        const auto liquid = f.cell(t.liquid);
        f.apply(Op::divide, salt, f.apply(Op::add, produce, liquid));
        break;
    }
    case Basis::of_brine:
    case Basis::of_drained_brine: {
        const auto liquid = f.cell(t.liquid);
        f.apply(Op::divide, salt, f.apply(Op::add, salt, liquid));
        break;
    }
    case Basis::of_evened_brine: {
        const auto liquid = f.apply(Op::add, salt, f.cell(t.liquid));
        // Only a kind that is judged so has the cell: for any other the basis is not asked for.
        const auto whole =
            t.own_water == sheet::no_cell ? liquid : f.apply(Op::add, liquid, f.cell(t.own_water));
        f.apply(Op::divide, salt, whole);
        break;
    }
    case Basis::of_everything: {
        const auto everything = f.cell(t.everything);
        f.apply(Op::divide, salt, everything);
        break;
    }
    case Basis::of_water: {
        const auto liquid = f.cell(t.liquid);
        f.apply(Op::divide, salt, liquid);
        break;
    }
    }
    return f;
}

Verdict compare(Interval percent, std::optional<double> low, std::optional<double> high) {
    // A bound that is met to the last bits is met: intervals step outward by one number.
    const auto slack = [](double bound) { return 1e-9 * std::max(1.0, std::fabs(bound)); };
    if (!std::isfinite(percent.low) || !std::isfinite(percent.high)) return Verdict::undecided;
    if (low && percent.high < *low - slack(*low)) return Verdict::below;
    if (high && percent.low > *high + slack(*high)) return Verdict::above;
    if (low && percent.low < *low - slack(*low)) return Verdict::undecided;
    if (high && percent.high > *high + slack(*high)) return Verdict::undecided;
    return Verdict::inside;
}

Verdict worst(Verdict a, Verdict b) {
    for (Verdict v : {Verdict::below, Verdict::above, Verdict::undecided})
        if (a == v || b == v) return v;
    return Verdict::inside;
}

std::optional<Verdict> overall(const std::optional<SaltJudgement>& salt,
                               const std::vector<HoldCheck>& checks) {
    std::optional<Verdict> all;
    if (salt) all = salt->verdict;
    for (const HoldCheck& c : checks)
        all = worst(all.value_or(c.verdict), c.verdict);
    return all;
}

RangeEnd range_end(const larder::Bound& bound) {
    RangeEnd end;
    end.percent = bound.percent;
    if (bound.row == nullptr) return end;
    end.row = std::string(bound.row->id);
    end.source = bound.row->section.empty()
                     ? std::string(bound.row->source)
                     : fmt::format("{} ({})", bound.row->source, bound.row->section);
    end.status = std::string(larder::standing(*bound.row));
    return end;
}

} // namespace jarful::plan
