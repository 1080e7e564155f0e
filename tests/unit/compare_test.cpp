#include "engine/plan/compare.hpp"
#include "engine/plan/compare_texts.hpp"
#include "engine/render/compare_report.hpp"
#include "tests/support/recipe.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>

namespace jarful {
namespace {

using plan::ComparedLine;
using plan::ComparedText;
using plan::Comparison;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

const std::string kraut = "recipe \"Kraut\" version 1\nkind kraut\n"
                          "given cabbage = 1.80 kg\n"
                          "weigh salt = 2.2 % of cabbage as fine sea salt\n"
                          "count bay = 1 per kg of cabbage as bay leaf\n"
                          "fill cabbage / 0.9 kg/L\nheadspace 12 %\n"
                          "hold salt / cabbage between 2.0 % and 2.5 %\n"
                          "step \"Rub {salt} into {cabbage}.\"\n"
                          "step \"Press.\"\n"
                          "tend burp every 1 day from day 1 to day 7\n"
                          "tend taste every 3 days from day 14\n";

std::string with(std::string text, const std::string& was, const std::string& is) {
    const std::size_t at = text.find(was);
    EXPECT_NE(at, std::string::npos) << was;
    return text.replace(at, was.size(), is);
}

class Comparing : public ::testing::Test {
  protected:
    std::optional<Comparison> compare(const std::string& before, const std::string& after,
                                      const std::vector<std::string>& settings = {}) {
        const language::Document a = parsed(before);
        const language::Document b = parsed(after);
        plan::Request request;
        for (const std::string& text : settings) {
            language::Findings findings;
            request.settings.push_back(*plan::read_setting(text, findings));
        }
        plan::CompareSide old{a, {}, {}, {}};
        plan::CompareSide present{b, {}, {}, {}};
        auto out = plan::compare(old, present, test::kitchen_of(kitchen_), request);
        codes_.clear();
        for (const plan::CompareSide* side : {&old, &present})
            for (const auto& list : side->request.settings)
                for (const language::Diagnostic& d : list.all())
                    codes_.push_back(d.code);
        return out;
    }

    static const ComparedLine& line(const Comparison& c, std::string_view name) {
        for (const ComparedLine& l : c.lines)
            if (l.name == name) return l;
        throw std::runtime_error("no such line");
    }

    std::vector<std::string> codes_;

  private:
    static language::Document parsed(const std::string& text) {
        language::Findings findings;
        auto out = language::parse(*language::read_source("test.jarful", text, findings), findings);
        EXPECT_THAT(findings.all(), IsEmpty());
        return out;
    }
    const std::string kitchen_ = "kitchen \"Quay Street\"\n"
                                 "scale pocket reads 0.1 g up to 5 kg within 0.1 g\n"
                                 "jar tall holds 1.50 L brimful across 10 cm have 3\n";
};

TEST_F(Comparing, what_moved_or_was_spelt_otherwise_is_no_difference) {
    const auto c = compare(kraut, "# our kraut\nkind kraut\nrecipe \"Kraut\" version 1\n"
                                  "tend taste every 72 h from day 14\n"
                                  "tend burp every 24 h from day 1 to day 7\n"
                                  "headspace 12%\n"
                                  "hold salt / cabbage between 2.0% and 2.5%\n\n"
                                  "weigh salt = 0.022 * cabbage   as fine sea salt\n"
                                  "given cabbage = 1800 g\n"
                                  "count bay = 1 per kg of cabbage as bay leaf\n"
                                  "let packed = 0.9 kg/L\nfill cabbage / packed\n"
                                  "step \"Rub {salt} into {cabbage}.\"\nstep \"Press.\"\n");
    ASSERT_TRUE(c);
    for (const ComparedLine& l : c->lines)
        EXPECT_FALSE(l.differs()) << l.name;
    EXPECT_THAT(c->holds, IsEmpty());
    EXPECT_THAT(c->method, IsEmpty());
    // A day and 24 h are the same time, but not the same words.
    EXPECT_THAT(c->later, SizeIs(2));
    EXPECT_THAT(c->aside, IsEmpty());
}

TEST_F(Comparing, shows_a_change_of_the_salt_in_grams_and_verdicts) {
    const auto c = compare(kraut, with(kraut, "2.2 %", "1.5 %"));
    ASSERT_TRUE(c);
    EXPECT_FALSE(c->same());
    const ComparedLine& salt = line(*c, "salt");
    EXPECT_NEAR(salt.before->exact_g, 39.6, 1e-9);
    EXPECT_NEAR(salt.after->exact_g, 27.0, 1e-9);
    EXPECT_NEAR(*salt.before->share_percent, 2.2, 1e-9);
    EXPECT_NEAR(*salt.after->share_percent, 1.5, 1e-9);
    EXPECT_TRUE(c->salt_differs);
    EXPECT_EQ(c->salt_before.salt->verdict, plan::Verdict::inside);
    EXPECT_EQ(c->salt_after.salt->verdict, plan::Verdict::below);
    EXPECT_FALSE(line(*c, "cabbage").differs());
    EXPECT_EQ(c->batch, "cabbage = 1.8 kg");
}

TEST_F(Comparing, is_for_the_same_batch_whatever_each_is_written_for) {
    const std::string bigger = with(kraut, "1.80 kg", "2.50 kg");
    const auto c = compare(kraut, bigger);
    ASSERT_TRUE(c);
    EXPECT_TRUE(c->same());
    EXPECT_THAT(c->aside, ElementsAre("Written for cabbage = 2.5 kg, before cabbage = 1.8 kg."));
    const auto set = compare(kraut, bigger, {"cabbage=1kg"});
    ASSERT_TRUE(set);
    EXPECT_NEAR(line(*set, "salt").before->exact_g, 22, 1e-9);
    EXPECT_NEAR(line(*set, "salt").after->exact_g, 22, 1e-9);
}

TEST_F(Comparing, two_recipes_with_one_given_each_are_made_for_as_much) {
    const std::string radish = "recipe \"Radish\"\nkind radish\ngiven daikon = 700 g\n"
                               "weigh salt = 2.5 % of daikon as fine sea salt\n";
    const auto c = compare(kraut, radish);
    ASSERT_TRUE(c);
    EXPECT_NEAR(line(*c, "cabbage").before->exact_g, 700, 1e-9);
    EXPECT_FALSE(line(*c, "cabbage").after);
    EXPECT_NEAR(line(*c, "daikon").after->exact_g, 700, 1e-9);
    EXPECT_EQ(c->kind_after, "radish");
    const auto set = compare(kraut, radish, {"cabbage=1kg"});
    ASSERT_TRUE(set);
    EXPECT_NEAR(line(*set, "daikon").after->exact_g, 1000, 1e-9);
    EXPECT_NEAR(line(*set, "salt").after->exact_g, 25, 1e-9);
}

TEST_F(Comparing, the_same_jar_asks_each_for_its_own_batch) {
    const auto c = compare(kraut, with(kraut, "headspace 12 %", "headspace 20 %"), {"jar=tall"});
    ASSERT_TRUE(c);
    EXPECT_NEAR(line(*c, "cabbage").before->exact_g, 1188, 1);
    EXPECT_NEAR(line(*c, "cabbage").after->exact_g, 1080, 1);
    EXPECT_THAT(c->batch, HasSubstr("(before: "));
    EXPECT_TRUE(c->headspace_percent.differs());
}

TEST_F(Comparing, says_what_else_of_a_line_is_another) {
    const auto c =
        compare(kraut, with(kraut, "as fine sea salt", "as canning salt \"not the flakes\""));
    ASSERT_TRUE(c);
    const ComparedLine& salt = line(*c, "salt");
    EXPECT_FALSE(salt.amount_differs);
    EXPECT_THAT(salt.remarks, ElementsAre("as: canning salt, before fine sea salt",
                                          "words: not the flakes, before nothing said"));
    EXPECT_FALSE(c->same());
}

TEST_F(Comparing, lines_that_appeared_and_went) {
    const auto c =
        compare(kraut, with(kraut, "count bay = 1 per kg of cabbage as bay leaf\n",
                            "weigh caraway = 1.5 g per kg of cabbage as caraway seed\n"));
    ASSERT_TRUE(c);
    EXPECT_FALSE(line(*c, "caraway").before);
    EXPECT_NEAR(line(*c, "caraway").after->exact_g, 2.7, 1e-9);
    EXPECT_FALSE(line(*c, "bay").after);
    EXPECT_TRUE(line(*c, "bay").before->pieces);
}

TEST_F(Comparing, bounds_steps_and_times) {
    std::string changed = with(kraut, "2.5 %\nstep", "2.4 % \"firmer\"\nstep");
    changed = with(changed, "step \"Press.\"\n", "rest 30 min\nstep \"Press.\"\n");
    changed = with(changed, "to day 7", "to day 9");
    const auto c = compare(kraut, changed);
    ASSERT_TRUE(c);
    ASSERT_THAT(c->holds, SizeIs(1));
    EXPECT_EQ(c->holds[0].after, "hold salt / cabbage between 2.0 % and 2.4 % \"firmer\"");
    ASSERT_THAT(c->method, SizeIs(1));
    EXPECT_EQ(c->method[0].sort, ComparedText::Sort::appeared);
    EXPECT_EQ(c->method[0].after, "rest 30 min");
    ASSERT_THAT(c->later, SizeIs(1));
    EXPECT_EQ(c->later[0].sort, ComparedText::Sort::changed);
    EXPECT_FALSE(c->salt_differs);
}

TEST_F(Comparing, a_step_that_moved_is_another_method) {
    std::string moved = with(kraut, "step \"Press.\"\n", "");
    moved = with(moved, "step \"Rub", "step \"Press.\"\nstep \"Rub");
    const auto c = compare(kraut, moved);
    ASSERT_TRUE(c);
    ASSERT_THAT(c->method, SizeIs(1));
    EXPECT_EQ(c->method[0].sort, ComparedText::Sort::moved);
    EXPECT_FALSE(c->same());
}

TEST_F(Comparing, what_no_recipe_knows_is_refused) {
    EXPECT_FALSE(compare(kraut, kraut, {"turnip=1kg"}));
    EXPECT_THAT(codes_, ElementsAre("unknown-name", "unknown-name"));
}

TEST_F(Comparing, comes_out_as_documented) {
    const auto c = compare(kraut, with(with(kraut, "2.2 %", "2.4 %"), "count bay", "count leaf"));
    ASSERT_TRUE(c);
    const std::string text = render::compare_json(*c, {"before", "now"});
    EXPECT_EQ(testing::DocumentedSchema("compare").faults(nlohmann::json::parse(text)), "");
    const auto same = compare(kraut, kraut);
    ASSERT_TRUE(same);
    EXPECT_EQ(testing::DocumentedSchema("compare").faults(
                  nlohmann::json::parse(render::compare_json(*same, {"a", "b"}))),
              "");
    EXPECT_THAT(render::compare_text(*same, {"a", "b"}, {}), HasSubstr("The food is the same."));
    EXPECT_THAT(render::compare_text(*same, {"a", "b"}, {}), Not(HasSubstr("Salt")));
}

TEST_F(Comparing, markup_in_a_recipe_is_text_in_markdown) {
    const auto c = compare(kraut, with(kraut, "\"Kraut\"", "\"<b>Kraut</b> | [x](y)\""));
    ASSERT_TRUE(c);
    const std::string text = render::compare_markdown(*c, {"a|b", "c"}, render::Units::metric);
    EXPECT_THAT(text, HasSubstr("\\<b>Kraut\\</b> \\| \\[x\\](y)"));
    EXPECT_THAT(text, HasSubstr("a\\|b"));
}

TEST(ComparingTexts, finds_the_least_that_changed) {
    using plan::KeyedText;
    const std::vector<KeyedText> before{{"step", "a"}, {"step", "b"}, {"rest", "c"}, {"step", "d"}};
    const std::vector<KeyedText> after{{"step", "a"}, {"rest", "c"}, {"step", "e"}, {"step", "b"}};
    const auto ordered = plan::compare_texts(before, after, true);
    ASSERT_THAT(ordered, SizeIs(2));
    EXPECT_EQ(ordered[0].sort, ComparedText::Sort::changed);
    EXPECT_EQ(ordered[0].before, "d");
    EXPECT_EQ(ordered[0].after, "e");
    EXPECT_EQ(ordered[1].sort, ComparedText::Sort::moved);
    EXPECT_EQ(ordered[1].after, "b");
    EXPECT_THAT(plan::compare_texts(before, before, true), IsEmpty());
    EXPECT_THAT(plan::compare_texts({}, after, true), SizeIs(4));
    EXPECT_THAT(plan::compare_texts(before, {}, true), SizeIs(4));
}

} // namespace
} // namespace jarful
