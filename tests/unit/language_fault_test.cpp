#include "tests/unit/language_support.hpp"

#include <algorithm>

/// Faults of a whole file, several in one pass, each in its place; and the words of the language.
namespace jarful::language::testing {

namespace {

struct Expected {
    std::string code;
    std::uint32_t line, column;
};

void expect_faults(const Parsed& p, const std::vector<Expected>& expected) {
    std::string all;
    ASSERT_EQ(p.findings.all().size(), expected.size()) << codes(p.findings);
    for (std::size_t i = 0; i < expected.size(); ++i) {
        const Diagnostic& d = p.findings.all()[i];
        EXPECT_EQ(d.code, expected[i].code);
        ASSERT_TRUE(d.place) << d.code;
        const LineColumn where = p.document.source.locate(d.place->begin);
        EXPECT_EQ(where.line, expected[i].line) << d.code;
        EXPECT_EQ(where.column, expected[i].column) << d.code;
        EXPECT_FALSE(d.message.empty());
        EXPECT_EQ(d.message.back(), '.') << d.message;
    }
}

} // namespace

TEST(LanguageFaults, AreAllReportedInOnePass) {
    const Parsed p = parse_bytes("recipe \"Quay Street\" version x\n"
                                 "kind\n"
                                 "given  cabbage = 1,80 kg\n"
                                 "wiegh  carrot = 6 % of cabbage\n"
                                 "weigh  salt = 2.2 % of cabbage + carrot as fine sea salt\n"
                                 "weigh  crème = 3 grms\n"
                                 "let    good = 3 g\n"
                                 "weigh  caraway = (1.5 g per kg\n"
                                 "hold   salt / cabbage between 2 and 2.5 %\n"
                                 "step   \"Rub {salt into\n"
                                 "  \"the cabbage.\"\n"
                                 "tend   brup every 1 day\n"
                                 "ready  day one\n");
    expect_faults(p, {{"expected-whole", 1, 30},
                      {"expected-kind", 2, 5},
                      {"decimal-comma", 3, 18},
                      {"unknown-statement", 4, 1},
                      {"ambiguous-of", 5, 15},
                      {"unknown-unit", 6, 18},
                      {"expected-close", 8, 31},
                      {"ambiguous-between", 9, 31},
                      {"open-text", 10, 8},
                      {"unknown-task", 12, 8},
                      {"expected-whole", 13, 12}});
    ASSERT_EQ(p.document.lines.size(), 1U);
    EXPECT_EQ(std::get<Quantity>(p.document.lines[0].statement).name.value, "good");
    EXPECT_EQ(p.document.expressions.nodes.size(), 1U);
    EXPECT_EQ(p.document.kind, FileKind::recipe);
}

TEST(LanguageFaults, LeaveNothingBehindForTheNextLine) {
    const Parsed p = parse_bytes("recipe \"A\"\n"
                                 "weigh a = 3 g optional as sea salt counts as nothing \"x\"\n"
                                 "weigh b = 4 g\n"
                                 "measure c about 1..2 g replaces d (\n"
                                 "weigh e = ((((3 g\n"
                                 "count f = 5\n");
    EXPECT_EQ(codes(p.findings), "unknown-role left-over expected-close");
    ASSERT_EQ(p.document.lines.size(), 3U);
    for (std::size_t i = 1; i < 3; ++i) {
        const auto& q = std::get<Quantity>(p.document.lines[i].statement);
        EXPECT_FALSE(q.tail.optional || q.tail.material || q.tail.role || q.tail.label);
        EXPECT_FALSE(q.about || q.replaces || q.each_jar);
    }
    EXPECT_EQ(p.document.expressions.nodes.size(), 2U);
    EXPECT_EQ(p.document.expressions.amounts.size(), 2U);
}

TEST(LanguageFaults, OfTheHeader) {
    EXPECT_EQ(codes(parse_bytes("").findings), "missing-header");
    EXPECT_EQ(codes(parse_bytes("# only a remark\n\n").findings), "missing-header");
    EXPECT_EQ(codes(parse_bytes("let a = 3\n").findings), "missing-header");
    EXPECT_EQ(codes(parse_bytes("let a = 3\nrecipe \"A\"\n").findings), "");
    EXPECT_EQ(codes(parse_bytes("recipe A\n").findings), "expected-text");
    const Parsed twice = parse_bytes("recipe \"A\"\nnote \"x\"\nrecipe \"B\"\nkitchen \"C\"\n");
    EXPECT_EQ(codes(twice.findings), "second-header second-header");
    EXPECT_EQ(twice.findings.all()[0].related.at(0).place, (Place{0, 6}));
}

TEST(LanguageFaults, OfStatementsInTheWrongSortOfFile) {
    expect_faults(parse_line("scale b reads 1 g up to 5 kg"), {{"wrong-file", 2, 1}});
    for (const char* word : {"jar x", "crock x", "spoons us", "room 19 °C"})
        EXPECT_EQ(codes(parse_line(word).findings), "wrong-file") << word;
    for (const char* word : {"kind",  "by",      "source", "given", "total",     "share", "weigh",
                             "count", "measure", "brine",  "fill",  "headspace", "topup", "cap",
                             "hold",  "step",    "rest",   "tend",  "ready",     "keep"})
        EXPECT_EQ(codes(parse_kitchen_line(word).findings), "wrong-file") << word;
}

TEST(LanguageFaults, OfTheLanguageLine) {
    EXPECT_EQ(codes(parse_bytes("# x\n\nlanguage 1\nrecipe \"A\"\n").findings), "");
    EXPECT_EQ(codes(parse_bytes("language 2\nrecipe \"A\"\n").findings), "language-version");
    EXPECT_EQ(codes(parse_bytes("language 0\nrecipe \"A\"\n").findings), "language-version");
    EXPECT_EQ(codes(parse_bytes("recipe \"A\"\nlanguage 1\n").findings), "language-place");
}

TEST(LanguageFaults, OfMergesLeftSideBySide) {
    const Parsed p = parse_bytes("recipe \"A\"\n<<<<<<< mine\nlet a = 3\n=======\nlet a = 4\n"
                                 ">>>>>>> theirs\nlet b = \n");
    // What else looks wrong comes of the two versions, and is not said.
    EXPECT_EQ(codes(p.findings), "merge-conflict");
    EXPECT_EQ(p.findings.all()[0].related.size(), 2U);
    EXPECT_TRUE(p.document.lines.empty());
    EXPECT_EQ(codes(parse_bytes("<<<<<<< mine\nrecipe \"A\"\n=======\nrecipe \"B\"\nlet = 3\n"
                                ">>>>>>> theirs\nwiegh salt = 3 g\n")
                        .findings),
              "merge-conflict");
}

TEST(LanguageFaults, OfFirstWords) {
    EXPECT_EQ(codes(parse_line("cabbage = 3 kg").findings), "missing-word");
    EXPECT_EQ(codes(parse_line("wombles 3").findings), "unknown-statement");
    EXPECT_EQ(codes(parse_line("Weigh a = 3 g").findings), "unknown-statement");
    EXPECT_EQ(parse_line("Weigh a = 3 g").findings.all()[0].advice, "Did you mean \"weigh\"?");
    EXPECT_EQ(codes(parse_line("- 3 kg").findings), "unknown-statement");
    EXPECT_EQ(codes(parse_line("3 kg cabbage").findings), "unknown-statement");
    EXPECT_EQ(codes(parse_bytes("\"hello\"\nrecipe \"A\"\n").findings), "stray-text");
}

TEST(LanguageFaults, OfNames) {
    EXPECT_EQ(codes(parse_line("let salt water = 3").findings), "bad-name");
    EXPECT_EQ(codes(parse_line("let savoy-cabbage = 3").findings), "bad-name");
    EXPECT_EQ(codes(parse_line("let 2nd = 3").findings), "bad-name");
    EXPECT_EQ(codes(parse_line("let _x = 3").findings), "bad-name");
    EXPECT_EQ(codes(parse_line("let = 3").findings), "expected-name");
    EXPECT_EQ(codes(parse_line("let a 3").findings), "expected-equals");
    for (const std::size_t n : {64U, 65U}) {
        const std::string name = repeated("é", n);
        EXPECT_EQ(codes(parse_line("let " + name + " = 3").findings),
                  n == 64 ? "" : "name-too-long");
        EXPECT_EQ(codes(parse_line("let a = " + name).findings), n == 64 ? "" : "name-too-long");
        EXPECT_EQ(codes(parse_line("kind " + name).findings), n == 64 ? "" : "name-too-long");
    }
    EXPECT_EQ(codes(parse_line("weigh a = 1 g as " + repeated("ab ", 60)).findings),
              "name-too-long");
}

TEST(LanguageFaults, OfTextsThatAreTooLong) {
    for (const char* word : {"note", "step"}) {
        const std::string text = std::string(word) + " \"" + repeated("é", 1999);
        EXPECT_EQ(codes(parse_line(text + "x\"").findings), "") << word;
        EXPECT_EQ(codes(parse_line(text + "xy\"").findings), "text-too-long") << word;
        EXPECT_EQ(codes(parse_line(text + "\"\n\"\"").findings), "") << word;
        EXPECT_EQ(codes(parse_line(text + "\"\n\"y\"").findings), "text-too-long") << word;
    }
}

TEST(LanguageFaults, OfFilesWithTooManyStatements) {
    const std::string most = "recipe \"A\"\n" + repeated("let a = 1\n", 9'999);
    EXPECT_EQ(codes(parse_bytes(most).findings), "");
    EXPECT_EQ(codes(parse_bytes(most + "let a = 1\nlet =\n").findings), "too-many-statements");
}

TEST(LanguageWords, OfTheLanguageCannotBeNames) {
    for (const std::string_view word : reserved_words()) {
        EXPECT_TRUE(is_reserved(word)) << word;
        EXPECT_EQ(codes(parse_line("let " + std::string(word) + " = 3").findings), "reserved-name")
            << word;
    }
    for (const char* unit : {"kg", "g", "tsp", "day", "us", "metric", "imperial", "litre", "in"})
        EXPECT_EQ(codes(parse_line("let " + std::string(unit) + " = 3").findings), "reserved-name")
            << unit;
    const auto words = reserved_words();
    EXPECT_TRUE(std::is_sorted(words.begin(), words.end()));
    for (const char* name : {"salt", "water", "vegetable", "cold", "burp", "Weigh", "keeps_2"})
        EXPECT_FALSE(is_reserved(name)) << name;
}

} // namespace jarful::language::testing
