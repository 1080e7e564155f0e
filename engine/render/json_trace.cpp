#include "engine/render/json_parts.hpp"
#include "engine/render/trace_report.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

std::string_view key(plan::TraceNode::Sort sort) {
    using Sort = plan::TraceNode::Sort;
    switch (sort) {
    case Sort::quantity:
        return "quantity";
    case Sort::total:
        return "total";
    case Sort::house:
        return "house";
    case Sort::figure:
        return "figure";
    case Sort::literal:
        return "literal";
    }
    return "quantity";
}

/// Percentages are written 2.2, like everywhere; what is measured in g, mL, cm, s stays so.
Json value_json(const plan::TraceValue& v) {
    const double scale = v.percent ? 100 : 1;
    const units::Interval bounds{v.bounds.low * scale, v.bounds.high * scale};
    return Json{{"value", json_number(v.value * scale)},
                {"low", json_low(bounds)},
                {"high", json_high(bounds)},
                {"percent", v.percent},
                {"dimension", Json{{"mass", v.dimension.mass},
                                   {"length", v.dimension.length},
                                   {"time", v.dimension.time},
                                   {"temperature", v.dimension.temperature},
                                   {"count", v.dimension.count}}},
                {"sort", v.sort},
                {"text", v.text}};
}

Json line_json(const std::optional<plan::TraceLine>& line) {
    if (!line) return nullptr;
    Json out{{"number", line->number}, {"text", line->text}};
    if (!line->file.empty()) out["file"] = line->file;
    return out;
}

Json node_json(const plan::TraceNode& node, std::size_t index) {
    Json operations = Json::array();
    for (const plan::TraceOperation& op : node.operations) {
        operations.push_back(Json{{"words", op.words},
                                  {"figures", json_text(op.figures)},
                                  {"result", op.result},
                                  {"sort", op.sort}});
    }
    return Json{{"id", index},
                {"sort", key(node.sort)},
                {"name", node.name},
                {"what", json_text(node.what)},
                {"label", json_text(node.label)},
                {"value", value_json(node.value)},
                {"line", line_json(node.line)},
                {"how", json_text(node.how)},
                {"reading", json_text(node.reading)},
                {"operations", std::move(operations)},
                {"uses", node.uses},
                {"source", json_text(node.source)},
                {"status", json_text(node.status)}};
}

Json causes_json(const std::vector<plan::TraceCause>& causes, bool percent) {
    Json out = Json::array();
    for (const plan::TraceCause& cause : causes) {
        out.push_back(Json{{"label", cause.label},
                           {"low", json_text(cause.low)},
                           {"high", json_text(cause.high)},
                           {"width", json_number(cause.width * (percent ? 100 : 1))},
                           {"width_text", cause.width_text}});
    }
    return out;
}

} // namespace

std::string trace_json(const plan::Trace& trace) {
    Json document;
    document["format"] = "jarful.trace/1";
    document["recipe"] = trace.title;
    document["name"] = trace.name;
    const bool percent = !trace.nodes.empty() && trace.nodes.front().value.percent;
    document["value"] = trace.nodes.empty() ? Json(nullptr) : value_json(trace.nodes.front().value);
    document["line"] = trace.nodes.empty() ? Json(nullptr) : line_json(trace.nodes.front().line);
    Json nodes = Json::array();
    for (std::size_t i = 0; i < trace.nodes.size(); ++i)
        nodes.push_back(node_json(trace.nodes[i], i));
    document["nodes"] = std::move(nodes);
    Json sources = Json::array();
    for (const plan::TraceSource& s : trace.sources) {
        sources.push_back(Json{{"what", s.what},
                               {"figure", s.figure},
                               {"source", json_text(s.source)},
                               {"status", json_text(s.status)}});
    }
    document["sources"] = std::move(sources);
    document["causes"] = causes_json(trace.causes, percent);
    document["unweighed"] = nullptr;
    if (trace.unweighed) {
        Json unweighed = value_json(*trace.unweighed);
        unweighed["causes"] = causes_json(trace.unweighed_causes, false);
        document["unweighed"] = std::move(unweighed);
    }
    document["salt"] = trace.salt ? json_salt(*trace.salt) : Json(nullptr);
    return dumped(document);
}

} // namespace jarful::render
