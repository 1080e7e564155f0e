#include "engine/units/nearest.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace jarful::units {

namespace {

std::string lower(std::string_view word) {
    std::string out(word);
    for (char& c : out) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return out;
}

/// Which letters a word has, in 32 groups.
std::uint32_t letters_of(std::string_view word) {
    std::uint32_t out = 0;
    for (const char c : word)
        out |= 1U << (static_cast<unsigned char>(c) & 31U);
    return out;
}

} // namespace

int edit_distance(std::string_view a, std::string_view b, int bound) {
    const auto beyond = bound + 1;
    const auto longer = std::max(a.size(), b.size());
    const auto shorter = std::min(a.size(), b.size());
    if (longer - shorter > static_cast<std::size_t>(std::max(bound, 0))) return beyond;
    // A slip takes one letter away at most, and brings one in: nearly all words differ in more.
    const std::uint32_t in_a = letters_of(a);
    const std::uint32_t in_b = letters_of(b);
    if (std::max(std::popcount(in_a & ~in_b), std::popcount(in_b & ~in_a)) > bound) return beyond;

    // Three rows of the usual table: the swap of neighbours looks two rows back. Names are short,
    // so the rows live on the stack unless somebody passes a whole paragraph.
    constexpr std::size_t usual = 64;
    std::array<int, 3 * usual> few{};
    std::vector<int> many;
    const std::size_t width = b.size() + 1;
    int* rows = few.data();
    if (width > usual) {
        many.resize(3 * width);
        rows = many.data();
    }
    int* before = rows;
    int* last = rows + width;
    int* now = rows + 2 * width;
    for (std::size_t j = 0; j < width; ++j)
        last[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        now[0] = static_cast<int>(i);
        int least = now[0];
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const int changed = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            now[j] = std::min({changed, last[j] + 1, now[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                now[j] = std::min(now[j], before[j - 2] + 1);
            }
            least = std::min(least, now[j]);
        }
        // A swap can reach past one row, but never gains on both rows before it.
        if (least > beyond) return beyond;
        int* const free_row = before;
        before = last;
        last = now;
        now = free_row;
    }
    return std::min(last[b.size()], beyond);
}

int forgiven_slips(std::size_t letters) {
    return static_cast<int>(std::clamp<std::size_t>(letters / 3, 1, 4));
}

std::optional<std::string_view> nearest(std::string_view word,
                                        std::span<const std::string_view> known) {
    if (word.empty()) return std::nullopt;
    const std::string wanted = lower(word);
    int bound = forgiven_slips(word.size());
    std::optional<std::string_view> best;
    for (const std::string_view candidate : known) {
        const int slips = edit_distance(wanted, lower(candidate), bound);
        if (slips > bound) continue;
        // A word of which nothing is left over is no suggestion.
        if (static_cast<std::size_t>(slips) >= std::max(word.size(), candidate.size())) continue;
        best = candidate;
        if (slips == 0) break;
        bound = slips - 1;
    }
    return best;
}

} // namespace jarful::units
