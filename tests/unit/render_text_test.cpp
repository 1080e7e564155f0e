#include "engine/plan/warning.hpp"
#include "engine/render/check_report.hpp"
#include "engine/render/page.hpp"
#include "engine/render/ranges_report.hpp"
#include "engine/render/ruler.hpp"
#include "engine/render/text_parts.hpp"
#include "engine/render/text_weigh.hpp"
#include "engine/render/words.hpp"
#include "tests/support/weigh_out_example.hpp"

#include <gmock/gmock.h>

#include <limits>

namespace jarful::render {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

constexpr double infinity = std::numeric_limits<double>::infinity();

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> out(1);
    for (const char c : text) {
        if (c == '\n') {
            out.emplace_back();
        } else {
            out.back() += c;
        }
    }
    return out;
}

void expect_fits(const std::string& text, int width) {
    for (const std::string& line : lines_of(text)) {
        EXPECT_LE(columns(line), width) << line;
        EXPECT_FALSE(line.ends_with(' ')) << line;
    }
}

TEST(Visible, showsWhatWouldMoveTheCursor) {
    EXPECT_EQ(visible("a\x1b[31mb"), "a␛[31mb");
    EXPECT_EQ(visible("a\rb\nc\tdé"), "a␍b␊c dé");
    EXPECT_EQ(visible("\x7f"), "␡");
    EXPECT_EQ(visible("\xc2\x9b"), "<U+009B>");
    EXPECT_EQ(visible("\xe2\x80\xae"), "<U+202E>");
}

TEST(Visible, replacesWhatIsNoUtf8) {
    EXPECT_EQ(visible("a\xff"), "a\xef\xbf\xbd");
    EXPECT_EQ(visible("\xc3"), "\xef\xbf\xbd");
    EXPECT_EQ(visible("\xed\xa0\x80"), "\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd"); // a surrogate
    EXPECT_EQ(visible("\xc0\xaf"), "\xef\xbf\xbd\xef\xbf\xbd");                 // too long a form
}

TEST(Columns, countsWideAndCombiningLetters) {
    EXPECT_EQ(columns("kraut"), 5);
    EXPECT_EQ(columns("é"), 1);
    EXPECT_EQ(columns("e\xcc\x81"), 1);
    EXPECT_EQ(columns("김치"), 4);
}

TEST(Wrap, breaksAtBlanksAndInLongWords) {
    EXPECT_EQ(wrap("one two three", 7), (std::vector<std::string>{"one two", "three"}));
    EXPECT_EQ(wrap("", 7), std::vector<std::string>{""});
    EXPECT_EQ(wrap("abcdefghij k", 4), (std::vector<std::string>{"abcd", "efgh", "ij k"}));
    EXPECT_EQ(wrap("김치김치", 5), (std::vector<std::string>{"김치", "김치"}));
}

TEST(Ruler, marksStandUnderTheirFigures) {
    const Ruler ruler({2, 3, 2.2}, 74);
    const auto bar = ruler.marks();
    const auto figures = ruler.figures();
    EXPECT_EQ(bar, "   |....:....|....:....|....:....|....:....|");
    EXPECT_EQ(figures, "  1.5       2.0       2.5       3.0       3.5 %");
    EXPECT_EQ(ruler.words(2.0, 3.0), "            low                 high");
    EXPECT_EQ(ruler.stretch({2.2, 2.2}), "                 v");
    EXPECT_EQ(ruler.stretch({2.0, 2.5}), "             [=========]");
}

TEST(Ruler, showsWhatGoesOnBeyondIt) {
    const Ruler ruler({2, 3}, 74);
    EXPECT_THAT(ruler.stretch({2.5, infinity}), ::testing::EndsWith("=>"));
    EXPECT_THAT(ruler.stretch({-infinity, 2.5}), HasSubstr("<="));
    EXPECT_EQ(ruler.stretch({std::numeric_limits<double>::quiet_NaN(), 1}), "");
}

TEST(Ruler, fitsAnyRange) {
    for (const double high : {0.1, 1.0, 2.5, 5.0, 12.0, 26.0, 99.0, 1e300}) {
        const Ruler ruler({0.05, high}, 60);
        EXPECT_LE(columns(ruler.figures()), 66) << high;
        EXPECT_LE(ruler.width(), 60) << high;
    }
    EXPECT_FALSE(Ruler({}, 60).marks().empty());
}

TEST(Words, percentsStepOutward) {
    EXPECT_EQ(percents({1.996, 2.004}), "1.99 to 2.01 %");
    EXPECT_EQ(percents({2.2, 2.2}), "2.2 %");
    EXPECT_EQ(percents({2.1999999999999997, 2.2000000000000006}), "2.2 %");
    EXPECT_EQ(percents({2, infinity}), "at least 2 %");
    EXPECT_EQ(percents({-infinity, infinity}), "anything");
}

TEST(Words, gramsBetweenHaveOneDecimalMoreThanTheScale) {
    EXPECT_EQ(reading_between({1838.5, 1841.5}, 1, Units::metric), "1838.5 to 1841.5 g");
    EXPECT_EQ(reading_between({42.75, 43.05}, 0.1, Units::metric), "42.75 to 43.05 g");
    EXPECT_EQ(reading_between({-0.5, 1.5}, 1, Units::metric), "0.0 to 1.5 g");
}

TEST(Words, whoWeighsInOuncesSeesNoGrams) {
    constexpr double oz = units::ounce_g;
    EXPECT_EQ(beside(2 * oz, oz / 10, Units::us), "");
    EXPECT_EQ(beside(2 * oz, oz / 10, Units::metric), "56.7 g");
    EXPECT_EQ(beside(42, 0.1, Units::us), "1.48 oz"); // a scale that reads grams
    EXPECT_EQ(weighed_mass(80 * oz, oz / 2, Units::us), "5 lb 0.0 oz");
    EXPECT_EQ(weighed_mass(1840, 1, Units::metric), "1.84 kg");
    EXPECT_EQ(by_spoon(0.6, Units::us), "1/8 tsp");
    EXPECT_EQ(by_spoon(0.6, Units::metric), "0.6 mL (1/8 tsp)");
}

TEST(Words, aCautionIsSaidInTheMeasuresOfItsReader) {
    const auto us = [](const char* text) { return plan::in_own_measures(text, Units::us); };
    EXPECT_EQ(us("best at 21 to 24 °C (70 to 75 °F); below 16 °C (60 °F) it may not start."),
              "best at 70 to 75 °F; below 60 °F it may not start.");
    EXPECT_EQ(us("Hold everything 25 to 50 mm (1 to 2 in) under."),
              "Hold everything 1 to 2 in under.");
    EXPECT_EQ(us("1.5 kg (3 lb) a jar"), "3 lb a jar");
    for (const char* text :
         {"a pH of 4.6 (or below)", "airlock (see above)", "mm (in)", "", "(", "4 °C (40 °F"})
        EXPECT_EQ(us(text), text);
    const char* both = "at 4 °C (40 °F) or below";
    EXPECT_EQ(plan::in_own_measures(both, Units::metric), both);
    EXPECT_EQ(plan::in_own_measures(both, Units::both), both);
}

TEST(Words, theHeadlineCallsARangeNoMoreThanItIs) {
    plan::SaltJudgement salt;
    salt.verdict = plan::Verdict::inside;
    for (const auto& [row, words] :
         {std::pair("kraut-usbulk", "inside the published range"),
          std::pair("cuke-usda-t", "inside the published range"),
          std::pair("kimchi-codex", "inside the range recalled from memory"),
          std::pair("carrot-cp", "inside the range of common practice, no published figure"),
          std::pair("band-beet-kvass", "inside the range of our own reading"),
          std::pair("mash-lwt-lo", "inside the range that one study tried")}) {
        const larder::RangeRow* found = larder::find_range_row(row);
        ASSERT_NE(found, nullptr) << row;
        salt.low = plan::RangeEnd{2, "a source", std::string(larder::standing(*found)), row};
        salt.high = salt.low;
        EXPECT_EQ(verdict_words(salt), words) << row;
    }
}

TEST(CheckText, theHeadlineSaysWhatBroke) {
    const auto text_of = [](const std::string& hold, double salt) {
        CheckedFile file;
        file.path = "kraut.jarful";
        file.sort = CheckedFile::Sort::recipe;
        file.result.emplace();
        plan::SaltJudgement judged;
        judged.figure = {larder::Basis::of_vegetables, salt, {salt, salt}};
        judged.low = plan::RangeEnd{2, "a standard", "published", "kraut-usbulk"};
        judged.high = plan::RangeEnd{3, "a standard", "published", "kraut-usbulk"};
        judged.verdict = salt > 3 ? plan::Verdict::above : plan::Verdict::inside;
        file.result->salt = judged;
        file.result->verdict = judged.verdict;
        if (!hold.empty()) {
            plan::HoldCheck check;
            check.text = hold;
            check.unit = "g";
            check.value = {130, 130};
            check.at_most = 120;
            check.verdict = plan::Verdict::above;
            file.result->checks.push_back(check);
            file.result->verdict = plan::Verdict::above;
        }
        return check_text_of(file, {});
    };
    const std::string bound = text_of("apple", 2.2);
    EXPECT_THAT(bound, HasSubstr("ABOVE       kraut.jarful: a bound of the house, not the salt\n"));
    EXPECT_LT(bound.find("Above: apple"), bound.find("inside the published range"));
    EXPECT_THAT(text_of("apple", 3.5),
                HasSubstr("kraut.jarful: the salt, and a bound of the house"));
    EXPECT_THAT(text_of("", 3.5), HasSubstr("ABOVE       kraut.jarful\n"));
    EXPECT_THAT(text_of("", 2.2), HasSubstr("inside      kraut.jarful\n"));
}

TEST(Words, massesInTheReadersUnits) {
    EXPECT_EQ(mass(1840, Units::metric), "1.84 kg");
    EXPECT_EQ(mass(1840, Units::us), "4 lb 0.9 oz");
    EXPECT_EQ(mass(1840, Units::both), "1.84 kg (4 lb 0.9 oz)");
}

TEST(Words, aRangeWithoutAPublishedRowSaysSo) {
    plan::SaltJudgement salt;
    salt.verdict = plan::Verdict::inside;
    salt.low = plan::RangeEnd{2.5, "common practice, no published source",
                              "common practice, no published figure", "a"};
    salt.high = salt.low;
    EXPECT_EQ(verdict_words(salt), "inside the range of common practice, no published figure");
    salt.high->status = "published";
    EXPECT_THAT(verdict_words(salt), HasSubstr("low: common practice, no published figure"));
    EXPECT_THAT(verdict_words(salt), HasSubstr("high: published"));
    salt.low->status = "published";
    EXPECT_EQ(verdict_words(salt), "inside the published range");
    salt.verdict = plan::Verdict::below;
    EXPECT_THAT(verdict_words(salt), HasSubstr("a safety matter"));
    salt.verdict = plan::Verdict::above;
    EXPECT_THAT(verdict_words(salt), HasSubstr("a quality matter"));
}

TEST(Words, linesOfTheMethodAreSentences) {
    const auto out = ::jarful::testing::example_weigh_out();
    EXPECT_EQ(sentence(out.method_lines[0], Units::metric),
              "Rub 42.9 g in, in goes of 14.5 g, 14.2 g and 14.2 g.");
    EXPECT_EQ(sentence(out.method_lines[1], Units::metric), "Wait 30 min.");
    EXPECT_EQ(sentence(out.method_lines[2], Units::metric),
              "Burp: let the gas out, every day, from day 1 to day 7.");
    EXPECT_THAT(sentence(out.method_lines[3], Units::metric),
                HasSubstr("Likely ready on day 21 to 28, at 21 to 24 °C."));
    EXPECT_THAT(sentence(out.method_lines[3], Units::us), HasSubstr("at 70 to 75 °F."));
    EXPECT_EQ(sentence(out.method_lines[4], Units::metric), "Keeps cold for 6 months.");
}

TEST(WeighText, saysEverythingInEightyColumns) {
    const std::string text = weigh_text(::jarful::testing::example_weigh_out(), {});
    expect_fits(text, 80);
    EXPECT_THAT(text, HasSubstr("Quay Street winter kraut, version 4\n"));
    EXPECT_THAT(text, HasSubstr("1840   g  cabbage"));
    EXPECT_THAT(text, HasSubstr("42.9 g  salt"));
    EXPECT_THAT(text, HasSubstr("42.75 to 43.05 g"));
    EXPECT_THAT(text, HasSubstr("TOO LITTLE FOR THE SCALE"));
    EXPECT_THAT(text, HasSubstr("mustard (mustard seed): 0.4 g, which is about 0.6 mL (1/8 tsp)."));
    EXPECT_THAT(text, HasSubstr("drained=WEIGHT"));
    EXPECT_THAT(text, HasSubstr("2  bay (bay leaf); the recipe comes to 1.84"));
    EXPECT_THAT(text, HasSubstr("SALT: 2.2 % of the vegetables, inside the published range"));
    EXPECT_THAT(text, HasSubstr("A grade standard, section 1"));
    EXPECT_THAT(text, HasSubstr("1.93 % (worked out)"));
    EXPECT_THAT(text, HasSubstr("Without mustard: 2.17 to 2.23 %, inside."));
    EXPECT_THAT(text, HasSubstr("the house wants 2 % to"));
    EXPECT_THAT(text, HasSubstr("Dissolve 5 g of salt in 250 g of water"));
    EXPECT_THAT(text, HasSubstr("Leave 12 % of the jar free"));
    EXPECT_THAT(text, HasSubstr("  2.  Wait 30 min.\n"));
    EXPECT_THAT(text, HasSubstr("Check the pH. It must be 4.6 or below."));
    EXPECT_THAT(text, HasSubstr("Spoons are taken as US spoons."));
    EXPECT_THAT(text, Not(HasSubstr(" safe")));
    EXPECT_THAT(text, Not(HasSubstr("\x1b")));
    EXPECT_THAT(text.substr(text.rfind("\nNext: ")), HasSubstr("add cabbage until"));
}

TEST(WeighText, colourChangesNothingButTheCodes) {
    const auto out = ::jarful::testing::example_weigh_out();
    std::string coloured = weigh_text(out, {.colour = true});
    EXPECT_THAT(coloured, HasSubstr("\x1b[1m"));
    for (const std::string code : {"\x1b[1m", "\x1b[2m", "\x1b[0m"}) {
        for (std::size_t at = 0; (at = coloured.find(code, at)) != std::string::npos;) {
            coloured.erase(at, code.size());
        }
    }
    EXPECT_EQ(coloured, weigh_text(out, {}));
}

TEST(WeighText, aRecipesControlCharactersDoNotReachTheTerminal) {
    auto out = ::jarful::testing::example_weigh_out();
    const std::string evil = "x\x1b]0;y\x07";
    out.title = evil;
    out.givens[0].name = evil;
    out.givens[0].label = evil;
    out.items[0].material = evil;
    out.items[0].scale = evil;
    out.items[0].portions[0].scale = evil;
    out.counts[0].label = evil;
    out.checks[0].text = evil;
    out.checks[0].why = evil;
    out.method_lines[0].text[0].words = evil;
    out.method_lines[1].text = {out.method_lines[0].text[0]};
    out.sources = {evil};
    out.assumptions = {evil};
    out.kitchen = evil;
    out.left_out = {evil};
    const std::string text = weigh_text(out, {});
    EXPECT_THAT(text, Not(HasSubstr("\x1b")));
    EXPECT_THAT(text, Not(HasSubstr("\x07")));
    expect_fits(text, 80);
}

TEST(WeighText, longNamesWrapInTheirColumn) {
    auto out = ::jarful::testing::example_weigh_out();
    out.givens[0].name = std::string(64, 'n');
    out.givens[0].label = std::string(2000, 'l');
    out.title = std::string(300, 't');
    expect_fits(weigh_text(out, {.units = Units::both}), 80);
}

TEST(WeighText, eachPortionHasItsNumber) {
    auto out = ::jarful::testing::example_weigh_out();
    out.givens[0].reading_g = out.givens[0].exact_g = 8100;
    out.givens[0].portions = {{"bench", 4050}, {"bench", 4050}};
    const std::string text = weigh_text(out, {});
    EXPECT_THAT(text, HasSubstr("4050   g  cabbage, go 1 of 2"));
    EXPECT_THAT(text, HasSubstr("4050   g  cabbage, go 2 of 2"));
    EXPECT_THAT(text, HasSubstr("together 8100 g"));
}

TEST(WeighText, theLastLineFollowsTheVerdict) {
    auto out = ::jarful::testing::example_weigh_out();
    out.salt->verdict = plan::Verdict::below;
    out.salt->reason = "";
    std::string text = weigh_text(out, {});
    EXPECT_THAT(text, HasSubstr("BELOW the published range: a safety matter"));
    EXPECT_THAT(text, HasSubstr("\nNext: do not pack this."));
    out.salt->verdict = plan::Verdict::above;
    EXPECT_THAT(weigh_text(out, {}), HasSubstr("\nNext: lower the salt"));
    out.salt->verdict = plan::Verdict::undecided;
    out.salt->decides = "a scale that reads 0.1 g";
    text = weigh_text(out, {});
    EXPECT_THAT(text, HasSubstr("What would decide it: a scale that reads 0.1 g."));
    EXPECT_THAT(text, HasSubstr("\nNext: settle the salt. A scale that reads 0.1 g."));
}

TEST(WeighText, aSaltThatIsNotJudgedSaysWhy) {
    auto out = ::jarful::testing::example_weigh_out();
    out.salt.reset();
    out.no_salt_reason = "there is no salt in it";
    EXPECT_THAT(weigh_text(out, {}), HasSubstr("SALT: not judged\n  there is no salt in it."));
}

TEST(WeighText, usUnitsStandBesideTheScalesGrams) {
    const std::string text =
        weigh_text(::jarful::testing::example_weigh_out(), {.units = Units::us});
    EXPECT_THAT(text, HasSubstr("1840   g  cabbage"));
    EXPECT_THAT(text, HasSubstr("4 lb 0.9 oz; white cabbage"));
    EXPECT_THAT(text, HasSubstr("Rub 42.9 g (1.51 oz) in"));
    expect_fits(text, 80);
}

TEST(WeighText, aScaleOfOuncesIsReadAsItShows) {
    auto out = ::jarful::testing::example_weigh_out();
    const double ounce = 28.349523125;
    out.givens[0].step_g = ounce / 2;
    out.givens[0].reading_g = out.givens[0].exact_g = 80 * ounce;
    out.givens[0].truth = {80 * ounce - 21, 80 * ounce + 21};
    out.givens[0].portions = {{"big", 80 * ounce}};
    for (const Units units : {Units::metric, Units::us, Units::both}) {
        const std::string text = weigh_text(out, {.units = units});
        EXPECT_THAT(text, HasSubstr("5 lb 0.0 oz  cabbage"));
        const bool grams = !(units == Units::us);
        EXPECT_EQ(text.find("2268 g; white cabbage") != std::string::npos, grams);
        EXPECT_EQ(text.find("2246.9 to 2289.0 g") != std::string::npos, grams);
        EXPECT_EQ(text.find("4 lb 15.0 oz to") != std::string::npos, !grams);
        EXPECT_THAT(text, HasSubstr("until it shows 5 lb\n      0.0 oz.\n"));
        EXPECT_THAT(text, Not(HasSubstr("961")));
        expect_fits(text, 80);
    }
}

TEST(WeighText, whatWasPouredIsMended) {
    auto out = ::jarful::testing::example_weigh_out();
    out.items[0].poured = true;
    out.verdict = out.salt->verdict = plan::Verdict::above;
    EXPECT_THAT(weigh_text(out, {}), HasSubstr("Next: do not pack this. Ask `jarful mend` with"));
    out.salt->verdict = plan::Verdict::inside;
    ASSERT_FALSE(out.checks.empty());
    out.checks[0].verdict = plan::Verdict::below;
    EXPECT_THAT(weigh_text(out, {}), HasSubstr("Ask `jarful mend` with the same words"));
    out.checks[0].verdict = plan::Verdict::inside;
    EXPECT_THAT(weigh_text(out, {}), Not(HasSubstr("mend")));
}

TEST(Words, noRangeIsNoRangeToBeAgainst) {
    plan::SaltJudgement salt;
    salt.verdict = plan::Verdict::undecided;
    EXPECT_EQ(verdict_words(salt), "UNDECIDED: there is no range for it");
    salt.figure.percent = 2.2;
    salt.figure.bounds = units::Interval(2.2);
    EXPECT_THAT(salt_in_short(salt), HasSubstr("of the vegetables; UNDECIDED: there is no range"));
}

TEST(WeighText, aBrineIsMixedFirst) {
    auto out = ::jarful::testing::example_weigh_out();
    plan::Stock stock;
    stock.name = "strong";
    stock.strength_percent = 5;
    stock.made_g = 2000;
    stock.made_ml = 1950;
    stock.poured_g = 700;
    stock.left_g = 1300;
    stock.water = ::jarful::testing::example_item("water", "water", 1905, 1, "bench");
    stock.salt = ::jarful::testing::example_item("salt", "canning salt", 95, 0.1, "pocket");
    out.stocks = {stock};
    std::string text = weigh_text(out, {});
    EXPECT_LT(text.find("MIX FIRST: strong, 5 % salt of the water"), text.find("WEIGH,"));
    EXPECT_THAT(text, HasSubstr("700 g of it goes in the jar, 1.3 kg is left"));
    EXPECT_THAT(text, HasSubstr("\nNext: put the bowl on bench, zero it, add "));
    out.stocks[0].left_g = -200;
    EXPECT_THAT(weigh_text(out, {}), HasSubstr("MORE than is made"));
}

TEST(WeighText, anEmptyWeighOutIsNoCrash) {
    expect_fits(weigh_text(plan::WeighOut{}, {}), 80);
}

TEST(RangesText, listsEveryKindAndFits) {
    const std::string text = ranges_text(nullptr, TextStyle{});
    expect_fits(text, 80);
    for (const larder::Kind& kind : larder::kinds()) {
        EXPECT_THAT(text, HasSubstr("\n" + std::string(kind.name)));
    }
    EXPECT_THAT(text, HasSubstr("common practice, no published figure"));
    EXPECT_THAT(text, Not(HasSubstr(" safe ")));
}

TEST(RangesText, everyKindAtLengthHasAllItsRows) {
    for (const larder::Kind& kind : larder::kinds()) {
        const std::string text = ranges_text(kind, TextStyle{});
        expect_fits(text, 80);
        EXPECT_THAT(text, HasSubstr(std::string(kind.title)));
        EXPECT_THAT(text, HasSubstr("\nNext: "));
    }
}

} // namespace
} // namespace jarful::render
