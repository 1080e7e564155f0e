#pragma once

#include "engine/kitchen/reading.hpp"
#include "engine/plan/limits.hpp"
#include "engine/plan/model.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

/// Private to the room: readings that hold. The nearest multiple of a scale's step may carry a salt
/// out of its range, since a scale has a step and an error; then the nearest reading is taken whose
/// whole interval keeps every bound in every variant, or none is, and it is said what would
/// (refusal.hpp).
namespace jarful::plan {

/// The goes that an entry is weighed in because the one given was: salt gets portions that match
/// them. Null where that is not so.
[[nodiscard]] const std::vector<double>* matching_goes(const Model& model, const Entry& entry);

/// Readings for all entries; those that nobody waits for stay as they are.
struct Readings {
    std::vector<kitchen::Reading> of;
    bool held = true; ///< every limit that the exact amounts keep is kept in the worst case
    std::vector<std::size_t> moved; ///< entries whose reading is not the nearest one
};

/// How one model is weighed on one set of scales.
class Settler {
  public:
    /// @param bowl_g weight of an empty bowl that everything is weighed into, if one is used: the
    /// display then shows running totals, and each amount is the difference of two displays.
    Settler(Model& model, const kitchen::Kitchen& kitchen, std::optional<double> bowl_g = {});

    /// Works out all readings for the amounts as they now are and observes them in the sheet. They
    /// keep every limit in every variant, wherever the exact amounts do and some reading can.
    void settle();
    /// Observes the readings again as they were worked out.
    void show();

    [[nodiscard]] const Readings& readings() const { return readings_; }
    /// What the exact amounts keep, by limits_of() and variants_of() the model.
    [[nodiscard]] const std::vector<Watched>& watched() const { return watched_; }
    /// Whether all of them are kept for certain by what is now observed.
    [[nodiscard]] bool keeps(const std::vector<Watched>& wanted);
    /// "the salt", or a `hold` as written, and the variant.
    [[nodiscard]] std::string text_of(const Watched& watched) const;
    /// Weight of the empty bowl, if one is used.
    [[nodiscard]] std::optional<double> bowl_g() const { return bowl_g_; }
    /// The scale that carries bowl and contents; empty if no bowl is used or no scale carries it.
    [[nodiscard]] std::optional<std::size_t> bowl_scale() const { return bowl_scale_; }

    /// Whether an entry goes into the one bowl.
    [[nodiscard]] static bool in_bowl(const Entry& e);
    /// Whether somebody waits for this entry's number, so that it can be chosen.
    [[nodiscard]] static bool chosen(const Entry& e);

  private:
    void nearest();
    void observe(std::size_t entry);
    void expect();
    void watch();
    [[nodiscard]] kitchen::Reading read(std::size_t entry, std::size_t scale, double grams) const;
    [[nodiscard]] units::Interval in_bowl_truth(double grams) const;
    [[nodiscard]] units::Interval as_unsure_as_stated(const Entry& e, double shown,
                                                      units::Interval truth) const;
    [[nodiscard]] bool holds(const Watched& watched);
    [[nodiscard]] std::vector<std::size_t> failing();
    /// Moves readings until all of a group hold that have something to move in common.
    bool mend(std::vector<std::size_t> group);
    [[nodiscard]] std::vector<std::vector<std::size_t>> groups(std::vector<std::size_t> failing);
    [[nodiscard]] std::vector<std::size_t> movable(const std::vector<std::size_t>& group);
    [[nodiscard]] bool touches(std::size_t entry, std::size_t watched) const;
    /// Finds the nearest readings of one or two entries by which all of `wanted` hold.
    bool move_one(std::size_t entry, std::vector<std::size_t> wanted);
    bool move_two(std::size_t first, std::size_t second, std::vector<std::size_t> wanted);
    [[nodiscard]] bool all_hold(std::vector<std::size_t>& wanted);
    void moved(std::size_t entry);
    [[nodiscard]] std::vector<double> candidates(std::size_t entry, std::size_t scale,
                                                 int most) const;

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    std::optional<double> bowl_g_;
    std::optional<std::size_t> bowl_scale_;
    Readings readings_;
    std::vector<Limit> limits_;
    std::vector<Variant> variants_;
    std::vector<Watched> watched_;                  ///< what the exact amounts keep
    std::vector<std::vector<std::size_t>> touched_; ///< for each entry, what is watched of it
};

} // namespace jarful::plan
