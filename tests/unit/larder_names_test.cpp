#include "engine/larder/fold.hpp"
#include "engine/larder/larder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <utility>

namespace {

using namespace jarful::larder;
using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

/// The printed name of what a name resolves to; "" for nothing.
std::string found(std::string_view name, const Larder& larder = Larder()) {
    const auto match = larder.find(name);
    return match ? std::string(match->material->name) : "";
}

bool exact(std::string_view name) {
    const auto match = Larder().find(name);
    return match && match->exact;
}

TEST(LarderNames, EveryNameOfEveryMaterialLeadsBackToIt) {
    const Larder larder;
    for (const Material& material : materials()) {
        EXPECT_EQ(found(material.name), material.name);
        EXPECT_EQ(found(material.id), material.name) << material.id;
        for (const std::string_view name : material.names) {
            EXPECT_EQ(found(name), material.name) << name;
            EXPECT_TRUE(exact(name)) << name;
        }
    }
}

TEST(LarderNames, AsManyAreOfferedAsAreAskedFor) {
    const Larder larder;
    for (const std::size_t limit : {0u, 1u, 2u, 3u, 6u}) {
        EXPECT_EQ(larder.nearest("fine salt", limit).size(), std::min<std::size_t>(limit, 6));
        EXPECT_EQ(larder.offered("fine salt", limit).size(), std::min<std::size_t>(limit, 6));
        EXPECT_EQ(larder.offered("shredded white cabbage", limit).size(), limit > 0 ? 1 : 0);
    }
}

TEST(LarderNames, WhatIsNewIsKnownByItsNameAndRole) {
    Larder larder;
    OwnMaterial own;
    own.name = "grey salt";
    own.role = Role::salt;
    own.salt = Figure{0.97, 0.98, 0.99, Status::common_practice, "the sack"};
    const Material& added = larder.add(own);
    EXPECT_EQ(added.id, "grey salt");
    EXPECT_EQ(added.name, "grey salt");
    EXPECT_EQ(added.role, Role::salt);
    EXPECT_EQ(added.warning, SaltWarning::none);
    EXPECT_EQ(added.salt->source, "the sack");
    EXPECT_EQ(larder.named("grey salts"), &added);
    own.name = "light grey salt";
    own.source = "the label";
    EXPECT_EQ(larder.add(own).warning, SaltWarning::reduced_sodium);
    EXPECT_EQ(larder.named("light grey salt")->salt->source, "the label");
    own.name = "pink grey salt";
    own.source.clear();
    own.salt->source = {};
    EXPECT_EQ(larder.add(own).warning, SaltWarning::curing);
    EXPECT_EQ(larder.named("pink grey salt")->salt->source, "stated in the recipe");
    // One that is there already keeps its id, its names and what is not stated.
    OwnMaterial carrot;
    carrot.name = "carrot";
    carrot.piece = Figure{70, 80, 90, Status::common_practice, ""};
    const Material& ours = larder.add(carrot);
    EXPECT_EQ(ours.id, "carrot");
    EXPECT_EQ(ours.role, Role::vegetable);
    EXPECT_EQ(ours.piece->typical, 80);
    EXPECT_EQ(ours.piece_word, "root");
    EXPECT_TRUE(ours.water);
    EXPECT_EQ(larder.named("carrots"), &ours);
    EXPECT_EQ(larder.named("carrot stick"), &ours);
    // Whoever states how heavy a spoon of it is has said which one is meant.
    OwnMaterial salt;
    salt.name = "salt";
    EXPECT_TRUE(larder.add(salt).vague);
    salt.bulk_density = Figure{1.1, 1.2, 1.3, Status::common_practice, ""};
    EXPECT_FALSE(larder.add(salt).vague);
    OwnMaterial beads;
    beads.name = "glass beads";
    beads.piece = Figure{1, 2, 3, Status::common_practice, ""};
    EXPECT_EQ(larder.add(beads).piece_word, "piece");
    EXPECT_EQ(larder.named("glass bead")->role, Role::other);
}

TEST(LarderNames, CaseBlanksHyphensAndUnderscoresAreAlike) {
    for (const char* name : {"fine sea salt", "Fine Sea-Salt", "FINE_SEA_SALT", "  fine  sea salt ",
                             "fine, sea salt"}) {
        EXPECT_EQ(found(name), "fine sea salt") << name;
    }
    EXPECT_EQ(found("jalapeños"), "jalapeño");
    EXPECT_EQ(found("JALAPEÑO"), "jalapeño");
    EXPECT_EQ(found("jalapeno"), "jalapeño");
}

TEST(LarderNames, LettersOfTheRestOfEuropeArePlainToo) {
    const std::pair<const char*, const char*> letters[] = {
        {"Łyżka SÓL żółć ĄĘŚĆŃŹ", "lyzka sol zolc aescnz"},
        {"šťáva ČŘŽ ě ů", "stava crz e u"},
        {"ő Ű İ ı ğ Ş", "o u i i g s"},
        {"œuf Œ ĳs", "oeuf oe ijs"},
        {"ĀĿſ", "als"},
        {"ƀ", "ƀ"},
    };
    for (const auto& [written, plain] : letters)
        EXPECT_EQ(fold(written), plain);
}

TEST(LarderNames, PluralsAreFoundWithoutBeingListed) {
    const std::pair<const char*, const char*> plurals[] = {
        {"cabbages", "white cabbage"},     {"carrots", "carrot"},
        {"radishes", "red radish"},        {"green tomatoes", "green tomato"},
        {"cranberries", "cranberry"},      {"bay leaves", "bay leaf"},
        {"caraway seeds", "caraway seed"}, {"cloves of garlic", "garlic"},
        {"spring onions", "spring onion"}, {"heads of cabbage", "white cabbage"},
    };
    for (const auto& [plural, name] : plurals)
        EXPECT_EQ(found(plural), name) << plural;
}

TEST(LarderNames, SynonymsOfBothSidesOfTheSeaAgree) {
    const std::pair<const char*, const char*> same[] = {
        {"courgette", "zucchini"},
        {"swede", "rutabaga"},
        {"spring onion", "scallion"},
        {"napa", "Chinese cabbage"},
        {"napa cabbage", "pe-tsai"},
        {"daikon", "mooli"},
        {"beetroot", "beet"},
        {"aubergine", "eggplant"},
        {"capsicum", "bell pepper"},
        {"cabbage", "green cabbage"},
        {"cabbage", "white cabbage"},
        {"bay", "bay leaf"},
        {"caraway", "caraway seed"},
        {"canning salt", "pickling salt"},
        {"iodised salt", "iodized salt"},
        {"pak choi", "bok choy"},
    };
    for (const auto& [one, other] : same) {
        EXPECT_NE(found(one), "") << one;
        EXPECT_EQ(found(one), found(other)) << one << " / " << other;
    }
}

TEST(LarderNames, PepperAndPeppersAreDifferentThings) {
    EXPECT_EQ(Larder().find("pepper")->material->role, Role::aromatic);
    EXPECT_TRUE(Larder().find("pepper")->material->vague);
    EXPECT_EQ(Larder().find("peppers")->material->role, Role::vegetable);
    EXPECT_FALSE(Larder().find("peppers")->material->vague);
    EXPECT_EQ(Larder().find("bell peppers")->material->role, Role::vegetable);
    EXPECT_EQ(found("peppercorns"), "whole black pepper");
}

TEST(LarderNames, TheLongestKnownPartWins) {
    EXPECT_EQ(found("organic fine sea salt"), "fine sea salt");
    EXPECT_FALSE(exact("organic fine sea salt"));
    EXPECT_EQ(found("large head of green cabbage, cored"), "white cabbage");
    EXPECT_EQ(found("mustard greens"), "mustard greens");
    EXPECT_EQ(found("good brown mustard seeds"), "mustard seed");
    EXPECT_EQ(found("bunch of spring onions, trimmed"), "spring onion");
    EXPECT_EQ(found("salt for the brine"), "salt");
}

TEST(LarderNames, WhatIsNamedIsKnownAsAWhole) {
    const Larder larder;
    for (const char* name : {"organic fine sea salt", "sea salt and sugar half and half",
                             "not salt", "rock salt for roads", "salt for the brine", "", "xyzzy"})
        EXPECT_EQ(larder.named(name), nullptr) << name;
    for (const char* name : {"Fine Sea Salts", "pickling-salt", "carrots"}) {
        ASSERT_NE(larder.named(name), nullptr) << name;
        EXPECT_EQ(larder.named(name), larder.find(name)->material) << name;
    }
}

TEST(LarderNames, WhatIsOfferedBeginsWithThePartThatIsKnown) {
    const Larder larder;
    EXPECT_EQ(larder.offered("sea salt and sugar half and half").front(), "sea salt");
    EXPECT_EQ(larder.offered("not salt").front(), "salt");
    EXPECT_THAT(larder.offered("carot"), Contains("carrot"));
    EXPECT_THAT(larder.offered("tractor"), IsEmpty());
    EXPECT_THAT(larder.offered("not salt", 0), IsEmpty());
}

TEST(LarderNames, PartOfANameDoesNotStandForSomethingElse) {
    for (const char* name :
         {"carrot juice", "dried mushrooms", "rose water", "water chestnut", "celery salt",
          "garlic salt", "epsom salt", "smoked salt", "black beans", "low sodium miso"}) {
        EXPECT_EQ(found(name), "") << name;
    }
}

TEST(LarderNames, NothingIsFoundInNothing) {
    for (const char* name : {"", "   ", "--", "xyzzy", "\xC3", "\xFF\xFE", "é"}) {
        EXPECT_FALSE(Larder().find(name)) << name;
        EXPECT_THAT(Larder().nearest(name), IsEmpty()) << name;
    }
    const std::string endless(100000, 'a');
    EXPECT_FALSE(Larder().find(endless));
    EXPECT_THAT(Larder().nearest(endless), IsEmpty());
    std::string many;
    for (int i = 0; i < 10000; ++i)
        many += "salt ";
    EXPECT_FALSE(Larder().find(many));
}

TEST(LarderNames, AReducedSodiumSaltIsNeverPlainSalt) {
    for (const char* name :
         {"reduced sodium salt", "reduced-sodium salt", "low sodium sea salt", "lite salt",
          "fine sea salt, reduced sodium", "cooking lite salt", "salt (low sodium)",
          "potassium salt", "salt substitute", "reduced sodium canning salt", "light sea salt"}) {
        const auto match = Larder().find(name);
        ASSERT_TRUE(match) << name;
        EXPECT_EQ(match->material->warning, SaltWarning::reduced_sodium) << name;
        EXPECT_FALSE(match->material->salt) << name;
    }
    // "light" speaks of the flake here.
    EXPECT_EQ(Larder().find("coarse light flake kosher salt")->material->warning,
              SaltWarning::none);
}

TEST(LarderNames, ACuringSaltIsNeverPlainSalt) {
    for (const char* name : {"curing salt", "pink salt", "pink curing salt", "fine pink salt",
                             "salt with nitrite", "curing sea salt", "sea salt, cured"}) {
        const auto match = Larder().find(name);
        ASSERT_TRUE(match) << name;
        EXPECT_EQ(match->material->warning, SaltWarning::curing) << name;
        EXPECT_FALSE(match->material->salt) << name;
    }
    EXPECT_EQ(found("pink himalayan salt"), "ground pink rock salt");
}

TEST(LarderNames, VagueNamesSayWhatToWriteInstead) {
    for (const char* name :
         {"salt", "sea salt", "kosher salt", "pepper", "dill", "mustard", "coriander", "chilli"}) {
        const Material& material = *Larder().find(name)->material;
        EXPECT_TRUE(material.vague) << name;
        EXPECT_FALSE(material.vague_hint.empty()) << name;
    }
    EXPECT_EQ(Larder().find("salt")->material->salt->typical, 1);
    EXPECT_EQ(Larder().find("salt")->material->role, Role::salt);
}

TEST(LarderNames, TheNearestNamesOfAMisspeltOneComeFirst) {
    const Larder larder;
    EXPECT_THAT(larder.nearest("carot"), Contains("carrot"));
    EXPECT_EQ(larder.nearest("cabage").front(), "cabbage");
    EXPECT_EQ(larder.nearest("carraway").front(), "caraway");
    EXPECT_EQ(larder.nearest("acraway").front(), "caraway");
    EXPECT_THAT(larder.nearest("carot", 0), IsEmpty());
    EXPECT_THAT(larder.nearest("bary leaf", 1), SizeIs(1));
    EXPECT_THAT(larder.nearest("tractor"), IsEmpty());
}

TEST(OwnMaterials, ANewMaterialIsFoundByItsName) {
    Larder larder;
    OwnMaterial own;
    own.name = "Ferry Lane sea beans";
    own.role = Role::vegetable;
    own.water = Figure{0.88, 0.90, 0.92, Status::common_practice, {}};
    const Material& added = larder.add(own);
    EXPECT_EQ(larder.find("ferry-lane sea bean")->material, &added);
    EXPECT_TRUE(larder.find("Ferry Lane sea beans")->exact);
    EXPECT_EQ(added.water->source, "stated in the recipe");
    EXPECT_FALSE(Larder().find("ferry lane sea beans") &&
                 Larder().find("ferry lane sea beans")->exact);
    EXPECT_THAT(larder.nearest("ferry lane see beans"), ElementsAre("Ferry Lane sea beans"));
}

TEST(OwnMaterials, AnOverrideKeepsWhatItDoesNotState) {
    Larder larder;
    OwnMaterial own;
    own.name = "carrots";
    own.bulk_density = Figure{0.50, 0.52, 0.54, Status::common_practice, {}};
    own.source = "weighed at Quay Street";
    const Material& added = larder.add(own);
    EXPECT_EQ(added.role, Role::vegetable);
    EXPECT_EQ(added.id, "carrot");
    EXPECT_EQ(added.name, "carrots");
    EXPECT_EQ(added.bulk_density->typical, 0.52);
    EXPECT_EQ(added.bulk_density->source, "weighed at Quay Street");
    EXPECT_EQ(added.water->typical, Larder().find("carrot")->material->water->typical);
    for (const char* name : {"carrot", "carrots", "grated carrots", "big old carrots"}) {
        EXPECT_EQ(larder.find(name)->material, &added) << name;
    }
}

TEST(OwnMaterials, ASaltWithAStatedSpoonIsNoLongerVague) {
    Larder larder;
    OwnMaterial own;
    own.name = "salt";
    own.bulk_density = Figure{1.0, 1.1, 1.2, Status::common_practice, {}};
    const Material& added = larder.add(own);
    EXPECT_FALSE(added.vague);
    EXPECT_EQ(added.role, Role::salt);
    EXPECT_EQ(larder.find("plain salt")->material, &added);
}

TEST(OwnMaterials, TheLaterOfTwoRulesAndTheFirstKeepsItsAddress) {
    Larder larder;
    OwnMaterial own;
    own.name = "pickling salt";
    own.bulk_density = Figure{1, 1, 1, Status::common_practice, {}};
    const Material& first = larder.add(own);
    for (int i = 0; i < 100; ++i) {
        OwnMaterial other;
        other.name = "thing " + std::to_string(i);
        (void)larder.add(other);
    }
    own.bulk_density = Figure{2, 2, 2, Status::common_practice, {}};
    const Material& second = larder.add(own);
    EXPECT_EQ(first.bulk_density->typical, 1);
    EXPECT_EQ(larder.find("canning salt")->material, &second);
}

TEST(OwnMaterials, MovingALarderKeepsItsMaterials) {
    Larder larder;
    OwnMaterial own;
    own.name = "xq";
    own.role = Role::seasoning;
    own.salt = Figure{0.1, 0.1, 0.1, Status::common_practice, {}};
    const Material& added = larder.add(own);
    const Larder moved = std::move(larder);
    EXPECT_EQ(moved.find("xq")->material, &added);
    EXPECT_EQ(added.name, "xq");
}

TEST(OwnMaterials, ANewSaltKeepsTheWarningOfItsName) {
    Larder larder;
    OwnMaterial own;
    own.name = "our half-price lite mix";
    own.role = Role::salt;
    EXPECT_EQ(larder.add(own).warning, SaltWarning::reduced_sodium);
    own.name = "cured house blend";
    EXPECT_EQ(larder.add(own).warning, SaltWarning::curing);
    own.name = "house blend";
    EXPECT_EQ(larder.add(own).warning, SaltWarning::none);
}

TEST(OwnMaterials, TextIsCopied) {
    Larder larder;
    {
        const std::string gone =
            "a source that goes out of scope and is long enough to be allocated";
        OwnMaterial own;
        own.name = std::string("a name that is long enough to be allocated on the heap");
        own.salt = Figure{0.1, 0.1, 0.1, Status::from_memory, std::string_view(gone)};
        (void)larder.add(own);
    }
    const auto match = larder.find("a name that is long enough to be allocated on the heap");
    ASSERT_TRUE(match);
    EXPECT_EQ(match->material->salt->source,
              "a source that goes out of scope and is long enough to be allocated");
}

} // namespace
