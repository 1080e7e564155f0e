#include "engine/plan/brine_sheet.hpp"
#include "engine/plan/chart.hpp"
#include "engine/render/brine_report.hpp"
#include "engine/render/chart_report.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/text_weigh.hpp"
#include "engine/render/words.hpp"
#include "engine/units/together.hpp"
#include "tests/support/recipe.hpp"
#include "tests/support/schema.hpp"
#include "tests/support/weigh_out_example.hpp"

#include <gmock/gmock.h>

/// Charts and brines, from the question to the page.
namespace jarful {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

const char* const kraut = "recipe \"Quay Street kraut, \"\nkind kraut\n"
                          "given cabbage = 1.8 kg\n"
                          "weigh salt = 2.2 % of cabbage as fine sea salt\n"
                          "weigh caraway = 1 g per kg of cabbage as caraway seed\n"
                          "count bay = 1 per kg of cabbage as bay leaf\n"
                          "fill cabbage / 0.9 kg/L\n";

struct Charted {
    std::optional<plan::Chart> chart;
    std::vector<std::string> codes;
};

Charted chart(const std::string& varied, const std::string& every = "",
              const std::string& recipe = kraut,
              const kitchen::Kitchen& kitchen = kitchen::default_kitchen()) {
    language::Findings findings;
    auto source = language::read_source("test.jarful", recipe, findings);
    const language::Document document = language::parse(std::move(*source), findings);
    plan::ChartRequest request;
    request.varied = *plan::read_setting(varied, findings);
    if (!every.empty()) request.every = units::read_amount(every);
    EXPECT_FALSE(findings.has_faults());
    plan::ChartFindings found;
    Charted out;
    out.chart = plan::chart(document, kitchen, request, findings, found);
    for (const auto* list : {&findings, &found.varied, &found.every})
        for (const language::Diagnostic& d : list->all())
            if (d.severity == language::Severity::fault) out.codes.push_back(d.code);
    EXPECT_NE(out.chart.has_value(), found.has_faults() || findings.has_faults());
    return out;
}

TEST(ChartValues, areRoundAndKeepBothEnds) {
    using List = std::vector<double>;
    EXPECT_EQ(plan::chart_values(500, 1500, 250), (List{500, 750, 1000, 1250, 1500}));
    EXPECT_EQ(plan::chart_values(510, 1000, 250), (List{510, 760, 1000}));
    const List round = plan::chart_values(510, 5000, 0);
    EXPECT_EQ(round.front(), 510);
    EXPECT_EQ(round[1], 750);
    EXPECT_EQ(round.back(), 5000);
    EXPECT_LE(round.size(), 22U);
    // Steps of 1, 2, 2.5 and 5 times a power of ten.
    for (const auto& [span, step] :
         {std::pair{20.0, 1.0}, {40.0, 2.0}, {50.0, 2.5}, {100.0, 5.0}, {200.0, 10.0}})
        EXPECT_EQ(plan::chart_values(1000, 1000 + span, 0)[1], 1000 + step) << span;
    EXPECT_TRUE(plan::chart_values(5, 5, 0).empty());
    EXPECT_TRUE(plan::chart_values(5, 4, 0).empty());
    EXPECT_TRUE(plan::chart_values(1, 1000, 1).empty()) << "too many";
    EXPECT_EQ(plan::chart_values(1, 60, 1).size(), 60U);
    EXPECT_TRUE(plan::chart_values(1, 61, 1).empty());
    for (double to : {1.1, 7.0, 33.0, 480.0, 1e6}) {
        const List values = plan::chart_values(1, to, 0);
        EXPECT_TRUE(std::is_sorted(values.begin(), values.end()));
        EXPECT_LE(values.size(), plan::most_chart_rows);
    }
}

TEST(Chart, everyRowIsWhatWeighSays) {
    const auto out = chart("cabbage=500g..5kg", "500g");
    ASSERT_TRUE(out.chart);
    ASSERT_EQ(out.chart->rows.size(), 10U);
    for (const plan::ChartRow& row : out.chart->rows) {
        ASSERT_TRUE(row.out);
        const auto alone = test::weigh(kraut, {"cabbage=" + units::print_number(row.value) + "g"});
        ASSERT_TRUE(alone.out);
        EXPECT_EQ(row.out->items[0].reading_g, alone.out->items[0].reading_g) << row.value;
        EXPECT_EQ(row.holds, alone.out->verdict == plan::Verdict::inside) << row.value;
    }
}

// 2.0 % is the range's own edge: on a scale of 1 g small batches cannot keep it for certain.
TEST(Chart, rowsWithoutAReadingThatHoldsSayWhy) {
    const std::string edge = "recipe \"Edge\"\nkind kraut\ngiven cabbage = 1 kg\n"
                             "weigh salt = 2.5 % of cabbage as fine sea salt\n"
                             "hold salt / cabbage between 2.4 % and 2.6 %\n";
    const auto out = chart("cabbage=100g..3kg", "", edge);
    ASSERT_TRUE(out.chart);
    EXPECT_FALSE(out.chart->all_hold());
    EXPECT_FALSE(out.chart->rows.front().holds);
    EXPECT_THAT(out.chart->rows.front().note, HasSubstr("no reading keeps"));
    EXPECT_TRUE(out.chart->rows.back().holds);
    const std::string text = render::chart_text(*out.chart, {});
    EXPECT_THAT(text, HasSubstr("–"));
    EXPECT_THAT(text, HasSubstr("no reading keeps"));
    EXPECT_THAT(render::chart_csv(*out.chart), HasSubstr("100,,,,,no,"));
    EXPECT_EQ(
        testing::DocumentedSchema("chart").faults(Json::parse(render::chart_json(*out.chart))), "");
}

TEST(Chart, goesByWhatIsWorkedOutToo) {
    const auto salt = chart("salt=10g..60g");
    ASSERT_TRUE(salt.chart);
    EXPECT_NEAR(salt.chart->rows.front().out->givens[0].exact_g, 10 / 0.022, 1);
    EXPECT_THAT(render::chart_text(*salt.chart, {}), HasSubstr("cabbage"));
    const auto fill = chart("fill=1L..5L", "1L");
    ASSERT_TRUE(fill.chart);
    EXPECT_EQ(fill.chart->rows.size(), 5U);
    EXPECT_NEAR(fill.chart->rows[0].out->room->fill_ml, 1000, 2);
}

TEST(Chart, poundsGoByPoundsAndAreWeighedInGrams) {
    const auto out = chart("cabbage=1lb..5lb", "1lb");
    ASSERT_TRUE(out.chart);
    ASSERT_EQ(out.chart->rows.size(), 5U);
    EXPECT_EQ(out.chart->rows[0].value, 454);
    const std::string text = render::chart_text(*out.chart, {});
    EXPECT_THAT(text, HasSubstr("1 lb"));
    EXPECT_THAT(text, HasSubstr("454"));
}

TEST(Chart, refusesWhatIsNoChart) {
    using Codes = std::vector<std::string>;
    EXPECT_EQ(chart("cabbage=1kg").codes, Codes{"chart-range"});
    EXPECT_EQ(chart("jar=tall").codes, Codes{"chart-range"});
    EXPECT_EQ(chart("cabbage=0kg..1kg").codes, Codes{"chart-range"});
    EXPECT_EQ(chart("cabbage=1kg..2kg", "1L").codes, Codes{"chart-step"});
    EXPECT_EQ(chart("cabbage=1kg..2kg", "0g").codes, Codes{"chart-step"});
    EXPECT_EQ(chart("cabbage=1kg..2kg", "1g").codes, Codes{"chart-too-long"});
    EXPECT_EQ(chart("cabage=1kg..2kg").codes, Codes{"unknown-name"});
    EXPECT_EQ(chart("cabbage=1L..2L").codes, Codes{"wrong-dimension"});
}

TEST(ChartText, fitsThePageAndSpreadsOverSeveralTables) {
    std::string many = "recipe \"Many\"\nkind kraut\ngiven cabbage = 1 kg\n"
                       "weigh salt = 2.2 % of cabbage as fine sea salt\n";
    for (int i = 0; i < 12; ++i) {
        many += "weigh long_aromatic_" + std::to_string(i) +
                " = 20 g per kg of cabbage as caraway seed\n";
    }
    const auto out = chart("cabbage=1kg..20kg", "1kg", many);
    ASSERT_TRUE(out.chart);
    const std::string text = render::chart_text(*out.chart, {});
    std::size_t begin = 0;
    while (begin < text.size()) {
        const std::size_t end = text.find('\n', begin);
        EXPECT_LE(render::columns(text.substr(begin, end - begin)), 80);
        begin = end + 1;
    }
    EXPECT_THAT(text, HasSubstr("long_aromatic_11"));
    EXPECT_THAT(text, HasSubstr("*: more than the scale carries"));
}

TEST(ChartCsv, isAsTheStandardSays) {
    const auto out = chart("cabbage=1kg..2kg", "500g");
    ASSERT_TRUE(out.chart);
    const std::string csv = render::chart_csv(*out.chart);
    EXPECT_TRUE(csv.starts_with("cabbage_g,salt_g,caraway_g,bay_pieces,fills_mL,salt_low_percent,"
                                "salt_high_percent,holds,note\r\n1000,22,1,1,1111.11111,"));
    EXPECT_EQ(std::count(csv.begin(), csv.end(), '\r'), 4);
    EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 4);
}

TEST(ChartMarkdown, marksItsOwnSignsAsText) {
    const auto out = chart("cabbage=1kg..2kg", "500g",
                           "recipe \"A | B * C\"\ngiven cabbage = 1 kg\n"
                           "weigh salt = 2.2 % of cabbage as fine sea salt\n");
    ASSERT_TRUE(out.chart);
    const std::string text = render::chart_markdown(*out.chart, render::Units::metric);
    EXPECT_TRUE(text.starts_with("# A \\| B \\* C\n"));
    EXPECT_THAT(text, HasSubstr("| 1.5 kg | 33 |"));
}

TEST(ChartJson, isAsItsSchemaSays) {
    const auto out = chart("cabbage=500g..5kg");
    ASSERT_TRUE(out.chart);
    const Json json = Json::parse(render::chart_json(*out.chart));
    const testing::DocumentedSchema schema("chart");
    EXPECT_EQ(schema.faults(json), "");
    EXPECT_EQ(json.at("unit"), "g");
    EXPECT_EQ(json.at("rows")[0].at("items")[0].at("name"), "salt");
    Json wrong = json;
    wrong["rows"][0]["colour"] = "green";
    EXPECT_NE(schema.faults(wrong), "");
}

plan::BrineSheet brine(const std::string& words, std::optional<double> salt = {}) {
    language::Findings findings;
    const auto question =
        larder::read_brine_question(words, salt, {}, larder::default_celsius, findings);
    EXPECT_TRUE(question) << words;
    return plan::brine_sheet(question.value_or(larder::BrineQuestion{}),
                             kitchen::default_kitchen());
}

TEST(BrineSheet, whatIsWeighedComesOutAroundTheStrength) {
    for (const char* words : {"1.5 L at 3.5 %", "200 mL at 2 %", "5 kg of water at 5 % of brine",
                              "1 L from 5 % to 2 %", "1 L from 2 % to 5 %"}) {
        const plan::BrineSheet sheet = brine(words);
        ASSERT_TRUE(sheet.taken.percent_of_brine) << words;
        const double asked = 100 * sheet.taken.answer.fraction;
        EXPECT_LT(sheet.taken.percent_of_brine->low, asked) << words;
        EXPECT_GT(sheet.taken.percent_of_brine->high, asked) << words;
    }
}

TEST(BrineSheet, theOtherReadingIsShownWhereTheScaleTells) {
    EXPECT_TRUE(brine("1.5 L at 3.5 %").otherwise);
    EXPECT_FALSE(brine("100 mL at 1 %").otherwise) << "1 g either way";
    EXPECT_FALSE(brine("1.5 L at 3.5 % of water").otherwise);
    EXPECT_TRUE(brine("5 %").otherwise);
}

TEST(BrineText, saysHowItWasTakenAndWhatToDo) {
    const std::string text =
        render::brine_text(brine("2 L of water at 5 %"), "2 L of water at 5 %", {});
    EXPECT_THAT(text, HasSubstr("Taken: 5 % of the water"));
    EXPECT_THAT(text, HasSubstr("100 g"));
    EXPECT_THAT(text, HasSubstr("IF 5 % IS OF THE FINISHED BRINE"));
    EXPECT_THAT(text, HasSubstr("degrees salometer"));
    EXPECT_THAT(text, HasSubstr("Next: "));
    EXPECT_THAT(text, Not(HasSubstr("safe")));
    const std::string strong = render::brine_text(brine("1 kg of water at 40 %"), "", {});
    EXPECT_THAT(strong, HasSubstr("MORE SALT THAN DISSOLVES"));
    EXPECT_THAT(strong, HasSubstr("stays at the bottom"));
}

TEST(BrineJson, isAsItsSchemaSays) {
    const testing::DocumentedSchema schema("brine");
    for (const char* words : {"5 %", "1.5 L at 3.5 %", "2 L of water at 5 %", "1 L from 5 % to 2 %",
                              "1 L from 2 % to 5 %", "1 L at 30 %", "from 30 % to 2 %",
                              "100 kg at 1 %", "1 mL at 1 %"}) {
        const Json json = Json::parse(render::brine_json(brine(words), words));
        EXPECT_EQ(schema.faults(json), "") << words;
    }
    const Json json = Json::parse(render::brine_json(brine("1 kg", 40), "1 kg"));
    EXPECT_EQ(json.at("answer").at("sort"), "found");
    EXPECT_EQ(json.at("answer").at("salt").at("reading_g"), 40);
}

TEST(WeighText, saysWhatAnswersAQuestion) {
    const auto o = test::weigh(kraut, {"salt=24g"});
    ASSERT_TRUE(o.out) << o.said;
    const std::string text = render::weigh_text(*o.out, {});
    EXPECT_THAT(text, HasSubstr("Asked: salt = 24 g. Answer: take 1091 g of cabbage."));
    EXPECT_THAT(text, HasSubstr("worked out from what you asked"));
    const Json json = Json::parse(render::weigh_json(*o.out));
    EXPECT_EQ(testing::DocumentedSchema("weigh").faults(json), "");
    EXPECT_EQ(json.at("answer").at("moved")[0].at("entered_g"), 1091);
    EXPECT_EQ(json.at("givens")[0].at("solved"), true);
}

TEST(WeighText, aRefusalReadsAsWellAsAnAnswer) {
    auto out = testing::example_weigh_out();
    out.no_reading = plan::NoReading{"the salt", "cabbage", 620.0, 0.1, 10.0, 240.0};
    out.items[0].moved = true;
    out.items[0].poured = true;
    out.items[0].display_g = 2440;
    out.bowl = plan::Bowl{640, "bench"};
    out.answer = plan::Answer{"salt = 24 g", {{"cabbage", 1840.2, 1840}}, {3000}};
    const std::string text = render::weigh_text(out, {.width = 400});
    EXPECT_THAT(text, HasSubstr("NO READING HOLDS"));
    EXPECT_THAT(text, HasSubstr("a batch from 620 g of cabbage on"));
    EXPECT_THAT(text, HasSubstr("a scale that reads 0.1 g"));
    EXPECT_THAT(text, HasSubstr("Next: do not weigh by these numbers."));
    EXPECT_THAT(text, HasSubstr("the display"));
    EXPECT_THAT(text, HasSubstr("2440.0 g"));
    EXPECT_THAT(text, HasSubstr("One bowl of 640 g on bench"));
    EXPECT_THAT(text, HasSubstr("It has other answers too"));
    EXPECT_EQ(testing::DocumentedSchema("weigh").faults(Json::parse(render::weigh_json(out))), "");
}

TEST(BrineSheet, aQuartIsWhatTheKitchenMeansByIt) {
    language::Findings findings;
    const auto question =
        larder::read_brine_question("1 quart of water at 5 %", {}, {}, 20, findings);
    ASSERT_TRUE(question);
    kitchen::Kitchen kitchen = kitchen::default_kitchen();
    kitchen.spoons = units::Spoons::imperial;
    EXPECT_NEAR(plan::brine_sheet(*question, kitchen).taken.answer.mix->water_ml, 1136.5, 0.1);
    kitchen.spoons = units::Spoons::us;
    EXPECT_NEAR(plan::brine_sheet(*question, kitchen).taken.answer.mix->water_ml, 946.35, 0.1);
}

TEST(Words, aCapitalLeavesPhAlone) {
    EXPECT_EQ(render::capital("pH 4.6 or below"), "pH 4.6 or below");
    EXPECT_EQ(render::capital("taste it"), "Taste it");
    EXPECT_EQ(render::capital(""), "");
    EXPECT_EQ(render::capital("a"), "A");
}

TEST(Together, aNumberAndItsUnitStayOnOneLine) {
    EXPECT_TRUE(units::stay_together("1.84", "kg"));
    EXPECT_TRUE(units::stay_together("(1/4", "tsp),"));
    EXPECT_TRUE(units::stay_together("½", "cup"));
    EXPECT_TRUE(units::stay_together("2.2", "%."));
    EXPECT_TRUE(units::stay_together("21", "°C."));
    EXPECT_FALSE(units::stay_together("day", "21"));
    EXPECT_FALSE(units::stay_together("21", "to"));
    EXPECT_FALSE(units::stay_together("", ""));
    for (const std::string& line : render::wrap("wait for 1.84 kg of it", 13))
        EXPECT_FALSE(line.ends_with("1.84")) << line;
    EXPECT_EQ(render::wrap("1.84 kg", 5), (std::vector<std::string>{"1.84", "kg"}));
}

} // namespace
} // namespace jarful
