#include "tests/unit/language_support.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

/// The pages under docs/ say what the program does: their examples are run, their lists compared.
namespace jarful::language::testing {

namespace {

std::string read_file(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream all;
    all << file.rdbuf();
    EXPECT_FALSE(all.str().empty()) << path;
    return all.str();
}

std::string page(const char* name) {
    return read_file(std::filesystem::path(JARFUL_SOURCE_DIR) / "docs" / name);
}

struct Example {
    std::string info; ///< what stands behind the fence's three strokes
    std::string text;
};

std::vector<Example> examples(const std::string& text) {
    std::vector<Example> all;
    std::istringstream lines(text);
    bool inside = false;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("```")) {
            inside = !inside;
            if (inside) all.push_back({line.substr(3), ""});
        } else if (inside) {
            all.back().text += line + "\n";
        }
    }
    return all;
}

bool has_header(const std::string& text) {
    return ("\n" + text).find("\nrecipe ") != std::string::npos ||
           ("\n" + text).find("\nkitchen ") != std::string::npos ||
           ("\n" + text).find("\nhouse ") != std::string::npos ||
           ("\n" + text).find("\nbatch ") != std::string::npos;
}

/// Runs the examples of a page; how many of them there were.
std::size_t run_examples(const char* name) {
    std::size_t count = 0;
    for (const Example& e : examples(page(name))) {
        if (e.info == "jarful") {
            EXPECT_EQ(codes(parse_bytes(e.text).findings), "") << e.text;
            ++count;
        } else if (e.info.starts_with("refused ")) {
            const Parsed p = has_header(e.text) ? parse_bytes(e.text) : parse_line(e.text);
            EXPECT_EQ(codes(p.findings), e.info.substr(8)) << e.text;
            ++count;
        }
    }
    return count;
}

} // namespace

TEST(LanguageDocs, ExamplesOfTheReferenceDoWhatItSays) {
    EXPECT_GE(run_examples("language.md"), 15U);
}

TEST(LanguageDocs, ExamplesOfTheDiagnosticsAreRefused) {
    EXPECT_GE(run_examples("diagnostics.md"), 50U);
}

TEST(LanguageDocs, ListTheReservedWords) {
    const std::string text = page("language.md");
    const std::size_t begin = text.find('`', text.find("## Words that cannot be names"));
    const std::size_t end = text.find('`', begin + 1);
    std::istringstream list(text.substr(begin + 1, end - begin - 1));
    std::set<std::string> listed;
    for (std::string word; list >> word;)
        EXPECT_TRUE(listed.insert(word).second) << word;
    std::set<std::string> known;
    for (const std::string_view word : reserved_words())
        known.emplace(word);
    EXPECT_EQ(listed, known);
}

TEST(LanguageDocs, ListEveryCodeOfThisRoom) {
    const std::string text = page("diagnostics.md");
    std::set<std::string> found;
    for (const auto& entry : std::filesystem::directory_iterator(
             std::filesystem::path(JARFUL_SOURCE_DIR) / "engine" / "language")) {
        const std::string ending = entry.path().extension().string();
        if (ending != ".cpp" && ending != ".hpp") continue;
        std::string source;
        std::istringstream lines(read_file(entry.path()));
        for (std::string line; std::getline(lines, line);) { // comments show recipes, not codes
            const std::size_t first = line.find_first_not_of(' ');
            if (first == std::string::npos || line.compare(first, 2, "//") != 0)
                source += line + "\n";
        }
        // A code is a text of small letters with a hyphen in it, up to a quotation mark or a bar.
        for (std::size_t at = source.find('"'); at != std::string::npos;
             at = source.find('"', at + 1)) {
            const std::size_t end =
                source.find_first_not_of("abcdefghijklmnopqrstuvwxyz-8", at + 1);
            const std::string word = source.substr(at + 1, end - at - 1);
            if (word.find('-') == std::string::npos || word.front() == '-') continue;
            if (source[end] == '"' || source[end] == '|') found.insert(word);
        }
    }
    EXPECT_GE(found.size(), 60U);
    for (const std::string& code : found)
        EXPECT_NE(text.find("**`" + code + "`**"), std::string::npos)
            << code << " is not in docs/diagnostics.md";
}

} // namespace jarful::language::testing
