#pragma once

#include "engine/render/card.hpp"
#include "engine/render/html.hpp"

#include <string>
#include <vector>

/// A card and its labels laid out. Each is one file that needs no other, with a mark (`mark.hpp`).
namespace jarful::render {

/// A page in HTML that prints on one sheet, with its style sheet and its drawings in it.
/// @param address is printed below, with its code.
[[nodiscard]] std::string card_html(const Card& card, const CardAddress& address = {});
/// What stands between `<main>` and `</main>` of that page, for a page that has the style sheet.
/// The ids in it begin with "card-".
[[nodiscard]] Markup card_body(const Card& card);
/// The numbers, the salt and the jars as one picture.
[[nodiscard]] std::string card_svg(const Card& card);
/// Without the drawings, which the words beside them say too.
/// @param address is printed below.
[[nodiscard]] std::string card_markdown(const Card& card, const CardAddress& address = {});
/// Labels in HTML, eight to a sheet. What is alike is repeated until a sheet is full.
[[nodiscard]] std::string labels_html(const std::vector<CardLabel>& labels);

} // namespace jarful::render
