#include "engine/plan/mend.hpp"
#include "tests/property/judged_recipe.hpp"
#include "tests/support/recipe.hpp"

#include <gtest/gtest.h>

#include <algorithm>

/// What is printed is what is judged: the printed numbers given back as poured come to the same
/// verdict, in every variant, and whatever is said to do does.
namespace jarful {
namespace {

using plan::Item;
using plan::Verdict;
using plan::WeighOut;

constexpr std::uint64_t seed = 20270114;

plan::Setting setting(const std::string& text) {
    language::Findings findings;
    auto read = plan::read_setting(text, findings);
    if (!read) throw std::runtime_error("not a setting: " + text);
    return *std::move(read);
}

std::string grams(double value) {
    char text[64];
    std::snprintf(text, sizeof text, "%.9f g", value);
    return text;
}

const Item& item_of(const WeighOut& out, const std::string& name) {
    for (const auto* list : {&out.givens, &out.items})
        for (const Item& item : *list)
            if (item.name == name) return item;
    throw std::runtime_error("no " + name);
}

/// `NAME=…` with each portion, since each was a weighing of its own.
std::string as_printed(const Item& item) {
    std::string out;
    for (const plan::Portion& portion : item.portions)
        out += (out.empty() ? item.name + "=" : "+") + grams(portion.reading_g);
    return out;
}

/// Everything that the sheet prints to be weighed, as poured; empty if a scale cannot show it.
std::optional<std::vector<std::string>> printed(const WeighOut& out) {
    std::vector<std::string> all;
    for (const auto* list : {&out.givens, &out.items})
        for (const Item& item : *list) {
            if (item.word == "measure") continue;
            if (item.too_small || item.reading_g <= 0) return std::nullopt;
            all.push_back(as_printed(item));
        }
    return all;
}

test::Outcome pour(const std::string& text, const kitchen::Kitchen& kitchen,
                   const std::vector<std::string>& poured,
                   const std::vector<std::string>& without = {}) {
    return test::weigh_with(
        text,
        [&](plan::Request& request) {
            request.without = without;
            for (const std::string& p : poured) {
                plan::Setting s = setting(p);
                if (std::find(without.begin(), without.end(), s.name) == without.end())
                    request.poured.push_back(std::move(s));
            }
        },
        kitchen);
}

TEST(Judging, printed_numbers_given_back_as_poured_say_the_same_in_every_variant) {
    test::JudgedRecipes recipes(seed);
    int compared = 0, with_options = 0, broken_by_a_variant = 0;
    for (int i = 0; i < 200; ++i) {
        const test::JudgedRecipe r = recipes.next();
        SCOPED_TRACE(r.text + r.kitchen);
        const kitchen::Kitchen kitchen = test::kitchen_of(r.kitchen);
        const test::Outcome o = test::weigh(r.text, {}, kitchen);
        ASSERT_TRUE(o.out) << o.said;
        const auto numbers = printed(*o.out);
        if (!numbers) continue;
        ++compared;
        const test::Outcome again = pour(r.text, kitchen, *numbers);
        ASSERT_TRUE(again.out) << again.said;
        EXPECT_EQ(again.out->verdict, o.out->verdict);
        EXPECT_EQ(again.out->salt->verdict, o.out->salt->verdict);
        EXPECT_NEAR(again.out->salt->figure.bounds.low, o.out->salt->figure.bounds.low, 1e-9);
        EXPECT_NEAR(again.out->salt->figure.bounds.high, o.out->salt->figure.bounds.high, 1e-9);
        ASSERT_EQ(again.out->checks.size(), o.out->checks.size());
        for (std::size_t c = 0; c < o.out->checks.size(); ++c)
            EXPECT_EQ(again.out->checks[c].verdict, o.out->checks[c].verdict)
                << o.out->checks[c].text;
        // One call for each variant: the printed verdict is the worst of theirs.
        Verdict worst = Verdict::inside;
        for (std::size_t mask = 0; mask < std::size_t{1} << r.optional.size(); ++mask) {
            std::vector<std::string> without;
            for (std::size_t k = 0; k < r.optional.size(); ++k)
                if ((mask >> k & 1) != 0) without.push_back(r.optional[k]);
            const test::Outcome variant = pour(r.text, kitchen, *numbers, without);
            ASSERT_TRUE(variant.out) << variant.said;
            const auto order = [](Verdict v) {
                return v == Verdict::below       ? 3
                       : v == Verdict::above     ? 2
                       : v == Verdict::undecided ? 1
                                                 : 0;
            };
            const Verdict its = variant.out->verdict.value_or(Verdict::inside);
            if (order(its) > order(worst)) worst = its;
        }
        EXPECT_EQ(worst, o.out->verdict);
        with_options += r.optional.empty() ? 0 : 1;
        for (const auto& v : o.out->salt->variants)
            broken_by_a_variant += v.verdict == Verdict::inside ? 0 : 1;
    }
    EXPECT_GT(compared, 100);
    EXPECT_GT(with_options, 40);
    EXPECT_GT(broken_by_a_variant, 25);
}

// The layer on top lies there or has dissolved: the same as a recipe without it and with it.
TEST(Judging, an_undissolved_cap_is_judged_as_if_it_were_not_there) {
    test::JudgedRecipes recipes(seed + 1);
    int seen = 0;
    for (int i = 0; i < 150; ++i) {
        const test::JudgedRecipe r = recipes.next();
        if (!r.cap) continue;
        SCOPED_TRACE(r.text + r.kitchen);
        const kitchen::Kitchen kitchen = test::kitchen_of(r.kitchen);
        const test::Outcome o = test::weigh(r.text, {}, kitchen);
        ASSERT_TRUE(o.out) << o.said;
        auto numbers = printed(*o.out);
        if (!numbers) continue;
        std::string bare = r.text;
        const std::size_t at = bare.find("cap salt_cap");
        bare.erase(at, bare.find('\n', at) + 1 - at);
        std::erase_if(*numbers, [](const std::string& n) { return n.starts_with("salt_cap="); });
        const test::Outcome before = pour(bare, kitchen, *numbers);
        ASSERT_TRUE(before.out) << before.said;
        const auto variant = std::find_if(
            o.out->salt->variants.begin(), o.out->salt->variants.end(),
            [](const auto& v) { return v.text == "before the salt_cap on top dissolves"; });
        ASSERT_NE(variant, o.out->salt->variants.end());
        EXPECT_NEAR(variant->bounds.low, before.out->salt->figure.bounds.low, 1e-9);
        EXPECT_NEAR(variant->bounds.high, before.out->salt->figure.bounds.high, 1e-9);
        if (o.out->verdict == Verdict::inside) {
            EXPECT_EQ(before.out->verdict, Verdict::inside);
        }
        ++seen;
    }
    EXPECT_GT(seen, 40);
}

plan::MendOut mend(const std::string& text, const kitchen::Kitchen& kitchen,
                   const std::vector<std::string>& poured) {
    language::Findings findings;
    const language::Document recipe =
        language::parse(*language::read_source("test.jarful", text, findings), findings);
    plan::MendRequest request;
    for (const std::string& p : poured)
        request.request.poured.push_back(setting(p));
    plan::MendFindings found;
    auto out = plan::mend(recipe, kitchen, request, findings, found);
    if (!out) throw std::runtime_error("cannot be mended");
    return *std::move(out);
}

// `apple at most 12 % of cabbage` and `apple / cabbage at most 12 %` are one bound.
TEST(Judging, a_bound_that_is_an_expression_and_the_same_as_a_ratio_always_agree) {
    test::JudgedRecipes recipes(seed + 2);
    int judged = 0, not_inside = 0;
    const auto agree = [&](const std::vector<plan::HoldCheck>& a,
                           const std::vector<plan::HoldCheck>& b) {
        ASSERT_EQ(a.size(), b.size());
        for (std::size_t i = 0; i < a.size(); ++i) {
            EXPECT_EQ(a[i].verdict, b[i].verdict) << a[i].text;
            ++judged;
            not_inside += a[i].verdict == Verdict::inside ? 0 : 1;
        }
    };
    for (int i = 0; i < 200; ++i) {
        const test::JudgedRecipe r = recipes.next();
        if (r.text == r.otherwise) continue;
        SCOPED_TRACE(r.text + r.otherwise + r.kitchen);
        const kitchen::Kitchen kitchen = test::kitchen_of(r.kitchen);
        const test::Outcome a = test::weigh(r.text, {}, kitchen);
        const test::Outcome b = test::weigh(r.otherwise, {}, kitchen);
        ASSERT_TRUE(a.out && b.out) << a.said << b.said;
        agree(a.out->checks, b.out->checks);
        EXPECT_EQ(a.out->no_reading.has_value(), b.out->no_reading.has_value());
        const test::Outcome check_a = test::check(r.text, kitchen);
        const test::Outcome check_b = test::check(r.otherwise, kitchen);
        ASSERT_TRUE(check_a.check && check_b.check);
        agree(check_a.check->checks, check_b.check->checks);
        // Something else was poured than was planned.
        std::vector<std::string> poured;
        for (const auto* list : {&a.out->givens, &a.out->items})
            for (const Item& item : *list)
                if (item.word != "measure" && item.reading_g > 0 && recipes.one_in(2))
                    poured.push_back(item.name + "=" +
                                     grams(item.reading_g * recipes.real(0.85, 1.15)));
        const test::Outcome poured_a = pour(r.text, kitchen, poured);
        const test::Outcome poured_b = pour(r.otherwise, kitchen, poured);
        ASSERT_TRUE(poured_a.out && poured_b.out);
        agree(poured_a.out->checks, poured_b.out->checks);
        const plan::MendOut mend_a = mend(r.text, kitchen, poured);
        const plan::MendOut mend_b = mend(r.otherwise, kitchen, poured);
        agree(mend_a.checks, mend_b.checks);
        EXPECT_EQ(mend_a.nothing_to_mend, mend_b.nothing_to_mend);
        ASSERT_EQ(mend_a.ways.size(), mend_b.ways.size());
        for (std::size_t w = 0; w < mend_a.ways.size(); ++w)
            EXPECT_EQ(mend_a.ways[w].holds, mend_b.ways[w].holds) << mend_a.ways[w].text;
    }
    EXPECT_GT(judged, 400);
    EXPECT_GT(not_inside, 50);
}

// Where no reading does, what is said to do is weighed as it is said.
TEST(Judging, a_batch_or_a_scale_that_is_said_to_do_does) {
    test::JudgedRecipes recipes(seed + 3);
    int batches = 0, scales = 0;
    for (int i = 0; i < 200; ++i) {
        const test::JudgedRecipe r = recipes.next();
        const kitchen::Kitchen kitchen = test::kitchen_of(r.kitchen);
        const test::Outcome o = test::weigh(r.text, {}, kitchen);
        ASSERT_TRUE(o.out) << o.said;
        if (!o.out->no_reading) continue;
        SCOPED_TRACE(r.text + r.kitchen);
        EXPECT_NE(o.out->verdict, Verdict::inside);
        // What the exact amounts do not keep is not mended by any scale.
        const test::Outcome exact = test::check(r.text, kitchen);
        if (exact.check->verdict != Verdict::inside) continue;
        if (o.out->no_reading->batch_g) {
            const test::Outcome larger =
                test::weigh(r.text,
                            {*o.out->no_reading->batch_name + "=" +
                             units::print_mass(*o.out->no_reading->batch_g)},
                            kitchen);
            ASSERT_TRUE(larger.out) << larger.said;
            EXPECT_EQ(larger.out->verdict, Verdict::inside)
                << units::print_mass(*o.out->no_reading->batch_g);
            ++batches;
        }
        if (o.out->no_reading->step_g) {
            kitchen::Kitchen better = kitchen;
            const double step = *o.out->no_reading->step_g;
            better.scales.push_back({"finer", step, 500, step});
            const test::Outcome finer = test::weigh(r.text, {}, better);
            ASSERT_TRUE(finer.out);
            EXPECT_EQ(finer.out->verdict, Verdict::inside) << step;
            ++scales;
        }
    }
    EXPECT_GT(batches, 10);
    EXPECT_GT(scales, 5);
}

// What a way to mend adds, poured as it says: inside where it keeps every bound, and not where not.
TEST(Judging, a_way_to_mend_that_keeps_every_bound_does) {
    test::JudgedRecipes recipes(seed + 4);
    int kept = 0, not_kept = 0;
    for (int i = 0; i < 150; ++i) {
        const test::JudgedRecipe r = recipes.next();
        SCOPED_TRACE(r.text + r.kitchen);
        const kitchen::Kitchen kitchen = test::kitchen_of(r.kitchen);
        const test::Outcome o = test::weigh(r.text, {}, kitchen);
        ASSERT_TRUE(o.out) << o.said;
        auto numbers = printed(*o.out);
        if (!numbers) continue;
        for (std::string& n : *numbers)
            if (n.starts_with("salt=")) {
                const double was = item_of(*o.out, "salt").reading_g;
                n = "salt=" + grams(std::max(0.1, was * recipes.real(0.5, 1.6)));
            }
        const plan::MendOut mended = mend(r.text, kitchen, *numbers);
        for (const plan::Way& way : mended.ways) {
            std::vector<std::string> all = *numbers;
            std::size_t found = 0;
            for (const plan::Addition& more : way.add)
                for (std::string& n : all)
                    if (n.starts_with(more.name + "=")) {
                        n += "+" + grams(more.reading_g);
                        ++found;
                    }
            if (found != way.add.size()) continue; // to what is still to be weighed
            const test::Outcome after = pour(r.text, kitchen, all);
            ASSERT_TRUE(after.out) << after.said;
            EXPECT_EQ(after.out->verdict == Verdict::inside, way.holds) << way.text;
            (way.holds ? kept : not_kept) += 1;
        }
    }
    EXPECT_GT(kept, 25);
    EXPECT_GT(not_kept, 0);
}

} // namespace
} // namespace jarful
