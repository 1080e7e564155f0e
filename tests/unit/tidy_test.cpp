#include "engine/language/tidy.hpp"
#include "engine/render/tidy_report.hpp"
#include "engine/render/unified_diff.hpp"
#include "tests/support/schema.hpp"
#include "tests/unit/language_support.hpp"

#include <filesystem>
#include <fstream>
#include <sstream>

namespace jarful::language::testing {

namespace {

/// The tidy form of a text; the codes of its faults if it has none. Checks what has to hold of
/// every tidy form.
std::string tidied(const std::string& text) {
    Findings findings;
    auto source = read_source("test.jarful", text, findings);
    const auto out = tidy(*source, findings);
    if (!out) return codes(findings);
    const Parsed before = parse_bytes(text);
    const Parsed after = parse_bytes(*out);
    EXPECT_EQ(codes(after.findings), "") << *out;
    EXPECT_TRUE(same_meaning(before.document, after.document)) << *out;
    Findings again;
    EXPECT_EQ(tidy(Source("test.jarful", *out), again).value_or(codes(again)), *out);
    return *out;
}

/// The tidy form of one expression.
std::string expression(const std::string& text) {
    const std::string head = "recipe \"A\"\nlet    x = ";
    const std::string out = tidied(head + text + "\n");
    return out.starts_with(head) ? out.substr(head.size(), out.size() - head.size() - 1) : out;
}

std::string line(const std::string& text) {
    const std::string out = tidied("recipe \"A\"\n\n" + text + "\n");
    const std::string head = "recipe \"A\"\n\n";
    return out.starts_with(head) ? out.substr(head.size()) : out;
}

} // namespace

TEST(Tidy, GivesOperatorsAndUnitsOneSpelling) {
    EXPECT_EQ(expression("1.80kg"), "1.80 kg");
    EXPECT_EQ(expression("2  lb 3ounces"), "2 lb 3 oz");
    EXPECT_EQ(expression("3 us   teaspoons"), "3 us tsp");
    EXPECT_EQ(expression("0.9 kilograms/litre"), "0.9 kg/L");
    EXPECT_EQ(expression("1  1/2 teaspoons"), "1 1/2 tsp");
    EXPECT_EQ(expression("1½tsp"), "1½ tsp");
    EXPECT_EQ(expression("2 .. 3 tablespoons"), "2..3 tbsp");
    EXPECT_EQ(expression("1.80 kg +/- 5grams"), "1.80 kg ± 5 g");
    EXPECT_EQ(expression("1 days"), "1 day");
    EXPECT_EQ(expression("2 day"), "2 days");
    EXPECT_EQ(expression("1..2 week"), "1..2 weeks");
    EXPECT_EQ(expression("5 cm^2"), "5 cm^2");
    EXPECT_EQ(expression("19°C"), "19 °C");
}

TEST(Tidy, PrintsTheFormThatCannotBeMisread) {
    EXPECT_EQ(expression("a/0.9 kg/L"), "a / (0.9 kg/L)");
    EXPECT_EQ(expression("a / b * c"), "(a / b) * c");
    EXPECT_EQ(expression("a / b / c"), "(a / b) / c");
    EXPECT_EQ(expression("a / kg * c"), "a / kg * c");
    EXPECT_EQ(expression("a * b / c"), "a * b / c");
    EXPECT_EQ(expression("a / b per c"), "a / (b per c)");
    EXPECT_EQ(expression("-a^2"), "-(a^2)");
    EXPECT_EQ(expression("2 * -a"), "2 * (-a)");
    EXPECT_EQ(expression("2 * 1.80 kg ± 5 g"), "2 * (1.80 kg ± 5 g)");
    EXPECT_EQ(expression("2.2 % ± 0.1 % of a"), "(2.2 % ± 0.1 %) of a");
    EXPECT_EQ(expression("a / 2 lb 3 oz"), "a / (2 lb 3 oz)");
    EXPECT_EQ(expression("a / (1/2)"), "a / (1/2)");
    EXPECT_EQ(expression("if a < b and c < d or not a < b then 1 else 2"),
              "if (a < b and c < d) or (not (a < b)) then 1 else 2");
    EXPECT_EQ(expression("a^-2"), "a^-2");
    EXPECT_EQ(expression("a ^ (b+1)"), "a^(b + 1)");
    EXPECT_EQ(expression("(5 cm)^2"), "(5 cm)^2");
}

TEST(Tidy, DropsParenthesesThatSayNothing) {
    EXPECT_EQ(expression("(a)"), "a");
    EXPECT_EQ(expression("(a+b)"), "a + b");
    EXPECT_EQ(expression("((a + b)) * (c)"), "(a + b) * c");
    EXPECT_EQ(expression("min((a + b),(c))"), "min(a + b, c)");
    EXPECT_EQ(expression("(2.2 % of a) + b"), "(2.2 % of a) + b");
    EXPECT_EQ(expression("1.5 g per kg of a"), "1.5 g per kg of a");
    EXPECT_EQ(line("hold (a+b) between (1 g) and (c+d) \"x\""),
              "hold   (a + b) between 1 g and (c + d)   \"x\"\n");
    EXPECT_EQ(line("step \"Rub {(salt)/3} in, {{so}}.\""),
              "step   \"Rub {salt / 3} in, {{so}}.\"\n");
}

TEST(Tidy, AlignsNeighboursAndKeepsRemarks) {
    EXPECT_EQ(tidied("\n\n  # Ours.\nrecipe   \"A\"   version 2 # so far\n\n\n\n"
                     "given cabbage=1.80kg \"cored\"  # by hand\n"
                     "# Its salt.\n"
                     "weigh salt = 2.2 % of cabbage as  fine   sea salt # fine\n"
                     "measure dry about 700 g..800 g replaces cabbage\n"
                     "fill cabbage/0.9 kg/L\nheadspace 12%\n\n"),
              "# Ours.\n"
              "recipe \"A\" version 2   # so far\n"
              "\n"
              "given  cabbage = 1.80 kg            \"cored\"            # by hand\n"
              "# Its salt.\n"
              "weigh  salt    = 2.2 % of cabbage   as fine sea salt   # fine\n"
              "measure dry    about 700 g..800 g replaces cabbage\n"
              "fill   cabbage / (0.9 kg/L)\n"
              "headspace 12 %\n");
}

TEST(Tidy, KeepsTheLinesOfTexts) {
    EXPECT_EQ(line("hold a at most 3 g \"one\" # first\n\"two\" # second"),
              "hold   a at most 3 g   \"one\"   # first\n"
              "                       \"two\"   # second\n");
    EXPECT_EQ(line("note \"one # no remark\"\n  \"two\""), "note   \"one # no remark\"\n"
                                                           "       \"two\"\n");
    EXPECT_EQ(line("weigh a = 3 g as water\n\"label\"\n\"more\""), "weigh  a = 3 g   as water\n"
                                                                   "       \"label\"\n"
                                                                   "       \"more\"\n");
    EXPECT_EQ(line("material \"a\"\n\"b\" is salt salt 90% density 1.0 kg/L"),
              "material \"a\"\n"
              "         \"b\" is salt   density 1.0 kg/L   salt 90 %\n");
    EXPECT_EQ(line("step \"a \\\"b\\\" \\\\\""), "step   \"a \\\"b\\\" \\\\\"\n");
}

TEST(Tidy, PutsAKitchenInColumns) {
    EXPECT_EQ(tidied("kitchen \"K\"\njar tall holds 1.5L brimful across 10cm have 3\n"
                     "crock grey holds 8 L brimful weights 400ml have 1\n"
                     "scale s reads 1g up to 5kg within 1g\nroom 19 °C\nspoons us\n"),
              "kitchen \"K\"\n"
              "jar    tall   holds 1.5 L brimful   across 10 cm                    have 3\n"
              "crock  grey   holds 8 L   brimful                  weights 400 mL   have 1\n"
              "scale  s   reads 1 g   up to 5 kg   within 1 g\n"
              "room   19 °C\n"
              "spoons us\n");
    EXPECT_EQ(tidied("kitchen \"K\"\nunits  us\nscale s reads 0.1oz up to 11lb bowl 1lb 4oz\n"
                     "scale bench reads 1/2 oz up to 22 lb within 1/2oz use 90%\n"),
              "kitchen \"K\"\n"
              "units  us\n"
              "scale  s       reads 0.1 oz   up to 11 lb                   bowl 1 lb 4 oz\n"
              "scale  bench   reads 1/2 oz   up to 22 lb   within 1/2 oz      use 90 %\n");
}

TEST(Tidy, GivesNothingForFaultsConflictsAndBatches) {
    EXPECT_EQ(tidied("recipe \"A\"\ngiven = 3\n"), "expected-name");
    EXPECT_EQ(tidied("recipe \"A\"\n=======\n"), "merge-conflict");
    EXPECT_EQ(tidied("# x\nlanguage 1\nbatch \"A\"\n"), "tidy-batch");
    EXPECT_EQ(tidied("\xEF\xBB\xBFrecipe \"A\"\r\n"), "recipe \"A\"\n");
}

TEST(Tidy, SameMeaningSeesWhatDiffersInAKitchen) {
    const auto same = [](const std::string& a, const std::string& b) {
        return same_meaning(parse_bytes("kitchen \"A\"\n" + a).document,
                            parse_bytes("kitchen \"A\"\n" + b).document);
    };
    const std::string scale = "scale s reads 1 g up to 5 kg";
    EXPECT_TRUE(same("units us", "units   us"));
    EXPECT_FALSE(same("units us", "units metric"));
    EXPECT_TRUE(same(scale + " bowl 350 g", scale + "  bowl  350 g"));
    EXPECT_FALSE(same(scale + " bowl 350 g", scale + " bowl 351 g"));
    EXPECT_FALSE(same(scale + " bowl 350 g", scale));
    EXPECT_FALSE(same(scale + " use 90 %", scale + " use 80 %"));
    EXPECT_FALSE(same(scale + " use 90 %", scale));
}

TEST(Tidy, SameMeaningSeesWhatDiffers) {
    const auto same = [](const std::string& a, const std::string& b) {
        return same_meaning(parse_bytes("recipe \"A\"\n" + a).document,
                            parse_bytes("recipe \"A\"\n" + b).document);
    };
    EXPECT_TRUE(same("let x = (a + b) * c", "# x\nlet x=(a+b)*(c)"));
    EXPECT_FALSE(same("let x = (a + b) * c", "let x = a + b * c"));
    EXPECT_FALSE(same("let x = 1 kg", "let x = 1000 g"));
    EXPECT_FALSE(same("let x = 1 kg", "let x = 1 kg \"label\""));
    EXPECT_FALSE(same("let x = 1 kg", "let x = 1 kg ± 1 g"));
    EXPECT_FALSE(same("step \"{a}\"", "step \"{{a}}\""));
    EXPECT_FALSE(same("step \"{a}\"", "step \"{a / 2}\""));
    EXPECT_FALSE(same("let x = 3\nlet y = 4", "let y = 4\nlet x = 3"));
    EXPECT_FALSE(same("weigh x = 3 g optional", "weigh x = 3 g"));
    EXPECT_FALSE(same("keep cold for 1 week", "keep cold for 1 month"));
    EXPECT_FALSE(
        same_meaning(parse_bytes("recipe \"A\"").document, parse_bytes("kitchen \"A\"").document));
}

TEST(Tidy, TheDemoBookIsTidy) {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(
             std::filesystem::path(JARFUL_SOURCE_DIR) / "recipes")) {
        if (entry.path().extension() != ".jarful") continue;
        std::ifstream file(entry.path(), std::ios::binary);
        std::ostringstream all;
        all << file.rdbuf();
        if (is_batch_record(Source("", all.str()))) continue;
        EXPECT_EQ(tidied(all.str()), all.str())
            << entry.path() << "; `jarful tidy recipes` puts it right";
        ++count;
    }
    EXPECT_GE(count, 19U);
}

TEST(Tidy, ItsJsonIsAsItsSchemaSays) {
    const jarful::testing::DocumentedSchema schema("tidy");
    std::vector<render::TidiedFile> files(2);
    files[0].path = "a.jarful";
    files[0].ok = files[0].changes = files[0].written = true;
    files[0].diff = render::unified_diff("x\n", "y\n", render::shown_name(files[0]));
    files[1].path = "b.jarful";
    files[1].source = Source("b.jarful", "wiegh\n");
    files[1].findings.push_back(
        {"unknown-statement", Severity::fault, Place{0, 5}, "No.", "Write it.", {}});
    const nlohmann::json document = nlohmann::json::parse(render::tidy_json(files));
    EXPECT_EQ(schema.faults(document), "");
    EXPECT_EQ(document["files"][0]["diff"],
              "--- a/a.jarful\n+++ b/a.jarful\n@@ -1 +1 @@\n-x\n+y\n");
    EXPECT_EQ(document["summary"]["changes"], 1);
    EXPECT_EQ(document["summary"]["faulty"], 1);
    nlohmann::json wrong = document;
    wrong["files"][0].erase("written");
    EXPECT_NE(schema.faults(wrong), "");
}

TEST(UnifiedDiff, SaysWhatChanges) {
    using render::unified_diff;
    EXPECT_EQ(unified_diff("a\n", "a\n", "x"), "");
    EXPECT_EQ(unified_diff("a\nb\nc\n", "a\nB\nc\n", "x"),
              "--- a/x\n+++ b/x\n@@ -1,3 +1,3 @@\n a\n-b\n+B\n c\n");
    EXPECT_EQ(unified_diff("", "a\n", "x"), "--- a/x\n+++ b/x\n@@ -0,0 +1 @@\n+a\n");
    EXPECT_EQ(unified_diff("a", "a\n", "x"),
              "--- a/x\n+++ b/x\n@@ -1 +1 @@\n-a\n\\ No newline at end of file\n+a\n");
    EXPECT_EQ(
        unified_diff("1\n2\n3\n4\n5\n6\n7\n8\n9\nx\n", "0\n1\n2\n3\n4\n5\n6\n7\n8\n9\ny\n", "x"),
        "--- a/x\n+++ b/x\n@@ -1,3 +1,4 @@\n+0\n 1\n 2\n 3\n"
        "@@ -7,4 +8,4 @@\n 7\n 8\n 9\n-x\n+y\n");
}

} // namespace jarful::language::testing
