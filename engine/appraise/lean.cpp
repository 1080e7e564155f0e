#include "engine/appraise/judge.hpp"

#include <cstdint>

namespace jarful::appraise {

using larder::Basis;
using units::Interval;

namespace {

/// A generator of 64 bits (Marsaglia, Xorshift RNGs, Journal of Statistical Software 8, 2003), from
/// a seed that is always the same: the same list gets the same answer.
class Draws {
  public:
    /// Evenly between two ends.
    double from(Interval i) {
        state_ ^= state_ << 13U;
        state_ ^= state_ >> 7U;
        state_ ^= state_ << 17U;
        const double share = static_cast<double>(state_ >> 11U) * 0x1.0p-53;
        return i.low + (i.high - i.low) * share;
    }

  private:
    std::uint64_t state_ = 0x9e3779b97f4a7c15U;
};

/// One way to take the accounts: every interval at a place within it.
Totals drawn(const Totals& t, Draws& draws) {
    Totals one = t;
    for (Interval* i :
         {&one.salt, &one.vegetables, &one.water, &one.other, &one.kept, &one.brine, &one.more_salt,
          &one.more_vegetables, &one.more_water, &one.unread_water, &one.cover_ratio})
        *i = Interval(draws.from(*i));
    if (one.whole) one.whole = Interval(draws.from(*one.whole));
    for (Totals::Rate& rate : one.rates) {
        rate.ratio = Interval(draws.from(rate.ratio));
        rate.share = Interval(draws.from(rate.share));
    }
    if (t.cover_ratio.high > 0) one.covering = one.water;
    return one;
}

} // namespace

std::optional<Lean> lean_of(const std::vector<Totals>& readings, const larder::Ruling& ruling) {
    if (readings.empty() || (!ruling.low && !ruling.high)) return std::nullopt;
    for (const Totals& t : readings) {
        const Percent whole = t.on(ruling.basis);
        if (!whole || whole->high >= endless || t.vegetables_open || t.water_open ||
            t.more_salt.high >= endless || t.more_vegetables.high >= endless)
            return std::nullopt;
    }
    Lean lean;
    Draws draws;
    for (std::size_t i = 0; i < lean_draws; ++i) {
        const Totals one = drawn(readings[i % readings.size()], draws);
        const Percent p = one.on(ruling.basis);
        if (!p) return std::nullopt;
        const double percent = p->middle();
        if (ruling.low && percent < ruling.low->percent)
            ++lean.below;
        else if (ruling.high && percent > ruling.high->percent)
            ++lean.above;
        else
            ++lean.inside;
    }
    return lean;
}

} // namespace jarful::appraise
