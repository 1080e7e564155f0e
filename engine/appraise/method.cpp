#include "engine/appraise/method.hpp"

#include "engine/appraise/line.hpp"
#include "engine/appraise/text.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace jarful::appraise {

namespace {

/// What is said of a row of an event, and what it does.
struct Told {
    Event event;
    Deed::Effect effect;
    std::string_view reason, remedy;
};
using Effect = Deed::Effect;

constexpr std::string_view weigh_salt =
    "Weigh all the salt that goes in, and write it on one line.";
constexpr std::string_view keep_brine =
    "Salt by weight and keep all the brine that comes of it; or weigh what is added after it is "
    "poured off.";
constexpr Told told[] = {
    {Event::poured, Effect::less_salt,
     "By the method brine is poured off, or may be, and salt with it", keep_brine},
    {Event::lost, Effect::anything,
     "By the method brine goes elsewhere than into the jar, or is boiled down",
     "Weigh the water and the salt that stay with the vegetables."},
    {Event::part_used, Effect::less_salt, "By the method only a part of the salt goes in",
     "Weigh the salt that goes in, and write only that."},
    {Event::brine_parted, Effect::less_salt, "By the method a part of the brine goes in, or stays",
     "Weigh the water and the salt that stay with the vegetables."},
    {Event::left_over, Effect::less_brine, "By the method not all of the brine goes in",
     "Weigh the water and the salt of the brine that you pour in."},
    {Event::salt_added, Effect::more_salt, "The method adds salt besides what the list gives",
     weigh_salt},
    {Event::unexplained, Effect::anything,
     "What happens to the salt, the brine or the vegetables is not understood",
     "Weigh the salt and the vegetables that go into the jar, and leave the sentence out."},
    {Event::for_each, Effect::anything, "The method's amounts are for each vessel, or may be",
     "Write what goes into all the vessels together."},
    {Event::for_one, Effect::anything,
     "By the method its amounts are for one vessel, and several are filled",
     "Write what goes into all the vessels together."},
};

Deed deed_of(Event event, std::string_view sentence) {
    const Told* const t = std::find_if(std::begin(told), std::end(told),
                                       [&](const Told& one) { return one.event == event; });
    Deed deed;
    deed.reason = fmt::format("{}: \"{}\".", t->reason, beginning(sentence, 120));
    deed.remedy = t->remedy;
    deed.leaves_brine = event == Event::left_over;
    deed.effect = t->effect;
    return deed;
}

/// Where a run of words is cut that is too long for a sentence: behind a comma.
std::size_t cut(std::span<const Token> t) {
    if (t.size() <= most_pieces) return t.size();
    for (std::size_t i = most_pieces; i > most_pieces / 2; --i) {
        if (is_mark(t, i - 1, ",")) return i;
    }
    return most_pieces;
}

} // namespace

void Method::read(std::span<const Token> sentence, Numbers numbers, bool amounts, bool prose) {
    while (!sentence.empty()) {
        const std::size_t size = cut(sentence);
        Sentence s = sentence_of(sentence.first(size), numbers, tongue_);
        sentence = sentence.subspan(size);
        if (s.pieces.empty()) continue;
        s.say(state_);
        apply_marks(s);
        take(s, amounts, prose);
        settle(s);
        ++account_.sentences;
    }
}

void Method::read_title(std::span<const Token> title, Numbers numbers) {
    Sentence s = sentence_of(title.first(std::min(title.size(), most_pieces)), numbers, tongue_);
    if (s.pieces.empty()) return;
    apply_marks(s);
    for (const Pattern& row : patterns(Event::title_part)) {
        if (!Fit(row, s).first()) continue;
        account_.deeds.push_back(deed_of(Event::unexplained, s.text()));
        rows_.push_back(&row);
        return;
    }
}

void Method::take(Sentence& s, bool amounts, bool prose) {
    used_.clear();
    next_ = {};
    poured_ = false;
    told_ = false;
    amounts_ = amounts;
    if (amounts) take_amounts(s);
    each(Event::thing_added, s, &Method::take_thing);
    each(Event::liquid_added, s, &Method::take_liquid);
    Event done = Event::mark; // an event happens once in a sentence
    for (const Pattern& row : patterns()) {
        if (row.event < Event::for_one || row.event > Event::not_yet_salted || row.event == done)
            continue;
        const auto found = Fit(row, s).first();
        if (!found || !handle(row, *found, s)) continue;
        if (row.event < Event::part_salted && !row.steps.empty()) explain(s, *found);
        told_ = told_ || (row.event >= Event::rinsed && row.event < Event::part_salted &&
                          row.event != Event::rest_follows && row.event != Event::put_back);
        rows_.push_back(&row);
        done = row.event;
    }
    for (const std::size_t piece : used_)
        s.mark(piece, Concept::explained);
    explain_listed(s);
    if (!told_ && amounts && prose) take_unexplained(s);
}

/// What bears on the salt, the brine or the vegetables, and is no part of anything understood.
void Method::take_unexplained(const Sentence& s) {
    for (const Pattern& row : patterns(Event::unexplained)) {
        if (!Fit(row, s).first()) continue;
        account_.deeds.push_back(deed_of(row.event, beginning(s.text(), 300)));
        rows_.push_back(&row);
        return;
    }
}

void Method::listed(const Quantity& amount, larder::Role role) {
    constexpr std::size_t most = 40; // a list of a kitchen has fewer
    const bool plain = sized(amount) || amount.is(Measure::Sort::percent);
    if (plain && !amount.open && listed_.size() < most) listed_.push_back({amount, role});
}

namespace {

/// Whether the words behind an amount name a thing of another role: "a kilo of ice".
bool names_another_role(const Sentence& s, std::size_t amount, larder::Role role) {
    constexpr Concepts others{Concept::ice, Concept::drink,     Concept::acid,   Concept::whey,
                              Concept::oil, Concept::old_brine, Concept::strange};
    const std::size_t last = std::min(amount + 3, s.pieces.size() - 1);
    for (std::size_t i = amount + 1; i <= last; ++i) {
        const Concepts is = s.pieces[i].is;
        if (is.any(Concept::comma)) return false;
        if (is.any(others)) return true;
        if (is.any(Concept::salt)) return role != larder::Role::salt;
        if (is.any(Concept::water)) return role != larder::Role::water;
        if (is.any(Concept::food)) return role != larder::Role::vegetable;
    }
    return false;
}

bool same_amount(const Quantity& a, const Quantity& b) {
    if (a.measure->sort != b.measure->sort) return false;
    if (a.is(Measure::Sort::percent)) return a.count == b.count;
    return sized(a) && sized(b) && a.base() == b.base();
}

} // namespace

/// "Stir the whole 30 g into the 600 ml": what the list has already.
void Method::explain_listed(Sentence& s) const {
    for (std::size_t i = 0; i < s.pieces.size(); ++i) {
        const Piece& piece = s.pieces[i];
        if (!piece.is.any({Concept::mass, Concept::volume, Concept::percent}) ||
            piece.is.any(Concept::bare_measure) || piece.quantity.measure == nullptr)
            continue;
        const bool again = std::any_of(listed_.begin(), listed_.end(), [&](const Listed& one) {
            return same_amount(one.amount, piece.quantity) && !names_another_role(s, i, one.role);
        });
        if (again) s.mark(i, Concept::explained);
    }
}

/// What a row has taken account of need not be explained again.
void Method::explain(Sentence& s, const Match& found) {
    for (std::size_t i = found.first; i <= found.last; ++i)
        s.mark(i, Concept::explained);
}

/// False if it is none after all.
bool Method::handle(const Pattern& row, const Match& found, Sentence& s) {
    const std::string text(beginning(s.text(), 300));
    switch (row.event) {
    case Event::for_one:
        if (!s.pieces[found.at('x')].is.any(Concept::goal)) for_one_ = text;
        break;
    case Event::many:
        many_ = true;
        break;
    case Event::rinsed:
        account_.rinsed = true;
        break;
    case Event::put_back:
        squeezed_.clear();
        break;
    case Event::squeezed:
        squeezed_ = text;
        poured_ = true;
        break;
    case Event::may_be_poured:
        early_ = text;
        break;
    case Event::rest_follows:
        part_.clear();
        break;
    case Event::part_used:
        part_ = text;
        break;
    case Event::amount_again:
        if (find(Event::salt_factor, s) || (found.has('s') && names_another(s, found.at('s'))))
            return false;
        [[fallthrough]];
    case Event::salt_again:
    case Event::rest_likewise:
        if (account_.again.empty()) account_.again = text;
        break;
    case Event::part_salted:
        next_.add(Concept::part_salted);
        s.say(Concept::part_salted);
        break;
    case Event::whole_salt:
        next_.add(Concept::whole_salt);
        break;
    case Event::brine_made:
        next_.add(Concept::brined);
        break;
    case Event::salted:
        next_.add(Concept::salted);
        break;
    case Event::plain_water:
        next_.add(Concept::in_water);
        break;
    case Event::not_yet_salted:
        early_.clear();
        break;
    default:
        poured_ = poured_ || row.event == Event::poured;
        account_.deeds.push_back(deed_of(row.event, text));
    }
    return true;
}

/// Where the method stands after a sentence.
void Method::settle(const Sentence& s) {
    if (s.has(Concept::acid)) (state_.any(Concept::fermented) ? late_acid_ : early_acid_) = true;
    // Water that is poured off was no bath.
    if (poured_) next_.remove(Concept::in_water);
    if (next_.any(Concept::salted))
        state_.remove({Concept::raw, Concept::brined});
    else if (next_.any(Concept::brined) && state_.any(Concept::raw))
        state_.remove(Concept::raw);
    else
        next_.remove({Concept::brined});
    if (state_.any(Concept::salted)) next_.remove(Concept::brined);
    state_.remove(Concept::spoke_of_salt);
    state_ = state_ | next_;
    if (s.has({Concept::salty, Concept::brine})) state_.add(Concept::spoke_of_salt);
    // "Ready in: 3 weeks" above the method, or "it takes four weeks", tells no time that has
    // passed.
    constexpr Concepts waiting{Concept::after, Concept::wait,  Concept::leave,
                               Concept::store, Concept::bring, Concept::stand,
                               Concept::put,   Concept::until, Concept::ferment};
    const bool many_days = std::any_of(s.pieces.begin(), s.pieces.end(), [](const Piece& p) {
        constexpr double fewest = 7; // a bath or a press takes fewer; ours
        return p.is.any(Concept::days) && p.quantity.count.low >= fewest;
    });
    const bool sours = ((s.has(Concept::much_later) || many_days) && s.has(waiting)) ||
                       (s.has(Concept::days) && s.has({Concept::store, Concept::taste}));
    constexpr Concepts work{Concept::mix, Concept::layer, Concept::squeeze,
                            Concept::put, Concept::salty, Concept::brine};
    // "Press it into a crock and leave it for four weeks": both in one.
    constexpr Concepts left{Concept::leave, Concept::store, Concept::wait, Concept::stand,
                            Concept::ferment};
    const bool in_salt = !state_.any(Concept::raw) || s.has(Concept::salty);
    const bool worked = worked_ || (in_salt && s.has(work) && s.has(left));
    if (worked && (s.has(Concept::much_later) || many_days)) state_.add(Concept::waited);
    // What comes behind "To can:" is done to what is ready.
    if (state_.any(Concept::waited) && s.has(Concept::putting_up)) state_.add(Concept::put_up);
    if (sours && worked && !s.has({Concept::before, Concept::conditional}))
        state_.add(Concept::fermented);
    worked_ = worked_ || s.has(work);
}

Account Method::account() const {
    Account out = account_;
    const auto pending = [&](const std::string& sentence, Event event) {
        if (!sentence.empty()) out.deeds.push_back(deed_of(event, sentence));
    };
    pending(squeezed_, Event::poured);
    // A method that never says when it is salted: it may be by then.
    if (state_.any(Concept::raw)) pending(early_, Event::poured);
    pending(part_, Event::part_used);
    if (many_) pending(for_one_, Event::for_one);
    out.late_acid = late_acid_ && !early_acid_;
    return out;
}

} // namespace jarful::appraise
