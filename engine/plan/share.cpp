#include "engine/plan/entering.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

// `salt=2.5%`: another share of salt is tried without a change of the recipe. The share is of what
// the range of the recipe's kind is a percentage of, so that what is asked for is what is judged.

namespace jarful::plan {

namespace {

constexpr int most_steps = 60;

bool is_salt(const Entry& e) {
    return e.role == larder::Role::salt && e.word == language::QuantityWord::weigh;
}

} // namespace

std::pair<std::string, std::string> Entering::no_share(const Setting& s) const {
    if (!model_.brines.empty())
        return {"The salt comes in a brine here, and its strength is written in the recipe.",
                "Copy the recipe, change its `brine` line, and weigh that."};
    const auto capped = [](const Entry& e) {
        return e.role == larder::Role::salt && e.fate == Fate::on_top;
    };
    if (std::any_of(model_.entries.begin(), model_.entries.end(), capped))
        return {"Salt lies on top here and dissolves little by little: no one percentage says how "
                "much to weigh.",
                "Copy the recipe, change its salt, and weigh that."};
    if (model_.ruling == nullptr)
        return {"The recipe says no kind of ferment, so nothing says what the percentage is of.",
                "Add a `kind` line to the recipe, as in `kind kraut`."};
    const units::Amount& part = s.parts.front();
    if (s.parts.size() > 1 || part.value <= 0 || part.value >= 1)
        return {fmt::format("\"{}\" cannot be that share.", s.name), "Write it as in `salt=2.5%`."};
    return {};
}

bool Entering::asks_share(std::size_t index) {
    const Setting& s = request_.settings[index];
    if (s.parts.empty() || !s.parts.front().percent) return false;
    const auto i = model_.find_entry(s.name);
    const bool brought = s.name == "salt" && !model_.brines.empty();
    if (!brought && (!i || !is_salt(model_.entries[*i]))) return false;
    language::Findings& findings = findings_.settings[index];
    const auto [why, advice] = no_share(s);
    if (!why.empty()) {
        findings.fault("no-share", s.value_place, why, advice);
    } else if (share_) {
        findings.fault("asked-too-much", s.name_place, "Two shares of salt are asked for at once.",
                       "Leave one of them out.");
    } else {
        share_ = Share{index, *i, s.parts.front().value};
        model_.entries[*i].solved = true;
    }
    return true;
}

bool Entering::season() {
    sheet::Sheet& sheet = *model_.sheet;
    const sheet::CellId cell = model_.entries[share_->entry].cell;
    const sheet::Formula basis = basis_formula(model_.totals, model_.ruling->basis);
    const double target = share_->target;
    const auto share_with = [&](double grams) {
        sheet.set(cell, grams);
        return sheet.value(basis);
    };
    double before_g = 0;
    double before = share_with(before_g);
    double grams = sheet.value(model_.totals.everything) * target;
    if (!(before < target) || !(grams > 0)) return false;
    // More salt is a larger share, nearly in a straight line.
    for (int i = 0; i < most_steps; ++i) {
        const double now = share_with(grams);
        if (std::fabs(now - target) <= 1e-12 * target) return true;
        const double next = grams + (target - now) * (grams - before_g) / (now - before);
        before_g = grams;
        before = now;
        if (!(next > 0) || !std::isfinite(next)) return false;
        grams = next;
    }
    return std::fabs(before - target) <= 1e-9 * target;
}

void Entering::season_or_fault() {
    if (season()) return;
    const Setting& s = request_.settings[share_->setting];
    sheet::Sheet& sheet = *model_.sheet;
    sheet.set(model_.entries[share_->entry].cell, 0);
    const double least = sheet.value(basis_formula(model_.totals, model_.ruling->basis));
    sheet.clear(model_.entries[share_->entry].cell);
    findings_.settings[share_->setting].fault(
        "no-answer", s.value_place,
        fmt::format("No amount of \"{}\" makes that: without any of it the salt is {} % {}.",
                    s.name, units::print_number(100 * least, 3),
                    larder::describe(model_.ruling->basis)),
        "Ask for a larger share.");
}

} // namespace jarful::plan
