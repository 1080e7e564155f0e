#include "engine/larder/brine_mix.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace jarful::larder {
namespace {

using Sort = BrineAnswer::Sort;

std::optional<BrineQuestion> read(std::string_view words, std::optional<double> salt = {},
                                  std::optional<bool> of_water = {}, double celsius = 20) {
    language::Findings findings;
    auto question = read_brine_question(words, salt, of_water, celsius, findings);
    EXPECT_NE(question.has_value(), findings.has_faults());
    return question;
}

std::string refused(std::string_view words, std::optional<double> salt = {}) {
    language::Findings findings;
    if (read_brine_question(words, salt, {}, 20, findings)) return "understood";
    const language::Diagnostic& d = findings.all().at(0);
    EXPECT_EQ(d.place.has_value(), !words.empty());
    if (d.place) {
        EXPECT_LE(d.place->begin, words.size());
        EXPECT_LT(d.place->begin, d.place->end);
    }
    EXPECT_FALSE(d.advice.empty());
    return d.code;
}

TEST(BrineWords, everyGaugeIsUnderstood) {
    const std::pair<const char*, Gauge> rows[] = {
        {"5 %", Gauge::percent_of_brine},
        {"5%", Gauge::percent_of_brine},
        {"5 % of brine", Gauge::percent_of_brine},
        {"5 % of the finished brine", Gauge::percent_of_brine},
        {"5 % of water", Gauge::percent_of_water},
        {"50 g/L", Gauge::g_per_l_of_brine},
        {"50 g/L of water", Gauge::g_per_l_of_water},
        {"20 salometer", Gauge::salometer},
        {"20 degrees salometer", Gauge::salometer},
        {"5 baume", Gauge::baume},
        {"5 Baumé", Gauge::baume},
        {"5 °Bé", Gauge::baume},
        {"1.036 sg", Gauge::specific_gravity},
        {"SG 1.036", Gauge::specific_gravity},
        {"1.036 specific gravity", Gauge::specific_gravity},
    };
    for (const auto& [words, gauge] : rows) {
        const auto q = read(words);
        ASSERT_TRUE(q && q->at) << words;
        EXPECT_EQ(q->at->gauge, gauge) << words;
    }
    EXPECT_NEAR(read("6.68 oz/gallon")->at->figure, 50.03, 0.01);
}

TEST(BrineWords, amountsAndWhatTheyAreOf) {
    EXPECT_FALSE(read("1.5 L at 3.5 %")->amount_of_water);
    EXPECT_FALSE(read("1.5 L at 3.5 %")->of_water);
    EXPECT_TRUE(read("1.5 L at 3.5 %")->assumed);
    EXPECT_TRUE(read("2 L of water at 5 %")->amount_of_water);
    EXPECT_TRUE(read("2 L of water at 5 %")->of_water);
    EXPECT_FALSE(read("2 L of water at 5 %", {}, false)->of_water);
    EXPECT_FALSE(read("2 L water at 5 %", {}, false)->assumed);
    EXPECT_TRUE(read("at 3.5 %", 40)->salt_g);
    EXPECT_TRUE(read("in 1 L of water", 40)->amount_of_water);
    EXPECT_TRUE(read("  1 L   from  5 % of water to 2 % ")->from);
}

TEST(BrineWords, whatIsNotUnderstoodIsSaidWithItsPlace) {
    EXPECT_EQ(refused(""), "brine-words");
    EXPECT_EQ(refused("much"), "brine-words");
    EXPECT_EQ(refused("1 L"), "brine-words");
    EXPECT_EQ(refused("1 L at"), "brine-words");
    EXPECT_EQ(refused("1 L at 5"), "brine-unit");
    EXPECT_EQ(refused("5 degrees"), "brine-unit");
    EXPECT_EQ(refused("1 L at 5 kg"), "brine-unit");
    EXPECT_EQ(refused("1 L at 5 % please"), "brine-words");
    EXPECT_EQ(refused("1 L from 5 %"), "brine-words");
    EXPECT_EQ(refused("1 L of water from 5 % to 2 %"), "brine-words");
    EXPECT_EQ(refused("1 L at 100 %"), "brine-strength");
    EXPECT_EQ(refused("1 L at 0 %"), "brine-strength");
    EXPECT_EQ(refused("1 L from 5 % to 0 %"), "brine-strength");
    EXPECT_EQ(refused("1.3 sg"), "brine-strength");
    EXPECT_EQ(refused("0.9 sg"), "brine-strength");
    EXPECT_EQ(refused("101 salometer"), "brine-strength");
    EXPECT_EQ(refused("145 baume"), "brine-strength");
    EXPECT_EQ(refused("400 g/L"), "brine-strength");
    EXPECT_EQ(refused("0 L at 5 %"), "absurd-amount");
    EXPECT_EQ(refused("5000 L at 5 %"), "absurd-amount");
    EXPECT_EQ(refused("1 L at 5 %", 40), "brine-words");
    EXPECT_EQ(refused("", 40), "brine-words");
    EXPECT_EQ(refused("1 L at 1,5 %"), "brine-words");
}

TEST(BrineWords, temperaturesAndSalt) {
    language::Findings findings;
    EXPECT_EQ(read_brine_celsius("15C", findings), 15);
    EXPECT_EQ(read_brine_celsius("15 °C", findings), 15);
    EXPECT_NEAR(read_brine_celsius("60F", findings).value_or(0), 15.5556, 1e-4);
    EXPECT_FALSE(findings.has_faults());
    for (const char* wrong : {"", "warm", "15", "31C", "95F", "15 K"}) {
        language::Findings faults;
        EXPECT_FALSE(read_brine_celsius(wrong, faults)) << wrong;
        EXPECT_TRUE(faults.has_faults()) << wrong;
    }
    EXPECT_EQ(read_brine_salt("40g", findings), 40);
    for (const char* wrong : {"", "40", "2 tbsp", "0 g", "40g of it"}) {
        language::Findings faults;
        EXPECT_FALSE(read_brine_salt(wrong, faults)) << wrong;
        EXPECT_TRUE(faults.has_faults()) << wrong;
    }
}

TEST(BrineStrength, everyGaugeGoesThereAndBack) {
    for (double celsius : {0.0, 4.0, 15.0, 20.0, 30.0}) {
        for (double fraction = 0; fraction <= saturation; fraction += 0.00499) {
            const auto s = strength_of(fraction, celsius);
            ASSERT_TRUE(s);
            const std::pair<Gauge, double> shown[] = {
                {Gauge::percent_of_brine, s->percent_of_brine},
                {Gauge::percent_of_water, s->percent_of_water},
                {Gauge::g_per_l_of_brine, s->g_per_l_of_brine},
                {Gauge::g_per_l_of_water, s->g_per_l_of_water},
                {Gauge::salometer, s->salometer},
                {Gauge::baume, std::max(0.0, s->baume)},
                {Gauge::specific_gravity, s->specific_gravity}};
            for (const auto& [gauge, figure] : shown) {
                const auto back = fraction_by(gauge, figure, celsius);
                ASSERT_TRUE(back) << static_cast<int>(gauge) << " " << figure;
                EXPECT_NEAR(*back, fraction, 1e-9) << static_cast<int>(gauge);
            }
        }
    }
}

TEST(BrineStrength, refusesWhatCannotBe) {
    EXPECT_FALSE(strength_of(0.27, 20));
    EXPECT_FALSE(strength_of(-0.01, 20));
    EXPECT_FALSE(strength_of(0.1, 31));
    EXPECT_FALSE(strength_of(std::numeric_limits<double>::quiet_NaN(), 20));
    EXPECT_TRUE(strength_of(saturation, 20));
    EXPECT_FALSE(fraction_by(Gauge::percent_of_brine, -1, 20));
    EXPECT_FALSE(fraction_by(Gauge::percent_of_brine, 5, -1));
}

TEST(BrineStrength, densityHasNoJumpAtTheEndOfTheTable) {
    const auto inside = density_to_saturation(0.26, 20);
    const auto beyond = density_to_saturation(0.26 + 1e-9, 20);
    ASSERT_TRUE(inside && beyond);
    EXPECT_NEAR(inside->typical, beyond->typical, 1e-6);
    EXPECT_GT(density_to_saturation(saturation, 20)->typical, inside->typical);
    EXPECT_FALSE(density_to_saturation(0.264, 20));
}

TEST(BrineMix, byBrineAndByWater) {
    const BrineAnswer brine = answer_brine(*read("2 kg at 5 %"));
    EXPECT_EQ(brine.sort, Sort::mix);
    EXPECT_NEAR(brine.mix->salt_g, 100, 1e-9);
    EXPECT_NEAR(brine.mix->water_g, 1900, 1e-9);
    const BrineAnswer water = answer_brine(*read("2 kg of water at 5 %"));
    EXPECT_NEAR(water.mix->salt_g, 100, 1e-9);
    EXPECT_NEAR(water.mix->water_g, 2000, 1e-9);
    EXPECT_NEAR(water.mix->brine_g, 2100, 1e-9);
    const auto other = taken_otherwise(*read("2 kg of water at 5 %"));
    ASSERT_TRUE(other);
    EXPECT_NEAR(answer_brine(*other).mix->salt_g, 2000 / 0.95 * 0.05, 1e-9);
    EXPECT_FALSE(taken_otherwise(*other)) << "it is not turned about for ever";
    EXPECT_FALSE(taken_otherwise(*read("1 L at 5 % of water")));
    EXPECT_FALSE(taken_otherwise(*read("1 L at 40 salometer")));
}

TEST(BrineMix, theVolumeComesOutAsAsked) {
    for (double celsius : {0.0, 15.0, 20.0, 30.0}) {
        const BrineAnswer a = answer_brine(*read("1.5 L at 3.5 %", {}, {}, celsius));
        EXPECT_TRUE(a.mix->brine_ml.contains(1500));
        EXPECT_LT(a.mix->brine_ml.width(), 1.5);
    }
}

TEST(BrineMix, fromTheSaltToHand) {
    const BrineAnswer a = answer_brine(*read("at 4 %", 40));
    EXPECT_NEAR(a.mix->water_g, 960, 1e-9);
    const BrineAnswer found = answer_brine(*read("1 kg", 40));
    EXPECT_EQ(found.sort, Sort::found);
    EXPECT_NEAR(found.strength->percent_of_brine, 4, 1e-9);
    const BrineAnswer litre = answer_brine(*read("1 L", 40));
    EXPECT_NEAR(litre.strength->g_per_l_of_brine, 40, 1e-6);
}

TEST(BrineMix, dilutedAndStrengthened) {
    const BrineAnswer a = answer_brine(*read("1 kg from 5 % to 2 %"));
    EXPECT_EQ(a.sort, Sort::dilute);
    EXPECT_NEAR(a.mix->water_g, 1500, 1e-9);
    EXPECT_NEAR(a.mix->brine_g, 2500, 1e-9);
    EXPECT_NEAR(a.in_the_end->had_g, 400, 1e-9);
    EXPECT_NEAR(a.in_the_end->brine_g, 1000, 1e-9);
    const BrineAnswer b = answer_brine(*read("1 kg from 2 % to 5 %"));
    EXPECT_EQ(b.sort, Sort::strengthen);
    EXPECT_NEAR((20 + b.mix->salt_g) / b.mix->brine_g, 0.05, 1e-12);
    const BrineAnswer litre = answer_brine(*read("1 L from 5 % to 2 %"));
    EXPECT_TRUE(litre.in_the_end->brine_ml.contains(1000));
    EXPECT_TRUE(answer_brine(*read("from 5 % to 2 %")).amount_taken);
}

TEST(BrineMix, beyondSaturationItSaysWhatStaysBehind) {
    for (const char* words : {"1 L at 30 %", "1 kg of water at 40 %", "1 kg from 5 % to 30 %",
                              "1 kg from 30 % to 5 %", "30 %"}) {
        const BrineAnswer a = answer_brine(*read(words));
        EXPECT_EQ(a.sort, Sort::too_strong) << words;
        EXPECT_FALSE(a.strength) << words;
    }
    EXPECT_NEAR(answer_brine(*read("1 kg of water at 40 %")).mix->undissolved_g, 41.4, 0.1);
    const BrineAnswer full = answer_brine(*read("1 L", 400));
    EXPECT_EQ(full.sort, Sort::too_strong);
    EXPECT_NEAR(full.mix->salt_g - full.mix->undissolved_g, 317, 1);
    EXPECT_EQ(answer_brine(*read("26.395 %")).sort, Sort::gauges) << "just what dissolves";
}

} // namespace
} // namespace jarful::larder
