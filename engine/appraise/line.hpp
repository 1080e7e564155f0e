#pragma once

#include "engine/appraise/reading.hpp"

/// From a reading to a line of the report. For this room only.
namespace jarful::appraise {

/// A line as a list of ingredients has it: what it is, whether it is understood, what it weighs.
/// @param text the line, cleaned and without its bullet.
[[nodiscard]] Reading ingredient(std::string_view text, Tongue around,
                                 const larder::Material* salt);

/// Removes a bullet, a box, or the number of a list from a cleaned line.
[[nodiscard]] std::string_view without_bullet(std::string_view line);

} // namespace jarful::appraise
