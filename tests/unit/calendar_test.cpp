#include "engine/render/tend_report.hpp"
#include "engine/tend/identity.hpp"
#include "tests/support/recipe.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>

#include <libical/ical.h>
#include <memory>
#include <set>

/// Calendar files, read back by an outside reader, and the plan as JSON by its schema.
namespace jarful::render {
namespace {

using ::testing::HasSubstr;

tend::Date day(const char* text) {
    return tend::read_date(text).value();
}

constexpr const char* kraut =
    R"(recipe "Kraut; \"thick\", with a back\\slash – für Grünkohl und Weißkohl 🥬🥬🥬🥬🥬🥬🥬🥬🥬🥬"
kind kraut
given cabbage = 1 kg
weigh salt = 2.2 % of cabbage
tend burp every 12 h from day 1 to day 5 "Line, and; more"
tend look every 36 h from day 1 to day 7
tend taste on day 14
ready day 21 to day 28 at 21 to 24 °C "{salt / 2} each"
keep cold for 6 months
)";

TendReport report_of(const std::string& recipe, const char* start, double celsius) {
    TendReport report;
    const auto weighed = test::weigh(recipe);
    EXPECT_TRUE(weighed.out) << weighed.said;
    if (!weighed.out) return report;
    report.title = weighed.out->title;
    report.kind = weighed.out->kind;
    report.cautions = weighed.out->cautions;
    report.schedule = tend::make_schedule(weighed.out->kind, weighed.out->method,
                                          weighed.out->method_lines, day(start), celsius);
    return report;
}

CalendarForm form(const char* made, int at_minutes = 18 * 60) {
    CalendarForm out;
    out.made = std::chrono::sys_days{day(made)};
    out.at_minutes = at_minutes;
    return out;
}

struct Free {
    void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};
using Component = std::unique_ptr<icalcomponent, Free>;

Component parsed(const std::string& text) {
    return Component(icalparser_parse_string(text.c_str()));
}

std::vector<icalcomponent*> events(icalcomponent* calendar) {
    std::vector<icalcomponent*> out;
    for (icalcomponent* c = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT);
         c != nullptr; c = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT))
        out.push_back(c);
    return out;
}

TEST(Calendar, isReadByLibicalWithoutAFault) {
    const std::string text = tend_calendar(report_of(kraut, "2026-11-25", 22), form("2026-11-25"));
    const Component calendar = parsed(text);
    ASSERT_TRUE(calendar);
    EXPECT_EQ(icalcomponent_count_errors(calendar.get()), 0);
    EXPECT_TRUE(icalrestriction_check(calendar.get()));
    const auto found = events(calendar.get());
    // Burping twice a day is two series; then look, taste, the ready days, ready, pH, move, end.
    EXPECT_EQ(found.size(), 9U);
    std::set<std::string> uids;
    for (icalcomponent* event : found) {
        uids.insert(icalcomponent_get_uid(event));
        EXPECT_THAT(std::string(icalcomponent_get_summary(event)),
                    HasSubstr("Kraut; \"thick\", with a back\\slash – für Grünkohl"));
    }
    EXPECT_EQ(uids.size(), found.size());
    EXPECT_STREQ(icalcomponent_get_description(found[0]),
                 "Burp: let the gas out, every 12 h.\nLine, and; more.");
}

TEST(Calendar, foldsAtSeventyFiveOctetsBetweenCharacters) {
    const std::string text = tend_calendar(report_of(kraut, "2026-11-25", 22), form("2026-11-25"));
    std::size_t begin = 0;
    std::size_t folded = 0;
    while (begin < text.size()) {
        const std::size_t end = text.find("\r\n", begin);
        ASSERT_NE(end, std::string::npos) << "the last line ends with CRLF";
        const std::string line = text.substr(begin, end - begin);
        EXPECT_LE(line.size(), 75U) << line;
        EXPECT_EQ(line.find_first_of("\r\n"), std::string::npos);
        const std::size_t first = line.starts_with(' ') ? 1 : 0;
        folded += first;
        ASSERT_GT(line.size(), first);
        EXPECT_NE(static_cast<unsigned char>(line[first]) & 0xC0U, 0x80U) << "a split character";
        begin = end + 2;
    }
    EXPECT_GT(folded, 10U);
}

std::vector<std::string> occurrences(icalcomponent* event) {
    std::vector<std::string> out;
    const icaltimetype start = icalcomponent_get_dtstart(event);
    icalproperty* rule = icalcomponent_get_first_property(event, ICAL_RRULE_PROPERTY);
    icalrecur_iterator* times = icalrecur_iterator_new(icalproperty_get_rrule(rule), start);
    for (icaltimetype at = icalrecur_iterator_next(times); !icaltime_is_null_time(at);
         at = icalrecur_iterator_next(times))
        out.emplace_back(icaltime_as_ical_string(at));
    icalrecur_iterator_free(times);
    return out;
}

// Central European time goes back on 25 October 2026 and forward on 28 March 2027: a reminder
// stays at the hour on the wall, because its times are floating.
TEST(Calendar, keepsTheHourAcrossAChangeOfClocks) {
    for (const char* start : {"2026-10-22", "2027-03-25"}) {
        const std::string text = tend_calendar(
            report_of("recipe \"R\"\ngiven cabbage = 1 kg\nweigh salt = 2 % of cabbage\n"
                      "tend burp every 1 day from day 1 to day 7\n",
                      start, 22),
            form(start, 7 * 60 + 30));
        EXPECT_EQ(text.find("TZID"), std::string::npos);
        const Component calendar = parsed(text);
        ASSERT_TRUE(calendar);
        const auto found = events(calendar.get());
        ASSERT_EQ(found.size(), 2U); // burping, and the day by which the pH should be down
        const icaltimetype first = icalcomponent_get_dtstart(found[0]);
        EXPECT_FALSE(icaltime_is_utc(first));
        EXPECT_EQ(icaltime_get_timezone(first), nullptr);
        const auto times = occurrences(found[0]);
        ASSERT_EQ(times.size(), 7U);
        for (const std::string& time : times)
            EXPECT_EQ(time.substr(8), "T073000") << time;
    }
}

TEST(Calendar, aSecondImportUpdatesTheFirst) {
    const auto uids = [](const std::string& text) {
        std::set<std::string> out;
        const Component calendar = parsed(text);
        for (icalcomponent* event : events(calendar.get()))
            out.insert(icalcomponent_get_uid(event));
        return out;
    };
    const auto sequence = [](const std::string& text) {
        const Component calendar = parsed(text);
        return icalcomponent_get_sequence(events(calendar.get())[0]);
    };
    const std::string first = tend_calendar(report_of(kraut, "2026-11-25", 22), form("2026-11-25"));
    const std::string warmer =
        tend_calendar(report_of(kraut, "2026-11-25", 17), form("2026-11-28"));
    EXPECT_EQ(uids(first), uids(warmer));
    EXPECT_LT(sequence(first), sequence(warmer));
    EXPECT_NE(first, warmer);
    // Nothing but the day given decides the bytes.
    EXPECT_EQ(first, tend_calendar(report_of(kraut, "2026-11-25", 22), form("2026-11-25")));
    // Another first day, and another name, are other batches.
    CalendarForm named = form("2026-11-25");
    named.name = "second crock";
    EXPECT_NE(uids(first),
              uids(tend_calendar(report_of(kraut, "2026-11-26", 22), form("2026-11-25"))));
    EXPECT_NE(uids(first), uids(tend_calendar(report_of(kraut, "2026-11-25", 22), named)));
}

TEST(Calendar, unevenDaysAreListed) {
    const std::string text = tend_calendar(report_of(kraut, "2026-11-25", 22), form("2026-11-25"));
    EXPECT_THAT(text, HasSubstr("RDATE:20261127T180000,20261129T180000,20261130T180000,"));
}

TEST(TendJson, isAsItsSchemaSays) {
    const testing::DocumentedSchema schema("tend");
    for (const double celsius : {10.0, 19.0, 22.0, 30.0}) {
        const auto out = nlohmann::json::parse(tend_json(report_of(kraut, "2026-11-25", celsius)));
        EXPECT_EQ(schema.faults(out), "") << celsius;
    }
    const auto bare = nlohmann::json::parse(tend_json(report_of(
        "recipe \"R\"\ngiven cabbage = 1 kg\nweigh salt = 2 % of cabbage\n", "2026-11-25", 20)));
    EXPECT_EQ(schema.faults(bare), "");
    EXPECT_TRUE(bare.at("ready").at("likely").is_null());
    auto broken = bare;
    broken["start"] = "25.11.2026";
    EXPECT_NE(schema.faults(broken), "");
}

// `printf 'kraut\n' | git hash-object --stdin`, and git's well-known id of an empty blob.
TEST(Identity, isTheIdThatGitGives) {
    EXPECT_EQ(tend::blob_id(""), "e69de29bb2d1d6434b8b29ae775ad8c2e48c5391");
    EXPECT_EQ(tend::blob_id("kraut\n"), "df7fe216c76a300990d9550a499ca488ecbce0b9");
    EXPECT_EQ(tend::blob_id(std::string(100'000, 'x')), "56e0448612acbb706b96b7e8e46a210f15386a38");
}

// RFC 4122: version 5, variant 10.
TEST(Identity, namesAreUuidsOfVersionFive) {
    const std::string one = tend::named_uuid("one");
    ASSERT_EQ(one.size(), 36U);
    EXPECT_EQ(one[14], '5');
    EXPECT_NE(std::string("89ab").find(one[19]), std::string::npos);
    EXPECT_EQ(one, tend::named_uuid("one"));
    EXPECT_NE(one, tend::named_uuid("two"));
}

} // namespace
} // namespace jarful::render
