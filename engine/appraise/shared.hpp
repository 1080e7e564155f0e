#pragma once

#include "engine/appraise/tokens.hpp"

#include <span>
#include <string>
#include <vector>

/// Several things with the same amount each. For this room only.
namespace jarful::appraise {

struct Shared {
    bool each = false; ///< the line gives so much of each of several things
    /// A line for each of them, "500 g cabbage", "500 g carrots"; empty if they cannot be told
    /// apart.
    std::vector<std::string> lines;
};

/// "500 g each cabbage and carrots", "cabbage and carrots, 500 g each", "je 500 g Kohl und
/// Karotten". A single thing whose pieces weigh so much each is none.
[[nodiscard]] Shared shared_amount(std::span<const Token> tokens, Tongue tongue);

} // namespace jarful::appraise
