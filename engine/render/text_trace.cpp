#include "engine/render/text_parts.hpp"
#include "engine/render/trace_report.hpp"
#include "engine/render/words.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

using plan::Trace;
using plan::TraceNode;

constexpr std::size_t most_operations = 24; ///< of one line; a list of hundreds helps nobody
constexpr std::size_t brief_causes = 3;     ///< on a brief page
constexpr int most_indent = 40;             ///< from there on the tree goes straight down

/// "42 g", "42 g, 41.85 to 42.15 g".
std::string value_words(const plan::TraceValue& value) {
    if (value.bounds.point() || value.low_text == value.high_text) return value.text;
    return value.text + " (" + value.low_text + " to " + value.high_text + ")";
}

/// "line 7", "line 7 of base.jarful".
std::string line_place(const plan::TraceLine& line) {
    return "line " + std::to_string(line.number) +
           (line.file.empty() ? "" : " of " + visible(line.file));
}

std::string line_words(const plan::TraceLine& line) {
    return line_place(line) + ": " + visible(line.text);
}

std::string operation_words(const plan::TraceOperation& op) {
    std::string words = op.words;
    if (!op.figures.empty() && op.figures != op.words) words += " = " + op.figures;
    return words + " = " + op.result;
}

/// What stands behind the name: "42 g, a weight; weighed as fine sea salt".
std::string about(const TraceNode& node) {
    if (node.sort == TraceNode::Sort::literal) return node.value.sort + ", as written";
    std::string words = node.value.text + ", " + node.value.sort;
    if (!node.what.empty()) words += "; " + node.what;
    if (!node.how.empty()) words += "; " + node.how;
    return words;
}

class Tree {
  public:
    Tree(Page& page, const Trace& trace)
        : page_(page)
        , trace_(trace)
        , shown_(trace.nodes.size(), false) {}

    /// Without recursion: a recipe may be a chain of thousands of lines.
    void print() {
        std::vector<std::pair<std::size_t, int>> open{{0, 0}};
        while (!open.empty()) {
            const auto [index, depth] = open.back();
            open.pop_back();
            const TraceNode& node = trace_.nodes[index];
            const int indent = std::min(2 + 3 * depth, most_indent);
            const std::string name = depth == 0 ? node.name : "- " + node.name;
            if (shown_[index]) {
                page_.paragraph(name + ": " + node.value.text + ", shown above", indent,
                                indent + 2);
                continue;
            }
            shown_[index] = true;
            page_.paragraph(name + ": " + about(node), indent, indent + 2, depth == 0);
            if (depth > 0) details(node, indent + 2);
            // The first used comes first.
            for (std::size_t i = node.uses.size(); i-- > 0;)
                open.emplace_back(node.uses[i], depth + 1);
        }
    }

  private:
    void details(const TraceNode& node, int indent) {
        if (node.sort == TraceNode::Sort::literal) return;
        if (node.line) page_.paragraph(line_words(*node.line), indent, indent + 2);
        print_operations(page_, node, indent);
        if (!node.reading.empty())
            page_.paragraph("read as " + visible(node.reading), indent, indent + 2);
        if (node.sort == TraceNode::Sort::figure) {
            page_.paragraph("from " + node.value.low_text + " to " + node.value.high_text, indent,
                            indent + 2);
        }
    }

  public:
    static void print_operations(Page& page, const TraceNode& node, int indent) {
        std::size_t count = 0;
        for (const plan::TraceOperation& op : node.operations) {
            if (++count > most_operations) {
                page.paragraph("and " + std::to_string(node.operations.size() - most_operations) +
                                   " more steps; --json has them all",
                               indent, indent + 2);
                return;
            }
            page.paragraph(operation_words(op), indent, indent + 2);
        }
    }

  private:
    Page& page_;
    const Trace& trace_;
    std::vector<bool> shown_;
};

void print_causes(Page& page, const std::vector<plan::TraceCause>& causes, std::size_t most) {
    std::size_t count = 0;
    for (const plan::TraceCause& cause : causes) {
        if (++count > most) {
            page.paragraph("and " + std::to_string(causes.size() - most) + " smaller ones", 4, 6);
            return;
        }
        std::string words = cause.label;
        if (!cause.low.empty()) words += ", " + cause.low + " to " + cause.high;
        page.row({{.text = cause.width_text, .width = 26}, {.text = words, .width = 46}}, 4);
    }
}

void print_head(Page& page, const Trace& trace) {
    const TraceNode& root = trace.nodes.front();
    page.paragraph(root.name + " = " + value_words(root.value), 0, 2, true);
    std::string words = root.value.sort;
    if (!root.what.empty()) words += "; " + root.what;
    if (!root.how.empty()) words += "; " + root.how;
    page.paragraph(stopped(capital(words)));
    if (!root.label.empty()) page.paragraph("\"" + root.label + "\"");
    if (root.line) {
        // As it is written, where that fits.
        const std::string line = "  " + line_place(*root.line) + ":  " + visible(root.line->text);
        if (columns(line) <= page.width())
            page.raw(line);
        else
            page.paragraph(line_words(*root.line), 2, 4);
    }
    if (!root.reading.empty()) page.paragraph("Read as " + root.reading + ".");
}

void print_verdict(Page& page, const Trace& trace) {
    if (!trace.salt) return;
    page.paragraph(stopped(capital(salt_in_short(*trace.salt))));
    if (!trace.salt->why.empty()) page.paragraph(trace.salt->why);
}

/// What makes it unsure; on a brief page the widest causes.
void print_unsure(Page& page, const Trace& trace) {
    const plan::TraceValue& value = trace.nodes.front().value;
    const std::size_t most = page.brief() ? brief_causes : 12;
    page.heading("WHAT MAKES IT UNCERTAIN");
    if (trace.causes.empty()) page.paragraph("Nothing: it is exact.");
    if (!trace.causes.empty()) {
        page.paragraph("It may be " + value.low_text + " to " + value.high_text +
                       ". Each cause alone makes up at most this much of that, widest first:");
        print_causes(page, trace.causes, most);
    }
    if (trace.unweighed) {
        page.paragraph("Measured as it is written and not weighed it may be " +
                       trace.unweighed->low_text + " to " + trace.unweighed->high_text + ":");
        print_causes(page, trace.unweighed_causes, most);
    }
}

void print_sources(Page& page, const Trace& trace) {
    if (trace.sources.empty()) return;
    page.heading("SOURCES");
    for (const plan::TraceSource& s : trace.sources) {
        std::string words = s.what + ": " + s.figure + ". " + stopped(s.source);
        const bool said =
            s.source.starts_with("common practice") && s.status.starts_with("common practice");
        if (!s.status.empty() && !said) words += " " + stopped(capital(s.status));
        page.paragraph(words, 2, 4);
    }
}

} // namespace

std::string trace_text(const plan::Trace& trace, const TextStyle& style) {
    Page page(style);
    if (trace.nodes.empty()) return page.text();
    const TraceNode& root = trace.nodes.front();
    print_head(page, trace);
    print_verdict(page, trace);
    if (!root.operations.empty()) {
        page.heading("STEP BY STEP");
        Tree::print_operations(page, root, 2);
    }
    print_unsure(page, trace);
    Page tree(style);
    tree.heading("WHAT IT COMES FROM");
    Tree(tree, trace).print();
    page.part("what it comes from, line by line", tree, 1);
    Page sources(style);
    print_sources(sources, trace);
    page.part("sources", sources, 1);
    page.more(trace.causes.size() > brief_causes ? "every cause" : "");
    return page.text();
}

std::string trace_in_short(const plan::Trace& trace, const TextStyle& style) {
    Page page(style);
    if (trace.nodes.empty()) return page.text();
    print_head(page, trace);
    print_verdict(page, trace);
    Tree::print_operations(page, trace.nodes.front(), 2);
    if (!trace.causes.empty()) {
        page.paragraph("Unsure by:");
        print_causes(page, trace.causes, 3);
    }
    return page.text();
}

} // namespace jarful::render
