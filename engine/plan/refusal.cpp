#include "engine/plan/refusal.hpp"

#include "engine/kitchen/reading.hpp"
#include "engine/plan/limits.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace jarful::plan {

using language::QuantityWord;
using units::Interval;

namespace {

/// Sets every given and total to `factor` times its present value while it lives.
class Scaled {
  public:
    explicit Scaled(Model& model)
        : model_(model) {
        for (const language::Line& line : model.document->lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q == nullptr || (q->word != QuantityWord::given && q->word != QuantityWord::total))
                continue;
            const auto cell = model.sheet->find(q->name.value);
            if (!cell) continue;
            const auto entry = model.find_entry(q->name.value);
            if (entry && model.entries[*entry].left_out) continue;
            cells_.push_back({*cell, entry, model.sheet->value(*cell), model.sheet->entered(*cell),
                              entry ? model.entries[*entry].entered : std::nullopt});
        }
    }
    Scaled(const Scaled&) = delete;
    Scaled& operator=(const Scaled&) = delete;

    void to(double factor) {
        for (const Kept& k : cells_) {
            const double value = k.value * factor;
            model_.sheet->set(k.cell, value);
            if (!k.entry) continue;
            Entry& e = model_.entries[*k.entry];
            // Weighed afresh: the error is again that of the scale.
            e.entered.reset();
        }
    }

    ~Scaled() {
        for (const Kept& k : cells_) {
            if (k.entry) model_.entries[*k.entry].entered = k.entry_entered;
            if (!k.was_entered)
                model_.sheet->clear(k.cell);
            else if (k.entry_entered)
                model_.sheet->set(k.cell, k.value, k.entry_entered->bounds);
            else
                model_.sheet->set(k.cell, k.value);
        }
    }

  private:
    struct Kept {
        sheet::CellId cell;
        std::optional<std::size_t> entry;
        double value;
        bool was_entered;
        std::optional<Entry::Entered> entry_entered;
    };
    Model& model_;
    std::vector<Kept> cells_;
};

constexpr double largest_factor = 50;
constexpr int most_sizes = 60; ///< of round batches that are tried

/// A weight that is short to say and that the scale can show: at most three digits, whole steps.
double round_unit(const kitchen::Kitchen& kitchen, double grams) {
    const double step = kitchen.scales[kitchen::best_scale(kitchen, grams)].step_g;
    const double digits = std::pow(10.0, std::floor(std::log10(grams)) - 2);
    return kitchen::multiple_of_step(std::ceil(digits / step - 1e-9), step);
}

class Ways {
  public:
    Ways(Model& model, const kitchen::Kitchen& kitchen, Settler& settler)
        : model_(model)
        , kitchen_(kitchen)
        , settler_(settler)
        , wanted_(settler.watched()) {}

    Refusal run() {
        Refusal r;
        for (const Watched& w : wanted_) {
            if (settler_.keeps({w})) continue;
            r.text = settler_.text_of(w);
            break;
        }
        by_brine(r);
        // A bath that is poured off already cannot be made larger.
        if (std::none_of(model_.entries.begin(), model_.entries.end(),
                         [](const Entry& e) { return e.over; }))
            larger_batch(r);
        r.step_g = coarsest_step();
        settler_.show();
        return r;
    }

  private:
    /// Whether there are readings by which everything holds that cannot be kept now.
    [[nodiscard]] bool good(const kitchen::Kitchen& kitchen) {
        Settler settler(model_, kitchen, settler_.bowl_g());
        settler.settle();
        return settler.readings().held && settler.keeps(wanted_);
    }

    /// The smallest factor of the batch at which readings hold, to a part in four thousand.
    std::optional<double> smallest_factor(Scaled& scaled) {
        const auto good_at = [&](double factor) {
            scaled.to(factor);
            return good(kitchen_);
        };
        double low = 1;
        double high = 1;
        while (!good_at(high)) {
            if (high >= largest_factor) return std::nullopt;
            low = high;
            high = std::min(largest_factor, high * 1.25);
        }
        for (int i = 0; i < 12; ++i) {
            const double middle = (low + high) / 2;
            (good_at(middle) ? high : low) = middle;
        }
        return high;
    }

    void larger_batch(Refusal& r) {
        const auto given =
            std::find_if(model_.entries.begin(), model_.entries.end(), [](const Entry& e) {
                return e.word == QuantityWord::given && !e.left_out;
            });
        if (given == model_.entries.end()) return;
        const double now = model_.sheet->value(given->cell);
        if (!(now > 0)) return;
        Scaled scaled(model_);
        const auto factor = smallest_factor(scaled);
        if (!factor) return;
        // What is said has to hold as it is said.
        double grams = now * *factor;
        for (int i = 0; i < most_sizes; ++i) {
            const double unit = round_unit(kitchen_, grams);
            grams = kitchen::multiple_of_step(std::ceil(grams / unit - 1e-9), unit);
            scaled.to(grams / now);
            if (good(kitchen_)) {
                r.batch_name = given->name;
                r.batch_g = grams;
                return;
            }
            grams = std::max(grams + unit / 2, grams * 1.01);
        }
    }

    std::optional<double> coarsest_step() {
        const auto finest =
            std::min_element(kitchen_.scales.begin(), kitchen_.scales.end(),
                             [](const auto& a, const auto& b) { return a.step_g < b.step_g; });
        // Of the sort that the kitchen has.
        const bool ounces =
            kitchen_.shown.style() == units::Style::us && kitchen_.shown.finest_g > 0;
        for (const double figure : {0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.001}) {
            const double step = ounces ? figure * units::ounce_g : figure;
            if (step >= finest->step_g) continue;
            kitchen::Kitchen better = kitchen_;
            better.scales.push_back({"finer", step, 500, step});
            if (good(better)) return step;
        }
        return std::nullopt;
    }

    /// Salt by way of a brine: ten times the weight, a tenth of the error, and so much less water.
    void by_brine(Refusal& r) {
        Entry* salt = nullptr;
        Entry* water = nullptr;
        for (Entry& e : model_.entries) {
            if (e.left_out || !e.counts() || e.fate != Fate::in_jar || e.poured_from) continue;
            if (e.role == larder::Role::salt && salt == nullptr) salt = &e;
            if (e.role == larder::Role::water && water == nullptr) water = &e;
        }
        if (salt == nullptr || water == nullptr) return;
        constexpr double share = 0.1; // of salt in the brine
        const kitchen::Reading brine =
            kitchen::best_reading(kitchen_, model_.sheet->value(salt->cell) / share);
        const Interval rest = brine.truth * Interval(1 - share);
        const double shown = water->shown.value_or(model_.sheet->value(water->cell));
        if (shown < rest.high) return;
        const Interval plain = model_.sheet->interval(water->cell);
        observe(model_, *salt, brine.total_g * share, brine.truth * Interval(share));
        observe(model_, *water, shown, plain + rest - Interval(brine.total_g * (1 - share)));
        if (settler_.keeps(wanted_)) {
            r.brine_percent = 100 * share;
            r.brine_g = brine.total_g;
        }
        settler_.show();
    }

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    Settler& settler_;
    std::vector<Watched> wanted_; ///< what the exact amounts keep
};

} // namespace

Refusal explain_refusal(Model& model, const kitchen::Kitchen& kitchen, Settler& settler) {
    return Ways(model, kitchen, settler).run();
}

} // namespace jarful::plan
