/// Four weeks of a batch, as a cook plays them: the real program, a day at a time.

#include "tests/support/schema.hpp"

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::Not;

struct Outcome {
    std::string result, aside;
    int status = -1;
};

std::string read(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

class BatchWeeks : public ::testing::Test {
  protected:
    void SetUp() override {
        book_ = fs::temp_directory_path() / ("jarful-weeks-" + std::to_string(::getpid()));
        fs::remove_all(book_);
        fs::copy(fs::path(JARFUL_SOURCE_DIR) / "recipes", book_);
    }
    void TearDown() override { fs::remove_all(book_); }

    /// Runs the program in the book's folder, without a shell.
    Outcome run(std::vector<std::string> words) {
        words.insert(words.begin(), "jarful");
        const fs::path out = book_ / ".out";
        const fs::path err = book_ / ".err";
        const pid_t child = ::fork();
        if (child == 0) {
            if (::chdir(book_.c_str()) != 0 || std::freopen(out.c_str(), "w", stdout) == nullptr ||
                std::freopen(err.c_str(), "w", stderr) == nullptr)
                ::_exit(99);
            std::vector<char*> arguments;
            for (std::string& word : words)
                arguments.push_back(word.data());
            arguments.push_back(nullptr);
            ::execv(JARFUL_PROGRAM, arguments.data());
            ::_exit(98);
        }
        int status = 0;
        ::waitpid(child, &status, 0);
        return {read(out), read(err), WIFEXITED(status) ? WEXITSTATUS(status) : -1};
    }

    Outcome on(const std::string& day, std::vector<std::string> words) {
        words.insert(words.end(), {"--today", day});
        return run(std::move(words));
    }

    /// "missed:burp" and the like, of all batches.
    std::vector<std::string> today(const std::string& day) {
        const Outcome outcome = on(day, {"today", "--json"});
        const json out = json::parse(outcome.result);
        const jarful::testing::DocumentedSchema schema("today");
        EXPECT_EQ(schema.faults(out), "");
        std::vector<std::string> list;
        bool wrong = false;
        for (const json& one : out.at("findings")) {
            list.push_back(
                one.at("concern").get<std::string>() +
                (one.at("task").is_null() ? "" : ":" + one.at("task").get<std::string>()));
            wrong = wrong || one.at("wrong").get<bool>();
        }
        EXPECT_EQ(outcome.status, wrong ? 1 : 0);
        return list;
    }

    json show(const std::string& day) {
        const json out = json::parse(on(day, {"batch", "show", "kraut", "--json"}).result);
        const jarful::testing::DocumentedSchema schema("batch");
        EXPECT_EQ(schema.faults(out), "");
        return out;
    }

    void note(const std::string& day, std::vector<std::string> words) {
        words.insert(words.begin(), {"batch", "note", "winter-kraut"});
        const Outcome outcome = on(day, std::move(words));
        EXPECT_EQ(outcome.status, 0) << outcome.aside;
    }

    fs::path book_;
};

TEST_F(BatchWeeks, fromTheScaleToTheCold) {
    using List = std::vector<std::string>;
    // Wednesday: the jar is packed, in a room at 22 °C.
    const Outcome begun =
        on("2026-11-25", {"batch", "start", "winter-kraut", "cabbage=1.84kg", "--room", "22C"});
    ASSERT_EQ(begun.status, 0) << begun.aside;
    const fs::path file = book_ / "batches/2026-11-25-winter-kraut.jarful";
    ASSERT_TRUE(fs::exists(file));
    EXPECT_THAT(begun.result, HasSubstr("batches/2026-11-25-winter-kraut.jarful"));
    std::string record = read(file);
    EXPECT_THAT(record, HasSubstr("planned salt = 42.9 g"));
    EXPECT_EQ(today("2026-11-25"), List{});

    // What was really weighed decides the salt: 41 g in 1,840 g and 110.4 g is 2.10 %.
    note("2026-11-25", {"--weighed", "salt=41g", "--filled", "2150mL"});
    json out = show("2026-11-25");
    EXPECT_NEAR(out.at("salt").at("percent").get<double>(), 100 * 41 / 1950.4, 0.01);
    EXPECT_EQ(out.at("salt").at("verdict"), "inside");

    // The first week: burped on six days, forgotten on the fifth.
    for (const char* day : {"2026-11-26", "2026-11-27", "2026-11-28", "2026-11-29"}) {
        EXPECT_THAT(today(day), ::testing::Contains("due:burp")) << day;
        note(day, {"--did", "burp,look"});
        EXPECT_EQ(today(day), List{}) << day;
    }
    EXPECT_EQ(today("2026-12-01"), (List{"missed:burp", "due:burp", "due:look"}));
    EXPECT_THAT(on("2026-12-01", {"today"}).result, HasSubstr("over a tray"));
    note("2026-12-01", {"--did", "burp,look", "--temp", "22C"});
    note("2026-12-02", {"--did", "burp", "--ph", "4.9", "smells clean"});

    // The second: a cold night, and a long silence.
    note("2026-12-05", {"--did", "look", "--temp", "13C"});
    EXPECT_EQ(today("2026-12-05"), (List{"too_cold"}));
    note("2026-12-05", {"--did", "move,look", "--temp", "22C"});
    EXPECT_EQ(show("2026-12-05").at("state"), "in the cold");
}

TEST_F(BatchWeeks, toTheEndOfTheFourthWeekAndBeyond) {
    using List = std::vector<std::string>;
    ASSERT_EQ(on("2026-11-25", {"batch", "start", "winter-kraut", "--room", "22C"}).status, 0);
    std::string before;
    const fs::path file = book_ / "batches/2026-11-25-winter-kraut.jarful";
    // Every task is noted on the day that it is due.
    for (int day = 1; day <= 27; ++day) {
        std::array<char, 16> text{};
        const int date = 25 + day;
        std::snprintf(text.data(), text.size(), date <= 30 ? "2026-11-%02d" : "2026-12-%02d",
                      date <= 30 ? date : date - 30);
        for (const std::string& due : today(text.data())) {
            ASSERT_TRUE(due.starts_with("due:")) << due << " on " << text.data();
            const std::string task = due.substr(4);
            if (task == "ph")
                note(text.data(), {"--ph", "3.9"});
            else if (task == "ready")
                note(text.data(), {"--did", "ready", "--ph", "3.6", "sour enough"});
            else
                note(text.data(), {"--did", task});
        }
        EXPECT_EQ(today(text.data()), List{}) << text.data();
        const std::string now = read(file);
        EXPECT_TRUE(now.starts_with(before)) << "lines are only added";
        before = now;
    }
    EXPECT_EQ(show("2026-12-22").at("last_ph"), 3.6);
    // Day 28: to the cold. It keeps for six calendar months from there.
    EXPECT_EQ(today("2026-12-23"), (List{"due:look", "due:move"}));
    note("2026-12-23", {"--did", "look,move", "--temp", "22C"});
    EXPECT_EQ(today("2027-06-23"), List{});
    EXPECT_EQ(today("2027-06-24"), List{"past_keeping"});
    note("2027-06-24", {"--did", "end", "the last of it"});
    EXPECT_EQ(today("2027-06-25"), List{});
    EXPECT_EQ(show("2027-06-25").at("state"), "ended");
    const Outcome list = on("2027-06-25", {"batch", "list"});
    EXPECT_EQ(list.status, 0);
    EXPECT_THAT(list.result, HasSubstr("ended"));
    // `check` knows a record, and `tidy` leaves it alone.
    EXPECT_EQ(run({"check", "batches"}).status, 0);
    EXPECT_EQ(run({"tidy", "."}).status, 0);
    EXPECT_EQ(run({"tidy", file.string()}).status, 2);
    EXPECT_TRUE(read(file).starts_with(before));
}

TEST_F(BatchWeeks, aRecipeThatChangedAndARecordThatWasDamaged) {
    ASSERT_EQ(on("2026-11-25", {"batch", "start", "winter-kraut", "--room", "22C"}).status, 0);
    note("2026-11-25", {"--weighed", "salt=25g"});
    json out = show("2026-11-25");
    EXPECT_EQ(out.at("salt").at("verdict"), "below");
    EXPECT_EQ(out.at("findings")[0].at("concern"), "salt_low");
    EXPECT_TRUE(out.at("remarks").empty());
    std::ofstream(book_ / "winter-kraut.jarful", std::ios::app) << "note \"changed\"\n";
    EXPECT_THAT(show("2026-11-25").at("remarks").dump(), HasSubstr("changed since"));
    fs::remove(book_ / "winter-kraut.jarful");
    out = show("2026-11-25");
    EXPECT_TRUE(out.at("salt").is_null());
    EXPECT_THAT(out.at("remarks").dump(), HasSubstr("no longer there"));

    const fs::path file = book_ / "batches/2026-11-25-winter-kraut.jarful";
    std::ofstream(file, std::ios::app) << "noted 2026-11-26 \"\xFF\"\nnoted 2026-11-26 pH x\n";
    out = show("2026-11-26");
    EXPECT_EQ(out.at("damage").size(), 2U) << out.at("damage");
    EXPECT_EQ(out.at("weighed").size(), 1U);
    note("2026-11-26", {"--ph", "5"});
    EXPECT_EQ(show("2026-11-26").at("last_ph"), 5);
}

TEST_F(BatchWeeks, twoBatchesAreComparedInWordsAndInADrawing) {
    ASSERT_EQ(on("2026-11-25", {"batch", "start", "winter-kraut", "--name", "first"}).status, 0);
    ASSERT_EQ(
        on("2027-01-10", {"batch", "start", "winter-kraut", "cabbage=2kg", "--name", "second"})
            .status,
        0);
    const auto say = [&](const char* day, const char* batch, std::vector<std::string> words) {
        words.insert(words.begin(), {"batch", "note", batch});
        EXPECT_EQ(on(day, std::move(words)).status, 0);
    };
    say("2026-11-28", "first", {"--ph", "4.8", "--temp", "19C"});
    say("2026-12-09", "first", {"--ph", "3.9", "--temp", "20C", "<sour> & \"crisp\""});
    say("2027-01-10", "second", {"--weighed", "salt=45g"});
    say("2027-01-14", "second", {"--ph", "4.4", "--temp", "22C", "--did", "ready"});
    const Outcome text = run({"batch", "compare", "first", "second"});
    EXPECT_EQ(text.status, 0) << text.aside;
    EXPECT_THAT(text.result, HasSubstr("45 g"));
    EXPECT_THAT(text.result, HasSubstr("(plan)"));
    EXPECT_THAT(text.result, HasSubstr("day 4"));
    const json out = json::parse(run({"batch", "compare", "first", "second", "--json"}).result);
    const jarful::testing::DocumentedSchema schema("batch_compare");
    EXPECT_EQ(schema.faults(out), "");
    EXPECT_EQ(out.at("batches")[1].at("ready_day"), 4);
    const std::string svg = run({"batch", "compare", "first", "second", "--svg"}).result;
    EXPECT_TRUE(svg.starts_with("<svg "));
    EXPECT_THAT(svg, HasSubstr("<title id=\"title\">pH and temperature over the days"));
    EXPECT_THAT(svg, HasSubstr("day 14 3.9"));
    EXPECT_THAT(svg, HasSubstr("stroke-dasharray=\"8 5\""));
    EXPECT_EQ(svg.find("<script"), std::string::npos);
    const fs::path drawing = book_ / "plot.svg";
    std::ofstream(drawing) << svg;
    // An outside reader of XML: libxml2's xmllint.
    EXPECT_EQ(std::system(("xmllint --noout '" + drawing.string() + "'").c_str()), 0);
    EXPECT_EQ(run({"batch", "compare", "first"}).status, 2);
    EXPECT_EQ(run({"batch", "compare", "first", "third"}).status, 2);
}

TEST_F(BatchWeeks, aRecipeLearnsFromItsBatchesWhenItIsTold) {
    const fs::path recipe = book_ / "winter-kraut.jarful";
    const std::string before = read(recipe);
    const auto say = [&](const std::string& day, const std::string& batch,
                         std::vector<std::string> words) {
        words.insert(words.begin(), {"batch", "note", batch});
        const Outcome outcome = on(day, std::move(words));
        EXPECT_EQ(outcome.status, 0) << outcome.aside;
    };
    EXPECT_EQ(run({"batch", "adopt", "winter-kraut"}).status, 0); // no batches, nothing to learn
    for (const char* batch : {"a", "b"}) {
        ASSERT_EQ(
            on("2026-11-25", {"batch", "start", "winter-kraut", "cabbage=2kg", "--name", batch})
                .status,
            0);
    }
    // 2,000 g of cabbage and 120 g of carrot; at 0.90 kg/L they fill 2.36 L.
    say("2026-11-25", "25-a", {"--weighed", "salt=48.8g", "--filled", "2200mL", "--temp", "19C"});
    say("2026-11-25", "25-b", {"--weighed", "salt=48.8g", "--filled", "2200mL", "--temp", "20C"});
    EXPECT_EQ(run({"batch", "adopt", "winter-kraut"}).status, 0); // none is ready yet
    say("2026-12-21", "25-a", {"--did", "ready"});
    say("2026-12-23", "25-b", {"--did", "ready"});
    const Outcome proposed = run({"batch", "adopt", "winter-kraut"});
    EXPECT_EQ(proposed.status, 1) << proposed.aside;
    EXPECT_THAT(proposed.result, HasSubstr("2.3 %"));     // 48.8 / 2120
    EXPECT_THAT(proposed.result, HasSubstr("0.96 kg/L")); // 2120 / 2200
    EXPECT_THAT(proposed.result, HasSubstr("day 26 to day 28 at 19 to 20 °C"));
    EXPECT_THAT(proposed.result, HasSubstr("43.9 g of salt instead of 42 g for 1.8 kg of cabbage"));
    EXPECT_EQ(read(recipe), before) << "nothing is written untold";
    const json out = json::parse(run({"batch", "adopt", "winter-kraut", "--json"}).result);
    const jarful::testing::DocumentedSchema schema("batch_adopt");
    EXPECT_EQ(schema.faults(out), "");
    EXPECT_EQ(out.at("proposals").size(), 3U);
    EXPECT_EQ(run({"batch", "adopt", "winter-kraut", "--write"}).status, 0);
    // Those three lines, and no others.
    std::istringstream old_lines(before);
    std::istringstream new_lines(read(recipe));
    int changed = 0;
    for (std::string was, is; std::getline(old_lines, was);) {
        ASSERT_TRUE(std::getline(new_lines, is));
        if (was == is) continue;
        ++changed;
        EXPECT_TRUE(was.starts_with("weigh  salt") || was.starts_with("let    packed") ||
                    was.starts_with("ready"))
            << was;
    }
    EXPECT_EQ(changed, 3);
    EXPECT_EQ(run({"check", "winter-kraut.jarful"}).status, 0);
    // What would leave the house's bounds is held back.
    say("2026-12-23", "25-a", {"--weighed", "salt=64g"});
    say("2026-12-23", "25-b", {"--weighed", "salt=64g"});
    const Outcome held = run({"batch", "adopt", "winter-kraut"});
    EXPECT_THAT(held.result, HasSubstr("NOT PROPOSED"));
}

TEST_F(BatchWeeks, aRecipeThatIsBasedOnAnotherLearnsInItsOwnLines) {
    const fs::path recipe = book_ / "sharp-kraut.jarful";
    const std::string text = "recipe \"Sharp kraut\" version 1\n"
                             "based  on \"winter-kraut\"\n\n"
                             "weigh  salt = 2.4 % of (cabbage + carrot)   as fine sea salt\n";
    std::ofstream(recipe) << text;
    ASSERT_EQ(on("2026-11-25", {"batch", "start", "sharp-kraut", "cabbage=2kg"}).status, 0);
    ASSERT_EQ(on("2026-11-25", {"batch", "note", "sharp-kraut", "--weighed", "salt=46.6g",
                                "--filled", "2200mL", "--temp", "19C"})
                  .status,
              0);
    ASSERT_EQ(on("2026-12-20", {"batch", "note", "sharp-kraut", "--did", "ready"}).status, 0);
    const std::string base = read(book_ / "winter-kraut.jarful");
    const Outcome adopted = run({"batch", "adopt", "sharp-kraut", "--write"});
    EXPECT_EQ(adopted.status, 0) << adopted.aside;
    std::string wanted = text; // 46.6 / 2120
    wanted.replace(wanted.find("2.4 %"), 5, "2.2 %");
    EXPECT_EQ(read(recipe), wanted);
    EXPECT_EQ(read(book_ / "winter-kraut.jarful"), base);
    EXPECT_THAT(adopted.result, HasSubstr("LINE 4: salt"));
    EXPECT_THAT(adopted.result, HasSubstr("winter-kraut.jarful"));
    const json out = json::parse(run({"batch", "adopt", "sharp-kraut", "--json"}).result);
    EXPECT_EQ(out.at("proposals").size(), 0U);
    ASSERT_EQ(out.at("held_back").size(), 2U); // packed, and when it was ready
    EXPECT_THAT(out.at("held_back")[0].get<std::string>(),
                HasSubstr("packed as \"0.96 kg/L\": the line with \"0.90 kg/L\" stands in "));
    EXPECT_EQ(run({"check", "sharp-kraut.jarful"}).status, 0);
}

TEST_F(BatchWeeks, aRecipeThatDoesNotSayWhenItIsReadyLearnsIt) {
    // As a new cook has it: no room is known, no temperature noted, no `ready` line written yet.
    const fs::path place = book_ / "new";
    fs::create_directories(place / ".git");
    std::ofstream(place / "kitchen.jarful") << "kitchen \"New\"\nscale a reads 1 g up to 5 kg\n";
    const fs::path recipe = place / "first.jarful";
    ASSERT_EQ(run({"new", "First", "--kind", "kraut", "-o", recipe.string()}).status, 0);
    const std::string before = read(recipe);
    ASSERT_EQ(before.find("\nready"), std::string::npos);
    const std::string records = (place / "batches").string();
    const auto say = [&](const std::string& day, const std::string& name,
                         std::vector<std::string> words) {
        words.insert(words.begin(), {"batch", "note", name, "--folder", records});
        const Outcome outcome = on(day, std::move(words));
        EXPECT_EQ(outcome.status, 0) << outcome.aside;
    };
    for (const char* name : {"a", "b"})
        ASSERT_EQ(on("2026-11-25", {"batch", "start", recipe.string(), "--name", name}).status, 0);
    say("2026-12-18", "25-a", {"--did", "ready"});
    say("2026-12-20", "25-b", {"--did", "move"}); // what is moved to the cold is ready
    const std::vector<std::string> adopt{"batch", "adopt", recipe.string()};
    const Outcome proposed = run(adopt);
    EXPECT_EQ(proposed.status, 1) << proposed.aside;
    EXPECT_THAT(proposed.result, HasSubstr("propose  ready day 23 to day 25"));
    EXPECT_THAT(proposed.result, HasSubstr("at a temperature that nobody noted"));
    EXPECT_THAT(proposed.result, HasSubstr("moved to the cold on day 25"));
    std::vector<std::string> write = adopt;
    write.emplace_back("--write");
    const Outcome written = run(write);
    EXPECT_EQ(written.status, 0) << written.result << written.aside;
    const std::string after = read(recipe);
    EXPECT_THAT(after, HasSubstr("\nready  day 23 to day 25\n"));
    EXPECT_EQ(run({"check", recipe.string()}).status, 0);
    EXPECT_EQ(run({"tidy", "--check", recipe.string()}).status, 0) << after;
    EXPECT_EQ(run(adopt).status, 0) << "what was adopted is not proposed again";
    // Line ends stay as they are.
    std::string crlf;
    for (const char c : before)
        crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
    std::ofstream(recipe, std::ios::binary) << crlf;
    EXPECT_EQ(run(write).status, 0);
    EXPECT_THAT(read(recipe), HasSubstr("\r\nready  day 23 to day 25\r\n"));
}

TEST_F(BatchWeeks, whatWasMeasuredLaterCountsInWhatIsLearnt) {
    ASSERT_EQ(on("2026-11-26", {"batch", "start", "napa-kimchi"}).status, 0);
    // 1.4 % of 1,900 g and 300 g of daikon is 30.8 g.
    ASSERT_EQ(on("2026-11-27", {"batch", "note", "kimchi", "--weighed", "drained=1.9kg",
                                "--weighed", "salt=30.8g"})
                  .status,
              0);
    ASSERT_EQ(on("2026-12-02", {"batch", "note", "kimchi", "--did", "ready", "--ph", "4.2"}).status,
              0);
    const json out = json::parse(run({"batch", "adopt", "napa-kimchi", "--json"}).result);
    for (const json& one : out.at("proposals"))
        EXPECT_NE(one.at("what"), "salt") << out.dump(2);
}

TEST_F(BatchWeeks, whatGoesIntoEachJarIsPlannedForAllOfThem) {
    ASSERT_EQ(on("2026-11-26", {"batch", "start", "half-sours", "cucumbers=1.2kg", "jar=tall,tall"})
                  .status,
              0);
    EXPECT_THAT(read(book_ / "batches/2026-11-26-half-sours.jarful"),
                HasSubstr("\nplanned bay = 2\n"));
}

TEST_F(BatchWeeks, aCommandThatIsShownIsSafeToCopy) {
    const fs::path folder = book_ / "it's $(here)";
    fs::create_directory(folder);
    fs::copy(book_ / "winter-kraut.jarful", folder / "kraut.jarful");
    ASSERT_EQ(
        on("2026-11-25", {"batch", "start", "it's $(here)/kraut.jarful", "--name", "odd"}).status,
        0);
    ASSERT_EQ(on("2026-11-25", {"batch", "note", "odd", "--weighed", "salt=25g"}).status, 0);
    const Outcome shown = on("2026-11-25", {"batch", "show", "odd", "--json"});
    EXPECT_EQ(shown.status, 1) << shown.aside;
    EXPECT_THAT(
        json::parse(shown.result).dump(),
        HasSubstr("jarful mend 'it'\\\\''s $(here)/kraut' cabbage=1800g --poured salt=25g"));
    const Outcome late = on("2026-11-28", {"batch", "show", "odd"});
    EXPECT_THAT(late.result, HasSubstr("Next: It is too late to add salt."));
}

TEST_F(BatchWeeks, whatIsProposedHoldsTogether) {
    const fs::path recipe = book_ / "two-salts.jarful";
    std::ofstream(recipe) << "recipe \"Two salts\" version 1\nkind kraut\n"
                             "given cabbage = 2 kg\n"
                             "weigh first = 1.4 % of cabbage as fine sea salt\n"
                             "weigh second = 1.4 % of cabbage as fine sea salt\n"
                             "let packed = 0.9 kg/L\nfill cabbage / (2 * packed)\n";
    ASSERT_EQ(on("2026-11-25", {"batch", "start", "two-salts"}).status, 0);
    ASSERT_EQ(on("2026-11-25", {"batch", "note", "two-salts", "--weighed", "first=31g", "--weighed",
                                "second=31g", "--filled", "2L", "--did", "ready"})
                  .status,
              0);
    // Each by itself is 2.95 %; both are 3.1 %, above. And the room is not what `packed` says.
    const json out = json::parse(run({"batch", "adopt", "two-salts", "--json"}).result);
    ASSERT_EQ(out.at("proposals").size(), 1U) << out.dump(2);
    EXPECT_EQ(out.at("proposals")[0].at("what"), "first");
    ASSERT_EQ(out.at("held_back").size(), 1U) << out.dump(2);
    EXPECT_EQ(run({"batch", "adopt", "two-salts", "--write"}).status, 0);
    EXPECT_EQ(run({"check", "two-salts.jarful"}).status, 0);
}

TEST_F(BatchWeeks, aSlipIsPutRightByALineOfItsOwn) {
    ASSERT_EQ(on("2026-11-25", {"batch", "start", "winter-kraut"}).status, 0);
    const fs::path file = book_ / "batches/2026-11-25-winter-kraut.jarful";
    const auto note = [&](const std::string& day, std::vector<std::string> words) {
        words.insert(words.begin(), {"batch", "note", "winter-kraut"});
        return on(day, std::move(words));
    };
    ASSERT_EQ(note("2026-11-25", {"--weighed", "salt=30g"}).status, 0);
    ASSERT_EQ(note("2026-12-09", {"--ph", "3.1", "--did", "ready,look"}).status, 0);
    ASSERT_EQ(note("2026-12-14", {"--ph", "4.1"}).status, 0);
    const auto concerns = [&] { return today("2026-12-14"); };
    const auto has = [](const std::vector<std::string>& all, const std::string& one) {
        return std::any_of(all.begin(), all.end(),
                           [&](const std::string& s) { return s.starts_with(one); });
    };
    ASSERT_TRUE(has(concerns(), "ph_rising"));
    ASSERT_TRUE(has(concerns(), "salt_low"));
    const std::string before = read(file);
    const Outcome ph = note("2026-12-14", {"misread", "--ph", "4.2", "--corrects", "pH 3.1"});
    EXPECT_EQ(ph.status, 0) << ph.aside;
    EXPECT_EQ(ph.result, "corrected 2026-12-14 pH 3.1 on 2026-12-09 to 4.2 \"misread\"\n");
    EXPECT_EQ(note("2026-12-14", {"--weighed", "salt=42g", "--corrects", "salt=30g"}).status, 0);
    EXPECT_EQ(note("2026-12-14", {"--withdraws", "did ready"}).status, 0);
    EXPECT_TRUE(read(file).starts_with(before)) << "lines are only added";
    EXPECT_FALSE(has(concerns(), "ph_rising"));
    EXPECT_FALSE(has(concerns(), "salt_low"));
    const Outcome shown = on("2026-12-14", {"batch", "show", "winter-kraut", "--full"});
    EXPECT_THAT(shown.result,
                HasSubstr("pH 4.2, did: look it over. pH 3.1 was noted; corrected on"));
    EXPECT_THAT(shown.result, HasSubstr("salt = 30 g was noted; corrected on 2026-12-14."));
    EXPECT_THAT(shown.result, HasSubstr("did ready was noted; taken back on"));
    const json out =
        json::parse(on("2026-12-14", {"batch", "show", "winter-kraut", "--json"}).result);
    const jarful::testing::DocumentedSchema schema("batch");
    EXPECT_EQ(schema.faults(out), "");
    EXPECT_EQ(out.at("notes")[0].at("corrections")[0].at("before").at("value"), 3.1);
    EXPECT_EQ(out.at("notes")[0].at("corrections")[0].at("why"), "misread");
    EXPECT_EQ(out.at("weighed")[0].at("g"), 42);
    EXPECT_EQ(run({"check", file.string()}).status, 0);
    // What is not clear is asked, and nothing is written.
    const std::string now = read(file);
    const std::vector<std::pair<std::vector<std::string>, std::string>> wrong{
        {{"--ph", "4.3", "--corrects", "pH 9.9"}, "There is: pH 4.2 on 2026-12-09; pH 4.1 on"},
        {{"--corrects", "pH 4.1"}, "what is right instead?"},
        {{"--ph", "4.1", "--temp", "19C", "--corrects", "4.2"}, "one entry is corrected at a time"},
        {{"--ph", "4.1", "--withdraws", "pH 4.2"}, "it is --corrects"},
        {{"--ph", "4.1", "--corrects", "pH 4.1"}, "that is what the record says"},
        {{"--ph", "4.3", "--corrects", "pH 4.1", "--on", "2026-12-09"}, "on 2026-12-09"},
    };
    for (const auto& [words, said] : wrong) {
        const Outcome outcome = note("2026-12-14", words);
        EXPECT_EQ(outcome.status, 2) << said;
        std::string aside = outcome.aside;
        for (std::size_t at = 0; (at = aside.find("\n        ", at)) != std::string::npos;)
            aside.replace(at, 9, " ");
        EXPECT_THAT(aside, HasSubstr(said));
    }
    EXPECT_EQ(read(file), now);
}

TEST_F(BatchWeeks, aSlipOfTheNameOrTheUnitIsNotNoted) {
    ASSERT_EQ(on("2026-11-25", {"batch", "start", "winter-kraut"}).status, 0);
    const fs::path file = book_ / "batches/2026-11-25-winter-kraut.jarful";
    const std::string before = read(file);
    const std::vector<std::pair<std::string, std::string>> wrong{
        {"salt=30", "Write the unit, as in salt=30g"},
        {"slat=30g", "Did you mean \"salt\"?"},
        {"salt=30kg", "where 42 g was planned?"},
        {"salt=4.2g", "where 42 g was planned?"},
        {"salt=420g", "where 42 g was planned?"},
        {"bay=20", "20 of bay, where 2 was planned?"},
        {"bay=2g", "is counted. Write a number, as in bay=2"},
        {"salt=40..50g", "one weight, and no range"},
        {"salt=41 g ± 2 g", "one weight, and no range"},
    };
    for (const auto& [words, said] : wrong) {
        const Outcome outcome =
            on("2026-11-26", {"batch", "note", "winter-kraut", "--weighed", words});
        EXPECT_EQ(outcome.status, 2) << words;
        std::string flat = outcome.aside; // of however many lines
        for (std::size_t at = 0; (at = flat.find("\n        ", at)) != std::string::npos;)
            flat.replace(at, 9, " ");
        EXPECT_THAT(flat, HasSubstr(said)) << words;
    }
    EXPECT_EQ(read(file), before);
}

TEST_F(BatchWeeks, whatCannotBeNotedIsSaid) {
    ASSERT_EQ(on("2026-11-25", {"batch", "start", "winter-kraut"}).status, 0);
    const fs::path file = book_ / "batches/2026-11-25-winter-kraut.jarful";
    const std::string before = read(file);
    const std::vector<std::vector<std::string>> wrong{{"--ph", "acid"},
                                                      {"--ph", "15"},
                                                      {"--temp", "warm"},
                                                      {"--did", "burped"},
                                                      {"--weighed", "salt"},
                                                      {"--weighed", "salt=3L"},
                                                      {"--filled", "2kg"},
                                                      {},
                                                      {std::string("turned \xE2\x80\xAE round")}};
    for (std::vector<std::string> words : wrong) {
        words.insert(words.begin(), {"batch", "note", "winter-kraut"});
        const Outcome outcome = on("2026-11-26", words);
        EXPECT_EQ(outcome.status, 2) << ::testing::PrintToString(words);
        EXPECT_NE(outcome.aside, "");
    }
    EXPECT_EQ(on("2026-11-24", {"batch", "note", "winter-kraut", "early"}).status, 2);
    EXPECT_EQ(on("2026-11-26", {"batch", "note", "summer", "x"}).status, 2);
    EXPECT_EQ(run({"batch", "begin"}).status, 2);
    EXPECT_EQ(run({"batch"}).status, 2);
    EXPECT_EQ(read(file), before);
    // A second batch of that recipe and day has a name of its own.
    EXPECT_THAT(on("2026-11-25", {"batch", "start", "winter-kraut"}).result,
                HasSubstr("2026-11-25-winter-kraut-2.jarful"));
    const Outcome several = on("2026-11-26", {"batch", "show", "winter"});
    EXPECT_EQ(several.status, 2);
    EXPECT_THAT(several.aside, HasSubstr("Several batches fit"));
}

} // namespace
