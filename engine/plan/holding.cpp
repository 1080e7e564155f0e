#include "engine/plan/holding.hpp"

#include "engine/plan/as_weighed.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace jarful::plan {

using language::QuantityWord;
using units::Interval;

namespace {

// How far from the exact amount a reading is looked for. Beyond a quarter it would be another
// recipe.
constexpr double furthest = 0.25;
constexpr int most_steps_one = 400;
constexpr int most_steps_two = 6;

} // namespace

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
           e.word != QuantityWord::measure && !e.left_out && !e.entered && !e.solved && !e.poured &&
           !e.over;
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
    // Never in several goes.
    kitchen::Reading r;
    r.scale = *bowl_scale_;
    r.total_g = kitchen::round_to_step(grams, kitchen_.scales[*bowl_scale_].step_g);
    r.portions = {r.total_g};
    r.truth = in_bowl_truth(r.total_g);
    return r;
}

/// The difference of two displays: two errors.
Interval Settler::in_bowl_truth(double grams) const {
    const double error = 2 * kitchen_.scales[*bowl_scale_].error_g();
    Interval truth = Interval(grams) + Interval(-error, error);
    truth.low = std::max(0.0, truth.low);
    return truth;
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
            if (s.most_g() < total) continue;
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
        const kitchen::Reading best = kitchen::best_reading(kitchen_, exact);
        const bool by_bowl = bowl_scale_ && in_bowl(e);
        readings_.of[i] = read(i, best.scale, by_bowl ? exact : best.total_g);
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
    const bool by_bowl = bowl_scale_ && in_bowl(e);
    if (e.poured) {
        const Entry::Entered& in = *e.poured;
        Interval truth = by_bowl && in.by_scale ? in_bowl_truth(in.value) : in.bounds;
        if (in.by_scale) truth = as_unsure_as_stated(e, in.value, truth);
        return plan::observe(model_, e, in.value, truth);
    }
    if (e.entered && by_bowl && e.entered->by_scale)
        return plan::observe(model_, e, e.entered->value, in_bowl_truth(e.entered->value));
    if (e.entered || e.fate == Fate::later) return; // its bounds are known, or come later
    const kitchen::Reading& r = readings_.of[entry];
    const Interval truth = as_unsure_as_stated(e, r.total_g, r.truth);
    // What the scale cannot show goes in by the spoon.
    const bool unseen = r.total_g <= 0 && exact > 0;
    plan::observe(model_, e, unseen ? std::min(exact, truth.high) : r.total_g, truth);
}

/// What the recipe itself says of how sure a given is holds for the number that is waited for, too,
/// if it is more than the scale's error.
Interval Settler::as_unsure_as_stated(const Entry& e, double shown, Interval truth) const {
    if (e.word != QuantityWord::given || e.entered) return truth;
    const double exact = model_.sheet->value(e.cell);
    const Interval stated = model_.sheet->interval(e.cell);
    if (stated.width() <= 1e-9 * exact) return truth;
    const Interval about = stated + Interval(shown - exact);
    return {std::max(0.0, std::min(truth.low, about.low)), std::max(truth.high, about.high)};
}

void Settler::show() {
    forget_weighed(model_);
    for (std::size_t i = 0; i < model_.entries.size(); ++i)
        observe(i);
}

/// What will be weighed later comes of what is in by then.
void Settler::expect() {
    std::optional<AsWeighed> in;
    for (std::size_t i = 0; i < model_.entries.size(); ++i) {
        const Entry& e = model_.entries[i];
        if (e.fate != Fate::later || e.entered || e.poured || e.left_out) continue;
        if (!in) in.emplace(model_);
        const double grams = in->value(e.cell);
        readings_.of[i] = read(i, kitchen::best_scale(kitchen_, grams), grams);
    }
}

/// A recipe that is out of bounds by itself is told so; its readings are not bent.
void Settler::watch() {
    limits_ = limits_of(model_);
    variants_ = variants_of(model_);
    watched_.clear();
    touched_.assign(model_.entries.size(), {});
    std::vector<std::vector<std::size_t>> weighings;
    for (const Limit& l : limits_)
        weighings.push_back(weighings_of(model_, l));
    for (const Watched& w : plan::watched(model_, limits_, variants_)) {
        const InVariant in(model_, variants_[w.variant]);
        if (!exact_amounts_keep(model_, limits_[w.limit])) continue;
        for (const std::size_t entry : weighings[w.limit])
            touched_[entry].push_back(watched_.size());
        watched_.push_back(w);
    }
}

void Settler::settle() {
    nearest();
    show();
    watch();
    std::vector<std::size_t> bad = failing();
    // What has been poured, or a share that is tried, is not put right by weighing something else a
    // little differently.
    const bool poured =
        std::any_of(model_.entries.begin(), model_.entries.end(),
                    [](const Entry& e) { return e.poured || (e.solved && !e.entered); });
    if (!bad.empty() && !poured) {
        const std::vector<kitchen::Reading> nearest = readings_.of;
        for (std::vector<std::size_t>& group : groups(std::move(bad))) {
            if (mend(std::move(group))) continue;
            readings_.held = false;
            readings_.moved.clear();
            readings_.of = nearest;
            show();
            break;
        }
    }
    expect();
}

bool Settler::keeps(const std::vector<Watched>& wanted) {
    return std::all_of(wanted.begin(), wanted.end(), [&](const Watched& w) { return holds(w); });
}

std::string Settler::text_of(const Watched& watched) const {
    const std::string& variant = variants_[watched.variant].text;
    return limits_[watched.limit].text + (variant.empty() ? "" : " " + variant);
}

bool Settler::holds(const Watched& w) {
    const InVariant in(model_, variants_[w.variant]);
    return verdict_of(model_, limits_[w.limit]) == Verdict::inside;
}

std::vector<std::size_t> Settler::failing() {
    std::vector<std::size_t> found;
    for (std::size_t w = 0; w < watched_.size(); ++w)
        if (!holds(watched_[w])) found.push_back(w);
    return found;
}

bool Settler::touches(std::size_t entry, std::size_t watched) const {
    return std::binary_search(touched_[entry].begin(), touched_[entry].end(), watched);
}

/// What fails, by what can be moved for it: groups that have nothing to move in common are mended
/// each by itself.
std::vector<std::vector<std::size_t>> Settler::groups(std::vector<std::size_t> failing) {
    std::vector<std::size_t> leader(failing.size());
    std::iota(leader.begin(), leader.end(), std::size_t{0});
    const auto lead = [&](std::size_t i) {
        while (leader[i] != i)
            i = leader[i] = leader[leader[i]];
        return i;
    };
    for (std::size_t entry = 0; entry < model_.entries.size(); ++entry) {
        if (!chosen(model_.entries[entry])) continue;
        std::optional<std::size_t> first;
        for (const std::size_t w : touched_[entry]) {
            const auto at = std::lower_bound(failing.begin(), failing.end(), w);
            if (at == failing.end() || *at != w) continue;
            const auto i = lead(static_cast<std::size_t>(at - failing.begin()));
            if (first)
                leader[i] = lead(*first);
            else
                first = i;
        }
    }
    std::vector<std::vector<std::size_t>> out;
    std::vector<std::optional<std::size_t>> place(failing.size());
    for (std::size_t i = 0; i < failing.size(); ++i) {
        std::optional<std::size_t>& at = place[lead(i)];
        if (!at) {
            at = out.size();
            out.emplace_back();
        }
        out[*at].push_back(failing[i]);
    }
    return out;
}

bool Settler::mend(std::vector<std::size_t> group) {
    while (!group.empty()) {
        const std::vector<std::size_t> may_move = movable(group);
        const auto all_touched = [&](std::size_t a, std::size_t b) {
            return std::all_of(group.begin(), group.end(),
                               [&](std::size_t w) { return touches(a, w) || touches(b, w); });
        };
        const auto of_both = [&](std::size_t a, std::size_t b) {
            std::vector<std::size_t> wanted = group;
            for (const std::size_t entry : {a, b})
                wanted.insert(wanted.end(), touched_[entry].begin(), touched_[entry].end());
            return wanted;
        };
        for (const std::size_t i : may_move)
            if (all_touched(i, i) && move_one(i, of_both(i, i))) return true;
        for (std::size_t i = 0; i < may_move.size(); ++i)
            for (std::size_t j = i + 1; j < may_move.size() && j < i + 4; ++j)
                if (all_touched(may_move[i], may_move[j]) &&
                    move_two(may_move[i], may_move[j], of_both(may_move[i], may_move[j])))
                    return true;
        if (group.size() == 1) return false;
        // One after the other: each move mends something and breaks nothing.
        const std::size_t before = group.size();
        for (const std::size_t i : may_move) {
            std::vector<std::size_t> wanted;
            for (const std::size_t w : touched_[i])
                if (!std::binary_search(group.begin(), group.end(), w)) wanted.push_back(w);
            const auto first = std::find_if(group.begin(), group.end(),
                                            [&](std::size_t w) { return touches(i, w); });
            wanted.insert(wanted.begin(), *first);
            if (!move_one(i, std::move(wanted))) continue;
            std::erase_if(group, [&](std::size_t w) { return holds(watched_[w]); });
            break;
        }
        if (group.size() == before) return false;
    }
    return true;
}

/// Entries that something of a group depends on and whose number can be chosen: salt first, then
/// what makes most of the doubt.
std::vector<std::size_t> Settler::movable(const std::vector<std::size_t>& group) {
    std::vector<std::size_t> salts;
    std::vector<std::size_t> others;
    std::vector<char> seen(model_.entries.size(), 0);
    for (const std::size_t w : group) {
        const Limit& limit = limits_[watched_[w].limit];
        const InVariant in(model_, variants_[watched_[w].variant]);
        for (const sheet::Share& share : causes_of(model_, limit)) {
            const auto i = model_.find_entry(share.label);
            if (!i || seen[*i] != 0 || !chosen(model_.entries[*i]) || !touches(*i, w)) continue;
            seen[*i] = 1;
            (model_.entries[*i].role == larder::Role::salt ? salts : others).push_back(*i);
        }
    }
    salts.insert(salts.end(), others.begin(), others.end());
    return salts;
}

/// Whether all hold; what does not goes to the front, since it is likely the next that does not.
bool Settler::all_hold(std::vector<std::size_t>& wanted) {
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        if (holds(watched_[wanted[i]])) continue;
        std::rotate(wanted.begin(), wanted.begin() + static_cast<std::ptrdiff_t>(i),
                    wanted.begin() + static_cast<std::ptrdiff_t>(i) + 1);
        return false;
    }
    return true;
}

void Settler::moved(std::size_t entry) {
    std::vector<std::size_t>& moved = readings_.moved;
    if (std::find(moved.begin(), moved.end(), entry) == moved.end()) moved.push_back(entry);
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

bool Settler::move_one(std::size_t entry, std::vector<std::size_t> wanted) {
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
    // Of equally near ones that on the scale which errs less.
    std::stable_sort(tries.begin(), tries.end(), [&](const Try& a, const Try& b) {
        if (a.distance != b.distance) return a.distance < b.distance;
        return kitchen_.scales[a.scale].error_g() < kitchen_.scales[b.scale].error_g();
    });
    for (const Try& t : tries) {
        readings_.of[entry] = read(entry, t.scale, t.grams);
        observe(entry);
        if (!all_hold(wanted)) continue;
        moved(entry);
        return true;
    }
    readings_.of[entry] = before;
    observe(entry);
    return false;
}

bool Settler::move_two(std::size_t first, std::size_t second, std::vector<std::size_t> wanted) {
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
        if (!all_hold(wanted)) continue;
        moved(first);
        moved(second);
        return true;
    }
    readings_.of[first] = a;
    readings_.of[second] = b;
    observe(first);
    observe(second);
    return false;
}

} // namespace jarful::plan
