#include "engine/appraise/judge.hpp"

#include "engine/appraise/line.hpp"
#include "engine/appraise/text.hpp"
#include "engine/language/command_line.hpp"
#include "engine/larder/fold.hpp"
#include "engine/plan/model.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::appraise {

using larder::Basis;
using larder::Role;
using units::Interval;

namespace {
class Judge {
  public:
    Judge(Document doc, const Request& request)
        : doc_(std::move(doc))
        , request_(request) {}

    std::optional<Appraisal> run(Refusal& refusal) {
        if (!request_.kind.empty()) {
            kind_ = larder::find_kind(request_.kind);
            if (kind_ == nullptr) {
                const auto near = larder::nearest_kind(request_.kind);
                refusal = {fmt::format("There is no kind of ferment called \"{}\".", request_.kind),
                           near ? fmt::format(
                                      "Did you mean \"{}\"? `jarful ranges` lists them all.", *near)
                                : "`jarful ranges` lists them all."};
                return std::nullopt;
            }
            if (!request_.method.empty() &&
                larder::find_ruling(*kind_, request_.method) == nullptr) {
                refusal = {fmt::format("The kind {} knows no method \"{}\".", kind_->name,
                                       request_.method),
                           "`" + language::command_line({"jarful", "ranges", kind_->name}) +
                               "` shows its methods."};
                return std::nullopt;
            }
        }
        if (!apply_pins(doc_, request_, refusal)) return std::nullopt;
        taken_ = take_method(doc_);
        open_salt_ = taken_.why;
        totals_ = add_up(doc_, a_.assumptions);
        unsaid_salt();
        vessel();
        trust_method();
        bath();
        const Guess guess = guess_kind(doc_, totals_);
        settle_kind(guess);
        for (const Deed& one : deeds_that_count(doc_, totals_, kind_, ruling_)) {
            if (!deed_) deed_ = one;
            apply(one, totals_);
        }
        figures();
        verdict(guess);
        lean();
        finish();
        return std::move(a_);
    }

  private:
    /// A vessel of known size that water fills.
    void vessel() {
        const Account& account = doc_.account;
        if (!account.vessel_ml || !account.fills_with_water) return;
        // From the shoulder to the brim, vegetables and brine at 1.00 to 1.03 g/mL.
        const Interval whole{0.85 * account.vessel_ml->low, 1.03 * account.vessel_ml->high};
        if (totals_.water_guessed || totals_.water_unknown) {
            totals_.whole = whole;
            totals_.water_guessed = totals_.water_unknown = false;
        } else {
            totals_.more_water.high += whole.high;
        }
    }

    /// Salt that is spoken of, but of which no line is: not none, but not known.
    void unsaid_salt() {
        if (totals_.any_salt || taken_.salt) return;
        if (doc_.says.any(Concept::no_salt) ||
            !doc_.says.any({Concept::salt, Concept::salty, Concept::brine}))
            return;
        totals_.salt_unknown = true;
        if (open_salt_.empty())
            open_salt_ = "The recipe speaks of salt, but gives no amount of it.";
    }

    /// The method's salt against the list's.
    void trust_method() {
        if (taken_.open) totals_.more_salt.high = endless;
        if (doc_.account.salt.size() > 24) {
            totals_.salt_unknown = true;
            open_salt_ = "The method speaks of salt too often to be held against the list.";
            return;
        }
        double least = 0;
        double most = 0;
        for (const SaltInMethod& s : doc_.account.salt) {
            if (s.conditional || &s == taken_.rule) continue;
            const Reading& m = s.reading;
            if (s.rule) {
                compare_rule(s);
                continue;
            }
            if (taken_.salt) continue;
            const double times = s.each ? 2 : 1;
            if (m.line.grams) {
                least += times * m.line.grams->low;
                most += times * m.line.grams->high;
            } else if (m.open && m.amount) { // at least so much
                if (const auto g = grams_of(*m.amount, m.item, nullptr)) least += g->low;
                most = endless;
            }
        }
        if (taken_.rule != nullptr) beside_the_rule();
        const auto list = totals_.all_salt();
        if (!taken_.salt && list && least > list->high * 1.05) {
            totals_.more_salt.high += most;
            open_salt_ = "The method uses more salt than the list names.";
        } else if (!taken_.salt && list && most > 0 &&
                   (most < list->low * 0.95 || most > list->high * 1.5)) {
            totals_.more_salt.high += most; // a part of the list's, or a handful besides
            open_salt_ = "The method names another amount of salt than the list.";
        }
        if (!doc_.account.again.empty()) {
            totals_.more_salt.high = endless;
            totals_.kept.low = 0;
            open_salt_ = fmt::format("The method takes salt a second time, or names it for a part "
                                     "only: \"{}\".",
                                     beginning(doc_.account.again, 120));
        }
    }

    /// Amounts that the method names beside its rule, where the vegetables' weight is known.
    void beside_the_rule() {
        const auto by_rule = totals_.all_salt();
        Interval sum{0.0};
        for (const SaltInMethod& s : doc_.account.salt) {
            if (!s.conditional && !s.rule && !s.each && s.reading.line.grams)
                sum = sum + *s.reading.line.grams;
        }
        if (!by_rule || !(sum.high > 0) ||
            (sum.low >= by_rule->low * 0.98 && sum.high <= by_rule->high * 1.02))
            return;
        Totals other = totals_;
        other.rates.clear();
        other.salt = sum;
        a_.advice.push_back(fmt::format(
            "The recipe names {} g of salt, and a rule that comes to {} "
            "g. Both are kept in view.",
            units::print_number(sum.high, 3), units::print_number(by_rule->middle(), 3)));
        second_.push_back(other);
    }

    void compare_rule(const SaltInMethod& s) {
        const Reading& m = s.reading;
        if (!m.ratio) return;
        const Whole of = m.ratio->of;
        Document other = doc_;
        std::erase_if(other.readings,
                      [](const Reading& r) { return in_jar(r) && r.line.role == Role::salt; });
        Reading r = m;
        r.line.sort = LineSort::ingredient;
        other.readings.push_back(r);
        std::vector<std::string> unused;
        Totals rule = add_up(other, unused);
        rule.whole = totals_.whole;
        const Basis basis = of == Whole::water || of == Whole::brine || r.item.words == "brine"
                                ? Basis::of_brine
                                : Basis::of_vegetables;
        const Percent said = rule.on(basis);
        const Percent list = totals_.on(basis);
        if (!said || said->high >= endless) {
            mixed_rules_ = true;
            if (of == Whole::water && (!list || list->high >= endless)) {
                totals_.salt_unknown = true;
                open_salt_ = "The method makes a brine that the list does not hold.";
            }
            return;
        }
        // Salt for the vegetables, and a brine besides.
        if (!list || list->high >= endless) mixed_rules_ = true;
        if (!list) return;
        if (said->low <= list->high * 1.02 && said->high >= list->low * 0.98) return;
        a_.advice.push_back(fmt::format(
            "The recipe contradicts itself: by its {} the salt is {} {}, by {} (\"{}\") "
            "{}. Both are kept in view.",
            s.of_line ? "amount" : "list", percent_text(*list), larder::describe(basis),
            s.of_line ? "what stands beside it" : "its method", beginning(s.text, 120),
            percent_text(*said)));
        second_.push_back(rule);
    }

    /// Salt that is rinsed away again.
    void bath() {
        const bool kimchi = doc_.says.any(Concept::kimchi);
        const bool blind = kimchi && doc_.method_lines < 2 && !doc_.unsoaked;
        if (!doc_.rinsed && !blind) return;
        if (!totals_.any_salt) return;
        const bool all_in_rules = totals_.salt.high <= 0 && !totals_.rates.empty() && !doc_.rinsed;
        if (all_in_rules) return;
        rinsed_ = true;
        totals_.kept.low = 0;
    }

    void settle_kind(const Guess& guess) {
        a_.title = doc_.title;
        std::string method = request_.method;
        if (kind_ != nullptr) {
            a_.kind_asked = true;
            a_.kind_reason = "You named the kind.";
            if (method.empty() && guess.kind == kind_) method = guess.method;
        } else {
            kind_ = guess.kind;
            method = guess.method;
            a_.kind_reason = guess.reason;
        }
        if (kind_ == nullptr) return;
        a_.kind = std::string(kind_->name);
        a_.kind_title = std::string(kind_->title);
        ruling_ = larder::find_ruling(*kind_, method);
        if (ruling_ == nullptr) {
            std::string methods;
            for (const larder::Ruling& r : kind_->rulings)
                methods += (methods.empty() ? "" : ", ") + std::string(r.method);
            method_missing_ =
                fmt::format("The kind {} is judged by its method: {}.", kind_->name, methods);
            return;
        }
        a_.method = std::string(ruling_->method);
        a_.basis = ruling_->basis;
        if (ruling_->low) a_.low = plan::range_end(*ruling_->low);
        if (ruling_->high) a_.high = plan::range_end(*ruling_->high);
        a_.why = std::string(ruling_->why);
    }

    Percent on(Basis basis) const {
        Percent p = totals_.on(basis);
        if (!p) return p;
        for (Totals other : second_) {
            other.kept = totals_.kept;
            other.brine = totals_.brine;
            other.more_salt = totals_.more_salt;
            other.more_water = totals_.more_water;
            other.more_vegetables = totals_.more_vegetables;
            if (const Percent q = other.on(basis)) p = units::hull(*p, *q);
        }
        return p;
    }

    void figures() {
        if (!totals_.vegetables_unknown && !totals_.no_vegetables && !totals_.vegetables_open)
            a_.vegetables_g = totals_.vegetables;
        a_.salt_g = totals_.all_salt();
        if (a_.salt_g && !second_.empty()) {
            for (const Totals& other : second_) {
                if (const auto s = other.all_salt()) a_.salt_g = units::hull(*a_.salt_g, *s);
            }
        }
        if (!totals_.water_unknown && !totals_.water_open) a_.water_g = totals_.water;
        a_.of_vegetables = on(Basis::of_vegetables);
        a_.of_vegetables_and_water = on(Basis::of_vegetables_and_water);
        // A spoon of fish sauce is no brine.
        const bool poured = std::any_of(doc_.readings.begin(), doc_.readings.end(), [](auto& r) {
            return in_jar(r) && (r.line.role == Role::water || r.line.role == Role::acid ||
                                 is_liquid(*r.item.material));
        });
        if (poured || std::any_of(totals_.rates.begin(), totals_.rates.end(), [](const auto& r) {
                return r.of == Whole::water || r.of == Whole::brine;
            })) {
            a_.of_brine = on(Basis::of_brine);
        }
        a_.of_everything = on(Basis::of_everything);
        if (!ruling_) return;
        switch (ruling_->basis) {
        case Basis::of_vegetables:
            a_.percent = a_.of_vegetables;
            a_.right_of = "vegetables";
            break;
        case Basis::of_vegetables_and_water:
            a_.percent = a_.of_vegetables_and_water;
            a_.right_of = "vegetables and water together";
            break;
        case Basis::of_brine:
        case Basis::of_drained_brine:
        case Basis::of_water:
            a_.percent = a_.of_brine;
            a_.right_of = "water";
            break;
        case Basis::of_evened_brine:
            a_.percent = on(Basis::of_evened_brine);
            a_.right_of = "water, the vegetables' own counted in";
            break;
        case Basis::of_everything:
            a_.percent = a_.of_everything;
            a_.right_of = "everything else in the jar";
            break;
        }
        const bool part_of_whole = ruling_->basis == Basis::of_brine ||
                                   ruling_->basis == Basis::of_evened_brine ||
                                   ruling_->basis == Basis::of_everything;
        const auto right = [&](double percent) {
            const double p = percent / 100;
            return 1000 * (part_of_whole ? p / (1 - p) : p);
        };
        if (ruling_->low && ruling_->high)
            a_.right_g_per_kg =
                Interval{right(ruling_->low->percent), right(ruling_->high->percent)};
    }

    void lean() {
        if (ruling_ == nullptr || a_.verdict != Verdict::undecided || totals_.salt_unknown ||
            doc_.unread || totals_.special_salt)
            return;
        std::vector<Totals> readings{totals_};
        readings.insert(readings.end(), second_.begin(), second_.end());
        a_.lean = lean_of(readings, *ruling_);
    }

    void undecided(std::string reason, std::string decides) {
        a_.verdict = Verdict::undecided;
        if (a_.reason.empty()) a_.reason = std::move(reason);
        if (a_.decides.empty()) a_.decides = std::move(decides);
    }

    [[nodiscard]] static plan::Verdict held(const larder::Ruling& ruling, Interval percent) {
        return plan::compare(percent,
                             ruling.low ? std::optional(ruling.low->percent) : std::nullopt,
                             ruling.high ? std::optional(ruling.high->percent) : std::nullopt);
    }

    void no_ferment(const Guess& guess) {
        a_.verdict = Verdict::not_a_ferment;
        a_.reason = guess.reason;
        a_.kind = a_.kind_title = a_.method = std::string();
        a_.basis.reset();
        a_.low.reset();
        a_.high.reset();
        a_.percent.reset();
        a_.right_g_per_kg.reset();
        a_.why.clear();
    }

    /// The ranges that may be meant: the kind's own, or those of all that it may be.
    [[nodiscard]] std::vector<const larder::Ruling*> rulings(const Guess& guess) const {
        std::vector<const larder::Ruling*> out;
        if (ruling_ != nullptr) return {ruling_};
        if (kind_ != nullptr) {
            for (const larder::Ruling& r : kind_->rulings)
                out.push_back(&r);
            return out;
        }
        for (const std::string_view name : guess.may_be) {
            const larder::Kind* const kind = larder::find_kind(name);
            if (kind == nullptr) continue;
            for (const larder::Ruling& r : kind->rulings)
                out.push_back(&r);
        }
        return out;
    }

    /// The verdict if it is the same for every range that may be meant and all that is not known.
    [[nodiscard]] plan::Verdict over_all(const std::vector<const larder::Ruling*>& rulings) const {
        std::optional<plan::Verdict> one;
        for (const larder::Ruling* ruling : rulings) {
            const Percent p = on(ruling->basis);
            if (!p || (!ruling->low && !ruling->high)) return plan::Verdict::undecided;
            const plan::Verdict v = held(*ruling, *p);
            if (one && *one != v) return plan::Verdict::undecided;
            one = v;
        }
        return one.value_or(plan::Verdict::undecided);
    }

    void verdict(const Guess& guess) {
        if (guess.not_a_ferment && !a_.kind_asked) return no_ferment(guess);
        const auto all = rulings(guess);
        plan::Verdict plain = over_all(all);
        if (doc_.readings.empty() || doc_.unread) plain = plan::Verdict::undecided;
        if (plain == plan::Verdict::inside &&
            (guess.unsure_ferment || totals_.special_salt || kind_ == nullptr || unfinished()))
            plain = plan::Verdict::undecided;
        if (plain == plan::Verdict::undecided) return open(guess);
        if (ruling_ == nullptr) {
            ruling_ = all.front();
            a_.basis = ruling_->basis;
            if (ruling_->low) a_.low = plan::range_end(*ruling_->low);
            if (ruling_->high) a_.high = plan::range_end(*ruling_->high);
            a_.percent = on(ruling_->basis);
        }
        decided(plain);
    }

    /// Whether something stands open that no figure shows.
    [[nodiscard]] bool unfinished() const {
        return mixed_rules_ ||
               std::any_of(doc_.readings.begin(), doc_.readings.end(),
                           [](const Reading& r) { return r.line.could_matter && r.endless(); });
    }

    void decided(plan::Verdict plain) {
        const std::string is = percent_text(*a_.percent);
        const std::string of(larder::describe(ruling_->basis));
        const std::string range = range_text();
        if (plain == plan::Verdict::inside) {
            a_.verdict = Verdict::inside;
            a_.reason = fmt::format("The salt is {} {}, all of it inside {}.", is, of, range);
        } else if (plain == plan::Verdict::below) {
            a_.verdict = Verdict::below;
            a_.reason = fmt::format(
                "The salt is {} {}, below {}. Too little is a safety matter: what should "
                "not grow may.",
                is, of, range);
        } else {
            a_.verdict = Verdict::above;
            a_.reason =
                fmt::format("The salt is {} {}, above {}. Too much is a quality matter: it sours "
                            "slowly or not at all.",
                            is, of, range);
        }
    }

    [[nodiscard]] std::string range_text() const {
        return ruling_->low && ruling_->high
                   ? fmt::format("{} to {} %", units::print_percent(ruling_->low->percent / 100),
                                 units::print_percent(ruling_->high->percent / 100))
                   : std::string("what is known");
    }

    /// Why it is undecided, and what would settle it: the first thing that stands open.
    void open(const Guess& guess) {
        if (doc_.readings.empty())
            return undecided("There is nothing to read.", "Paste the ingredient lines.");
        if (doc_.unread)
            return undecided("It is written in a language that is not read here.",
                             "Translate the lines, and ask again.");
        if (stranger()) return;
        if (totals_.special_salt) {
            for (const Reading& r : doc_.readings) {
                if (!in_jar(r) || r.line.role != Role::salt ||
                    (r.item.material->warning != larder::SaltWarning::curing &&
                     r.item.material->warning != larder::SaltWarning::reduced_sodium))
                    continue;
                return undecided(
                    fmt::format("{} is not salt for this: how much of it is salt is not known.",
                                r.item.material->name),
                    "Use canning salt, pickling salt or plain sea salt, by weight.");
            }
        }
        if (totals_.salt_unknown || !open_salt_.empty()) {
            const bool ripe =
                std::any_of(doc_.readings.begin(), doc_.readings.end(), [](const Reading& r) {
                    return in_jar(r) && r.item.material->id == "starter-brine";
                });
            return undecided(open_salt_.empty() ? salt_reason(doc_) : open_salt_,
                             ripe && open_salt_.empty()
                                 ? "Leave it out, or take water in its place and weigh the salt "
                                   "for it."
                                 : "Weigh the salt.");
        }
        if (kind_ == nullptr)
            return undecided("Which kind of ferment this is cannot be told. " + guess.reason,
                             fmt::format("Say the kind: --kind {}, for one.", guess.near));
        if (ruling_ == nullptr)
            return undecided(method_missing_,
                             fmt::format("Say the method: --kind \"{} {}\".", kind_->name,
                                         kind_->rulings.front().method));
        if (!ruling_->low && !ruling_->high)
            return undecided("No range is published or in use for this.",
                             "Lean on a tested recipe, and on a pH test.");
        if (!a_.percent) return missing();
        if (rinsed_)
            return undecided(
                "The salt is rinsed off again, or may be: how much of it stays is not said.",
                "Weigh the vegetable before salting and after draining, and weigh what "
                "salt you add after the rinse; or salt by weight and do not rinse.");
        if (deed_) return undecided(deed_->reason, deed_->remedy);
        if (guess.unsure_ferment && held(*ruling_, *a_.percent) == plan::Verdict::inside)
            return undecided("There is so much vinegar in it that it may be meant as a pickle.",
                             "Ask for the method: does it stand at room temperature to sour?");
        if (a_.percent->high >= endless) return missing();
        undecided(fmt::format("The salt may be {} {}, which is not all inside {}.",
                              percent_text(*a_.percent), larder::describe(ruling_->basis),
                              range_text()),
                  widest());
    }

    /// A line that is not understood, if it is what keeps the verdict open.
    bool stranger() {
        const auto line =
            std::find_if(doc_.readings.begin(), doc_.readings.end(), [](const Reading& r) {
                return r.line.could_matter && !r.bounds.nothing();
            });
        if (line == doc_.readings.end()) return false;
        undecided(line->line.notes.empty()
                      ? fmt::format(
                            "The line {} is not understood, and could be salt, vegetable or water.",
                            quoted(line->line))
                      : fmt::format("The line {} is not understood. {}", quoted(line->line),
                                    line->line.notes.front()),
                  line->line.notes.empty()
                      ? "Find out what that line means, write it in plain words, and ask again."
                      : "Write that line in plain words, one thing and its amount on a line, and "
                        "ask again.");
        return true;
    }

    void missing() {
        if (!totals_.any_salt)
            return undecided("No salt is named.", "Find out how much salt belongs in it.");
        for (const Reading& r : doc_.readings) {
            if (!in_jar(r) || r.line.grams || r.cover) continue;
            if (r.line.role == Role::vegetable || r.line.role == Role::water) {
                undecided(fmt::format("How much {} weighs cannot be told.", quoted(r.line)),
                          fmt::format("Weigh it: --weighs \"{}=…g\".", r.item.material->name));
                return;
            }
        }
        if (totals_.no_vegetables)
            undecided("No weight of vegetables is given.", "Weigh the vegetables.");
        else
            undecided("How much water goes in is not said.", "Weigh the water you pour in.");
    }

    /// The line whose weighing would narrow the figure most.
    std::string widest() const {
        const Reading* const line = widest_line(doc_, *a_.basis, *a_.percent);
        if (totals_.water_guessed && (line == nullptr || line->line.role == Role::aromatic))
            return "Weigh the water you pour in.";
        if (totals_.water_guessed && line != nullptr && line->line.role != Role::salt)
            return fmt::format("Weigh the water you pour in, and the {}.",
                               line->item.material->name);
        if (line == nullptr) {
            return second_.empty() ? "Weigh salt and vegetables."
                                   : "Find out which of its two amounts of salt is meant.";
        }
        if (line->line.role == Role::salt && line->line.optional)
            return "Find out whether the salt that is called optional goes in.";
        if (line->line.role == Role::salt && line->amount &&
            (line->amount->weighed() || !line->weights.empty()))
            return "Find out which amount of salt is meant, and weigh that.";
        if (line->line.role == Role::salt) {
            return "Weigh the salt instead of spooning it, or say its grain: --salt \"canning "
                   "salt\".";
        }
        return fmt::format("Weigh the {}, and say it: --weighs \"{}=…g\".",
                           line->item.material->name, line->item.material->name);
    }

    void finish() {
        for (const Reading& r : doc_.readings)
            a_.lines.push_back(r.line);
        for (Percent* p : {&a_.of_vegetables, &a_.of_vegetables_and_water, &a_.of_brine,
                           &a_.of_everything, &a_.percent}) {
            // What nothing bounds above is no figure.
            if (*p && (*p)->high >= endless) p->reset();
        }
        advise(a_, doc_, totals_);
    }

    Document doc_;
    const Request& request_;
    Totals totals_;
    std::vector<Totals> second_; ///< what the method says otherwise
    Appraisal a_;
    const larder::Kind* kind_ = nullptr;
    const larder::Ruling* ruling_ = nullptr;
    std::string method_missing_;
    std::string open_salt_;
    MethodTaken taken_; ///< what the method brought that the list does not say
    bool mixed_rules_ = false;
    bool rinsed_ = false;
    std::optional<Deed> deed_; ///< after which the list does not say what is in the jar
};

} // namespace

std::optional<Appraisal> appraise(std::string_view text, const Request& request, Refusal& refusal) {
    const larder::Material* salt = nullptr;
    if (!pinned_salt(request, salt, refusal)) return std::nullopt;
    text = text.substr(0, max_bytes);
    std::string answered;
    if (!request.lines.empty()) {
        if (!answer_lines(text, request, answered, refusal)) return std::nullopt;
        text = answered;
    }
    return Judge(read_document(text, salt), request).run(refusal);
}

} // namespace jarful::appraise
