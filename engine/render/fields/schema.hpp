#pragma once

#include "engine/render/fields/fields.hpp"

#include <span>
#include <string>
#include <string_view>

/// The JSON Schema of what is described by fields. Not in the engine for pages.
namespace jarful::fields {

/// Every result that there is, by name: one schema each.
[[nodiscard]] std::span<const Result* const> results();
/// Null if there is none of that name.
[[nodiscard]] const Result* find_result(std::string_view name);

/// The schema of a result (JSON Schema, draft 7): what each field is and means, which must be
/// there, and that there are no others. Every shape stands once, among the definitions. Ends with a
/// line break.
[[nodiscard]] std::string schema(const Result& result);

} // namespace jarful::fields
