#include "engine/units/amount.hpp"
#include "engine/units/interval.hpp"
#include "engine/units/scan.hpp"
#include "engine/units/together.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <string_view>

/// Reading stops where the text stops, also where more text stands behind it in memory.
namespace jarful::units {
namespace {

TEST(Scan, aWordEndsWithItsText) {
    const std::string_view all = "kilograms";
    for (std::size_t length = 0; length <= all.size(); ++length)
        EXPECT_EQ(scan::skip_word(all.substr(0, length), 0), length);
    EXPECT_EQ(scan::skip_word(std::string_view("g%").substr(0, 1), 1), 1u);
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

TEST(StayTogether, everyDigitBeginsAndEndsANumber) {
    for (char c = '0'; c <= '9'; ++c)
        EXPECT_TRUE(stay_together(std::string(1, c), "g")) << c;
    for (const char* other : {"/", ":", "x"})
        EXPECT_FALSE(stay_together(other, "g")) << other;
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

} // namespace
} // namespace jarful::units
