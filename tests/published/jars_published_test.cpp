#include "engine/kitchen/fitting.hpp"
#include "engine/units/amount.hpp"

#include <gtest/gtest.h>

/// Rules about how much goes in a vessel, against the same rules as packed densities.
namespace jarful::kitchen {
namespace {

double base(const char* amount) {
    const auto read = units::read_amount(amount);
    EXPECT_TRUE(read) << amount;
    return read ? read->value : 0;
}

Vessel vessel(const char* brimful, int have = 1) {
    Vessel v;
    v.name = "v";
    v.brimful_ml = base(brimful);
    v.have = have;
    return v;
}

// USDA, Complete Guide to Home Canning, AIB 539, Guide 6, "Preparing and canning fermented foods
// and pickled vegetables": a 1-gallon container is needed for each 5 lb of fresh vegetables. The
// rule is about the whole container: free height, weights and brine are in it.
TEST(PublishedJars, a_gallon_of_container_for_five_pounds) {
    const double density = base("5 lb") / base("1 us gallon"); // g/mL
    EXPECT_NEAR(density, 0.599, 0.005);
    EXPECT_EQ(fit({vessel("1 us gallon")}, {}, base("5 lb") / density).filled.size(), 1u);
    EXPECT_GT(fit({vessel("1 us gallon")}, {}, base("5.05 lb") / density).unplaced_ml, 0);
    // The same guide: a 5-gallon stone crock is of ideal size for about 25 lb of cabbage.
    const Fit crock =
        fit({vessel("5 us gallon"), vessel("1 us gallon", 9)}, {}, base("25 lb") / density);
    ASSERT_EQ(crock.filled.size(), 1u);
    EXPECT_EQ(crock.filled[0].vessel, 0u);
    EXPECT_NEAR(crock.empty_ml, 0, 1e-6);
}

// The same guide, Sauerkraut: 25 lb of cabbage give about 9 quarts. As bought that is 1.331 kg/L;
// with a fifth lost in trimming (USDA SR 28, refuse of 11109) 1.065 kg/L of finished kraut, which
// is more tightly packed than the 0.90 kg/L at which shreds go in: they lose juice and settle.
TEST(PublishedJars, 25_pounds_of_cabbage_give_about_nine_quarts) {
    const double nine = base("9 us quart");
    EXPECT_NEAR(base("25 lb") / nine, 1.331, 0.13);
    EXPECT_NEAR(0.8 * base("25 lb") / nine, 1.065, 0.11);
    // At the packing of fresh shreds the same cabbage stands higher, in 11 quarts or 12.
    const Fit fresh = fit({vessel("1 us quart", 14)}, {}, 0.8 * base("25 lb") / 0.90);
    EXPECT_GE(fresh.filled.size(), 10u);
    EXPECT_LE(fresh.filled.size(), 12u);
}

// Common practice, no source: a half-gallon jar holds about 3 lb of cabbage. That is 0.72 kg/L of
// the whole jar, or 0.82 kg/L under an eighth of headspace.
TEST(CommonPracticeJars, a_half_gallon_holds_about_three_pounds_no_source) {
    const Vessel jar = vessel("1/2 us gallon");
    EXPECT_NEAR(base("3 lb") / jar.brimful_ml, 0.719, 0.07);
    const auto usable = usable_ml(jar, {.share = 0.12});
    ASSERT_TRUE(usable);
    EXPECT_NEAR(*usable * 0.82, base("3 lb"), 0.1 * base("3 lb"));
    EXPECT_EQ(fit({jar}, {.share = 0.12}, base("3 lb") / 0.90).filled.size(), 1u);
}

} // namespace
} // namespace jarful::kitchen
