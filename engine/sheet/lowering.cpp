#include "engine/sheet/lowering.hpp"

#include <fmt/core.h>

#include <cmath>

namespace jarful::sheet {

using language::Expressions;
using language::Function;
using language::Node;
using language::NodeId;
using language::NodeKind;
using language::Place;
using units::Dimension;

namespace {

/// A lowered subexpression: the step that holds its value, and what it is.
struct Part {
    std::uint32_t step = 0;
    Type type;
};

class Lowering {
  public:
    Lowering(LoweringContext& context, const Expressions& pool)
        : ctx_(context)
        , pool_(pool) {}

    std::optional<Builder::Lowered> run(NodeId root) {
        const std::optional<Part> part = lower(root, false);
        if (!part) return std::nullopt;
        // The result is the last step: a part that is used twice may not be.
        if (part->step + 1 != formula_.steps.size()) return std::nullopt;
        return Builder::Lowered{std::move(formula_), part->type};
    }

  private:
    using Result = std::optional<Part>;

    Result fail(std::string code, Place place, std::string message, std::string advice = {}) {
        ctx_.findings.fault(std::move(code), place, std::move(message), std::move(advice));
        return std::nullopt;
    }

    Result lower(NodeId id, bool as_difference) {
        const Node& n = pool_[id];
        switch (n.kind) {
        case NodeKind::amount:
            return amount(n, as_difference);
        case NodeKind::unit:
            return bare_unit(n);
        case NodeKind::name:
            return name(n);
        case NodeKind::negate:
            return negate(n);
        case NodeKind::power:
            return power(n);
        case NodeKind::multiply:
        case NodeKind::of:
            return product(n, Op::multiply);
        case NodeKind::divide:
        case NodeKind::per:
            return product(n, Op::divide);
        case NodeKind::add:
            return sum(n, Op::add);
        case NodeKind::subtract:
            return sum(n, Op::subtract);
        case NodeKind::less:
            return comparison(n, Op::less, false);
        case NodeKind::less_equal:
            return comparison(n, Op::less_equal, false);
        case NodeKind::greater:
            return comparison(n, Op::less, true);
        case NodeKind::greater_equal:
            return comparison(n, Op::less_equal, true);
        case NodeKind::both:
            return logic(n, Op::both);
        case NodeKind::either:
            return logic(n, Op::either);
        case NodeKind::negation:
            return negation(n);
        case NodeKind::choose:
            return choose(n);
        case NodeKind::call:
            return call(n);
        }
        return std::nullopt;
    }

    // ---- Leaves ----

    Result amount(const Node& n, bool as_difference) {
        const units::Amount& a = pool_.amounts[n.index];
        if (a.temperature_point && !as_difference) {
            return Part{leaf(a.value, a.low, a.high, n.place),
                        Type{units::dim::temperature, Type::Sort::temperature_point}};
        }
        if (a.temperature_point)
            return Part{leaf(a.difference, a.difference, a.difference, n.place),
                        Type{units::dim::temperature, Type::Sort::number}};
        const Type type{a.dimension, Type::Sort::number};
        if (a.bare_measure && ctx_.spoons != units::Spoons::unstated) {
            const units::Amount ours = a.in_spoons(ctx_.spoons);
            return Part{leaf(ours.value, ours.low, ours.high, n.place), type};
        }
        std::uint32_t step = leaf(a.value, a.low, a.high, n.place);
        if (a.bare_measure) step = unstated_measure(step, a, n.place);
        return Part{step, type};
    }

    std::uint32_t leaf(double value, double low, double high, Place place) {
        if (low == high) return formula_.constant(value, place);
        Unknown u;
        u.label = "as stated";
        u.low = low;
        u.typical = value;
        u.high = high;
        u.place = place;
        ctx_.unknowns.push_back(std::move(u));
        return formula_.unknown(static_cast<UnknownId>(ctx_.unknowns.size() - 1), place);
    }

    /// Nobody has said which spoons are meant. Where the amount is in one measure it varies with
    /// all others in that measure; `1 cup 2 tbsp` varies by itself.
    std::uint32_t unstated_measure(std::uint32_t step, const units::Amount& a, Place place) {
        const double whole = a.value == 0 ? 1 : a.metric.value / a.value;
        double single = 1;
        for (std::uint8_t i = 0; i < a.unit.size; ++i) {
            const units::CompoundUnit::Factor f = a.unit.factors[i];
            if (units::unit(f.id).bare_measure)
                single *= std::pow(measure_ratio(f.id, units::Spoons::metric), f.exponent);
        }
        if (std::fabs(whole - single) < 1e-9) return measures(step, a.unit, place);
        (void)measure_unknown(*a.bare_measure, place); // so that the assumption is told
        Unknown u;
        u.label = "which spoons and cups are meant";
        u.low = std::min(1.0, whole);
        u.typical = 1.0;
        u.high = std::max(1.0, whole);
        u.place = place;
        ctx_.unknowns.push_back(std::move(u));
        const auto ratio =
            formula_.unknown(static_cast<UnknownId>(ctx_.unknowns.size() - 1), place);
        return formula_.apply(Op::multiply, step, ratio, place);
    }

    /// Bare units count as US ones at first; multiplies by what the kitchen's measure is
    /// of that, once for each bare measure in the unit.
    std::uint32_t measures(std::uint32_t step, const units::CompoundUnit& unit, Place place) {
        for (std::uint8_t i = 0; i < unit.size; ++i) {
            const units::CompoundUnit::Factor f = unit.factors[i];
            if (!units::unit(f.id).bare_measure) continue;
            std::uint32_t ratio = 0;
            if (ctx_.spoons == units::Spoons::unstated) {
                const std::optional<UnknownId> u = measure_unknown(f.id, place);
                if (!u) continue;
                ratio = formula_.unknown(*u, place);
            } else {
                const double r = measure_ratio(f.id, ctx_.spoons);
                if (r == 1) continue;
                ratio = formula_.constant(r, place);
            }
            for (int k = 0; k < std::abs(f.exponent); ++k)
                step =
                    formula_.apply(f.exponent > 0 ? Op::multiply : Op::divide, step, ratio, place);
        }
        return step;
    }

    static double measure_ratio(units::UnitId id, units::Spoons spoons) {
        const double us = units::unit(units::resolve_measure(id, units::Spoons::us)).factor;
        return units::unit(units::resolve_measure(id, spoons)).factor / us;
    }

    /// Nobody has said which spoon is meant: US is assumed, and the metric one is possible.
    std::optional<UnknownId> measure_unknown(units::UnitId id, Place place) {
        const auto known = ctx_.measures.find(id);
        if (known != ctx_.measures.end()) return known->second;
        if (ctx_.hooks.assumed_measure) ctx_.hooks.assumed_measure(id, place);
        const double metric = units::resolve_measure(id, units::Spoons::metric) == id
                                  ? 1.0
                                  : measure_ratio(id, units::Spoons::metric);
        if (metric == 1.0) return std::nullopt;
        Unknown u;
        u.label = fmt::format("which {} it is", units::unit(id).symbol);
        u.low = std::min(1.0, metric);
        u.typical = 1.0;
        u.high = std::max(1.0, metric);
        ctx_.unknowns.push_back(std::move(u));
        const auto index = static_cast<UnknownId>(ctx_.unknowns.size() - 1);
        ctx_.measures.emplace(id, index);
        return index;
    }

    Result bare_unit(const Node& n) {
        const units::CompoundUnit& unit = pool_.units[n.index];
        const std::optional<Dimension> d = unit.dimension();
        if (!d) return fail("absurd-dimension", n.place, "This unit has too high a power.");
        std::uint32_t step = formula_.constant(unit.factor(), n.place);
        step = measures(step, unit, n.place);
        return Part{step, Type{*d, Type::Sort::number}};
    }

    Result name(const Node& n) {
        const std::optional<CellId> id = ctx_.find(pool_.names[n.index]);
        if (!id) return std::nullopt; // reported when names were resolved
        const std::optional<Type> type = ctx_.type_of(*id);
        if (!type) return std::nullopt;
        return Part{formula_.cell(*id, n.place), *type};
    }

    // ---- Arithmetic ----

    /// A number that can be multiplied: no truth, no point on the thermometer.
    bool number(const Part& p, NodeId id, const Node& parent) {
        if (p.type.sort == Type::Sort::number) return true;
        if (p.type.sort == Type::Sort::truth) {
            fail("wrong-dimension", pool_[id].place,
                 "This is a yes or no, where an amount is needed.",
                 "Use it in `if … then … else …`.");
        } else {
            fail("wrong-dimension", parent.place,
                 "A temperature is a point on the thermometer and cannot be multiplied or divided.",
                 "Subtract two temperatures first: the difference can be.");
        }
        return false;
    }

    Result negate(const Node& n) {
        const Result a = lower(n.a, false);
        if (!a || !number(*a, n.a, n)) return std::nullopt;
        return Part{formula_.apply(Op::negate, a->step, 0, n.place), a->type};
    }

    Result product(const Node& n, Op op) {
        const Result a = lower(n.a, false);
        const Result b = lower(n.b, false);
        if (!a || !b || !number(*a, n.a, n) || !number(*b, n.b, n)) return std::nullopt;
        const std::optional<Dimension> d =
            op == Op::multiply ? units::multiply(a->type.dimension, b->type.dimension)
                               : units::divide(a->type.dimension, b->type.dimension);
        if (!d)
            return fail("absurd-dimension", n.place,
                        "The unit of this product has too high a power.",
                        "Check whether something is multiplied too often.");
        return Part{formula_.apply(op, a->step, b->step, n.place), Type{*d, Type::Sort::number}};
    }

    Result sum(const Node& n, Op op) {
        const Result a = lower(n.a, false);
        const Result b = lower(n.b, pool_[n.b].kind == NodeKind::amount);
        if (!a || !b) return std::nullopt;
        const bool point_a = a->type.sort == Type::Sort::temperature_point;
        const bool point_b = b->type.sort == Type::Sort::temperature_point;
        Type type = a->type;
        if (point_a && point_b && op == Op::subtract) {
            type.sort = Type::Sort::number;
        } else if (point_a && point_b) {
            return fail("wrong-dimension", n.place, "Two temperatures cannot be added.",
                        "The right side of + can be a difference, as in `cellar + 2 °C`.");
        } else if (point_b) {
            return fail("wrong-dimension", n.place,
                        "A point on the thermometer cannot be added to a difference.",
                        "Write the temperature first and the difference after it.");
        } else if (!(point_a && b->type == Type{units::dim::temperature, Type::Sort::number}) &&
                   !same(*a, *b, n, op == Op::add ? "added" : "subtracted")) {
            return std::nullopt;
        }
        return Part{formula_.apply(op, a->step, b->step, n.place), type};
    }

    /// Whether two parts can stand side by side; reports if not.
    bool same(const Part& a, const Part& b, const Node& n, std::string_view doing) {
        if (a.type.sort == Type::Sort::truth || b.type.sort == Type::Sort::truth) {
            fail("wrong-dimension", n.place, fmt::format("A yes or no cannot be {}.", doing),
                 "Use it in `if … then … else …`.");
            return false;
        }
        if (a.type.dimension == b.type.dimension && a.type.sort == b.type.sort) return true;
        const std::string left = describe(a.type);
        const std::string right = describe(b.type);
        std::string advice = "Both sides must be of one sort.";
        const bool volume_and_mass =
            (a.type.dimension == units::dim::mass && b.type.dimension == units::dim::volume) ||
            (a.type.dimension == units::dim::volume && b.type.dimension == units::dim::mass);
        if (volume_and_mass)
            advice = "Divide the weight by a density, or multiply the volume by one: "
                     "`cabbage / 0.9 kg/L` is a volume.";
        else if (a.type.dimension.plain() || b.type.dimension.plain())
            advice = "Is a unit missing, or `of` after a percentage?";
        fail("wrong-dimension", n.place,
             fmt::format("The left side is {}, the right side is {}: they cannot be {}.", left,
                         right, doing),
             advice);
        return false;
    }

    /// A whole number written as such, with or without a minus; needed where a dimension is raised.
    [[nodiscard]] std::optional<int> whole(NodeId id) const {
        const Node* n = &pool_[id];
        bool minus = false;
        while (n->kind == NodeKind::negate) {
            minus = !minus;
            n = &pool_[n->a];
        }
        if (n->kind != NodeKind::amount) return std::nullopt;
        const units::Amount& a = pool_.amounts[n->index];
        if (!a.plain_number || a.low != a.high || a.value != std::floor(a.value) ||
            std::fabs(a.value) > 1000)
            return std::nullopt;
        const int value = static_cast<int>(a.value);
        return minus ? -value : value;
    }

    Result power(const Node& n) {
        const Result base = lower(n.a, false);
        if (!base || !number(*base, n.a, n)) return std::nullopt;
        if (const std::optional<int> e = whole(n.b)) {
            const std::optional<Dimension> d = base->type.dimension.plain()
                                                   ? std::optional(units::dim::plain)
                                                   : units::power(base->type.dimension, *e);
            if (!d)
                return fail("absurd-dimension", n.place,
                            "The unit of this power is beyond anything in a kitchen.");
            Step s;
            s.op = Op::whole_power;
            s.a = base->step;
            s.b = static_cast<std::uint32_t>(*e);
            s.place = n.place;
            return Part{formula_.add(s), Type{*d, Type::Sort::number}};
        }
        const Result exponent = lower(n.b, false);
        if (!exponent) return std::nullopt;
        if (exponent->type != Type{})
            return fail("wrong-dimension", pool_[n.b].place,
                        fmt::format("An exponent must be a plain number; this is {}.",
                                    describe(exponent->type)));
        if (base->type != Type{})
            return fail(
                "wrong-dimension", n.place,
                fmt::format("Only a whole number can be the exponent of {}.", describe(base->type)),
                "Write the exponent out, as in `^2`.");
        return Part{formula_.apply(Op::power, base->step, exponent->step, n.place), Type{}};
    }

    // ---- Conditions ----

    Result comparison(const Node& n, Op op, bool exchanged) {
        const Result a = lower(n.a, false);
        const Result b = lower(n.b, false);
        if (!a || !b || !same(*a, *b, n, "compared")) return std::nullopt;
        const std::uint32_t left = exchanged ? b->step : a->step;
        const std::uint32_t right = exchanged ? a->step : b->step;
        return Part{formula_.apply(op, left, right, n.place), Type{{}, Type::Sort::truth}};
    }

    bool condition(const Part& p, NodeId id) {
        if (p.type.sort == Type::Sort::truth) return true;
        fail("wrong-dimension", pool_[id].place,
             fmt::format("A condition is needed here; this is {}.", describe(p.type)),
             "Compare it with something, as in `cabbage > 2 kg`.");
        return false;
    }

    Result logic(const Node& n, Op op) {
        const Result a = lower(n.a, false);
        const Result b = lower(n.b, false);
        if (!a || !b || !condition(*a, n.a) || !condition(*b, n.b)) return std::nullopt;
        return Part{formula_.apply(op, a->step, b->step, n.place), Type{{}, Type::Sort::truth}};
    }

    Result negation(const Node& n) {
        const Result a = lower(n.a, false);
        if (!a || !condition(*a, n.a)) return std::nullopt;
        return Part{formula_.apply(Op::negation, a->step, 0, n.place), a->type};
    }

    Result choose(const Node& n) {
        const Result c = lower(n.a, false);
        const Result a = lower(n.b, false);
        const Result b = lower(n.c, false);
        if (!c || !a || !b || !condition(*c, n.a)) return std::nullopt;
        if (a->type.sort == Type::Sort::truth && b->type == a->type) {
            // Both branches are conditions.
        } else if (!same(*a, *b, n, "the two outcomes of one `if`")) {
            return std::nullopt;
        }
        Step s;
        s.op = Op::choose;
        s.a = c->step;
        s.b = a->step;
        s.c = b->step;
        s.place = n.place;
        return Part{formula_.add(s), a->type};
    }

    // ---- Functions ----

    bool argument_count(const Node& n, std::size_t least, std::size_t most, std::string_view form) {
        if (n.b >= least && n.b <= most) return true;
        fail("wrong-arguments", n.place,
             fmt::format("This takes {}, but {} {} given.", form, n.b, n.b == 1 ? "is" : "are"),
             "See the list of functions in docs/language.md.");
        return false;
    }

    [[nodiscard]] NodeId argument(const Node& n, std::uint32_t i) const {
        return pool_.arguments[n.a + i];
    }

    Result call(const Node& n) {
        switch (n.function) {
        case Function::min:
            return extreme(n, Op::min);
        case Function::max:
            return extreme(n, Op::max);
        case Function::abs:
            return absolute(n);
        case Function::sqrt:
            return root(n);
        case Function::round:
            return rounding(n, Op::round);
        case Function::floor:
            return rounding(n, Op::floor);
        case Function::ceil:
            return rounding(n, Op::ceil);
        case Function::cover:
            return cover(n);
        }
        return std::nullopt;
    }

    Result extreme(const Node& n, Op op) {
        if (!argument_count(n, 1, 1000, "one or more amounts")) return std::nullopt;
        Result all;
        bool good = true;
        for (std::uint32_t i = 0; i < n.b; ++i) {
            const Result next = lower(argument(n, i), false);
            if (!next) {
                good = false;
            } else if (!all) {
                all = next;
            } else if (same(*all, *next, n, "compared")) {
                all->step = formula_.apply(op, all->step, next->step, n.place);
            } else {
                good = false;
            }
        }
        return good ? all : std::nullopt;
    }

    Result absolute(const Node& n) {
        if (!argument_count(n, 1, 1, "one amount")) return std::nullopt;
        const Result a = lower(argument(n, 0), false);
        if (!a || !number(*a, argument(n, 0), n)) return std::nullopt;
        return Part{formula_.apply(Op::abs, a->step, 0, n.place), a->type};
    }

    Result root(const Node& n) {
        if (!argument_count(n, 1, 1, "one amount")) return std::nullopt;
        const Result a = lower(argument(n, 0), false);
        if (!a || !number(*a, argument(n, 0), n)) return std::nullopt;
        const std::optional<Dimension> d = units::square_root(a->type.dimension);
        if (!d)
            return fail("wrong-dimension", n.place,
                        fmt::format("There is no square root of {}.", describe(a->type)));
        return Part{formula_.apply(Op::sqrt, a->step, 0, n.place), Type{*d, Type::Sort::number}};
    }

    Result rounding(const Node& n, Op op) {
        if (!argument_count(n, 1, 2, "an amount and a step")) return std::nullopt;
        const Result a = lower(argument(n, 0), false);
        if (!a || !number(*a, argument(n, 0), n)) return std::nullopt;
        if (n.b == 1) {
            if (!a->type.dimension.plain())
                return fail("wrong-arguments", n.place,
                            fmt::format("To what should {} be rounded?", describe(a->type)),
                            "Give a step, as in `round(cabbage / 3, 5 g)`.");
            return Part{formula_.apply(op, a->step, 0, n.place), a->type};
        }
        const Result step = lower(argument(n, 1), false);
        if (!step || !number(*step, argument(n, 1), n) || !same(*a, *step, n, "rounded to it"))
            return std::nullopt;
        // To nine decimals first: three steps of 0.1 g are three, whatever the last bit says.
        std::uint32_t steps = formula_.apply(Op::divide, a->step, step->step, n.place);
        const std::uint32_t fine = formula_.constant(1e9, n.place);
        steps = formula_.apply(Op::multiply, steps, fine, n.place);
        steps = formula_.apply(Op::round, steps, 0, n.place);
        steps = formula_.apply(Op::divide, steps, fine, n.place);
        const std::uint32_t whole_steps = formula_.apply(op, steps, 0, n.place);
        return Part{formula_.apply(Op::multiply, whole_steps, step->step, n.place), a->type};
    }

    Result cover(const Node& n) {
        if (!argument_count(n, 2, 2, "the produce and the density it is packed at"))
            return std::nullopt;
        const Result produce = lower(argument(n, 0), false);
        const Result packed = lower(argument(n, 1), false);
        if (!produce || !packed) return std::nullopt;
        if (produce->type != Type{units::dim::mass, Type::Sort::number})
            return fail("wrong-dimension", pool_[argument(n, 0)].place,
                        fmt::format("cover needs the weight of the produce; this is {}.",
                                    describe(produce->type)));
        if (packed->type != Type{units::dim::density, Type::Sort::number})
            return fail("wrong-dimension", pool_[argument(n, 1)].place,
                        fmt::format("cover needs the density that the produce is packed at, as "
                                    "in `0.58 kg/L`; this is {}.",
                                    describe(packed->type)));
        const Result solid = solid_volume(argument(n, 0));
        if (!solid) return std::nullopt;
        std::uint32_t room = formula_.apply(Op::divide, produce->step, packed->step, n.place);
        if (ctx_.hooks.vessel)
            room =
                formula_.apply(Op::max, room, formula_.cell(*ctx_.hooks.vessel, n.place), n.place);
        const std::uint32_t gaps = formula_.apply(Op::subtract, room, solid->step, n.place);
        const std::uint32_t none = formula_.constant(0, n.place);
        return Part{formula_.apply(Op::max, gaps, none, n.place),
                    Type{units::dim::volume, Type::Sort::number}};
    }

    /// What a sum of produce takes by itself: each quantity over the true density of its material.
    Result solid_volume(NodeId id) {
        const Node& n = pool_[id];
        const Type volume{units::dim::volume, Type::Sort::number};
        if (n.kind == NodeKind::name) {
            const std::optional<CellId> cell = ctx_.find(pool_.names[n.index]);
            if (!cell) return std::nullopt;
            const std::optional<UnknownId> density =
                ctx_.hooks.true_density ? ctx_.hooks.true_density(*cell) : std::nullopt;
            if (!density)
                return fail("no-density", n.place,
                            "How dense is this? cover needs a quantity of a known material.",
                            "Use the name of a `given`, `share` or `weigh` line of produce.");
            const std::uint32_t mass = formula_.cell(*cell, n.place);
            const std::uint32_t rho = formula_.unknown(*density, n.place);
            return Part{formula_.apply(Op::divide, mass, rho, n.place), volume};
        }
        if (n.kind == NodeKind::add || n.kind == NodeKind::subtract) {
            const Result a = solid_volume(n.a);
            const Result b = solid_volume(n.b);
            if (!a || !b) return std::nullopt;
            const Op op = n.kind == NodeKind::add ? Op::add : Op::subtract;
            return Part{formula_.apply(op, a->step, b->step, n.place), volume};
        }
        return fail(
            "wrong-arguments", n.place, "cover can only tell the produce by its name.",
            "Write a quantity's name, or a sum of names: `cover(carrot + turnip, packed)`.");
    }

    LoweringContext& ctx_;
    const Expressions& pool_;
    Formula formula_;
};

} // namespace

std::optional<Builder::Lowered> lower_expression(LoweringContext& context, const Expressions& pool,
                                                 NodeId root) {
    if (root == language::no_node) return std::nullopt;
    // An expression has at most as many parts as the whole file.
    if (pool.nodes.size() > most_parts && count_parts(pool, root, most_parts) > most_parts) {
        context.findings.fault("long-expression", pool[root].place,
                               fmt::format("This expression has more than {} parts.", most_parts),
                               "Split it with `let` lines.");
        return std::nullopt;
    }
    return Lowering(context, pool).run(root);
}

} // namespace jarful::sheet
