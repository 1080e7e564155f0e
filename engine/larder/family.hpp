#pragma once

#include "engine/larder/larder.hpp"

#include <string_view>

/// Which ferments a vegetable leads to.
namespace jarful::larder {

/// The family of produce that a material belongs to, "cabbage", "roots", "peppers": where a jar is
/// mostly filled with one, that says what kind of ferment it is. Empty if it belongs to none.
/// @param material one of the larder's own
[[nodiscard]] std::string_view family_of(const Material& material);

} // namespace jarful::larder
