#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"
#include "engine/units/interval.hpp"
#include "engine/units/scan.hpp"
#include "engine/units/together.hpp"
#include "engine/units/unit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <string_view>
#include <utility>

/// Reading stops where the text stops, also where more text stands behind it in memory.
namespace jarful::units {
namespace {

TEST(Scan, aWordEndsWithItsText) {
    const std::string_view all = "kilograms";
    for (std::size_t length = 0; length <= all.size(); ++length)
        EXPECT_EQ(scan::skip_word(all.substr(0, length), 0), length);
    EXPECT_EQ(scan::skip_word(std::string_view("g%").substr(0, 1), 1), 1u);
}

TEST(Scan, everyLetterAndDigitIsOfAWordAndASpaceOfAnyWidthIsNot) {
    for (const std::string_view all : {"abcdefghijklmnopqrstuvwxyz", "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
                                       "0123456789", "_\u00b0\u00b5"})
        EXPECT_EQ(scan::skip_word(all, 0), all.size()) << all;
    for (const std::string_view space : {"\u2000", "\u2009", "\u200a", "\u202f", "\u206f"})
        EXPECT_EQ(scan::skip_word("g" + std::string(space) + "x", 0), 1u) << space;
    for (const std::string_view other : {"@", "[", "`", "{", "/", ":"})
        EXPECT_EQ(scan::skip_word(other, 0), 0u) << other;
}

// A word processor's no-break space, and a plain one typed behind it.
TEST(Scan, blanksOfSeveralSortsAreSkippedTogether) {
    EXPECT_EQ(scan::skip_blanks("\u00a0 g", 0), 3u);
    EXPECT_EQ(scan::skip_blanks(" \u2009\u00a0\tg", 0), 7u);
}

TEST(Scan, aDashBehindTheTextIsNone) {
    const std::string_view range = "5-3";
    EXPECT_EQ(scan::dash_at(range, 1), 1u);
    EXPECT_EQ(scan::dash_at(range.substr(0, 1), 1), 0u);
    EXPECT_EQ(scan::dash_at(range, 0), 0u);
    for (const std::string_view dash : {"\u2010", "\u2013", "\u2014", "\u2015", "\u2212"})
        EXPECT_EQ(scan::dash_at(dash, 0), 3u) << dash;
    for (const std::string_view other : {"\u200f", "\u2016", "\u2211", "\u2213"})
        EXPECT_EQ(scan::dash_at(other, 0), 0u) << other;
}

TEST(Scan, digitsAndBlanksEndWithTheirText) {
    const std::string_view digits = "0123456789";
    for (std::size_t length = 0; length <= digits.size(); ++length)
        EXPECT_EQ(scan::skip_digits(digits.substr(0, length), 0), length);
    EXPECT_FALSE(scan::digit_at(digits.substr(0, 3), 3));
    EXPECT_FALSE(scan::number_at(digits.substr(0, 3), 3));
    EXPECT_EQ(scan::skip_blanks(std::string_view("    ").substr(0, 2), 0), 2u);
    EXPECT_EQ(scan::code_point(digits.substr(0, 3), 3).length, 0u);
}

// A reader gets a piece of a longer text: what stands behind it in memory is not looked at.
TEST(Reading, ofAPieceOfATextIsAsOfTheSameByItself) {
    for (const std::string_view whole :
         {"12.5.5 kg",     "1 1/2.5 cm^23", "1,500 g",     "2-3 tbsp",  "2..3 kg ± 5 % of x",
          "1½ cup 2 tbsp", "1/2/3",         "2 lb 3 oz 4", "5. 6",      "kg/L*m^2.5",
          "us tbsp",       "cm^012",        ".5.5",        "2 +/- 3 g", "19 °C ± 2",
          "3 min(4)",      "2 to 3 tbsp",   "1e3 g",       "2lb3oz",    "1–2 %",
          "g^2^3"}) {
        for (std::size_t cut = 0; cut <= whole.size(); ++cut) {
            const std::string_view piece = whole.substr(0, cut);
            const std::string alone(piece); // a zero stands behind it
            ReadFault a{}, b{};
            const auto number = read_number(piece, &a);
            const auto number_alone = read_number(alone, &b);
            ASSERT_EQ(number.has_value(), number_alone.has_value()) << alone;
            if (number) {
                EXPECT_EQ(number->value, number_alone->value) << alone;
                EXPECT_EQ(number->length, number_alone->length) << alone;
            } else {
                EXPECT_EQ(a.message + a.advice, b.message + b.advice) << alone;
            }
            EXPECT_EQ(read_amount(piece, &a), read_amount(alone, &b)) << alone;
            EXPECT_EQ(a.message + a.advice, b.message + b.advice) << alone;
            std::size_t length = 0, length_alone = 0;
            EXPECT_EQ(read_amount_prefix(piece, length), read_amount_prefix(alone, length_alone));
            EXPECT_EQ(length, length_alone) << alone;
            EXPECT_EQ(read_unit(piece), read_unit(alone)) << alone;
            EXPECT_EQ(find_unit(piece), find_unit(alone)) << alone;
            for (std::size_t at = 0; at <= cut; ++at) {
                EXPECT_EQ(scan::skip_word(piece, at), scan::skip_word(alone, at)) << alone;
                EXPECT_EQ(scan::skip_blanks(piece, at), scan::skip_blanks(alone, at)) << alone;
                EXPECT_EQ(scan::dash_at(piece, at), scan::dash_at(alone, at)) << alone;
                EXPECT_EQ(scan::number_at(piece, at), scan::number_at(alone, at)) << alone;
            }
        }
    }
}

TEST(StayTogether, everyDigitBeginsAndEndsANumber) {
    for (char c = '0'; c <= '9'; ++c)
        EXPECT_TRUE(stay_together(std::string(1, c), "g")) << c;
    for (const char* other : {"/", ":", "x"})
        EXPECT_FALSE(stay_together(other, "g")) << other;
}

TEST(StayTogether, aWordThatEndsInAnAccentIsNoFraction) {
    EXPECT_FALSE(stay_together("caf\u00e9", "g"));
    EXPECT_FALSE(stay_together("\u00bd\u00e9", "cup"));
    for (const char* fraction : {"\u00bd", "1\u00bc", "\u215e"})
        EXPECT_TRUE(stay_together(fraction, "cup")) << fraction;
}

TEST(IntervalPowerOfAnyExponent, fromZeroOnIsTightOrUnbounded) {
    const Interval root = pow(Interval(0, 4), Interval(0.5));
    EXPECT_EQ(root.low, 0);
    EXPECT_NEAR(root.high, 2, 1e-14);
    const Interval inverse = pow(Interval(0, 4), Interval(-0.5));
    EXPECT_LE(inverse.low, 0.5);
    EXPECT_TRUE(std::isinf(inverse.high));
}

// A square that multiplies back: the true root lies between the ends, whichever way the library's
// pow rounded it.
TEST(IntervalPowerOfAnyExponent, enclosesTheTrueRoot) {
    for (int n = 2; n < 200; ++n) {
        const Interval root = pow(Interval(n), Interval(0.5));
        EXPECT_LE(std::fma(root.low, root.low, -double(n)), 0) << n;
        EXPECT_GE(std::fma(root.high, root.high, -double(n)), 0) << n;
        EXPECT_LT(root.low, root.high) << n << ": nothing says that the library's pow is exact";
        EXPECT_LT(root.width(), 1e-14 * n);
    }
}

TEST(ReadAmount, anUnknownUnitIsQuotedByItself) {
    ReadFault fault;
    EXPECT_FALSE(read_amount("12 wibbles and more", &fault));
    EXPECT_NE(fault.message.find("`wibbles`"), std::string::npos) << fault.message;
}

TEST(FromBaseUnits, goesThereAndBack) {
    const std::pair<const char*, double> in_a_base_unit[] = {{"mg", 1000}, {"g", 1},  {"kg", 0.001},
                                                             {"%", 100},   {"mL", 1}, {"L", 0.001}};
    for (const auto& [symbol, much] : in_a_base_unit) {
        const auto id = find_unit(symbol);
        ASSERT_TRUE(id) << symbol;
        EXPECT_DOUBLE_EQ(from_kelvin(*id, 1), much) << symbol;
        EXPECT_DOUBLE_EQ(to_kelvin(*id, much), 1) << symbol;
    }
}

// Four digits are shown: what would round to 1000 g is a kilogram.
TEST(PrintMass, changesToKilogramsWhereGramsWouldRoundToAThousand) {
    EXPECT_EQ(print_mass(999.94), "999.9 g");
    EXPECT_EQ(print_mass(999.95), "1 kg");
    EXPECT_EQ(print_mass(1000), "1 kg");
}

TEST(ReadingDecimals, areThoseOfTheStepAndNoneOfWhatIsNoStep) {
    EXPECT_EQ(reading_decimals(1), 0);
    EXPECT_EQ(reading_decimals(0.1), 1);
    EXPECT_EQ(reading_decimals(0.05), 2);
    EXPECT_EQ(reading_decimals(0), 0);
    EXPECT_EQ(reading_decimals(-1), 0);
    EXPECT_EQ(reading_decimals(std::numeric_limits<double>::infinity()), 0);
}

} // namespace
} // namespace jarful::units
