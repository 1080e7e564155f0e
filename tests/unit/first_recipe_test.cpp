#include "engine/book/first_recipe.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/new_report.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <sstream>

/// What `jarful new` writes: a recipe of every kind that can be salted, tidy and inside its range.
namespace jarful::book {
namespace {

using ::testing::HasSubstr;

struct Outcome {
    std::optional<WrittenRecipe> written;
    std::string said; ///< codes and messages
};

Outcome make(FirstRecipe wish) {
    language::Findings findings;
    Outcome out;
    if (wish.title.empty()) wish.title = "A first \"one\"";
    out.written = first_recipe(wish, findings);
    for (const language::Diagnostic& d : findings.all())
        out.said += d.code + ": " + d.message + " " + d.advice + "\n";
    return out;
}

/// Checked as the program checks a file.
std::optional<plan::CheckResult> check(const std::string& text, std::string& said) {
    language::Findings findings;
    const language::Document doc =
        language::parse(*language::read_source("new.jarful", text, findings), findings);
    auto result = plan::check(doc, kitchen::default_kitchen(), findings);
    for (const language::Diagnostic& d : findings.all())
        said += d.code + ": " + d.message + "\n";
    return result;
}

/// The smallest day that lines with this beginning name; 9999 where there is none.
int first_day(const std::string& text, const std::string& beginning) {
    int first = 9999;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        if (!line.starts_with(beginning)) continue;
        const std::size_t at = line.find("day ");
        if (at != std::string::npos) first = std::min(first, std::stoi(line.substr(at + 4)));
    }
    return first;
}

/// What is said of how it is made fits what is weighed.
void is_made_as_written(const std::string& text) {
    // A text that is too long for a line goes on in the next.
    std::string steps;
    std::istringstream lines(text);
    bool in_step = false;
    for (std::string line; std::getline(lines, line);) {
        in_step = line.starts_with("step") || (in_step && line.starts_with(" "));
        if (in_step) steps += line + "\n";
    }
    language::Findings findings;
    const language::Document doc =
        language::parse(*language::read_source("new.jarful", text, findings), findings);
    for (const language::Line& line : doc.lines) {
        std::string name;
        if (const auto* q = std::get_if<language::Quantity>(&line.statement))
            if (q->word != language::QuantityWord::let) name = q->name.value;
        if (const auto* b = std::get_if<language::BrineLine>(&line.statement)) name = b->name.value;
        std::string said = name;
        std::replace(said.begin(), said.end(), '_', ' ');
        EXPECT_TRUE(steps.find("{" + name) != std::string::npos ||
                    steps.find(" " + said) != std::string::npos)
            << name << " is in no step:\n"
            << text;
    }
    const int ready = std::min(first_day(text, "ready"), first_day(text, "# ready"));
    EXPECT_LE(first_day(text, "tend   test"), ready) << text;
}

void holds(const FirstRecipe& wish, const larder::Ruling& ruling) {
    const Outcome o = make(wish);
    ASSERT_TRUE(o.written) << o.said;
    const std::string& text = o.written->text;
    std::string said;
    const auto result = check(text, said);
    ASSERT_TRUE(result) << text << said;
    EXPECT_EQ(said, "") << text;
    if (ruling.low || ruling.high) {
        EXPECT_EQ(result->verdict, plan::Verdict::inside) << text;
        ASSERT_TRUE(result->salt);
        // Vinegar thins a brine that is made beforehand, and what is not counted with the produce
        // one that has evened out.
        const bool thinned = !wish.with.empty() && (ruling.basis == larder::Basis::of_brine ||
                                                    ruling.basis == larder::Basis::of_evened_brine);
        EXPECT_NEAR(result->salt->figure.percent, o.written->salt_percent, thinned ? 0.2 : 0.01)
            << text;
        EXPECT_EQ(result->salt->figure.basis, ruling.basis);
    }
    is_made_as_written(text);
    language::Findings findings;
    EXPECT_EQ(language::tidy(language::Source("", text), findings), text);
    std::istringstream lines(text);
    std::size_t remarks = 0;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("#")) ++remarks;
        EXPECT_LE(line.size(), 125U) << line;
    }
    EXPECT_GE(remarks, 6U) << text;
}

TEST(FirstRecipe, OfEveryKindAndMethodThatCanBeSaltedChecksClean) {
    std::size_t count = 0;
    std::size_t refused = 0;
    for (const larder::Kind& kind : larder::kinds()) {
        for (const larder::Ruling& ruling : kind.rulings) {
            FirstRecipe wish;
            wish.kind = std::string(kind.name) +
                        (ruling.method.empty() ? "" : " " + std::string(ruling.method));
            SCOPED_TRACE(wish.kind);
            if (!ruling.typical && !ruling.low && !ruling.high) {
                EXPECT_THAT(make(wish).said, HasSubstr("no-first-salt"));
                ++refused;
                continue;
            }
            holds(wish, ruling);
            wish.with = {"celery=6%",           "caraway=1.5g/kg", "bay=1/kg",
                         "horseradish=1tsp/kg", "peppercorns=5",   "cider vinegar=10 g"};
            holds(wish, ruling);
            ++count;
        }
    }
    EXPECT_GE(count, 27U);
    EXPECT_EQ(refused, 1U); // dry-salted mushrooms
}

TEST(FirstRecipe, FollowsTheMethodOfItsKind) {
    const auto text = [](const std::string& kind, std::vector<std::string> with = {}) {
        const Outcome o = make({.title = "K", .kind = kind, .with = std::move(with), .salt = {}});
        EXPECT_TRUE(o.written) << o.said;
        return o.written ? o.written->text : std::string();
    };
    const std::string kimchi = text("kimchi", {"carrot=8%", "fish sauce=2%"});
    EXPECT_THAT(kimchi, HasSubstr("discarded keeps 15..30 %"));
    EXPECT_THAT(kimchi, HasSubstr("measure drained"));
    EXPECT_THAT(kimchi, HasSubstr("Rinse the napa"));
    EXPECT_THAT(kimchi, HasSubstr("fill   (drained + carrot) / packed"));
    EXPECT_THAT(text("whole-head"), HasSubstr("Fill the cores with {in_the_cores}"));
    EXPECT_THAT(text("pepper-mash home"), HasSubstr("Grind the chillies"));
    EXPECT_THAT(text("green-tomatoes"), HasSubstr("pour on {poured} of the brine"));
    EXPECT_THAT(text("garlic"), HasSubstr("Dissolve {salt} of salt in {water} of water"));
    EXPECT_THAT(text("kraut"), HasSubstr("press until the juice stands above"));
}

TEST(FirstRecipe, WhatGoesInBesideTakesRoomAndWaterToo) {
    const auto text = [](const std::string& kind) {
        const Outcome o =
            make({.title = "K", .kind = kind, .with = {"carrot=8%", "caraway=1g/kg"}, .salt = {}});
        EXPECT_TRUE(o.written) << o.said;
        return o.written ? o.written->text : std::string();
    };
    EXPECT_THAT(text("kraut"), HasSubstr("fill   (cabbage + carrot) / packed"));
    EXPECT_THAT(text("cucumbers"), HasSubstr("cover(cucumbers + carrot, packed)"));
    EXPECT_THAT(text("beets"), HasSubstr("75 % of (beets + carrot)"));
    EXPECT_THAT(text("green-tomatoes"), HasSubstr("make 100 % of (tomatoes + carrot)"));
}

TEST(FirstRecipe, SaysWhereItsSaltComesFrom) {
    const Outcome o = make({.title = "K", .kind = "kraut", .with = {}, .salt = {}});
    ASSERT_TRUE(o.written) << o.said;
    EXPECT_THAT(o.written->text, HasSubstr("weigh  salt = 2.25 % of cabbage"));
    EXPECT_THAT(o.written->text, HasSubstr("Standards for Grades of Bulk Sauerkraut"));
    const Outcome stated =
        make({.title = "K", .kind = "kraut", .with = {"carrot=6%"}, .salt = "2.4%"});
    ASSERT_TRUE(stated.written) << stated.said;
    EXPECT_THAT(stated.written->text, HasSubstr("salt = 2.4 % of (cabbage + carrot)"));
    EXPECT_DOUBLE_EQ(stated.written->salt_percent, 2.4);
}

TEST(FirstRecipe, RefusesWhatItCannotRead) {
    const auto said = [](FirstRecipe wish) {
        const Outcome o = make(std::move(wish));
        EXPECT_FALSE(o.written);
        return o.said;
    };
    const auto with = [&](const std::string& one) {
        return said({.title = "K", .kind = "kraut", .with = {one}, .salt = {}});
    };
    EXPECT_THAT(said({"K", "krautt", {}, {}}), HasSubstr("unknown-kind"));
    EXPECT_THAT(said({"K", "krautt", {}, {}}), HasSubstr("\"kraut\""));
    EXPECT_THAT(said({"K", "green-beans", {}, {}}), HasSubstr("green-beans in-brine"));
    EXPECT_THAT(said({"K", "green-beans boiled", {}, {}}), HasSubstr("unknown-method"));
    EXPECT_THAT(said({" ", "kraut", {}, {}}), HasSubstr("bad-title"));
    EXPECT_THAT(said({"a\nb", "kraut", {}, {}}), HasSubstr("bad-title"));
    EXPECT_THAT(said({"K", "kraut", {}, "9%"}), HasSubstr("salt-out-of-range"));
    EXPECT_THAT(said({"K", "kraut", {}, "22g"}), HasSubstr("bad-addition"));
    EXPECT_THAT(said({"K", "kraut", {}, "0%"}), HasSubstr("bad-addition"));
    EXPECT_THAT(with("carrot"), HasSubstr("NAME=AMOUNT"));
    EXPECT_THAT(with("carrot=much"), HasSubstr("no amount"));
    EXPECT_THAT(with("carrot=-6%"), HasSubstr("no amount"));
    EXPECT_THAT(with("carott=6%"), HasSubstr("carrot"));
    EXPECT_THAT(with("cabbage=6%"), HasSubstr("already"));
    EXPECT_THAT(with("salt=6%"), HasSubstr("--salt"));
    EXPECT_THAT(with("step=6%"), HasSubstr("cannot be a name"));
    EXPECT_THAT(with("dill=1tsp/kg"), HasSubstr("more than one thing"));
    EXPECT_THAT(with("fish sauce=90%"), HasSubstr("salt-out-of-range"));
}

TEST(FirstRecipe, IsNamedAfterItsTitleAndNothingElse) {
    EXPECT_EQ(file_name("Winter kraut"), "winter-kraut.jarful");
    EXPECT_EQ(file_name("Grüne  Bohnen, à la Øre!"), "grune-bohnen-a-la-ore.jarful");
    EXPECT_EQ(file_name("../../etc/passwd"), "etc-passwd.jarful");
    EXPECT_EQ(file_name("/"), "recipe.jarful");
    EXPECT_EQ(file_name(".hidden"), "hidden.jarful");
    EXPECT_EQ(file_name("Kitchen"), "kitchen-recipe.jarful");
    EXPECT_EQ(file_name("HOUSE"), "house-recipe.jarful");
    EXPECT_EQ(file_name("酸菜"), "recipe.jarful");
    EXPECT_LE(file_name(std::string(500, 'x')).size(), 67U);
}

TEST(FirstRecipe, ItsJsonIsAsItsSchemaSays) {
    const jarful::testing::DocumentedSchema schema("new");
    const Outcome o = make({.title = "K", .kind = "olives natural", .with = {}, .salt = {}});
    ASSERT_TRUE(o.written);
    nlohmann::json document =
        nlohmann::json::parse(render::new_json({"k.jarful", "K", *o.written}));
    EXPECT_EQ(schema.faults(document), "");
    EXPECT_EQ(document["salt"]["basis"], "of_evened_brine");
    document["salt"]["basis"] = "of_hope";
    EXPECT_NE(schema.faults(document), "");
}

} // namespace
} // namespace jarful::book
