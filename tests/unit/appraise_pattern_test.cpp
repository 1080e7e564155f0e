#include "engine/appraise/appraise.hpp"
#include "engine/appraise/bounds.hpp"
#include "engine/appraise/sentence.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <fstream>
#include <string>
#include <vector>

/// The matcher of patterns by itself, what a line can be at most, and readings side by side.
namespace {

using namespace jarful;
using appraise::Concept;
using appraise::Step;
using appraise::Verdict;
using testing::HasSubstr;

struct Held {
    explicit Held(std::string words)
        : text(std::move(words))
        , tokens(appraise::tokens_of(text))
        , sentence(appraise::sentence_of(tokens, {}, nullptr)) {}
    std::string text;
    std::vector<appraise::Token> tokens;
    appraise::Sentence sentence;
};

TEST(AppraisePattern, StepsStandInOrderWithinTheirGap) {
    const Held held("Pour a lot of water over the salt");
    const Step near[] = {{Concept::pour, {}, 0, false, 0}, {Concept::water, {}, 3, false, 'w'}};
    const auto found = appraise::match(near, held.sentence);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->first, 0u);
    EXPECT_EQ(held.sentence.text(found->at('w'), found->at('w')), "water");
    const Step too_near[] = {{Concept::pour, {}, 0, false, 0}, {Concept::water, {}, 2, false, 0}};
    EXPECT_FALSE(appraise::match(too_near, held.sentence));
    const Step turned[] = {{Concept::water, {}, 0, false, 0}, {Concept::pour, {}, 9, false, 0}};
    EXPECT_FALSE(appraise::match(turned, held.sentence));
}

TEST(AppraisePattern, WhatMayNotStandBetweenEndsTheSearch) {
    const Held held("fill it with brine, then add water");
    const Step across[] = {{Concept::fill, {}, 0, false, 0}, {Concept::water, {}, 9, false, 0}};
    EXPECT_TRUE(appraise::match(across, held.sentence));
    const Step barred[] = {{Concept::fill, {}, 0, false, 0},
                           {Concept::water, Concept::brine, 9, false, 0}};
    EXPECT_FALSE(appraise::match(barred, held.sentence));
}

TEST(AppraisePattern, AnOptionalStepMayBeMissing) {
    const Step steps[] = {{Concept::water, {}, 0, false, 0},
                          {Concept::also, {}, 0, true, 'a'},
                          {Concept::salt, {}, 0, false, 0}};
    const Held with("water and salt");
    const Held without("water salt");
    const auto one = appraise::match(steps, with.sentence);
    const auto two = appraise::match(steps, without.sentence);
    ASSERT_TRUE(one && two);
    EXPECT_TRUE(one->has('a'));
    EXPECT_FALSE(two->has('a'));
}

TEST(AppraisePattern, AmountsAreOnePieceAndTimesAreNone) {
    const Held held("Leave 3 hours, then take 1 1/2 tablespoons per kilo");
    std::size_t volumes = 0;
    std::size_t times = 0;
    for (const appraise::Piece& p : held.sentence.pieces) {
        volumes += p.is.any(Concept::volume) ? 1 : 0;
        times += p.is.any(Concept::time) && p.count > 1 ? 1 : 0;
    }
    EXPECT_EQ(volumes, 1u);
    EXPECT_EQ(times, 1u);
    EXPECT_TRUE(held.sentence.pieces.back().is.any(Concept::bare_measure));
}

appraise::Bounds bounds(const std::string& line) {
    return appraise::bounds_of(appraise::tokens_of(line), {});
}

TEST(AppraiseBounds, AnUnknownThingIsAtMostWhatItsMeasureHolds) {
    EXPECT_NEAR(bounds("2 tablespoons wibble").vegetables, 2 * 15 * 1.4, 1e-6);
    EXPECT_EQ(bounds("2 tablespoons wibble").salt, 0);
    EXPECT_NEAR(bounds("2 tablespoons wibble salt").salt, 2 * 15 * 1.4, 1e-6);
    EXPECT_NEAR(bounds("30 g wibble sauce").salt, 9, 1e-6);
    EXPECT_TRUE(bounds("4-6 pepper grains").nothing());
    EXPECT_TRUE(bounds("Patience").nothing());
    EXPECT_TRUE(bounds("mangelwurz").as_others);
}

Verdict verdict(const std::string& text) {
    appraise::Refusal refusal;
    const auto a = appraise::appraise(text, {}, refusal);
    return a ? a->verdict : Verdict::undecided;
}

TEST(AppraiseBounds, ALineThatCannotMoveTheVerdictDoesNot) {
    EXPECT_EQ(
        verdict("1 kg cucumbers\n1 l water\n1 Tbsp salt\n4-6 pepper grains\nmature dill twig\n"
                "white horseradish root, 2 fingers\n"),
        Verdict::below);
    EXPECT_EQ(verdict("2 kg cabbage\n50 g salt\n1 tsp wibble\n"), Verdict::inside);
    EXPECT_EQ(verdict("2 kg cabbage\n50 g salt\n1 kg wibble\n"), Verdict::undecided);
    EXPECT_EQ(verdict("2 kg cabbage\n10 g salt\n1 kg wibble\n"), Verdict::below);
}

TEST(AppraiseBounds, WidenedByAFifthABoundMakesNoVerdictAndTurnsNone) {
    std::ifstream in(JARFUL_SOURCE_DIR "/tests/corpus/probes.jsonl");
    ASSERT_TRUE(in);
    std::vector<std::string> texts{"2 kg cabbage\n50 g salt\n150 g wibble\n",
                                   "2 kg cabbage\n40.5 g salt\n1 tbsp wibble\n"};
    for (std::string row; std::getline(in, row);)
        if (!row.empty()) texts.push_back(nlohmann::json::parse(row)["text"]);
    std::vector<Verdict> before;
    before.reserve(texts.size());
    for (const std::string& text : texts)
        before.push_back(verdict(text));
    for (const appraise::BoundRow& row : appraise::bound_rows()) {
        const double factor = std::string(row.key).ends_with("least") ? 1 / 1.2 : 1.2;
        appraise::widen_bound(row.key, factor);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            const Verdict after = verdict(texts[i]);
            if (after == before[i]) continue;
            std::printf("  %s x %.2f: %s\n", row.key, factor, texts[i].c_str());
            EXPECT_EQ(after, Verdict::undecided) << row.key << "\n" << texts[i];
        }
        appraise::widen_bound(row.key, 1 / factor);
    }
}

TEST(AppraiseBounds, WordsInFrontOfSaltChangeItsGrainAlone) {
    EXPECT_EQ(verdict("1 kg cabbage\n25 g Harbourlight salt\n"), Verdict::inside);
    EXPECT_EQ(verdict("1 kg de chou\n25 g de gros sel gris de mer\n"), Verdict::inside);
    for (const char* salt : {"garlic salt", "lite salt", "celery salt", "Epsom salt", "bath salt"})
        EXPECT_NE(verdict(std::string("1 kg cabbage\n25 g ") + salt + "\n"), Verdict::inside)
            << salt;
}

TEST(AppraiseBounds, APartOfAPieceIsNoPiece) {
    EXPECT_EQ(verdict("500 g radishes\n500 ml water\n45 g salt\nhalf a cabbage leaf on top\n"),
              Verdict::above);
}

TEST(AppraiseReadings, ThatDoNotAgreeAreBothKept) {
    EXPECT_EQ(verdict("1 kg cabbage\n25 g salt (5 % by weight)\n"), Verdict::undecided);
    EXPECT_EQ(verdict("1 kg cabbage\n25 g salt (2.5 % by weight)\n"), Verdict::inside);
}

TEST(AppraiseReadings, AVesselThatWaterFillsBoundsTheWhole) {
    EXPECT_EQ(
        verdict("1 lb green beans\n24 g salt\nwater\n\nPut the beans and the salt in a gallon "
                "jar and fill it up with water.\n"),
        Verdict::below);
}

TEST(AppraiseReadings, ARateOfTheMethodIsOneOfWhatItNames) {
    EXPECT_EQ(verdict("3 kg cabbage\nsalt\n\nReckon 70 g of salt to the kilo.\n"), Verdict::above);
    EXPECT_EQ(verdict("3 kg cabbage\nsalt\n\nSixty grams of salt do for 6 kilos of cabbage.\n"),
              Verdict::below);
    EXPECT_EQ(verdict("3 kg cabbage\nsalt\n\nTake 25 g of salt per kilo of cabbage.\n"),
              Verdict::inside);
    EXPECT_EQ(verdict("Sauerkraut\n\nF\u00fcr 4 Kilo Kraut rechnet man 100 g Salz.\n"),
              Verdict::inside);
    EXPECT_EQ(verdict("1 kg cabbage\n25 g salt\n\nKnead. The next morning work in 25 g more.\n"),
              Verdict::undecided);
}

TEST(AppraiseReadings, AnUndecidedListLeansAndTheSameListTheSameWay) {
    appraise::Refusal refusal;
    const std::string list = "5 lb cabbage\n3 tbsp salt\n";
    const auto one = appraise::appraise(list, {}, refusal);
    const auto two = appraise::appraise(list, {}, refusal);
    ASSERT_TRUE(one && two && one->lean && two->lean);
    EXPECT_EQ(one->lean->inside, two->lean->inside);
    EXPECT_EQ(one->lean->inside + one->lean->below + one->lean->above, appraise::lean_draws);
    EXPECT_GT(one->lean->below, 0u);
    // Where any way is too weak there is no word for inside.
    EXPECT_NE(appraise::describe(*one->lean), "inside");
    EXPECT_FALSE(appraise::appraise("2 kg cabbage\n45 g salt\n", {}, refusal)->lean);
}

TEST(AppraiseReadings, ALineCanBeAnsweredAndExplained) {
    appraise::Request request;
    request.lines.push_back({2, "45 g salt"});
    appraise::Refusal refusal;
    const auto a = appraise::appraise("2 kg cabbage\n2 scoops wibble salt\n", request, refusal);
    ASSERT_TRUE(a);
    EXPECT_EQ(a->verdict, Verdict::inside);
    request.lines.front().number = 9;
    EXPECT_FALSE(appraise::appraise("2 kg cabbage\n", request, refusal));
    EXPECT_THAT(refusal.message, HasSubstr("no line 9"));
    const auto why = appraise::why("2 kg cabbage\n25 g of salt per kilo\n", 2);
    ASSERT_TRUE(why);
    EXPECT_THAT(*why, HasSubstr("salt_rate"));
    EXPECT_FALSE(appraise::why("2 kg cabbage\n", 3));
}

TEST(AppraiseReadings, ALanguageThatIsNotReadIsUndecided) {
    EXPECT_EQ(
        verdict("Curtido\n\nKutt kålen fint med kniv, rivjern eller mandolin. Riv gulroten og "
                "kutt løken i tynne strimler. Hakk hvitløken fint og ha alt i en bolle. Salt: "
                "det skal være 2,5 %.\n"),
        Verdict::undecided);
}

} // namespace
