#include "engine/appraise/bounds.hpp"
#include "engine/appraise/reading.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::appraise {

using larder::Material;
using larder::Role;
using units::Interval;
using Sort = Measure::Sort;

namespace {

/// From the lightest flake to the densest fine salt: what a spoon of a salt whose grain is not
/// known may weigh. The larder's own "salt" spans the same.
const Interval any_grain{0.54, 1.3};

std::optional<Interval> density_of(const Material& material) {
    if (material.bulk_density) return material.bulk_density->interval();
    if (material.role == Role::salt) return any_grain;
    if (material.role == Role::water) return Interval{0.9957, 0.9998};
    if (material.role == Role::acid) return Interval{0.99, 1.03};
    // Thin liquids weigh about what water does.
    if (is_liquid(material)) return Interval{0.98, 1.05};
    return std::nullopt;
}

std::optional<Interval> density_of(const Item& item, const Material* salt) {
    if (item.material == nullptr) return std::nullopt;
    if (item.material->role == Role::salt && salt != nullptr &&
        (item.material->vague || item.choices.size() > 1 || !item.material->bulk_density)) {
        return density_of(*salt);
    }
    std::optional<Interval> out;
    for (const Material* choice : item.choices) {
        const auto one = density_of(*choice);
        if (!one) return std::nullopt;
        out = out ? units::hull(*out, *one) : *one;
    }
    return out ? out : density_of(*item.material);
}

/// One piece by its size. The larder's low and high are those of published medium ones; what is
/// called large, or nothing at all, may be more: common practice, no source.
std::optional<Interval> piece_of(const Material& m, Size size) {
    if (!m.piece) return std::nullopt;
    const auto& p = *m.piece;
    switch (size) {
    case Size::small:
        return Interval{p.low * 0.6, p.typical};
    case Size::medium:
        return Interval{p.low, p.high};
    case Size::large:
        return Interval{p.typical, p.high * 1.8};
    case Size::unsaid:
        break;
    }
    return Interval{p.low * 0.8, p.high * 1.5};
}

/// One piece of whatever the item may be.
std::optional<Interval> piece_of(const Item& item, Size size) {
    std::optional<Interval> out;
    for (const Material* choice : item.choices) {
        const auto one = piece_of(*choice, size);
        if (!one) return std::nullopt;
        out = out ? units::hull(*out, *one) : *one;
    }
    return out ? out : piece_of(*item.material, size);
}

Interval counted(const Quantity& q, Interval one) {
    Interval out{q.count.low * one.low, q.count.high * one.high};
    if (q.about) out = {out.low * 0.9, out.high * 1.1};
    return out;
}

std::string grams_text(Interval g) {
    const std::string low = units::print_number(g.low, 3);
    const std::string high = units::print_number(g.high, 3);
    return low == high ? low + " g" : low + " to " + high + " g";
}

} // namespace

bool is_liquid(const Material& material) {
    return material.id == "whey" || material.id == "milk" || material.id == "wine" ||
           material.id == "starter-brine";
}

std::optional<Interval> grams_of(const Quantity& q, const Item& item, const Material* salt) {
    if (item.material == nullptr || q.unclear) return std::nullopt;
    const Material& m = *item.material;
    if (q.measure == nullptr) {
        const auto one = piece_of(item, q.size);
        return one ? std::optional(counted(q, *one)) : std::nullopt;
    }
    switch (q.measure->sort) {
    case Sort::mass:
        return q.base();
    case Sort::volume:
    case Sort::loose: {
        const auto density = density_of(item, salt);
        if (!density) return std::nullopt;
        const Interval ml = q.base();
        return Interval{ml.low * density->low, ml.high * density->high};
    }
    case Sort::count: {
        const std::string_view unit = q.measure->unit;
        const auto one = piece_of(item, q.size);
        if (m.id == "garlic" && (unit == "head" || unit == "bulb") && m.piece)
            return counted(
                q, {8 * m.piece->low, 14 * m.piece->high}); // cloves of a head: common practice
        if (unit == "bunch") {
            if (m.role != Role::vegetable) return std::nullopt;
            return counted(q, {60.0, 500.0}); // common practice, no source; wide on purpose
        }
        if (!one) return std::nullopt;
        if (unit == m.piece_word || unit == "piece") return counted(q, *one);
        // A slice, a leaf, the peel or the core of a vegetable is at most a quarter of it: common
        // practice, no source. A leaf and a slice weigh no more than the table of bounds says.
        if (q.measure->part) {
            const double most = m.role == Role::vegetable ? 0.25 * one->high : one->high;
            const bool bounded = unit == "leaf" || unit == "slice";
            return counted(q, {0.0, bounded ? std::min(most, bound(unit.data())) : most});
        }
        if (unit == "stick" || unit == "sprig") return counted(q, {0.0, one->high});
        if (m.role == Role::vegetable && (unit == "head" || unit == "root" || unit == "bulb" ||
                                          unit == "stalk" || unit == "pod" || unit == "spear"))
            return counted(q, *one);
        return std::nullopt;
    }
    case Sort::package:
    case Sort::length:
    case Sort::percent:
        return std::nullopt;
    }
    return std::nullopt;
}

namespace {

bool in_pieces(const Quantity& q) {
    return q.measure == nullptr || q.is(Sort::count) || q.is(Sort::package);
}

/// Whether a weight beside a count of pieces is that of each or of them all, in g.
Interval weight_of_pieces(Reading& r, const Quantity& weight) {
    const Quantity& q = *r.amount;
    const Interval said = weight.base();
    const Interval all{said.low * q.count.low, said.high * q.count.high};
    if (weight.each) return all;
    if (q.count.high < 1) {
        // "1/2 head (1.5 kg)": of the half, or of the head that it is half of.
        r.line.notes.emplace_back("It is not said whether the whole weighs so much or the part of "
                                  "it that goes in: both are kept in view.");
        return units::hull(said, all);
    }
    // "2 heads (2 lb)": each or both? What lies in reach of a published head decides.
    const auto one = piece_of(*r.item.material, Size::unsaid);
    const auto in_reach = [&](Interval g) {
        return one && g.high >= q.count.low * one->low * 0.7 &&
               g.low <= q.count.high * one->high * 1.4;
    };
    if (in_reach(all) == in_reach(said)) {
        r.line.notes.emplace_back("It is not said whether each weighs so much or all together.");
        return units::hull(said, all);
    }
    if (!in_reach(all)) return said;
    r.line.notes.emplace_back("Taken as the weight of each.");
    return all;
}

/// Holds an amount against the weights that stand beside it.
void hold_to_weights(Reading& r, std::optional<Interval>& grams) {
    Line& line = r.line;
    const Quantity& q = *r.amount;
    const bool pieces = in_pieces(q);
    for (const Quantity& weight : r.weights) {
        if (weight.unclear) {
            grams.reset();
            line.notes.emplace_back("The weight beside it can be read two ways.");
            continue;
        }
        Interval said = weight.base();
        if (pieces && !weight.together && !(q.count == Interval(1.0)))
            said = weight_of_pieces(r, weight);
        if (!grams || pieces) {
            grams = said;
            continue;
        }
        const bool touching = said.high >= grams->low * 0.97 && said.low <= grams->high * 1.03;
        if (q.weighed()) {
            if (!touching) {
                line.notes.push_back(
                    fmt::format("The two weights disagree: {} and {}. Both are kept in view.",
                                grams_text(*grams), grams_text(said)));
            }
            // "1 lb/450 g": the same weight, rounded; which of the two is put on the scale is open.
            grams = units::hull(*grams, said);
            continue;
        }
        if (!touching) {
            line.notes.push_back(fmt::format(
                "The spoons come to {}, the weight says {}: the weight rules. It would be wise to "
                "find out which was meant.",
                grams_text(*grams), grams_text(said)));
        }
        grams = said;
    }
}

/// Keeps the other amounts in view that the line leaves the choice of.
void hold_to_alternatives(Reading& r, std::optional<Interval>& grams, const Material* salt) {
    Line& line = r.line;
    const Quantity& q = *r.amount;
    const Material& m = *r.item.material;
    const bool is_salt = m.role == Role::salt;
    const bool pieces = in_pieces(q);
    for (const Alternative& other : r.alternatives) {
        const Item& item = other.item ? *other.item : r.item;
        if (item.material == nullptr) continue;
        if (item.material->role != m.role) {
            if (is_salt || item.material->role == Role::salt) {
                grams.reset();
                line.notes.emplace_back("The alternative is another sort of thing.");
            }
            continue;
        }
        const bool two_weights = q.weighed() && other.quantity.weighed();
        if (!other.item && q.weighed() && !two_weights && !is_salt) continue; // "1 lb (4 cups)"
        if (!other.item && pieces && !r.weights.empty()) continue;
        const auto g = grams_of(other.quantity, item, salt);
        if (!g) {
            if (is_salt) grams.reset();
            continue;
        }
        if (!other.item && !r.weights.empty()) continue;
        if (!grams) {
            grams = g;
            continue;
        }
        const bool touching = g->high >= grams->low * 0.95 && g->low <= grams->high * 1.05;
        const bool both = other.either && is_salt && !touching;
        if (!other.item && q.weighed() && !two_weights && !both) {
            if (!touching)
                line.notes.push_back(fmt::format(
                    "The spoons beside it come to {}; the weight rules.", grams_text(*g)));
            continue;
        }
        if (!other.item && touching) continue;
        if (!touching)
            line.notes.push_back(
                fmt::format("The two amounts differ: {} and {}. Both are kept in view.",
                            grams_text(*grams), grams_text(*g)));
        grams = units::hull(*grams, *g);
    }
}

} // namespace

void weigh(Reading& r, const Material* salt) {
    constexpr double heaviest = 1e9; // g, as in the record of a batch
    Line& line = r.line;
    line.grams.reset();
    if (!r.amount || r.item.material == nullptr) return;
    const Quantity& q = *r.amount;
    const Material& m = *r.item.material;
    std::optional<Interval> grams = grams_of(q, r.item, salt);
    if (r.juice && q.measure == nullptr)
        grams = counted(q, {20.0, 70.0}); // juice of one fruit: common practice, no source
    const bool is_salt = m.role == Role::salt;
    hold_to_weights(r, grams);
    hold_to_alternatives(r, grams, salt);
    if (grams && as_bought(r) && m.refuse && m.role == Role::vegetable) {
        grams = Interval{grams->low * (1 - m.refuse->high), grams->high};
        line.notes.push_back(
            fmt::format("Weighed as bought or trimmed is not said; trimming takes {} %.",
                        units::print_number(m.refuse->high * 100, 2)));
    }
    // Only salt is counted as so much of something: how many jars there are is never known.
    if (r.ratio && !q.is(Sort::percent) &&
        (m.role == Role::vegetable || m.role == Role::water || m.role == Role::seasoning)) {
        grams.reset();
        line.notes.emplace_back(
            "So much for each jar, or for so much of something: how much there is in all is not "
            "said.");
    }
    if (r.open && grams && is_salt) {
        line.notes.emplace_back("More of it \"to taste\" is left open.");
        grams.reset();
    } else if (r.open && (m.role == Role::vegetable || m.role == Role::water)) {
        line.notes.emplace_back("More of it is left open: it may be any amount above this one.");
    }
    if (line.optional && grams) grams = Interval{0.0, grams->high};
    if (is_salt && grams && !q.weighed() && r.weights.empty() && !r.ratio) {
        if (salt != nullptr && (m.vague || r.item.choices.size() > 1 || !m.bulk_density)) {
            line.notes.push_back(fmt::format("Taken as {}.", salt->name));
        } else if (m.vague) {
            line.notes.emplace_back("The grain is not said: counted from the lightest flake to the "
                                    "densest fine salt that may be meant.");
        }
    }
    if (grams &&
        (grams->low > heaviest || (std::isfinite(grams->high) && grams->high > heaviest))) {
        line.notes.emplace_back("So much cannot be meant: the number or the unit is a slip.");
        grams.reset();
    }
    line.grams = grams;
}

} // namespace jarful::appraise
