#include "engine/assist/frames.hpp"
#include "engine/assist/text.hpp"

#include <gtest/gtest.h>

/// Messages on a stream, and places as an editor counts them.
namespace jarful::assist {

TEST(Frames, takesMessagesHoweverTheStreamIsCut) {
    const std::string stream = framed("{\"a\": 1}") + framed("") + framed("ä");
    for (std::size_t piece = 1; piece <= stream.size(); ++piece) {
        Frames frames;
        std::vector<std::string> found;
        for (std::size_t at = 0; at < stream.size(); at += piece) {
            frames.feed(std::string_view(stream).substr(at, piece));
            while (auto message = frames.next()) {
                EXPECT_EQ(message->trouble, "");
                found.push_back(message->body);
            }
        }
        EXPECT_EQ(found, (std::vector<std::string>{"{\"a\": 1}", "", "ä"})) << piece;
    }
}

TEST(Frames, readsOtherFieldsAndBareLineFeeds) {
    Frames frames;
    frames.feed("content-type: x\r\ncontent-length:  2 \r\n\r\nok"
                "Content-Length: 3\n\nyes");
    EXPECT_EQ(frames.next()->body, "ok");
    EXPECT_EQ(frames.next()->body, "yes");
    EXPECT_FALSE(frames.next());
}

TEST(Frames, passesOverWhatIsTooLarge) {
    Frames frames;
    const std::string body(1000, 'x');
    frames.feed("Content-Length: " + std::to_string(most_message_bytes + 1) + "\r\n\r\n");
    const auto trouble = frames.next();
    ASSERT_TRUE(trouble);
    EXPECT_NE(trouble->trouble, "");
    for (std::size_t fed = 0; fed < most_message_bytes + 1; fed += body.size())
        frames.feed(
            std::string_view(body).substr(0, std::min(body.size(), most_message_bytes + 1 - fed)));
    EXPECT_FALSE(frames.next());
    frames.feed(framed("next"));
    EXPECT_EQ(frames.next()->body, "next");
    EXPECT_FALSE(frames.broken());
}

TEST(Frames, givesUpWhereNoHeaderIs) {
    for (const char* rubbish :
         {"GET / HTTP/1.1\r\n\r\n", "Content-Length: two\r\n\r\n", "Content-Length: -1\r\n\r\n",
          "Content-Length: 99999999999999999999\r\n\r\n"}) {
        Frames frames;
        frames.feed(rubbish);
        const auto message = frames.next();
        ASSERT_TRUE(message) << rubbish;
        EXPECT_NE(message->trouble, "");
        EXPECT_TRUE(frames.broken());
        EXPECT_FALSE(frames.next());
    }
    Frames endless;
    endless.feed(std::string(5000, 'a'));
    EXPECT_TRUE(endless.next());
    EXPECT_TRUE(endless.broken());
}

TEST(EditorText, countsInUnitsOfBothEncodings) {
    // ä: 2 bytes, 1 unit; 🥬: 4 bytes, 2 units.
    const Text text("aä🥬b\nc");
    for (const auto& [offset, utf8, utf16] :
         {std::tuple{0U, 0U, 0U}, {1U, 1U, 1U}, {3U, 3U, 2U}, {7U, 7U, 4U}, {8U, 8U, 5U}}) {
        EXPECT_EQ(text.position(offset, Encoding::utf8), (Position{0, utf8}));
        EXPECT_EQ(text.position(offset, Encoding::utf16), (Position{0, utf16}));
        EXPECT_EQ(text.offset({0, utf8}, Encoding::utf8), offset);
        EXPECT_EQ(text.offset({0, utf16}, Encoding::utf16), offset);
    }
    EXPECT_EQ(text.position(9, Encoding::utf16), (Position{1, 0}));
}

TEST(EditorText, holdsPlacesThatAreNotThere) {
    const Text text("ab\r\ncd");
    EXPECT_EQ(text.raw_offset({0, 99}, Encoding::utf16), 2U);
    EXPECT_EQ(text.raw_offset({1, 99}, Encoding::utf16), 6U);
    EXPECT_EQ(text.raw_offset({9, 0}, Encoding::utf16), 6U);
    // In the middle of a character is at its beginning.
    const Text leaf("🥬");
    EXPECT_EQ(leaf.raw_offset({0, 1}, Encoding::utf16), 0U);
    EXPECT_EQ(leaf.raw_offset({0, 2}, Encoding::utf8), 0U);
}

TEST(EditorText, knowsWhereTheEnginesBytesStand) {
    const Text text("\xEF\xBB\xBF"
                    "ab\r\ncd\r\n\r\ne");
    EXPECT_EQ(text.read(), "ab\ncd\n\ne");
    EXPECT_EQ(text.position(0, Encoding::utf8), (Position{0, 3}));
    EXPECT_EQ(text.position(2, Encoding::utf8), (Position{0, 5}));
    EXPECT_EQ(text.position(3, Encoding::utf8), (Position{1, 0}));
    EXPECT_EQ(text.position(5, Encoding::utf8), (Position{1, 2}));
    EXPECT_EQ(text.position(6, Encoding::utf8), (Position{2, 0}));
    EXPECT_EQ(text.position(7, Encoding::utf8), (Position{3, 0}));
    for (std::uint32_t offset = 0; offset <= text.read().size(); ++offset)
        EXPECT_EQ(text.offset(text.position(offset, Encoding::utf16), Encoding::utf16), offset);
    const Text lines("\r\n\r\nx");
    for (std::uint32_t offset = 0; offset < lines.read().size(); ++offset)
        EXPECT_EQ(lines.position(offset, Encoding::utf16), (Position{offset, 0}));
}

TEST(EditorText, isChangedInPieces) {
    Text text("one\r\ntwo\r\nthree");
    text.replace({{1, 0}, {1, 3}}, Encoding::utf16, "🥬\r\nmore");
    EXPECT_EQ(text.raw(), "one\r\n🥬\r\nmore\r\nthree");
    text.replace({{1, 2}, {2, 4}}, Encoding::utf16, "");
    EXPECT_EQ(text.raw(), "one\r\n🥬\r\nthree");
    text.replace({{2, 5}, {0, 0}}, Encoding::utf16, "!"); // backwards is at the start
    EXPECT_EQ(text.raw(), "one\r\n🥬\r\nthree!");
}

} // namespace jarful::assist
