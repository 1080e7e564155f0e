#pragma once

#include "engine/render/html.hpp"

#include <string_view>

/// What engine/page/web holds, compiled into the program.
namespace jarful::page {

/// The card's style sheet with that of the page behind it.
[[nodiscard]] render::StyleSheet page_style();
/// The loader of the engine and the page's modules, joined into one.
[[nodiscard]] render::Script page_script();
/// What the reader sets, before the card, and what comes after it. Hidden until the script runs.
[[nodiscard]] render::FixedMarkup page_controls();
[[nodiscard]] render::FixedMarkup page_after();
/// The service worker of a book's folder, in front of which its files are named.
[[nodiscard]] std::string_view page_worker();
/// A picture in SVG for a home screen.
[[nodiscard]] std::string_view page_icon();

} // namespace jarful::page
