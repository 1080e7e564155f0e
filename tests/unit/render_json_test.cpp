#include "engine/render/check_report.hpp"
#include "engine/render/json_weigh.hpp"
#include "engine/render/ranges_report.hpp"
#include "tests/support/checked.hpp"
#include "tests/support/schema.hpp"
#include "tests/support/weigh_out_example.hpp"

#include <gmock/gmock.h>

#include <limits>

namespace jarful::render {
namespace {

using Json = nlohmann::json;
using ::testing::HasSubstr;

using Schema = ::jarful::testing::DocumentedSchema;

Json example() {
    return Json::parse(weigh_json(::jarful::testing::example_weigh_out()));
}

TEST(WeighJson, hasTheFieldsThatProgramsLookFor) {
    const Json out = example();
    EXPECT_EQ(out.at("format"), "jarful.weigh/1");
    EXPECT_EQ(out.at("recipe").at("title"), "Quay Street winter kraut");
    EXPECT_EQ(out.at("recipe").at("version"), 4);
    EXPECT_EQ(out.at("recipe").at("kind"), "kraut");
    EXPECT_TRUE(out.at("recipe").at("method").is_null());
    EXPECT_EQ(out.at("givens")[0].at("reading_g"), 1840);
    const Json& salt = out.at("items")[0];
    EXPECT_EQ(salt.at("role"), "salt");
    EXPECT_EQ(salt.at("exact_g"), 42.9);
    EXPECT_EQ(salt.at("low_g"), 42.75);
    EXPECT_EQ(salt.at("portions")[0].at("scale"), "pocket");
    EXPECT_TRUE(out.at("items")[2].at("reading_g").is_null());
    EXPECT_EQ(out.at("counts")[0].at("count"), 2);
    EXPECT_EQ(out.at("salt").at("basis"), "of_vegetables");
    EXPECT_EQ(out.at("salt").at("percent"), 2.2);
    EXPECT_EQ(out.at("salt").at("range").at("low_status"), "published");
    EXPECT_EQ(out.at("salt").at("verdict"), "inside");
    EXPECT_EQ(out.at("checks")[0].at("at_most"), 2.5);
    EXPECT_EQ(out.at("steps").size(), 2U);
    EXPECT_EQ(out.at("steps")[0], "Rub 42.9 g in, in goes of 14.5 g, 14.2 g and 14.2 g.");
    EXPECT_FALSE(out.contains("jars"));
    EXPECT_EQ(out.at("tending").size(), out.at("afterwards").size());
    EXPECT_EQ(out.at("tending")[0].at("what"), "tend");
    EXPECT_FALSE(out.contains("salt_reason"));
}

TEST(WeighJson, isAsItsSchemaSays) {
    const Schema schema("weigh");
    EXPECT_EQ(schema.faults(example()), "");
    EXPECT_EQ(schema.faults(Json::parse(weigh_json(plan::WeighOut{}))), "");
    auto more = ::jarful::testing::example_weigh_out();
    plan::Stock stock;
    stock.water = ::jarful::testing::example_item("water", "water", 1905, 1, "bench");
    stock.salt = ::jarful::testing::example_item("salt", "", 95, 0.1, "");
    more.stocks = {stock};
    more.items[0].written_ml = 45;
    more.items[0].spread_g = units::Interval(40, 60);
    more.salt->by_the_spoon = units::Interval(1.5, 2.5);
    more.salt->low.reset();
    EXPECT_EQ(schema.faults(Json::parse(weigh_json(more))), "");
}

TEST(WeighJson, brokenDocumentsAreRefusedByTheSchema) {
    const Schema schema("weigh");
    Json wrong = example();
    wrong["format"] = "jarful.weigh/2";
    EXPECT_NE(schema.faults(wrong), "");
    wrong = example();
    wrong["items"][0].erase("reading_g");
    EXPECT_NE(schema.faults(wrong), "");
    wrong = example();
    wrong["salt"]["verdict"] = "safe";
    EXPECT_NE(schema.faults(wrong), "");
    wrong = example();
    wrong["salt"]["percent"] = "2.2 %";
    EXPECT_NE(schema.faults(wrong), "");
    wrong = example();
    wrong["colour"] = "green";
    EXPECT_NE(schema.faults(wrong), "");
}

TEST(WeighJson, whatIsNotJudgedIsNullWithAReason) {
    auto out = ::jarful::testing::example_weigh_out();
    out.salt.reset();
    out.no_salt_reason = "there is no salt in it";
    const Json json = Json::parse(weigh_json(out));
    EXPECT_TRUE(json.at("salt").is_null());
    EXPECT_EQ(json.at("salt_reason"), "there is no salt in it");
    EXPECT_EQ(Schema("weigh").faults(json), "");
}

TEST(WeighJson, onlyFiniteNumbersAndSoundText) {
    auto out = ::jarful::testing::example_weigh_out();
    const double infinity = std::numeric_limits<double>::infinity();
    out.salt->figure.bounds = {2, infinity};
    out.checks[0].value = units::whole_line;
    out.title = "broken \xff, \x1b and \"quoted\"";
    const std::string text = weigh_json(out);
    const Json json = Json::parse(text);
    EXPECT_TRUE(json.at("salt").at("high").is_null());
    EXPECT_TRUE(json.at("checks")[0].at("low").is_null());
    EXPECT_EQ(json.at("recipe").at("title"), "broken \xef\xbf\xbd, \x1b and \"quoted\"");
    EXPECT_EQ(text.find('\x1b'), std::string::npos);
    EXPECT_EQ(Schema("weigh").faults(json), "");
}

TEST(WeighJson, figuresAreFreeOfBinaryNoise) {
    auto out = ::jarful::testing::example_weigh_out();
    out.items[0].exact_g = 0.1 + 0.2;
    out.items[0].truth = {42.150000000000006, 42.15000000000001};
    const std::string text = weigh_json(out);
    EXPECT_THAT(text, HasSubstr("\"exact_g\": 0.3,"));
    EXPECT_THAT(text, HasSubstr("\"low_g\": 42.15,"));
    EXPECT_THAT(text, HasSubstr("\"high_g\": 42.15,"));
}

std::vector<CheckedFile> checked_files() {
    std::vector<CheckedFile> files(4);
    files[0].path = "a.jarful";
    files[0].sort = CheckedFile::Sort::recipe;
    plan::CheckResult result;
    result.title = "A";
    result.kind = "kraut";
    result.salt = ::jarful::testing::example_weigh_out().salt;
    result.checks = ::jarful::testing::example_weigh_out().checks;
    result.verdict = plan::Verdict::inside;
    files[0].result = result;
    files[1].path = "b.jarful";
    files[1].sort = CheckedFile::Sort::recipe;
    files[1].source = language::Source("b.jarful", "recipe \"B\"\nweigh é gramms\n");
    language::Diagnostic fault;
    fault.code = "unknown-unit";
    fault.place = language::Place{20, 26};
    fault.message = "There is no such unit.";
    fault.related = {{language::Place{0, 6}, "the header"}};
    files[1].findings = {fault};
    files[2].path = "kitchen.jarful";
    files[2].sort = CheckedFile::Sort::kitchen;
    files[3].path = "none.jarful";
    language::Diagnostic missing;
    missing.code = "missing-file";
    missing.message = "There is no such file.";
    files[3].findings = {missing};
    return files;
}

TEST(CheckJson, isAsItsSchemaSays) {
    const auto files = checked_files();
    const Json json = Json::parse(::jarful::testing::checked_json(files));
    const Schema schema("check");
    EXPECT_EQ(schema.faults(json), "");
    EXPECT_EQ(json.at("format"), "jarful.check/1");
    EXPECT_EQ(json.at("files")[0].at("verdict"), "inside");
    EXPECT_EQ(json.at("files")[0].at("salt").at("percent"), 2.2);
    EXPECT_TRUE(json.at("files")[1].at("verdict").is_null());
    EXPECT_EQ(json.at("files")[1].at("ok"), false);
    EXPECT_EQ(json.at("files")[1].at("diagnostics")[0].at("line"), 2);
    EXPECT_EQ(json.at("files")[1].at("diagnostics")[0].at("column"), 9);
    EXPECT_TRUE(json.at("files")[3].at("diagnostics")[0].at("line").is_null());
    EXPECT_EQ(json.at("summary").at("files"), 4);
    EXPECT_EQ(json.at("summary").at("inside"), 1);
    EXPECT_EQ(json.at("summary").at("faulty"), 2);
    Json wrong = json;
    wrong["summary"].erase("faulty");
    EXPECT_NE(schema.faults(wrong), "");
    wrong = json;
    wrong["files"][1]["diagnostics"][0]["severity"] = "error";
    EXPECT_NE(schema.faults(wrong), "");
}

TEST(CheckText, namesEveryFileAndWhatToDoNext) {
    const std::string text = ::jarful::testing::checked_text(checked_files(), {});
    EXPECT_THAT(text, HasSubstr("inside      a.jarful"));
    EXPECT_THAT(text, HasSubstr("FAULTY      b.jarful"));
    EXPECT_THAT(text, HasSubstr("kitchen     kitchen.jarful"));
    EXPECT_THAT(text, HasSubstr("4 files: 1 inside and 2 with faults."));
    EXPECT_THAT(text, HasSubstr("\nNext: mend b.jarful, and check again.\n"));
}

TEST(RangesJson, isAsItsSchemaSays) {
    const Schema schema("ranges");
    const Json all = Json::parse(ranges_json(nullptr, nullptr));
    EXPECT_EQ(schema.faults(all), "");
    EXPECT_EQ(all.at("kinds").size(), larder::kinds().size());
    const Json one = Json::parse(ranges_json(larder::find_kind("kraut"), nullptr));
    EXPECT_EQ(schema.faults(one), "");
    EXPECT_EQ(one.at("kinds")[0].at("name"), "kraut");
    Json wrong = one;
    wrong["kinds"][0]["rulings"][0]["basis"] = "of_jar";
    EXPECT_NE(schema.faults(wrong), "");
}

} // namespace
} // namespace jarful::render
