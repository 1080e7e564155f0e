#include "engine/language/explain.hpp"
#include "tests/golden/answers.hpp"

#include <fmt/core.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <vector>

namespace jarful::test {

std::string digits(double value) {
    if (std::isnan(value)) return "not a number"; // whose sign differs from machine to machine
    return fmt::format("{:.12g}", value == 0 ? 0.0 : value);
}

std::string digits(const std::optional<double>& value) {
    return value ? digits(*value) : "-";
}

std::string digits(units::Interval bounds) {
    return bounds.point() ? digits(bounds.low) : digits(bounds.low) + ".." + digits(bounds.high);
}

std::string told(const language::Source& source, const language::Findings& findings) {
    std::string out;
    for (const language::Diagnostic& d : findings.all()) {
        out += d.severity == language::Severity::fault ? "fault " : "remark ";
        out += d.code;
        if (d.place) out += fmt::format(" at {} `{}`", d.place->begin, source.at(*d.place));
        out += "\n    " + d.message + "\n";
        if (!d.advice.empty()) out += "    " + d.advice + "\n";
        for (const language::Related& r : d.related)
            out += fmt::format("    and at {}: {}\n", r.place.begin, r.text);
    }
    return out;
}

std::vector<std::string> words(const std::string& question, char apart) {
    std::vector<std::string> out;
    std::istringstream in(question);
    for (std::string word; std::getline(in, word, apart);)
        if (!word.empty()) out.push_back(word);
    return out;
}

namespace {

namespace fs = std::filesystem;

const fs::path folder = fs::path(JARFUL_SOURCE_DIR) / "tests/golden/answers";

std::string whole(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream all;
    all << file.rdbuf();
    return all.str();
}

/// The questions of a file; a line that begins with `#` is a heading and no question.
std::vector<std::string> questions(const fs::path& path) {
    std::vector<std::string> out;
    const bool blocks = path.extension() == ".blocks";
    std::istringstream in(whole(path));
    std::string block;
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with("#") && block.empty()) continue;
        if (!blocks) {
            out.push_back(line);
        } else if (!line.empty()) {
            block += line + "\n";
        } else if (!block.empty()) {
            out.push_back(std::move(block));
            block.clear();
        }
    }
    if (!block.empty()) out.push_back(block);
    return out;
}

std::vector<fs::path> files() {
    std::vector<fs::path> out;
    for (const auto& entry : fs::directory_iterator(folder))
        if (entry.path().extension() == ".lines" || entry.path().extension() == ".blocks")
            out.push_back(entry.path());
    std::sort(out.begin(), out.end());
    return out;
}

std::map<std::string, std::string (*)(const std::string&)> sorts() {
    std::map<std::string, std::string (*)(const std::string&)> out;
    for (const auto& list : {units_sorts(), larder_sorts(), brine_sorts(), kitchen_sorts(),
                             sheet_sorts(), tend_sorts(), plan_sorts()})
        for (const Sort& sort : list)
            out.emplace(sort.name, sort.answer);
    return out;
}

class Answers : public ::testing::TestWithParam<fs::path> {};

TEST_P(Answers, areAsWrittenDown) {
    const auto all = sorts();
    const auto sort = all.find(GetParam().stem().string());
    ASSERT_NE(sort, all.end()) << "nobody answers " << GetParam();
    std::string got;
    for (const std::string& question : questions(GetParam())) {
        std::istringstream lines(question);
        for (std::string line; std::getline(lines, line);)
            got += "> " + line + "\n";
        if (question.empty()) got += ">\n";
        got += sort->second(question);
        if (!got.ends_with('\n')) got += "\n";
    }
    fs::path expected = GetParam();
    expected.replace_extension(".expected");
    if (std::getenv("JARFUL_UPDATE_GOLDEN") != nullptr) {
        std::ofstream(expected, std::ios::binary) << got;
        return;
    }
    EXPECT_EQ(got, whole(expected)) << "read what changed, then JARFUL_UPDATE_GOLDEN=1 writes it";
}

INSTANTIATE_TEST_SUITE_P(Golden, Answers, ::testing::ValuesIn(files()),
                         [](const auto& one) { return one.param.stem().string(); });

TEST(AnswersFolder, hasQuestionsOfEverySort) {
    const auto all = sorts();
    EXPECT_EQ(files().size(), all.size());
}

} // namespace

} // namespace jarful::test
