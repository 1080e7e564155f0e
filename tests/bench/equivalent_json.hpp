#pragma once

#include "engine/language/tree.hpp"

#include <string>

namespace jarful::bench {

/// What a recipe says, as JSON: every line an object with its word, its names and texts, its
/// expressions as trees, its amounts as a number and a unit. Places are left out, and so are
/// comments.
[[nodiscard]] std::string equivalent_json(const language::Document& document);

} // namespace jarful::bench
