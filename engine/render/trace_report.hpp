#pragma once

#include "engine/plan/trace.hpp"
#include "engine/render/page.hpp"

#include <string>

/// Where a value comes from.
namespace jarful::render {

/// The value, its line, its tree down to what is given, the sources, and what makes it unsure.
[[nodiscard]] std::string trace_text(const plan::Trace& trace, const TextStyle& style);
/// The same in a few lines: value, line, operations and the widest causes.
[[nodiscard]] std::string trace_in_short(const plan::Trace& trace, const TextStyle& style);
/// Format "jarful.trace/1"; described in docs/schemas/trace.json.
[[nodiscard]] std::string trace_json(const plan::Trace& trace);
/// The graph of what depends on what, in the DOT language of Graphviz: an arrow goes from what is
/// used to what uses it. Names and lines stand in quoted labels.
[[nodiscard]] std::string trace_dot(const plan::Trace& trace);

} // namespace jarful::render
