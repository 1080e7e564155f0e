#include "engine/appraise/judge.hpp"
#include "engine/appraise/text.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace jarful::appraise {

using larder::Basis;
using larder::Role;
using units::Interval;

namespace {

Interval part(const std::optional<larder::Figure>& figure, Interval otherwise) {
    return figure ? figure->interval() : otherwise;
}

constexpr double any_amount = endless;

/// Salt in g for given masses; `pick` chooses the low (0) or high (1) end of each rate and share.
double salt_of(const Totals& t, double fixed, double vegetables, double water, unsigned pick) {
    double salt = fixed;
    for (std::size_t i = 0; i < t.rates.size(); ++i) {
        const Totals::Rate& rate = t.rates[i];
        const bool high = ((pick >> std::min<std::size_t>(i, 3)) & 1U) != 0;
        const double r = high ? rate.ratio.high : rate.ratio.low;
        const double share = high ? rate.share.high : rate.share.low;
        switch (rate.of) {
        case Whole::vegetables:
            salt += r * vegetables * share;
            break;
        case Whole::water:
            salt += r * water;
            break;
        case Whole::brine: // r = s / (s + w)
            salt += r < 1 ? water * r / (1 - r) : water * 1e6;
            break;
        case Whole::vegetables_and_water:
            salt += r * (vegetables + water);
            break;
        case Whole::unsaid:
        case Whole::other:
            break;
        }
    }
    return salt;
}

/// Adds up the lines of a document.
class Adder {
  public:
    Adder(const Document& doc, std::vector<std::string>& notes)
        : doc_(doc)
        , notes_(notes)
        // A jar of nothing but garlic is a jar of garlic.
        , garlic_jar_(std::none_of(doc.readings.begin(), doc.readings.end(), [](const Reading& r) {
            return in_jar(r) && r.line.role == Role::vegetable;
        })) {}

    Totals run() {
        t_.no_vegetables = true;
        for (const Reading& r : doc_.readings) {
            if (in_jar(r)) count(r);
        }
        for (const Reading& r : doc_.readings) {
            if (r.line.could_matter) unread(r);
        }
        if (as_others_ > 0) {
            const double most = t_.vegetables_unknown ? endless : t_.vegetables.high;
            t_.more_vegetables.high += most * static_cast<double>(as_others_);
        }
        fill_up();
        for (const Reading* r : rules_)
            rule(*r);
        return t_;
    }

  private:
    void count(const Reading& r) {
        const Line& line = r.line;
        const larder::Material& m = *r.item.material;
        const bool is_vegetable = garlic_jar_ && (m.id == "garlic" || m.id == "horseradish");
        switch (is_vegetable ? Role::vegetable : *line.role) {
        case Role::salt:
            salt(r);
            break;
        case Role::vegetable:
            t_.no_vegetables = false;
            if (!line.grams && r.as_others) {
                ++as_others_;
                break;
            }
            if (!line.grams && in_pieces(r)) {
                // A vegetable whose pieces nobody has weighed: from none to the most.
                t_.more_vegetables.high += most_of(*r.amount, false);
                break;
            }
            if (!line.grams) {
                t_.vegetables_unknown = true;
                break;
            }
            t_.vegetables = t_.vegetables + *line.grams;
            t_.vegetables_open = t_.vegetables_open || r.open;
            break;
        case Role::water:
            water(r);
            break;
        case Role::acid:
            if (line.grams) t_.water = t_.water + *line.grams;
            t_.water_open = t_.water_open || r.open;
            break;
        case Role::seasoning:
            seasoning(r);
            break;
        case Role::aromatic:
        case Role::other:
            if (is_liquid(m)) {
                liquid(r);
                break;
            }
            t_.other = t_.other + line.grams.value_or(Interval{0.0, 30.0});
            break;
        }
    }

    static bool in_pieces(const Reading& r) {
        return r.amount && !r.ratio && !r.amount->unclear && !r.open &&
               (r.amount->measure == nullptr || r.amount->is(Measure::Sort::count) ||
                r.amount->is(Measure::Sort::length) || r.amount->is(Measure::Sort::loose));
    }

    /// What a line that is not understood may bring, from none of it to the most.
    void unread(const Reading& r) {
        t_.more_salt.high += r.bounds.salt;
        t_.more_vegetables.high += r.bounds.vegetables;
        t_.unread_water.high += r.bounds.water;
        as_others_ += r.bounds.as_others ? 1 : 0;
    }

    void salt(const Reading& r) {
        const larder::Material& m = *r.item.material;
        t_.any_salt = true;
        if (m.warning == larder::SaltWarning::curing ||
            m.warning == larder::SaltWarning::reduced_sodium) {
            // How much of it is salt is not known: none, or all of it.
            t_.special_salt = true;
            t_.more_salt.high += r.line.grams && !r.ratio ? r.line.grams->high : endless;
        } else if (r.ratio) {
            rules_.push_back(&r);
        } else if (!r.line.grams) {
            t_.salt_unknown = true;
        } else {
            t_.salt = t_.salt + *r.line.grams * part(m.salt, {0.96, 1.0});
        }
    }

    /// Whey and the like thin the brine as water does; the brine of a ferment brings salt, too.
    void liquid(const Reading& r) {
        const larder::Material& m = *r.item.material;
        t_.water_open = t_.water_open || r.open;
        if (r.line.grams && !r.cover && !r.ratio)
            t_.water = t_.water + *r.line.grams;
        else
            t_.water_unknown = true;
        if (m.id == "starter-brine")
            t_.salt_unknown = true;
        else
            notes_.push_back(fmt::format(
                "The {} is counted as water; what little salt it has of its own is not.", m.name));
    }

    void water(const Reading& r) {
        const Line& line = r.line;
        t_.water_open = t_.water_open || r.open;
        if (r.spare) {
            if (line.grams) {
                t_.water = t_.water + *line.grams;
                t_.spare_water += line.grams->high;
            } else {
                spare_ = true;
            }
        } else if (line.grams && !r.cover) {
            t_.water = t_.water + *line.grams;
        } else if (r.ratio) {
            t_.water_unknown = true; // so much per jar
        } else {
            cover_ = true;
            if (line.grams) said_ = units::hull(said_.value_or(*line.grams), *line.grams);
        }
    }

    void seasoning(const Reading& r) {
        const larder::Material& m = *r.item.material;
        if (!r.line.grams || r.open) {
            // Its salt is not known either.
            t_.salt_unknown = true;
            return;
        }
        const Interval salt = part(m.salt, {0.0, 0.4});
        const Interval water = part(m.water, {0.0, 1.0});
        const Interval brought = *r.line.grams * salt;
        t_.salt = t_.salt + brought;
        t_.water = t_.water + *r.line.grams * water;
        if (salt.high <= 0.02) return;
        t_.any_salt = true;
        const std::string low = units::print_number(brought.low, 3);
        const std::string high = units::print_number(brought.high, 3);
        notes_.push_back(fmt::format("The {} brings salt of its own, {} g: counted.", m.name,
                                     low == high ? low : low + " to " + high));
    }

    /// Water that is poured until it covers, or as far as it is needed.
    void fill_up() {
        if (!cover_ && !spare_) return;
        t_.water_guessed = cover_;
        if (cover_ && !said_)
            t_.cover_ratio = {bound("water to cover, least"), bound("water to cover, most")};
        if (t_.no_vegetables || t_.vegetables_unknown) {
            t_.water_unknown = true;
            return;
        }
        // Whole cucumbers leave about as much room as they fill, shreds hardly any: common
        // practice, wide on purpose.
        Interval filling{t_.vegetables.low * bound("water to cover, least"),
                         t_.vegetables.high * bound("water to cover, most")};
        if (!cover_) {
            filling.low = 0;
            t_.spare_water += filling.high;
        }
        if (said_) filling = units::hull(filling, *said_);
        if (t_.cover_ratio.high > 0) t_.covering = filling;
        t_.water = t_.water + filling;
        t_.water_open = t_.water_open || t_.vegetables_open;
        if (cover_)
            notes_.emplace_back(
                "\"Water to cover\" is counted as a quarter to one and a half times the "
                "weight of the vegetables.");
    }

    /// Salt as so much of something.
    void rule(const Reading& r) {
        const Ratio& ratio = *r.ratio;
        Totals::Rate rate;
        rate.of = ratio.of;
        // "at least 2 %", "per 5 lb or more"
        const bool open = r.open || (ratio.per && ratio.per->open);
        const bool percent = r.amount && r.amount->is(Measure::Sort::percent);
        if (open || !(percent ? percentage(r, rate) : so_much_per(r, rate))) {
            t_.salt_unknown = true;
            return;
        }
        share_of_named(ratio, rate);
        t_.rates.push_back(rate);
        if (t_.rates.size() > 4) t_.salt_unknown = true;
    }

    /// False if it cannot be told what it is a percentage of.
    bool percentage(const Reading& r, Totals::Rate& rate) {
        rate.ratio = Interval{r.amount->count.low / 100, r.amount->count.high / 100};
        if (r.amount->about) rate.ratio = Interval{rate.ratio.low * 0.9, rate.ratio.high * 1.1};
        if (rate.of != Whole::unsaid) return true;
        if (r.item.words == "brine" || r.brine) {
            // Of the water, or of the brine: both ways.
            rate.of = Whole::water;
            rate.ratio =
                Interval{rate.ratio.low, rate.ratio.high / (1 - std::min(0.5, rate.ratio.high))};
            notes_.emplace_back(
                "A brine of so many percent may mean salt per water or salt per brine: "
                "counted both ways.");
            return true;
        }
        rate.of = Whole::vegetables;
        if (t_.water.high <= 0 && !t_.water_guessed) {
            notes_.emplace_back("The salt's percentage is taken as one of the vegetables' weight.");
            return true;
        }
        if (t_.vegetables_unknown || t_.no_vegetables || t_.water_unknown || t_.vegetables.low <= 0)
            return false;
        // Of the vegetables, or of vegetables and water together: both ways.
        rate.share =
            Interval{1.0, t_.water_open ? any_amount : 1 + t_.water.high / t_.vegetables.low};
        notes_.emplace_back("It is not said what the salt is a percentage of: counted of the "
                            "vegetables, and of vegetables and water together.");
        return true;
    }

    /// False if one of the two cannot be weighed.
    static bool so_much_per(const Reading& r, Totals::Rate& rate) {
        if (!r.ratio->per || !r.line.grams || !r.line.per || !r.line.per->grams ||
            rate.of == Whole::other || rate.of == Whole::unsaid)
            return false;
        const Interval per = *r.line.per->grams;
        if (!(per.low > 0)) return false;
        rate.ratio = *r.line.grams * part(r.item.material->salt, {0.96, 1.0}) / per;
        if (rate.of == Whole::brine) // per quart of finished brine
            rate.ratio = Interval{rate.ratio.low * 0.95, rate.ratio.high};
        return true;
    }

    /// "per kg of cabbage" where there are carrots too: of the cabbage, or of them all.
    void share_of_named(const Ratio& ratio, Totals::Rate& rate) const {
        if (rate.of != Whole::vegetables || ratio.material == nullptr || t_.vegetables_unknown ||
            t_.vegetables.high <= 0 || ratio.material->id == "mixed-vegetables")
            return;
        Interval named{0.0};
        bool others_open = false;
        for (const Reading& v : doc_.readings) {
            if (v.line.role != Role::vegetable || !v.line.grams || v.line.left_out) continue;
            if (v.item.material == ratio.material)
                named = named + *v.line.grams;
            else
                others_open = others_open || v.open;
        }
        if (named.low > 0)
            rate.share =
                Interval{others_open ? 0.0 : std::min(1.0, named.low / t_.vegetables.high), 1.0};
        if (rate.share.low > 0.999) rate.share = Interval(1.0);
    }

    const Document& doc_;
    std::vector<std::string>& notes_;
    bool garlic_jar_;
    Totals t_;
    std::vector<const Reading*> rules_;
    std::size_t as_others_ = 0; ///< vegetables of no amount
    bool cover_ = false;
    bool spare_ = false;
    std::optional<Interval> said_; ///< "1 L water to cover"
};

} // namespace

bool in_jar(const Reading& r) {
    return r.line.sort == LineSort::ingredient && !r.line.left_out && r.line.role.has_value();
}

std::string quoted(const Line& line) {
    return fmt::format("\"{}\" ({})", beginning(line.text, 80),
                       line.number == 0 ? "in the method" : fmt::format("line {}", line.number));
}

namespace {

/// Every combination of the ends of what is not a point.
class Corners {
  public:
    Corners(const Totals& t, Basis basis, Interval vegetables, Interval water)
        : t_(t)
        , ends_{vegetables,
                water,
                t.salt,
                t.other,
                t.kept,
                t.brine,
                t.more_salt,
                t.more_vegetables,
                t.more_water,
                t.whole ? *t.whole : Interval{0.0},
                basis == Basis::of_brine ? t.unread_water : Interval{0.0},
                t.cover_ratio} {}

    /// The least and the greatest that `value` comes to.
    template <typename Value>
    [[nodiscard]] Interval over(Value value) const {
        Interval out{1e300, -1e300};
        std::array<double, 12> at{};
        go(0, at, [&] {
            for (unsigned pick = 0; pick < (1U << std::min<std::size_t>(t_.rates.size(), 4));
                 ++pick) {
                const double v = value(mass(at, pick));
                out.low = std::min(out.low, v);
                out.high = std::max(out.high, v);
            }
        });
        return out;
    }

    struct Mass {
        double salt = 0, vegetables = 0, water = 0, other = 0;
        double more_water = 0;
    };

  private:
    template <typename Then>
    void go(std::size_t i, std::array<double, 12>& at, const Then& then) const {
        if (i == ends_.size()) return then();
        at[i] = ends_[i].low;
        go(i + 1, at, then);
        if (ends_[i].point()) return;
        at[i] = ends_[i].high;
        go(i + 1, at, then);
    }

    [[nodiscard]] Mass mass(const std::array<double, 12>& at, unsigned pick) const {
        Mass m;
        m.vegetables = at[0] + at[7];
        double water = at[1] + at[11] * m.vegetables;
        // A vessel that is filled: water by as much as the vegetables leave.
        if (t_.whole) water = std::max(0.0, at[9] - m.vegetables);
        const double salt = salt_of(t_, at[2], at[0], water, pick);
        m.salt = at[4] * at[5] * salt + at[6];
        m.water = at[5] * water + at[8] + at[10];
        m.other = at[3];
        m.more_water = at[8];
        return m;
    }

    const Totals& t_;
    std::array<Interval, 12> ends_;
};

} // namespace

std::optional<Interval> Totals::all_salt() const {
    if (salt_unknown || more_salt.high > 0 || kept.low < 1 || brine.low < 1) return std::nullopt;
    for (const Rate& rate : rates) {
        const bool of_vegetables =
            rate.of == Whole::vegetables || rate.of == Whole::vegetables_and_water;
        const bool of_water = rate.of != Whole::vegetables;
        if (of_vegetables && (vegetables_unknown || no_vegetables || vegetables_open))
            return std::nullopt;
        if (of_water && (water_unknown || water.high <= 0 || water_open)) return std::nullopt;
    }
    return Corners(*this, Basis::of_vegetables, vegetables, water).over([](const auto& m) {
        return m.salt;
    });
}

bool Totals::only(std::initializer_list<Whole> list) const {
    return salt.high <= 0 && !rates.empty() &&
           std::all_of(rates.begin(), rates.end(), [&](const Rate& r) {
               return std::find(list.begin(), list.end(), r.of) != list.end();
           });
}

Percent Totals::on(Basis basis) const {
    Interval v = vegetables;
    Interval w = water;
    const bool v_missing = vegetables_unknown || no_vegetables;
    if (vegetables_open || v_missing) v.high = endless;
    if (cover_ratio.high > 0)
        w = {std::max(0.0, water.low - covering.low), std::max(0.0, water.high - covering.high)};
    if (water_open || (water_unknown && !(cover_ratio.high > 0))) w.high = endless;
    // A rule alone needs no masses: what it is a rule of stands for itself.
    const bool no_water = water.high <= 0 && !water_unknown;
    if (v_missing && basis == Basis::of_vegetables && only({Whole::vegetables}))
        v = {1000.0, 1000.0};
    else if (v_missing && basis == Basis::of_vegetables_and_water &&
             only({Whole::vegetables_and_water})) {
        v = {1000.0, 1000.0};
        w = {0.0, 0.0};
    } else if (v_missing && basis == Basis::of_vegetables_and_water && no_water &&
               only({Whole::vegetables}))
        v = {1000.0, 1000.0};
    const bool of_brine =
        basis == Basis::of_brine || basis == Basis::of_drained_brine || basis == Basis::of_water;
    if (of_brine && (no_water || water_unknown) && only({Whole::water, Whole::brine}))
        w = {1000.0, 1000.0};
    else if (of_brine && no_water && !whole && more_water.high <= 0)
        return std::nullopt;
    const bool water_rule = std::any_of(rates.begin(), rates.end(),
                                        [](const Rate& r) { return r.of != Whole::vegetables; });
    // A brine of so much, and no word of how much brine.
    if (!of_brine && water_rule && no_water && !whole &&
        !only({Whole::vegetables, Whole::vegetables_and_water}))
        w = {0.0, endless};
    // Olives alone are judged by the evened brine: how much of them is water.
    const larder::Material* const olive = larder::find_exact("raw olive");
    const Interval own =
        olive != nullptr && olive->water ? olive->water->interval() : Interval{0.0, 1.0};
    const Corners corners(*this, basis, v, w);
    const auto percent = [&](const auto& m, double own_water) {
        double all = m.vegetables;
        if (basis == Basis::of_vegetables_and_water) all += m.water;
        if (of_brine) all = m.salt + m.water;
        if (basis == Basis::of_everything) all += m.water + m.salt + m.other;
        // Water that comes on top thins the salt of dry-salted vegetables, too.
        if (basis == Basis::of_vegetables) all += m.more_water;
        if (basis == Basis::of_evened_brine) all = m.salt + m.water + m.vegetables * own_water;
        return all > 0 ? m.salt / all * 100 : (m.salt > 0 ? endless : 0.0);
    };
    Interval out = corners.over([&](const auto& m) { return percent(m, own.high); });
    if (basis == Basis::of_evened_brine)
        out = units::hull(out, corners.over([&](const auto& m) { return percent(m, own.low); }));
    if (salt_unknown) out.high = endless;
    const double low = out.low < 1e-6 ? 0 : units::step_down(out.low);
    return Interval{low, out.high >= 1e8 ? endless : units::step_up(out.high)};
}

Totals add_up(const Document& doc, std::vector<std::string>& notes) {
    return Adder(doc, notes).run();
}

std::string salt_reason(const Document& doc) {
    for (const Reading& r : doc.readings) {
        if (!in_jar(r)) continue;
        if (r.item.material->id == "starter-brine")
            return fmt::format(
                "The brine or juice of a ferment, {}, brings salt that nobody states.",
                quoted(r.line));
        if (r.line.role == Role::seasoning && (!r.line.grams || r.open))
            return fmt::format("How much salt {} brings cannot be told.", quoted(r.line));
        if (r.line.role != Role::salt || r.line.grams) continue;
        if (r.ratio && r.line.amount)
            return fmt::format("The salt is a rule, {}, for something of no known weight.",
                               quoted(r.line));
        return fmt::format("How much salt {} means is not said.", quoted(r.line));
    }
    return "How much salt there is cannot be told.";
}

const Reading* widest_line(const Document& doc, Basis basis, Interval whole) {
    double best = 0;
    const Reading* line = nullptr;
    for (std::size_t i = 0; i < doc.readings.size() && doc.readings.size() < 120; ++i) {
        const Reading& r = doc.readings[i];
        if (!in_jar(r) || !r.line.grams || (r.line.grams->point() && !r.open)) continue;
        Document known = doc;
        known.readings[i].open = false;
        known.readings[i].line.grams = Interval(r.line.grams->middle());
        std::vector<std::string> unused;
        const auto p = add_up(known, unused).on(basis);
        if (!p) continue;
        const double gain = whole.width() - p->width();
        if (gain > best) {
            best = gain;
            line = &r;
        }
    }
    return line;
}

} // namespace jarful::appraise
