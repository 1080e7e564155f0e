#pragma once

#include "engine/larder/larder.hpp"

#include <span>
#include <string_view>

/// Words that make another salt of a salt. For this room only.
namespace jarful::larder::salt_words {

/// What the words of a name (folded, singular) make of the salt in it: reduced_sodium, curing or
/// none. Words of `known_part`, the part of the name that the larder knows, do not count: the
/// "light" of "light flake kosher salt" speaks of the flake.
[[nodiscard]] SaltWarning change_of(std::span<const std::string_view> words,
                                    std::string_view known_part);

} // namespace jarful::larder::salt_words
