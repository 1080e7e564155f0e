#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// Words with a number each, small in the program. The compilers of the tables write them with
/// PackedWords; they are looked up as they stand, or, where many are asked for, in a WordTable that
/// is unpacked once.
namespace jarful::larder {

/// A packed table as it stands in the program.
struct PackedTable {
    std::string_view bytes;                ///< as PackedWords writes them
    std::span<const std::uint16_t> places; ///< where every sixteenth word begins
};

/// The number of a word; empty if it is not there. Nothing is unpacked.
[[nodiscard]] std::optional<std::uint16_t> find(const PackedTable& table, std::string_view word);

/// Packs words: of each the bytes that it has in common with the one before (a count in one byte;
/// none of every sixteenth), the rest of its bytes, a zero, and its number in two bytes, the low
/// one first.
class PackedWords {
  public:
    /// The next word, in rising order of bytes. @return false, and nothing is added, if it is not
    /// above the last, is longer than 255 bytes or holds a zero, or the table is full (64 KiB).
    bool add(std::string_view word, std::uint16_t number);
    [[nodiscard]] const std::string& bytes() const { return bytes_; }
    [[nodiscard]] const std::vector<std::uint16_t>& places() const { return places_; }
    [[nodiscard]] PackedTable table() const { return {bytes_, places_}; }

  private:
    std::string bytes_, last_;
    std::vector<std::uint16_t> places_;
    std::size_t words_ = 0;
};

/// An unpacked table. It does not point into what it was made of.
class WordTable {
  public:
    struct Entry {
        std::string_view word;
        std::uint16_t number = 0;
    };

    /// @param packed as PackedWords writes it; from where it is something else, nothing is taken
    explicit WordTable(const PackedTable& packed);
    WordTable(WordTable&&) = default;
    WordTable(const WordTable&) = delete;
    WordTable& operator=(WordTable&&) = default;
    WordTable& operator=(const WordTable&) = delete;
    ~WordTable() = default;

    /// nullptr if the word is not there. Its time depends on the word's length only.
    [[nodiscard]] const Entry* find(std::string_view word) const;
    /// All of them, sorted by their bytes.
    [[nodiscard]] std::span<const Entry> entries() const { return entries_; }
    [[nodiscard]] bool empty() const { return entries_.empty(); }

  private:
    std::vector<char> letters_;
    std::vector<Entry> entries_;
    std::vector<std::uint16_t> slots_; ///< a power of two; place in `entries_` from 1, 0 for none
};

} // namespace jarful::larder
