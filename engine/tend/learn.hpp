#pragma once

#include "engine/kitchen/kitchen.hpp"
#include "engine/language/inherit.hpp"
#include "engine/language/tree.hpp"
#include "engine/tend/record.hpp"

#include <string>
#include <vector>

/// What a recipe can learn from its batches.
namespace jarful::tend {

/// A batch of the recipe, by its name.
struct Lesson {
    std::string name;
    Record record;
};

/// The change of a piece of one line.
struct Proposal {
    std::string what;      ///< "salt", "packed", "ready", or the name of a `measure`
    language::Place place; ///< what is replaced, on one line of the recipe
    std::string old_text, new_text;
    bool added = false; ///< `new_text` is a new line, below the one that `place` ends
    std::vector<std::string> evidence; ///< a sentence for each batch that speaks for it
    std::string meaning;               ///< a sentence: what it comes to in grams or days
};

/// Changes for which there is evidence:
///  - a salt line `weigh NAME = P % of …`: the share that was really weighed, where it differs by
///    0.05 or more on average;
///  - `let packed = …`, where `fill` divides by it: how much really went into the room that was
///    noted as filled, where it differs by a hundredth or more;
///  - the `ready` line: the days after which the batches were noted as ready, or moved to the cold,
///    and the temperatures that were noted, or the room's; without any, the days alone. Of several
///    lines it is the one for that warmth; where there is none, a new line;
///  - `measure NAME about LOW..HIGH % of OTHER`: what was really left, where it is outside.
/// Only batches that were noted as ready or moved count. A change after which the recipe's salt
/// would no longer be inside its range is not proposed, and neither is one of a line that is
/// inherited from another recipe; `held_back` says so.
/// @param find the recipes that this one is based on, as for language::inherit().
[[nodiscard]] std::vector<Proposal> learn(const language::Document& recipe,
                                          const kitchen::Kitchen& kitchen,
                                          const std::vector<Lesson>& lessons,
                                          const language::FindBase& find,
                                          std::vector<std::string>& held_back);

/// The recipe's bytes with the changes made: only the lines that they stand on are touched, line
/// ends and a byte-order mark stay as they are.
[[nodiscard]] std::string with_changes(std::string_view bytes, const language::Source& source,
                                       std::vector<Proposal> proposals);

} // namespace jarful::tend
