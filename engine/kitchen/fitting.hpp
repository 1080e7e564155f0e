#pragma once

#include "engine/kitchen/kitchen.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// Which vessels a batch goes into, and how full each gets.
namespace jarful::kitchen {

/// What stays free on top: a share of the brimful volume, or a height. Where both are given the one
/// that takes more counts. Neither is negative.
struct Headspace {
    double share = 0; ///< of 1
    double height_cm = 0;
};

/// A vessel under about so much of its brimful volume holds too much air: common practice, no
/// source.
inline constexpr double least_full = 2.0 / 3;

/// What a vessel takes, in mL: brimful less the headspace (a height counts over its inner area) and
/// less what its weights take. Empty if a height is asked for and the vessel's area is not known,
/// or if nothing is left; `why` then gets the reason, as the rest of a sentence after its name.
[[nodiscard]] std::optional<double> usable_ml(const Vessel& vessel, const Headspace& headspace,
                                              std::string* why = nullptr);

/// One vessel in use.
struct Filled {
    std::size_t vessel = 0; ///< index into the vessels that were given
    double usable_ml = 0;
    double fill_ml = 0;                 ///< of the batch
    double full = 0;                    ///< how much of brimful is not air, weights included; of 1
    std::optional<double> level_cm;     ///< how high it stands, weights included
    std::optional<double> headspace_cm; ///< what stays free above
    [[nodiscard]] bool airy() const { return full < least_full - 1e-9; }
};

/// A vessel that cannot be used.
struct PassedOver {
    std::size_t vessel = 0;
    std::string why; ///< the rest of a sentence after its name
};

struct Fit {
    std::vector<Filled> filled; ///< each vessel by itself; those of one line stand together
    double volume_ml = 0;
    double unplaced_ml = 0;
    double empty_ml = 0; ///< usable room that stays empty
    /// Whether no other choice is better by more than a thousandth of a mL. False only for many
    /// more than forty vessels; the number is the smallest even then.
    bool exact = true;
    std::string why; ///< why something is left over: a sentence; empty if nothing is
    /// Brimful volume of the one vessel, under the same headspace and without weights, that would
    /// have taken what is left over. Under a headspace in cm it is as wide as the widest vessel
    /// whose area is known, or empty if none is.
    std::optional<double> rest_brimful_ml;
    std::optional<std::size_t> rest_as_wide_as;
    std::vector<PassedOver> passed_over;
};

/// The best choice of vessels, each of which may be there several times (`have`): everything is
/// placed if it can be, then in the fewest vessels, then with the least room left empty, then in
/// the fewest different ones. Each gets the same part of what it takes, so that none stands half
/// empty beside a full one. If not everything fits, all vessels are filled to their headspace.
/// @param volume_ml nothing is placed if it is not above 0.
/// @param shown in which units `why` speaks.
[[nodiscard]] Fit fit(const std::vector<Vessel>& vessels, const Headspace& headspace,
                      double volume_ml, units::Shown shown = {});

/// The same for vessels that the cook has chosen: indices into `vessels`, each as often as it is
/// used (`have` is not looked at).
[[nodiscard]] Fit fill_evenly(const std::vector<Vessel>& vessels,
                              const std::vector<std::size_t>& chosen, const Headspace& headspace,
                              double volume_ml, units::Shown shown = {});

} // namespace jarful::kitchen
