#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace jarful::units {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();
constexpr double lb = 453.59237;
constexpr double oz = lb / 16;

TEST(PrintNumber, KeepsSignificantDigitsAndDropsZeros) {
    EXPECT_EQ(print_number(0), "0");
    EXPECT_EQ(print_number(-0.0), "0");
    EXPECT_EQ(print_number(1.50), "1.5");
    EXPECT_EQ(print_number(1.0 / 3), "0.333333");
    EXPECT_EQ(print_number(1234567), "1234570");
    EXPECT_EQ(print_number(999999.9), "1000000");
    EXPECT_EQ(print_number(0.00012345678), "0.000123457");
    EXPECT_EQ(print_number(0.1 + 0.2, 17), "0.30000000000000004");
    EXPECT_EQ(print_number(2.5, 1), "3");
    EXPECT_EQ(print_number(-2.5, 1), "-3");
    EXPECT_EQ(print_number(9.96, 2), "10");
    EXPECT_EQ(print_number(1e15), "1000000000000000");
    EXPECT_EQ(print_number(1e-6), "0.000001");
    EXPECT_EQ(print_number(5, 0), "5");
    EXPECT_EQ(print_number(5, 99), "5");
    EXPECT_EQ(print_number(1e300), "1e+300");
    EXPECT_NE(print_number(1e-300), "0");
}

TEST(PrintNumber, NamesWhatIsNotFinite) {
    EXPECT_EQ(print_number(inf), "unbounded");
    EXPECT_EQ(print_number(-inf), "-unbounded");
    EXPECT_EQ(print_number(std::numeric_limits<double>::quiet_NaN()), "not a number");
    EXPECT_EQ(print_mass(inf), "unbounded");
    EXPECT_EQ(print_time(-inf), "-unbounded");
}

TEST(PrintFixed, RoundsHalvesAwayFromZero) {
    EXPECT_EQ(print_fixed(0.5, 0), "1");
    EXPECT_EQ(print_fixed(-0.5, 0), "-1");
    EXPECT_EQ(print_fixed(2.675, 2), "2.68");
    EXPECT_EQ(print_fixed(0.125, 2), "0.13");
    EXPECT_EQ(print_fixed(2, 2), "2.00");
    EXPECT_EQ(print_fixed(0, 1), "0.0");
    EXPECT_EQ(print_fixed(-0.04, 1), "0.0");
    EXPECT_EQ(print_fixed(9.99, 1), "10.0");
    EXPECT_EQ(print_fixed(0.001, 2), "0.00");
    EXPECT_EQ(print_fixed(1e20, 1), "100000000000000000000.0");
    EXPECT_EQ(print_fixed(1.5, -3), "2");
}

TEST(PrintMass, SuitsTheSize) {
    EXPECT_EQ(print_mass(0.4), "0.4 g");
    EXPECT_EQ(print_mass(40.5), "40.5 g");
    EXPECT_EQ(print_mass(40.0), "40 g");
    EXPECT_EQ(print_mass(123.44), "123.4 g");
    EXPECT_EQ(print_mass(999.94), "999.9 g");
    EXPECT_EQ(print_mass(999.96), "1 kg");
    EXPECT_EQ(print_mass(1840), "1.84 kg");
    EXPECT_EQ(print_mass(1845), "1.845 kg");
    EXPECT_EQ(print_mass(0), "0 g");
    EXPECT_EQ(print_mass(-0.0), "0 g");
    EXPECT_EQ(print_mass(-3), "-3 g");
    EXPECT_EQ(print_mass(0.00004), "0.00004 g");
}

TEST(PrintMass, InUsUnitsGivesPoundsAndOunces) {
    EXPECT_EQ(print_mass(4.2 * oz, Style::us), "4.2 oz");
    EXPECT_EQ(print_mass(lb + 4.2 * oz, Style::us), "1 lb 4.2 oz");
    EXPECT_EQ(print_mass(2 * lb + 3.1 * oz, Style::us), "2 lb 3.1 oz");
    EXPECT_EQ(print_mass(2 * lb, Style::us), "2 lb");
    EXPECT_EQ(print_mass(15.97 * oz, Style::us), "1 lb");
    EXPECT_EQ(print_mass(31.96 * oz, Style::us), "2 lb");
    EXPECT_EQ(print_mass(0.4, Style::us), "0.0141 oz");
    EXPECT_EQ(print_mass(-2 * lb, Style::us), "-2 lb");
    EXPECT_EQ(print_mass(0, Style::us), "0 oz");
}

TEST(PrintReading, FollowsTheScalesStep) {
    EXPECT_EQ(print_reading(1840, 1), "1840 g");
    EXPECT_EQ(print_reading(40.2, 0.1), "40.2 g");
    EXPECT_EQ(print_reading(402 * 0.1, 0.1), "40.2 g");
    EXPECT_EQ(print_reading(40, 0.1), "40.0 g");
    EXPECT_EQ(print_reading(1838, 5), "1840 g");
    EXPECT_EQ(print_reading(1.24, 0.05), "1.25 g");
    EXPECT_EQ(print_reading(0, 1), "0 g");
    EXPECT_EQ(print_reading(0.4, 1), "0.4 g");
    EXPECT_EQ(print_reading(40.2, 0), "40.2 g");
    EXPECT_EQ(print_reading(40.2, -1), "40.2 g");
}

TEST(PrintReading, ShowsPoundsAndOuncesOfAScaleThatDoes) {
    EXPECT_EQ(print_reading(5 * lb, oz / 2), "5 lb 0.0 oz");
    EXPECT_EQ(print_reading(5 * lb + 3.5 * oz, oz / 2), "5 lb 3.5 oz");
    EXPECT_EQ(print_reading(5 * lb, oz), "5 lb 0 oz");
    EXPECT_EQ(print_reading(3.55 * oz, oz / 20), "3.55 oz");
    EXPECT_EQ(print_reading(0, oz), "0 oz");
    EXPECT_EQ(print_reading(0.01 * oz, oz), "0.283 g");
    EXPECT_TRUE(reads_ounces(oz / 8));
    for (const double step : {1.0, 0.1, 0.02, 0.001, 5.0, 0.0, -1.0})
        EXPECT_FALSE(reads_ounces(step)) << step;
    // A step that is neither: to a hundredth of a gram.
    EXPECT_EQ(print_reading(10.0 / 3, 1.0 / 3), "3.33 g");
    EXPECT_EQ(reading_decimals(1.0 / 3), 2);
    EXPECT_EQ(reading_decimals(0.001), 3);
}

TEST(PrintShown, isNoFinerThanTheScales) {
    const Shown tenths{Shown::System::us, oz / 10};
    EXPECT_EQ(print_mass(1.4815 * oz, tenths), "1.5 oz");
    EXPECT_EQ(print_mass(15.96 * oz, tenths), "1 lb");
    EXPECT_EQ(print_mass(5 * lb + 2.44 * oz, tenths), "5 lb 2.4 oz");
    EXPECT_EQ(print_mass(0.0127 * oz, tenths), "0.013 oz"); // nothing, to a tenth
    EXPECT_EQ(print_mass(0, tenths), "0 oz");
    EXPECT_EQ(print_mass(-1.4815 * oz, tenths), "-1.5 oz");
    const Shown halves{Shown::System::us, oz / 2};
    EXPECT_EQ(print_mass(1.4815 * oz, halves), "1.5 oz");
    EXPECT_EQ(print_mass(5 * lb + 2.2 * oz, halves), "5 lb 2 oz");
    EXPECT_EQ(print_mass(3.37 * oz, Shown{Shown::System::us, oz / 8}), "3.375 oz");
    EXPECT_EQ(print_mass(1.4815 * oz, Shown::us), "1.48 oz"); // no scale reads ounces
    EXPECT_EQ(print_mass(42, Shown{Shown::System::metric, oz / 10}), "42 g");
    EXPECT_EQ(print_mass(42, Shown{Shown::System::both, oz / 10}), "42 g"); // what comes first
}

TEST(PrintShown, takesTheUnitsThatComeFirst) {
    EXPECT_EQ(print_volume(946.353, Shown::us), "1 quart");
    EXPECT_EQ(print_volume(1500, Shown::both), "1.5 L");
    EXPECT_EQ(print_temperature(292.15, Shown::us), "66 °F");
    EXPECT_EQ(print_temperature(292.15, Shown::metric), "19 °C");
    EXPECT_EQ(print_value(2.54, dim::length, Shown::us), "1 in");
    EXPECT_EQ(print_value(lb, dim::mass, Shown{Shown::System::us, oz}), "1 lb");
}

TEST(PrintBetween, sharesOneUnit) {
    EXPECT_EQ(print_between("21 °C", "24 °C"), "21 to 24 °C");
    EXPECT_EQ(print_between("21 °C", "21 °C"), "21 °C");
    EXPECT_EQ(print_between("4 lb 1 oz", "4 lb 2 oz"), "4 lb 1 oz to 4 lb 2 oz");
    EXPECT_EQ(print_between("15 oz", "1 lb"), "15 oz to 1 lb");
}

TEST(PrintReadingBounds, stepOutward) {
    EXPECT_EQ(print_reading_bounds({1838.5, 1841.5}, 1, Shown::metric), "1838.5 to 1841.5 g");
    EXPECT_EQ(print_reading_bounds({1838.5, 1841.5}, 1, Shown::us), "1838.5 to 1841.5 g");
    EXPECT_EQ(print_reading_bounds({-0.5, 1.5}, 1, Shown::metric), "0.0 to 1.5 g");
    // A tenth more on either side than 0.15 oz is: whole steps, and never less than is judged.
    EXPECT_EQ(print_reading_bounds({1.35 * oz, 1.65 * oz}, oz / 10, Shown::us), "1.3 to 1.7 oz");
    EXPECT_EQ(print_reading_bounds({lb - 0.75 * oz, lb + 0.75 * oz}, oz / 2, Shown::us),
              "15.0 oz to 1 lb 1.0 oz");
    EXPECT_EQ(print_reading_bounds({-0.1, 0.15 * oz}, oz / 10, Shown::us), "0.0 to 0.2 oz");
    EXPECT_EQ(print_reading_bounds({1.4 * oz, 1.6 * oz}, oz / 10, Shown::us), "1.4 to 1.6 oz");
    EXPECT_EQ(print_reading_bounds({40, 45}, oz / 10, Shown::metric), "40.0 to 45.0 g");
}

TEST(PrintVolume, SuitsTheSize) {
    EXPECT_EQ(print_volume(0.5), "0.5 mL");
    EXPECT_EQ(print_volume(250), "250 mL");
    EXPECT_EQ(print_volume(999.6), "1 L");
    EXPECT_EQ(print_volume(1500), "1.5 L");
    EXPECT_EQ(print_volume(0), "0 mL");
}

TEST(PrintVolume, InUsUnitsTakesTheLargestMeasure) {
    EXPECT_EQ(print_volume(3785.411784, Style::us), "1 gallon");
    EXPECT_EQ(print_volume(2 * 3785.411784, Style::us), "2 gallons");
    EXPECT_EQ(print_volume(946.353, Style::us), "1 quart");
    EXPECT_EQ(print_volume(473.176, Style::us), "1 pint");
    EXPECT_EQ(print_volume(1.25 * 473.176473, Style::us), "1.25 pints");
    EXPECT_EQ(print_volume(236.588, Style::us), "8 fl oz");
    EXPECT_EQ(print_volume(30, Style::us), "1.01 fl oz");
    EXPECT_EQ(print_volume(20, Style::us), "1.35 tbsp");
    EXPECT_EQ(print_volume(5, Style::us), "1.01 tsp");
    EXPECT_EQ(print_volume(0.5 * 4.92892159375, Style::us), "0.5 tsp");
    EXPECT_EQ(print_volume(0.001 * 4.92892159375, Style::us), "0.001 tsp");
    EXPECT_EQ(print_volume(0, Style::us), "0 tsp");
}

TEST(PrintPercent, HasTwoDecimalsAtMost) {
    EXPECT_EQ(print_percent(0.022), "2.2");
    EXPECT_EQ(print_percent(0.02255), "2.26");
    EXPECT_EQ(print_percent(0), "0");
    EXPECT_EQ(print_percent(1), "100");
    EXPECT_EQ(print_percent(0.00001), "0.001");
    EXPECT_EQ(print_percent(0.023456, 1), "2.3");
    EXPECT_EQ(print_percent(-0.01), "-1");
}

TEST(PrintTime, TakesTheUnitThatFits) {
    EXPECT_EQ(print_time(30 * 60), "30 min");
    EXPECT_EQ(print_time(7200), "2 h");
    EXPECT_EQ(print_time(86400), "1 day");
    EXPECT_EQ(print_time(10 * 86400.0), "10 days");
    EXPECT_EQ(print_time(3 * 604800.0), "3 weeks");
    EXPECT_EQ(print_time(180 * 86400.0), "180 days");
    EXPECT_EQ(print_time(36 * 3600), "36 h");
    EXPECT_EQ(print_time(90 * 60), "90 min");
    EXPECT_EQ(print_time(100000), "1.16 days");
    EXPECT_EQ(print_time(30), "0.5 min");
    EXPECT_EQ(print_time(0), "0 min");
}

TEST(PrintTemperature, IsAPoint) {
    EXPECT_EQ(print_temperature(292.15), "19 °C");
    EXPECT_EQ(print_temperature(294.65), "21.5 °C");
    EXPECT_EQ(print_temperature(292.15, Style::us), "66 °F");
    EXPECT_EQ(print_temperature(273.13), "0 °C");
    EXPECT_EQ(print_temperature(255.15), "-18 °C");
}

TEST(PrintValue, CoversEveryDimension) {
    EXPECT_EQ(print_value(0.5, dim::plain), "0.5");
    EXPECT_EQ(print_value(1840, dim::mass), "1.84 kg");
    EXPECT_EQ(print_value(250, dim::volume), "250 mL");
    EXPECT_EQ(print_value(0.3, dim::length), "3 mm");
    EXPECT_EQ(print_value(12, dim::length), "12 cm");
    EXPECT_EQ(print_value(2.54, dim::length, Style::us), "1 in");
    EXPECT_EQ(print_value(78.5, dim::area), "78.5 cm^2");
    EXPECT_EQ(print_value(3600, dim::time), "1 h");
    EXPECT_EQ(print_value(292.15, dim::temperature), "19 °C");
    EXPECT_EQ(print_value(1, dim::count), "1 piece");
    EXPECT_EQ(print_value(3, dim::count), "3 pieces");
    EXPECT_EQ(print_value(0.9, dim::density), "0.9 kg/L");
    EXPECT_EQ(print_value(28.349523125 / 236.5882365, dim::density, Style::us), "1 oz/cup");
    EXPECT_EQ(print_value(12.5, *divide(dim::mass, dim::count)), "12.5 g/piece");
    EXPECT_EQ(print_value(0.5, *divide(dim::plain, dim::mass)), "0.5 per g");
    EXPECT_EQ(print_value(1.0 / 60, *divide(dim::mass, dim::time)), "1 g/min");
    EXPECT_EQ(print_value(-5, dim::mass), "-5 g");
}

} // namespace
} // namespace jarful::units
