#include "engine/plan/counter.hpp"
#include "engine/plan/mend.hpp"
#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

/// What is asked about rather than taken: half-understood materials, percent signs that are
/// missing, measured weights that cannot be meant.
namespace jarful {
namespace {

using plan::Verdict;
using test::Outcome;
using test::weigh;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// ---- Materials ----

Outcome salted_with(const std::string& material) {
    return weigh(
        "recipe \"R\"\nkind kraut\ngiven cabbage = 1 kg\nweigh salt = 2.2 % of cabbage as " +
        material + "\n");
}

TEST(Materials, a_phrase_that_is_half_understood_is_refused_with_what_is_near) {
    for (const char* material :
         {"sea salt and sugar half and half", "not salt", "rock salt for roads", "unsalted salt",
          "organic fine sea salt", "salt free seasoning", "canning salt in water"}) {
        const Outcome o = salted_with(material);
        EXPECT_FALSE(o.out) << material;
        EXPECT_THAT(o.codes, ElementsAre("unknown-material")) << material;
    }
    EXPECT_THAT(salted_with("sea salt and sugar half and half").said, HasSubstr("\"sea salt\""));
    EXPECT_THAT(salted_with("fine see salt").said, HasSubstr("\"fine sea salt\""));
}

TEST(Materials, a_phrase_that_is_wholly_known_is_taken) {
    for (const char* material :
         {"fine sea salt", "Fine Sea-Salt", "canning salts", "pickling salt"})
        EXPECT_TRUE(salted_with(material).out) << material;
}

TEST(Materials, every_line_that_names_one_is_held_to_it) {
    const std::string head = "recipe \"R\"\nkind kraut\ngiven cabbage = 1 kg\n";
    for (const char* line :
         {"topup 2 % as canning salt and sugar", "brine stock = 5 % of water, make 1 L as not salt",
          "cap top = 5 g as rock salt for roads", "count bay = 1 as dried bay leaf of the garden"})
        EXPECT_THAT(weigh(head + line + "\n").codes, Contains("unknown-material")) << line;
}

TEST(Materials, a_salt_of_ones_own_says_how_much_of_it_is_salt) {
    const std::string rest = "given cabbage = 1 kg\nweigh salt = 2.2 % of cabbage as quay mix\n";
    const std::string head = "recipe \"R\"\nkind kraut\n";
    EXPECT_THAT(weigh(head + "material \"quay mix\" is salt\n" + rest).codes,
                ElementsAre("no-salt-content"));
    EXPECT_TRUE(weigh(head + "material \"quay mix\" is salt salt 95..98 %\n" + rest).out);
    // What only says more of a salt that is known keeps its content.
    EXPECT_TRUE(weigh(head + "material \"canning salt\" is salt density 1.1..1.2 kg/L\n"
                             "given cabbage = 1 kg\nweigh salt = 22 g as canning salt\n")
                    .out);
}

// ---- Another share of salt ----

const plan::Item& item_of(const Outcome& o, std::string_view name) {
    for (const auto* list : {&o.out->givens, &o.out->items})
        for (const plan::Item& i : *list)
            if (i.name == name) return i;
    ADD_FAILURE() << "no " << name;
    return o.out->items.front();
}

TEST(Share, of_what_the_range_is_a_percentage_of) {
    const std::string dry = "recipe \"R\"\nkind kraut\ngiven cabbage = 1 kg\n"
                            "weigh carrot = 10 % of cabbage\n"
                            "weigh salt = 2.2 % of cabbage as fine sea salt\n";
    const Outcome o = weigh(dry, {"salt=2.5%"});
    ASSERT_TRUE(o.out && o.out->salt) << o.said;
    EXPECT_NEAR(item_of(o, "salt").exact_g, 0.025 * 1100, 1e-6);
    EXPECT_TRUE(item_of(o, "salt").solved);
    EXPECT_NEAR(o.out->salt->figure.percent, 2.5, 0.05);
    // The batch may be set or asked for beside it.
    EXPECT_NEAR(item_of(weigh(dry, {"salt=2.5%", "cabbage=2kg"}), "salt").exact_g, 55, 1e-6);
    const Outcome asked = weigh(dry + "fill 1.1 * cabbage / 0.9 kg/L\n", {"salt=2.5%", "fill=2L"});
    ASSERT_TRUE(asked.out) << asked.said;
    EXPECT_NEAR(item_of(asked, "salt").exact_g, 0.0275 * item_of(asked, "cabbage").reading_g, 1e-6);
}

TEST(Share, counts_what_brings_salt_besides_and_the_salt_itself) {
    const Outcome o = weigh("recipe \"R\"\nkind kimchi\ngiven napa = 1 kg as napa cabbage\n"
                            "weigh fish = 5 % of napa as fish sauce\n"
                            "weigh salt = 2 % of napa as fine sea salt\n",
                            {"salt=3%"});
    ASSERT_TRUE(o.out) << o.said;
    // (x + 0.1996 * 50) / (1050 + x) = 0.03
    const double brought = 0.1996 * 50;
    EXPECT_NEAR(item_of(o, "salt").exact_g, (0.03 * 1050 - brought) / 0.97, 1e-6);
}

TEST(Share, moves_nothing_to_keep_a_bound) {
    const Outcome o = weigh("recipe \"R\"\nkind kraut\ngiven cabbage = 1 kg\n"
                            "weigh salt = 2.5 % of cabbage as fine sea salt\n"
                            "hold salt / cabbage at least 2.4 %\n",
                            {"salt=2.39%"});
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_EQ(item_of(o, "salt").reading_g, 24);
    EXPECT_NE(o.out->checks.front().verdict, Verdict::inside);
}

TEST(Share, is_refused_where_no_one_weight_of_salt_makes_it) {
    const std::string head = "recipe \"R\"\nkind kraut\ngiven cabbage = 1 kg\n";
    const std::string salt = "weigh salt = 2.2 % of cabbage as fine sea salt\n";
    const auto codes = [](const std::string& text, const std::string& asked) {
        const Outcome o = weigh(text, {asked});
        EXPECT_FALSE(o.out) << text;
        return o.codes;
    };
    EXPECT_THAT(codes(head + salt + "cap top = 5 g as fine sea salt\n", "salt=2.5%"),
                Contains("no-share"));
    EXPECT_THAT(codes("recipe \"R\"\nkind cucumbers in-brine\ngiven cucumbers = 1 kg\n"
                      "brine stock = 5 % of water, make 1 L as fine sea salt\n"
                      "weigh pour = 800 g as stock\n",
                      "salt=2.5%"),
                Contains("no-share"));
    EXPECT_THAT(codes("recipe \"R\"\ngiven cabbage = 1 kg\n" + salt, "salt=2.5%"),
                Contains("no-share"));
    EXPECT_THAT(codes(head + salt, "salt=0%"), Contains("no-share"));
    EXPECT_THAT(codes(head + salt, "salt=100%"), Contains("no-share"));
    EXPECT_THAT(codes(head + salt + "weigh flakes = 30 g as fine sea salt\n", "salt=2.5%"),
                Contains("no-answer"));
    EXPECT_THAT(codes(head + salt, "cabbage=2.5%"), Contains("wrong-dimension"));
}

// ---- Percent signs ----

TEST(Percent, salt_without_its_sign_is_asked_about) {
    for (const char* salt : {"2.2 of cabbage", "max(2.2 of cabbage, 20 g)",
                             "(2.2 of cabbage) + 3 g", "2.2 of (cabbage + water)"}) {
        const Outcome o = weigh("recipe \"R\"\nkind kraut\ngiven cabbage = 1 kg\n"
                                "weigh water = 3 of cabbage\nweigh salt = " +
                                std::string(salt) + "\n");
        EXPECT_FALSE(o.out) << salt;
        EXPECT_THAT(o.codes, ElementsAre("missing-percent")) << salt;
    }
}

TEST(Percent, salt_of_more_than_half_of_the_rest_is_asked_about_however_it_is_written) {
    for (const char* salt :
         {"2.2 * cabbage", "rate * cabbage", "rate of cabbage", "3 kg", "0.6 of cabbage"})
        EXPECT_THAT(weigh("recipe \"R\"\nkind kraut\ngiven cabbage = 1 kg\nlet rate = 2.2\n"
                          "weigh salt = " +
                          std::string(salt) + "\n")
                        .codes,
                    ElementsAre("too-much-salt"))
            << salt;
}

TEST(Percent, water_and_twice_another_salt_are_not) {
    const Outcome o = weigh("recipe \"R\"\nkind cucumbers\ngiven cucumbers = 1 kg\n"
                            "weigh water = 2 of cucumbers\n"
                            "weigh salt = 1 % of (cucumbers + water) as fine sea salt\n"
                            "weigh salt_later = 2 of salt as fine sea salt\n");
    EXPECT_TRUE(o.out) << o.said;
    EXPECT_TRUE(weigh("recipe \"R\"\nkind lemons\ngiven lemons = 1 kg as lemon\n"
                      "weigh salt = 0.25 of lemons\n")
                    .out);
}

// ---- Nothing judged ----

TEST(Unjudged, weigh_and_check_say_that_there_is_no_verdict) {
    const std::string text = "recipe \"R\"\ngiven cabbage = 1 kg\nweigh salt = 2 % of cabbage\n";
    const Outcome o = weigh(text);
    ASSERT_TRUE(o.out) << o.said;
    EXPECT_FALSE(o.out->verdict);
    const Outcome held = weigh(text + "hold salt at least 30 g\n");
    ASSERT_TRUE(held.out) << held.said;
    EXPECT_EQ(held.out->verdict, Verdict::below);
}

// ---- What is measured ----

const std::string kimchi =
    "recipe \"Kimchi\"\nkind kimchi\ngiven napa = 1.5 kg as napa cabbage\n"
    "weigh bath = 100 % of napa discarded as water\n"
    "weigh bath_salt = 6 % of bath discarded keeps 15..30 % as coarse sea salt\n"
    "measure drained about 72..88 % of napa replaces napa\n"
    "weigh salt = 1.6 % of drained as fine sea salt\n";

TEST(Measured, what_is_far_from_what_is_expected_is_asked_about) {
    for (const char* drained : {"drained=3kg", "drained=2kg", "drained=0.6kg", "drained=120g"}) {
        const Outcome o = weigh(kimchi, {drained});
        EXPECT_FALSE(o.out) << drained;
        EXPECT_THAT(o.codes, ElementsAre("measured-unlikely")) << drained;
    }
    EXPECT_THAT(weigh(kimchi, {"drained=2kg"}).said, HasSubstr("1.08 kg to 1.32 kg"));
    for (const char* drained : {"drained=1.2kg", "drained=1kg", "drained=1.5kg"})
        EXPECT_THAT(weigh(kimchi, {drained}).codes, IsEmpty()) << drained;
    // What it is measured by is what the cook says.
    EXPECT_THAT(weigh(kimchi, {"napa=3kg", "drained=2.4kg"}).codes, IsEmpty());
    EXPECT_THAT(weigh(kimchi, {"drained=2.4kg", "napa=3kg"}).codes, IsEmpty());
}

Outcome meant(const std::string& text, const std::vector<std::string>& settings,
              const std::vector<std::string>& poured = {}) {
    return test::weigh_with(text, [&](plan::Request& request) {
        language::Findings ignored;
        for (const std::string& s : settings) {
            request.settings.push_back(*plan::read_setting(s, ignored));
            request.settings.back().certain = true;
        }
        for (const std::string& s : poured)
            request.poured.push_back(*plan::read_setting(s, ignored));
    });
}

TEST(Measured, what_is_meant_is_taken_and_judged_and_more_than_went_in_is_not) {
    const Outcome o = meant(kimchi, {"drained=2kg"});
    ASSERT_TRUE(o.out) << o.said;
    std::string wide = kimchi;
    wide.replace(wide.find("72..88"), 6, "60..140"); // where nobody asks
    const Outcome unasked = weigh(wide, {"drained=2kg"});
    ASSERT_TRUE(unasked.out) << unasked.said;
    EXPECT_EQ(o.out->verdict, unasked.out->verdict);
    EXPECT_EQ(o.out->salt->figure.bounds.low, unasked.out->salt->figure.bounds.low);
    EXPECT_EQ(o.out->salt->figure.bounds.high, unasked.out->salt->figure.bounds.high);
    // Napa, bath and its salt are 3.09 kg: swollen cabbage is no more than that.
    EXPECT_TRUE(meant(kimchi, {"drained=3kg"}).out);
    for (const char* drained : {"drained=3.2kg", "drained=31kg"})
        EXPECT_THAT(meant(kimchi, {drained}).codes, ElementsAre("measured-impossible")) << drained;
    // Dried things swell.
    EXPECT_TRUE(weigh("recipe \"R\"\ngiven mushrooms = 100 g counts as vegetable\n"
                      "weigh water = 1 L discarded\n"
                      "measure soaked about 400..600 % of mushrooms replaces mushrooms\n",
                      {"soaked=500g"})
                    .out);
}

TEST(Measured, what_was_poured_is_what_it_is_held_against) {
    EXPECT_THAT(meant(kimchi, {}, {"napa=3kg", "drained=2.4kg"}).codes, IsEmpty());
    EXPECT_THAT(meant(kimchi, {}, {"drained=2.4kg"}).codes, ElementsAre("measured-unlikely"));
}

TEST(Bath, its_salt_is_not_chosen_once_what_follows_it_is_weighed) {
    // Bounds that the nearest readings miss by little, so that others are looked for.
    const auto coarse = test::kitchen_of("kitchen \"K\"\nscale s reads 5 g up to 5 kg\n");
    for (const char* least : {"2.2", "2.35"}) {
        const std::string held = kimchi + "hold all_salt / everything at least " + least + " %\n";
        for (int grams = 1180; grams <= 1300; grams += 20) {
            const Outcome o = weigh(held, {"drained=" + std::to_string(grams) + "g"}, coarse);
            ASSERT_TRUE(o.out) << o.said;
            for (const plan::Item& item : o.out->items) {
                if (!item.name.starts_with("bath")) continue;
                EXPECT_FALSE(item.moved) << grams << ": " << item.name;
                EXPECT_EQ(item.reading_g, item.name == "bath" ? 1500 : 90) << grams;
            }
        }
    }
}

TEST(Bath, nothing_is_asked_of_it_when_it_is_over) {
    EXPECT_THAT(weigh(kimchi, {"drained=1.2kg", "bath_salt=80g"}).codes, ElementsAre("bath-over"));
    EXPECT_TRUE(weigh(kimchi, {"bath_salt=80g"}).out);
    // The salt of the paste is; but no napa comes into a bath that is poured off.
    EXPECT_THAT(weigh(kimchi, {"drained=1.2kg", "salt=25g"}).codes, ElementsAre("nothing-to-move"));
}

TEST(Bath, a_larger_batch_is_not_reckoned_from_its_salt) {
    language::Findings findings;
    const language::Document doc =
        language::parse(language::Source("test.jarful", kimchi + "weigh daikon = 20 % of drained\n"
                                                                 "weigh leek = 10 % of drained\n"),
                        findings);
    plan::MendRequest request;
    language::Findings own;
    request.request.settings.push_back(*plan::read_setting("drained=1.2kg", own));
    request.request.poured.push_back(*plan::read_setting("salt=120g", own));
    plan::MendFindings found;
    const kitchen::Kitchen kitchen = kitchen::default_kitchen();
    const auto out = plan::mend(doc, kitchen, request, findings, found);
    ASSERT_TRUE(out);
    for (const plan::Way& way : out->ways)
        for (const plan::Addition& add : way.add)
            EXPECT_FALSE(std::string(add.name).starts_with("bath")) << way.text;
}

TEST(Measured, at_the_counter_yes_says_that_it_is_so) {
    language::Findings findings;
    const language::Document doc =
        language::parse(language::Source("test.jarful", kimchi), findings);
    const kitchen::Kitchen kitchen = kitchen::default_kitchen();
    plan::Counter counter(doc, kitchen, {});
    ASSERT_TRUE(counter.open().after);
    EXPECT_THAT(counter.say("yes").notes, ElementsAre("Nothing was doubted."));
    const plan::CounterReply asked = counter.say("drained=2kg");
    ASSERT_EQ(asked.refusals.size(), 1u);
    EXPECT_EQ(asked.refusals[0].findings.all()[0].code, "measured-unlikely");
    const plan::CounterReply taken = counter.say("yes");
    ASSERT_TRUE(taken.after);
    EXPECT_EQ(taken.sort, plan::CounterReply::Sort::changed);
    // Another weight is doubted anew.
    EXPECT_EQ(counter.say("drained=2.1kg").refusals.size(), 1u);
    EXPECT_THAT(counter.say("sheet").refusals, IsEmpty());
    EXPECT_THAT(counter.say("yes").notes, ElementsAre("Nothing was doubted."));
}

} // namespace
} // namespace jarful
