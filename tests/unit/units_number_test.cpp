#include "engine/units/amount.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <string>

namespace jarful::units {
namespace {

using Kind = ReadFault::Kind;

void expect_number(std::string_view text, double value, std::size_t length) {
    ReadFault fault;
    const auto n = read_number(text, &fault);
    ASSERT_TRUE(n) << text << ": " << fault.message;
    EXPECT_EQ(n->value, value) << text;
    EXPECT_EQ(n->length, length) << text;
}

ReadFault fault_of(std::string_view text) {
    ReadFault fault{Kind::left_over, 0, 0, "", ""};
    EXPECT_FALSE(read_number(text, &fault)) << text;
    EXPECT_FALSE(read_number(text)) << text;
    EXPECT_FALSE(fault.message.empty()) << text;
    EXPECT_LE(fault.end, text.size()) << text;
    return fault;
}

TEST(Number, ReadsDigitsWithOnePoint) {
    expect_number("0", 0, 1);
    expect_number("1.80", 1.8, 4);
    expect_number("007", 7, 3);
    expect_number("12kg", 12, 2);
    expect_number("1.2.3", 1.2, 3);
    expect_number("2..3", 2, 1);
    expect_number("2.5..3", 2.5, 3);
    expect_number("0.1000000000000000055511151231257827021181583404541015625", 0.1, 57);
    expect_number("123456789012345.678901234567890", 123456789012345.678901234567890, 31);
    EXPECT_TRUE(read_number("12")->whole);
    EXPECT_FALSE(read_number("12.0")->whole);
    EXPECT_FALSE(read_number("12.0")->fraction);
}

TEST(Number, ReadsFractionsOfBareWholeNumbers) {
    expect_number("1/2", 0.5, 3);
    expect_number("1⁄3", 1.0 / 3, 5);
    expect_number("3/4cup", 0.75, 3);
    expect_number("1/2^2", 0.5, 3);
    expect_number("1/2.5", 1, 1);
    expect_number("1.5/2", 1.5, 3);
    expect_number("1 / 2", 1, 1);
    expect_number("1/ 2", 1, 1);
    expect_number("1/x", 1, 1);
    EXPECT_TRUE(read_number("1/2")->fraction);
    EXPECT_FALSE(read_number("1/2")->whole);
}

TEST(Number, ReadsMixedNumbers) {
    expect_number("1 1/2", 1.5, 5);
    expect_number("2\t3/4", 2.75, 5);
    expect_number("1½", 1.5, 3);
    expect_number("1 ½", 1.5, 4);
    expect_number("1\u00a0½", 1.5, 5);
    expect_number("1 3/2", 1, 1);
    expect_number("1 1/2.5", 1, 1);
    expect_number("1 2", 1, 1);
    expect_number("1.5½", 1.5, 3);
    EXPECT_TRUE(read_number("1 1/2")->fraction);
}

TEST(Number, ReadsEveryVulgarFraction) {
    expect_number("½", 0.5, 2);
    expect_number("¼", 0.25, 2);
    expect_number("¾", 0.75, 2);
    expect_number("⅐", 1.0 / 7, 3);
    expect_number("⅑", 1.0 / 9, 3);
    expect_number("⅒", 0.1, 3);
    expect_number("⅓", 1.0 / 3, 3);
    expect_number("⅔", 2.0 / 3, 3);
    expect_number("⅕", 0.2, 3);
    expect_number("⅖", 0.4, 3);
    expect_number("⅗", 0.6, 3);
    expect_number("⅘", 0.8, 3);
    expect_number("⅙", 1.0 / 6, 3);
    expect_number("⅚", 5.0 / 6, 3);
    expect_number("⅛", 0.125, 3);
    expect_number("⅜", 0.375, 3);
    expect_number("⅝", 0.625, 3);
    expect_number("⅞", 0.875, 3);
    expect_number("↉", 0, 3);
}

TEST(Number, RefusesTheDecimalCommaWithTheRightForm) {
    EXPECT_EQ(fault_of("1,5 kg").kind, Kind::decimal_comma);
    EXPECT_NE(fault_of("1,5 kg").advice.find("1.5"), std::string::npos);
    EXPECT_EQ(fault_of("1,5 kg").end, 3U);
    EXPECT_NE(fault_of("1,500 g").advice.find("1500"), std::string::npos);
    EXPECT_EQ(fault_of("1.500,5").kind, Kind::decimal_comma);
    expect_number("1, 5", 1, 1);
    expect_number("1,", 1, 1);
}

TEST(Number, RefusesHyphensBetweenDigits) {
    EXPECT_EQ(fault_of("2-3 tbsp").kind, Kind::hyphen_range);
    EXPECT_NE(fault_of("2-3 tbsp").advice.find("2..3"), std::string::npos);
    EXPECT_EQ(fault_of("2–3").kind, Kind::hyphen_range);
    EXPECT_EQ(fault_of("1.5-2").kind, Kind::hyphen_range);
    EXPECT_EQ(fault_of("1/2-1").kind, Kind::hyphen_range);
    EXPECT_EQ(fault_of("1-1/2 cup").kind, Kind::hyphen_mixed);
    EXPECT_NE(fault_of("1-1/2 cup").advice.find("1 1/2"), std::string::npos);
    EXPECT_EQ(fault_of("1-½").kind, Kind::hyphen_mixed);
    expect_number("2 - 3", 2, 1);
    expect_number("2-x", 2, 1);
}

TEST(Number, RefusesBarePoints) {
    EXPECT_EQ(fault_of(".5 kg").kind, Kind::bare_point);
    EXPECT_NE(fault_of(".5 kg").advice.find("0.5"), std::string::npos);
    EXPECT_EQ(fault_of("5. kg").kind, Kind::bare_point);
    EXPECT_NE(fault_of("5. kg").advice.find("5.0"), std::string::npos);
    EXPECT_EQ(fault_of("5.").kind, Kind::bare_point);
}

TEST(Number, RefusesZeroBelowTheStroke) {
    EXPECT_EQ(fault_of("1/0").kind, Kind::zero_denominator);
    EXPECT_EQ(fault_of("1 1/0").kind, Kind::zero_denominator);
    EXPECT_EQ(fault_of("0/0").kind, Kind::zero_denominator);
}

TEST(Number, RefusesAbsurdSizes) {
    expect_number("1000000000000000", 1e15, 16);
    EXPECT_EQ(fault_of("1000000000000001").kind, Kind::too_large);
    EXPECT_EQ(fault_of(std::string(5000, '9')).kind, Kind::too_large);
    EXPECT_EQ(fault_of(std::string(400, '9') + "/" + std::string(400, '9')).kind, Kind::too_large);
    EXPECT_EQ(fault_of("0." + std::string(400, '0') + "1").kind, Kind::too_large);
    expect_number("0." + std::string(400, '0'), 0, 402);
}

TEST(Number, RefusesWhatDoesNotBeginWithADigit) {
    for (auto s : {"", "x", "-5", "−5", "+5", "inf", "nan", " 5", "..5", "\xff", ".", "%"}) {
        EXPECT_EQ(fault_of(s).kind, Kind::not_a_number) << s;
    }
}

TEST(Number, ReadsNoExponentAndNoHexadecimal) {
    expect_number("1e3", 1, 1);
    expect_number("0x1F", 0, 1);
}

TEST(Number, DoesNotLookAtTheLocale) {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "de_DE"}) {
        if (std::setlocale(LC_ALL, name) != nullptr) {
            expect_number("1.5", 1.5, 3);
            EXPECT_EQ(print_number(1.5), "1.5");
            EXPECT_EQ(print_fixed(1234567.5, 2), "1234567.50");
        }
    }
    std::setlocale(LC_ALL, before.c_str());
}

} // namespace
} // namespace jarful::units
