#include "engine/kitchen/reading.hpp"
#include "tests/support/recipe.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

/// A bowl on the scale, and jars that are filled from one bowl.
namespace jarful {
namespace {

int any(int from, int to) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(from, to));
}

kitchen::Scale any_scale() {
    constexpr double steps[] = {
        1, 0.1, 5, 0.01, units::ounce_g, units::ounce_g / 10, units::ounce_g / 8, 2};
    kitchen::Scale scale;
    scale.step_g = steps[any(0, 8)];
    scale.capacity_g = scale.step_g * any(50, 20'000);
    scale.tolerance_g = scale.step_g * any(0, 3);
    scale.use = any(10, 101) / 100.0;
    // A bowl that leaves one step at least.
    scale.bowl_g = any(0, 1000) / 1000.0 * (scale.most_g() - scale.step_g);
    return scale;
}

RC_GTEST_PROP(Bowl, leaves_no_go_over_what_the_scale_carries, ()) {
    kitchen::Kitchen k;
    const int count = any(1, 4);
    for (int i = 0; i < count; ++i) {
        k.scales.push_back(any_scale());
        k.scales.back().name = "s" + std::to_string(i);
    }
    const double grams = any(1, 2'000'000) / 97.0;
    const kitchen::Reading r = kitchen::best_reading(k, grams);
    const kitchen::Scale& scale = k.scales[r.scale];
    RC_PRE(r.total_g <= kitchen::most_goes * kitchen::most_at_once(scale));
    double sum = 0;
    for (const double portion : r.portions) {
        RC_ASSERT(portion + scale.bowl_g <= scale.use * scale.capacity_g * (1 + 1e-9));
        sum += portion;
    }
    RC_ASSERT(std::fabs(sum - r.total_g) <= 1e-9 * std::max(1.0, sum));
    RC_ASSERT(std::fabs(r.total_g - grams) <= scale.step_g / 2 + 1e-9 * grams);
    // Each go is a weighing with an error of its own.
    const double error = scale.error_g() * static_cast<double>(r.portions.size());
    RC_ASSERT(r.truth.high >= r.total_g + error * (1 - 1e-12));
    // Never one go more than it takes.
    RC_ASSERT(r.portions.size() == 1 || r.total_g > static_cast<double>(r.portions.size() - 1) *
                                                        kitchen::most_at_once(scale) * (1 - 1e-9));
}

RC_GTEST_PROP(Bowl, is_judged_once_for_all_the_jars_that_are_filled_from_it, ()) {
    const double step = std::vector<double>{1, 0.1, 5}[static_cast<std::size_t>(any(0, 3))];
    std::ostringstream kitchen;
    kitchen << "kitchen \"k\"\nscale s reads " << step << " g up to 5 kg within " << step
            << " g bowl " << any(0, 1000) << " g\njar small holds " << any(300, 2000)
            << " mL brimful have 30\n";
    std::ostringstream recipe;
    recipe << "recipe \"r\"\nkind kraut\ngiven cabbage = " << any(500, 9000)
           << " g\nweigh carrot = " << any(1, 20)
           << " % of cabbage\nweigh salt = " << any(170, 330) / 100.0
           << " % of (cabbage + carrot) as fine sea salt\n"
              "fill (cabbage + carrot) / (0.9 kg/L)\nheadspace 10 %\n";
    const auto choosing = [](bool jars) {
        return [jars](plan::Request& request) {
            request.vessels =
                jars ? plan::Request::Vessels::needed : plan::Request::Vessels::unknown;
        };
    };
    const kitchen::Kitchen k = test::kitchen_of(kitchen.str());
    const auto bowl = test::weigh_with(recipe.str(), choosing(false), k);
    const auto packed = test::weigh_with(recipe.str(), choosing(true), k);
    RC_PRE(bowl.out && packed.out && bowl.out->salt && packed.out->salt);
    RC_ASSERT(packed.out->salt->figure.bounds == bowl.out->salt->figure.bounds);
    RC_PRE(packed.out->jars.size() > 1);
    RC_ASSERT(packed.out->verdict == bowl.out->verdict);
    double mixture = 0;
    for (const plan::JarShare& jar : packed.out->jars) {
        RC_ASSERT(!jar.salt);
        RC_ASSERT(jar.mixture.has_value());
        mixture += jar.mixture->reading_g;
    }
    if (packed.out->jar_choice->left_mixture)
        mixture += packed.out->jar_choice->left_mixture->reading_g;
    double all = 0;
    for (const auto* list : {&packed.out->givens, &packed.out->items})
        for (const plan::Item& item : *list)
            all += item.too_small ? item.exact_g : item.reading_g;
    RC_ASSERT(std::fabs(mixture - all) <= step / 2 + 1e-6);
}

} // namespace
} // namespace jarful
