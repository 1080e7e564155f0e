#include "engine/render/lettering.hpp"

#include <gmock/gmock.h>

namespace jarful::render {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST(Lettering, addsUpTheLetters) {
    EXPECT_EQ(width_of_words(""), 0);
    // Advance widths of DejaVu Sans 2.37 in units of 2048 to the em, from its hmtx table.
    EXPECT_NEAR(width_of_words("m"), 1995.0 / 2048, 0.001);
    EXPECT_NEAR(width_of_words("m", true), 2134.0 / 2048, 0.001);
    EXPECT_NEAR(width_of_words("20.1"), 3 * 1303.0 / 2048 + 651.0 / 2048, 0.004);
    // Of Liberation Sans 1.07.4, which is the wider one here.
    EXPECT_NEAR(width_of_words("S"), 1366.0 / 2048, 0.001);
    EXPECT_GT(width_of_words("salt", true), width_of_words("salt"));
}

TEST(Lettering, takesWhatItDoesNotKnowAsWide) {
    EXPECT_EQ(width_of_words("\xc2\xa0"), width_of_words(" ")) << "a blank that is not broken";
    EXPECT_GE(width_of_words("\xc3\xa9"), width_of_words("e"));
    EXPECT_GE(width_of_words("\xe2\x80\xa6"), 1) << "the three points of an ellipsis";
    EXPECT_GE(width_of_words("\xe6\xbc\xac"), 1) << "an ideograph";
    EXPECT_EQ(width_of_words("\xe2\x81\xa8\xe2\x81\xa9"), 0) << "isolates";
    EXPECT_EQ(width_of_words("\xcc\x81"), 0) << "an accent on the letter before";
    EXPECT_GT(width_of_words("\xff\xc3"), 1) << "broken UTF-8";
}

TEST(Lettering, breaksAtBlanks) {
    const double room = width_of_words("white cabbage");
    EXPECT_THAT(lines_of_words("white cabbage and salt", room),
                ElementsAre("white cabbage", "and salt"));
    EXPECT_THAT(lines_of_words("white cabbage", room), ElementsAre("white cabbage"));
    EXPECT_THAT(lines_of_words("white cabbage", room - 0.01), ElementsAre("white", "cabbage"));
    EXPECT_THAT(lines_of_words("", room), IsEmpty());
    EXPECT_THAT(lines_of_words("  ", room), IsEmpty());
    EXPECT_THAT(lines_of_words("1258\xc2\xa0g salt", width_of_words("1258 g")),
                ElementsAre("1258\xc2\xa0g", "salt"));
}

TEST(Lettering, breaksAWordThatIsWiderThanALine) {
    EXPECT_THAT(lines_of_words("a mmmmm b", width_of_words("mm")),
                ElementsAre("a", "mm", "mm", "m b"));
    EXPECT_THAT(lines_of_words("mmm", 0.1), ElementsAre("m", "m", "m"));
    EXPECT_EQ(line_count("a mmmmm b", width_of_words("mm")), 4);
}

TEST(Lettering, losesNothingAndOverrunsNothing) {
    const std::string words =
        "Press the cabbage again until the juice stands above the shreds, then "
        "weigh it down \xc3\xa9\xe6\xbc\xac and close it.";
    for (double room = 2; room < 40; room += 0.37) {
        std::string joined;
        for (const std::string& line : lines_of_words(words, room, true)) {
            EXPECT_LE(width_of_words(line, true), room + 1e-9);
            joined += line;
        }
        std::string letters = words;
        std::erase(letters, ' ');
        std::erase(joined, ' ');
        EXPECT_EQ(joined, letters);
    }
}

} // namespace
} // namespace jarful::render
