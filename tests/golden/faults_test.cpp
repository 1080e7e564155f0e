/// What a machine does to a program: no room, no rights, no environment, files that are none. Every
/// time a sentence, a status, and nothing lost.

#include "tests/support/scratch.hpp"

#include <gmock/gmock.h>

#include <unistd.h>

namespace {

using namespace jarful;
using testing::AnyOf;
using testing::HasSubstr;
using testing::Not;

const std::string program = JARFUL_PROGRAM;

constexpr const char* kraut = "recipe \"Kraut\"\nkind   kraut\n\ngiven  cabbage = 1.8 kg\n"
                              "weigh  salt    = 2.2 % of cabbage   as fine sea salt\n";
constexpr const char* untidy = "recipe \"Kraut\"\nkind kraut\ngiven cabbage=1.8 kg\n"
                               "weigh salt=2.2 % of cabbage as fine sea salt\n";

class Faults : public testing::Test {
  protected:
    Faults() {
        scratch.write("kraut.jarful", kraut);
        scratch.write("kitchen.jarful",
                      "kitchen \"Quay Street\"\nscale bench reads 1 g up to 5 kg within 1 g\n");
    }
    test::Ran run(const std::string& words) const { return scratch.run(program + " " + words); }
    std::string names() const { return scratch.sh("ls -A | tr '\\n' ' '"); }

    test::Scratch scratch;
};

TEST_F(Faults, aFullDiskIsSaid) {
    for (const char* words : {"weigh kraut", "weigh kraut --json", "check .", "ranges", "help",
                              "chart kraut cabbage=1kg..2kg --csv", "convert 2 tbsp canning salt",
                              "trace kraut salt", "compare kraut kraut", "--version"}) {
        const test::Ran ran = run(std::string(words) + " > /dev/full");
        EXPECT_EQ(ran.status, 2) << words;
        EXPECT_THAT(ran.said, HasSubstr("could not be written")) << words;
    }
}

TEST_F(Faults, whereNoFileCanGrowNothingIsLeftBehind) {
    scratch.write("kraut.jarful", untidy);
    const std::string before = names();
    for (const char* words : {"new \"Big One\" --kind kraut", "tidy kraut",
                              "appraise - --as-recipe out.jarful < kraut.jarful"}) {
        const test::Ran ran =
            scratch.run("(ulimit -f 0; " + program + " " + words + " 2>&1 | cat)");
        EXPECT_EQ(names(), before) << words << "\n" << ran.said;
        EXPECT_EQ(scratch.sh("cat kraut.jarful") + "\n", untidy) << words;
        EXPECT_THAT(ran.said, HasSubstr("would be larger")) << words;
    }
}

TEST_F(Faults, aFolderThatMayNotBeWrittenIsSaid) {
    scratch.write("kraut.jarful", untidy);
    // Root may write everywhere, so it becomes somebody else.
    std::string as_nobody;
    if (::geteuid() == 0) {
        as_nobody = "setpriv --reuid=65534 --regid=65534 --clear-groups ";
        if (scratch.run(as_nobody + program + " --version").status != 0)
            GTEST_SKIP() << "nobody else may run the program here";
        scratch.sh("chown -R 65534:65534 .");
    }
    scratch.sh("chmod a-w .");
    for (const char* words : {"new \"Big One\" --kind kraut", "tidy kraut"}) {
        const test::Ran ran = scratch.run(as_nobody + program + " " + words);
        EXPECT_EQ(ran.status, 2) << words;
        EXPECT_THAT(ran.said, HasSubstr("or its folder")) << words;
    }
    scratch.sh("chmod u+w .");
    EXPECT_EQ(scratch.sh("cat kraut.jarful") + "\n", untidy);
}

TEST_F(Faults, aReaderWhoGoesAwayIsNoFault) {
    for (const char* words : {"ranges", "help", "weigh kraut", "check ."}) {
        const test::Ran ran = scratch.run("bash -c '" + program + " " + words +
                                          " | head -n 1 > /dev/null; exit ${PIPESTATUS[0]}'");
        EXPECT_THAT(ran.status, AnyOf(0, 1)) << words;
        EXPECT_EQ(ran.said, "") << words;
    }
}

TEST_F(Faults, withoutAnyEnvironmentItIsTheSame) {
    for (const char* words : {"weigh kraut", "check . --json", "convert 2 tbsp canning salt"}) {
        const std::string usual = run(words).said;
        EXPECT_EQ(scratch.run("env -i " + program + " " + words).said, usual) << words;
        // A comma for decimals and its like change nothing, whether that locale is there or not.
        EXPECT_EQ(scratch.run("LC_ALL=de_DE.UTF-8 " + program + " " + words).said, usual) << words;
        EXPECT_EQ(scratch.run("LC_ALL=tr_TR.UTF-8 TERM=dumb " + program + " " + words).said, usual)
            << words;
    }
}

TEST_F(Faults, whatIsNoFileIsSaidAndNotWaitedFor) {
    scratch.sh("mkfifo pipe.jarful && ln -s loop.jarful loop.jarful && mkdir folder.jarful && "
               "ln -s nowhere broken.jarful && ln -s . around");
    for (const char* words :
         {"check pipe.jarful", "weigh pipe.jarful", "check /dev/zero", "weigh loop.jarful",
          "weigh folder.jarful", "tidy broken.jarful", "compare pipe.jarful kraut"}) {
        const test::Ran ran = scratch.run("timeout 20 " + program + " " + words);
        EXPECT_EQ(ran.status, 2) << words << "\n" << ran.said;
        EXPECT_NE(ran.said, "") << words;
    }
    // In a folder they stop nothing.
    const test::Ran all = scratch.run("timeout 20 " + program + " check .");
    EXPECT_EQ(all.status, 2);
    EXPECT_THAT(all.said, HasSubstr("inside"));
}

TEST_F(Faults, otherEncodingsAreNamed) {
    scratch.write("latin.jarful", "recipe \"K\xe4se\"\nkind kraut\n");
    EXPECT_THAT(run("check latin.jarful").said, HasSubstr("[not-utf8]"));
    std::string wide = "\xff\xfe";
    for (const char c : std::string(kraut))
        wide += std::string(1, c) + std::string(1, '\0');
    for (const std::string& text : {wide, wide.substr(2), "\xfe\xff" + wide.substr(3)}) {
        scratch.write("wide.jarful", text);
        const test::Ran ran = run("check wide.jarful");
        EXPECT_EQ(ran.status, 2);
        EXPECT_THAT(ran.said, HasSubstr("UTF-16"));
        EXPECT_THAT(ran.said, Not(HasSubstr("[unknown-statement]")));
    }
}

TEST_F(Faults, noEscapeSequenceOfAFileReachesTheTerminal) {
    const std::string evil = "\x1b]0;owned\x07\x1b[31m";
    scratch.write("evil.jarful", "recipe \"" + evil + "\"\nkind kraut\nwiegh " + evil + " = 3\n");
    scratch.write("a\x1b[31m.jarful", kraut);
    scratch.write("found.txt", "1 kg cabbage\n20 g " + evil + " salt\n" + evil + "\n");
    for (const char* words :
         {"check .", "check . --json", "weigh evil", "tidy evil", "appraise found.txt",
          "weigh 'a\x1b[31m'", "weigh kraut 'x\x1b[31m=3'", "convert 'two \x1b[31m spoons'",
          "compare kraut evil", "help '\x1b[31m'", "new '\x1b[31m' --kind kraut -o -"}) {
        const test::Ran ran = run(words);
        EXPECT_THAT(ran.said, Not(HasSubstr("\x1b"))) << words;
        EXPECT_THAT(ran.said, Not(HasSubstr("\x07"))) << words;
    }
}

TEST_F(Faults, aFileThatChangesWhileItIsReadIsReadAsOneOrTheOther) {
    scratch.write("two.jarful", untidy);
    const test::Ran ran = scratch.run(
        "(for i in $(seq 400); do cp kraut.jarful changing.jarful; : > changing.jarful; done) & "
        "cp kraut.jarful changing.jarful; worst=0; for i in $(seq 40); do " +
        program +
        " check changing.jarful > /dev/null 2>&1; s=$?; [ $s -le $worst ] || worst=$s; done; wait; "
        "exit $worst");
    EXPECT_THAT(ran.status, AnyOf(0, 2)) << "a crash has a status above 128";
}

TEST_F(Faults, aFolderOfManyOtherFilesIsNoMatter) {
    scratch.sh("mkdir many && cd many && seq -f 'note-%g.txt' 5000 | xargs touch && "
               "cp ../kraut.jarful .");
    const test::Ran ran = run("check many");
    EXPECT_EQ(ran.status, 0) << ran.said;
    EXPECT_THAT(ran.said, HasSubstr("1 file"));
}

TEST_F(Faults, aKilledTidyLeavesTheOldOrTheNew) {
    const std::string kill =
        "cp start.jarful one.jarful; " + program +
        " tidy one.jarful > /dev/null 2>&1 & p=$!; sleep 0.00$1; kill -9 $p 2> /dev/null; wait; "
        "cmp -s one.jarful start.jarful || cmp -s one.jarful end.jarful || exit 7";
    scratch.write("start.jarful", untidy);
    scratch.write("end.jarful", untidy);
    scratch.sh(program + " tidy end.jarful");
    scratch.write("kill.sh", kill + "\n");
    for (int i = 0; i < 40; ++i) {
        const test::Ran ran = scratch.run("bash kill.sh " + std::to_string(i % 8));
        ASSERT_NE(ran.status, 7) << "neither the old file nor the new one";
    }
}

} // namespace
