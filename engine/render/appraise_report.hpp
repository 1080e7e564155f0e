#pragma once

#include "engine/appraise/appraise.hpp"
#include "engine/render/html.hpp"
#include "engine/render/page.hpp"

#include <span>
#include <string>

/// An appraised recipe for people and for programs.
namespace jarful::render {

/// The answer on one screen: the verdict, what to do in grams of this list, how the lines that bear
/// on it were read, cautions in short.
[[nodiscard]] std::string appraise_screen(const appraise::Appraisal& appraisal,
                                          const TextStyle& style);

/// Everything: what was read line by line, what it comes to, the verdict, what to do.
[[nodiscard]] std::string appraise_text(const appraise::Appraisal& appraisal,
                                        const TextStyle& style);

/// The same as part of a page in HTML; the ids in it begin with "appraise-".
[[nodiscard]] Markup appraise_body(const appraise::Appraisal& appraisal, Units units);

/// Format "jarful.appraise/1"; described in docs/schemas/appraise.json. Of several recipes of one
/// page the first stands at the top, and all of them in `recipes`.
[[nodiscard]] std::string appraise_json(std::span<const appraise::Appraisal> appraisals);

} // namespace jarful::render
