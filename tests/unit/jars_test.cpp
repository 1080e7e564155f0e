#include "engine/render/json_jars.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/text_jars.hpp"
#include "engine/render/text_weigh.hpp"
#include "tests/unit/jars_support.hpp"

#include <gmock/gmock.h>

#include <sstream>

namespace jarful::plan {
namespace {

using namespace jars_test;
using ::testing::Contains;
using ::testing::Each;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

TEST(Jars, are_chosen_and_filled_alike) {
    const Outcome o = jars(kraut);
    ASSERT_TRUE(o.out) << o.said;
    // 3.1 kg at 0.9 kg/L fill 3444 mL; two tall take 2640, so it takes three vessels: tall, tall
    // and tall leave 516 empty, tall, tall and squat too little room (3300).
    ASSERT_EQ(o.out->jars.size(), 3u);
    for (const JarShare& jar : o.out->jars) {
        EXPECT_EQ(jar.name, "tall");
        EXPECT_DOUBLE_EQ(jar.usable_ml, 1320);
        EXPECT_NEAR(jar.fill_ml, 3100 / 0.9 / 3, 1e-9);
        EXPECT_FALSE(jar.airy);
    }
    EXPECT_DOUBLE_EQ(o.out->jar_choice->unplaced_ml, 0);
    EXPECT_THAT(o.out->jar_choice->left_over, IsEmpty());
    EXPECT_EQ(o.out->verdict, Verdict::inside);
}

TEST(Jars, portions_add_up_to_the_reading) {
    const Outcome o = jars(kraut, quay_street, {"cabbage=3.101kg"});
    ASSERT_TRUE(o.out) << o.said;
    for (const char* name : {"cabbage", "salt", "caraway"})
        EXPECT_NEAR(sum(*o.out, name), whole(*o.out, name)->reading_g, 1e-9) << name;
    // 3101 g in three: the rest of two steps goes to the first two.
    EXPECT_DOUBLE_EQ(item(o.out->jars[0], "cabbage")->reading_g, 1034);
    EXPECT_DOUBLE_EQ(item(o.out->jars[1], "cabbage")->reading_g, 1034);
    EXPECT_DOUBLE_EQ(item(o.out->jars[2], "cabbage")->reading_g, 1033);
}

TEST(Jars, pieces_stay_whole_and_all_there) {
    const Outcome o = jars(kraut);
    ASSERT_TRUE(o.out) << o.said;
    std::vector<int> bay, clove;
    for (const JarShare& jar : o.out->jars) {
        bay.push_back(*item(jar, "bay")->pieces);
        clove.push_back(*item(jar, "clove")->pieces);
    }
    EXPECT_THAT(bay, ElementsAre(2, 2, 1));
    EXPECT_THAT(clove, Each(2)) << "each jar gets its own";
}

TEST(Jars, each_has_its_own_salt_with_its_own_error) {
    const Outcome o = jars(sticks);
    ASSERT_TRUE(o.out) << o.said;
    const JarShare& jar = o.out->jars.front();
    ASSERT_TRUE(jar.salt);
    EXPECT_EQ(jar.salt->verdict, Verdict::inside);
    const double rest = item(jar, "carrots")->reading_g + item(jar, "water")->reading_g;
    const JarItem& salt = *item(jar, "salt");
    EXPECT_EQ(salt.scale, "pocket");
    // By hand: 0.15 g of error on the pocket scale, twice 1.5 g on the bench; a jar's water is
    // weighed on the pocket scale.
    EXPECT_NEAR(salt.truth.high - salt.reading_g, 0.15, 1e-9);
    EXPECT_NEAR(jar.salt->figure.bounds.low, 100 * (salt.reading_g - 0.15) / (rest + 1.65), 1e-6);
    EXPECT_NEAR(jar.salt->figure.bounds.high, 100 * (salt.reading_g + 0.15) / (rest - 1.65), 1e-6);
    EXPECT_GT(jar.salt->figure.bounds.width(), o.out->salt->figure.bounds.width())
        << "less salt, the same error";
}

TEST(Jars, a_jar_may_be_undecided_where_the_batch_is_inside) {
    const Outcome o = jars(R"(recipe "Close to the edge"
kind   roots
given  carrots = 3.10 kg                        as carrot
weigh  water   = 800 g
weigh  salt    = 2.04 % of (carrots + water)    as fine sea salt
fill   carrots / (0.90 kg/L)
headspace 12 %
)",
                           "kitchen \"Coarse\"\nscale bench reads 1 g up to 5 kg within 1 g\n"
                           "jar small holds 0.4 L brimful have 12\n");
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_EQ(o.out->salt->verdict, Verdict::inside);
    EXPECT_EQ(o.out->jars.front().salt->verdict, Verdict::undecided);
    EXPECT_EQ(o.out->verdict, Verdict::undecided);
    EXPECT_THAT(render::jars_text(*o.out, {}), HasSubstr("Next: do not pack like this."));
}

// ---- Filled from one bowl ----

/// What a jar gets of the mixture, and what is left over of it.
double mixture_sum(const WeighOut& out) {
    double g = 0;
    for (const JarShare& jar : out.jars)
        g += jar.mixture->reading_g;
    if (out.jar_choice && out.jar_choice->left_mixture)
        g += out.jar_choice->left_mixture->reading_g;
    return g;
}

TEST(OneBowl, is_judged_once_for_all_jars) {
    // Close to the edge: a jar's own few grams of salt would not be sure to be inside.
    const std::string edge = R"(recipe "Close to the edge"
kind   kraut
given  cabbage = 3.10 kg
weigh  salt    = 2.04 % of cabbage   as fine sea salt
count  bay     = 5                   as bay leaf
fill   cabbage / (0.90 kg/L)
headspace 12 %
)";
    const std::string kitchen = "kitchen \"Coarse\"\nscale bench reads 1 g up to 5 kg within 1 g\n"
                                "jar small holds 0.4 L brimful have 12\n";
    const Outcome o = jars(edge, kitchen);
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->jars.size(), 10u);
    EXPECT_EQ(o.out->salt->verdict, Verdict::inside);
    EXPECT_EQ(o.out->verdict, Verdict::inside);
    int pieces = 0;
    for (const JarShare& jar : o.out->jars) {
        EXPECT_FALSE(jar.salt);
        ASSERT_TRUE(jar.mixture);
        EXPECT_NEAR(jar.mixture->truth.high - jar.mixture->reading_g, 1.5, 1e-9);
        pieces += *item(jar, "bay")->pieces;
    }
    EXPECT_EQ(pieces, 5);
    EXPECT_NEAR(mixture_sum(*o.out),
                whole(*o.out, "cabbage")->reading_g + whole(*o.out, "salt")->reading_g, 1e-9);
    const std::string text = render::jars_text(*o.out, {});
    EXPECT_THAT(text, HasSubstr("INTO 10 JARS, so much of the mixture into each"));
    EXPECT_THAT(text, HasSubstr("so the salt is judged there, once"));
    EXPECT_THAT(text, HasSubstr("Next: weigh, salt and mix it all in one bowl"));
    EXPECT_THAT(text, Not(HasSubstr("UNDECIDED")));
    // The weigh-out with named jars says the same.
    const Outcome named = test::weigh(kraut, {"jar=tall,squat"}, kitchen_of(quay_street));
    ASSERT_TRUE(named.out && named.out->jars.size() == 2) << named.said;
    EXPECT_TRUE(named.out->jars[0].mixture);
    EXPECT_NEAR(named.out->jars[0].mixture->exact_g, 2 * named.out->jars[1].mixture->exact_g, 1e-6);
    EXPECT_EQ(named.out->verdict, named.out->salt->verdict);
    EXPECT_THAT(render::weigh_text(*named.out, {}), HasSubstr("All is salted and mixed through"));
}

TEST(OneBowl, is_shared_out_with_what_is_left_over) {
    const Outcome o = jars(kraut, quay_street, {"cabbage=8kg"});
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_TRUE(o.out->jar_choice->left_mixture);
    double all = 0;
    for (const char* name : {"cabbage", "salt", "caraway"})
        all += whole(*o.out, name)->reading_g;
    EXPECT_NEAR(mixture_sum(*o.out), std::round(all), 1e-9) << "in whole steps of the bench scale";
    EXPECT_THAT(render::jars_text(*o.out, {}), HasSubstr("mixture"));
    EXPECT_THAT(render::jars_json(*o.out), HasSubstr("\"left_mixture\": {"));
}

TEST(OneBowl, is_none_where_something_is_poured_laid_on_top_or_goes_in_whole) {
    const std::string edge = "given cabbage = 3.10 kg\nfill cabbage / (0.90 kg/L)\n"
                             "headspace 12 %\nweigh salt = 2.2 % of cabbage as fine sea salt\n";
    const auto mixed = [&](const std::string& kind, const std::string& more) {
        const Outcome o = jars("recipe \"R\"\n" + kind + edge + more);
        EXPECT_TRUE(o.out) << o.said;
        return o.out && o.out->jars.size() > 1 && o.out->jars.front().mixture.has_value();
    };
    EXPECT_TRUE(mixed("kind kraut\n", ""));
    EXPECT_TRUE(mixed("kind kraut\n", "count bay = 2 each jar as bay leaf\n"));
    EXPECT_TRUE(mixed("kind kraut\n", "weigh apple = 10 % of cabbage optional\n"));
    EXPECT_FALSE(mixed("kind kraut\n", "weigh water = 100 g\n"));
    EXPECT_FALSE(mixed("kind kraut\n", "weigh lemon = 20 g as lemon juice\n"));
    EXPECT_FALSE(mixed("kind kraut\n", "cap top = 10 g as fine sea salt\n"));
    EXPECT_FALSE(mixed("kind kraut\n", "count onions = 2 as onion\n"));
    EXPECT_FALSE(mixed("kind mixed\n", ""));
    EXPECT_FALSE(mixed("", "")) << "without a kind nothing is judged";
    // One jar that takes it all gets each thing by itself, as the weigh-out says it.
    const Outcome one = jars(kraut, quay_street, {"cabbage=1kg"});
    ASSERT_TRUE(one.out) << one.said;
    ASSERT_EQ(one.out->jars.size(), 1u);
    EXPECT_FALSE(one.out->jars.front().mixture);
    EXPECT_TRUE(one.out->jars.front().salt);
}

TEST(Jars, leave_the_model_as_it_was) {
    const Outcome with = jars(kraut);
    const Outcome without = test::weigh_with(
        kraut, [](Request& request) { request.vessels = Request::Vessels::unknown; },
        kitchen_of(quay_street));
    ASSERT_TRUE(with.out && without.out);
    EXPECT_EQ(with.out->salt->figure.bounds, without.out->salt->figure.bounds);
    EXPECT_THAT(without.out->jars, IsEmpty());
    EXPECT_FALSE(without.out->jar_choice);
}

TEST(Jars, what_does_not_fit_is_left_over_with_the_jar_that_would_take_it) {
    const Outcome o = jars(kraut, quay_street, {"cabbage=8kg"});
    ASSERT_TRUE(o.out) << o.said;
    const JarChoice& c = *o.out->jar_choice;
    // Three tall and four squat take 6600 mL; the batch fills 8889.
    EXPECT_EQ(o.out->jars.size(), 7u);
    EXPECT_NEAR(c.unplaced_ml, 8000 / 0.9 - 6600, 1e-6);
    EXPECT_NEAR(*c.rest_brimful_ml, c.unplaced_ml / 0.88, 1e-6);
    EXPECT_NEAR(sum(*o.out, "cabbage"), 8000, 1e-9);
    EXPECT_GT(c.unplaced_g, 2060);
    const std::string text = render::jars_text(*o.out, {});
    EXPECT_THAT(text, HasSubstr("LEFT OVER: 2.29 L"));
    EXPECT_THAT(text, HasSubstr("A jar of 2.6 L brimful"));
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);)
        EXPECT_LE(render::columns(line), 80) << line;
}

constexpr const char* grey_crock = "crock grey holds 8 L brimful across 22 cm weights 400 mL\n";

TEST(Jars, one_that_would_be_half_empty_is_passed_over_for_more_with_less_air) {
    const Outcome o = jars(kraut, std::string(quay_street) + grey_crock);
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->jars.size(), 3u);
    for (const JarShare& jar : o.out->jars)
        EXPECT_EQ(jar.name, "tall");
    EXPECT_THAT(o.out->jar_choice->more_air, ElementsAre("grey"));
    EXPECT_THAT(render::jars_text(*o.out, {}),
                HasSubstr("Take 3 × tall: the fewest that hold it without too much air"));
    EXPECT_THAT(render::jars_text(*o.out, {}), HasSubstr("It would go into grey too"));
}

TEST(Jars, one_that_is_not_full_gets_the_caution_about_air_where_there_is_no_other) {
    const Outcome o = jars(kraut, std::string("kitchen \"k\"\n") + grey_crock);
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->jars.size(), 1u);
    EXPECT_TRUE(o.out->jars.front().airy);
    EXPECT_EQ(o.out->cautions.front().id, "air");
    EXPECT_THAT(o.out->jar_choice->more_air, IsEmpty());
}

TEST(Jars, without_a_fill_line_a_packed_density_will_do) {
    const std::string bare = "recipe \"Bare\"\nkind kraut\ngiven cabbage = 1.8 kg\n"
                             "weigh salt = 2.2 % of cabbage as fine sea salt\n";
    const Outcome o = jars(bare + "let packed = 0.9 kg/L\n");
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(o.out->jar_choice->volume_ml, 2000, 1e-9);
    EXPECT_THAT(o.out->assumptions, Contains(HasSubstr("packed")));
    EXPECT_THAT(o.out->assumptions, Contains(HasSubstr("a tenth of each jar")));
    const Outcome house = jars(bare, std::string(quay_street) + "let cabbage_packed = 0.9 kg/L\n");
    ASSERT_TRUE(house.out) << house.said;
    EXPECT_NEAR(house.out->jar_choice->volume_ml, 2000, 1e-9);
    const Outcome none = jars(bare);
    EXPECT_FALSE(none.out);
    EXPECT_THAT(none.codes, ElementsAre("no-fill"));
    EXPECT_THAT(none.said, HasSubstr("fill cabbage / 0.9"));
}

TEST(Jars, a_kitchen_without_jars_is_told_how_to_describe_one) {
    const Outcome o = jars(kraut, "");
    EXPECT_FALSE(o.out);
    EXPECT_THAT(o.codes, ElementsAre("no-jars"));
    EXPECT_THAT(o.said, HasSubstr("brimful"));
}

TEST(Jars, a_headspace_in_cm_passes_over_what_has_no_width) {
    std::string recipe = kraut;
    recipe.replace(recipe.find("12 %"), 4, "3 cm");
    const Outcome o = jars(recipe, std::string(quay_street) + "jar odd holds 5 L brimful\n");
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->jar_choice->passed_over.size(), 1u);
    EXPECT_EQ(o.out->jar_choice->passed_over[0].name, "odd");
    EXPECT_THAT(render::jars_text(*o.out, {}), HasSubstr("odd has no width"));
    for (const JarShare& jar : o.out->jars)
        EXPECT_GE(*jar.headspace_cm, 3 - 1e-9);
}

TEST(Jars, brine_covers_up_to_the_headspace_and_keeps_its_salt) {
    const Outcome o = jars(R"(recipe "Half-sours"
kind   cucumbers
given  cucumbers = 600 g
let    packed = 0.58 kg/L
weigh  water  = cover(cucumbers, packed)
weigh  salt   = 3.5 % of (cucumbers + water)   as canning salt
fill   cucumbers / packed
headspace 3 cm
)");
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->jars.size(), 1u);
    const JarShare& jar = o.out->jars.front();
    EXPECT_EQ(jar.name, "tall");
    EXPECT_TRUE(o.out->jar_choice->covered);
    EXPECT_NEAR(jar.fill_ml, jar.usable_ml, 1e-9);
    EXPECT_NEAR(*jar.headspace_cm, 3, 1e-9);
    EXPECT_GT(item(jar, "water")->reading_g, 500) << "the gaps alone take about 400 mL";
    EXPECT_NEAR(jar.salt->figure.percent, 3.5, 0.02);
}

TEST(Jars, a_crock_that_is_half_empty_is_not_filled_up_with_brine) {
    const Outcome o = jars(R"(recipe "Sticks"
kind   roots
brine  jug = 6 % of water, make 9 L            as canning salt
given  carrots = 900 g                         as carrot
weigh  poured = cover(carrots, 0.6 kg/L)       as jug
fill   carrots / (0.6 kg/L)
headspace 12 %
)",
                           "kitchen \"One crock\"\njar grey holds 8 L brimful\n");
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_FALSE(o.out->jar_choice->covered);
    EXPECT_TRUE(o.out->jars[0].airy);
    EXPECT_NEAR(o.out->jars[0].fill_ml, 1500, 1e-6);
    EXPECT_LT(item(o.out->jars[0], "poured")->reading_g, 1000);
}

TEST(Jars, what_is_poured_off_is_not_weighed_again) {
    const Outcome o = jars(R"(recipe "Soaked"
kind   kimchi
given  cabbage = 2 kg                          as napa cabbage
weigh  salt    = 6 % of cabbage                discarded as coarse sea salt
measure drained about 1.6..1.9 kg replaces cabbage
weigh  sauce   = 2 % of drained                as fish sauce
fill   drained / (0.9 kg/L)
headspace 20 %
)");
    ASSERT_TRUE(o.out) << o.said;
    for (const JarShare& jar : o.out->jars) {
        EXPECT_EQ(item(jar, "salt"), nullptr);
        EXPECT_EQ(item(jar, "cabbage"), nullptr);
        ASSERT_NE(item(jar, "drained"), nullptr);
        EXPECT_TRUE(item(jar, "drained")->later);
        EXPECT_NE(item(jar, "sauce"), nullptr);
    }
}

TEST(Jars, optional_lines_are_judged_in_each_jar_and_left_out_on_request) {
    const std::string recipe = std::string(sticks) + "weigh apple = 10 % of carrots optional\n";
    const Outcome with = jars(recipe);
    ASSERT_TRUE(with.out) << with.said;
    EXPECT_NE(item(with.out->jars[0], "apple"), nullptr);
    EXPECT_EQ(with.out->jars[0].salt->variants.size(), 1u);
    const Outcome without = jars(recipe, quay_street, {}, {"apple"});
    ASSERT_TRUE(without.out) << without.said;
    EXPECT_EQ(item(without.out->jars[0], "apple"), nullptr);
    EXPECT_THAT(without.out->jars[0].salt->variants, IsEmpty());
}

TEST(Jars, a_salt_that_counts_an_optional_line_is_judged_as_it_is_printed_without_it) {
    const std::string recipe = "recipe \"Apples\"\nkind kraut\ngiven cabbage = 2 kg\n"
                               "weigh apple = 8 % of cabbage optional\n"
                               "weigh water = 1 g\n"
                               "weigh salt = 2.85 % of (cabbage + apple) as fine sea salt\n"
                               "fill (cabbage + apple) / (0.9 kg/L)\n";
    const Outcome o = jars(recipe);
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_TRUE(o.out->salt);
    EXPECT_EQ(o.out->salt->verdict, Verdict::above);
    for (const JarShare& jar : o.out->jars) {
        ASSERT_TRUE(jar.salt);
        EXPECT_EQ(jar.salt->verdict, Verdict::above) << jar.name << ": " << jar.salt->reason;
        ASSERT_EQ(jar.salt->variants.size(), 1u);
        EXPECT_NEAR(jar.salt->variants[0].bounds.middle(), 2.85 * 1.08, 0.02);
    }
    // Whoever says beforehand that it stays away gets less salt.
    const Outcome without = jars(recipe, quay_street, {}, {"apple"});
    ASSERT_TRUE(without.out && without.out->salt) << without.said;
    EXPECT_EQ(without.out->salt->verdict, Verdict::inside);
}

TEST(Jars, json_has_the_fields_that_programs_look_for) {
    const Outcome o = jars(kraut);
    ASSERT_TRUE(o.out) << o.said;
    const std::string json = render::jars_json(*o.out);
    for (const char* field :
         {"\"format\": \"jarful.jars/1\"", "\"jars\": [", "\"brimful_ml\": 1500",
          "\"usable_ml\": 1320", "\"fill_ml\"", "\"items\": [", "\"unplaced_g\": 0",
          "\"unplaced_ml\": 0", "\"why\": null"})
        EXPECT_THAT(json, HasSubstr(field));
}

// ---- A bowl on the scale ----

/// A text as if no line were broken.
std::string in_one_line(const std::string& text) {
    std::istringstream words(text);
    std::string out;
    for (std::string word; words >> word;)
        out += (out.empty() ? "" : " ") + word;
    return out;
}

constexpr const char* with_bowl = R"(kitchen "Quay Street"
scale  bench   reads 1 g    up to 5 kg    within 1 g     bowl 350 g   use 90 %
scale  pocket  reads 0.1 g  up to 500 g   within 0.1 g   bowl 30 g
)";

TEST(ScaleWithABowl, says_in_how_many_goes_and_why) {
    const Outcome o = test::weigh(kraut, {"cabbage=9kg"}, kitchen_of(with_bowl));
    ASSERT_TRUE(o.out) << o.said;
    const Item& cabbage = *whole(*o.out, "cabbage");
    EXPECT_DOUBLE_EQ(cabbage.room_g, 0) << "what is entered was weighed in whatever goes";
    const Outcome asked = test::weigh(kraut, {"salt=198g"}, kitchen_of(with_bowl));
    ASSERT_TRUE(asked.out) << asked.said;
    const Item& solved = *whole(*asked.out, "cabbage");
    ASSERT_EQ(solved.portions.size(), 3u);
    for (const Portion& portion : solved.portions)
        EXPECT_LE(portion.reading_g + 350, 0.9 * 5000);
    EXPECT_DOUBLE_EQ(solved.room_g, 4150);
    const std::string text = render::weigh_text(*asked.out, {});
    EXPECT_THAT(text, HasSubstr("cabbage, go 3 of 3"));
    EXPECT_THAT(in_one_line(text), HasSubstr("in 3 goes: bench takes 4.15 kg at a time"));
    // As before where the kitchen says nothing of a bowl.
    const Outcome bare = test::weigh(kraut, {"salt=198g"}, kitchen_of(quay_street));
    ASSERT_TRUE(bare.out) << bare.said;
    EXPECT_EQ(whole(*bare.out, "cabbage")->portions.size(), 2u);
    EXPECT_DOUBLE_EQ(whole(*bare.out, "cabbage")->room_g, 0);
}

TEST(ScaleWithABowl, counts_with_the_one_bowl_that_is_not_tared) {
    const auto bowl = [](const char* weight) {
        return [weight](Request& request) {
            language::Findings findings;
            request.settings.push_back(*read_setting("cabbage=4kg", findings));
            request.bowl = read_setting(std::string("bowl=") + weight, findings);
        };
    };
    const std::string plain = "recipe \"R\"\ngiven cabbage = 4 kg\n"
                              "weigh salt = 2 % of cabbage as canning salt\n";
    const auto scale = [&](const char* weight, const char* kitchen) {
        const Outcome o = test::weigh_with(plain, bowl(weight), kitchen_of(kitchen));
        EXPECT_TRUE(o.out && o.out->bowl) << o.said;
        return o.out && o.out->bowl ? o.out->bowl->scale : "?";
    };
    // 4080 g with the bowl: nine tenths of five kilograms are 4500 g; the scale's own bowl is away.
    EXPECT_EQ(scale("420g", with_bowl), "bench");
    EXPECT_EQ(scale("421g", with_bowl), "");
    EXPECT_EQ(scale("920g", quay_street), "bench");
}

} // namespace
} // namespace jarful::plan
