#pragma once

#include "engine/kitchen/kitchen.hpp"
#include "engine/larder/brine_mix.hpp"
#include "engine/plan/weigh_out.hpp"

#include <optional>

namespace jarful::plan {

/// A brine as it is weighed on the kitchen's scales.
struct BrineWeighed {
    larder::BrineQuestion question;
    larder::BrineAnswer answer;
    std::optional<Item> salt, water; ///< to put in; absent where nothing is
    /// Percent of the finished brine, in the worst case of both weighings; absent if too strong or
    /// nothing is weighed.
    std::optional<units::Interval> percent_of_brine;
};

struct BrineSheet {
    std::string kitchen;
    bool kitchen_built_in = false;
    BrineWeighed taken;
    /// The question with a bare % or g/L taken the other way, where nobody said which and the scale
    /// shows a difference.
    std::optional<BrineWeighed> otherwise;
};

/// @param question read without faults.
[[nodiscard]] BrineSheet brine_sheet(const larder::BrineQuestion& question,
                                     const kitchen::Kitchen& kitchen);

} // namespace jarful::plan
