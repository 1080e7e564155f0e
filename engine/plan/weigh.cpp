#include "engine/kitchen/reading.hpp"
#include "engine/language/describe.hpp"
#include "engine/plan/as_weighed.hpp"
#include "engine/plan/entering.hpp"
#include "engine/plan/holding.hpp"
#include "engine/plan/jars.hpp"
#include "engine/plan/measured.hpp"
#include "engine/plan/model.hpp"
#include "engine/plan/refusal.hpp"
#include "engine/plan/salt_needed.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::plan {

using language::Findings;
using language::QuantityWord;
using units::Interval;

namespace {

constexpr double glass_g = 250; // a glass of water to top up with
std::string_view word_of(const Entry& e) {
    if (e.fate == Fate::stock) return "brine";
    return language::describe(e.word);
}

class Weigher {
  public:
    Weigher(Model& model, const kitchen::Kitchen& kitchen, Settler& settler, const Entered& entered,
            const Request& request)
        : model_(model)
        , kitchen_(kitchen)
        , settler_(settler)
        , entered_(entered)
        , request_(request) {}

    WeighOut out(Judgement judgement) {
        WeighOut w;
        answers(w);
        w.title = model_.title;
        w.version = model_.version;
        if (model_.kind != nullptr) {
            w.kind = std::string(model_.kind->name);
            w.kind_title = std::string(model_.kind->title);
        }
        w.method = model_.method;
        w.kitchen = kitchen_.name;
        w.kitchen_built_in = kitchen_.built_in;
        w.shown = kitchen_.shown;
        items(w);
        displays(w);
        stocks(w);
        w.salt = std::move(judgement.salt);
        w.no_salt_reason = std::move(judgement.no_salt_reason);
        w.other_bases = std::move(judgement.other_bases);
        w.checks = std::move(judgement.checks);
        if (w.salt) by_the_spoon(*w.salt);
        w.in_jar_g = model_.sheet->value(model_.totals.everything);
        room(w);
        top_up(w);
        w.method_lines = method_lines(model_, [&](std::size_t i) -> const Item* {
            return i < by_entry_.size() && by_entry_[i] ? &*by_entry_[i] : nullptr;
        });
        w.cautions = cautions_for(model_);
        w.assumptions = model_.assumptions;
        std::string one_jar = counted_for_one_jar(model_);
        if (!one_jar.empty()) w.assumptions.push_back(std::move(one_jar));
        remarks(w);
        w.verdict = overall(w.salt, w.checks);
        return w;
    }

  private:
    // ---- What is weighed ----

    void items(WeighOut& w) {
        by_entry_.assign(model_.entries.size(), std::nullopt);
        for (std::size_t i = 0; i < model_.entries.size(); ++i) {
            const Entry& e = model_.entries[i];
            if (e.left_out) {
                w.left_out.push_back(e.name);
                continue;
            }
            if (e.word == QuantityWord::count) {
                w.counts.push_back(count(e));
                continue;
            }
            Item it = item(e, i);
            by_entry_[i] = it;
            if (e.fate == Fate::stock) continue; // with its brine
            if (e.word == QuantityWord::given)
                w.givens.push_back(std::move(it));
            else
                w.items.push_back(std::move(it));
        }
    }

    static std::string material_of(const Entry& e, const Model& model) {
        if (e.poured_from) return model.brines[*e.poured_from].name;
        return e.material == nullptr ? std::string() : std::string(e.material->name);
    }

    Count count(const Entry& e) {
        Count c;
        c.name = e.name;
        c.label = e.label;
        c.material = material_of(e, model_);
        c.role = e.role;
        c.fate = e.fate;
        c.exact = model_.sheet->value(e.cell);
        c.count = whole_pieces(c.exact, e.fate == Fate::optional);
        c.each_jar = e.each_jar;
        return c;
    }

    Item item(const Entry& e, std::size_t index) {
        const kitchen::Reading& r = settler_.readings().of[index];
        sheet::Sheet& sheet = *model_.sheet;
        Item it;
        it.name = e.name;
        it.label = e.label;
        it.word = std::string(word_of(e));
        it.role = e.role;
        it.material = material_of(e, model_);
        it.fate = e.fate;
        it.entered = e.entered.has_value() && !e.solved;
        it.solved = e.solved;
        it.poured = e.poured.has_value();
        const std::vector<std::size_t>& moved = settler_.readings().moved;
        it.moved = std::find(moved.begin(), moved.end(), index) != moved.end();
        it.exact_g = sheet.value(e.cell);
        const kitchen::Scale& scale = kitchen_.scales[r.scale];
        it.step_g = scale.step_g;
        it.scale = scale.name;
        it.reading_g = e.poured ? e.poured->value : e.entered ? e.entered->value : r.total_g;
        for (double portion : portions(e, r, it.reading_g))
            it.portions.push_back({scale.name, portion});
        const bool in_goes = r.portions.size() > 1 && !it.entered && !it.poured;
        if (in_goes && scale.room_g() < scale.capacity_g) it.room_g = kitchen::most_at_once(scale);
        it.truth = sheet.interval(e.cell);
        it.too_small = it.reading_g <= 0 && it.exact_g > 0;
        if (e.in_spoons) written_in_spoons(it, e);
        if (it.exact_g < 3 * scale.step_g && e.material != nullptr && e.material->bulk_density &&
            !e.material->vague)
            it.spoon_ml = it.exact_g / e.material->bulk_density->typical;
        return it;
    }

    /// A given that was weighed in several goes keeps them, and gets its salt in matching ones.
    std::vector<double> portions(const Entry& e, const kitchen::Reading& r, double total) {
        if (e.parts.size() > 1) return e.parts;
        const std::vector<double>* goes = matching_goes(model_, e);
        // What is in already was what it was, whatever the scale would show.
        const bool in_one = r.portions.size() == 1 || e.poured;
        if ((e.poured || e.entered) && goes == nullptr && in_one) return {total};
        if (goes == nullptr || r.portions.size() > goes->size())
            return e.poured ? std::vector<double>{total} : r.portions;
        double whole = 0;
        for (double part : *goes)
            whole += part;
        // Cumulative shares rounded to the step, so that the portions add up to the reading.
        const double step = kitchen_.scales[r.scale].step_g;
        std::vector<double> out;
        double so_far = 0;
        double given = 0;
        for (double part : *goes) {
            so_far += part;
            const double upto = kitchen::round_to_step(total * so_far / whole, step);
            out.push_back(kitchen::multiple_of_step(std::round((upto - given) / step), step));
            given = upto;
        }
        // Unequal goes may be too much where equal ones are not.
        const double most = kitchen::most_at_once(kitchen_.scales[r.scale]) + 0.5 * step;
        const bool fits =
            e.poured || std::all_of(out.begin(), out.end(), [&](double go) { return go < most; });
        return fits ? out : r.portions;
    }

    /// What was asked backwards, which jars, which bowl, and whether the readings hold.
    void answers(WeighOut& w) {
        w.answer = entered_.answer;
        for (const kitchen::Vessel& v : entered_.jars.vessels)
            w.chosen_jars.push_back(v.name);
        w.usable_ml = entered_.jars.usable_ml;
        if (!settler_.readings().held) {
            const Refusal r = explain_refusal(model_, kitchen_, settler_);
            w.no_reading =
                NoReading{r.text, r.batch_name, r.batch_g, r.step_g, r.brine_percent, r.brine_g};
        }
        if (request_.bowl) {
            Bowl bowl;
            for (const units::Amount& part : request_.bowl->parts)
                bowl.tare_g += part.value;
            if (const auto scale = settler_.bowl_scale()) bowl.scale = kitchen_.scales[*scale].name;
            w.bowl = bowl;
        }
    }

    /// Running totals of the one bowl, in the order in which things are weighed.
    void displays(WeighOut& w) {
        if (!w.bowl || w.bowl->scale.empty()) return;
        double shown = w.bowl->tare_g;
        for (auto* list : {&w.givens, &w.items}) {
            for (Item& it : *list) {
                const auto i = model_.find_entry(it.name);
                if (!i || !Settler::in_bowl(model_.entries[*i])) continue;
                shown += it.reading_g;
                it.display_g = shown;
            }
        }
    }

    void written_in_spoons(Item& it, const Entry& e) {
        it.written_ml = model_.sheet->value(e.volume);
        // What so much of it may weigh, on no scale at all.
        const sheet::Formula& whole = model_.sheet->cell(e.cell).formula;
        it.spread_g = model_.sheet->enclose(whole);
    }

    void stocks(WeighOut& w) {
        sheet::Sheet& sheet = *model_.sheet;
        for (const BrineEntry& b : model_.brines) {
            Stock s;
            s.name = b.name;
            s.label = b.label;
            s.strength_percent = b.stated * 100;
            s.of_water = b.of_water;
            s.made_g = sheet.value(b.made);
            s.made_ml = s.made_g / sheet.unknowns()[b.density].typical;
            s.salt = *by_entry_[b.salt];
            s.water = *by_entry_[b.water];
            for (const Entry& e : model_.entries)
                if (e.poured_from && !e.left_out && !e.replaced &&
                    &model_.brines[*e.poured_from] == &b)
                    s.poured_g += e.poured ? e.poured->value : sheet.value(e.cell);
            s.left_g = s.made_g - s.poured_g;
            if (s.left_g < -1e-9 * s.made_g)
                w.assumptions.push_back(
                    fmt::format("{} of {} is poured but only {} made: make more.",
                                units::print_mass(s.poured_g, kitchen_.shown), s.name,
                                units::print_mass(s.made_g, kitchen_.shown)));
            w.stocks.push_back(std::move(s));
        }
    }

    /// For salt written in spoons: what the jar's salt would be if nothing were weighed.
    void by_the_spoon(SaltJudgement& s) {
        bool spoons = false;
        for (const Entry& e : model_.entries)
            spoons =
                spoons || (e.in_spoons && !e.left_out && e.counts() &&
                           (e.role == larder::Role::salt || e.role == larder::Role::seasoning));
        if (!spoons) return;
        sheet::Sheet& sheet = *model_.sheet;
        sheet.forget_observations();
        const Interval ratio = sheet.enclose(basis_formula(model_.totals, s.figure.basis));
        s.by_the_spoon = ratio * Interval(100.0);
        settler_.show();
    }

    void room(WeighOut& w) {
        if (!model_.fill) return;
        Room r;
        r.fill_bounds = model_.sheet->enclose(*model_.fill);
        // The exact figure is what jars are asked for by, unless something else was poured.
        r.fill_ml = model_.sheet->value(*model_.fill);
        if (!r.fill_bounds.contains(r.fill_ml))
            r.fill_ml = AsWeighed(model_).value(*model_.fill, r.fill_bounds);
        if (model_.headspace) {
            const double h = model_.sheet->value(*model_.headspace);
            if (model_.headspace_type.dimension.plain()) {
                r.headspace_percent = h * 100;
                r.brimful_ml = r.fill_ml / (1 - h);
            } else {
                r.headspace_cm = h;
            }
        }
        w.room = r;
    }

    void top_up(WeighOut& w) {
        TopUp t;
        if (model_.top_up) {
            t.percent = model_.sheet->value(*model_.top_up) * 100;
            t.stated = true;
            t.material = model_.top_up_material;
        } else if (model_.kind != nullptr && model_.kind->name == "kraut") {
            // The recipe is silent: the published brine, which is one for kraut.
            const larder::RangeRow* row = larder::find_range_row("topup-usda-w");
            if (row == nullptr || !row->typical) return;
            t.percent = *row->typical;
            t.source = fmt::format("{} ({})", row->source, row->section);
        } else {
            return;
        }
        t.water_g = glass_g;
        t.water_step_g = kitchen_.scales[kitchen::best_scale(kitchen_, t.water_g)].step_g;
        const kitchen::Reading salt_reading =
            kitchen::best_reading(kitchen_, glass_g * t.percent / 100);
        t.salt_g = salt_reading.total_g;
        t.salt_step_g = kitchen_.scales[salt_reading.scale].step_g;
        AsWeighed in_jar(model_);
        const double everything = in_jar.value(model_.totals.everything);
        const double salt = in_jar.value(model_.totals.salt);
        if (everything > 0) {
            const double added = glass_g * t.percent / 100;
            t.before_percent = 100 * salt / everything;
            t.after_percent = 100 * (salt + added) / (everything + glass_g + added);
        }
        w.top_up = std::move(t);
    }

    void remarks(WeighOut& w) {
        for (const language::Line& line : model_.document->lines) {
            const auto* r = std::get_if<language::RemarkLine>(&line.statement);
            if (r != nullptr) w.sources.push_back(r->text.value);
        }
    }

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    Settler& settler_;
    const Entered& entered_;
    const Request& request_;
    std::vector<std::optional<Item>> by_entry_;
};

} // namespace

namespace {

/// The weight of the empty bowl, if one is used.
std::optional<double> bowl_of(const Request& request, units::Shown shown,
                              RequestFindings& findings) {
    if (!request.bowl) return std::nullopt;
    double total = 0;
    for (const units::Amount& part : request.bowl->parts) {
        if (part.dimension != units::dim::mass) {
            findings.bowl.fault("wrong-dimension", request.bowl->value_place,
                                "The bowl has a weight, and this is none.",
                                "Write it as in `--bowl 640g`.");
            return std::nullopt;
        }
        total += part.value;
    }
    if (total < 0 || total > 1e5)
        findings.bowl.fault("absurd-amount", request.bowl->value_place,
                            fmt::format("No bowl weighs {}.", units::print_mass(total, shown)),
                            "Check the number and the unit.");
    return total;
}

} // namespace

struct Weighing::State {
    const kitchen::Kitchen& kitchen;
    std::unique_ptr<Model> model;
    /// What was entered last, and from which words; empty if the model has to be cleared first.
    struct Last {
        std::vector<Setting> settings;
        std::vector<std::string> without;
        std::string moving;
        Entered entered;
    };
    std::optional<Last> last;

    [[nodiscard]] bool entered_already(const Request& request) const {
        return last && last->settings == request.settings && last->without == request.without &&
               last->moving == request.moving;
    }
    bool enter(const Request& request, RequestFindings& findings);
};

/// False if anything was refused.
bool Weighing::State::enter(const Request& request, RequestFindings& findings) {
    Entering entering(*model, kitchen, request, findings);
    if (!entered_already(request)) {
        last.reset();
        entering.clear();
        Entered entered = entering.enter();
        if (!findings.has_faults())
            last = Last{request.settings, request.without, request.moving, std::move(entered)};
    }
    entering.pour();
    return !findings.has_faults();
}

Weighing::Weighing(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                   Findings& findings)
    : state_(new State{kitchen, compile(recipe, kitchen, findings), {}}) {
}

Weighing::~Weighing() = default;
Weighing::Weighing(Weighing&&) noexcept = default;
Weighing& Weighing::operator=(Weighing&&) noexcept = default;

std::size_t Weighing::evaluations() const {
    return state_->model ? state_->model->sheet->evaluations() : 0;
}

std::optional<WeighOut> Weighing::by(const Request& request, Findings& findings,
                                     RequestFindings& request_findings) {
    if (!state_->model) return std::nullopt;
    Model& model = *state_->model;
    const kitchen::Kitchen& kitchen = state_->kitchen;
    if (!state_->enter(request, request_findings)) return std::nullopt;
    const Entered& entered = state_->last->entered;
    if (!check_values(model, findings)) return std::nullopt;
    if (!doubt_measured(model, request, request_findings)) return std::nullopt;
    Settler settler(model, kitchen, bowl_of(request, kitchen.shown, request_findings));
    if (request_findings.has_faults()) return std::nullopt;
    using Vessels = Request::Vessels;
    auto jars = vessels_of(model, entered.jars.vessels, entered.answer.has_value(), request.vessels,
                           findings);
    if (!jars && request.vessels == Vessels::needed) return std::nullopt;
    std::string gaps;
    if (!jars && request.vessels == Vessels::chosen) gaps = gaps_alone(model);
    settler.settle();
    Judgement judgement = judge(model);
    WeighOut out = Weigher(model, kitchen, settler, entered, request).out(std::move(judgement));
    if (out.salt && out.salt->verdict != Verdict::inside) {
        out.salt_needed = salt_needed(model, kitchen);
        settler.show();
    }
    if (!gaps.empty()) out.assumptions.push_back(std::move(gaps));
    if (jars) share_into(model, out, *std::move(jars), [&] { settler.show(); });
    // The jars that were chosen stand in the model, and the next request may name others.
    if (entered.jars.vessels.empty()) forget_vessels(model);
    return out;
}

std::optional<WeighOut> weigh(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                              const Request& request, Findings& findings,
                              RequestFindings& request_findings) {
    return Weighing(recipe, kitchen, findings).by(request, findings, request_findings);
}

std::optional<CheckResult> check(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                                 Findings& findings, Reasons reasons) {
    const std::unique_ptr<Model> model = compile(recipe, kitchen, findings);
    if (!model) return std::nullopt;
    model->sheet->do_without_parser();
    if (!check_values(*model, findings)) return std::nullopt;
    Judgement judgement = judge(*model, {.other_bases = false, .reasons = reasons});
    CheckResult result;
    result.title = model->title;
    if (model->kind != nullptr) result.kind = std::string(model->kind->name);
    result.method = model->method;
    result.salt = std::move(judgement.salt);
    result.no_salt_reason = std::move(judgement.no_salt_reason);
    result.checks = std::move(judgement.checks);
    result.one_jar = counted_for_one_jar(*model);
    result.verdict = overall(result.salt, result.checks);
    return result;
}

} // namespace jarful::plan
