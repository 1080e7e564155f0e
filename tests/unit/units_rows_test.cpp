#include "engine/units/dimension.hpp"
#include "engine/units/nearest.hpp"
#include "engine/units/scan.hpp"
#include "engine/units/unit.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

/// Every row of the unit table and every spelling, beside a list written by hand from the
/// language's page; and every character that a word, a blank, a dash or a number can be made of.
namespace jarful::units {
namespace {

struct Row {
    const char* symbol;
    Dimension dimension;
    double factor; ///< base units: g, cm, mL, s, K
    Spoons system = Spoons::unstated;
    bool bare = false;
    const char* others = ""; ///< further spellings, apart by commas
};

// The US measures from the gallon of 231 cubic inches, the imperial ones from 4.54609 L.
constexpr double gallon = 231 * 2.54 * 2.54 * 2.54;
constexpr double imperial = 4546.09;

const Row rows[] = {
    {"g", dim::mass, 1, {}, false, "gram,grams,gramme,grammes"},
    {"mg", dim::mass, 1e-3, {}, false, "milligram,milligrams,milligramme,milligrammes"},
    {"kg", dim::mass, 1e3, {}, false, "Kg,KG,kilo,kilos,kilogram,kilograms,kilogramme,kilogrammes"},
    {"oz", dim::mass, 453.59237 / 16, {}, false, "Oz,OZ,ounce,ounces"},
    {"lb", dim::mass, 453.59237, {}, false, "Lb,LB,lbs,Lbs,LBS,pound,pounds"},
    {"mL", dim::volume, 1, {}, false, "ml,millilitre,millilitres,milliliter,milliliters"},
    {"cL", dim::volume, 10, {}, false, "cl,centilitre,centilitres,centiliter,centiliters"},
    {"dL", dim::volume, 100, {}, false, "dl,decilitre,decilitres,deciliter,deciliters"},
    {"L", dim::volume, 1000, {}, false, "l,litre,litres,liter,liters"},
    {"tsp", dim::volume, gallon / 768, {}, true, "Tsp,TSP,tsps,teaspoon,teaspoons"},
    {"tbsp", dim::volume, gallon / 256, {}, true, "Tbsp,TBSP,tbsps,tbs,Tbs,tablespoon,tablespoons"},
    {"cup", dim::volume, gallon / 16, {}, true, "Cup,cups,Cups"},
    {"floz", dim::volume, gallon / 128, {}, true, "fl_oz"},
    {"pint", dim::volume, gallon / 8, {}, true, "pints,pt"},
    {"quart", dim::volume, gallon / 4, {}, true, "quarts,qt,qts"},
    {"gallon", dim::volume, gallon, {}, true, "gallons,gal"},
    {"us tsp", dim::volume, gallon / 768, Spoons::us},
    {"us tbsp", dim::volume, gallon / 256, Spoons::us},
    {"us cup", dim::volume, gallon / 16, Spoons::us},
    {"us floz", dim::volume, gallon / 128, Spoons::us},
    {"us pint", dim::volume, gallon / 8, Spoons::us},
    {"us quart", dim::volume, gallon / 4, Spoons::us},
    {"us gallon", dim::volume, gallon, Spoons::us},
    {"metric tsp", dim::volume, 5, Spoons::metric},
    {"metric tbsp", dim::volume, 15, Spoons::metric},
    {"metric cup", dim::volume, 250, Spoons::metric},
    {"imperial tsp", dim::volume, imperial / 160 * 5 / 24, Spoons::imperial},
    {"imperial tbsp", dim::volume, imperial / 160 * 5 / 8, Spoons::imperial},
    {"imperial floz", dim::volume, imperial / 160, Spoons::imperial},
    {"imperial pint", dim::volume, imperial / 8, Spoons::imperial},
    {"imperial quart", dim::volume, imperial / 4, Spoons::imperial},
    {"imperial gallon", dim::volume, imperial, Spoons::imperial},
    {"mm", dim::length, 0.1, {}, false, "millimetre,millimetres,millimeter,millimeters"},
    {"cm", dim::length, 1, {}, false, "centimetre,centimetres,centimeter,centimeters"},
    {"m", dim::length, 100, {}, false, "metre,metres,meter,meters"},
    {"in", dim::length, 2.54, {}, false, "inch,inches"},
    {"min", dim::time, 60, {}, false, "mins,minute,minutes"},
    {"h", dim::time, 3600, {}, false, "hr,hrs,hour,hours"},
    {"day", dim::time, 86400, {}, false, "days"},
    {"week", dim::time, 604800, {}, false, "weeks"},
    {"°C", dim::temperature, 1, {}, false, "℃,ºC,˚C,degC"},
    {"°F", dim::temperature, 5.0 / 9, {}, false, "℉,ºF,˚F,degF"},
    {"piece", dim::count, 1, {}, false, "pieces"},
    {"%", dim::plain, 0.01, {}, false, "percent"},
};

std::vector<std::string> apart(const std::string& list) {
    std::vector<std::string> out;
    for (std::size_t at = 0; at < list.size();) {
        const std::size_t end = std::min(list.find(',', at), list.size());
        out.push_back(list.substr(at, end - at));
        at = end + 1;
    }
    return out;
}

TEST(UnitRows, areTheseAndNoOther) {
    ASSERT_EQ(unit_table().size(), std::size(rows));
    for (std::size_t i = 0; i < std::size(rows); ++i) {
        const Unit& u = unit_table()[i];
        EXPECT_EQ(u.symbol, rows[i].symbol);
        EXPECT_EQ(u.dimension, rows[i].dimension) << u.symbol;
        EXPECT_DOUBLE_EQ(u.factor, rows[i].factor) << u.symbol;
        EXPECT_EQ(u.system, rows[i].system) << u.symbol;
        EXPECT_EQ(u.bare_measure, rows[i].bare) << u.symbol;
        EXPECT_EQ(u.percent, u.symbol == "%") << u.symbol;
        const double offset = u.symbol == "°C" ? 273.15 : u.symbol == "°F" ? 459.67 * 5 / 9 : 0;
        EXPECT_DOUBLE_EQ(u.offset, offset) << u.symbol;
        EXPECT_EQ(&unit(static_cast<UnitId>(i)), &u);
    }
    EXPECT_EQ(&unit(static_cast<UnitId>(std::size(rows))), &unit_table()[0]) << "there is no such";
    EXPECT_EQ(&unit(255), &unit_table()[0]);
}

TEST(UnitRows, areFoundByTheseSpellingsAndNoOther) {
    std::map<std::string, std::string> all;
    for (const Row& row : rows) {
        all[row.symbol] = row.symbol;
        for (const std::string& other : apart(row.others))
            all[other] = row.symbol;
    }
    for (const auto& [prefix, system] : {std::pair{"us ", "us "},
                                         {"US ", "us "},
                                         {"metric ", "metric "},
                                         {"Metric ", "metric "},
                                         {"imperial ", "imperial "},
                                         {"Imperial ", "imperial "}}) {
        for (const Row& row : rows) {
            const std::string symbol = std::string(system) + row.symbol;
            if (!row.bare || !all.contains(symbol)) continue;
            all[prefix + std::string(row.symbol)] = symbol;
            for (const std::string& other : apart(row.others))
                all[prefix + other] = symbol;
        }
    }
    std::map<std::string, std::string> told;
    for (const Spelling& s : unit_spellings())
        EXPECT_TRUE(told.emplace(s.text, unit(s.id).symbol).second) << s.text << " stands twice";
    EXPECT_EQ(told, all);
    for (const auto& [text, symbol] : all) {
        ASSERT_TRUE(find_unit(text)) << text;
        EXPECT_EQ(unit(*find_unit(text)).symbol, symbol) << text;
        EXPECT_FALSE(find_unit(text.substr(0, text.size() - 1) + "q")) << text;
        const std::string first = text.substr(0, text.find(' '));
        EXPECT_TRUE(is_unit_word(first)) << first;
        EXPECT_FALSE(is_unit_word(first + "q")) << first;
        if (first != text) {
            EXPECT_FALSE(is_unit_word(first.substr(0, first.size() - 1))) << first;
        }
    }
    for (const char* none : {"us kg", "metric pint", "imperial cup", "us us cup", "us", "us ",
                             "metric", "us tspx", "m etric cup", "Us cup", " us cup"})
        EXPECT_FALSE(find_unit(none)) << none;
}

TEST(UnitRows, ofABareMeasureLeadToTheSystemsOwn) {
    for (const Row& row : rows) {
        const UnitId id = *find_unit(row.symbol);
        for (const auto& [spoons, prefix] : {std::pair{Spoons::us, "us "},
                                             {Spoons::metric, "metric "},
                                             {Spoons::imperial, "imperial "}}) {
            const auto own = row.bare ? find_unit(prefix + std::string(row.symbol)) : std::nullopt;
            EXPECT_EQ(resolve_measure(id, spoons), own.value_or(id)) << prefix << row.symbol;
        }
        EXPECT_EQ(resolve_measure(id, Spoons::unstated), id);
    }
}

TEST(NearestUnit, ofWhatIsTooShortToCompareIsListed) {
    const std::pair<const char*, const char*> listed[] = {
        {"T", "tbsp"}, {"Tb", "tbsp"}, {"tb", "tbsp"}, {"Tbl", "tbsp"}, {"t", "tsp"},
        {"c", "cup"},  {"C", "°C"},    {"F", "°F"},    {"°", "°C"},     {"gm", "g"},
        {"gms", "g"},  {"gr", "g"},    {"fl", "floz"}, {"pc", "piece"}, {"pcs", "pieces"}};
    for (const auto& [written, meant] : listed)
        EXPECT_EQ(nearest_unit(written), meant) << written;
}

// Two letters forgive nothing but capitals, three to five one slip, longer words two.
TEST(NearestUnit, forgivesMoreInLongerWords) {
    EXPECT_EQ(nearest_unit("kG"), "kg");
    EXPECT_EQ(nearest_unit("ML"), "mL");
    EXPECT_EQ(nearest_unit("kk"), std::nullopt);
    EXPECT_EQ(nearest_unit("qx"), std::nullopt);
    EXPECT_EQ(nearest_unit("cuq"), "cup");
    EXPECT_EQ(nearest_unit("cqq"), std::nullopt);
    EXPECT_EQ(nearest_unit("quatr"), "quart");
    EXPECT_EQ(nearest_unit("quxxt"), std::nullopt) << "two slips in five letters";
    EXPECT_EQ(nearest_unit("quaxxt"), "quart");
    EXPECT_EQ(nearest_unit("galonn"), "gallon");
    EXPECT_EQ(nearest_unit("galxxxn"), std::nullopt);
    EXPECT_EQ(nearest_unit("teespuon"), "teaspoon") << "two letters changed, of eight";
    EXPECT_EQ(nearest_unit("teeqpuun"), std::nullopt);
}

// Of equals the symbol before other spellings, small letters before capitals, the shorter word.
TEST(NearestUnit, ofEqualsIsTheUsualOne) {
    EXPECT_EQ(nearest_unit("tbspp"), "tbsp");
    EXPECT_EQ(nearest_unit("TBSPP"), "tbsp");
    EXPECT_EQ(nearest_unit("Lbss"), "lbs");
    EXPECT_EQ(nearest_unit("OUNCES"), "ounces");
    EXPECT_EQ(nearest_unit("litrs"), "litre");
    EXPECT_EQ(nearest_unit("cupp"), "cup");
    EXPECT_EQ(nearest_unit("dayy"), "day");
}

TEST(Nearness, countsLettersAddedLeftOutChangedAndSwapped) {
    EXPECT_EQ(edit_distance("", "", 3), 0);
    EXPECT_EQ(edit_distance("salt", "salt", 0), 0);
    EXPECT_EQ(edit_distance("salt", "slat", 3), 1);
    EXPECT_EQ(edit_distance("salt", "sal", 3), 1);
    EXPECT_EQ(edit_distance("salt", "salts", 3), 1);
    EXPECT_EQ(edit_distance("salt", "malt", 3), 1);
    EXPECT_EQ(edit_distance("salt", "tlas", 4), 3) << "the ends change places, the middle swaps";
    EXPECT_EQ(edit_distance("ab", "ba", 1), 1);
    EXPECT_EQ(edit_distance("abc", "cab", 3), 2);
    EXPECT_EQ(edit_distance("abcd", "badc", 3), 2);
    EXPECT_EQ(edit_distance("salt", "brine", 2), 3) << "what is beyond the bound is bound + 1";
    EXPECT_EQ(edit_distance("", "brine", 2), 3);
    EXPECT_EQ(edit_distance("", "ab", 2), 2);
    EXPECT_EQ(edit_distance("aaaa", "aaab", 0), 1);
    EXPECT_EQ(edit_distance("a", "aaa", 1), 2);
    const std::string long_one(70, 'x');
    EXPECT_EQ(edit_distance(long_one, long_one + "y", 2), 1) << "longer than a name";
    EXPECT_EQ(edit_distance(std::string(63, 'x') + "ab", std::string(63, 'x') + "ba", 2), 1);
    EXPECT_EQ(edit_distance(std::string(62, 'x') + "a", std::string(62, 'x') + "b", 2), 1);
    EXPECT_EQ(edit_distance(std::string(63, 'x'), std::string(64, 'x'), 2), 1);
    EXPECT_EQ(edit_distance(std::string(64, 'x'), std::string(63, 'x'), 2), 1);
}

TEST(Nearness, forgivesASlipForEveryThreeLettersAtMostFour) {
    const int forgiven[] = {1, 1, 1, 1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 4, 4, 4, 4};
    for (std::size_t letters = 0; letters < std::size(forgiven); ++letters)
        EXPECT_EQ(forgiven_slips(letters), forgiven[letters]) << letters;
    constexpr std::array<std::string_view, 5> known{"kraut", "Kraus", "beet", "x", "cauliflower"};
    EXPECT_EQ(nearest("krautt", known), "kraut");
    EXPECT_EQ(nearest("KRAUS", known), "Kraus");
    EXPECT_EQ(nearest("krau", known), "kraut") << "the first of equals";
    EXPECT_EQ(nearest("beee", known), "beet");
    EXPECT_EQ(nearest("baee", known), std::nullopt) << "two slips in four letters";
    EXPECT_EQ(nearest("y", known), std::nullopt) << "of which nothing is left over";
    EXPECT_EQ(nearest("", known), std::nullopt);
    EXPECT_EQ(nearest("cauuliflowr", known), "cauliflower");
    EXPECT_EQ(nearest("ceuuliflowr", known), "cauliflower");
    EXPECT_EQ(nearest("ceuuliflewr", known), std::nullopt) << "four slips in eleven letters";
}

/// UTF-8 of a code point, by the definition of RFC 3629.
std::string utf8(char32_t c) {
    const auto byte = [](char32_t x) { return static_cast<char>(static_cast<unsigned char>(x)); };
    if (c < 0x80) return {byte(c)};
    if (c < 0x800) return {byte(0xC0 | (c >> 6)), byte(0x80 | (c & 0x3F))};
    if (c < 0x10000)
        return {byte(0xE0 | (c >> 12)), byte(0x80 | ((c >> 6) & 0x3F)), byte(0x80 | (c & 0x3F))};
    return {byte(0xF0 | (c >> 18)), byte(0x80 | ((c >> 12) & 0x3F)), byte(0x80 | ((c >> 6) & 0x3F)),
            byte(0x80 | (c & 0x3F))};
}

TEST(Characters, areReadAsTheirCodePoints) {
    for (const char32_t c : {0x00, 0x41, 0x7F, 0x80, 0x81, 0xBF, 0xC0, 0xE9, 0xFF, 0x100, 0x7FF,
                             0x800, 0x2009, 0xFFFD, 0xFFFF, 0x10000, 0x1F952, 0x10FFFF}) {
        const std::string text = utf8(c);
        EXPECT_EQ(scan::code_point(text, 0).value, c) << std::hex << std::uint32_t(c);
        EXPECT_EQ(scan::code_point(text, 0).length, text.size()) << std::hex << std::uint32_t(c);
        for (std::size_t cut = 1; cut < text.size(); ++cut) {
            EXPECT_EQ(scan::code_point(text.substr(0, cut), 0).value, 0xFFFDu);
            EXPECT_EQ(scan::code_point(text.substr(0, cut) + "a", 0).length, 1u);
        }
    }
    for (const char* odd : {"\x80", "\xBF", "\xC0\x80", "\xC1\xBF", "\xC3\x41", "\xE2\x82\xC0"}) {
        EXPECT_EQ(scan::code_point(odd, 0).value, 0xFFFDu) << odd;
        EXPECT_EQ(scan::code_point(odd, 0).length, 1u) << odd;
    }
    EXPECT_EQ(scan::code_point("", 0).length, 0u);
}

/// A character after an `x`, and whether it still belongs to the word.
bool of_a_word(char32_t c) {
    const std::string text = "x" + utf8(c) + "x";
    const std::size_t end = scan::skip_word(text, 0);
    EXPECT_TRUE(end == 1 || end == text.size()) << std::hex << std::uint32_t(c);
    return end != 1;
}

TEST(Characters, ofAWordAreLettersDigitsAndTheSignsOfDegree) {
    const std::set<char32_t> latin_signs{0xAA, 0xB0, 0xB5, 0xBA};
    for (char32_t c = 1; c < 0xC0; ++c) {
        const bool expected = (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || c == '_' ||
                              (c >= 'a' && c <= 'z') || latin_signs.contains(c);
        EXPECT_EQ(of_a_word(c), expected) << std::hex << std::uint32_t(c);
    }
    const std::pair<char32_t, char32_t> none[] = {
        {0xD7, 0xD7},     {0xF7, 0xF7},     {0x2000, 0x206F}, {0x2150, 0x215F},
        {0x2189, 0x2189}, {0x2190, 0x2BFF}, {0xFFFD, 0xFFFD}};
    for (char32_t c = 0xC0; c < 0x3100; ++c) {
        const bool sign = std::any_of(std::begin(none), std::end(none), [&](const auto& range) {
            return c >= range.first && c <= range.second;
        });
        EXPECT_EQ(of_a_word(c), !sign) << std::hex << std::uint32_t(c);
    }
    EXPECT_FALSE(of_a_word(0xFFFD));
    EXPECT_TRUE(of_a_word(0x1F952));
    EXPECT_EQ(scan::skip_word("%x", 0), 1u) << "a percent sign is a word by itself";
    EXPECT_EQ(scan::skip_word("x%", 0), 1u);
    EXPECT_EQ(scan::skip_word("a%b", 1), 2u);
}

TEST(Characters, thatAreBlanksAndDashes) {
    const std::set<char32_t> blanks{' ', '\t', 0xA0, 0x2009, 0x202F};
    const std::set<char32_t> dashes{'-', 0x2010, 0x2011, 0x2012, 0x2013, 0x2014, 0x2015, 0x2212};
    for (char32_t c = 1; c < 0x2300; ++c) {
        const std::string text = utf8(c) + "7";
        EXPECT_EQ(scan::skip_blanks(text, 0), blanks.contains(c) ? utf8(c).size() : 0)
            << std::hex << std::uint32_t(c);
        EXPECT_EQ(scan::dash_at(text, 0), dashes.contains(c) ? utf8(c).size() : 0)
            << std::hex << std::uint32_t(c);
        const bool fraction =
            c == 0xBC || c == 0xBD || c == 0xBE || (c >= 0x2150 && c <= 0x215E) || c == 0x2189;
        EXPECT_EQ(scan::number_at(text, 0), fraction || (c >= '0' && c <= '9'))
            << std::hex << std::uint32_t(c);
    }
}

TEST(DimensionBounds, areTwelveOnEitherSide) {
    EXPECT_EQ(max_exponent, 12);
    for (int e = -14; e <= 14; ++e) {
        for (const Dimension base :
             {dim::mass, dim::length, dim::time, dim::temperature, dim::count}) {
            const auto raised = power(base, e);
            EXPECT_EQ(raised.has_value(), std::abs(e) <= 12) << e;
            if (!raised) continue;
            EXPECT_EQ(*raised == base, e == 1);
            EXPECT_EQ(raised->plain(), e == 0);
            EXPECT_EQ(square_root(*raised).has_value(), e % 2 == 0) << e;
            if (e % 2 == 0) {
                EXPECT_EQ(square_root(*raised), power(base, e / 2));
            }
            EXPECT_EQ(multiply(*raised, base).has_value(), std::abs(e + 1) <= 12) << e;
            EXPECT_EQ(divide(*raised, base).has_value(), std::abs(e - 1) <= 12) << e;
        }
    }
}

} // namespace
} // namespace jarful::units
