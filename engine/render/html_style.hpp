#pragma once

#include "engine/render/html.hpp"

/// How cards and labels look.
namespace jarful::render {

/// The one style sheet of cards, labels and of pages that show them: engine/render/card.css,
/// compiled into the program.
[[nodiscard]] StyleSheet card_style();

/// The content security policy of a page that has a style sheet and nothing else: no script, no
/// network, no form, no style that is not this one.
[[nodiscard]] std::string page_policy(const StyleSheet& sheet);

/// Writes the head of a page: its title, its policy, its style sheet, how wide a phone shows it.
void put_head(Markup& page, const std::string& title, const StyleSheet& sheet);

} // namespace jarful::render
