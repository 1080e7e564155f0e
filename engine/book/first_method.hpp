#pragma once

#include "engine/book/first_wish.hpp"

#include <string>

/// What is done, in a first recipe. For this room only.
namespace jarful::book {

/// The `step` and `rest` lines of a way of fermenting. They name everything that the recipe weighs
/// or counts.
[[nodiscard]] std::string first_steps(const Wish& wish);

/// The `tend`, `ready` and `keep` lines, by what is published of the kind. A pH is tested before
/// anything is eaten, so the first test is never after the first day of `ready`.
[[nodiscard]] std::string first_tending(const Wish& wish);

/// A sentence in remark lines of at most 78 columns.
[[nodiscard]] std::string remark(std::string_view words);

} // namespace jarful::book
