#include "engine/appraise/appraise.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <random>
#include <string>

/// Whole lists: what they come to, and that nothing is called inside which is not.
namespace {

using namespace jarful;
using appraise::Verdict;
using testing::HasSubstr;
using testing::Not;

appraise::Appraisal judged(std::string_view text, const appraise::Request& request = {}) {
    appraise::Refusal refusal;
    auto a = appraise::appraise(text, request, refusal);
    EXPECT_TRUE(a.has_value()) << refusal.message;
    return a ? std::move(*a) : appraise::Appraisal{};
}

bool cautions(const appraise::Appraisal& a, std::string_view id) {
    return std::any_of(a.cautions.begin(), a.cautions.end(),
                       [&](const plan::Warning& w) { return w.id == id; });
}

bool advises(const appraise::Appraisal& a, std::string_view part) {
    return std::any_of(a.advice.begin(), a.advice.end(),
                       [&](const std::string& s) { return s.find(part) != std::string::npos; });
}

TEST(AppraiseVerdict, WeighedKrautIsInsideBelowOrAbove) {
    EXPECT_EQ(judged("2 kg cabbage\n45 g salt\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("2 kg cabbage\n30 g salt\n").verdict, Verdict::below);
    EXPECT_EQ(judged("2 kg cabbage\n80 g salt\n").verdict, Verdict::above);
}

TEST(AppraiseVerdict, ASpoonOfUnsaidGrainIsUndecidedAndTheGrainSettlesIt) {
    const char* list = "5 lb cabbage\n3 tbsp salt\n";
    const auto open = judged(list);
    EXPECT_EQ(open.verdict, Verdict::undecided);
    EXPECT_THAT(open.decides, HasSubstr("salt"));
    ASSERT_TRUE(open.right_g_per_kg);
    EXPECT_NEAR(open.right_g_per_kg->low, 20, 1e-9);
    appraise::Request fine;
    fine.salt = "canning salt";
    EXPECT_EQ(judged(list, fine).verdict, Verdict::inside);
    appraise::Request flake;
    flake.salt = "coarse flake kosher salt";
    EXPECT_EQ(judged(list, flake).verdict, Verdict::below);
}

TEST(AppraiseVerdict, AHeadIsUndecidedUntilItIsWeighed) {
    const char* list = "1 medium head cabbage\n20 g salt\n";
    EXPECT_EQ(judged(list).verdict, Verdict::undecided);
    appraise::Request request;
    request.pins.push_back({"cabbage", 900});
    EXPECT_EQ(judged(list, request).verdict, Verdict::inside);
}

TEST(AppraiseVerdict, ALineThatIsNotUnderstoodIsNeverPassedOver) {
    for (const char* stranger : {"1 cup wibble", "2 tbsp garlic salt", "1 tbsp seasoned salt",
                                 "1,500 kg mangelwurz", "3 scoops magic crystals",
                                 "2 tbsp herb salt", "2 cups chicken stock", "1 preserved lemon"}) {
        const auto a = judged(std::string("2 kg cabbage\n45 g salt\n") + stranger + "\n");
        EXPECT_EQ(a.verdict, Verdict::undecided) << stranger;
        EXPECT_TRUE(std::any_of(a.lines.begin(), a.lines.end(), [](const auto& l) {
            return !l.understood;
        })) << stranger;
    }
}

TEST(AppraiseVerdict, ANumberThatCanBeReadTwoWaysIsNotGuessed) {
    EXPECT_NE(judged("1.500 kg Weißkohl\n30 g Salz\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("1,500 kg cabbage\n33 kg salt\n").verdict, Verdict::undecided);
    EXPECT_EQ(judged("1,500 g cabbage\n33 g salt\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("1,500 kg of shredded cabbage\n33 kg of salt\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("1,500 kg Weißkohl\n33 g Salz\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("2,000-1,500 g cabbage\n45 g salt\n").verdict, Verdict::undecided);
    EXPECT_NE(judged("2 kg cabbage\n3-2 tbsp canning salt\n").verdict, Verdict::inside);
}

TEST(AppraiseVerdict, MoreSaltToTasteIsOpen) {
    EXPECT_EQ(judged("2 kg cabbage\n45 g salt, plus more to taste\n").verdict, Verdict::undecided);
    EXPECT_EQ(judged("2 kg cabbage\n45 g salt\nkosher salt to taste\n").verdict,
              Verdict::undecided);
    EXPECT_EQ(judged("2 kg cabbage\nsalt\n").verdict, Verdict::undecided);
}

TEST(AppraiseVerdict, RatiosAreUnderstood) {
    EXPECT_EQ(judged("3 tablespoons canning salt per 5 pounds cabbage\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("5 kg cabbage\n20 g salt per kg cabbage\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("5 kg cabbage\n10 g salt per kg cabbage\n").verdict, Verdict::below);
    EXPECT_EQ(judged("cabbage\n2.5% salt by weight of the cabbage\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("2 kg cabbage\n1 tbsp salt per quart jar\n").verdict, Verdict::undecided);
}

TEST(AppraiseVerdict, BrinesAreJudgedTogetherWithTheVegetables) {
    const auto a = judged("Half sours\n2 kg pickling cucumbers\n2 L water\n140 g salt\n");
    EXPECT_EQ(a.kind, "cucumbers");
    EXPECT_EQ(a.verdict, Verdict::inside);
    ASSERT_TRUE(a.of_vegetables_and_water);
    EXPECT_NEAR(a.of_vegetables_and_water->middle(), 3.5, 0.02);
    EXPECT_EQ(judged("1 kg carrots\n1 litre water\n20 g salt\n").verdict, Verdict::below);
    const auto open = judged("1 kg carrots\n3% brine\n");
    EXPECT_EQ(open.verdict, Verdict::undecided);
    ASSERT_TRUE(open.of_brine);
    EXPECT_LT(open.of_brine->low, open.of_brine->high);
}

TEST(AppraiseVerdict, WhatIsSouredWithVinegarIsNoFerment) {
    EXPECT_EQ(judged("1 lb cucumbers\n1 cup vinegar\n1 cup water\n1 tbsp salt\n").verdict,
              Verdict::not_a_ferment);
    const auto salad =
        judged("Cabbage salad\n1 kg cabbage\n20 g salt\n3 tbsp olive oil\n1/2 cup vinegar\n");
    EXPECT_EQ(salad.verdict, Verdict::not_a_ferment);
    EXPECT_THAT(salad.reason, HasSubstr("salad"));
    // The acid of a fermented dill is a spoon of it.
    EXPECT_NE(
        judged("4 lb cucumbers\n8 cups water\n1/2 cup canning salt\n1/4 cup vinegar\n").verdict,
        Verdict::not_a_ferment);
}

TEST(AppraiseVerdict, TheJuiceOfSaltedLemonsIsNoVinegar) {
    const auto lemons = judged(
        "Salted lemons\n1 kg lemons\n120 g coarse sea salt\n150 g lemon juice\n2 bay leaves\n");
    EXPECT_EQ(lemons.kind, "lemons");
    EXPECT_EQ(lemons.verdict, Verdict::inside);
    EXPECT_EQ(judged("1 kg lemons\n40 g salt\n150 g lemon juice\n").verdict, Verdict::below);
    EXPECT_EQ(judged("1 kg lemons\n120 g salt\n2 cups vinegar\n").verdict, Verdict::not_a_ferment);
    EXPECT_EQ(judged("1 kg lemons\n10 g salt\n3 tbsp olive oil\n150 g lemon juice\n").verdict,
              Verdict::not_a_ferment);
    EXPECT_EQ(judged("1 kg lemons\n120 g salt\n\nMethod\nRoast in the oven.\n").verdict,
              Verdict::not_a_ferment);
    EXPECT_EQ(judged("1 kg carrots\n22 g salt\n150 g lemon juice\n").verdict,
              Verdict::not_a_ferment);
}

TEST(AppraiseVerdict, RinsedSaltIsUndecided) {
    const auto a = judged(
        "Kimchi\n2 kg napa cabbage\n80 g sea salt\n50 g gochugaru\n\nMethod\nToss the cabbage with "
        "the salt and leave for 2 hours.\nRinse well and drain.\nMix with the powder and pack.\n");
    EXPECT_EQ(a.kind, "kimchi");
    EXPECT_EQ(a.verdict, Verdict::undecided);
    EXPECT_TRUE(cautions(a, "salting-bath"));
}

TEST(AppraiseVerdict, SlipsArePointedOut) {
    EXPECT_TRUE(advises(judged("5 lb cabbage\n3 teaspoons canning salt\n"), "likely slip"));
    EXPECT_TRUE(advises(judged("2 kg cabbage\n45 g salt\n45 g salt\n"), "twice"));
    EXPECT_FALSE(advises(judged("2 kg cabbage\n45 g salt\n"), "slip"));
}

TEST(AppraiseVerdict, TheMethodIsHeldAgainstTheList) {
    const auto more = judged(
        "2 kg cabbage\n45 g salt\n\nMethod:\nRub 45 g salt into the cabbage.\nPour 100 g salt "
        "over the top.\n");
    EXPECT_EQ(more.verdict, Verdict::undecided);
    EXPECT_EQ(
        judged("2 kg cabbage\n45 g salt\n\nMethod:\nPour 100 g salt over the cabbage.\n").verdict,
        Verdict::undecided);
    EXPECT_EQ(judged("2 kg cabbage\n45 g salt over the cabbage\n").verdict, Verdict::undecided);
    const auto open =
        judged("2 kg cabbage\n45 g salt\n\nMethod:\nPour 100 g salt or more over the cabbage.\n");
    EXPECT_EQ(open.verdict, Verdict::undecided);
    EXPECT_EQ(
        judged("2 kg cabbage\nsalt\n\nMethod:\nMix with 45 g salt for 5 more minutes.\n").verdict,
        Verdict::inside);
    const auto other = judged(
        "5 lb cabbage\n3 tbsp canning salt\n\nMethod:\nUse 1 tablespoon canning salt for every "
        "5 pounds of cabbage.\n");
    EXPECT_NE(other.verdict, Verdict::inside);
    EXPECT_TRUE(advises(other, "contradicts"));
    const auto only = judged(
        "5 lb cabbage\nsalt\n\nMethod:\nUse 3 tablespoons canning salt per 5 pounds of cabbage.\n");
    EXPECT_EQ(only.verdict, Verdict::inside);
}

TEST(AppraiseVerdict, SaltsThatAreNoneGetTheirWarning) {
    const auto reduced = judged("2 kg cabbage\n45 g reduced-sodium salt\n");
    EXPECT_EQ(reduced.verdict, Verdict::undecided);
    EXPECT_TRUE(cautions(reduced, "reduced-sodium"));
    const auto pink = judged("2 kg cabbage\n45 g pink curing salt\n");
    EXPECT_EQ(pink.verdict, Verdict::undecided);
    EXPECT_TRUE(cautions(pink, "curing-salt"));
    EXPECT_TRUE(cautions(judged("1 kg garlic\n30 g salt\n1 cup olive oil\n"), "garlic-oil"));
    EXPECT_TRUE(cautions(
        judged("2 kg cabbage\n45 g salt\n\nMethod:\nMix.\nStore in the pantry for a year.\n"),
        "canning"));
}

TEST(AppraiseVerdict, GramsRuleOverSpoonsAndADisagreementIsSaid) {
    const auto a = judged("2 kg cabbage\n3 tbsp (45 g) kosher salt\n");
    EXPECT_EQ(a.verdict, Verdict::inside);
    const auto wrong = judged("2 kg cabbage\n3 tbsp (450 g) canning salt\n");
    ASSERT_EQ(wrong.lines.size(), 2u);
    ASSERT_FALSE(wrong.lines[1].notes.empty());
    EXPECT_THAT(wrong.lines[1].notes.front(), HasSubstr("weight rules"));
    EXPECT_EQ(wrong.verdict, Verdict::above);
}

TEST(AppraiseVerdict, SpoonsFollowTheLanguageOfTheLine) {
    const auto german = appraise::read_line("2 EL Salz");
    ASSERT_TRUE(german.grams);
    EXPECT_NEAR(german.grams->high, 30 * 1.3, 1e-6);
    const auto english = appraise::read_line("2 tbsp canning salt");
    ASSERT_TRUE(english.grams);
    EXPECT_NEAR(english.grams->low, 2 * 14.78676478125 * 1.156, 1e-6);
}

TEST(AppraiseVerdict, ARequestThatMakesNoSenseIsRefused) {
    appraise::Refusal refusal;
    appraise::Request request;
    request.kind = "krout";
    EXPECT_FALSE(appraise::appraise("2 kg cabbage", request, refusal));
    EXPECT_THAT(refusal.advice, HasSubstr("kraut"));
    request = {};
    request.salt = "kosher salt";
    EXPECT_FALSE(appraise::appraise("2 kg cabbage", request, refusal));
    request = {};
    request.pins.push_back({"turnip", 100});
    EXPECT_FALSE(appraise::appraise("2 kg cabbage", request, refusal));
}

TEST(AppraiseVerdict, ALineOfSeveralThingsIsTakenApart) {
    EXPECT_EQ(judged("2 kg cabbage plus 4 carrots\n45 g salt\n").verdict, Verdict::undecided);
    const auto a = judged("1 kg cabbage, 22 g salt and 2 g caraway seeds\n");
    EXPECT_EQ(a.lines.size(), 3u);
    EXPECT_EQ(a.verdict, Verdict::inside);
    EXPECT_EQ(judged("1 kg cabbage + 22 g salt + 200 g mystery\n").verdict, Verdict::undecided);
}

TEST(AppraiseVerdict, AnAmountInParenthesesMayBeOpenOrAPercentage) {
    EXPECT_EQ(judged("2 kg cabbage\n45 g salt (or to taste)\n").verdict, Verdict::undecided);
    EXPECT_EQ(judged("2 kg cabbage\nkosher salt (2.2% of the weight of the cabbage)\n").verdict,
              Verdict::inside);
}

TEST(AppraiseVerdict, TheFirstLineIsATitleWhateverSectionItsWordsWouldOpen) {
    EXPECT_EQ(judged("How to make sauerkraut\n2 kg cabbage\n45 g salt\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("Kimchi without soaking\n1 kg napa cabbage\n30 g salt\n").verdict,
              Verdict::inside);
    // A bath that is there stays one.
    const auto bath = judged("Kimchi\n1 kg napa cabbage\n100 g salt, for soaking\n20 g salt\n");
    EXPECT_NE(bath.verdict, Verdict::inside);
    EXPECT_TRUE(bath.lines.at(2).left_out);
}

TEST(AppraiseVerdict, AVegetableAtTheTopIsATitleOnlyIfTheListWeighsIt) {
    const auto titled = judged("Garden cabbage\n\n2 kg cabbage\n45 g salt\n");
    EXPECT_EQ(titled.title, "Garden cabbage");
    EXPECT_EQ(titled.verdict, Verdict::inside);
    EXPECT_EQ(judged("Carrots\n2 kg cabbage\n45 g salt\n").verdict, Verdict::undecided);
    EXPECT_EQ(judged("Gurken\n2 kg Einlegegurken\n2 l Wasser\n140 g Salz\n").title, "Gurken");
    EXPECT_EQ(judged("Garden dills\n\n2 kg cucumbers\n2 L water\n140 g salt\n").title,
              "Garden dills");
}

TEST(AppraiseVerdict, AHeadingMayStandOnItsListsOwnLine) {
    const auto brine = judged("Carrots\n\n1 kg carrots\nBrine: 1 L water + 50 g salt\n");
    EXPECT_EQ(brine.verdict, Verdict::inside);
    ASSERT_TRUE(brine.salt_g);
    EXPECT_NEAR(brine.salt_g->high, 50, 1e-9);
    // A brine that may not be needed stays out.
    const auto spare =
        judged("Kraut\n2 kg cabbage\n45 g salt\nBrine if needed: 1 L water + 50 g salt\n");
    EXPECT_EQ(spare.verdict, Verdict::inside);
    EXPECT_NEAR(spare.salt_g->high, 45, 1e-9);
    EXPECT_EQ(judged("Kraut\n2 kg cabbage\n45 g salt (or 1/2 of that)\n").verdict,
              Verdict::undecided);
}

TEST(AppraiseVerdict, AWeightInAllIsThatOfAllHeads) {
    const auto line = appraise::read_line("2 medium heads cabbage (5 pounds in all)");
    ASSERT_TRUE(line.grams);
    EXPECT_NEAR(line.grams->high, 2268, 1);
}

TEST(AppraiseVerdict, SaltWithoutAnAmountIsNotNone) {
    for (const char* list : {"2 kg cabbage\nSalt to taste\n", "2 kg cabbage\nSalt as needed\n",
                             "Kraut\n2 kg cabbage\n\nMethod\nSprinkle with salt and pound.\n"}) {
        const auto a = judged(list);
        EXPECT_EQ(a.verdict, Verdict::undecided) << list;
        EXPECT_FALSE(a.salt_g.has_value()) << list;
    }
    EXPECT_EQ(judged("Kraut without salt\n2 kg cabbage\n").verdict, Verdict::below);
}

TEST(AppraiseVerdict, PeppersInPiecesAreVegetables) {
    for (const char* line : {"1 pepper, sliced", "2 red peppers", "500 g pepper, in strips",
                             "1 sweet red pepper, diced"}) {
        const auto read = appraise::read_line(line);
        ASSERT_TRUE(read.role) << line;
        EXPECT_EQ(*read.role, larder::Role::vegetable) << line;
    }
    EXPECT_EQ(*appraise::read_line("2 tsp pepper").role, larder::Role::aromatic);
    EXPECT_EQ(*appraise::read_line("5 g pepper").role, larder::Role::aromatic);
}

TEST(AppraiseVerdict, WhatMayBeMoreStaysInTheJar) {
    for (const char* water :
         {"1 L water, plus more as needed", "1 L water, as needed", "1 L water, or as needed",
          "1 L water (plus more if needed)", "1 L water, plus more for rinsing",
          "1 L water, plus extra for topping up", "1 L water, more if needed"}) {
        const auto a = judged(std::string("1 kg carrots\n") + water + "\n25 g salt\n");
        EXPECT_EQ(a.verdict, Verdict::below) << water << ": " << a.reason;
        EXPECT_FALSE(a.lines.at(1).left_out) << water;
    }
    // How a thing is prepared as needed says nothing of how much it is.
    EXPECT_EQ(judged("2 kg cabbage, trimmed as needed\n45 g salt\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("2 kg cabbage, washed if needed\n45 g salt\n").verdict, Verdict::inside);
}

TEST(AppraiseVerdict, AnOpenAmountHasNoUpperEnd) {
    for (const char* cabbage :
         {"at least 2 kg cabbage", "2 kg cabbage, plus more", "2 kg or more cabbage",
          "2 kg cabbage or more", "minimum 2 kg cabbage", "2 kg+ cabbage",
          "1 head cabbage, at least 2 kg", "1 head cabbage (2 kg or more)",
          "2 kg cabbage as needed", "mindestens 2 kg Weißkohl", "more than 2 kg cabbage",
          "over 2 kg cabbage", "2 kg cabbage, plus a bit more", "2 kg cabbage, more if needed",
          "2 kg cabbage (more if you have it)", "2 kg cabbage plus another head"}) {
        EXPECT_EQ(judged(std::string(cabbage) + "\n45 g salt\n").verdict, Verdict::undecided)
            << cabbage;
        // More of it only makes it worse.
        EXPECT_EQ(judged(std::string(cabbage) + "\n20 g salt\n").verdict, Verdict::below)
            << cabbage;
    }
    // A basis that the open amount does not belong to.
    const auto kraut = judged("Kraut\n2 kg cabbage\n45 g salt\n100 g water, plus more\n");
    EXPECT_EQ(kraut.verdict, Verdict::inside) << kraut.reason;
    EXPECT_FALSE(kraut.water_g);
    // A percentage grows with what it is a percentage of.
    EXPECT_EQ(judged("at least 2 kg cabbage\n2.2 % salt\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("Kraut\n2 kg cabbage\n100 g water, plus more\n2.2 % salt\n").verdict,
              Verdict::undecided);
    EXPECT_EQ(judged("2 kg cabbage\nat least 2.2 % salt\n").verdict, Verdict::undecided);
    EXPECT_EQ(judged("1 kg carrots\nat least 1 L water\n50 g salt\n").verdict, Verdict::undecided);
    EXPECT_EQ(judged("1 kg green beans\n3 L water to cover\n60 g salt\n").verdict,
              Verdict::undecided);
    // Weighed, it is closed.
    appraise::Request request;
    request.pins.push_back({"cabbage", 2000});
    EXPECT_EQ(judged("at least 2 kg cabbage\n45 g salt\n", request).verdict, Verdict::inside);
}

TEST(AppraiseVerdict, WhatIsOnlyUsedIfNeededIsNeitherThereNorNot) {
    EXPECT_EQ(judged("1 kg carrots\n25 g salt\n1 L water, if needed\n").verdict,
              Verdict::undecided);
    EXPECT_EQ(judged("1 kg carrots\n25 g salt\nwater, if needed\n").verdict, Verdict::undecided);
    EXPECT_EQ(judged("2 kg cabbage\n20 g salt\n25 g salt, if needed\n").verdict,
              Verdict::undecided);
    // Kraut is judged by its cabbage, and its juice is topped up.
    EXPECT_EQ(judged("2 kg cabbage\n45 g salt\n1 L water, if needed\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("1 kg carrots\n1 L water, for the brine and for rinsing\n25 g salt\n").verdict,
              Verdict::undecided);
    EXPECT_TRUE(judged("1 kg carrots\n1 L water, for soaking and rinsing\n25 g salt\n")
                    .lines.at(1)
                    .left_out);
    // A brine of its own strength is no part of the jar, nor is its salt.
    const auto spare = judged("2 kg cabbage\n20 g salt\n1 L water + 25 g salt, if needed\n");
    EXPECT_EQ(spare.verdict, Verdict::below) << spare.reason;
    EXPECT_TRUE(spare.lines.back().left_out);
    EXPECT_EQ(
        judged("2 kg cabbage\n45 g salt\n1 tbsp salt per quart of water, if needed\n").verdict,
        Verdict::inside);
}

TEST(AppraiseVerdict, AStrangerIsNoRemarkForItsDaysOrJars) {
    for (const char* stranger :
         {"1 kg mangelwurz, 3 days old", "500 g mangelwurz, to fill the jar",
          "mangelwurz, 3 days old, 1 kg", "2 cups mangelwurz in a bowl", "500 g bag of mangelwurz",
          "a 500 g bag mangelwurz", "1 bag (500 g) mangelwurz", "1 L jar of mangelwurz",
          "1 L jar mangelwurz", "3 mangelwurz to fill the jar", "3 mangelwurz, 3 days old",
          "1 kg mangelwurz, trimmed weight", "2 level cups mangelwurz", "mangelwurz to fill a jar",
          "1 bag carrots", "half a mangelwurz, 2 weeks old", "two mangelwurz for the jar",
          "enough mangelwurz for a 1 L jar", "mangelwurz for a jar"}) {
        const auto a = judged(std::string("2 kg cabbage\n45 g salt\n") + stranger + "\n");
        EXPECT_EQ(a.verdict, Verdict::undecided) << stranger;
    }
    for (const char* thing : {"1 L jar",
                              "2 quart jars",
                              "a 2 kg weight",
                              "1 large jar with lid",
                              "2 (1-quart) mason jars",
                              "1 gallon crock or bucket",
                              "two half-gallon jars",
                              "1 cabbage knife",
                              "2 jars, 500 ml each",
                              "cheesecloth and a jar",
                              "3 to 4 weeks",
                              "20 minutes",
                              "4.8 from 30 votes",
                              "Makes about 2 quarts",
                              "Serves 4",
                              "Ferments 3 weeks in a 2 L jar",
                              "1 zip bag for the weight",
                              "4 servings",
                              "Sodium 400 mg",
                              "1 clean 1-liter glass jar with a lid",
                              "a jar of about 1.5 litres",
                              "1.5 L Bügelglas",
                              "1 bocal de 1 L",
                              "Something to weigh it down, a stone for one",
                              "large bowl, cutting board, knife",
                              "a few weeks"}) {
        const auto a = judged(std::string("2 kg cabbage\n45 g salt\n") + thing + "\n");
        EXPECT_EQ(a.verdict, Verdict::inside) << thing << ": " << a.reason;
    }
}

TEST(AppraiseVerdict, AThingOfTheListMayHaveALongStory) {
    std::string story = " from the garden";
    for (int i = 0; i < 10; ++i)
        story += " and the garden";
    for (const char* thing : {"1 kg carrots,", "1 kg mangelwurz"}) {
        const auto a = judged("2 kg cabbage\n45 g salt\n" + (thing + story) + "\n");
        EXPECT_NE(a.verdict, Verdict::inside) << thing;
        EXPECT_NE(a.lines.back().sort, appraise::LineSort::method) << thing;
    }
}

TEST(AppraiseVerdict, FourIsAnOvenInFrenchAlone) {
    EXPECT_EQ(judged("2 kg cabbage\n45 g salt\nfour cloves garlic\n").verdict, Verdict::inside);
    EXPECT_EQ(judged("1 kg de carottes\n20 g de sel\n\nPréparation\nCuire au four.\n").verdict,
              Verdict::not_a_ferment);
}

TEST(AppraiseVerdict, AJarOfGarlicIsCountedOnce) {
    const auto a = judged("500 g garlic\n500 g water\n25 g salt\n");
    ASSERT_TRUE(a.of_everything && a.of_vegetables_and_water);
    EXPECT_NEAR(a.of_everything->middle(), 100 * 25.0 / 1025, 0.02);
    EXPECT_NEAR(a.of_vegetables_and_water->middle(), 2.5, 0.02);
    const auto beside = judged("500 g carrots\n500 g garlic\n500 g water\n25 g salt\n");
    ASSERT_TRUE(beside.of_everything);
    EXPECT_NEAR(beside.of_everything->middle(), 100 * 25.0 / 1525, 0.02);
}

TEST(AppraiseVerdict, HeadingsAreReadByWholeWords) {
    const auto lemons =
        judged("Salted lemons\n\nFor the preserved lemons:\n1 kg lemons\n120 g salt\n");
    EXPECT_EQ(lemons.verdict, Verdict::inside) << lemons.reason;
    EXPECT_EQ(judged("Kraut\n\nFor the conserve:\n2 kg cabbage\n45 g salt\n").verdict,
              Verdict::inside);
    EXPECT_TRUE(
        judged("Kraut\n2 kg cabbage\n45 g salt\nTo serve:\n100 g carrots\n").lines.back().left_out);
    const auto top = judged("Kraut\n2 kg cabbage\n45 g salt\nFor topping up:\n25 g salt\n");
    EXPECT_EQ(top.verdict, Verdict::inside) << top.reason;
    ASSERT_FALSE(top.lines.back().notes.empty());
    EXPECT_THAT(top.lines.back().notes.front(), HasSubstr("if it is needed"));
}

TEST(AppraiseVerdict, ALineIsQuotedInWholeCharacters) {
    // 79 bytes, then a character of two.
    const std::string stranger = "2 kg " + std::string(74, 'w') + "\xc3\xa9 wibble";
    const auto a = judged("2 kg cabbage\n45 g salt\n" + stranger + "\n");
    EXPECT_EQ(a.verdict, Verdict::undecided);
    EXPECT_THAT(a.reason, HasSubstr(std::string(74, 'w') + "\" (line 3)"));
}

TEST(AppraiseVerdict, SaltOfTheMethodHasNoLine) {
    const auto a = judged(
        "cabbage\nsalt\n\nMethod:\nUse 3 tablespoons canning salt per 5 pounds of cabbage.\n");
    ASSERT_FALSE(a.lines.empty());
    EXPECT_EQ(a.lines.back().number, 0u);
    EXPECT_THAT(a.reason + appraise::as_recipe(a), Not(HasSubstr("line 0")));
    EXPECT_THAT(appraise::as_recipe(a), HasSubstr("# in the method: Use 3"));
    // Salt of no weight in the method: the reason quotes it.
    const auto pinch =
        judged("2 kg cabbage\nsalt\n\nMethod:\nUse 3 tbsp salt per head of cabbage.\n");
    EXPECT_THAT(pinch.reason, Not(HasSubstr("line 0")));
}

TEST(AppraisePage, RecipeDataIsFoundWithTheUsualMistakes) {
    const std::string page =
        "<!DOCTYPE html><html><head><script type=\"application/ld+json\">"
        "{\"@graph\":[{\"@type\":\"WebPage\"},{\"@type\":[\"Recipe\"],\"name\":\"Kraut &amp; "
        "caraway\",\"recipeIngredient\":[\"2 &frac12; lb cabbage\",\"1&frac12; tbsp canning "
        "salt\",],\"recipeInstructions\":\"Shred.\nSalt.\"}]}</script></head><body>x</body>";
    ASSERT_TRUE(appraise::is_page(page));
    const auto read = appraise::read_page(page);
    ASSERT_TRUE(read.from_data);
    ASSERT_EQ(read.recipes.size(), 1u);
    EXPECT_EQ(read.recipes[0].name, "Kraut & caraway");
    EXPECT_EQ(judged(read.recipes[0].text).verdict, Verdict::inside);
}

TEST(AppraisePage, APageWithoutDataIsReadAsText) {
    const auto read =
        appraise::read_page("<html><body><ul><li>2 kg cabbage<li>45 g salt</ul></body></html>");
    EXPECT_FALSE(read.from_data);
    ASSERT_EQ(read.recipes.size(), 1u);
    EXPECT_EQ(judged(read.recipes[0].text).verdict, Verdict::inside);
}

TEST(AppraisePage, BrokenDataAndDeepNestingEndInAnAnswer) {
    const auto broken =
        appraise::read_page("<html><script type=\"application/ld+json\">{\"@type\":\"Recipe\", "
                            "\"recipeIngredient\":[\"2 kg</script><p>2 kg cabbage</p>");
    EXPECT_FALSE(broken.from_data);
    EXPECT_EQ(broken.remarks.size(), 1u);
    std::string deep = "<html>";
    for (int i = 0; i < 50000; ++i)
        deep += "<div>";
    EXPECT_EQ(appraise::read_page(deep).recipes.size(), 1u);
}

TEST(AppraisePage, aTagWithManyAttributesCostsNoMoreThanItsLength) {
    const auto page_with = [](int attributes, const std::string& list) {
        std::string tag = "<p class=\"a > b\" title='it\"s'";
        for (int i = 0; i < attributes; ++i)
            tag += " a" + std::to_string(i) +
                   (i % 3 == 0   ? "=\"1 > 0\""
                    : i % 3 == 1 ? " = x"
                                 : "");
        return "<html><body>" + tag + "><ul><li>" + list + "</ul></body></html>";
    };
    const std::string list = "2 kg cabbage<li>45 g salt";
    const auto few = appraise::read_page(page_with(3, list));
    const auto begun = std::chrono::steady_clock::now();
    const auto many = appraise::read_page(page_with(200'000, list));
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begun;
    EXPECT_LT(took.count(), 5.0); // the square of it took a minute
    ASSERT_EQ(many.recipes.size(), 1U);
    EXPECT_EQ(many.recipes.front().text, few.recipes.front().text);
    EXPECT_THAT(many.recipes.front().text, testing::HasSubstr("2 kg cabbage"));
    // What looks like a tag and is text, stays.
    std::string title = "<a";
    for (int i = 0; i < 300; ++i)
        title += " b" + std::to_string(i);
    const auto data = appraise::read_page(
        "<html><!-- " + title +
        " --><script type=\"application/ld+json\">{\"@type\":\"Recipe\","
        "\"name\":\"X\",\"recipeIngredient\":[\"2 kg cabbage\",\"45 g salt\",\"" +
        title + "\"]}</script></html>");
    EXPECT_TRUE(data.from_data);
    // A tag that never ends, and one that ends in the middle of a value.
    for (const std::string& end : {std::string(), std::string("=\""), std::string("='")})
        static_cast<void>(appraise::read_page("<html><p" + title.substr(2) + end));
}

TEST(AppraiseRecipe, SaysWhatItIsOrWhatMustBeFilledIn) {
    const std::string good =
        appraise::as_recipe(judged("2 kg cabbage\n45 g salt\n1 tsp caraway seeds\n"));
    EXPECT_THAT(good, HasSubstr("given  white_cabbage = 2000 g"));
    EXPECT_THAT(good, HasSubstr("2.25 % of white_cabbage"));
    const std::string open = appraise::as_recipe(judged("2 kg cabbage\n3 tbsp salt\n"));
    EXPECT_THAT(open, HasSubstr("fill in"));
}

TEST(AppraiseAnything, AnyBytesEndInAnAnswer) {
    std::mt19937 random(7);
    const std::string seeds[] = {
        "1 1/2 tbsp canning salt per 5 lb (2.3 kg) cabbage, or 2% of weight\n",
        "½ c. à s. de gros sel – 2 x 400 g #\n", "<html><script>{[\"", "3 EL Salz, 1.500,2 kg\n"};
    for (int round = 0; round < 400; ++round) {
        std::string text;
        for (int i = 0; i < 6; ++i)
            text += seeds[random() % 4];
        for (int i = 0; i < 20; ++i)
            text[random() % text.size()] = static_cast<char>(random() % 256);
        const auto a = judged(text);
        EXPECT_NE(a.verdict, Verdict::inside);
        static_cast<void>(appraise::as_recipe(a));
        static_cast<void>(appraise::read_page(text));
    }
}

} // namespace
