#include "engine/kitchen/reading.hpp"
#include "engine/plan/entering.hpp"
#include "engine/plan/entering_advice.hpp"
#include "engine/plan/measured.hpp"
#include "engine/units/nearest.hpp"

#include <boost/math/tools/roots.hpp>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

// Questions asked backwards. All givens that may move keep their proportions: one factor is looked
// for. Where the answer depends on it in a straight line, and nearly every recipe does, it is
// exact; otherwise every change of sign over eight decades is bracketed and refined.

namespace jarful::plan {

using language::QuantityWord;

namespace {

constexpr double smallest_factor = 1e-4;
constexpr double largest_factor = 1e4;
constexpr int scan_points = 800;

bool close(double a, double b) {
    return std::fabs(a - b) <= 1e-9 * std::max({1e-9, std::fabs(a), std::fabs(b)});
}

} // namespace

std::vector<Entering::Mover> Entering::movers() {
    std::vector<Mover> all;
    for (const language::Line& line : model_.document->lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q == nullptr || (q->word != QuantityWord::given && q->word != QuantityWord::total))
            continue;
        const std::string& name = q->name.value;
        if (!request_.moving.empty() && name != request_.moving) continue;
        const auto cell = model_.sheet->find(name);
        if (!cell || model_.sheet->entered(*cell)) continue; // set, or left out
        if (changes_the_past(model_, *cell)) continue;       // a bath that is poured off already
        all.push_back({name, *cell, model_.find_entry(name), model_.sheet->value(*cell)});
    }
    return all;
}

void Entering::unknown_mover() {
    std::vector<std::string_view> names;
    for (const language::Line& line : model_.document->lines) {
        const auto* q = std::get_if<language::Quantity>(&line.statement);
        if (q != nullptr && (q->word == QuantityWord::given || q->word == QuantityWord::total))
            names.push_back(q->name.value);
    }
    const auto near = units::nearest(request_.moving, names);
    findings_.moving.fault("unknown-name", {},
                           fmt::format("The recipe has nothing called \"{}\".", request_.moving),
                           near ? fmt::format("Did you mean \"{}\"?", *near)
                                : "Only a `given` or a `total` can move.");
}

void Entering::nothing_to_move(const Ask& ask) {
    const Setting& s = request_.settings[ask.setting];
    language::Findings& findings = findings_.settings[ask.setting];
    std::string set;
    std::string words;
    for (const Setting& other : request_.settings) {
        const language::Quantity* q = quantity(other.name);
        if (q == nullptr || (q->word != QuantityWord::given && q->word != QuantityWord::total))
            continue;
        double grams = 0;
        for (const units::Amount& part : other.parts)
            grams += part.value;
        set += fmt::format("{}{} = {}", set.empty() ? "" : " and ", other.name,
                           units::print_mass(grams, model_.shown()));
        words += fmt::format("{}`{}`", words.empty() ? "" : " and ", other.name);
    }
    const auto entry = model_.find_entry(s.name);
    const bool weight = entry && model_.entries[*entry].word != QuantityWord::count;
    if (!weight || set.empty()) {
        findings.fault(
            "nothing-to-move", s.name_place,
            fmt::format("{} is asked for, but nothing is left that could move.", ask.text),
            set.empty() ? "A question is answered by a `given` or a `total` that is not set."
                        : fmt::format("Leave out {}, to ask what {} needs.", words, ask.text));
        return;
    }
    const Overdetermined both = asked_and_set(model_, model_.entries[*entry].cell, ask.target);
    const std::string amount = units::print_mass(ask.target, model_.shown());
    findings.fault(
        "nothing-to-move", s.name_place,
        fmt::format("{} is asked for, and {} is set: that needs {} of {}.{}", ask.text, set,
                    both.needed, s.name,
                    both.share.empty()
                        ? std::string()
                        : fmt::format(" With {} of it the salt would be {}, where the recipe has "
                                      "{}.",
                                      amount, both.share, both.usual)),
        fmt::format("Leave out {} to ask for the batch that {} of {} is enough for. What went in "
                    "already is said with `--poured {}={}`.",
                    words, amount, s.name, s.name,
                    amount.substr(0, amount.find(' ')) + amount.substr(amount.find(' ') + 1)));
}

double Entering::at(const Ask& ask, const std::vector<Mover>& movers, double factor) {
    for (const Mover& m : movers)
        model_.sheet->set(m.cell, m.value * factor);
    if (share_ && !season()) return std::numeric_limits<double>::quiet_NaN();
    return model_.sheet->value(ask.formula);
}

void Entering::answer_question() {
    const Ask& ask = asks_.front();
    language::Findings& findings = findings_.settings[ask.setting];
    const language::Place place = request_.settings[ask.setting].value_place;
    if (asks_.size() > 1) {
        language::Findings& second = findings_.settings[asks_[1].setting];
        second.fault(
            "asked-too-much", request_.settings[asks_[1].setting].name_place,
            fmt::format("Two things are asked for at once: {}, and {}.", ask.text, asks_[1].text),
            "One batch can answer one of them; leave the other out.");
        return;
    }
    const auto asked = model_.find_entry(request_.settings[ask.setting].name);
    if (asked && model_.entries[*asked].over) {
        findings.fault("bath-over", request_.settings[ask.setting].name_place,
                       fmt::format("{} is asked for, but \"{}\" is poured off already: what was "
                                   "in it was weighed after it.",
                                   ask.text, request_.settings[ask.setting].name),
                       "Say what really went in with --poured.");
        return;
    }
    const std::vector<Mover> moving = movers();
    if (moving.empty()) {
        if (!request_.moving.empty() && quantity(request_.moving) == nullptr)
            unknown_mover();
        else
            nothing_to_move(ask);
        return;
    }
    const auto factor = solve(ask, moving);
    for (const Mover& m : moving)
        model_.sheet->clear(m.cell);
    if (!factor) {
        double low = std::numeric_limits<double>::infinity();
        double high = -low;
        for (int i = 0; i <= scan_points; ++i) {
            const double f = smallest_factor *
                             std::pow(largest_factor / smallest_factor, i / double(scan_points));
            const double v = at(ask, moving, f);
            if (!std::isfinite(v)) continue;
            low = std::min(low, v);
            high = std::max(high, v);
        }
        for (const Mover& m : moving)
            model_.sheet->clear(m.cell);
        const bool fixed = close(low, high);
        const units::Dimension d = ask.not_above
                                       ? units::dim::volume
                                       : model_.sheet->cell(ask.formula.steps[0].a).type.dimension;
        findings.fault("no-answer", place,
                       fixed ? fmt::format("It is {} whatever the batch is.",
                                           units::print_value(low, d, model_.shown()))
                             : fmt::format("No batch makes it so: from {} to {} can be reached, "
                                           "and not all between.",
                                           units::print_value(low, d, model_.shown()),
                                           units::print_value(high, d, model_.shown())),
                       "Ask for something that depends on the batch.");
        return;
    }
    settle_on(ask, moving, *factor);
}

std::optional<double> Entering::solve(const Ask& ask, const std::vector<Mover>& moving) {
    // A straight line through two points, if a third and a fourth lie on it.
    const double one = at(ask, moving, 1);
    const double two = at(ask, moving, 2);
    const double slope = two - one;
    if (std::isfinite(one) && std::isfinite(two) && slope != 0) {
        const double factor = 1 + (ask.target - one) / slope;
        const bool straight = close(at(ask, moving, 3), one + 2 * slope) &&
                              close(at(ask, moving, 0.25), one - 0.75 * slope);
        if (straight && factor > 0 && close(at(ask, moving, factor), ask.target)) return factor;
        if (straight && factor <= 0) return std::nullopt;
    }
    std::vector<double> found;
    const auto distance = [&](double f) { return at(ask, moving, f) - ask.target; };
    double before_f = 0;
    double before = std::numeric_limits<double>::quiet_NaN();
    for (int i = 0; i <= scan_points; ++i) {
        const double f =
            smallest_factor * std::pow(largest_factor / smallest_factor, i / double(scan_points));
        const double d = distance(f);
        if (d == 0) {
            found.push_back(f);
        } else if (std::isfinite(before) && std::isfinite(d) && before != 0 &&
                   (before < 0) != (d < 0)) {
            // That there is a change of sign is seen to above, so nothing has to be said about its
            // lack; saying it would bring the library of streams into a page.
            using boost::math::policies::ignore_error;
            const boost::math::policies::policy<
                boost::math::policies::domain_error<ignore_error>,
                boost::math::policies::evaluation_error<ignore_error>>
                silent;
            std::uintmax_t most = 200;
            const auto bracket = boost::math::tools::toms748_solve(
                distance, before_f, f, before, d, boost::math::tools::eps_tolerance<double>(50),
                most, silent);
            const double middle = (bracket.first + bracket.second) / 2;
            // A change of sign at a jump is no answer.
            if (std::fabs(distance(middle)) <= 1e-6 * std::max(1e-6, std::fabs(ask.target)))
                found.push_back(middle);
        }
        before_f = f;
        before = d;
    }
    if (found.empty()) return std::nullopt;
    const auto nearest = std::min_element(found.begin(), found.end(), [](double a, double b) {
        return std::fabs(std::log(a)) < std::fabs(std::log(b));
    });
    for (double f : found)
        if (f != *nearest && other_factors_.size() < 5) other_factors_.push_back(f);
    return *nearest;
}

void Entering::settle_on(const Ask& ask, const std::vector<Mover>& moving, double factor) {
    Answer answer;
    answer.asked = ask.text;
    for (const Mover& m : moving) {
        const double exact = m.value * factor;
        Answer::Moved moved{m.name, exact, exact};
        if (m.entry) {
            // It will be weighed out: from here on it is what the scale can show. A little less
            // rather than a little more where a jar is to be filled.
            const std::size_t scale = kitchen::best_scale(kitchen_, exact);
            const double step = kitchen_.scales[scale].step_g;
            double shown = kitchen::round_to_step(exact, step);
            if (ask.not_above && shown > exact * (1 + 1e-12))
                shown = kitchen::multiple_of_step(std::floor(exact / step + 1e-9), step);
            if (shown <= 0) shown = exact;
            moved.entered_g = shown;
            const kitchen::Reading r = kitchen::read_on(kitchen_, scale, shown);
            const double error = r.truth.high - r.total_g;
            units::Interval bounds = units::Interval(shown) + units::Interval(-error, error);
            bounds.low = std::max(0.0, bounds.low);
            Entry& e = model_.entries[*m.entry];
            e.entered = Entry::Entered{shown, bounds, true};
            e.solved = true;
            model_.sheet->set(m.cell, shown, bounds);
        } else {
            model_.sheet->set(m.cell, exact);
        }
        answer.moved.push_back(std::move(moved));
    }
    for (double f : other_factors_)
        answer.others_g.push_back(moving.front().value * f);
    entered_.answer = std::move(answer);
}

} // namespace jarful::plan
