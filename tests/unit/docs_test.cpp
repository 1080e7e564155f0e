#include "tests/support/recipe.hpp"

#include <gmock/gmock.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

/// The pages that show recipes and diagnostics are true: every example in them is run.
namespace jarful {
namespace {

using test::Outcome;
using ::testing::Contains;

const std::filesystem::path source_dir{JARFUL_SOURCE_DIR};

std::string read(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

struct Example {
    std::string word; ///< after the fence
    std::string code; ///< the word after that
    std::string text;
};

std::vector<Example> examples(const std::filesystem::path& page) {
    std::vector<Example> found;
    std::istringstream in(read(page));
    std::string line;
    while (std::getline(in, line)) {
        if (line.rfind("```", 0) != 0 || line.size() == 3) continue;
        Example e;
        std::istringstream words(line.substr(3));
        words >> e.word >> e.code;
        while (std::getline(in, line) && line.rfind("```", 0) != 0)
            e.text += line + "\n";
        found.push_back(std::move(e));
    }
    return found;
}

TEST(Docs, recipes_in_the_language_reference_check_clean) {
    const kitchen::Kitchen* kitchen = nullptr;
    static kitchen::Kitchen own;
    int recipes = 0;
    for (const Example& e : examples(source_dir / "docs/language.md")) {
        if (e.word != "jarful") continue;
        if (e.text.rfind("batch", 0) == 0) continue; // read by the tests of records
        if (e.text.rfind("kitchen", 0) == 0) {
            own = test::kitchen_of(e.text);
            kitchen = &own;
            continue;
        }
        if (e.text.rfind("house", 0) == 0) {
            language::Findings findings;
            const language::Document house =
                language::parse(language::Source("house.jarful", e.text), findings);
            EXPECT_NE(larder::House::read(house, findings)->find_kind("ash-turnips"), nullptr);
            EXPECT_EQ(kitchen::house_materials(house, findings).size(), 1u);
            EXPECT_TRUE(findings.empty());
            continue;
        }
        const Outcome o = test::check(e.text, kitchen ? *kitchen : kitchen::default_kitchen());
        ASSERT_TRUE(o.check) << e.text << o.said;
        EXPECT_TRUE(o.codes.empty()) << o.said;
        EXPECT_EQ(o.check->verdict.value_or(plan::Verdict::inside), plan::Verdict::inside)
            << e.text;
        ++recipes;
    }
    EXPECT_GE(recipes, 1);
}

TEST(Docs, examples_of_meaning_are_refused_with_their_code_and_explained) {
    std::string all;
    int count = 0;
    for (const Example& e : examples(source_dir / "docs/diagnostics.md")) {
        if (e.word != "means") continue;
        const Outcome o = test::weigh("recipe \"Example\"\n" + e.text);
        EXPECT_FALSE(o.out) << e.text;
        EXPECT_THAT(o.codes, Contains(e.code)) << e.text << o.said;
        all += "=== " + e.code + "\n" + o.said;
        ++count;
    }
    EXPECT_GE(count, 20);
    const std::filesystem::path golden = source_dir / "tests/golden/plan/diagnostics.expected";
    if (std::getenv("JARFUL_UPDATE_GOLDEN") != nullptr) {
        std::filesystem::create_directories(golden.parent_path());
        std::ofstream(golden, std::ios::binary) << all;
    }
    EXPECT_EQ(all, read(golden)) << "refresh with JARFUL_UPDATE_GOLDEN=1 after reading it";
}

TEST(Docs, list_every_code_that_the_engine_can_say) {
    // The conversions list their own, in docs/convert.md.
    const std::string page =
        read(source_dir / "docs/diagnostics.md") + read(source_dir / "docs/convert.md");
    const std::regex said("(?:fault|remark|fail|refuse)\\(\\s*\"([a-z]+(?:-[a-z]+)*)\"|"
                          "\\.code = \"([a-z]+(?:-[a-z]+)*)\"");
    std::set<std::string> codes;
    for (const char* room : {"engine", "cli"}) {
        for (const auto& entry : std::filesystem::recursive_directory_iterator(source_dir / room)) {
            if (entry.path().extension() != ".cpp") continue;
            const std::string text = read(entry.path());
            for (std::sregex_iterator i(text.begin(), text.end(), said), end; i != end; ++i)
                codes.insert((*i)[1].matched ? (*i)[1].str() : (*i)[2].str());
        }
    }
    EXPECT_GE(codes.size(), 40u);
    for (const std::string& code : codes)
        EXPECT_NE(page.find("`" + code + "`"), std::string::npos) << code;
}

} // namespace
} // namespace jarful
