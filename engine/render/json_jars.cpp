#include "engine/render/json_jars.hpp"

#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using plan::JarItem;

bool is_optional_item(const JarItem& item) {
    return item.fate == plan::Fate::optional;
}
/// Of what is weighed; a count has none.
std::optional<Reading> jar_reading(const JarItem& item) {
    if (item.pieces) return std::nullopt;
    Reading out{item.exact_g, item.reading_g, item.step_g, item.scale,
                item.truth,   item.too_small, {}};
    if (item.later) out.reading_g.reset();
    if (item.later || item.too_small) return out;
    for (const plan::Portion& one : item.portions)
        if (one.reading_g > 0) out.portions.push_back(one);
    return out;
}

constexpr auto jar_item_fields = fields<JarItem>({
    {"name", text<&JarItem::name>, "The name in the recipe."},
    {"label", maybe(text<&JarItem::label>), "The text beside it."},
    {"material", maybe(text<&JarItem::material>), "As resolved."},
    {"role", maybe(choice<role_words, &JarItem::role>)},
    {"optional", flag<is_optional_item>, "Whether the cook may leave it out."},
    {"fate", choice<fate_words, &JarItem::fate>},
    {"count", sometimes(at_least(0, whole<&JarItem::pieces>)), "Whole pieces."},
    sometimes(parts<reading, jar_reading>),
});
constexpr Shape<JarItem> jar_item{
    "jar_item",
    "What of one quantity goes into one jar. A count has `count`; everything else has the fields "
    "from `exact_g` on, which is the jar's share of the reading before it is rounded. The readings "
    "of all jars and of what is left over add up to the reading of the whole; those of a mixture, "
    "which has none, to its weight on the step of its scale.",
    table<jar_item_fields>};

using plan::JarShare;
constexpr auto jar_fields = fields<JarShare>({
    {"name", text<&JarShare::name>, "As in the kitchen."},
    {"crock", flag<&JarShare::crock>, "Whether it is a crock."},
    {"brimful_ml", number<&JarShare::brimful_ml>, "What it holds to the rim.", "mL"},
    {"usable_ml", number<&JarShare::usable_ml>, "Less headspace and weights.", "mL"},
    {"weights_ml", number<&JarShare::weights_ml>, "Room that its weights take.", "mL"},
    {"fill_ml", number<&JarShare::fill_ml>, "How much of the batch goes in.", "mL"},
    {"full_percent", number<&JarShare::full_percent>,
     "How much of brimful is not air, weights included."},
    {"level_cm", maybe(number<&JarShare::level_cm>),
     "How high it stands, weights included; null if the vessel's width is not known.", "cm"},
    {"headspace_cm", maybe(number<&JarShare::headspace_cm>), "What stays free above, likewise.",
     "cm"},
    {"airy", flag<&JarShare::airy>, "Whether it is under two thirds full."},
    {"items", list<jar_item, &JarShare::items>,
     "What goes in; where there is a mixture, what is in the jar, to know and not to weigh."},
    {"mixture", maybe(object<jar_item, &JarShare::mixture>),
     "Where all is salted and mixed in one bowl: so much of the mixture goes in, pieces not "
     "counted; null where each thing goes in by itself."},
    {"salt", maybe(object<salt, &JarShare::salt>),
     "This jar's own salt, each portion being a weighing of its own; null if the salt is not "
     "judged, or was judged once in the bowl."},
});

// ---- The whole: of a weigh-out that has chosen jars. ----

using plan::JarChoice;

/// One more jar that would have taken the rest.
constexpr auto would_take_fields = fields<JarChoice>({
    {"brimful_ml", sure(number<&JarChoice::rest_brimful_ml>), "What it holds to the rim.", "mL"},
    {"as_wide_as", maybe(text<&JarChoice::rest_as_wide_as>),
     "Under a headspace in cm: the vessel that it is as wide as."},
});
constexpr Shape<JarChoice> would_take{"would_take", "One more jar that would have taken the rest.",
                                      table<would_take_fields>};
const JarChoice* rest_of(const JarChoice& choice) {
    return choice.rest_brimful_ml ? &choice : nullptr;
}

using PassedOver = JarChoice::PassedOver;
constexpr auto passed_over_fields = fields<PassedOver>({
    {"name", text<&PassedOver::name>, "As in the kitchen."},
    {"why", text<&PassedOver::why>, "The rest of a sentence after its name."},
});
constexpr Shape<PassedOver> passed_over{"passed_over", "A vessel that cannot be used.",
                                        table<passed_over_fields>};

constexpr auto choice_before_fields = fields<JarChoice>({
    {"by_name", flag<&JarChoice::by_name>,
     "The jars were named; otherwise they are chosen from the kitchen's own."},
    {"volume_ml", number<&JarChoice::volume_ml>,
     "What the batch fills; with `cover` the brine up to the headspace is in it.", "mL"},
    {"headspace_percent", maybe(number<&JarChoice::headspace_percent>),
     "What stays free of each jar, where the recipe says a share."},
    {"headspace_cm", maybe(number<&JarChoice::headspace_cm>),
     "What stays free on top, where the recipe says a height.", "cm"},
});
constexpr Shape<JarChoice> choice_before{"jar_batch", "What is put into jars.",
                                         table<choice_before_fields>};
constexpr auto choice_after_fields = fields<JarChoice>({
    {"empty_ml", number<&JarChoice::empty_ml>, "Room under the headspaces that stays over.", "mL"},
    {"best", flag<&JarChoice::best>, "No other choice is better."},
    {"more_air", texts<&JarChoice::more_air>,
     "Names of fewer or emptier jars that would hold it, one of them under two thirds full: passed "
     "over for that."},
    {"unplaced_g", number<&JarChoice::unplaced_g>, "What is left over, without whole pieces.", "g"},
    {"unplaced_ml", number<&JarChoice::unplaced_ml>, "What is left over.", "mL"},
    {"why", maybe(text<&JarChoice::why>), "Why something is left over; null if nothing is."},
    {"left_over", list<jar_item, &JarChoice::left_over>, "What is left over of each quantity."},
    {"left_mixture", maybe(object<jar_item, &JarChoice::left_mixture>),
     "What of a mixture is left over, as in a jar; null if there is none."},
    {"would_take", maybe(object<would_take, rest_of>),
     "Null if nothing is left over, or it cannot be said."},
    {"passed_over", list<passed_over, &JarChoice::passed_over>, "Vessels that cannot be used."},
});
constexpr Shape<JarChoice> choice_after{"jar_rest", "What jars take and what they do not.",
                                        table<choice_after_fields>};

using plan::WeighOut;
const JarChoice& choice_of(const WeighOut& out) {
    return *out.jar_choice;
}
constexpr auto jars_fields = fields<WeighOut>({
    {"recipe", object<recipe_head_shape, recipe_head<WeighOut>>},
    {"kitchen", object<kitchen_head_shape, kitchen_head<WeighOut>>},
    {"verdict", maybe(choice<verdict_words, &WeighOut::verdict>),
     "The worst of the batch and of every jar; null if nothing is judged."},
    {"left_out", texts<&WeighOut::left_out>, "Names of optional lines that are left out."},
    parts<choice_before, choice_of>,
    {"jars", list<jar, &WeighOut::jars>,
     "The jars, each by itself: the fewest that hold it with none under two thirds full where that "
     "can be, of these the least empty."},
    parts<choice_after, choice_of>,
    {"cautions", list<caution, &WeighOut::cautions>, "What can hurt, and what to do."},
    {"assumptions", texts<&WeighOut::assumptions>, "What was taken for granted, in sentences."},
});
constexpr Shape<WeighOut> jars_shape{"jars", "The jars of a batch.", table<jars_fields>};

} // namespace

constexpr Shape<JarShare> jar{"jar", "One jar of the batch.", table<jar_fields>};

constexpr Result jars_result{
    "jars", "jarful.jars/1",
    "The answer of `jarful jars --json`: which of the kitchen's jars a batch goes into. Masses in "
    "g, volumes in mL, lengths in cm, percentages written 2.2 for 2.2 %.",
    jars_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string jars_json(const plan::WeighOut& out) {
    return fields::document(fields::jars_result, fields::jars_shape, out);
}

} // namespace jarful::render
