/// Comparing revisions of a recipe, and being called by the git program as its diff driver. What
/// git itself says of the same repository is what it is checked against.

#include "tests/support/scratch.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

namespace {

using namespace jarful;
using testing::HasSubstr;
using testing::Not;
using Json = nlohmann::json;

const std::string program = JARFUL_PROGRAM;

std::string recipe(const std::string& salt) {
    return "recipe \"Quay Street kraut\" version 1\nkind kraut\ngiven cabbage = 1.8 kg\n"
           "weigh salt = " +
           salt +
           " of cabbage as fine sea salt\nstep \"Rub {salt} into {cabbage}.\"\n"
           "step \"Press until the juice stands above it.\"\n";
}

/// A tenth of a gram on 1.8 kg is 0.006 %; 2 % itself is weighed a little higher, to be surely
/// inside.
constexpr double by_readings = 0.015;

class Book : public testing::Test {
  protected:
    Book() {
        scratch.sh("git init -q -b main book");
        scratch.write(
            "book/kitchen.jarful",
            "kitchen \"Quay Street\"\nscale pocket reads 0.1 g up to 5 kg within 0.1 g\n");
        commit("2026-08-30 10:00:00 +0200", "2.0 %");
        scratch.sh("git tag v1", "book");
        commit("2026-09-01 10:00:00 +0200", "2.2 %");
        commit("2026-09-03 10:00:00 +0200", "2.4 %");
        scratch.sh("git checkout -q -b trial v1", "book");
        commit("2026-09-02 10:00:00 +0200", "2.3 %");
        scratch.sh("git checkout -q main", "book");
        scratch.sh("mkdir shelf && git mv kraut.jarful shelf/kraut.jarful && git commit -qm Move",
                   "book");
    }

    void commit(const std::string& date, const std::string& salt) {
        scratch.write("book/kraut.jarful", recipe(salt));
        scratch.sh("export GIT_AUTHOR_DATE='" + date + "' GIT_COMMITTER_DATE='" + date +
                       "'; git add -A && git commit -qm 'Salt of " + salt + "'",
                   "book");
    }

    /// The salt before and now, in percent of the vegetables, and the status.
    struct Outcome {
        double before = 0, after = 0;
        bool same = false;
        int status = -1;
    };
    Outcome compare(const std::string& words) {
        const test::Ran ran = scratch.run(program + " compare --json " + words, "book");
        Outcome out;
        out.status = ran.status;
        if (ran.status == 2) {
            ADD_FAILURE() << words << "\n" << ran.said;
            return out;
        }
        const Json json = Json::parse(ran.said);
        out.before = json["before"]["salt"]["percent"];
        out.after = json["after"]["salt"]["percent"];
        out.same = json["same"];
        return out;
    }

    test::Scratch scratch;
};

TEST_F(Book, compares_whatever_revision_git_shows) {
    // The salt as git shows it for each word: the recipe has one line with a percentage.
    for (const std::string word : {"HEAD~3", "v1", "trial", "HEAD~1", "main~2"}) {
        const std::string there = scratch.sh(
            "git show " + word + ":kraut.jarful | sed -n 's/^weigh salt = \\([0-9.]*\\) %.*/\\1/p'",
            "book");
        const Outcome out = compare("shelf/kraut@" + word);
        EXPECT_NEAR(out.before, std::stod(there), by_readings) << word;
        EXPECT_NEAR(out.after, 2.4, by_readings) << word;
        EXPECT_EQ(out.same, there == "2.4") << word;
        EXPECT_EQ(out.status, there == "2.4" ? 0 : 1) << word;
    }
    const std::string day =
        scratch.sh("git rev-list -1 --before='2026-09-01 23:59:59 +0200' HEAD", "book");
    EXPECT_NEAR(compare("shelf/kraut@2026-09-01").before, 2.2, by_readings);
    EXPECT_NEAR(compare("shelf/kraut@" + day).before, 2.2, by_readings);
    const Outcome two = compare("shelf/kraut@v1 shelf/kraut@trial");
    EXPECT_NEAR(two.before, 2.0, by_readings);
    EXPECT_NEAR(two.after, 2.3, by_readings);
}

TEST_F(Book, without_a_revision_it_is_the_last_commit_against_what_is_here) {
    EXPECT_EQ(compare("shelf/kraut").status, 0);
    scratch.write("book/shelf/kraut.jarful", recipe("2.5 %"));
    const Outcome out = compare("shelf/kraut");
    EXPECT_EQ(out.status, 1);
    EXPECT_NEAR(out.before, 2.4, by_readings);
    EXPECT_NEAR(out.after, 2.5, by_readings);
}

TEST_F(Book, a_recipe_that_is_gone_is_found_where_it_was) {
    const test::Ran ran = scratch.run(program + " compare kraut@v1 shelf/kraut", "book");
    EXPECT_EQ(ran.status, 1) << ran.said;
    EXPECT_THAT(ran.said, HasSubstr("kraut at v1"));
    const test::Ran wrong = scratch.run(program + " compare krout@v1 shelf/kraut", "book");
    EXPECT_EQ(wrong.status, 2);
    EXPECT_THAT(wrong.said, HasSubstr("\"kraut\""));
}

TEST_F(Book, says_what_it_cannot_find) {
    const test::Ran ran = scratch.run(program + " compare shelf/kraut@v9", "book");
    EXPECT_EQ(ran.status, 2);
    EXPECT_THAT(ran.said, HasSubstr("v9"));
    scratch.write("alone/kraut.jarful", recipe("2 %"));
    const test::Ran alone = scratch.run(program + " compare kraut", "alone");
    EXPECT_EQ(alone.status, 2);
    EXPECT_THAT(alone.said, HasSubstr("Nothing was compared"));
}

TEST_F(Book, git_diff_and_git_log_show_grams) {
    scratch.sh("git config diff.jarful.command '" + program + " compare'", "book");
    scratch.write("book/.gitattributes", "*.jarful diff=jarful\n");
    scratch.write("book/shelf/kraut.jarful", recipe("2.5 %"));
    const std::string diff = scratch.sh("git diff", "book");
    EXPECT_THAT(diff, HasSubstr("43.2 g (2.4 %)"));
    EXPECT_THAT(diff, HasSubstr("45.0 g (2.5 %)"));
    EXPECT_THAT(diff, HasSubstr("as it is here"));
    EXPECT_THAT(diff, Not(HasSubstr("@@")));
    scratch.sh("git add -A && git commit -qm More", "book");
    const std::string log =
        scratch.sh("git log -p --ext-diff --follow -- shelf/kraut.jarful", "book");
    for (const char* grams : {"36.2 g (2 %)", "39.6 g (2.2 %)", "43.2 g (2.4 %)", "45.0 g (2.5 %)"})
        EXPECT_THAT(log, HasSubstr(grams));
    // 36.0 g may be less than 2 % on this scale, so the reading is 36.2 g.
    // The first commit has nothing before it, and the kitchen is no recipe.
    EXPECT_THAT(log, HasSubstr("New: kraut.jarful"));
    scratch.sh("sed -i s/0.1/0.2/g kitchen.jarful", "book");
    EXPECT_THAT(scratch.sh("git diff", "book"), HasSubstr("+scale pocket reads 0.2 g"));
    scratch.sh("git checkout -q kitchen.jarful && git rm -q shelf/kraut.jarful", "book");
    EXPECT_THAT(scratch.sh("git diff --cached", "book"), HasSubstr("Gone: shelf/kraut.jarful"));
}

TEST_F(Book, git_diff_finds_what_a_recipe_is_based_on) {
    scratch.sh("git config diff.jarful.command '" + program + " compare'", "book");
    scratch.write("book/.gitattributes", "*.jarful diff=jarful\n");
    scratch.write("book/shelf/young.jarful", "recipe \"Young kraut\"\nbased on \"kraut\"\n");
    scratch.sh("git add -A && git commit -qm Young", "book");
    scratch.write("book/shelf/young.jarful", "recipe \"Young kraut\"\nbased on \"kraut\"\n"
                                             "weigh salt = 2.1 % of cabbage as fine sea salt\n");
    const std::string diff = scratch.sh("git diff", "book");
    EXPECT_THAT(diff, HasSubstr("43.2 g (2.4 %)"));
    EXPECT_THAT(diff, HasSubstr("37.8 g (2.1 %)"));
}

TEST_F(Book, a_faulty_recipe_is_compared_line_by_line_and_git_goes_on) {
    scratch.sh("git config diff.jarful.command '" + program + " compare'", "book");
    scratch.write("book/.gitattributes", "*.jarful diff=jarful\n");
    scratch.write("book/shelf/kraut.jarful", recipe("2.5 litres"));
    scratch.write("book/other.jarful", recipe("2 %"));
    scratch.sh("git add -N other.jarful", "book");
    const std::string diff = scratch.sh("git diff", "book");
    EXPECT_THAT(diff, HasSubstr("+weigh salt = 2.5 litres"));
    EXPECT_THAT(diff, HasSubstr("New: other.jarful"));
}

} // namespace
