#include "engine/plan/model.hpp"
#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

namespace jarful::plan {
namespace {

using test::check;
using test::Outcome;
using test::weigh;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

const Item* item(const WeighOut& w, std::string_view name) {
    for (const auto* list : {&w.givens, &w.items})
        for (const Item& i : *list)
            if (i.name == name) return &i;
    return nullptr;
}

constexpr const char* kraut = R"(recipe "Quay Street kraut" version 2
kind   kraut
given  cabbage = 1.80 kg
weigh  carrot  = 6 % of cabbage
weigh  salt    = 2.2 % of (cabbage + carrot)   as fine sea salt
weigh  caraway = 1.5 g per kg of cabbage       as caraway seed
count  bay     = 1 per kg of cabbage           as bay leaf
hold   salt / (cabbage + carrot) between 2.0 % and 2.5 %
step   "Rub {salt} into {cabbage} in three goes, {salt / 3} each."
)";

TEST(Weigh, puts_a_recipe_on_the_scale) {
    const Outcome o = weigh(kraut, {"cabbage=1.84kg"});
    ASSERT_TRUE(o.out) << o.said;
    const WeighOut& w = *o.out;
    EXPECT_EQ(w.title, "Quay Street kraut");
    EXPECT_EQ(w.version, 2);
    EXPECT_EQ(w.kind, "kraut");
    const Item* cabbage = item(w, "cabbage");
    ASSERT_NE(cabbage, nullptr);
    EXPECT_TRUE(cabbage->entered);
    EXPECT_DOUBLE_EQ(cabbage->exact_g, 1840);
    const Item* salt = item(w, "salt");
    ASSERT_NE(salt, nullptr);
    // By hand: 0.022 * (1840 + 110.4) = 42.9088.
    EXPECT_NEAR(salt->exact_g, 42.9088, 1e-9);
    EXPECT_DOUBLE_EQ(salt->reading_g, 43);
    // The built-in scale is within 1 g and shows whole grams: 1.5 g either way.
    EXPECT_NEAR(salt->truth.low, 41.5, 1e-9);
    EXPECT_NEAR(salt->truth.high, 44.5, 1e-9);
    EXPECT_EQ(salt->material, "fine sea salt");
    EXPECT_EQ(salt->role, larder::Role::salt);
    ASSERT_TRUE(w.salt);
    EXPECT_EQ(w.salt->figure.basis, larder::Basis::of_vegetables);
    // By hand, of what the scales show: 43 g in 1840 and 110 g; 41.5 / (1841.5 + 111.5) and 44.5 /
    // (1838.5 + 108.5).
    EXPECT_NEAR(w.salt->figure.percent, 100 * 43.0 / 1950, 1e-9);
    EXPECT_NEAR(w.salt->figure.bounds.low, 100 * 41.5 / (1841.5 + 111.5), 1e-6);
    EXPECT_NEAR(w.salt->figure.bounds.high, 100 * 44.5 / (1838.5 + 108.5), 1e-6);
    EXPECT_EQ(w.salt->verdict, Verdict::inside);
    ASSERT_EQ(w.counts.size(), 1u);
    EXPECT_EQ(w.counts[0].count, 2);
    EXPECT_NEAR(w.counts[0].exact, 1.84, 1e-12);
    ASSERT_EQ(w.checks.size(), 1u);
    EXPECT_EQ(w.checks[0].verdict, Verdict::inside);
    EXPECT_EQ(w.checks[0].unit, "%");
    EXPECT_EQ(w.verdict, Verdict::inside);
}

TEST(Weigh, fills_amounts_into_the_method) {
    const Outcome o = weigh(kraut, {"cabbage=1.84kg"});
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->method_lines.size(), 1u);
    const RichText& t = o.out->method_lines[0].text;
    std::vector<double> numbers;
    for (const TextPiece& p : t) {
        if (p.sort == TextPiece::Sort::reading) numbers.push_back(p.value);
        if (p.sort == TextPiece::Sort::portions) {
            double sum = 0;
            for (double x : p.portions)
                sum += x;
            EXPECT_DOUBLE_EQ(sum, 43) << "portions add up to the reading";
            EXPECT_EQ(p.portions.size(), 3u);
        }
    }
    EXPECT_THAT(numbers, ElementsAre(43, 1840));
}

TEST(Weigh, takes_the_scale_that_leaves_least_doubt) {
    const auto k = test::kitchen_of("kitchen \"Quay Street\"\n"
                                    "scale bench  reads 1 g   up to 5 kg  within 1 g\n"
                                    "scale pocket reads 0.1 g up to 500 g within 0.1 g\n");
    const Outcome o = weigh(kraut, {"cabbage=1.84kg"}, k);
    ASSERT_TRUE(o.out) << o.said;
    const Item* salt = item(*o.out, "salt");
    EXPECT_EQ(salt->scale, "pocket");
    EXPECT_DOUBLE_EQ(salt->reading_g, 42.9);
    EXPECT_EQ(item(*o.out, "cabbage")->scale, "bench");
    EXPECT_LT(o.out->salt->figure.bounds.width(), 0.03);
}

TEST(Weigh, splits_what_is_more_than_the_scale_carries) {
    const Outcome o = weigh(kraut, {"cabbage=12kg"});
    ASSERT_TRUE(o.out) << o.said;
    const Item* cabbage = item(*o.out, "cabbage");
    ASSERT_EQ(cabbage->portions.size(), 3u);
    double sum = 0;
    for (const Portion& p : cabbage->portions) {
        EXPECT_LE(p.reading_g, 5000);
        sum += p.reading_g;
    }
    EXPECT_DOUBLE_EQ(sum, 12000);
    EXPECT_NEAR(cabbage->truth.width(), 3 * 3.0, 1e-6) << "three goes, three errors";
}

TEST(Weigh, adds_up_a_weighing_in_several_goes) {
    const Outcome o = weigh(kraut, {"cabbage=4.2kg+3.9kg+4.6kg"});
    ASSERT_TRUE(o.out) << o.said;
    const Item* cabbage = item(*o.out, "cabbage");
    EXPECT_DOUBLE_EQ(cabbage->exact_g, 12700);
    EXPECT_NEAR(cabbage->truth.width(), 9, 1e-6);
}

TEST(Weigh, takes_the_stated_uncertainty_of_a_setting) {
    const Outcome o = weigh(kraut, {"cabbage=1.80kg ± 50g"});
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(item(*o.out, "cabbage")->truth.low, 1750, 1e-9);
    EXPECT_NEAR(item(*o.out, "cabbage")->truth.high, 1850, 1e-9);
}

TEST(Weigh, refuses_settings_it_cannot_use) {
    const std::pair<const char*, const char*> cases[] = {
        {"cabage=1.84kg", "unknown-name"},   {"step=1kg", "unknown-name"},
        {"salt=24", "wrong-dimension"},      {"cabbage=2L", "wrong-dimension"},
        {"cabbage=1.84", "wrong-dimension"}, {"cabbage=0kg", "absurd-amount"},
        {"cabbage=1,84kg", "bad-amount"},    {"cabbage", "not-a-setting"},
        {"cabbage=lots", "bad-amount"},      {"cabbage=2kg-1kg", "bad-amount"},
        {"cabbage=9000kg", "absurd-amount"}, {"=2kg", "not-a-name"},
        {"cabbage=1.8kgs", "bad-amount"},    {"cabbage=", "bad-amount"}};
    for (const auto& [text, code] : cases) {
        const Outcome o = weigh(kraut, {text});
        EXPECT_FALSE(o.out) << text;
        EXPECT_THAT(o.codes, ElementsAre(code)) << text << "\n" << o.said;
    }
    EXPECT_THAT(weigh(kraut, {"cabage=1kg"}).said, HasSubstr("\"cabbage\""));
    EXPECT_THAT(weigh(kraut, {"cabbage=1kg", "cabbage=2kg"}).codes,
                ElementsAre("duplicate-setting"));
}

TEST(Weigh, says_what_the_scale_cannot_show) {
    const Outcome o = weigh("recipe \"Small\"\nkind kraut\ngiven cabbage = 500 g\n"
                            "weigh salt = 2.4 % of cabbage as canning salt\n"
                            "weigh mustard = 0.8 g per kg of cabbage as mustard seed\n");
    ASSERT_TRUE(o.out) << o.said;
    const Item* mustard = item(*o.out, "mustard");
    EXPECT_NEAR(mustard->exact_g, 0.4, 1e-12);
    EXPECT_TRUE(mustard->too_small);
    ASSERT_TRUE(mustard->spoon_ml);
    EXPECT_GT(*mustard->spoon_ml, 0.3);
    EXPECT_LT(*mustard->spoon_ml, 0.8);
}

TEST(Weigh, judges_optional_lines_with_and_without) {
    const char* text = "recipe \"Apple kraut\"\nkind kraut\ngiven cabbage = 2 kg\n"
                       "given apple = 300 g optional\n"
                       "weigh salt = 2.2 % of cabbage as canning salt\n";
    const Outcome o = weigh(text);
    ASSERT_TRUE(o.out) << o.said;
    // With the apple 44 / 2300 = 1.91 %: below; so the whole is below whatever the apple does.
    EXPECT_EQ(o.out->salt->verdict, Verdict::below);
    ASSERT_EQ(o.out->salt->variants.size(), 1u);
    EXPECT_EQ(o.out->salt->variants[0].verdict, Verdict::inside);
    const Outcome without = weigh(text, {}, kitchen::default_kitchen(), {"apple"});
    ASSERT_TRUE(without.out) << without.said;
    EXPECT_EQ(without.out->salt->verdict, Verdict::inside);
    EXPECT_THAT(without.out->left_out, ElementsAre("apple"));
    EXPECT_TRUE(without.out->salt->variants.empty());
    EXPECT_THAT(weigh(text, {}, kitchen::default_kitchen(), {"cabbage"}).codes,
                ElementsAre("not-optional"));
    EXPECT_THAT(weigh(text, {}, kitchen::default_kitchen(), {"aple"}).codes,
                ElementsAre("unknown-name"));
}

TEST(Weigh, goes_by_the_worse_case_where_an_optional_line_decides) {
    const Outcome o = weigh("recipe \"Onion kraut\"\nkind kraut\ngiven cabbage = 2 kg\n"
                            "weigh onion = 150 g optional\n"
                            "weigh salt = 3.1 % of cabbage as canning salt\n");
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_EQ(o.out->salt->verdict, Verdict::above);
    EXPECT_THAT(o.out->salt->reason, HasSubstr("ithout onion"));
}

TEST(Weigh, keeps_an_entered_optional_line_after_judging_without_it) {
    const Outcome o = weigh("recipe \"Apple kraut\"\nkind kraut\ngiven cabbage = 2 kg\n"
                            "given apple = 300 g optional\n"
                            "weigh salt = 2.4 % of (cabbage + apple) as canning salt\n",
                            {"apple=250g"});
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_DOUBLE_EQ(item(*o.out, "apple")->exact_g, 250);
    EXPECT_NEAR(item(*o.out, "salt")->exact_g, 54, 1e-9);
    EXPECT_EQ(o.out->salt->verdict, Verdict::inside);
}

constexpr const char* kimchi = R"(recipe "Ferry Lane kimchi"
kind kimchi
given napa = 2 kg
weigh soak = 8 % of napa %s as coarse sea salt "for the soak"
weigh fish_sauce = 40 g per kg of napa
weigh garlic = 20 g per kg of napa
weigh gochugaru = 30 g per kg of napa
)";

std::string with(const char* text, const char* part) {
    std::string s = text;
    return s.replace(s.find("%s"), 2, part);
}

TEST(Weigh, counts_what_stays_of_a_discarded_soak) {
    const Outcome o = weigh(with(kimchi, "discarded keeps 20..30 %"));
    ASSERT_TRUE(o.out) << o.said;
    const SaltJudgement& s = *o.out->salt;
    EXPECT_EQ(s.figure.basis, larder::Basis::of_everything);
    // By hand: soak 160 g, 20 to 30 % of it stays; fish sauce 80 g at 19.96 % is 15.97 g.
    const double low =
        (158.5 * 0.2 + 78.5 * 0.1996) / (2000 + 1.5 + 158.5 * 0.2 + 81.5 + 41.5 + 61.5);
    EXPECT_NEAR(s.figure.bounds.low, 100 * low, 0.1);
    EXPECT_EQ(s.verdict, Verdict::inside);
}

TEST(Weigh, is_undecided_never_below_where_nobody_says_what_stays) {
    const Outcome o = weigh(with(kimchi, "discarded"));
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_EQ(o.out->salt->verdict, Verdict::undecided);
    EXPECT_THAT(o.out->salt->reason, HasSubstr("soak"));
    EXPECT_THAT(o.out->salt->decides, HasSubstr("keeps"));
}

TEST(Weigh, lets_a_later_measure_settle_it) {
    const std::string text = with(kimchi, "discarded") +
                             "measure stayed about 30..70 g replaces soak \"salt that stayed\"\n";
    const Outcome open = weigh(text);
    ASSERT_TRUE(open.out) << open.said;
    EXPECT_EQ(open.out->salt->verdict, Verdict::inside)
        << open.out->salt->figure.bounds.low << " " << open.out->salt->figure.bounds.high;
    const Outcome done = weigh(text, {"stayed=24g"});
    ASSERT_TRUE(done.out) << done.said;
    EXPECT_EQ(done.out->salt->verdict, Verdict::below);
}

TEST(Weigh, counts_only_what_is_poured_of_a_brine) {
    const Outcome o = weigh("recipe \"Carrot sticks\"\nkind roots\ngiven carrot = 500 g\n"
                            "brine stock = 5 % of water, make 1 L as canning salt\n"
                            "weigh poured = 400 g as stock\n");
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->stocks.size(), 1u);
    const Stock& s = o.out->stocks[0];
    // 5 % of the water is 4.762 % of the brine: 1 L at about 1.0325 g/mL (brine table at 20 °C).
    EXPECT_NEAR(s.made_g, 1032.5, 1);
    EXPECT_NEAR(s.salt.exact_g, 49.2, 0.1);
    EXPECT_NEAR(s.water.exact_g, 983.3, 1);
    EXPECT_NEAR(s.left_g, 632.5, 1);
    // 400 g of what is mixed, 49 g of salt in 983 g of water, to 500 g of carrot.
    const double in_it = 49.0 / (49 + 983);
    EXPECT_NEAR(o.out->salt->figure.percent, 100 * 400 * in_it / (500 + 400 * (1 - in_it)), 1e-9);
    EXPECT_EQ(o.out->salt->verdict, Verdict::inside);
}

// A salt that is not all salt brings less of it, also by way of a stock.
TEST(Weigh, counts_of_the_salt_in_a_brine_only_what_is_salt) {
    const auto jar = [](const std::string& purity) {
        return weigh("recipe \"Carrot sticks\"\nkind roots\n"
                     "material \"grey salt\" is salt salt " +
                     purity +
                     " source \"the sack\"\ngiven carrot = 500 g\n"
                     "brine stock = 6 % of water, make 1 L as grey salt\n"
                     "weigh poured = 400 g as stock\n");
    };
    const Outcome pure = jar("100 %");
    const Outcome damp = jar("90 %");
    const Outcome between = jar("90..96 %");
    for (const Outcome* o : {&pure, &damp, &between})
        ASSERT_TRUE(o->out && o->out->salt) << o->said;
    const auto& all = pure.out->salt->figure;
    const auto& less = damp.out->salt->figure;
    EXPECT_NEAR(less.percent, 0.90 * all.percent, 1e-9);
    EXPECT_NEAR(less.bounds.low, 0.90 * all.bounds.low, 1e-9);
    EXPECT_NEAR(less.bounds.high, 0.90 * all.bounds.high, 1e-9);
    const auto& open = between.out->salt->figure;
    EXPECT_NEAR(open.bounds.low, 0.90 * all.bounds.low, 1e-9);
    EXPECT_NEAR(open.bounds.high, 0.96 * all.bounds.high, 1e-9);
}

TEST(Weigh, refuses_a_brine_that_cannot_be) {
    const Outcome o = weigh("recipe \"Too much\"\ngiven carrot = 500 g\n"
                            "brine stock = 42 % of water, make 1 L\n"
                            "weigh poured = 400 g as stock\n");
    EXPECT_THAT(o.codes, Contains("over-saturated")) << o.said;
}

TEST(Weigh, judges_a_layer_on_top_both_ways) {
    const Outcome o = weigh("recipe \"Capped\"\nkind kraut\ngiven cabbage = 2 kg\n"
                            "weigh salt = 2.4 % of cabbage as canning salt\n"
                            "cap layer = 30 g as canning salt\n");
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_EQ(o.out->salt->variants.size(), 1u);
    EXPECT_EQ(o.out->salt->verdict, Verdict::above) << "dissolved it is 78 / 2000 = 3.9 %";
    EXPECT_EQ(o.out->salt->variants[0].verdict, Verdict::inside);
}

TEST(Weigh, works_out_the_brine_between_cucumbers) {
    const Outcome o = weigh("recipe \"Half-sours\"\nkind cucumbers\ngiven cucumbers = 600 g\n"
                            "let packed = 0.58 kg/L\nweigh water = cover(cucumbers, packed)\n"
                            "weigh salt = 3.5 % of (cucumbers + water) as canning salt\n"
                            "fill cucumbers / packed\nheadspace 3 cm\n");
    ASSERT_TRUE(o.out) << o.said;
    // 600/0.58 mL of room less 600/0.96 mL of cucumber, by the density of water.
    EXPECT_NEAR(item(*o.out, "water")->exact_g, (600 / 0.58 - 600 / 0.96) * 0.9982, 0.5);
    EXPECT_EQ(o.out->salt->verdict, Verdict::inside);
    EXPECT_THAT(o.out->salt->low->status, HasSubstr("common practice"));
    ASSERT_TRUE(o.out->room);
    EXPECT_NEAR(o.out->room->fill_ml, 600 / 0.58, 1e-9);
    EXPECT_NEAR(*o.out->room->headspace_cm, 3, 1e-12);
}

TEST(Weigh, offers_the_published_top_up_where_the_recipe_is_silent) {
    const Outcome o = weigh(kraut);
    ASSERT_TRUE(o.out) << o.said;
    ASSERT_TRUE(o.out->top_up);
    EXPECT_FALSE(o.out->top_up->stated);
    EXPECT_NEAR(o.out->top_up->percent, 2.86, 1e-9);
    const Outcome own = weigh(std::string(kraut) + "topup 2 %\n");
    ASSERT_TRUE(own.out) << own.said;
    EXPECT_TRUE(own.out->top_up->stated);
    EXPECT_DOUBLE_EQ(own.out->top_up->salt_g, 5); // 2 g per 100 g, a glass of 250 g
}

TEST(Weigh, shows_what_spoons_alone_would_come_to) {
    const Outcome o = weigh("recipe \"By the spoon\"\nkind kraut\ngiven cabbage = 25 lb\n"
                            "weigh salt = 3/4 us cup per 25 lb of cabbage as canning salt\n");
    ASSERT_TRUE(o.out) << o.said;
    const Item* salt = item(*o.out, "salt");
    ASSERT_TRUE(salt->written_ml && salt->spread_g);
    EXPECT_NEAR(*salt->written_ml, 177.441, 1e-3);
    EXPECT_LT(salt->spread_g->low, salt->exact_g);
    EXPECT_GT(salt->spread_g->high, salt->exact_g);
    ASSERT_TRUE(o.out->salt->by_the_spoon);
    EXPECT_NEAR(o.out->salt->by_the_spoon->low, 1.8, 0.06);
    EXPECT_NEAR(o.out->salt->by_the_spoon->high, 2.0, 0.02);
}

TEST(Weigh, lets_a_measure_grow_with_the_batch) {
    const char* text = "recipe \"Drained\"\nkind kraut\ngiven cabbage = 1 kg\n"
                       "weigh salt = 2.5 % of cabbage as canning salt\n"
                       "measure drained about 90..100 % of cabbage replaces cabbage\n";
    const Outcome o = weigh(text, {"cabbage=2kg"});
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(item(*o.out, "drained")->exact_g, 1900, 1e-9);
    // What is a share of something weighed has the error of that, too: 1.5 g either way.
    EXPECT_NEAR(item(*o.out, "drained")->truth.low, 0.9 * (2000 - 1.5), 1e-6);
    EXPECT_NEAR(item(*o.out, "drained")->truth.high, 2000 + 1.5, 1e-6);
    EXPECT_NEAR(o.out->in_jar_g, 1950, 1e-6) << "the cabbage that was replaced does not count";
    EXPECT_THAT(weigh("recipe \"D\"\ngiven cabbage = 1 kg\n"
                      "measure drained about 1..2 kg of cabbage replaces cabbage\n")
                    .codes,
                Contains("wrong-dimension"));
    EXPECT_THAT(weigh("recipe \"D\"\ngiven cabbage = 1 kg\n"
                      "measure drained about 90 % of cabage replaces cabbage\n")
                    .codes,
                Contains("unknown-name"));
}

// ---- Faults ----

TEST(Compile, refuses_each_fault_with_its_code) {
    const std::pair<const char*, const char*> cases[] = {
        {"kind krout\ngiven cabbage = 1 kg\n", "unknown-kind"},
        {"kind kraut sideways\ngiven cabbage = 1 kg\n", "unknown-method"},
        {"kind green-beans\ngiven green_beans = 1 kg\n", "method-needed"},
        {"kind kraut\nkind kimchi\ngiven cabbage = 1 kg\n", "duplicate-line"},
        {"given cabbage = 2 L\n", "wrong-dimension"},
        {"given cabbage = 1 kg\ngiven cabbage = 2 kg\n", "duplicate-name"},
        {"given cabbage = 1 kg\nweigh salt = 1 tbsp\n", "vague-material"},
        {"given cabbage = 1 kg\nweigh dill = 10 g\n", "vague-material"},
        {"given cabbage = 1 kg\nweigh soak = 10 g\n", "no-role"},
        {"given cabbage = 1 kg\nweigh x = 10 g as flumboza\n", "unknown-material"},
        {"given cabbage = 1 kg\nweigh sauce = 10 g counts as seasoning\n", "no-salt-content"},
        {"given cabbage = 1 kg\nweigh x = 1 tbsp counts as aromatic\n", "volume-without-material"},
        {"given cabbage = 1 kg\ncount bay = 1 g per kg of cabbage as bay leaf\n",
         "wrong-dimension"},
        {"given cabbage = 1 kg - 2 kg\n", "negative-amount"},
        {"given cabbage = 2000000 g\n", "absurd-amount"},
        {"given cabbage = 1 kg\nlet z = 0 g\nweigh salt = 1 g * (cabbage / z)\n",
         "division-by-zero"},
        {"given cabbage = 1 kg\nweigh salt = 1 g * sqrt(0 - 2)\n", "not-finite"},
        {"given cabbage = 1 kg\nweigh salt = 1 g * (10^(300)) * (10^(300))\n", "not-finite"},
        {"given cabbage = 1 kg\nfill cabbage\n", "wrong-dimension"},
        {"given cabbage = 1 kg\nfill 1 L\nfill 2 L\n", "duplicate-line"},
        {"given cabbage = 1 kg\nheadspace 3 kg\n", "wrong-dimension"},
        {"given cabbage = 1 kg\nheadspace 99 %\n", "absurd-amount"},
        {"given cabbage = 1 kg\ntopup 90 %\n", "absurd-amount"},
        {"given cabbage = 1 kg\nhold cabbage at least 2 %\n", "wrong-dimension"},
        {"given cabbage = 1 kg\nhold cabbage between 2 kg and 1 kg\n", "empty-range"},
        {"total all = 1 kg\nshare carrot = 30 % of all\nshare cabbage = 60 % of all\n",
         "shares-do-not-add-up"},
        {"given cabbage = 1 kg\nshare carrot = 30 % of cabbage\n", "share-of-nothing"},
        {"given cabbage = 1 kg\nmeasure left about 1..2 L replaces cabbage\n", "wrong-dimension"},
        {"given cabbage = 1 kg\nmeasure left about 1..2 kg replaces carrot\n", "unknown-name"},
        {"given cabbage = 1 kg\nweigh salt = 10 g discarded keeps 120 %\n", "absurd-amount"},
        {"given cabbage = 1 kg\nstep \"Add {slat}.\"\n", "unknown-name"},
        {"given cabbage = 1 kg\nweigh water = cover(cabbage, 2 kg)\n", "wrong-dimension"},
    };
    for (const auto& [text, code] : cases) {
        const Outcome o = weigh(std::string("recipe \"Faulty\"\n") + text);
        EXPECT_FALSE(o.out) << text;
        EXPECT_THAT(o.codes, Contains(code)) << text << "\n" << o.said;
        EXPECT_LE(o.codes.size(), 2u) << "one fault, one message: " << o.said;
    }
}

TEST(Compile, refuses_more_than_eight_optional_lines) {
    std::string text = "recipe \"Many\"\ngiven cabbage = 1 kg\n";
    for (char c = 'a'; c <= 'i'; ++c)
        text += std::string("weigh x") + c + " = 1 g optional counts as other\n";
    EXPECT_THAT(weigh(text).codes, ElementsAre("too-many-optional"));
}

// A cap is judged undissolved and dissolved: it doubles the work as an optional line does.
TEST(Compile, counts_caps_among_what_is_judged_both_ways) {
    const auto with = [](int caps, int optional) {
        std::string text = "recipe \"Many\"\nkind kraut\ngiven cabbage = 1 kg\n"
                           "weigh salt = 2.2 % of cabbage as canning salt\n";
        for (int i = 0; i < caps; ++i)
            text +=
                std::string("cap top_") + static_cast<char>('a' + i) + " = 0.1 g as canning salt\n";
        for (int i = 0; i < optional; ++i)
            text += std::string("weigh other_") + static_cast<char>('a' + i) +
                    " = 1 g optional counts as other\n";
        return text;
    };
    for (const auto& [caps, optional] : {std::pair(8, 0), {4, 4}, {1, 7}}) {
        const Outcome o = check(with(caps, optional));
        ASSERT_TRUE(o.check) << caps << " and " << optional << ": " << o.said;
        EXPECT_EQ(o.check->salt->variants.size(), 255u) << caps << " and " << optional;
    }
    for (const auto& [caps, optional] : {std::pair(9, 0), {5, 4}, {1, 8}, {26, 0}})
        EXPECT_THAT(weigh(with(caps, optional)).codes, ElementsAre("too-many-optional"))
            << caps << " and " << optional;
}

TEST(Compile, reports_faults_of_several_rooms_in_one_pass) {
    const Outcome o = weigh("recipe \"Faulty\"\nkind krout\ngiven cabbage = 1 kg + 2 L\n"
                            "weigh salt = 2 % of cabage\nweigh x = 1 g as flumboza\n");
    EXPECT_THAT(o.codes, ::testing::IsSupersetOf({"unknown-kind", "wrong-dimension", "unknown-name",
                                                  "unknown-material"}));
}

TEST(Compile, takes_an_own_material) {
    const Outcome o = weigh("recipe \"Own\"\nkind kraut\n"
                            "material \"garden shrub\" is aromatic density 0.2..0.3 kg/L\n"
                            "given cabbage = 1 kg\nweigh salt = 22 g as canning salt\n"
                            "weigh shrub = 1 us tbsp as garden shrub\n");
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_NEAR(item(*o.out, "shrub")->exact_g, 14.787 * 0.25, 0.01);
}

// ---- Check ----

TEST(Check, judges_a_recipe_as_it_is_written) {
    const Outcome o = check(kraut);
    ASSERT_TRUE(o.check) << o.said;
    EXPECT_NEAR(o.check->salt->figure.bounds.low, 2.2, 1e-9);
    EXPECT_NEAR(o.check->salt->figure.bounds.high, 2.2, 1e-9);
    EXPECT_EQ(o.check->verdict, Verdict::inside);
}

TEST(Check, includes_the_bounds_themselves) {
    for (const char* percent : {"2.0 %", "3.0 %", "2 %", "3 %"}) {
        const Outcome o = check(std::string("recipe \"Edge\"\nkind kraut\ngiven cabbage = 1.80 kg\n"
                                            "weigh salt = ") +
                                percent + " of cabbage as canning salt\n");
        ASSERT_TRUE(o.check) << o.said;
        EXPECT_EQ(o.check->verdict, Verdict::inside) << percent;
    }
}

TEST(Check, tells_below_from_above) {
    const auto at = [](const char* percent) {
        return check(std::string("recipe \"Edge\"\nkind kraut\ngiven cabbage = 1.80 kg\n"
                                 "weigh salt = ") +
                     percent + " of cabbage as canning salt\n");
    };
    EXPECT_EQ(at("1.5 %").check->verdict, Verdict::below);
    EXPECT_EQ(at("3.5 %").check->verdict, Verdict::above);
    EXPECT_EQ(at("2 % ± 0.2 %").check->verdict, Verdict::undecided);
}

TEST(Check, gives_the_worst_verdict_as_weighing_does) {
    const auto text = [](const char* first, const char* second) {
        return std::string("recipe \"Two\"\ngiven cabbage = 1 kg ± 100 g\nweigh carrot = 100 g\n"
                           "hold ") +
               first + "\nhold " + second + "\n";
    };
    const char* undecided = "cabbage at least 1 kg";
    const char* below = "carrot at least 200 g";
    const char* above = "carrot at most 50 g";
    EXPECT_EQ(check(text(undecided, below)).check->verdict, Verdict::below);
    EXPECT_EQ(check(text(below, undecided)).check->verdict, Verdict::below);
    EXPECT_EQ(check(text(above, below)).check->verdict, Verdict::below);
    EXPECT_EQ(check(text(undecided, above)).check->verdict, Verdict::above);
    EXPECT_EQ(weigh(text(undecided, below)).out->verdict, Verdict::below);
}

TEST(Check, says_what_is_stated_as_unsure) {
    const Outcome o = check("recipe \"Unsure\"\nkind kraut\ngiven cabbage = 1.80 kg ± 300 g\n"
                            "weigh salt = 36 g as canning salt\n");
    ASSERT_TRUE(o.check) << o.said;
    EXPECT_EQ(o.check->verdict, Verdict::undecided);
    EXPECT_THAT(o.check->salt->decides, HasSubstr("`1.80 kg ± 300 g` of cabbage"));
}

TEST(Check, does_not_speak_of_optional_lines_where_only_a_cap_is_in_doubt) {
    const std::string head = "recipe \"Cap\"\nkind kraut\ngiven cabbage = 1 kg\n"
                             "weigh salt = 1.5 % of cabbage as canning salt\n";
    const Outcome cap = check(head + "cap top = 8 g as canning salt\n");
    ASSERT_TRUE(cap.check) << cap.said;
    EXPECT_EQ(cap.check->verdict, Verdict::below);
    EXPECT_THAT(cap.check->salt->reason, HasSubstr("top"));
    EXPECT_THAT(cap.check->salt->decides, Not(HasSubstr("optional")));
    const Outcome optional = check(head + "weigh more = 8 g optional as canning salt\n");
    ASSERT_TRUE(optional.check) << optional.said;
    EXPECT_THAT(optional.check->salt->decides, HasSubstr("optional lines"));
}

TEST(Method, counts_as_the_sheet_does) {
    const std::string text = "recipe \"Bay\"\ngiven cabbage = 1 kg\n"
                             "count bay = 1 optional as bay leaf\n"
                             "count clove = 0.2 as whole clove\n"
                             "step \"Add {bay} and {clove}.\"\n";
    const auto added = [](const Outcome& o) {
        return std::pair(o.out->method_lines.at(0).text.at(1).value,
                         o.out->method_lines.at(0).text.at(3).value);
    };
    EXPECT_EQ(added(weigh(text)), std::pair(1.0, 1.0));
    EXPECT_EQ(added(weigh(text, {}, kitchen::default_kitchen(), {"bay"})), std::pair(0.0, 1.0));
}

TEST(Check, has_nothing_to_judge_without_a_kind) {
    const Outcome o = check("recipe \"Plain\"\ngiven cabbage = 1 kg\nweigh salt = 20 g\n");
    ASSERT_TRUE(o.check) << o.said;
    EXPECT_FALSE(o.check->verdict.has_value());
    EXPECT_THAT(o.check->no_salt_reason, HasSubstr("kind"));
}

TEST(Check, gives_no_verdict_inside_to_a_salt_substitute) {
    const Outcome o = check("recipe \"Low\"\nkind kraut\ngiven cabbage = 1 kg\n"
                            "weigh salt = 2.2 % of cabbage as reduced-sodium salt\n");
    ASSERT_TRUE(o.check) << o.said;
    EXPECT_EQ(o.check->verdict, Verdict::undecided);
}

TEST(Compare, takes_bounds_in) {
    using units::Interval;
    EXPECT_EQ(compare(Interval(2, 3), 2, 3), Verdict::inside);
    EXPECT_EQ(compare(Interval(1.99, 3), 2, 3), Verdict::undecided);
    EXPECT_EQ(compare(Interval(1, 1.99), 2, 3), Verdict::below);
    EXPECT_EQ(compare(Interval(3.01, 4), 2, 3), Verdict::above);
    EXPECT_EQ(compare(Interval(1, 4), 2, 3), Verdict::undecided);
    EXPECT_EQ(compare(Interval(5, 6), 5, std::nullopt), Verdict::inside);
    EXPECT_EQ(compare(Interval(4, 4.5), 5, std::nullopt), Verdict::below);
    EXPECT_EQ(compare(units::whole_line, 5, std::nullopt), Verdict::undecided);
}

} // namespace
} // namespace jarful::plan
