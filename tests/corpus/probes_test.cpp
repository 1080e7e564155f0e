#include "engine/appraise/appraise.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <fstream>
#include <string>

/// Short lists, each with one thing in it that would lead a reader astray.
namespace {

using namespace jarful;

TEST(Probes, NoListIsCalledInsideThatMayNotBeAndEveryControlIs) {
    std::ifstream in(JARFUL_SOURCE_DIR "/tests/corpus/probes.jsonl");
    ASSERT_TRUE(in);
    std::size_t count = 0;
    for (std::string row; std::getline(in, row);) {
        if (row.empty()) continue;
        const auto probe = nlohmann::json::parse(row);
        ++count;
        appraise::Refusal refusal;
        const auto a = appraise::appraise(probe["text"].get<std::string>(), {}, refusal);
        ASSERT_TRUE(a) << probe["id"] << " " << refusal.message;
        EXPECT_EQ(a->verdict == appraise::Verdict::inside, probe["inside_allowed"].get<bool>())
            << probe["id"] << " " << probe["mechanism"] << ": " << probe["truth"] << "\n"
            << probe["text"].get<std::string>() << "is called " << appraise::describe(a->verdict)
            << ": " << a->reason;
    }
    EXPECT_GE(count, 140u);
}

} // namespace
