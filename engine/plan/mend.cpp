#include "engine/plan/mend.hpp"

#include "engine/plan/as_weighed.hpp"
#include "engine/plan/entering.hpp"
#include "engine/plan/holding.hpp"
#include "engine/plan/jars.hpp"
#include "engine/plan/limits.hpp"
#include "engine/plan/measured.hpp"
#include "engine/plan/model.hpp"
#include "engine/plan/warning.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using language::QuantityWord;
using units::Interval;

bool MendFindings::has_faults() const {
    if (request.has_faults() || evaporated.has_faults()) return true;
    return std::any_of(lost.begin(), lost.end(),
                       [](const language::Findings& f) { return f.has_faults(); });
}

namespace {

constexpr double steps_of_search = 400;

/// What is in the jar by now, and what may be added to it. The sheet sees what it sees of a batch
/// that is weighed, and besides what has gone or is added: the recipe's own formulas stay as they
/// are, and a batch from which nothing has gone is judged as `weigh` judges it.
class Mender {
  public:
    /// @param settler has settled
    Mender(Model& model, const kitchen::Kitchen& kitchen, Settler& settler, double usable_ml)
        : model_(model)
        , kitchen_(kitchen)
        , settler_(settler)
        , usable_ml_(usable_ml) {
        limits_ = limits_of(model);
        variants_ = variants_of(model);
        watched_ = watched(model, limits_, variants_);
    }

    /// Takes the present truth of every entry as what is in the jar.
    void take_stock() {
        for (const Entry& e : model_.entries)
            present_.push_back(model_.sheet->interval(e.cell));
        lost_.resize(present_.size(), false);
    }

    /// So much of an entry is gone.
    void lose(std::size_t entry, Interval grams) {
        Interval left = present_[entry] - grams;
        left.low = std::max(0.0, left.low);
        left.high = std::max(left.low, left.high);
        present_[entry] = left;
        lost_[entry] = true;
        observe_all({});
    }

    [[nodiscard]] bool all_hold() {
        return std::all_of(watched_.begin(), watched_.end(), [&](const Watched& w) {
            const InVariant in(model_, variants_[w.variant]);
            return verdict_of(model_, limits_[w.limit]) == Verdict::inside;
        });
    }

    /// Adds only this entry: the least that holds, or what restores the recipe's own strength where
    /// that holds too. Empty if nothing up to twice the jar's content does.
    std::optional<Way> add_only(std::size_t entry, std::string text) {
        const double most = 2 * content();
        const std::size_t scale = kitchen::best_scale(kitchen_, most / 10);
        const double step = std::max(kitchen_.scales[scale].step_g, most / steps_of_search / 4);
        std::optional<double> found;
        for (double x = step; x <= most; x += std::max(step, x * 0.02)) {
            if (!holds_with({{entry, x}})) continue;
            found = x;
            break;
        }
        if (!found) return std::nullopt;
        // The edge of what holds is where a slip leads out again: go on to the recipe's own
        // strength, as long as it holds.
        const double wanted = restoring(entry, *found, most);
        if (holds_with({{entry, wanted}})) found = wanted;
        return way({{entry, *found}}, std::move(text));
    }

    /// The whole recipe for the salt that is in: every other quantity grows in proportion.
    std::optional<Way> grow(std::string text) {
        double salt_in = 0;
        double salt_wanted = 0;
        for (std::size_t i = 0; i < model_.entries.size(); ++i) {
            const Entry& e = model_.entries[i];
            if (!e.counts() || e.left_out || e.role != larder::Role::salt ||
                e.fate == Fate::discarded || e.fate == Fate::stock)
                continue;
            salt_in += present_[i].middle();
            salt_wanted += model_.sheet->value(e.cell);
        }
        if (!(salt_wanted > 0) || salt_in <= salt_wanted) return std::nullopt;
        const double factor = salt_in / salt_wanted;
        std::vector<Part> parts;
        for (std::size_t i = 0; i < model_.entries.size(); ++i) {
            const Entry& e = model_.entries[i];
            if (!e.counts() || e.left_out || e.role == larder::Role::salt ||
                e.word == QuantityWord::count || e.fate == Fate::stock || e.fate == Fate::discarded)
                continue;
            const double more = model_.sheet->value(e.cell) * factor - present_[i].middle();
            if (more > 0) parts.push_back({i, more});
        }
        if (parts.size() < 2) return std::nullopt; // the same as adding only that one
        return way(parts, std::move(text));
    }

    /// Water for what evaporated. Where the recipe has no water it was juice of the vegetables, and
    /// what is judged has not changed.
    Way water_back(std::optional<std::size_t> entry, double grams, std::string text) {
        if (entry) return way({{*entry, grams}}, std::move(text));
        Way w = way({}, std::move(text));
        const kitchen::Reading r = kitchen::best_reading(kitchen_, grams);
        w.add.push_back(addition("water", "water", grams, r));
        return w;
    }

    [[nodiscard]] const std::vector<Interval>& present() const { return present_; }

    /// Lets the sheet see what is in the jar, and nothing else.
    void show() { observe_all({}); }

  private:
    struct Part {
        std::size_t entry;
        double grams;
    };

    [[nodiscard]] Addition addition(const std::string& name, const std::string& material,
                                    double grams, const kitchen::Reading& reading) const {
        const kitchen::Scale& scale = kitchen_.scales[reading.scale];
        return {name,
                material,
                grams,
                reading.total_g,
                scale.step_g,
                scale.name,
                static_cast<int>(reading.portions.size())};
    }

    double content() {
        double sum = 0;
        for (std::size_t i = 0; i < model_.entries.size(); ++i)
            if (model_.entries[i].counts() && model_.entries[i].word != QuantityWord::count)
                sum += present_[i].middle();
        return sum;
    }

    void observe_all(const std::vector<Part>& parts) {
        settler_.show();
        for (std::size_t i = 0; i < model_.entries.size(); ++i) {
            if (lost_[i]) observe(model_, model_.entries[i], present_[i].middle(), present_[i]);
        }
        for (const Part& p : parts) {
            Entry& e = model_.entries[p.entry];
            const kitchen::Reading r = kitchen::best_reading(kitchen_, p.grams);
            const double shown = e.shown.value_or(present_[p.entry].middle());
            observe(model_, e, shown + r.total_g, present_[p.entry] + r.truth);
        }
    }

    bool holds_with(const std::vector<Part>& parts) {
        observe_all(parts);
        const bool good = all_hold();
        observe_all({});
        return good;
    }

    /// How much of an entry brings the first limit's middle back to what the recipe itself comes
    /// to.
    double restoring(std::size_t entry, double least, double most) {
        if (limits_.empty()) return least;
        const Limit& l = limits_.front();
        const double target = model_.sheet->value(l.value);
        const auto middle = [&](double x) {
            observe_all({{entry, x}});
            const double m = model_.sheet->enclose(l.value).middle();
            observe_all({});
            return m;
        };
        const bool rising = middle(most) > middle(least);
        double low = least;
        double high = most;
        if ((middle(least) >= target) == rising) return least;
        for (int i = 0; i < 40; ++i) {
            const double half = (low + high) / 2;
            ((middle(half) < target) == rising ? low : high) = half;
        }
        return high;
    }

    Way way(const std::vector<Part>& parts, std::string text) {
        Way w;
        w.text = std::move(text);
        observe_all(parts);
        w.holds = all_hold();
        if (model_.ruling != nullptr) {
            const auto f = basis_formula(model_.totals, model_.ruling->basis);
            const Interval ratio = model_.sheet->enclose(f) * Interval(100.0);
            if (std::isfinite(ratio.low) && std::isfinite(ratio.high))
                w.salt = BasisFigure{model_.ruling->basis, AsWeighed(model_).value(f, ratio, 100),
                                     ratio};
        }
        if (model_.fill) {
            w.fill_ml = model_.sheet->enclose(*model_.fill).middle();
            w.fits = usable_ml_ <= 0 || *w.fill_ml <= usable_ml_ * (1 + 1e-9);
        }
        observe_all({});
        for (const Part& p : parts) {
            const Entry& e = model_.entries[p.entry];
            const kitchen::Reading r = kitchen::best_reading(kitchen_, p.grams);
            w.add.push_back(addition(
                e.name, e.material == nullptr ? std::string() : std::string(e.material->name),
                p.grams, r));
        }
        return w;
    }

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    Settler& settler_;
    double usable_ml_;
    std::vector<Limit> limits_;
    std::vector<Variant> variants_;
    std::vector<Watched> watched_;
    std::vector<Interval> present_;
    std::vector<bool> lost_; ///< entries of which something has gone
};

std::optional<Interval> lost_grams(const Setting& s, const kitchen::Kitchen& kitchen,
                                   bool volume_too, language::Findings& findings) {
    Interval total(0.0);
    for (const units::Amount& part : s.parts) {
        const bool volume = part.dimension == units::dim::volume;
        if (part.dimension != units::dim::mass && !(volume_too && volume)) {
            findings.fault("wrong-dimension", s.value_place,
                           fmt::format("What is gone is a weight{}; this is {}.",
                                       volume_too ? " or a volume" : "",
                                       part.plain_number ? "a number without a unit"
                                                         : units::describe(part.dimension)),
                           "Write it with a unit, as in `300g`.");
            return std::nullopt;
        }
        // Only water evaporates, and it weighs 1 g/mL as near as anyone sees the level fall.
        Interval grams(part.low, part.high);
        if (!volume && part.low == part.high) {
            const kitchen::Reading r = kitchen::best_reading(kitchen, part.value);
            const double error = r.truth.high - r.total_g;
            grams = Interval(part.value) + Interval(-error, error);
        }
        total = total + grams;
    }
    if (total.high <= 0 || total.high > 1e6) {
        findings.fault("absurd-amount", s.value_place, "That much cannot be gone.",
                       "Check the number and the unit.");
        return std::nullopt;
    }
    return total;
}

/// The entry in the jar with a role that most can be added to.
std::optional<std::size_t> largest(const Model& model, const std::vector<Interval>& present,
                                   larder::Role role) {
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < model.entries.size(); ++i) {
        const Entry& e = model.entries[i];
        if (!e.counts() || e.left_out || e.role != role || e.fate == Fate::discarded ||
            e.fate == Fate::stock || e.word == QuantityWord::count || e.poured_from)
            continue;
        if (!best || present[i].middle() > present[*best].middle()) best = i;
    }
    return best;
}

void warn(MendOut& out, std::string_view id) {
    if (const larder::Caution* c = larder::find_caution(id))
        out.instead.push_back(warning_of(*c, out.shown));
}

/// The amount of a setting, as it is typed behind `--poured`.
std::string poured_form(const Setting& setting, units::Shown shown) {
    double grams = 0;
    for (const units::Amount& part : setting.parts) {
        if (part.dimension != units::dim::mass) return "62g";
        grams += part.value;
    }
    if (shown.style() == units::Style::us)
        return units::print_number(grams / units::ounce_g, 3) + "oz";
    std::string out = units::print_mass(grams);
    out.erase(std::remove(out.begin(), out.end(), ' '), out.end());
    return out;
}

/// What went in is no question: a setting of a line that the recipe works out would ask for another
/// batch, and find nothing wrong with it.
bool asks_for_a_batch(const Model& model, const Request& request, RequestFindings& findings) {
    findings.settings.resize(request.settings.size());
    for (std::size_t i = 0; i < request.settings.size(); ++i) {
        const Setting& s = request.settings[i];
        const auto entry = model.find_entry(s.name);
        if (!entry) continue;
        const QuantityWord word = model.entries[*entry].word;
        if (word == QuantityWord::given || word == QuantityWord::measure ||
            word == QuantityWord::count || s.parts.empty())
            continue;
        findings.settings[i].fault(
            "went-in", s.name_place,
            fmt::format("The recipe works out \"{}\"; what really went in is said with "
                        "`--poured`.",
                        s.name),
            fmt::format("Write `--poured {}={}`.", s.name, poured_form(s, model.shown())));
    }
    return findings.has_faults();
}

} // namespace

std::optional<MendOut> mend(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                            const MendRequest& request, language::Findings& findings,
                            MendFindings& request_findings) {
    const std::unique_ptr<Model> model = compile(recipe, kitchen, findings);
    if (!model) return std::nullopt;
    if (asks_for_a_batch(*model, request.request, request_findings.request)) return std::nullopt;
    const Entered entered =
        enter_request(*model, kitchen, request.request, request_findings.request);
    if (request_findings.request.has_faults()) return std::nullopt;
    if (!check_values(*model, findings)) return std::nullopt;
    if (!doubt_measured(*model, request.request, request_findings.request)) return std::nullopt;
    static_cast<void>(vessels_of(*model, entered.jars.vessels, entered.answer.has_value(),
                                 request.request.vessels, findings));
    Settler settler(*model, kitchen);
    settler.settle();
    Mender mender(*model, kitchen, settler, entered.jars.usable_ml);
    mender.take_stock();

    request_findings.lost.resize(request.lost.size());
    for (std::size_t i = 0; i < request.lost.size(); ++i) {
        const Setting& s = request.lost[i];
        language::Findings& own = request_findings.lost[i];
        const auto entry = find_weighed(*model, s, own);
        if (!entry) continue;
        const auto grams = lost_grams(s, kitchen, false, own);
        if (!grams) continue;
        const Interval& there = mender.present()[*entry];
        if (grams->low > there.high * 1.001 + 1e-9) {
            own.fault("absurd-amount", s.value_place,
                      fmt::format("More {} is lost than there was: {} went in.", s.name,
                                  units::print_mass(there.middle(), model->shown())),
                      "Write how much of it is gone.");
            continue;
        }
        mender.lose(*entry, *grams);
    }
    std::optional<Interval> gone;
    if (request.evaporated) {
        gone = lost_grams(*request.evaporated, kitchen, true, request_findings.evaporated);
        const auto water = largest(*model, mender.present(), larder::Role::water);
        if (gone && water) mender.lose(*water, *gone);
    }
    if (request_findings.has_faults()) return std::nullopt;

    MendOut out;
    out.shown = kitchen.shown;
    out.title = model->title;
    if (entered.jars.usable_ml > 0) out.usable_ml = entered.jars.usable_ml;
    // Judging must not weigh afresh what is in the jar.
    mender.show();
    Judgement judgement = judge(*model);
    out.before = std::move(judgement.salt);
    out.no_salt_reason = std::move(judgement.no_salt_reason);
    out.checks = std::move(judgement.checks);
    out.nothing_to_mend = mender.all_hold() && !gone;
    if (out.nothing_to_mend) return out;

    const auto offer = [&](std::optional<Way> w) {
        if (w) out.ways.push_back(std::move(*w));
    };
    if (gone) {
        // Salt stays behind when water goes: what is missing is water alone.
        out.ways.push_back(mender.water_back(
            largest(*model, mender.present(), larder::Role::water), gone->middle(),
            "Put back plain water: the salt that was in is still in the jar"));
    }
    if (!mender.all_hold()) {
        offer(mender.grow("Make the batch larger, in the recipe's proportions"));
        if (const auto i = largest(*model, mender.present(), larder::Role::vegetable))
            offer(mender.add_only(*i, fmt::format("Add only {}", model->entries[*i].name)));
        if (const auto i = largest(*model, mender.present(), larder::Role::water))
            offer(mender.add_only(*i, "Add only water"));
        if (const auto i = largest(*model, mender.present(), larder::Role::salt))
            offer(mender.add_only(*i, "Add salt, and mix it in well"));
    }
    std::stable_sort(out.ways.begin(), out.ways.end(), [](const Way& a, const Way& b) {
        return (a.holds && a.fits) > (b.holds && b.fits);
    });
    if (out.ways.size() > 4) out.ways.resize(4);
    const bool low = out.before && out.before->figure.bounds.low <
                                       (out.before->low ? out.before->low->percent : 0);
    const bool none =
        std::none_of(out.ways.begin(), out.ways.end(), [](const Way& w) { return w.holds; });
    if (low || none) warn(out, "discard");
    return out;
}

} // namespace jarful::plan
