#include "engine/appraise/appraise.hpp"
#include "engine/appraise/paragraphs.hpp"
#include "engine/appraise/text.hpp"

#include <gtest/gtest.h>

// Prose that was broken to fit a column is read as what it is, and a list stays a list.

namespace jarful::appraise {
namespace {

std::vector<std::string> put_together(std::string text) {
    std::vector<std::string> out;
    for (const Paragraph& p : paragraphs_of(text))
        if (!p.text.empty()) out.emplace_back(p.text);
    return out;
}

TEST(Paragraphs, are_put_together_where_lines_fill_a_column) {
    const auto got =
        put_together("2 kg cabbage\n\nShred the cabbage and rub the salt into it with\nboth hands. "
                     "Pack it into the crock, two fists at a\ntime.\n");
    ASSERT_EQ(got.size(), 2u);
    EXPECT_EQ(got[1],
              "Shred the cabbage and rub the salt into it with both hands. Pack it into the "
              "crock, two fists at a time.");
}

TEST(Paragraphs, keep_the_number_of_their_first_line) {
    std::string text =
        "Kraut\n\nShred the cabbage and rub the salt into it with\r\nboth hands. Pack "
        "it into the crock.\r\n2 kg\n";
    const auto got = paragraphs_of(text);
    EXPECT_EQ(got[2].number, 3u);
    EXPECT_TRUE(got[2].prose);
}

TEST(Paragraphs, begin_anew_at_the_number_of_a_step) {
    const auto got =
        put_together("1. Shred the cabbage and rub the salt into it, with\nboth hands and "
                     "for ten minutes by the clock.\n2. Pack it.\n");
    ASSERT_EQ(got.size(), 2u);
    EXPECT_EQ(got[1], "2. Pack it.");
}

TEST(Paragraphs, are_not_made_of_a_list) {
    const std::string list = "2 kg white cabbage, shredded as finely as you like it\n"
                             "45 g of salt, the fine one from the blue packet, not the other\n"
                             "1 tsp. Caraway seed, whole and not ground. Or none of it\n";
    EXPECT_EQ(put_together(list).size(), 3u);
    EXPECT_EQ(
        put_together("Ripe red peppers, as many as you have, hot and sweet\nSalt (no iodine)\n")
            .size(),
        2u);
}

Verdict verdict(const std::string& text) {
    Refusal refusal;
    return appraise(text, {}, refusal)->verdict;
}

TEST(BrokenParagraphs, do_not_open_the_verdict) {
    EXPECT_EQ(
        verdict("Kraut\n\n2 kg cabbage\n50 g salt\n\nRub the salt into the shreds with both "
                "hands until the\ncabbage swims in its own juice. Pack it, and weigh it down\n"
                "with a stone. Leave it for three weeks.\n"),
        Verdict::inside);
}

// What is said in them counts all the same.
TEST(BrokenParagraphs, are_read_for_what_they_do) {
    EXPECT_NE(verdict("Kraut\n\n2 kg cabbage\n50 g salt\n\nRub the salt into the shreds with both "
                      "hands. After two hours rinse\nthe salt off again under the tap, and pack it "
                      "into the crock. Leave\nit for three weeks.\n"),
              Verdict::inside);
}

} // namespace
TEST(Columns, AnAmountBehindDotsOrBlanksBelongsToTheWordsBeforeIt) {
    using appraise::without_columns;
    EXPECT_EQ(without_columns("Fine sea salt ...... 60 g"), "Fine sea salt: 60 g");
    EXPECT_EQ(without_columns("Salz . . . . . 1 kg"), "Salz: 1 kg");
    EXPECT_EQ(without_columns("water    1300 ml"), "water: 1300 ml");
    EXPECT_EQ(without_columns("2 heads of dill     1/2 tsp pepper"),
              "2 heads of dill; 1/2 tsp pepper");
    EXPECT_EQ(without_columns("Wait... then pack it."), "Wait... then pack it.");
    EXPECT_EQ(without_columns("   1 kg cabbage"), "   1 kg cabbage");
    EXPECT_EQ(without_columns(""), "");
}

} // namespace jarful::appraise
