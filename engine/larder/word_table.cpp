#include "engine/larder/word_table.hpp"

#include <algorithm>
#include <optional>

namespace jarful::larder {

namespace {

/// FNV-1a, folded to where its low bits depend on all bytes.
std::size_t hash_of(std::string_view word) {
    std::uint32_t hash = 2166136261U;
    for (const char c : word)
        hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
    return hash ^ (hash >> 15);
}

/// A packed word as it stands there.
struct Packed {
    std::size_t shared = 0;
    std::string_view rest;
    std::uint16_t number = 0;
};

/// The next packed word, taken off the front; empty where none is left.
std::optional<Packed> next(std::string_view& packed) {
    if (packed.empty()) return std::nullopt;
    const std::size_t end = packed.find('\0', 1);
    if (end == std::string_view::npos || end + 2 >= packed.size()) return std::nullopt;
    const auto byte = [&](std::size_t i) {
        return static_cast<std::uint16_t>(static_cast<unsigned char>(packed[i]));
    };
    const Packed out{byte(0), packed.substr(1, end - 1),
                     static_cast<std::uint16_t>(byte(end + 1) + 256 * byte(end + 2))};
    packed.remove_prefix(end + 3);
    return out;
}

constexpr std::size_t run = 16; ///< words from one that stands whole to the next

} // namespace

std::optional<std::uint16_t> find(const PackedTable& table, std::string_view word) {
    // The last run whose first word is not above this one.
    const auto above =
        std::partition_point(table.places.begin(), table.places.end(), [&](std::uint16_t place) {
            std::string_view here = table.bytes.substr(place);
            const auto first = next(here);
            return first && first->rest <= word;
        });
    if (above == table.places.begin()) return std::nullopt;
    std::string_view rest = table.bytes.substr(*(above - 1));
    // How many bytes of the word are those of the packed one; of a later one that shares more with
    // its neighbour than that, no more can be.
    std::size_t same = 0;
    for (std::size_t i = 0; i < run; ++i) {
        const auto one = next(rest);
        if (!one) break;
        if (one->shared < same) break; // all that follow are above
        if (one->shared > same) continue;
        const std::string_view tail = word.substr(same);
        const auto [a, b] =
            std::mismatch(tail.begin(), tail.end(), one->rest.begin(), one->rest.end());
        if (a == tail.end() && b == one->rest.end()) return one->number;
        same += static_cast<std::size_t>(a - tail.begin());
    }
    return std::nullopt;
}

bool PackedWords::add(std::string_view word, std::uint16_t number) {
    if (word.size() > 255 || word.find('\0') != std::string_view::npos ||
        (words_ > 0 && word <= last_) || bytes_.size() + word.size() + 4 > 0xFFFF)
        return false;
    std::size_t shared = 0;
    if (words_ % run == 0)
        places_.push_back(static_cast<std::uint16_t>(bytes_.size()));
    else
        shared = static_cast<std::size_t>(
            std::mismatch(word.begin(), word.end(), last_.begin(), last_.end()).first -
            word.begin());
    ++words_;
    bytes_ += static_cast<char>(shared);
    bytes_ += word.substr(shared);
    bytes_ += '\0';
    bytes_ += static_cast<char>(number % 256);
    bytes_ += static_cast<char>(number / 256);
    last_ = word;
    return true;
}

WordTable::WordTable(std::span<const PackedTable> packed, Letters letters) {
    std::size_t words = 0;
    std::size_t bytes = 0;
    for (const PackedTable& table : packed)
        for (std::string_view rest = table.bytes; const auto one = next(rest); ++words)
            bytes += one->shared + one->rest.size();
    letters_.reserve(bytes); // so that what points into it stays
    entries_.reserve(words);
    for (std::size_t i = 0; i < packed.size() && i < 256; ++i)
        unpack(packed[i].bytes, static_cast<std::uint8_t>(i));
    if (letters == Letters::backwards)
        for (const Entry& entry : entries_) {
            char* const first = letters_.data() + (entry.word.data() - letters_.data());
            std::reverse(first, first + entry.word.size());
        }
    if (packed.size() > 1 || letters == Letters::backwards)
        std::stable_sort(entries_.begin(), entries_.end(),
                         [](const Entry& a, const Entry& b) { return a.word < b.word; });
    std::size_t size = 4;
    while (size < 2 * entries_.size())
        size *= 2;
    slots_.assign(size, 0);
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        const std::string_view word = entries_[i].word;
        const std::size_t first =
            word.empty() ? 0 : static_cast<unsigned char>(word.front()) + std::size_t{1};
        firsts_[first] = static_cast<std::uint16_t>(i + 1);
        if (i > 0 && entries_[i - 1].word == word) continue;
        std::size_t slot = hash_of(word) & (size - 1);
        while (slots_[slot] != 0)
            slot = (slot + 1) & (size - 1);
        slots_[slot] = static_cast<std::uint16_t>(i + 1);
    }
    for (std::size_t i = 1; i < firsts_.size(); ++i)
        firsts_[i] = std::max(firsts_[i], firsts_[i - 1]);
}

void WordTable::unpack(std::string_view packed, std::uint8_t table) {
    constexpr std::size_t most = 0xFFFE;
    std::string_view before;
    while (const auto one = next(packed)) {
        if (one->shared > before.size() || entries_.size() == most) break;
        const std::size_t begin = letters_.size();
        letters_.insert(letters_.end(), before.begin(),
                        before.begin() + static_cast<std::ptrdiff_t>(one->shared));
        letters_.insert(letters_.end(), one->rest.begin(), one->rest.end());
        before = {letters_.data() + begin, letters_.size() - begin};
        entries_.push_back({before, one->number, table});
    }
}

const WordTable::Entry* WordTable::find(std::string_view word) const {
    const std::size_t last = slots_.size() - 1;
    for (std::size_t slot = hash_of(word) & last; slots_[slot] != 0; slot = (slot + 1) & last) {
        const Entry& entry = entries_[slots_[slot] - 1U];
        if (entry.word == word) return &entry;
    }
    return nullptr;
}

std::span<const WordTable::Entry> WordTable::find_all(std::string_view word) const {
    const Entry* const first = find(word);
    if (first == nullptr) return {};
    std::size_t count = 1;
    const auto begin = static_cast<std::size_t>(first - entries_.data());
    while (begin + count < entries_.size() && entries_[begin + count].word == word)
        ++count;
    return {first, count};
}

} // namespace jarful::larder
