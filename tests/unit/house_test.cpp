#include "engine/book/first_recipe.hpp"
#include "engine/language/tidy.hpp"
#include "engine/larder/house.hpp"
#include "engine/plan/trace.hpp"
#include "engine/render/check_report.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/ranges_report.hpp"
#include "engine/render/text_weigh.hpp"
#include "tests/support/checked.hpp"
#include "tests/support/recipe.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>

/// A house file: its ranges, its kinds, its materials, and what the verdicts say of them.
namespace jarful {
namespace {

using ::testing::HasSubstr;

struct Read {
    std::shared_ptr<const larder::House> house;
    std::vector<larder::OwnMaterial> materials;
    std::string codes, said;
};

Read read_house(const std::string& lines) {
    Read out;
    language::Findings findings;
    const std::string text = "house \"Quay\"\n" + lines;
    const language::Document doc =
        language::parse(*language::read_source("house.jarful", text, findings), findings);
    if (!findings.has_faults()) {
        out.house = larder::House::read(doc, findings);
        out.materials = kitchen::house_materials(doc, findings);
    }
    for (const language::Diagnostic& d : findings.all()) {
        out.codes += (out.codes.empty() ? "" : " ") + d.code;
        out.said += language::explain(doc.source, d);
    }
    return out;
}

kitchen::Kitchen with_house(const std::string& lines) {
    Read read = read_house(lines);
    EXPECT_EQ(read.codes, "") << read.said;
    kitchen::Kitchen out = kitchen::default_kitchen();
    out.house = read.house;
    out.materials = read.materials;
    return out;
}

std::string kraut(const std::string& percent) {
    return "recipe \"K\"\nkind kraut\ngiven cabbage = 1 kg\nweigh salt = " + percent +
           " % of cabbage as fine sea salt\n";
}

TEST(House, NarrowsAPublishedRange) {
    const auto kitchen = with_house("range kraut between 2.2 % and 2.6 % \"softer below\"\n");
    const auto inside = test::check(kraut("2.4"), kitchen);
    ASSERT_TRUE(inside.check) << inside.said;
    EXPECT_EQ(inside.check->verdict, plan::Verdict::inside);
    EXPECT_EQ(inside.check->salt->low->percent, 2.2);
    EXPECT_EQ(inside.check->salt->low->status, "the house's own");
    EXPECT_THAT(inside.check->salt->why, HasSubstr("softer below"));
    EXPECT_THAT(inside.check->salt->why, HasSubstr("within the published range, 2 to 3 %"));
    // Inside what is published, and not inside what the house wants.
    EXPECT_EQ(test::check(kraut("2.1"), kitchen).check->verdict, plan::Verdict::below);
    EXPECT_EQ(test::check(kraut("2.1")).check->verdict, plan::Verdict::inside);
    EXPECT_EQ(test::check(kraut("2.8"), kitchen).check->verdict, plan::Verdict::above);
}

TEST(House, ChangesOneBoundAndLeavesTheOther) {
    const auto kitchen = with_house("range kraut at most 2.5 %\n");
    const auto o = test::check(kraut("2.7"), kitchen);
    EXPECT_EQ(o.check->verdict, plan::Verdict::above);
    EXPECT_EQ(o.check->salt->low->percent, 2.0);
    EXPECT_EQ(o.check->salt->low->status, "published");
    EXPECT_EQ(o.check->salt->high->percent, 2.5);
}

TEST(House, RefusesAOneSidedBoundBeyondThePublishedOtherEnd) {
    for (const char* lines : {"range kraut at least 4 %\n", "range kraut at least 4 % \"salty\"\n",
                              "range kraut at most 1.5 % \"mild\"\n"}) {
        const Read read = read_house(lines);
        EXPECT_EQ(read.codes, "reversed-range") << lines;
        EXPECT_THAT(read.said, HasSubstr("stays the published one")) << lines;
    }
    // The ends themselves are a range still, though a narrow one.
    EXPECT_EQ(read_house("range kraut at least 3 %\n").codes, "");
    EXPECT_EQ(read_house("range kraut at most 2 %\n").codes, "");
    EXPECT_EQ(read_house("range kraut between 4 % and 5 % \"salty\"\n").codes, "");
}

TEST(House, WidensOnlyWithAReasonThatEveryVerdictShows) {
    EXPECT_EQ(read_house("range kraut between 1.5 % and 2.5 %\n").codes, "range-without-reason");
    EXPECT_EQ(read_house("range kraut at least 1.99 %\n").codes, "range-without-reason");
    EXPECT_EQ(read_house("range kraut at most 3.01 %\n").codes, "range-without-reason");
    EXPECT_EQ(read_house("range shalgam at least 1 %\n").codes, "range-without-reason");
    EXPECT_EQ(read_house("range kraut between 2 % and 3 %\n").codes, "");
    const std::string reason = "always at pH 4";
    const auto kitchen = with_house("range kraut at least 1.5 % \"" + reason + "\"\n");
    const std::string recipe = kraut("1.7");
    for (const char* percent : {"1.7", "1.2", "3.5"}) {
        const auto o = test::weigh(kraut(percent), {}, kitchen);
        ASSERT_TRUE(o.out) << o.said;
        const std::string text = render::weigh_text(*o.out, {});
        const std::string json = render::weigh_json(*o.out);
        EXPECT_THAT(text, HasSubstr(reason));
        EXPECT_THAT(text, HasSubstr("WIDER than"));
        EXPECT_THAT(json, HasSubstr(reason));
        EXPECT_EQ(testing::DocumentedSchema("weigh").faults(nlohmann::json::parse(json)), "");
        render::CheckedFile file;
        file.path = "k.jarful";
        file.sort = render::CheckedFile::Sort::recipe;
        file.result = test::check(kraut(percent), kitchen).check;
        const std::vector<render::CheckedFile> files{file};
        EXPECT_THAT(testing::checked_text(files, {}), HasSubstr(reason));
        const std::string checked = testing::checked_json(files);
        EXPECT_THAT(checked, HasSubstr(reason));
        EXPECT_EQ(testing::DocumentedSchema("check").faults(nlohmann::json::parse(checked)), "");
    }
    EXPECT_EQ(test::check(recipe, kitchen).check->verdict, plan::Verdict::inside);
    EXPECT_THAT(test::check(recipe, kitchen).check->salt->reason, HasSubstr("house"));
}

TEST(House, HasKindsOfItsOwn) {
    const auto kitchen = with_house(
        "range ash-turnips of vegetables between 2.5 % and 3.5 % \"ours, six winters\"\n");
    const std::string recipe = "recipe \"T\"\nkind ash-turnips\ngiven turnip = 1 kg\n"
                               "weigh salt = 3 % of turnip as fine sea salt\n";
    const auto o = test::check(recipe, kitchen);
    ASSERT_TRUE(o.check) << o.said;
    EXPECT_EQ(o.check->verdict, plan::Verdict::inside);
    EXPECT_EQ(o.check->kind, "ash-turnips");
    EXPECT_THAT(o.check->salt->why, HasSubstr("nothing is published"));
    EXPECT_THAT(test::check(recipe).codes, ::testing::Contains("unknown-kind"));
    EXPECT_THAT(test::check("recipe \"T\"\nkind ash-turnip\n", kitchen).said,
                HasSubstr("ash-turnips"));
    // A slip of the pen makes no kind.
    const Read slip = read_house("range krautt between 2 % and 3 % \"x\"\n");
    EXPECT_EQ(slip.codes, "own-kind");
    EXPECT_THAT(slip.said, HasSubstr("\"kraut\""));
    EXPECT_EQ(read_house("range ash-turnips of brine at least 3 % \"x\"\n").codes, "own-kind");
    EXPECT_EQ(read_house("range ash-turnips of brine between 3 % and 4 %\n").codes, "own-kind");
}

TEST(House, ItsMaterialsHoldInEveryRecipe) {
    const auto kitchen = with_house("material \"grey salt\" is salt salt 50 %\n");
    const auto o = test::check("recipe \"K\"\nkind kraut\ngiven cabbage = 1 kg\n"
                               "weigh salt = 4.6 % of cabbage as grey salt\n",
                               kitchen);
    ASSERT_TRUE(o.check) << o.said;
    EXPECT_NEAR(o.check->salt->figure.percent, 2.3, 1e-9);
}

TEST(House, RefusesWhatMakesNoRange) {
    EXPECT_EQ(read_house("range kraut between 2 and 3\n").codes,
              "range-not-percent range-not-percent");
    EXPECT_EQ(read_house("range kraut at least 20 g\n").codes, "range-not-percent");
    EXPECT_EQ(read_house("range kraut between 3 % and 2 %\n").codes, "reversed-range");
    EXPECT_EQ(read_house("range kraut at most 90 % \"x\"\n").codes, "absurd-amount");
    EXPECT_EQ(read_house("range kraut of brine between 2 % and 3 %\n").codes, "range-basis");
    EXPECT_EQ(read_house("range green-beans between 3 % and 4 %\n").codes, "method-needed");
    EXPECT_EQ(read_house("range green-beans boiled between 3 % and 4 %\n").codes, "unknown-method");
    EXPECT_EQ(read_house("range green-beans in-brine between 3 % and 4 %\n"
                         "range green-beans dry-salted of vegetables and water at least 3 %\n")
                  .codes,
              "");
    EXPECT_EQ(read_house("range kraut at least 2.1 %\nrange sauerkraut at most 2.5 %\n").codes,
              "duplicate-range");
    EXPECT_EQ(read_house("range kraut\n").codes, "expected-bound");
    EXPECT_EQ(read_house("given cabbage = 1 kg\n").codes, "wrong-file");
    EXPECT_EQ(read_house("let x = 3\n").codes, "wrong-file");
    EXPECT_EQ(read_house("recipe \"R\"\n").codes, "second-header");
    language::Findings findings;
    static_cast<void>(language::parse(
        language::Source("r", "recipe \"R\"\nrange kraut at least 2 %\n"), findings));
    EXPECT_EQ(findings.all().front().code, "wrong-file");
}

TEST(House, IsTidied) {
    language::Findings findings;
    EXPECT_EQ(language::tidy(language::Source("house.jarful",
                                              "house   \"Q\"\nrange kraut between 2% and 3% \"a\"\n"
                                              "range x of vegetables  and water at least 2 %\n"
                                              "range green-beans in-brine at most 4.5% \"b\"\n"),
                             findings),
              "house  \"Q\"\n"
              "range  kraut                                            between 2 % and 3 %   "
              "\"a\"\n"
              "range  x                      of vegetables and water   at least 2 %\n"
              "range  green-beans in-brine                             at most 4.5 %         "
              "\"b\"\n");
}

const std::string narrow_and_own =
    "range kraut between 2.11 % and 2.14 % \"softer below\"\n"
    "range ash-turnips of everything between 3 % and 4 % \"six winters\"\n"
    "material \"grey salt\" is salt density 1.05..1.15 kg/L salt 92..95 % source \"the sack\"\n"
    "material \"quay mix\" is aromatic piece 2 g source \"a scale\"\n";

TEST(House, ItsRangesStandInTheListOfRanges) {
    const Read read = read_house(narrow_and_own);
    ASSERT_NE(read.house, nullptr) << read.said;
    const std::string all = render::ranges_text(read.house.get(), render::TextStyle{});
    EXPECT_THAT(all, HasSubstr("the house \"Quay\""));
    EXPECT_THAT(all, HasSubstr("2.11 to 2.14 %"));
    EXPECT_THAT(all, HasSubstr("\nash-turnips                3 to 4 %"));
    EXPECT_EQ(render::ranges_text(nullptr, render::TextStyle{}).find("Quay"), std::string::npos);
    const larder::Kind* own = read.house->find_kind("ash-turnips");
    ASSERT_NE(own, nullptr);
    ASSERT_EQ(read.house->own_kinds().size(), 1u);
    EXPECT_EQ(read.house->own_kinds()[0], own);
    const std::string one = render::ranges_text(*own, render::TextStyle{});
    EXPECT_THAT(one, HasSubstr("six winters"));
    EXPECT_THAT(one, HasSubstr("the house's own"));
    const std::string kraut_at_length =
        render::ranges_text(*read.house->find_kind("kraut"), render::TextStyle{});
    EXPECT_THAT(kraut_at_length, HasSubstr("That is within the\n  published range, 2 to 3 %"));

    const testing::DocumentedSchema schema("ranges");
    auto document = nlohmann::json::parse(render::ranges_json(nullptr, read.house.get()));
    EXPECT_EQ(schema.faults(document), "");
    EXPECT_EQ(document["house"], "Quay");
    EXPECT_EQ(document["kinds"].size(), larder::kinds().size() + 1);
    EXPECT_EQ(document["kinds"].back()["rulings"][0]["low"]["status"], "the house's own");
    document["house"] = 5;
    EXPECT_NE(schema.faults(document), "");
}

TEST(House, AFirstRecipeHeedsIt) {
    const Read read = read_house(narrow_and_own);
    ASSERT_NE(read.house, nullptr) << read.said;
    const auto write = [&](const std::string& kind, std::vector<std::string> with,
                           std::optional<std::string> salt = {}) {
        language::Findings findings;
        auto written = book::first_recipe(
            {"A first one", kind, std::move(with), std::move(salt), read.house, read.materials},
            findings);
        std::string said;
        for (const language::Diagnostic& d : findings.all())
            said += d.code + ": " + d.message + " " + d.advice + "\n";
        return std::pair(std::move(written), said);
    };
    // The middle to a tenth, 2.1 %, would be outside.
    const auto [kraut, kraut_said] = write("kraut", {"quay_mix=1/kg"});
    ASSERT_TRUE(kraut) << kraut_said;
    EXPECT_NEAR(kraut->salt_percent, 2.125, 1e-9);
    EXPECT_THAT(kraut->text,
                HasSubstr("2.11 to 2.14 % (house \"Quay\", softer\n# below; the house's own)"));
    EXPECT_THAT(kraut->text, HasSubstr("count  quay_mix"));
    const auto [turnips, turnips_said] = write("ash-turnips", {});
    ASSERT_TRUE(turnips) << turnips_said;
    EXPECT_EQ(turnips->basis, larder::Basis::of_everything);
    EXPECT_NEAR(turnips->salt_percent, 3.5, 1e-9);
    EXPECT_THAT(write("kraut", {}, "2.5%").second, HasSubstr("salt-out-of-range"));
    EXPECT_THAT(write("ash-turnpis", {}).second, HasSubstr("ash-turnips"));
}

TEST(House, AFirstRecipeOfAnOwnKindHoldsOnEveryBasis) {
    for (const std::string basis : {"vegetables", "vegetables and water", "brine", "everything"}) {
        const Read read =
            read_house("range quay-swedes of " + basis + " between 2.5 % and 3.5 % \"ours\"\n");
        ASSERT_NE(read.house, nullptr) << read.said;
        language::Findings findings;
        const auto written = book::first_recipe({.title = "Swedes",
                                                 .kind = "quay-swedes",
                                                 .with = {"carrot=5%"},
                                                 .salt = {},
                                                 .house = read.house,
                                                 .materials = read.materials},
                                                findings);
        ASSERT_TRUE(written) << basis << ": " << findings.all().front().message;
        EXPECT_NEAR(written->salt_percent, 3, 1e-9) << basis;
        // What is a share of the vegetables alone makes its own brine.
        EXPECT_EQ(written->text.find("weigh  water") != std::string::npos,
                  basis != "vegetables" && basis != "brine")
            << written->text;
    }
}

} // namespace
} // namespace jarful
