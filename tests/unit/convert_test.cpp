#include "engine/appraise/appraise.hpp"
#include "engine/larder/convert.hpp"
#include "engine/render/convert_report.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>

#include <random>

namespace jarful::larder {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using Json = nlohmann::json;

const Larder& larder() {
    static const Larder built_in;
    return built_in;
}

ConversionOutcome ask(const std::string& text, Measures measures = Measures::unstated,
                      const std::string& per = "") {
    return convert({text, per, measures}, larder());
}

Conversion converted(const std::string& text, Measures measures = Measures::unstated,
                     const std::string& per = "") {
    const ConversionOutcome outcome = ask(text, measures, per);
    EXPECT_TRUE(outcome.conversion)
        << text << ": " << (outcome.fault ? outcome.fault->message : "");
    return outcome.conversion.value_or(Conversion{});
}

ConversionFault refused(const std::string& text, Measures measures = Measures::unstated,
                        const std::string& per = "") {
    const ConversionOutcome outcome = ask(text, measures, per);
    EXPECT_TRUE(outcome.fault) << text;
    EXPECT_FALSE(outcome.conversion) << text;
    return outcome.fault.value_or(ConversionFault{});
}

void expect_exact(const Conversion& c, double value, std::string_view unit) {
    EXPECT_EQ(c.to, unit) << c.from;
    EXPECT_NEAR(c.result.typical, value, 1e-9 * std::abs(value) + 1e-12) << c.from;
    EXPECT_EQ(c.result.low, c.result.high) << c.from;
}

TEST(Convert, TurnsSpoonsOfANamedSaltIntoGramsWithTheirSpread) {
    const Conversion c = converted("2 tbsp coarse flake kosher salt", Measures::us);
    EXPECT_EQ(c.to, "g");
    ASSERT_TRUE(c.material && c.figure);
    EXPECT_EQ(c.material->id, "salt-kosher-light");
    EXPECT_NEAR(c.result.typical, 2 * 14.78676478125 * c.figure->typical, 1e-9);
    EXPECT_NEAR(c.result.low, 2 * 14.78676478125 * c.figure->low, 1e-9);
    EXPECT_NEAR(c.result.high, 2 * 14.78676478125 * c.figure->high, 1e-9);
    EXPECT_EQ(c.from, "2 tbsp of coarse flake kosher salt");
    EXPECT_THAT(c.sources, Not(IsEmpty()));
    EXPECT_THAT(c.reckoning, HasSubstr("from memory"));
}

TEST(Convert, ReachesToTheMetricSpoonWhereNobodySaysWhich) {
    const Conversion us = converted("2 tbsp canning salt", Measures::us);
    const Conversion metric = converted("2 tbsp canning salt", Measures::metric);
    const Conversion c = converted("2 tbsp canning salt");
    EXPECT_EQ(c.result.typical, us.result.typical);
    EXPECT_EQ(c.result.low, us.result.low);
    EXPECT_EQ(c.result.high, metric.result.high);
    EXPECT_GT(c.result.high, us.result.high);
    EXPECT_TRUE(c.measures_matter);
    EXPECT_THAT(c.notes, Contains(HasSubstr("US ones are taken")));
    EXPECT_THAT(us.notes, Not(Contains(HasSubstr("US ones are taken"))));
}

TEST(Convert, ReadsTheSameSpoonsOnBothSides) {
    // 2 tbsp are 1/8 cup in US measure and 30/250 in metric: not one system's spoon in another's
    // cup.
    const Conversion c = converted("2 tbsp to cup");
    EXPECT_DOUBLE_EQ(c.result.typical, 0.125);
    EXPECT_DOUBLE_EQ(c.result.low, 0.12);
    EXPECT_DOUBLE_EQ(c.result.high, 0.125);
    expect_exact(converted("3 tsp to tbsp"), 1, "tbsp");
}

TEST(Convert, SaysWhichMeasureASystemLacks) {
    EXPECT_THAT(converted("1 quart to L", Measures::metric).notes,
                Contains(HasSubstr("no metric quart")));
    EXPECT_THAT(converted("1 cup to mL", Measures::imperial).notes,
                Contains(HasSubstr("no imperial cup")));
    EXPECT_THAT(converted("1 gallon to L").notes, Contains(HasSubstr("the US one is taken")));
    EXPECT_THAT(converted("1 us cup to mL").notes, IsEmpty());
}

TEST(Convert, TurnsRatesIntoPercent) {
    expect_exact(converted("10 g/lb to %"), 10 / 4.5359237, "%");
    expect_exact(converted("10 g per lb to %"), 10 / 4.5359237, "%");
    expect_exact(converted("2.2 % to g/kg"), 22, "g/kg");
    expect_exact(converted("2.2 %"), 22, "g/kg");
    expect_exact(converted("10 g/lb"), 10 / 4.5359237, "%");
    expect_exact(converted("54 g per 5 lb"), 5400 / 2267.96185, "%");
}

TEST(Convert, TakesWhatTheAmountIsForBehindPer) {
    const Conversion apart = converted("3/4 cup canning salt", Measures::us, "25 lb");
    const Conversion inside = converted("3/4 cup canning salt per 25 lb", Measures::us);
    EXPECT_EQ(apart.to, "%");
    EXPECT_EQ(apart.result.typical, inside.result.typical);
    EXPECT_EQ(apart.from, "3/4 cup of canning salt per 25 lb");
    EXPECT_NEAR(apart.result.typical, 1.9, 0.05);
    EXPECT_LT(apart.result.low, apart.result.typical);
    EXPECT_EQ(refused("1 g per lb", Measures::us, "1 lb").code, "per-twice");
    EXPECT_EQ(refused("1 g per").code, "nothing");
}

TEST(Convert, NeedsToKnowWhatAVolumeBehindPerHolds) {
    const ConversionFault fault = refused("1/4 cup canning salt per quart");
    EXPECT_EQ(fault.code, "no-material");
    EXPECT_THAT(fault.nearest, Contains("water"));
    const Conversion c = converted("4 tbsp canning salt per quart water", Measures::us);
    EXPECT_NEAR(c.result.typical, 4 * 14.78676478125 * 1.217 / (946.352946 * 0.9982) * 100, 1e-6);
    EXPECT_EQ(converted("50 g salt per 1 L to g/L").result.typical, 50);
}

TEST(Convert, NeverTakesARatioOfVolumesForASaltPercentage) {
    EXPECT_EQ(refused("1 tbsp per quart").code, "no-material");
    EXPECT_EQ(refused("1 cup per 1 gallon to %").code, "no-material");
}

TEST(Convert, ConvertsTemperaturesAsPoints) {
    for (const char* text : {"68F to C", "68 F to C", "68 °F to °C", "68° F to celsius", "68f",
                             "68 °F", "68 degF to °C"}) {
        expect_exact(converted(text), 20, "°C");
    }
    expect_exact(converted("20 C"), 68, "°F");
    expect_exact(converted("-40 F to C"), -40, "°C");
    expect_exact(converted("−40 C to F"), -40, "°F");
    expect_exact(converted("0 C to F"), 32, "°F");
    const Conversion range = converted("18..22 °C to F");
    EXPECT_NEAR(range.result.low, 64.4, 1e-9);
    EXPECT_NEAR(range.result.typical, 68, 1e-9);
    EXPECT_NEAR(range.result.high, 71.6, 1e-9);
    EXPECT_EQ(converted("65 to 70 F to C").result.high, converted("70 F to C").result.high);
}

TEST(Convert, TellsACupFromADegree) {
    EXPECT_THAT(refused("2 C water").advice, HasSubstr("cup"));
    EXPECT_EQ(refused("2 C water").code, "dimension");
    EXPECT_EQ(refused("-500 C").code, "out-of-range");
    EXPECT_EQ(refused("-5 g to oz").code, "amount");
    EXPECT_EQ(refused("20 C per lb").code, "dimension");
}

TEST(Convert, TakesTheUnitOnTheOtherSideOfTheOcean) {
    expect_exact(converted("1.5 kg"), 1500 / 453.59237, "lb");
    expect_exact(converted("100 g"), 100 / 28.349523125, "oz");
    expect_exact(converted("2 lb 3 oz"), 35 * 28.349523125, "g");
    expect_exact(converted("5 lb"), 2.26796185, "kg");
    expect_exact(converted("3 in"), 7.62, "cm");
    expect_exact(converted("10 cm"), 10 / 2.54, "in");
    EXPECT_EQ(refused("3 week").code, "missing-unit");
    EXPECT_EQ(refused("3").code, "missing-unit");
}

TEST(Convert, MeasuresAWeightOutInSpoons) {
    const Conversion c = converted("500 g caraway seed to tbsp", Measures::us);
    ASSERT_TRUE(c.figure);
    EXPECT_NEAR(c.result.typical, 500 / c.figure->typical / 14.78676478125, 1e-9);
    EXPECT_NEAR(c.result.low, 500 / c.figure->high / 14.78676478125, 1e-9);
    EXPECT_NEAR(c.result.high, 500 / c.figure->low / 14.78676478125, 1e-9);
    EXPECT_EQ(converted("3 g caraway seed").to, "tsp");
    EXPECT_EQ(converted("20 g caraway seed").to, "tbsp");
    EXPECT_EQ(converted("500 g caraway seed").to, "cup");
    EXPECT_EQ(converted("500 g caraway seed", Measures::imperial).to, "mL");
}

TEST(Convert, WeighsPieces) {
    const Conversion c = converted("3 carrots");
    ASSERT_TRUE(c.figure);
    EXPECT_TRUE(c.by_piece);
    EXPECT_EQ(c.from, "3 carrots");
    EXPECT_NEAR(c.result.typical, 3 * c.figure->typical, 1e-9);
    EXPECT_EQ(converted("1 head cabbage to lb").to, "lb");
    EXPECT_EQ(refused("3 fine sea salt").code, "no-piece");
}

TEST(Convert, KeepsRangesAndStatedUncertainty) {
    const Conversion range = converted("2..3 tbsp to mL", Measures::us);
    EXPECT_NEAR(range.result.low, 2 * 14.78676478125, 1e-9);
    EXPECT_NEAR(range.result.high, 3 * 14.78676478125, 1e-9);
    const Conversion spoken = converted("2 to 3 tbsp to mL", Measures::us);
    EXPECT_EQ(spoken.result.low, range.result.low);
    EXPECT_EQ(spoken.from, "2..3 tbsp");
    const Conversion stated = converted("1.80 kg ± 5 g to g");
    EXPECT_NEAR(stated.result.low, 1795, 1e-9);
    EXPECT_NEAR(stated.result.high, 1805, 1e-9);
    EXPECT_EQ(converted("1 g ± 5 g to oz").result.low, 0);
}

TEST(Convert, ReadsMixedNumbersAndTwoWordUnits) {
    EXPECT_NEAR(converted("1 1/2 cup to mL", Measures::us).result.typical, 354.88235475, 1e-9);
    EXPECT_NEAR(converted("1½ cups to mL", Measures::us).result.typical, 354.88235475, 1e-9);
    EXPECT_NEAR(converted("8 fl oz to mL", Measures::us).result.typical, 236.5882365, 1e-9);
    expect_exact(converted("250 mL to fl oz", Measures::us), 250 / 29.5735295625, "floz");
    EXPECT_EQ(converted("2 tbsp of canning salt to g").material->id, "salt-canning");
}

TEST(Convert, RefusesAVolumeWithoutAMaterialAndListsSome) {
    for (const char* text : {"2 tbsp", "2 tbsp to g", "1 cup to oz", "2 tbsp to %"}) {
        const ConversionFault fault = refused(text);
        if (std::string(text) != "2 tbsp to %") {
            EXPECT_EQ(fault.code, "no-material") << text;
            EXPECT_THAT(fault.nearest, Contains("canning salt")) << text;
        }
    }
    EXPECT_EQ(refused("20 g to tbsp").code, "no-material");
}

TEST(Convert, ListsTheMaterialsNearAMisspeltOne) {
    const ConversionFault fault = refused("2 tbsp carraway sead");
    EXPECT_EQ(fault.code, "unknown-material");
    EXPECT_THAT(fault.nearest, Contains("caraway seed"));
    EXPECT_THAT(refused("2 tbsp gribble").nearest, Not(IsEmpty()));
}

TEST(Convert, ListsItsLikesWhereADensityIsNotKnown) {
    const ConversionFault fault = refused("1 cup savoy cabbage");
    EXPECT_EQ(fault.code, "no-density");
    EXPECT_THAT(fault.nearest, Contains("white cabbage"));
    EXPECT_EQ(refused("20 g savoy cabbage to cup").code, "no-density");
}

TEST(Convert, SaysOfAPinchThatItHasNoSize) {
    for (const char* text :
         {"1 pinch salt", "2 dashes canning salt", "1 handful of salt", "1 pinch"}) {
        const ConversionFault fault = refused(text);
        EXPECT_EQ(fault.code, "unknown-unit") << text;
        EXPECT_THAT(fault.message, HasSubstr("no size")) << text;
    }
}

TEST(Convert, NeverWeighsASaltThatIsNotSalt) {
    EXPECT_EQ(refused("1 tbsp reduced-sodium salt").code, "no-density");
    EXPECT_THAT(refused("1 tbsp reduced-sodium salt").advice, HasSubstr("potassium"));
    EXPECT_EQ(refused("1 tbsp curing salt").code, "no-density");
    EXPECT_EQ(refused("1 tsp garlic salt").code, "unknown-material");
    EXPECT_THAT(converted("25 g curing salt to oz").notes, Contains(HasSubstr("Never")));
}

TEST(Convert, AsksForTheGrainOfASpoonOfSalt) {
    for (const char* text : {"2 tbsp salt", "1 tsp kosher salt", "30 g sea salt to tbsp"}) {
        const ConversionFault fault = refused(text);
        EXPECT_EQ(fault.code, "vague-material") << text;
        EXPECT_THAT(fault.nearest, Contains("coarse flake kosher salt")) << text;
    }
    EXPECT_THAT(refused("2 tbsp canin salt").nearest.front(), HasSubstr("canning salt"));
    EXPECT_EQ(converted("50 g salt to oz").to, "oz");
    EXPECT_EQ(converted("50 g salt per 1 kg").to, "%");
}

TEST(Convert, RefusesTheWrongDimensionInWords) {
    const ConversionFault fault = refused("5 cm to g");
    EXPECT_EQ(fault.code, "dimension");
    EXPECT_THAT(fault.message, HasSubstr("length"));
    EXPECT_THAT(fault.message, HasSubstr("weight"));
    EXPECT_EQ(refused("5 kg to °C").code, "dimension");
    EXPECT_EQ(refused("68 °F to g").code, "dimension");
    EXPECT_EQ(refused("1 g/L to %").code, "dimension");
}

TEST(Convert, OffersTheUnitThatWasMeant) {
    EXPECT_THAT(refused("2 T salt").advice, HasSubstr("tbsp"));
    EXPECT_THAT(refused("2 tbps canning salt").advice, HasSubstr("tbsp"));
    EXPECT_THAT(refused("2 kg to gramms").advice, HasSubstr("gram"));
    EXPECT_EQ(refused("2 kg to").code, "missing-unit");
    EXPECT_EQ(refused("2 kg to blorbs").code, "unknown-unit");
}

TEST(Convert, RefusesWhatCouldBeReadTwoWays) {
    for (const char* text : {"1,5 kg to lb", ".5 kg to lb", "2-3 tbsp water", "1/0 kg to lb",
                             "3 .. 2 kg to lb", "1e3 kg to lb"}) {
        refused(text);
    }
    EXPECT_EQ(refused("").code, "nothing");
    EXPECT_EQ(refused("   ").code, "nothing");
    EXPECT_EQ(refused("to g").code, "nothing");
    EXPECT_EQ(refused("2 kg 7").code, "left-over");
}

TEST(Convert, KnowsTheMeasuresOfALabel) {
    expect_exact(converted("1 cup to mL", Measures::label), 240, "mL");
    expect_exact(converted("1 floz to mL", Measures::label), 30, "mL");
    expect_exact(converted("1 tbsp to mL", Measures::label), 15, "mL");
    expect_exact(converted("480 mL to cup", Measures::label), 2, "cup");
    expect_exact(converted("1 cup to tbsp", Measures::label), 16, "tbsp");
    EXPECT_EQ(refused("1 quart to mL", Measures::label).code, "measures");
    EXPECT_EQ(refused("1 L to quart", Measures::label).code, "measures");
    EXPECT_EQ(refused("1 cup 2 tbsp to mL", Measures::label).code, "amount");
    EXPECT_EQ(refused("1 quart 2 floz to mL", Measures::label).code, "amount");
    expect_exact(converted("1 us quart to mL", Measures::label), 946.352946, "mL");
}

TEST(Convert, UsesWhatTheKitchenKnowsOfItsMaterials) {
    Larder own;
    OwnMaterial material;
    material.name = "harbour salt";
    material.role = Role::salt;
    material.bulk_density = Figure{1.0, 1.1, 1.2, Status::common_practice, ""};
    own.add(material);
    const ConversionOutcome outcome = convert({"1 tbsp harbour salt", "", Measures::metric}, own);
    ASSERT_TRUE(outcome.conversion);
    EXPECT_NEAR(outcome.conversion->result.typical, 16.5, 1e-9);
    EXPECT_THAT(outcome.conversion->sources, Contains("stated in the recipe"));
}

TEST(Convert, AnswersOrRefusesWhateverIsTyped) {
    std::mt19937 random(20240611);
    const std::string pieces[] = {"2",  "1/2",   "½",    "tbsp", "cup", "g",    "lb", "per", "to",
                                  "of", "..",    "±",    "%",    "°",   "F",    "C",  "-",   "salt",
                                  "/",  "water", "\xFF", "\xC2", "\n",  "kg/L", "0",  "1e9", ","};
    for (int i = 0; i < 5000; ++i) {
        std::string text;
        const auto words = random() % 9;
        for (std::uint32_t w = 0; w < words; ++w) {
            text += pieces[random() % std::size(pieces)];
            if (random() % 4 != 0) text += ' ';
        }
        const auto measures = static_cast<Measures>(random() % 5);
        const ConversionOutcome outcome = ask(text, measures);
        ASSERT_NE(outcome.conversion.has_value(), outcome.fault.has_value()) << text;
        if (outcome.conversion) {
            const Spread& r = outcome.conversion->result;
            EXPECT_LE(r.low, r.typical) << text;
            EXPECT_LE(r.typical, r.high) << text;
            EXPECT_FALSE(outcome.conversion->sources.empty()) << text;
        } else {
            EXPECT_FALSE(outcome.fault->message.empty()) << text;
        }
    }
    EXPECT_EQ(refused(std::string(5000, '7')).code, "too-long");
}

TEST(CompareSalts, PutsTheHeaviestFirstAndTheUnknownLast) {
    const auto grains = compare_salts(Measures::us);
    ASSERT_GT(grains.size(), 10U);
    double before = 1000;
    bool vague = false;
    for (const SaltGrain& grain : grains) {
        if (!grain.tablespoon) {
            EXPECT_FALSE(grain.replaces);
            vague = true;
            continue;
        }
        if (grain.material->vague && !vague) {
            vague = true;
            before = 1000;
        }
        EXPECT_LE(grain.tablespoon->typical, before + 1e-12) << grain.material->name;
        before = grain.tablespoon->typical;
        EXPECT_NEAR(grain.tablespoon->typical, 3 * grain.teaspoon->typical, 1e-9);
        ASSERT_TRUE(grain.replaces);
        EXPECT_LE(grain.replaces->low, grain.replaces->typical);
        EXPECT_LE(grain.replaces->typical, grain.replaces->high);
    }
}

TEST(CompareSalts, ReplacesByTheWeightOfASpoon) {
    for (const SaltGrain& grain : compare_salts(Measures::metric)) {
        if (grain.material->id == "salt-table") {
            EXPECT_NEAR(grain.tablespoon->typical, 18.255, 1e-9);
            EXPECT_EQ(grain.replaces->low, 1);
            EXPECT_EQ(grain.replaces->high, 1);
        }
        if (grain.material->id == "salt-kosher-light") {
            EXPECT_NEAR(grain.replaces->typical, 2, 0.01);
            EXPECT_GT(grain.replaces->low, 1.5);
        }
    }
}

/// Empty if a document is as its schema says.
std::string schema_faults(const std::string& name, const std::string& text) {
    return jarful::testing::DocumentedSchema(name).faults(Json::parse(text));
}

TEST(ConvertJson, HasTheFieldsThatProgramsLookForAndFitsItsSchema) {
    const std::string text = render::convert_json(converted("2 tbsp canning salt", Measures::us));
    const Json out = Json::parse(text);
    EXPECT_EQ(out.at("format"), "jarful.convert/1");
    EXPECT_EQ(out.at("to"), "g");
    EXPECT_EQ(out.at("value"), out.at("typical"));
    EXPECT_LT(out.at("low"), out.at("value"));
    EXPECT_LT(out.at("value"), out.at("high"));
    EXPECT_EQ(out.at("spoons"), "us");
    EXPECT_EQ(out.at("spoons_assumed"), false);
    EXPECT_FALSE(out.at("source").get<std::string>().empty());
    EXPECT_EQ(schema_faults("convert", text), "");
    for (const char* one : {"68F to C", "10 g/lb to %", "3 carrots", "1 cup to mL"}) {
        EXPECT_EQ(schema_faults("convert", render::convert_json(converted(one))), "") << one;
    }
}

std::vector<render::ConvertedLine> some_lines() {
    std::vector<render::ConvertedLine> lines;
    std::size_t number = 0;
    for (const char* text : {"2 tbsp canning salt", "68F to C", "2 tbsp", "1\x1b[31m"})
        lines.push_back({++number, text, ask(text)});
    return lines;
}

TEST(ConvertJson, KeepsTheLinesOfMany) {
    const std::string text = render::convert_json(some_lines());
    const Json out = Json::parse(text);
    EXPECT_EQ(schema_faults("convert", text), "");
    EXPECT_EQ(out.at("conversions").size(), 2U);
    EXPECT_EQ(out.at("conversions")[1].at("line"), 2);
    EXPECT_EQ(out.at("faults").size(), 2U);
    EXPECT_EQ(out.at("faults")[0].at("code"), "no-material");
    EXPECT_FALSE(out.at("faults")[0].at("nearest").empty());
}

TEST(ConvertText, StaysInEightyColumnsAndPrintsLowTypicalHigh) {
    const std::string one = render::convert_text(converted("2 tbsp coarse flake kosher salt"), {});
    for (const char* part : {"about 18 g", "low", "typical", "high", "Source:", "from memory"})
        EXPECT_THAT(one, HasSubstr(part));
    const std::string many = render::convert_text(some_lines(), {});
    EXPECT_THAT(many, HasSubstr("not converted"));
    EXPECT_THAT(many, Not(HasSubstr("\x1b")));
    for (const std::string& page : {one, many, render::salts_text(Measures::unstated, {})}) {
        for (std::size_t at = 0; at < page.size();) {
            const std::size_t end = std::min(page.find('\n', at), page.size());
            EXPECT_LE(render::columns(page.substr(at, end - at)), 80) << page.substr(at, end - at);
            at = end + 1;
        }
    }
}

TEST(ConvertText, RoundsTheEndsOutward) {
    const std::string page =
        render::convert_text(converted("2 tbsp canning salt", Measures::us), {});
    // 34.187 to 37.854 g
    EXPECT_THAT(page, HasSubstr("34.1 g"));
    EXPECT_THAT(page, HasSubstr("37.9 g"));
}

TEST(SaltsJson, FitsItsSchema) {
    for (const Measures measures : {Measures::unstated, Measures::us, Measures::label}) {
        const std::string text = render::salts_json(measures);
        EXPECT_EQ(schema_faults("salts", text), "");
        EXPECT_EQ(Json::parse(text).at("format"), "jarful.salts/1");
    }
}

TEST(SaltsText, NamesTheSaltsThatAreNoSaltForAFerment) {
    const std::string page = render::salts_text(Measures::us, {});
    EXPECT_THAT(page, HasSubstr("reduced-sodium salt"));
    EXPECT_THAT(page, HasSubstr("curing salt"));
    EXPECT_THAT(page, HasSubstr("By weight only"));
}

TEST(Convert, HeapedScantAndHalfSpoonsAreThoseOfFoundRecipes) {
    for (const char* amount : {"2 heaped tbsp", "1 heaping tsp", "3 scant tsp", "1 rounded tbsp",
                               "half a teaspoon", "a generous tablespoon", "2 level tsp"}) {
        const Conversion c = converted(std::string(amount) + " canning salt to g");
        const appraise::Line line = appraise::read_line(std::string(amount) + " canning salt");
        ASSERT_TRUE(line.grams) << amount;
        EXPECT_NEAR(c.result.low, line.grams->low, 1e-9 * line.grams->low) << amount;
        EXPECT_NEAR(c.result.high, line.grams->high, 1e-9 * line.grams->high) << amount;
        EXPECT_LE(c.result.low, c.result.typical) << amount;
        EXPECT_GE(c.result.high, c.result.typical) << amount;
    }
    const Conversion heaped = converted("2 heaped tbsp canning salt to g");
    const Conversion level = converted("2 tbsp canning salt to g");
    EXPECT_NEAR(heaped.result.low, 1.2 * level.result.low, 1e-9);
    EXPECT_NEAR(heaped.result.high, 2.2 * level.result.high, 1e-9);
    EXPECT_EQ(heaped.from, "2 heaped tbsp of canning salt");
    EXPECT_THAT(heaped.notes, Contains(HasSubstr("\"heaped\" is taken for 1.2 to 2.2 times")));
    EXPECT_EQ(converted("half a tsp canning salt to g").result.typical,
              converted("1/2 tsp canning salt to g").result.typical);
}

} // namespace
} // namespace jarful::larder
