#pragma once

#include "engine/render/card.hpp"

#include <string>
#include <vector>

/// A card one step at a time, for large type beside the bowl. For this room.
namespace jarful::page {

/// One thing to do. Either a figure to wait for, or words to follow.
struct CounterStep {
    std::string title;              ///< "salt", "Step 2 of 5", "Into jar 1"
    std::string figure;             ///< "42.9"; empty where there is nothing to wait for
    std::string unit;               ///< "g"; empty for pieces
    std::vector<std::string> words; ///< sentences and short lines
};

/// What stands in the way first; then every number, how it is divided, the method, and what comes
/// after it.
[[nodiscard]] std::vector<CounterStep> counter_steps(const render::Card& card);

} // namespace jarful::page
