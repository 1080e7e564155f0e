#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace jarful::plan {
namespace {

using test::Outcome;
using test::weigh;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

const Item& item(const WeighOut& w, std::string_view name) {
    for (const auto* list : {&w.givens, &w.items})
        for (const Item& i : *list)
            if (i.name == name) return i;
    throw std::runtime_error("no such item");
}

const kitchen::Kitchen& quay_street() {
    static const kitchen::Kitchen k =
        test::kitchen_of("kitchen \"Quay Street\"\n"
                         "scale bench  reads 1 g   up to 5 kg  within 1 g\n"
                         "scale pocket reads 0.1 g up to 500 g within 0.1 g\n"
                         "jar tall  holds 1.50 L brimful across 10 cm have 3\n"
                         "jar squat holds 0.75 L brimful across 9 cm have 4\n"
                         "jar odd   holds 0.50 L brimful have 1\n");
    return k;
}

constexpr const char* kraut = "recipe \"Kraut\"\nkind kraut\ngiven cabbage = 1.80 kg\n"
                              "weigh carrot = 6 % of cabbage\n"
                              "weigh salt = 2.2 % of (cabbage + carrot) as fine sea salt\n"
                              "count bay = 1 per kg of cabbage as bay leaf\n"
                              "fill (cabbage + carrot) / 0.9 kg/L\nheadspace 12 %\n";

TEST(Backwards, finds_the_cabbage_for_the_salt_that_is_left) {
    const Outcome o = weigh(kraut, {"salt=24g"}, quay_street());
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_TRUE(o.out->answer);
    ASSERT_EQ(o.out->answer->moved.size(), 1u);
    // By hand: 24 / (0.022 * 1.06) = 1029.1595 g.
    EXPECT_NEAR(o.out->answer->moved[0].exact_g, 24 / (0.022 * 1.06), 1e-6);
    EXPECT_DOUBLE_EQ(o.out->answer->moved[0].entered_g, 1029);
    EXPECT_NEAR(item(*o.out, "salt").exact_g, 24, 0.01);
    EXPECT_DOUBLE_EQ(item(*o.out, "salt").reading_g, 24.0);
    EXPECT_TRUE(item(*o.out, "cabbage").solved);
    EXPECT_FALSE(item(*o.out, "cabbage").entered);
}

TEST(Backwards, fills_a_jar_and_never_past_its_headspace) {
    const Outcome o = weigh(kraut, {"jar=tall"}, quay_street());
    ASSERT_TRUE(o.out) << o.said;
    // 1500 mL less 12 % is 1320 mL, at 0.9 g/mL and 106 % of the cabbage.
    EXPECT_NEAR(o.out->answer->moved[0].exact_g, 1320 * 0.9 / 1.06, 1e-6);
    EXPECT_LE(o.out->room->fill_ml, 1320 + 1e-6);
    EXPECT_NEAR(o.out->room->fill_ml, 1320, 2);
    EXPECT_NEAR(o.out->usable_ml, 1320, 1e-9);
    EXPECT_THAT(o.out->chosen_jars, ElementsAre("tall"));
    const Outcome several = weigh(kraut, {"jar=tall,tall,squat"}, quay_street());
    ASSERT_TRUE(several.out) << several.said;
    EXPECT_NEAR(several.out->room->fill_ml, 2 * 1320 + 660, 2);
}

TEST(Backwards, takes_a_headspace_in_centimetres_off_a_round_jar) {
    std::string text = kraut;
    text.replace(text.find("12 %"), 4, "3 cm");
    const Outcome o = weigh(text, {"jar=tall"}, quay_street());
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(o.out->usable_ml, 1500 - 3 * M_PI * 25, 1e-6);
    EXPECT_THAT(weigh(text, {"jar=odd"}, quay_street()).codes, ElementsAre("no-room"));
}

TEST(Backwards, answers_a_volume) {
    const Outcome o = weigh(kraut, {"fill=1.2L"}, quay_street());
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(o.out->room->fill_ml, 1200, 1.5);
}

TEST(Backwards, keeps_the_proportions_of_several_givens) {
    const char* text = "recipe \"Two\"\nkind mixed\ngiven carrot = 600 g\ngiven turnip = 400 g\n"
                       "weigh salt = 2.5 % of (carrot + turnip)\n";
    const Outcome o = weigh(text, {"salt=50g"}, quay_street());
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(item(*o.out, "carrot").exact_g, 1200);
    EXPECT_DOUBLE_EQ(item(*o.out, "turnip").exact_g, 800);
    const Outcome one = weigh(text, {"carrot=900g", "salt=50g"}, quay_street());
    ASSERT_TRUE(one.out) << one.said;
    EXPECT_DOUBLE_EQ(item(*one.out, "turnip").exact_g, 1100) << "only what is not set moves";
}

TEST(Backwards, says_what_cannot_be) {
    const char* text = "recipe \"Fixed\"\nkind mixed\ngiven carrot = 600 g\n"
                       "weigh salt = 15 g\nweigh garlic = min(5 % of carrot, 40 g)\n";
    EXPECT_THAT(weigh(text, {"salt=24g"}).codes, ElementsAre("no-answer"));
    EXPECT_THAT(weigh(text, {"salt=24g"}).said, HasSubstr("whatever the batch"));
    const Outcome garlic = weigh(text, {"garlic=80g"});
    EXPECT_THAT(garlic.codes, ElementsAre("no-answer"));
    EXPECT_THAT(garlic.said, HasSubstr("40 g"));
    EXPECT_THAT(weigh(text, {"garlic=20g", "carrot=1kg"}).codes, ElementsAre("nothing-to-move"));
    EXPECT_THAT(weigh(kraut, {"salt=24g", "fill=1L"}).codes, ElementsAre("asked-too-much"));
    EXPECT_THAT(weigh(text, {"jar=tall"}, quay_street()).codes, ElementsAre("no-fill"));
    EXPECT_THAT(weigh(kraut, {"jar=tal"}, quay_street()).codes, ElementsAre("unknown-jar"));
    EXPECT_THAT(weigh(kraut, {"jar=odd,odd"}, quay_street()).codes, ElementsAre("too-few-jars"));
}

TEST(Backwards, names_the_jars_of_this_kitchen_and_no_others) {
    const Outcome counted = weigh(kraut, {"jar=3tall"}, quay_street());
    EXPECT_THAT(counted.codes, ElementsAre("unknown-jar"));
    EXPECT_THAT(counted.said, HasSubstr("`jar=tall,tall,tall`"));
    const Outcome unknown = weigh(kraut, {"jar=7up"}, quay_street());
    EXPECT_THAT(unknown.codes, ElementsAre("unknown-jar"));
    for (const kitchen::Vessel& vessel : quay_street().vessels)
        EXPECT_THAT(unknown.said, HasSubstr(vessel.name));
    EXPECT_THAT(weigh(kraut, {"jar=tall,"}, quay_street()).codes, ElementsAre("not-a-name"));
}

TEST(Backwards, says_what_is_asked_and_what_is_needed_where_both_are_set) {
    // 2.2 % of 2 kg and 6 % of carrots is 46.6 g; 40 g on 2.12 kg is 1.89 %.
    const Outcome both = weigh(kraut, {"salt=40g", "cabbage=2kg"});
    EXPECT_THAT(both.codes, ElementsAre("nothing-to-move"));
    EXPECT_THAT(both.said, HasSubstr("46.6 g"));
    EXPECT_THAT(both.said, HasSubstr("1.89 % of the vegetables"));
    EXPECT_THAT(both.said, HasSubstr("--poured salt=40g"));
}

TEST(Backwards, a_number_without_a_unit_gets_the_one_that_is_near) {
    EXPECT_THAT(weigh(kraut, {"salt=40"}).said, HasSubstr("`salt=40g`"));
    EXPECT_THAT(weigh(kraut, {"cabbage=1.84"}).said, HasSubstr("`cabbage=1.84kg`"));
    EXPECT_THAT(weigh(kraut, {"cabbage=1840"}).said, HasSubstr("`cabbage=1840g`"));
    EXPECT_THAT(weigh(kraut, {"salt=2L"}).said, HasSubstr("`salt=42g`"));
}

TEST(Backwards, solves_what_is_no_straight_line) {
    const char* text = "recipe \"Bent\"\nkind mixed\ngiven carrot = 600 g\n"
                       "let share = 2 % + 1 % * (carrot / 10 kg)\n"
                       "weigh salt = share * carrot counts as salt\n";
    std::string s = text;
    s.replace(s.find("let share"), 9, "let part_");
    s.replace(s.find("= share *"), 9, "= part_ *");
    const Outcome o = weigh(s, {"salt=50g"});
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(item(*o.out, "salt").exact_g, 50, 0.05);
}

TEST(Backwards, shows_the_other_answers) {
    // A parabola: 10 g at 1000 g is the top; 9 g at two weights.
    const Outcome o = weigh("recipe \"Hill\"\ngiven carrot = 600 g\n"
                            "weigh garlic = 10 g - 10 g * (carrot / 1 kg - 1)^2\n",
                            {"garlic=9g"});
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->answer->others_g.size(), 1u);
    EXPECT_NEAR(o.out->answer->moved[0].exact_g, 1000 * (1 - std::sqrt(0.1)), 1e-3);
    EXPECT_NEAR(o.out->answer->others_g[0], 1000 * (1 + std::sqrt(0.1)), 1e-3);
}

TEST(Backwards, covers_the_produce_up_to_the_headspace_of_the_chosen_jar) {
    const char* text = "recipe \"Half-sours\"\nkind cucumbers\ngiven cucumbers = 600 g\n"
                       "let packed = 0.58 kg/L\nweigh water = cover(cucumbers, packed)\n"
                       "weigh salt = 3.5 % of (cucumbers + water) as canning salt\n"
                       "fill cucumbers / packed\nheadspace 12 %\n";
    // The jar is larger than the cucumbers need: 1320 mL less 600 / 0.96 mL of cucumber.
    const Outcome o = weigh(text, {"cucumbers=600g", "jar=tall"}, quay_street());
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(item(*o.out, "water").exact_g, (1320 - 600 / 0.96) * 0.9982, 0.5);
    EXPECT_FALSE(o.out->answer);
    const Outcome full = weigh(text, {"jar=tall"}, quay_street());
    ASSERT_TRUE(full.out) << full.said;
    EXPECT_NEAR(item(*full.out, "cucumbers").exact_g, 1320 * 0.58, 1);
    EXPECT_NEAR(item(*full.out, "water").exact_g,
                (1320 - item(*full.out, "cucumbers").exact_g / 0.96) * 0.9982, 0.5);
}

// ---- Readings that hold ----

TEST(Holding, takes_the_nearest_reading_that_keeps_the_range) {
    // 2.1 % of 420 g is 8.82 g; the nearest whole gram is 9, but on this scale 9 g may be 7.5 g,
    // and 7.5 / 421.5 is 1.78 %. 10 g may be 8.5 to 11.5 g: 2.02 to 2.75 %.
    const char* text = "recipe \"Small\"\nkind kraut\ngiven cabbage = 420 g\n"
                       "weigh salt = 2.1 % of cabbage as canning salt\n";
    const Outcome o = weigh(text);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(item(*o.out, "salt").reading_g, 10);
    EXPECT_TRUE(item(*o.out, "salt").moved);
    EXPECT_EQ(o.out->salt->verdict, Verdict::inside);
    EXPECT_FALSE(o.out->no_reading);
    EXPECT_GE(100 * 8.5 / 421.5, 2.0);
    EXPECT_LE(100 * 11.5 / 418.5, 3.0);
}

TEST(Holding, says_what_would_do_where_no_reading_does) {
    // 2.25 % of 120 g is 2.7 g: with 1.5 g either way nothing lies inside 2 to 3 %.
    const char* text = "recipe \"Tiny\"\nkind kraut\ngiven cabbage = 120 g\n"
                       "weigh salt = 2.25 % of cabbage as canning salt\n";
    const Outcome o = weigh(text);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NE(o.out->salt->verdict, Verdict::inside);
    ASSERT_TRUE(o.out->no_reading);
    EXPECT_EQ(o.out->no_reading->batch_name, "cabbage");
    ASSERT_TRUE(o.out->no_reading->batch_g);
    ASSERT_TRUE(o.out->no_reading->step_g);
    // The batch that is named works, and one a tenth smaller does not.
    const double batch = std::ceil(*o.out->no_reading->batch_g);
    const Outcome larger = weigh(text, {"cabbage=" + std::to_string(int(batch)) + "g"});
    EXPECT_EQ(larger.out->salt->verdict, Verdict::inside) << batch;
    const Outcome smaller = weigh(text, {"cabbage=" + std::to_string(int(batch * 0.9)) + "g"});
    EXPECT_NE(smaller.out->salt->verdict, Verdict::inside) << batch;
    // The step that is named works.
    kitchen::Kitchen finer = kitchen::default_kitchen();
    finer.scales.push_back({"finer", *o.out->no_reading->step_g, 500, *o.out->no_reading->step_g});
    EXPECT_EQ(weigh(text, {}, finer).out->salt->verdict, Verdict::inside);
}

TEST(Holding, keeps_house_bounds_too) {
    const char* text = "recipe \"House\"\nkind kraut\ngiven cabbage = 1 kg\n"
                       "weigh salt = 2.2 % of cabbage as canning salt\n"
                       "hold salt / cabbage between 2.1 % and 2.5 %\n";
    const Outcome o = weigh(text);
    ASSERT_TRUE(o.out) << o.said;
    // 22 g may be 20.5 g, which is 2.05 %: 23 g it is, 21.5 to 24.5 g.
    EXPECT_DOUBLE_EQ(item(*o.out, "salt").reading_g, 23);
    EXPECT_EQ(o.out->checks[0].verdict, Verdict::inside);
}

TEST(Holding, does_not_bend_a_recipe_that_is_out_of_range_itself) {
    const Outcome o = weigh("recipe \"Weak\"\nkind kraut\ngiven cabbage = 2 kg\n"
                            "weigh salt = 1.9 % of cabbage as canning salt\n");
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(item(*o.out, "salt").reading_g, 38);
    EXPECT_FALSE(item(*o.out, "salt").moved);
    EXPECT_NE(o.out->salt->verdict, Verdict::inside);
}

// ---- At the counter ----

TEST(Poured, is_judged_by_what_really_went_in) {
    const Outcome o = test::weigh_with(kraut, [](Request& r) {
        language::Findings f;
        r.poured.push_back(*read_setting("salt=60g", f));
    });
    ASSERT_TRUE(o.out) << o.said;
    const Item& salt = item(*o.out, "salt");
    EXPECT_TRUE(salt.poured);
    EXPECT_DOUBLE_EQ(salt.reading_g, 60);
    EXPECT_NEAR(salt.exact_g, 0.022 * 1908, 1e-9) << "what the recipe comes to stays";
    EXPECT_EQ(o.out->salt->verdict, Verdict::above);
}

TEST(Bowl, shows_running_totals_and_doubles_the_error) {
    const Outcome o = test::weigh_with(kraut, [](Request& r) {
        language::Findings f;
        r.bowl = *read_setting("bowl=640g", f);
    });
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_EQ(o.out->bowl->scale, "scale");
    EXPECT_DOUBLE_EQ(*item(*o.out, "cabbage").display_g, 640 + 1800);
    EXPECT_DOUBLE_EQ(*item(*o.out, "carrot").display_g, 640 + 1800 + 108);
    EXPECT_DOUBLE_EQ(*item(*o.out, "salt").display_g, 640 + 1800 + 108 + 42);
    EXPECT_NEAR(item(*o.out, "salt").truth.width(), 6, 1e-6);
}

// In one bowl each amount is the difference of two displays: what would do is worked out with it.
TEST(Bowl, is_in_the_advice_where_no_reading_holds) {
    const std::string text = "recipe \"Small\"\nkind kraut\ngiven cabbage = 120 g\n"
                             "weigh salt = 2.5 % of cabbage as canning salt\n";
    const auto in_bowl = [&](const std::string& cabbage) {
        return test::weigh_with(text, [&](Request& r) {
            language::Findings f;
            if (!cabbage.empty()) r.settings.push_back(*read_setting("cabbage=" + cabbage, f));
            r.bowl = *read_setting("bowl=640g", f);
        });
    };
    const Outcome o = in_bowl("");
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_TRUE(o.out->no_reading);
    ASSERT_TRUE(o.out->no_reading->batch_g);
    const double batch = *o.out->no_reading->batch_g;
    EXPECT_FALSE(in_bowl(std::to_string(std::ceil(batch)) + "g").out->no_reading) << batch;
    EXPECT_TRUE(in_bowl(std::to_string(std::floor(batch * 0.9)) + "g").out->no_reading) << batch;
}

TEST(Refusal, names_no_batch_beyond_fifty_times) {
    int named = 0;
    int none = 0;
    for (int i = 1; i <= 40; ++i) {
        const std::string width = std::to_string(0.002 + 0.001 * i);
        const Outcome o = weigh("recipe \"Narrow\"\ngiven cabbage = 100 g\n"
                                "weigh salt = 2.2 % of cabbage as canning salt\n"
                                "hold salt / cabbage between 2.2 % - " +
                                width + " % and 2.2 % + " + width + " %\n");
        ASSERT_TRUE(o.out) << o.said;
        ASSERT_TRUE(o.out->no_reading) << width;
        const auto batch = o.out->no_reading->batch_g;
        batch ? ++named : ++none;
        if (batch) {
            EXPECT_LE(*batch, 5000 * (1 + 1e-12)) << width;
        }
    }
    EXPECT_GT(named, 0);
    EXPECT_GT(none, 0);
}

TEST(Readings, the_figure_is_that_of_what_is_weighed) {
    // On a scale of 1 g the nearest reading, 20 g, may be below 2 %: 22 g is taken.
    const Outcome o = weigh("recipe \"Edge\"\nkind kraut\ngiven cabbage = 1 kg\n"
                            "weigh salt = 2 % of cabbage as canning salt\n");
    ASSERT_TRUE(o.out) << o.said;
    const double salt = item(*o.out, "salt").reading_g;
    EXPECT_GT(salt, 20);
    EXPECT_NEAR(o.out->salt->figure.percent, salt / 10, 1e-9);
    EXPECT_TRUE(o.out->salt->figure.bounds.contains(o.out->salt->figure.percent));
    for (const BasisFigure& figure : o.out->other_bases)
        EXPECT_TRUE(figure.bounds.contains(figure.percent));
}

TEST(Goes, get_their_salt_in_matching_portions) {
    const Outcome o = weigh(kraut, {"cabbage=4.2kg+3.9kg"});
    ASSERT_TRUE(o.out) << o.said;
    const Item& salt = item(*o.out, "salt");
    ASSERT_EQ(salt.portions.size(), 2u);
    EXPECT_DOUBLE_EQ(salt.portions[0].reading_g + salt.portions[1].reading_g, salt.reading_g);
    EXPECT_NEAR(salt.portions[0].reading_g / salt.reading_g, 4.2 / 8.1, 0.01);
    EXPECT_NEAR(salt.truth.width(), 2 * 3.0, 1e-6) << "two weighings, two errors";
}

TEST(Backwards, headspace_is_of_the_whole_jar_though_weights_stand_in_it) {
    const kitchen::Kitchen k =
        test::kitchen_of("kitchen \"Quay Street\"\n"
                         "scale bench reads 1 g up to 5 kg within 1 g\n"
                         "jar tall holds 1.50 L brimful across 10 cm weights 200 mL have 1\n");
    const Outcome o = weigh("recipe \"Kraut\"\nkind kraut\ngiven cabbage = 1 kg\n"
                            "weigh salt = 2.2 % of cabbage as canning salt\n"
                            "fill cabbage / 1 kg/L\nheadspace 12 %\n",
                            {"jar=tall"}, k);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(o.out->usable_ml, 1500 - 200 - 0.12 * 1500, 1e-9);
}

TEST(Backwards, of_what_is_counted_there_is_one_at_least) {
    const std::string text = "recipe \"Kraut\"\nkind kraut\ngiven cabbage = 1 kg\n"
                             "weigh salt = 2.2 % of cabbage as canning salt\n"
                             "count bay = 0.3 per kg of cabbage as bay leaf\n"
                             "count juniper = 0.3 per kg of cabbage optional as juniper berry\n";
    const Outcome o = weigh(text);
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->counts.size(), 2u);
    EXPECT_EQ(o.out->counts[0].count, 1);
    EXPECT_EQ(o.out->counts[1].count, 0);
}

} // namespace
} // namespace jarful::plan
