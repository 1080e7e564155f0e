#include "engine/larder/word_table.hpp"

#include <gtest/gtest.h>

#include <map>
#include <random>
#include <string>

/// Packed words come out as they went in, and nothing else does.
namespace {

using jarful::larder::find;
using jarful::larder::PackedWords;
using jarful::larder::WordTable;

TEST(WordTable, HoldsWhatWasPacked) {
    std::mt19937 source(7);
    const auto below = [&](unsigned n) { return static_cast<unsigned>(source() % n); };
    for (int round = 0; round < 200; ++round) {
        std::map<std::string, std::uint16_t> words;
        for (unsigned i = below(300); i > 0; --i) {
            std::string word;
            for (unsigned letters = below(9); letters > 0; --letters)
                word += static_cast<char>(below(20) == 0 ? 0xC4 : 'a' + below(4));
            words[word] = static_cast<std::uint16_t>(source());
        }
        PackedWords packed;
        for (const auto& [word, number] : words)
            ASSERT_TRUE(packed.add(word, number));
        WordTable first(packed.table());
        const WordTable table = std::move(first);
        ASSERT_EQ(table.entries().size(), words.size());
        EXPECT_EQ(table.empty(), words.empty());
        auto expected = words.begin();
        for (const WordTable::Entry& entry : table.entries()) {
            EXPECT_EQ(entry.word, expected->first);
            EXPECT_EQ(entry.number, expected->second);
            const WordTable::Entry* found = table.find(entry.word);
            ASSERT_NE(found, nullptr) << entry.word;
            EXPECT_EQ(found->number, entry.number);
            const std::string longer = std::string(entry.word) + "q";
            EXPECT_EQ(table.find(longer), nullptr);
            EXPECT_EQ(find(packed.table(), entry.word), entry.number);
            EXPECT_EQ(find(packed.table(), longer), std::nullopt);
            ++expected;
        }
        for (int i = 0; i < 50; ++i) {
            std::string word;
            for (unsigned letters = below(6); letters > 0; --letters)
                word += static_cast<char>('a' + below(5));
            const auto place = words.find(word);
            const auto wanted =
                place == words.end() ? std::nullopt : std::optional<std::uint16_t>(place->second);
            EXPECT_EQ(find(packed.table(), word), wanted) << word;
            EXPECT_EQ(table.find(word) != nullptr, wanted.has_value()) << word;
        }
    }
}

TEST(WordTable, TakesWordsInTheirOrderOnly) {
    PackedWords packed;
    EXPECT_TRUE(packed.add("salt", 1));
    EXPECT_FALSE(packed.add("salt", 2));
    EXPECT_FALSE(packed.add("brine", 2));
    EXPECT_FALSE(packed.add(std::string("water\0s", 7), 2));
    EXPECT_FALSE(packed.add(std::string(256, 'w'), 2));
    EXPECT_TRUE(packed.add("salts", 2));
    EXPECT_EQ(packed.bytes(), std::string("\0salt\0\1\0\4s\0\2\0", 13));
}

TEST(WordTable, TakesNothingOfBytesThatAreNoTable) {
    EXPECT_TRUE(WordTable({}).empty());
    EXPECT_EQ(WordTable({}).find("salt"), nullptr);
    EXPECT_TRUE(WordTable({"no table at all", {}}).empty());
    const std::string good("\0salt\0\1\0", 8);
    for (std::size_t size = 0; size < good.size(); ++size)
        EXPECT_TRUE(WordTable({std::string_view(good).substr(0, size), {}}).empty()) << size;
    // Says that it shares more with the word before than that has.
    const std::string wrong = good + std::string("\7y\0\1\0", 5);
    EXPECT_EQ(WordTable({wrong, {}}).entries().size(), 1U);
    const std::uint16_t places[] = {0};
    EXPECT_EQ(find({wrong, places}, "salt"), 1);
    EXPECT_EQ(find({wrong, places}, "sally"), std::nullopt);
    EXPECT_EQ(find({"", places}, "salt"), std::nullopt);
}

} // namespace
