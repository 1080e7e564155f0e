#include "engine/plan/compiler.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::plan {

using sheet::Unknown;

void Compiler::finish(CellId id, Formula& formula, Type& type, Place place) {
    for (const auto& [cell, index] : brine_of_cell_)
        if (cell == id) return finish_brine(model_->brines[index], formula, type, place);
    const Quantity* q = id < quantity_of_cell_.size() ? quantity_of_cell_[id] : nullptr;
    if (q == nullptr) return;
    switch (q->word) {
    case QuantityWord::let:
        if (type.sort == Type::Sort::truth)
            findings_.fault(
                "wrong-dimension", place,
                fmt::format("\"{}\" must be an amount; this is a yes or no.", q->name.value),
                "Use the condition itself in `if … then … else …`.");
        return;
    case QuantityWord::measure:
        return;
    case QuantityWord::given:
    case QuantityWord::total:
        return expect(type, units::dim::mass, place, *q);
    case QuantityWord::count:
        return finish_count(type, place, *q);
    case QuantityWord::weigh:
    case QuantityWord::share:
    case QuantityWord::cap:
        return finish_mass(formula, type, place, *q);
    }
}

void Compiler::expect(const Type& type, units::Dimension wanted, Place place, const Quantity& q) {
    if (type == Type{wanted, Type::Sort::number}) return;
    language::Diagnostic& wrong =
        findings_.fault("wrong-dimension", place,
                        fmt::format("\"{}\" must be {}; this is {}.", q.name.value,
                                    units::describe(wanted), sheet::describe(type)),
                        advice_for(type, wanted));
    // A bare number: the unit that is missing is a gram's or a kilogram's.
    if (wanted != units::dim::mass || q.value == language::no_node) return;
    const language::Node& node = doc_.expressions[q.value];
    if (node.kind == language::NodeKind::amount && !node.parenthesised &&
        doc_.expressions.amounts[node.index].plain_number)
        wrong.fixes = language::fixes_with({node.place.end, node.place.end}, {" g", " kg"});
}

std::string Compiler::advice_for(const Type& type, units::Dimension wanted) {
    if (type.dimension.plain() && wanted == units::dim::mass)
        return "Is a unit missing, or `of` and a name after a percentage?";
    if (type.dimension == units::dim::volume && wanted == units::dim::mass)
        return "Weigh it instead, or multiply the volume by a density.";
    return "Check the units of this line.";
}

void Compiler::finish_count(const Type& type, Place place, const Quantity& q) {
    if (type == Type{} || type == Type{units::dim::count, Type::Sort::number}) return;
    findings_.fault("wrong-dimension", place,
                    fmt::format("\"{}\" is counted in whole pieces, a plain number; this is "
                                "{}.",
                                q.name.value, sheet::describe(type)),
                    "Write it as in `1 per kg of cabbage`, or use `weigh`.");
}

void Compiler::finish_mass(Formula& formula, Type& type, Place place, const Quantity& q) {
    if (type == Type{units::dim::mass, Type::Sort::number}) return;
    if (type != Type{units::dim::volume, Type::Sort::number})
        return expect(type, units::dim::mass, place, q);
    const auto index = model_->find_entry(q.name.value);
    if (!index) return;
    Entry& e = model_->entries[*index];
    const std::optional<UnknownId> density = bulk_density(e, q);
    if (!density) return;
    e.in_spoons = e.role != Role::water || !e.poured_from;
    e.volume = formula;
    const auto volume = static_cast<std::uint32_t>(formula.steps.size() - 1);
    const auto rho = formula.unknown(*density, place);
    formula.apply(Op::multiply, volume, rho, place);
    type = Type{units::dim::mass, Type::Sort::number};
}

std::optional<UnknownId> Compiler::bulk_density(Entry& e, const Quantity& q) {
    if (e.bulk_density) return e.bulk_density;
    if (e.poured_from) return model_->brines[*e.poured_from].density;
    const Place place = q.tail.material ? q.tail.material->place : q.name.place;
    if (e.material == nullptr) {
        findings_.fault("volume-without-material", place,
                        fmt::format("\"{}\" is a volume. What is it made of, so that it can "
                                    "be weighed?",
                                    q.name.value),
                        "Add `as` and a material, or write a weight.");
        return std::nullopt;
    }
    if (e.material->vague || !e.material->bulk_density) {
        language::Diagnostic& unknown = findings_.fault(
            e.material->vague ? "vague-material" : "no-density", place,
            e.material->vague
                ? fmt::format("A spoon of {} can weigh very different amounts.", e.material->name)
                : fmt::format("What a spoon of {} weighs is not known.", e.material->name),
            e.material->vague && !e.material->vague_hint.empty()
                ? fmt::format("To say which, {}. Or write a weight.", e.material->vague_hint)
                : "Write a weight, or add a `material` line with its density.");
        if (e.material->vague) unknown.fixes = said_in(q, e.material->vague_hint);
        return std::nullopt;
    }
    const larder::Figure& f = *e.material->bulk_density;
    e.bulk_density =
        builder_.add_unknown({fmt::format("how {} lies in the spoon", e.material->name),
                              f.low,
                              f.typical,
                              f.high,
                              {},
                              std::string(f.source)});
    return e.bulk_density;
}

void Compiler::finish_brine(BrineEntry& brine, Formula& formula, Type& type, Place place) {
    if (type == Type{units::dim::mass, Type::Sort::number}) return;
    if (type != Type{units::dim::volume, Type::Sort::number}) {
        findings_.fault("wrong-dimension", place,
                        fmt::format("How much brine is made is a volume or a weight; this is "
                                    "{}.",
                                    sheet::describe(type)),
                        "Write it as in `make 2 L`.");
        return;
    }
    const auto volume = static_cast<std::uint32_t>(formula.steps.size() - 1);
    const auto rho = formula.unknown(brine.density, place);
    formula.apply(Op::multiply, volume, rho, place);
    type = Type{units::dim::mass, Type::Sort::number};
}

std::optional<UnknownId> Compiler::true_density(CellId id) {
    for (Entry& e : model_->entries) {
        if (e.cell != id || e.material == nullptr) continue;
        const auto known = std::find_if(true_densities_.begin(), true_densities_.end(),
                                        [&](const auto& pair) { return pair.first == e.material; });
        if (known != true_densities_.end()) return known->second;
        Unknown u;
        u.label = fmt::format("how dense {} is", e.material->name);
        if (e.material->true_density) {
            u.low = e.material->true_density->low;
            u.typical = e.material->true_density->typical;
            u.high = e.material->true_density->high;
            u.source = std::string(e.material->true_density->source);
        } else {
            // Common practice, no source: produce about floats or about sinks.
            u.low = 0.94;
            u.typical = 1.00;
            u.high = 1.06;
            u.source = "common practice, no source";
            model_->assumptions.push_back(
                fmt::format("The density of {} itself is taken as 1.00 g/mL, give or take "
                            "0.06 (common practice, no source).",
                            e.material->name));
        }
        const UnknownId unknown = builder_.add_unknown(std::move(u));
        true_densities_.emplace_back(e.material, unknown);
        return unknown;
    }
    return std::nullopt;
}

void Compiler::assumed(units::UnitId id) {
    model_->assumptions.push_back(
        fmt::format("A {} is taken as the US one; the kitchen file can say otherwise "
                    "(`spoons metric`).",
                    units::unit(id).symbol));
}

} // namespace jarful::plan
