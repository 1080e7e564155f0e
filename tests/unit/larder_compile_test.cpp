#include "engine/larder/compile/facts.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;
using jarful::larder::compile::Facts;
using jarful::larder::compile::read_facts;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

/// A copy of the data folder that a test may spoil.
class LarderData : public testing::Test {
  protected:
    void SetUp() override {
        const auto* info = testing::UnitTest::GetInstance()->current_test_info();
        folder_ = fs::path(testing::TempDir()) / (std::string("jarful_larder_") + info->name());
        fs::remove_all(folder_);
        fs::copy(fs::path(JARFUL_SOURCE_DIR) / "engine/larder/data", folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }

    /// Replaces the first `old_text` after `from` in a file; the test fails if there is none.
    void spoil(const std::string& file, const std::string& from, const std::string& old_text,
               const std::string& new_text) {
        std::ifstream in(folder_ / file);
        std::string text{std::istreambuf_iterator<char>(in), {}};
        in.close();
        const auto start = text.find(from);
        ASSERT_NE(start, std::string::npos) << from;
        const auto place = text.find(old_text, start);
        ASSERT_NE(place, std::string::npos) << old_text;
        text.replace(place, old_text.size(), new_text);
        std::ofstream(folder_ / file) << text;
    }

    std::vector<std::string> faults() const {
        std::vector<std::string> list;
        (void)read_facts(folder_.string(), list);
        return list;
    }

    fs::path folder_;
};

TEST_F(LarderData, AsItIsHasNoFault) {
    EXPECT_THAT(faults(), IsEmpty());
}

TEST_F(LarderData, NamesOfAnyLanguageAreReadByTheirTag) {
    spoil("produce.json", "\"carrot\"",
          "\"role\":", "\"names_zz\": [\"Gelbling\", \"Żółć\"], \"role\":");
    std::vector<std::string> faults;
    const Facts facts = read_facts(folder_.string(), faults);
    EXPECT_THAT(faults, IsEmpty());
    ASSERT_TRUE(facts.foreign_names.contains("zz"));
    const auto& names = facts.foreign_names.at("zz");
    ASSERT_EQ(names.size(), 2u);
    EXPECT_EQ(facts.materials[names.at("gelbling")].id, "carrot");
    EXPECT_EQ(facts.materials[names.at("zolc")].id, "carrot");
    EXPECT_THAT(jarful::larder::compile::write_tables(facts),
                HasSubstr("{\"zz\", foreign_names_zz}"));
}

TEST_F(LarderData, ATagHasTwoSmallLetters) {
    spoil("produce.json", "\"carrot\"", "\"role\":", "\"names_zzz\": [\"Gelbling\"], \"role\":");
    EXPECT_THAT(faults(), Contains(HasSubstr("does not know \"names_zzz\"")));
}

TEST_F(LarderData, ANameOfALanguageStandsForOneThing) {
    spoil("produce.json", "\"carrot\"", "\"role\":", "\"names_zz\": [\"Gelbling\"], \"role\":");
    spoil("produce.json", "\"parsnip\"", "\"role\":", "\"names_zz\": [\"gelbling\"], \"role\":");
    EXPECT_THAT(faults(), Contains(HasSubstr("names_zz: claims the name \"gelbling\"")));
}

TEST_F(LarderData, AFigureOutOfOrderIsRefused) {
    spoil("produce.json", "\"carrot\"", "\"typical\": 0.516", "\"typical\": 0.9");
    EXPECT_THAT(faults(), Contains(HasSubstr("produce.json, carrot, bulk_density: low, typical and "
                                             "high are not in that order")));
}

TEST_F(LarderData, ATimingRowThatRulesWithoutDaysIsRefused) {
    spoil("timing.json", "\"kraut-usda\"", "\"days_high\": 28,", "");
    EXPECT_THAT(faults(), Contains(HasSubstr("kraut-usda: rules the days, and is no window")));
}

TEST_F(LarderData, WhatRulesHasASourceWithAName) {
    spoil("timing.json", "\"kraut-usda\"", "\"timing-kraut-usda\"", "\"timing-kimchi-retail\"");
    spoil("kinds.json", "\"peppers\"", "\"row\": \"pepper-cp\"", "\"row\": \"pepper-jal\"");
    spoil("salts.json", "\"salt-sea-fine\"", "\"from_memory\"", "\"published\"");
    spoil("sources.json", "\"nameless\"", "\"salt-chart\"", "\"salt-chart\", \"no-source\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("kraut-usda: rules, and its source has no name")));
    EXPECT_THAT(faults(),
                Contains(HasSubstr("rests on a source that has no name, row pepper-jal")));
    EXPECT_THAT(faults(), Contains(HasSubstr("salt-sea-fine, bulk_density: is called published, "
                                             "and its source has no name")));
    EXPECT_THAT(faults(), Contains(HasSubstr("nameless: names what is no source")));
}

TEST_F(LarderData, ATimingRowOfAnUnknownKindIsRefused) {
    spoil("timing.json", "\"kraut-usda\"", "\"kraut\"", "\"krauts\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("kraut-usda: has an unknown kind krauts")));
}

TEST_F(LarderData, AMissingStatusIsRefused) {
    spoil("produce.json", "\"carrot\"", ", \"status\": \"published\"", "");
    EXPECT_THAT(faults(), Contains(HasSubstr("carrot, bulk_density: has no status")));
}

TEST_F(LarderData, AnUnknownStatusIsRefused) {
    spoil("salts.json", "salt-table", "\"published\"", "\"certain\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("unknown status \"certain\"")));
}

TEST_F(LarderData, AnUnknownSourceIsRefused) {
    spoil("produce.json", "\"carrot\"", "sr28-weight", "sr29");
    EXPECT_THAT(faults(), Contains(HasSubstr("unknown source \"sr29\"")));
}

TEST_F(LarderData, AnUnusedSourceIsRefused) {
    spoil("sources.json", "{", "\"sources\": {", "\"sources\": {\"spare\": \"a spare source\",");
    EXPECT_THAT(faults(), Contains(HasSubstr("sources.json, spare: is used by nothing")));
}

TEST_F(LarderData, ANameThatTwoMaterialsClaimIsRefused) {
    spoil("produce.json", "\"swede\"", "\"rutabaga\"", "\"rutabaga\", \"Turnips\", \"turnip\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("claims the name \"turnip\"")));
}

TEST_F(LarderData, ANameListedTwiceIsRefused) {
    spoil("produce.json", "\"swede\"", "\"rutabaga\"",
          "\"rutabaga\", \"Ruta-baga\", \"ruta baga\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("lists the name \"ruta baga\" twice")));
}

TEST_F(LarderData, ARulingOnAnUnknownRowIsRefused) {
    spoil("kinds.json", "\"kraut\"", "kraut-usbulk", "kraut-nowhere");
    EXPECT_THAT(faults(), Contains(HasSubstr("rests on an unknown row \"kraut-nowhere\"")));
}

TEST_F(LarderData, ARulingThatItsRowDoesNotStateIsRefused) {
    spoil("kinds.json", "\"kraut\"", "\"percent\": 2.0", "\"percent\": 1.5");
    EXPECT_THAT(faults(), Contains(HasSubstr("is not a figure of its row kraut-usbulk")));
}

TEST_F(LarderData, ARulingOnAnotherBasisThanItsRowIsRefused) {
    spoil("kinds.json", "\"kraut\"", "\"basis\": \"of_vegetables\"", "\"basis\": \"of_brine\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("is on another basis than its row kraut-usbulk")));
}

TEST_F(LarderData, ARulingOnARowOfAnotherKindIsRefused) {
    spoil("kinds.json", "\"beets\"", "\"row\": \"beet-cp\"", "\"row\": \"carrot-cp\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("rests on a row of another kind, carrot-cp")));
}

TEST_F(LarderData, AMisspeltMemberIsRefused) {
    spoil("produce.json", "\"carrot\"", "\"bulk_density\"", "\"bulk_densitty\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("does not know \"bulk_densitty\"")));
}

TEST_F(LarderData, ARowThatIsThereTwiceIsRefused) {
    spoil("ranges.json", "{", "\"kraut-umn\"", "\"kraut-usbulk\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("ranges.json, kraut-usbulk: is there twice")));
}

TEST_F(LarderData, AnUnknownCautionIsRefused) {
    spoil("kinds.json", "\"garlic\"", "\"garlic-slow\"", "\"garlic-fast\"");
    EXPECT_THAT(faults(), Contains(HasSubstr("names an unknown caution \"garlic-fast\"")));
}

TEST_F(LarderData, AnAbsurdDensityIsRefused) {
    spoil("brine.json", "density", "1015.", "115.");
    EXPECT_THAT(faults(), Contains(HasSubstr("has an absurd density")));
}

TEST_F(LarderData, AFileThatIsNoJsonOrIsMissingIsRefused) {
    std::ofstream(folder_ / "acids.json") << "{";
    fs::remove(folder_ / "others.json");
    const auto list = faults();
    EXPECT_THAT(list, Contains(HasSubstr("acids.json: cannot be read as JSON")));
    EXPECT_THAT(list, Contains(HasSubstr("others.json: cannot be read as JSON")));
}

} // namespace
