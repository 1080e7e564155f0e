#include "engine/plan/trace_sources.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::plan {

using sheet::Op;
using sheet::Type;

void TraceSources::add(TraceSource source) {
    for (const TraceSource& s : all_)
        if (s.what == source.what) return;
    all_.push_back(std::move(source));
}

std::string spread_text(double value, units::Interval bounds, const Type& type) {
    std::string typical = working_text(value, type);
    if (bounds.point()) return typical;
    return fmt::format("{} ({} to {})", typical, working_text(bounds.low, type),
                       working_text(bounds.high, type));
}

/// The larder's own word for how far a figure can be leaned on.
std::string TraceSources::status_of(const sheet::Unknown& u) const {
    const auto fits = [&](const std::optional<larder::Figure>& f) {
        return f && f->source == u.source && f->low == u.low && f->high == u.high;
    };
    for (const Entry& e : model_.entries) {
        if (e.material == nullptr) continue;
        const larder::Material& m = *e.material;
        for (const auto* f : {&m.bulk_density, &m.true_density, &m.water, &m.salt, &m.piece})
            if (fits(*f)) return std::string(larder::describe((*f)->status));
    }
    for (const BrineEntry& b : model_.brines) {
        const auto f = larder::brine_density(b.salt_fraction, 20);
        if (fits(f)) return std::string(larder::describe(f->status));
    }
    if (u.source.starts_with("common practice"))
        return std::string(larder::describe(larder::Status::common_practice));
    return {};
}

/// Definitions of the measures and pounds that a number is written in.
void TraceSources::of_step(const sheet::Step& s, const Shape& shape) {
    if (s.place.empty()) {
        if (s.op == Op::constant) content(s.value);
        return;
    }
    if (!shape.literal) return;
    const units::CompoundUnit* unit = working_.unit_at(s.place);
    if (const units::Amount* a = working_.amount_at(s.place)) unit = &a->unit;
    if (unit != nullptr) definitions(*unit);
}

void TraceSources::definitions(const units::CompoundUnit& unit) {
    static constexpr std::string_view plain[] = {"mg", "g",   "kg",   "mL", "cL",    "dL",
                                                 "L",  "mm",  "cm",   "m",  "min",   "h",
                                                 "s",  "day", "week", "%",  "piece", "°C"};
    for (std::uint8_t i = 0; i < unit.size; ++i) {
        const units::Unit& written = units::unit(unit.factors[i].id);
        if (std::find(std::begin(plain), std::end(plain), written.symbol) != std::end(plain))
            continue;
        units::Spoons spoons = kitchen_.spoons;
        if (spoons == units::Spoons::unstated) spoons = units::Spoons::us;
        const units::Unit& meant = units::unit(units::resolve_measure(unit.factors[i].id, spoons));
        const std::string status =
            written.bare_measure && kitchen_.spoons == units::Spoons::unstated
                ? "by definition; taken as the US one"
                : "by definition";
        const std::string name = written.symbol == meant.symbol
                                     ? std::string(written.symbol)
                                     : fmt::format("{} ({})", written.symbol, meant.symbol);
        add({name,
             fmt::format("{}: {}", working_text(meant.factor, {meant.dimension, {}}),
                         meant.definition),
             std::string(meant.source), status});
    }
}

/// A content of a material that has no spread stands in a total as a plain number.
void TraceSources::content(double value) {
    for (const Entry& e : model_.entries) {
        if (e.material == nullptr || value == 1 || value == 0) continue;
        const struct {
            const std::optional<larder::Figure>& figure;
            const char* what;
        } parts[] = {{e.material->salt, "salt"}, {e.material->water, "water"}};
        for (const auto& part : parts)
            if (part.figure && part.figure->low == part.figure->high &&
                part.figure->typical == value)
                add({fmt::format("how much of {} is {}", e.material->name, part.what),
                     working_text(value, Type{}), std::string(part.figure->source),
                     std::string(larder::describe(part.figure->status))});
    }
}

} // namespace jarful::plan
