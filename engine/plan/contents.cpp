#include "engine/plan/contents.hpp"

#include "engine/sheet/lowering.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::plan {

using language::QuantityWord;
using larder::Role;
using sheet::CellId;
using sheet::Formula;
using sheet::Op;
using sheet::Type;

Totals Contents::define() {
    Totals t;
    t.produce = sum("all_produce", Part::produce);
    t.salt = sum("all_salt", Part::salt);
    t.liquid = sum("all_water", Part::liquid);
    t.everything = sum("everything", Part::everything);
    if (model_.ruling != nullptr && model_.ruling->basis == larder::Basis::of_evened_brine)
        t.own_water = sum("the vegetables' own water", Part::own_water);
    return t;
}

CellId Contents::sum(const char* name, Part part) {
    Formula f;
    std::optional<std::uint32_t> total;
    for (Entry& e : model_.entries) {
        if (!e.counts() || e.fate == Fate::stock) continue;
        const std::optional<std::uint32_t> next = contribution(f, e, part);
        if (!next) continue;
        total = total ? f.apply(Op::add, *total, *next) : *next;
    }
    if (!total) f.constant(0);
    const CellId id = builder_.declare(name, {}, false);
    builder_.define(id, std::move(f), Type{units::dim::mass, Type::Sort::number});
    return id;
}

std::optional<std::uint32_t> Contents::mass(Formula& f, Entry& e) {
    if (e.word != QuantityWord::count) return f.cell(e.cell);
    // Pieces weigh what the larder says one weighs; what it does not know is left out (a leaf).
    if (!e.piece) {
        if (e.material == nullptr || !e.material->piece) return std::nullopt;
        e.piece =
            unknown_for(*e.material->piece, fmt::format("what one {} weighs", e.material->name));
    }
    auto count = f.cell(e.cell);
    if (e.each_jar) count = f.apply(Op::multiply, count, f.cell(model_.jars));
    const auto piece = f.unknown(*e.piece);
    return f.apply(Op::multiply, count, piece);
}

std::optional<std::uint32_t> Contents::contribution(Formula& f, Entry& e, Part part) {
    if (e.fate == Fate::discarded) return discarded(f, e, part);
    // Decide before anything is added to the formula, so that no step is left unused.
    const Role role = *e.role;
    const bool pour = e.poured_from.has_value();
    const bool salty = pour || role == Role::salt ||
                       (e.material != nullptr && e.material->salt && role != Role::water);
    const bool wet = pour || role == Role::water || role == Role::acid ||
                     (role == Role::seasoning && e.material != nullptr && e.material->water);
    const bool of_produce = part == Part::produce || part == Part::own_water;
    if (of_produce && (role != Role::vegetable || pour)) return std::nullopt;
    if (part == Part::salt && !salty) return std::nullopt;
    if (part == Part::liquid && !wet) return std::nullopt;
    const std::optional<std::uint32_t> m = mass(f, e);
    if (!m) return std::nullopt;
    switch (part) {
    case Part::produce:
    case Part::everything:
        return m;
    case Part::salt:
        return salt_of(f, e, *m);
    case Part::liquid:
        return liquid_of(f, e, *m);
    case Part::own_water:
        return own_water_of(f, e, *m);
    }
    return std::nullopt;
}

/// Of what is poured off only salt stays, as much of it as `keeps` says.
std::optional<std::uint32_t> Contents::discarded(Formula& f, Entry& e, Part part) {
    if (!e.keeps || (part != Part::salt && part != Part::everything)) return std::nullopt;
    const bool salty = e.poured_from || e.role == Role::salt || e.role == Role::seasoning;
    if (!salty) return std::nullopt;
    const std::optional<std::uint32_t> m = mass(f, e);
    if (!m) return std::nullopt;
    const std::optional<std::uint32_t> salt = salt_of(f, e, *m);
    if (!salt) return std::nullopt;
    const auto kept = f.unknown(*e.keeps);
    return f.apply(Op::multiply, *salt, kept);
}

std::optional<std::uint32_t> Contents::salt_of(Formula& f, const Entry& e, std::uint32_t m) {
    if (e.poured_from) {
        const BrineEntry& brine = model_.brines[*e.poured_from];
        const auto strength = f.cell(brine.strength);
        std::uint32_t salt = f.apply(Op::multiply, m, strength);
        const Entry& part = model_.entries[brine.salt];
        if (part.material != nullptr && part.material->salt)
            salt = times(f, salt, *part.material->salt,
                         fmt::format("how much of {} is salt", part.material->name));
        return salt;
    }
    if (e.material != nullptr && e.material->salt)
        return times(f, m, *e.material->salt,
                     fmt::format("how much of {} is salt", e.material->name));
    if (e.role == Role::salt && e.material != nullptr &&
        e.material->warning == larder::SaltWarning::reduced_sodium) {
        // Nobody but its maker knows how much of it is salt.
        larder::Figure any{0, 0.5, 1, larder::Status::common_practice, "not known"};
        return times(f, m, any, fmt::format("how much of {} is salt", e.material->name));
    }
    if (e.role == Role::salt) return m;
    return std::nullopt;
}

/// What is not known may be nearly anything that grows.
std::uint32_t Contents::own_water_of(Formula& f, const Entry& e, std::uint32_t m) {
    constexpr larder::Figure any{0.4, 0.85, 1, larder::Status::common_practice, "not known"};
    const bool known = e.material != nullptr && e.material->water;
    return times(f, m, known ? *e.material->water : any,
                 fmt::format("how much of {} is water",
                             e.material != nullptr ? e.material->name.view() : e.name));
}

std::optional<std::uint32_t> Contents::liquid_of(Formula& f, const Entry& e, std::uint32_t m) {
    if (e.poured_from) {
        const auto strength = f.cell(model_.brines[*e.poured_from].strength);
        const auto one = f.constant(1);
        const auto rest = f.apply(Op::subtract, one, strength);
        return f.apply(Op::multiply, m, rest);
    }
    if (e.role == Role::seasoning)
        return times(f, m, *e.material->water,
                     fmt::format("how much of {} is water", e.material->name));
    return m;
}

std::uint32_t Contents::times(Formula& f, std::uint32_t m, const larder::Figure& figure,
                              const std::string& label) {
    if (figure.low == figure.high && figure.typical == 1) return m;
    const auto share = figure.low == figure.high ? f.constant(figure.typical)
                                                 : f.unknown(unknown_for(figure, label));
    return f.apply(Op::multiply, m, share);
}

/// One unknown for each figure, so that it varies once in all totals.
sheet::UnknownId Contents::unknown_for(const larder::Figure& figure, const std::string& label) {
    const auto known = std::find_if(unknowns_.begin(), unknowns_.end(),
                                    [&](const auto& pair) { return pair.first == label; });
    if (known != unknowns_.end()) return known->second;
    const sheet::UnknownId id = builder_.add_unknown(
        {label, figure.low, figure.typical, figure.high, {}, std::string(figure.source)});
    unknowns_.emplace_back(label, id);
    return id;
}

std::optional<std::string> share_total(const language::Document& document, language::NodeId value) {
    std::optional<std::string> found;
    for (language::NodeId node : sheet::name_nodes(document.expressions, value)) {
        const std::string& name = document.expressions.names[document.expressions[node].index];
        for (const language::Line& line : document.lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q == nullptr || q->word != QuantityWord::total || q->name.value != name) continue;
            if (found && *found != name) return std::nullopt;
            found = name;
        }
    }
    return found;
}

} // namespace jarful::plan
