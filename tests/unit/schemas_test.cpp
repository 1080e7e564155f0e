#include "engine/language/parse.hpp"
#include "engine/page/described.hpp"
#include "engine/render/fields/schema.hpp"
#include "engine/render/fields/shared.hpp"
#include "tests/support/schema.hpp"

#include <gmock/gmock.h>

#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>
#include <sstream>

/// docs/schemas is what the tables of fields say, and what the program prints is as they say.
namespace jarful::fields {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

const fs::path source_dir = JARFUL_SOURCE_DIR;

std::string read(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream out;
    out << file.rdbuf();
    return out.str();
}

TEST(Schemas, asCheckedInAreAsDescribed) {
    std::set<std::string> names;
    for (const Result* result : page::described_results()) {
        const std::string name = result->notes.name;
        EXPECT_TRUE(names.insert(name + ".json").second) << name << " stands for two";
        const fs::path path = source_dir / "docs/schemas" / (name + ".json");
        if (std::getenv("JARFUL_UPDATE_GOLDEN") != nullptr)
            std::ofstream(path, std::ios::binary) << schema(*result);
        EXPECT_EQ(read(path), schema(*result)) << name;
    }
    for (const auto& entry : fs::directory_iterator(source_dir / "docs/schemas"))
        EXPECT_TRUE(names.contains(entry.path().filename())) << entry.path();
}

TEST(Schemas, areFoundByName) {
    ASSERT_NE(find_result("weigh"), nullptr);
    EXPECT_STREQ(find_result("weigh")->format, "jarful.weigh/1");
    EXPECT_EQ(find_result("colour"), nullptr);
}

/// Every shape that is reached, by its name.
void gather(const AnyShape& shape, std::map<std::string, std::set<const AnyShape*>>& out) {
    if (!out[shape.notes.name].insert(&shape).second) return;
    for (const FieldNotes& field : notes_of(shape))
        if (field.type.shape != nullptr) gather(*field.type.shape, out);
}

TEST(Schemas, oneNameOneShapeAndAMeaningForEach) {
    std::map<std::string, std::set<const AnyShape*>> shapes;
    for (const Result* result : page::described_results()) {
        gather(*result->shape, shapes);
        if (result->or_shape != nullptr) gather(*result->or_shape, shapes);
    }
    EXPECT_GT(shapes.size(), 80U);
    for (const auto& [name, those] : shapes) {
        EXPECT_EQ(those.size(), 1U) << name;
        const AnyShape& shape = **those.begin();
        EXPECT_STRNE(shape.notes.meaning, "") << name;
        std::set<std::string> keys;
        for (const FieldNotes& field : notes_of(shape)) {
            if (field.name == nullptr) continue;
            EXPECT_TRUE(keys.insert(field.name).second) << name << " " << field.name;
            // What it is must be said somewhere: of the field, its shape or its words. A unit says
            // what it is counted in only.
            const bool of_its_kind =
                (field.type.shape != nullptr && !field.type.list) ||
                (field.type.words != nullptr && field.type.words->meaning != nullptr);
            const bool said = *field.meaning != '\0' || (of_its_kind && *field.unit == '\0');
            EXPECT_TRUE(said) << name << " " << field.name;
        }
    }
}

/// The documents among what the program is known to print, by the name of their schema.
std::vector<std::pair<std::string, Json>> printed_documents() {
    std::map<std::string, std::string> names;
    for (const Result* result : page::described_results())
        names[result->format] = result->notes.name;
    std::vector<std::pair<std::string, Json>> out;
    for (const auto& entry : fs::directory_iterator(source_dir / "tests/golden/cli/cases")) {
        if (entry.path().extension() != ".expected") continue;
        const std::string text = read(entry.path());
        const std::string mark = "== standard output\n";
        const std::size_t at = text.find(mark + "{");
        if (at == std::string::npos) continue;
        Json document = Json::parse(text.substr(at + mark.size()), nullptr, false);
        if (!document.is_object() || !document.contains("format")) continue;
        out.emplace_back(names.at(document["format"]), std::move(document));
    }
    return out;
}

TEST(Schemas, everythingThatIsPrintedIsAsItsSchemaSays) {
    const auto documents = printed_documents();
    std::set<std::string> seen;
    for (const auto& [name, document] : documents) {
        EXPECT_EQ(testing::DocumentedSchema(name).faults(document), "") << name;
        seen.insert(name);
    }
    EXPECT_GT(documents.size(), 20U);
    EXPECT_GT(seen.size(), 12U);
}

/// A key in a document, and whether it has to be there.
struct KeyAt {
    Json::json_pointer at;
    bool needed;
};

/// The keys of an object that has the fields of a shape.
void gather_keys(const AnyShape& shape, bool always, const Json& part, const Json::json_pointer& at,
                 std::vector<KeyAt>& out) {
    for (const FieldNotes& field : notes_of(shape)) {
        const bool needed = always && field.presence != Presence::sometimes;
        const Type& type = field.type;
        if (type.base == Type::Base::parts) {
            gather_keys(*type.shape, needed, part, at, out);
            continue;
        }
        if (!part.contains(field.name)) continue;
        out.push_back({at / field.name, needed});
        const Json& value = part[field.name];
        if (type.shape == nullptr) continue;
        if (value.is_object()) gather_keys(*type.shape, true, value, at / field.name, out);
        // Of a list its first is as the others.
        if (value.is_array() && !value.empty())
            gather_keys(*type.shape, true, value[0], at / field.name / std::size_t{0}, out);
    }
}

TEST(Schemas, refuseWhatIsMissingWrongOrTooMuch) {
    std::map<std::string, const Result*> by_name;
    for (const Result* result : page::described_results())
        by_name[result->notes.name] = result;
    std::set<std::string> seen;
    std::size_t left_out = 0;
    for (const auto& [name, document] : printed_documents()) {
        const Result& result = *by_name.at(name);
        // One of each sort, and of those that have one form: which it is of two, nothing says.
        if (result.or_shape != nullptr || !seen.insert(name).second) continue;
        const testing::DocumentedSchema schema(name);
        std::vector<KeyAt> keys{{Json::json_pointer("/format"), true}};
        gather_keys(*result.shape, true, document, Json::json_pointer(), keys);
        for (const auto& [key, needed] : keys) {
            Json wrong = document;
            wrong[key] = Json::parse(R"({"what": "nobody expects"})");
            EXPECT_NE(schema.faults(wrong), "") << name << key.to_string();
            wrong = document;
            wrong[key.parent_pointer()]["more"] = 1;
            EXPECT_NE(schema.faults(wrong), "") << name << key.to_string();
            wrong = document;
            wrong[key.parent_pointer()].erase(key.back());
            EXPECT_EQ(schema.faults(wrong) == "", !needed) << name << key.to_string();
            left_out += needed ? 1 : 0;
        }
    }
    EXPECT_GT(seen.size(), 12U);
    EXPECT_GT(left_out, 700U);
}

TEST(Schemas, wordsOfAListElsewhereAreThatList) {
    const auto standings = words_of<standing_words>();
    for (const larder::RangeRow& row : larder::range_rows())
        EXPECT_THAT(standings, ::testing::Contains(larder::standing(row))) << row.id.view();
    // A house's rows are told by their status alone.
    larder::RangeRow own;
    own.status = larder::Status::house;
    EXPECT_THAT(standings, ::testing::Contains(larder::standing(own)));
    EXPECT_THAT(period_words.words(), ::testing::ElementsAre("day", "week", "month", "year"));
    EXPECT_THAT(task_words.words(), ::testing::Contains("top_up"));
    for (const std::string_view place : words_of<place_words>()) {
        language::Findings findings;
        auto source = language::read_source(
            "a.jarful", "recipe \"A\"\nkeep " + std::string(place) + " for 6 months\n", findings);
        const auto document = language::parse(std::move(*source), findings);
        EXPECT_FALSE(findings.has_faults()) << place << document.lines.size();
    }
}

} // namespace
} // namespace jarful::fields
