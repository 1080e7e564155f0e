#pragma once

#include "engine/appraise/appraise.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <fstream>
#include <string>
#include <vector>

/// Whole lists whose verdicts were worked out by hand, a JSON object a line: `text`, `verdict`, and
/// for `undecided` a `lean`; `salt_pct` is the least and the most salt on `basis`, or null.
namespace jarful::testing {

inline std::vector<nlohmann::json> rows_of(const std::string& path) {
    std::vector<nlohmann::json> out;
    std::ifstream in(path);
    EXPECT_TRUE(in) << path;
    for (std::string row; std::getline(in, row);) {
        if (!row.empty()) out.push_back(nlohmann::json::parse(row));
    }
    return out;
}

/// How an answer stands to what was worked out by hand.
enum class Score {
    right,     ///< the same verdict
    left_open, ///< undecided where a careful cook would decide, or decided as that cook leans
    wrong_way  ///< said the other thing
};

inline Score score(const std::string& verdict, const nlohmann::json& expected) {
    const auto wanted = expected.at("verdict").get<std::string>();
    if (verdict == wanted) return Score::right;
    if (verdict == "undecided") return Score::left_open;
    const bool leans = wanted == "undecided" && verdict == expected.at("lean").get<std::string>();
    return leans ? Score::left_open : Score::wrong_way;
}

/// The salt that was read on the basis of the hand's figure.
inline appraise::Percent percent_of(const appraise::Appraisal& a, const std::string& basis) {
    if (basis == "of_vegetables") return a.of_vegetables;
    if (basis == "of_vegetables_and_water") return a.of_vegetables_and_water;
    if (basis == "of_brine") return a.of_brine;
    EXPECT_EQ(basis, "of_everything");
    return a.of_everything;
}

/// Whether what was read and what was worked out have something in common; so has what either of
/// them does not know.
inline bool meet(const appraise::Appraisal& a, const nlohmann::json& expected) {
    if (expected.at("salt_pct").is_null()) return true;
    const appraise::Percent read = percent_of(a, expected.at("basis").get<std::string>());
    const double slack = 1.005;
    return !read || (read->low <= expected.at("salt_pct").at(1).get<double>() * slack &&
                     read->high * slack >= expected.at("salt_pct").at(0).get<double>());
}

struct Tally {
    int right = 0, left_open = 0, wrong_way = 0;
};

/// Judges every list, prints what is not right, and fails for what contradicts the hand.
inline Tally judge_lists(const std::vector<nlohmann::json>& rows) {
    Tally tally;
    for (const nlohmann::json& row : rows) {
        appraise::Refusal refusal;
        const auto a = appraise::appraise(row.at("text").get<std::string>(), {}, refusal);
        EXPECT_TRUE(a) << row.at("id") << " " << refusal.message;
        if (!a) continue;
        const std::string verdict(appraise::describe(a->verdict));
        const Score s = score(verdict, row);
        ++(s == Score::right       ? tally.right
           : s == Score::left_open ? tally.left_open
                                   : tally.wrong_way);
        if (s != Score::right)
            std::printf("  %s: %s, by hand %s: %s\n", row.at("id").get<std::string>().c_str(),
                        verdict.c_str(), row.at("verdict").get<std::string>().c_str(),
                        a->reason.c_str());
        EXPECT_NE(s, Score::wrong_way) << row.at("id") << " " << row.at("why");
        EXPECT_TRUE(meet(*a, row)) << row.at("id") << " " << row.at("why");
    }
    std::printf("  %d right, %d left open, %d wrong way\n", tally.right, tally.left_open,
                tally.wrong_way);
    return tally;
}

/// No probe may be called inside, and every control must be. @return how many there are
inline std::size_t judge_probes(const std::vector<nlohmann::json>& rows) {
    for (const nlohmann::json& row : rows) {
        appraise::Refusal refusal;
        const auto a = appraise::appraise(row.at("text").get<std::string>(), {}, refusal);
        EXPECT_TRUE(a) << row.at("id") << " " << refusal.message;
        if (!a) continue;
        EXPECT_EQ(a->verdict == appraise::Verdict::inside, row.at("inside_allowed").get<bool>())
            << row.at("id") << " " << row.at("mechanism") << ": " << row.at("truth") << "\n"
            << row.at("text").get<std::string>() << "is called " << appraise::describe(a->verdict)
            << ": " << a->reason;
    }
    return rows.size();
}

} // namespace jarful::testing
