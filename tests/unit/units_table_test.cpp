#include "engine/units/unit.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

namespace jarful::units {
namespace {

UnitId id(std::string_view spelling) {
    const auto found = find_unit(spelling);
    EXPECT_TRUE(found) << spelling;
    return found.value_or(0);
}

std::string symbol(std::string_view spelling) {
    return std::string(unit(id(spelling)).symbol);
}

TEST(UnitTable, EveryRowIsCompleteAndFoundByItsSymbol) {
    std::set<std::string_view> symbols;
    for (std::size_t i = 0; i < unit_table().size(); ++i) {
        const Unit& u = unit_table()[i];
        EXPECT_TRUE(symbols.insert(u.symbol).second) << u.symbol;
        EXPECT_EQ(find_unit(u.symbol), static_cast<UnitId>(i)) << u.symbol;
        EXPECT_GT(u.factor, 0) << u.symbol;
        EXPECT_FALSE(u.definition.empty()) << u.symbol;
        EXPECT_FALSE(u.source.empty()) << u.symbol;
    }
}

TEST(UnitTable, SpellingsAreSortedAndUnique) {
    const auto all = unit_spellings();
    EXPECT_TRUE(std::is_sorted(all.begin(), all.end(), [](const Spelling& a, const Spelling& b) {
        return a.text < b.text;
    }));
    EXPECT_EQ(
        std::adjacent_find(all.begin(), all.end(),
                           [](const Spelling& a, const Spelling& b) { return a.text == b.text; }),
        all.end());
}

TEST(UnitTable, EverydaySpellingsAreAccepted) {
    for (auto s : {"l", "L", "litre", "liters"})
        EXPECT_EQ(symbol(s), "L") << s;
    for (auto s : {"ml", "mL", "millilitres"})
        EXPECT_EQ(symbol(s), "mL") << s;
    for (auto s : {"g", "gram", "grams"})
        EXPECT_EQ(symbol(s), "g") << s;
    for (auto s : {"kg", "kilogram", "kilos"})
        EXPECT_EQ(symbol(s), "kg") << s;
    for (auto s : {"lb", "lbs", "pound", "pounds"})
        EXPECT_EQ(symbol(s), "lb") << s;
    for (auto s : {"oz", "ounce", "ounces"})
        EXPECT_EQ(symbol(s), "oz") << s;
    for (auto s : {"tbsp", "Tbsp", "tablespoons"})
        EXPECT_EQ(symbol(s), "tbsp") << s;
    for (auto s : {"floz", "fl_oz"})
        EXPECT_EQ(symbol(s), "floz") << s;
    for (auto s : {"in", "inch", "inches"})
        EXPECT_EQ(symbol(s), "in") << s;
    for (auto s : {"min", "minute", "minutes"})
        EXPECT_EQ(symbol(s), "min") << s;
    for (auto s : {"h", "hour", "hours"})
        EXPECT_EQ(symbol(s), "h") << s;
    for (auto s : {"week", "weeks"})
        EXPECT_EQ(symbol(s), "week") << s;
    for (auto s : {"°C", "℃", "ºC", "degC"})
        EXPECT_EQ(symbol(s), "°C") << s;
    for (auto s : {"°F", "℉", "degF"})
        EXPECT_EQ(symbol(s), "°F") << s;
    for (auto s : {"piece", "pieces"})
        EXPECT_EQ(symbol(s), "piece") << s;
    EXPECT_EQ(symbol("us tablespoons"), "us tbsp");
    EXPECT_EQ(symbol("US cups"), "us cup");
    EXPECT_EQ(symbol("imperial pints"), "imperial pint");
}

TEST(UnitTable, WhatIsNoUnitIsNotFound) {
    for (auto s : {"", "t", "T", "c", "C", "month", "each", "of", "per", "us", "us  cup", "us kg",
                   "metric pint", "metric gallon", "imperial cup", "Grams", "mG", "x"}) {
        EXPECT_FALSE(find_unit(s)) << s;
    }
}

TEST(UnitTable, UnitWordsIncludeThePrefixes) {
    for (auto s : {"us", "US", "metric", "imperial", "g", "tablespoons", "%", "in", "min"}) {
        EXPECT_TRUE(is_unit_word(s)) << s;
    }
    for (auto s : {"", "us ", "cabbage", "month", "each"})
        EXPECT_FALSE(is_unit_word(s)) << s;
}

TEST(UnitTable, MisspeltUnitsHaveANearestOne) {
    EXPECT_EQ(nearest_unit("gramms"), "grams");
    EXPECT_EQ(nearest_unit("teaspon"), "teaspoon");
    EXPECT_EQ(nearest_unit("tpsb"), std::nullopt);
    EXPECT_EQ(nearest_unit("tbps"), "tbsp");
    EXPECT_EQ(nearest_unit("T"), "tbsp");
    EXPECT_EQ(nearest_unit("t"), "tsp");
    EXPECT_EQ(nearest_unit("c"), "cup");
    EXPECT_EQ(nearest_unit("GRAMS"), "grams");
    EXPECT_EQ(nearest_unit("G"), "g");
    EXPECT_FALSE(nearest_unit("month"));
    EXPECT_FALSE(nearest_unit("cabbage"));
    EXPECT_FALSE(nearest_unit(""));
    EXPECT_FALSE(nearest_unit("x"));
}

TEST(UnitTable, BareMeasuresFollowTheSpoons) {
    const UnitId tbsp = id("tbsp");
    EXPECT_EQ(resolve_measure(tbsp, Spoons::metric), id("metric tbsp"));
    EXPECT_EQ(resolve_measure(tbsp, Spoons::us), id("us tbsp"));
    EXPECT_EQ(resolve_measure(tbsp, Spoons::imperial), id("imperial tbsp"));
    EXPECT_EQ(resolve_measure(tbsp, Spoons::unstated), tbsp);
    EXPECT_EQ(resolve_measure(id("cup"), Spoons::imperial), id("cup"));
    EXPECT_EQ(resolve_measure(id("pint"), Spoons::metric), id("pint"));
    EXPECT_EQ(resolve_measure(id("us cup"), Spoons::metric), id("us cup"));
    EXPECT_EQ(resolve_measure(id("kg"), Spoons::metric), id("kg"));
    EXPECT_EQ(unit(tbsp).factor, unit(id("us tbsp")).factor);
    EXPECT_TRUE(unit(tbsp).bare_measure);
    EXPECT_FALSE(unit(id("us tbsp")).bare_measure);
}

TEST(CompoundUnit, ReadsWhatIsWrittenWithoutBlanks) {
    const auto density = read_unit("kg/L");
    ASSERT_TRUE(density);
    EXPECT_EQ(density->dimension(), dim::density);
    EXPECT_EQ(density->factor(), 1);
    EXPECT_FALSE(density->single());
    const auto area = read_unit("cm^2");
    ASSERT_TRUE(area);
    EXPECT_EQ(area->dimension(), dim::area);
    EXPECT_FALSE(area->single());
    EXPECT_EQ(read_unit("g/lb")->dimension(), dim::plain);
    EXPECT_DOUBLE_EQ(read_unit("g/lb")->factor(), 1 / 453.59237);
    EXPECT_EQ(read_unit("kg*m^2/h^2")->size, 3);
    EXPECT_EQ(read_unit("us tbsp/kg")->factors[0].id, id("us tbsp"));
    EXPECT_EQ(read_unit("g/imperial pint")->factors[1].id, id("imperial pint"));
    EXPECT_EQ(read_unit("kg")->single(), id("kg"));
    EXPECT_TRUE(read_unit("%")->percent());
    EXPECT_FALSE(read_unit("%/day")->percent());
}

TEST(CompoundUnit, RefusesWhatIsNoUnit) {
    for (auto s : {"", "kg/", "/kg", "kg /L", "kg/cabbage", "cm^", "cm^0", "cm^-2", "cm^13",
                   "cm^2.5", "g*g*g*g*g", "L^12", "us", "1/kg", "kg ", " kg", "5 kg", "kg//L"}) {
        EXPECT_FALSE(read_unit(s)) << s;
    }
}

TEST(CompoundUnit, PrefixReadingEndsWithTheLastUnit) {
    EXPECT_EQ(read_unit_prefix("g/cabbage")->length, 1U);
    EXPECT_EQ(read_unit_prefix("% of (a)")->length, 1U);
    EXPECT_EQ(read_unit_prefix("kg/L)")->length, 4U);
    EXPECT_EQ(read_unit_prefix("cm^2.5")->length, 2U);
    EXPECT_EQ(read_unit_prefix("cm^2..3")->length, 4U);
    EXPECT_EQ(read_unit_prefix("us  tbsp of")->length, 8U);
    EXPECT_FALSE(read_unit_prefix("gr"));
    EXPECT_FALSE(read_unit_prefix("gé"));
    EXPECT_FALSE(read_unit_prefix("of"));
    EXPECT_FALSE(read_unit_prefix(" g"));
}

TEST(CompoundUnit, WritesTheTidyForm) {
    EXPECT_EQ(read_unit("kilograms/litre")->text(), "kg/L");
    EXPECT_EQ(read_unit("cm^2")->text(), "cm^2");
    EXPECT_EQ(read_unit("US tablespoons")->text(), "us tbsp");
    EXPECT_EQ(read_unit("g/kg*day")->text(), "g/kg*day");
    EXPECT_EQ(CompoundUnit{}.text(), "");
    CompoundUnit per = CompoundUnit::of(id("kg"));
    per.factors[0].exponent = -1;
    EXPECT_EQ(per.text(), "1/kg");
}

TEST(CompoundUnit, ConvertsExactlyWhereDividingIsExact) {
    EXPECT_EQ(read_unit("%")->to_base(2.2), 2.2 / 100);
    EXPECT_EQ(read_unit("%")->from_base(2.2 / 100), 2.2);
    EXPECT_EQ(read_unit("mg")->to_base(300), 0.3);
    EXPECT_EQ(read_unit("mm")->to_base(3), 0.3);
    EXPECT_EQ(read_unit("kg/L")->to_base(0.9), 0.9);
    EXPECT_EQ(read_unit("g/kg")->to_base(22), 0.022);
}

TEST(CompoundUnit, ReadsBareMeasuresInTheGivenSpoons) {
    const auto per_cup = read_unit("g/cup");
    ASSERT_TRUE(per_cup);
    EXPECT_DOUBLE_EQ(per_cup->factor(Spoons::metric), 1.0 / 250);
    EXPECT_DOUBLE_EQ(per_cup->factor(), 1 / 236.5882365);
    EXPECT_EQ(per_cup->bare_measure(), id("cup"));
    EXPECT_FALSE(read_unit("g/us cup")->bare_measure());
}

TEST(Temperature, PointsGoToKelvinAndBack) {
    const UnitId c = id("°C");
    const UnitId f = id("°F");
    EXPECT_EQ(to_kelvin(c, 19), 292.15);
    EXPECT_EQ(to_kelvin(c, -18), 255.15);
    EXPECT_EQ(to_kelvin(f, 32), 273.15);
    EXPECT_EQ(to_kelvin(f, -40), to_kelvin(c, -40));
    EXPECT_EQ(from_kelvin(f, 273.15), 32);
    EXPECT_EQ(from_kelvin(c, 292.15), 19);
    EXPECT_EQ(to_kelvin(id("kg"), 2), 2000);
    EXPECT_EQ(from_kelvin(id("kg"), 2000), 2);
}

} // namespace
} // namespace jarful::units
