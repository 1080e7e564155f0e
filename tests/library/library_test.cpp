#include "engine/jarful.hpp"

#include <gmock/gmock.h>

/// The header for other programs: what it says of good input and of bad.
namespace {

using namespace jarful::library;
namespace larder = jarful::larder;
namespace plan = jarful::plan;
namespace render = jarful::render;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

const std::string kraut = "recipe \"Kraut\"\nkind kraut\ngiven cabbage = 1.8 kg\n"
                          "weigh salt = 2.2 % of cabbage as fine sea salt\n";
const std::string pocket = "kitchen \"Pocket\"\nscale pocket reads 0.1 g up to 500 g\n"
                           "scale bench reads 1 g up to 5 kg\nspoons metric\n";

const plan::Item& salt(const Answer<plan::WeighOut>& answer) {
    return answer.data.value().items.at(0);
}

TEST(Library, weighsOutWhatItIsGiven) {
    const auto answer = weigh({.recipe = kraut});
    EXPECT_EQ(answer.status, 0);
    EXPECT_THAT(answer.findings, IsEmpty());
    EXPECT_DOUBLE_EQ(salt(answer).exact_g, 39.6);
    EXPECT_EQ(salt(answer).reading_g, 40);
    const auto more = weigh({.recipe = kraut, .kitchen = pocket},
                            {.settings = {"cabbage=1.84kg"}, .poured = {"salt=60g"}});
    EXPECT_EQ(more.status, 1);
    EXPECT_EQ(more.data.value().verdict, plan::Verdict::above);
    EXPECT_EQ(weigh({.recipe = kraut, .kitchen = pocket}).data.value().items.at(0).reading_g, 39.6);
}

TEST(Library, speaksInTheUnitsThatAreAskedFor) {
    EXPECT_THAT(text(weigh({.recipe = kraut}).data.value()), HasSubstr("1800"));
    EXPECT_THAT(text(weigh({.recipe = kraut}, {}, render::Units::us).data.value()),
                HasSubstr("lb"));
}

TEST(Library, saysWhereAndWhatToDo) {
    const auto words = weigh({.recipe = kraut}, {.settings = {"cabbage=1kg", "salt=lots"}});
    EXPECT_EQ(words.status, 2);
    EXPECT_FALSE(words.data);
    ASSERT_THAT(words.findings, SizeIs(1));
    EXPECT_EQ(words.findings[0].where, "salt=lots");
    EXPECT_EQ(words.findings[0].column, 6U);
    const auto file = weigh({.recipe = kraut + "weigh dill = 3\n", .name = "kraut.jarful"});
    ASSERT_FALSE(file.findings.empty());
    EXPECT_EQ(file.findings[0].where, "kraut.jarful");
    EXPECT_EQ(file.findings[0].line, 5U);
    EXPECT_TRUE(file.findings[0].fault);
    EXPECT_FALSE(file.findings[0].message.empty());
    EXPECT_FALSE(file.findings[0].advice.empty());
}

TEST(Library, refusesWhatIsNoRecipeKitchenOrHouse) {
    EXPECT_EQ(weigh({.recipe = pocket}).findings.at(0).code, "not-a-recipe");
    EXPECT_EQ(weigh({.recipe = kraut + "# \xff\n"}).findings.at(0).code, "not-utf8");
    EXPECT_EQ(weigh({.recipe = ""}).status, 2);
    const auto kitchen = weigh({.recipe = kraut, .kitchen = kraut});
    EXPECT_EQ(kitchen.findings.at(0).code, "not-a-kitchen");
    EXPECT_EQ(kitchen.findings.at(0).where, "kitchen.jarful");
    const auto house = weigh({.recipe = kraut, .house = kraut});
    EXPECT_EQ(house.findings.at(0).code, "not-a-house");
    EXPECT_FALSE(house.data);
}

TEST(Library, findsWhatARecipeIsBasedOn) {
    const std::string child = "recipe \"Child\"\nbased on \"kraut\"\n";
    const auto answer = weigh({.recipe = child, .bases = {{"kraut", kraut}}});
    EXPECT_DOUBLE_EQ(salt(answer).exact_g, 39.6);
    const auto alone = weigh({.recipe = child});
    EXPECT_THAT(alone.findings.at(0).message, HasSubstr("\"kraut\" was not given"));
    EXPECT_EQ(alone.findings.at(0).line, 2U);
}

TEST(Library, checksWhateverFileItIs) {
    EXPECT_EQ(check({.recipe = kraut}).status, 0);
    EXPECT_EQ(check({.recipe = kraut}).data.value().result.value().verdict, plan::Verdict::inside);
    EXPECT_EQ(check({.recipe = pocket}).data.value().sort, render::CheckedFile::Sort::kitchen);
    const auto faulty = check({.recipe = kraut + "weigh\n"});
    EXPECT_EQ(faulty.status, 2);
    EXPECT_THAT(json(faulty.data.value()), HasSubstr("\"line\": 5"));
    EXPECT_THAT(text(faulty.data.value()), HasSubstr("line 5"));
}

TEST(Library, appraisesAList) {
    const std::string list =
        "1 kg cabbage\n22 g fine sea salt\n\nSalt the cabbage, pack it into a jar and "
        "let it ferment for 3 weeks.\n";
    const auto answer = appraise(list, {.kind = "kraut"});
    EXPECT_EQ(answer.status, 0);
    ASSERT_THAT(answer.data.value(), SizeIs(1));
    EXPECT_EQ(answer.data->at(0).verdict, jarful::appraise::Verdict::inside);
    EXPECT_EQ(
        appraise(list, {.kind = "kraut", .weighs = {"cabbage=3kg"}}).data.value().at(0).verdict,
        jarful::appraise::Verdict::below);
    EXPECT_THAT(text(answer.data.value()), HasSubstr("cabbage"));
    for (const AppraiseWords& wrong : std::vector<AppraiseWords>{{.kind = "stew"},
                                                                 {.weighs = {"cabbage"}},
                                                                 {.weighs = {"cabbage=1L"}},
                                                                 {.lines = {"0=x"}}}) {
        const auto refused = appraise(list, wrong);
        EXPECT_EQ(refused.status, 2);
        EXPECT_EQ(refused.findings.at(0).code, "not-appraised");
    }
    EXPECT_EQ(appraise("").status, 2);
    EXPECT_THAT(appraise(std::string(jarful::appraise::max_bytes + 1, ' ')).findings.at(0).message,
                HasSubstr("4 MiB"));
}

TEST(Library, convertsAsTheKitchenSays) {
    const auto plain = convert("2 tbsp canning salt to g");
    EXPECT_EQ(plain.status, 0);
    EXPECT_EQ(plain.data.value().measures, larder::Measures::unstated);
    EXPECT_EQ(convert("1 tbsp water to mL", {.kitchen = pocket}).data.value().measures,
              larder::Measures::metric);
    EXPECT_EQ(convert("1 tbsp water to mL", {.kitchen = pocket}, larder::Measures::us)
                  .data.value()
                  .measures,
              larder::Measures::us);
    const auto wrong = convert("2 tbsp gravel");
    EXPECT_EQ(wrong.status, 2);
    EXPECT_THAT(wrong.findings, SizeIs(1));
    EXPECT_EQ(convert("1 lb to g", {.kitchen = "scale"}).status, 2);
}

} // namespace
