#include "engine/appraise/method.hpp"

#include "engine/appraise/line.hpp"
#include "engine/appraise/text.hpp"

#include <algorithm>

namespace jarful::appraise {

using larder::Role;
using units::Interval;
using Sort = Measure::Sort;

namespace {

/// What a quart of packed vegetables and brine weighs, g/mL: between loosely filled and brine
/// alone; ours.
constexpr Interval packed_density{0.85, 1.05};
constexpr Interval water_density{0.9957, 0.9998}; // 0 to 30 degrees, standard tables
constexpr std::size_t most = 60;                  ///< of each sort that a method names

/// The first row of an event that fits at or behind a piece.
std::optional<Match> find(std::string_view event, const Sentence& s, std::size_t from = 0) {
    std::optional<Match> best;
    for (const Pattern& p : patterns()) {
        if (p.event != event) continue;
        const auto found = match(p.steps, s, from);
        if (found && (!best || found->first < best->first)) best = found;
    }
    return best;
}

bool among(const std::vector<std::size_t>& list, std::size_t one) {
    return std::find(list.begin(), list.end(), one) != list.end();
}

/// Whether the words behind an amount name something else than salt: "2 kg cabbage".
bool of_another(const Sentence& s, std::size_t amount) {
    for (std::size_t i = amount + 1; i < s.pieces.size() && i <= amount + 3; ++i) {
        const Concepts is = s.pieces[i].is;
        if (is.any({Concept::salt, Concept::stop, Concept::comma, Concept::close_aside}))
            return false;
        if (is.any({Concept::food, Concept::vegetable, Concept::water, Concept::vessel,
                    Concept::spice, Concept::brine, Concept::seasoning_word, Concept::acid}))
            return true;
    }
    return false;
}

} // namespace

bool names_rule(std::span<const Token> sentence, Numbers numbers, Tongue tongue) {
    const Sentence s = sentence_of(sentence, numbers, tongue);
    return s.has(Concept::salty) && (find("salt_rate", s) || find("salt_example", s));
}

void Method::read(std::span<const Token> sentence, Numbers numbers) {
    const Sentence s = sentence_of(sentence, numbers, tongue_);
    if (s.pieces.empty()) return;
    used_.clear();
    conditional_ = find("condition", s).has_value();
    take_salt(s);
    take_water(s);
    take_vegetables(s);
    take_vessel(s);
    take_again(s);
    spoke_of_salt_ = s.has({Concept::salty, Concept::brine});
    ++account_.sentences;
}

/// The amount at a piece, read as one of salt.
std::optional<Reading> Method::salt_reading(const Sentence& s, std::size_t amount) const {
    // The words up to and with the salt, which say which salt it is.
    std::size_t last = amount;
    for (std::size_t i = amount; i < s.pieces.size() && i <= amount + 6; ++i) {
        if (s.pieces[i].is.any({Concept::stop, Concept::comma})) break;
        if (s.pieces[i].is.any(Concept::salt)) {
            last = i;
            break;
        }
    }
    Reading r = ingredient(s.text(amount, last), tongue_, salt_);
    if (!r.line.understood || r.line.role != Role::salt) {
        const Piece& p = s.pieces[amount];
        const Token& begin = s.tokens[p.first];
        const Token& end = s.tokens[p.first + p.count - 1];
        const std::string plain =
            std::string(
                begin.text.data(),
                static_cast<std::size_t>(end.text.data() + end.text.size() - begin.text.data())) +
            " salt";
        r = ingredient(plain, base_tongue(), salt_);
    }
    if (!r.line.understood || r.line.role != Role::salt) return std::nullopt;
    return r;
}

/// What a rate is a rate of: the amount at a piece, and the word behind it.
std::optional<Ratio> Method::whole_at(const Sentence& s, std::size_t at, Line& line) const {
    const Piece& p = s.pieces[at];
    Ratio ratio;
    ratio.per = p.quantity;
    bool vegetable = false;
    bool water = false;
    bool brine = false;
    const larder::Material* food = nullptr;
    for (std::size_t i = at + 1; i < s.pieces.size() && i <= at + 5; ++i) {
        const Piece& next = s.pieces[i];
        if (next.is.any({Concept::comma, Concept::stop, Concept::mass, Concept::volume,
                         Concept::salt, Concept::open_aside}))
            break;
        vegetable = vegetable || next.is.any({Concept::food, Concept::vegetable, Concept::weight});
        water = water || next.is.any(Concept::water) || next.is.any(Concept::liquid);
        brine = brine || next.is.any(Concept::brine);
        if (next.material != nullptr && next.is.any(Concept::food)) food = next.material;
    }
    ratio.material = food;
    if (p.is.any(Concept::count)) {
        if (food == nullptr) return std::nullopt;
        Item item;
        item.material = food;
        item.choices = {food};
        const auto grams = grams_of(p.quantity, item, nullptr);
        if (!grams) return std::nullopt;
        ratio.of = Whole::vegetables;
        line.per = Per{{p.quantity.count.low, p.quantity.count.high, "piece"}, "vegetables", grams};
        return ratio;
    }
    const bool weighed = p.quantity.weighed();
    ratio.of = vegetable && water ? Whole::vegetables_and_water
               : vegetable        ? Whole::vegetables
               : brine            ? Whole::brine
               : water            ? Whole::water
               : weighed          ? Whole::vegetables
                                  : Whole::water;
    Per per;
    per.amount = {p.quantity.count.low, p.quantity.count.high,
                  std::string(p.quantity.measure->unit)};
    per.of = ratio.of == Whole::vegetables ? "vegetables"
             : ratio.of == Whole::water    ? "water"
             : ratio.of == Whole::brine    ? "brine"
                                           : "vegetables and water";
    const Interval base = p.quantity.base();
    if (weighed)
        per.grams = base;
    else if (ratio.of == Whole::water || ratio.of == Whole::brine)
        per.grams = Interval{base.low * water_density.low, base.high * water_density.high};
    else if (ratio.of == Whole::vegetables_and_water)
        per.grams = Interval{base.low * packed_density.low, base.high * packed_density.high};
    line.per = per;
    return ratio;
}

void Method::keep(const Sentence& s, Reading reading, bool rule) {
    if (account_.salt.size() >= most) return;
    SaltInMethod found;
    found.text = std::string(beginning(s.text(), 300));
    found.reading = std::move(reading);
    found.conditional = conditional_;
    found.rule = rule;
    found.each = !rule && find("salt_each", s).has_value();
    for (std::size_t i = 0; i < s.pieces.size() && !rule; ++i) {
        const Piece& p = s.pieces[i];
        if (!p.is.any(Concept::mass) || p.is.any(Concept::bare_measure) || among(used_, i))
            continue;
        const Interval g = p.quantity.base();
        if (g.high >= 100) found.beside = found.beside ? units::hull(*found.beside, g) : g;
    }
    found.sentence = account_.sentences;
    account_.salt.push_back(std::move(found));
}

void Method::take_salt(const Sentence& s) {
    if (!s.has({Concept::salty, Concept::brine})) return;
    // A sum that shows how a rate is meant: "1556 g x .02 = 36 g salt".
    if (const auto sum = find("salt_example", s)) {
        auto r = salt_reading(s, sum->at('s'));
        if (r) r->ratio = whole_at(s, sum->at('o'), r->line);
        if (r && r->ratio) {
            r->ratio->of = Whole::vegetables;
            used_ = {sum->at('o'), sum->at('s')};
            keep(s, std::move(*r), true);
        }
    }
    for (std::size_t from = 0; const auto rate = find("salt_rate", s, from);) {
        from = rate->first + 1;
        if (among(used_, rate->at('s')) || among(used_, rate->at('o')) ||
            of_another(s, rate->at('s')))
            continue;
        take_rule(s, *rate);
    }
    for (std::size_t from = 0; const auto percent = find("salt_percent", s, from);) {
        from = std::max(percent->at('s'), percent->first) + 1;
        if (!among(used_, percent->at('s'))) take_percent(s, *percent);
    }
    take_factor(s);
    for (std::size_t from = 0; const auto total = find("salt_total", s, from);) {
        from = total->first + 1;
        if (!among(used_, total->at('s')) && !of_another(s, total->at('s'))) take_total(s, *total);
    }
}

void Method::take_rule(const Sentence& s, const Match& found) {
    auto r = salt_reading(s, found.at('s'));
    if (!r) return;
    r->ratio = whole_at(s, found.at('o'), r->line);
    if (!r->ratio) return;
    used_.push_back(found.at('s'));
    used_.push_back(found.at('o'));
    keep(s, std::move(*r), true);
}

void Method::take_percent(const Sentence& s, const Match& found) {
    const Piece& p = s.pieces[found.at('s')];
    if (p.quantity.measure == nullptr || p.quantity.count.high > 40) return;
    Reading r = ingredient("1 % salt", base_tongue(), salt_);
    r.amount = p.quantity;
    r.line.amount = Amount{p.quantity.count.low, p.quantity.count.high, "%"};
    Ratio ratio;
    ratio.of = whole_of(s.tokens);
    // A brine of so much: of the water or of the brine, which the adding up keeps apart.
    const bool brine = s.has(Concept::brine) && ratio.of != Whole::brine;
    if (brine || (ratio.of == Whole::vegetables && s.has(Concept::brine)))
        ratio.of = s.has(Concept::water) && !s.has(Concept::brine) ? Whole::water : Whole::unsaid;
    if (s.has(Concept::brine)) r.item.words = "brine";
    r.ratio = ratio;
    used_.push_back(found.at('s'));
    keep(s, std::move(r), true);
}

/// "the weight of the cabbage times .02"
void Method::take_factor(const Sentence& s) {
    if (!s.has({Concept::times, Concept::weight})) return;
    const auto found = find("salt_factor", s);
    if (!found) return;
    const Piece& p = s.pieces[found->at('n')];
    if (!(p.number > 0.004) || !(p.number < 0.3) || !s.has(Concept::times)) return;
    Reading r = ingredient("1 % salt", base_tongue(), salt_);
    Quantity q;
    q.count = {p.number * 100, p.number * 100};
    q.measure = &percent_measure();
    r.amount = q;
    r.line.amount = Amount{q.count.low, q.count.high, "%"};
    r.ratio = Ratio{Whole::vegetables, std::nullopt, nullptr};
    keep(s, std::move(r), true);
}

void Method::take_total(const Sentence& s, const Match& found) {
    auto r = salt_reading(s, found.at('s'));
    if (!r) return;
    used_.push_back(found.at('s'));
    const bool rule = r->ratio.has_value();
    keep(s, std::move(*r), rule);
}

void Method::take_water(const Sentence& s) {
    if (s.has({Concept::rinse, Concept::wash, Concept::airlock})) return;
    // A bath of plain water is poured off again.
    const bool bath = s.has(Concept::soak) && !s.has({Concept::salty, Concept::brine});
    for (std::size_t from = 0; const auto found = find("water_amount", s, from);) {
        from = found->first + 1;
        const std::size_t at = found->at('w');
        if (among(used_, at) || account_.water.size() >= most) continue;
        const Interval base = s.pieces[at].quantity.base();
        if (bath || !(base.high >= 20)) continue;
        used_.push_back(at);
        const bool volume = s.pieces[at].is.any(Concept::volume);
        WaterInMethod water;
        water.text = std::string(beginning(s.text(), 300));
        water.grams =
            volume ? Interval{base.low * water_density.low, base.high * water_density.high} : base;
        water.conditional = conditional_;
        water.with_salt = s.has({Concept::salty, Concept::brine, Concept::dissolve});
        water.sentence = account_.sentences;
        account_.water.push_back(std::move(water));
    }
    if (conditional_ || s.has(Concept::negation)) return;
    if (const auto fill = find("fill", s)) {
        const bool water = s.has(Concept::water) && !s.has(Concept::brine);
        account_.fills_with_water =
            account_.fills_with_water || (water && s.has({Concept::fill, Concept::top}));
        account_.covers_with_brine = true;
    }
}

void Method::take_vegetables(const Sentence& s) {
    if (conditional_) return;
    for (std::size_t from = 0; const auto found = find("vegetable_amount", s, from);) {
        from = found->first + 1;
        if (among(used_, found->at('v')) || account_.vegetables.size() >= most) continue;
        const Piece& last = s.pieces[found->last];
        if (last.material == nullptr || last.material->role != Role::vegetable) continue;
        Reading r = ingredient(s.text(found->at('v'), found->last), tongue_, salt_);
        if (!r.line.understood || r.line.role != Role::vegetable || !r.line.grams) continue;
        r.line.text = std::string(beginning(s.text(), 300));
        used_.push_back(found->at('v'));
        account_.vegetables.push_back(std::move(r));
    }
}

void Method::take_vessel(const Sentence& s) {
    for (std::size_t from = 0; const auto found = find("vessel_size", s, from);) {
        from = found->first + 1;
        const Piece& p = s.pieces[found->at('v')];
        const Interval ml = p.quantity.base();
        if (!(ml.high >= 150)) continue;
        account_.vessel_ml = account_.vessel_ml ? units::hull(*account_.vessel_ml, ml) : ml;
        account_.vessel_text = std::string(beginning(s.text(), 120));
    }
}

void Method::take_again(const Sentence& s) {
    if (!account_.again.empty()) return;
    // Perhaps, too: "double the cabbage if you like".
    const bool factor = find("salt_factor", s).has_value();
    if (!factor && s.has(Concept::times) && s.has(Concept::food) && find("amount_again", s))
        account_.again = std::string(beginning(s.text(), 300));
    if (conditional_) return;
    // "work in 25 g more": of what is not said, so it may be salt.
    if (const auto more = find("amount_again", s);
        more && !factor && !(more->has('s') && of_another(s, more->at('s'))))
        account_.again = std::string(beginning(s.text(), 300));
    // A part of the vegetables is salted: the rest is salted likewise, or goes elsewhere.
    const bool salt = s.has({Concept::salty, Concept::brine});
    if (salt && find("part_of_vegetable", s) && !find("part_of_salt", s)) part_salted_ = true;
    if (part_salted_ && find("the_same_again", s) && !find("part_of_salt", s))
        account_.again = std::string(beginning(s.text(), 300));
    if (part_salted_ && s.has({Concept::rest, Concept::other}) &&
        s.has({Concept::keep, Concept::purpose, Concept::serve}) && !find("part_of_salt", s))
        account_.again = std::string(beginning(s.text(), 300));
    if (!s.has({Concept::salty, Concept::brine}) && !spoke_of_salt_) return;
    if (find("salt_again", s) && !find("part_of_salt", s))
        account_.again = std::string(beginning(s.text(), 300));
}

} // namespace jarful::appraise
