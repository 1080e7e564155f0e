#pragma once

#include "engine/assist/session.hpp"

#include <cstdint>
#include <string>
#include <vector>

/// What the lines of a recipe come to, as it is shown behind them. Private to the room.
namespace jarful::assist {

/// Shown behind a line, without being in the text.
struct Hint {
    std::uint32_t at = 0; ///< offset in the file's own text: the end of the line's first row
    std::string text;     ///< "42.9 g"
    std::string more;     ///< sentences, for who asks; may be empty
};

/// Of every line that comes to an amount, what it comes to at the recipe's own amounts: the number
/// to wait for on the kitchen's scale, as `jarful weigh` gives it. Behind `kind` the verdict of the
/// salt, behind `hold` that of the bound; neither while anything in the recipe is at fault.
[[nodiscard]] std::vector<Hint> hints(const Look& look);

/// The recipe in a line, for above its header: the verdict with its figure, or why there is none.
/// Empty for what is no recipe.
[[nodiscard]] std::string headline(const Look& look);
/// Where the header stands; empty without one.
[[nodiscard]] std::optional<language::Place> header_of(const language::Document& document);

} // namespace jarful::assist
