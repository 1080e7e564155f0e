#pragma once

#include "engine/kitchen/reading.hpp"
#include "engine/plan/model.hpp"

#include <optional>
#include <string>
#include <vector>

/// Private to the room: readings that hold. The nearest multiple of a scale's step may carry a salt
/// out of its range, since a scale has a step and an error; then the nearest reading is taken whose
/// whole interval keeps every bound, or none is, and it is said what would.
namespace jarful::plan {

/// A bound that readings have to keep: the ruling range of the salt, or a `hold`.
struct Limit {
    sheet::Formula value;
    double factor = 1; ///< to the unit of low and high
    std::optional<double> low, high;
    std::string text; ///< what it is about
};

/// Every limit of the model that a reading could keep. A salt about which something is not known
/// (what stays of a soak) is left out: no reading helps there.
[[nodiscard]] std::vector<Limit> limits_of(Model& model);

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

    /// Works out all readings for the amounts as they now are and observes them in the sheet.
    void settle();

    [[nodiscard]] const Readings& readings() const { return readings_; }
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
    [[nodiscard]] kitchen::Reading read(std::size_t entry, std::size_t scale, double grams) const;
    [[nodiscard]] bool all_hold();
    [[nodiscard]] std::vector<std::size_t> movable();
    bool move_one(std::size_t entry);
    bool move_two(std::size_t first, std::size_t second);
    [[nodiscard]] std::vector<double> candidates(std::size_t entry, std::size_t scale,
                                                 int most) const;

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    std::optional<double> bowl_g_;
    std::optional<std::size_t> bowl_scale_;
    Readings readings_;
    std::vector<Limit> limits_;
    std::vector<std::size_t> watched_; ///< limits that the exact amounts keep
};

/// What would do, where no reading does.
struct Refusal {
    std::string text; ///< which bound cannot be kept on these scales
    /// The smallest batch, as a given and its weight; empty if none up to fifty times the batch.
    std::optional<std::string> batch_name;
    std::optional<double> batch_g;
    std::optional<double> step_g; ///< a scale of this step, as exact as its step, would do
    /// Salt weighed as a brine: so much of a solution of `brine_percent` salt.
    std::optional<double> brine_percent, brine_g;
};

/// Finds out; leaves the model as it was. @param settler has settled and does not hold.
[[nodiscard]] Refusal explain_refusal(Model& model, const kitchen::Kitchen& kitchen,
                                      Settler& settler);

} // namespace jarful::plan
