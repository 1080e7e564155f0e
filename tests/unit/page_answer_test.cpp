#include "engine/appraise/appraise.hpp"
#include "engine/page/answer.hpp"
#include "engine/page/results.hpp"
#include "engine/plan/packing.hpp"
#include "engine/render/appraise_report.hpp"
#include "engine/render/card_pages.hpp"
#include "engine/render/json_weigh.hpp"
#include "tests/support/recipe.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

/// What a page is told is what the command line prints.
namespace {

using namespace jarful;
using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

std::string contents(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    EXPECT_TRUE(in) << path;
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

std::string demo(const std::string& name) {
    return contents(JARFUL_SOURCE_DIR "/recipes/" + name + ".jarful");
}

std::vector<std::string> demo_names() {
    std::vector<std::string> out;
    for (const auto& entry : std::filesystem::directory_iterator(JARFUL_SOURCE_DIR "/recipes")) {
        const std::string name = entry.path().stem().string();
        if (entry.path().extension() == ".jarful" && name != "kitchen" && name != "house")
            out.push_back(name);
    }
    std::sort(out.begin(), out.end());
    return out;
}

/// A session with a recipe of the demo book and its kitchen.
page::Session session(const std::string& recipe, json* loaded = nullptr) {
    page::Session out;
    json bases = json::array();
    for (const std::string& name : demo_names())
        bases.push_back(json{{"name", name}, {"text", demo(name)}});
    const json question{{"recipe", demo(recipe)}, {"kitchen", demo("kitchen")}, {"bases", bases}};
    const json said = json::parse(out.load(question.dump()));
    EXPECT_EQ(said.at("ok"), true) << said.dump(2);
    if (loaded != nullptr) *loaded = said;
    return out;
}

json asked(const page::Session& session, json question) {
    if (question.is_null()) question = json::object();
    if (!question.contains("do")) question["do"] = "weigh";
    return json::parse(session.answer(question.dump()));
}

TEST(PageAnswer, isAsItsSchemaSays) {
    const jarful::testing::DocumentedSchema schema("page");
    const jarful::testing::DocumentedSchema load_schema("page_load");
    for (const std::string& name : demo_names()) {
        json loaded;
        const page::Session own = session(name, &loaded);
        EXPECT_EQ(load_schema.faults(loaded), "") << name;
        const json plain = asked(own, {});
        EXPECT_EQ(schema.faults(plain), "") << name;
        EXPECT_EQ(plain.at("problems"), json::array()) << name;
        const json spoons = asked(own, {{"reader", {{"step_g", nullptr}, {"spoons", "metric"}}},
                                        {"start", "2026-11-25"}});
        EXPECT_EQ(schema.faults(spoons), "") << name;
        EXPECT_TRUE(spoons.at("spoons").is_array());
        EXPECT_THAT(spoons.at("calendar").get<std::string>(), HasSubstr("BEGIN:VCALENDAR"));
    }
    page::Session none;
    EXPECT_EQ(load_schema.faults(json::parse(none.load("{\"recipe\": \"nonsense\"}"))), "");
    EXPECT_EQ(schema.faults(asked(none, {})), "");
    EXPECT_EQ(schema.faults(asked(none, {{"do", "appraise"}, {"text", "2 kg cabbage\n45 g salt"}})),
              "");
    EXPECT_EQ(schema.faults(asked(none, {{"do", "appraise"}, {"text", "<html>"}})), "");
    EXPECT_EQ(schema.faults(asked(none, {{"do", "dance"}})), "");
}

TEST(PageAnswer, isWhatTheCommandsPrint) {
    const kitchen::Kitchen kitchen = test::kitchen_of(demo("kitchen"));
    for (const std::string& name : demo_names()) {
        const page::Session own = session(name);
        language::Findings findings;
        const language::Document recipe =
            test::read_recipe(*language::read_source("r", demo(name), findings), findings);
        plan::RequestFindings found;
        const auto out = plan::weigh(recipe, kitchen, {}, findings, found);
        ASSERT_TRUE(out) << name;
        const std::string answer = own.answer("{\"do\": \"weigh\"}");
        const json document = json::parse(answer);
        // The very text, not only the same values.
        std::string weighed = render::weigh_json(*out);
        weighed.pop_back();
        EXPECT_THAT(answer, HasSubstr(weighed)) << name;
        const auto room = *kitchen.room_kelvin - 273.15;
        const render::Card card = render::make_card(
            *out, render::card_times(*out, room, std::nullopt), render::Units::metric);
        EXPECT_EQ(document.at("card_html"), render::card_body(card).written()) << name;
        EXPECT_EQ(document.at("status"), plan::all_well(*out) ? 0 : 1) << name;
    }
}

TEST(PageAnswer, sameQuestionSameBytes) {
    const page::Session one = session("half-sours");
    const page::Session other = session("half-sours");
    const std::string question = R"({"do": "weigh", "words": ["jar=tall"], "units": "both"})";
    const std::string first = one.answer(question);
    static_cast<void>(one.answer(R"({"do": "weigh", "words": ["cucumbers=2kg"]})"));
    EXPECT_EQ(one.answer(question), first);
    EXPECT_EQ(other.answer(question), first);
}

TEST(PageAnswer, refusalsAreThoseOfTheCommandLine) {
    const page::Session own = session("winter-kraut");
    const json answer = asked(own, {{"words", {"cabage=1.84kg"}}});
    EXPECT_EQ(answer.at("status"), 2);
    EXPECT_TRUE(answer.at("weigh").is_null());
    ASSERT_EQ(answer.at("problems").size(), 1U);
    const json& problem = answer.at("problems")[0];
    EXPECT_EQ(problem.at("text"), "cabage=1.84kg");
    EXPECT_EQ(problem.at("column"), 1);
    EXPECT_THAT(problem.at("advice").get<std::string>(), HasSubstr("cabbage"));
    EXPECT_EQ(asked(own, {{"words", {"cabbage=1,84kg"}}}).at("problems")[0].at("code"),
              "bad-amount");
    EXPECT_EQ(asked(own, {{"without", {"nothing"}}}).at("status"), 2);
}

TEST(PageAnswer, readersOwnScaleAndJarAreUsed) {
    const page::Session own = session("winter-kraut");
    const json fine = asked(own, {{"reader", {{"step_g", 0.1}}}});
    EXPECT_EQ(fine.at("weigh").at("items")[1].at("step_g"), 0.1);
    const json coarse = asked(own, {{"reader", {{"step_g", 5}}}, {"words", {"cabbage=1.8kg"}}});
    for (const json& item : coarse.at("weigh").at("givens"))
        EXPECT_EQ(item.at("step_g"), 5);
    EXPECT_EQ(coarse.at("weigh").at("kitchen").at("name"), "your own scale");
    const json jar =
        asked(own, {{"reader", {{"jar", {{"brimful_ml", 1000}, {"across_cm", 10}, {"have", 2}}}}},
                    {"words", {"jar=mine"}}});
    EXPECT_EQ(jar.at("status"), 0) << jar.dump(2);
    EXPECT_EQ(jar.at("weigh").at("chosen_jars"), json::array({"mine"}));
    EXPECT_THAT(jar.at("card_html").get<std::string>(), HasSubstr("mine, 1"));
    // Without an own one the kitchen's applies.
    EXPECT_EQ(asked(own, {{"words", {"jar=tall"}}}).at("status"), 0);
}

TEST(PageAnswer, endsOfWhatSpoonsWeighAreRoundedOutward) {
    page::WeighAnswer answer;
    answer.spoons.emplace();
    answer.spoons->push_back(
        {.name = "salt", .text = {}, .low_g = 2.0 / 3, .high_g = 10.0 / 3, .warning = {}});
    const std::vector<page::Problem> none;
    answer.problems = &none;
    const json spoon = json::parse(page::page_json(answer)).at("spoons").at(0);
    EXPECT_EQ(spoon.at("low_g").dump(), "0.666666666666");
    EXPECT_EQ(spoon.at("high_g").dump(), "3.33333333334");
}

TEST(PageAnswer, spoonsSayHowFarTheyMayBeOff) {
    const page::Session own = session("winter-kraut");
    const auto salt = [&](const std::string& grain) {
        const json answer = asked(own, {{"reader", {{"step_g", nullptr}}}, {"grain", grain}});
        for (const json& one : answer.at("spoons"))
            if (one.at("name") == "salt") return one;
        ADD_FAILURE() << answer.dump(2);
        return json{};
    };
    const json fine = salt("salt-table");
    const json flakes = salt("salt-kosher-light");
    EXPECT_LT(fine.at("low_g"), fine.at("high_g"));
    EXPECT_NE(fine.at("text"), flakes.at("text"));
    EXPECT_THAT(flakes.at("warning").get<std::string>(), HasSubstr("of the vegetables"));
    const json no_scale = asked(own, {{"reader", {{"step_g", 1}}}}).at("spoons");
    EXPECT_TRUE(no_scale.is_null());
    // The card says the same spoons, and nothing of what a scale does.
    const json card = asked(own, {{"reader", {{"step_g", nullptr}}}, {"grain", "salt-table"}});
    const std::string html = card.at("card_html").get<std::string>();
    EXPECT_THAT(html, HasSubstr("without a scale " + fine.at("text").get<std::string>()));
    EXPECT_EQ(html.find("may really be"), std::string::npos);
    EXPECT_EQ(asked(own, {{"reader", {{"step_g", 1}}}})
                  .at("card_html")
                  .get<std::string>()
                  .find("without a scale"),
              std::string::npos);
}

TEST(PageAnswer, isWrittenInTheUnitsOfItsKitchenUnlessTheReaderChooses) {
    page::Session own;
    const json loaded = json::parse(
        own.load(json{{"recipe", "recipe \"R\"\nkind kraut\ngiven cabbage = 4 lb\n"
                                 "weigh salt = 2.2 % of cabbage as fine sea salt\n"},
                      {"kitchen", "kitchen \"K\"\nunits us\nscale s reads 0.1 oz up to 11 lb\n"}}
                     .dump()));
    EXPECT_EQ(loaded.at("kitchen").at("units"), "us");
    const json us = asked(own, {});
    EXPECT_THAT(us.at("card_html").get<std::string>(),
                HasSubstr("from 4\xc2\xa0lb 0.0\xc2\xa0oz of"));
    const json metric = asked(own, {{"units", "metric"}});
    EXPECT_THAT(metric.at("card_html").get<std::string>(), HasSubstr("1.814\xc2\xa0kg of"));
    // The figures are those of JSON all the same.
    EXPECT_EQ(us.at("weigh"), metric.at("weigh"));
}

TEST(PageAnswer, nothingThatIsAskedBreaksIt) {
    page::Session own = session("winter-kraut");
    const std::string long_word(500, 'x');
    for (const json& question : std::vector<json>{
             {{"words", "cabbage"}},
             {{"words", {1, 2}}},
             {{"words", {long_word}}},
             {{"reader", 7}},
             {{"reader", {{"step_g", -1}}}},
             {{"reader", {{"step_g", 1e300}}}},
             {{"reader", {{"jar", {{"brimful_ml", 0}}}}}},
             {{"reader", {{"jar", {{"across_cm", 10}}}}}},
             {{"reader", {{"spoons", "wooden"}}}},
             {{"start", "2026-02-30"}},
             {{"units", "stone"}},
             {{"do", "sing"}},
             {{"made", "now"}},
         }) {
        const json answer = asked(own, question);
        EXPECT_EQ(answer.at("status"), 2) << question.dump();
        EXPECT_EQ(answer.at("problems")[0].at("code"), "bad-question") << question.dump();
    }
    for (const char* text :
         {"", "{", "[]", "null", "\xff\xfe", "{\"do\": \"weigh\", \"words\": [\"\xff\"]}"})
        EXPECT_EQ(json::parse(own.answer(text)).at("status"), 2) << text;
    const std::string deep = std::string(100000, '[') + std::string(100000, ']');
    EXPECT_EQ(json::parse(own.answer(deep)).at("status"), 2);
    for (const char* text : {"", "{}", "{\"recipe\": 1}", "{\"recipe\": \"x\", \"bases\": [1]}"})
        EXPECT_EQ(json::parse(own.load(text)).at("ok"), false) << text;
}

TEST(PageAnswer, nothingIsWeighedBeforeARecipeIsLoaded) {
    page::Session own;
    for (const char* bad : {"", "{}"}) {
        const json answer = json::parse(own.answer(R"({"do": "weigh"})"));
        EXPECT_EQ(answer.at("status"), 2);
        EXPECT_EQ(answer.at("problems").at(0).at("code"), "bad-question");
        EXPECT_EQ(json::parse(own.load(bad)).at("ok"), false);
    }
}

TEST(PageAnswer, textsOfARecipeAreNeverMarkup) {
    page::Session own;
    const std::string recipe = "recipe \"<script>alert(1)</script>\" version 1\nkind kraut\n"
                               "given cabbage = 1 kg \"</main><img src=x onerror=alert(2)>\"\n"
                               "weigh salt = 2.2 % of cabbage as fine sea salt\n"
                               "step \"Rub <b>{salt}</b> & \\\" onmouseover=alert(3)\"\n";
    ASSERT_EQ(json::parse(own.load(json{{"recipe", recipe}}.dump())).at("ok"), true);
    const json answer = asked(own, {});
    const std::string markup = answer.at("card_html");
    EXPECT_THAT(markup, HasSubstr("&lt;script&gt;"));
    EXPECT_THAT(markup, Not(HasSubstr("<script")));
    EXPECT_THAT(markup, Not(HasSubstr("<img")));
    EXPECT_THAT(markup, Not(HasSubstr("<b>42")));
    const json appraised =
        asked(own, {{"do", "appraise"},
                    {"text", "2 kg <b>cabbage</b>\n45 g <img src=x> salt & \"pepper\""}});
    EXPECT_THAT(appraised.at("html").get<std::string>(), Not(HasSubstr("<img")));
    EXPECT_THAT(appraised.at("html").get<std::string>(), Not(HasSubstr("<b>c")));
}

TEST(PageAnswer, tellsNobodyInABrowserOfOptions) {
    const page::Session own;
    for (const auto& [text, said] : {
             std::pair{"1 medium head of cabbage\n1 1/2 tbsp sea salt",
                       "Weigh the white cabbage, and say it in its line."},
             std::pair{"2 kg cabbage\n3 tbsp salt", "or say its grain in its line."},
             std::pair{"some cabbage\n40 g sea salt", "Weigh it, and say it in its line."},
         }) {
        const std::string html = asked(own, {{"do", "appraise"}, {"text", text}}).at("html");
        EXPECT_THAT(html, HasSubstr(said)) << text;
        EXPECT_THAT(html, Not(HasSubstr("--"))) << text;
    }
}

TEST(PageAnswer, appraisesAsTheCommandDoes) {
    const page::Session own;
    const std::string text = "2 kg cabbage\n45 g salt\n1 tsp caraway\n";
    appraise::Refusal refusal;
    appraise::Request request;
    const auto a = appraise::appraise(text, request, refusal);
    ASSERT_TRUE(a);
    const std::string answer = own.answer(json{{"do", "appraise"}, {"text", text}}.dump());
    std::string expected = render::appraise_json(std::span(&*a, 1));
    expected.pop_back();
    EXPECT_THAT(answer, HasSubstr(expected));
    EXPECT_EQ(json::parse(answer).at("status"), 0);
    const json kind =
        asked(own, {{"do", "appraise"}, {"text", text}, {"kind", "green-beans in-brine"}});
    EXPECT_EQ(kind.at("appraise").at("method"), "in-brine");
    EXPECT_EQ(asked(own, {{"do", "appraise"}, {"text", text}, {"kind", "porridge"}}).at("status"),
              2);
}

TEST(PageAnswer, carriesWhatARecipeIsBasedOn) {
    page::Session own;
    const json question{{"recipe", "recipe \"Darker\" version 1\nbased on \"winter-kraut\"\n"},
                        {"kitchen", demo("kitchen")},
                        {"bases", {{{"name", "winter-kraut"}, {"text", demo("winter-kraut")}}}}};
    EXPECT_EQ(json::parse(own.load(question.dump())).at("ok"), true);
    json without = question;
    without.erase("bases");
    const json said = json::parse(own.load(without.dump()));
    EXPECT_EQ(said.at("ok"), false);
    EXPECT_EQ(said.at("problems")[0].at("code"), "missing-base");
    EXPECT_EQ(asked(own, {}).at("status"), 2);
}

} // namespace
