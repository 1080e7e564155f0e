#include "engine/plan/packing.hpp"
#include "engine/render/json_jars.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/text_weigh.hpp"
#include "tests/unit/jars_support.hpp"

#include <gmock/gmock.h>

namespace jarful::plan {
namespace {

using namespace jars_test;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

TEST(WeighWithJars, shares_out_into_the_jars_asked_for) {
    const Outcome o = test::weigh(kraut, {"jar=tall,squat"}, kitchen_of(quay_street));
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->jars.size(), 2u);
    EXPECT_EQ(o.out->jars[0].name, "tall");
    EXPECT_EQ(o.out->jars[1].name, "squat");
    EXPECT_NEAR(o.out->jars[0].fill_ml, 2 * o.out->jars[1].fill_ml, 1e-9);
    ASSERT_TRUE(o.out->jar_choice);
    EXPECT_TRUE(o.out->jar_choice->by_name);
    EXPECT_THAT(render::weigh_json(*o.out), HasSubstr("\"jars\": ["));
    EXPECT_THAT(render::weigh_text(*o.out, {}), HasSubstr("INTO 2 JARS"));
}

// Where no jar is named, a weigh-out is of those that `jars` chooses.
TEST(WeighWithJars, takes_those_that_are_chosen_and_says_which) {
    const Outcome o = test::weigh(kraut, {}, kitchen_of(quay_street));
    const Outcome asked = jars(kraut);
    ASSERT_TRUE(o.out && asked.out) << o.said;
    EXPECT_EQ(render::jars_json(*o.out), render::jars_json(*asked.out));
    EXPECT_EQ(render::weigh_json(*o.out), render::weigh_json(*asked.out));
    EXPECT_FALSE(o.out->jar_choice->by_name);
    EXPECT_THAT(o.out->chosen_jars, IsEmpty());
    const std::string text = render::weigh_text(*o.out, {});
    EXPECT_THAT(text, HasSubstr("It goes into 3 × tall"));
    EXPECT_THAT(text, Not(HasSubstr("INTO 3 JARS"))) << "that is for `jarful jars` to say";
}

TEST(WeighWithJars, does_without_where_there_are_none) {
    for (const char* kitchen : {"", "kitchen \"k\"\njar odd holds 5 L brimful\n"}) {
        std::string recipe = kraut;
        recipe.replace(recipe.find("12 %"), 4, "3 cm"); // of a jar without a width nothing is known
        const Outcome o = test::weigh(
            recipe, {}, *kitchen == 0 ? kitchen::default_kitchen() : kitchen_of(kitchen));
        ASSERT_TRUE(o.out) << o.said;
        EXPECT_THAT(o.out->jars, IsEmpty());
        EXPECT_FALSE(o.out->jar_choice);
        EXPECT_THAT(render::weigh_json(*o.out), Not(HasSubstr("\"jars\"")));
        EXPECT_TRUE(all_well(*o.out));
    }
}

TEST(WeighWithJars, is_not_well_where_they_do_not_take_it_all) {
    const Outcome o = test::weigh(kraut, {"cabbage=8kg"}, kitchen_of(quay_street));
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_EQ(o.out->verdict, Verdict::inside);
    EXPECT_FALSE(all_well(*o.out));
    const std::string text = render::weigh_text(*o.out, {});
    EXPECT_THAT(text, HasSubstr("LEFT OVER"));
    EXPECT_THAT(text, HasSubstr("Next: find another jar, or make less"));
}

constexpr const char* sours = R"(recipe "Half-sours"
kind   cucumbers
given  cucumbers = 600 g
let    packed = 0.58 kg/L
weigh  water  = cover(cucumbers, packed)
weigh  salt   = 3.5 % of (cucumbers + water)   as canning salt
fill   cucumbers / packed
headspace 3 cm
)";

TEST(WeighWithJars, pours_water_up_to_the_headspace_whoever_chose_the_jar) {
    const kitchen::Kitchen kitchen = kitchen_of(quay_street);
    const Outcome chosen = test::weigh(sours, {}, kitchen);
    const Outcome named = test::weigh(sours, {"cucumbers=600g", "jar=tall"}, kitchen);
    const Outcome none = test::weigh(sours);
    ASSERT_TRUE(chosen.out && named.out && none.out) << chosen.said << named.said << none.said;
    EXPECT_DOUBLE_EQ(whole(*chosen.out, "water")->exact_g, whole(*named.out, "water")->exact_g);
    EXPECT_DOUBLE_EQ(whole(*chosen.out, "salt")->reading_g, whole(*named.out, "salt")->reading_g);
    EXPECT_GT(whole(*chosen.out, "water")->exact_g, whole(*none.out, "water")->exact_g + 100);
    EXPECT_THAT(none.out->assumptions, Contains(HasSubstr("gaps of the produce alone")));
    EXPECT_THAT(chosen.out->assumptions, Not(Contains(HasSubstr("gaps of the produce alone"))));
    EXPECT_THAT(render::weigh_text(*chosen.out, {}),
                HasSubstr("The water is what fills it up to the"));
}

// The jars of one question do not stand in the way of the next.
TEST(WeighWithJars, forgets_chosen_jars_with_the_question) {
    language::Findings findings;
    const language::Document doc =
        language::parse(*language::read_source("test.jarful", sours, findings), findings);
    const kitchen::Kitchen k = kitchen_of(quay_street);
    Weighing weighing(doc, k, findings);
    const auto water = [&](Request::Vessels vessels) {
        Request request;
        request.vessels = vessels;
        RequestFindings found;
        return whole(*weighing.by(request, findings, found), "water")->exact_g;
    };
    const double alone = water(Request::Vessels::unknown);
    EXPECT_GT(water(Request::Vessels::chosen), alone + 100);
    EXPECT_DOUBLE_EQ(water(Request::Vessels::unknown), alone);
}

// ---- What goes into each jar ----

constexpr const char* onions = R"(recipe "Each" version 1
kind   kraut
given  cabbage = 5 kg
count  onions  = 2 each jar as onion
weigh  salt    = 2.2 % of cabbage as canning salt
fill   cabbage / (0.9 kg/L)
)";

TEST(EachJar, counts_once_for_every_jar_in_the_batch) {
    const Outcome o =
        test::weigh(onions, {"jar=squat,squat,squat,squat,tall,tall"}, kitchen_of(quay_street));
    ASSERT_TRUE(o.out) << o.said;
    const WeighOut& out = *o.out;
    double cabbage = whole(out, "cabbage")->reading_g;
    const double salt = whole(out, "salt")->reading_g;
    ASSERT_EQ(out.counts.size(), 1u);
    EXPECT_EQ(out.counts[0].count, 2) << "of each jar";
    // Twelve onions, by the larder's weight of one.
    const double onion = larder::Larder().find("onion")->material->piece->typical;
    EXPECT_NEAR(out.salt->figure.percent, 100 * salt / (cabbage + 12 * onion), 1e-9);
    EXPECT_NEAR(out.in_jar_g, cabbage + whole(out, "salt")->exact_g + 12 * onion, 1e-6);
    EXPECT_EQ(out.salt->verdict, Verdict::below);
    EXPECT_EQ(out.verdict, Verdict::below);
    // What the jars come to, each by itself, is what the batch comes to.
    double all_salt = 0, all_produce = 0;
    for (const JarShare& jar : out.jars) {
        EXPECT_EQ(*item(jar, "onions")->pieces, 2);
        all_salt += item(jar, "salt")->reading_g;
        all_produce += item(jar, "cabbage")->reading_g + 2 * onion;
    }
    EXPECT_NEAR(out.salt->figure.percent, 100 * all_salt / all_produce, 1e-9);
    EXPECT_THAT(out.assumptions, Not(Contains(HasSubstr("How many jars"))));
    EXPECT_THAT(render::weigh_text(out, {}), HasSubstr("in each jar, 12 in all"));
    EXPECT_THAT(render::weigh_text(out, {}), HasSubstr("Next: do not pack this"));
}

TEST(EachJar, stands_for_one_jar_where_there_is_none_and_says_so) {
    const Outcome o = test::weigh(onions);
    ASSERT_TRUE(o.out) << o.said;
    const double onion = larder::Larder().find("onion")->material->piece->typical;
    EXPECT_NEAR(o.out->salt->figure.percent, 100 * 110.0 / (5000 + 2 * onion), 1e-9);
    EXPECT_THAT(o.out->assumptions, Contains(HasSubstr("How many jars")));
    const Outcome checked = test::check(onions);
    ASSERT_TRUE(checked.check) << checked.said;
    EXPECT_THAT(checked.check->one_jar, HasSubstr("onions"));
    // A leaf of spice is not worth a word.
    EXPECT_THAT(test::check("recipe \"Bay\"\ngiven cabbage = 1 kg\ncount bay = 1 each jar as bay "
                            "leaf\nweigh salt = 2.2 % of cabbage as canning salt\n")
                    .check->one_jar,
                IsEmpty());
}

TEST(EachJar, is_counted_in_the_jars_that_are_chosen) {
    const Outcome o = jars(onions);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_GE(o.out->jars.size(), 5u);
    const double onion = larder::Larder().find("onion")->material->piece->typical;
    const double n = static_cast<double>(o.out->jars.size());
    EXPECT_NEAR(o.out->salt->figure.percent, 100 * 110.0 / (5000 + 2 * n * onion), 1e-9);
}

// Onions that take room themselves: eleven litres of cabbage alone would do with fewer vessels.
TEST(EachJar, takes_room_in_every_jar) {
    const std::string text = R"(recipe "Each"
given  cabbage = 2.3 kg
count  onions  = 3 each jar as onion
fill   all_produce / (0.9 kg/L)
headspace 10 %
)";
    const Outcome o = jars(text, "kitchen \"k\"\njar tall holds 1.5 L brimful have 9\n");
    ASSERT_TRUE(o.out) << o.said;
    const double onion = larder::Larder().find("onion")->material->piece->typical;
    const double n = static_cast<double>(o.out->jars.size());
    // 2556 mL of cabbage alone are two jars of 1350.
    EXPECT_EQ(n, 3);
    EXPECT_NEAR(o.out->jar_choice->volume_ml, (2300 + 3 * n * onion) / 0.9, 1e-6);
    EXPECT_DOUBLE_EQ(o.out->jar_choice->unplaced_ml, 0);
}

TEST(EachJar, is_forgotten_with_the_jars) {
    language::Findings findings;
    auto source = language::read_source("test.jarful", onions, findings);
    const language::Document doc = language::parse(std::move(*source), findings);
    const kitchen::Kitchen k = kitchen_of(quay_street);
    Weighing weighing(doc, k, findings);
    const auto percent = [&](const std::vector<std::string>& settings, bool choose) {
        Request request;
        request.vessels = choose ? Request::Vessels::chosen : Request::Vessels::unknown;
        for (const std::string& s : settings)
            request.settings.push_back(*read_setting(s, findings));
        RequestFindings found;
        return weighing.by(request, findings, found)->salt->figure.percent;
    };
    const double alone = percent({}, false);
    EXPECT_LT(percent({"jar=tall,tall"}, false), alone);
    EXPECT_LT(percent({}, true), alone);
    EXPECT_DOUBLE_EQ(percent({}, false), alone);
}

// ---- Jars that the cook names ----

TEST(NamedJars, leave_as_much_free_as_they_are_filled_to) {
    const std::string text = "recipe \"Plain\"\nkind kraut\ngiven cabbage = 1 kg\n"
                             "weigh salt = 2.2 % of cabbage as canning salt\n"
                             "fill cabbage / 0.9 kg/L\n"; // no headspace: a tenth
    const Outcome o = test::weigh(text, {"jar=tall,tall"}, kitchen_of(quay_street));
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(o.out->usable_ml, 2700);
    EXPECT_NEAR(whole(*o.out, "cabbage")->reading_g, 2430, 1);
    ASSERT_EQ(o.out->jars.size(), 2u);
    double cabbage = 0, room = 0;
    for (const JarShare& jar : o.out->jars) {
        cabbage += item(jar, "cabbage")->reading_g;
        room += jar.usable_ml;
    }
    EXPECT_DOUBLE_EQ(room, o.out->usable_ml);
    EXPECT_DOUBLE_EQ(cabbage, whole(*o.out, "cabbage")->reading_g) << "nothing is dropped";
    EXPECT_DOUBLE_EQ(o.out->jar_choice->unplaced_ml, 0);
    EXPECT_THAT(o.out->assumptions, Contains(HasSubstr("a tenth of each jar")));
}

TEST(NamedJars, report_what_has_no_place) {
    const std::string text = "recipe \"Plain\"\nkind kraut\ngiven cabbage = 1 kg\n"
                             "weigh salt = 2.2 % of cabbage as canning salt\n"
                             "fill cabbage / 0.9 kg/L\nheadspace 10 %\n";
    const Outcome o = test::weigh(text, {"cabbage=3kg", "jar=tall,tall"}, kitchen_of(quay_street));
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(o.out->jar_choice->unplaced_ml, 3000 / 0.9 - 2700, 1e-6);
    EXPECT_DOUBLE_EQ(sum(*o.out, "cabbage"), 3000);
    const std::string said = render::weigh_text(*o.out, {});
    EXPECT_THAT(said, HasSubstr("LEFT OVER: 633 mL"));
    EXPECT_THAT(said, HasSubstr("Next: find another jar, or make less"));
    EXPECT_THAT(render::weigh_json(*o.out), HasSubstr("\"unplaced\""));
}

} // namespace
} // namespace jarful::plan
