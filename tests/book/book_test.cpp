/// `jarful book`: the list beside what git says, the set-up beside what git does.

#include "engine/book/set_up.hpp"
#include "tests/support/schema.hpp"
#include "tests/support/scratch.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace {

using namespace jarful;
using nlohmann::json;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

const std::string jarful_program = JARFUL_PROGRAM;

std::string kraut(const std::string& salt, const std::string& extra = "") {
    return "recipe  \"Quay Street kraut\" version 4\nkind    kraut\n\ngiven  cabbage = 1.8 kg\n"
           "weigh  salt    = " +
           salt + " of cabbage   as fine sea salt\n" + extra +
           "\nstep   \"Rub {salt} into {cabbage}.\"\nstep   \"Press until the juice stands above "
           "it.\"\n";
}

const std::string carrots = "recipe  \"Ferry Lane carrots\"\nkind    roots\n\ngiven  "
                            "carrot = 900 g\nweigh  water  = 700 g\nweigh  salt   = 2.5 % of "
                            "(carrot + water)   as fine sea salt\nstep   \"Keep all under the "
                            "brine.\"\n";

class BookCommand : public ::testing::Test {
  protected:
    BookCommand() {
        scratch.sh("git init -q -b main book");
        const std::filesystem::path program = jarful_program;
        ::setenv("PATH", (program.parent_path().string() + ":" + std::getenv("PATH")).c_str(), 1);
    }
    void commit(const std::string& message) const {
        scratch.sh("git add -A && git commit -q --no-verify -m '" + message + "'", "book");
    }
    [[nodiscard]] test::Ran book(const std::string& words) const {
        return scratch.run("jarful book " + words, "book");
    }
    [[nodiscard]] json list(const std::string& words = "") const {
        return json::parse(book(words + " --json").said);
    }
    [[nodiscard]] std::vector<std::string> paths(const std::string& words) const {
        const json document = list(words);
        std::vector<std::string> out;
        for (const json& recipe : document.at("recipes"))
            out.push_back(recipe.at("path"));
        return out;
    }
    /// Writes what passes `tidy`, whatever its columns are.
    void write_tidy(const std::string& name, const std::string& text) const {
        scratch.write(name, text);
        scratch.sh("jarful tidy " + name + " >/dev/null");
    }
    test::Scratch scratch;
};

TEST_F(BookCommand, ListsWhatIsThereAndHowItStands) {
    scratch.write("book/kitchen.jarful", "kitchen \"Quay Street\"\n");
    scratch.write("book/a-kraut.jarful", kraut("2.2 %"));
    scratch.write("book/deep/b-carrots.jarful", carrots);
    commit("First recipes");
    scratch.write("book/a-kraut.jarful", kraut("2.3 %"));
    commit("More salt");
    scratch.write("book/a-kraut.jarful", kraut("1.2 %"));
    scratch.write("book/c-new.jarful", "recipe \"New\"\nnonsense\n");
    const test::Ran ran = book("");
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.said, HasSubstr("3 recipes: 1 inside, 1 outside and 1 with faults."));
    EXPECT_THAT(ran.said, HasSubstr("2 are not as committed."));
    const json document = list();
    EXPECT_EQ(jarful::testing::DocumentedSchema("book").faults(document), "");
    const json& first = document.at("recipes").at(0);
    EXPECT_EQ(first.at("title"), "Quay Street kraut");
    EXPECT_EQ(first.at("version"), 4);
    EXPECT_EQ(first.at("verdict"), "below");
    EXPECT_EQ(first.at("standing"), "changed");
    EXPECT_EQ(first.at("changed").at("commit"),
              scratch.sh("git log -1 --format=%H -- a-kraut.jarful", "book"));
    EXPECT_EQ(first.at("changed").at("date"),
              scratch.sh("git log -1 --format=%cd --date=short", "book"));
    EXPECT_EQ(document.at("recipes").at(2).at("changed").at("summary"), "First recipes");
    EXPECT_EQ(document.at("recipes").at(1).at("standing"), "not committed");
    EXPECT_EQ(document.at("recipes").at(1).at("changed"), nullptr);
}

TEST_F(BookCommand, FiltersAndSorts) {
    scratch.write("book/a.jarful", kraut("2.2 %", "weigh  seed = 2 g   as caraway seed\n"));
    scratch.write("book/b.jarful", kraut("1.2 %"));
    scratch.write("book/c.jarful", carrots);
    EXPECT_THAT(paths("--with caraway"), ElementsAre("a.jarful"));
    EXPECT_THAT(paths("--with Carrots"), ElementsAre("c.jarful"));
    EXPECT_THAT(paths("--with radish"), IsEmpty());
    EXPECT_THAT(paths("--kind kraut"), ElementsAre("a.jarful", "b.jarful"));
    EXPECT_THAT(paths("--verdict below"), ElementsAre("b.jarful"));
    EXPECT_THAT(paths("--find 'under BRINE'"), ElementsAre("c.jarful"));
    EXPECT_THAT(paths("--sort title"), ElementsAre("c.jarful", "a.jarful", "b.jarful"));
    EXPECT_THAT(paths("--sort verdict").front(), "b.jarful");
    EXPECT_THAT(book("--with caraway").said, HasSubstr("1 recipe of 3: 1 inside."));
    EXPECT_EQ(book("--with caraway").status, 0);
    EXPECT_THAT(book("--kind krout").said, HasSubstr("Did you mean \"kraut\"?"));
    EXPECT_EQ(book("--sort weight").status, 2);
    EXPECT_THAT(book("--csv").said, HasSubstr("a.jarful,Quay Street kraut,4,kraut,,inside,2.2,"));
}

TEST_F(BookCommand, WorksWithoutAHistory) {
    scratch.write("plain/a.jarful", kraut("2.2 %"));
    const test::Ran ran = scratch.run("jarful book plain");
    EXPECT_EQ(ran.status, 0);
    EXPECT_THAT(ran.said, Not(HasSubstr("ommitted")));
    EXPECT_EQ(scratch.run("jarful book home").status, 2);
}

TEST_F(BookCommand, AHookStopsARealCommit) {
    write_tidy("book/a.jarful", kraut("2.2 %"));
    const test::Ran set_up = book("--set-up --write-config");
    EXPECT_EQ(set_up.status, 0) << set_up.said;
    const test::Ran good = scratch.run("git add -A && git commit -q -m 'A first recipe'", "book");
    EXPECT_EQ(good.status, 0) << good.said;

    // Below the range.
    write_tidy("book/a.jarful", kraut("1.2 %"));
    scratch.sh("git add -A", "book");
    const std::string before = scratch.sh("git rev-parse HEAD", "book");
    const test::Ran below = scratch.run("git commit -q -m 'Too little'", "book");
    EXPECT_NE(below.status, 0);
    EXPECT_THAT(below.said, HasSubstr("BELOW"));
    EXPECT_EQ(scratch.sh("git rev-parse HEAD", "book"), before);
    // What counts is what is staged: mending the work tree alone is not enough …
    write_tidy("book/a.jarful", kraut("2.4 %"));
    EXPECT_NE(scratch.run("git commit -q -m 'Too little'", "book").status, 0);
    // … and spoiling the work tree does not matter.
    scratch.sh("git add -A", "book");
    scratch.write("book/a.jarful", "nonsense\n");
    const test::Ran staged = scratch.run("git commit -q -m 'More salt'", "book");
    EXPECT_EQ(staged.status, 0) << staged.said;
    scratch.sh("git checkout -q a.jarful", "book");

    // Not tidy.
    scratch.write("book/a.jarful", "recipe   \"Quay Street kraut\"\n" + kraut("2.4 %").substr(39));
    scratch.sh("git add -A", "book");
    EXPECT_NE(scratch.run("git commit -q -m 'Untidy'", "book").status, 0);
    scratch.sh("git checkout -q HEAD a.jarful", "book");

    // A kitchen with a fault concerns the recipes that were not touched.
    scratch.write("book/kitchen.jarful", "kitchen \"Quay Street\"\nscale\n");
    scratch.sh("git add -A", "book");
    const test::Ran kitchen = scratch.run("git commit -q -m 'A kitchen'", "book");
    EXPECT_NE(kitchen.status, 0);
    EXPECT_THAT(kitchen.said, HasSubstr("a.jarful"));
    EXPECT_EQ(scratch.run("git commit -q --no-verify -m 'A kitchen'", "book").status, 0);
}

TEST_F(BookCommand, TheHookLetsARecordOfABatchPass) {
    write_tidy("book/a.jarful", kraut("2.2 %"));
    EXPECT_EQ(book("--set-up --write-config").status, 0);
    scratch.sh("git add -A && git commit -q -m 'A first recipe'", "book");
    const std::string first = scratch.sh("git rev-parse HEAD", "book");

    // Begun and committed, noted and committed; the record alone, and with a recipe beside it.
    scratch.sh("jarful batch start a cabbage=1.84kg --today 2026-11-25", "book");
    const test::Ran begun =
        scratch.run("git add -A && git commit -q -m 'A batch is begun'", "book");
    EXPECT_EQ(begun.status, 0) << begun.said;
    scratch.sh("jarful batch note 25-a --weighed salt=41g --today 2026-11-25", "book");
    const test::Ran noted = scratch.run("git commit -q -a -m 'What was weighed'", "book");
    EXPECT_EQ(noted.status, 0) << noted.said;
    scratch.sh("jarful batch note 25-a --ph 4.9 --did look --today 2026-11-30", "book");
    write_tidy("book/a.jarful", kraut("2.3 %"));
    const test::Ran both = scratch.run("git commit -q -a -m 'Look, and more salt'", "book");
    EXPECT_EQ(both.status, 0) << both.said;
    EXPECT_EQ(scratch.sh("git rev-list --count " + first + "..HEAD", "book"), "3");
    EXPECT_EQ(scratch.sh("git status --porcelain", "book"), "");

    // A record that cannot be read is stopped like any other file.
    scratch.sh("echo 'noted yesterday pH low' >>batches/2026-11-25-quay-street-kraut.jarful",
               "book");
    EXPECT_NE(scratch.run("git commit -q -a -m 'Spoilt'", "book").status, 0);
}

TEST_F(BookCommand, SetsUpWithoutTakingAnythingAway) {
    scratch.write("book/.gitattributes", "*.txt text");
    scratch.write("book/.git/hooks/pre-commit", "#!/bin/sh\nexit 0\n");
    const test::Ran first = book("--set-up");
    EXPECT_EQ(first.status, 0) << first.said;
    EXPECT_THAT(first.said, HasSubstr("git config diff.jarful.command 'jarful compare'"));
    EXPECT_EQ(scratch.sh("cat .gitattributes", "book"), "*.txt text\n*.jarful text diff=jarful");
    EXPECT_EQ(scratch.sh("git check-attr diff text -- deep/a.jarful", "book"),
              "deep/a.jarful: diff: jarful\ndeep/a.jarful: text: set");
    EXPECT_EQ(scratch.sh("cat .git/hooks/pre-commit", "book"), "#!/bin/sh\nexit 0");
    EXPECT_EQ(scratch.run("git config --get-regexp 'diff.jarful'", "book").said, "");
    // Once more, with the configuration.
    EXPECT_EQ(book("--set-up --write-config").status, 0);
    EXPECT_EQ(scratch.sh("cat .gitattributes", "book"), "*.txt text\n*.jarful text diff=jarful");
    EXPECT_EQ(scratch.sh("git config --local diff.jarful.command", "book"), "jarful compare");
}

TEST_F(BookCommand, SetsUpForHooksElsewhereAndForAWorkTree) {
    scratch.write("book/a.jarful", kraut("2.2 %"));
    commit("First");
    scratch.sh("git worktree add -q ../beside", "book");
    EXPECT_EQ(scratch.run("jarful book --set-up", "beside").status, 0);
    EXPECT_EQ(scratch.run("test -x book/.git/hooks/pre-commit").status, 0);
    scratch.sh("git config core.hooksPath tools/hooks", "book");
    EXPECT_EQ(book("--set-up").status, 0);
    EXPECT_EQ(scratch.run("test -x book/tools/hooks/pre-commit").status, 0);
    scratch.sh("git clone -q --bare book bare.git");
    EXPECT_EQ(scratch.run("jarful book --set-up", "bare.git").status, 2);
}

TEST_F(BookCommand, TheTextconvDriverShowsTheCanonicalForm) {
    scratch.write("book/a.jarful", kraut("2.2 %"));
    EXPECT_EQ(book("--set-up --write-config").status, 0);
    commit("First");
    const std::string tidy = scratch.sh("jarful tidy - < a.jarful", "book");
    // Only spaces changed: nothing to see in the canonical form.
    std::string spaced = kraut("2.2 %");
    spaced.replace(spaced.find("salt    ="), 9, "salt         =");
    scratch.write("book/a.jarful", spaced);
    commit("Spaces");
    scratch.write("book/a.jarful", kraut("2.4 %"));
    commit("More salt");
    const std::string log = scratch.sh("git log -p --format=%s", "book");
    EXPECT_THAT(log, HasSubstr("2.4 %"));
    const std::string spaces = scratch.sh("git log -p --format=%s -1 HEAD~1", "book");
    EXPECT_THAT(spaces, Not(HasSubstr("@@")));
    // What has faults is shown as it is.
    scratch.write("book/a.jarful", "recipe \"x\"\nnonsense here\n");
    commit("Faulty");
    EXPECT_THAT(scratch.sh("git log -p --format=%s -1", "book"), HasSubstr("+nonsense here"));
}

TEST(BookAttributes, AreAddedOnlyWhereNothingIsSaid) {
    using book::with_attributes;
    EXPECT_EQ(with_attributes("").text, "*.jarful text diff=jarful\n");
    EXPECT_TRUE(with_attributes("*.jarful text diff=jarful\n").same);
    EXPECT_TRUE(with_attributes("*.jarful diff=jarful").same);
    EXPECT_EQ(with_attributes("*.jarful -diff\n").driver, "-diff");
    EXPECT_EQ(with_attributes("*.jarful diff=other\n").text, "*.jarful diff=other\n");
    EXPECT_EQ(with_attributes("*.jarful text\n").text,
              "*.jarful text\n*.jarful text diff=jarful\n");
    EXPECT_EQ(with_attributes("# *.jarful diff=other\n").driver, "");
}

} // namespace
