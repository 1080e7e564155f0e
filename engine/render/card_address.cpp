#include "engine/render/card_drawing.hpp"

#include <algorithm>

namespace jarful::render {

namespace {

/// Dark squares as one path, a run of a row after the other.
void put_code(Markup& page, const SquareCode& code) {
    constexpr std::size_t margin = 4; // light squares all round, as the code's standard asks
    std::string path;
    for (std::size_t y = 0; y < code.width; ++y) {
        for (std::size_t x = 0; x < code.width;) {
            std::size_t end = x;
            while (end < code.width && code.dark[y * code.width + end])
                ++end;
            if (end > x)
                path += "M" + std::to_string(x + margin) + " " + std::to_string(y + margin) + "h" +
                        std::to_string(end - x) + "v1h-" + std::to_string(end - x) + "z";
            x = std::max(end, x + 1);
        }
    }
    const std::string side = std::to_string(code.width + 2 * margin);
    page.element("svg",
                 {{"role", "img"},
                  {"aria-label", "The address of this page as a code for a camera"},
                  {"width", "112"},
                  {"height", "112"},
                  {"viewBox", "0 0 " + side + " " + side},
                  {"shape-rendering", "crispEdges"}},
                 [&] {
                     page.empty("rect", {{"width", side}, {"height", side}, {"fill", "#fff"}});
                     page.empty("path", {{"d", path}, {"fill", "#000"}});
                 });
}

} // namespace

void put_address(Markup& page, const CardAddress& address) {
    if (address.url.empty()) return;
    page.element("aside", {{"class", "address"}, {"aria-label", "Where this page stands"}}, [&] {
        if (address.code) put_code(page, *address.code);
        page.element("p", {{"dir", "ltr"}}, address.url);
    });
}

} // namespace jarful::render
