#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/source.hpp"

#include <cstddef>
#include <span>
#include <string>

namespace jarful::language {

struct ExplainStyle {
    bool colour = false; ///< terminal colours; the text is the same with and without
};

/// A diagnostic for a person: where and what in a sentence, the line quoted and the place
/// underlined, what to do, and the code in brackets. Sentences are wrapped at 80 columns, long
/// lines shortened around the place. Ends with a line feed. `source` must be the one that the
/// diagnostic's places belong to.
[[nodiscard]] std::string explain(const Source& source, const Diagnostic& diagnostic,
                                  ExplainStyle style = {});

/// Of a longer list no more are printed: what is wrong first mostly explains the rest.
inline constexpr std::size_t most_explained = 20;

/// explain() of each with an empty line behind it, up to twenty, and then how many more there are.
/// Empty for none.
[[nodiscard]] std::string explain_all(const Source& source, std::span<const Diagnostic> diagnostics,
                                      ExplainStyle style = {});

} // namespace jarful::language
