#include "engine/appraise/appraise.hpp"
#include "engine/language/tidy.hpp"
#include "engine/render/appraise_report.hpp"
#include "tests/support/recipe.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

/// What the appraisal gives out: JSON as its schema says, recipes that the program reads.
namespace {

using namespace jarful;
using nlohmann::json;
using ::testing::HasSubstr;

const char* const lists[] = {
    "2 kg cabbage\n45 g salt\n",
    "2 kg cabbage\n30 g salt\n1 tsp caraway\n",
    "2 kg cabbage\n80 g salt\n",
    "Kraut\n2 medium heads cabbage (about 5 lb in all)\n3 tbsp salt\n",
    ("Garden dills\n\n4 lb pickling cucumbers\nFor the brine:\n2 quarts water\n3 tbsp salt per "
     "quart\n"),
    "1 kg beets\n300 ml vinegar\n100 ml water\n1 tsp salt\n",
    "2 kg cabbage\n45 g salt\n2 cups mystery\n",
    "1 kg cabbage\n2 % salt\n500 ml water\n",
    "Kimchi\n2 kg napa cabbage\n200 g salt\nSoak, then rinse well.\n60 ml fish sauce\n",
    "500 g cauliflower\nSalt to taste\nWater to cover\n",
    "25 g reduced-sodium salt\n1 kg cabbage\n",
    "at least 2 kg cabbage\n2.2 % salt\n",
    "1 kg carrots\n1 L water, plus more as needed\n25 g salt\n",
    "2 kg cabbage\n45 g salt\n1 L water, if needed\n",
    "2 kg cabbage\n45 g salt\nwater, if needed\n",
    "Kraut\n2 kg cabbage\n100 g water, plus more\n45 g salt\n",
    "500 g garlic\n500 g water\n35 g salt\n",
    "5 lb cabbage\nsalt\n\nMethod:\nUse 3 tbsp canning salt per 5 pounds of cabbage.\n",
    "1 small apple (optional)\n2 kg cabbage\n48 g salt\n1 tsp caraway (optional)\n",
    "500 g carrots\n500 ml whey\n25 g salt\n",
    "1 kg each cabbage and carrots\n50 g salt\n50 ml water (optional)\n",
    "1 \"quoted\" \\ \xff\xfe line\n",
    "",
};

std::string contents(const std::string& path) {
    std::ifstream in(path);
    EXPECT_TRUE(in) << path;
    std::stringstream out;
    out << in.rdbuf();
    return out.str();
}

/// These lists and the twenty of the set-aside corpus.
std::vector<std::string> all_lists() {
    std::vector<std::string> out(std::begin(lists), std::end(lists));
    for (int i = 1; i <= 20; ++i)
        out.push_back(contents(JARFUL_SOURCE_DIR "/tests/corpus/set-aside/list-" +
                               std::string(i < 10 ? "0" : "") + std::to_string(i) + ".txt"));
    return out;
}

appraise::Appraisal judged(std::string_view text) {
    appraise::Refusal refusal;
    auto a = appraise::appraise(text, {}, refusal);
    EXPECT_TRUE(a) << refusal.message;
    return a ? std::move(*a) : appraise::Appraisal{};
}

TEST(AppraiseOutput, JsonIsAsItsSchemaSays) {
    const jarful::testing::DocumentedSchema schema("appraise");
    std::vector<appraise::Appraisal> together;
    for (const std::string& list : all_lists()) {
        const appraise::Appraisal a = judged(list);
        const json document = json::parse(render::appraise_json({&a, 1}));
        EXPECT_EQ(schema.faults(document), "") << list;
        EXPECT_EQ(document.at("verdict"), appraise::describe(a.verdict));
        EXPECT_EQ(document.at("lines").size(), a.lines.size());
        together.push_back(a);
    }
    const json several = json::parse(render::appraise_json(together));
    EXPECT_EQ(schema.faults(several), "");
    EXPECT_EQ(several.at("recipes").size(), together.size());
}

TEST(AppraiseOutput, TheSchemaRefusesWhatIsNotSo) {
    const jarful::testing::DocumentedSchema schema("appraise");
    const appraise::Appraisal a = judged(lists[0]);
    json document = json::parse(render::appraise_json({&a, 1}));
    document["verdict"] = "fine";
    EXPECT_NE(schema.faults(document), "");
}

TEST(AppraiseOutput, RecipesCheckCleanOrSayWhatMustBeFilledIn) {
    for (const std::string& list : all_lists()) {
        const appraise::Appraisal a = judged(list);
        const std::string written = appraise::as_recipe(a);
        const auto outcome = test::check(written);
        const bool settled = a.verdict == appraise::Verdict::inside ||
                             a.verdict == appraise::Verdict::below ||
                             a.verdict == appraise::Verdict::above;
        if (!settled || written.find("# fill in:") != std::string::npos) {
            EXPECT_TRUE(written.find("# fill in:") != std::string::npos ||
                        written.find("# not ") != std::string::npos)
                << list << "\n"
                << written;
            continue;
        }
        EXPECT_EQ(outcome.said, "") << written;
        ASSERT_TRUE(outcome.check && outcome.check->verdict) << written;
        EXPECT_EQ(plan::describe(*outcome.check->verdict), appraise::describe(a.verdict))
            << written;
    }
}

TEST(AppraiseOutput, RecipesAreTidyAndSayHowMuchRoomTheyTake) {
    for (const std::string& list : all_lists()) {
        for (const std::optional<double> percent : {std::optional<double>(), std::optional(2.5)}) {
            const std::string written = appraise::as_recipe(judged(list), percent);
            language::Findings findings;
            const auto tidied = language::tidy(language::Source("found", written), findings);
            ASSERT_TRUE(tidied) << written
                                << (findings.all().empty() ? "" : findings.all().front().message);
            EXPECT_EQ(*tidied, written);
            EXPECT_THAT(written, HasSubstr("\nfill   ")) << list;
        }
    }
}

TEST(AppraiseOutput, WithTheHousesSaltARecipeChecksClean) {
    struct Case {
        const char* list;
        double percent;
    };
    for (const Case& c : {
             Case{"Kraut\n\n2 kg cabbage\n10 g salt\n", 2.25},        // too low
             Case{"Kraut\n\n2 kg cabbage\n3 tbsp salt\n", 2.25},      // undecided
             Case{"Kraut\n\n1 large cabbage\nsalt to taste\n", 2.25}, // no weight, no amount
             Case{"Kraut\n\ncabbage\nsalt\n\nUse 30 g of salt for each kilo of cabbage.\n", 2.25},
             Case{"Kraut\n\n1 kg cabbage\n25 g salt\n\nPour off half of the brine.\n", 2.25},
             Case{"Beans\n\n1 kg green beans\nwater to cover\n2 tbsp salt\n", 3},
             Case{"Half-sours\n\n2 kg pickling cucumbers\n2 L water\n40 g salt\n", 5},
         }) {
        const std::string written = appraise::as_recipe(judged(c.list), c.percent);
        const auto outcome = test::check(written);
        EXPECT_EQ(outcome.said, "") << written;
        ASSERT_TRUE(outcome.check && outcome.check->verdict) << written;
        EXPECT_EQ(*outcome.check->verdict, plan::Verdict::inside) << written;
    }
}

TEST(AppraiseOutput, TheHousesSaltIsOfWhatItsRangeCounts) {
    const auto salt = [](const char* list, double percent) {
        const std::string written = appraise::as_recipe(judged(list), percent);
        const std::size_t at = written.find("weigh  salt_in");
        return at == std::string::npos ? written : written.substr(at, written.find('\n', at) - at);
    };
    // Of the vegetables alone, though there is water too.
    EXPECT_THAT(salt("Kraut\n\n2 kg cabbage\n200 ml water\n45 g salt\n", 2.5),
                HasSubstr("= 2.5 % of white_cabbage "));
    // Of vegetables and water.
    EXPECT_THAT(salt("Beans\n\n1 kg green beans\n1 L water\n2 cups sugar\n60 g salt\n", 3),
                HasSubstr("= 3 % of (green_bean + water) "));
    // Of everything, the salt too: 2.5 in 97.5.
    const std::string all =
        salt("Kimchi\n\n2 kg napa cabbage\n100 ml water\n50 g gochugaru\n60 g salt\n", 2.5);
    EXPECT_THAT(all, HasSubstr("= 2.56"));
    EXPECT_THAT(all, HasSubstr("water"));
    EXPECT_THAT(all, HasSubstr("red_pepper_powder"));
}

TEST(AppraiseOutput, ARateOfTheMethodReachesTheRecipe) {
    const std::string written = appraise::as_recipe(
        judged("Kraut\n\ncabbage\nsalt\n\nUse 25 g of salt for each kilo of cabbage.\n"));
    EXPECT_THAT(written, HasSubstr("= 2.5 % of white_cabbage"));
    EXPECT_EQ(test::check(written).said, "") << written;
}

TEST(AppraiseOutput, ARecipeWhoseSaltIsOpenNamesWhatIsToBeSettledAndNoKind) {
    const std::string written = appraise::as_recipe(judged("Kraut\n\n2 kg cabbage\n3 tbsp salt\n"));
    EXPECT_THAT(written, HasSubstr("# to be settled: "));
    const auto outcome = test::check(written);
    EXPECT_FALSE(outcome.check && outcome.check->verdict) << written;
}

TEST(AppraiseOutput, ALowEndOfNoneIsWrittenAsNone) {
    const std::string written = appraise::as_recipe(judged("2 kg cabbage\nup to 45 g salt\n"));
    EXPECT_NE(written.find("as found: 0 to "), std::string::npos) << written;
    EXPECT_EQ(written.find("0.001"), std::string::npos) << written;
}

TEST(AppraiseOutput, TheReportSaysTheVerdictAndWhatToDo) {
    for (const std::string& list : all_lists()) {
        const std::string report = render::appraise_text(judged(list), {});
        EXPECT_NE(report.find("VERDICT: "), std::string::npos) << list;
        EXPECT_TRUE(report.find("What to do next") != std::string::npos ||
                    report.find("What would settle it") != std::string::npos)
            << list;
    }
}

/// Without the blanks that stand in columns.
std::string without_columns(const std::string& text) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != ' ' || out.empty() || out.back() != ' ') out += text[i];
    }
    return out;
}

TEST(AppraiseOutput, WhatIsOptionalStaysSoInTheRecipe) {
    const std::string recipe = without_columns(appraise::as_recipe(judged(
        "1 apple (optional)\n2 kg cabbage\n48 g salt\n100 ml water (optional)\n"
        "1 tsp caraway (optional)\n4 g peppercorns (optional)\na handful of dill (optional)\n")));
    // What must be there is given, even where it stands further down.
    EXPECT_THAT(recipe, HasSubstr("given white_cabbage = 2000 g as white cabbage"));
    EXPECT_THAT(recipe, HasSubstr("% of white_cabbage optional as apple"));
    EXPECT_THAT(recipe, HasSubstr("% of white_cabbage optional as water"));
    EXPECT_THAT(recipe, HasSubstr("= 0.2 % of white_cabbage optional as "));
    EXPECT_THAT(recipe, HasSubstr("by hand, optional: dill"));
}

TEST(AppraiseOutput, WhatIsTheMatterIsSaid) {
    EXPECT_THAT(judged("1 kg cabbage\n10 g to 25 g salt\n").decides,
                HasSubstr("which amount of salt is meant"));
    EXPECT_THAT(judged("1 kg cabbage\n22 g salt (optional)\n").decides,
                HasSubstr("whether the salt that is called optional goes in"));
    EXPECT_THAT(judged("1 kg cabbage\n1.5 tbsp salt\n").decides, HasSubstr("spooning"));
    EXPECT_EQ(judged("1 kg cabbage 20 g salt\n").verdict, appraise::Verdict::inside);
    for (const char* list : {"1 kg cabbage\n22 g salt x 2\n"}) {
        const auto a = judged(list);
        EXPECT_THAT(a.reason, HasSubstr("second amount or number")) << list;
        EXPECT_THAT(a.advice, ::testing::Not(::testing::Contains(HasSubstr("is not known here"))));
    }
    EXPECT_THAT(judged("1 kg cabbage\n22 g garlic salt\n").advice,
                ::testing::Contains(HasSubstr("is not known here")));
    appraise::Request request;
    request.salt = "salt";
    appraise::Refusal refusal;
    EXPECT_FALSE(appraise::appraise("1 kg cabbage\n", request, refusal));
    EXPECT_THAT(refusal.advice, ::testing::StartsWith("Write the grain: "));
    EXPECT_THAT(refusal.advice, ::testing::EndsWith("."));
}

} // namespace
