#include "engine/plan/holding.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using language::QuantityWord;
using units::Interval;

namespace {

// How far from the exact amount a reading is looked for. Beyond a quarter it would be another
// recipe.
constexpr double furthest = 0.25;
constexpr int most_steps_one = 400;
constexpr int most_steps_two = 6;

bool holds(sheet::Sheet& sheet, const Limit& limit) {
    const Interval value = sheet.enclose(limit.value) * Interval(limit.factor);
    return compare(value, limit.low, limit.high) == Verdict::inside;
}

} // namespace

std::vector<Limit> limits_of(Model& model) {
    std::vector<Limit> limits;
    const bool unknown =
        std::any_of(model.entries.begin(), model.entries.end(),
                    [](const Entry& e) { return !e.left_out && !e.replaced && e.keeps_unknown; });
    if (model.ruling != nullptr && !unknown && (model.ruling->low || model.ruling->high)) {
        Limit l;
        l.value = basis_formula(model.totals, model.ruling->basis);
        l.factor = 100;
        if (model.ruling->low) l.low = model.ruling->low->percent;
        if (model.ruling->high) l.high = model.ruling->high->percent;
        l.text = "the salt";
        limits.push_back(std::move(l));
    }
    for (const Bound& b : model.holds) {
        Limit l;
        l.value = b.value;
        l.factor = 1 / hold_unit(model, b).second;
        if (!b.low.empty()) l.low = model.sheet->value(b.low) * l.factor;
        if (!b.high.empty()) l.high = model.sheet->value(b.high) * l.factor;
        l.text = std::string(model.document->source.at(b.line->value_place));
        limits.push_back(std::move(l));
    }
    return limits;
}

Settler::Settler(Model& model, const kitchen::Kitchen& kitchen, std::optional<double> bowl_g)
    : model_(model)
    , kitchen_(kitchen)
    , bowl_g_(bowl_g) {
}

bool Settler::in_bowl(const Entry& e) {
    return e.word != QuantityWord::count && e.word != QuantityWord::measure &&
           e.fate != Fate::discarded && e.fate != Fate::stock && !e.left_out;
}

bool Settler::chosen(const Entry& e) {
    return e.word != QuantityWord::count && e.word != QuantityWord::given &&
           e.word != QuantityWord::measure && !e.left_out && !e.entered && !e.poured && !e.over;
}

const std::vector<double>* matching_goes(const Model& model, const Entry& entry) {
    if (entry.role != larder::Role::salt || !Settler::chosen(entry)) return nullptr;
    const std::vector<double>* found = nullptr;
    for (const Entry& e : model.entries) {
        if (e.parts.size() < 2) continue;
        if (found != nullptr) return nullptr;
        found = &e.parts;
    }
    return found;
}

kitchen::Reading Settler::read(std::size_t entry, std::size_t scale, double grams) const {
    if (!bowl_scale_ || !in_bowl(model_.entries[entry])) {
        kitchen::Reading r = kitchen::read_on(kitchen_, scale, grams);
        const std::vector<double>* goes = matching_goes(model_, model_.entries[entry]);
        if (goes != nullptr && goes->size() > r.portions.size()) {
            // Every portion is a weighing with an error of its own.
            const double error =
                kitchen_.scales[scale].error_g() * static_cast<double>(goes->size());
            r.truth = Interval(r.total_g) + Interval(-error, error);
            r.truth.low = std::max(0.0, r.truth.low);
        }
        return r;
    }
    // The difference of two displays: two errors, and never in several goes.
    const kitchen::Scale& s = kitchen_.scales[*bowl_scale_];
    kitchen::Reading r;
    r.scale = *bowl_scale_;
    r.total_g = kitchen::round_to_step(grams, s.step_g);
    r.portions = {r.total_g};
    r.truth = Interval(r.total_g) + Interval(-2 * s.error_g(), 2 * s.error_g());
    r.truth.low = std::max(0.0, r.truth.low);
    return r;
}

void Settler::nearest() {
    sheet::Sheet& sheet = *model_.sheet;
    bowl_scale_.reset();
    if (bowl_g_) {
        double total = *bowl_g_;
        for (const Entry& e : model_.entries)
            if (in_bowl(e)) total += sheet.value(e.cell);
        for (std::size_t i = 0; i < kitchen_.scales.size(); ++i) {
            const kitchen::Scale& s = kitchen_.scales[i];
            if (s.capacity_g < total) continue;
            if (!bowl_scale_ || s.error_g() < kitchen_.scales[*bowl_scale_].error_g())
                bowl_scale_ = i;
        }
    }
    readings_ = {};
    readings_.of.resize(model_.entries.size());
    for (std::size_t i = 0; i < model_.entries.size(); ++i) {
        const Entry& e = model_.entries[i];
        if (e.left_out || e.word == QuantityWord::count) continue;
        const double exact = e.poured ? e.poured->value : sheet.value(e.cell);
        readings_.of[i] = read(i, kitchen::best_scale(kitchen_, exact), exact);
    }
}

void Settler::observe(std::size_t entry) {
    Entry& e = model_.entries[entry];
    if (e.left_out) return;
    const double exact = model_.sheet->value(e.cell);
    if (e.word == QuantityWord::count) {
        const double pieces = whole_pieces(exact, e.fate == Fate::optional);
        return plan::observe(model_, e, pieces, Interval(pieces));
    }
    if (e.poured) return plan::observe(model_, e, e.poured->value, e.poured->bounds);
    if (e.entered || e.fate == Fate::later) return; // its bounds are known, or come later
    const kitchen::Reading& r = readings_.of[entry];
    if (e.word == QuantityWord::given) {
        // What the recipe itself says of how sure a given is stands for the scale's error.
        if (model_.sheet->interval(e.cell).width() > 1e-9 * exact) return;
        const double error = r.truth.high - r.total_g;
        return plan::observe(model_, e, exact, Interval(exact) + Interval(-error, error));
    }
    // What the scale cannot show goes in by the spoon.
    const bool unseen = r.total_g <= 0 && exact > 0;
    plan::observe(model_, e, unseen ? std::min(exact, r.truth.high) : r.total_g, r.truth);
}

void Settler::settle() {
    sheet::Sheet& sheet = *model_.sheet;
    forget_weighed(model_);
    nearest();
    for (std::size_t i = 0; i < model_.entries.size(); ++i)
        observe(i);
    limits_ = limits_of(model_);
    watched_.clear();
    for (std::size_t i = 0; i < limits_.size(); ++i) {
        // A recipe that is out of bounds by itself is told so; its readings are not bent.
        const Interval exact(sheet.value(limits_[i].value) * limits_[i].factor);
        if (compare(exact, limits_[i].low, limits_[i].high) == Verdict::inside)
            watched_.push_back(i);
    }
    if (all_hold()) return;
    // What has been poured is not put right by weighing something else a little differently.
    if (std::any_of(model_.entries.begin(), model_.entries.end(),
                    [](const Entry& e) { return e.poured.has_value(); }))
        return;
    const std::vector<std::size_t> may_move = movable();
    for (std::size_t i : may_move)
        if (move_one(i)) return;
    for (std::size_t i = 0; i < may_move.size(); ++i)
        for (std::size_t j = i + 1; j < may_move.size() && j < i + 4; ++j)
            if (move_two(may_move[i], may_move[j])) return;
    readings_.held = false;
}

bool Settler::all_hold() {
    return std::all_of(watched_.begin(), watched_.end(),
                       [&](std::size_t i) { return holds(*model_.sheet, limits_[i]); });
}

/// Entries that a failing limit depends on and whose number can be chosen: salt first, then what
/// makes most of the doubt.
std::vector<std::size_t> Settler::movable() {
    std::vector<std::size_t> found;
    const auto add = [&](std::size_t i) {
        if (std::find(found.begin(), found.end(), i) == found.end()) found.push_back(i);
    };
    for (const bool salt : {true, false}) {
        for (std::size_t l : watched_) {
            if (holds(*model_.sheet, limits_[l])) continue;
            for (const sheet::Share& share : model_.sheet->causes(limits_[l].value)) {
                const auto i = model_.find_entry(share.label);
                if (!i || !chosen(model_.entries[*i])) continue;
                if ((model_.entries[*i].role == larder::Role::salt) == salt) add(*i);
            }
        }
    }
    return found;
}

/// Multiples of a scale's step near the exact amount, nearest first.
std::vector<double> Settler::candidates(std::size_t entry, std::size_t scale, int most) const {
    const double exact = model_.sheet->value(model_.entries[entry].cell);
    const double step = kitchen_.scales[scale].step_g;
    const double reach = std::max(furthest * exact, step);
    const double first = std::round(exact / step);
    std::vector<double> out;
    for (int k = 0; k <= most; ++k) {
        for (const double side : {1.0, -1.0}) {
            if (k == 0 && side < 0) continue;
            const double grams = kitchen::multiple_of_step(first + side * k, step);
            if (grams > 0 && std::fabs(grams - exact) <= reach) out.push_back(grams);
        }
    }
    std::stable_sort(out.begin(), out.end(), [&](double a, double b) {
        return std::fabs(a - exact) < std::fabs(b - exact);
    });
    return out;
}

bool Settler::move_one(std::size_t entry) {
    struct Try {
        std::size_t scale;
        double grams;
        double distance;
    };
    const double exact = model_.sheet->value(model_.entries[entry].cell);
    const kitchen::Reading before = readings_.of[entry];
    std::vector<Try> tries;
    for (std::size_t s = 0; s < kitchen_.scales.size(); ++s) {
        if (bowl_scale_ && s != *bowl_scale_ && in_bowl(model_.entries[entry])) continue;
        for (double grams : candidates(entry, s, most_steps_one))
            tries.push_back({s, grams, std::fabs(grams - exact)});
    }
    std::stable_sort(tries.begin(), tries.end(),
                     [](const Try& a, const Try& b) { return a.distance < b.distance; });
    for (const Try& t : tries) {
        readings_.of[entry] = read(entry, t.scale, t.grams);
        observe(entry);
        if (!all_hold()) continue;
        readings_.moved.push_back(entry);
        return true;
    }
    readings_.of[entry] = before;
    observe(entry);
    return false;
}

bool Settler::move_two(std::size_t first, std::size_t second) {
    const kitchen::Reading a = readings_.of[first];
    const kitchen::Reading b = readings_.of[second];
    struct Try {
        double first, second, distance;
    };
    std::vector<Try> tries;
    const double exact_a = model_.sheet->value(model_.entries[first].cell);
    const double exact_b = model_.sheet->value(model_.entries[second].cell);
    for (double x : candidates(first, a.scale, most_steps_two))
        for (double y : candidates(second, b.scale, most_steps_two))
            tries.push_back(
                {x, y, std::fabs(x - exact_a) / exact_a + std::fabs(y - exact_b) / exact_b});
    std::stable_sort(tries.begin(), tries.end(),
                     [](const Try& p, const Try& q) { return p.distance < q.distance; });
    for (const Try& t : tries) {
        readings_.of[first] = read(first, a.scale, t.first);
        readings_.of[second] = read(second, b.scale, t.second);
        observe(first);
        observe(second);
        if (!all_hold()) continue;
        readings_.moved = {first, second};
        return true;
    }
    readings_.of[first] = a;
    readings_.of[second] = b;
    observe(first);
    observe(second);
    return false;
}

// ---- When nothing holds ----

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

/// The smallest factor of the batch at which readings hold, up to fifty times.
std::optional<double> smallest_batch(Model& model, const kitchen::Kitchen& kitchen,
                                     std::optional<double> bowl_g) {
    Scaled scaled(model);
    const auto good = [&](double factor) {
        scaled.to(factor);
        Settler settler(model, kitchen, bowl_g);
        settler.settle();
        return settler.readings().held;
    };
    double low = 1;
    double high = 1;
    while (!good(high)) {
        if (high >= largest_factor) return std::nullopt;
        low = high;
        high = std::min(largest_factor, high * 1.25);
    }
    for (int i = 0; i < 12; ++i) {
        const double middle = (low + high) / 2;
        (good(middle) ? high : low) = middle;
    }
    return high;
}

std::optional<double> coarsest_step(Model& model, const kitchen::Kitchen& kitchen,
                                    std::optional<double> bowl_g) {
    for (const double step : {0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.001}) {
        const auto finest =
            std::min_element(kitchen.scales.begin(), kitchen.scales.end(),
                             [](const auto& a, const auto& b) { return a.step_g < b.step_g; });
        if (step >= finest->step_g) continue;
        kitchen::Kitchen better = kitchen;
        better.scales.push_back({"finer", step, 500, step});
        Settler settler(model, better, bowl_g);
        settler.settle();
        if (settler.readings().held) return step;
    }
    return std::nullopt;
}

} // namespace

Refusal explain_refusal(Model& model, const kitchen::Kitchen& kitchen, Settler& settler) {
    Refusal r;
    sheet::Sheet& sheet = *model.sheet;
    for (const Limit& l : limits_of(model)) {
        const Interval exact(sheet.value(l.value) * l.factor);
        if (compare(exact, l.low, l.high) == Verdict::inside && !holds(sheet, l)) {
            r.text = l.text;
            break;
        }
    }
    // Salt by way of a brine: ten times the weight, a tenth of the error. Only where water goes in.
    const bool wet = std::any_of(model.entries.begin(), model.entries.end(), [](const Entry& e) {
        return e.counts() && !e.left_out && e.role == larder::Role::water &&
               e.fate == Fate::in_jar && !e.poured_from;
    });
    for (const Entry& e : model.entries) {
        if (!wet || e.left_out || e.role != larder::Role::salt || e.fate != Fate::in_jar) continue;
        r.brine_percent = 10;
        r.brine_g = sheet.value(e.cell) * 10;
        break;
    }
    // A bath that is poured off already cannot be made larger.
    const bool past = std::any_of(model.entries.begin(), model.entries.end(),
                                  [](const Entry& e) { return e.over; });
    const auto factor = past ? std::nullopt : smallest_batch(model, kitchen, settler.bowl_g());
    if (factor) {
        for (const Entry& e : model.entries) {
            if (e.word != QuantityWord::given || e.left_out) continue;
            r.batch_name = e.name;
            r.batch_g = sheet.value(e.cell) * *factor;
            break;
        }
    }
    r.step_g = coarsest_step(model, kitchen, settler.bowl_g());
    settler.settle();
    return r;
}

} // namespace jarful::plan
