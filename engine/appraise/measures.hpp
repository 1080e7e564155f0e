#pragma once

#include "engine/appraise/tokens.hpp"

#include <optional>
#include <span>
#include <string_view>

/// The measures that recipes use, and what people abbreviate them to. For this room only.
namespace jarful::appraise {

/// A measure and how many tokens it takes, the full stops behind it included.
struct FoundMeasure {
    const Measure* measure = nullptr;
    std::size_t tokens = 0;
    Tongue tongue = nullptr; ///< of a word that only one language has
};

/// The longest measure at a place among tokens; "T" and "t" by their case.
/// `after_number` says that a number stands directly before it: single letters are measures only
/// there.
[[nodiscard]] std::optional<FoundMeasure> measure_at(std::span<const Token> tokens, std::size_t at,
                                                     bool after_number);

[[nodiscard]] const Measure& percent_measure();

} // namespace jarful::appraise
