#include "engine/render/unified_diff.hpp"

#include "engine/render/obeyed.hpp"
#include "engine/render/page.hpp"

#include <algorithm>
#include <vector>

namespace jarful::render {

namespace {

using Lines = std::vector<std::string_view>;

/// Lines with their ends, so that a last line without one differs from one with.
Lines lines_of(std::string_view text) {
    Lines out;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        const std::size_t length = end == std::string_view::npos ? text.size() : end + 1;
        out.push_back(text.substr(0, length));
        text.remove_prefix(length);
    }
    return out;
}

struct Edit {
    char sign; ///< ' ', '-' or '+'
    std::string_view line;
};

/// Beyond so many edits the files are shown as wholly different: the shortest way would cost more
/// memory than it is worth.
constexpr int most_edits = 2000;

/// The shortest way from one to the other (E. W. Myers, "An O(ND) Difference Algorithm and Its
/// Variations", Algorithmica 1, 1986), or everything out and everything in.
class Shortest {
  public:
    Shortest(const Lines& a, const Lines& b)
        : a_(a)
        , b_(b) {}

    std::vector<Edit> run() {
        const int n = static_cast<int>(a_.size());
        const int m = static_cast<int>(b_.size());
        const int most = std::min(n + m, most_edits);
        std::vector<int> reach(2 * static_cast<std::size_t>(most) + 3, 0);
        const auto at = [&](int k) -> int& {
            const int place = k + most + 1;
            return reach[static_cast<std::size_t>(place)];
        };
        std::vector<std::vector<int>> trace;
        for (int d = 0; d <= most; ++d) {
            for (int k = -d; k <= d; k += 2) {
                int x = k == -d || (k != d && at(k - 1) < at(k + 1)) ? at(k + 1) : at(k - 1) + 1;
                while (x < n && x - k < m && x - k >= 0 && same(x, x - k))
                    ++x;
                at(k) = x;
                if (x >= n && x - k >= m) return back(trace, d);
            }
            // Only what this round reached is needed on the way back.
            trace.emplace_back(reach.begin() + (most + 1 - d), reach.begin() + (most + 2 + d));
        }
        std::vector<Edit> out;
        for (const std::string_view line : a_)
            out.push_back({'-', line});
        for (const std::string_view line : b_)
            out.push_back({'+', line});
        return out;
    }

  private:
    [[nodiscard]] bool same(int x, int y) const {
        return a_[static_cast<std::size_t>(x)] == b_[static_cast<std::size_t>(y)];
    }

    std::vector<Edit> back(const std::vector<std::vector<int>>& trace, int edits) const {
        std::vector<Edit> out;
        int x = static_cast<int>(a_.size());
        int y = static_cast<int>(b_.size());
        const auto keep = [&] {
            --x;
            --y;
            out.push_back({' ', a_[static_cast<std::size_t>(x)]});
        };
        for (int d = edits; d > 0; --d) {
            const std::vector<int>& reach = trace[static_cast<std::size_t>(d - 1)];
            const auto at = [&](int k) { return reach[static_cast<std::size_t>(k + d - 1)]; };
            const int k = x - y;
            const bool down =
                k == -d || (k != d && at_or(reach, d, k - 1) < at_or(reach, d, k + 1));
            const int from = down ? k + 1 : k - 1;
            const int to_x = at(from);
            const int to_y = to_x - from;
            while (x > to_x && y > to_y && (down ? y > to_y + 1 : x > to_x + 1))
                keep();
            if (down) {
                out.push_back({'+', b_[static_cast<std::size_t>(--y)]});
            } else {
                out.push_back({'-', a_[static_cast<std::size_t>(--x)]});
            }
        }
        while (x > 0 && y > 0)
            keep();
        std::reverse(out.begin(), out.end());
        return out;
    }

    /// What the round before reached on diagonal k; nothing outside of it.
    static int at_or(const std::vector<int>& reach, int d, int k) {
        return k < -(d - 1) || k > d - 1 ? -1 : reach[static_cast<std::size_t>(k + d - 1)];
    }

    const Lines& a_;
    const Lines& b_;
};

constexpr std::size_t context = 3;

std::string span_words(std::size_t first, std::size_t count) {
    // An empty span names the line before it.
    const std::size_t begin = count == 0 ? first : first + 1;
    return std::to_string(begin) + (count == 1 ? "" : "," + std::to_string(count));
}

} // namespace

namespace {

/// A name as `git` and GNU `patch` write and read one that has signs nobody sees, quotes or strokes
/// backwards in it: in quotes, those bytes in three octal digits.
std::string name_line(char side, std::string_view name) {
    std::string quoted;
    bool plain = true;
    for (std::size_t at = 0; at < name.size();) {
        const Character c = first_character(name.substr(at));
        for (const char byte : name.substr(at, c.bytes)) {
            if (c.sound && !is_obeyed(c.code) && byte != '"' && byte != '\\') {
                quoted += byte;
                continue;
            }
            const auto value = static_cast<unsigned char>(byte);
            quoted += '\\';
            for (const unsigned shift : {6U, 3U, 0U})
                quoted += static_cast<char>('0' + ((value >> shift) & 7U));
            plain = false;
        }
        at += c.bytes;
    }
    const std::string whole = std::string(1, side) + "/" + quoted;
    return plain ? whole : '"' + whole + '"';
}

} // namespace

std::string unified_diff(std::string_view before, std::string_view after, std::string_view name) {
    if (before == after) return {};
    const Lines a = lines_of(before);
    const Lines b = lines_of(after);
    const std::vector<Edit> edits = Shortest(a, b).run();
    std::string out = "--- " + name_line('a', name) + "\n+++ " + name_line('b', name) + "\n";
    std::size_t old_line = 0;
    std::size_t new_line = 0;
    for (std::size_t i = 0; i < edits.size();) {
        if (edits[i].sign == ' ') {
            ++i;
            ++old_line;
            ++new_line;
            continue;
        }
        // From here to the last change that the context of this one reaches.
        const std::size_t lead = std::min(context, i);
        std::size_t last = i;
        for (std::size_t j = i; j < edits.size() && j <= last + 2 * context + 1; ++j)
            if (edits[j].sign != ' ') last = j;
        const std::size_t end = std::min(edits.size(), last + context + 1);
        std::string body;
        std::size_t old_count = 0;
        std::size_t new_count = 0;
        for (std::size_t j = i - lead; j < end; ++j) {
            body += edits[j].sign;
            body += edits[j].line;
            if (!edits[j].line.ends_with('\n')) body += "\n\\ No newline at end of file\n";
            old_count += edits[j].sign != '+';
            new_count += edits[j].sign != '-';
        }
        old_line -= lead;
        new_line -= lead;
        out += "@@ -" + span_words(old_line, old_count) + " +" + span_words(new_line, new_count) +
               " @@\n" + body;
        old_line += old_count;
        new_line += new_count;
        i = end;
    }
    return out;
}

} // namespace jarful::render
