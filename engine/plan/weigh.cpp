#include "engine/kitchen/reading.hpp"
#include "engine/plan/model.hpp"
#include "engine/units/nearest.hpp"

#include <fmt/format.h>

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
    switch (e.word) {
    case QuantityWord::given:
        return "given";
    case QuantityWord::total:
        return "total";
    case QuantityWord::share:
        return "share";
    case QuantityWord::weigh:
        return "weigh";
    case QuantityWord::count:
        return "count";
    case QuantityWord::let:
        return "let";
    case QuantityWord::measure:
        return "measure";
    case QuantityWord::cap:
        return "cap";
    }
    return "weigh";
}

/// Whole pieces: the nearest, at least one unless optional or exactly none.
int pieces(double exact, bool optional) {
    const double nearest = std::round(exact);
    if (nearest < 1 && exact > 0 && !optional) return 1;
    return static_cast<int>(nearest);
}

class Weigher {
  public:
    Weigher(Model& model, const kitchen::Kitchen& kitchen)
        : model_(model)
        , kitchen_(kitchen) {}

    bool enter(const Request& request, RequestFindings& findings) {
        findings.settings.resize(request.settings.size());
        findings.without.resize(request.without.size());
        for (std::size_t i = 0; i < request.settings.size(); ++i)
            enter(request.settings[i], findings.settings[i], i, request);
        for (std::size_t i = 0; i < request.without.size(); ++i)
            leave_out(request.without[i], findings.without[i]);
        return !findings.has_faults();
    }

    /// What the scales would show for the amounts as they now are.
    void settle() {
        sheet::Sheet& sheet = *model_.sheet;
        sheet.forget_observations();
        readings_.assign(model_.entries.size(), {});
        for (std::size_t i = 0; i < model_.entries.size(); ++i) {
            Entry& e = model_.entries[i];
            const double exact = sheet.value(e.cell);
            if (e.left_out) continue;
            if (e.word == QuantityWord::count) {
                sheet.observe(
                    e.cell, Interval(static_cast<double>(pieces(exact, e.fate == Fate::optional))));
                continue;
            }
            readings_[i] = kitchen::best_reading(kitchen_, exact);
            if (e.entered || e.fate == Fate::later) continue; // bounds are known, or come later
            if (e.word == QuantityWord::given) {
                // What the recipe itself says of how sure a given is stands for the scale's error.
                if (sheet.interval(e.cell).width() > 1e-9 * exact) continue;
                const kitchen::Reading& r = readings_[i];
                sheet.observe(e.cell, Interval(exact) + error_of(r));
                continue;
            }
            sheet.observe(e.cell, readings_[i].truth);
        }
    }

    WeighOut out(Judgement judgement) {
        WeighOut w;
        w.title = model_.title;
        w.version = model_.version;
        if (model_.kind != nullptr) {
            w.kind = std::string(model_.kind->name);
            w.kind_title = std::string(model_.kind->title);
        }
        w.method = model_.method;
        w.kitchen = kitchen_.name;
        w.kitchen_built_in = kitchen_.built_in;
        items(w);
        stocks(w);
        w.salt = std::move(judgement.salt);
        w.no_salt_reason = std::move(judgement.no_salt_reason);
        w.other_bases = std::move(judgement.other_bases);
        w.checks = std::move(judgement.checks);
        if (w.salt) by_the_spoon(*w.salt);
        room(w);
        top_up(w);
        w.method_lines = method_lines(model_, [&](std::size_t i) -> const Item* {
            return i < by_entry_.size() && by_entry_[i] ? &*by_entry_[i] : nullptr;
        });
        w.cautions = cautions_for(model_);
        w.assumptions = model_.assumptions;
        remarks(w);
        w.verdict = worst(w);
        return w;
    }

  private:
    static Interval error_of(const kitchen::Reading& r) {
        const double error = r.truth.high - r.total_g;
        return {-error, error};
    }

    // ---- The request ----

    void enter(const Setting& s, Findings& findings, std::size_t index, const Request& request) {
        for (std::size_t earlier = 0; earlier < index; ++earlier)
            if (request.settings[earlier].name == s.name) {
                findings.fault("duplicate-setting", s.name_place,
                               fmt::format("\"{}\" is set twice.", s.name), "Say it once.");
                return;
            }
        const auto cell = settable(s, findings);
        if (!cell) return;
        double value = 0;
        Interval bounds(0.0);
        bool stated = false;
        for (const units::Amount& part : s.parts) {
            if (part.dimension != units::dim::mass) {
                findings.fault("wrong-dimension", s.value_place,
                               fmt::format("\"{}\" is a weight; this is {}.", s.name,
                                           part.plain_number ? "a number without a unit"
                                                             : units::describe(part.dimension)),
                               fmt::format("Write it as in `{}=1.84kg`.", s.name));
                return;
            }
            value += part.value;
            stated = stated || part.low != part.high;
            Interval piece(part.low, part.high);
            if (part.low == part.high) {
                const kitchen::Reading r = kitchen::best_reading(kitchen_, part.value);
                piece = Interval(part.value) + error_of(r);
            }
            bounds = s.parts.size() == 1 ? piece : bounds + piece;
        }
        if (value <= 0 || value > 1e6) {
            findings.fault("absurd-amount", s.value_place,
                           fmt::format("\"{}\" cannot be {}.", s.name, units::print_mass(value)),
                           "Check the number and the unit.");
            return;
        }
        bounds.low = std::max(0.0, bounds.low);
        if (const auto i = model_.find_entry(s.name)) {
            Entry& e = model_.entries[*i];
            e.entered = Entry::Entered{value, bounds};
            e.goes = static_cast<int>(s.parts.size());
            model_.sheet->set(*cell, value, bounds);
        } else {
            model_.sheet->set(*cell, value); // a total is never weighed
        }
    }

    /// A given, a total or a measure; anything else is worked out.
    std::optional<sheet::CellId> settable(const Setting& s, Findings& findings) {
        std::vector<std::string_view> names;
        bool known = false;
        for (const language::Line& line : model_.document->lines) {
            const auto* q = std::get_if<language::Quantity>(&line.statement);
            if (q == nullptr) continue;
            const bool open = q->word == QuantityWord::given || q->word == QuantityWord::total ||
                              q->word == QuantityWord::measure;
            if (open) names.push_back(q->name.value);
            if (q->name.value != s.name) continue;
            if (open) return model_.sheet->find(s.name);
            known = true;
        }
        std::string list;
        for (std::string_view n : names)
            list += fmt::format("{}{}", list.empty() ? "" : ", ", n);
        const std::string what =
            list.empty() ? std::string("Nothing in this recipe can be set: it has no `given` line.")
                         : fmt::format("What can be set here: {}.", list);
        if (known) {
            findings.fault(
                "not-settable", s.name_place,
                fmt::format("\"{}\" is worked out by the recipe and cannot be set.", s.name), what);
        } else {
            const auto near = units::nearest(s.name, names);
            findings.fault("unknown-name", s.name_place,
                           fmt::format("The recipe has nothing called \"{}\".", s.name),
                           near ? fmt::format("Did you mean \"{}\"? {}", *near, what) : what);
        }
        return std::nullopt;
    }

    void leave_out(const std::string& name, Findings& findings) {
        const language::Place place{0, static_cast<std::uint32_t>(name.size())};
        const auto i = model_.find_entry(name);
        std::vector<std::string_view> names;
        std::string list;
        for (const Entry& e : model_.entries) {
            if (e.fate != Fate::optional) continue;
            names.push_back(e.name);
            list += fmt::format("{}{}", list.empty() ? "" : ", ", e.name);
        }
        if (!i || model_.entries[*i].fate != Fate::optional) {
            const auto near = units::nearest(name, names);
            findings.fault(i ? "not-optional" : "unknown-name", place,
                           i ? fmt::format("\"{}\" is not optional in this recipe.", name)
                             : fmt::format("The recipe has nothing called \"{}\".", name),
                           near           ? fmt::format("Did you mean \"{}\"?", *near)
                           : list.empty() ? "No line of this recipe is optional."
                                          : fmt::format("What can be left out: {}.", list));
            return;
        }
        model_.sheet->set(model_.entries[*i].cell, 0);
        model_.entries[*i].left_out = true;
    }

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
            Item it = item(e, readings_[i]);
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
        c.count = pieces(c.exact, e.fate == Fate::optional);
        c.each_jar = e.each_jar;
        return c;
    }

    Item item(const Entry& e, const kitchen::Reading& r) {
        sheet::Sheet& sheet = *model_.sheet;
        Item it;
        it.name = e.name;
        it.label = e.label;
        it.word = std::string(word_of(e));
        it.role = e.role;
        it.material = material_of(e, model_);
        it.fate = e.fate;
        it.entered = e.entered.has_value();
        it.exact_g = sheet.value(e.cell);
        const kitchen::Scale& scale = kitchen_.scales[r.scale];
        it.step_g = scale.step_g;
        it.scale = scale.name;
        it.reading_g = e.entered ? it.exact_g : r.total_g;
        it.truth = sheet.interval(e.cell);
        for (double portion : r.portions)
            it.portions.push_back({scale.name, portion});
        it.too_small = it.reading_g <= 0 && it.exact_g > 0;
        if (e.in_spoons) written_in_spoons(it, e);
        if (it.exact_g < 3 * scale.step_g && e.material != nullptr && e.material->bulk_density &&
            !e.material->vague)
            it.spoon_ml = it.exact_g / e.material->bulk_density->typical;
        return it;
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
                    s.poured_g += sheet.value(e.cell);
            s.left_g = s.made_g - s.poured_g;
            if (s.left_g < -1e-9 * s.made_g)
                w.assumptions.push_back(fmt::format(
                    "{} of {} is poured but only {} made: make more.",
                    units::print_mass(s.poured_g), s.name, units::print_mass(s.made_g)));
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
        settle();
    }

    void room(WeighOut& w) {
        if (!model_.fill) return;
        Room r;
        r.fill_ml = model_.sheet->value(*model_.fill);
        r.fill_bounds = model_.sheet->enclose(*model_.fill);
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
        } else if (model_.ruling != nullptr &&
                   model_.ruling->basis == larder::Basis::of_vegetables) {
            // Dry-salted, and the recipe is silent: the published brine.
            const larder::RangeRow* row = larder::find_range_row("topup-usda-w");
            if (row == nullptr || !row->typical) return;
            t.percent = *row->typical;
            t.source = fmt::format("{} ({})", row->source, row->section);
        } else {
            return;
        }
        t.water_g = glass_g;
        t.salt_g = kitchen::best_reading(kitchen_, glass_g * t.percent / 100).total_g;
        const double everything = model_.sheet->value(model_.totals.everything);
        const double salt = model_.sheet->value(model_.totals.salt);
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

    static Verdict worst(const WeighOut& w) {
        std::vector<Verdict> all;
        if (w.salt) all.push_back(w.salt->verdict);
        for (const HoldCheck& c : w.checks)
            all.push_back(c.verdict);
        for (Verdict v : {Verdict::below, Verdict::above, Verdict::undecided})
            if (std::find(all.begin(), all.end(), v) != all.end()) return v;
        return Verdict::inside;
    }

    Model& model_;
    const kitchen::Kitchen& kitchen_;
    std::vector<kitchen::Reading> readings_;
    std::vector<std::optional<Item>> by_entry_;
};

} // namespace

std::optional<WeighOut> weigh(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                              const Request& request, Findings& findings,
                              RequestFindings& request_findings) {
    const std::unique_ptr<Model> model = compile(recipe, kitchen, findings);
    if (!model) return std::nullopt;
    Weigher weigher(*model, kitchen);
    if (!weigher.enter(request, request_findings)) return std::nullopt;
    if (!check_values(*model, findings)) return std::nullopt;
    Judgement judgement = judge(*model, [&] { weigher.settle(); });
    return weigher.out(std::move(judgement));
}

std::optional<CheckResult> check(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                                 Findings& findings) {
    const std::unique_ptr<Model> model = compile(recipe, kitchen, findings);
    if (!model) return std::nullopt;
    if (!check_values(*model, findings)) return std::nullopt;
    Judgement judgement = judge(*model, [] {});
    CheckResult result;
    result.title = model->title;
    if (model->kind != nullptr) result.kind = std::string(model->kind->name);
    result.method = model->method;
    result.salt = std::move(judgement.salt);
    result.no_salt_reason = std::move(judgement.no_salt_reason);
    result.checks = std::move(judgement.checks);
    const auto take = [&](Verdict v) {
        if (!result.verdict || *result.verdict == Verdict::inside) result.verdict = v;
    };
    if (result.salt) take(result.salt->verdict);
    for (const HoldCheck& c : result.checks)
        take(c.verdict);
    return result;
}

} // namespace jarful::plan
