#include "engine/appraise/judge.hpp"
#include "engine/appraise/text.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using units::Interval;

namespace {

/// Puts what only the method says of vegetables, salt and water into the list.
class Taker {
  public:
    explicit Taker(Document& doc)
        : doc_(doc) {}

    MethodTaken run() {
        vegetables_of_the_method();
        salt_of_the_method();
        water_of_the_method();
        return std::move(taken_);
    }

  private:
    [[nodiscard]] bool list_has(Role role) const {
        return std::any_of(doc_.readings.begin(), doc_.readings.end(), [&](const Reading& r) {
            return in_jar(r) && r.line.role == role &&
                   (r.line.grams || (role == Role::salt && r.ratio && r.line.amount));
        });
    }

    void add(Reading r, Role role, std::string_view note) {
        for (Reading& line : doc_.readings) {
            const bool same = role != Role::vegetable || line.item.material == r.item.material;
            if (!in_jar(line) || line.line.role != role || line.line.grams || line.ratio || !same)
                continue;
            // "3+ tbsp salt" is not said again: it is more, who knows how much.
            if (role == Role::salt && line.amount && line.open && sized(*line.amount)) continue;
            line.line.left_out = true;
            line.line.notes.emplace_back("Its amount stands in the method.");
        }
        r.line.sort = LineSort::ingredient;
        r.line.number = 0;
        r.line.notes.emplace_back(note);
        doc_.readings.push_back(std::move(r));
        doc_.sections.push_back(Section::main);
    }

    void vegetables_of_the_method() {
        if (list_has(Role::vegetable)) return;
        std::vector<Reading> named;
        for (const Reading& r : doc_.account.vegetables) {
            const auto same = std::find_if(named.begin(), named.end(), [&](const Reading& n) {
                return n.item.material == r.item.material;
            });
            if (same == named.end()) {
                named.push_back(r);
            } else if (!(*same->line.grams == *r.line.grams)) {
                same->line.grams = Interval{std::min(same->line.grams->low, r.line.grams->low),
                                            same->line.grams->high + r.line.grams->high};
            }
        }
        for (Reading& r : named)
            add(std::move(r), Role::vegetable, "Read from the method.");
    }

    void salt_of_the_method() {
        std::vector<const SaltInMethod*> rules, totals;
        for (const SaltInMethod& s : doc_.account.salt) {
            if (!s.conditional && !s.of_line) (s.rule ? rules : totals).push_back(&s);
        }
        if (list_has(Role::salt) || (rules.empty() && totals.empty())) return;
        taken_.salt = true;
        if (!rules.empty()) {
            taken_.rule = rules.front();
            Reading r = taken_.rule->reading;
            r.line.text = beginning(taken_.rule->text, 300);
            return add(std::move(r), Role::salt, "Read from the method.");
        }
        Reading r = totals.front()->reading;
        r.line.text = beginning(totals.front()->text, 300);
        Interval sum{0.0};
        double most = 0;
        bool told = true;
        bool each = false;
        for (const SaltInMethod* s : totals) {
            told = told && s->reading.line.grams.has_value();
            each = each || s->each;
            if (!s->reading.line.grams) continue;
            sum = sum + *s->reading.line.grams;
            most = std::max(most, s->reading.line.grams->low);
        }
        const auto other = std::find_if(totals.begin(), totals.end(), [&](const SaltInMethod* s) {
            return for_another_mass(*s);
        });
        if (other != totals.end()) {
            taken_.why = fmt::format("Whether the method's salt is for what the list weighs cannot "
                                     "be told: \"{}\".",
                                     beginning((*other)->text, 120));
            taken_.open = true;
            sum.low = most = 0;
        } else if (!told || each) {
            taken_.why = "The list gives no amount of salt, and the method's cannot be added up.";
            taken_.open = true;
        } else if (totals.size() > 1) {
            taken_.why =
                "The list gives no amount of salt, and the method speaks of salt more than once.";
        }
        r.line.grams = Interval{totals.size() > 1 ? most : sum.low, sum.high};
        add(std::move(r), Role::salt, "Read from the method.");
    }

    void water_of_the_method() {
        std::vector<const WaterInMethod*> amounts;
        for (const WaterInMethod& w : doc_.account.water) {
            if (!w.conditional) amounts.push_back(&w);
        }
        if (list_has(Role::water)) return;
        const bool bare =
            std::any_of(doc_.readings.begin(), doc_.readings.end(),
                        [](const Reading& l) { return in_jar(l) && l.line.role == Role::water; });
        // Water that tops up what has given its own juice is no brine.
        if (!bare) std::erase_if(amounts, [](const auto* w) { return !w->with_salt; });
        Reading r;
        r.item.material = larder::find_exact("water");
        r.item.choices = {r.item.material};
        r.item.words = "water";
        r.line.item = "water";
        r.line.material = r.item.material;
        r.line.role = Role::water;
        r.line.understood = true;
        if (amounts.empty()) {
            const bool brine_rule =
                std::any_of(doc_.readings.begin(), doc_.readings.end(),
                            [](const Reading& l) {
                                return in_jar(l) && l.ratio && l.item.words == "brine";
                            }) ||
                (taken_.rule != nullptr && taken_.rule->reading.ratio &&
                 (taken_.rule->reading.ratio->of == Whole::water ||
                  taken_.rule->reading.ratio->of == Whole::brine));
            if (bare || !brine_rule || !doc_.account.covers_with_brine) return;
            r.cover = true;
            r.line.text = "brine to cover";
            return add(std::move(r), Role::water, "Read from the method: as much as covers.");
        }
        Interval sum{0.0};
        double most = 0;
        for (const WaterInMethod* w : amounts) {
            sum = sum + w->grams;
            most = std::max(most, w->grams.low);
        }
        r.line.text = beginning(amounts.front()->text, 300);
        r.line.grams = Interval{amounts.size() > 1 ? most : sum.low, sum.high};
        add(std::move(r), Role::water, "Read from the method.");
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

    Document& doc_;
    MethodTaken taken_;
};

} // namespace

MethodTaken take_method(Document& doc) {
    return Taker(doc).run();
}

} // namespace jarful::appraise
