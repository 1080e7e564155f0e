#include "engine/language/tidy.hpp"

#include <algorithm>
#include <type_traits>

/// Whether two trees are the same but for their places.
namespace jarful::language {

namespace {

bool same_numbers(const units::Amount::Measured& a, const units::Amount::Measured& b) {
    return a.value == b.value && a.low == b.low && a.high == b.high;
}

bool same(const units::Amount& a, const units::Amount& b) {
    return a.value == b.value && a.low == b.low && a.high == b.high && a.dimension == b.dimension &&
           a.unit == b.unit && a.percent == b.percent && a.plain_number == b.plain_number &&
           a.fraction == b.fraction && a.range == b.range && a.uncertain == b.uncertain &&
           a.temperature_point == b.temperature_point && a.difference == b.difference &&
           a.bare_measure == b.bare_measure && same_numbers(a.metric, b.metric) &&
           same_numbers(a.imperial, b.imperial);
}

bool same(const Word& a, const Word& b) {
    return a.value == b.value;
}
bool same(const Text& a, const Text& b) {
    return a.value == b.value;
}
bool same(const Literal& a, const Literal& b) {
    return same(a.amount, b.amount);
}
bool same(const Whole& a, const Whole& b) {
    return a.value == b.value;
}

bool same(const Day& a, const Day& b) {
    return a.year == b.year && a.month == b.month && a.day == b.day;
}

template <class T>
bool same(const std::optional<T>& a, const std::optional<T>& b) {
    return a.has_value() == b.has_value() && (!a || same(*a, *b));
}

bool same(const Tail& a, const Tail& b) {
    return a.optional == b.optional && a.discarded == b.discarded && same(a.keeps, b.keeps) &&
           same(a.material, b.material) && same(a.role, b.role) && same(a.label, b.label);
}

/// Compares statements with the expressions that they point to.
class Comparison {
  public:
    Comparison(const Expressions& a, const Expressions& b)
        : a_(a)
        , b_(b) {}

    [[nodiscard]] bool node(NodeId x, NodeId y) const {
        if (x == no_node || y == no_node) return x == y;
        const Node& p = a_[x];
        const Node& q = b_[y];
        if (p.kind != q.kind) return false;
        switch (p.kind) {
        case NodeKind::amount:
            return same(a_.amounts[p.index], b_.amounts[q.index]);
        case NodeKind::unit:
            return a_.units[p.index] == b_.units[q.index];
        case NodeKind::name:
            return a_.names[p.index] == b_.names[q.index];
        case NodeKind::call:
            if (p.function != q.function || p.b != q.b) return false;
            for (NodeId i = 0; i < p.b; ++i)
                if (!node(a_.arguments[p.a + i], b_.arguments[q.a + i])) return false;
            return true;
        default:
            return node(p.a, q.a) && node(p.b, q.b) && node(p.c, q.c);
        }
    }

    [[nodiscard]] bool text(const Template& x, const Template& y) const {
        return std::equal(x.pieces.begin(), x.pieces.end(), y.pieces.begin(), y.pieces.end(),
                          [&](const Template::Piece& p, const Template::Piece& q) {
                              return p.text == q.text && node(p.value, q.value);
                          });
    }
    [[nodiscard]] bool text(const std::optional<Template>& x,
                            const std::optional<Template>& y) const {
        return x.has_value() == y.has_value() && (!x || text(*x, *y));
    }

    bool operator()(const BatchHeader& x, const BatchHeader& y) const {
        return same(x.title, y.title) && same(x.recipe, y.recipe) && same(x.revision, y.revision);
    }
    bool operator()(const BegunLine& x, const BegunLine& y) const { return same(x.day, y.day); }
    bool operator()(const LeftOutLine& x, const LeftOutLine& y) const {
        return same(x.name, y.name);
    }
    bool operator()(const InVesselLine& x, const InVesselLine& y) const {
        return same(x.name, y.name);
    }
    bool operator()(const PlannedLine& x, const PlannedLine& y) const {
        return same(x.name, y.name) && same(x.amount, y.amount);
    }
    bool operator()(const WeighedLine& x, const WeighedLine& y) const {
        return same(x.name, y.name) && same(x.amount, y.amount) && same(x.day, y.day);
    }
    bool operator()(const NotedLine& x, const NotedLine& y) const {
        return same(x.day, y.day) && same(x.ph, y.ph) && same(x.temperature, y.temperature) &&
               same(x.filled, y.filled) && same(x.text, y.text) &&
               std::equal(x.did.begin(), x.did.end(), y.did.begin(), y.did.end(),
                          [](const Word& a, const Word& b) { return same(a, b); });
    }
    bool operator()(const CorrectedLine& x, const CorrectedLine& y) const {
        return same(x.day, y.day) && same(x.of, y.of) && x.what == y.what &&
               x.nothing == y.nothing && same(x.name, y.name) && same(x.before, y.before) &&
               same(x.after, y.after) && same(x.deed_before, y.deed_before) &&
               same(x.deed_after, y.deed_after) && same(x.text_before, y.text_before) &&
               same(x.text_after, y.text_after) && same(x.why, y.why);
    }
    bool operator()(const LanguageLine& x, const LanguageLine& y) const {
        return same(x.version, y.version);
    }
    bool operator()(const RecipeHeader& x, const RecipeHeader& y) const {
        return same(x.title, y.title) && same(x.version, y.version);
    }
    bool operator()(const KitchenHeader& x, const KitchenHeader& y) const {
        return same(x.name, y.name);
    }
    bool operator()(const HouseHeader& x, const HouseHeader& y) const {
        return same(x.name, y.name);
    }
    bool operator()(const RangeLine& x, const RangeLine& y) const {
        return same(x.kind, y.kind) && same(x.method, y.method) && same(x.basis, y.basis) &&
               same(x.low, y.low) && same(x.high, y.high) && same(x.reason, y.reason);
    }
    bool operator()(const KindLine& x, const KindLine& y) const {
        return same(x.kind, y.kind) && same(x.method, y.method);
    }
    bool operator()(const RemarkLine& x, const RemarkLine& y) const {
        return x.sort == y.sort && same(x.text, y.text);
    }
    bool operator()(const BasedOnLine& x, const BasedOnLine& y) const {
        return same(x.base, y.base);
    }
    bool operator()(const WithoutLine& x, const WithoutLine& y) const {
        return same(x.name, y.name);
    }
    bool operator()(const MaterialLine& x, const MaterialLine& y) const {
        return same(x.name, y.name) && same(x.role, y.role) && same(x.density, y.density) &&
               same(x.salt, y.salt) && same(x.water, y.water) && same(x.piece, y.piece) &&
               same(x.source, y.source);
    }
    bool operator()(const Quantity& x, const Quantity& y) const {
        return x.word == y.word && same(x.name, y.name) && node(x.value, y.value) &&
               x.each_jar == y.each_jar && same(x.about, y.about) && same(x.about_of, y.about_of) &&
               same(x.replaces, y.replaces) && same(x.tail, y.tail);
    }
    bool operator()(const BrineLine& x, const BrineLine& y) const {
        return same(x.name, y.name) && node(x.strength, y.strength) && x.of_water == y.of_water &&
               node(x.make, y.make) && same(x.material, y.material) && same(x.label, y.label);
    }
    bool operator()(const FillLine& x, const FillLine& y) const { return node(x.value, y.value); }
    bool operator()(const HeadspaceLine& x, const HeadspaceLine& y) const {
        return node(x.value, y.value);
    }
    bool operator()(const TopUpLine& x, const TopUpLine& y) const {
        return node(x.value, y.value) && same(x.material, y.material);
    }
    bool operator()(const HoldLine& x, const HoldLine& y) const {
        return node(x.value, y.value) && node(x.at_least, y.at_least) &&
               node(x.at_most, y.at_most) && same(x.why, y.why);
    }
    bool operator()(const StepLine& x, const StepLine& y) const { return text(x.text, y.text); }
    bool operator()(const RestLine& x, const RestLine& y) const {
        return same(x.time, y.time) && text(x.text, y.text);
    }
    bool operator()(const TendLine& x, const TendLine& y) const {
        return same(x.task, y.task) && same(x.every, y.every) && same(x.from_day, y.from_day) &&
               same(x.to_day, y.to_day) && same(x.on_day, y.on_day) && text(x.text, y.text);
    }
    bool operator()(const ReadyLine& x, const ReadyLine& y) const {
        return same(x.from_day, y.from_day) && same(x.to_day, y.to_day) &&
               same(x.from_temperature, y.from_temperature) &&
               same(x.to_temperature, y.to_temperature) && text(x.text, y.text);
    }
    bool operator()(const KeepLine& x, const KeepLine& y) const {
        return same(x.where, y.where) && same(x.count, y.count) && x.period == y.period &&
               text(x.text, y.text);
    }
    bool operator()(const ScaleLine& x, const ScaleLine& y) const {
        return same(x.name, y.name) && same(x.step, y.step) && same(x.capacity, y.capacity) &&
               same(x.tolerance, y.tolerance) && same(x.bowl, y.bowl) && same(x.use, y.use);
    }
    bool operator()(const VesselLine& x, const VesselLine& y) const {
        return x.crock == y.crock && same(x.name, y.name) && same(x.brimful, y.brimful) &&
               same(x.across, y.across) && same(x.section, y.section) &&
               same(x.weights, y.weights) && same(x.have, y.have);
    }
    bool operator()(const SpoonsLine& x, const SpoonsLine& y) const { return x.spoons == y.spoons; }
    bool operator()(const UnitsLine& x, const UnitsLine& y) const { return x.system == y.system; }
    bool operator()(const RoomLine& x, const RoomLine& y) const {
        return same(x.temperature, y.temperature);
    }

  private:
    const Expressions& a_;
    const Expressions& b_;
};

} // namespace

bool same_expression(const Expressions& a, NodeId x, const Expressions& b, NodeId y) {
    return Comparison(a, b).node(x, y);
}

bool same_meaning(const Document& a, const Document& b) {
    if (a.kind != b.kind || a.lines.size() != b.lines.size()) return false;
    const Comparison comparison(a.expressions, b.expressions);
    return std::equal(a.lines.begin(), a.lines.end(), b.lines.begin(),
                      [&](const Line& x, const Line& y) {
                          return std::visit(
                              [&](const auto& p) {
                                  using S = std::decay_t<decltype(p)>;
                                  const S* q = std::get_if<S>(&y.statement);
                                  return q != nullptr && comparison(p, *q);
                              },
                              x.statement);
                      });
}

} // namespace jarful::language
