#pragma once

#include "engine/appraise/appraise.hpp"

#include <string>
#include <string_view>
#include <vector>

/// The two doors of a saved page. For this room only.
namespace jarful::appraise {

/// Text of a page's scripts of type application/ld+json, and its visible text in lines.
struct PageParts {
    std::vector<std::string> data;
    std::string visible;
};
[[nodiscard]] PageParts parts_of_page(std::string_view bytes);

/// A string with tags and character references ("&frac12; cup", "<p>…</p>") as plain text.
[[nodiscard]] std::string plain_text(const std::string& marked);

/// The recipes in one script of JSON-LD; what could not be used is said in `remarks`.
[[nodiscard]] std::vector<Found> recipes_in(const std::string& json,
                                            std::vector<std::string>& remarks);

} // namespace jarful::appraise
