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
          "1 kg cabbage & carrots", "1 kg cabbage + carrots", "1 kg cabbage (and carrots)",
          "1 kg cabbage (plus 2 carrots)"}) {
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

std::string kraut(const std::string& method) {
    return "1 kg cabbage\n22 g salt\n\nMethod\n" + method + "\n";
}

TEST(AppraiseDoubt, SaltThatIsRinsedOffIsUndecided) {
    for (const char* method :
         {"Mix cabbage with the salt and leave 4 hours. Rinse well, drain and pack into jars.",
          "Rinse the cabbage well under cold water after salting.",
          "Mix the cabbage with the salt. Wash off the salt.",
          "Kohl mit Salz mischen. Danach gut aussp\u00fclen und in Gl\u00e4ser f\u00fcllen.",
          "Saler le chou. Puis rincer \u00e0 l'eau froide.",
          "Salt the cabbage, leave 2 hours, then rinse and drain.",
          "Toss the cabbage in salt. Rinse off excess salt and put in jars.",
          "Rub salt in. Next day wash the cabbage and pack.",
          "Mix with salt. Run under cold water and pack.",
          "Mix with salt. Soak in fresh water for 1 hour to remove the salt.",
          "Mix with salt. Shake off the excess salt.",
          "Mit Salz mischen. Unter flie\u00dfendem Wasser waschen.",
          "Combine the salt with the water. Add the cabbage and leave overnight. Rinse and "
          "drain."}) {
        const auto a = judged(kraut(method));
        EXPECT_EQ(a.verdict, Verdict::undecided) << method;
        EXPECT_THAT(a.reason, HasSubstr("rinsed off")) << method;
    }
    // By itself on a line, without a full stop.
    EXPECT_EQ(verdict("1 kg cabbage\n22 g salt\n\nMix with the salt.\nRinse well\n"),
              Verdict::undecided);
    for (const char* method :
         {"Mix with the salt. Squeeze out and discard the liquid.",
          "Sprinkle with salt and let it stand. Pour off the liquid and pack.",
          "Sprinkle with salt. Let sit overnight. Drain. Pack.", "Mix with salt. Strain.",
          "Mix with salt. Lift the cabbage out of its juice and pack.",
          "Mix with salt. Leave the liquid behind.", "Mit Salz mischen. Das Wasser abgie\u00dfen.",
          "Mit Salz bestreuen. Abtropfen lassen und die Fl\u00fcssigkeit wegsch\u00fctten.",
          "Saler le chou. \u00c9goutter et presser."}) {
        const auto a = judged(kraut(method));
        EXPECT_EQ(a.verdict, Verdict::undecided) << method;
        EXPECT_THAT(a.reason, HasSubstr("poured off")) << method;
    }
}

TEST(AppraiseDoubt, WhatIsRinsedBeforeTheSaltingDoesNoHarm) {
    for (const char* method :
         {"Rinse the cabbage and shred it. Sprinkle with the salt and massage. Pack into a clean "
          "jar. Rinse the weight first.",
          "Rinse the cabbage before you salt it. Mix with the salt.",
          "Rinse the jars. Mix with the salt. Rinse the jars and lids, then fill them.",
          "Toss with salt. Squeeze and knead until the juices come out. Pack with all its liquid. "
          "Before serving, rinse if too salty and drain.",
          "Wash jars in hot soapy water and rinse well. Layer cabbage and salt. Do not rinse or "
          "drain the cabbage.",
          "Kohl mit Salz mischen. In saubere, ausgesp\u00fclte Gl\u00e4ser f\u00fcllen.",
          "M\u00e9langer avec le sel. Tasser dans les bocaux. Rincer les bocaux avant.",
          "Mix with salt. Transfer to a rinsed crock. If mold appears, discard it all with its "
          "brine.",
          "Massage the salt in. Fill a bag with water and lay it on top. Skim off scum and discard "
          "it."}) {
        EXPECT_EQ(verdict(kraut(method)), Verdict::inside) << method;
    }
}

TEST(AppraiseDoubt, TheMethodMaySayThatNotAllGoesIn) {
    const std::string carrots = "1 kg carrots\n1 L water\n50 g salt\n\nMethod\n";
    EXPECT_EQ(verdict(carrots + "Dissolve 50 g salt in 1 L water. Pour it over the carrots.\n"),
              Verdict::inside);
    for (const char* method :
         {"Dissolve the salt in the water. Pour enough brine to cover.",
          "Dissolve the salt in the water. Pour over. You will have brine left over.",
          "Dissolve the salt. Discard half of the brine.",
          "Dissolve the salt. Pour over and save any extra brine.",
          "Make the brine. Use as much of it as you need to cover the carrots.",
          "Dissolve the salt in the water. Keep the rest of the brine in the fridge.",
          "Pour over. Add another 500 ml of water.", "Dissolve the salt in 2 L water."}) {
        EXPECT_EQ(verdict(carrots + method + "\n"), Verdict::undecided) << method;
    }
    for (const char* method :
         {"Use only half of the salt.", "Use three quarters of the salt.", "Use 1/2 of the salt.",
          "Salt it overnight, drain off the brine. Cover with fresh water.",
          "Mix with salt. Add 500 ml water to cover.", "Mix with salt. Top up the jar with water.",
          "Toss the cabbage with 1 kg grated carrots, then salt.",
          "Mix with salt. Stir in 60 ml fish sauce.", "Add a kilo of carrots.",
          "Mix in the grated carrots (500 g) and the salt.",
          "You will not need all of the salt."}) {
        const auto a = judged(kraut(method));
        EXPECT_EQ(a.verdict, Verdict::undecided) << method;
        EXPECT_THAT(a.reason, HasSubstr("he method")) << method;
        EXPECT_FALSE(a.of_vegetables) << method;
    }
    for (const char* method :
         {"Add half the cabbage and half the salt, pound, then repeat with the rest.",
          "Mix the 1 kg of shredded cabbage with the salt. Cut the core into 4 pieces.",
          "Mix. If the brine does not cover it, add 250 ml water."}) {
        EXPECT_EQ(verdict(kraut(method)), Verdict::inside) << method;
    }
    for (
        const char* method :
        {"Bring the water and salt to a boil and let it cool. Wash the carrots and trim them. Pack "
         "them into a jar. Pour the brine over until they are covered.",
         "Soak the carrots in ice water for 2 hours. Drain. Make a brine of the salt and the water "
         "and pour it over the carrots.",
         "Boil 500 ml of the water with the salt, add the remaining water, cool. Fill the jar and "
         "cover with brine."}) {
        EXPECT_EQ(verdict(carrots + method + "\n"), Verdict::inside) << method;
    }
    // With less salt it stays below.
    EXPECT_EQ(verdict("1 kg cabbage\n10 g salt\n\nMethod\nUse only half of the salt.\n"),
              Verdict::below);
}

TEST(AppraiseDoubt, WheyIsCountedAsWaterAndTheBrineOfAFermentIsNotKnown) {
    const auto whey = judged("500 g carrots\n500 ml whey\n12 g salt\n");
    EXPECT_EQ(whey.verdict, Verdict::below);
    ASSERT_TRUE(whey.water_g);
    EXPECT_NEAR(whey.water_g->middle(), 500, 20);
    EXPECT_THAT(whey.assumptions, testing::Contains(HasSubstr("counted as water")));
    EXPECT_EQ(verdict("500 g carrots\n500 ml whey\n25 g salt\n"), Verdict::inside);
    EXPECT_EQ(verdict("500 g carrots\nwhey to cover\n12 g salt\n"), Verdict::undecided);
    EXPECT_EQ(verdict("500 g carrots\n500 ml white wine\n12 g salt\n"), Verdict::below);
    EXPECT_EQ(verdict("1 kg cabbage\n2 tbsp whey\n22 g salt\n"), Verdict::inside);
    for (const char* line :
         {"500 ml pickle brine", "100 ml sauerkraut juice", "100 ml ripe brine"}) {
        const auto a = judged(std::string("1 kg carrots\n22 g salt\n") + line + "\n");
        EXPECT_EQ(a.verdict, Verdict::undecided) << line;
        EXPECT_THAT(a.reason, HasSubstr("nobody states")) << line;
        EXPECT_THAT(a.decides, HasSubstr("Leave it out")) << line;
    }
}

TEST(AppraiseDoubt, OfTwoAmountsNeitherIsChosenSilently) {
    for (const char* list :
         {"1 kg cabbage\n24 g salt, or 12 g for a milder kraut\n",
          "1 kg cabbage, or 2 kg for a big jar\n22 g salt\n",
          "1 kg cabbage, or 2 for a big crock\n22 g salt\n", "1 kg cabbage\n24 g salt, use half\n",
          "1 kg cabbage (plus another kg)\n22 g salt\n", "1 kg cabbage (x2)\n22 g salt\n",
          "1 kg cabbage (2x)\n22 g salt\n", "1 kg cabbage, doubled\n22 g salt\n",
          "1/2 head cabbage (1.5 kg), cored and shredded\n33 g salt\n",
          "1 kg cabbage\nany other vegetables you like\n22 g salt\n",
          "1 kg cabbage\nyour favorite vegetables\n22 g salt\n",
          "1 kg cabbage\n22 g salt\n\nany other vegetables you like\n",
          "1 kg cabbage\n22 g salt\n\nMethod\nAdd any other vegetables you like.\n"}) {
        EXPECT_EQ(verdict(list), Verdict::undecided) << list;
    }
    const auto salt = appraise::read_line("24 g salt, or 12 g for a milder kraut");
    ASSERT_TRUE(salt.grams);
    EXPECT_NEAR(salt.grams->low, 12, 1e-9);
    EXPECT_NEAR(salt.grams->high, 24, 1e-9);
    ASSERT_FALSE(salt.notes.empty());
    EXPECT_THAT(salt.notes.front(), HasSubstr("two amounts differ"));
    const auto half = appraise::read_line("1/2 head cabbage (1.5 kg), cored and shredded");
    ASSERT_TRUE(half.grams);
    EXPECT_NEAR(half.grams->low, 750, 1e-6);
    EXPECT_NEAR(half.grams->high, 1500, 1e-6);
    EXPECT_EQ(verdict("1 kg cabbage, cut in half\n22 g salt\n"), Verdict::inside);
    EXPECT_EQ(verdict("2 x 500 g cabbage\n22 g salt\n"), Verdict::inside);
}

TEST(AppraiseDoubt, AUnitThatIsNotKnownIsNoNumberOfHeads) {
    for (const char* line : {"1 stone cabbage", "1 peck cabbage", "1 catty cabbage",
                             "2 trugs of carrots", "1 lug cucumbers", "2 ton cabbage"}) {
        const auto a = judged(std::string(line) + "\n140 g salt\n");
        EXPECT_EQ(a.verdict, Verdict::undecided) << line;
        EXPECT_FALSE(a.lines.front().understood) << line;
        EXPECT_THAT(a.reason, HasSubstr("is not known")) << line;
    }
    // Beside another vegetable it is not passed over as a thing of the kitchen.
    EXPECT_EQ(verdict("1 kg carrots\n1 stone cabbage\n22 g salt\n"), Verdict::undecided);
    for (const char* line : {"1 English cucumber", "2 Kirby cucumbers", "3 rainbow carrots",
                             "2 large green cabbages", "1 stone (6.35 kg) cabbage"}) {
        EXPECT_TRUE(appraise::read_line(line).understood) << line;
    }
}

TEST(AppraiseDoubt, WhatIsOptionalStaysSoInTheRecipe) {
    const std::string recipe = appraise::as_recipe(judged(
        "1 apple (optional)\n2 kg cabbage\n48 g salt\n100 ml water (optional)\n"
        "1 tsp caraway (optional)\n4 g peppercorns (optional)\na handful of dill (optional)\n"));
    // What must be there is given, even where it stands further down.
    EXPECT_THAT(recipe, HasSubstr("given  white_cabbage = 2000 g as white cabbage"));
    EXPECT_THAT(recipe, HasSubstr("% of white_cabbage optional as apple"));
    EXPECT_THAT(recipe, HasSubstr("% of white_cabbage optional as water"));
    EXPECT_THAT(recipe, HasSubstr("= 0.2 % of white_cabbage optional as "));
    EXPECT_THAT(recipe, HasSubstr("by hand, optional: dill"));
}

TEST(AppraiseDoubt, WhatIsTheMatterIsSaid) {
    EXPECT_THAT(judged("1 kg cabbage\n10 g to 25 g salt\n").decides,
                HasSubstr("which amount of salt is meant"));
    EXPECT_THAT(judged("1 kg cabbage\n22 g salt (optional)\n").decides,
                HasSubstr("whether the salt that is called optional goes in"));
    EXPECT_THAT(judged("1 kg cabbage\n1.5 tbsp salt\n").decides, HasSubstr("spooning"));
    for (const char* list : {"1 kg cabbage 20 g salt\n", "1 kg cabbage\n22 g salt x 2\n"}) {
        const auto a = judged(list);
        EXPECT_THAT(a.reason, HasSubstr("second amount or number")) << list;
        EXPECT_THAT(a.advice, testing::Not(testing::Contains(HasSubstr("is not known here"))));
    }
    EXPECT_THAT(judged("1 kg cabbage\n22 g garlic salt\n").advice,
                testing::Contains(HasSubstr("is not known here")));
    appraise::Request request;
    request.salt = "salt";
    appraise::Refusal refusal;
    EXPECT_FALSE(appraise::appraise("1 kg cabbage\n", request, refusal));
    EXPECT_THAT(refusal.advice, testing::StartsWith("Write the grain: "));
    EXPECT_THAT(refusal.advice, testing::EndsWith("."));
}

} // namespace
