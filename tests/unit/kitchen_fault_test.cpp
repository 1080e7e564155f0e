#include "engine/kitchen/kitchen.hpp"
#include "engine/language/parse.hpp"

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
