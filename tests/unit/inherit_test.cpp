#include "engine/language/explain.hpp"
#include "engine/language/inherit.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy.hpp"
#include "engine/plan/plan.hpp"
#include "engine/plan/trace.hpp"

#include <gmock/gmock.h>

#include <map>

/// `based on`: what is inherited, what takes its place, and what is refused.
namespace jarful::language {
namespace {

using ::testing::HasSubstr;

using Files = std::map<std::string, std::string>;

struct Outcome {
    Document document;
    Findings findings;
    [[nodiscard]] std::string codes() const {
        std::string out;
        for (const Diagnostic& d : findings.all())
            out += (out.empty() ? "" : " ") + d.code;
        return out;
    }
    [[nodiscard]] std::string said() const {
        std::string out;
        for (const Diagnostic& d : findings.all())
            out += explain(document.source, d);
        return out;
    }
};

Outcome load(const Files& files, const std::string& name) {
    const FindBase find = [&](std::string_view base, const std::string&) {
        FoundBase out;
        out.path = std::string(base) + ".jarful";
        const auto file = files.find(std::string(base));
        if (file == files.end()) {
            out.message = "There is no recipe \"" + std::string(base) + "\" in this book.";
        } else {
            out.bytes = file->second;
        }
        return out;
    };
    Outcome out;
    auto source = read_source(name + ".jarful", files.at(name), out.findings);
    out.document = parse(std::move(*source), out.findings);
    if (!out.findings.has_faults())
        out.document = inherit(std::move(out.document), name + ".jarful", find, out.findings);
    return out;
}

/// The lines of a merged recipe as they are written in their files.
std::string lines(const Outcome& o) {
    std::string out;
    for (const Line& line : o.document.lines)
        out += std::string(o.document.source.at(line.place)) + "\n";
    return out;
}

const std::string base = "recipe \"Base\" version 7\nby \"somebody\"\nnote \"of the base\"\n"
                         "kind kraut\n"
                         "material \"grey salt\" is salt salt 90 %\n"
                         "given cabbage = 1 kg\n"
                         "weigh caraway = 1 g per kg of cabbage as caraway seed\n"
                         "weigh salt = max(2.2 % of cabbage, 2 g) as fine sea salt\n"
                         "fill cabbage / 0.9 kg/L\nheadspace 12 %\n"
                         "hold salt / cabbage at least 2 % \"soft\"\n"
                         "step \"Rub {salt} in.\"\nrest 30 min\ntend burp every 1 day\n"
                         "ready day 21\nkeep cold for 3 months\n";

TEST(Inherit, TakesLinesAndPutsOwnOnesInTheirPlaces) {
    const Outcome o = load({{"base", base},
                            {"own", "recipe \"Own\"\nbased on \"base\"\n"
                                    "weigh carrot = 6 % of cabbage\n"
                                    "weigh salt = 2.4 % of (cabbage + carrot) as canning salt\n"
                                    "headspace 3 cm\nwithout caraway\n"
                                    "hold salt / cabbage at least 2.1 %\n"
                                    "hold carrot at most 100 g\n"
                                    "ready day 14\n"}},
                           "own");
    ASSERT_EQ(o.codes(), "") << o.said();
    EXPECT_EQ(lines(o), "kind kraut\n"
                        "material \"grey salt\" is salt salt 90 %\n"
                        "given cabbage = 1 kg\n"
                        "weigh salt = 2.4 % of (cabbage + carrot) as canning salt\n"
                        "fill cabbage / 0.9 kg/L\n"
                        "headspace 3 cm\n"
                        "hold salt / cabbage at least 2.1 %\n"
                        "recipe \"Own\"\n"
                        "weigh carrot = 6 % of cabbage\n"
                        "hold carrot at most 100 g\n"
                        "step \"Rub {salt} in.\"\n"
                        "rest 30 min\n"
                        "tend burp every 1 day\n"
                        "ready day 14\n"
                        "keep cold for 3 months\n");
}

TEST(Inherit, KeepsTheOrderOfStepsOfItsOwn) {
    const Outcome o = load({{"base", base},
                            {"own", "recipe \"Own\"\nbased on \"base\"\nkind mixed\n"
                                    "tend look every 2 days\nstep \"One.\"\ntend taste on day 3\n"
                                    "step \"Two.\"\n"}},
                           "own");
    ASSERT_EQ(o.codes(), "");
    const std::string all = lines(o);
    EXPECT_THAT(all, HasSubstr("kind mixed\n"));
    EXPECT_EQ(all.find("kind kraut"), std::string::npos);
    EXPECT_THAT(all, HasSubstr("tend look every 2 days\nstep \"One.\"\ntend taste on day 3\n"
                               "step \"Two.\"\nready day 21\nkeep cold for 3 months\n"));
}

TEST(Inherit, MeansWhatTheWholeWrittenOutMeans) {
    const Outcome o =
        load({{"root", base},
              {"middle",
               "recipe \"Middle\"\nbased on \"root\"\nweigh carrot = min(6 % of cabbage, 1 kg)\n"},
              {"own", "recipe \"Own\"\nbased on \"middle\"\n"
                      "weigh salt = 2.3 % of (cabbage + carrot) as fine sea salt\n"}},
             "own");
    ASSERT_EQ(o.codes(), "") << o.said();
    Findings findings;
    const Document whole =
        parse(Source("whole", "recipe \"Own\"\nkind kraut\n"
                              "given cabbage = 1 kg\n"
                              "weigh caraway = 1 g per kg of cabbage as caraway seed\n"
                              "weigh salt = 2.3 % of (cabbage + carrot) as fine sea salt\n"
                              "weigh carrot = min(6 % of cabbage, 1 kg)\n"
                              "fill cabbage / 0.9 kg/L\nheadspace 12 %\n"
                              "hold salt / cabbage at least 2 % \"soft\"\n"),
              findings);
    const auto one = plan::check(o.document, kitchen::default_kitchen(), findings);
    const auto other = plan::check(whole, kitchen::default_kitchen(), findings);
    ASSERT_TRUE(one && other);
    EXPECT_TRUE(findings.empty());
    EXPECT_EQ(one->salt->figure.percent, other->salt->figure.percent);
    EXPECT_EQ(one->verdict, other->verdict);
    EXPECT_EQ(one->title, "Own");
    ASSERT_EQ(one->checks.size(), 1U);
    EXPECT_EQ(one->checks[0].text, "salt / cabbage");
}

TEST(Inherit, FaultsOfInheritedLinesNameTheirFile) {
    // The base is good by itself; without the carrot its salt is not.
    const Outcome o =
        load({{"base", "recipe \"Base\"\nkind kraut\ngiven cabbage = 1 kg\n"
                       "weigh carrot = 5 % of cabbage\n\nweigh salt = 2.2 % of carrot\n"},
              {"own", "recipe \"Own\"\nbased on \"base\"\nwithout carrot\n"}},
             "own");
    ASSERT_EQ(o.codes(), "");
    Findings findings;
    EXPECT_FALSE(plan::check(o.document, kitchen::default_kitchen(), findings));
    ASSERT_TRUE(findings.has_faults());
    const std::string said = explain(o.document.source, findings.all().front());
    EXPECT_THAT(said, HasSubstr("In base.jarful, line 6:"));
    EXPECT_THAT(said, HasSubstr("weigh salt = 2.2 % of carrot"));
    // A fault in the recipe's own line keeps its own.
    const Outcome mine = load({{"base", base},
                               {"own", "recipe \"Own\"\nbased on \"base\"\n"
                                       "weigh salt = 2 % of cabage\n"}},
                              "own");
    Findings own;
    EXPECT_FALSE(plan::check(mine.document, kitchen::default_kitchen(), own));
    EXPECT_THAT(explain(mine.document.source, own.all().front()),
                HasSubstr("In own.jarful, line 3:"));
}

TEST(Inherit, FaultyBasesAreShownWithTheirPlaces) {
    const Outcome o = load({{"base", "recipe \"Base\"\n\nwiegh salt = 3 g\n"},
                            {"own", "recipe \"Own\"\nbased on \"base\"\n"}},
                           "own");
    EXPECT_EQ(o.codes(), "faulty-base unknown-statement");
    EXPECT_THAT(o.said(), HasSubstr("In base.jarful, line 3:"));
    EXPECT_THAT(o.said(), HasSubstr("In own.jarful, line 2:"));
    const Outcome kitchen =
        load({{"base", "kitchen \"K\"\n"}, {"own", "recipe \"Own\"\nbased on \"base\"\n"}}, "own");
    EXPECT_EQ(kitchen.codes(), "base-not-recipe");
}

TEST(Inherit, RefusesCirclesAndWhatIsNotThere) {
    const auto on = [](const std::string& name) {
        return "recipe \"R\"\nbased on \"" + name + "\"\n";
    };
    const Outcome circle = load({{"a", on("b")}, {"b", on("c")}, {"c", on("a")}}, "a");
    EXPECT_THAT(circle.codes(), HasSubstr("base-circle"));
    EXPECT_THAT(circle.said(), HasSubstr("a.jarful → b.jarful → c.jarful → a.jarful"));
    EXPECT_THAT(load({{"a", on("a")}}, "a").codes(), "base-circle");
    EXPECT_EQ(load({{"a", on("nowhere")}}, "a").codes(), "missing-base");
    for (const char* name : {"../a", "/etc/passwd", "x/../a", "..", ".", "", "~/a", "x//a", "c:a",
                             "x/.hidden", "x\\\\a"}) {
        EXPECT_FALSE(load({{"a", on(name)}}, "a").findings.empty()) << name;
        EXPECT_THAT(load({{"a", on(name)}}, "a").codes(), "base-outside") << name;
    }
    EXPECT_TRUE(stays_in_book("brines/six per cent"));
    Files deep;
    for (int i = 0; i < 30; ++i)
        deep["r" + std::to_string(i)] = on("r" + std::to_string(i + 1));
    deep["r30"] = "recipe \"R\"\n";
    EXPECT_THAT(load(deep, "r0").codes(), HasSubstr("too-many-bases"));
    EXPECT_THAT(load(deep, "r13").codes(), HasSubstr("too-many-bases"));
    EXPECT_EQ(load(deep, "r14").codes(), ""); // sixteen beneath it
    EXPECT_EQ(load(deep, "r20").codes(), "");
}

TEST(Inherit, RefusesLinesThatDropNothing) {
    const auto own = [](const std::string& more) {
        return load({{"base", base}, {"own", "recipe \"Own\"\n" + more}}, "own").codes();
    };
    EXPECT_EQ(own("based on \"base\"\nwithout pepper\n"), "nothing-to-drop");
    EXPECT_EQ(own("without caraway\n"), "nothing-to-drop");
    EXPECT_EQ(own("based on \"base\"\nwithout salt\nweigh salt = 3 g\n"), "nothing-to-drop");
    EXPECT_EQ(own("based on \"base\"\nbased on \"base\"\n"), "second-base");
    EXPECT_EQ(own("based \"base\"\n"), "expected-word");
    EXPECT_EQ(own("based on\n"), "expected-text");
}

TEST(Inherit, WithoutAReaderNothingIsLeftOutSilently) {
    Findings findings;
    const Document doc = parse(Source("a", "recipe \"R\"\nbased on \"b\"\n"), findings);
    EXPECT_FALSE(plan::check(doc, kitchen::default_kitchen(), findings));
    EXPECT_EQ(findings.all().front().code, "missing-base");
}

TEST(Inherit, TidyKeepsTheLineAndDoesNotExpand) {
    Findings findings;
    EXPECT_EQ(tidy(Source("a", "recipe \"R\"\nbased   on \"b\" # so\nwithout   dill\n"), findings),
              "recipe \"R\"\nbased  on \"b\"   # so\nwithout dill\n");
}

} // namespace
} // namespace jarful::language
