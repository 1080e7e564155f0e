#include "engine/plan/jars.hpp"

#include "engine/kitchen/reading.hpp"
#include "engine/plan/warning.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>

namespace jarful::plan {

using kitchen::Fit;
using kitchen::Vessel;
using language::Findings;
using language::QuantityWord;
using units::Interval;

namespace {

constexpr double usual_headspace = 0.1; // common practice, no source

/// Whole steps by share, that add up: each gets its whole part, and what is then over goes to those
/// with the largest rest, the first of equals first.
std::vector<double> by_largest_remainder(double steps, const std::vector<double>& shares) {
    std::vector<double> out;
    std::vector<std::size_t> order;
    std::vector<double> rest;
    double given = 0;
    for (double share : shares) {
        // The small push keeps a whole number whole, whatever its last bit.
        const double whole = std::floor(share * steps + 1e-9);
        order.push_back(out.size());
        rest.push_back(share * steps - whole);
        out.push_back(whole);
        given += whole;
    }
    std::stable_sort(order.begin(), order.end(),
                     [&](auto a, auto b) { return rest[a] > rest[b] + 1e-9; });
    for (std::size_t i = 0; i < order.size() && given < steps - 0.5; ++i, given += 1)
        out[order[i]] += 1;
    return out;
}

/// What a cell of the sheet stands at in one jar.
struct InJar {
    double value = 0;
    Interval bounds;
};

class Sharing {
  public:
    Sharing(Model& model, const WeighOut& out, const std::vector<Vessel>& vessels, const Fit& fit,
            const Show& show)
        : model_(model)
        , kitchen_(*model.kitchen)
        , out_(out)
        , vessels_(vessels)
        , fit_(fit)
        , show_(show) {
        for (const kitchen::Filled& each : fit.filled)
            shares_.push_back(each.fill_ml / fit.volume_ml);
        shares_.push_back(fit.unplaced_ml / fit.volume_ml);
        if (model.sheet->entered(model.jars)) jars_ = model.sheet->value(model.jars);
    }

    std::vector<JarShare> run(JarChoice* left_over) {
        const std::size_t jars = fit_.filled.size();
        items_.resize(jars + 1);
        cells_.resize(jars + 1);
        for (std::size_t i = 0; i < model_.entries.size(); ++i)
            share(i);
        if (several() && mixed_in_one_bowl(model_)) mix();
        std::vector<JarShare> result;
        for (std::size_t k = 0; k < jars; ++k)
            result.push_back(jar(k));
        restore();
        if (left_over != nullptr && fit_.unplaced_ml > 0) {
            left_over->left_over = std::move(items_.back());
            if (!mixture_.empty()) left_over->left_mixture = std::move(mixture_.back());
        }
        return result;
    }

  private:
    [[nodiscard]] static bool goes_in(const Entry& e) {
        return e.counts() && !e.left_out && e.fate != Fate::stock && e.fate != Fate::discarded;
    }

    /// Whether it goes into more than one jar, or not all of it into one.
    [[nodiscard]] bool several() const {
        return std::count_if(shares_.begin(), shares_.end(), [](double s) { return s > 0; }) > 1;
    }

    /// All that is weighed, as one thing that is shared out by weight.
    void mix() {
        double total = 0;
        Interval truth(0.0);
        bool later = false;
        for (const Entry& e : model_.entries) {
            if (!goes_in(e) || e.word == QuantityWord::count) continue;
            const Item* it = named(out_.givens, e.name);
            if (it == nullptr) it = named(out_.items, e.name);
            if (it == nullptr) continue;
            const bool open = it->fate == Fate::later && !it->entered;
            later = later || open;
            total += it->too_small || open ? it->exact_g : it->reading_g;
            truth = truth + it->truth;
        }
        const double most = *std::max_element(shares_.begin(), shares_.end());
        const std::size_t scale = kitchen::best_scale(kitchen_, most * total);
        const double step = kitchen_.scales[scale].step_g;
        const std::vector<double> steps = by_largest_remainder(std::round(total / step), shares_);
        for (std::size_t k = 0; k < shares_.size(); ++k) {
            JarItem item;
            item.name = "mixture";
            item.later = later;
            item.exact_g = shares_[k] * total;
            item.step_g = step;
            item.scale = kitchen_.scales[scale].name;
            const kitchen::Reading r =
                kitchen::read_on(kitchen_, scale, kitchen::multiple_of_step(steps[k], step));
            item.reading_g = r.total_g;
            item.truth = later ? truth * Interval(shares_[k]) : r.truth;
            item.too_small = r.total_g <= 0 && item.exact_g > 0;
            for (double portion : r.portions)
                item.portions.push_back({item.scale, portion});
            mixture_.push_back(std::move(item));
        }
    }

    template <class List>
    static auto named(const List& list, const std::string& name) -> decltype(&list.front()) {
        for (const auto& each : list)
            if (each.name == name) return &each;
        return nullptr;
    }

    void share(std::size_t index) {
        const Entry& e = model_.entries[index];
        if (e.left_out) return;
        if (goes_in(e) && e.word == QuantityWord::count) {
            if (const Count* c = named(out_.counts, e.name)) return share_count(e, *c);
        } else if (goes_in(e)) {
            const Item* it = named(out_.givens, e.name);
            if (it == nullptr) it = named(out_.items, e.name);
            if (it != nullptr) return share_item(e, *it);
        }
        // Of what is poured off, replaced, or only stirred in a jug nothing is weighed jar by jar.
        const double value = model_.sheet->value(e.cell);
        const Interval bounds = model_.sheet->interval(e.cell);
        for (std::size_t k = 0; k < cells_.size(); ++k) {
            const double part = e.fate == Fate::stock ? 1 : shares_[k];
            cells_[k].push_back({e.cell, {value * part, bounds * Interval(part)}});
        }
    }

    void share_count(const Entry& e, const Count& c) {
        std::vector<double> pieces(shares_.size(), c.count);
        if (c.each_jar)
            pieces.back() = 0;
        else
            pieces = by_largest_remainder(c.count, shares_);
        for (std::size_t k = 0; k < shares_.size(); ++k) {
            JarItem item;
            item.name = c.name;
            item.label = c.label;
            item.material = c.material;
            item.role = c.role;
            item.fate = c.fate;
            item.pieces = static_cast<int>(pieces[k]);
            items_[k].push_back(std::move(item));
            cells_[k].push_back({e.cell, {pieces[k], Interval(pieces[k])}});
        }
    }

    void share_item(const Entry& e, const Item& it) {
        const double most = *std::max_element(shares_.begin(), shares_.end());
        const std::size_t scale = scale_for(it, most * it.reading_g);
        const double step = kitchen_.scales[scale].step_g;
        const std::vector<double> steps =
            by_largest_remainder(std::round(it.reading_g / step), shares_);
        for (std::size_t k = 0; k < shares_.size(); ++k) {
            JarItem item;
            item.name = it.name;
            item.label = it.label;
            item.material = it.material;
            item.role = it.role;
            item.fate = it.fate;
            item.later = it.fate == Fate::later && !it.entered;
            item.exact_g = shares_[k] * (it.too_small ? it.exact_g : it.reading_g);
            item.step_g = step;
            item.scale = kitchen_.scales[scale].name;
            const kitchen::Reading r =
                kitchen::read_on(kitchen_, scale, kitchen::multiple_of_step(steps[k], step));
            item.reading_g = r.total_g;
            item.truth = r.truth;
            item.too_small = r.total_g <= 0 && item.exact_g > 0;
            InJar in{item.reading_g, item.truth};
            if (item.too_small) { // a pinch: by eye
                item.truth = {0, 2 * item.exact_g};
                in = {item.exact_g, item.truth};
            } else if (item.later) { // as unsure as the whole
                item.truth = it.truth * Interval(shares_[k]);
                in = {item.exact_g, item.truth};
            } else if (item.exact_g <= 0) {
                item.truth = Interval(0.0);
                in = {0, Interval(0.0)};
            }
            for (double portion : r.portions)
                item.portions.push_back({item.scale, portion});
            items_[k].push_back(std::move(item));
            cells_[k].push_back({e.cell, in});
        }
    }

    /// The best scale for a portion, if the whole reading is so many of its steps; otherwise the
    /// scale that the whole was weighed on.
    [[nodiscard]] std::size_t scale_for(const Item& it, double portion) const {
        const std::size_t best = kitchen::best_scale(kitchen_, portion);
        const double steps = it.reading_g / kitchen_.scales[best].step_g;
        if (std::fabs(steps - std::round(steps)) < 1e-6) return best;
        for (std::size_t i = 0; i < kitchen_.scales.size(); ++i)
            if (kitchen_.scales[i].name == it.scale) return i;
        return best;
    }

    JarShare jar(std::size_t k) {
        const kitchen::Filled& filled = fit_.filled[k];
        const Vessel& v = vessels_[filled.vessel];
        JarShare j;
        j.name = v.name;
        j.crock = v.crock;
        j.brimful_ml = v.brimful_ml;
        j.usable_ml = filled.usable_ml;
        j.weights_ml = v.weights_ml;
        j.fill_ml = filled.fill_ml;
        j.full_percent = 100 * filled.full;
        j.level_cm = filled.level_cm;
        j.headspace_cm = filled.headspace_cm;
        j.airy = filled.airy();
        j.items = items_[k];
        if (!mixture_.empty()) {
            j.mixture = mixture_[k];
            return j; // the bowl was judged
        }
        put_in(k);
        j.salt = judge(model_).salt;
        return j;
    }

    /// The sheet as if this jar were the whole batch.
    void put_in(std::size_t k) {
        forget_weighed(model_);
        model_.sheet->set(model_.jars, 1);
        for (const auto& [cell, in] : cells_[k])
            model_.sheet->set(cell, in.value, in.bounds);
    }

    void restore() {
        if (jars_)
            model_.sheet->set(model_.jars, *jars_);
        else
            model_.sheet->clear(model_.jars);
        for (const Entry& e : model_.entries) {
            if (e.left_out) continue;
            if (e.entered)
                model_.sheet->set(e.cell, e.entered->value, e.entered->bounds);
            else
                model_.sheet->clear(e.cell);
        }
        show_();
    }

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    const WeighOut& out_;
    const std::vector<Vessel>& vessels_;
    const Fit& fit_;
    const Show& show_;
    std::vector<double> shares_; ///< of each jar; the last is what is left over
    std::optional<double> jars_; ///< how many, as entered for the whole batch
    std::vector<std::vector<JarItem>> items_;
    std::vector<JarItem> mixture_; ///< for each share; empty if each thing is shared by itself
    std::vector<std::vector<std::pair<sheet::CellId, InJar>>> cells_;
};

struct Packed {
    std::string name;
    double density = 0;
};

/// A density that says how tightly the produce is packed: the recipe's only one, or the one that is
/// called `packed`, or the kitchen's own for the first given (`cabbage_packed`).
std::optional<Packed> packed_density(Model& model) {
    std::vector<Packed> found;
    std::string first_given;
    for (const language::Line& line : model.document->lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q == nullptr) continue;
        if (q->word == QuantityWord::given && first_given.empty()) first_given = q->name.value;
        const auto id = model.sheet->find(q->name.value);
        if (q->word != QuantityWord::let || !id) continue;
        if (model.sheet->cell(*id).type.dimension != units::dim::density) continue;
        found.push_back({q->name.value, model.sheet->value(*id)});
        if (q->name.value == "packed") return found.back();
    }
    if (found.size() == 1) return found.front();
    for (const kitchen::Constant& c : model.kitchen->constants)
        if (c.type.dimension == units::dim::density && c.name == first_given + "_packed")
            return Packed{c.name, c.value};
    return std::nullopt;
}

/// The volume that the batch fills; empty if nothing says so.
std::optional<double> volume_of(Model& model, std::vector<std::string>& assumptions) {
    if (model.fill) return model.sheet->value(*model.fill);
    const double produce = model.sheet->value(model.totals.produce);
    const auto packed = packed_density(model);
    if (!packed || !(packed->density > 0) || !(produce > 0)) return std::nullopt;
    assumptions.push_back(fmt::format(
        "The recipe has no `fill` line; the room is taken as all produce at \"{}\", {}.",
        packed->name, units::print_value(packed->density, units::dim::density, model.shown())));
    return produce / packed->density;
}

void no_volume(const Model& model, Findings& findings) {
    std::string name = "cabbage";
    for (const Entry& e : model.entries)
        if (e.word == QuantityWord::given) {
            name = e.name;
            break;
        }
    findings.fault("no-fill", std::nullopt, "The recipe does not say what room the batch takes.",
                   fmt::format("Add a `fill` line with how tightly it is packed, as in `fill {} / "
                               "0.9 kg/L`.",
                               name));
}

/// What is to be said of a choice, whoever made it.
void describe(Jars& jars, const Model& model, const kitchen::Headspace& headspace) {
    if (!model.headspace)
        jars.assumptions.emplace_back("The recipe has no `headspace` line; a tenth of each jar "
                                      "stays free (common practice, no source).");
    if (headspace.height_cm > 0)
        jars.choice.headspace_cm = headspace.height_cm;
    else
        jars.choice.headspace_percent = 100 * headspace.share;
}

/// How full the vessels get, and what has no place in them.
void describe(Jars& jars) {
    JarChoice& choice = jars.choice;
    choice.volume_ml = jars.fit.volume_ml;
    choice.empty_ml = jars.fit.empty_ml;
    choice.unplaced_ml = jars.fit.unplaced_ml;
    choice.why = jars.fit.why;
    choice.rest_brimful_ml = jars.fit.rest_brimful_ml;
    if (jars.fit.rest_as_wide_as)
        choice.rest_as_wide_as = jars.vessels[*jars.fit.rest_as_wide_as].name;
}

/// What goes into each jar takes room: more jars, more of it, and perhaps one jar more. That ends
/// with the vessels that there are.
void count_jars(Model& model, const std::vector<Vessel>& vessels,
                const kitchen::Headspace& headspace, Fit& fit) {
    for (std::size_t n = 0; n != fit.filled.size() && !fit.filled.empty();) {
        n = fit.filled.size();
        model.sheet->set(model.jars, static_cast<double>(n));
        std::vector<std::string> said_already;
        const auto volume = volume_of(model, said_already);
        if (!volume) return;
        Fit again = kitchen::fit(vessels, headspace, *volume, model.shown());
        if (again.filled.size() < n) return; // fewer would be too few again
        fit = std::move(again);
    }
}

/// The fewest vessels that hold the batch, with what goes into each jar. Empty if nothing says what
/// room it takes.
std::optional<Fit> fewest(Model& model, const std::vector<Vessel>& vessels,
                          const kitchen::Headspace& headspace,
                          std::vector<std::string>& assumptions) {
    model.sheet->clear(model.jars);
    const auto volume = volume_of(model, assumptions);
    if (!volume) return std::nullopt;
    Fit fit = kitchen::fit(vessels, headspace, *volume, model.shown());
    if (weighs_by_the_jar(model)) count_jars(model, vessels, headspace, fit);
    return fit;
}

bool any_airy(const Fit& fit) {
    return std::any_of(fit.filled.begin(), fit.filled.end(),
                       [](const kitchen::Filled& each) { return each.airy(); });
}

/// The best choice without a vessel that is under two thirds full; empty if there is none.
std::optional<Fit> with_less_air(Model& model, std::vector<Vessel> vessels,
                                 const kitchen::Headspace& headspace, Fit fit) {
    while (fit.unplaced_ml <= 0 && !fit.filled.empty()) {
        if (!any_airy(fit)) return fit;
        for (const kitchen::Filled& each : fit.filled)
            if (each.airy()) vessels[each.vessel].have = 0;
        std::vector<std::string> said_already;
        auto next = fewest(model, vessels, headspace, said_already);
        if (!next) break;
        fit = *std::move(next);
    }
    return std::nullopt;
}

/// Where the recipe pours water with `cover`, the vessels are filled up to their headspace with it.
/// Whether it does is seen from the water: with the vessels there is more of it.
bool cover(Model& model, Jars& jars, const kitchen::Headspace& headspace) {
    double room = 0;
    std::vector<std::size_t> chosen;
    for (const kitchen::Filled& each : jars.fit.filled) {
        room += each.usable_ml;
        chosen.push_back(each.vessel);
    }
    if (jars.fit.unplaced_ml > 0 || chosen.empty()) return false;
    model.sheet->set(model.vessel, 0);
    const double gaps = model.sheet->value(model.totals.liquid);
    model.sheet->set(model.vessel, room);
    if (!(model.sheet->value(model.totals.liquid) > gaps * (1 + 1e-9))) return false;
    jars.fit = kitchen::fill_evenly(jars.vessels, chosen, headspace, room, model.shown());
    return true;
}

/// Whether there would be more water with a vessel.
bool pours_to_cover(Model& model) {
    const double without = model.sheet->value(model.totals.liquid);
    model.sheet->set(model.vessel, 1e9);
    const bool more = model.sheet->value(model.totals.liquid) > without * (1 + 1e-9);
    model.sheet->clear(model.vessel);
    return more;
}

std::vector<std::string> names_in(const Fit& fit, const std::vector<Vessel>& vessels) {
    std::vector<std::string> names;
    for (const kitchen::Filled& each : fit.filled)
        names.push_back(vessels[each.vessel].name);
    return names;
}

/// The fit of what is chosen: of the kitchen's own, those with less air where there is a choice.
/// Empty if nothing says what room the batch takes.
bool fit_best(Model& model, Jars& jars, const kitchen::Headspace& headspace) {
    auto first = fewest(model, jars.vessels, headspace, jars.assumptions);
    if (!first) return false;
    for (const kitchen::PassedOver& p : first->passed_over)
        jars.choice.passed_over.push_back({jars.vessels[p.vessel].name, p.why});
    jars.fit = *std::move(first);
    if (any_airy(jars.fit)) {
        if (auto less = with_less_air(model, jars.vessels, headspace, jars.fit)) {
            jars.choice.more_air = names_in(jars.fit, jars.vessels);
            jars.fit = *std::move(less);
        }
    }
    model.sheet->clear(model.jars);
    if (!jars.fit.filled.empty())
        model.sheet->set(model.jars, static_cast<double>(jars.fit.filled.size()));
    jars.choice.best = jars.fit.exact;
    return true;
}

/// Chooses from the kitchen's own jars. Empty with a fault if there are no jars, or nothing says
/// what room the batch takes.
std::optional<Jars> choose_jars(Model& model, Findings& findings, bool as_asked) {
    Jars jars;
    jars.vessels = model.kitchen->vessels;
    if (jars.vessels.empty()) {
        findings.fault("no-jars", std::nullopt, "There are no jars in the kitchen to choose from.",
                       "Describe them in kitchen.jarful, a line each: `jar tall holds 1.5 L "
                       "brimful across 10 cm have 3`.");
        return std::nullopt;
    }
    const kitchen::Headspace headspace = headspace_of(model);
    if (!fit_best(model, jars, headspace)) {
        no_volume(model, findings);
        return std::nullopt;
    }
    describe(jars, model, headspace);
    if (as_asked) {
        if (pours_to_cover(model))
            jars.assumptions.emplace_back(
                "The batch is the one that was asked for, so the jars get no more water than "
                "that: what is missing up to the headspace is topped up with brine.");
    } else if (!any_airy(jars.fit)) {
        jars.choice.covered = cover(model, jars, headspace);
    } else if (pours_to_cover(model)) {
        jars.assumptions.emplace_back(
            "The water fills the gaps of the produce alone: a vessel that stands under two thirds "
            "full with them is not filled up, which would make another batch of it.");
    }
    describe(jars);
    return jars;
}

/// The same for vessels that the cook names, one for each use. Empty, without a fault, if nothing
/// says what room the batch takes.
std::optional<Jars> take_jars(Model& model, const std::vector<Vessel>& vessels) {
    Jars jars;
    jars.choice.by_name = true;
    const auto volume = volume_of(model, jars.assumptions);
    if (!volume) return std::nullopt;
    jars.vessels = vessels;
    std::vector<std::size_t> all(jars.vessels.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    const kitchen::Headspace headspace = headspace_of(model);
    describe(jars, model, headspace);
    jars.fit = kitchen::fill_evenly(jars.vessels, all, headspace, *volume, model.shown());
    jars.choice.covered = cover(model, jars, headspace);
    describe(jars);
    return jars;
}

} // namespace

bool mixed_in_one_bowl(const Model& model) {
    if (model.ruling == nullptr || model.ruling->basis != larder::Basis::of_vegetables ||
        model.kind->name == "lemons")
        return false;
    bool salted = false;
    for (const Entry& e : model.entries) {
        if (e.left_out || !e.role) continue;
        const bool poured = e.poured_from || e.role == larder::Role::water ||
                            e.role == larder::Role::acid || e.fate == Fate::discarded ||
                            e.fate == Fate::stock || e.fate == Fate::on_top;
        const bool whole = e.word == QuantityWord::count &&
                           (e.role == larder::Role::vegetable || e.role == larder::Role::salt);
        if (poured || whole) return false;
        salted = salted || (e.counts() && e.role == larder::Role::salt);
    }
    return salted;
}

kitchen::Headspace headspace_of(Model& model) {
    kitchen::Headspace h;
    if (!model.headspace)
        h.share = usual_headspace;
    else if (model.headspace_type.dimension.plain())
        h.share = model.sheet->value(*model.headspace);
    else
        h.height_cm = model.sheet->value(*model.headspace);
    return h;
}

std::vector<JarShare> share_out(Model& model, const WeighOut& out,
                                const std::vector<Vessel>& vessels, const Fit& fit,
                                const Show& show, JarChoice* left_over) {
    if (!(fit.volume_ml > 0)) return {};
    return Sharing(model, out, vessels, fit, show).run(left_over);
}

std::optional<Jars> vessels_of(Model& model, const std::vector<Vessel>& named, bool as_asked,
                               Request::Vessels wanted, Findings& findings) {
    if (!named.empty()) return take_jars(model, named);
    if (wanted == Request::Vessels::unknown) return std::nullopt;
    const bool needed = wanted == Request::Vessels::needed;
    Findings unsaid;
    auto jars = choose_jars(model, needed ? findings : unsaid, as_asked);
    if (jars && jars->fit.filled.empty() && !needed) {
        forget_vessels(model);
        return std::nullopt;
    }
    return jars;
}

std::string gaps_alone(Model& model) {
    if (!pours_to_cover(model)) return {};
    return "Which vessel it goes into is not known, so the water fills the gaps of the produce "
           "alone: jar=NAME names one of the kitchen's, and it is filled up to its headspace.";
}

void forget_vessels(Model& model) {
    model.sheet->clear(model.vessel);
    model.sheet->clear(model.jars);
}

void share_into(Model& model, WeighOut& out, Jars jars, const Show& show) {
    out.jars = share_out(model, out, jars.vessels, jars.fit, show, &jars.choice);
    bool airy = false;
    for (const JarShare& jar : out.jars) {
        if (jar.salt)
            out.verdict = worst(out.verdict.value_or(jar.salt->verdict), jar.salt->verdict);
        airy = airy || jar.airy;
    }
    for (const JarItem& item : jars.choice.left_over)
        jars.choice.unplaced_g += item.pieces ? 0 : item.exact_g;
    out.jar_choice = std::move(jars.choice);
    out.assumptions.insert(out.assumptions.end(), std::make_move_iterator(jars.assumptions.begin()),
                           std::make_move_iterator(jars.assumptions.end()));
    const larder::Caution* c = airy ? larder::find_caution("air") : nullptr;
    if (c != nullptr) out.cautions.insert(out.cautions.begin(), warning_of(*c, model.shown()));
}

} // namespace jarful::plan
