#include "engine/language/explain.hpp"
#include "engine/language/parse.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

/// What a cook reads when a file has a fault: each file of golden/language/ with its sentences
/// beside it. After a deliberate change, run with JARFUL_UPDATE_GOLDEN=1 and read what changed.
namespace jarful::language {

namespace {

std::string read_file(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream all;
    all << file.rdbuf();
    return all.str();
}

std::string explained(const std::filesystem::path& path) {
    Findings findings;
    auto source = read_source(path.filename().string(), read_file(path), findings);
    if (!source) return "unreadable\n";
    const Document document = parse(std::move(*source), findings);
    std::string all;
    for (const Diagnostic& d : findings.all())
        all += (all.empty() ? "" : "\n") + explain(document.source, d);
    return all;
}

} // namespace

TEST(LanguageGolden, FaultsAreExplainedAsWritten) {
    const char* update = std::getenv("JARFUL_UPDATE_GOLDEN");
    const auto folder = std::filesystem::path(JARFUL_SOURCE_DIR) / "tests" / "golden" / "language";
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() != ".jarful") continue;
        ++count;
        const std::string now = explained(entry.path());
        EXPECT_FALSE(now.empty()) << entry.path() << " has no fault";
        auto expected = entry.path();
        expected.replace_extension(".expected");
        if (update != nullptr && std::string(update) == "1") {
            std::ofstream(expected, std::ios::binary) << now;
        } else {
            EXPECT_EQ(now, read_file(expected)) << entry.path();
        }
    }
    EXPECT_GE(count, 30U);
}

} // namespace jarful::language
