#include "engine/render/fields/fields.hpp"
#include "engine/render/fields/schema.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>

/// A made-up result with every sort of field: as JSON, and as its schema.
namespace jarful::fields {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;

enum class Colour : std::uint8_t { red, green };
std::string_view colour_word(Colour colour) {
    return colour == Colour::red ? "red" : "green";
}
constexpr Choice<Colour, 2> colours{
    "colour", "What it looks like.", colour_word, {Colour::red, Colour::green}};
constexpr auto sizes = one_of_words({"small", "large"});

struct Lid {
    std::string name;
    double width_cm = 0;
};
constexpr auto lid_fields = fields::fields<Lid>({
    {"name", text<&Lid::name>, "As it is called."},
    {"width_cm", number<&Lid::width_cm>, "Across.", "cm"},
});
constexpr Shape<Lid> lid{"lid", "What closes a pot.", table<lid_fields>};

struct Origin {
    std::string place;
    std::optional<int> year;
};
constexpr auto origin_fields = fields::fields<Origin>({
    {"place", text<&Origin::place>, "Where it is from."},
    {"year", maybe(whole<&Origin::year>), "Null if nobody knows."},
});
constexpr Shape<Origin> origin{"origin", "Where from.", table<origin_fields>};

struct Pot {
    std::string name = "pot";
    std::string label;
    double litres = 1.5;
    std::optional<double> weight;
    std::optional<double> height;
    units::Interval truth{1, 2};
    int shelf = -3;
    std::size_t pieces = 4;
    bool closed = true;
    Colour colour = Colour::green;
    std::optional<Colour> inside;
    std::string size = "small";
    std::optional<std::string> note;
    Lid lid;
    std::optional<Lid> spare;
    const Lid* lent = nullptr;
    std::vector<Lid> lids;
    std::vector<const Lid*> seen;
    std::vector<std::string> words;
    std::vector<double> readings;
    std::vector<int> days;
    Origin origin;
    const Origin* other = nullptr;
    std::string card;
    [[nodiscard]] double millilitres() const { return 1000 * litres; }
};
std::string shouted(const Pot& pot) {
    return pot.name + "!";
}
constexpr auto pot_fields = fields::fields<Pot>({
    {"name", text<&Pot::name>, "As it is called."},
    {"label", maybe(text<&Pot::label>), "The text beside it."},
    {"litres", number<&Pot::litres>, "What it holds.", "L"},
    {"ml", number<&Pot::millilitres>, "", "mL"},
    {"weight", maybe(number<&Pot::weight>), "Null if not known.", "kg"},
    {"height", sometimes(number<&Pot::height>), "Absent if not known.", "cm"},
    {"low", low<&Pot::truth>, "At least."},
    {"high", bounded(high<&Pot::truth>), "At most."},
    {"shelf", at_least(-9, whole<&Pot::shelf>), "Where it stands."},
    {"pieces", how_many<&Pot::pieces>, "Shards."},
    {"closed", flag<&Pot::closed>, "Whether it is closed."},
    {"colour", choice<colours, &Pot::colour>},
    {"inside", maybe(choice<colours, &Pot::inside>), "Where it is another."},
    {"size", maybe(choice<sizes, &Pot::size>), "How big."},
    {"note", maybe(text<&Pot::note>), "What was noted."},
    {"shouted", text<shouted>, "Its name, loud."},
    {"lid", object<lid, &Pot::lid>},
    {"spare", maybe(object<lid, &Pot::spare>), "A second one."},
    {"lent", sometimes(object<lid, &Pot::lent>), "One that is elsewhere."},
    {"lids", at_most(3, list<lid, &Pot::lids>), "Others that fit."},
    {"seen", list<lid, &Pot::seen>, "Others that do not."},
    {"words", texts<&Pot::words>, "What is said of it."},
    {"readings", numbers<&Pot::readings>, "What it weighed.", "kg"},
    {"days", wholes<&Pot::days>, "When."},
    parts<origin, &Pot::origin>,
    {"card", maybe(written<&Pot::card>), "Its card."},
});
constexpr Shape<Pot> pot_shape{"pot", "A pot.", table<pot_fields>};

struct Thrown {
    const Origin* from = nullptr;
};
constexpr auto thrown_fields = fields::fields<Thrown>({
    sometimes(parts<origin, &Thrown::from>),
});
constexpr Shape<Thrown> thrown_shape{"thrown", "A pot that was thrown.", table<thrown_fields>};

constexpr Result pot_result{"pot", "test.pot/1", "A pot, described.", pot_shape};
constexpr Result two_result{"two", "test.two/1", "Either.", pot_shape, &thrown_shape};

Json written_pot(const Pot& pot) {
    return Json::parse(document(pot_result, pot_shape, pot));
}
Json pot_schema() {
    return Json::parse(schema(pot_result));
}

TEST(FieldsToJson, wholePotAsWritten) {
    Pot pot;
    pot.lid = {"flat", 12.25};
    pot.words = {"a", "b"};
    pot.origin = {"kiln", 1999};
    EXPECT_EQ(document(pot_result, pot_shape, pot), R"({
  "format": "test.pot/1",
  "name": "pot",
  "label": null,
  "litres": 1.5,
  "ml": 1500.0,
  "weight": null,
  "low": 1.0,
  "high": 2.0,
  "shelf": -3,
  "pieces": 4,
  "closed": true,
  "colour": "green",
  "inside": null,
  "size": "small",
  "note": null,
  "shouted": "pot!",
  "lid": {
    "name": "flat",
    "width_cm": 12.25
  },
  "spare": null,
  "lids": [],
  "seen": [],
  "words": [
    "a",
    "b"
  ],
  "readings": [],
  "days": [],
  "place": "kiln",
  "year": 1999,
  "card": null
}
)");
}

TEST(FieldsToJson, whatMayBeMissingIsThereWhenItIs) {
    const Lid lent{"lent", 3};
    Pot pot;
    pot.label = "blue";
    pot.weight = 2;
    pot.height = 30;
    pot.inside = Colour::red;
    pot.note = "";
    pot.spare = Lid{"spare", 1};
    pot.lent = &lent;
    pot.lids = {{"one", 1}, {"two", 2}};
    pot.seen = {&lent};
    pot.readings = {0.1 + 0.2};
    pot.days = {1, -2};
    pot.card = "{\n  \"a\": 1\n}\n";
    const Json out = written_pot(pot);
    EXPECT_EQ(out.at("label"), "blue");
    EXPECT_EQ(out.at("weight"), 2);
    EXPECT_EQ(out.at("height"), 30);
    EXPECT_EQ(out.at("inside"), "red");
    EXPECT_EQ(out.at("note"), "");
    EXPECT_EQ(out.at("spare").at("name"), "spare");
    EXPECT_EQ(out.at("lent").at("width_cm"), 3);
    EXPECT_EQ(out.at("lids")[1].at("name"), "two");
    EXPECT_EQ(out.at("seen")[0].at("name"), "lent");
    EXPECT_EQ(out.at("readings").dump(), "[0.3]");
    EXPECT_EQ(out.at("days").dump(), "[1,-2]");
    EXPECT_EQ(out.at("card").at("a"), 1);
}

TEST(FieldsToJson, partsThatAreNotThereAreLeftOutTogether) {
    const Origin from{"kiln", std::nullopt};
    EXPECT_EQ(document(two_result, thrown_shape, Thrown{}), "{\n  \"format\": \"test.two/1\"\n}\n");
    const Json out = Json::parse(document(two_result, thrown_shape, Thrown{&from}));
    EXPECT_EQ(out.at("place"), "kiln");
    EXPECT_TRUE(out.at("year").is_null());
}

TEST(FieldsToJson, numbersWithoutNoiseOutwardAndFinite) {
    const double infinity = std::numeric_limits<double>::infinity();
    JsonWriter out;
    out.begin_list(Layout::one_line);
    out.number(0.1 + 0.2);
    out.number(-0.0);
    out.number(infinity);
    out.number(std::nan(""));
    out.low({1.0 / 3, 1});
    out.high({0, 1.0 / 3});
    out.low({-infinity, 0});
    out.high({0, infinity});
    out.low({42.150000000000006, 43});
    out.high({42, 42.15000000000001});
    out.number(1e300);
    out.end_list();
    EXPECT_EQ(out.take(), "[0.3, 0.0, null, null, 0.333333333333, 0.333333333334, null, null, "
                          "42.15, 42.15, 1e+300]");
}

TEST(FieldsToJson, textsOfAnyBytes) {
    JsonWriter out;
    out.begin_list(Layout::one_line);
    out.text("plain");
    out.text("\"q\" \\ \n \x1b \x7f");
    out.text("grün …");
    out.text("\xff");
    out.text("\xc2\x9b \xe2\x80\xae");
    out.text("");
    out.end_list();
    EXPECT_EQ(out.take(), "[\"plain\", \"\\\"q\\\" \\\\ \\n \\u001b \\u007f\", \"grün …\", "
                          "\"\xef\xbf\xbd\", \"\\u009b \\u202e\", \"\"]");
}

TEST(FieldsToJson, layouts) {
    JsonWriter out;
    out.begin_object(Layout::flush);
    out.key("a");
    out.whole(1);
    out.key("left out");
    out.key("b");
    out.begin_list();
    out.begin_object(Layout::one_line);
    out.key("c");
    out.null();
    out.key("d");
    out.begin_list();
    out.flag(false);
    out.end_list();
    out.end_object();
    out.begin_object();
    out.end_object();
    out.key("nothing comes of this");
    out.end_list();
    out.key("e");
    out.written("{}\n\n");
    out.end_object();
    EXPECT_EQ(out.take(), "{\"a\": 1,\n\"b\": [\n  {\"c\": null, \"d\": [false]},\n  {}\n],\n"
                          "\"e\": {}}");
    JsonWriter within(2);
    within.begin_object();
    within.key("a");
    within.flag(true);
    within.end_object();
    EXPECT_EQ(within.take(), "{\n      \"a\": true\n    }");
}

TEST(FieldsToSchema, everySortOfField) {
    const Json out = pot_schema();
    EXPECT_EQ(out.at("$schema"), "http://json-schema.org/draft-07/schema#");
    EXPECT_EQ(out.at("title"), "test.pot/1");
    EXPECT_EQ(out.at("description"), "A pot, described.");
    EXPECT_EQ(out.at("additionalProperties"), false);
    const Json& p = out.at("properties");
    const auto is = [&](const char* name, const char* what) {
        Json field = p.at(name);
        field.erase("description");
        EXPECT_EQ(field, Json::parse(what)) << name;
    };
    is("format", R"({"const": "test.pot/1"})");
    is("name", R"({"type": "string"})");
    is("label", R"({"type": ["string", "null"]})");
    is("litres", R"({"type": "number"})");
    is("weight", R"({"type": ["number", "null"]})");
    is("height", R"({"type": "number"})");
    is("low", R"({"type": ["number", "null"]})");
    is("high", R"({"type": "number"})");
    is("shelf", R"({"type": "integer", "minimum": -9})");
    is("pieces", R"({"type": "integer", "minimum": 0})");
    is("closed", R"({"type": "boolean"})");
    is("colour", R"({"allOf": [{"$ref": "#/definitions/colour"}]})");
    is("inside", R"({"anyOf": [{"$ref": "#/definitions/colour"}, {"type": "null"}]})");
    is("size", R"({"type": ["string", "null"], "enum": ["small", "large", null]})");
    is("lid", R"({"allOf": [{"$ref": "#/definitions/lid"}]})");
    is("spare", R"({"anyOf": [{"$ref": "#/definitions/lid"}, {"type": "null"}]})");
    is("lids", R"({"type": "array", "maxItems": 3,
                   "items": {"allOf": [{"$ref": "#/definitions/lid"}]}})");
    is("words", R"({"type": "array", "items": {"type": "string"}})");
    is("readings", R"({"type": "array", "items": {"type": "number"}})");
    is("days", R"({"type": "array", "items": {"type": "integer"}})");
    is("year", R"({"type": ["integer", "null"]})");
    is("card", R"({"type": ["object", "null"]})");
}

TEST(FieldsToSchema, meaningsAndUnits) {
    const Json p = pot_schema().at("properties");
    EXPECT_EQ(p.at("name").at("description"), "As it is called.");
    EXPECT_EQ(p.at("litres").at("description"), "What it holds. In L.");
    EXPECT_EQ(p.at("ml").at("description"), "In mL.");
    EXPECT_FALSE(p.at("lid").contains("description"));
}

TEST(FieldsToSchema, whatIsRequiredAndWhatIsDefined) {
    const Json out = pot_schema();
    std::vector<std::string> required = out.at("required");
    EXPECT_THAT(required, ::testing::Contains("format"));
    EXPECT_THAT(required, ::testing::Contains("label"));
    EXPECT_THAT(required, ::testing::Contains("place"));
    EXPECT_THAT(required, ::testing::Not(::testing::Contains("height")));
    EXPECT_THAT(required, ::testing::Not(::testing::Contains("lent")));
    EXPECT_EQ(required.size(), out.at("properties").size() - 2);
    const Json& defined = out.at("definitions");
    EXPECT_EQ(defined.size(), 2U);
    EXPECT_EQ(defined.at("lid").at("description"), "What closes a pot.");
    EXPECT_EQ(defined.at("lid").at("required"), Json::parse(R"(["name", "width_cm"])"));
    EXPECT_EQ(defined.at("lid").at("additionalProperties"), false);
    EXPECT_EQ(defined.at("colour").at("enum"), Json::parse(R"(["red", "green"])"));
}

TEST(FieldsToSchema, eitherOfTwoForms) {
    const Json out = Json::parse(schema(two_result));
    ASSERT_EQ(out.at("oneOf").size(), 2U);
    EXPECT_FALSE(out.contains("properties"));
    const Json& second = out.at("oneOf")[1];
    EXPECT_EQ(second.at("properties").size(), 3U);
    EXPECT_EQ(second.at("required"), Json::parse(R"(["format"])"));
    EXPECT_THAT(schema(two_result), HasSubstr("\"place\": {\"type\": \"string\""));
}

} // namespace
} // namespace jarful::fields
