#include "engine/units/amount.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace jarful::units {
namespace {

/// A figure as a document gives it, and how far it was rounded there.
struct Figure {
    std::string_view unit;
    double value;    ///< mL or g
    double rounding; ///< relative; 0 where the figure is exact
};

void expect_figure(const Figure& f, std::string_view source) {
    const auto id = find_unit(f.unit);
    ASSERT_TRUE(id) << f.unit;
    const double factor = unit(*id).factor;
    if (f.rounding == 0) {
        EXPECT_DOUBLE_EQ(factor, f.value) << f.unit << ", " << source;
    } else {
        EXPECT_NEAR(factor, f.value, f.value * f.rounding) << f.unit << ", " << source;
    }
}

TEST(PublishedMeasures, UsLiquidMeasuresFollowFromTheGallonOf231CubicInches) {
    // NIST SP 811 (2008), Appendix B.8; exact digits from 1 gallon = 231 cubic inches (NIST
    // Handbook 44, Appendix C) and 1 inch = 25.4 mm.
    for (const Figure& f : {
             Figure{"us tsp", 4.92892159375, 0},
             Figure{"us tbsp", 14.78676478125, 0},
             Figure{"us floz", 29.5735295625, 0},
             Figure{"us cup", 236.5882365, 0},
             Figure{"us pint", 473.176473, 0},
             Figure{"us quart", 946.352946, 0},
             Figure{"us gallon", 3785.411784, 0},
         }) {
        expect_figure(f, "NIST SP 811 (2008), Appendix B.8");
    }
    EXPECT_DOUBLE_EQ(unit(*find_unit("us gallon")).factor, 231 * 2.54 * 2.54 * 2.54);
}

TEST(PublishedMeasures, PrintedSevenDigitFactorsAgree) {
    // NIST SP 811 (2008), Appendix B.8, as printed: 2.957 353 E-05, 1.478 676 E-05 and
    // 4.928 922 E-06 cubic metres.
    for (const Figure& f : {
             Figure{"us floz", 29.57353, 5e-7},
             Figure{"us tbsp", 14.78676, 5e-7},
             Figure{"us tsp", 4.928922, 5e-7},
         }) {
        expect_figure(f, "NIST SP 811 (2008), Appendix B.8, rounded");
    }
}

TEST(PublishedMeasures, BareMeasuresReadAsUsOnes) {
    for (std::string_view measure : {"tsp", "tbsp", "cup", "floz", "pint", "quart", "gallon"}) {
        const auto bare = find_unit(measure);
        const auto us = find_unit("us " + std::string(measure));
        ASSERT_TRUE(bare && us) << measure;
        EXPECT_EQ(unit(*bare).factor, unit(*us).factor) << measure;
    }
}

TEST(PublishedMeasures, ImperialMeasuresFollowFromTheGallonOf454609Litres) {
    // NIST SP 811 (2008), Appendix B.8: 4.546 09 E-03 cubic metres, exact; 160 fluid ounces, 8
    // pints, 4 quarts to the gallon.
    for (const Figure& f : {
             Figure{"imperial floz", 28.4130625, 0},
             Figure{"imperial pint", 568.26125, 0},
             Figure{"imperial quart", 1136.5225, 0},
             Figure{"imperial gallon", 4546.09, 0},
         }) {
        expect_figure(f, "NIST SP 811 (2008), Appendix B.8");
    }
}

TEST(PublishedMeasures, KitchenMeasuresByConvention) {
    // Common practice, no published figure (the imperial spoons from memory: 5/8 imperial fluid
    // ounce, and a third of that).
    for (const Figure& f : {
             Figure{"metric tsp", 5, 0},
             Figure{"metric tbsp", 15, 0},
             Figure{"metric cup", 250, 0},
             Figure{"imperial tbsp", 17.7581640625, 0},
             Figure{"imperial tsp", 17.7581640625 / 3, 0},
         }) {
        expect_figure(f, "common practice");
    }
}

TEST(PublishedMeasures, PoundAndOunceAreAvoirdupois) {
    // NIST Handbook 44, Appendix C; NIST SP 811 (2008), Appendix B.8: 453.592 37 g exactly.
    expect_figure({"lb", 453.59237, 0}, "NIST Handbook 44, Appendix C");
    expect_figure({"oz", 28.349523125, 0}, "NIST Handbook 44, Appendix C");
}

TEST(PublishedMeasures, FahrenheitFollowsThePublishedFormula) {
    // NIST SP 811 (2008), Appendix B.8: t/°C = (t/°F - 32)/1.8.
    const auto c = find_unit("°C");
    const auto f = find_unit("°F");
    ASSERT_TRUE(c && f);
    for (double t = -40; t <= 220; t += 0.5) {
        EXPECT_NEAR(from_kelvin(*c, to_kelvin(*f, t)), (t - 32) / 1.8, 1e-9) << t;
    }
}

// ---- against GNU units --------------------------------------------------------------------

/// What the program `units` says `from` is in `to`; empty if it could not be asked.
std::optional<double> ask_units(const std::string& from, const std::string& to) {
    const std::string command =
        "LC_ALL=C UNITS_ENGLISH=US units -t -o '%.17g' '" + from + "' '" + to + "' 2>/dev/null";
    std::FILE* const pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) {
        return std::nullopt;
    }
    std::array<char, 256> buffer{};
    const bool read = std::fgets(buffer.data(), static_cast<int>(buffer.size()), pipe) != nullptr;
    const int status = pclose(pipe);
    char* end = buffer.data();
    const double value = std::strtod(buffer.data(), &end);
    if (!read || status != 0 || end == buffer.data()) {
        return std::nullopt;
    }
    return value;
}

std::string base_name(Dimension d) {
    return d == dim::mass     ? "g"
           : d == dim::volume ? "ml"
           : d == dim::length ? "cm"
           : d == dim::time   ? "s"
                              : "1";
}

class AgainstGnuUnits : public testing::Test {
  protected:
    void SetUp() override {
        if (!ask_units("1 inch", "cm")) {
            GTEST_SKIP() << "the program `units` (GNU units) is not installed or does not answer";
        }
    }
};

TEST_F(AgainstGnuUnits, EveryUnitOfTheTableAgrees) {
    // Our symbol and the same unit's name there. It takes the British tablespoon for 15 mL and
    // gives 5/8 fluid ounce as the other reading, which is ours.
    const std::map<std::string_view, std::string> names{
        {"mg", "mg"},
        {"g", "g"},
        {"kg", "kg"},
        {"oz", "oz"},
        {"lb", "lb"},
        {"mL", "ml"},
        {"cL", "cl"},
        {"dL", "dl"},
        {"L", "liter"},
        {"tsp", "usteaspoon"},
        {"tbsp", "ustablespoon"},
        {"cup", "uscup"},
        {"floz", "usfloz"},
        {"pint", "uspint"},
        {"quart", "usquart"},
        {"gallon", "usgallon"},
        {"us tsp", "usteaspoon"},
        {"us tbsp", "ustablespoon"},
        {"us cup", "uscup"},
        {"us floz", "usfloz"},
        {"us pint", "uspint"},
        {"us quart", "usquart"},
        {"us gallon", "usgallon"},
        {"metric tsp", "5 ml"},
        {"metric tbsp", "15 ml"},
        {"metric cup", "metriccup"},
        {"imperial tsp", "1|3 5|8 brfloz"},
        {"imperial tbsp", "5|8 brfloz"},
        {"imperial floz", "brfloz"},
        {"imperial pint", "brpint"},
        {"imperial quart", "brquart"},
        {"imperial gallon", "brgallon"},
        {"mm", "mm"},
        {"cm", "cm"},
        {"m", "m"},
        {"in", "inch"},
        {"min", "minute"},
        {"h", "hour"},
        {"day", "day"},
        {"week", "week"},
        {"%", "percent"},
    };
    int compared = 0;
    for (const Unit& u : unit_table()) {
        if (u.dimension == dim::temperature || u.dimension == dim::count) {
            continue; // temperatures are compared as points; a piece is nobody's unit
        }
        const auto name = names.find(u.symbol);
        ASSERT_NE(name, names.end()) << u.symbol << " is not compared";
        const auto theirs = ask_units(name->second, base_name(u.dimension));
        ASSERT_TRUE(theirs) << u.symbol;
        EXPECT_NEAR(u.factor, *theirs, *theirs * 1e-12) << u.symbol;
        ++compared;
    }
    EXPECT_EQ(compared, static_cast<int>(names.size()));
}

TEST_F(AgainstGnuUnits, TemperaturePointsAgree) {
    const auto c = find_unit("°C");
    const auto f = find_unit("°F");
    ASSERT_TRUE(c && f);
    for (int t : {-40, -18, 0, 4, 19, 21, 37, 66, 100, 212}) {
        const std::string text = "(" + std::to_string(t) + ")";
        const auto celsius = ask_units("tempC" + text, "K");
        const auto fahrenheit = ask_units("tempF" + text, "K");
        ASSERT_TRUE(celsius && fahrenheit) << t;
        EXPECT_NEAR(to_kelvin(*c, t), *celsius, *celsius * 1e-12) << t;
        EXPECT_NEAR(to_kelvin(*f, t), *fahrenheit, *fahrenheit * 1e-12) << t;
    }
}

TEST_F(AgainstGnuUnits, AmountsWithCompoundUnitsAgree) {
    struct Case {
        std::string_view ours;
        std::string theirs;
        std::string base;
    };
    for (const Case& k : {
             Case{"0.9 kg/L", "0.9 kg/l", "g/ml"},
             Case{"10 g/lb", "10 g/lb", "1"},
             Case{"5 cm^2", "5 cm^2", "cm^2"},
             Case{"3 in^2", "3 inch^2", "cm^2"},
             Case{"2 lb 3 oz", "2 lb + 3 oz", "g"},
             Case{"1 1/2 us tbsp", "1.5 ustablespoon", "ml"},
             Case{"6 oz/us cup", "6 oz/uscup", "g/ml"},
             Case{"1 week 2 days", "1 week + 2 day", "s"},
         }) {
        const auto amount = read_amount(k.ours);
        const auto theirs = ask_units(k.theirs, k.base);
        ASSERT_TRUE(amount && theirs) << k.ours;
        EXPECT_NEAR(amount->value, *theirs, *theirs * 1e-12) << k.ours;
    }
}

} // namespace
} // namespace jarful::units
