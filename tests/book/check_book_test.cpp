/// `jarful check` on whole books, and on what they were.

#include "tests/support/scratch.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace {

using namespace jarful;
using nlohmann::json;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const std::string jarful_program = JARFUL_PROGRAM;

std::string recipe(const std::string& salt, const std::string& title = "kraut") {
    return "recipe \"Quay Street " + title +
           "\" version 1\nkind kraut\ngiven cabbage = 1.8 kg\nweigh salt = " + salt +
           " of cabbage as fine sea salt\nstep \"Rub {salt} into {cabbage}.\"\n"
           "step \"Press until the juice stands above it.\"\n";
}

class CheckBook : public testing::Test {
  protected:
    CheckBook() {
        scratch.sh("git init -q -b main book");
        scratch.write("book/recipes/a.jarful", recipe("2.2 %"));
        scratch.write("book/recipes/b.jarful", recipe("1.2 %"));
        scratch.write("book/kitchen.jarful", "kitchen \"Quay Street\"\nscale bench reads 1 g up to "
                                             "5 kg within 1 g\n");
        commit("First");
        scratch.sh("git tag v1", "book");
        scratch.write("book/recipes/b.jarful", recipe("2.4 %"));
        scratch.sh("git mv recipes/a.jarful recipes/winter.jarful", "book");
        commit("Salt b, rename a");
    }
    void commit(const std::string& message) const {
        scratch.sh("git add -A && git commit -q -m '" + message + "'", "book");
    }
    [[nodiscard]] test::Ran check(const std::string& words) const {
        return scratch.run(jarful_program + " check " + words, "book");
    }
    [[nodiscard]] std::vector<std::string> paths(const std::string& words) const {
        const test::Ran ran = check(words + " --json");
        std::vector<std::string> out;
        const json document = json::parse(ran.said);
        for (const json& file : document.at("files"))
            out.push_back(file["path"]);
        return out;
    }
    test::Scratch scratch;
};

TEST_F(CheckBook, LooksAtTheBookAsItWas) {
    EXPECT_EQ(check("").status, 0);
    const test::Ran then = check("--full --at v1");
    EXPECT_EQ(then.status, 1);
    EXPECT_THAT(then.said, HasSubstr("BELOW       recipes/b.jarful"));
    EXPECT_THAT(paths("--at v1"),
                ElementsAre("kitchen.jarful", "recipes/a.jarful", "recipes/b.jarful"));
    EXPECT_THAT(paths("recipes --at HEAD"),
                ElementsAre("recipes/b.jarful", "recipes/winter.jarful"));
    // What a commit says is what the work tree says at that commit.
    scratch.sh("git worktree add -q ../then v1", "book");
    EXPECT_EQ(scratch.run(jarful_program + " check --full", "then").said, then.said);
    EXPECT_EQ(scratch.run(jarful_program + " check --json", "then").said,
              check("--at v1 --json").said);
}

TEST_F(CheckBook, FindsOneFileUnderItsEarlierName) {
    EXPECT_THAT(paths("recipes/winter.jarful --at v1"), ElementsAre("recipes/a.jarful"));
    const test::Ran never = check("recipes/none.jarful --at v1");
    EXPECT_EQ(never.status, 2);
    EXPECT_THAT(never.said, HasSubstr("is not in the commit"));
}

TEST_F(CheckBook, KnowsARecipeByItsNameWhereverItLiesInTheBook) {
    scratch.write("book/cellar/crocks/c.jarful", recipe("2.3 %", "crock"));
    scratch.write("book/batches/c.jarful", "batch \"C\" of \"../cellar/crocks/c.jarful\"\n");
    scratch.write("book/.hidden/h.jarful", recipe("2.3 %", "hidden"));
    EXPECT_THAT(paths("winter"), ElementsAre("recipes/winter.jarful"));
    EXPECT_THAT(paths("c b"), ElementsAre("cellar/crocks/c.jarful", "recipes/b.jarful"));
    EXPECT_EQ(scratch.run(jarful_program + " weigh c", "book").status, 0);
    EXPECT_EQ(scratch.run(jarful_program + " check c", "book/recipes").status, 0);
    EXPECT_EQ(check("h").status, 2);
    // Nearer ones come first; two that are as far away have to be told apart.
    scratch.write("book/cellar/b.jarful", recipe("2.3 %", "other"));
    EXPECT_THAT(paths("b"), ElementsAre("recipes/b.jarful"));
    scratch.write("book/cellar/c.jarful", recipe("2.3 %", "other"));
    const test::Ran two = check("c");
    EXPECT_EQ(two.status, 2);
    EXPECT_THAT(two.said, HasSubstr("Name the one you mean by its path."));
    // With a history, also under the name that it had.
    EXPECT_THAT(paths("winter --at HEAD"), ElementsAre("recipes/winter.jarful"));
    EXPECT_THAT(paths("winter --at v1"), ElementsAre("recipes/a.jarful"));
    EXPECT_THAT(paths("b --since v1"), ElementsAre("recipes/b.jarful"));
    scratch.sh("git rm -q recipes/winter.jarful && git commit -q -m Gone", "book");
    EXPECT_THAT(paths("winter --at HEAD~1"), ElementsAre("recipes/winter.jarful"));
}

TEST_F(CheckBook, WhatIsNotThereIsNotToBeMended) {
    const test::Ran ran = check("wintre");
    EXPECT_EQ(ran.status, 2);
    EXPECT_THAT(ran.said, HasSubstr("NOT READ    wintre"));
    EXPECT_THAT(ran.said, HasSubstr("Did you mean \"winter\"?"));
    EXPECT_THAT(ran.said, HasSubstr("1 file: 1 not read."));
    EXPECT_THAT(ran.said, Not(HasSubstr("mend")));
    const json document = json::parse(check("wintre a b --json").said);
    EXPECT_EQ(document.at("summary").at("faulty"), 2);
    EXPECT_EQ(document.at("summary").at("unread"), 2);
    EXPECT_EQ(document.at("files").at(0).at("diagnostics").at(0).at("code"), "missing-file");
    const test::Ran kitchen = check("b --kitchen nowhere.jarful");
    EXPECT_EQ(kitchen.status, 2);
    EXPECT_THAT(kitchen.said, HasSubstr("so the recipe is not judged"));
    EXPECT_THAT(kitchen.said, Not(HasSubstr("Mend the kitchen")));
}

TEST_F(CheckBook, LooksOnlyAtWhatChanged) {
    EXPECT_THAT(paths("--since v1"), ElementsAre("recipes/b.jarful", "recipes/winter.jarful"));
    EXPECT_EQ(check("--since HEAD").said, "Nothing changed since HEAD.\n");
    EXPECT_EQ(check("--since HEAD").status, 0);
    EXPECT_THAT(paths("--since HEAD"), IsEmpty());
    scratch.write("book/recipes/new.jarful", recipe("3.9 %"));
    EXPECT_THAT(paths("--since HEAD"), ElementsAre("recipes/new.jarful"));
    EXPECT_EQ(check("--since HEAD").status, 1);
    EXPECT_THAT(paths("--since v1 --at HEAD"),
                ElementsAre("recipes/b.jarful", "recipes/winter.jarful"));
    EXPECT_THAT(paths("recipes/b.jarful --since v1"), ElementsAre("recipes/b.jarful"));
}

TEST_F(CheckBook, AChangedKitchenConcernsItsRecipes) {
    scratch.write("book/kitchen.jarful", "kitchen \"Quay Street\"\nspoons metric\n");
    EXPECT_THAT(paths("--since HEAD"),
                ElementsAre("kitchen.jarful", "recipes/b.jarful", "recipes/winter.jarful"));
}

TEST_F(CheckBook, WorksInABareCloneAndSaysWhatItCannotDo) {
    scratch.sh("git clone -q --bare book bare.git");
    const test::Ran bare = scratch.run(jarful_program + " check --at v1", "bare.git");
    EXPECT_EQ(bare.status, 1);
    EXPECT_EQ(bare.said, check("--at v1").said);
    const test::Ran outside = scratch.run(jarful_program + " check --at v1", "home");
    EXPECT_EQ(outside.status, 2);
    EXPECT_THAT(outside.said, HasSubstr("does not lie in a git"));
    EXPECT_THAT(check("--at v9").said, HasSubstr("Did you mean \"v1\"?"));
    EXPECT_EQ(check("- --at v1").status, 2);
}

TEST_F(CheckBook, ManyFilesComeInTheirOrder) {
    for (int i = 0; i < 300; ++i) {
        const std::string number = std::to_string(1000 + i);
        const bool faulty = i % 50 == 7;
        scratch.write("many/r" + number + ".jarful",
                      faulty ? "nonsense\n" : recipe("2.2 %", number));
    }
    const test::Ran all = scratch.run(jarful_program + " check --full many");
    EXPECT_EQ(all.status, 2);
    EXPECT_THAT(all.said, HasSubstr("300 files: 294 inside and 6 with faults."));
    EXPECT_THAT(all.said, HasSubstr("mend many/r1007.jarful"));
    std::size_t at = 0;
    for (int i = 0; i < 300; ++i) {
        const std::size_t found = all.said.find("many/r" + std::to_string(1000 + i), at);
        ASSERT_NE(found, std::string::npos) << i;
        at = found;
    }
    const test::Ran as_json = scratch.run(jarful_program + " check --json many");
    const json document = json::parse(as_json.said);
    EXPECT_EQ(document.at("files").size(), 300u);
    // In pieces or at once: the same bytes as any JSON printed with two blanks.
    EXPECT_EQ(nlohmann::ordered_json::parse(as_json.said).dump(2) + "\n", as_json.said);
}

} // namespace
