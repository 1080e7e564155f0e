#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

#include <string>
#include <vector>

/// What a weigh-out says in words, wherever it stands: on a terminal or on a card. For this room.
namespace jarful::render {

/// Everything that goes on a scale, in order: the givens, then the other lines, each once.
[[nodiscard]] std::vector<const plan::Item*> items_in_order(const plan::WeighOut& out);
/// Whether there is a number to wait for: not a pinch, nor what is weighed later.
[[nodiscard]] bool on_a_scale(const plan::Item& item);
/// In how many goes it is weighed; what was entered has been weighed already, in whatever goes.
[[nodiscard]] std::vector<plan::Portion> portions_of(const plan::Item& item);

/// The material where it says more than the name does; otherwise empty.
[[nodiscard]] std::string material_of(const std::string& material, const std::string& name);
/// "salt (fine sea salt)".
[[nodiscard]] std::string named(const std::string& name, const std::string& material);

/// What is to be known of an item beside its number; may be empty.
[[nodiscard]] std::vector<std::string> remarks_of(const plan::WeighOut& out, const plan::Item& item,
                                                  Units units);
/// What is too little for the scale: how much by the spoon, and the rest. A sentence.
[[nodiscard]] std::string pinch_words(const plan::Item& item, Units units);
/// What is weighed later: what it likely comes to. A sentence.
[[nodiscard]] std::string later_words(const plan::Item& item, Units units);

/// "Quay Street winter kraut, version 4".
[[nodiscard]] std::string title_words(const plan::WeighOut& out);
/// "Kraut: shredded, dry-salted cabbage."; empty without a kind.
[[nodiscard]] std::string kind_words(const plan::WeighOut& out);
/// "About 1.95 kg goes in the jar, from 1.8 kg of cabbage."
[[nodiscard]] std::string made_from(const plan::WeighOut& out, Units units);
/// "brine, 5 % salt of the water".
[[nodiscard]] std::string stock_title(const plan::Stock& stock);
/// How much a brine makes, how much of it is poured, and what is left.
[[nodiscard]] std::string stock_words(const plan::Stock& stock, Units units);
/// What to mix if the juice does not cover.
[[nodiscard]] std::string top_up_words(const plan::TopUp& mix, Units units);

/// How much room the batch takes, whether the jars that were named take it, or which were chosen;
/// empty if nothing says so.
[[nodiscard]] std::string room_words(const plan::WeighOut& out, Units units);

/// What stands in the way of packing this batch, and what to do about it; empty if nothing does.
/// The rest of a sentence after "Next: ".
[[nodiscard]] std::string in_the_way(const plan::WeighOut& out, Units units);

/// How something is weighed: "put the bowl on bench, zero it, add cabbage until it shows 1840 g.".
/// @param scale its name; empty if it is not known
[[nodiscard]] std::string weigh_in_words(const std::string& scale, const std::string& what,
                                         double reading_g, double step_g);
/// What to do next: what stands in the way, or else the first thing to put on a scale. The rest of
/// a sentence after "Next: ".
[[nodiscard]] std::string next_words(const plan::WeighOut& out, Units units);

/// "2.2 % of the vegetables, inside the published range".
[[nodiscard]] std::string salt_headline(const plan::SaltJudgement& salt);
/// Why the verdict is what it is, what it means, and what would decide it. Sentences.
[[nodiscard]] std::vector<std::string> salt_reasons(const plan::SaltJudgement& salt);
/// On which sources the ends of the range rest. Sentences.
[[nodiscard]] std::vector<std::string> range_rests_on(const plan::SaltJudgement& salt);
/// "inside", "BELOW", "ABOVE", "UNDECIDED".
[[nodiscard]] std::string loud(plan::Verdict verdict);
/// A bound of the house: its figure, what is wanted, and why it matters. Sentences.
[[nodiscard]] std::string hold_words(const plan::HoldCheck& check);

/// A length as near as a jar can be measured: "12.3 cm".
[[nodiscard]] std::string length(double cm, Units units);

} // namespace jarful::render
