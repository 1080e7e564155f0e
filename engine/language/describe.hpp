#pragma once

#include "engine/language/tree.hpp"

#include <string_view>

namespace jarful::language {

/// The word as it is written: "given", "weigh", …
[[nodiscard]] std::string_view describe(QuantityWord word);

} // namespace jarful::language
