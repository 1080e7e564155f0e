#include "engine/plan/entering_advice.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::plan {

namespace {

/// As it is typed on a command line: without blanks.
std::string typed_form(std::string printed) {
    printed.erase(std::remove(printed.begin(), printed.end(), ' '), printed.end());
    return printed;
}

/// For a number without a unit: the unit with which it comes nearest to what the recipe has there.
/// @param usual_g that; 0 if it is not known.
std::string with_unit(const std::string& name, double number, double usual_g, units::Shown shown) {
    struct Unit {
        double grams;
        const char* symbol;
        const char* words;
    };
    static constexpr Unit metric[] = {{1, "g", "grams"}, {1000, "kg", "kilograms"}};
    static constexpr Unit us[] = {{units::ounce_g, "oz", "ounces"},
                                  {units::pound_g, "lb", "pounds"}};
    const auto& known = shown.style() == units::Style::us ? us : metric;
    const auto off = [&](const Unit& unit) {
        return std::fabs(std::log(unit.grams * number / usual_g));
    };
    const bool larger = usual_g > 0 && number > 0 && off(known[1]) < off(known[0]);
    const Unit& unit = known[larger ? 1 : 0];
    return fmt::format("Say the unit: `{}={}{}`, if these are {}.", name,
                       units::print_number(number), unit.symbol, unit.words);
}

/// A weight as it is typed.
std::string typed_mass(double grams, units::Shown shown) {
    if (shown.style() == units::Style::metric) return typed_form(units::print_mass(grams));
    // Pounds and ounces have a blank between them.
    return units::print_number(grams / units::pound_g, 3) + "lb";
}

double usual(const Model& model, std::optional<sheet::CellId> cell) {
    const double value = cell ? model.sheet->value(*cell) : 0;
    return std::isfinite(value) ? std::max(0.0, value) : 0;
}

/// "2.2 %" of the ruling basis, as the model stands; empty if nothing rules or it has no value.
std::string share_of(Model& model) {
    if (model.ruling == nullptr) return {};
    const double share = model.sheet->value(basis_formula(model.totals, model.ruling->basis));
    if (!std::isfinite(share)) return {};
    return units::print_number(100 * share, 3) + " %";
}

} // namespace

std::string unit_advice(const Model& model, sheet::CellId cell, const units::Amount& typed) {
    const sheet::Cell& there = model.sheet->cell(cell);
    const units::Dimension dimension = there.type.dimension;
    const double value = usual(model, cell);
    if (dimension == units::dim::mass && typed.plain_number)
        return with_unit(there.name, typed.value, value, model.shown());
    if (value == 0) return "Give it a unit that fits.";
    return fmt::format("Write it as in `{}={}`.", there.name,
                       dimension == units::dim::mass
                           ? typed_mass(value, model.shown())
                           : typed_form(units::print_value(value, dimension)));
}

std::string weight_advice(const Model& model, const std::string& name, const units::Amount& typed) {
    const double grams = usual(model, model.sheet->find(name));
    if (typed.plain_number) return with_unit(name, typed.value, grams, model.shown());
    return fmt::format("Write it as in `{}={}`.", name,
                       typed_mass(grams > 0 ? grams : 100, model.shown()));
}

Overdetermined asked_and_set(Model& model, sheet::CellId cell, double grams) {
    Overdetermined out;
    out.needed = units::print_mass(model.sheet->value(cell), model.shown());
    out.usual = share_of(model);
    model.sheet->set(cell, grams);
    out.share = share_of(model);
    if (!out.share.empty()) out.share += fmt::format(" {}", larder::describe(model.ruling->basis));
    model.sheet->clear(cell);
    return out;
}

} // namespace jarful::plan
