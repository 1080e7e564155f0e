#include "engine/plan/salt_needed.hpp"

#include "engine/kitchen/reading.hpp"
#include "engine/plan/limits.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace jarful::plan {

using units::Interval;

namespace {

/// The one salt that is weighed into the jar; nullptr where there is none, or more than one.
Entry* only_salt(Model& model) {
    Entry* found = nullptr;
    for (Entry& e : model.entries) {
        if (e.left_out || !e.counts() || e.role != larder::Role::salt) continue;
        if (found != nullptr || e.fate != Fate::in_jar || e.poured_from ||
            e.word == language::QuantityWord::count)
            return nullptr;
        found = &e;
    }
    return found;
}

/// Readings of one scale, tried one after another. More salt is never a lower percentage.
class Search {
  public:
    Search(Model& model, const kitchen::Kitchen& kitchen, const Limit& limit, Entry& salt,
           std::size_t scale)
        : model_(model)
        , kitchen_(kitchen)
        , limit_(limit)
        , variants_(variants_of(model))
        , salt_(salt)
        , scale_(scale)
        , step_(kitchen.scales[scale].step_g) {}

    /// @param about a salt of the right size, in g
    std::optional<SaltNeeded> run(double about) {
        const long most = std::lround(std::min(8 * about / step_ + 100, 1e9));
        SaltNeeded needed{salt_.name, 0, std::nullopt, step_};
        if (limit_.low) {
            const long least = first_of(most, [&](long steps) {
                return worst_at(steps).low >= limit_.low->figure.value_or(0);
            });
            if (least > most) return std::nullopt;
            needed.low_g = kitchen::multiple_of_step(static_cast<double>(least), step_);
        }
        if (limit_.high) {
            const long too_much = first_of(most, [&](long steps) {
                return worst_at(steps).high > limit_.high->figure.value_or(0);
            });
            if (too_much == 0 || too_much > most) return std::nullopt;
            needed.high_g = kitchen::multiple_of_step(static_cast<double>(too_much - 1), step_);
            if (needed.low_g > *needed.high_g) return std::nullopt;
        }
        keep_house_bounds(needed);
        return needed;
    }

  private:
    /// Narrows what is inside the range to what keeps the house's own bounds too, where something
    /// does; a cook who takes the figure finds all kept.
    void keep_house_bounds(SaltNeeded& needed) {
        if (model_.holds.empty() || !needed.high_g) return;
        const long low = std::lround(needed.low_g / step_);
        const long high = std::lround(*needed.high_g / step_);
        const auto kept = [&](long steps) { return holds_kept(steps); };
        // A bound of the house may lie anywhere within: look for a place where all are kept.
        constexpr long places = 64;
        std::optional<long> good;
        for (long i = 0; i <= places && !good; ++i)
            if (const long at = low + (high - low) * i / places; kept(at)) good = at;
        if (!good) return;
        const long least = low + first_of(*good - low, [&](long up) { return kept(low + up); });
        const long over = first_of(high - *good, [&](long up) { return !kept(*good + up); });
        needed.low_g = kitchen::multiple_of_step(static_cast<double>(least), step_);
        needed.high_g = kitchen::multiple_of_step(static_cast<double>(*good + over - 1), step_);
    }

    bool holds_kept(long steps) {
        pour(steps);
        return std::all_of(variants_.begin(), variants_.end(), [&](const Variant& variant) {
            const InVariant in(model_, variant);
            return std::all_of(model_.holds.begin(), model_.holds.end(), [&](const Bound& bound) {
                return verdict_of(model_, hold_limit(model_, bound)) == Verdict::inside;
            });
        });
    }

    void pour(long steps) {
        const kitchen::Reading reading = kitchen::read_on(
            kitchen_, scale_, kitchen::multiple_of_step(static_cast<double>(steps), step_));
        observe(model_, salt_, reading.total_g, reading.truth);
    }

    /// The first number of steps from 0 to `most` of which something is true that stays true from
    /// there on; `most` + 1 if there is none.
    template <class Is>
    static long first_of(long most, Is is) {
        long low = 0;
        long high = most + 1;
        while (low < high) {
            const long middle = low + (high - low) / 2;
            if (is(middle))
                high = middle;
            else
                low = middle + 1;
        }
        return low;
    }

    /// The percentage with so much salt, over all variants.
    Interval worst_at(long steps) {
        pour(steps);
        std::optional<Interval> all;
        for (const Variant& variant : variants_) {
            const InVariant in(model_, variant);
            const Interval percent = model_.sheet->enclose(limit_.value) * Interval(limit_.factor);
            all = all ? units::hull(*all, percent) : percent;
        }
        return *all;
    }

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    const Limit& limit_;
    std::vector<Variant> variants_;
    Entry& salt_;
    std::size_t scale_;
    double step_;
};

} // namespace

std::optional<SaltNeeded> salt_needed(Model& model, const kitchen::Kitchen& kitchen) {
    const std::optional<Limit> limit = salt_limit(model);
    Entry* salt = only_salt(model);
    if (!limit || !limit->bounded() || salt == nullptr) return std::nullopt;
    const LimitEnd& end = limit->low ? *limit->low : *limit->high;
    // The salt that the range asks for decides which scale is used, and not the salt as it is.
    const double about = model.sheet->value(model.totals.everything) * end.figure.value_or(0) / 100;
    if (!(about > 0) || !std::isfinite(about)) return std::nullopt;
    return Search(model, kitchen, *limit, *salt, kitchen::best_scale(kitchen, about)).run(about);
}

} // namespace jarful::plan
