#pragma once

#include "engine/plan/weigh_out.hpp"
#include "engine/render/page.hpp"

#include <string>
#include <vector>

/// What is said of the jars that a batch goes into, on a terminal and on a card. For this room.
namespace jarful::render {

/// Jars of one kind that get the same, one after the other.
struct AlikeJars {
    std::size_t first = 0; ///< index of the first into the weigh-out's jars
    std::size_t count = 1;
};
[[nodiscard]] std::vector<AlikeJars> alike_jars(const plan::WeighOut& out);

/// "2 × tall and squat".
[[nodiscard]] std::string counted(const std::vector<std::string>& names);
/// Which jars were chosen for the batch, and how far water fills them. Sentences; empty if none
/// were, as where the cook named them.
[[nodiscard]] std::string chosen_jars_words(const plan::WeighOut& out);

/// "1 to 2: squat, 750 mL brimful, both alike".
[[nodiscard]] std::string jar_title(const plan::WeighOut& out, const AlikeJars& alike, Units units);
/// How far it is filled. A sentence or two.
[[nodiscard]] std::string level_words(const plan::JarShare& jar, Units units);
/// The jar's own salt and its verdict. Sentences; empty if it is not judged.
[[nodiscard]] std::string jar_salt_words(const plan::JarShare& jar);

/// "1258 g", "2", "a pinch", "~900 g" for what is weighed later.
[[nodiscard]] std::string figure_of(const plan::JarItem& item);
/// What is weighed or counted into a jar: its items, or what it gets of a mixture, and the pieces.
[[nodiscard]] std::vector<plan::JarItem> weighed_into(const plan::JarShare& jar);
[[nodiscard]] std::vector<plan::JarItem> weighed_into(const std::vector<plan::JarItem>& items,
                                                      const std::optional<plan::JarItem>& mixture);
/// Whether the jars are filled from one bowl in which all was salted and mixed.
[[nodiscard]] bool from_one_bowl(const plan::WeighOut& out);
/// That the bowl was judged for all jars, and how; empty if each is judged by itself.
[[nodiscard]] std::string bowl_salt_words(const plan::WeighOut& out);
/// Nothing of it goes in: not worth a line.
[[nodiscard]] bool none_of_it(const plan::JarItem& item);

} // namespace jarful::render
