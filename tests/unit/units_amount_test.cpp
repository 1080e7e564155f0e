#include "engine/units/amount.hpp"

#include <gtest/gtest.h>

#include <string>

namespace jarful::units {
namespace {

using Kind = ReadFault::Kind;

Amount amount(std::string_view text) {
    ReadFault fault;
    const auto a = read_amount(text, &fault);
    EXPECT_TRUE(a) << text << ": " << fault.message << " " << fault.advice;
    return a.value_or(Amount{});
}

ReadFault fault_of(std::string_view text) {
    ReadFault fault{Kind::not_a_number, 0, 0, "", ""};
    EXPECT_FALSE(read_amount(text, &fault)) << text;
    EXPECT_FALSE(read_amount(text)) << text;
    EXPECT_FALSE(fault.message.empty()) << text;
    EXPECT_LE(fault.begin, fault.end) << text;
    EXPECT_LE(fault.end, text.size()) << text;
    return fault;
}

std::size_t prefix(std::string_view text) {
    ReadFault fault;
    std::size_t length = 99;
    const auto a = read_amount_prefix(text, length, &fault);
    EXPECT_TRUE(a) << text << ": " << fault.message;
    return length;
}

void expect_range(const Amount& a, double low, double value, double high) {
    EXPECT_DOUBLE_EQ(a.low, low);
    EXPECT_DOUBLE_EQ(a.value, value);
    EXPECT_DOUBLE_EQ(a.high, high);
}

TEST(Amount, ReadsANumberAndItsUnit) {
    for (auto text : {"1.80 kg", "1.80kg", " 1.80 kg ", "1.80\u00a0kg", "1800 g"}) {
        const Amount a = amount(text);
        EXPECT_EQ(a.value, 1800) << text;
        EXPECT_EQ(a.low, 1800) << text;
        EXPECT_EQ(a.high, 1800) << text;
        EXPECT_EQ(a.dimension, dim::mass) << text;
        EXPECT_FALSE(a.range || a.uncertain || a.percent || a.plain_number || a.fraction) << text;
        EXPECT_FALSE(a.temperature_point || a.bare_measure) << text;
    }
    EXPECT_EQ(amount("1.80 kg").unit.text(), "kg");
}

TEST(Amount, ReadsAPlainNumberAndAPercentage) {
    const Amount plain = amount("3");
    EXPECT_TRUE(plain.plain_number);
    EXPECT_EQ(plain.unit.size, 0);
    EXPECT_EQ(plain.dimension, dim::plain);
    const Amount percent = amount("2.2 %");
    EXPECT_TRUE(percent.percent);
    EXPECT_FALSE(percent.plain_number);
    EXPECT_EQ(percent.value, 2.2 / 100);
    EXPECT_EQ(percent.dimension, dim::plain);
    EXPECT_TRUE(amount("2.2%").percent);
}

TEST(Amount, ReadsFractions) {
    EXPECT_TRUE(amount("1 1/2 tsp").fraction);
    EXPECT_DOUBLE_EQ(amount("1 1/2 tsp").value, 1.5 * 4.92892159375);
    EXPECT_DOUBLE_EQ(amount("½ cup").value, 236.5882365 / 2);
    EXPECT_DOUBLE_EQ(amount("1½cup").value, 1.5 * 236.5882365);
    EXPECT_DOUBLE_EQ(amount("1/2 lb").value, 453.59237 / 2);
}

TEST(Amount, ReadsSeveralPartsAsOneNumber) {
    const Amount a = amount("2 lb 3 oz");
    EXPECT_DOUBLE_EQ(a.value, 2 * 453.59237 + 3 * 28.349523125);
    EXPECT_EQ(a.unit.text(), "oz");
    EXPECT_DOUBLE_EQ(amount("2lb3oz").value, a.value);
    EXPECT_DOUBLE_EQ(amount("2lb3.5oz").value, 2 * 453.59237 + 3.5 * 28.349523125);
    EXPECT_DOUBLE_EQ(amount("1h30min").value, 5400);
    EXPECT_DOUBLE_EQ(amount("1 lb 3 1/2 oz").value, 453.59237 + 3.5 * 28.349523125);
    EXPECT_DOUBLE_EQ(amount("1 h 30 min").value, 5400);
    EXPECT_DOUBLE_EQ(amount("1 week 2 days 3 h 4 min").value, 604800 + 2 * 86400 + 3 * 3600 + 240);
}

TEST(Amount, ReadsRangesWithOneUnitOrTwo) {
    const double tbsp = 14.78676478125;
    expect_range(amount("2..3 tbsp"), 2 * tbsp, 2.5 * tbsp, 3 * tbsp);
    expect_range(amount("2 tbsp..3 tbsp"), 2 * tbsp, 2.5 * tbsp, 3 * tbsp);
    expect_range(amount("2 .. 3tbsp"), 2 * tbsp, 2.5 * tbsp, 3 * tbsp);
    expect_range(amount("500g..5kg"), 500, 2750, 5000);
    expect_range(amount("2..2.5 %"), 0.02, 0.0225, 0.025);
    expect_range(amount("2..3"), 2, 2.5, 3);
    expect_range(amount("½..1 kg"), 500, 750, 1000);
    expect_range(amount("3..3 g"), 3, 3, 3);
    EXPECT_TRUE(amount("2..3 tbsp").range);
    EXPECT_TRUE(amount("½..1 kg").fraction);
    EXPECT_TRUE(amount("2..3").plain_number);
    EXPECT_TRUE(amount("2..2.5 %").percent);
    expect_range(amount("1 lb..1 lb 8 oz"), 453.59237, 453.59237 * 1.25, 453.59237 * 1.5);
}

TEST(Amount, ReadsStatedUncertainty) {
    expect_range(amount("1.80 kg ± 5 g"), 1795, 1800, 1805);
    expect_range(amount("1.80 kg +/- 5 g"), 1795, 1800, 1805);
    expect_range(amount("1.80kg±5g"), 1795, 1800, 1805);
    expect_range(amount("1.80 kg ± 2 %"), 1764, 1800, 1836);
    expect_range(amount("2.2 % ± 0.1 %"), 0.021, 0.022, 0.023);
    expect_range(amount("5 ± 1"), 4, 5, 6);
    expect_range(amount("0.9 kg/L ± 0.05 g/mL"), 0.85, 0.9, 0.95);
    expect_range(amount("0.9 kg/L ± 10 %"), 0.81, 0.9, 0.99);
    expect_range(amount("2..3 kg ± 100 g"), 1900, 2500, 3100);
    expect_range(amount("2..3 kg ± 10 %"), 1800, 2500, 3300);
    EXPECT_TRUE(amount("5 ± 1").uncertain);
    EXPECT_FALSE(amount("5 ± 1").range);
    EXPECT_EQ(amount("1.80 kg ± 5 g").unit.text(), "kg");
}

TEST(Amount, ReadsTemperaturesAsPoints) {
    const Amount a = amount("19 °C");
    EXPECT_TRUE(a.temperature_point);
    EXPECT_EQ(a.value, 292.15);
    EXPECT_EQ(a.difference, 19);
    EXPECT_EQ(amount("19℃").value, 292.15);
    EXPECT_EQ(amount("32 °F").value, 273.15);
    EXPECT_DOUBLE_EQ(amount("9 °F").difference, 5);
    expect_range(amount("19 °C ± 2 °C"), 290.15, 292.15, 294.15);
    expect_range(amount("68 °F ± 9 °F"), 288.15, 293.15, 298.15);
    expect_range(amount("18..22 °C"), 291.15, 293.15, 295.15);
    EXPECT_EQ(amount("18..22 °C").difference, 20);
    EXPECT_FALSE(amount("2 °C/day").temperature_point);
    EXPECT_EQ(amount("3 kg").difference, 0);
}

TEST(Amount, ReadsCompoundUnits) {
    EXPECT_EQ(amount("0.9 kg/L").dimension, dim::density);
    EXPECT_EQ(amount("0.9 kg/L").value, 0.9);
    EXPECT_EQ(amount("5 cm^2").dimension, dim::area);
    EXPECT_DOUBLE_EQ(amount("10 g/lb").value, 10 / 453.59237);
    EXPECT_FALSE(amount("10 g/lb").percent);
    EXPECT_FALSE(amount("10 g/lb").plain_number);
    EXPECT_EQ(amount("10 g/lb").dimension, dim::plain);
}

TEST(Amount, MarksBareMeasuresAndReadsThemInAnySpoons) {
    const Amount a = amount("2 tbsp");
    ASSERT_TRUE(a.bare_measure);
    EXPECT_EQ(unit(*a.bare_measure).symbol, "tbsp");
    EXPECT_DOUBLE_EQ(a.value, 2 * 14.78676478125);
    EXPECT_DOUBLE_EQ(a.in_spoons(Spoons::metric).value, 30);
    EXPECT_DOUBLE_EQ(a.in_spoons(Spoons::imperial).value, 2 * 17.7581640625);
    EXPECT_EQ(a.in_spoons(Spoons::us).value, a.value);
    EXPECT_EQ(a.in_spoons(Spoons::unstated).value, a.value);
    EXPECT_FALSE(amount("2 us tbsp").bare_measure);
    EXPECT_FALSE(amount("2 metric tbsp").bare_measure);
    EXPECT_DOUBLE_EQ(amount("2 metric tbsp").value, 30);
    EXPECT_DOUBLE_EQ(amount("1 cup 2 tbsp").in_spoons(Spoons::metric).value, 280);
    expect_range(amount("2..3 tbsp ± 1 tsp").in_spoons(Spoons::metric), 25, 37.5, 50);
    EXPECT_DOUBLE_EQ(amount("3 g/tsp").in_spoons(Spoons::metric).value, 0.6);
    EXPECT_EQ(unit(*amount("3 g/tsp").bare_measure).symbol, "tsp");
    EXPECT_EQ(amount("2 kg").in_spoons(Spoons::metric).value, 2000);
}

TEST(Amount, RefusesPartsThatDoNotFit) {
    EXPECT_EQ(fault_of("2 lb 3 cm").kind, Kind::unit_mismatch);
    EXPECT_EQ(fault_of("2 lb 3 g/kg").kind, Kind::unit_mismatch);
    EXPECT_EQ(fault_of("3 oz 2 lb").kind, Kind::unit_order);
    EXPECT_EQ(fault_of("3 oz 2 oz").kind, Kind::unit_order);
    EXPECT_EQ(fault_of("2 1/2 lb 3 oz").kind, Kind::unit_order);
    EXPECT_EQ(fault_of("1.5 kg 3 g").kind, Kind::unit_order);
    EXPECT_EQ(fault_of("2 lb 3").kind, Kind::left_over);
    EXPECT_EQ(fault_of("19 °C 3 °F").kind, Kind::left_over);
    EXPECT_EQ(fault_of("2 % 3 %").kind, Kind::left_over);
    EXPECT_EQ(fault_of("2 lb 3,5 oz").kind, Kind::decimal_comma);
    EXPECT_EQ(fault_of("2 lb 3,5 oz").begin, 5U);
}

TEST(Amount, RefusesRangesThatAreNone) {
    EXPECT_EQ(fault_of("3..2 tbsp").kind, Kind::reversed_range);
    EXPECT_EQ(fault_of("2 kg..300 g").kind, Kind::reversed_range);
    EXPECT_EQ(fault_of("2 kg..3 L").kind, Kind::unit_mismatch);
    EXPECT_EQ(fault_of("2 kg..3").kind, Kind::missing_unit);
    EXPECT_EQ(fault_of("2..3 lb 4 oz").kind, Kind::missing_unit);
    EXPECT_EQ(fault_of("2..").kind, Kind::not_a_number);
    EXPECT_EQ(fault_of("2..x").begin, 3U);
    EXPECT_EQ(fault_of("2...3").kind, Kind::left_over);
    EXPECT_EQ(fault_of("2..3..4").kind, Kind::left_over);
}

TEST(Amount, RefusesUncertaintyThatDoesNotFit) {
    EXPECT_EQ(fault_of("1 kg ± 5 mL").kind, Kind::unit_mismatch);
    EXPECT_EQ(fault_of("1 kg ± 5 g/kg").kind, Kind::unit_mismatch);
    EXPECT_EQ(fault_of("1 kg ± 5").kind, Kind::missing_unit);
    EXPECT_EQ(fault_of("1.80 ± 0.05 kg").kind, Kind::missing_unit);
    EXPECT_EQ(fault_of("2.2 ± 0.1 %").kind, Kind::missing_unit);
    EXPECT_EQ(fault_of("19 °C ± 5 %").kind, Kind::unit_mismatch);
    EXPECT_EQ(fault_of("19 °C ± 5").kind, Kind::missing_unit);
    EXPECT_EQ(fault_of("5 g ±").kind, Kind::not_a_number);
    EXPECT_EQ(fault_of("5 g ± 1 g ± 1 g").kind, Kind::left_over);
}

TEST(Amount, NamesTheNearestUnitForAnUnknownOne) {
    const ReadFault grams = fault_of("3 gramms");
    EXPECT_EQ(grams.kind, Kind::unknown_unit);
    EXPECT_EQ(grams.begin, 2U);
    EXPECT_EQ(grams.end, 8U);
    EXPECT_EQ(grams.advice, "Did you mean grams?");
    EXPECT_EQ(fault_of("1 T").advice, "Did you mean tbsp?");
    EXPECT_EQ(fault_of("3 cabbages").kind, Kind::unknown_unit);
    EXPECT_EQ(fault_of("3 cabbages").advice, "");
    EXPECT_EQ(fault_of("3 g/cabbage").kind, Kind::unknown_unit);
    EXPECT_EQ(fault_of("3 g/cabbage").begin, 4U);
    EXPECT_EQ(fault_of("1e3 g").kind, Kind::unknown_unit);
    EXPECT_NE(fault_of("1e3 g").advice.find("powers of ten"), std::string::npos);
    EXPECT_EQ(fault_of("5cm2").kind, Kind::unknown_unit);
    EXPECT_EQ(fault_of("6 months").kind, Kind::unknown_unit);
}

TEST(Amount, SaysWhatIsLeftOver) {
    EXPECT_EQ(fault_of("2.2 % of cabbage").kind, Kind::left_over);
    EXPECT_EQ(fault_of("2.2 % of cabbage").begin, 6U);
    EXPECT_EQ(fault_of("3 g / lb").kind, Kind::left_over);
    EXPECT_EQ(fault_of("2 of x").kind, Kind::left_over);
    EXPECT_EQ(fault_of("5 g)").kind, Kind::left_over);
    EXPECT_EQ(fault_of("2 to 3 tbsp").kind, Kind::hyphen_range);
    EXPECT_EQ(fault_of("2 - 3 tbsp").kind, Kind::hyphen_range);
    EXPECT_EQ(fault_of("500g-600g").kind, Kind::hyphen_range);
    EXPECT_EQ(fault_of("2-3 tbsp").kind, Kind::hyphen_range);
    EXPECT_EQ(fault_of("1-1/2 cup").kind, Kind::hyphen_mixed);
    EXPECT_EQ(fault_of("1,5 kg").kind, Kind::decimal_comma);
    EXPECT_EQ(fault_of("").kind, Kind::not_a_number);
    EXPECT_EQ(fault_of("-5 g").kind, Kind::not_a_number);
    EXPECT_EQ(fault_of("kg").kind, Kind::not_a_number);
}

TEST(AmountPrefix, StopsBeforeWhatIsNotItsOwn) {
    EXPECT_EQ(prefix("2.2 % of (cabbage + carrot)"), 5U);
    EXPECT_EQ(prefix("3 days from day 1"), 6U);
    EXPECT_EQ(prefix("1 day from"), 5U);
    EXPECT_EQ(prefix("2 to 3"), 1U);
    EXPECT_EQ(prefix("1 per kg"), 1U);
    EXPECT_EQ(prefix("1 each jar"), 1U);
    EXPECT_EQ(prefix("3 g/cabbage"), 3U);
    EXPECT_EQ(prefix("3 g / lb"), 3U);
    EXPECT_EQ(prefix("10 g/lb of cabbage"), 7U);
    EXPECT_EQ(prefix("4.2kg+3.9kg"), 5U);
    EXPECT_EQ(prefix("1.5 g per kg of cabbage"), 5U);
    EXPECT_EQ(prefix("2 min(3, 4)"), 1U);
    EXPECT_EQ(prefix("2 min (3)"), 5U);
    EXPECT_EQ(prefix("2 lb 3 oz of x"), 9U);
    EXPECT_EQ(prefix("2 lb 3"), 4U);
    EXPECT_EQ(prefix("1.80 kg  \"cored\""), 7U);
    EXPECT_EQ(prefix("  5 g "), 5U);
    EXPECT_EQ(prefix("3 us"), 1U);
    EXPECT_EQ(prefix("1/2^2"), 3U);
    EXPECT_EQ(prefix("5 cm^x"), 4U);
    EXPECT_EQ(prefix("5 gé"), 1U);
    EXPECT_EQ(prefix("3..4 pieces)"), 11U);
    EXPECT_EQ(prefix("12 %/day, 3"), 8U);
}

TEST(AmountPrefix, HasNoLengthOnAFault) {
    std::size_t length = 7;
    EXPECT_FALSE(read_amount_prefix("2..x", length));
    EXPECT_EQ(length, 0U);
}

TEST(Amount, SurvivesOddBytes) {
    for (std::string text : {std::string("5 \xff"), std::string("5\0g", 3), std::string("\xc2"),
                             std::string("5 \xe2\x82"), std::string("5 g \xb1 1 g"),
                             std::string(100000, '5'), std::string("1 1/")}) {
        EXPECT_FALSE(read_amount(text));
    }
}

} // namespace
} // namespace jarful::units
