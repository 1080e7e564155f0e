#pragma once

#include "engine/larder/larder.hpp"
#include "engine/plan/weigh_out.hpp"

#include <string_view>

/// Private to the room: the larder's cautions as a weigh-out gives them.
namespace jarful::plan {

/// A text that says measures in two systems, "21 to 24 °C (70 to 75 °F)", in the one that its
/// reader has, "70 to 75 °F"; as it is for who reads metric units or both.
[[nodiscard]] std::string in_own_measures(std::string_view text, units::Shown shown);

[[nodiscard]] Warning warning_of(const larder::Caution& caution, units::Shown shown);

} // namespace jarful::plan
