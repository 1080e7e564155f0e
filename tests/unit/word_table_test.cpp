#include "engine/larder/word_table.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <random>
#include <string>
#include <tuple>

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

/// Packs short words of a few letters.
std::map<std::string, std::uint16_t> some_words(std::mt19937& source, PackedWords& packed) {
    std::map<std::string, std::uint16_t> words;
    for (unsigned i = static_cast<unsigned>(source() % 200U); i > 0; --i) {
        std::string word;
        for (unsigned letters = static_cast<unsigned>(source() % 6U); letters > 0; --letters)
            word += static_cast<char>(source() % 20U == 0 ? 0xC4 : 'a' + source() % 3U);
        words[word] = static_cast<std::uint16_t>(source());
    }
    for (const auto& [word, number] : words)
        EXPECT_TRUE(packed.add(word, number));
    return words;
}

TEST(WordTable, HoldsSeveralPackedOnes) {
    std::mt19937 source(8);
    for (int round = 0; round < 100; ++round) {
        std::vector<PackedWords> packed(3);
        std::vector<std::map<std::string, std::uint16_t>> words;
        std::vector<jarful::larder::PackedTable> tables;
        for (PackedWords& one : packed) {
            words.push_back(some_words(source, one));
            tables.push_back(one.table());
        }
        for (const auto letters : {WordTable::Letters::as_packed, WordTable::Letters::backwards}) {
            const WordTable table(tables, letters);
            const auto turned = [&](std::string word) {
                if (letters == WordTable::Letters::backwards)
                    std::reverse(word.begin(), word.end());
                return word;
            };
            for (int i = 0; i < 100; ++i) {
                std::string text;
                for (unsigned n = static_cast<unsigned>(source() % 8U); n > 0; --n)
                    text += static_cast<char>('a' + source() % 3U);
                // Word, table, number: as a look through all of them finds it.
                std::vector<std::tuple<std::string, int, int>> same, beginnings;
                for (std::size_t length = 0; length <= text.size(); ++length)
                    for (std::size_t t = 0; t < words.size(); ++t) {
                        const auto found = words[t].find(turned(text.substr(0, length)));
                        if (found == words[t].end()) continue;
                        const std::tuple one(text.substr(0, length), static_cast<int>(t),
                                             static_cast<int>(found->second));
                        if (length == text.size()) same.push_back(one);
                        if (length > 0) beginnings.push_back(one);
                    }
                std::vector<std::tuple<std::string, int, int>> found_same, found_beginnings;
                const auto keep = [](auto& out) {
                    return [&out](const WordTable::Entry& entry) {
                        out.emplace_back(std::string(entry.word), entry.table, entry.number);
                    };
                };
                const auto all = table.find_all(text);
                std::for_each(all.begin(), all.end(), keep(found_same));
                table.find_beginnings(text, keep(found_beginnings));
                EXPECT_EQ(found_same, same) << text;
                EXPECT_EQ(found_beginnings, beginnings) << text;
            }
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
