#pragma once

#include "engine/plan/weigh_out.hpp"

#include <string>

namespace jarful::render {

/// The jars of a batch as JSON, format "jarful.jars/1": docs/schemas/jars.json. Ends with a line
/// break.
/// @param out with `jars` and `jar_choice`.
[[nodiscard]] std::string jars_json(const plan::WeighOut& out);

} // namespace jarful::render
