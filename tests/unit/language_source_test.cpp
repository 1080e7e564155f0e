#include "engine/language/explain.hpp"
#include "tests/unit/language_support.hpp"

#include <gmock/gmock.h>

/// Bytes to a source, places to lines and columns, and how a diagnostic is shown.
namespace jarful::language::testing {

TEST(LanguageSource, CountsLinesAndColumnsInCharacters) {
    const Source source("x", "ab\n\xC3\xA9"
                             "c\n\nlast");
    EXPECT_EQ(source.locate(0).line, 1U);
    EXPECT_EQ(source.locate(1).column, 2U);
    EXPECT_EQ(source.locate(5).line, 2U);
    EXPECT_EQ(source.locate(5).column, 2U); // behind é, which has two bytes
    EXPECT_EQ(source.locate(7).line, 3U);
    EXPECT_EQ(source.locate(8).line, 4U);
    EXPECT_EQ(source.locate(4000).line, 4U);
    EXPECT_EQ(source.locate(4000).column, 5U);
    EXPECT_EQ(source.line(2), "\xC3\xA9"
                              "c");
    EXPECT_EQ(source.line(3), "");
    EXPECT_EQ(source.line(4), "last");
    EXPECT_EQ(source.line(0), "");
    EXPECT_EQ(source.line(5), "");
    EXPECT_EQ(source.at({0, 2}), "ab");
    EXPECT_EQ(source.at({8, 4000}), "last");
    EXPECT_EQ(source.at({4000, 5000}), "");
    EXPECT_EQ(source.at({3, 1}), "");
}

TEST(LanguageSource, AnEmptySourceHasOneEmptyLine) {
    const Source source("x", "");
    EXPECT_EQ(source.locate(0).line, 1U);
    EXPECT_EQ(source.locate(7).column, 1U);
    EXPECT_EQ(source.line(1), "");
}

TEST(LanguageSource, TakesAwayTheByteOrderMarkAndCarriageReturns) {
    Findings findings;
    const auto source = read_source("x", "\xEF\xBB\xBFrecipe \"A\"\r\nnote \"b\"\r\n", findings);
    ASSERT_TRUE(source);
    EXPECT_TRUE(findings.empty());
    EXPECT_EQ(source->text(), "recipe \"A\"\nnote \"b\"\n");
    const Parsed p = parse_bytes("\xEF\xBB\xBFrecipe \"A\"\r\nnote \"b\" oops\r\n");
    ASSERT_EQ(codes(p.findings), "left-over");
    const LineColumn where = p.document.source.locate(p.findings.all()[0].place->begin);
    EXPECT_EQ(where.line, 2U);
    EXPECT_EQ(where.column, 10U);
}

TEST(LanguageSource, AcceptsAMebibyteAndNoMore) {
    std::string text = "recipe \"A\"\n";
    text.append(limits::file_bytes - text.size(), '#');
    EXPECT_EQ(codes(parse_bytes(text).findings), "");
    text += '#';
    Findings findings;
    EXPECT_FALSE(read_source("x", text, findings));
    EXPECT_EQ(codes(findings), "file-too-large");
    EXPECT_FALSE(findings.all()[0].place);
}

TEST(LanguageSource, ReportsCharactersThatDoNotBelongInAText) {
    const Parsed bad = parse_bytes("recipe \"A\"\nnote \"\xFF\xFE x\"\n");
    ASSERT_EQ(codes(bad.findings), "not-utf8");
    EXPECT_EQ(*bad.findings.all()[0].place, (Place{17, 19}));
    EXPECT_EQ(bad.document.lines.size(), 2U);
    EXPECT_EQ(codes(parse_bytes("recipe \"A\"\nnote \"\xED\xA0\x80\"").findings), "not-utf8");
    EXPECT_EQ(codes(parse_bytes("recipe \"A\"\nnote \"\xC0\xAF\"").findings), "not-utf8");
    EXPECT_EQ(codes(parse_bytes("recipe \"A\"\nnote \"cut\xE2\x80").findings),
              "open-text not-utf8");
    EXPECT_EQ(codes(parse_bytes("recipe \"A\"\nnote\x01 \"x\"").findings), "control-character");
    EXPECT_EQ(codes(parse_bytes("recipe \"A\"\nnote \"x\x7F\"").findings), "control-character");
    EXPECT_EQ(codes(parse_bytes("recipe \"A\"\rnote \"x\"\n").findings),
              "control-character left-over");
    EXPECT_EQ(codes(parse_bytes(std::string("recipe \"A\"\nnote \"x\0\"", 20)).findings),
              "control-character");
    EXPECT_EQ(codes(parse_bytes("recipe\t\"A\"\n").findings), "");
}

TEST(LanguageSource, ReportsEveryCharacterThatTurnsTheDirectionOfWriting) {
    for (const char* c : {"\xE2\x80\xAA", "\xE2\x80\xAB", "\xE2\x80\xAC", "\xE2\x80\xAD",
                          "\xE2\x80\xAE", "\xE2\x81\xA6", "\xE2\x81\xA7", "\xE2\x81\xA8",
                          "\xE2\x81\xA9", "\xE2\x80\x8E", "\xE2\x80\x8F", "\xD8\x9C"}) {
        EXPECT_EQ(codes(parse_bytes("recipe \"A\"\nnote \"" + std::string(c) + "\"").findings),
                  "hidden-direction");
        EXPECT_EQ(codes(parse_bytes("recipe \"A\"\nnote " + std::string(c) + "\"x\"").findings),
                  "hidden-direction");
    }
    const Parsed two = parse_bytes("recipe \"A\xE2\x80\xAE\"\nnote \"\xE2\x81\xA6\"\n");
    EXPECT_EQ(codes(two.findings), "hidden-direction hidden-direction");
}

TEST(LanguageSource, SaysOnceWhenAFileIsFullOfThem) {
    const Parsed p = parse_bytes("recipe \"A\"\nnote \"" + repeated("\x01", 5000) + "\"\n");
    EXPECT_EQ(p.findings.all().size(), 22U); // twenty places, a sum, and the text that is too long
    EXPECT_EQ(p.findings.all().front().code, "bad-characters");
}

TEST(LanguageNames, AreComparedInNormalFormC) {
    EXPECT_EQ(normalise_name("cabbage"), "cabbage");
    EXPECT_EQ(normalise_name("cre\xCC\x80me"), "cr\xC3\xA8me"); // e + grave accent
    EXPECT_EQ(normalise_name("капуста"), "капуста");
    EXPECT_EQ(normalise_name("白菜"), "白菜");
    EXPECT_EQ(normalise_name("salt_2"), "salt_2");
    for (const char* bad :
         {"", "2salt", "_a", "a-b", "a b", "a.b", "½", "°", "\xFF", "a\xFF", "a/b"})
        EXPECT_FALSE(normalise_name(bad)) << bad;
    EXPECT_TRUE(normalise_name(repeated("é", 64)));
    EXPECT_FALSE(normalise_name(repeated("é", 65)));
    const Parsed p = parse_line("let cre\xCC\x80me = cr\xC3\xA8me + 1");
    const auto& let = second<Quantity>(p);
    EXPECT_EQ(let.name.value, "cr\xC3\xA8me");
    EXPECT_EQ(p.document.expressions.names.at(0), let.name.value);
}

TEST(LanguageFindings, KeepWholeFileFindingsFirstAndThenThePlaces) {
    Findings f;
    f.fault("c", Place{9, 10}, "m");
    f.remark("b", Place{2, 3}, "m");
    f.fault("a", std::nullopt, "m");
    f.fault("d", Place{9, 11}, "m");
    f.sort();
    EXPECT_EQ(codes(f), "a b c d");
    EXPECT_TRUE(f.has_faults());
    Findings remarks;
    remarks.remark("b", Place{2, 3}, "m");
    EXPECT_FALSE(remarks.has_faults());
    EXPECT_FALSE(remarks.empty());
}

TEST(LanguageExplain, QuotesTheLineAndUnderlinesThePlace) {
    const Source source("winter-kraut.jarful", "recipe \"A\"\nweigh\tsalt = 2.2 % of cabage\n");
    Diagnostic d{"unknown-name",
                 Severity::fault,
                 Place{33, 39},
                 "There is nothing called \"cabage\" in this recipe.",
                 "Did you mean \"cabbage\"?",
                 {}};
    EXPECT_EQ(explain(source, d),
              "In winter-kraut.jarful, line 2: there is nothing called \"cabage\" in this recipe.\n"
              "\n"
              "    weigh salt = 2.2 % of cabage\n"
              "                          ‾‾‾‾‾‾\n"
              "Did you mean \"cabbage\"?    [unknown-name]\n");
    d.place.reset();
    d.advice.clear();
    EXPECT_EQ(explain(source, d), "In winter-kraut.jarful: there is nothing called \"cabage\" in "
                                  "this recipe.\n[unknown-name]\n");
}

TEST(LanguageExplain, ShortensLongLinesAroundThePlace) {
    const std::string text = repeated("a + ", 60) + "HERE" + repeated(" + b", 60);
    const Source source("x", text);
    const std::string all =
        explain(source, {"c", Severity::fault, Place{240, 244}, "Message.", "Advice.", {}});
    EXPECT_THAT(all, ::testing::HasSubstr("HERE"));
    EXPECT_THAT(all, ::testing::HasSubstr("    …"));
    std::size_t begin = 0;
    std::size_t marks = 0;
    for (std::size_t end = all.find('\n'); end != std::string::npos; end = all.find('\n', begin)) {
        std::size_t columns = 0;
        for (std::size_t i = begin; i < end; ++i)
            columns += (static_cast<unsigned char>(all[i]) & 0xC0U) != 0x80U ? 1U : 0U;
        EXPECT_LE(columns, 80U);
        begin = end + 1;
    }
    for (std::size_t at = all.find("‾"); at != std::string::npos; at = all.find("‾", at + 1))
        ++marks;
    EXPECT_EQ(marks, 4U);
}

TEST(LanguageExplain, MeasuresWideCharactersAndShowsHiddenOnes) {
    const std::string text = "note 白菜 \x01 oops";
    const Source source("x", text);
    const auto at = static_cast<std::uint32_t>(text.find("oops"));
    EXPECT_THAT(explain(source, {"c", Severity::fault, Place{at, at + 4}, "M.", "", {}}),
                ::testing::HasSubstr("    note 白菜 <U+0001> oops\n"
                                     "                       ‾‾‾‾\n"));
}

TEST(Explain, OfALongListTwentyArePrintedAndThenHowManyMore) {
    const Source source("beds.jarful", "one\ntwo\n");
    const auto list = [](std::size_t count) {
        return std::vector<Diagnostic>(
            count, {"some-code", Severity::fault, Place{0, 3}, "Message.", "Advice.", {}});
    };
    const auto codes = [](const std::string& text) {
        std::size_t found = 0;
        for (std::size_t at = text.find("[some-code]"); at != std::string::npos;
             at = text.find("[some-code]", at + 1))
            ++found;
        return found;
    };
    EXPECT_EQ(explain_all(source, {}), "");
    const std::vector<Diagnostic> one = list(1);
    EXPECT_EQ(explain_all(source, one), explain(source, one[0]) + "\n");
    EXPECT_EQ(codes(explain_all(source, list(20))), 20u);
    EXPECT_EQ(explain_all(source, list(20)).find("more"), std::string::npos);
    const std::string much = explain_all(source, list(57));
    EXPECT_EQ(codes(much), 20u);
    EXPECT_THAT(much, ::testing::HasSubstr("In beds.jarful there are 37 more like these."));
    EXPECT_THAT(explain_all(source, list(21)), ::testing::HasSubstr("there is 1 more like these."));
}

TEST(LanguageExplain, AddsColourWithoutChangingTheText) {
    const Source source("x", "weigh salt");
    const Diagnostic d{"c",          Severity::fault, Place{6, 10},
                       "A message.", "Advice.",       {{Place{0, 5}, "the line begins here"}}};
    const std::string plain = explain(source, d);
    std::string coloured = explain(source, d, {.colour = true});
    EXPECT_NE(plain, coloured);
    for (std::size_t at = coloured.find('\x1b'); at != std::string::npos;
         at = coloured.find('\x1b'))
        coloured.erase(at, coloured.find('m', at) - at + 1);
    EXPECT_EQ(plain, coloured);
    EXPECT_THAT(plain, ::testing::HasSubstr("And in this line, the line begins here:\n"));
}

TEST(LanguageExplain, UnderlinesOneBlankBehindTheEndOfALine) {
    const Source source("x", "let a = 3 *\nlet b = 2");
    EXPECT_THAT(explain(source, {"c", Severity::fault, Place{11, 11}, "M.", "", {}}),
                ::testing::HasSubstr("    let a = 3 *\n               ‾\n"));
    EXPECT_THAT(explain(source, {"c", Severity::fault, Place{900, 901}, "M.", "", {}}),
                ::testing::HasSubstr("    let b = 2\n             ‾\n"));
}

TEST(LanguageExplain, LetsNoControlCharacterOfAFileNameThrough) {
    const Source source("a\x1b[31m\nb", "x");
    EXPECT_THAT(explain(source, {"c", Severity::fault, std::nullopt, "M.", "", {}}),
                ::testing::StartsWith("In a<U+001B>[31m?b: "));
    EXPECT_THAT(explain(Source("-", ""), {"c", Severity::fault, std::nullopt, "M.", "", {}}),
                ::testing::StartsWith("In standard input: "));
}

} // namespace jarful::language::testing
