#include "engine/plan/brine_sheet.hpp"

#include "engine/kitchen/reading.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::plan {

namespace {

using units::Interval;

Item weighed(const kitchen::Kitchen& kitchen, const char* name, larder::Role role, double grams) {
    const kitchen::Reading reading = kitchen::best_reading(kitchen, grams);
    const kitchen::Scale& scale = kitchen.scales[reading.scale];
    Item item;
    item.name = name;
    item.word = "brine";
    item.role = role;
    item.fate = Fate::stock;
    item.exact_g = grams;
    item.reading_g = reading.total_g;
    item.step_g = scale.step_g;
    item.scale = scale.name;
    item.truth = reading.truth;
    for (const double portion : reading.portions)
        item.portions.push_back({scale.name, portion});
    item.too_small = reading.total_g <= 0;
    return item;
}

/// Percent of salt for the worst cases of what is weighed: it rises with the salt and falls with
/// the water, so the corners say it all.
std::optional<Interval> strength(const BrineWeighed& b) {
    if (!b.answer.strength || !b.answer.mix || (!b.salt && !b.water)) return std::nullopt;
    const larder::BrineMix& mix = *b.answer.mix;
    const double had_salt = b.answer.from ? mix.had_g * b.answer.from->fraction : 0;
    const double had_water = mix.had_g - had_salt;
    const auto of = [](const std::optional<Item>& item, double otherwise) {
        return item ? item->truth : Interval(otherwise);
    };
    const Interval salt = of(b.salt, mix.salt_g) + Interval(had_salt);
    const Interval water = of(b.water, mix.water_g) + Interval(had_water);
    const auto percent = [](double s, double w) {
        s = std::max(s, 0.0);
        w = std::max(w, 0.0);
        return s + w > 0 ? 100 * s / (s + w) : 0;
    };
    return Interval(percent(salt.low, water.high), percent(salt.high, water.low));
}

BrineWeighed weigh_brine(const larder::BrineQuestion& question, const kitchen::Kitchen& kitchen) {
    BrineWeighed b;
    b.question = question;
    b.answer = larder::answer_brine(question);
    if (b.answer.mix) {
        if (b.answer.mix->salt_g > 0)
            b.salt = weighed(kitchen, "salt", larder::Role::salt, b.answer.mix->salt_g);
        if (b.answer.mix->water_g > 0)
            b.water = weighed(kitchen, "water", larder::Role::water, b.answer.mix->water_g);
    }
    b.percent_of_brine = strength(b);
    return b;
}

bool differ(const std::optional<Item>& a, const std::optional<Item>& b) {
    if (!a || !b) return a.has_value() != b.has_value();
    return std::abs(a->reading_g - b->reading_g) > std::max(a->step_g, b->step_g) * 0.5;
}

} // namespace

BrineSheet brine_sheet(const larder::BrineQuestion& asked, const kitchen::Kitchen& kitchen) {
    larder::BrineQuestion question = asked;
    // A quart is what the kitchen means by it.
    if (question.amount) question.amount = question.amount->in_spoons(kitchen.spoons);
    BrineSheet sheet;
    sheet.kitchen = kitchen.name;
    sheet.kitchen_built_in = kitchen.built_in;
    sheet.taken = weigh_brine(question, kitchen);
    if (const auto other = larder::taken_otherwise(question)) {
        BrineWeighed otherwise = weigh_brine(*other, kitchen);
        const bool shown = !sheet.taken.answer.mix || // a strength alone: always another one
                           differ(sheet.taken.salt, otherwise.salt) ||
                           differ(sheet.taken.water, otherwise.water);
        if (shown) sheet.otherwise = std::move(otherwise);
    }
    return sheet;
}

} // namespace jarful::plan
