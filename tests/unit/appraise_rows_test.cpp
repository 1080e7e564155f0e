#include "engine/appraise/method.hpp"
#include "engine/appraise/text.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <array>
#include <fstream>
#include <string>
#include <vector>

/// Every row of patterns.json by the sentences that stand beside it: those that it has to fit, in
/// the languages that say it so, and those that it may not.
namespace {

using namespace jarful;
using appraise::Event;
using appraise::Pattern;

/// The sentences of an example: what stands before the last is what goes before.
std::vector<std::string> sentences(const std::string& text) {
    std::vector<std::string> out(1);
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool mark = text[i] == '.' || text[i] == ';';
        if (mark && (i + 1 == text.size() || text[i + 1] == ' '))
            out.emplace_back();
        else
            out.back() += text[i];
    }
    std::erase_if(out, [](const std::string& s) { return s.empty(); });
    return out;
}

/// Lines of the list are said of a salt, of water or of something else, by their words.
appraise::Concepts said_of(const appraise::Sentence& line) {
    if (line.has(appraise::Concept::salt))
        return {appraise::Concept::salted, appraise::Concept::salty};
    return line.has(appraise::Concept::water) && !line.has(appraise::Concept::food)
               ? appraise::Concepts(appraise::Concept::in_water)
               : appraise::Concepts{};
}

bool fits(const Pattern& row, const std::string& example) {
    const bool of_line = row.event >= Event::line_part;
    const std::string plain = appraise::clean(example);
    appraise::Method method(nullptr, nullptr);
    bool found = false;
    for (const std::string& text : sentences(plain)) {
        const auto tokens = appraise::tokens_of(text);
        appraise::Sentence s = appraise::sentence_of(tokens, {}, nullptr);
        s.say(of_line ? said_of(s) : method.state());
        for (const Pattern& mark : appraise::patterns(Event::mark))
            found = (appraise::apply_mark(mark, s) && &mark == &row) || found;
        if (row.event != Event::mark) found = found || appraise::Fit(row, s).first();
        method.read(tokens, {});
    }
    return found;
}

std::vector<std::string> listed(const nlohmann::json& row, const char* key) {
    if (!row.contains(key)) return {};
    if (row.at(key).is_string()) return {row.at(key).get<std::string>()};
    return row.at(key).get<std::vector<std::string>>();
}

TEST(AppraiseRows, EveryRowFitsItsSentencesAndNotTheOthers) {
    std::ifstream in(JARFUL_SOURCE_DIR "/engine/appraise/data/patterns.json");
    ASSERT_TRUE(in);
    const auto all = nlohmann::ordered_json::parse(in);
    std::array<std::size_t, 3> spoken{};
    std::size_t rows = 0;
    for (unsigned e = 0; e < static_cast<unsigned>(Event::last); ++e) {
        const auto event = static_cast<Event>(e);
        const auto compiled = appraise::patterns(event);
        const std::string name(appraise::name_of(event));
        ASSERT_TRUE(all.contains(name)) << name << " has no row";
        ASSERT_EQ(all.at(name).size(), compiled.size()) << name;
        for (std::size_t i = 0; i < compiled.size(); ++i) {
            const nlohmann::json row = all.at(name)[i];
            ++rows;
            std::size_t examples = 0;
            for (std::size_t l = 0; l < 3; ++l) {
                for (const std::string& text : listed(row, std::array{"en", "de", "fr"}[l])) {
                    ++examples;
                    ++spoken[l];
                    EXPECT_TRUE(fits(compiled[i], text))
                        << name << ": " << row["row"] << "\n  does not fit: " << text;
                }
            }
            EXPECT_GE(examples, 1u) << name << ": " << row["row"] << " has no sentence";
            EXPECT_GE(listed(row, "not").size(), 1u)
                << name << ": " << row["row"] << " has no sentence that it may not fit";
            for (const std::string& text : listed(row, "not"))
                EXPECT_FALSE(fits(compiled[i], text))
                    << name << ": " << row["row"] << "\n  fits: " << text;
        }
    }
    EXPECT_GE(rows, 250u);
    for (const std::size_t n : spoken)
        EXPECT_GE(n, 150u);
}

TEST(AppraiseRows, NoTwoRowsOfAnEventAreTheSame) {
    for (const Pattern& a : appraise::patterns()) {
        for (const Pattern& b : appraise::patterns(a.event))
            EXPECT_TRUE(&a == &b || a.row != b.row || a.gives != b.gives) << a.row;
    }
}

} // namespace
