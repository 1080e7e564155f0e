#pragma once

#include "engine/plan/model.hpp"

#include <optional>

/// Private to the room: how much salt this very batch would need.
namespace jarful::plan {

/// The least and the most that the scale may show for the one line of salt that goes in the jar, so
/// that the salt is inside its range in every variant, and every `hold` is kept if that can be; all
/// else is taken as the sheet observes it.
/// Empty where there is no range or no such line, where several lines are salt, or where no reading
/// would do. What the sheet observes of the salt is another when it returns: show the readings
/// again.
[[nodiscard]] std::optional<SaltNeeded> salt_needed(Model& model, const kitchen::Kitchen& kitchen);

} // namespace jarful::plan
