#pragma once

#include <algorithm>
#include <array>
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

/// Packed tables, one or several, unpacked into one. It does not point into what it was made of.
class WordTable {
  public:
    struct Entry {
        std::string_view word;
        std::uint16_t number = 0;
        std::uint8_t table = 0; ///< which of the packed ones
    };
    enum class Letters : std::uint8_t {
        as_packed,
        backwards ///< of each word the last letter first
    };

    /// @param packed as PackedWords writes it; from where it is something else, nothing is taken
    explicit WordTable(const PackedTable& packed)
        : WordTable(std::span(&packed, 1), Letters::as_packed) {}
    /// @param packed at most 256, whose words are 65,534 together at most; the rest is left out
    WordTable(std::span<const PackedTable> packed, Letters letters);
    WordTable(WordTable&&) = default;
    WordTable(const WordTable&) = delete;
    WordTable& operator=(WordTable&&) = default;
    WordTable& operator=(const WordTable&) = delete;
    ~WordTable() = default;

    /// nullptr if the word is not there. Its time depends on the word's length only.
    [[nodiscard]] const Entry* find(std::string_view word) const;
    /// What each of the packed tables has under a word, in their order.
    [[nodiscard]] std::span<const Entry> find_all(std::string_view word) const;
    /// Tells every entry that a text begins with, the whole text too, the shorter ones first. Its
    /// time depends on how far the text goes along with any word.
    /// @param found takes an Entry
    template <class Found>
    void find_beginnings(std::string_view text, const Found& found) const;
    /// All of them, sorted by their bytes, and of equal ones by their tables.
    [[nodiscard]] std::span<const Entry> entries() const { return entries_; }
    [[nodiscard]] bool empty() const { return entries_.empty(); }

  private:
    void unpack(std::string_view packed, std::uint8_t table);
    [[nodiscard]] std::span<const Entry> with_first(char letter) const {
        const auto at = static_cast<unsigned char>(letter);
        return entries().subspan(firsts_[at], firsts_[at + 1U] - firsts_[at]);
    }

    std::vector<char> letters_;
    std::vector<Entry> entries_;
    std::vector<std::uint16_t> slots_; ///< a power of two; place in `entries_` from 1, 0 for none
    std::array<std::uint16_t, 257> firsts_{}; ///< by their first byte
};

template <class Found>
void WordTable::find_beginnings(std::string_view text, const Found& found) const {
    if (text.empty()) return;
    std::span<const Entry> left = with_first(text.front());
    for (std::size_t length = 1; !left.empty(); ++length) {
        // Those that end here come before those that go on.
        std::size_t ended = 0;
        for (; ended < left.size() && left[ended].word.size() == length; ++ended)
            found(left[ended]);
        left = left.subspan(ended);
        if (length == text.size()) return;
        const auto letter = static_cast<unsigned char>(text[length]);
        const auto below = [&](const Entry& entry) {
            return static_cast<unsigned char>(entry.word[length]) < letter;
        };
        const auto not_above = [&](const Entry& entry) {
            return static_cast<unsigned char>(entry.word[length]) <= letter;
        };
        const auto begin = std::partition_point(left.begin(), left.end(), below);
        left = {begin, std::partition_point(begin, left.end(), not_above)};
    }
}

} // namespace jarful::larder
