#include "engine/appraise/line.hpp"
#include "engine/appraise/method.hpp"
#include "engine/appraise/text.hpp"

#include <algorithm>

/// The amounts that a method names: of salt, water, vegetables and vessels.
namespace jarful::appraise {

using larder::Role;
using units::Interval;

namespace {

/// What a quart of packed vegetables and brine weighs, g/mL: between loosely filled and brine
/// alone; ours.
constexpr Interval packed_density{0.85, 1.05};
constexpr Interval water_density{0.9957, 0.9998}; // 0 to 30 degrees, standard tables
constexpr std::size_t most = 60;                  ///< of each sort that a method names
/// The least that counts, in g or mL: of water and of weighed things; of spoons of something; the
/// least vessel that vegetables ferment in. Ours.
constexpr double least_poured = 20;
constexpr double least_spooned = 4;
constexpr double least_vessel = 150;

Interval times(Interval a, Interval b) {
    return {a.low * b.low, a.high * b.high};
}

Interval grams_of_water(const Piece& p) {
    return p.is.any(Concept::volume) ? times(p.quantity.base(), water_density) : p.quantity.base();
}

/// The words behind an amount, up to another amount or a mark.
Concepts words_behind(const Sentence& s, std::size_t at, const larder::Material*& food) {
    Concepts out;
    for (std::size_t i = at + 1; i < s.pieces.size() && i <= at + 5; ++i) {
        const Piece& next = s.pieces[i];
        if (next.is.any({Concept::comma, Concept::stop, Concept::mass, Concept::volume,
                         Concept::salt, Concept::open_aside}))
            break;
        out = out | next.is;
        if (next.material != nullptr && next.is.any(Concept::food)) food = next.material;
    }
    return out;
}

Whole whole_named(Concepts words, bool weighed) {
    const bool vegetable = words.any({Concept::food, Concept::vegetable, Concept::weight});
    const bool water = words.any({Concept::water, Concept::liquid});
    if (vegetable) return water ? Whole::vegetables_and_water : Whole::vegetables;
    if (words.any(Concept::brine)) return Whole::brine;
    return water || !weighed ? Whole::water : Whole::vegetables;
}

std::string_view name_of(Whole whole) {
    switch (whole) {
    case Whole::vegetables:
        return "vegetables";
    case Whole::water:
        return "water";
    case Whole::brine:
        return "brine";
    default:
        return "vegetables and water";
    }
}

/// The last piece of a name that goes on: "pepper grains".
std::size_t end_of_name(const Sentence& s, std::size_t at) {
    std::size_t last = at;
    while (last + 1 < s.pieces.size() && last < at + 2 &&
           s.pieces[last + 1].is.any({Concept::food, Concept::spice, Concept::vegetable,
                                      Concept::part_of_piece, Concept::seasoning_word}))
        ++last;
    return last;
}

/// A material of the larder for a liquid that is only named by a word of the lexicons.
const larder::Material* liquid_of(const Piece& p) {
    if (p.is.any(Concept::old_brine) || p.is.any(Concept::starter))
        return larder::Larder().find("starter brine")->material;
    if (p.material != nullptr) return p.material;
    return larder::Larder().find(p.is.any(Concept::whey) ? "whey" : "vinegar")->material;
}

} // namespace

std::optional<Ratio> whole_at(const Sentence& s, std::size_t at, Line& line) {
    const Piece& p = s.pieces[at];
    Ratio ratio;
    ratio.per = p.quantity;
    const Concepts words = words_behind(s, at, ratio.material);
    if (p.is.any(Concept::count)) {
        if (ratio.material == nullptr) return std::nullopt;
        Item item;
        item.material = ratio.material;
        item.choices = {item.material};
        const auto grams = grams_of(p.quantity, item, nullptr);
        if (!grams) return std::nullopt;
        ratio.of = Whole::vegetables;
        line.per = Per{{p.quantity.count.low, p.quantity.count.high, "piece"}, "vegetables", grams};
        return ratio;
    }
    const bool weighed = p.quantity.weighed();
    ratio.of = whole_named(words, weighed);
    Per per;
    per.amount = {p.quantity.count.low, p.quantity.count.high,
                  std::string(p.quantity.measure->unit)};
    per.of = name_of(ratio.of);
    const Interval base = p.quantity.base();
    if (weighed)
        per.grams = base;
    else if (ratio.of == Whole::water || ratio.of == Whole::brine)
        per.grams = times(base, water_density);
    else if (ratio.of == Whole::vegetables_and_water)
        per.grams = times(base, packed_density);
    line.per = per;
    return ratio;
}

bool names_rule(std::span<const Token> sentence, Numbers numbers, Tongue tongue) {
    const Sentence s = sentence_of(sentence, numbers, tongue);
    return s.has(Concept::salty) && (find(Event::salt_rate, s) || find(Event::salt_example, s));
}

bool names_another(const Sentence& s, std::size_t amount) {
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

bool Method::used(std::size_t piece) const {
    return std::find(used_.begin(), used_.end(), piece) != used_.end();
}

/// Every place of an event, from left to right.
void Method::each(Event event, Sentence& s, void (Method::*taker)(const Sentence&, const Match&)) {
    std::size_t from = 0;
    while (const auto found = find(event, s, from)) {
        const std::size_t taken = used_.size() + account_.added.size();
        (this->*taker)(s, *found);
        if (used_.size() + account_.added.size() > taken) explain(s, *found);
        from = found->first + 1;
    }
}

void Method::take_amounts(Sentence& s) {
    if (s.has({Concept::salty, Concept::brine})) {
        if (const auto sum = find(Event::salt_example, s)) {
            take_example(s, *sum);
            explain(s, *sum);
        }
        each(Event::salt_rate, s, &Method::take_rule);
        each(Event::salt_percent, s, &Method::take_percent);
        if (const auto factor = find(Event::salt_factor, s)) {
            take_factor(s, *factor);
            explain(s, *factor);
        }
        each(Event::salt_total, s, &Method::take_total);
    }
    each(Event::water_amount, s, &Method::take_water);
    each(Event::brine_amount, s, &Method::take_brine);
    if (const auto poured = find(Event::water_poured, s)) {
        const auto amount = find(Event::water_amount, s);
        if (!amount || (poured->has('m') && !amount->has('m')))
            add(s, larder::find_exact("water"), poured->has('m'), 0);
        explain(s, *poured);
    }
    if (const auto filled = find(Event::vessel_filled, s)) {
        explain(s, *filled);
        const bool water = s.has(Concept::water) && !s.has(Concept::brine);
        account_.fills_with_water = account_.fills_with_water ||
                                    (water && s.has({Concept::fill, Concept::top, Concept::brim}));
        account_.covers_with_brine = true;
    }
    each(Event::vessel_size, s, &Method::take_vessel);
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
    if (!r.line.understood || r.line.role != Role::salt)
        r = ingredient(std::string(s.text(amount, amount)) + " salt", base_tongue(), salt_);
    if (!r.line.understood || r.line.role != Role::salt) return std::nullopt;
    return r;
}

void Method::keep(const Sentence& s, Reading reading, bool rule) {
    if (account_.salt.size() >= most) return;
    SaltInMethod found;
    found.text = std::string(beginning(s.text(), 300));
    found.reading = std::move(reading);
    found.conditional = s.has(Concept::conditional);
    found.rule = rule;
    found.each = !rule && find(Event::salt_each, s).has_value();
    for (std::size_t i = 0; i < s.pieces.size() && !rule; ++i) {
        const Piece& p = s.pieces[i];
        if (!p.is.any(Concept::mass) || p.is.any(Concept::bare_measure) || used(i)) continue;
        const Interval g = p.quantity.base();
        if (g.high >= 100) found.beside = found.beside ? units::hull(*found.beside, g) : g;
    }
    found.sentence = account_.sentences;
    account_.salt.push_back(std::move(found));
}

/// A sum that shows how a rate is meant: "1556 g x .02 = 36 g salt".
void Method::take_example(const Sentence& s, const Match& found) {
    auto r = salt_reading(s, found.at('s'));
    if (r) r->ratio = whole_at(s, found.at('o'), r->line);
    if (!r || !r->ratio) return;
    r->ratio->of = Whole::vegetables;
    used_ = {found.at('o'), found.at('s')};
    keep(s, std::move(*r), true);
}

void Method::take_rule(const Sentence& s, const Match& found) {
    if (used(found.at('s')) || used(found.at('o')) || names_another(s, found.at('s'))) return;
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
    if (used(found.at('s')) || p.quantity.measure == nullptr || p.quantity.count.high > 40) return;
    Reading r = ingredient("1 % salt", base_tongue(), salt_);
    r.amount = p.quantity;
    r.line.amount = Amount{p.quantity.count.low, p.quantity.count.high, "%"};
    Ratio ratio;
    ratio.of = whole_of(s.tokens);
    // A brine of so much: of the water or of the brine, which the adding up keeps apart.
    if (s.has(Concept::brine)) {
        if (ratio.of != Whole::brine) ratio.of = Whole::unsaid;
        r.item.words = "brine";
    }
    r.ratio = ratio;
    used_.push_back(found.at('s'));
    keep(s, std::move(r), true);
}

/// "the weight of the cabbage times .02"
void Method::take_factor(const Sentence& s, const Match& found) {
    const Piece& p = s.pieces[found.at('n')];
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
    if (used(found.at('s')) || names_another(s, found.at('s'))) return;
    auto r = salt_reading(s, found.at('s'));
    if (!r) return;
    used_.push_back(found.at('s'));
    const bool rule = r->ratio.has_value();
    keep(s, std::move(*r), rule);
}

void Method::take_water(const Sentence& s, const Match& found) {
    const std::size_t at = found.at('w');
    // A bath of plain water is poured off again.
    const bool bath = s.has(Concept::soak) && !s.has({Concept::salty, Concept::brine});
    if (used(at) || bath || account_.water.size() >= most) return;
    const Piece& p = s.pieces[at];
    if (!(p.quantity.base().high >= least_poured)) return;
    used_.push_back(at);
    const bool with_salt = s.has({Concept::salty, Concept::brine, Concept::dissolve});
    account_.water.push_back({std::string(beginning(s.text(), 300)), grams_of_water(p),
                              s.has(Concept::conditional), with_salt, account_.sentences});
    if (!s.has(Concept::conditional))
        add(s, larder::find_exact("water"), found.has('m'), p.quantity.base().low);
}

void Method::take_brine(const Sentence& s, const Match& found) {
    const Piece& p = s.pieces[found.at('w')];
    if (used(found.at('w')) || account_.brine.size() >= most ||
        !(p.quantity.base().high >= least_poured))
        return;
    account_.brine.push_back({std::string(beginning(s.text(), 300)), grams_of_water(p),
                              s.has(Concept::in_case), true, account_.sentences});
}

/// A vegetable, a seasoning or a liquid with its amount.
void Method::take_thing(const Sentence& s, const Match& found) {
    if (found.has('m')) return add(s, larder::Larder().find("mixed vegetables")->material, true, 0);
    const std::size_t x = found.at('x');
    const bool amount = found.has('v');
    if (amount && used(found.at('v'))) return;
    Quantity quantity;
    Reading r;
    if (amount) {
        const std::size_t v = found.at('v');
        quantity = s.pieces[v].quantity;
        const double base = quantity.measure != nullptr && !s.pieces[v].is.any(Concept::count)
                                ? quantity.base().high
                                : least_poured;
        if (base < (quantity.weighed() ? least_poured : least_spooned)) return;
        if (v < x) r = ingredient(s.text(v, end_of_name(s, x)), tongue_, salt_);
    }
    const bool read = r.line.understood && r.item.material != nullptr;
    const larder::Material* const m = read ? r.item.material : s.pieces[x].material;
    if (m == nullptr) return;
    const bool vegetable = m->role == Role::vegetable;
    if (!vegetable && m->role != Role::seasoning && m->role != Role::acid && !is_liquid(*m)) return;
    add(s, m, false, quantity.weighed() ? quantity.base().low : 0);
    account_.added.back().words = read ? r.item.words : std::string(s.text(x, x));
    if (!vegetable || !amounts_ || !read || !r.line.grams || account_.vegetables.size() >= most)
        return;
    r.line.text = std::string(beginning(s.text(), 300));
    used_.push_back(found.at('v'));
    account_.vegetables.push_back(std::move(r));
}

/// Vinegar, whey, the brine of an older batch.
void Method::take_liquid(const Sentence& s, const Match& found) {
    const std::size_t x = found.at('x');
    for (std::size_t back = 1; back <= 4 && back <= x; ++back) {
        const Piece& p = s.pieces[x - back];
        if (p.is.any({Concept::volume, Concept::loose}) && p.quantity.base().high < least_poured)
            return;
    }
    const larder::Material* const m = liquid_of(s.pieces[x]);
    add(s, m, false, 0);
    account_.added.back().words = m->name;
}

void Method::take_vessel(const Sentence& s, const Match& found) {
    const Interval ml = s.pieces[found.at('v')].quantity.base();
    if (!(ml.high >= least_vessel)) return;
    account_.vessel_ml = account_.vessel_ml ? units::hull(*account_.vessel_ml, ml) : ml;
    account_.vessel_text = std::string(beginning(s.text(), 120));
}

void Method::add(const Sentence& s, const larder::Material* material, bool more, double grams) {
    if (account_.added.size() >= most) account_.added.pop_back();
    account_.added.push_back({std::string(beginning(s.text(), 300)), material, {}, more, grams});
}

} // namespace jarful::appraise
