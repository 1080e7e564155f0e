#include "engine/appraise/reading.hpp"

#include <algorithm>

/// What a line is of, where that does not follow from its words by themselves.
namespace jarful::appraise {

using Sort = Measure::Sort;
using Tokens = std::span<const Token>;

namespace {

/// Things that are another material for their amount.
void another_material(Reading& r, Tokens words) {
    // A brine of so many percent is salt in water.
    if (r.amount && r.amount->is(Sort::percent) && r.item.material == nullptr &&
        speaks_of(words, Concept::brine)) {
        r.item.material = larder::Larder().find("salt")->material;
        r.item.choices = {r.item.material};
        r.item.words = "brine";
    }
    // "4 heads of dill" are its flowers.
    if (r.item.material && r.item.material->id == "dill" && r.amount && r.amount->is(Sort::count) &&
        r.amount->measure->unit == "head") {
        r.item.material = larder::Larder().find("dill head")->material;
        r.item.choices = {r.item.material};
    }
    // The item stood with the alternative only: "3 tbsp or 54 g canning salt".
    if (r.juice && r.item.material &&
        (r.item.material->id == "lemon" || r.item.material->id == "lime")) {
        r.item.material = larder::Larder()
                              .find(r.item.material->id == "lemon" ? "lemon juice" : "lime juice")
                              ->material;
        r.item.choices = {r.item.material};
    } else if (r.juice) {
        r.item.material = nullptr;
    }
}

/// "2 lb tomatillos, husked and quartered": what is cut up by the pound is a vegetable, whichever.
void take_for_vegetable(Reading& r, Tokens words, Tokens all) {
    constexpr Concepts other{Concept::salty_word, Concept::water,  Concept::liquid,
                             Concept::acid,       Concept::juice,  Concept::oil,
                             Concept::spice,      Concept::vessel, Concept::another_food,
                             Concept::kitchen,    Concept::drink,  Concept::seasoning_word};
    const bool by_weight = r.amount && (r.amount->weighed() || !r.weights.empty());
    if (r.item.material != nullptr || !by_weight || r.ratio || speaks_of(all, other) ||
        !speaks_of(all, {Concept::cut, Concept::trimmed}))
        return;
    const bool named = std::any_of(words.begin(), words.end(), [](const Token& t) {
        return t.sort == Token::Sort::word && t.is.empty() && t.folded.size() > 3;
    });
    if (!named) return;
    r.item.material = larder::Larder().find("vegetables")->material;
    r.item.choices = {r.item.material};
}

} // namespace

void change_material(Reading& reading, Tokens words, Tokens all) {
    another_material(reading, words);
    take_for_vegetable(reading, words, all);
}

} // namespace jarful::appraise
