#include "tests/corpus/judged_lists.hpp"

/// Lists in Polish, a language that is read by its data alone: tests/corpus/polish/README.md.
namespace {

using namespace jarful::testing;

const std::string folder = JARFUL_SOURCE_DIR "/tests/corpus/polish/";

TEST(Polish, ListsAreJudgedAsWorkedOutByHand) {
    const Tally tally = judge_lists(rows_of(folder + "lists.jsonl"));
    EXPECT_EQ(tally.right + tally.left_open + tally.wrong_way, 20);
    EXPECT_GE(tally.right, 18);
}

TEST(Polish, NoProbeIsCalledInsideAndEveryControlIs) {
    EXPECT_EQ(judge_probes(rows_of(folder + "probes.jsonl")), 20U);
}

} // namespace
