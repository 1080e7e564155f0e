#include "tests/corpus/judged_lists.hpp"

#include <cctype>
#include <filesystem>
#include <iterator>

/// A language that is added by data alone: tests/corpus/invented/README.md. This program is linked
/// with tables that hold it beside the languages of the engine.
namespace {

using namespace jarful;
using namespace jarful::testing;
namespace fs = std::filesystem;

const std::string folder = JARFUL_SOURCE_DIR "/tests/corpus/invented/";

TEST(Invented, ListsAreJudgedAsWorkedOutByHand) {
    const Tally tally = judge_lists(rows_of(folder + "lists.jsonl"));
    EXPECT_EQ(tally.right, 4);
}

TEST(Invented, NoProbeIsCalledInsideAndEveryControlIs) {
    EXPECT_EQ(judge_probes(rows_of(folder + "probes.jsonl")), 3U);
}

TEST(Invented, TheOtherLanguagesAreReadBesideIt) {
    for (const char* list :
         {"Kraut\n2 kg cabbage\n50 g salt\n", "Kraut\n2 kg Weißkohl\n50 g Salz\n",
          "Chou\n2 kg de chou blanc\n50 g de sel\n"}) {
        appraise::Refusal refusal;
        const auto a = appraise::appraise(list, {}, refusal);
        ASSERT_TRUE(a) << list;
        EXPECT_EQ(a->verdict, appraise::Verdict::inside) << list;
    }
}

std::string contents(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::string small(std::string text) {
    for (char& c : text)
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

/// Whether a text in small letters has a word, not as a part of a longer one.
bool names(const std::string& text, const std::string& word) {
    const auto letter = [&](std::size_t i) {
        return i < text.size() && std::isalpha(static_cast<unsigned char>(text[i])) != 0;
    };
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        if (!letter(at + word.size()) && (at == 0 || !letter(at - 1))) return true;
    }
    return false;
}

TEST(Invented, NoSourceOfTheProgramNamesALanguage) {
    std::vector<std::string> languages;
    for (const auto& file : fs::directory_iterator(JARFUL_SOURCE_DIR "/engine/appraise/data")) {
        const auto json = nlohmann::json::parse(contents(file.path()));
        if (json.contains("language")) languages.push_back(small(json.at("language")));
    }
    ASSERT_GE(languages.size(), 4U);
    EXPECT_TRUE(names("the names of " + languages.front() + " lists", languages.front()));
    std::size_t files = 0;
    for (const char* part : {"engine", "cli"}) {
        for (const auto& file :
             fs::recursive_directory_iterator(fs::path(JARFUL_SOURCE_DIR) / part)) {
            if (file.path().extension() != ".cpp" && file.path().extension() != ".hpp") continue;
            ++files;
            const std::string text = small(contents(file.path()));
            for (const std::string& language : languages)
                EXPECT_FALSE(names(text, language)) << file.path() << " names " << language;
        }
    }
    EXPECT_GT(files, 300U);
}

} // namespace
