/// Books made by somebody who means ill, and accidents that look like it.

#include "tests/support/scratch.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <unistd.h>

namespace {

using namespace jarful;
using nlohmann::json;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;

const std::string kraut = "recipe \"Quay Street kraut\" version 4\nkind   kraut\n\n"
                          "given  cabbage = 1.8 kg\n"
                          "weigh  salt    = 2.2 % of cabbage   as fine sea salt\n";
const std::string weak = "recipe \"Quay Street kraut\" version 4\nkind   kraut\n\n"
                         "given  cabbage = 1.8 kg\n"
                         "weigh  salt    = 1.1 % of cabbage   as fine sea salt\n";

class Hostile : public ::testing::Test {
  protected:
    Hostile() {
        scratch.sh("git init -q -b main book");
        const std::filesystem::path program = JARFUL_PROGRAM;
        ::setenv("PATH", (program.parent_path().string() + ":" + std::getenv("PATH")).c_str(), 1);
    }
    void commit(const std::string& message) const {
        scratch.sh("git add -A && git commit -q --no-verify -m '" + message + "'", "book");
    }
    /// Within a time in which an honest answer comes many times over, and in 150 MB.
    [[nodiscard]] test::Ran limited(const std::string& line) const {
        return scratch.run("ulimit -v 200000; timeout 30 " + line, "book");
    }
    void refuses_the_tree() const {
        for (const char* line :
             {"jarful check --at HEAD", "jarful check --at HEAD a.jarful",
              "jarful check --since HEAD~1", "jarful book", "jarful compare a@HEAD~1 a@HEAD",
              "jarful compare b@HEAD~1 b@HEAD"}) {
            const test::Ran ran = limited(line);
            EXPECT_THAT(ran.status, AnyOf(0, 1, 2)) << line << "\n" << ran.said;
        }
        const test::Ran ran = limited("jarful check --at HEAD");
        EXPECT_EQ(ran.status, 2);
        EXPECT_THAT(ran.said, HasSubstr("hold more than is"));
    }
    test::Scratch scratch;
};

TEST_F(Hostile, FoldersInFoldersEndSomewhere) {
    scratch.write("book/a.jarful", kraut);
    commit("First");
    std::string path;
    for (int i = 0; i < 3000; ++i)
        path += "d/";
    scratch.write("import", "commit refs/heads/main\ncommitter Q <q@q.example> 1700000000 +0000\n"
                            "data 4\ndeep\nfrom refs/heads/main^0\nM 100644 inline " +
                                path + "b.jarful\ndata 2\nx\n");
    scratch.sh("git fast-import --quiet < ../import", "book");
    refuses_the_tree();
    // What a person may have.
    path = path.substr(0, 160);
    scratch.write("import", "commit refs/heads/flat\ncommitter Q <q@q.example> 1700000000 +0000\n"
                            "data 4\nflat\nM 100644 inline " +
                                path + "b.jarful\ndata " + std::to_string(kraut.size()) + "\n" +
                                kraut + "\n");
    scratch.sh("git fast-import --quiet < ../import", "book");
    const test::Ran ran = limited("jarful check --at flat .");
    EXPECT_EQ(ran.status, 0) << ran.said;
}

TEST_F(Hostile, FoldersThatAreTheSameManyTimesAreNotAllWalkedThrough) {
    scratch.write("book/a.jarful", kraut);
    commit("First");
    // 10 folders in each of 10 folders, ten times over: ten objects.
    scratch.sh(
        "t=$(printf '100644 blob %s\\ta.jarful\\n' $(git rev-parse HEAD:a.jarful) | git mktree)\n"
        "for level in 1 2 3 4 5 6 7 8 9 10; do\n"
        "  t=$(for n in 0 1 2 3 4 5 6 7 8 9; do printf '040000 tree %s\\t%s\\n' $t $n; done | "
        "git mktree)\ndone\n"
        "c=$(git commit-tree -p HEAD -m bomb $t) && git update-ref HEAD $c",
        "book");
    refuses_the_tree();
}

TEST_F(Hostile, AFileThatIsTooLargeIsNotUnpacked) {
    scratch.write("book/a.jarful", kraut);
    commit("First");
    scratch.sh("head -c 300000000 /dev/zero > a.jarful && git add a.jarful && "
               "git commit -q --no-verify -m Large && git gc -q && rm a.jarful",
               "book");
    for (const char* line : {"jarful check --at HEAD", "jarful compare a@HEAD~1 a@HEAD"}) {
        const test::Ran ran = limited(line);
        EXPECT_EQ(ran.status, 2) << line;
        EXPECT_THAT(ran.said, HasSubstr("300000000 bytes")) << line;
    }
}

TEST_F(Hostile, SettingUpWritesNothingOutsideOfTheRepository) {
    const auto set_up = [&] { return scratch.run("jarful book --set-up", "book"); };
    scratch.write("outside/attributes", "mine\n");
    std::filesystem::create_symlink(scratch.path("outside/attributes"),
                                    scratch.path("book/.gitattributes"));
    const test::Ran linked = set_up();
    EXPECT_EQ(linked.status, 2) << linked.said;
    EXPECT_THAT(linked.said, HasSubstr("link, which git does not follow"));
    EXPECT_EQ(scratch.sh("cat outside/attributes"), "mine");
    scratch.sh("rm book/.gitattributes book/.git/hooks/pre-commit");
    for (const std::string& path :
         {std::string("~/hooks"), scratch.path("home/hooks"), std::string("../home/hooks")}) {
        scratch.sh("rm -f .git/pre-commit-jarful; git config core.hooksPath '" + path + "'",
                   "book");
        const test::Ran ran = set_up();
        EXPECT_EQ(ran.status, 0) << ran.said;
        EXPECT_FALSE(std::filesystem::exists(scratch.path("home/hooks"))) << path;
        EXPECT_FALSE(std::filesystem::exists(scratch.path("book/~"))) << path;
        EXPECT_EQ(scratch.run("test -x book/.git/pre-commit-jarful").status, 0);
    }
    // The line that is to be added works, from a linked work tree, too.
    scratch.sh("mkdir -p home/hooks && printf '#!/bin/sh\\n\"$(git rev-parse --git-common-dir)/"
               "pre-commit-jarful\" || exit 1\\n' > home/hooks/pre-commit && chmod +x "
               "home/hooks/pre-commit && git -C book config core.hooksPath '~/hooks'");
    scratch.write("book/a.jarful", weak);
    EXPECT_NE(scratch.run("git add -A && git commit -q -m Weak", "book").status, 0);
    scratch.write("book/a.jarful", kraut);
    const test::Ran good = scratch.run("git add -A && git commit -q -m Good", "book");
    EXPECT_EQ(good.status, 0) << good.said;
    // A home folder that holds the repository is inside of nothing either.
    scratch.sh("git config core.hooksPath .hooks", "book");
    EXPECT_EQ(set_up().status, 0);
    EXPECT_EQ(scratch.run("test -x book/.hooks/pre-commit").status, 0);
}

TEST_F(Hostile, AHookThatIsNoProgramIsNotCalledActive) {
    const auto set_up = [&] { return scratch.run("jarful book --set-up", "book").said; };
    EXPECT_THAT(set_up(), HasSubstr("Wrote the pre-commit hook"));
    EXPECT_THAT(set_up(), HasSubstr("The pre-commit hook is there."));
    scratch.sh("chmod -x .git/hooks/pre-commit", "book");
    EXPECT_THAT(set_up(), HasSubstr("not active"));
    EXPECT_EQ(scratch.run("test -x book/.git/hooks/pre-commit").status, 0);
    scratch.write("book/.git/hooks/pre-commit", "#!/bin/sh\nexit 0\n");
    scratch.sh("chmod -x .git/hooks/pre-commit", "book");
    EXPECT_THAT(set_up(), HasSubstr("It is not active"));
    EXPECT_NE(scratch.run("test -x book/.git/hooks/pre-commit").status, 0);
}

TEST_F(Hostile, TheHookLooksAtFilesAlone) {
    scratch.sh("jarful book --set-up --write-config", "book");
    scratch.write("book/deep/a.jarful", kraut);
    scratch.write("book/b.jarful", kraut);
    scratch.write("secret.jarful", "what nobody is to read\n");
    std::filesystem::create_symlink("../secret.jarful", scratch.path("book/link.jarful"));
    scratch.sh("git init -q -b main other && cd other && git commit -q --allow-empty -m Other");
    scratch.sh("git -c protocol.file.allow=always submodule --quiet add ../other x.jarful", "book");
    const test::Ran first = scratch.run("git add -A && git commit -q -m First", "book");
    EXPECT_EQ(first.status, 0) << first.said;
    EXPECT_THAT(first.said, Not(HasSubstr("nobody")));
    // A sparse checkout: what it leaves out is looked at, and stops no commit.
    scratch.sh("git sparse-checkout set --no-cone '/*' '!/deep/'", "book");
    ASSERT_FALSE(std::filesystem::exists(scratch.path("book/deep/a.jarful")));
    scratch.write("book/kitchen.jarful",
                  "kitchen \"Quay Street\"\nscale bench reads 1 g up to 5 kg\n");
    scratch.sh("jarful tidy kitchen.jarful", "book");
    const test::Ran sparse = scratch.run("git add -A && git commit -q -m Kitchen", "book");
    EXPECT_EQ(sparse.status, 0) << sparse.said;
    scratch.write("book/b.jarful", weak);
    const test::Ran stopped = scratch.run("git add -A && git commit -q -m Weak", "book");
    EXPECT_NE(stopped.status, 0);
    EXPECT_THAT(stopped.said, HasSubstr("BELOW"));
}

TEST_F(Hostile, SuggestedCommandsAreOneWordWhereANameIs) {
    const std::string name = "$(touch gone) x;y";
    const std::string folder = "book/" + name;
    scratch.write(folder + "/a b.jarful", kraut);
    scratch.write(folder + "/kitchen.jarful", "kitchen\n");
    const test::Ran check = scratch.run("jarful check .", folder);
    EXPECT_THAT(check.said, HasSubstr("jarful check kitchen.jarful"));
    const test::Ran above = scratch.run("jarful check .", "book");
    EXPECT_THAT(above.said, Not(HasSubstr("check $(")));
    scratch.sh("rm '" + scratch.path("book") + "'/*/kitchen.jarful");
    const test::Ran batch =
        scratch.run("jarful batch start 'a b' --today 2026-11-25 --name '$(touch gone)'", folder);
    EXPECT_THAT(batch.said, Not(HasSubstr("note $("))) << batch.said;
    if (::geteuid() != 0) return;
    // A repository of somebody else's.
    scratch.sh("git init -q . && chown -R 65534 .", folder);
    const test::Ran other = scratch.run("env -u SUDO_UID jarful check --at HEAD", folder);
    EXPECT_EQ(other.status, 2);
    std::string flat;
    for (const char c : other.said)
        flat += c == '\n' ? ' ' : c;
    EXPECT_THAT(flat, HasSubstr("safe.directory"));
    EXPECT_THAT(flat, Not(HasSubstr("safe.directory /"))) << flat;
}

/// Whether a terminal would show all of it: UTF-8, and no control character but a line's end.
bool is_shown(const std::string& text, bool csv = false) {
    const json sound = text;
    try {
        static_cast<void>(sound.dump());
    } catch (const json::exception&) {
        return false;
    }
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto c = static_cast<unsigned char>(text[i]);
        if ((c < 0x20 && c != '\n' && !(csv && c == '\r')) || c == 0x7f) return false;
        // C1, and what turns the direction of writing.
        if (c == 0xc2 && static_cast<unsigned char>(text[i + 1]) < 0xa0) return false;
        if (text.compare(i, 3, "\xe2\x80\xae") == 0) return false;
    }
    return true;
}

TEST_F(Hostile, NamesOfFilesDoNothingToATerminal) {
    for (const std::string name : {"a\x1b[31m", "b\nc", "d\xff",
                                   "e\xc2\x9b"
                                   "31m",
                                   "f\xe2\x80\xae"
                                   "g",
                                   "h\x7f", "i\tj"}) {
        scratch.write("book/" + name + ".jarful", kraut);
        scratch.write("book/" + name + "-untidy.jarful", "recipe \"U\"\nlet a=1 g\n");
        scratch.write("book/" + name + "-faulty.jarful", "recipe \"F\"\nnonsense\n");
        scratch.write("book/" + name + "/a.jarful", weak);
    }
    commit("Names");
    scratch.sh("for f in *untidy.jarful; do echo 'let b=2 g' >> \"$f\"; done", "book");
    const char* const first = "\"$(printf 'a\\033[31m')\"";
    for (const std::string line : {"check",
                                   "check --at HEAD",
                                   "check --since HEAD",
                                   "check --json",
                                   "book",
                                   "book --json",
                                   "book --csv",
                                   "tidy --check",
                                   "tidy --diff",
                                   "tidy --check --json",
                                   "today",
                                   "weigh FIRST",
                                   "weigh FIRST --json",
                                   "jars FIRST",
                                   "tend FIRST --today 2026-11-25",
                                   "trace FIRST salt",
                                   "trace FIRST salt --dot",
                                   "compare FIRST FIRST@HEAD",
                                   "compare FIRST FIRST@HEAD --json",
                                   "chart FIRST cabbage=1kg..2kg",
                                   "mend FIRST",
                                   "card FIRST --md",
                                   "batch start FIRST",
                                   "batch list",
                                   "batch list --json",
                                   "batch show a",
                                   "new X --kind kraut -o FIRST",
                                   "appraise FIRST",
                                   "weigh no-such-FIRST",
                                   "page FIRST -o /dev/null/x",
                                   "tidy nothing-FIRST",
                                   "batch note FIRST --ph 4"}) {
        std::string words = line;
        for (std::size_t at; (at = words.find("FIRST")) != std::string::npos;)
            words.replace(at, 5, first);
        const test::Ran ran = scratch.run("jarful " + words, "book");
        EXPECT_TRUE(is_shown(ran.said, line.find("--csv") != std::string::npos))
            << line << "\n"
            << testing::PrintToString(ran.said);
        EXPECT_NE(ran.said, "") << line;
    }
    // What a difference says of such a file, git takes.
    scratch.sh("jarful tidy --diff *untidy.jarful > ../difference; git apply ../difference && "
               "jarful tidy --check *untidy.jarful",
               "book");
}

TEST_F(Hostile, NoCellOfATableIsAFormula) {
    scratch.write("book/=1+1.jarful", kraut);
    std::string other = kraut;
    other.replace(other.find("Quay"), 4, "@SUM(A1), quay");
    scratch.write("book/-2.jarful", other);
    other.replace(other.find("@SUM"), 1, "+");
    scratch.write("book/\t=3.jarful", other);
    const std::string table = scratch.run("jarful book --csv", "book").said;
    EXPECT_THAT(table, HasSubstr("\n'=1+1.jarful,"));
    EXPECT_THAT(table, HasSubstr("\n'-2.jarful,\"'@SUM(A1), quay"));
    EXPECT_THAT(table, HasSubstr("\n' =3.jarful,\"'+SUM"));
}

} // namespace
