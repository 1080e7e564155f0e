#pragma once

#include "engine/plan/mend.hpp"
#include "engine/render/page.hpp"

#include <string>

namespace jarful::render {

/// What is wrong and each way back, as the cook sees it. Ends with a line break.
[[nodiscard]] std::string mend_text(const plan::MendOut& out, const TextStyle& style);

/// The same as JSON: format "jarful.mend/1", described in docs/schemas/mend.json.
[[nodiscard]] std::string mend_json(const plan::MendOut& out);

} // namespace jarful::render
