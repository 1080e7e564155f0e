#include "engine/appraise/appraise.hpp"
#include "engine/appraise/tokens.hpp"
#include "engine/larder/foreign.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

/// Forms in which people write lists: slips, lost blanks, what is said twice, what stands around.
namespace {

using namespace jarful;
using appraise::Verdict;
using testing::ElementsAre;
using testing::HasSubstr;

appraise::Appraisal judged(const std::string& text) {
    appraise::Refusal refusal;
    auto out = appraise::appraise(text, {}, refusal);
    EXPECT_TRUE(out.has_value()) << text << refusal.message;
    return out ? std::move(*out) : appraise::Appraisal{};
}

Verdict verdict(const std::string& text) {
    return judged(text).verdict;
}

/// A sentence behind a list of kraut that is inside.
Verdict behind_kraut(const std::string& sentence) {
    return verdict("Kraut\n\n1 kg cabbage\n24 g salt\n\n" + sentence + "\n");
}

TEST(AppraiseForms, AnAmountOfTheListMayBeNamedAgain) {
    const std::string list = "600 g carrots\n600 ml water\n30 g salt\n\n";
    EXPECT_EQ(verdict(list + "Stir the whole 30 g into the 600 ml and pour it over.\n"),
              Verdict::inside);
    EXPECT_EQ(verdict(list + "Stir 40 g into the 600 ml and pour it over.\n"), Verdict::undecided);
    // As much of another thing is not the list's.
    EXPECT_EQ(behind_kraut("Knead, press, and put a kilo of ice cubes on top."),
              Verdict::undecided);
}

TEST(AppraiseForms, ASlipInTheNameOfAVegetableIsSeen) {
    EXPECT_EQ(verdict("1 kg cabbge, shredded\n24 g salt\n"), Verdict::inside);
    EXPECT_EQ(verdict("1 kg Weiskohl\n24 g Salz\n"), Verdict::inside);
    const auto word = [](const char* folded) {
        const auto right = larder::spelt_right(folded, "en");
        return right ? right->word : "-";
    };
    EXPECT_EQ(word("cabbge"), "cabbage");
    EXPECT_EQ(word("cabbagee"), "cabbage");
    EXPECT_EQ(word("carraway"), "caraway");
    EXPECT_EQ(word("cabbgae"), "cabbage");
    EXPECT_EQ(word("cabbige"), "cabbage");
    EXPECT_EQ(word("cebbige"), "-");
    EXPECT_EQ(word("bets"), "-"); // too short to tell
    EXPECT_EQ(word(""), "-");
}

TEST(AppraiseForms, WhatIsCutUpByThePoundIsAVegetable) {
    EXPECT_EQ(verdict("1 kg cabbage\n500 g ocas, peeled and sliced\n36 g salt\n"), Verdict::inside);
    EXPECT_EQ(verdict("1 kg cabbage\n500 g ocas\n36 g salt\n"), Verdict::undecided);
    EXPECT_EQ(verdict("1 kg cabbage\n500 g salted ocas, sliced\n36 g salt\n"), Verdict::undecided);
}

std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> out;
    for (const appraise::Token& t : appraise::tokens_of(text))
        if (t.sort == appraise::Token::Sort::word) out.push_back(t.folded);
    return out;
}

TEST(AppraiseForms, BlanksThatAreLostAreFound) {
    EXPECT_THAT(words_of("400grams white cabbageshredded"),
                ElementsAre("grams", "white", "cabbage", "shredded"));
    EXPECT_THAT(words_of("2teaspoonsfine sea salt"),
                ElementsAre("teaspoons", "fine", "sea", "salt"));
    EXPECT_THAT(words_of("1clovegarlicminced"), ElementsAre("clove", "garlic", "minced"));
    EXPECT_THAT(words_of("1 kgRotkohl"), ElementsAre("kg", "rotkohl"));
    // A name, and words that are one.
    EXPECT_THAT(words_of("Harbourlight salt"), ElementsAre("harbourlight", "salt"));
    EXPECT_THAT(words_of("scotch bonnets, peppercorns"),
                ElementsAre("scotch", "bonnets", "peppercorns"));
    EXPECT_EQ(verdict("400grams (14 oz.)white cabbageshredded\n10gramsfine sea salt\n"),
              Verdict::inside);
}

TEST(AppraiseForms, WhatStandsAboveTheIngredientsIsNoneOfThem) {
    const std::string list = "Ingredients\n1 kg cabbage\n24 g salt\n";
    EXPECT_EQ(
        verdict("Kraut for winter\nFeaturing | Low Sodium, Vegan |\nDifficulty: easy\n" + list),
        Verdict::inside);
    // What has an amount stays.
    EXPECT_EQ(verdict("Kraut for winter\n24 g salt\n" + list), Verdict::above);
    // Once the list has begun, nothing of it is passed over at another heading.
    EXPECT_EQ(verdict("Kraut\n\nIngredients\n1 kg cabbage\n24 g salt\nhalf a bucket of wibble\n"
                      "For the spices:\n1 tsp caraway\n"),
              Verdict::undecided);
    EXPECT_EQ(verdict("Kraut\n\n1 kg cabbage\n24 g salt\nwhat is left of the old brine\n"
                      "Ingredients of the spice\n1 tsp caraway\n"),
              Verdict::undecided);
    EXPECT_EQ(verdict("1 kg cabbage\n24 g salt\n1 bucket of wibble\n"), Verdict::undecided);
    EXPECT_EQ(verdict("1 kg cabbage\n24 g salt\n1 bucket of 5 litres\n"), Verdict::inside);
    EXPECT_EQ(verdict("Kraut\n\n1 kg cabbage\n24 g salt\na jar of the last one\n"),
              Verdict::undecided);
    EXPECT_EQ(verdict("Ingredients (for one jar of 2 litres)\n1 kg cabbage\n24 g salt\n"),
              Verdict::inside);
    EXPECT_EQ(verdict("Kraut\n\nRecipe for 4 jars of 500 g\n1 kg cabbage\n24 g salt\n"
                      "2 x 1 L flip top jars or larger\n"),
              Verdict::inside);
    EXPECT_EQ(verdict("1 kg cabbage\n24 g salt\nTip 1: A cool room keeps it crisp\n"),
              Verdict::inside);
    EXPECT_EQ(verdict("1 kg cabbage\n24 g salt\n\n1 - mince it with the salt\n2 - press it down\n"),
              Verdict::inside);
}

TEST(AppraiseForms, WhatIsDoneToWhatIsReadyChangesNothing) {
    const std::string wait = "Salt it, press it into a crock and leave it for four weeks. ";
    EXPECT_EQ(behind_kraut(wait + "Process 30 minutes in a boiling water bath."), Verdict::inside);
    EXPECT_EQ(behind_kraut("Press it into jars and process 30 minutes in a boiling water bath."),
              Verdict::undecided);
    EXPECT_EQ(behind_kraut(wait + "To can: put the jars in a kettle of cold water."),
              Verdict::inside);
    EXPECT_EQ(behind_kraut("Press it bare into a crock and leave it for three weeks. The salt is "
                           "set on the table with it."),
              Verdict::undecided);
    EXPECT_EQ(behind_kraut("Press. After eight to ten days it is sour. Too salty? Then rinse it."),
              Verdict::inside);
    EXPECT_EQ(behind_kraut("Salt it and hang it in the brook overnight."), Verdict::undecided);
    EXPECT_EQ(behind_kraut("Salt it. After two days rinse it and press it into jars."),
              Verdict::undecided);
    EXPECT_EQ(behind_kraut(wait + "Strain off the brine."), Verdict::inside);
}

TEST(AppraiseForms, AnAmountMayStandOnALineOfItsOwn) {
    EXPECT_EQ(verdict("Kraut\n\nINGREDIENTS\n\n500g\nCabbage, white\n500g\nBeetroot, fresh\n"
                      "15g\nSalt, preserving\n"),
              Verdict::below);
    // Once only, it is not known what it is of.
    EXPECT_EQ(verdict("1 kg cabbage\n24 g salt\n500 g\nwhat there is\n"), Verdict::undecided);
}

TEST(AppraiseForms, ANounWrittenTogetherIsWhatItEndsWith) {
    EXPECT_EQ(verdict("1 kg Bauerngurken\n1 l Wasser\n60 g Salz\n"), Verdict::inside);
    EXPECT_EQ(verdict("1 kg Schlangenknollen\n1 l Wasser\n60 g Salz\n"), Verdict::undecided);
}

TEST(AppraiseForms, ASpoonOfVinegarMakesNoPickle) {
    const std::string sauce = "300 g chillies\n400 ml water\n25 g salt\n175 ml vinegar\n\n";
    EXPECT_EQ(verdict(sauce + "Put the chillies in the brine and leave them for two weeks. Then "
                              "blend them with the vinegar.\n"),
              Verdict::inside);
    EXPECT_EQ(verdict(sauce + "Pour all of it over the chillies and leave them for two weeks.\n"),
              Verdict::not_a_ferment);
    EXPECT_NE(verdict("2 lb napa cabbage\n1/4 cup kosher salt\n1 tbsp rice vinegar\n"
                      "2 tbsp gochugaru\n"),
              Verdict::not_a_ferment);
    EXPECT_EQ(verdict("700 g peppers\n180 g water\n40 g salt\n100 g vinegar (once fermented)\n\n"
                      "Ferment them in the brine.\n"),
              Verdict::inside);
}

TEST(AppraiseForms, SaltByTheTongueIsOpen) {
    for (const char* sentence : {"Taste and adjust for salt.", "Go on salting until it is right.",
                                 "Salt it until it is to your taste."})
        EXPECT_EQ(behind_kraut(sentence), Verdict::undecided) << sentence;
    EXPECT_EQ(verdict("1 head cauliflower\n3 quarts water\n3+ tbsp sea salt\n\n"
                      "I aim at 2 % of the water.\n"),
              Verdict::undecided);
}

TEST(AppraiseForms, PartsOfALineThatAreOften) {
    EXPECT_EQ(verdict("1 kg cabbage\n24 g salt\nJuice and zest of half a lime\n"), Verdict::inside);
    // Leaves that cover it.
    EXPECT_EQ(verdict("1.5 kg cabbage\n31 g salt\n2 whole cabbage leaves to lay on top\n"),
              Verdict::inside);
    const appraise::Appraisal either =
        judged("1 kg beets\n2 tsp sea salt (4 tsp if no whey is used)\n");
    ASSERT_TRUE(either.salt_g);
    EXPECT_LT(either.salt_g->low, 12);
    EXPECT_GT(either.salt_g->high, 18);
    EXPECT_EQ(verdict("6 red chillies, weighed whole 130 g\n250 ml water\n5 g salt\n"),
              Verdict::below);
    EXPECT_EQ(verdict("1800 g de carottes\n36 g de sel (2 % du poids des carottes)\n"),
              Verdict::inside);
    EXPECT_EQ(verdict("1 kg Weißkohl\n24 g Salz\n2 c. à s. huile d'olive\n"), Verdict::inside);
}

TEST(AppraiseForms, AStrangeWordBesideTheSaltIsDoubted) {
    for (const char* sentence :
         {"I use but a moiety of the salt these days.", "Rub a tithe of the salt into the shreds.",
          "Use the salt to scour the leaves."})
        EXPECT_EQ(behind_kraut(sentence), Verdict::undecided) << sentence;
    for (const char* sentence : {"In the evening knead it with the salt while the radio plays.",
                                 "My grandmother worked the salt in with both fists, singing.",
                                 "The neighbours come for supper: nobody talks of the moiety."})
        EXPECT_EQ(behind_kraut(sentence), Verdict::inside) << sentence;
    // Remarks on a line of salt or water.
    EXPECT_EQ(verdict("600 g carrots\n600 ml water, boiled the evening before\n30 g salt\n"),
              Verdict::inside);
    EXPECT_EQ(verdict("1 kg cabbage\n24 g salt, twenty either way\n"), Verdict::undecided);
}

TEST(AppraiseForms, AnAmountOfABrineThatIsBoiledDownIsNone) {
    const std::string list = "400 g carrots\n800 ml water\n36 g salt\n\n";
    EXPECT_EQ(verdict(list + "Boil salt and water down to half, cool and pour over.\n"),
              Verdict::undecided);
    EXPECT_EQ(verdict("500 g beans\n500 ml water\n32 g salt\n\nAdd a litre of vodka.\n"),
              Verdict::undecided);
}

} // namespace
