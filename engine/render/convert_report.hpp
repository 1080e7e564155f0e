#pragma once

#include "engine/larder/convert.hpp"
#include "engine/render/page.hpp"

#include <cstddef>
#include <span>
#include <string>

/// Conversions, and the salts side by side.
namespace jarful::render {

/// One of many conversions, with the line that it stood on.
struct ConvertedLine {
    std::size_t line = 0; ///< from 1
    std::string text;     ///< as written
    larder::ConversionOutcome outcome;
};

/// One conversion at length: low, typical and high, what it was reckoned with, the sources.
[[nodiscard]] std::string convert_text(const larder::Conversion& conversion,
                                       const TextStyle& style);
/// Many conversions, a row each, and below them what is to be said of them, each thing once. Lines
/// that could not be converted have a row without figures.
[[nodiscard]] std::string convert_text(std::span<const ConvertedLine> lines,
                                       const TextStyle& style);
/// Format "jarful.convert/1"; described in docs/schemas/convert.json.
[[nodiscard]] std::string convert_json(const larder::Conversion& conversion);
/// The same of many: `conversions`, each with its line, and `faults`.
[[nodiscard]] std::string convert_json(std::span<const ConvertedLine> lines);

/// The grains side by side: a spoon of each, what replaces what, the warnings.
[[nodiscard]] std::string salts_text(larder::Measures measures, const TextStyle& style);
/// Format "jarful.salts/1"; described in docs/schemas/salts.json.
[[nodiscard]] std::string salts_json(larder::Measures measures);

} // namespace jarful::render
