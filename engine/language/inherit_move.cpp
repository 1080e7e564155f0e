#include "engine/language/inherit_move.hpp"

namespace jarful::language {

namespace {

/// Moves the places and nodes of a statement.
class Mover {
  public:
    explicit Mover(const Shift& shift)
        : shift_(shift) {}

    void place(Place& p) const {
        if (p == Place{}) return; // not said
        p.begin += shift_.text;
        p.end += shift_.text;
    }
    void node(NodeId& id) const {
        if (id != no_node) id += shift_.nodes;
    }
    void piece(Word& w) const { place(w.place); }
    void piece(Text& t) const { place(t.place); }
    void piece(Literal& l) const { place(l.place); }
    void piece(Whole& w) const { place(w.place); }
    void piece(Day& d) const { place(d.place); }
    void piece(Template& t) const {
        place(t.place);
        for (Template::Piece& p : t.pieces) {
            place(p.place);
            node(p.value);
        }
    }
    template <class T>
    void piece(std::optional<T>& t) const {
        if (t) piece(*t);
    }
    void piece(Tail& t) const {
        place(t.fate);
        all(t.keeps, t.material, t.role, t.label);
    }
    template <class... T>
    void all(T&... pieces) const {
        (piece(pieces), ...);
    }

    void operator()(LanguageLine& s) const { piece(s.version); }
    void operator()(RecipeHeader& s) const { all(s.title, s.version); }
    void operator()(KitchenHeader& s) const { piece(s.name); }
    void operator()(HouseHeader& s) const { piece(s.name); }
    void operator()(RangeLine& s) const { all(s.kind, s.method, s.basis, s.low, s.high, s.reason); }
    void operator()(KindLine& s) const { all(s.kind, s.method); }
    void operator()(RemarkLine& s) const { piece(s.text); }
    void operator()(BasedOnLine& s) const { piece(s.base); }
    void operator()(WithoutLine& s) const { piece(s.name); }
    void operator()(MaterialLine& s) const {
        all(s.name, s.role, s.density, s.salt, s.water, s.piece, s.source);
    }
    void operator()(Quantity& s) const {
        node(s.value);
        all(s.name, s.about, s.about_of, s.replaces, s.tail);
    }
    void operator()(BrineLine& s) const {
        node(s.strength);
        node(s.make);
        all(s.name, s.material, s.label);
    }
    void operator()(FillLine& s) const { node(s.value); }
    void operator()(HeadspaceLine& s) const { node(s.value); }
    void operator()(TopUpLine& s) const {
        node(s.value);
        piece(s.material);
    }
    void operator()(HoldLine& s) const {
        node(s.value);
        node(s.at_least);
        node(s.at_most);
        piece(s.why);
        place(s.value_place);
    }
    void operator()(StepLine& s) const { piece(s.text); }
    void operator()(RestLine& s) const { all(s.time, s.text); }
    void operator()(TendLine& s) const {
        all(s.task, s.every, s.from_day, s.to_day, s.on_day, s.text);
    }
    void operator()(ReadyLine& s) const {
        all(s.from_day, s.to_day, s.from_temperature, s.to_temperature, s.text);
    }
    void operator()(KeepLine& s) const { all(s.where, s.count, s.text); }
    void operator()(ScaleLine& s) const { all(s.name, s.step, s.capacity, s.tolerance); }
    void operator()(VesselLine& s) const {
        all(s.name, s.brimful, s.across, s.section, s.weights, s.have);
    }
    void operator()(BatchHeader& s) const { all(s.title, s.recipe, s.revision); }
    void operator()(BegunLine& s) const { piece(s.day); }
    void operator()(LeftOutLine& s) const { piece(s.name); }
    void operator()(InVesselLine& s) const { piece(s.name); }
    void operator()(PlannedLine& s) const { all(s.name, s.amount); }
    void operator()(WeighedLine& s) const { all(s.name, s.amount, s.day); }
    void operator()(NotedLine& s) const {
        all(s.day, s.ph, s.temperature, s.filled, s.text);
        for (Word& word : s.did)
            piece(word);
    }
    void operator()(CorrectedLine& s) const {
        all(s.day, s.of, s.name, s.before, s.after, s.deed_before, s.deed_after, s.text_before,
            s.text_after, s.why);
    }
    void operator()(SpoonsLine&) const {}
    void operator()(UnitsLine&) const {}
    void operator()(RoomLine& s) const { piece(s.temperature); }

  private:
    const Shift& shift_;
};

std::uint32_t size_of(const auto& list) {
    return static_cast<std::uint32_t>(list.size());
}

} // namespace

Shift append(Document& into, const Document& other) {
    Expressions& pool = into.expressions;
    const Shift shift{into.source.append(other.source),
                      size_of(pool.nodes),
                      size_of(pool.amounts),
                      size_of(pool.units),
                      size_of(pool.names),
                      size_of(pool.arguments)};
    const Mover mover(shift);
    for (Node node : other.expressions.nodes) {
        mover.place(node.place);
        mover.place(node.sign);
        mover.node(node.c);
        switch (node.kind) {
        case NodeKind::amount:
            node.index += shift.amounts;
            break;
        case NodeKind::unit:
            node.index += shift.units;
            break;
        case NodeKind::name:
            node.index += shift.names;
            break;
        case NodeKind::call: // a and b say where the arguments stand and how many there are
            node.a += shift.arguments;
            break;
        default:
            mover.node(node.a);
            mover.node(node.b);
            break;
        }
        pool.nodes.push_back(node);
    }
    const Expressions& more = other.expressions;
    pool.amounts.insert(pool.amounts.end(), more.amounts.begin(), more.amounts.end());
    pool.units.insert(pool.units.end(), more.units.begin(), more.units.end());
    pool.names.insert(pool.names.end(), more.names.begin(), more.names.end());
    for (const NodeId argument : more.arguments)
        pool.arguments.push_back(argument + shift.nodes);
    return shift;
}

Place moved(Place place, const Shift& shift) {
    Mover(shift).place(place);
    return place;
}

Line moved(Line line, const Shift& shift) {
    const Mover mover(shift);
    mover.place(line.place);
    mover.place(line.keyword);
    std::visit(mover, line.statement);
    return line;
}

} // namespace jarful::language
