#include "tests/bench/equivalent_json.hpp"

#include <nlohmann/json.hpp>

namespace jarful::bench {

namespace {

using namespace language;
using Json = nlohmann::ordered_json;

Json of(const units::Amount& amount) {
    Json out;
    out["value"] = amount.unit.size == 0 ? amount.value : amount.unit.from_base(amount.value);
    if (amount.low != amount.high) out["spread"] = amount.high - amount.low;
    if (amount.unit.size != 0) out["unit"] = amount.unit.text();
    return out;
}

const char* sign(NodeKind kind) {
    switch (kind) {
    case NodeKind::negate:
        return "minus";
    case NodeKind::power:
        return "power";
    case NodeKind::multiply:
        return "times";
    case NodeKind::divide:
        return "divided by";
    case NodeKind::of:
        return "of";
    case NodeKind::per:
        return "per";
    case NodeKind::add:
        return "plus";
    case NodeKind::subtract:
        return "less";
    default:
        return "other";
    }
}

Json of(const Expressions& pool, NodeId id) {
    if (id == no_node) return nullptr;
    const Node& node = pool[id];
    if (node.kind == NodeKind::amount) return of(pool.amounts[node.index]);
    if (node.kind == NodeKind::unit) return Json{{"unit", pool.units[node.index].text()}};
    if (node.kind == NodeKind::name) return pool.names[node.index];
    Json parts = Json::array();
    if (node.kind == NodeKind::call) {
        for (NodeId i = node.a; i < node.a + node.b; ++i)
            parts.push_back(of(pool, pool.arguments[i]));
        return Json{{"call", static_cast<int>(node.function)}, {"with", parts}};
    }
    for (const NodeId part : {node.a, node.b, node.c}) {
        if (part != no_node) parts.push_back(of(pool, part));
    }
    return Json{{sign(node.kind), parts}};
}

Json of(const Expressions& pool, const Template& text) {
    Json out = Json::array();
    for (const Template::Piece& piece : text.pieces) {
        if (piece.value == no_node) {
            out.push_back(piece.text);
        } else {
            out.push_back(Json{{"value", of(pool, piece.value)}});
        }
    }
    return out;
}

/// One statement's own fields.
class Fields {
  public:
    Fields(const Expressions& pool, Json& out)
        : pool_(pool)
        , out_(out) {}

    void operator()(const RecipeHeader& line) const {
        out_["title"] = line.title.value;
        if (line.version) out_["version"] = line.version->value;
    }
    void operator()(const KindLine& line) const {
        out_["kind"] = line.kind.value;
        if (line.method) out_["method"] = line.method->value;
    }
    void operator()(const RemarkLine& line) const { out_["text"] = line.text.value; }
    void operator()(const Quantity& line) const {
        out_["name"] = line.name.value;
        out_["value"] = of(pool_, line.value);
        if (line.tail.optional) out_["optional"] = true;
        if (line.tail.material) out_["as"] = line.tail.material->value;
        if (line.tail.role) out_["counts as"] = line.tail.role->value;
        if (line.tail.label) out_["label"] = line.tail.label->value;
    }
    void operator()(const FillLine& line) const { out_["value"] = of(pool_, line.value); }
    void operator()(const HeadspaceLine& line) const { out_["value"] = of(pool_, line.value); }
    void operator()(const TopUpLine& line) const { out_["value"] = of(pool_, line.value); }
    void operator()(const HoldLine& line) const {
        out_["value"] = of(pool_, line.value);
        out_["at least"] = of(pool_, line.at_least);
        out_["at most"] = of(pool_, line.at_most);
        if (line.why) out_["why"] = line.why->value;
    }
    void operator()(const StepLine& line) const { out_["text"] = of(pool_, line.text); }
    void operator()(const RestLine& line) const { out_["time"] = of(line.time.amount); }
    void operator()(const TendLine& line) const {
        out_["task"] = line.task.value;
        if (line.every) out_["every"] = of(line.every->amount);
        if (line.from_day) out_["from"] = line.from_day->value;
        if (line.to_day) out_["to"] = line.to_day->value;
        if (line.on_day) out_["on"] = line.on_day->value;
        if (line.text) out_["text"] = of(pool_, *line.text);
    }
    void operator()(const ReadyLine& line) const {
        out_["from"] = line.from_day.value;
        if (line.to_day) out_["to"] = line.to_day->value;
        if (line.from_temperature) out_["at least"] = of(line.from_temperature->amount);
        if (line.to_temperature) out_["at most"] = of(line.to_temperature->amount);
        if (line.text) out_["text"] = of(pool_, *line.text);
    }
    void operator()(const KeepLine& line) const {
        out_["where"] = line.where.value;
        out_["count"] = line.count.value;
        out_["period"] = static_cast<int>(line.period);
        if (line.text) out_["text"] = of(pool_, *line.text);
    }
    /// None of the recipes that are measured has another.
    template <class Other>
    void operator()(const Other&) const {
        throw std::logic_error("a statement that the JSON leaves out");
    }

  private:
    const Expressions& pool_;
    Json& out_;
};

} // namespace

std::string equivalent_json(const Document& document) {
    Json lines = Json::array();
    for (const Line& line : document.lines) {
        Json one;
        const std::string_view text = document.source.text();
        one["statement"] = text.substr(line.keyword.begin, line.keyword.end - line.keyword.begin);
        std::visit(Fields(document.expressions, one), line.statement);
        lines.push_back(std::move(one));
    }
    return Json{{"lines", lines}}.dump();
}

} // namespace jarful::bench
