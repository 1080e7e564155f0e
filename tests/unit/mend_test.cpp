#include "engine/plan/mend.hpp"
#include "engine/render/mend_report.hpp"
#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

namespace jarful::plan {
namespace {

using ::testing::HasSubstr;

struct Mended {
    std::optional<MendOut> out;
    std::vector<std::string> codes;
    std::string said; ///< messages and advice
};

/// Settings as on the command line; words after "poured", "lost" and "evaporated" go there.
Mended mend_it(const std::string& text, const std::vector<std::string>& settings,
               const std::vector<std::string>& poured, const std::vector<std::string>& lost = {},
               const std::string& evaporated = {},
               const kitchen::Kitchen& kitchen = kitchen::default_kitchen()) {
    Mended m;
    language::Findings findings;
    auto source = language::read_source("test.jarful", text, findings);
    const language::Document doc = language::parse(std::move(*source), findings);
    MendRequest request;
    const auto read = [&](const std::string& s) {
        language::Findings own;
        auto setting = read_setting(s, own);
        EXPECT_TRUE(setting) << s;
        return setting.value_or(Setting{});
    };
    for (const auto& s : settings)
        request.request.settings.push_back(read(s));
    for (const auto& s : poured)
        request.request.poured.push_back(read(s));
    for (const auto& s : lost)
        request.lost.push_back(read(s));
    if (!evaporated.empty()) request.evaporated = read("evaporated=" + evaporated);
    MendFindings found;
    m.out = mend(doc, kitchen, request, findings, found);
    for (const auto* list : {&found.request.settings, &found.request.poured, &found.lost})
        for (const auto& f : *list)
            for (const auto& d : f.all()) {
                m.codes.push_back(d.code);
                m.said += d.message + " " + d.advice + "\n";
            }
    for (const auto& d : found.evaporated.all())
        m.codes.push_back(d.code);
    return m;
}

constexpr const char* kraut = "recipe \"Kraut\"\nkind kraut\ngiven cabbage = 1.80 kg\n"
                              "weigh carrot = 6 % of cabbage\n"
                              "weigh salt = 2.2 % of (cabbage + carrot) as fine sea salt\n"
                              "fill (cabbage + carrot) / 0.9 kg/L\nheadspace 12 %\n";

const kitchen::Kitchen& quay_street() {
    static const kitchen::Kitchen k =
        test::kitchen_of("kitchen \"Quay Street\"\n"
                         "scale bench  reads 1 g   up to 5 kg  within 1 g\n"
                         "scale pocket reads 0.1 g up to 500 g within 0.1 g\n"
                         "jar tall  holds 1.50 L brimful across 10 cm have 3\n");
    return k;
}

TEST(Mend, has_nothing_to_do_where_every_bound_is_kept) {
    const Mended m = mend_it(kraut, {"cabbage=1.84kg"}, {"salt=43g"});
    ASSERT_TRUE(m.out);
    EXPECT_TRUE(m.out->nothing_to_mend);
    EXPECT_TRUE(m.out->ways.empty());
}

TEST(Mend, grows_the_batch_for_too_much_salt) {
    const Mended m = mend_it(kraut, {"cabbage=1.84kg"}, {"salt=62g"}, {}, {}, quay_street());
    ASSERT_TRUE(m.out);
    ASSERT_FALSE(m.out->ways.empty());
    EXPECT_EQ(m.out->before->verdict, Verdict::above);
    const Way& grow = m.out->ways[0];
    EXPECT_TRUE(grow.holds);
    ASSERT_EQ(grow.add.size(), 2u);
    // 62 g of salt carry 62 / 0.022 = 2818.2 g, in the recipe's proportions 1 : 0.06.
    EXPECT_NEAR(grow.add[0].exact_g, 2818.18 / 1.06 - 1840, 0.5);
    EXPECT_NEAR(grow.add[1].exact_g, 0.06 * (2818.18 / 1.06 - 1840), 0.5);
    EXPECT_NEAR(grow.salt->percent, 2.2, 0.01);
    // Adding only cabbage comes back too.
    ASSERT_GE(m.out->ways.size(), 2u);
    EXPECT_TRUE(m.out->ways[1].holds);
    EXPECT_THAT(m.out->ways[1].text, HasSubstr("cabbage"));
    EXPECT_NEAR(m.out->ways[1].salt->percent, 2.2, 0.03);
}

TEST(Mend, adds_salt_where_there_is_too_little) {
    const Mended m = mend_it(kraut, {"cabbage=1.84kg"}, {"salt=25g"}, {}, {}, quay_street());
    ASSERT_TRUE(m.out);
    EXPECT_EQ(m.out->before->verdict, Verdict::below);
    ASSERT_FALSE(m.out->ways.empty());
    const Way& w = m.out->ways[0];
    EXPECT_TRUE(w.holds);
    ASSERT_EQ(w.add.size(), 1u);
    EXPECT_EQ(w.add[0].name, "salt");
    EXPECT_NEAR(w.add[0].exact_g, 0.022 * 1950.4 - 25, 0.6);
    EXPECT_FALSE(m.out->instead.empty()) << "too little salt for long is not mended";
}

TEST(Mend, counts_what_was_lost) {
    const Mended m = mend_it(kraut, {"cabbage=1.84kg"}, {}, {"cabbage=600g"}, {}, quay_street());
    ASSERT_TRUE(m.out);
    EXPECT_EQ(m.out->before->verdict, Verdict::above) << "42.9 g in 1350 g";
    ASSERT_FALSE(m.out->ways.empty());
    EXPECT_TRUE(m.out->ways[0].holds);
}

TEST(Mend, puts_back_plain_water_for_what_evaporated) {
    const Mended m = mend_it(kraut, {"cabbage=1.84kg"}, {}, {}, "120ml");
    ASSERT_TRUE(m.out);
    ASSERT_EQ(m.out->ways.size(), 1u);
    EXPECT_EQ(m.out->ways[0].add[0].name, "water");
    EXPECT_DOUBLE_EQ(m.out->ways[0].add[0].reading_g, 120);
    EXPECT_TRUE(m.out->ways[0].holds);
}

// Water that went takes no salt with it; salt that was lost is not brought back by water.
TEST(Mend, does_not_say_that_water_keeps_the_bounds_where_salt_is_missing) {
    for (const bool wet : {false, true}) {
        const std::string text = wet ? "recipe \"Wet\"\nkind mixed\ngiven carrot = 1 kg\n"
                                       "weigh water = 1 kg\nweigh salt = 2.2 % of (carrot + water) "
                                       "as canning salt\n"
                                     : std::string(kraut);
        const Mended m = mend_it(text, {}, {}, {"salt=20g"}, "200ml", quay_street());
        ASSERT_TRUE(m.out);
        EXPECT_EQ(m.out->before->verdict, Verdict::below);
        ASSERT_GE(m.out->ways.size(), 2u);
        EXPECT_TRUE(m.out->ways[0].holds) << m.out->ways[0].text;
        EXPECT_EQ(m.out->ways[0].add[0].name, "salt");
        for (const Way& w : m.out->ways) {
            if (w.text.find("plain water") == std::string::npos) continue;
            EXPECT_FALSE(w.holds);
            EXPECT_EQ(w.add[0].name, "water");
            EXPECT_DOUBLE_EQ(w.add[0].reading_g, 200);
            ASSERT_TRUE(w.salt);
            EXPECT_LT(w.salt->percent, 2.0);
        }
    }
}

TEST(Mend, is_right_to_put_water_back_where_that_is_all_that_is_missing) {
    const Mended m = mend_it("recipe \"Wet\"\nkind mixed\ngiven carrot = 1 kg\nweigh water = 1 kg\n"
                             "weigh salt = 2.2 % of (carrot + water) as canning salt\n",
                             {}, {}, {}, "300ml", quay_street());
    ASSERT_TRUE(m.out);
    ASSERT_EQ(m.out->ways.size(), 1u);
    EXPECT_TRUE(m.out->ways[0].holds);
    EXPECT_NEAR(m.out->ways[0].salt->percent, 2.2, 0.01);
}

TEST(Mend, says_when_the_jar_does_not_take_it) {
    const Mended m =
        mend_it(kraut, {"cabbage=1.1kg", "jar=tall"}, {"salt=40g"}, {}, {}, quay_street());
    ASSERT_TRUE(m.out);
    ASSERT_FALSE(m.out->ways.empty());
    for (const Way& w : m.out->ways)
        EXPECT_FALSE(w.holds && w.fits) << w.text;
}

TEST(Mend, keeps_house_bounds_in_every_way_that_holds) {
    const std::string text = std::string(kraut) + "hold carrot / cabbage between 5.8 % and 6.2 %\n";
    const Mended m = mend_it(text, {"cabbage=1.84kg"}, {"salt=62g"}, {}, {}, quay_street());
    ASSERT_TRUE(m.out);
    for (const Way& w : m.out->ways)
        EXPECT_FALSE(w.add.size() == 1 && w.add[0].name == "cabbage" && w.holds)
            << "cabbage alone leaves too little carrot";
    EXPECT_TRUE(m.out->ways[0].holds);
    EXPECT_EQ(m.out->ways[0].add.size(), 2u);
}

TEST(Mend, does_not_offer_the_name_that_it_refuses) {
    const std::string text = std::string(kraut) + "count bay = 2 as bay leaf\n";
    for (const bool lost : {false, true}) {
        const Mended m = lost ? mend_it(text, {}, {}, {"bay=2g"}) : mend_it(text, {}, {"bay=2g"});
        EXPECT_THAT(m.codes, ::testing::ElementsAre("unknown-name"));
        EXPECT_THAT(m.said, HasSubstr("counted and not weighed"));
        EXPECT_THAT(m.said, HasSubstr("What is weighed: cabbage, carrot, salt"));
    }
}

TEST(Mend, ends_a_title_with_one_stop) {
    const Mended m = mend_it(kraut, {"cabbage=1.84kg"}, {"salt=25g"}, {}, {}, quay_street());
    ASSERT_TRUE(m.out);
    const std::string text = render::mend_text(*m.out, {});
    EXPECT_THAT(text, HasSubstr("When to throw it out."));
    EXPECT_THAT(text, ::testing::Not(HasSubstr("..")));
}

TEST(Mend, counts_what_goes_into_each_jar_in_every_jar) {
    const std::string text = "recipe \"Each\"\nkind kraut\ngiven cabbage = 2 kg\n"
                             "count onions = 2 each jar as onion\n"
                             "weigh salt = 2.2 % of cabbage as canning salt\n"
                             "fill cabbage / 0.9 kg/L\n";
    EXPECT_EQ(mend_it(text, {}, {}).out->before->verdict, Verdict::undecided) << "how many jars?";
    EXPECT_EQ(mend_it(text, {}, {}, {}, {}, quay_street()).out->before->verdict, Verdict::below)
        << "the kitchen's own jars";
    EXPECT_EQ(mend_it(text, {"cabbage=2kg", "jar=tall,tall,tall"}, {}, {}, {}, quay_street())
                  .out->before->verdict,
              Verdict::below);
}

TEST(Mend, refuses_what_it_does_not_know) {
    EXPECT_THAT(mend_it(kraut, {}, {"slat=60g"}).codes, ::testing::ElementsAre("unknown-name"));
    EXPECT_THAT(mend_it(kraut, {}, {}, {"carot=60g"}).codes,
                ::testing::ElementsAre("unknown-name"));
    EXPECT_THAT(mend_it(kraut, {}, {}, {"carrot=60ml"}).codes,
                ::testing::ElementsAre("wrong-dimension"));
    EXPECT_THAT(mend_it(kraut, {}, {}, {}, "3cm").codes, ::testing::ElementsAre("wrong-dimension"));
}

} // namespace
} // namespace jarful::plan
