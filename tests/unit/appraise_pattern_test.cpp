#include "engine/appraise/appraise.hpp"
#include "engine/appraise/bounds.hpp"
#include "engine/appraise/compile/row.hpp"
#include "engine/appraise/sentence.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <chrono>
#include <fstream>
#include <string>
#include <vector>

/// The matcher of patterns by itself, what a line can be at most, and readings side by side.
namespace {

using namespace jarful;
using appraise::Concept;
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

/// Where a row fits a text, as the words from its first to its last piece; "-" if nowhere.
std::string found(const std::string& row, const std::string& text, appraise::Concepts said = {}) {
    Held held(text);
    held.sentence.say(said);
    const appraise::Row parsed(row);
    const auto match = appraise::Fit(parsed.pattern(), held.sentence).first();
    return match ? std::string(held.sentence.text(match->first, match->last)) : "-";
}

TEST(AppraisePattern, StepsStandInOrderWithinTheirGap) {
    const std::string text = "Pour a lot of water over the salt";
    EXPECT_EQ(found("pour ~3 water", text), "Pour a lot of water");
    EXPECT_EQ(found("pour ~2 water", text), "-");
    EXPECT_EQ(found("water ~9 pour", text), "-");
    const Held held(text);
    const appraise::Row row("pour ~3 w:water");
    const auto match = appraise::Fit(row.pattern(), held.sentence).first();
    ASSERT_TRUE(match && match->has('w') && !match->has('x'));
    EXPECT_EQ(held.sentence.text(match->at('w'), match->at('w')), "water");
}

TEST(AppraisePattern, WhatMayNotStandBetweenEndsTheSearch) {
    const std::string text = "fill it with brine, then add water";
    EXPECT_EQ(found("fill ~9 water", text), text);
    EXPECT_EQ(found("fill ~9 !brine water", text), "-");
    EXPECT_EQ(found("fill ~9 !brine|comma brine", text), "fill it with brine");
}

TEST(AppraisePattern, WhatMayNotStandNearIsSeenOnEitherSide) {
    EXPECT_EQ(found("rinse !>2:vessel", "rinse the jar"), "-");
    EXPECT_EQ(found("rinse !>2:vessel", "rinse the big old jar"), "rinse");
    EXPECT_EQ(found("!<2:negation rinse", "do not ever rinse"), "-");
    EXPECT_EQ(found("!<1:negation rinse", "do not ever rinse"), "rinse");
}

TEST(AppraisePattern, AStepNamesWhatItIsAndIsNot) {
    EXPECT_EQ(found("salty^salt", "the salted cabbage"), "salted");
    EXPECT_EQ(found("salty^salt", "the salt"), "-");
    EXPECT_EQ(found("rinse&done", "rinse the rinsed jar"), "rinsed");
    EXPECT_EQ(found("rinse&done&start", "rinse the rinsed jar"), "-");
    EXPECT_EQ(found("*", "rinse"), "rinse");
}

TEST(AppraisePattern, AnOptionalStepMayBeMissing) {
    EXPECT_EQ(found("water a:also? salt", "water and salt"), "water and salt");
    EXPECT_EQ(found("water a:also? salt", "water salt"), "water salt");
    EXPECT_EQ(found("water a:also? salt", "water for salt"), "-");
}

TEST(AppraisePattern, WhatIsSaidHoldsForAllOfTheSentence) {
    EXPECT_EQ(found("+water salt", "salt and water"), "salt");
    EXPECT_EQ(found("+brine salt", "salt and water"), "-");
    EXPECT_EQ(found("+brine +salted salt", "salt and brine", appraise::Concept::salted), "salt");
    EXPECT_EQ(found("-salted salt", "salt it", appraise::Concept::salted), "-");
    const Held held("salt and water");
    const appraise::Row row("+water -brine");
    EXPECT_TRUE(appraise::Fit(row.pattern(), held.sentence));
}

TEST(AppraisePattern, TheNearestWayIsTakenAndAllOfThemAreKnown) {
    const Held held("Drain the jar, the jar and the jars");
    const appraise::Row row("drain ~9 x:vessel");
    const appraise::Pattern pattern = row.pattern();
    const appraise::Fit fit(pattern, held.sentence);
    ASSERT_TRUE(fit.first());
    EXPECT_EQ(fit.first()->at('x'), 2u);
    EXPECT_EQ(fit.all('x').count(), 3u);
    EXPECT_FALSE(fit.first(1));
    // A way that leads on is taken before a nearer one that does not.
    EXPECT_EQ(found("drain ~9 vessel ~1 also", "drain the jar of the jar and wait"),
              "drain the jar of the jar and");
}

TEST(AppraisePattern, ARowThatIsNoneIsRefused) {
    for (const char* row : {"wibble", "pour !<2 water", "pour ~2", "pour !salt", "!>2:salt pour",
                            "pour? water", "pour ~300 water", "^pour"})
        EXPECT_THROW(static_cast<void>(appraise::Row(row)), std::exception) << row;
}

TEST(AppraisePattern, ALongSentenceCostsNoMoreThanItsLength) {
    std::string text = "Mix the salt in";
    for (int i = 0; i < 20'000; ++i)
        text += " and rinse the salted cabbage of the jar with 2 l of water";
    const std::string list = "1 kg cabbage\n25 g salt\n\n";
    const auto time = [&](std::size_t length) {
        const auto begun = std::chrono::steady_clock::now();
        appraise::Refusal refusal;
        EXPECT_TRUE(appraise::appraise(list + text.substr(0, length) + ".\n", {}, refusal));
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
    };
    EXPECT_LT(time(19'000), 20.0); // a line of more is too long to be read
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
