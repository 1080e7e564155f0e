#include "engine/language/parse.hpp"
#include "engine/tend/outlook.hpp"
#include "engine/tend/record.hpp"
#include "engine/tend/standing.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <regex>
#include <set>
#include <string>

/// Days and temperatures against what is published. The source stands beside each check.
namespace jarful::tend {
namespace {

using larder::TimingWhat;
using ::testing::HasSubstr;

// USDA, Complete Guide to Home Canning, Guide 6, as copied by Michigan State University Extension:
// at 70 to 75 °F kraut is fully fermented in 3 to 4 weeks, at 60 to 65 °F in 5 to 6.
TEST(PublishedTiming, KrautByTheUsdaGuide) {
    for (const double celsius : {21.0, 21.1, 22.0, 23.0, 23.9, 24.0}) {
        const Outlook found = outlook("kraut", "", celsius);
        ASSERT_TRUE(found.window) << celsius;
        EXPECT_EQ(found.window->days.from, 21) << celsius;
        EXPECT_EQ(found.window->days.to, 28) << celsius;
        EXPECT_FALSE(found.window->estimate()) << celsius;
        EXPECT_THAT(std::string(found.window->row->source), HasSubstr("Guide 6"));
        EXPECT_TRUE(found.warnings.empty()) << celsius;
    }
    for (const double celsius : {16.0, 17.0, 18.0, 18.3}) {
        const Outlook found = outlook("kraut", "", celsius);
        ASSERT_TRUE(found.window) << celsius;
        EXPECT_EQ(found.window->days.from, 35) << celsius;
        EXPECT_EQ(found.window->days.to, 42) << celsius;
        EXPECT_FALSE(found.window->estimate()) << celsius;
    }
}

// The same: below 60 °F it may not ferment, above 75 °F it may soften.
TEST(PublishedTiming, KrautOutsideTheUsdaGuidesTemperatures) {
    for (const double celsius : {4.0, 10.0, 15.0}) {
        const Outlook found = outlook("kraut", "", celsius);
        EXPECT_FALSE(found.window) << celsius;
        ASSERT_FALSE(found.warnings.empty()) << celsius;
        EXPECT_EQ(found.warnings.front()->what, TimingWhat::too_cold);
        EXPECT_THAT(std::string(found.warnings.front()->note), HasSubstr("may not ferment"));
    }
    for (const double celsius : {24.5, 26.0, 30.0}) {
        const Outlook found = outlook("kraut", "", celsius);
        EXPECT_FALSE(found.window) << celsius;
        ASSERT_FALSE(found.warnings.empty()) << celsius;
        EXPECT_EQ(found.warnings.front()->what, TimingWhat::too_warm);
        EXPECT_THAT(std::string(found.warnings.front()->note), HasSubstr("soften"));
    }
}

// Between 65 and 70 °F nothing is published; the days lie between those of the two windows, fall as
// it gets warmer, and are marked as an estimate.
TEST(PublishedTiming, KrautBetweenTheTwoWindowsIsAnEstimate) {
    Days before{35, 42};
    for (double celsius = 18.6; celsius < 20.8; celsius += 0.1) {
        const Outlook found = outlook("kraut", "", celsius);
        ASSERT_TRUE(found.window) << celsius;
        EXPECT_TRUE(found.window->estimate()) << celsius;
        EXPECT_GE(found.window->days.from, 21);
        EXPECT_LE(found.window->days.to, 42);
        EXPECT_LE(found.window->days.from, before.from);
        EXPECT_LE(found.window->days.to, before.to);
        before = found.window->days;
    }
    // Half way, 67.5 °F = 19.7 °C: half way between 21 and 35, and between 28 and 42.
    EXPECT_EQ(outlook("kraut", "", 19.7).window->days.from, 28);
    EXPECT_EQ(outlook("kraut", "", 19.7).window->days.to, 35);
}

// USDA, Guide 6: cucumbers at 70 to 75 °F 3 to 4 weeks, at 55 to 65 °F 5 to 6, above 80 °F soft.
TEST(PublishedTiming, CucumbersByTheUsdaGuide) {
    EXPECT_EQ(outlook("cucumbers", "in-brine", 22.0).window->days.to, 28);
    EXPECT_EQ(outlook("cucumbers", "in-brine", 13.0).window->days.from, 35);
    EXPECT_TRUE(outlook("cucumbers", "in-brine", 27.5).warnings.size() == 1);
    EXPECT_TRUE(outlook("cucumbers", "in-brine", 26.0).warnings.empty());
    EXPECT_FALSE(outlook("cucumbers", "in-brine", 26.0).window);
    // The salt stock of USDA Farmers' Bulletin 1438, 1924: six weeks to two months.
    EXPECT_EQ(outlook("cucumbers", "salt-stock", 22.0).window->days.from, 42);
}

// UC Agriculture and Natural Resources, Master Food Preservers: 2 to 7 weeks to pH 4.6 or below.
TEST(PublishedTiming, AnyFermentIsAtItsPhAfterSevenWeeks) {
    const auto found = outlook("cauliflower", "", 20.0).ph_by;
    ASSERT_TRUE(found);
    EXPECT_EQ(found->day, 49);
    EXPECT_TRUE(found->general);
}

/// Whether a batch whose pH was measured on its 55th day, after the seven weeks, is found too high.
bool found_too_high(const std::string& ph) {
    language::Findings findings;
    auto source = language::read_source("batch.jarful",
                                        "batch \"Kraut\" of \"kraut.jarful\"\n"
                                        "begun 2026-10-01\n"
                                        "kind kraut\n"
                                        "noted 2026-11-25 pH " +
                                            ph + "\n",
                                        findings);
    const auto document = language::parse(std::move(*source), findings);
    const auto record = read_record(document, findings);
    EXPECT_FALSE(findings.has_faults());
    if (!record) return false;
    const Standing there = standing(*record, *read_date("2026-11-26"));
    return std::any_of(there.findings.begin(), there.findings.end(), [](const Finding& finding) {
        return finding.source.find("21 CFR 114.3") != std::string::npos;
    });
}

// 21 CFR 114.3: an acidified food is at pH 4.6 or below.
TEST(PublishedTiming, TheLimitIsThatOfTheFederalCode) {
    EXPECT_FALSE(found_too_high("3.6"));
    EXPECT_FALSE(found_too_high("4.6"));
    EXPECT_TRUE(found_too_high("4.61"));
    EXPECT_TRUE(found_too_high("5.2"));
}

TEST(PublishedTiming, EveryRowHasItsSourceAndEveryKindIsKnown) {
    std::set<std::string_view> ids;
    for (const larder::TimingRow& row : larder::timing_rows()) {
        EXPECT_TRUE(ids.insert(row.id).second) << row.id;
        EXPECT_FALSE(row.source.empty()) << row.id;
        EXPECT_TRUE(row.kind == "any" || larder::find_kind(row.kind) != nullptr) << row.id;
    }
    EXPECT_GE(ids.size(), 70U);
}

// Sources of the United States print whole degrees Fahrenheit and weeks. The larder holds degrees
// Celsius to a tenth, t/°C = (t/°F - 32)/1.8 (NIST SP 811, 2008, Appendix B.8), and days; its note
// keeps what was printed.
TEST(PublishedTiming, DegreesAndDaysAreThoseThatTheNotePrints) {
    const std::regex degrees("^([0-9]+)-([0-9]+) F"), weeks("F, ([0-9]+)-([0-9]+) weeks"),
        side("^(below|above|avoid above) ([0-9]+) F");
    const auto celsius = [](const std::string& fahrenheit) {
        return std::round((std::stod(fahrenheit) - 32) / 1.8 * 10) / 10;
    };
    int degrees_found = 0, weeks_found = 0, sides_found = 0;
    for (const larder::TimingRow& row : larder::timing_rows()) {
        const std::string note(row.note);
        std::smatch m;
        if (std::regex_search(note, m, degrees)) {
            EXPECT_DOUBLE_EQ(row.celsius_low.value(), celsius(m[1])) << row.id;
            EXPECT_DOUBLE_EQ(row.celsius_high.value(), celsius(m[2])) << row.id;
            ++degrees_found;
        }
        if (std::regex_search(note, m, weeks)) {
            EXPECT_EQ(row.days_low, 7 * std::stod(m[1])) << row.id;
            EXPECT_EQ(row.days_high, 7 * std::stod(m[2])) << row.id;
            EXPECT_TRUE(row.rules_days) << row.id;
            ++weeks_found;
        }
        if (std::regex_search(note, m, side)) {
            EXPECT_DOUBLE_EQ((m[1] == "below" ? row.celsius_high : row.celsius_low).value(),
                             celsius(m[2]))
                << row.id;
            ++sides_found;
        }
    }
    EXPECT_EQ(degrees_found, 5);
    EXPECT_EQ(weeks_found, 4);
    EXPECT_EQ(sides_found, 4);
}

// Mustard greens have two windows whose temperatures are our reading of "summer" and "winter": what
// lies between them is not made up.
TEST(PublishedTiming, NothingIsEstimatedBetweenReadTemperatures) {
    EXPECT_FALSE(outlook("mustard-greens", "dry-salted", 22.5).window);
    EXPECT_EQ(outlook("mustard-greens", "dry-salted", 15.0).window->days.to, 4);
}

} // namespace
} // namespace jarful::tend
