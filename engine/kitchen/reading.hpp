#pragma once

#include "engine/kitchen/kitchen.hpp"

#include <vector>

/// From an exact amount to the number that the cook waits for.
namespace jarful::kitchen {

/// One amount on one scale, in equal goes where it is more than the scale carries.
struct Reading {
    std::size_t scale = 0;        ///< index into the kitchen's scales
    double total_g = 0;           ///< a multiple of the step
    std::vector<double> portions; ///< what the display shows each time; one element if one go
    units::Interval truth;        ///< what may really have been weighed
};

/// `steps` times a scale's step, free of binary noise: 402 steps of 0.1 g are 40.2 g.
[[nodiscard]] double multiple_of_step(double steps, double step_g);

/// The nearest multiple of the step, halves upward.
[[nodiscard]] double round_to_step(double grams, double step_g);

/// The most that a scale shows of what is weighed at once, beside its bowl and by as much of it as
/// is to be used; a multiple of its step, one step at least.
[[nodiscard]] double most_at_once(const Scale& scale);

/// The scale for this amount: the fewest goes, then the smallest error, then the finer step, then
/// the first named. (Four goes on a fine scale may err less than one on a coarse one, but four goes
/// are four chances to slip.)
/// @param grams not negative.
[[nodiscard]] std::size_t best_scale(const Kitchen& kitchen, double grams);

/// The goes that a reading is split into at most; ours, so that a barrel on a letter scale does not
/// fill the memory.
inline constexpr int most_goes = 10'000;

/// The reading nearest to an amount on a scale. Over most_at_once() it is split into equal goes
/// (they differ by a step where they must), and the errors of the goes add up. Beyond `most_goes`
/// each go is heavier than the scale carries.
[[nodiscard]] Reading read_on(const Kitchen& kitchen, std::size_t scale, double grams);

/// read_on the best scale.
[[nodiscard]] Reading best_reading(const Kitchen& kitchen, double grams);

/// `total` in `count` portions on a scale, each a multiple of the step, that add up to it; larger
/// ones first.
[[nodiscard]] std::vector<double> portions_of(double total_g, int count, double step_g);

} // namespace jarful::kitchen
