/// The book's look into git against the git program itself, on repositories made here.

#include "engine/book/repository.hpp"
#include "tests/support/scratch.hpp"

#include <gmock/gmock.h>

#include <sstream>
#include <sys/stat.h>
#include <unistd.h>

// The regular expressions of `:/words` leave memory behind in the library that libgit2 asks for
// them.
extern "C" const char* __lsan_default_suppressions();
const char* __lsan_default_suppressions() {
    return "leak:libpcre2";
}

namespace {

using namespace jarful;
using book::Answer;
using book::Repository;
using book::Revision;
using book::Standing;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Pair;

std::string recipe(const std::string& salt) {
    return "recipe \"Quay Street kraut\" version 1\nkind kraut\ngiven cabbage = 1.8 kg\n"
           "weigh salt = " +
           salt +
           " of cabbage as fine sea salt\nstep \"Rub {salt} into {cabbage}.\"\n"
           "step \"Press until the juice stands above it.\"\n";
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> out;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);)
        out.push_back(line);
    return out;
}

/// A book with a history: branches, a merge, tags, moved files, committers in several zones.
class Book : public testing::Test {
  protected:
    Book() {
        scratch.sh("git init -q -b main book");
        commit("2026-08-30 10:00:00 +0200", "First recipes", [&] {
            scratch.write("book/recipes/kraut.jarful", recipe("2.0 %"));
            scratch.write("book/recipes/roots.jarful", recipe("2.1 %"));
            scratch.write("book/kitchen.jarful", "kitchen \"Quay Street\"\n");
            scratch.write("book/notes.txt", "not a recipe\n");
        });
        scratch.sh("git tag v1", "book");
        commit("2026-08-31 23:30:00 -0800", "Salt the kraut",
               [&] { scratch.write("book/recipes/kraut.jarful", recipe("2.2 %")); });
        commit("2026-09-01 09:00:00 +1000", "Move the roots", [&] {
            scratch.sh("git mv recipes/roots.jarful recipes/winter-roots.jarful", "book");
        });
        scratch.sh("git checkout -q -b crocks HEAD~1", "book");
        commit("2026-09-01 12:00:00 +0000", "A crock recipe",
               [&] { scratch.write("book/recipes/deep/crock.jarful", recipe("2.3 %")); });
        commit("2026-09-02 00:30:00 +0200", "Mend the crock recipe",
               [&] { scratch.write("book/recipes/deep/crock.jarful", recipe("2.4 %")); });
        scratch.sh("git checkout -q main", "book");
        commit("2026-09-02 08:00:00 +0000", "Salt the roots",
               [&] { scratch.write("book/recipes/winter-roots.jarful", recipe("2.6 %")); });
        at("2026-09-03 08:00:00 +0000");
        scratch.sh("git merge -q --no-ff -m 'Take in the crocks' crocks", "book");
        scratch.sh("git tag -a v2 -m 'Second edition'", "book");
        commit("2026-09-05 08:00:00 +0000", "Rename the kraut and salt it", [&] {
            scratch.sh("git mv recipes/kraut.jarful recipes/winter-kraut.jarful", "book");
            scratch.write("book/recipes/winter-kraut.jarful", recipe("2.5 %"));
        });
    }

    void at(const std::string& date) const {
        ::setenv("GIT_AUTHOR_DATE", date.c_str(), 1);
        ::setenv("GIT_COMMITTER_DATE", date.c_str(), 1);
    }
    template <class Change>
    void commit(const std::string& date, const std::string& message, Change change) {
        change();
        at(date);
        scratch.sh("git add -A && git commit -q -m '" + message + "'", "book");
    }
    [[nodiscard]] Repository open(const std::string& folder = "book") const {
        Answer<Repository> out = Repository::open(scratch.path(folder));
        if (!out) throw std::runtime_error(out.trouble().message);
        return std::move(*out);
    }
    [[nodiscard]] static std::string id(const Answer<Revision>& revision) {
        return revision ? revision->id : revision.trouble().code;
    }

    test::Scratch scratch;
};

TEST_F(Book, NamesOfRevisionsMeanWhatTheyMeanToGit) {
    const Repository book = open();
    const std::string hash = scratch.sh("git rev-parse HEAD~2", "book");
    for (const std::string& word :
         {std::string("HEAD"), std::string("HEAD~3"), std::string("HEAD^2"), std::string("v1"),
          std::string("v2"), std::string("crocks"), std::string("main~1"), std::string("v2^{}"),
          std::string("HEAD~1^2~1"), std::string(":/Salt the kraut"), std::string("refs/tags/v1"),
          std::string("@"), std::string("HEAD@{1}"), hash, hash.substr(0, 8)}) {
        const test::Ran said = scratch.run("git rev-list -1 '" + word + "'", "book");
        ASSERT_EQ(said.status == 0, static_cast<bool>(book.resolve(word))) << word;
        if (said.status == 0) {
            EXPECT_EQ(id(book.resolve(word)) + "\n", said.said) << word;
        }
    }
}

TEST_F(Book, ADateIsTheNewestCommitOfThatDayOrBefore) {
    const Repository book = open();
    // git prints each committer's own date; its list is in the same order.
    const auto log = lines_of(scratch.sh("git log --format='%H %cd' --date=short", "book"));
    for (const char* date : {"2026-08-29", "2026-08-30", "2026-08-31", "2026-09-01", "2026-09-02",
                             "2026-09-03", "2026-09-04", "2026-09-05", "2026-12-31"}) {
        std::string wanted = "unknown-revision";
        for (const std::string& line : log) {
            if (line.substr(41) > date) continue;
            wanted = line.substr(0, 40);
            break;
        }
        EXPECT_EQ(id(book.resolve(date)), wanted) << date;
    }
    EXPECT_EQ(book.resolve("2026-09-01")->date(), "2026-09-01");
    EXPECT_EQ(book.resolve("2026-08-31")->summary, "Salt the kraut");
    scratch.sh("git tag 2026-09-03 v1", "book");
    EXPECT_EQ(id(book.resolve("2026-09-03")), scratch.sh("git rev-parse v1", "book"))
        << "a tag of that name goes first";
    EXPECT_EQ(id(book.resolve("2026-13-01")), "unknown-revision");
}

TEST_F(Book, ACommitIsDescribedAsGitDescribesIt) {
    const Answer<Revision> head = open().head();
    ASSERT_TRUE(head);
    EXPECT_EQ(head->id + "|" + head->short_id + "|" + head->summary + "|" + head->date() + "|" +
                  std::to_string(head->time),
              scratch.sh("git log -1 --format='%H|%h|%s|%cd|%ct' --date=short", "book"));
}

TEST_F(Book, WhatIsNoRevisionIsSaid) {
    const Repository book = open();
    const auto said = [&](std::string_view word) {
        const auto answer = book.resolve(word);
        return answer ? std::string("found")
                      : answer.trouble().code + ": " + answer.trouble().message + " " +
                            answer.trouble().advice;
    };
    EXPECT_THAT(said("crokcs"), HasSubstr("Did you mean \"crocks\"?"));
    EXPECT_THAT(said("HEAD~99"), HasSubstr("may not go back so far"));
    EXPECT_THAT(said("HEAD:notes.txt"), HasSubstr("is no commit"));
    EXPECT_THAT(said(""), HasSubstr("unknown-revision"));
    EXPECT_THAT(said("2026-01-01"), HasSubstr("No commit here is from 2026-01-01 or before"));
}

TEST_F(Book, FilesOfACommitAreReadByteForByte) {
    const Repository book = open();
    for (const char* word : {"HEAD~1", "v1", "v2", "crocks"}) {
        const auto listed = book.list(*book.resolve(word));
        ASSERT_TRUE(listed);
        std::string names;
        for (const book::Entry& entry : *listed) {
            names += entry.path + "\n";
            const std::string object = std::string(word) + ":" + entry.path;
            const auto bytes = book.read(word, entry.path);
            ASSERT_TRUE(bytes);
            EXPECT_EQ(*bytes, scratch.run("git cat-file -p " + object, "book").said);
            EXPECT_EQ(*book.read(entry), *bytes);
            EXPECT_EQ(entry.blob, scratch.sh("git rev-parse " + object, "book"));
        }
        EXPECT_EQ(names, scratch
                             .run("git ls-tree -r --name-only " + std::string(word) +
                                      " | grep '\\.jarful$' | LC_ALL=C sort",
                                  "book")
                             .said);
    }
    EXPECT_EQ(book.list(*book.head(), "recipes/deep")->front().path, "recipes/deep/crock.jarful");
    EXPECT_THAT(*book.list(*book.head(), "nowhere"), IsEmpty());
    EXPECT_EQ(book.read("HEAD", "recipes/none.jarful").trouble().code, "not-in-revision");
    EXPECT_THAT(book.read("HEAD", "recipes").trouble().message,
                HasSubstr("is no file but a folder"));
}

TEST_F(Book, TheLastChangeOfEachFileIsTheOneThatGitTells) {
    const Repository book = open();
    const auto changes = book.last_changes(*book.head());
    ASSERT_TRUE(changes);
    EXPECT_EQ(changes->size(), 4u);
    for (const auto& [path, revision] : *changes) {
        // Of the commits that git lists for the file, the first that did more than move it.
        const auto log =
            lines_of(scratch.sh("git log --follow --format=%H --name-status -- " + path, "book"));
        std::string commit;
        std::string wanted;
        for (const std::string& line : log) {
            if (line.size() == 40 && line.find('\t') == std::string::npos) commit = line;
            if (line.find('\t') != std::string::npos && !line.starts_with("R100") &&
                wanted.empty()) {
                wanted = commit;
            }
        }
        EXPECT_EQ(revision.id, wanted) << path;
    }
    EXPECT_EQ(changes->at("recipes/winter-kraut.jarful").summary, "Rename the kraut and salt it");
    EXPECT_EQ(changes->at("recipes/deep/crock.jarful").summary, "Mend the crock recipe");
    const auto before = book.last_changes(*book.resolve("HEAD~3"), "recipes");
    ASSERT_TRUE(before);
    EXPECT_EQ(before->at("recipes/winter-roots.jarful").summary, "First recipes")
        << "moving is no change";
}

TEST_F(Book, ChangesOnBothSidesOfAMergeAreFound) {
    scratch.sh("git checkout -q -b left", "book");
    commit("2026-09-06 08:00:00 +0000", "Left", [&] {
        scratch.write("book/recipes/left.jarful", recipe("2.1 %"));
        scratch.write("book/recipes/both.jarful", recipe("2.1 %"));
    });
    scratch.sh("git checkout -q main", "book");
    // The clock of this committer was wrong: older than what came before it.
    commit("2025-01-01 08:00:00 +0000", "Right",
           [&] { scratch.write("book/recipes/right.jarful", recipe("2.2 %")); });
    at("2026-09-07 08:00:00 +0000");
    scratch.sh("git merge -q --no-commit --no-ff left", "book");
    scratch.write("book/recipes/both.jarful", recipe("2.5 %"));
    scratch.sh("git add -A && git commit -q -m Merged", "book");
    const Repository book = open();
    const auto changes = *book.last_changes(*book.head());
    for (const auto& [path, revision] : changes) {
        if (path == "recipes/winter-kraut.jarful" || path == "recipes/winter-roots.jarful")
            continue;
        EXPECT_EQ(revision.id, scratch.sh("git log -1 --format=%H -- " + path, "book")) << path;
    }
    EXPECT_EQ(changes.at("recipes/both.jarful").summary, "Merged");
    EXPECT_EQ(changes.at("recipes/right.jarful").summary, "Right");
}

TEST_F(Book, AnEarlierNameIsFollowedBack) {
    const Repository book = open();
    const auto at_v1 = *book.resolve("v1");
    EXPECT_EQ(*book.path_at(at_v1, "recipes/winter-kraut.jarful"), "recipes/kraut.jarful");
    EXPECT_EQ(*book.path_at(at_v1, "recipes/winter-roots.jarful"), "recipes/roots.jarful");
    EXPECT_EQ(*book.path_at(at_v1, "kitchen.jarful"), "kitchen.jarful");
    EXPECT_EQ(book.path_at(at_v1, "recipes/deep/crock.jarful").trouble().code, "not-in-revision");
    EXPECT_EQ(scratch.sh("git log --follow --format= --name-only -- recipes/winter-kraut.jarful "
                         "| tail -n 1",
                         "book"),
              "recipes/kraut.jarful");
}

TEST_F(Book, WhatIsNotCommittedIsTold) {
    scratch.write("book/recipes/winter-kraut.jarful", recipe("3.0 %"));
    scratch.write("book/recipes/new.jarful", recipe("2.0 %"));
    scratch.write("book/recipes/staged.jarful", recipe("2.0 %"));
    scratch.write("book/.hidden/secret.jarful", recipe("2.0 %"));
    scratch.write("book/ignored.jarful", recipe("2.0 %"));
    scratch.write("book/.gitignore", "ignored.jarful\n");
    scratch.sh("git add recipes/staged.jarful && rm recipes/winter-roots.jarful", "book");
    const Repository book = open();
    EXPECT_THAT(*book.standings(),
                ElementsAre(Pair("kitchen.jarful", Standing::same),
                            Pair("recipes/deep/crock.jarful", Standing::same),
                            Pair("recipes/new.jarful", Standing::not_committed),
                            Pair("recipes/staged.jarful", Standing::not_committed),
                            Pair("recipes/winter-kraut.jarful", Standing::changed),
                            Pair("recipes/winter-roots.jarful", Standing::gone)));
    EXPECT_THAT(*book.changed_since(*book.head()),
                ElementsAre("recipes/new.jarful", "recipes/staged.jarful",
                            "recipes/winter-kraut.jarful", "recipes/winter-roots.jarful"));
    EXPECT_THAT(*book.changed_since(*book.resolve("v2"), "recipes/deep"), IsEmpty());
    EXPECT_THAT(*book.changed_since(*book.resolve("v1"), "recipes/deep"),
                ElementsAre("recipes/deep/crock.jarful"));
    // What is staged is what git would commit, whatever stands in the work tree by now.
    scratch.write("book/recipes/staged.jarful", recipe("9.0 %"));
    for (const book::Entry& entry : *book.staged("recipes")) {
        EXPECT_EQ(*book.read(entry), scratch.run("git cat-file -p :" + entry.path, "book").said)
            << entry.path;
    }
    EXPECT_EQ(book.staged("recipes")->size(), 4u);
}

TEST_F(Book, AConflictIsToldApart) {
    scratch.sh("git checkout -q -b other HEAD~1", "book");
    commit("2026-09-06 08:00:00 +0000", "Other roots",
           [&] { scratch.write("book/recipes/winter-roots.jarful", recipe("2.7 %")); });
    scratch.sh("git checkout -q main", "book");
    commit("2026-09-06 09:00:00 +0000", "Our roots",
           [&] { scratch.write("book/recipes/winter-roots.jarful", recipe("2.8 %")); });
    EXPECT_NE(scratch.run("git merge -q other", "book").status, 0);
    const Repository book = open();
    EXPECT_EQ(book.standings()->at("recipes/winter-roots.jarful"), Standing::conflict);
}

TEST_F(Book, OpensABareCloneAWorkTreeAndAShallowClone) {
    const std::string head = scratch.sh("git rev-parse HEAD", "book");
    scratch.sh("git clone -q --bare book bare.git");
    const Repository bare = open("bare.git");
    EXPECT_EQ(bare.work_tree(), "");
    EXPECT_EQ(bare.git_folder(), scratch.path("bare.git"));
    EXPECT_EQ(id(bare.head()), head);
    EXPECT_EQ(bare.list(*bare.head())->size(), 4u);
    EXPECT_EQ(*bare.path_of(scratch.path("bare.git")), "");
    EXPECT_EQ(*bare.changed_since(*bare.resolve("HEAD~1")),
              (std::vector<std::string>{"recipes/kraut.jarful", "recipes/winter-kraut.jarful"}));
    EXPECT_EQ(bare.standings()->at("kitchen.jarful"), Standing::same);

    scratch.sh("git worktree add -q ../beside v2", "book");
    const Repository beside = open("beside/recipes");
    EXPECT_EQ(beside.work_tree(), scratch.path("beside"));
    EXPECT_EQ(beside.git_folder(), scratch.path("book/.git"));
    EXPECT_EQ(id(beside.head()), scratch.sh("git rev-parse HEAD", "beside"));
    EXPECT_EQ(*beside.path_of(scratch.path("beside/recipes/kraut.jarful")), "recipes/kraut.jarful");

    scratch.sh("git clone -q --depth 2 'file://" + scratch.path("book") + "' shallow");
    const Repository shallow = open("shallow");
    EXPECT_EQ(id(shallow.resolve("HEAD~1")), scratch.sh("git rev-parse HEAD~1", "shallow"));
    EXPECT_THAT(shallow.resolve("HEAD~5").trouble().advice, HasSubstr("--unshallow"));
    EXPECT_THAT(shallow.resolve("2020-01-01").trouble().advice, HasSubstr("--unshallow"));
    const auto changes = shallow.last_changes(*shallow.head());
    ASSERT_TRUE(changes);
    EXPECT_EQ(changes->size(), 4u);
    for (const auto& [path, revision] : *changes) {
        EXPECT_EQ(revision.id, scratch.sh("git log -1 --format=%H -- " + path, "shallow")) << path;
    }
}

TEST_F(Book, PathsAreFoundFromTheRepositorysRoot) {
    const Repository book = open();
    EXPECT_EQ(*book.path_of(scratch.path("book")), "");
    EXPECT_EQ(*book.path_of(scratch.path("book/recipes/")), "recipes");
    EXPECT_EQ(*book.path_of(scratch.path("book/recipes/../gone/x.jarful")), "gone/x.jarful");
    EXPECT_EQ(book.path_of(scratch.path("elsewhere.jarful")).trouble().code, "outside-repository");
    EXPECT_EQ(book.path_of(scratch.path("book-two")).trouble().code, "outside-repository");
    scratch.sh("ln -s book link");
    EXPECT_EQ(*open("link").path_of(scratch.path("link/recipes/kraut.jarful")),
              "recipes/kraut.jarful");
}

TEST(BookWithoutHistory, IsOpenedAndSaysThatNothingIsCommitted) {
    const test::Scratch scratch;
    scratch.sh("git init -q -b main book");
    scratch.write("book/kraut.jarful", recipe("2.2 %"));
    const auto book = Repository::open(scratch.path("book"));
    ASSERT_TRUE(book);
    EXPECT_EQ(book->head().trouble().code, "no-commits");
    EXPECT_EQ(book->resolve("HEAD~3").trouble().code, "no-commits");
    EXPECT_THAT(*book->standings(), ElementsAre(Pair("kraut.jarful", Standing::not_committed)));
    EXPECT_THAT(*book->staged(), IsEmpty());
}

TEST(BookOutsideARepository, IsSaid) {
    const test::Scratch scratch;
    const auto book = Repository::open(scratch.path("home"));
    ASSERT_FALSE(book);
    EXPECT_EQ(book.trouble().code, "not-a-repository");
    EXPECT_THAT(book.trouble().message, HasSubstr(scratch.path("home")));
    EXPECT_EQ(Repository::open(scratch.path("home/no/such/folder")).trouble().code,
              "not-a-repository");
}

TEST(BookOfSomebodyElse, IsSaidInOneSentence) {
    if (::geteuid() != 0) GTEST_SKIP() << "only root can give a folder away";
    const test::Scratch scratch;
    scratch.sh("git init -q -b main book && chown -R 12345 book");
    ::unsetenv("SUDO_UID");
    const auto first = Repository::open(scratch.path("book"));
    ASSERT_FALSE(first);
    EXPECT_EQ(first.trouble().code, "not-your-repository");
    // The library answers otherwise as soon as there is any such setting.
    scratch.sh("git config --global safe.directory /elsewhere");
    const auto second = Repository::open(scratch.path("book"));
    ASSERT_FALSE(second);
    EXPECT_EQ(second.trouble().message, first.trouble().message);
    EXPECT_EQ(second.trouble().code, first.trouble().code);
    EXPECT_THAT(first.trouble().advice, HasSubstr(scratch.path("book")));
}

} // namespace
