#include "engine/appraise/appraise.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

/// Lists that can be read wrongly: what may not be inside is never called so.
namespace {

using namespace jarful;
using appraise::Verdict;
using testing::HasSubstr;

appraise::Appraisal judged(std::string_view text, const appraise::Request& request = {}) {
    appraise::Refusal refusal;
    auto a = appraise::appraise(text, request, refusal);
    EXPECT_TRUE(a.has_value()) << refusal.message;
    return a ? std::move(*a) : appraise::Appraisal{};
}

Verdict verdict(const std::string& text) {
    return judged(text).verdict;
}

TEST(AppraiseDoubt, SoMuchEachIsCountedForEveryThing) {
    EXPECT_EQ(verdict("500 g each cabbage and carrots\n11 g salt\n"), Verdict::below);
    EXPECT_EQ(verdict("500 g each of green cabbage and red cabbage\n11 g salt\n"), Verdict::below);
    EXPECT_EQ(verdict("1 kg each cabbage, carrot, cauliflower\n22 g salt\n"), Verdict::below);
    EXPECT_EQ(verdict("cabbage and carrots, 500 g each\n11 g salt\n"), Verdict::below);
    EXPECT_EQ(verdict("Kohl und Karotten, je 500 g\n11 g Salz\n"), Verdict::below);
    const auto three = judged("1 kg each of cabbage, carrots, and turnips\n66 g salt\n");
    EXPECT_EQ(three.verdict, Verdict::inside);
    ASSERT_EQ(three.lines.size(), 4u);
    EXPECT_EQ(three.lines[0].material->id, "cabbage-white");
    EXPECT_EQ(three.lines[1].material->id, "carrot");
    EXPECT_EQ(three.lines[2].material->id, "turnip");
    ASSERT_TRUE(three.vegetables_g);
    EXPECT_NEAR(three.vegetables_g->high, 3000, 1e-6);
    const auto adjectives = judged("500 g each green and red cabbage\n22 g salt\n");
    ASSERT_TRUE(adjectives.vegetables_g);
    EXPECT_NEAR(adjectives.vegetables_g->low, 1000, 1e-6);
    // One thing whose pieces weigh so much each.
    EXPECT_EQ(judged("2 heads cabbage, 1 kg each\n44 g salt\n").lines.size(), 2u);
    // Not all of them are understood.
    EXPECT_EQ(verdict("500 g each cabbage and wibble\n11 g salt\n"), Verdict::undecided);
    EXPECT_EQ(verdict("1 kg each cabbage and carrots per jar\n44 g salt\n"), Verdict::undecided);
}

TEST(AppraiseDoubt, OneAmountForSeveralThingsIsNotThatOfTheFirst) {
    for (const char* line :
         {"1 kg cabbage and turnips", "1 kg cabbage and a few carrots", "1 kg cabbage, carrots",
          "500 g de chou et de carottes", "1 kg cabbage, carrots and onions",
          "1 kg cabbage with carrots", "1 kg cabbage plus carrots", "1 kg cabbage, salt to taste",
          "1 kg cabbage & carrots"}) {
        const auto a = judged(std::string(line) + "\n22 g salt\n");
        EXPECT_EQ(a.verdict, Verdict::undecided) << line;
        EXPECT_FALSE(a.lines.front().understood) << line;
        EXPECT_THAT(a.reason, HasSubstr("more than one thing")) << line;
    }
    const auto mixture = judged("1 kg mixed carrots and cauliflower\n22 g salt\n");
    EXPECT_EQ(mixture.verdict, Verdict::inside);
    EXPECT_EQ(mixture.lines.front().material->id, "mixed-vegetables");
    EXPECT_EQ(verdict("1 kg red and green cabbage\n22 g salt\n"), Verdict::inside);
    EXPECT_EQ(verdict("1 kg cabbage, cored, and finely shredded\n22 g salt\n"), Verdict::inside);
}

TEST(AppraiseDoubt, ARangeInTwoMeasuresKeepsBothEnds) {
    for (const char* line :
         {"500 g to 1 kg cabbage", "500 g - 1 kg cabbage", "between 500 g and 1 kg cabbage",
          "500 g bis 1 kg Kohl", "cabbage, 500 g to 1 kg", "Cabbage (500 g to 1 kg)"}) {
        const auto read = appraise::read_line(line);
        ASSERT_TRUE(read.grams) << line;
        EXPECT_NEAR(read.grams->low, 500, 1e-6) << line;
        EXPECT_NEAR(read.grams->high, 1000, 1e-6) << line;
        EXPECT_FALSE(read.per) << line;
        EXPECT_EQ(verdict(std::string(line) + "\n11 g salt\n"), Verdict::undecided) << line;
    }
    const auto second = judged("500 g cabbage\n500 g to 1 kg carrots\n22 g salt\n");
    EXPECT_EQ(second.verdict, Verdict::undecided);
    EXPECT_EQ(verdict("between 900 g and 1 kg cabbage\n21 g salt\n"), Verdict::inside);
    // So much for so much stays so.
    EXPECT_EQ(verdict("2 kg cabbage\nSalt: 22 g to 1 kg cabbage\n"), Verdict::inside);
    EXPECT_EQ(verdict("40 kg cabbage\n1 kg salt to 40 kg cabbage\n"), Verdict::inside);
    // A range that falls, and one of a spoon and a weight.
    EXPECT_EQ(verdict("1 kg to 500 g cabbage\n22 g salt\n"), Verdict::undecided);
    EXPECT_EQ(verdict("1 kg cabbage\n1 tbsp to 50 g salt\n"), Verdict::undecided);
}

TEST(AppraiseDoubt, ACuringSaltIsNotPlainWhereverItIsNamed) {
    for (const char* line :
         {"22 g sea salt (curing)", "22 g salt (cure no. 2)", "22 g salt (pink curing salt)",
          "22 g Salz (P\u00f6kelsalz)", "22 g salt, curing", "22 g salt (with 0.5% nitrite)",
          "22 g de sel (nitrit\u00e9)", "22 g salt or curing salt", "curing salt or salt, 22 g"}) {
        const auto a = judged(std::string("1 kg cabbage\n") + line + "\n");
        EXPECT_EQ(a.verdict, Verdict::undecided) << line;
        ASSERT_TRUE(a.lines[1].material) << line;
        EXPECT_EQ(a.lines[1].material->id, "salt-curing") << line;
    }
    for (const char* line :
         {"22 g salt (50% potassium)", "22 g salt - potassium based", "22 g salt [low sodium]",
          "22 g salt (a potassium blend, from the health shop)", "22 g Salz (mit Kaliumchlorid)"}) {
        const auto a = judged(std::string("1 kg cabbage\n") + line + "\n");
        EXPECT_EQ(a.verdict, Verdict::undecided) << line;
        ASSERT_TRUE(a.lines[1].material) << line;
        EXPECT_EQ(a.lines[1].material->id, "salt-reduced") << line;
    }
    EXPECT_EQ(verdict("1 kg cabbage\n22 g salt (not curing salt)\n"), Verdict::undecided);
    EXPECT_EQ(verdict("1 kg cabbage\n22 g salt (garlic)\n"), Verdict::undecided);
    EXPECT_EQ(verdict("1 kg cabbage\n22 g salt (kosher)\n"), Verdict::inside);
    EXPECT_EQ(verdict("1 kg cabbage\n22 g pink Himalayan salt\n"), Verdict::inside);
}

TEST(AppraiseDoubt, PerJarCannotBeWeighed) {
    for (const char* list :
         {"1 kg cabbage per jar\n22 g salt\n", "500 g carrots\n500 ml water per jar\n22 g salt\n",
          "1 kg cabbage (per jar)\n22 g salt\n", "1 kg Kohl pro Glas\n22 g Salz\n",
          "1 kg de chou par bocal\n22 g de sel\n", "500 g carrots\n500 ml water/jar\n22 g salt\n",
          "1 kg cabbage for each jar\n22 g salt\n", "1 kg cabbage\n22 g salt (per jar)\n"}) {
        EXPECT_EQ(verdict(list), Verdict::undecided) << list;
    }
    appraise::Request weighed;
    weighed.pins.push_back({"cabbage", 1000});
    EXPECT_EQ(judged("1 kg cabbage per jar\n22 g salt\n", weighed).verdict, Verdict::inside);
}

} // namespace
