#include "engine/render/trace_report.hpp"

namespace jarful::render {

namespace {

/// A quoted string of the DOT language: there `"` is the one character that must be escaped, and a
/// backslash begins an escape in labels, so it is doubled. Parts are set on lines of their own.
std::string quoted(std::initializer_list<std::string_view> parts) {
    std::string out = "\"";
    bool first = true;
    for (const std::string_view part : parts) {
        if (part.empty()) continue;
        if (!first) out += "\\n";
        first = false;
        for (const char c : visible(part)) {
            if (c == '"' || c == '\\') out += '\\';
            out += c;
        }
    }
    return out + "\"";
}

std::string_view shape(plan::TraceNode::Sort sort) {
    using Sort = plan::TraceNode::Sort;
    switch (sort) {
    case Sort::total:
        return "hexagon";
    case Sort::house:
    case Sort::figure:
        return "ellipse";
    case Sort::literal:
        return "plaintext";
    case Sort::quantity:
        break;
    }
    return "box";
}

} // namespace

std::string trace_dot(const plan::Trace& trace) {
    std::string out = "digraph trace {\n";
    out += "  label=" + quoted({trace.title + ": " + trace.name}) + ";\n";
    out += "  rankdir=BT;\n  node [fontname=\"sans-serif\"];\n";
    for (std::size_t i = 0; i < trace.nodes.size(); ++i) {
        const plan::TraceNode& node = trace.nodes[i];
        const bool literal = node.sort == plan::TraceNode::Sort::literal;
        const std::string line = node.line
                                     ? "line " + std::to_string(node.line->number) +
                                           (node.line->file.empty() ? "" : " of " + node.line->file)
                                     : "";
        out += "  n" + std::to_string(i) + " [shape=" + std::string(shape(node.sort)) +
               ", label=" + quoted({node.name, literal ? "" : node.value.text, line}) +
               (i == 0 ? ", penwidth=2" : "") + "];\n";
    }
    for (std::size_t i = 0; i < trace.nodes.size(); ++i)
        for (const std::size_t used : trace.nodes[i].uses)
            out += "  n" + std::to_string(used) + " -> n" + std::to_string(i) + ";\n";
    return out + "}\n";
}

} // namespace jarful::render
