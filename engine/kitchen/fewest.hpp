#pragma once

#include <vector>

/// Private to the room: the search behind fit(), on bare numbers.
namespace jarful::kitchen {

/// Vessels alike.
struct Room {
    double ml = 0; ///< above 0
    int have = 1;  ///< 1 or more
};

struct Choice {
    std::vector<int> times; ///< how many of each room
    bool exact = true;      ///< nothing else is better
};

/// The fewest rooms that together hold a volume; of these the least room in all; of these the
/// fewest different ones. All of them if they do not hold it. Choices whose room differs by less
/// than a thousandth of a mL, the fiftieth part of a drop, are taken as equal.
///
/// That the number is the smallest is seen from the largest rooms alone. The rest is exact by
/// meeting in the middle: every sum of one half of the rooms, by how many make it, against every
/// sum of the other half; equal sums are kept once, and what can no longer come out is left away.
/// Forty different rooms make two million sums at most. Where there would be more than eight
/// million, and no choice is found that leaves next to nothing empty, the best that was found is
/// returned and `exact` is false.
[[nodiscard]] Choice fewest(const std::vector<Room>& rooms, double volume_ml);

} // namespace jarful::kitchen
