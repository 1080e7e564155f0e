#include "engine/kitchen/fitting.hpp"

#include <gmock/gmock.h>

#include <limits>
#include <numbers>

namespace jarful::kitchen {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

Vessel vessel(std::string name, double brimful, int have = 1,
              std::optional<double> across = std::nullopt, double weights = 0) {
    Vessel v;
    v.name = std::move(name);
    v.brimful_ml = brimful;
    v.have = have;
    v.weights_ml = weights;
    if (across) v.area_cm2 = std::numbers::pi * *across * *across / 4;
    return v;
}

std::vector<double> brimfuls(const std::vector<Vessel>& vessels, const Fit& f) {
    std::vector<double> out;
    for (const Filled& each : f.filled)
        out.push_back(vessels[each.vessel].brimful_ml);
    return out;
}

TEST(Usable, a_share_is_of_the_brimful_volume) {
    EXPECT_DOUBLE_EQ(*usable_ml(vessel("tall", 1500), {.share = 0.12}), 1320);
    EXPECT_DOUBLE_EQ(*usable_ml(vessel("grey", 8000, 1, 22, 400), {.share = 0.12}), 6640);
}

TEST(Usable, a_height_counts_over_the_inner_area) {
    // By hand: 3 cm over a circle 10 cm across are 3 * 25 pi = 235.6 mL.
    EXPECT_NEAR(*usable_ml(vessel("tall", 1500, 1, 10.0), {.height_cm = 3}), 1500 - 235.619, 1e-3);
}

TEST(Usable, a_height_needs_a_width) {
    std::string why;
    EXPECT_FALSE(usable_ml(vessel("tall", 1500), {.height_cm = 3}, &why));
    EXPECT_THAT(why, HasSubstr("across"));
}

TEST(Usable, nothing_may_be_left) {
    std::string why;
    EXPECT_FALSE(usable_ml(vessel("low", 500, 1, 16.0), {.height_cm = 3}, &why));
    EXPECT_EQ(why, "has no room left under its headspace");
    EXPECT_FALSE(usable_ml(vessel("low", 500, 1, 16.0, 450), {.share = 0.1}, &why));
    EXPECT_EQ(why, "has no room left under its headspace and its weights");
}

TEST(Usable, the_reason_need_not_be_asked_for) {
    EXPECT_FALSE(usable_ml(vessel("low", 500, 1, 16.0), {.height_cm = 3}));
    EXPECT_FALSE(usable_ml(vessel("low", 500), {.height_cm = 3}));
    EXPECT_DOUBLE_EQ(*usable_ml(vessel("low", 500), {.share = 0.1}), 450);
}

TEST(FillingEvenly, a_drop_is_filled_too) {
    const std::vector<Vessel> v{vessel("tall", 1000)};
    EXPECT_DOUBLE_EQ(fill_evenly(v, {0}, {}, 0.5).filled.at(0).fill_ml, 0.5);
    EXPECT_DOUBLE_EQ(fit(v, {}, 0.5).filled.at(0).fill_ml, 0.5);
    EXPECT_TRUE(fill_evenly(v, {0}, {}, 0).filled.empty());
    EXPECT_TRUE(fill_evenly(v, {0}, {}, -1).filled.empty());
    EXPECT_TRUE(fill_evenly(v, {0}, {}, std::numeric_limits<double>::infinity()).filled.empty());
    EXPECT_TRUE(fit(v, {}, std::numeric_limits<double>::infinity()).filled.empty());
}

TEST(Fitting, one_vessel_that_holds_it_is_better_than_two_that_fit_closely) {
    const std::vector<Vessel> v{vessel("a", 1000, 3), vessel("b", 5000)};
    const Fit f = fit(v, {}, 2000);
    EXPECT_THAT(brimfuls(v, f), ElementsAre(5000));
    EXPECT_DOUBLE_EQ(f.empty_ml, 3000);
    EXPECT_TRUE(f.filled[0].airy());
}

TEST(Fitting, of_as_many_vessels_the_least_empty) {
    const std::vector<Vessel> v{vessel("a", 1500, 3), vessel("b", 750, 4), vessel("c", 1000, 2)};
    const Fit f = fit(v, {}, 2400);
    EXPECT_THAT(brimfuls(v, f), ElementsAre(1500, 1000));
    EXPECT_DOUBLE_EQ(f.empty_ml, 100);
    EXPECT_DOUBLE_EQ(f.unplaced_ml, 0);
    EXPECT_TRUE(f.exact);
}

TEST(Fitting, all_get_the_same_part_of_what_they_take) {
    const std::vector<Vessel> v{vessel("a", 1500), vessel("b", 750, 1, std::nullopt, 50)};
    const Fit f = fit(v, {.share = 0.1}, 1800);
    ASSERT_EQ(f.filled.size(), 2u);
    const double part = 1800 / (1350 + 625.0);
    EXPECT_NEAR(f.filled[0].fill_ml, part * 1350, 1e-9);
    EXPECT_NEAR(f.filled[1].fill_ml, part * 625, 1e-9);
}

TEST(Fitting, alike_is_better_than_mixed_where_it_makes_no_difference) {
    const std::vector<Vessel> v{vessel("a", 1000), vessel("b", 1500, 2), vessel("c", 2000)};
    const Fit f = fit(v, {}, 2950);
    EXPECT_THAT(brimfuls(v, f), ElementsAre(1500, 1500));
}

TEST(Fitting, respects_how_many_there_are) {
    const std::vector<Vessel> v{vessel("a", 1000, 2), vessel("b", 500, 2)};
    EXPECT_THAT(brimfuls(v, fit(v, {}, 2400)), ElementsAre(1000, 1000, 500));
    const std::vector<Vessel> none{vessel("a", 1000, 0), vessel("b", 500, 2)};
    EXPECT_THAT(brimfuls(none, fit(none, {}, 400)), ElementsAre(500));
}

TEST(Fitting, what_fills_it_exactly_fits) {
    const std::vector<Vessel> v{vessel("a", 0.1, 3), vessel("b", 100, 7)};
    EXPECT_EQ(fit(v, {}, 700).filled.size(), 7u);
    const std::vector<Vessel> tenths{vessel("a", 0.1, 3)};
    EXPECT_EQ(fit(tenths, {}, 0.3).unplaced_ml, 0) << "0.1 * 3 is not 0.3 in binary";
}

TEST(Fitting, too_much_is_placed_as_far_as_it_goes) {
    const std::vector<Vessel> v{vessel("a", 1000, 2), vessel("b", 500)};
    const Fit f = fit(v, {.share = 0.2}, 3000);
    EXPECT_THAT(brimfuls(v, f), ElementsAre(1000, 1000, 500));
    EXPECT_DOUBLE_EQ(f.unplaced_ml, 1000);
    EXPECT_DOUBLE_EQ(*f.rest_brimful_ml, 1250);
    EXPECT_THAT(f.why, HasSubstr("3 L"));
    for (const Filled& each : f.filled)
        EXPECT_DOUBLE_EQ(each.fill_ml, each.usable_ml);
}

TEST(Fitting, the_jar_for_the_rest_is_as_wide_as_the_widest) {
    const std::vector<Vessel> v{vessel("a", 1000, 1, 8.0), vessel("b", 1000, 1, 10.0),
                                vessel("c", 1000)};
    const Fit f = fit(v, {.height_cm = 2}, 3000);
    ASSERT_TRUE(f.rest_brimful_ml);
    EXPECT_EQ(f.rest_as_wide_as, 1u);
    EXPECT_NEAR(*f.rest_brimful_ml, f.unplaced_ml + 2 * 25 * std::numbers::pi, 1e-9);
    ASSERT_EQ(f.passed_over.size(), 1u);
    EXPECT_EQ(f.passed_over[0].vessel, 2u);
    const std::vector<Vessel> bare{vessel("c", 1000)};
    const Fit none = fit(bare, {.height_cm = 2}, 3000);
    EXPECT_FALSE(none.rest_brimful_ml);
    EXPECT_THAT(none.filled, IsEmpty());
    EXPECT_DOUBLE_EQ(none.unplaced_ml, 3000);
    EXPECT_EQ(none.why, "No vessel can be used.");
}

TEST(Fitting, nothing_takes_no_vessel) {
    const std::vector<Vessel> v{vessel("a", 1000)};
    EXPECT_THAT(fit(v, {}, 0).filled, IsEmpty());
    EXPECT_THAT(fit(v, {}, -5).filled, IsEmpty());
    EXPECT_THAT(fit({}, {}, 100).filled, IsEmpty());
    EXPECT_DOUBLE_EQ(fit({}, {}, 100).unplaced_ml, 100);
}

TEST(Fitting, levels_and_air_count_the_weights) {
    const std::vector<Vessel> v{vessel("grey", 8000, 1, 22.0, 400)};
    const Fit f = fit(v, {.share = 0.12}, 4960);
    ASSERT_EQ(f.filled.size(), 1u);
    const double area = std::numbers::pi * 121;
    EXPECT_NEAR(*f.filled[0].level_cm, 5360 / area, 1e-9);
    EXPECT_NEAR(*f.filled[0].headspace_cm, 2640 / area, 1e-9);
    EXPECT_NEAR(f.filled[0].full, 0.67, 1e-12);
    EXPECT_FALSE(f.filled[0].airy());
    EXPECT_TRUE(fit(v, {.share = 0.12}, 4900).filled[0].airy());
}

TEST(Fitting, a_cupboard_of_more_jars_than_anybody_owns_still_gets_an_answer) {
    std::vector<Vessel> v;
    for (int i = 0; i < 200; ++i)
        v.push_back(vessel("v", 1000 + i * 0.37, 100));
    double room = 0;
    const Fit f = fit(v, {}, 10'000'000);
    for (const Filled& each : f.filled)
        room += each.usable_ml;
    EXPECT_GE(room, 10'000'000 * (1 - 1e-9));
    EXPECT_FALSE(f.exact);
    EXPECT_LE(f.empty_ml, 1100);
}

TEST(FillingEvenly, takes_the_vessels_as_they_are_named) {
    const std::vector<Vessel> v{vessel("tall", 1500, 1, 10.0), vessel("squat", 750)};
    const Fit f = fill_evenly(v, {0, 0, 1}, {.share = 0.12}, 2000);
    EXPECT_THAT(brimfuls(v, f), ElementsAre(1500, 1500, 750));
    EXPECT_NEAR(f.filled[0].fill_ml, 2000 * 0.4, 1e-9);
    EXPECT_TRUE(f.filled[0].airy());
    const Fit high = fill_evenly(v, {0, 1}, {.height_cm = 3}, 2000);
    EXPECT_THAT(brimfuls(v, high), ElementsAre(1500));
    EXPECT_EQ(high.passed_over.size(), 1u);
    EXPECT_THAT(high.why, HasSubstr("these vessels"));
}

// Common practice, no source: a half-gallon jar holds about 3 lb of cabbage.
TEST(CommonPractice, a_half_gallon_holds_about_three_pounds_no_source) {
    Vessel jar;
    jar.name = "half gallon";
    jar.brimful_ml = 3785.411784 / 2;
    const double three_pounds = 3 * 453.59237;
    const auto usable = usable_ml(jar, {.share = 0.12});
    ASSERT_TRUE(usable);
    EXPECT_NEAR(*usable * 0.82, three_pounds, 0.1 * three_pounds);
    EXPECT_EQ(fit({jar}, {.share = 0.12}, three_pounds / 0.90).filled.size(), 1u);
}

} // namespace
} // namespace jarful::kitchen
