#include "engine/render/html.hpp"
#include "engine/render/html_style.hpp"

#include <gtest/gtest.h>

namespace jarful::render {
namespace {

TEST(Markup, escapesTextsAndAttributes) {
    Markup page;
    page.element("p", {{"title", R"("><script>'&)"}}, R"(<script>alert("&'")</script>)");
    EXPECT_EQ(page.written(), "<p title=\"&quot;&gt;&lt;script&gt;&#39;&amp;\">"
                              "&lt;script&gt;alert(&quot;&amp;&#39;&quot;)&lt;/script&gt;</p>");
}

TEST(Markup, leavesOtherLettersAsTheyAre) {
    Markup page;
    page.text("crème, Жито, 酸菜, \t\n");
    EXPECT_EQ(page.written(), "crème, Жито, 酸菜, \t\n");
}

TEST(Markup, replacesWhatXmlForbids) {
    Markup page;
    page.text(std::string("a\x01"
                          "b\0c",
                          5));
    page.text("\xc3\x28 \xff \xef\xbf\xbe \xed\xa0\x80 \x7f");
    EXPECT_EQ(page.written(), "a\xef\xbf\xbd"
                              "b\xef\xbf\xbd"
                              "c\xef\xbf\xbd( \xef\xbf\xbd \xef\xbf\xbd "
                              "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd \xef\xbf\xbd");
}

TEST(Markup, closesElementsByTheirForm) {
    Markup html;
    html.empty("meta", {{"charset", "utf-8"}});
    html.empty("path", {{"d", "M0 0"}});
    EXPECT_EQ(html.written(), "<meta charset=\"utf-8\">\n<path d=\"M0 0\"/>");
    Markup xml(Markup::Form::xml);
    xml.element("g", {}, [&] { xml.empty("line"); });
    EXPECT_EQ(xml.written(), "<g>\n<line/></g>");
}

TEST(Markup, breaksNoLineWithinALine) {
    Markup page;
    page.element("p", {}, [&] {
        page.text("so ");
        page.element("b", {}, "much");
        page.text(", no more");
    });
    EXPECT_EQ(page.written(), "<p>so <b>much</b>, no more</p>");
}

TEST(Style, isFitForAStyleElement) {
    const StyleSheet sheet = card_style();
    EXPECT_EQ(sheet.css.find("</"), std::string_view::npos);
    EXPECT_EQ(sheet.css.find("url("), std::string_view::npos);
    EXPECT_EQ(sheet.css.find("@import"), std::string_view::npos);
    EXPECT_EQ(sheet.sha256.size(), 44U); // 32 bytes in base64
    EXPECT_EQ(page_policy(sheet), "default-src 'none'; style-src 'sha256-" +
                                      std::string(sheet.sha256) +
                                      "'; base-uri 'none'; form-action 'none'");
}

} // namespace
} // namespace jarful::render
