/// Files that take each other's place: what is lost, and what is not.

#include "cli/writing.hpp"
#include "engine/render/mark.hpp"
#include "tests/support/scratch.hpp"

#include <gmock/gmock.h>

#include <fcntl.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sstream>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

namespace jarful::cli {

namespace {

namespace fs = std::filesystem;
using render::Mark;
using render::MarkForm;
using ::testing::HasSubstr;

std::string content(const std::string& path) {
    std::ostringstream all;
    all << std::ifstream(path, std::ios::binary).rdbuf();
    return all.str();
}

std::size_t files_in(const fs::path& folder) {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

class Writing : public ::testing::Test {
  protected:
    void SetUp() override {
        scratch.write("book/a", "as read");
        path = scratch.path("book/a");
    }
    /// Replaces "as read"; in between, `meanwhile` happens.
    template <class Meanwhile>
    std::optional<FileFault> replace(Meanwhile&& meanwhile) const {
        Replacement replacement;
        if (auto fault = replacement.stage(path, "as read", "as written")) return fault;
        meanwhile();
        std::size_t done = 0;
        auto fault = replacement.commit(done);
        EXPECT_EQ(done, fault ? 0U : 1U);
        return fault;
    }
    void is_left(const std::optional<FileFault>& fault, const std::string& with) const {
        ASSERT_TRUE(fault);
        EXPECT_EQ(fault->code, "changed-meanwhile");
        EXPECT_EQ(content(path), with);
    }

    test::Scratch scratch;
    std::string path;
};

TEST_F(Writing, whatWasReadIsReplaced) {
    EXPECT_FALSE(replace([] {}));
    EXPECT_EQ(content(path), "as written");
    EXPECT_EQ(files_in(scratch.path("book")), 1U);
}

TEST_F(Writing, whatWasSavedInBetweenStays) {
    is_left(replace([&] { scratch.write("book/a", "saved in place"); }), "saved in place");
    scratch.write("book/a", "as read");
    is_left(replace([&] {
                scratch.write("book/b", "saved as an editor does");
                fs::rename(scratch.path("book/b"), path);
            }),
            "saved as an editor does");
    // The same length says nothing.
    scratch.write("book/a", "as read");
    is_left(replace([&] { scratch.write("book/a", "as real"); }), "as real");
    EXPECT_EQ(files_in(scratch.path("book")), 1U) << "a temporary file stayed behind";
}

TEST_F(Writing, whatTookItsPlaceInBetweenStays) {
    scratch.write("book/b", "elsewhere");
    is_left(replace([&] {
                fs::remove(path);
                fs::create_symlink("b", path);
            }),
            "elsewhere");
    EXPECT_TRUE(fs::is_symlink(path));
    fs::remove(path);
    scratch.write("book/a", "as read");
    const auto fault = replace([&] { fs::remove(path); });
    ASSERT_TRUE(fault);
    EXPECT_EQ(fault->code, "changed-meanwhile");
    EXPECT_FALSE(fs::exists(path));
    EXPECT_EQ(files_in(scratch.path("book")), 1U);
}

TEST_F(Writing, whatSomebodyIsWritingStays) {
    int held = -1;
    is_left(replace([&] { held = ::open(path.c_str(), O_WRONLY | O_CLOEXEC); }), "as read");
    EXPECT_EQ(::write(held, "AS", 2), 2);
    ::close(held);
    EXPECT_EQ(content(path), "AS read") << "what was written last is lost";
}

/// From here on the system does not know how to exchange two files, as some file systems do not.
bool without_exchange() {
    std::array<sock_filter, 4> code{{
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, nr)),
        BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_renameat2, 0, 1),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ERRNO | EINVAL),
        BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW),
    }};
    const sock_fprog program{code.size(), code.data()};
    return ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 &&
           ::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0;
}

TEST_F(Writing, whereFilesCannotBeExchangedItIsLookedAsLateAsPossible) {
    constexpr int no_filter = 77;
    const pid_t child = ::fork();
    if (child == 0) {
        if (!without_exchange()) ::_exit(no_filter);
        bool well = !replace([] {}) && content(path) == "as written";
        scratch.write("book/a", "as read");
        const auto fault = replace([&] { scratch.write("book/a", "saved"); });
        well = well && fault && fault->code == "changed-meanwhile" && content(path) == "saved";
        ::_exit(well ? 0 : 1);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    if (WEXITSTATUS(status) == no_filter) GTEST_SKIP() << "no filter of system calls here";
    EXPECT_EQ(status, 0);
    EXPECT_EQ(files_in(scratch.path("book")), 1U);
}

TEST_F(Writing, ofSeveralFilesThoseBeforeTheChangedOneAreInPlace) {
    scratch.write("book/b", "as read");
    scratch.write("book/c", "as read");
    Replacement replacement;
    for (const char* name : {"book/a", "book/b", "book/c"})
        ASSERT_FALSE(replacement.stage(scratch.path(name), "as read", "as written"));
    scratch.write("book/b", "saved");
    std::size_t done = 0;
    ASSERT_TRUE(replacement.commit(done));
    EXPECT_EQ(done, 1U);
    EXPECT_EQ(content(scratch.path("book/a")), "as written");
    EXPECT_EQ(content(scratch.path("book/b")), "saved");
    EXPECT_EQ(content(scratch.path("book/c")), "as read");
}

std::string code_of(const std::optional<UnwrittenFile>& unwritten) {
    return unwritten ? unwritten->fault.code : "";
}

TEST_F(Writing, onlyWhatJarfulMadeAsTheSameIsReplaced) {
    const auto made = [&](const std::string& text, std::string_view what) {
        return std::vector<MadeFile>{
            {path, render::with_mark(text, what, MarkForm::markup), std::string(what)}};
    };
    const auto first = made("<p>1</p>\n", render::made::card);
    const auto second = made("<p>2</p>\n", render::made::card);
    EXPECT_EQ(code_of(put_files(first, false)), "file-exists");
    EXPECT_EQ(content(path), "as read");
    scratch.write("book/a", "");
    EXPECT_EQ(code_of(put_files(first, false)), "") << "an empty file holds nothing to lose";
    EXPECT_EQ(content(path), first.front().content);
    EXPECT_EQ(code_of(put_files(second, false)), "");
    EXPECT_EQ(code_of(put_files(made("<p>3</p>\n", render::made::labels), false)),
              "file-of-another-sort");
    EXPECT_EQ(content(path), second.front().content);
    std::string edited = second.front().content;
    edited.replace(edited.find('2'), 1, "two");
    scratch.write("book/a", edited);
    EXPECT_EQ(code_of(put_files(first, false)), "file-changed");
    EXPECT_EQ(content(path), edited);
    EXPECT_EQ(code_of(put_files(first, true)), "");
    EXPECT_EQ(content(path), first.front().content);
    EXPECT_EQ(files_in(scratch.path("book")), 1U);
}

TEST_F(Writing, ofABookAllIsWrittenOrNothing) {
    const std::string page = render::with_mark("<p>\n", render::made::page, MarkForm::markup);
    const std::vector<MadeFile> files{
        {scratch.path("book/new"), page, std::string(render::made::page)},
        {path, page, std::string(render::made::page)}};
    const auto unwritten = put_files(files, false);
    ASSERT_TRUE(unwritten);
    EXPECT_EQ(unwritten->path, path);
    EXPECT_THAT(unwritten_words("The book", *unwritten), HasSubstr("[file-exists]"));
    EXPECT_FALSE(fs::exists(scratch.path("book/new")));
    EXPECT_FALSE(put_files(files, true));
    EXPECT_EQ(content(scratch.path("book/new")), page);
    EXPECT_EQ(content(path), page);
}

TEST(Mark, isKnownInEveryForm) {
    const std::string calendar = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nEND:VCALENDAR\r\n";
    for (const auto& [text, form] : {std::pair{std::string("<p></p>\n"), MarkForm::markup},
                                     {std::string("let a;\n"), MarkForm::script},
                                     {std::string("a { }\n"), MarkForm::style},
                                     {calendar, MarkForm::calendar},
                                     {std::string("{\"a\":1}\n"), MarkForm::manifest}}) {
        const std::string marked = render::with_mark(text, render::made::page_part, form);
        const Mark mark = render::mark_in(marked);
        EXPECT_EQ(mark.state, Mark::State::sound) << marked;
        EXPECT_EQ(mark.what, render::made::page_part);
        for (std::size_t i = 0; i < marked.size(); ++i) {
            std::string other = marked;
            other[i] = other[i] == 'x' ? 'y' : 'x';
            EXPECT_NE(render::mark_in(other).state, Mark::State::sound) << other;
        }
        EXPECT_NE(render::mark_in(marked + "\n").state, Mark::State::sound);
        // What a title says may look like a mark.
        const std::string twice = render::with_mark(marked, render::made::card, form);
        EXPECT_EQ(render::mark_in(twice).state, Mark::State::sound) << twice;
    }
    EXPECT_EQ(render::mark_in("").state, Mark::State::none);
    EXPECT_EQ(render::mark_in("Written by jarful as a card with the mark 0").state,
              Mark::State::none);
}

/// FNV-1a of 64 bits: the hashes of "", "a" and "foobar" as the algorithm's authors list them.
TEST(Mark, carriesThePublishedHash) {
    EXPECT_EQ(render::content_hash(""), "cbf29ce484222325");
    EXPECT_EQ(render::content_hash("a"), "af63dc4c8601ec8c");
    EXPECT_EQ(render::content_hash("foobar"), "85944171f73967e8");
}

} // namespace

} // namespace jarful::cli
