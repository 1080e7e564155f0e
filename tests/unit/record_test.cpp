#include "engine/language/parse.hpp"
#include "engine/tend/identity.hpp"
#include "engine/tend/learn.hpp"
#include "engine/tend/record.hpp"
#include "engine/tend/record_file.hpp"
#include "engine/tend/standing.hpp"

#include <gmock/gmock.h>

#include <csignal>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

namespace jarful::tend {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

Date day(const std::string& text) {
    return read_date(text).value();
}

struct Read {
    std::optional<Record> record;
    std::vector<std::string> codes;
};

Read read(const std::string& bytes) {
    Read out;
    language::Findings findings;
    auto source = language::read_source("batch.jarful", bytes, findings);
    if (source) {
        const auto document = language::parse(std::move(*source), findings);
        out.record = read_record(document, findings);
    }
    for (const auto& found : findings.all())
        out.codes.push_back(found.code);
    return out;
}

const std::string head = "batch \"Kraut\" of \"kraut.jarful\"\n"
                         "begun 2026-11-25\n"
                         "kind kraut\n"
                         "room 22 °C\n"
                         "tend burp every 1 day from day 1 to day 7\n"
                         "ready day 21 to day 28 at 21 to 24 °C\n"
                         "keep cold for 6 months\n";

Standing stands(const std::string& lines, const std::string& today) {
    const Read found = read(head + lines);
    EXPECT_THAT(found.codes, IsEmpty());
    return standing(found.record.value(), day(today));
}

std::vector<std::string> concerns(const Standing& standing) {
    std::vector<std::string> out;
    for (const Finding& finding : standing.findings)
        out.push_back(std::string(key(finding.concern)) +
                      (finding.task.empty() ? "" : ":" + finding.task));
    return out;
}

TEST(Changes, touchNoOtherByteOfTheRecipe) {
    const std::string text = "recipe \"K\"\ngiven a = 1 kg\n";
    const language::Source source("k.jarful", text);
    Proposal title; // on the first line
    title.place = {8, 9};
    title.new_text = "Kraut";
    Proposal amount;
    amount.place = {21, 25};
    amount.new_text = "2 kg";
    Proposal line; // below the last
    line.added = true;
    line.place = {25, 25};
    line.new_text = "ready day 3";
    EXPECT_EQ(with_changes(text, source, {amount, title}), "recipe \"Kraut\"\ngiven a = 2 kg\n");
    EXPECT_EQ(with_changes(text, source, {title, line}),
              "recipe \"Kraut\"\ngiven a = 1 kg\nready day 3\n");
    const std::string marked = "\xEF\xBB\xBFrecipe \"K\"\r\ngiven a = 1 kg\r\n";
    EXPECT_EQ(with_changes(marked, source, {amount, title}),
              "\xEF\xBB\xBFrecipe \"Kraut\"\r\ngiven a = 2 kg\r\n");
    EXPECT_EQ(with_changes(marked, source, {line}),
              "\xEF\xBB\xBFrecipe \"K\"\r\ngiven a = 1 kg\r\nready day 3\r\n");
    EXPECT_EQ(with_changes(text, source, {}), text);
}

// By `printf 'blob 0\0' | sha1sum`, and likewise with 6 bytes: what git gives for these contents.
TEST(Names, followFromWhatTheyName) {
    EXPECT_EQ(blob_id(""), "e69de29bb2d1d6434b8b29ae775ad8c2e48c5391");
    EXPECT_EQ(blob_id("hello\n"), "ce013625030ba8dba906f756967f9e9ca394464a");
    EXPECT_EQ(named_uuid("a"), named_uuid("a"));
    EXPECT_NE(named_uuid("a"), named_uuid("b"));
    EXPECT_EQ(named_uuid("a").size(), 36u);
    EXPECT_EQ(named_uuid("a")[14], '5') << "the version";
}

TEST(Record, isReadBackAsItIsPrinted) {
    Record record;
    record.title = "Kraut \"thick\" {x} \\ and more";
    record.recipe = "../kraut.jarful";
    record.revision = "e69de29bb2d1d6434b8b29ae775ad8c2e48c5391";
    record.kind = "green-beans";
    record.method = "in-brine";
    record.begun = day("2026-11-25");
    record.room_celsius = 18.5;
    record.vessels = {"tall"};
    record.without = {"apple"};
    record.planned = {{"salt", 42.9, false, {}}, {"bay", 2, true, {}}};
    plan::MethodLine burp;
    burp.sort = plan::MethodLine::Sort::tend;
    burp.task = "burp";
    burp.seconds = 12 * 3600;
    burp.from_day = 1;
    plan::TextPiece words;
    words.words = "mind the {lid}";
    burp.text = {words};
    record.tending = {burp};
    std::string text = print_record(record);
    text += print_weighed({"salt", 41, false, day("2026-11-25")});
    Note note;
    note.date = day("2026-11-28");
    note.ph = 3.9;
    note.celsius = 19.5;
    note.filled_ml = 1900;
    note.did = {"burp", "look"};
    note.text = "a \"fine\" smell\nof cabbage";
    text += print_note(note);
    const Read again = read(text);
    EXPECT_THAT(again.codes, IsEmpty()) << text;
    ASSERT_TRUE(again.record);
    EXPECT_EQ(again.record->title, record.title);
    EXPECT_EQ(again.record->revision, record.revision);
    EXPECT_EQ(again.record->method, "in-brine");
    EXPECT_EQ(again.record->room_celsius, 18.5);
    EXPECT_EQ(again.record->planned[0].amount, 42.9);
    EXPECT_TRUE(again.record->planned[1].pieces);
    EXPECT_EQ(again.record->weighed("salt")->amount, 41);
    ASSERT_EQ(again.record->notes.size(), 1U);
    EXPECT_EQ(again.record->notes[0].ph, 3.9);
    EXPECT_NEAR(*again.record->notes[0].celsius, 19.5, 1e-9);
    EXPECT_EQ(again.record->notes[0].filled_ml, 1900);
    EXPECT_THAT(again.record->notes[0].did, ElementsAre("burp", "look"));
    EXPECT_EQ(again.record->notes[0].text, "a \"fine\" smell of cabbage");
    ASSERT_EQ(again.record->tending.size(), 1U);
    EXPECT_EQ(again.record->tending[0].text[0].words, "mind the {lid}");
    EXPECT_EQ(again.record->tending[0].seconds, 43200);
}

TEST(Record, isReadAsFarAsItGoesWithTheFaultNamed) {
    const Read torn = read(head + "noted 2026-11-26 pH 5.2\nnoted 2026-11-27 \"half of a li");
    EXPECT_THAT(torn.codes, ElementsAre("open-text"));
    ASSERT_TRUE(torn.record);
    EXPECT_EQ(torn.record->notes.size(), 1U);

    const Read bytes = read(head + "noted 2026-11-26 \"\xFF\xFE\"\nnoted 2026-11-27 pH 4.4\n");
    EXPECT_THAT(bytes.codes, ElementsAre("not-utf8"));
    ASSERT_EQ(bytes.record->notes.size(), 2U);
    EXPECT_EQ(bytes.record->notes[0].text, "??");
    EXPECT_EQ(bytes.record->notes[1].ph, 4.4);

    const Read wrong = read(head + "noted 2026-13-01 \"x\"\nnoted 2026-11-27 pH 44\n"
                                   "weighed salt = 3 L on 2026-11-25\nnoted 2026-11-28 did burp\n");
    EXPECT_THAT(wrong.codes,
                ::testing::UnorderedElementsAre("no-such-day", "absurd-amount", "wrong-dimension"));
    EXPECT_EQ(wrong.record->notes.size(), 2U);

    const Read begin = read("batch \"K\" of \"k\"\nnoted 2026-11-28 pH 4\nnoted 2026-11-26 pH 5\n");
    EXPECT_THAT(begin.codes, ElementsAre("not-begun"));
    EXPECT_EQ(print_date(begin.record->begun), "2026-11-26");
    EXPECT_FALSE(read("batch \"K\" of \"k\"\n").record);
}

TEST(Record, whatCannotBeMeantIsSaidAndNotKept) {
    const std::vector<std::pair<std::string, std::string>> wrong{
        {"tend burp every 1000000000 weeks\n", "absurd-amount"},
        {"tend burp every 3 kg\n", "wrong-dimension"},
        {"tend burp every 1 day from day 9 to day 3\n", "reversed-days"},
        {"tend look on day 9999\n", "absurd-amount"},
        {"keep cold for 30000 days\n", "absurd-amount"},
        {"ready day 3 at 5 kg\n", "absurd-amount"},
        {"ready day 9 to day 3\n", "reversed-days"},
    };
    for (const auto& [line, code] : wrong) {
        const Read found = read("batch \"K\" of \"k\"\nbegun 2026-11-25\n" + line);
        EXPECT_THAT(found.codes, ElementsAre(code)) << line;
        ASSERT_TRUE(found.record) << line;
        EXPECT_TRUE(found.record->tending.empty()) << line;
        EXPECT_THAT(concerns(standing(*found.record, day("2026-11-26"))), IsEmpty()) << line;
    }
}

TEST(Standing, whatGoesOnWithoutAnEndIsDueBeyondWhatIsForeseen) {
    const std::string head_of = "batch \"K\" of \"k\"\nbegun 2026-11-25\nkind kraut\nroom 22 °C\n"
                                "noted 2026-12-09 pH 4\n";
    const auto at = [&](const std::string& lines, int days) {
        const Read found = read(head_of + lines);
        EXPECT_THAT(found.codes, IsEmpty());
        Standing out = standing(found.record.value(), add_days(day("2026-11-25"), days));
        std::erase_if(out.findings,
                      [](const Finding& f) { return f.task != "burp" && f.task != "look"; });
        return out;
    };
    // Every 36 hours from day 1: days 1, 2, 4, 5, 7, …, 40, 41, 43.
    const std::string uneven = "tend look every 36 h from day 1\n";
    const std::string looked = "noted 2027-01-05 did look\n"; // day 41
    EXPECT_THAT(concerns(at(uneven + looked, 42)), IsEmpty());
    EXPECT_THAT(concerns(at(uneven + looked, 43)), ElementsAre("due:look"));
    const Standing late = at(uneven + looked, 45);
    EXPECT_THAT(concerns(late), ElementsAre("missed:look"));
    EXPECT_EQ(late.findings[0].days_late, 2); // since day 43
    // A burp that was missed for days is said to be that late.
    const Standing burp = at("tend burp every 1 day\nnoted 2027-01-04 did burp\n", 45); // day 40
    ASSERT_THAT(concerns(burp), ElementsAre("missed:burp", "due:burp"));
    EXPECT_EQ(burp.findings[0].days_late, 4);
}

TEST(Duty, itsDaysAgreeHoweverTheyAreAskedFor) {
    for (const char* every : {"12 h", "1 day", "36 h", "50 h", "3 days", "1 week"}) {
        for (const char* ends : {"", " from day 5", " from day 5 to day 17"}) {
            const Read found = read(
                "batch \"K\" of \"k\"\nbegun 2026-11-25\nkind kraut\nroom 22 °C\ntend look every " +
                std::string(every) + ends + "\n");
            ASSERT_THAT(found.codes, IsEmpty());
            const Standing there = standing(found.record.value(), day("2026-11-25"));
            const Duty& duty = there.schedule.duties.at(0);
            int last = duty.due_after(-1).value();
            EXPECT_EQ(last, duty.days.front());
            EXPECT_FALSE(duty.due_before(last)) << every << ends;
            for (int step = 0; step < 60; ++step) {
                EXPECT_TRUE(duty.due_on(last));
                const auto next = duty.due_after(last);
                if (!next) break;
                ASSERT_GT(*next, last);
                EXPECT_EQ(duty.due_before(*next), last) << every << ends << ", day " << *next;
                for (int between = last + 1; between < *next; ++between)
                    EXPECT_FALSE(duty.due_on(between));
                last = *next;
            }
            EXPECT_EQ(duty.open_ended, last > duty.days.back()) << every << ends;
        }
    }
}

// 21 CFR 114.3: pH 4.6.
TEST(Standing, whatIsTakenForFoodHasToBeSour) {
    const Standing sweet = stands("noted 2026-12-01 pH 5.6 did ready\n", "2026-12-02");
    ASSERT_THAT(concerns(sweet), ::testing::Contains("ph_high"));
    EXPECT_THAT(sweet.findings[0].text, HasSubstr("noted as ready"));
    EXPECT_THAT(sweet.findings[0].source, HasSubstr("21 CFR 114"));
    EXPECT_THAT(concerns(stands("noted 2026-12-01 pH 5.4 did move\n", "2026-12-02")),
                ElementsAre("ph_high"));
    const Standing unmeasured = stands("noted 2026-12-01 did move\n", "2026-12-02");
    ASSERT_THAT(concerns(unmeasured), ElementsAre("missed:ph"));
    EXPECT_THAT(unmeasured.findings[0].text, HasSubstr("marked moved"));
    EXPECT_THAT(concerns(stands("noted 2026-12-01 pH 4.4 did move\n", "2026-12-02")), IsEmpty());
}

TEST(Standing, aMissedBurpComesFirstAndIsLetGoWhenItIsOver) {
    EXPECT_THAT(concerns(stands("", "2026-11-25")), IsEmpty());
    EXPECT_THAT(concerns(stands("", "2026-11-26")), ElementsAre("due:burp"));
    EXPECT_THAT(concerns(stands("noted 2026-11-26 did burp\n", "2026-11-26")), IsEmpty());
    const Standing late = stands("noted 2026-11-26 did burp\n", "2026-11-29");
    EXPECT_THAT(concerns(late), ElementsAre("missed:burp", "due:burp"));
    EXPECT_EQ(late.findings[0].days_late, 2);
    EXPECT_THAT(late.findings[0].advice, HasSubstr("pressure"));
    EXPECT_THAT(concerns(stands("noted 2026-12-01 did look\n", "2026-12-08")), IsEmpty());
}

// 21 CFR 114.3: pH 4.6. Kraut in a room: by day 14, Journal of Food Research, article 68438.
TEST(Standing, aPhThatStaysHighIsAnAlarmOnlyPastTheDayThatIsPublished) {
    const std::string noted = "noted 2026-12-08 pH 4.9\n";
    EXPECT_THAT(concerns(stands(noted, "2026-12-09")), IsEmpty()); // day 14 itself
    const Standing late = stands(noted, "2026-12-10");
    EXPECT_THAT(concerns(late), ElementsAre("ph_high"));
    EXPECT_THAT(late.findings[0].source, HasSubstr("21 CFR 114"));
    EXPECT_THAT(late.findings[0].advice, HasSubstr("Do not eat it"));
    EXPECT_THAT(concerns(stands("noted 2026-12-08 pH 4.6\n", "2026-12-10")), IsEmpty());
    // A later measurement counts, and one of tomorrow does not.
    EXPECT_THAT(concerns(stands(noted + "noted 2026-12-10 pH 4.2\n", "2026-12-10")), IsEmpty());
    EXPECT_THAT(
        concerns(stands("noted 2026-12-05 did look\nnoted 2026-12-30 pH 5\n", "2026-12-10")),
        ElementsAre("missed:ph"));
}

TEST(Standing, whereNoRowSaysByWhenTheAnswerIsUnknown) {
    const Read garlic = read("batch \"G\" of \"g\"\nbegun 2026-11-25\nkind garlic\nroom 20 °C\n"
                             "noted 2026-12-24 pH 5.2\n");
    const Standing there = standing(garlic.record.value(), day("2026-12-25"));
    ASSERT_THAT(concerns(there), ElementsAre("due:ready", "unknown"));
    EXPECT_FALSE(there.findings[1].wrong());
    EXPECT_THAT(there.findings[1].text, HasSubstr("unknown"));
}

TEST(Standing, aPhThatClimbsAgainIsSaid) {
    const Standing climbs =
        stands("noted 2026-12-08 pH 3.5\nnoted 2026-12-12 pH 3.9\n", "2026-12-12");
    EXPECT_THAT(concerns(climbs), ElementsAre("ph_rising"));
    EXPECT_THAT(
        concerns(stands("noted 2026-12-08 pH 3.5\nnoted 2026-12-12 pH 3.7\n", "2026-12-12")),
        IsEmpty());
}

// USDA Complete Guide, Guide 6: below 60 °F it may not ferment, above 75 °F it may soften.
TEST(Standing, theLastTemperatureIsHeldToWhatIsPublished) {
    EXPECT_THAT(concerns(stands("noted 2026-12-08 pH 4 at 12 °C\n", "2026-12-08")),
                ElementsAre("too_cold"));
    EXPECT_THAT(concerns(stands("noted 2026-12-08 pH 4 at 27 °C\n", "2026-12-08")),
                ElementsAre("too_warm"));
    EXPECT_THAT(concerns(stands("noted 2026-12-07 at 27 °C\nnoted 2026-12-08 pH 4 at 22 °C\n",
                                "2026-12-08")),
                IsEmpty());
    // In the cold it is meant to be cold.
    EXPECT_THAT(concerns(stands("noted 2026-12-20 pH 3.6 at 4 °C did move\n", "2026-12-21")),
                IsEmpty());
}

TEST(Standing, silenceReadinessMovingAndTheEnd) {
    const std::string fine = "noted 2026-12-09 pH 4.0\n";
    EXPECT_THAT(concerns(stands(fine, "2026-12-16")), ElementsAre("due:ready"));
    EXPECT_THAT(concerns(stands(fine, "2026-12-17")), ElementsAre("silence", "due:ready"));
    EXPECT_THAT(concerns(stands(fine + "noted 2026-12-24 did look\n", "2026-12-24")),
                ElementsAre("missed:move"));
    EXPECT_THAT(concerns(stands(fine + "noted 2026-12-24 did move\n", "2027-06-24")), IsEmpty());
    EXPECT_THAT(concerns(stands(fine + "noted 2026-12-24 did move\n", "2027-06-25")),
                ElementsAre("past_keeping"));
    EXPECT_THAT(concerns(stands(fine + "noted 2026-12-24 did end\n", "2027-06-25")), IsEmpty());
}

// ---- The file. ----

class RecordFile : public ::testing::Test {
  protected:
    void SetUp() override {
        folder_ = std::filesystem::temp_directory_path() /
                  ("jarful-record-" + std::to_string(::getpid()) + "-" +
                   ::testing::UnitTest::GetInstance()->current_test_info()->name());
        std::filesystem::create_directories(folder_);
        path_ = (folder_ / "batch.jarful").string();
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }
    [[nodiscard]] std::string content() const {
        std::ifstream in(path_, std::ios::binary);
        std::ostringstream out;
        out << in.rdbuf();
        return out.str();
    }
    std::filesystem::path folder_;
    std::string path_;
};

TEST_F(RecordFile, isBegunOnceAndLeavesNothingElseBehind) {
    bool exists = true;
    EXPECT_FALSE(begin_record(path_, head, exists));
    EXPECT_FALSE(exists);
    EXPECT_EQ(content(), head);
    EXPECT_TRUE(begin_record(path_, "something else\n", exists));
    EXPECT_TRUE(exists);
    EXPECT_EQ(content(), head);
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder_), {}), 1);
}

TEST_F(RecordFile, anUnfinishedLineIsEndedFirst) {
    std::ofstream(path_) << head << "noted 2026-11-26 \"half";
    EXPECT_FALSE(add_to_record(path_, "noted 2026-11-27 pH 4.5\n"));
    const Read found = read(content());
    EXPECT_THAT(found.codes, ElementsAre("open-text"));
    EXPECT_EQ(found.record->notes.size(), 1U);
}

/// Adds numbered lines until it is killed.
[[noreturn]] void write_on(const std::string& path, int writer, int lines) {
    for (int i = 0; i < lines; ++i) {
        Note note;
        note.date = day("2026-11-26");
        note.text = "writer " + std::to_string(writer) + " line " + std::to_string(i) + " " +
                    std::string(1500, 'x');
        if (add_to_record(path, print_note(note))) ::_exit(1);
    }
    ::_exit(0);
}

TEST_F(RecordFile, writersAtOnceDoNotInterleave) {
    bool exists = false;
    ASSERT_FALSE(begin_record(path_, head, exists));
    constexpr int writers = 6;
    constexpr int lines = 40;
    std::vector<pid_t> children;
    for (int writer = 0; writer < writers; ++writer) {
        const pid_t child = ::fork();
        if (child == 0) write_on(path_, writer, lines);
        children.push_back(child);
    }
    for (const pid_t child : children) {
        int status = 0;
        ::waitpid(child, &status, 0);
        EXPECT_EQ(status, 0);
    }
    const Read found = read(content());
    EXPECT_THAT(found.codes, IsEmpty());
    ASSERT_EQ(found.record->notes.size(), static_cast<std::size_t>(writers * lines));
    std::vector<int> next(writers, 0);
    for (const Note& note : found.record->notes) {
        int writer = 0;
        int line = 0;
        ASSERT_EQ(std::sscanf(note.text.c_str(), "writer %d line %d", &writer, &line), 2);
        EXPECT_EQ(line, next[static_cast<std::size_t>(writer)]++) << "in the order written";
    }
}

TEST_F(RecordFile, aWriterThatIsKilledLosesAtMostTheLineBeingWritten) {
    bool exists = false;
    ASSERT_FALSE(begin_record(path_, head, exists));
    std::string before = content();
    std::size_t faults = 0;
    for (int round = 0; round < 60; ++round) {
        const pid_t child = ::fork();
        if (child == 0) write_on(path_, round, 1'000'000);
        ::usleep(static_cast<useconds_t>(500 + 331 * (round % 13)));
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
        const std::string after = content();
        // What was there is there, byte for byte.
        ASSERT_GE(after.size(), before.size());
        ASSERT_EQ(after.compare(0, before.size(), before), 0) << "round " << round;
        const Read found = read(after);
        ASSERT_TRUE(found.record);
        EXPECT_LE(found.codes.size(), faults + 1) << "one line for each that was killed";
        faults = found.codes.size();
        before = after;
        if (before.size() > 700'000) { // a record has no more than 1 MiB
            std::filesystem::remove(path_);
            ASSERT_FALSE(begin_record(path_, head, exists));
            before = content();
            faults = 0;
        }
    }
    // And the record goes on.
    EXPECT_FALSE(add_to_record(path_, "noted 2026-12-01 pH 4.1\n"));
    EXPECT_EQ(read(content()).record->notes.back().ph, 4.1);
}

/// A disk that fills up in the middle of a line, at every byte of it; a limit on the size of files
/// stands for the disk.
TEST_F(RecordFile, ofLinesThatHaveNoRoomNothingStays) {
    const std::string lines = "noted 2026-11-26 pH 4.5\nnoted 2026-11-27 \"sour\"\n";
    for (const std::string& before : {std::string(head), std::string(head) + "noted 2026-11"}) {
        for (std::size_t room = 0; room < lines.size(); ++room) {
            std::ofstream(path_) << before;
            const pid_t child = ::fork();
            if (child == 0) {
                ::signal(SIGXFSZ, SIG_IGN);
                const rlimit limit{before.size() + room, before.size() + room};
                ::setrlimit(RLIMIT_FSIZE, &limit);
                const auto fault = add_to_record(path_, lines);
                ::_exit(fault && fault->find("too large") != std::string::npos ? 0 : 1);
            }
            int status = 0;
            ::waitpid(child, &status, 0);
            EXPECT_EQ(status, 0) << room;
            ASSERT_EQ(content(), before) << room;
        }
    }
    EXPECT_FALSE(add_to_record(path_, lines));
}

TEST_F(RecordFile, whatStandsInTheWayIsSaid) {
    bool exists = false;
    EXPECT_TRUE(begin_record((folder_ / "none" / "x.jarful").string(), head, exists));
    EXPECT_FALSE(exists);
    EXPECT_TRUE(add_to_record((folder_ / "none.jarful").string(), "noted 2026-12-01 pH 4\n"));
}

TEST(Correction, TheCorrectedValueIsJudgedAndTheOldOneStaysInSight) {
    const std::string slip = "noted 2026-12-20 pH 5.1\n";
    EXPECT_THAT(concerns(stands(slip, "2026-12-20")), testing::Contains("ph_high"));
    const Standing right = stands(
        slip + "corrected 2026-12-20 pH 5.1 on 2026-12-20 to 4.1 \"misread\"\n", "2026-12-20");
    EXPECT_THAT(concerns(right), testing::Not(testing::Contains("ph_high")));
    EXPECT_DOUBLE_EQ(right.last_ph.value(), 4.1);
    // The other way about, the alarm says what was noted at first.
    const Standing wrong = stands("noted 2026-12-20 pH 4.1\n"
                                  "corrected 2026-12-21 pH 4.1 on 2026-12-20 to 5.1\n",
                                  "2026-12-21");
    ASSERT_THAT(concerns(wrong), testing::Contains("ph_high"));
    EXPECT_THAT(wrong.findings.front().text,
                HasSubstr("pH 5.1 (4.1 was noted, and corrected on 2026-12-21) on 2026-12-20"));
}

TEST(Correction, OfEverySortOfEntry) {
    const Read found =
        read(head + "weighed salt = 410 g on 2026-11-25\nweighed bay = 3 on 2026-11-25\n"
                    "noted 2026-12-09 pH 3.1 at 41 °C filled 21 L did ready, look \"smels\"\n"
                    "corrected 2026-12-10 weighed salt = 410 g on 2026-11-25 to 41 g\n"
                    "corrected 2026-12-10 weighed bay = 3 on 2026-11-25 to nothing\n"
                    "corrected 2026-12-10 pH 3.1 on 2026-12-09 to 4.1\n"
                    "corrected 2026-12-11 pH 4.1 on 2026-12-09 to 4.2\n"
                    "corrected 2026-12-10 at 41 °C on 2026-12-09 to 14 °C\n"
                    "corrected 2026-12-10 filled 21 L on 2026-12-09 to 2.1 L\n"
                    "corrected 2026-12-10 did ready on 2026-12-09 to nothing\n"
                    "corrected 2026-12-10 \"smels\" on 2026-12-09 to \"smells\"\n");
    EXPECT_THAT(found.codes, IsEmpty());
    const Record& record = found.record.value();
    EXPECT_DOUBLE_EQ(record.weighed("salt")->amount, 41);
    EXPECT_EQ(record.weighed("bay"), nullptr);
    ASSERT_EQ(record.weighings.size(), 2U); // both can still be seen
    EXPECT_TRUE(record.weighings[1].taken_back);
    const Note& note = record.notes.at(0);
    EXPECT_DOUBLE_EQ(note.ph.value(), 4.2);
    EXPECT_NEAR(note.celsius.value(), 14, 1e-9);
    EXPECT_DOUBLE_EQ(note.filled_ml.value(), 2100);
    EXPECT_THAT(note.did, ElementsAre("look"));
    EXPECT_FALSE(record.did("ready"));
    EXPECT_EQ(note.text, "smells");
    EXPECT_EQ(note.corrections.size(), 6U);
    EXPECT_DOUBLE_EQ(note.corrections[0].before.value, 3.1);
    EXPECT_EQ(print_correction(note.corrections[4]),
              "corrected 2026-12-10 did ready on 2026-12-09 to nothing\n");
    EXPECT_EQ(print_correction(record.weighings[0].corrections.at(0)),
              "corrected 2026-12-10 weighed salt = 410 g on 2026-11-25 to 41 g\n");
}

TEST(Correction, NamesAnEntryThatThereIs) {
    for (const char* line : {"corrected 2026-12-10 pH 3.2 on 2026-12-09 to 4.1\n",
                             "corrected 2026-12-10 pH 3.1 on 2026-12-08 to 4.1\n",
                             "corrected 2026-12-10 did taste on 2026-12-09 to burp\n",
                             "corrected 2026-12-10 weighed salt = 3 g on 2026-12-09 to 4 g\n"}) {
        const Read found = read(head + "noted 2026-12-09 pH 3.1 did look\n" + line);
        EXPECT_THAT(found.codes, ElementsAre("nothing-corrected")) << line;
        EXPECT_DOUBLE_EQ(found.record.value().notes.at(0).ph.value(), 3.1);
    }
    EXPECT_THAT(read(head + "noted 2026-12-09 pH 3.1\n"
                            "corrected 2026-12-10 pH 3.1 on 2026-12-09 to 41\n")
                    .codes,
                ElementsAre("absurd-amount"));
}

TEST(Correction, AnEntryIsMeantByItsWords) {
    const Record record =
        read(head +
             "weighed salt = 410 g on 2026-11-25\nnoted 2026-12-09 pH 3.1 at 41 °C did ready "
             "\"smells of cabbage\"\nnoted 2026-12-10 pH 3.1 filled 21 L\n")
            .record.value();
    const auto count = [&](std::string_view words, std::optional<Logged::What> what = {}) {
        return entries_meant(record, words, what).size();
    };
    EXPECT_EQ(count("pH 3.1"), 2U);
    EXPECT_EQ(count("ph 3.1"), 2U);
    EXPECT_EQ(count("3.1", Logged::What::ph), 2U);
    EXPECT_EQ(count("3.2", Logged::What::ph), 0U);
    EXPECT_EQ(count("salt=410g"), 1U);
    EXPECT_EQ(count("weighed salt = 0.41 kg"), 1U);
    EXPECT_EQ(count("410g", Logged::What::weighed), 1U);
    EXPECT_EQ(count("carrot=410g"), 0U);
    EXPECT_EQ(count("at 41 °C"), 1U);
    EXPECT_EQ(count("filled 21L"), 1U);
    EXPECT_EQ(count("21L"), 1U);
    EXPECT_EQ(count("did ready"), 1U);
    EXPECT_EQ(count("ready"), 1U);
    EXPECT_EQ(count("cabbage"), 1U);
    EXPECT_EQ(count("onion"), 0U);
}

} // namespace
} // namespace jarful::tend
