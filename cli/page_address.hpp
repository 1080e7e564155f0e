#pragma once

#include "cli/options.hpp"
#include "engine/language/tree.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/card.hpp"

#include <optional>
#include <string>

/// Addresses of pages, and the batch that they are opened with.
namespace jarful::cli {

/// Whether it is an address of a page: http or https, plain letters, no fragment.
[[nodiscard]] bool is_address(const std::string& text);
/// What to say of one that is not; the rest of a sentence after "No page was made: ".
[[nodiscard]] std::string no_address(const std::string& text);

/// With its code. @param why a sentence, where there is none.
[[nodiscard]] std::optional<render::CardAddress> with_code(std::string url, std::string& why);

/// What stands behind the # of a page's address so that it opens with a batch: see docs/page.md.
/// Empty for the recipe's own.
/// @param units as --units said; empty: the page's kitchen's.
/// @param why the rest of a sentence, where a page cannot be asked so.
[[nodiscard]] std::optional<std::string>
page_fragment(const language::Document& recipe, const RequestWords& words,
              const plan::Request& request, const std::optional<std::string>& start,
              std::optional<render::Units> units, std::string& why);

} // namespace jarful::cli
