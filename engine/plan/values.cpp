#include "engine/plan/contents.hpp"
#include "engine/plan/model.hpp"

#include <fmt/core.h>

#include <cmath>
#include <map>

namespace jarful::plan {

using language::Findings;
using language::QuantityWord;

namespace {

// Heavier than any batch of a household or a small kitchen: a slip of the unit.
constexpr double most_grams = 1e6;
constexpr double most_pieces = 100'000;
// Of everything else. A cure has a quarter; a house's own range may go up to here.
constexpr double most_salt = 0.5;

void report(Findings& findings, const sheet::ComputeFault& fault, std::string_view what) {
    if (fault.sort == sheet::ComputeFault::Sort::division_by_zero) {
        findings.fault("division-by-zero", fault.place, fmt::format("{} divides by zero.", what),
                       "Check what stands after `/` or `per`.");
    } else {
        findings.fault("not-finite", fault.place,
                       fmt::format("{} does not come to a number.", what),
                       "Check for a root of something negative, or a power that is too high.");
    }
}

class Checker {
  public:
    Checker(Model& model, Findings& findings)
        : model_(model)
        , findings_(findings) {}

    void run() {
        finite();
        if (findings_.has_faults()) return;
        for (const Entry& e : model_.entries)
            sane(e);
        salt_sane();
        for (const BrineEntry& b : model_.brines)
            range(model_.sheet->value(b.made), b.name, b.place, most_grams);
        shares_add_up();
        formula(model_.fill, "`fill`");
        formula(model_.headspace, "`headspace`");
        formula(model_.top_up, "`topup`");
        vessel_sane();
        for (const Bound& b : model_.holds) {
            formula(b.value, "What is held");
            formula(b.low, "A bound");
            formula(b.high, "A bound");
            empty_hold(b);
        }
        for (const auto& holes : model_.holes)
            for (const Hole& hole : holes)
                formula(hole.formula, "A value in this text");
    }

  private:
    void finite() {
        sheet::Sheet& sheet = *model_.sheet;
        std::vector<std::pair<sheet::CellId, std::uint32_t>> told;
        for (sheet::CellId id = 0; id < sheet.size(); ++id) {
            const auto fault = sheet.fault(id);
            if (!fault) continue;
            const std::pair<sheet::CellId, std::uint32_t> key{fault->cell, fault->place.begin};
            bool seen = false;
            for (const auto& t : told)
                seen = seen || t == key;
            if (seen) continue;
            told.push_back(key);
            const std::string name = fault->cell == sheet::no_cell
                                         ? std::string("This")
                                         : fmt::format("\"{}\"", sheet.cell(fault->cell).name);
            report(findings_, *fault, name);
        }
    }

    void formula(const std::optional<sheet::Formula>& f, std::string_view what) {
        if (f) formula(*f, what);
    }

    void formula(const sheet::Formula& f, std::string_view what) {
        if (f.empty()) return;
        if (const auto fault = model_.sheet->fault(f)) report(findings_, *fault, what);
    }

    void sane(const Entry& e) {
        const double value = model_.sheet->value(e.cell);
        if (e.word == QuantityWord::count) {
            range(value, e.name, e.place, most_pieces, false);
            return;
        }
        range(value, e.name, e.place, most_grams);
    }

    void range(double value, const std::string& name, language::Place place, double most,
               bool mass = true) {
        if (value >= 0 && value <= most) return;
        const std::string is =
            mass ? units::print_mass(value, model_.shown()) : units::print_number(value);
        if (value < 0)
            findings_.fault("negative-amount", place,
                            fmt::format("\"{}\" comes to {}, less than nothing.", name, is),
                            "Check the line it is worked out on, and what it is given.");
        else if (value > most)
            findings_.fault(
                "absurd-amount", place,
                fmt::format("\"{}\" comes to {}: more than any kitchen makes.", name, is),
                "Check the units, and whether a % is missing.");
    }

    /// Salt of more than half of what it salts is a slip: a percent sign that is missing, mostly.
    void salt_sane() {
        double rest = 0;
        for (const Entry& e : model_.entries)
            if (e.role != larder::Role::salt && e.word != QuantityWord::count &&
                e.fate != Fate::stock && !e.left_out)
                rest += model_.sheet->value(e.cell);
        rest = std::max(rest, model_.sheet->value(model_.totals.produce) +
                                  model_.sheet->value(model_.totals.liquid));
        if (!(rest > 0)) return;
        for (const Entry& e : model_.entries) {
            if (e.role != larder::Role::salt || e.word == QuantityWord::count ||
                e.fate == Fate::stock || e.left_out)
                continue;
            const double value = model_.sheet->value(e.cell);
            if (!(value > most_salt * rest)) continue;
            findings_.fault("too-much-salt", e.place,
                            fmt::format("\"{}\" comes to {}, and everything else to {}: no ferment "
                                        "has so much salt.",
                                        e.name, units::print_mass(value, model_.shown()),
                                        units::print_mass(rest, model_.shown())),
                            "Write the percent sign, as in `2.2 % of cabbage`: `2.2 of cabbage` is "
                            "220 % of it. Or check the units.");
        }
    }

    void shares_add_up() {
        std::map<std::string, double> sums;
        std::map<std::string, language::Place> first;
        for (const language::Line& line : model_.document->lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q == nullptr || q->word != QuantityWord::share) continue;
            const auto total = share_total(*model_.document, q->value);
            const auto entry = model_.find_entry(q->name.value);
            if (!total || !entry) continue;
            sums[*total] += model_.sheet->value(model_.entries[*entry].cell);
            first.emplace(*total, q->name.place);
        }
        for (const auto& [name, sum] : sums) {
            const auto id = model_.sheet->find(name);
            if (!id) continue;
            const double whole = model_.sheet->value(*id);
            if (std::fabs(sum - whole) <= 1e-9 * std::max(1.0, std::fabs(whole))) continue;
            if (whole == 0) continue;
            // With an optional part left out the rest need not add up.
            if (some_share_left_out(name)) continue;
            findings_.fault("shares-do-not-add-up", first.at(name),
                            fmt::format("The shares of \"{}\" come to {} % of it.", name,
                                        units::print_percent(sum / whole)),
                            "Change one of them so that they make 100 %.");
        }
    }

    bool some_share_left_out(const std::string& total) {
        for (const language::Line& line : model_.document->lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q == nullptr || q->word != QuantityWord::share) continue;
            const auto entry = model_.find_entry(q->name.value);
            if (entry && model_.entries[*entry].left_out &&
                share_total(*model_.document, q->value) == total)
                return true;
        }
        return false;
    }

    void vessel_sane() {
        sheet::Sheet& sheet = *model_.sheet;
        const auto line_place = [&](auto pick) {
            for (const language::Line& line : model_.document->lines)
                if (pick(line)) return line.place;
            return language::Place{};
        };
        if (model_.fill && sheet.value(*model_.fill) <= 0)
            findings_.fault("negative-amount", line_place([](const language::Line& l) {
                                return std::holds_alternative<language::FillLine>(l.statement);
                            }),
                            "The batch takes no room at all.", "Check the `fill` line.");
        if (model_.headspace) {
            const double v = sheet.value(*model_.headspace);
            const bool share = model_.headspace_type.dimension.plain();
            if (v < 0 || (share && v >= 0.95) || (!share && v > 200))
                findings_.fault("absurd-amount", line_place([](const language::Line& l) {
                                    return std::holds_alternative<language::HeadspaceLine>(
                                        l.statement);
                                }),
                                "That is no headspace.",
                                "A tenth to a quarter of the jar, or a few centimetres, is usual.");
        }
        if (model_.top_up) {
            const double v = sheet.value(*model_.top_up);
            if (v < 0 || v > 0.36)
                findings_.fault("absurd-amount", line_place([](const language::Line& l) {
                                    return std::holds_alternative<language::TopUpLine>(l.statement);
                                }),
                                "No brine is that strong.",
                                "`topup` is grams of salt per 100 g of water, as a percentage: "
                                "2 to 3 % is usual.");
        }
    }

    void empty_hold(const Bound& b) {
        if (b.low.empty() || b.high.empty() || findings_.has_faults()) return;
        if (model_.sheet->value(b.low) <= model_.sheet->value(b.high)) return;
        findings_.fault("empty-range", b.line->value_place,
                        "Nothing can be between these two bounds: the first is the larger.",
                        "Exchange them.");
    }

    Model& model_;
    Findings& findings_;
};

} // namespace

bool check_values(Model& model, Findings& findings) {
    Checker(model, findings).run();
    return !findings.has_faults();
}

} // namespace jarful::plan
