#include "engine/kitchen/fitting.hpp"
#include "engine/larder/larder.hpp"
#include "engine/units/amount.hpp"

#include <gtest/gtest.h>

/// Published rules about how much goes in a vessel, against the vessels that are chosen.
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

const larder::Material& cabbage() {
    static const larder::Larder larder;
    return *larder.find("cabbage")->material;
}

/// Shredded and tamped: the packing of the demo book's kraut, common practice, no source.
constexpr double packed = 0.90;
const Headspace tenth{.share = 0.1};

/// The index of the one vessel of these that a batch goes into.
std::size_t chosen(const std::vector<Vessel>& vessels, double volume_ml) {
    const Fit f = fit(vessels, tenth, volume_ml);
    EXPECT_EQ(f.filled.size(), 1u);
    EXPECT_EQ(f.unplaced_ml, 0);
    return f.filled.empty() ? vessels.size() : f.filled[0].vessel;
}

// USDA, Complete Guide to Home Canning, AIB 539, Guide 6, "Preparing and canning fermented foods
// and pickled vegetables": a 1-gallon container is needed for each 5 lb of fresh vegetables, and a
// 5-gallon stone crock is of ideal size for about 25 lb of cabbage. Of the sizes that there are
// those are the ones that are chosen, under a tenth of headspace.
TEST(PublishedJars, the_containers_of_the_usda_guide_are_chosen) {
    const std::vector<Vessel> jars{vessel("1 us quart"), vessel("1/2 us gallon"),
                                   vessel("1 us gallon"), vessel("2 us gallon")};
    EXPECT_EQ(chosen(jars, base("5 lb") / packed), 2u);
    const std::vector<Vessel> crocks{vessel("2 us gallon"), vessel("3 us gallon"),
                                     vessel("5 us gallon"), vessel("10 us gallon")};
    EXPECT_EQ(chosen(crocks, base("25 lb") / packed), 2u);
}

// The same guide, Sauerkraut: 25 lb of cabbage give about 9 quarts of finished kraut. Shreds lose
// juice and settle: fresh, they take a few quart jars more, and not half as many again.
TEST(PublishedJars, fresh_shreds_of_25_pounds_take_more_than_nine_quarts) {
    const double volume = base("25 lb") * (1 - cabbage().refuse->typical) / packed;
    const Fit fresh = fit({vessel("1 us quart", 20)}, {}, volume);
    EXPECT_EQ(fresh.unplaced_ml, 0);
    EXPECT_GT(fresh.filled.size(), 9u);
    EXPECT_LE(fresh.filled.size(), 13u);
}

} // namespace
} // namespace jarful::kitchen
