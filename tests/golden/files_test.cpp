/// What the program does to files, run as a person runs it: what is written, and what is not.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;

constexpr const char* untidy = "recipe \"A\"\nkind kraut\ngiven cabbage=1kg\n"
                               "weigh salt=2.25% of cabbage as fine sea salt\n";
constexpr const char* tidy = "recipe \"A\"\nkind   kraut\ngiven  cabbage = 1 kg\n"
                             "weigh  salt    = 2.25 % of cabbage   as fine sea salt\n";

/// A folder of its own for each test.
class Files : public ::testing::Test {
  protected:
    void SetUp() override {
        std::string name = (fs::temp_directory_path() / "jarful-files-XXXXXX").string();
        ASSERT_NE(::mkdtemp(name.data()), nullptr);
        folder = name;
        fs::create_directory(folder / ".git"); // the search for a kitchen ends here
    }
    void TearDown() override {
        fs::permissions(folder, fs::perms::owner_all);
        fs::remove_all(folder);
    }

    void put(const std::string& name, const std::string& text) const {
        std::ofstream(folder / name, std::ios::binary) << text;
    }
    [[nodiscard]] std::string get(const std::string& name) const {
        std::ifstream file(folder / name, std::ios::binary);
        std::ostringstream all;
        all << file.rdbuf();
        return all.str();
    }
    [[nodiscard]] std::size_t count() const {
        return static_cast<std::size_t>(
                   std::distance(fs::directory_iterator(folder), fs::directory_iterator())) -
               1;
    }

    /// Runs the program in the folder, without a shell; both streams in `said`.
    int run(std::vector<std::string> words, const std::string& input = "/dev/null") {
        words.insert(words.begin(), "jarful");
        std::vector<char*> arguments;
        for (std::string& word : words)
            arguments.push_back(word.data());
        arguments.push_back(nullptr);
        const fs::path out = folder / ".git" / "said";
        const pid_t child = ::fork();
        if (child == 0) {
            if (::chdir(folder.c_str()) != 0) ::_exit(99);
            ::dup2(::open(input.c_str(), O_RDONLY), STDIN_FILENO);
            const int both = ::open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
            ::dup2(both, STDOUT_FILENO);
            ::dup2(both, STDERR_FILENO);
            ::execv(JARFUL_PROGRAM, arguments.data());
            ::_exit(98);
        }
        int status = 0;
        ::waitpid(child, &status, 0);
        said = get(".git/said");
        return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    }

    fs::path folder;
    std::string said;
};

TEST_F(Files, TidyWritesWhatIsUntidyAndKeepsPermissionsAndLinks) {
    put("a.jarful", untidy);
    put("b.jarful", tidy);
    fs::permissions(folder / "a.jarful", fs::perms(0640));
    fs::create_symlink("a.jarful", folder / "link");
    const auto before = fs::last_write_time(folder / "b.jarful");
    EXPECT_EQ(run({"tidy", "--check"}), 1);
    EXPECT_EQ(get("a.jarful"), untidy);
    EXPECT_NE(said.find("a.jarful\n"), std::string::npos);
    EXPECT_EQ(said.find("b.jarful"), std::string::npos);
    EXPECT_EQ(run({"tidy", "link", "b"}), 0) << said;
    EXPECT_EQ(get("a.jarful"), tidy);
    EXPECT_TRUE(fs::is_symlink(folder / "link"));
    EXPECT_EQ(fs::status(folder / "a.jarful").permissions(), fs::perms(0640));
    EXPECT_EQ(fs::last_write_time(folder / "b.jarful"), before);
    EXPECT_EQ(run({"tidy", "--check"}), 0);
    EXPECT_EQ(count(), 3U) << "a temporary file stayed behind";
}

TEST_F(Files, TidyWritesNothingIfAnythingIsWrong) {
    put("a.jarful", untidy);
    put("b.jarful", "recipe \"B\"\nwiegh salt = 3 g\n");
    EXPECT_EQ(run({"tidy"}), 2);
    EXPECT_NE(said.find("[unknown-statement]"), std::string::npos);
    EXPECT_EQ(get("a.jarful"), untidy);
    EXPECT_EQ(run({"tidy", "a", "nowhere"}), 2);
    EXPECT_EQ(get("a.jarful"), untidy);
    put("b.jarful", "recipe \"B\"\n<<<<<<< ours\nlet a = 3\n=======\nlet a = \n>>>>>>> theirs\n");
    for (const char* command : {"tidy", "check", "weigh"}) {
        EXPECT_EQ(run({command, "b.jarful"}), 2);
        EXPECT_NE(said.find("[merge-conflict]"), std::string::npos) << said;
        EXPECT_EQ(said.find("[expected-"), std::string::npos) << said;
    }
    EXPECT_EQ(count(), 2U);
}

TEST_F(Files, TidyLeavesTheRecordOfABatchAlone) {
    const std::string record = "batch   \"A\"\n";
    put("a.jarful", untidy);
    put("b.jarful", record);
    EXPECT_EQ(run({"tidy"}), 0) << said;
    EXPECT_EQ(get("a.jarful"), tidy);
    EXPECT_EQ(run({"tidy", "b.jarful"}), 2);
    EXPECT_NE(said.find("[tidy-batch]"), std::string::npos);
    // Who only asks what would change has nothing to hear of it.
    EXPECT_EQ(run({"tidy", "--check", "b.jarful"}), 0) << said;
    EXPECT_NE(said.find("never rewritten"), std::string::npos) << said;
    EXPECT_EQ(run({"tidy", "--diff", "b.jarful"}), 0) << said;
    EXPECT_EQ(run({"tidy", "--check", "a.jarful", "b.jarful"}), 0) << said;
    EXPECT_EQ(said, "This file is tidy.\n");
    EXPECT_EQ(run({"tidy", "--check", "--json", "b.jarful"}), 0) << said;
    EXPECT_NE(said.find("\"files\": []"), std::string::npos) << said;
    EXPECT_EQ(get("b.jarful"), record);
}

TEST_F(Files, ACardSaysWhereItIsAndTakesNothingElsesPlace) {
    put("a.jarful", tidy);
    EXPECT_NE(run({"card", "a", "-o", "card.html"}), 2) << said;
    EXPECT_NE(said.find("Written: card.html"), std::string::npos) << said;
    EXPECT_NE(run({"card", "a", "-o", "card.html"}), 2) << "a card may be made again";
    const std::string card = get("card.html");
    EXPECT_EQ(run({"card", "a", "--label", "-o", "card.html"}), 2);
    EXPECT_NE(said.find("There is a card"), std::string::npos) << said;
    EXPECT_EQ(get("card.html"), card);
    EXPECT_NE(run({"card", "a", "--label", "-o", "labels.html"}), 2) << said;
    EXPECT_EQ(run({"card", "a", "-o", "labels.html"}), 2);
    EXPECT_NE(said.find("There is a sheet of labels"), std::string::npos) << said;
    // A name that would be taken for something else.
    for (const char* name : {"card.pdf", "card.png", "card.PDF"})
        EXPECT_EQ(run({"card", "a", "-o", name}), 2) << name;
    EXPECT_EQ(run({"card", "a", "--svg", "-o", "card2.html"}), 2);
    EXPECT_EQ(run({"card", "a", "--label", "-o", "labels.md"}), 2);
    EXPECT_NE(run({"card", "a", "-o", "CARD.SVG"}), 2) << said;
    EXPECT_TRUE(get("CARD.SVG").starts_with("<?xml"));
    EXPECT_EQ(count(), 4U);
}

TEST_F(Files, TidyShowsADifferenceThatPatchTakes) {
    put("a.jarful", untidy);
    EXPECT_EQ(run({"tidy", "--diff", "a"}), 1);
    EXPECT_EQ(get("a.jarful"), untidy);
    put(".git/change", said);
    const std::string patch =
        "cd '" + folder.string() + "' && patch -s -p1 < .git/change > /dev/null 2>&1";
    if (std::system("command -v patch > /dev/null") != 0) GTEST_SKIP() << "there is no patch here";
    ASSERT_EQ(std::system(patch.c_str()), 0) << said;
    EXPECT_EQ(get("a.jarful"), tidy);
}

TEST_F(Files, TidyFiltersStandardInput) {
    put("a.jarful", untidy);
    EXPECT_EQ(run({"tidy", "-"}, (folder / "a.jarful").string()), 0);
    EXPECT_EQ(said, tidy);
    EXPECT_EQ(get("a.jarful"), untidy);
    EXPECT_EQ(run({"tidy", "-", "--check"}, (folder / "a.jarful").string()), 1);
    EXPECT_EQ(run({"tidy", "-", "a.jarful"}, (folder / "a.jarful").string()), 2);
    EXPECT_EQ(get("a.jarful"), untidy);
}

TEST_F(Files, TidySaysWhatMayNotBeWritten) {
    if (::geteuid() == 0) GTEST_SKIP() << "root may write everything";
    put("a.jarful", untidy);
    fs::permissions(folder / "a.jarful", fs::perms::owner_read);
    EXPECT_EQ(run({"tidy"}), 2);
    EXPECT_NE(said.find("[unwritable-file]"), std::string::npos) << said;
    EXPECT_EQ(get("a.jarful"), untidy);
}

TEST_F(Files, ARecipeBuildsOnAnotherOfItsBook) {
    put("kitchen.jarful", "kitchen \"K\"\nscale bench reads 1 g up to 5 kg\n"
                          "jar tall holds 1.5 L brimful have 3\n");
    fs::create_directory(folder / "recipes");
    fs::create_directory(folder / "recipes/deep");
    put("recipes/base.jarful", std::string(untidy) + "fill cabbage / 0.9 kg/L\n");
    const std::string own = "recipe \"Own\"\nbased  on \"base\"\nweigh  carrot = 6 % of cabbage\n";
    put("recipes/own.jarful", own);
    put("recipes/deep/own.jarful", own);
    for (const std::string name : {"recipes/own", "recipes/deep/own"}) {
        EXPECT_EQ(run({"weigh", name}), 0) << said;
        EXPECT_NE(said.find("cabbage"), std::string::npos) << said;
        EXPECT_EQ(run({"check", name + ".jarful"}), 0) << said;
        EXPECT_EQ(run({"trace", name, "salt"}), 0) << said;
        EXPECT_EQ(run({"chart", name, "cabbage=1kg..2kg"}), 0) << said;
        EXPECT_EQ(run({"jars", name}), 0) << said;
        EXPECT_EQ(run({"tidy", "--check", name}), 0) << said;
    }
    put("recipes/own.jarful", "recipe \"Own\"\nbased on \"bsae\"\n");
    EXPECT_EQ(run({"weigh", "recipes/own"}), 2);
    EXPECT_NE(said.find("Did you mean \"base\"?"), std::string::npos) << said;
    const fs::path outside = folder.string() + "-outside.jarful";
    std::ofstream(outside) << untidy;
    fs::create_symlink(outside, folder / "recipes/link.jarful");
    put("recipes/own.jarful", "recipe \"Own\"\nbased on \"link\"\n");
    EXPECT_EQ(run({"check", "recipes/own.jarful"}), 2);
    EXPECT_NE(said.find("[base-outside]"), std::string::npos) << said;
    fs::remove(outside);
}

TEST_F(Files, WhatARecipeIsBasedOnIsReadAsItWas) {
    if (std::system("command -v git > /dev/null") != 0) GTEST_SKIP() << "there is no git here";
    fs::remove_all(folder / ".git");
    const auto git = [&](const std::string& words) {
        return std::system(("cd '" + folder.string() +
                            "' && HOME=. GIT_CONFIG_NOSYSTEM=1 git -c user.name=Test -c "
                            "user.email=test@example.org -c "
                            "commit.gpgsign=false " +
                            words + " > /dev/null 2>&1")
                               .c_str());
    };
    ASSERT_EQ(git("init"), 0);
    fs::create_directory(folder / "recipes");
    put("kitchen.jarful", "kitchen \"K\"\n");
    put("recipes/base.jarful", tidy);
    put("recipes/own.jarful", "recipe \"Own\"\nbased  on \"base\"\n");
    put("recipes/other.jarful", tidy);
    ASSERT_EQ(git("add -A"), 0);
    ASSERT_EQ(git("commit -m First"), 0);
    std::string thin = tidy;
    thin.replace(thin.find("2.25"), 4, "1.10");
    put("recipes/base.jarful", thin);
    EXPECT_EQ(run({"check", "recipes/own.jarful"}), 1) << said;
    EXPECT_EQ(run({"check", "--at", "HEAD", "recipes/own.jarful"}), 0) << said;
    // What did not change itself is looked at again where what it is based on did.
    EXPECT_EQ(run({"check", "--since", "HEAD", "recipes"}), 1) << said;
    EXPECT_NE(said.find("own.jarful"), std::string::npos) << said;
    EXPECT_EQ(said.find("other.jarful"), std::string::npos) << said;
    EXPECT_EQ(run({"compare", "recipes/own@HEAD", "recipes/own"}), 1) << said;
    EXPECT_NE(said.find("1.1 %"), std::string::npos) << said;
}

TEST_F(Files, AHouseFileHoldsForTheRecipesBelowIt) {
    put("house.jarful", "house \"H\"\nrange kraut at most 2.2 % \"sweeter so\"\n");
    put("other.jarful", "kitchen \"K\"\nscale bench reads 0.1 g up to 5 kg\n");
    fs::create_directories(folder / "recipes/deep");
    put("recipes/deep/own.jarful", tidy);
    EXPECT_EQ(run({"check", "recipes"}), 1);
    EXPECT_NE(said.find("sweeter so"), std::string::npos) << said;
    EXPECT_EQ(run({"weigh", "recipes/deep/own", "--kitchen", "other.jarful"}), 1);
    EXPECT_NE(said.find("sweeter so"), std::string::npos) << said;
    EXPECT_EQ(run({"check", "house.jarful"}), 0) << said;
    put("house.jarful", "house \"H\"\nrange kraut at most 3.5 %\n");
    EXPECT_EQ(run({"check", "recipes"}), 2);
    EXPECT_EQ(run({"check", "house.jarful"}), 2);
    EXPECT_NE(said.find("[range-without-reason]"), std::string::npos) << said;
    EXPECT_EQ(run({"weigh", "recipes/deep/own"}), 2);
    EXPECT_NE(said.find("In house.jarful, line 2:"), std::string::npos) << said;
    put("house.jarful", "recipe \"R\"\n");
    EXPECT_EQ(run({"weigh", "recipes/deep/own"}), 2);
    EXPECT_NE(said.find("[not-a-house]"), std::string::npos) << said;
}

TEST_F(Files, NewWritesARecipeThatChecksCleanAndNeverWritesOverOne) {
    EXPECT_EQ(run({"new", "Winter kraut", "--kind", "kraut", "--with",
                   "carrot=6%,caraway=1.5g/kg,bay=1/kg", "--salt", "2.2%"}),
              0)
        << said;
    const std::string first = get("winter-kraut.jarful");
    EXPECT_NE(first.find("2.2 % of (cabbage + carrot)"), std::string::npos) << first;
    EXPECT_EQ(run({"check"}), 0) << said;
    EXPECT_EQ(run({"tidy", "--check"}), 0) << said;
    EXPECT_EQ(run({"weigh", "winter-kraut", "cabbage=1.3kg"}), 0) << said;
    EXPECT_EQ(run({"new", "Winter  KRAUT", "--kind", "kraut"}), 2);
    EXPECT_NE(said.find("[file-exists]"), std::string::npos) << said;
    EXPECT_EQ(get("winter-kraut.jarful"), first);
    fs::create_symlink("nowhere.jarful", folder / "other.jarful");
    EXPECT_EQ(run({"new", "Kraut", "--kind", "kraut", "-o", "other"}), 2);
    EXPECT_FALSE(fs::exists(folder / "nowhere.jarful"));
    EXPECT_EQ(run({"new", "Kraut", "--kind", "kraut", "-o", "no/such/folder.jarful"}), 2);
    EXPECT_EQ(run({"new", "../up", "--kind", "kraut"}), 0) << said;
    EXPECT_TRUE(fs::exists(folder / "up.jarful"));
    EXPECT_EQ(run({"new", "Kraut"}), 2);
    EXPECT_EQ(run({"new", "Kraut", "--kind", "kraut", "-o", "-"}), 0);
    EXPECT_EQ(said.substr(0, 20), first.substr(0, 20));
    EXPECT_EQ(count(), 3U);
}

// ---- Pages. What is put into them as an engine is not looked into. ----

constexpr const char* engine = "\x1f\x8b not really";

bool has(const std::string& text, const std::string& part) {
    // What is said is broken into lines.
    std::string flat;
    for (const char c : text)
        flat += c == '\n' ? ' ' : c;
    while (flat.find("  ") != std::string::npos)
        flat.erase(flat.find("  "), 1);
    return flat.find(part) != std::string::npos;
}

TEST_F(Files, PageMakesOneFileAndReplacesOnlyPages) {
    put("a.jarful", tidy);
    put("engine.gz", engine);
    ASSERT_EQ(run({"page", "a", "--engine", "engine.gz", "-o", "a.html"}), 0) << said;
    const std::string first = get("a.html");
    EXPECT_TRUE(first.starts_with("<!DOCTYPE html>\n"));
    EXPECT_TRUE(has(first, "id=\"page-engine\">AB!MvZ,*AXWnpY;c=</script>"));
    EXPECT_EQ(run({"page", "a", "--engine", "engine.gz", "-o", "a.html"}), 0) << said;
    EXPECT_EQ(get("a.html"), first);
    EXPECT_EQ(run({"page", "a", "--engine", "engine.gz"}), 0);
    EXPECT_EQ(said, first);
    EXPECT_EQ(run({"page", "a", "--engine", "engine.gz", "-o", "a.jarful"}), 2);
    EXPECT_TRUE(has(said, "[file-exists]")) << said;
    EXPECT_EQ(get("a.jarful"), tidy);
}

TEST_F(Files, CardsPagesAndCalendarsReplaceOnlyWhatWasMadeAsTheSame) {
    put("a.jarful", tidy);
    put("engine.gz", engine);
    const std::string own = "<!DOCTYPE html>\n<title>Mine</title>\n";
    const std::string diary = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:mine\r\n";
    const std::vector<std::vector<std::string>> commands{
        {"card", "a", "-o"},
        {"card", "a", "--label", "-o"},
        {"card", "a", "--svg", "-o"},
        {"card", "a", "--md", "-o"},
        {"page", "a", "--engine", "engine.gz", "-o"},
        {"tend", "a", "--start", "2026-11-25", "--today", "2026-11-25", "-o"}};
    for (std::size_t i = 0; i < commands.size(); ++i) {
        const auto into = [&](const std::string& file, bool force = false) {
            std::vector<std::string> words = commands[i];
            words.push_back(file);
            if (force) words.emplace_back("--force");
            return run(words);
        };
        for (const std::string& text : {own, diary, std::string("# A\n\nMine.\n")}) {
            put("out", text);
            EXPECT_EQ(into("out"), 2);
            EXPECT_TRUE(has(said, "[file-exists]")) << said;
            EXPECT_EQ(get("out"), text);
        }
        EXPECT_NE(into("out", true), 2) << said;
        const std::string made = get("out");
        EXPECT_NE(into("out"), 2) << said;
        EXPECT_EQ(get("out"), made);
        put("out", made + "<!-- my own words -->\n");
        EXPECT_EQ(into("out"), 2);
        EXPECT_TRUE(has(said, "[file-changed]")) << said;
        // What the other commands made is not replaced either.
        for (std::size_t k = 0; k < commands.size(); ++k) {
            if (k == i) continue;
            std::vector<std::string> other = commands[k];
            other.insert(other.end(), {"out", "--force"});
            EXPECT_NE(run(other), 2) << said;
            const std::string stays = get("out");
            EXPECT_EQ(into("out"), 2);
            EXPECT_TRUE(has(said, "[file-of-another-sort]")) << said;
            EXPECT_EQ(get("out"), stays);
        }
    }
}

TEST_F(Files, FilesOfVersionsThatWroteNoMarksAreKnown) {
    put("a.jarful", tidy);
    put("engine.gz", engine);
    const std::vector<std::vector<std::string>> commands{
        {"card", "a", "-o"},
        {"card", "a", "--label", "-o"},
        {"card", "a", "--svg", "-o"},
        {"card", "a", "--md", "-o"},
        {"page", "a", "--engine", "engine.gz", "-o"},
        {"tend", "a", "--start", "2026-11-25", "--today", "2026-11-25", "-o"}};
    for (std::vector<std::string> words : commands) {
        words.emplace_back("out");
        fs::remove(folder / "out");
        EXPECT_NE(run(words), 2) << said;
        const std::string made = get("out");
        // The line of the mark is all that these versions did not write.
        std::size_t begin = made.rfind("Written by jarful as a ");
        ASSERT_NE(begin, std::string::npos);
        begin = made.rfind('\n', begin) + 1;
        const std::size_t end = made.find('\n', begin) + 1;
        put("out", made.substr(0, begin) + made.substr(end));
        EXPECT_NE(run(words), 2) << said;
        EXPECT_EQ(get("out"), made);
    }
}

/// Somebody saves while `tidy` runs, again and again: whatever was saved last is there, tidied or
/// not.
TEST_F(Files, TidyLosesNothingThatIsSavedMeanwhile) {
    for (int times = 0; times < 100; ++times) {
        put("a.jarful", untidy);
        const std::string last = "weigh carrot=" + std::to_string(times + 1) + " g\n";
        const pid_t child = ::fork();
        if (child == 0) {
            ::usleep(static_cast<useconds_t>(times % 50) * 100);
            if (times % 2 == 0) {
                put("a.jarful", untidy + last);
            } else {
                put(".git/saved", untidy + last);
                fs::rename(folder / ".git/saved", folder / "a.jarful");
            }
            ::_exit(0);
        }
        static_cast<void>(run({"tidy", "a"}));
        ::waitpid(child, nullptr, 0);
        const std::string there = get("a.jarful");
        EXPECT_TRUE(has(there, "carrot")) << there;
    }
}

TEST_F(Files, PageMakesABookThatCanBeMadeAgain) {
    put("a.jarful", tidy);
    fs::create_directory(folder / "more");
    put("more/b.jarful", tidy);
    put("kitchen.jarful", "kitchen \"Quay Street\"\nscale bench reads 1 g up to 5 kg within 1 g\n");
    put("engine.gz", engine);
    for (int times = 0; times < 2; ++times)
        ASSERT_EQ(run({"page", ".", "--engine", "engine.gz", "-o", "public"}), 0) << said;
    EXPECT_TRUE(has(said, "2 pages")) << said;
    const std::string index = get("public/index.html");
    EXPECT_TRUE(has(index, "Recipes of Quay Street"));
    EXPECT_TRUE(has(index, "href=\"a.html\"") && has(index, "href=\"b.html\""));
    for (const char* name : {"a.html", "b.html", "page.js", "page.css", "worker.js", "icon.svg",
                             "manifest.webmanifest"})
        EXPECT_TRUE(fs::is_regular_file(folder / "public" / name)) << name;
    // One's own file of the same name is not lost.
    put("public/page.css", "body { color: red }");
    EXPECT_EQ(run({"page", ".", "--engine", "engine.gz", "-o", "public"}), 2);
    EXPECT_TRUE(has(said, "page.css")) << said;
    EXPECT_EQ(get("public/page.css"), "body { color: red }");
}

TEST_F(Files, PageSaysWhyThereIsNone) {
    put("a.jarful", tidy);
    put("faulty.jarful", "recipe \"F\"\ngiven cabbage = 1 kgg\n");
    put("engine.gz", engine);
    put("plain.txt", "no engine");
    fs::create_directory(folder / "other");
    put("other/a.jarful", tidy);
    const auto refused = [&](std::vector<std::string> words, const std::string& because) {
        words.insert(words.begin(), "page");
        if (std::find(words.begin(), words.end(), "--engine") == words.end()) {
            words.emplace_back("--engine");
            words.emplace_back("engine.gz");
        }
        EXPECT_EQ(run(words), 2) << because;
        EXPECT_TRUE(has(said, because)) << said;
        EXPECT_FALSE(fs::exists(folder / "out"));
    };
    refused({}, "A recipe, or a folder of them, is missing");
    refused({"-"}, "standard input has none beside it");
    refused({"nowhere"}, "nowhere");
    refused({"."}, "-o FOLDER");
    refused({"a", "faulty", "-o", "out"}, "mend the recipe first");
    refused({"a.jarful", "other/a.jarful", "-o", "out"}, "two recipes have a file called \"a\"");
    refused({"a", "-o", "out", "--engine", "plain.txt"}, "is no engine for pages");
    refused({"a", "-o", "out", "--engine", "missing.gz"}, "cannot be read");
    refused({"a", "-o", "out", "--engine", "/dev/zero"}, "cannot be read");
    refused({"a", "-o", "out", "--address", "garden"}, "is no address of a page");
    refused({"a", "-o", "out", "--address", "https://garden.example/\"x"}, "is no address");
    refused({"a", "-o", "out", "--address", "https://garden.example/#x"}, "without a #");
}

TEST_F(Files, PagePrintsACodeOfItsAddress) {
    put("a.jarful", tidy);
    put("engine.gz", engine);
    const int status = run({"page", "a", "--engine", "engine.gz", "-o", "a.html", "--address",
                            "https://garden.example/a.html"});
    if (status == 2 && has(said, "libqrencode")) GTEST_SKIP() << said;
    ASSERT_EQ(status, 0) << said;
    const std::string page = get("a.html");
    EXPECT_TRUE(has(page, "<p dir=\"ltr\">https://garden.example/a.html</p>"));
    // 29 letters at medium correction take a code of version 3: 29 squares, and 4 on each side.
    EXPECT_TRUE(has(page, "viewBox=\"0 0 37 37\""));
    // On a card it leads to that very batch, written as a form is.
    ASSERT_EQ(run({"card", "a", "cabbage=4.2kg+3.9kg", "--start", "2026-11-25", "--address",
                   "https://garden.example/a.html"}),
              0);
    EXPECT_TRUE(has(said, ">https://garden.example/a.html#.cabbage=4.2kg%2B3.9kg&amp;start="
                          "2026-11-25</p>"))
        << said;
    EXPECT_EQ(run({"card", "a", "salt=24g", "--md", "--address", "https://garden.example/a"}), 0);
    EXPECT_TRUE(has(said, "<https://garden.example/a#by=salt&cell=salt&salt=24g>")) << said;
    EXPECT_EQ(run({"card", "a", "--svg", "--address", "https://garden.example/a"}), 2);
    EXPECT_TRUE(has(said, "not on a picture")) << said;
    EXPECT_EQ(run({"card", "a", "--poured", "salt=24g", "--address", "https://garden.example/a"}),
              2);
    EXPECT_TRUE(has(said, "cannot be asked with --poured")) << said;
}

} // namespace
