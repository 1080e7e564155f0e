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

std::string percent_text(Interval i) {
    const std::string low = units::print_percent(std::floor(i.low * 100 + 1e-6) / 1e4);
    const std::string high = units::print_percent(std::ceil(i.high * 100 - 1e-6) / 1e4);
    return low == high ? low + " %" : low + " to " + high + " %";
}

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
        salt_of_the_method();
        totals_ = add_up(doc_, a_.assumptions);
        unsaid_salt();
        trust_method();
        bath();
        const Guess guess = guess_kind(doc_, totals_);
        settle_kind(guess);
        deed_ = deed_that_counts(doc_, totals_, kind_, ruling_);
        figures();
        verdict(guess);
        finish();
        return std::move(a_);
    }

  private:
    // ---- Salt that only the method names, and salt named twice ----

    [[nodiscard]] bool list_has_salt() const {
        return std::any_of(doc_.readings.begin(), doc_.readings.end(), [](const Reading& r) {
            return in_jar(r) && r.line.role == Role::salt &&
                   (r.line.grams || (r.ratio && r.line.amount));
        });
    }

    void salt_of_the_method() {
        std::vector<const SaltInMethod*> plain;
        for (const SaltInMethod& s : doc_.method_salt) {
            if (!s.conditional && !s.of_line) plain.push_back(&s);
        }
        if (list_has_salt() || plain.empty()) return;
        if (plain.size() > 1) {
            open_salt_ =
                "The list gives no amount of salt, and the method speaks of salt more than once.";
            return;
        }
        const SaltInMethod& only = *plain.front();
        const bool rule = only.reading.ratio.has_value();
        if (only.repeated || (!rule && !only.reading.line.grams)) {
            open_salt_ = "The list gives no amount of salt, and the method's cannot be added up.";
            return;
        }
        if (for_another_mass(only)) {
            open_salt_ = fmt::format("Whether the method's salt is for what the list weighs cannot "
                                     "be told: \"{}\".",
                                     beginning(only.text, 120));
            return;
        }
        for (Reading& r : doc_.readings) {
            if (in_jar(r) && r.line.role == Role::salt && !r.line.grams && !r.ratio) {
                r.line.left_out = true;
                r.line.notes.emplace_back("Its amount stands in the method.");
            }
        }
        Reading r = only.reading;
        r.line.sort = LineSort::ingredient;
        r.line.text = beginning(only.text, 300);
        r.line.notes.emplace_back("Read from the method.");
        doc_.readings.push_back(r);
        doc_.sections.push_back(Section::main);
        used_method_ = true;
    }

    /// "75 g of salt … 10 kg of cabbage" where the list has 3 kg.
    [[nodiscard]] bool for_another_mass(const SaltInMethod& s) const {
        if (!s.beside) return false;
        const auto near = [&](Interval listed) {
            return s.beside->low <= listed.high * 1.03 && s.beside->high >= listed.low * 0.97;
        };
        Interval all{0.0};
        for (const Reading& r : doc_.readings) {
            if (!in_jar(r) || r.line.role != Role::vegetable || !r.line.grams) continue;
            if (near(*r.line.grams)) return false;
            all = all + *r.line.grams;
        }
        return !near(all);
    }

    /// Salt that is spoken of, but of which no line is: not none, but not known.
    void unsaid_salt() {
        if (totals_.any_salt || used_method_) return;
        for (const char* none : {"salt free", "salt-free", "no salt", "without salt", "unsalted"}) {
            if (doc_.has(none)) return;
        }
        if (!doc_.says({"salt", "salts", "salted", "salz", "salzen", "sel", "saler", "brine"}))
            return;
        totals_.salt_unknown = true;
        if (open_salt_.empty())
            open_salt_ = "The recipe speaks of salt, but gives no amount of it.";
    }

    /// The method's salt against the list's.
    void trust_method() {
        if (used_method_ || totals_.salt_unknown) return;
        double greatest = 0;
        if (doc_.method_salt.size() > 24) {
            totals_.salt_unknown = true;
            open_salt_ = "The method speaks of salt too often to be held against the list.";
            return;
        }
        for (const SaltInMethod& s : doc_.method_salt) {
            if (s.conditional) continue;
            if (s.repeated) {
                totals_.salt_unknown = true;
                open_salt_ =
                    fmt::format("The method gives an amount of salt for a part, or for each "
                                "of several: \"{}\".",
                                beginning(s.text, 120));
                return;
            }
            const Reading& m = s.reading;
            if (m.ratio) {
                compare_rule(s);
                continue;
            }
            if (m.line.grams) {
                greatest += m.line.grams->low;
            } else if (m.open && m.amount) { // at least so much
                if (const auto least = grams_of(*m.amount, m.item, nullptr)) greatest += least->low;
            }
        }
        const auto list = totals_.all_salt();
        if (list && greatest > list->high * 1.05) {
            totals_.salt_unknown = true;
            open_salt_ = "The method uses more salt than the list names.";
        }
    }

    void compare_rule(const SaltInMethod& s) {
        const Reading& m = s.reading;
        const Whole of = m.ratio->of;
        Document other = doc_;
        std::erase_if(other.readings,
                      [](const Reading& r) { return in_jar(r) && r.line.role == Role::salt; });
        Reading r = m;
        r.line.sort = LineSort::ingredient;
        other.readings.push_back(r);
        std::vector<std::string> unused;
        const Totals rule = add_up(other, unused);
        const Basis basis =
            of == Whole::water || of == Whole::brine ? Basis::of_brine : Basis::of_vegetables;
        const Percent said = rule.on(basis);
        const Percent list = totals_.on(basis);
        if (!said) {
            if (of == Whole::water && !list) {
                totals_.salt_unknown = true;
                open_salt_ = "The method makes a brine that the list does not hold.";
            }
            return;
        }
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
        const bool kimchi = doc_.says({"kimchi", "kimchee"});
        const bool blind = kimchi && doc_.method_lines < 2 && !doc_.unsoaked;
        if (!doc_.rinsed && !blind) return;
        if (!totals_.any_salt) return;
        const bool all_in_rules = totals_.salt.high <= 0 && !totals_.rates.empty() && !doc_.rinsed;
        if (all_in_rules) return;
        rinsed_ = true;
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
        for (const Totals& other : second_) {
            if (const Percent q = other.on(basis)) p = units::hull(*p, *q);
        }
        if (rinsed_ || deed_) p->low = 0;
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

    void undecided(std::string reason, std::string decides) {
        a_.verdict = Verdict::undecided;
        if (a_.reason.empty()) a_.reason = std::move(reason);
        if (a_.decides.empty()) a_.decides = std::move(decides);
    }

    void verdict(const Guess& guess) {
        if (guess.not_a_ferment && !a_.kind_asked) {
            a_.verdict = Verdict::not_a_ferment;
            a_.reason = guess.reason;
            a_.kind.clear();
            a_.kind_title.clear();
            a_.method.clear();
            a_.basis.reset();
            a_.low.reset();
            a_.high.reset();
            a_.percent.reset();
            a_.right_g_per_kg.reset();
            a_.why.clear();
            return;
        }
        const auto stranger = std::find_if(doc_.readings.begin(), doc_.readings.end(),
                                           [](const Reading& r) { return r.line.could_matter; });
        if (stranger != doc_.readings.end() && !stranger->line.notes.empty()) {
            undecided(fmt::format("The line {} is not understood. {}", quoted(stranger->line),
                                  stranger->line.notes.front()),
                      "Write that line in plain words, one thing and its amount on a line, and ask "
                      "again.");
            return;
        }
        if (stranger != doc_.readings.end()) {
            undecided(
                fmt::format("The line {} is not understood, and could be salt, vegetable or water.",
                            quoted(stranger->line)),
                "Find out what that line means, write it in plain words, and ask again.");
            return;
        }
        for (const Reading& r : doc_.readings) {
            if (!in_jar(r) || r.line.role != Role::salt) continue;
            const auto warning = r.item.material->warning;
            if (warning == larder::SaltWarning::curing ||
                warning == larder::SaltWarning::reduced_sodium) {
                undecided(
                    fmt::format("{} is not salt for this: how much of it is salt is not known.",
                                r.item.material->name),
                    "Use canning salt, pickling salt or plain sea salt, by weight.");
                return;
            }
        }
        if (doc_.readings.empty()) {
            undecided("There is nothing to read.", "Paste the ingredient lines.");
            return;
        }
        if (totals_.salt_unknown || !open_salt_.empty()) {
            const bool ripe =
                std::any_of(doc_.readings.begin(), doc_.readings.end(), [](const Reading& r) {
                    return in_jar(r) && r.item.material->id == "starter-brine";
                });
            undecided(open_salt_.empty() ? salt_reason(doc_) : open_salt_,
                      ripe && open_salt_.empty()
                          ? "Leave it out, or take water in its place and weigh the salt for it."
                          : "Weigh the salt.");
            return;
        }
        if (kind_ == nullptr) {
            undecided("Which kind of ferment this is cannot be told. " + guess.reason,
                      fmt::format("Say the kind: --kind {}, for one.", guess.near));
            return;
        }
        if (ruling_ == nullptr) {
            undecided(method_missing_, fmt::format("Say the method: --kind \"{} {}\".", kind_->name,
                                                   kind_->rulings.front().method));
            return;
        }
        if (!ruling_->low && !ruling_->high) {
            undecided("No range is published or in use for this.",
                      "Lean on a tested recipe, and on a pH test.");
            return;
        }
        if (!a_.percent) {
            missing();
            return;
        }
        const auto plain = plan::compare(
            *a_.percent, ruling_->low ? std::optional(ruling_->low->percent) : std::nullopt,
            ruling_->high ? std::optional(ruling_->high->percent) : std::nullopt);
        const std::string is = percent_text(*a_.percent);
        const std::string of(larder::describe(ruling_->basis));
        const std::string range =
            ruling_->low && ruling_->high
                ? fmt::format("{} to {} %", units::print_percent(ruling_->low->percent / 100),
                              units::print_percent(ruling_->high->percent / 100))
                : std::string("what is known");
        if (rinsed_ && plain != plan::Verdict::below) {
            undecided("The salt is rinsed off again, or may be: how much of it stays is not said.",
                      "Weigh the vegetable before salting and after draining, and weigh what "
                      "salt you add after the rinse; or salt by weight and do not rinse.");
            return;
        }
        if (deed_ && plain != plan::Verdict::below) {
            undecided(deed_->reason, deed_->remedy);
            return;
        }
        if (guess.unsure_ferment && plain == plan::Verdict::inside) {
            undecided("There is so much vinegar in it that it may be meant as a pickle.",
                      "Ask for the method: does it stand at room temperature to sour?");
            return;
        }
        switch (plain) {
        case plan::Verdict::inside:
            a_.verdict = Verdict::inside;
            a_.reason = fmt::format("The salt is {} {}, all of it inside {}.", is, of, range);
            break;
        case plan::Verdict::below:
            a_.verdict = Verdict::below;
            a_.reason = fmt::format(
                "The salt is {} {}, below {}. Too little is a safety matter: what should "
                "not grow may.",
                is, of, range);
            break;
        case plan::Verdict::above:
            a_.verdict = Verdict::above;
            a_.reason =
                fmt::format("The salt is {} {}, above {}. Too much is a quality matter: it sours "
                            "slowly or not at all.",
                            is, of, range);
            break;
        case plan::Verdict::undecided:
            undecided(
                fmt::format("The salt may be {} {}, which is not all inside {}.", is, of, range),
                widest());
            break;
        }
    }

    void missing() {
        if (!totals_.any_salt) {
            undecided("No salt is named.", "Find out how much salt belongs in it.");
            return;
        }
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
        if (rinsed_ || deed_) {
            a_.salt_g.reset();
            a_.of_vegetables.reset();
            a_.of_vegetables_and_water.reset();
            a_.of_brine.reset();
            a_.of_everything.reset();
            if (a_.verdict != Verdict::below) a_.percent.reset();
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
    bool used_method_ = false;
    bool rinsed_ = false;
    std::optional<Deed> deed_; ///< after which the list does not say what is in the jar
};

} // namespace

std::optional<Appraisal> appraise(std::string_view text, const Request& request, Refusal& refusal) {
    const larder::Material* salt = nullptr;
    if (!pinned_salt(request, salt, refusal)) return std::nullopt;
    return Judge(read_document(text.substr(0, max_bytes), salt), request).run(refusal);
}

} // namespace jarful::appraise
