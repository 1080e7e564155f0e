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
          "1 kg cabbage for each jar\n22 g salt\n", "1 kg cabbage\n22 g salt (per jar)\n"})
        EXPECT_EQ(verdict(list), Verdict::undecided) << list;
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
          "it."})
        EXPECT_EQ(verdict(kraut(method)), Verdict::inside) << method;
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
        // From nothing of it on: how much stays or goes in is bounded, and not known.
        if (a.of_vegetables) {
            EXPECT_LT(a.of_vegetables->low, 2) << method;
        }
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

const std::string of_cabbage = "1 kg cabbage\n25 g salt\n\n";
const std::string of_carrots = "1 kg carrots\n1 L water\n60 g salt\n\n";

void all_are(Verdict wanted, const std::string& list, std::initializer_list<const char*> texts) {
    for (const char* text : texts) {
        const auto a = judged(list + text + "\n");
        EXPECT_EQ(a.verdict, wanted) << text << ": " << a.reason;
    }
}

TEST(AppraiseDoubt, WhatIsServedLaterIsRinsedAllTheSame) {
    all_are(Verdict::undecided, of_cabbage,
            {"Toss with the salt and leave overnight. Rinse, pack into jars, ferment for a week, "
             "then serve.",
             "Toss with the salt. Drain off the brine, pack, and serve after a week.",
             "Mix with the salt. Rinse well and drain, then store until ready to eat.",
             "Toss with salt. Until ready to serve, drain and pack into jars.",
             "Mix with salt. Add 500 g carrots, ferment for a week, then serve.",
             "Toss with salt. Drain and serve."});
    all_are(Verdict::inside, of_cabbage,
            {"Mix with the salt and pack. Before serving, rinse and drain.",
             "Mix with the salt and pack. Rinse before serving.",
             "Mix with the salt and pack. Drain well before eating.",
             "Mix with the salt and pack. After three weeks, drain and serve.",
             "Mit dem Salz mischen. Vor dem Servieren absp\u00fclen.",
             "Mix with the salt and pack. Serve with 2 tomatoes."});
}

TEST(AppraiseDoubt, MoreSaltInTheMethodIsNotTheListsOwn) {
    all_are(Verdict::undecided, of_cabbage,
            {"Toss with the salt, then add another tablespoon of salt on top.",
             "Toss with the salt. Pack and sprinkle with another 20 g salt.",
             "Toss with the salt. Add more salt to taste.",
             "Toss with the salt and a handful of extra salt.",
             "Mit dem Salz mischen. Noch einen Essl\u00f6ffel Salz dar\u00fcber streuen.",
             "M\u00e9langer avec le sel. Ajouter une cuill\u00e8re \u00e0 soupe de sel par-dessus.",
             "Toss with the salt. Then add a tablespoon of salt.",
             "Toss with the salt. Add a little more salt."});
    all_are(
        Verdict::inside, of_cabbage,
        {"Toss with the salt. Do not add more salt.", "Mix with 25 g salt and pack.",
         "Weigh the salt. Sprinkle 25 g salt on top and massage.",
         "Using more salt than this slows it. Mix with the salt.",
         "Toss half the cabbage with half the salt, add another layer of cabbage and salt, repeat.",
         "Mix with the salt. If the juice does not cover it, add more salt water."});
}

TEST(AppraiseDoubt, VinegarAndOldBrineInTheMethodAreAdded) {
    all_are(Verdict::undecided, of_cabbage,
            {"Mix with the salt. Add a cup of juice from the last batch.",
             "Mix with the salt. Pour in 1/2 cup brine from an older ferment.",
             "Mix with the salt. Add 250 ml whey.", "Mit dem Salz mischen. 250 ml Essig zugeben.",
             "Mix with the salt. Stir in some old brine."});
    all_are(Verdict::inside, of_cabbage,
            {"Wipe the jar with vinegar. Mix with the salt.",
             "Mix with the salt. Do not add vinegar.",
             "Mix with the salt. Pack until the brine rises over it.",
             "Mix with the salt. Leave space for the juice of the cabbage."});
    all_are(Verdict::undecided, of_carrots,
            {"Dissolve the salt in the water. Stir in 250 ml vinegar.",
             "Dissolve the salt in the water, pour over, cover with vinegar.",
             "Dissolve the salt in the water. Add 250 ml whey."});
    all_are(Verdict::inside, "",
            {"1 kg carrots\n500 ml whey\n37 g salt\n\nMix the whey with the salt. Add 500 ml whey "
             "to the carrots.\n"});
}

TEST(AppraiseDoubt, DrainedInGermanAndFrench) {
    all_are(Verdict::undecided, of_cabbage,
            {"Mit dem Salz mischen. Den Saft weggie\u00dfen.",
             "Mit dem Salz mischen. Die Fl\u00fcssigkeit wegsch\u00fctten.",
             "Mit dem Salz mischen. Das Wasser wegsch\u00fctten.",
             "Mit Salz mischen. Gie\u00dfen Sie die Fl\u00fcssigkeit ab.",
             "M\u00e9langer avec le sel. Bien \u00e9goutter puis mettre en bocal.",
             "M\u00e9langer avec le sel. Vider l'eau rendue.", "Vider l'eau rendue.",
             "Den Saft weggie\u00dfen.", "Mix with the salt. The liquid is then discarded.",
             "M\u00e9langer avec le sel. Jeter le jus."});
    all_are(Verdict::inside, of_cabbage,
            {"Mit dem Salz mischen. Den Saft nicht weggie\u00dfen.",
             "Das Waschwasser wegsch\u00fctten. Mit dem Salz mischen.",
             "Laver et \u00e9goutter le chou. M\u00e9langer avec le sel.",
             "Mit dem Salz mischen. Den Saft auffangen."});
}

TEST(AppraiseDoubt, OnlyTheLiquidThatIsKeptIsKept) {
    all_are(Verdict::undecided, of_cabbage,
            {"Mix with the salt. Drain the cabbage, keep the leaves whole, and pack.",
             "Mix with the salt. Drain and keep in the fridge.",
             "Mix with the salt. Strain the cabbage; keep the liquid for soup.",
             "Mix with the salt. Strain the cabbage, keep the liquid for soup.",
             "Mix with the salt. Drain, and save the core for later."});
    all_are(Verdict::inside, of_cabbage,
            {"Mix with the salt. Drain, reserving the brine, and pack with the reserved brine.",
             "Mix with the salt. Drain over a bowl to catch the juices.",
             "Mix with the salt. Drain off the liquid and keep it.",
             "Mix with the salt. Skim off the scum and discard it with the brine it sits in."});
}

TEST(AppraiseDoubt, APartAndAnAmountInWords) {
    all_are(Verdict::undecided, of_cabbage,
            {"Use 20 g of salt. Save the remaining salt for another batch.",
             "Mix in the salt. Mix in two grated carrots and a bunch of radishes."});
    all_are(Verdict::inside, of_cabbage,
            {"Sprinkle with half of the salt. Set the remaining salt aside. Massage, then add the "
             "remaining salt.",
             "Cut the cabbage in two. Mix with the salt.",
             "Mix the shredded cabbage, one leaf kept aside, with the salt."});
    all_are(Verdict::undecided, of_carrots,
            {"Dissolve the salt in two litres of water.",
             "Dissolve the salt in the water. Dilute with another litre of water.",
             "Dissolve the salt in the water, pour over. Fill with tap water.",
             "Dissolve the salt in the water. Pour half over the carrots."});
    all_are(
        Verdict::inside, of_carrots,
        {"Dissolve the salt in a litre of water.",
         "Dissolve the salt in the water. Pour half over the carrots, wait, then pour the rest.",
         "Dissolve the salt in the water. Pour over. Fill a bag with tap water and lay it on top.",
         "Cut each carrot in two. Dissolve the salt in the water."});
}

TEST(AppraiseDoubt, BrineMadeFirstIsNoSalting) {
    all_are(Verdict::undecided, of_carrots,
            {"Make the brine and pour it over the carrots. Leave overnight, drain and pack.",
             "Prepare the brine and add the carrots to it. Rinse the carrots after a day."});
    all_are(Verdict::inside, of_carrots,
            {"Make the brine. Wash and drain the carrots. Pour the brine over.",
             "Prepare the brine and set it aside. Rinse the carrots. Pack them and pour the brine "
             "over.",
             "Weigh the salt and stir it into the water. Rinse the carrots. Pour the brine over.",
             "Pr\u00e9parer la saumure. Laver et \u00e9goutter les carottes. Verser la saumure."});
}

TEST(AppraiseDoubt, RinsedJarsAndLeavesDoNoHarm) {
    all_are(Verdict::undecided, of_cabbage,
            {"Toss cabbage with salt. Pack the cabbage, rinsed and drained, into a jar.",
             "Toss cabbage with salt in a bowl. Take it out of the bowl and rinse it.",
             "Toss cabbage with salt. Wash jars, rinse the cabbage and drain.",
             "Toss cabbage with salt. Pack into a jar the cabbage that has been rinsed.",
             "Toss with salt. Rinse the leaves and pack."});
    all_are(Verdict::inside, of_cabbage,
            {"Toss cabbage with salt. Pack tightly into a jar, rinsed and dried beforehand.",
             "Toss cabbage with salt. Pack into a jar that has been rinsed with boiling water.",
             "Toss cabbage with salt. Sterilise the jar: wash it in soapy water and rinse.",
             "Toss cabbage with salt. While it rests, wash jars, rinse well and drain upside down "
             "on a towel.",
             "Toss cabbage with salt. Rinse the reserved outer leaf and lay it on top."});
}

TEST(AppraiseDoubt, JuiceThatIsSqueezedOutAndGoesIn) {
    all_are(
        Verdict::undecided, of_cabbage,
        {"Toss cabbage with salt. Squeeze out as much brine as you can; pack the cabbage into the "
         "jar.",
         "Toss cabbage with salt. Squeeze out the juice and pack the cabbage.",
         "Toss cabbage with salt. Drain off the juice, then pack the cabbage with fresh brine."});
    all_are(Verdict::inside, of_cabbage,
            {"Toss cabbage with salt. Squeeze out as much brine as you can; pack the cabbage and "
             "brine into the jar.",
             "Toss cabbage with salt. Press out the juice, then tip everything, juice and all, "
             "into the jar.",
             "Toss cabbage with salt. Squeeze out the juice. Pack it and all its liquid.",
             "Toss cabbage with salt. Pack it and all its liquid.",
             "Toss cabbage with salt and pack. Remove air bubbles from the brine.",
             "Toss cabbage with salt and pack. After 3 weeks, drain what you need and refrigerate "
             "the rest."});
}

TEST(AppraiseDoubt, TheLineItselfMaySayThatItIsPouredOff) {
    all_are(Verdict::undecided, "",
            {"1 kg cabbage\n25 g salt, rinsed off before packing\n",
             "1 kg cabbage\n25 g salt (rinsed off after 1 hour)\n",
             "1 kg cabbage\n25 g salt (most of it is drained away)\n",
             "1 kg cabbage, salted and rinsed\n25 g salt\n",
             "1 kg cabbage, salted overnight, drained\n25 g salt\n",
             "1 kg Wei\u00dfkohl, gesalzen und abgesp\u00fclt\n25 g Salz\n",
             "1 kg de chou, sal\u00e9 puis rinc\u00e9\n25 g de sel\n",
             "1 kg carrots\n1 L water (discard half)\n60 g salt\n",
             "1 kg cabbage (salted, then drained)\n25 g salt\n"});
    all_are(Verdict::inside, "",
            {"1 kg carrots, rinsed and peeled\n25 g salt\n1 L water\n35 g salt\n",
             "1 kg carrots, rinsed and drained\n1 L water\n60 g salt\n",
             "1 kg Wei\u00dfkohl, gewaschen\n25 g Salz\n",
             "1 kg cabbage\n25 g salt (not rinsed off)\n"});
}

TEST(AppraiseDoubt, VinegarInANoteOnTheWater) {
    all_are(Verdict::undecided, "",
            {"1 kg cucumbers\n1 L water (plus 1 L vinegar)\n70 g salt\n",
             "1 kg cucumbers\n1 L water (half vinegar)\n70 g salt\n",
             "1 kg cucumbers\n1 L water (or vinegar)\n70 g salt\n",
             "1 kg cucumbers\n1 L water/vinegar\n70 g salt\n",
             "1 kg Gurken\n1 L Wasser (plus 500 ml Essig)\n70 g Salz\n",
             "1 kg cucumbers, in vinegar\n1 L water\n70 g salt\n"});
    all_are(Verdict::inside, "",
            {"1 kg cucumbers\n1 L water (no vinegar)\n70 g salt\n",
             "1 kg cucumbers\n1 L water (without chlorine)\n70 g salt\n"});
}

TEST(AppraiseDoubt, TheSpoonsAfterOrStayInView) {
    all_are(Verdict::undecided, "", {"1 kg cabbage\n25 g salt (or 1 tsp salt)\n"});
    all_are(
        Verdict::inside, "",
        {"1 kg cabbage\n25 g salt (or 1 1/2 tbsp salt)\n", "1 kg cabbage\n25 g salt (1 tsp)\n"});
}

TEST(AppraiseDoubt, CuredOlivesAndWhatIsNotTrimmed) {
    all_are(Verdict::undecided, "",
            {"1 kg cabbage\n25 g salt\n100 g olives\n",
             "1 kg Wei\u00dfkohl, ungeputzt\n27 g Salz\n",
             "1 kg cabbage, with core and outer leaves\n27 g salt\n",
             "1 kg cabbage, gross weight\n27 g salt\n", "1 kg Wei\u00dfkohl, brutto\n27 g Salz\n",
             "1 kg cabbage (gross weight)\n27 g salt\n"});
    all_are(Verdict::inside, "",
            {"1 kg cabbage\n25 g salt\n100 g raw olives\n",
             "1 kg cabbage, without core and outer leaves\n27 g salt\n",
             "1 kg Wei\u00dfkohl, geputzt\n27 g Salz\n"});
}

TEST(AppraiseDoubt, ATitleAndTheWeightOfAllHeads) {
    all_are(Verdict::undecided, "",
            {"Mixed vegetables\n25 g salt\n", "1 kg cabbage\nmixed vegetables\n25 g salt\n",
             "any vegetables you like\n1 kg cabbage\n25 g salt\n"});
    all_are(Verdict::inside, "",
            {"Mixed vegetables\n1 kg cabbage\n25 g salt\n", "Vegetables\n1 kg cabbage\n25 g salt\n",
             "Gem\u00fcse\n1 kg Wei\u00dfkohl\n25 g Salz\n",
             "10 heads garlic (500 g peeled cloves)\n500 ml water\n27 g salt\n"});
}

TEST(AppraiseDoubt, TheKindThatIsAskedForFitsTheVegetable) {
    EXPECT_THAT(judged("1 kg jalape\u00f1os, stems removed\n35 g salt\n").decides,
                HasSubstr("--kind pepper-mash"));
    EXPECT_THAT(judged("1 kg cabbage\n1 L water\n60 g salt\n").decides, HasSubstr("--kind kraut"));
}

TEST(AppraiseDoubt, TheSameIsSaidInManyWays) {
    all_are(Verdict::undecided, of_cabbage,
            {"Mix with the salt. Pack the drained cabbage.",
             "Mix with the salt. Remove the excess liquid.",
             "Mix with the salt. Get rid of the liquid.",
             "Mix with the salt. Spin the cabbage dry.", "Mix with the salt. Add 20 g salt more.",
             "Mix with the salt. Stir in a few carrots.",
             "Mix with the salt. Top up with pickle juice.",
             "M\u00e9langer avec le sel. Ajouter du petit-lait.",
             "M\u00e9langer avec le sel. Compl\u00e9ter avec de l'eau.",
             "Mix with the salt, rest, pack drained into jars.",
             "Mix with the salt. Use a third less salt.",
             "Mix with the salt. Drain, reserving half of the brine.",
             "Mix with the salt. Rinse, pack, and keep for a week before serving.",
             "Mix with the salt. Rinse the cabbage in the jar.",
             "Mix with the salt. Mettre le chou dans un bocal, puis rincer."});
    all_are(Verdict::inside, of_cabbage,
            {"M\u00e9langer avec le sel. Tasser dans un bocal rinc\u00e9.",
             "Mix with the salt. Pack. When ready, drain and serve cold.",
             "Mix with the salt. Use a fork to remove a portion from the brine.",
             "Mix with the salt and pack. Wipe off the salt from the rim.",
             "Mix with the salt. If there is not enough brine, press harder.",
             "Mix with the salt. If it leaks, wash the outside of the jar and rinse it.",
             "Mix with the salt. It will release liquid; do not discard this liquid.",
             "Remove the outer leaves and rinse them. Mix with the salt. Lay the rinsed outer "
             "leaves on top."});
    all_are(Verdict::inside, of_carrots,
            {"Make the brine. Wash the carrots. Pour the brine over the drained carrots.",
             "Die Lake ansetzen. Karotten waschen und abtropfen lassen. Mit der Lake "
             "\u00fcbergie\u00dfen."});
    all_are(Verdict::undecided, "",
            {"1 kg cabbage, soaked in salt water and drained\n25 g salt\n",
             "1 kg cabbage, drained after salting\n25 g salt\n",
             "1 kg cabbage\n25 g salt, to be washed off\n", "1 kg cabbage\n25 g salt or 1 tsp\n"});
}

TEST(AppraiseDoubt, AMethodThatNeverSaltsMayRinseTheSaltOff) {
    all_are(Verdict::undecided, of_cabbage,
            {"Drain off the brine, pack, and serve after a week.",
             "Rinse well and drain, then store until ready to eat.",
             "Drain the cabbage, keep the leaves whole, and pack.", "Drain and keep in the fridge.",
             "Strain the cabbage; keep the liquid for soup.", "Den Saft weggie\u00dfen."});
    all_are(Verdict::undecided, of_carrots, {"Pour half over the carrots."});
    all_are(Verdict::inside, of_cabbage,
            {"Rinse the cabbage and shred it. Pack into jars.",
             "Wash the cabbage, drain. Pack into jars.",
             "Rinse the jars. Pack the cabbage in them.", "Leave for 3 weeks, strain, chill."});
}

TEST(AppraiseDoubt, WhatIsSaidOfCoresAndOfEnoughDoesNoHarm) {
    all_are(Verdict::undecided, "", {"1 kg cabbage, with core\n27 g salt\n"});
    all_are(Verdict::inside, "",
            {"1 kg cabbage with core removed\n27 g salt\n",
             "1 kg cabbage, with outer leaves reserved\n27 g salt\n",
             "1 kg cucumbers, with skins\n1 L water\n70 g salt\n",
             "1 kg cabbage (on sale, washed and drained)\n25 g salt\n"});
    all_are(Verdict::inside, of_cabbage,
            {"Add the salt and massage until there is enough brine to cover the cabbage.",
             "Sprinkle the salt over the cabbage, adding more salt as you go until all of it is "
             "used."});
    all_are(Verdict::undecided, of_carrots,
            {"Dissolve the salt in the water. Pour enough brine over to cover them.",
             "Make the brine, pour it over the carrots. After a day drain and rinse them."});
}

} // namespace
