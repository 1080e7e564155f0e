#include "engine/kitchen/kitchen.hpp"
#include "engine/kitchen/reading.hpp"
#include "engine/language/parse.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

/// What a kitchen may not say, each with its code; and what it may.
namespace jarful::kitchen {
namespace {

struct Read {
    Kitchen kitchen;
    std::string codes;
    std::string first_place; ///< what is underlined
};

Read read(const std::string& lines) {
    language::Findings findings;
    auto source = language::read_source("kitchen.jarful",
                                        "kitchen \"Quay Street\"\n" + lines + "\n", findings);
    const language::Document document = language::parse(*std::move(source), findings);
    Read out{read_kitchen(document, findings), {}, {}};
    for (const language::Diagnostic& found : findings.all()) {
        out.codes += (out.codes.empty() ? "" : " ") + found.code;
        if (found.place && out.first_place.empty())
            out.first_place = std::string(document.source.at(*found.place));
    }
    return out;
}

TEST(KitchenFaults, areNamedWhereTheyStand) {
    struct Case {
        const char* lines;
        const char* code;
        const char* place;
    };
    for (const Case& c : {
             Case{"scale a reads 1 g up to 0.5 g", "absurd-amount", "0.5 g"},
             Case{"scale a reads 1 m up to 5 kg", "wrong-dimension", "1 m"},
             Case{"scale a reads 0 g up to 5 kg", "absurd-amount", "0 g"},
             Case{"scale a reads 1 g up to 5 kg\nscale a reads 2 g up to 5 kg", "duplicate-name",
                  "a"},
             Case{"scale a reads 1 g up to 5 kg\njar a holds 1 L brimful have 1", "duplicate-name",
                  "a"},
             Case{"jar a holds 1 L brimful across 10 cm weights 2 L have 1", "absurd-amount",
                  "2 L"},
             Case{"jar a holds 5 kg brimful have 1", "wrong-dimension", "5 kg"},
             Case{"spoons us\nspoons metric", "duplicate-line", "spoons"},
             Case{"units us\nunits us", "duplicate-line", "units"},
             Case{"scale a reads 1 g up to 5 kg bowl 5 kg", "absurd-amount", "5 kg"},
             Case{"scale a reads 1 g up to 5 kg bowl 4.5 kg use 90 %", "absurd-amount", "4.5 kg"},
             Case{"scale a reads 1 g up to 5 kg use 110 %", "absurd-amount", "110 %"},
             Case{"scale a reads 1 g up to 5 kg use 0 %", "absurd-amount", "0 %"},
             Case{"scale a reads 1 g up to 5 kg use 3 g", "wrong-dimension", "3 g"},
             Case{"scale a reads 1 g up to 5 kg bowl 3 L", "wrong-dimension", "3 L"},
             Case{"room 19 °C\nroom 21 °C", "duplicate-line", "room"},
             Case{"room 19 g", "wrong-dimension", "19 g"},
             Case{"room 190 °C", "absurd-amount", "190 °C"},
             Case{"let a = 1 / 0", "not-finite", "1 / 0"},
             Case{"let a = b\nlet b = a", "cycle", "a"},
             Case{"let a = 3 g + 1 L", "wrong-dimension", "3 g + 1 L"},
             Case{"material \"dust\" is salt salt 140 %", "absurd-amount", "140 %"},
             Case{"material \"dust\" is salt density 3 g", "wrong-dimension", "3 g"},
         }) {
        const Read r = read(c.lines);
        EXPECT_EQ(r.codes, c.code) << c.lines;
        EXPECT_EQ(r.first_place, c.place) << c.lines;
    }
}

TEST(Kitchen, saysInWhichUnitsItIsShown) {
    EXPECT_TRUE(read("").kitchen.shown == units::Shown::metric);
    EXPECT_TRUE(read("units metric").kitchen.shown == units::Shown::metric);
    const Kitchen us = read("units us\nscale a reads 1/2 oz up to 11 lb\n"
                            "scale b reads 0.1 oz up to 2 lb\nscale c reads 0.1 g up to 500 g")
                           .kitchen;
    EXPECT_TRUE(us.shown == units::Shown::us);
    EXPECT_NEAR(us.shown.finest_g, units::ounce_g / 10, 1e-12);
    EXPECT_EQ(read("units us").kitchen.shown.finest_g, 0);
    // What is asked for in so many words goes before what the kitchen says.
    EXPECT_TRUE(shown_units(us, std::nullopt) == units::Shown::us);
    EXPECT_TRUE(shown_units(us, units::Shown::metric) == units::Shown::metric);
    EXPECT_NEAR(shown_units(us, units::Shown::both).finest_g, units::ounce_g / 10, 1e-12);
}

TEST(Kitchen, leavesRoomForTheBowl) {
    const Kitchen k = read("scale bench reads 1 g up to 5 kg within 1 g bowl 350 g use 90 %\n"
                           "scale pocket reads 0.1 g up to 500 g within 0.1 g bowl 20 g\n"
                           "scale plain reads 2 g up to 6 kg within 2 g")
                          .kitchen;
    EXPECT_DOUBLE_EQ(most_at_once(k.scales[0]), 4150);
    EXPECT_DOUBLE_EQ(most_at_once(k.scales[1]), 480);
    EXPECT_DOUBLE_EQ(most_at_once(k.scales[2]), 6000); // nothing is said of a bowl
    EXPECT_EQ(read_on(k, 0, 4150).portions.size(), 1U);
    const Reading two = read_on(k, 0, 4151);
    EXPECT_THAT(two.portions, ::testing::ElementsAre(2076, 2075));
    EXPECT_DOUBLE_EQ(two.truth.high, 4151 + 2 * 1.5);
    // The fewest goes: the scale that takes it at once beside its bowl.
    EXPECT_EQ(k.scales[best_scale(k, 480)].name, "pocket");
    EXPECT_EQ(k.scales[best_scale(k, 490)].name, "bench");
    EXPECT_EQ(k.scales[best_scale(k, 4500)].name, "plain");
}

TEST(Kitchen, hasItsOwnConstantsAndMaterials) {
    const Read r = read("let packed = 0.9 kg/L\nlet twice = 2 * packed\n"
                        "material \"garden salt\" is salt density 1.1..1.3 kg/L\n"
                        "jar oval holds 2 L brimful section 80 cm^2 have 1\nroom 66 °F");
    EXPECT_EQ(r.codes, "");
    ASSERT_EQ(r.kitchen.constants.size(), 2U);
    EXPECT_NEAR(r.kitchen.constants[1].value, 1.8, 1e-12);
    ASSERT_EQ(r.kitchen.materials.size(), 1U);
    ASSERT_EQ(r.kitchen.vessels.size(), 1U);
    EXPECT_NEAR(r.kitchen.vessels[0].area_cm2.value_or(0), 80, 1e-9);
    EXPECT_NEAR(r.kitchen.room_kelvin.value_or(0), 292.0389, 1e-3); // (66 + 459.67) * 5 / 9
}

} // namespace
} // namespace jarful::kitchen
