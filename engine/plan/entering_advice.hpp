#pragma once

#include "engine/plan/model.hpp"

#include <string>

/// Private to the room: what to write instead of what was typed, in the words of this recipe and
/// this kitchen.
namespace jarful::plan {

/// What to do about an amount of the wrong sort for a weight: "Say the unit: `salt=62g`, if these
/// are grams.", or an example with what the recipe comes to.
/// @param typed the amount that is no weight.
[[nodiscard]] std::string weight_advice(const Model& model, const std::string& name,
                                        const units::Amount& typed);

/// What to do about an amount whose unit does not fit a line of the recipe, whatever its dimension.
[[nodiscard]] std::string unit_advice(const Model& model, sheet::CellId cell,
                                      const units::Amount& typed);

/// Of a weight that is asked for where nothing is left that could move.
struct Overdetermined {
    std::string needed; ///< "46.6 g": what the recipe comes to for what is set
    std::string share;  ///< "1.87 % of the vegetables", with what is asked for; may be empty
    std::string usual;  ///< "2.2 %", the same of the recipe itself
};
/// @param grams what is asked for. The model is left as it was.
[[nodiscard]] Overdetermined asked_and_set(Model& model, sheet::CellId cell, double grams);

} // namespace jarful::plan
