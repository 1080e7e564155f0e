#include "engine/plan/as_weighed.hpp"
#include "engine/plan/limits.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace jarful::plan {

using larder::Basis;
using sheet::Formula;
using sheet::Op;
using units::Interval;

namespace {

constexpr std::string_view as_stated = "as stated"; // the label of what a recipe writes with ±

std::string percent_text(double percent) {
    return units::print_percent(percent / 100);
}

/// Rounded outward to hundredths, so that what is printed holds what was computed.
std::string span_text(Interval i) {
    const std::string low = percent_text(std::floor(i.low * 100 + 1e-6) / 100);
    const std::string high = percent_text(std::ceil(i.high * 100 - 1e-6) / 100);
    return low == high ? fmt::format("{} %", low) : fmt::format("{} to {} %", low, high);
}

class Judge {
  public:
    Judge(Model& model, JudgementWanted wanted)
        : model_(model)
        , wanted_(wanted)
        , variants_(variants_of(model)) {
        for (const Bound& b : model.holds)
            holds_.push_back(hold_limit(model, b));
    }

    Judgement run() {
        Judgement j;
        if (judged(j.no_salt_reason)) j.salt = salt();
        if (wanted_.other_bases) other_bases(j);
        for (std::size_t i = 0; i < holds_.size(); ++i) {
            HoldCheck c = hold(i);
            if (explained(c.verdict)) explain(c, i);
            j.checks.push_back(std::move(c));
        }
        if (j.salt) salt_variants(*j.salt);
        hold_variants(j.checks);
        return j;
    }

  private:
    bool judged(std::string& reason) {
        if (model_.kind == nullptr) {
            reason = "The recipe has no `kind` line, so there is no range to judge it by.";
            return false;
        }
        if (model_.ruling == nullptr) {
            reason = "There is no range for this kind.";
            return false;
        }
        ruling_figure_ = figure(model_.ruling->basis);
        if (!ruling_figure_) {
            reason = fmt::format("There is nothing in the jar that a percentage {} could be "
                                 "taken of.",
                                 larder::describe(model_.ruling->basis));
            return false;
        }
        return true;
    }

    /// Empty if what the basis divides by is nothing.
    std::optional<BasisFigure> figure(Basis basis) {
        const Formula f = basis_formula(model_.totals, basis);
        sheet::Sheet& sheet = *model_.sheet;
        if (!std::isfinite(sheet.value(f))) return std::nullopt;
        const Interval ratio = sheet.enclose(f);
        if (!std::isfinite(ratio.low) || !std::isfinite(ratio.high)) return std::nullopt;
        // What was weighed or poured is judged, not what the recipe comes to.
        const Interval percent = ratio * Interval(100.0);
        return BasisFigure{basis, AsWeighed(model_).value(f, percent, 100), percent};
    }

    std::optional<double> low() const {
        if (!model_.ruling->low) return std::nullopt;
        return model_.ruling->low->percent;
    }
    std::optional<double> high() const {
        if (!model_.ruling->high) return std::nullopt;
        return model_.ruling->high->percent;
    }

    SaltJudgement salt() {
        SaltJudgement s;
        const larder::Ruling& ruling = *model_.ruling;
        s.figure = *ruling_figure_;
        if (ruling.low) s.low = range_end(*ruling.low);
        if (ruling.high) s.high = range_end(*ruling.high);
        s.why = std::string(ruling.why);
        s.verdict = salt_verdict(s.figure);
        if (const auto unknown = unknown_salt()) {
            s.reason = unknown->reason;
            s.decides = unknown->decides;
        } else {
            explain(s);
        }
        nearby(s);
        return s;
    }

    /// Whether a verdict is one whose reason is asked for.
    [[nodiscard]] bool explained(Verdict verdict) const {
        return verdict != Verdict::inside || wanted_.reasons == Reasons::all;
    }

    void explain(SaltJudgement& s) {
        if ((s.low || s.high) && !explained(s.verdict)) return;
        const std::string is = span_text(s.figure.bounds);
        const std::string of = std::string(larder::describe(s.figure.basis));
        if (!s.low && !s.high) {
            s.reason = fmt::format("The salt is {} {}, and no range is published or in use for "
                                   "this.",
                                   is, of);
            s.decides = "Lean on a tested recipe, and on a pH test.";
            return;
        }
        const std::string range = range_text(s);
        switch (s.verdict) {
        case Verdict::inside:
            s.reason = fmt::format("The salt is {} {}, inside {}.", is, of, range);
            break;
        case Verdict::below:
            s.reason = fmt::format("The salt is {} {}, below {}. Too little is a safety matter: "
                                   "harmful microbes may grow.",
                                   is, of, range);
            break;
        case Verdict::above:
            s.reason = fmt::format("The salt is {} {}, above {}. Too much is a quality matter: it "
                                   "sours slowly or not at all.",
                                   is, of, range);
            break;
        case Verdict::undecided:
            s.reason =
                fmt::format("The salt may be {} {}, which is not all inside {}.", is, of, range);
            s.decides = what_decides();
            break;
        }
    }

    static std::string range_text(const SaltJudgement& s) {
        const auto words = [](const RangeEnd& end) {
            return end.status == larder::describe(larder::Status::published)
                       ? std::string("the published range")
                   : end.status == larder::describe(larder::Status::house)
                       ? std::string("the house's own range")
                       : fmt::format("the range ({})", end.status);
        };
        if (s.low && s.high && s.low->status == s.high->status)
            return fmt::format("{} of {} to {} %", words(*s.low), percent_text(s.low->percent),
                               percent_text(s.high->percent));
        if (s.low && s.high)
            return fmt::format("{} % ({}) to {} % ({})", percent_text(s.low->percent),
                               s.low->status, percent_text(s.high->percent), s.high->status);
        if (s.low)
            return fmt::format("{} of {} % or more", words(*s.low), percent_text(s.low->percent));
        return fmt::format("{} of {} % or less", words(*s.high), percent_text(s.high->percent));
    }

    /// The widest cause of doubt, as advice.
    std::string what_decides() {
        const Formula f = basis_formula(model_.totals, model_.ruling->basis);
        const std::vector<sheet::Share> causes = model_.sheet->causes(f);
        if (causes.empty()) return {};
        return decide_by(causes.front().label);
    }

    std::string decide_by(const std::string& label) {
        if (const auto i = model_.find_entry(label)) {
            const Entry& e = model_.entries[*i];
            if (e.fate == Fate::later)
                return fmt::format("Weigh {} when the time comes, and say it: {}=… {}.", e.name,
                                   e.name, model_.shown().style() == units::Style::us ? "oz" : "g");
            return fmt::format("Most of the doubt is in weighing {}: a finer scale or a larger "
                               "batch would settle it.",
                               e.name);
        }
        if (label.ends_with("until it is weighed") || label.ends_with("stays"))
            return fmt::format("Most of the doubt is {}: weigh it, or add a `measure` line.",
                               label);
        if (label.ends_with("in the spoon") || label.starts_with("which "))
            return fmt::format("Most of the doubt is {}: weigh it instead.", label);
        if (label == as_stated) return decide_stated();
        return fmt::format("Most of the doubt is {}.", label);
    }

    /// What is written as unsure in the recipe, as it stands there with the name of its line.
    [[nodiscard]] std::string decide_stated() const {
        const language::Source& source = model_.document->source;
        std::unordered_map<const char*, std::string_view> name_on; // by where the line begins
        for (const Entry& e : model_.entries)
            if (!e.place.empty()) name_on[source.line_at(e.place.begin).data()] = e.name;
        std::vector<std::string> places;
        for (const sheet::Unknown& u : model_.sheet->unknowns()) {
            if (u.label != as_stated || u.place.empty() || places.size() > 3) continue;
            std::string words = fmt::format("`{}`", source.at(u.place));
            const auto name = name_on.find(source.line_at(u.place.begin).data());
            if (name != name_on.end()) words += fmt::format(" of {}", name->second);
            if (std::find(places.begin(), places.end(), words) == places.end())
                places.push_back(std::move(words));
        }
        if (places.empty() || places.size() > 3)
            return "Most of the doubt is in what the recipe itself states as unsure: weigh it, or "
                   "state it more closely.";
        std::string list;
        for (const std::string& words : places)
            list += (list.empty() ? "" : ", ") + words;
        return fmt::format("Most of the doubt is in {}, as the recipe states it: weigh it, or "
                           "state it more closely.",
                           list);
    }

    struct NotKnown {
        std::string reason, decides;
    };

    /// What stays of a soak, or what a salt substitute holds, is not known: no verdict then.
    [[nodiscard]] std::optional<NotKnown> unknown_salt() const {
        std::optional<NotKnown> found;
        for (const Entry& e : model_.entries) {
            if (e.left_out || e.absent || e.replaced) continue;
            if (e.keeps_unknown)
                found = NotKnown{
                    fmt::format("How much of {} stays after it is poured off is not said.", e.name),
                    fmt::format("Add `keeps` to its line, as in `discarded keeps 20..30 %`, or a "
                                "`measure … replaces {}` line.",
                                e.name)};
            if (e.material == nullptr || e.role != larder::Role::salt) continue;
            if (e.material->warning == larder::SaltWarning::reduced_sodium ||
                e.material->warning == larder::SaltWarning::curing)
                found = NotKnown{fmt::format("{} is not salt for this.", e.material->name),
                                 "Use canning salt, pickling salt or plain sea salt."};
        }
        return found;
    }

    /// Of the batch as it now is, in the variant that is looked at.
    [[nodiscard]] Verdict salt_verdict(const BasisFigure& f) const {
        if (unknown_salt() || (!low() && !high())) return Verdict::undecided;
        return compare(f.bounds, low(), high());
    }

    /// Rows of the ruling basis that bear on a figure near an edge of the range.
    void nearby(SaltJudgement& s) {
        const auto near = [&](double edge) {
            const double margin = 0.08 * edge;
            return s.figure.bounds.low < edge + margin && s.figure.bounds.high > edge - margin;
        };
        if (!((s.low && near(s.low->percent)) || (s.high && near(s.high->percent)))) return;
        for (std::uint16_t index : model_.kind->rows) {
            const larder::RangeRow& row = larder::range_rows()[index];
            if (row.basis != s.figure.basis || row.status != larder::Status::published ||
                row.role == larder::RowRole::composition)
                continue;
            if ((s.low && row.id == s.low->row) || (s.high && row.id == s.high->row)) continue;
            if (!bears_on(row, s.figure.bounds)) continue;
            s.nearby.push_back(
                {row_text(row), row.section.empty()
                                    ? std::string(row.source)
                                    : fmt::format("{} ({})", row.source, row.section)});
        }
    }

    /// Whether a row says something about figures within a fifth of this one.
    static bool bears_on(const larder::RangeRow& row, Interval figure) {
        const double low = row.low.value_or(row.typical.value_or(row.high.value_or(0)));
        const double high = row.high.value_or(row.typical.value_or(low));
        return low <= figure.high * 1.2 && high >= figure.low / 1.2 &&
               (low >= figure.low / 1.5 || row.high.value_or(high) <= figure.high * 1.5);
    }

    static std::string row_text(const larder::RangeRow& row) {
        std::string figures;
        if (row.low && row.high)
            figures = fmt::format("{} to {} %", percent_text(*row.low), percent_text(*row.high));
        else if (row.typical)
            figures = fmt::format("{} %", percent_text(*row.typical));
        else if (row.low)
            figures = fmt::format("{} % or more", percent_text(*row.low));
        else if (row.high)
            figures = fmt::format("{} % or less", percent_text(*row.high));
        return fmt::format("{} ({})", figures, larder::describe(row.role));
    }

    void other_bases(Judgement& j) {
        for (Basis basis : {Basis::of_vegetables, Basis::of_vegetables_and_water, Basis::of_brine,
                            Basis::of_everything}) {
            if (j.salt && basis == j.salt->figure.basis) continue;
            if (basis == Basis::of_brine && !brine_is_added()) continue;
            if (const auto f = figure(basis)) j.other_bases.push_back(*f);
        }
    }

    /// A brine at the start there is only where water is put in; a splash of sauce makes none.
    [[nodiscard]] bool brine_is_added() const {
        return std::any_of(model_.entries.begin(), model_.entries.end(), [](const Entry& e) {
            return e.counts() && !e.left_out && e.fate != Fate::discarded &&
                   e.fate != Fate::stock && (e.poured_from || e.role == larder::Role::water);
        });
    }

    // ---- House bounds ----

    HoldCheck hold(std::size_t index) {
        const Bound& b = model_.holds[index];
        const Limit& limit = holds_[index];
        HoldCheck c;
        c.text = limit.text;
        if (b.line->why) c.why = b.line->why->value;
        c.unit = hold_unit(model_, b).first;
        c.value = model_.sheet->enclose(limit.value) * Interval(limit.factor);
        if (limit.low) c.at_least = end_figure(model_, limit, *limit.low).figure;
        if (limit.high) c.at_most = end_figure(model_, limit, *limit.high).figure;
        c.verdict = verdict_of(model_, limit);
        return c;
    }

    void explain(HoldCheck& c, std::size_t index) {
        const Limit& limit = holds_[index];
        const std::string is = with_unit(number_span(c.value), c.unit);
        // A bound that follows from what was weighed is as unsure as that.
        const auto house = [&](const LimitEnd& end) {
            const EndFigure figure = end_figure(model_, limit, end);
            return with_unit(figure.bounds ? number_span(*figure.bounds)
                                           : units::print_number(figure.figure, 4),
                             c.unit);
        };
        switch (c.verdict) {
        case Verdict::inside:
            c.reason = fmt::format("It is {}.", is);
            break;
        case Verdict::below:
            c.reason = fmt::format("It is {}, below the house's {}.", is, house(*limit.low));
            break;
        case Verdict::above:
            c.reason = fmt::format("It is {}, above the house's {}.", is, house(*limit.high));
            break;
        case Verdict::undecided: {
            std::string bounds;
            for (const auto* end : {&limit.low, &limit.high})
                if (*end && !(*end)->figure)
                    bounds += fmt::format("{}{} {}", bounds.empty() ? "" : " and ",
                                          end == &limit.low ? "at least" : "at most", house(**end));
            c.reason = bounds.empty() ? fmt::format("It may be {}, which is not all inside.", is)
                                      : fmt::format("It may be {}, and has to be {}.", is, bounds);
            c.decides = what_decides(limit);
            break;
        }
        }
    }

    /// The widest cause of doubt about a limit, as advice.
    std::string what_decides(const Limit& limit) {
        const std::vector<sheet::Share> causes = causes_of(model_, limit);
        if (causes.empty()) return {};
        return decide_by(causes.front().label);
    }

    static std::string with_unit(const std::string& figures, const std::string& unit) {
        return unit.empty() ? figures : fmt::format("{} {}", figures, unit);
    }

    static std::string number_span(Interval i) {
        const std::string low = units::print_number(i.low, 4);
        const std::string high = units::print_number(i.high, 4);
        return low == high ? low : fmt::format("{} to {}", low, high);
    }

    // ---- With and without ----

    /// What would settle it where only some variants are well, as the beginning of a sentence.
    static std::string advice(const Variant& v) {
        return !v.cap ? "Decide about the optional lines"
               : !v.optional
                   ? "Give less on top, so that it holds before the cap dissolves and after"
                   : "Decide about the optional lines and the cap";
    }

    void salt_variants(SaltJudgement& s) {
        for (std::size_t i = 1; i < variants_.size(); ++i) {
            const Variant& variant = variants_[i];
            const InVariant in(model_, variant);
            const auto f = figure(s.figure.basis);
            if (!f) { // nothing is left to take a percentage of
                if (s.verdict != Verdict::inside) continue;
                s.verdict = Verdict::undecided;
                s.reason = fmt::format("{}, there is nothing that a percentage {} could be taken "
                                       "of.",
                                       capital(variant.text), larder::describe(s.figure.basis));
                s.decides = advice(variant) + ".";
                continue;
            }
            const Verdict v = salt_verdict(*f);
            s.variants.push_back({variant.text, f->bounds, v});
            if (worst(s.verdict, v) == s.verdict) continue;
            s.verdict = v;
            s.reason = fmt::format("{}, the salt is {} {}: {} the range.", capital(variant.text),
                                   span_text(f->bounds), larder::describe(f->basis),
                                   v == Verdict::undecided ? "not surely inside" : describe(v));
            s.decides = advice(variant) + ", or change the salt.";
        }
    }

    void hold_variants(std::vector<HoldCheck>& checks) {
        if (variants_.size() == 1) return;
        for (const Watched& w : watched(model_, holds_, variants_)) {
            if (w.variant == 0) continue;
            const InVariant in(model_, variants_[w.variant]);
            HoldCheck& c = checks[w.limit];
            const Verdict v = verdict_of(model_, holds_[w.limit]);
            if (worst(c.verdict, v) == c.verdict) continue;
            HoldCheck there = hold(w.limit);
            explain(there, w.limit);
            c.verdict = v;
            c.reason = fmt::format("{}: {}", capital(variants_[w.variant].text), there.reason);
            c.decides = advice(variants_[w.variant]) + ", or change the bound.";
        }
    }

    static std::string capital(std::string text) {
        if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
            text[0] = static_cast<char>(text[0] - 'a' + 'A');
        return text;
    }

    Model& model_;
    JudgementWanted wanted_;
    std::vector<Variant> variants_;
    std::vector<Limit> holds_;
    std::optional<BasisFigure> ruling_figure_;
};

} // namespace

namespace {

bool written_in_percent(const Model& model, language::NodeId node) {
    if (node == language::no_node) return false;
    const language::Node& n = model.document->expressions[node];
    return n.kind == language::NodeKind::amount &&
           model.document->expressions.amounts[n.index].percent;
}

} // namespace

std::pair<std::string, double> hold_unit(const Model& model, const Bound& b) {
    const sheet::Type& type = b.type;
    if (type.sort == sheet::Type::Sort::temperature_point) return {"K", 1};
    if (type.dimension.plain()) {
        if (written_in_percent(model, b.line->at_least) ||
            written_in_percent(model, b.line->at_most))
            return {"%", 0.01};
        return {"", 1};
    }
    if (model.shown().style() == units::Style::us) {
        if (type.dimension == units::dim::mass) return {"oz", units::ounce_g};
        if (type.dimension == units::dim::volume) return {"fl oz", units::fluid_ounce_ml};
        if (type.dimension == units::dim::length) return {"in", 2.54};
    }
    if (type.dimension == units::dim::mass) return {"g", 1};
    if (type.dimension == units::dim::volume) return {"mL", 1};
    if (type.dimension == units::dim::length) return {"cm", 1};
    if (type.dimension == units::dim::density) return {"g/mL", 1};
    if (type.dimension == units::dim::time) return {"min", 60};
    return {units::describe(type.dimension), 1};
}

int whole_pieces(double exact, bool optional) {
    const double nearest = std::round(exact);
    if (nearest < 1 && exact > 0 && !optional) return 1;
    return static_cast<int>(nearest);
}

Judgement judge(Model& model, JudgementWanted wanted) {
    return Judge(model, wanted).run();
}

} // namespace jarful::plan
