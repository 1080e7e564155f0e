#include "engine/appraise/appraise.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

/// The lines of tests/corpus/lines.tsv, each of which must be read as it stands there.
namespace {

using namespace jarful;

std::vector<std::string> columns(const std::string& line) {
    std::vector<std::string> out;
    std::stringstream in(line);
    for (std::string cell; std::getline(in, cell, '\t');)
        out.push_back(cell);
    return out;
}

TEST(AppraiseCorpus, EveryLineIsReadAsWrittenDown) {
    std::ifstream in(JARFUL_SOURCE_DIR "/tests/corpus/lines.tsv");
    ASSERT_TRUE(in);
    int lines = 0;
    for (std::string row; std::getline(in, row);) {
        const auto cells = columns(row);
        if (row.starts_with("#") && cells.size() != 6) continue;
        if (row.starts_with("# text")) continue;
        ASSERT_EQ(cells.size(), 6u) << row;
        ++lines;
        const appraise::Line line = appraise::read_line(cells[0]);
        const bool known = cells[4] != "?";
        EXPECT_EQ(line.understood, known) << row;
        if (known) {
            EXPECT_EQ(line.material ? std::string(line.material->name) : "?", cells[4]) << row;
            EXPECT_EQ(line.role ? std::string(larder::describe(*line.role)) : "-", cells[5]) << row;
        }
        if (cells[1] == "-") {
            EXPECT_FALSE(line.amount.has_value()) << row;
            continue;
        }
        ASSERT_TRUE(line.amount.has_value()) << row;
        EXPECT_NEAR(line.amount->low, std::stod(cells[1]), 1e-3) << row;
        EXPECT_NEAR(line.amount->high, std::stod(cells[2]), 1e-3) << row;
        EXPECT_EQ(line.amount->unit, cells[3]) << row;
    }
    EXPECT_GE(lines, 150);
}

} // namespace
