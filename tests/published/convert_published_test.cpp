#include "engine/larder/convert.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>

/// Conversions held against published tables and against GNU units.
namespace jarful::larder {
namespace {

std::optional<Conversion> ask(const std::string& text, Measures measures) {
    static const Larder built_in;
    ConversionOutcome outcome = convert({text, "", measures}, built_in);
    if (outcome.fault) ADD_FAILURE() << text << ": " << outcome.fault->message;
    return std::move(outcome.conversion);
}

struct Household {
    const char* ndb;
    const char* words;
    double grams;
};

// USDA National Nutrient Database for Standard Reference, Release 28, 2015, WEIGHT file: grams of
// one household measure, by the number of the food. Measures there are US ones.
constexpr Household households[] = {
    {"02047", "1 tsp fine table salt", 6.0},
    {"02047", "1 tbsp fine table salt", 18.0},
    {"02047", "1 cup fine table salt", 292.0},
    {"02005", "1 tsp caraway seed", 2.1},
    {"02005", "1 tbsp caraway seed", 6.7},
    {"02007", "1 tsp celery seed", 2.0},
    {"02001", "1 tsp ground allspice", 1.9},
    {"02002", "1 tbsp anise seed", 6.7},
    {"02006", "1 tbsp ground cardamom", 5.8},
    {"02010", "1 tbsp ground cinnamon", 7.8},
    {"02011", "1 tsp ground cloves", 2.1},
    {"02013", "1 tbsp coriander seed", 5.0},
    {"02014", "1 tsp cumin seed", 2.1},
    {"02015", "1 tbsp curry powder", 6.3},
    {"02016", "1 tbsp dill seed", 6.6},
    {"02017", "1 tsp dried dill weed", 1.0},
    {"02018", "1 tsp fennel seed", 2.0},
    {"02019", "1 tsp fenugreek seed", 3.7},
    {"02020", "1 tbsp garlic powder", 9.7},
    {"02021", "1 tsp ground ginger", 1.8},
    {"02022", "1 tsp ground mace", 1.7},
    {"02024", "1 tbsp ground mustard", 6.3},
    {"02025", "1 tsp ground nutmeg", 2.2},
    {"02026", "1 tbsp onion powder", 6.9},
    {"02027", "1 tsp dried oregano", 1.0},
    {"02028", "1 tsp paprika", 2.3},
    {"02030", "1 tsp ground black pepper", 2.3},
    {"02030", "1 tsp whole black pepper", 2.9},
    {"02031", "1 tbsp cayenne pepper", 5.3},
    {"02032", "1 tsp white pepper", 2.4},
    {"02033", "1 tbsp poppy seed", 8.8},
    {"02042", "1 tbsp dried thyme", 2.7},
    {"02043", "1 tsp turmeric", 3.0},
    {"02048", "1 cup cider vinegar", 239.0},
    {"02053", "1 cup distilled vinegar", 238.0},
    {"02055", "1 tbsp prepared horseradish", 15.0},
    {"06179", "1 tbsp fish sauce", 18.0},
    {"16123", "1 tbsp soy sauce", 16.0},
    {"16112", "1 cup miso", 275.0},
    {"11109", "1 cup shredded cabbage", 70.0},
    {"11109", "1 cup cabbage", 89.0},
    {"11124", "1 cup grated carrot", 110.0},
    {"11282", "1 cup onion", 160.0},
    {"11080", "1 cup beet", 136.0},
    {"11205", "1/2 cup cucumber", 52.0},
    {"11052", "1 cup green beans", 100.0},
    {"11135", "1 cup cauliflower", 107.0},
    {"19335", "1 cup granulated sugar", 200.0},
    {"19296", "1 cup honey", 339.0},
};

TEST(PublishedConversion, HouseholdMeasuresOfSr28LieInTheSpread) {
    for (const Household& row : households) {
        const auto c = ask(std::string(row.words) + " to g", Measures::us);
        ASSERT_TRUE(c) << row.words;
        // The file prints tenths of a gram, and the larder rounds a density to a thousandth.
        const double rounding = 0.05 + 0.003 * row.grams;
        EXPECT_LE(c->result.low, row.grams + rounding) << row.ndb << ' ' << row.words;
        EXPECT_GE(c->result.high, row.grams - rounding) << row.ndb << ' ' << row.words;
        ASSERT_TRUE(c->figure) << row.words;
        EXPECT_EQ(c->figure->status, Status::published) << row.words;
    }
}

TEST(PublishedConversion, GramsGoBackToTheHouseholdMeasure) {
    for (const Household& row : households) {
        const std::string words = row.words;
        const std::size_t unit = words.find(' ') + 1;
        const std::size_t material = words.find(' ', unit) + 1;
        const std::string back = std::to_string(row.grams) + " g " + words.substr(material) +
                                 " to " + words.substr(unit, material - 1 - unit);
        const auto c = ask(back, Measures::us);
        ASSERT_TRUE(c) << back;
        const double count = words.starts_with("1/2") ? 0.5 : 1;
        EXPECT_LE(c->result.low, count * 1.03) << back;
        EXPECT_GE(c->result.high, count * 0.97) << back;
    }
}

// University of California, The Home Pickling of Olives: 1 oz of salt is about 1 3/5 level tbsp.
TEST(PublishedConversion, AnOunceOfSaltInLevelSpoons) {
    const auto c = ask("1 oz canning salt to tbsp", Measures::us);
    ASSERT_TRUE(c);
    EXPECT_LE(c->result.low, 1.6);
    EXPECT_GE(c->result.high, 1.6);
}

struct Printed {
    const char* text;
    double value;
    double rounding; ///< relative
};

// NIST Special Publication 811 (2008), Appendix B.8: factors as printed, to seven digits, or exact.
TEST(PublishedConversion, FactorsOfSp811) {
    for (const Printed& row : {
             Printed{"1 lb to kg", 0.45359237, 0},
             Printed{"1 oz to g", 28.34952, 2e-7},
             Printed{"1 us gallon to L", 3.785412, 2e-7},
             Printed{"1 us quart to L", 0.9463529, 2e-7},
             Printed{"1 us pint to L", 0.4731765, 2e-7},
             Printed{"1 us cup to mL", 236.5882, 5e-7},
             Printed{"1 us floz to mL", 29.57353, 5e-7},
             Printed{"1 us tbsp to mL", 14.78676, 5e-7},
             Printed{"1 us tsp to mL", 4.928922, 5e-7},
             Printed{"1 imperial gallon to L", 4.54609, 0},
             Printed{"1 in to cm", 2.54, 0},
             Printed{"1 week to day", 7, 0},
         }) {
        const auto c = ask(row.text, Measures::unstated);
        ASSERT_TRUE(c) << row.text;
        EXPECT_NEAR(c->result.typical, row.value, row.value * (row.rounding + 1e-15)) << row.text;
        EXPECT_TRUE(c->result.exact()) << row.text;
    }
    // t/°C = (t/°F - 32)/1.8
    for (int f = 0; f <= 240; ++f) {
        const auto c = ask(std::to_string(f) + " °F to °C", Measures::unstated);
        ASSERT_TRUE(c);
        EXPECT_NEAR(c->result.typical, (f - 32) / 1.8, 1e-9) << f;
    }
}

// 21 CFR 101.9(b)(5)(viii): for nutrition labels tsp 5 mL, tbsp 15 mL, cup 240 mL, fl oz 30 mL.
TEST(PublishedConversion, MeasuresOfTheLabelRule) {
    for (const Printed& row : {
             Printed{"1 tsp to mL", 5, 0},
             Printed{"1 tbsp to mL", 15, 0},
             Printed{"1 cup to mL", 240, 0},
             Printed{"1 fl oz to mL", 30, 0},
             Printed{"1 cup to fl oz", 8, 0},
             Printed{"1/4 cup to tbsp", 4, 0},
         }) {
        const auto c = ask(row.text, Measures::label);
        ASSERT_TRUE(c) << row.text;
        EXPECT_NEAR(c->result.typical, row.value, 1e-12 * row.value) << row.text;
        EXPECT_TRUE(c->result.exact()) << row.text;
        EXPECT_NE(c->sources.front().find("101.9(b)(5)(viii)"), std::string::npos) << row.text;
    }
}

/// What GNU units says; empty if it could not be asked.
std::optional<double> ask_units(const std::string& from, const std::string& to) {
    const std::string command =
        "LC_ALL=C UNITS_ENGLISH=US units -t -o '%.17g' '" + from + "' '" + to + "' 2>/dev/null";
    std::FILE* const pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return std::nullopt;
    std::array<char, 256> buffer{};
    const bool read = std::fgets(buffer.data(), static_cast<int>(buffer.size()), pipe) != nullptr;
    const int status = pclose(pipe);
    char* end = buffer.data();
    const double value = std::strtod(buffer.data(), &end);
    if (!read || status != 0 || end == buffer.data()) return std::nullopt;
    return value;
}

TEST(PublishedConversion, GnuUnitsAgrees) {
    if (!ask_units("1 inch", "cm")) {
        GTEST_SKIP() << "the program `units` (GNU units) is not installed or does not answer";
    }
    struct Pair {
        const char* ours;
        const char* from;
        const char* to;
    };
    for (const Pair& pair : {
             Pair{"7 lb to kg", "7 lb", "kg"},
             Pair{"350 g to oz", "350 g", "oz"},
             Pair{"2 lb 3 oz to g", "35 oz", "g"},
             Pair{"3 us cup to mL", "3 cup", "ml"},
             Pair{"2 us tbsp to us tsp", "2 tablespoon", "teaspoon"},
             Pair{"5 us quart to L", "5 quart", "l"},
             Pair{"5 L to us gallon", "5 l", "gallon"},
             Pair{"12 us floz to mL", "12 floz", "ml"},
             Pair{"1 imperial pint to mL", "1 brpint", "ml"},
             Pair{"2 imperial floz to mL", "2 brfloz", "ml"},
             Pair{"10 g/lb to %", "10 g/lb", "percent"},
             Pair{"2.5 % to g/kg", "2.5 percent", "g/kg"},
             Pair{"1 lb/us gallon to g/L", "1 lb/gallon", "g/l"},
             Pair{"40 cm to in", "40 cm", "inch"},
             Pair{"10 day to week", "10 day", "week"},
             Pair{"68 °F to °C", "tempF(68)", "tempC"},
             Pair{"21.5 °C to °F", "tempC(21.5)", "tempF"},
         }) {
        const auto theirs = ask_units(pair.from, pair.to);
        ASSERT_TRUE(theirs) << pair.from;
        const auto c = ask(pair.ours, Measures::us);
        ASSERT_TRUE(c) << pair.ours;
        EXPECT_NEAR(c->result.typical, *theirs, 1e-9 * std::abs(*theirs)) << pair.ours;
    }
}

} // namespace
} // namespace jarful::larder
