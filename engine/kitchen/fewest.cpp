#include "engine/kitchen/fewest.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>
#include <numeric>

namespace jarful::kitchen {

namespace {

constexpr std::size_t most_made = std::size_t{1} << 23; // sums; forty different rooms make 2^21
constexpr std::size_t at_once = std::size_t{1} << 17;
constexpr std::size_t few = std::size_t{1} << 14;
constexpr double alike = 1e-3;    // mL
constexpr int most_vessels = 400; // of a choice that is searched for
constexpr std::uint32_t nothing = 0xffff'ffff;

/// How a sum was made: so many of one room, on top of an earlier sum.
struct Made {
    std::uint32_t before = nothing;
    std::uint32_t room = 0;
    std::uint16_t times = 0;
    std::uint16_t different = 0; ///< rooms in it
};

/// Sums in rising order, each with how it was made.
struct Sums {
    std::vector<double> ml;
    std::vector<std::uint32_t> made;
    [[nodiscard]] std::size_t size() const { return ml.size(); }
};

/// What the rooms that are still to come can add: the least and the most that so many of them make.
struct Coming {
    std::vector<double> least, most; ///< by how many
};

Coming coming(const std::vector<Room>& rooms, const std::vector<std::size_t>& which) {
    std::vector<double> all;
    for (std::size_t r : which)
        all.insert(all.end(), static_cast<std::size_t>(rooms[r].have), rooms[r].ml);
    std::sort(all.begin(), all.end());
    Coming c;
    c.least.assign(1, 0);
    c.most.assign(1, 0);
    for (std::size_t i = 0; i < all.size(); ++i) {
        c.least.push_back(c.least.back() + all[i]);
        c.most.push_back(c.most.back() + all[all.size() - 1 - i]);
    }
    return c;
}

class Search {
  public:
    /// @param rooms with no more of one than `count`, which together hold the volume.
    Search(const std::vector<Room>& rooms, double volume, int count, double slack)
        : rooms_(rooms)
        , volume_(volume)
        , count_(count)
        , slack_(slack) {}

    Choice run() {
        Choice choice = first_guess();
        // An ordinary kitchen is done at once. Where there are very many sums, some of them may be
        // enough to find a choice that no other betters by anything that could be measured.
        if (search(choice, at_once, false)) return choice;
        search(choice, most_made, true);
        if (known_ <= alike) return choice;
        if (!search(choice, most_made, false)) choice.exact = false;
        return choice;
    }

  private:
    /// Looks for a better choice than the one known so far. False if it had to give up.
    /// @param some look at some of the sums only.
    bool search(Choice& choice, std::size_t most, bool some) {
        made_.clear();
        most_ = most;
        some_ = some;
        too_many_ = false;
        best_ = std::numeric_limits<double>::infinity();
        best_different_ = std::numeric_limits<int>::max();
        std::vector<std::size_t> left, right;
        split(left, right);
        const std::vector<Sums> a = half(left);
        if (too_many_) return false;
        const std::vector<Sums> b = half(right);
        if (too_many_) return false;
        meet(a, b);
        if (best_different_ == std::numeric_limits<int>::max()) return true;
        if (some && best_ >= known_) return true;
        known_ = std::min(known_, best_);
        choice.times.assign(rooms_.size(), 0);
        for (const std::uint32_t end : {best_left_, best_right_})
            for (std::uint32_t m = end; m != nothing; m = made_[m].before)
                choice.times[made_[m].room] += made_[m].times;
        return true;
    }

    /// A choice that is easy to find: the largest, and then whatever single exchange for a smaller
    /// one helps most, again and again. What it leaves empty is the most that is worth looking at.
    Choice first_guess() {
        std::vector<std::size_t> order(rooms_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(),
                         [&](auto x, auto y) { return rooms_[x].ml > rooms_[y].ml; });
        Choice choice;
        choice.times.assign(rooms_.size(), 0);
        int left = count_;
        double empty = -volume_;
        for (const std::size_t r : order) {
            const int n = std::min(left, rooms_[r].have);
            choice.times[r] = n;
            left -= n;
            empty += n * rooms_[r].ml;
        }
        for (int rounds = 0; rounds < 1000; ++rounds) {
            double gain = slack_;
            std::size_t from = 0, to = 0;
            for (std::size_t i = 0; i < rooms_.size(); ++i) {
                if (choice.times[i] == 0) continue;
                for (std::size_t o = 0; o < rooms_.size(); ++o) {
                    const double less = rooms_[i].ml - rooms_[o].ml;
                    if (choice.times[o] == rooms_[o].have || less <= gain || less > empty) continue;
                    gain = less;
                    from = i;
                    to = o;
                }
            }
            if (from == to) break;
            --choice.times[from];
            ++choice.times[to];
            empty -= gain;
        }
        known_ = std::max(0.0, empty);
        return choice;
    }

    /// Two halves that make about as many sums each; the larger rooms first, since they say soonest
    /// what cannot come out.
    void split(std::vector<std::size_t>& left, std::vector<std::size_t>& right) const {
        std::vector<std::size_t> order(rooms_.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
        std::stable_sort(order.begin(), order.end(),
                         [&](auto x, auto y) { return rooms_[x].ml > rooms_[y].ml; });
        double left_size = 0;
        double right_size = 0;
        for (const std::size_t r : order) {
            const double size = std::log2(1.0 + rooms_[r].have);
            (left_size <= right_size ? left : right).push_back(r);
            (left_size <= right_size ? left_size : right_size) += size;
        }
    }

    /// Every sum of these rooms, or some of them, that can still come out, by how many make it.
    std::vector<Sums> half(const std::vector<std::size_t>& which) {
        std::vector<Sums> sums(1);
        sums[0].ml.push_back(0);
        sums[0].made.push_back(nothing);
        std::vector<char> used(rooms_.size(), 0);
        for (const std::size_t room : which) {
            used[room] = 1;
            std::vector<std::size_t> open;
            for (std::size_t r = 0; r < rooms_.size(); ++r)
                if (used[r] == 0) open.push_back(r);
            sums = with(sums, room, coming(rooms_, open));
            if (too_many_) break;
            if (some_) thin(sums);
        }
        return sums;
    }

    std::vector<Sums> with(const std::vector<Sums>& old, std::size_t room, const Coming& rest) {
        const int have = rooms_[room].have;
        const std::size_t top = std::min(static_cast<std::size_t>(count_),
                                         old.size() - 1 + static_cast<std::size_t>(have));
        std::vector<Sums> next(top + 1);
        for (std::size_t n = 0; n <= top; ++n) {
            const std::size_t wanted = static_cast<std::size_t>(count_) - n;
            if (wanted >= rest.most.size()) continue; // too few are still to come
            const double low = volume_ - rest.most[wanted] - slack_;
            const double high = volume_ + known_ - rest.least[wanted] + alike + 2 * slack_;
            Sums all;
            if (n < old.size()) all = between(old[n], low, high);
            for (int times = 1; times <= have && times <= static_cast<int>(n); ++times) {
                const std::size_t from = n - static_cast<std::size_t>(times);
                if (from >= old.size() || old[from].size() == 0) continue;
                all = merged(all, old[from], room, times, low, high);
                if (made_.size() > most_) too_many_ = true;
                if (too_many_) return next;
            }
            next[n] = std::move(all);
        }
        return next;
    }

    /// Leaves away every second sum until there are few.
    static void thin(std::vector<Sums>& sums) {
        for (;;) {
            std::size_t all = 0;
            for (const Sums& each : sums)
                all += each.size();
            if (all <= few) return;
            for (Sums& each : sums) {
                std::size_t end = 0;
                for (std::size_t i = 0; i < each.size(); i += 2, ++end) {
                    each.ml[end] = each.ml[i];
                    each.made[end] = each.made[i];
                }
                each.ml.resize(end);
                each.made.resize(end);
            }
        }
    }

    static Sums between(const Sums& sums, double low, double high) {
        const auto from = std::lower_bound(sums.ml.begin(), sums.ml.end(), low) - sums.ml.begin();
        const auto to = std::upper_bound(sums.ml.begin(), sums.ml.end(), high) - sums.ml.begin();
        Sums out;
        if (to <= from) return out;
        out.ml.assign(sums.ml.begin() + from, sums.ml.begin() + to);
        out.made.assign(sums.made.begin() + from, sums.made.begin() + to);
        return out;
    }

    /// The sums of `a`, and those of `b` with so many of a room added that lie in the bounds.
    Sums merged(const Sums& a, const Sums& b, std::size_t room, int times, double low,
                double high) {
        const double add = rooms_[room].ml * times;
        const auto at = [](const std::vector<double>& v, double x) {
            return static_cast<std::size_t>(std::lower_bound(v.begin(), v.end(), x) - v.begin());
        };
        std::size_t i = 0;
        std::size_t j = at(b.ml, low - add);
        const std::size_t b_end = at(b.ml, high - add);
        if (j >= b_end) return a;
        Sums out;
        out.ml.resize(a.size() + b_end - j);
        out.made.resize(out.ml.size());
        std::size_t end = 0;
        double last = -std::numeric_limits<double>::infinity();
        while (i < a.size() || j < b_end) {
            const bool take_a = j == b_end || (i < a.size() && a.ml[i] <= b.ml[j] + add);
            const double ml = take_a ? a.ml[i] : b.ml[j] + add;
            const std::uint32_t made = take_a ? a.made[i++] : b.made[j++];
            const bool same = ml - last <= slack_;
            // Of two ways to the same sum the plainer one stays.
            if (same && different(made) + (take_a ? 0 : 1) >= different(out.made[end - 1]))
                continue;
            if (!same) {
                last = ml;
                out.ml[end++] = ml;
            }
            out.made[end - 1] = take_a ? made : make(made, room, times);
        }
        out.ml.resize(end);
        out.made.resize(end);
        return out;
    }

    std::uint32_t make(std::uint32_t before, std::size_t room, int times) {
        made_.push_back({before, static_cast<std::uint32_t>(room),
                         static_cast<std::uint16_t>(times),
                         static_cast<std::uint16_t>(different(before) + 1)});
        return static_cast<std::uint32_t>(made_.size() - 1);
    }

    [[nodiscard]] int different(std::uint32_t made) const {
        return made == nothing ? 0 : made_[made].different;
    }

    void meet(const std::vector<Sums>& a, const std::vector<Sums>& b) {
        for (std::size_t n = 0; n < a.size(); ++n) {
            const std::size_t rest = static_cast<std::size_t>(count_) - n;
            if (rest >= b.size()) continue;
            const Sums& x = a[n];
            const Sums& y = b[rest];
            std::size_t j = y.size();
            for (std::size_t i = 0; i < x.size(); ++i) {
                const double least = volume_ - slack_ - x.ml[i];
                while (j > 0 && y.ml[j - 1] >= least)
                    --j;
                if (j < y.size()) consider(x.ml[i] + y.ml[j] - volume_, x.made[i], y.made[j]);
            }
        }
    }

    void consider(double empty, std::uint32_t left, std::uint32_t right) {
        empty = std::max(0.0, empty);
        if (empty > best_ + alike) return;
        const int many = different(left) + different(right);
        if (empty > best_ - alike && many >= best_different_) return;
        best_ = std::min(best_, empty);
        best_different_ = many;
        best_left_ = left;
        best_right_ = right;
    }

    const std::vector<Room>& rooms_;
    double volume_;
    int count_;
    double slack_;
    double known_ = 0; ///< room that the first guess leaves empty
    std::vector<Made> made_;
    std::size_t most_ = most_made;
    bool some_ = false;
    bool too_many_ = false;
    double best_ = std::numeric_limits<double>::infinity();
    int best_different_ = std::numeric_limits<int>::max();
    std::uint32_t best_left_ = nothing, best_right_ = nothing;
};

/// For more vessels than anybody owns: the largest, and the last of them as small as it can be.
Choice largest(const std::vector<Room>& rooms, const std::vector<std::size_t>& order,
               double volume) {
    Choice choice;
    choice.exact = false;
    choice.times.assign(rooms.size(), 0);
    double left = volume;
    for (std::size_t r : order) {
        const double all = std::ceil(left / rooms[r].ml * (1 - 1e-11));
        const int n = static_cast<int>(std::min<double>(rooms[r].have, std::max(0.0, all)));
        choice.times[r] = n;
        left -= n * rooms[r].ml;
        if (left > 0) continue;
        for (std::size_t s = order.size(); s-- > 0 && order[s] != r;) {
            if (rooms[order[s]].ml < left + rooms[r].ml) continue;
            --choice.times[r];
            ++choice.times[order[s]];
            break;
        }
        break;
    }
    return choice;
}

} // namespace

Choice fewest(const std::vector<Room>& rooms, double volume_ml) {
    const double slack = 1e-11 * std::max(1.0, volume_ml);
    std::vector<std::size_t> order(rooms.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](auto x, auto y) { return rooms[x].ml > rooms[y].ml; });
    double held = 0;
    double count = 0;
    bool enough = false;
    for (std::size_t r : order) {
        const double wanted = std::ceil((volume_ml - slack - held) / rooms[r].ml);
        const double n = std::min<double>(rooms[r].have, std::max(0.0, wanted));
        held += n * rooms[r].ml;
        count += n;
        enough = held >= volume_ml - slack;
        if (enough) break;
    }
    if (!enough) {
        Choice all;
        for (const Room& r : rooms)
            all.times.push_back(r.have);
        return all;
    }
    if (count > most_vessels) return largest(rooms, order, volume_ml);
    std::vector<Room> some = rooms;
    for (Room& r : some)
        r.have = std::min(r.have, static_cast<int>(count));
    return Search(some, volume_ml, static_cast<int>(count), slack).run();
}

} // namespace jarful::kitchen
