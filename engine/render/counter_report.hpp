#pragma once

#include "engine/plan/counter.hpp"
#include "engine/render/page.hpp"

#include <string>

namespace jarful::render {

/// What a conversation at the counter answers to one line: of a change only what changed, old and
/// new. Empty for `nothing` and `quit`; refusals are not in it. Ends with a line break otherwise.
[[nodiscard]] std::string counter_text(const plan::CounterReply& reply, const TextStyle& style);

} // namespace jarful::render
