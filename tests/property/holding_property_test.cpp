#include "tests/support/recipe.hpp"

#include <rapidcheck/gtest.h>

#include <cmath>
#include <cstdio>

/// Readings that hold, and answers asked backwards, over random recipes, kitchens and batches. The
/// expectations are worked out here by hand, from the definitions in docs/science.md.
namespace jarful {
namespace {

using plan::Item;
using plan::Verdict;

const Item& item(const plan::WeighOut& w, std::string_view name) {
    for (const auto* list : {&w.givens, &w.items})
        for (const Item& i : *list)
            if (i.name == name) return i;
    throw std::runtime_error("no such item");
}

std::string number(double x) {
    char text[64];
    std::snprintf(text, sizeof text, "%.6f", x);
    return text;
}

struct Case {
    double cabbage, percent, low, high, step, tolerance;
};

Case random_case() {
    Case c;
    c.cabbage = *rc::gen::resize(100, rc::gen::inRange(60, 4000));
    c.percent = *rc::gen::resize(100, rc::gen::inRange(200, 301)) / 100.0;
    // A house bound around the recipe's own figure, wide or narrow.
    c.low = c.percent - *rc::gen::resize(100, rc::gen::inRange(2, 60)) / 100.0;
    c.high = c.percent + *rc::gen::resize(100, rc::gen::inRange(2, 60)) / 100.0;
    c.step = *rc::gen::elementOf(std::vector<double>{0.1, 0.2, 0.5, 1, 2, 5});
    c.tolerance = c.step * *rc::gen::resize(100, rc::gen::inRange(0, 3)) / 2.0;
    return c;
}

plan::WeighOut weigh_case(const Case& c) {
    kitchen::Kitchen k;
    k.name = "random";
    k.scales.push_back({"only", c.step, 5000, c.tolerance});
    const std::string text = "recipe \"Random\"\nkind kraut\ngiven cabbage = " + number(c.cabbage) +
                             " g\nweigh salt = " + number(c.percent) +
                             " % of cabbage as canning salt\n" + "hold salt / cabbage between " +
                             number(c.low) + " % and " + number(c.high) + " %\n";
    const test::Outcome o = test::weigh(text, {}, k);
    if (!o.out) throw std::runtime_error(o.said);
    return *o.out;
}

/// Whether a reading keeps the range and the house bound in its worst case.
bool keeps(const Case& c, double reading) {
    const double error = c.tolerance + c.step / 2;
    const double low = 100 * std::max(0.0, reading - error) / (c.cabbage + error);
    const double high = 100 * (reading + error) / (c.cabbage - error);
    const double slack = 1e-7;
    return low >= std::max(2.0, c.low) - slack && high <= std::min(3.0, c.high) + slack;
}

RC_GTEST_PROP(Holding, either_every_check_holds_or_nothing_on_the_scale_would, ()) {
    const Case c = random_case();
    const plan::WeighOut w = weigh_case(c);
    const double exact = c.cabbage * c.percent / 100;
    if (w.no_reading) {
        RC_ASSERT(w.verdict != Verdict::inside);
        for (double n = std::ceil(0.75 * exact / c.step); n * c.step <= 1.25 * exact; n += 1)
            if (n > 0) RC_ASSERT(!keeps(c, n * c.step));
        RC_TAG("refused");
        return;
    }
    const double reading = item(w, "salt").reading_g;
    RC_ASSERT(w.verdict == Verdict::inside);
    RC_ASSERT(keeps(c, reading));
    // No nearer multiple of the step holds.
    for (double n = std::ceil(0.75 * exact / c.step); n * c.step <= 1.25 * exact; n += 1)
        if (n > 0 && std::fabs(n * c.step - exact) < std::fabs(reading - exact) - 1e-6)
            RC_ASSERT(!keeps(c, n * c.step));
    RC_TAG(item(w, "salt").moved ? "moved" : "nearest");
}

RC_GTEST_PROP(Backwards, then_forwards_agrees_to_the_step, ()) {
    const double carrot_share = *rc::gen::resize(100, rc::gen::inRange(0, 30)) / 100.0;
    const double percent = *rc::gen::resize(100, rc::gen::inRange(200, 300)) / 100.0;
    const double fixed = *rc::gen::resize(100, rc::gen::inRange(0, 5));
    const double asked = *rc::gen::resize(100, rc::gen::inRange(20, 200));
    kitchen::Kitchen k;
    k.scales.push_back({"only", 0.1, 50'000, 0.1});
    const std::string text =
        "recipe \"Random\"\ngiven cabbage = 1.8 kg\nweigh carrot = " + number(100 * carrot_share) +
        " % of cabbage\n"
        "weigh salt = " +
        number(percent) + " % of (cabbage + carrot) + " + number(fixed) + " g counts as salt\n";
    // `+` beside an `of` needs parentheses.
    std::string written = text;
    const std::string salt = "weigh salt = ";
    written.insert(written.find(salt) + salt.size(), "(");
    written.insert(written.find(") + " + number(fixed)) + 1, ")");
    const test::Outcome back = test::weigh(written, {"salt=" + number(asked) + "g"}, k);
    RC_ASSERT(back.out);
    const double cabbage = item(*back.out, "cabbage").reading_g;
    const test::Outcome forth = test::weigh(written, {"cabbage=" + number(cabbage) + "g"}, k);
    RC_ASSERT(forth.out);
    RC_ASSERT(std::fabs(item(*forth.out, "salt").reading_g - asked) <= 0.1 + 1e-9);
    // By hand: asked = percent * (1 + share) * cabbage + fixed.
    const double exact = (asked - fixed) / (percent / 100 * (1 + carrot_share));
    RC_ASSERT(std::fabs(back.out->answer->moved[0].exact_g - exact) <= 1e-6 * exact);
}

} // namespace
} // namespace jarful
