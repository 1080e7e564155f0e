#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"
#include "engine/render/trace_report.hpp"

namespace jarful::fields {

namespace {

// ---- Values. ----

using units::Dimension;
constexpr auto dimension_fields = fields<Dimension>({
    {"mass", whole<&Dimension::mass>, "Its exponent."},
    {"length", whole<&Dimension::length>, "Its exponent."},
    {"time", whole<&Dimension::time>, "Its exponent."},
    {"temperature", whole<&Dimension::temperature>, "Its exponent."},
    {"count", whole<&Dimension::count>, "Its exponent."},
});
constexpr Shape<Dimension> dimension{"dimension", "Exponents; a volume has length 3.",
                                     table<dimension_fields>};

using plan::TraceValue;
/// Percentages are written 2.2, like everywhere; what is measured in g, mL, cm, s stays so.
double scale_of(const TraceValue& v) {
    return v.percent ? 100 : 1;
}
double scaled(const TraceValue& v) {
    return v.value * scale_of(v);
}
units::Interval scaled_bounds(const TraceValue& v) {
    return {v.bounds.low * scale_of(v), v.bounds.high * scale_of(v)};
}
constexpr auto value_fields = fields<TraceValue>({
    {"value", maybe(number<scaled>),
     "In g, mL, cm, s, K or a product of these as `dimension` says; a ratio as it is, unless "
     "`percent`."},
    {"low", low<scaled_bounds>,
     "What the truth is at least; null where it has no bound, and for what is very far down in a "
     "recipe of hundreds of lines."},
    {"high", high<scaled_bounds>, "What the truth is at most."},
    {"percent", flag<&TraceValue::percent>, "Whether the three figures are written 2.2 for 2.2 %."},
    {"dimension", object<dimension, &TraceValue::dimension>},
    {"sort", text<&TraceValue::sort>, "In words: a weight, a volume, …"},
    {"text", text<&TraceValue::text>, "In a unit that fits."},
});
constexpr Shape<TraceValue> value{"trace_value", "A value and what it is.", table<value_fields>};

using plan::TraceLine;
constexpr auto line_fields = fields<TraceLine>({
    {"number", at_least(1, whole<&TraceLine::number>), "From 1."},
    {"text", text<&TraceLine::text>, "The line without the blanks at its ends."},
    {"file", sometimes(text<&TraceLine::file>),
     "The file that the line stands in, where it is an inherited one."},
});
constexpr Shape<TraceLine> line{"trace_line", "A line of the recipe.", table<line_fields>};

/// With the unit of the value that it is a cause of.
struct Cause {
    const plan::TraceCause* cause;
    bool percent;
};
using plan::TraceCause;
template <auto member>
inline constexpr auto of_cause = through<&Cause::cause, member>;
double width(const Cause& one) {
    return one.cause->width * (one.percent ? 100 : 1);
}
constexpr auto cause_fields = fields<Cause>({
    {"label", text<of_cause<&TraceCause::label>>,
     "The weighing of something, a figure of the larder, what is stated."},
    {"low", maybe(text<of_cause<&TraceCause::low>>),
     "What the cause itself may be at least, in words."},
    {"high", maybe(text<of_cause<&TraceCause::high>>), "At most."},
    {"width", maybe(number<width>),
     "The most that this cause alone moves the value; in the unit of the value, percentage points "
     "where that is in percent."},
    {"width_text", text<of_cause<&TraceCause::width_text>>, "The same in words."},
});
constexpr Shape<Cause> cause_shape{"trace_cause", "One cause of the width of a value.",
                                   table<cause_fields>};
std::vector<Cause> causes_of(const std::vector<TraceCause>& causes, bool percent) {
    std::vector<Cause> out;
    for (const TraceCause& one : causes)
        out.push_back({&one, percent});
    return out;
}

// ---- What it is made of. ----

using plan::TraceOperation;
constexpr auto operation_fields = fields<TraceOperation>({
    {"words", text<&TraceOperation::words>, "With names."},
    {"figures", maybe(text<&TraceOperation::figures>), "With values and their units."},
    {"result", text<&TraceOperation::result>, "What it comes to."},
    {"sort", text<&TraceOperation::sort>, "In words: a weight, a volume, …"},
});
constexpr Shape<TraceOperation> operation{"trace_operation", "One operation.",
                                          table<operation_fields>};

using plan::TraceNode;
using NodeSort = TraceNode::Sort;
std::string_view node_word(NodeSort sort) {
    switch (sort) {
    case NodeSort::quantity:
        return "quantity";
    case NodeSort::total:
        return "total";
    case NodeSort::house:
        return "house";
    case NodeSort::figure:
        return "figure";
    case NodeSort::literal:
        return "literal";
    }
    return "quantity";
}
constexpr auto node_words =
    one_of<NodeSort>(node_word, {NodeSort::quantity, NodeSort::total, NodeSort::house,
                                 NodeSort::figure, NodeSort::literal});
struct Numbered {
    std::size_t id;
    const TraceNode* node;
};
template <auto member>
inline constexpr auto of_node = through<&Numbered::node, member>;
constexpr auto node_fields = fields<Numbered>({
    {"id", how_many<&Numbered::id>, "Its place in the list; `uses` refers to it."},
    {"sort", choice<node_words, of_node<&TraceNode::sort>>,
     "A line of the recipe; a name that is always there; a constant of the kitchen; a figure that "
     "is not known exactly; a number as written in a line."},
    {"name", text<of_node<&TraceNode::name>>, "Of a literal: the text of the recipe."},
    {"what", maybe(text<of_node<&TraceNode::what>>),
     "What it is: given, weighed as …, working value."},
    {"label", maybe(text<of_node<&TraceNode::label>>), "The text behind the line."},
    {"value", object<value, of_node<&TraceNode::value>>},
    {"line", maybe(object<line, of_node<&TraceNode::line>>), "Null where none says it."},
    {"how", maybe(text<of_node<&TraceNode::how>>),
     "If it does not come from its line: set to 1.84 kg, worked out backwards from …, left out."},
    {"reading", maybe(text<of_node<&TraceNode::reading>>), "What the scale shows."},
    {"operations", list<operation, of_node<&TraceNode::operations>>, "Step by step."},
    {"uses", as<ListSort<CountSort>, of_node<&TraceNode::uses>>, "What it is made of."},
    {"source", maybe(text<of_node<&TraceNode::source>>),
     "Of a figure: document, publisher, year, section."},
    {"status", maybe(text<of_node<&TraceNode::status>>),
     "Of a figure: published, common practice, …"},
});
constexpr Shape<Numbered> node_shape{"trace_node", "One thing that the value is made of.",
                                     table<node_fields>};

using plan::TraceSource;
constexpr auto source_fields = fields<TraceSource>({
    {"what", text<&TraceSource::what>, "A figure, a measure, a constant."},
    {"figure", text<&TraceSource::figure>, "What it is."},
    {"source", maybe(text<&TraceSource::source>), "Document, publisher, year, section."},
    {"status", maybe(text<&TraceSource::status>), "published, by definition, of the house, …"},
});
constexpr Shape<TraceSource> source{"trace_source", "Where a constant comes from.",
                                    table<source_fields>};

// ---- The whole. ----

using plan::Trace;
const TraceNode* traced(const Trace& trace) {
    return trace.nodes.empty() ? nullptr : &trace.nodes.front();
}
const TraceValue* value_of_it(const Trace& trace) {
    const TraceNode* node = traced(trace);
    return node == nullptr ? nullptr : &node->value;
}
const TraceLine* line_of_it(const Trace& trace) {
    const TraceNode* node = traced(trace);
    return node != nullptr && node->line ? &*node->line : nullptr;
}
std::vector<Numbered> nodes(const Trace& trace) {
    std::vector<Numbered> out;
    for (std::size_t i = 0; i < trace.nodes.size(); ++i)
        out.push_back({i, &trace.nodes[i]});
    return out;
}
std::vector<Cause> causes(const Trace& trace) {
    const TraceNode* node = traced(trace);
    return causes_of(trace.causes, node != nullptr && node->value.percent);
}
const TraceValue& unweighed_value(const Trace& trace) {
    return *trace.unweighed;
}
std::vector<Cause> unweighed_causes(const Trace& trace) {
    return causes_of(trace.unweighed_causes, false);
}
constexpr auto unweighed_fields = fields<Trace>({
    parts<value, unweighed_value>,
    {"causes", list<cause_shape, unweighed_causes>, "What makes that unsure."},
});
constexpr Shape<Trace> unweighed{"trace_unweighed", "What a value may be if it is not weighed.",
                                 table<unweighed_fields>};
const Trace* with_unweighed(const Trace& trace) {
    return trace.unweighed ? &trace : nullptr;
}
constexpr auto trace_fields = fields<Trace>({
    {"recipe", text<&Trace::title>, "The recipe's title."},
    {"name", text<&Trace::name>,
     "What was traced; `verdict` is the salt on the basis that its range is stated on."},
    {"value", sure(object<value, value_of_it>)},
    {"line", maybe(object<line, line_of_it>), "Null where none says it."},
    {"nodes", at_least(1, list<node_shape, nodes>),
     "What was traced first, then what it is made of, each thing once."},
    {"sources", list<source, &Trace::sources>, "Where its constants come from."},
    {"causes", list<cause_shape, causes>, "What makes the value unsure, widest first."},
    {"unweighed", maybe(object<unweighed, with_unweighed>),
     "For a line written in spoons, or with a spread: what it may be if it is measured as written "
     "and not weighed."},
    {"salt", maybe(object<salt, &Trace::salt>), "Of `verdict`: the judgement."},
});
constexpr Shape<Trace> trace_shape{"trace", "Where a value comes from.", table<trace_fields>};

} // namespace

constexpr Result trace_result{"trace", "jarful.trace/1",
                              "The answer of `jarful trace --json`: where a value comes from.",
                              trace_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string trace_json(const plan::Trace& trace) {
    return fields::document(fields::trace_result, fields::trace_shape, trace);
}

} // namespace jarful::render
