#include "engine/plan/compare_texts.hpp"

#include <algorithm>

namespace jarful::plan {

namespace {

/// For each text of `before` its partner in a longest common subsequence; empty where it has none.
std::vector<std::optional<std::size_t>> partners(const std::vector<KeyedText>& before,
                                                 const std::vector<KeyedText>& after) {
    const std::size_t n = before.size();
    const std::size_t m = after.size();
    std::vector<std::size_t> longest((n + 1) * (m + 1), 0);
    const auto at = [&](std::size_t i, std::size_t j) -> std::size_t& {
        return longest[i * (m + 1) + j];
    };
    for (std::size_t i = n; i-- > 0;)
        for (std::size_t j = m; j-- > 0;)
            at(i, j) =
                before[i] == after[j] ? at(i + 1, j + 1) + 1 : std::max(at(i + 1, j), at(i, j + 1));
    std::vector<std::optional<std::size_t>> out(n);
    for (std::size_t i = 0, j = 0; i < n && j < m;) {
        if (before[i] == after[j])
            out[i++] = j++;
        else if (at(i + 1, j) >= at(i, j + 1))
            ++i;
        else
            ++j;
    }
    return out;
}

/// What stands between two partners on either side.
struct Gap {
    std::vector<std::size_t> before, after;
};

std::vector<Gap> gaps(const std::vector<KeyedText>& before, const std::vector<KeyedText>& after) {
    std::vector<Gap> out(1);
    std::size_t j = 0;
    const auto partner = partners(before, after);
    for (std::size_t i = 0; i < before.size(); ++i) {
        if (!partner[i]) {
            out.back().before.push_back(i);
            continue;
        }
        while (j < *partner[i])
            out.back().after.push_back(j++);
        ++j;
        out.emplace_back();
    }
    while (j < after.size())
        out.back().after.push_back(j++);
    return out;
}

/// Takes the texts that stand on both sides, in different gaps, out of the gaps.
std::vector<ComparedText> take_moved(std::vector<Gap>& all, const std::vector<KeyedText>& before,
                                     const std::vector<KeyedText>& after) {
    std::vector<ComparedText> out;
    for (Gap& from : all) {
        std::erase_if(from.before, [&](std::size_t i) {
            for (Gap& to : all) {
                const auto found =
                    std::find_if(to.after.begin(), to.after.end(),
                                 [&](std::size_t j) { return after[j] == before[i]; });
                if (found == to.after.end()) continue;
                to.after.erase(found);
                out.push_back({ComparedText::Sort::moved, before[i].text, before[i].text});
                return true;
            }
            return false;
        });
    }
    return out;
}

} // namespace

std::vector<ComparedText> compare_texts(std::vector<KeyedText> before, std::vector<KeyedText> after,
                                        bool ordered) {
    std::vector<Gap> all = gaps(before, after);
    std::vector<ComparedText> moved = take_moved(all, before, after);
    if (!ordered) moved.clear();
    std::vector<ComparedText> out;
    for (Gap& gap : all) {
        for (const std::size_t i : gap.before) {
            const auto found = std::find_if(gap.after.begin(), gap.after.end(), [&](std::size_t j) {
                return after[j].key == before[i].key;
            });
            if (found == gap.after.end()) {
                out.push_back({ComparedText::Sort::gone, before[i].text, {}});
                continue;
            }
            out.push_back({ComparedText::Sort::changed, before[i].text, after[*found].text});
            gap.after.erase(found);
        }
        for (const std::size_t j : gap.after)
            out.push_back({ComparedText::Sort::appeared, {}, after[j].text});
    }
    out.insert(out.end(), moved.begin(), moved.end());
    return out;
}

} // namespace jarful::plan
