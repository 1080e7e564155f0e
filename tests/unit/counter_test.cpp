#include "engine/plan/counter.hpp"
#include "engine/render/counter_report.hpp"
#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

namespace jarful::plan {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr const char* kraut = "recipe \"Kraut\"\nkind kraut\n"
                              "given cabbage = 1.80 kg\n"
                              "weigh apple = 8 % of cabbage optional counts as vegetable\n"
                              "weigh salt = 2.2 % of (cabbage + apple) as fine sea salt\n"
                              "count bay = 1 per kg of cabbage as bay leaf\n"
                              "fill (cabbage + apple) / 0.9 kg/L\nheadspace 12 %\n"
                              "hold salt at most 60 g\n";

class AtTheCounter : public ::testing::Test {
  protected:
    void begin(const std::string& text = kraut) {
        kitchen_ = test::kitchen_of("kitchen \"Quay Street\"\n"
                                    "scale bench  reads 1 g   up to 5 kg  within 1 g\n"
                                    "scale pocket reads 0.1 g up to 500 g within 0.1 g\n"
                                    "jar tall  holds 1.50 L brimful across 10 cm have 3\n"
                                    "jar squat holds 0.75 L brimful across 9 cm have 4\n");
        auto source = language::read_source("test.jarful", text, findings_);
        recipe_ = language::parse(std::move(*source), findings_);
        counter_.emplace(recipe_, kitchen_, Request{});
        ASSERT_TRUE(counter_->open().refusals.empty());
    }

    /// The answer to a line; refusals by their codes.
    std::string say(const std::string& line) {
        const CounterReply reply = counter_->say(line);
        codes_.clear();
        for (const auto& refusal : reply.refusals)
            for (const auto& d : refusal.findings.all()) {
                codes_.push_back(d.code);
                advice_ = d.advice;
                if (d.place) {
                    EXPECT_LE(d.place->end, refusal.text.size() + 1);
                }
            }
        quit_ = reply.sort == CounterReply::Sort::quit;
        return render::counter_text(reply, {});
    }

    double salt_g() const {
        for (const Item& i : counter_->now()->items)
            if (i.name == "salt") return i.reading_g;
        return -1;
    }

    language::Findings findings_;
    language::Document recipe_;
    kitchen::Kitchen kitchen_;
    std::optional<Counter> counter_;
    std::vector<std::string> codes_;
    std::string advice_;
    bool quit_ = false;
};

TEST_F(AtTheCounter, shows_only_what_changed) {
    begin();
    const std::string answer = say("cabbage=1.84kg");
    EXPECT_THAT(answer, HasSubstr("cabbage       1800 g → 1840 g\n"));
    EXPECT_THAT(answer, HasSubstr("salt          42.8 g → 43.7 g\n"));
    EXPECT_THAT(answer, Not(HasSubstr("bay"))); // two, as before
    EXPECT_THAT(answer, Not(HasSubstr("BOUND")));
    EXPECT_EQ(say("cabbage=1.84kg"), "  Nothing changes.\n");
    EXPECT_EQ(say("  "), "");
    EXPECT_EQ(say("# a remark"), "");
}

TEST_F(AtTheCounter, answers_what_weigh_answers) {
    begin();
    const std::vector<std::string> said{"cabbage=1.84kg", "cabbage=2 lb 3 oz", "jar=tall,squat",
                                        "salt=24g", "fill=1.2L"};
    for (const std::string& line : said) {
        say(line);
        EXPECT_THAT(codes_, IsEmpty()) << line;
    }
    const test::Outcome alone = test::weigh(kraut, {"fill=1.2L"}, kitchen_);
    ASSERT_TRUE(alone.out);
    EXPECT_EQ(salt_g(), [&] {
        for (const Item& i : alone.out->items)
            if (i.name == "salt") return i.reading_g;
        return -1.0;
    }());
}

TEST_F(AtTheCounter, takes_a_weight_as_it_is_spoken) {
    begin();
    say("cabbage=1.84kg");
    const double typed = salt_g();
    say("undo");
    say("cabbage 1.84 kg");
    EXPECT_THAT(codes_, IsEmpty());
    EXPECT_EQ(salt_g(), typed);
    say("undo");
    say("1.84kg"); // there is but one given
    EXPECT_THAT(codes_, IsEmpty());
    EXPECT_EQ(salt_g(), typed);
    say("salt 24g");
    EXPECT_EQ(salt_g(), 24);
    say("2");
    EXPECT_THAT(codes_, ElementsAre("wrong-dimension"));
    say("plum 2kg");
    EXPECT_THAT(codes_, ElementsAre("unknown-word"));
}

TEST_F(AtTheCounter, asks_of_what_a_bare_weight_is) {
    begin("recipe \"Two\"\nkind kraut\ngiven cabbage = 1 kg\ngiven carrot = 100 g\n"
          "weigh salt = 2.2 % of (cabbage + carrot) as fine sea salt\n");
    say("1.84kg");
    EXPECT_THAT(codes_, ElementsAre("not-a-setting"));
    EXPECT_THAT(advice_, HasSubstr("`cabbage 1.84kg`"));
    EXPECT_THAT(advice_, HasSubstr("cabbage, carrot"));
}

TEST_F(AtTheCounter, forgets_a_share_of_salt_when_a_weight_of_it_is_asked_for) {
    begin();
    say("salt=2.5%");
    EXPECT_NEAR(salt_g(), 48.6, 0.2);
    say("salt=24g");
    EXPECT_THAT(codes_, IsEmpty());
    EXPECT_EQ(salt_g(), 24);
    say("forget salt");
    EXPECT_NEAR(salt_g(), 42.8, 0.2);
}

TEST_F(AtTheCounter, the_newest_word_counts) {
    begin();
    say("cabbage=1.84kg");
    EXPECT_THAT(say("salt=24g"), HasSubstr("No longer: cabbage=1.84kg."));
    EXPECT_DOUBLE_EQ(salt_g(), 24.0);
    EXPECT_THAT(say("fill=1.2L"), HasSubstr("No longer: salt=24g."));
    EXPECT_THAT(say("cabbage=1kg"), HasSubstr("No longer: fill=1.2L."));
    EXPECT_NEAR(salt_g(), 0.022 * 1080, 0.051);
}

TEST_F(AtTheCounter, lets_go_of_no_more_than_it_must) {
    begin("recipe \"Two\"\nkind kraut\ngiven cabbage = 1 kg\n"
          "given turnip = 1 kg counts as vegetable\n"
          "weigh salt = 2.2 % of (cabbage + turnip) as fine sea salt\n"
          "fill (cabbage + turnip) / 0.9 kg/L\n");
    say("cabbage=600g");
    EXPECT_THAT(say("salt=24g"), Not(HasSubstr("No longer")));
    // The turnip moves for one question and then for the other; the cabbage stays.
    EXPECT_THAT(say("fill=1L"), HasSubstr("No longer: salt=24g."));
    EXPECT_DOUBLE_EQ(counter_->now()->givens[0].reading_g, 600);
    EXPECT_NEAR(counter_->now()->givens[1].reading_g, 300, 1);
}

TEST_F(AtTheCounter, undoes_step_by_step_to_the_beginning) {
    begin();
    const double first = salt_g();
    say("cabbage=1.84kg");
    const double second = salt_g();
    say("without apple");
    say("poured salt=45g");
    say("undo");
    say("undo");
    EXPECT_DOUBLE_EQ(salt_g(), second);
    EXPECT_THAT(say("undo"), HasSubstr("1840 g → 1800 g"));
    EXPECT_DOUBLE_EQ(salt_g(), first);
    EXPECT_THAT(say("undo"), HasSubstr("nothing to undo"));
    say("forget all");
    EXPECT_DOUBLE_EQ(salt_g(), first);
}

TEST_F(AtTheCounter, leaves_out_and_puts_back) {
    begin();
    EXPECT_THAT(say("without apple"), HasSubstr("apple         144.0 g → left out"));
    EXPECT_THAT(say("without apple"), HasSubstr("left out already"));
    EXPECT_THAT(say("with apple"), HasSubstr("apple         144.0 g"));
    say("with apple");
    EXPECT_THAT(codes_, ElementsAre("not-left-out"));
    say("without salt");
    EXPECT_THAT(codes_, ElementsAre("not-optional"));
}

TEST_F(AtTheCounter, judges_what_was_poured) {
    begin();
    EXPECT_EQ(counter_->now()->verdict, Verdict::inside);
    const std::string answer = say("poured salt=80g");
    EXPECT_THAT(answer, HasSubstr("ABOVE"));
    EXPECT_THAT(answer, HasSubstr("BOUND"));
    EXPECT_EQ(counter_->now()->verdict, Verdict::above);
    EXPECT_THAT(say("check"), HasSubstr("ABOVE"));
    EXPECT_THAT(say("forget salt"), HasSubstr("inside"));
}

TEST_F(AtTheCounter, says_of_a_bound_whether_it_is_kept) {
    begin();
    EXPECT_THAT(say("check"), HasSubstr("the house wants at most 60 g: inside"));
    EXPECT_THAT(say("poured salt=62g"), HasSubstr("the house wants at most 60 g: ABOVE"));
    EXPECT_THAT(say("check"), HasSubstr("the house wants at most 60 g: ABOVE"));
}

TEST_F(AtTheCounter, counts_each_jar_in_every_jar) {
    begin("recipe \"Each\"\nkind kraut\ngiven cabbage = 2 kg\n"
          "count onions = 3 each jar as onion\n"
          "weigh salt = 2.6 % of cabbage as canning salt\nfill cabbage / 0.9 kg/L\n");
    EXPECT_THAT(say("check"), HasSubstr("UNDECIDED")) << "six onions in the two jars that hold it";
    say("jar=squat,squat,squat,squat");
    EXPECT_THAT(say("check"), HasSubstr("3 %: BELOW"));
}

TEST_F(AtTheCounter, weighs_into_one_bowl) {
    begin();
    EXPECT_THAT(say("bowl 640g"), HasSubstr("the display 2440 g"));
    EXPECT_THAT(say("bowl"), HasSubstr("→ 1800 g"));
    say("bowl");
    EXPECT_THAT(codes_, ElementsAre("not-a-setting"));
    say("bowl 3 cm");
    EXPECT_THAT(codes_, ElementsAre("wrong-dimension"));
}

TEST_F(AtTheCounter, what_is_refused_changes_nothing) {
    begin();
    say("cabbage=1.84kg");
    const double before = salt_g();
    const std::vector<std::pair<std::string, std::string>> bad{
        {"cabage=2kg", "unknown-name"},
        {"cabbage=2", "wrong-dimension"},
        {"cabbage=", "bad-amount"},
        {"jar=tal", "unknown-jar"},
        {"shett", "unknown-word"},
        {"why slat", "unknown-name"},
        {"poured slat=3g", "unknown-name"},
        {"sheet please", "left-over"},
        {"=", "not-a-name"},
        {"forget carrot", "unknown-name"},
        {"cabbage=1,5kg", "bad-amount"},
        {std::string(5000, 'x'), "long-line"}};
    for (const auto& [line, code] : bad) {
        EXPECT_EQ(say(line), "") << line;
        EXPECT_THAT(codes_, Contains(code)) << line;
    }
    EXPECT_DOUBLE_EQ(salt_g(), before);
    say("shett");
    EXPECT_THAT(advice_, HasSubstr("`sheet`"));
    say("cabbage");
    EXPECT_THAT(advice_, HasSubstr("cabbage=1.84kg"));
}

TEST_F(AtTheCounter, computes_only_what_depends_on_the_change) {
    begin("recipe \"Two heads\"\nkind kraut\n"
          "given white = 1.80 kg as white cabbage\n"
          "given red = 0.60 kg as red cabbage\n"
          "let dry = white * 2\n"
          "let wet = red * 2\n"
          "let wetter = wet * 2\n"
          "weigh caraway = 1.5 g per kg of red as caraway seed\n"
          "weigh salt = 2.2 % of (white + red) as canning salt\n");
    const auto computed_by = [&](const std::string& line) {
        const std::size_t before = counter_->evaluations();
        say(line);
        EXPECT_THAT(codes_, IsEmpty()) << line;
        return counter_->evaluations() - before;
    };
    const std::size_t all = counter_->evaluations();
    const std::size_t by_white = computed_by("white=1.9kg");
    const std::size_t by_red = computed_by("red=0.7kg");
    EXPECT_LT(by_white, all);
    // The same but for wet, wetter and caraway, against dry.
    EXPECT_EQ(by_red, by_white + 2);
    // But for the number of the jars, which are chosen again.
    EXPECT_LE(computed_by("red=0.7kg"), 1u);
    EXPECT_LE(computed_by("poured salt=54g"), 1u);
    EXPECT_LE(computed_by("bowl 640g"), 1u);
    EXPECT_LE(computed_by("undo"), 1u);
}

TEST_F(AtTheCounter, tells_why_and_what_jars_and_the_whole) {
    begin();
    EXPECT_THAT(say("why salt"), HasSubstr("2.2 % × (cabbage + apple) = 0.022 × 1944 g"));
    EXPECT_THAT(say("why"), HasSubstr("the salt of the vegetables"));
    EXPECT_THAT(say("jars"), HasSubstr("tall"));
    EXPECT_THAT(say("sheet"), HasSubstr("Kraut"));
    EXPECT_THAT(say("help"), HasSubstr("undo"));
    say("quit");
    EXPECT_TRUE(quit_);
}

TEST_F(AtTheCounter, completes_what_is_being_typed) {
    begin();
    EXPECT_THAT(counter_->complete("ca").words, ElementsAre("cabbage="));
    EXPECT_THAT(counter_->complete("jar=ta").words, ElementsAre("tall"));
    const Counter::Completion second = counter_->complete("jar=tall,s");
    EXPECT_THAT(second.words, ElementsAre("squat"));
    EXPECT_EQ(second.from, 9u);
    EXPECT_THAT(counter_->complete("why ver").words, ElementsAre("verdict"));
    EXPECT_THAT(counter_->complete("without ").words, ElementsAre("apple"));
    EXPECT_THAT(counter_->complete("with ").words, IsEmpty());
    EXPECT_THAT(counter_->complete("w").words, ElementsAre("without", "with", "why"));
    EXPECT_THAT(counter_->complete("poured sa").words, ElementsAre("salt="));
    EXPECT_THAT(counter_->complete("zzz").words, IsEmpty());
}

} // namespace
} // namespace jarful::plan
