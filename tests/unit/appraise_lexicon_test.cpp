#include "engine/appraise/tongue.hpp"
#include "engine/larder/foreign.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

/// What the lexicons say of the languages, and how a line shows its own. Tags stand for languages.
namespace {

using namespace jarful;
using appraise::Tongue;

std::string tag(Tongue tongue) {
    return tongue == nullptr ? "" : std::string(tongue->tag);
}

std::string of_line(const std::string& line, Tongue around = nullptr) {
    return tag(appraise::tongue_of_line(appraise::tokens_of(line), around));
}

TEST(AppraiseLexicon, OneLanguageIsTheBaseAndTheFirst) {
    const auto all = appraise::lexicons();
    EXPECT_TRUE(all.front().base);
    EXPECT_EQ(std::count_if(all.begin(), all.end(), [](const auto& l) { return l.base; }), 1);
}

TEST(AppraiseLexicon, ALineShowsItsLanguageByItsWords) {
    EXPECT_EQ(of_line("1 kg cabbage, shredded"), "en");
    EXPECT_EQ(of_line("1 kg Weißkohl, fein gehobelt"), "de");
    EXPECT_EQ(of_line("1 kg de chou râpé"), "fr");
    EXPECT_EQ(of_line("20 g kosher"), "");
}

TEST(AppraiseLexicon, ALineShowsItsLanguageByItsMeasureOrItsName) {
    EXPECT_EQ(of_line("1 gousse xyz"), "fr");
    EXPECT_EQ(of_line("2 Zehen xyz"), "de");
    EXPECT_EQ(of_line("2 g xyz"), "") << "a measure of several languages shows none";
    EXPECT_EQ(of_line("2 cups xyz"), "en");
    EXPECT_EQ(of_line("2 xyz Weißkohl"), "de") << "a name that one language has";
    EXPECT_EQ(of_line("3 xyz", &appraise::lexicons().back()),
              std::string(appraise::lexicons().back().tag));
}

TEST(AppraiseLexicon, ATextIsInTheLanguageOfMostOfItsWords) {
    EXPECT_EQ(tag(appraise::tongue_of_text("1 kg cabbage\n20 g of the salt\n").tongue), "en");
    EXPECT_EQ(tag(appraise::tongue_of_text("1 kg Kohl\n2 EL Salz\n").tongue), "de");
    EXPECT_EQ(tag(appraise::tongue_of_text("1 chou\n20 g de sel avec des baies\n").tongue), "fr");
    EXPECT_EQ(tag(appraise::tongue_of_text("xyz\n").tongue), "");
    // Two words are too few to leave the other languages out.
    EXPECT_FALSE(appraise::tongue_of_text("1 kg cabbage\n20 g of the salt\n").plain);
    EXPECT_TRUE(
        appraise::tongue_of_text("2 cups chopped cabbage and the salt\nfor each pound\n").plain);
}

TEST(AppraiseLexicon, NamesOfMaterialsAreLookedUpByTag) {
    ASSERT_NE(larder::find_foreign("Weißkohl", "de"), nullptr);
    EXPECT_EQ(larder::find_foreign("Weißkohl", "fr"), nullptr);
    EXPECT_EQ(larder::find_foreign("Weißkohl", "zz"), nullptr);
    EXPECT_EQ(appraise::named("weißkohl", nullptr).material,
              larder::find_foreign("Weißkohl", "de"));
    EXPECT_EQ(tag(appraise::named("cabbage", nullptr).tongue), "en");
}

TEST(AppraiseLexicon, EveryNameOfAMeasureIsFound) {
    for (const appraise::MeasureName& name : appraise::measure_names()) {
        ASSERT_NE(name.measure, nullptr) << name.name;
        EXPECT_EQ(appraise::find_measure(name.name), &name);
        EXPECT_FALSE(name.tongue != nullptr && name.tongue->base) << name.name;
    }
}

} // namespace
