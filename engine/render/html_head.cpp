#include "engine/render/html_style.hpp"

namespace jarful::render {

std::string page_policy(const StyleSheet& sheet) {
    return "default-src 'none'; style-src 'sha256-" + std::string(sheet.sha256) +
           "'; base-uri 'none'; form-action 'none'";
}

void put_head(Markup& page, const std::string& title, const StyleSheet& sheet) {
    page.element("head", {}, [&] {
        page.empty("meta", {{"charset", "utf-8"}});
        page.empty("meta",
                   {{"http-equiv", "Content-Security-Policy"}, {"content", page_policy(sheet)}});
        page.empty("meta",
                   {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
        page.empty("meta", {{"name", "color-scheme"}, {"content", "light dark"}});
        page.empty("meta", {{"name", "referrer"}, {"content", "no-referrer"}});
        page.element("title", {}, title);
        page.style(sheet);
    });
}

} // namespace jarful::render
