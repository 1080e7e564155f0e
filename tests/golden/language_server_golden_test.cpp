#include "tests/support/language_client.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

/// Whole conversations of an editor with the language server over the demo book: each file of
/// golden/language_server/ has the editor's messages, one a line, and beside it all that came back.
/// After a deliberate change, run with JARFUL_UPDATE_GOLDEN=1 and read what changed.
namespace {

using Json = jarful::test::LanguageClient::Json;

std::string read_file(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream all;
    all << file.rdbuf();
    return all.str();
}

/// A message, with the text of a file of the book where it says {"text": {"file": "NAME"}}.
void put_in_files(Json& value, const jarful::test::MemoryBook& book) {
    if (value.is_object() && value.size() == 1 && value.contains("file")) {
        value = book.files.at(value.at("file").get<std::string>());
    } else if (value.is_structured()) {
        for (Json& part : value)
            put_in_files(part, book);
    }
}

std::string conversation(const std::filesystem::path& path) {
    jarful::test::LanguageClient client;
    const auto recipes = std::filesystem::path(JARFUL_SOURCE_DIR) / "recipes";
    for (const auto& entry : std::filesystem::directory_iterator(recipes))
        if (entry.path().extension() == ".jarful")
            client.book.files[entry.path().filename().string()] = read_file(entry.path());
    std::istringstream lines(read_file(path));
    std::string out;
    for (std::string line; std::getline(lines, line);) {
        if (line.empty() || line.front() == '#') continue;
        Json message = Json::parse(line);
        put_in_files(message, client.book);
        client.send(message);
        client.said.clear();
        client.run();
        for (const Json& said : client.said)
            out += said.dump(1) + "\n";
    }
    return out;
}

TEST(LanguageServerGolden, SaysWhatIsWritten) {
    const char* update = std::getenv("JARFUL_UPDATE_GOLDEN");
    const auto folder =
        std::filesystem::path(JARFUL_SOURCE_DIR) / "tests" / "golden" / "language_server";
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() != ".messages") continue;
        ++count;
        const std::string now = conversation(entry.path());
        auto expected = entry.path();
        expected.replace_extension(".expected");
        if (update != nullptr && std::string(update) == "1") {
            std::ofstream(expected, std::ios::binary) << now;
        } else {
            EXPECT_EQ(now, read_file(expected)) << entry.path();
        }
    }
    EXPECT_GE(count, 2U);
}

} // namespace
