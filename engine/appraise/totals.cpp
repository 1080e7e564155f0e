#include "engine/appraise/judge.hpp"
#include "engine/appraise/text.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::appraise {

using larder::Basis;
using larder::Role;
using units::Interval;

namespace {

Interval part(const std::optional<larder::Figure>& figure, Interval otherwise) {
    return figure ? figure->interval() : otherwise;
}

/// What has no upper end, for a calculation: so much that nothing beside it counts.
constexpr double any_amount = 1e15;

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

    void salt(const Reading& r) {
        const larder::Material& m = *r.item.material;
        t_.any_salt = true;
        if (m.warning == larder::SaltWarning::curing ||
            m.warning == larder::SaltWarning::reduced_sodium) {
            t_.salt_unknown = true;
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
        if (t_.no_vegetables || t_.vegetables_unknown) {
            t_.water_unknown = true;
            return;
        }
        // Whole cucumbers leave about as much room as they fill, shreds hardly any: common
        // practice, wide on purpose.
        Interval filling{t_.vegetables.low * 0.25, t_.vegetables.high * 1.5};
        if (!cover_) {
            filling.low = 0;
            t_.spare_water += filling.high;
        }
        if (said_) filling = units::hull(filling, *said_);
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
        if (r.item.words == "brine" || r.line.text.find("brine") != std::string::npos) {
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

std::optional<Interval> Totals::all_salt() const {
    if (salt_unknown) return std::nullopt;
    Interval out{1e300, -1e300};
    for (const Rate& rate : rates) {
        const bool of_vegetables =
            rate.of == Whole::vegetables || rate.of == Whole::vegetables_and_water;
        const bool of_water = rate.of != Whole::vegetables;
        if (of_vegetables && (vegetables_unknown || no_vegetables || vegetables_open))
            return std::nullopt;
        if (of_water && (water_unknown || water.high <= 0 || water_open)) return std::nullopt;
    }
    for (unsigned pick = 0; pick < 128; ++pick) {
        const double s = salt_of(*this, pick & 16U ? salt.high : salt.low,
                                 pick & 32U ? vegetables.high : vegetables.low,
                                 pick & 64U ? water.high : water.low, pick & 15U);
        out.low = std::min(out.low, s);
        out.high = std::max(out.high, s);
    }
    return out;
}

Percent Totals::on(Basis basis) const {
    if (salt_unknown) return std::nullopt;
    Interval v = vegetables;
    Interval w = water;
    if (vegetables_open) v.high = any_amount;
    if (water_open) w.high = any_amount;
    const bool fixed = salt.high > 0;
    const auto only = [&](std::initializer_list<Whole> list) {
        return std::all_of(rates.begin(), rates.end(), [&](const Rate& r) {
            return std::find(list.begin(), list.end(), r.of) != list.end();
        });
    };
    const bool need_v = basis != Basis::of_brine;
    const bool v_missing = vegetables_unknown || no_vegetables;
    // A rule alone needs no masses: what it is a rule of stands for itself.
    if (basis == Basis::of_vegetables && v_missing && !fixed && only({Whole::vegetables})) {
        v = {1000.0, 1000.0};
    } else if (basis == Basis::of_vegetables_and_water && v_missing && !fixed &&
               only({Whole::vegetables_and_water})) {
        v = {1000.0, 1000.0};
        w = {0.0, 0.0};
    } else if (basis == Basis::of_vegetables_and_water && v_missing && !fixed && water.high <= 0 &&
               !water_unknown && only({Whole::vegetables})) {
        v = {1000.0, 1000.0};
    } else if (need_v && v_missing) {
        return std::nullopt;
    }
    const bool water_rule = std::any_of(rates.begin(), rates.end(),
                                        [](const Rate& r) { return r.of != Whole::vegetables; });
    if (basis == Basis::of_brine) {
        if (!fixed && (water.high <= 0 || water_unknown) && !rates.empty() &&
            only({Whole::water, Whole::brine}))
            w = {1000.0, 1000.0};
        else if (water.high <= 0 || water_unknown)
            return std::nullopt;
        if (std::any_of(rates.begin(), rates.end(),
                        [](const Rate& r) {
                            return r.of == Whole::vegetables || r.of == Whole::vegetables_and_water;
                        }) &&
            v_missing)
            return std::nullopt;
    } else if (water_unknown && (basis != Basis::of_vegetables || water_rule)) {
        return std::nullopt;
    } else if (basis == Basis::of_vegetables && water_rule && water.high <= 0) {
        return std::nullopt;
    } else if (water_rule && water.high <= 0 &&
               !only({Whole::vegetables, Whole::vegetables_and_water})) {
        return std::nullopt; // a brine of so much, and no word of how much brine
    }
    Interval out{1e300, -1e300};
    // Olives alone are judged so: how much of them is water.
    const larder::Material* const olive = larder::find_exact("raw olive");
    const bool known = olive != nullptr && olive->water;
    const double least = known ? olive->water->low : 0;
    const double most = known ? olive->water->high : 1;
    for (unsigned pick = 0; pick < 512; ++pick) {
        const double veg = pick & 32U ? v.high : v.low;
        const double wat = pick & 64U ? w.high : w.low;
        const double oth = pick & 128U ? other.high : other.low;
        const double s = salt_of(*this, pick & 16U ? salt.high : salt.low, veg, wat, pick & 15U);
        double whole = veg;
        if (basis == Basis::of_vegetables_and_water) whole = veg + wat;
        if (basis == Basis::of_brine) whole = s + wat;
        if (basis == Basis::of_evened_brine) whole = s + wat + veg * (pick & 256U ? most : least);
        if (basis == Basis::of_everything) whole = veg + wat + s + oth;
        const double ratio = whole > 0 ? s / whole * 100 : 1e9;
        out.low = std::min(out.low, ratio);
        out.high = std::max(out.high, ratio);
    }
    if (!(out.high < 1e8)) return std::nullopt;
    const double low = out.low < 1e-6 ? 0 : units::step_down(out.low);
    return Interval{low, units::step_up(out.high)};
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
