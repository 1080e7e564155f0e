#include "engine/tend/schedule.hpp"
#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

namespace jarful::tend {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

Date day(const char* text) {
    const auto date = read_date(text);
    EXPECT_TRUE(date) << text;
    return date.value_or(Date{});
}

/// The schedule of a recipe's lines, begun on Wednesday, 25 November 2026.
Schedule scheduled(const std::string& lines, std::optional<double> celsius,
                   const std::string& kind = "kraut") {
    const auto outcome =
        test::weigh("recipe \"R\"\nkind " + kind +
                    "\ngiven cabbage = 1 kg\nweigh salt = 2.2 % of cabbage\n" + lines + "\n");
    EXPECT_TRUE(outcome.out) << outcome.said;
    if (!outcome.out) return {};
    return make_schedule(outcome.out->kind, outcome.out->method, outcome.out->method_lines,
                         day("2026-11-25"), celsius);
}

TEST(Dates, areReadAndPrintedAsIsoWritesThem) {
    EXPECT_EQ(print_date(day("2026-11-25")), "2026-11-25");
    EXPECT_EQ(print_long_date(day("2026-11-25")), "Wed 25 Nov 2026");
    for (const char* wrong : {"2026-2-3", "26-11-25", "2026-02-30", "2026-13-01", "2026-11-25 ",
                              "20261125", "", "1899-12-31", "2026/11/25", "2025-02-29"})
        EXPECT_FALSE(read_date(wrong)) << wrong;
    EXPECT_TRUE(read_date("2028-02-29"));
}

TEST(Dates, monthsAreCalendarMonthsAndDoNotSpillOver) {
    EXPECT_EQ(print_date(add_months(day("2026-08-31"), 6)), "2027-02-28");
    EXPECT_EQ(print_date(add_months(day("2027-08-31"), 6)), "2028-02-29");
    EXPECT_EQ(print_date(add_months(day("2026-11-25"), 14)), "2028-01-25");
    EXPECT_EQ(print_date(add_days(day("2028-02-28"), 2)), "2028-03-01");
    EXPECT_EQ(days_between(day("2026-11-25"), day("2026-12-25")), 30);
}

TEST(Schedule, putsDatesToWhatIsLookedAfter) {
    const Schedule s = scheduled("tend burp every 1 day from day 1 to day 3\n"
                                 "tend taste every 3 days from day 14\n"
                                 "tend test on day 10\n"
                                 "ready day 21 to day 28 at 21 to 24 °C\n"
                                 "keep cold for 6 months",
                                 22);
    ASSERT_EQ(s.duties.size(), 3U);
    EXPECT_THAT(s.duties[0].days, ElementsAre(1, 2, 3));
    EXPECT_FALSE(s.duties[0].open_ended);
    EXPECT_THAT(s.duties[1].days, ElementsAre(14, 17, 20, 23, 26));
    EXPECT_TRUE(s.duties[1].open_ended);
    EXPECT_THAT(s.duties[2].days, ElementsAre(10));
    EXPECT_EQ(s.ready.from, ReadyFrom::recipe);
    EXPECT_EQ(print_date(s.date(s.ready.days->from)), "2026-12-16");
    EXPECT_EQ(print_date(s.date(*s.keeping.move_day)), "2026-12-23");
    EXPECT_EQ(print_date(*s.keeping.keeps_until), "2027-06-23");
    ASSERT_FALSE(s.entries.empty());
    EXPECT_EQ(print_date(s.entries.front().date), "2026-11-26");
    EXPECT_EQ(s.entries.back().what, EntryWhat::keeps_until);
    EXPECT_TRUE(std::is_sorted(s.entries.begin(), s.entries.end(),
                               [](const Entry& a, const Entry& b) { return a.day < b.day; }));
}

TEST(Schedule, countsHoursAndUnevenIntervalsInDays) {
    const Schedule s = scheduled("tend burp every 12 h from day 1 to day 2\n"
                                 "tend look every 36 h from day 1 to day 7\n"
                                 "tend skim every 2 days to day 6",
                                 22);
    EXPECT_EQ(s.duties[0].times_a_day, 2);
    EXPECT_THAT(s.duties[0].days, ElementsAre(1, 2));
    EXPECT_THAT(s.duties[1].days, ElementsAre(1, 2, 4, 5, 7));
    EXPECT_THAT(s.duties[2].days, ElementsAre(2, 4, 6));
}

TEST(Schedule, aRecipesLineForAnotherRoomGivesWayToWhatIsPublished) {
    const Schedule s = scheduled("ready day 21 to day 28 at 21 to 24 °C", 17);
    EXPECT_EQ(s.ready.from, ReadyFrom::published);
    EXPECT_EQ(s.ready.days->from, 35);
    EXPECT_EQ(s.ready.days->to, 42);
    EXPECT_THAT(s.ready.why, HasSubstr("Guide 6"));
    EXPECT_THAT(s.ready.why, HasSubstr("21 to 24 °C"));
}

TEST(Schedule, theLineForThisRoomIsTakenAmongSeveral) {
    const Schedule s = scheduled("ready day 21 to day 28 at 21 to 24 °C\n"
                                 "ready day 30 to day 40 at 18 to 20 °C",
                                 19);
    EXPECT_EQ(s.ready.from, ReadyFrom::recipe);
    EXPECT_EQ(s.ready.days->from, 30);
}

TEST(Schedule, whatNobodySaysIsNotForeseen) {
    const Schedule s = scheduled("tend look every 7 days", 19, "shalgam");
    EXPECT_EQ(s.ready.from, ReadyFrom::not_foreseen);
    EXPECT_FALSE(s.ready.days);
    EXPECT_FALSE(s.keeping.move_day);
    EXPECT_THAT(s.duties[0].days, ElementsAre(7, 14, 21, 28));
    const Schedule cellar = scheduled("ready day 21 to day 28 at 21 to 24 °C", 12);
    EXPECT_EQ(cellar.ready.from, ReadyFrom::not_foreseen);
    EXPECT_THAT(cellar.ready.why, HasSubstr("this room is at 12 °C"));
    // Where the room is not known, the recipe's own days stand, and it is said that they may not.
    const Schedule unknown = scheduled("ready day 21 to day 28 at 21 to 24 °C", std::nullopt);
    EXPECT_EQ(unknown.ready.from, ReadyFrom::other_room);
    EXPECT_EQ(unknown.ready.days->to, 28);
}

TEST(Schedule, daysAndKeepingTimesBeyondReasonAreRefused) {
    const std::string head = "recipe \"R\"\ngiven cabbage = 1 kg\nweigh salt = 2 % of cabbage\n";
    for (const char* line : {"tend look on day 2000", "ready day 3000", "keep cold for 90 years",
                             "tend burp every 1 day to day 9999"}) {
        const auto outcome = test::weigh(head + line + "\n");
        EXPECT_THAT(outcome.codes, ::testing::Contains("absurd-amount")) << line;
    }
    EXPECT_TRUE(test::weigh(head + "keep cold for 24 months\n").out);
}

TEST(PhBy, isUnknownWhereNoRowSaysByWhen) {
    EXPECT_EQ(outlook("kraut", "", 20.0).ph_by->day, 14);
    EXPECT_EQ(outlook("kimchi", "", 20.0).ph_by->day, 2);
    EXPECT_FALSE(outlook("kimchi", "", 10.0).ph_by);
    const auto garlic = outlook("garlic", "", 20.0);
    // Its own window of common practice reaches to day 60, so the general seven weeks do not hold.
    EXPECT_FALSE(garlic.ph_by);
    EXPECT_TRUE(outlook("beets", "", 20.0).ph_by->general);
    EXPECT_EQ(outlook("beets", "", 20.0).ph_by->day, 49);
    EXPECT_FALSE(outlook("beets", "", 8.0).ph_by);
    EXPECT_FALSE(outlook("kraut", "", 10.0).ph_by);
}

} // namespace
} // namespace jarful::tend
