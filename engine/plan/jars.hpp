#pragma once

#include "engine/kitchen/fitting.hpp"
#include "engine/plan/model.hpp"

#include <optional>
#include <vector>

/// Private to the room: a batch in jars.
namespace jarful::plan {

/// What stays free on top by the recipe's `headspace` line; a tenth of the jar if it has none.
[[nodiscard]] kitchen::Headspace headspace_of(Model& model);

/// Whether all is salted and mixed through in one bowl before it is packed, so that what goes into
/// any jar has the salt of the bowl: a kind whose salt is counted on the vegetables alone, rubbed
/// into them, and nothing that is poured, laid on top or goes in whole. (Salt is put into the cuts
/// of each lemon, which makes no mixture.)
[[nodiscard]] bool mixed_in_one_bowl(const Model& model);

/// How much of each ingredient goes into each jar, and each jar's own salt.
///
/// A jar gets of everything the share that it gets of the volume. Readings are split in whole steps
/// of a scale, so that they add up to the reading of the whole (largest remainders first); counts
/// are split as whole pieces likewise, but for those of `each jar`, which go into every one. What
/// is poured off before stays together and is shared out unseen. Each jar is judged for itself,
/// each portion being a weighing of its own with its own error; but where several jars are filled
/// from one bowl, they get so much of the mixture by weight, and the bowl is judged for all.
///
/// @param out of this model: its readings are what is shared out.
/// @param vessels that `fit` refers to.
/// @param show called at the end, when the model is as it was.
/// @param left_over gets what has no place in any jar, if it is asked for: items, and what of a
/// mixture.
[[nodiscard]] std::vector<JarShare> share_out(Model& model, const WeighOut& out,
                                              const std::vector<kitchen::Vessel>& vessels,
                                              const kitchen::Fit& fit, const Show& show,
                                              JarChoice* left_over = nullptr);

/// Vessels and how full they get.
struct Jars {
    std::vector<kitchen::Vessel> vessels; ///< that `fit` refers to
    kitchen::Fit fit;
    JarChoice choice;
    std::vector<std::string> assumptions; ///< in sentences
};

/// The vessels that a batch stands in: the one answer to that question, for whoever weighs, traces
/// or mends. Those that were named; otherwise the best of the kitchen's own, see JarChoice.
///
/// Where the recipe pours water with `cover`, the vessels are filled up to their headspace, and the
/// model's water is what that takes, as its `each jar` counts are for so many jars: call it before
/// the readings are settled. Chosen ones are not filled up if one of them is under two thirds full
/// without it: that would be another recipe.
/// @param named one for each use.
/// @param as_asked the batch was asked for by what it takes of something (the salt that is left):
/// then it is that batch that goes into chosen jars, and they get no more water.
/// @return empty if there are none; with a fault if some are needed.
[[nodiscard]] std::optional<Jars> vessels_of(Model& model,
                                             const std::vector<kitchen::Vessel>& named,
                                             bool as_asked, Request::Vessels wanted,
                                             language::Findings& findings);

/// That the water of `cover` fills the gaps of the produce alone, as no vessel is known: a
/// sentence. Empty where nothing is poured so.
[[nodiscard]] std::string gaps_alone(Model& model);

/// Takes chosen vessels out of the model again, for the next request.
void forget_vessels(Model& model);

/// Shares out what has been weighed: fills in `jars`, `jar_choice`, the caution about air if a jar
/// is under two thirds full, and the verdict, which is then the worst of the batch and its jars.
void share_into(Model& model, WeighOut& out, Jars jars, const Show& show);

} // namespace jarful::plan
