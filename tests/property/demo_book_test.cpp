#include "engine/larder/larder.hpp"
#include "engine/plan/plan.hpp"
#include "engine/plan/trace.hpp"
#include "tests/support/recipe.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <random>
#include <set>
#include <sstream>

// The salt of every recipe of the demo book, worked out once more from nothing but what the
// weigh-out says may lie on the scales, what the larder says is in it, and plain arithmetic.

namespace jarful {
namespace {

using larder::Basis;
using larder::Role;
using units::Interval;

std::string text_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

std::vector<std::filesystem::path> recipes() {
    std::vector<std::filesystem::path> found;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(JARFUL_SOURCE_DIR) + "/recipes"))
        if (entry.path().extension() == ".jarful" && entry.path().stem() != "kitchen")
            found.push_back(entry.path());
    std::sort(found.begin(), found.end());
    return found;
}

/// What is in the jar as a function of the causes of error, each by its name once.
class Jar {
  public:
    Jar(const std::string& text, const plan::WeighOut& out)
        : out_(out) {
        language::Findings findings;
        const language::Document doc =
            test::read_recipe(*language::read_source("test.jarful", text, findings), findings);
        for (const language::Line& line : doc.lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q == nullptr) continue;
            if (q->replaces) replaced_.insert(q->replaces->value);
            if (q->tail.keeps)
                keeps_[q->name.value] = {q->tail.keeps->amount.low, q->tail.keeps->amount.high};
        }
        (void)salt_percent([&](const std::string& name, Interval range) { // gathers the causes
            if (range.low < range.high) causes_.emplace(name, range);
            return range.low;
        });
    }

    using Draw = std::function<double(const std::string& cause, Interval range)>;

    [[nodiscard]] const std::map<std::string, Interval>& causes() const { return causes_; }

    /// Salt in percent on the ruling basis, with one value for each cause.
    [[nodiscard]] double salt_percent(const std::map<std::string, double>& world) const {
        return salt_percent([&](const std::string& name, Interval range) {
            const auto it = world.find(name);
            return it == world.end() ? range.low : it->second;
        });
    }

  private:
    [[nodiscard]] double salt_percent(const Draw& draw) const {
        double salt = 0, produce = 0, liquid = 0, everything = 0;
        const auto share = [&](const larder::Figure& f, const std::string& of) {
            return draw(of, f.interval());
        };
        for (const auto* list : {&out_.givens, &out_.items}) {
            for (const plan::Item& it : *list) {
                if (!it.role || replaced_.count(it.name) != 0) continue;
                const auto match = larder_.find(it.material);
                const larder::Material* m = match && match->exact ? match->material : nullptr;
                if (it.fate == plan::Fate::discarded && keeps_.count(it.name) == 0) continue;
                const auto stock =
                    std::find_if(out_.stocks.begin(), out_.stocks.end(),
                                 [&](const plan::Stock& s) { return s.name == it.material; });
                const bool poured = stock != out_.stocks.end();
                if (!relevant(it, poured, m)) continue;
                const double mass = draw(it.name, it.truth);
                if (it.fate == plan::Fate::discarded) {
                    const double stays = share(*m->salt, "salt in " + it.material) * mass *
                                         draw("stays of " + it.name, keeps_.at(it.name));
                    salt += stays;
                    everything += stays;
                    continue;
                }
                everything += mass;
                if (poured) {
                    const double s = draw("stock salt", stock->salt.truth);
                    const double strength = s / (s + draw("stock water", stock->water.truth));
                    const auto in_it = larder_.find(stock->salt.material)->material;
                    salt +=
                        mass * strength * share(*in_it->salt, "salt in " + stock->salt.material);
                    liquid += mass * (1 - strength);
                    continue;
                }
                if (it.role == Role::vegetable) produce += mass;
                if (m != nullptr && m->salt && it.role != Role::water)
                    salt += mass * share(*m->salt, "salt in " + it.material);
                else if (it.role == Role::salt)
                    salt += mass;
                if (it.role == Role::water || it.role == Role::acid) liquid += mass;
                if (it.role == Role::seasoning && m != nullptr && m->water)
                    liquid += mass * share(*m->water, "water in " + it.material);
            }
        }
        return 100 * salt / divisor(salt, produce, liquid, everything);
    }

    [[nodiscard]] bool relevant(const plan::Item& it, bool poured,
                                const larder::Material* m) const {
        const Basis basis = out_.salt->figure.basis;
        if (basis == Basis::of_everything || poured) return true;
        const bool salty = it.role == Role::salt || (m != nullptr && m->salt);
        if (salty || it.role == Role::vegetable) return true;
        return basis != Basis::of_vegetables &&
               (it.role == Role::water || it.role == Role::acid || it.role == Role::seasoning);
    }

    [[nodiscard]] double divisor(double salt, double produce, double liquid,
                                 double everything) const {
        switch (out_.salt->figure.basis) {
        case Basis::of_vegetables:
            return produce;
        case Basis::of_vegetables_and_water:
            return produce + liquid;
        case Basis::of_brine:
        case Basis::of_drained_brine:
            return salt + liquid;
        case Basis::of_everything:
            return everything;
        case Basis::of_water:
            return liquid;
        case Basis::of_evened_brine: // olives alone, and the book has none
            break;
        }
        return 0;
    }

    const plan::WeighOut& out_;
    larder::Larder larder_;
    std::set<std::string> replaced_;
    std::map<std::string, Interval> keeps_;
    std::map<std::string, Interval> causes_;
};

TEST(DemoBook, salt_of_every_recipe_is_as_sure_as_its_weighings_and_no_less) {
    const auto kitchen =
        test::kitchen_of(text_of(std::string(JARFUL_SOURCE_DIR) + "/recipes/kitchen.jarful"));
    std::mt19937_64 engine(20);
    std::size_t judged = 0;
    for (const auto& path : recipes()) {
        SCOPED_TRACE(path.filename().string());
        const std::string text = text_of(path);
        const auto outcome = test::weigh(text, {}, kitchen);
        ASSERT_TRUE(outcome.out) << outcome.said;
        const plan::WeighOut& out = *outcome.out;
        ASSERT_TRUE(out.salt) << out.no_salt_reason;
        ++judged;
        const Jar jar(text, out);
        const Interval bounds = out.salt->figure.bounds;

        // Monte Carlo: every cause anywhere in its range, ends included.
        std::uniform_real_distribution<double> fraction(-0.2, 1.2);
        for (int i = 0; i < 1000; ++i) {
            std::map<std::string, double> world;
            for (const auto& [name, range] : jar.causes())
                world[name] =
                    std::clamp(range.low + fraction(engine) * range.width(), range.low, range.high);
            const double percent = jar.salt_percent(world);
            ASSERT_GE(percent, bounds.low - 1e-12);
            ASSERT_LE(percent, bounds.high + 1e-12);
        }

        // The worst that the weighings allow: they and the salt rise or fall together, so that the
        // extremes lie at the ends of the ranges.
        const std::size_t count = jar.causes().size();
        ASSERT_GE(count, 2u);
        ASSERT_LE(count, 16u);
        double low = 1e9, high = 0;
        for (std::size_t corner = 0; corner < (std::size_t{1} << count); ++corner) {
            std::map<std::string, double> world;
            std::size_t bit = 0;
            for (const auto& [name, range] : jar.causes())
                world[name] = (corner >> bit++ & 1u) != 0 ? range.high : range.low;
            const double percent = jar.salt_percent(world);
            low = std::min(low, percent);
            high = std::max(high, percent);
        }
        EXPECT_NEAR(bounds.low, low, 1e-9 * high);
        EXPECT_NEAR(bounds.high, high, 1e-9 * high);
    }
    EXPECT_GE(judged, 18u);
}

// By hand, with half a gram on the salt: 39.1 / 1850 and 40.1 / 1750 are 2.1135 and 2.2914 %.
// Expanding the formula of the salt once more would give 2.08 to 2.33 %.
TEST(DemoBook, fifty_grams_on_a_cabbage_are_not_counted_twice) {
    const auto kitchen =
        test::kitchen_of("kitchen \"plain\"\nscale bench reads 0.1 g up to 5 kg within 0.45 g\n");
    const auto outcome = test::weigh("recipe \"plain\"\nkind kraut\n"
                                     "given cabbage = 1.80 kg ± 50 g\n"
                                     "weigh pure = 2.2 % of cabbage counts as salt\n",
                                     {}, kitchen);
    ASSERT_TRUE(outcome.out) << outcome.said;
    const Interval bounds = outcome.out->salt->figure.bounds;
    EXPECT_NEAR(bounds.low, 100 * 39.1 / 1850, 1e-9);
    EXPECT_NEAR(bounds.high, 100 * 40.1 / 1750, 1e-9);
}

void expect_inside(const std::string& what, double value, Interval bounds) {
    EXPECT_LE(bounds.low, value) << what;
    EXPECT_GE(bounds.high, value) << what;
}

/// Every figure of a weigh-out that has bounds.
void expect_figures_inside(const plan::WeighOut& out) {
    if (out.salt) expect_inside("salt", out.salt->figure.percent, out.salt->figure.bounds);
    for (const plan::BasisFigure& figure : out.other_bases)
        expect_inside("another basis", figure.percent, figure.bounds);
    if (out.room) expect_inside("room", out.room->fill_ml, out.room->fill_bounds);
    for (const auto* list : {&out.givens, &out.items})
        for (const plan::Item& item : *list)
            if (item.fate != plan::Fate::later || item.entered)
                expect_inside(item.name, item.reading_g, item.truth);
    for (const plan::JarShare& jar : out.jars)
        if (jar.salt) expect_inside(jar.name, jar.salt->figure.percent, jar.salt->figure.bounds);
}

plan::Setting weighed(const std::string& name, double grams) {
    language::Findings findings;
    return plan::read_setting(name + "=" + std::to_string(grams) + "g", findings).value();
}

std::vector<const plan::Item*> items_of(const plan::WeighOut& out) {
    std::vector<const plan::Item*> all;
    for (const auto* list : {&out.givens, &out.items})
        for (const plan::Item& item : *list)
            if (item.exact_g > 0) all.push_back(&item);
    return all;
}

// Of what was weighed or poured, on fine scales and on coarse ones: no figure lies outside of what
// is said of how sure it is.
TEST(DemoBook, every_figure_lies_inside_its_own_bounds) {
    const std::string fine = text_of(std::string(JARFUL_SOURCE_DIR) + "/recipes/kitchen.jarful");
    std::vector<std::string> kitchens{fine};
    for (const char* scale : {"reads 1 g up to 5 kg within 1 g", "reads 5 g up to 10 kg within 2 g",
                              "reads 0.5 oz up to 22 lb"})
        kitchens.push_back("kitchen \"other\"\nscale only " + std::string(scale) + "\n" +
                           fine.substr(fine.find("jar    tall")));
    std::size_t count = 0;
    for (const std::string& words : kitchens) {
        const auto kitchen = test::kitchen_of(words);
        for (const auto& path : recipes()) {
            SCOPED_TRACE(path.filename().string() + " with " + kitchen.scales.front().name);
            const std::string text = text_of(path);
            const auto plain = test::weigh(text, {}, kitchen);
            ASSERT_TRUE(plain.out) << plain.said;
            expect_figures_inside(*plain.out);
            for (const plan::Item* item : items_of(*plain.out)) {
                SCOPED_TRACE(item->name);
                for (const double factor : {0.6, 1.07, 1.5}) {
                    const auto pour = [&](plan::Request& request) {
                        request.poured.push_back(weighed(item->name, item->exact_g * factor));
                        request.poured.back().certain = true; // what is far from the plan is meant
                    };
                    const auto poured = test::weigh_with(text, pour, kitchen);
                    // More cannot be weighed after draining than went in.
                    if (poured.codes == std::vector<std::string>{"measured-impossible"}) continue;
                    ASSERT_TRUE(poured.out) << poured.said;
                    expect_figures_inside(*poured.out);
                    ++count;
                }
            }
        }
    }
    EXPECT_GE(count, 500u);
}

// Every name of every recipe, with nothing poured and with too much of everything.
TEST(DemoBook, every_traced_value_lies_inside_its_own_bounds) {
    const auto kitchen =
        test::kitchen_of(text_of(std::string(JARFUL_SOURCE_DIR) + "/recipes/kitchen.jarful"));
    for (const auto& path : recipes()) {
        SCOPED_TRACE(path.filename().string());
        const std::string text = text_of(path);
        language::Findings findings;
        const language::Document doc =
            test::read_recipe(*language::read_source("test.jarful", text, findings), findings);
        const auto plain = test::weigh(text, {}, kitchen);
        ASSERT_TRUE(plain.out) << plain.said;
        plan::Request poured;
        for (const plan::Item* item : items_of(*plain.out))
            poured.poured.push_back(weighed(item->name, item->exact_g * 1.3));
        for (const plan::Request& request : {plan::Request{}, poured}) {
            for (const std::string& name : plan::traceable_names(doc, kitchen)) {
                plan::RequestFindings found;
                language::Findings about_name;
                const auto trace =
                    plan::trace(doc, kitchen, request, name, findings, found, about_name);
                ASSERT_TRUE(trace) << name;
                for (const plan::TraceNode& node : trace->nodes)
                    expect_inside(name + ": " + node.name, node.value.value, node.value.bounds);
            }
        }
    }
}

std::map<std::string, double> readings_of(const plan::WeighOut& out) {
    std::map<std::string, double> found;
    for (const plan::Item* item : items_of(out))
        found[item->name] = item->reading_g;
    return found;
}

// So much salt is left: whatever it goes into, that makes one batch, and it takes that salt. (Where
// water fills the jars there would be salt for that, too.)
TEST(DemoBook, the_salt_that_is_left_makes_one_batch_in_whatever_jars) {
    const auto kitchen =
        test::kitchen_of(text_of(std::string(JARFUL_SOURCE_DIR) + "/recipes/kitchen.jarful"));
    std::size_t asked = 0, covered = 0;
    for (const auto& path : recipes()) {
        const std::string text = text_of(path);
        const auto plain = test::weigh(text, {}, kitchen);
        ASSERT_TRUE(plain.out) << plain.said;
        for (const plan::Item& salt : plain.out->items) {
            if (salt.role != Role::salt || salt.word != "weigh" || salt.fate != plan::Fate::in_jar)
                continue;
            for (const double factor : {0.6, 1.0, 1.9}) {
                const double grams = std::round(salt.exact_g * factor);
                plan::Request request;
                request.settings.push_back(weighed(salt.name, grams));
                SCOPED_TRACE(path.filename().string() + " " + salt.name + " " +
                             std::to_string(grams));
                language::Findings findings;
                const language::Document doc = test::read_recipe(
                    *language::read_source("test.jarful", text, findings), findings);
                plan::RequestFindings found;
                const auto sheet = plan::weigh(doc, kitchen, request, findings, found);
                if (!sheet) continue; // it does not depend on the batch
                plan::Request bare = request;
                bare.vessels = plan::Request::Vessels::unknown;
                const auto alone = plan::weigh(doc, kitchen, bare, findings, found);
                ASSERT_TRUE(alone);
                EXPECT_TRUE(alone->jars.empty());
                EXPECT_FALSE(sheet->jars.empty());
                EXPECT_EQ(readings_of(*alone), readings_of(*sheet));
                EXPECT_NEAR(readings_of(*sheet).at(salt.name), grams,
                            std::max(0.51 * salt.step_g, 0.02 * grams));
                ++asked;
                covered += sheet->jar_choice && sheet->jar_choice->covered ? 1 : 0;
            }
        }
    }
    EXPECT_GE(asked, 40u);
    EXPECT_EQ(covered, 0u);
}

} // namespace
} // namespace jarful
