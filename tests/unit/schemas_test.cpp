#include "engine/page/results.hpp"
#include "engine/render/fields/schema.hpp"
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

std::vector<const Result*> all_results() {
    std::vector<const Result*> out(results().begin(), results().end());
    out.push_back(&page::page_result);
    out.push_back(&page::page_load_result);
    return out;
}

TEST(Schemas, asCheckedInAreAsDescribed) {
    std::set<std::string> names;
    for (const Result* result : all_results()) {
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
    for (const Field& field : shape.fields)
        if (field.notes.type.shape != nullptr) gather(*field.notes.type.shape, out);
}

TEST(Schemas, oneNameOneShapeAndAMeaningForEach) {
    std::map<std::string, std::set<const AnyShape*>> shapes;
    for (const Result* result : all_results()) {
        gather(*result->shape, shapes);
        if (result->or_shape != nullptr) gather(*result->or_shape, shapes);
    }
    EXPECT_GT(shapes.size(), 80U);
    for (const auto& [name, those] : shapes) {
        EXPECT_EQ(those.size(), 1U) << name;
        const AnyShape& shape = **those.begin();
        EXPECT_STRNE(shape.notes.meaning, "") << name;
        std::set<std::string> keys;
        for (const Field& field : shape.fields) {
            if (field.name == nullptr) continue;
            EXPECT_TRUE(keys.insert(field.name).second) << name << " " << field.name;
            // What it is of must be said somewhere: of the field, its shape, its words or its unit.
            const FieldNotes& notes = field.notes;
            const bool said = *notes.meaning != '\0' || *notes.unit != '\0' ||
                              (notes.type.shape != nullptr && !notes.type.list) ||
                              (notes.type.words != nullptr && notes.type.words->meaning != nullptr);
            EXPECT_TRUE(said) << name << " " << field.name;
        }
    }
}

/// The documents among what the program is known to print, by the name of their schema.
std::vector<std::pair<std::string, Json>> printed_documents() {
    std::map<std::string, std::string> names;
    for (const Result* result : all_results())
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

/// Every place in a document that a key stands at.
void gather_keys(const Json& part, const Json::json_pointer& at,
                 std::vector<Json::json_pointer>& out) {
    if (part.is_object())
        for (const auto& [key, value] : part.items()) {
            out.push_back(at / key);
            gather_keys(value, at / key, out);
        }
    // Of a list its first is as the others.
    if (part.is_array() && !part.empty()) gather_keys(part[0], at / std::size_t{0}, out);
}

std::set<std::string> keys_left_out_at_times() {
    std::map<std::string, std::set<const AnyShape*>> shapes;
    for (const Result* result : all_results()) {
        gather(*result->shape, shapes);
        if (result->or_shape != nullptr) gather(*result->or_shape, shapes);
    }
    std::set<std::string> out;
    for (const auto& [name, those] : shapes)
        for (const Field& field : (*those.begin())->fields)
            if (field.presence == Presence::sometimes) {
                if (field.name != nullptr) {
                    out.insert(field.name);
                } else {
                    for (const Field& part : field.notes.type.shape->fields)
                        out.insert(part.name);
                }
            }
    return out;
}

TEST(Schemas, refuseWhatIsMissingWrongOrTooMuch) {
    const std::set<std::string> at_times = keys_left_out_at_times();
    std::set<std::string> seen;
    for (const auto& [name, document] : printed_documents()) {
        if (!seen.insert(name).second) continue; // one of each sort
        const testing::DocumentedSchema schema(name);
        std::vector<Json::json_pointer> keys;
        gather_keys(document, Json::json_pointer(), keys);
        for (const Json::json_pointer& key : keys) {
            Json wrong = document;
            wrong[key] = Json::parse(R"({"what": "nobody expects"})");
            EXPECT_NE(schema.faults(wrong), "") << name << key.to_string();
            wrong = document;
            wrong[key.parent_pointer()]["more"] = 1;
            EXPECT_NE(schema.faults(wrong), "") << name << key.to_string();
            if (at_times.contains(key.back())) continue;
            wrong = document;
            wrong[key.parent_pointer()].erase(key.back());
            EXPECT_NE(schema.faults(wrong), "") << name << key.to_string();
        }
    }
}

} // namespace
} // namespace jarful::fields
