#include "engine/units/scan.hpp"

#include <array>
#include <cmath>

namespace jarful::units {

namespace {

using Kind = ReadFault::Kind;
using scan::skip_blanks;

/// `2 lb 3 oz`, `2..`'s 2, `½ cup`: numbers with at most one unit each.
struct Part {
    NumberText number;
    std::optional<CompoundUnit> unit;
};

struct Side {
    static constexpr std::size_t capacity = 4;
    std::array<Part, capacity> parts;
    std::size_t count = 0;
    std::size_t begin = 0;
    std::size_t end = 0;

    [[nodiscard]] const Part& last() const { return parts[count - 1]; }
    [[nodiscard]] bool has_unit() const { return last().unit.has_value(); }
    [[nodiscard]] CompoundUnit unit() const { return last().unit.value_or(CompoundUnit{}); }
    /// A compound unit that was read has its exponents in bounds.
    [[nodiscard]] Dimension dimension() const { return unit().dimension().value_or(Dimension{}); }

    [[nodiscard]] std::optional<UnitId> temperature() const {
        const auto id = unit().single();
        return id && units::unit(*id).dimension == dim::temperature ? id : std::nullopt;
    }
    /// In base units, without a temperature's offset.
    [[nodiscard]] double difference(Spoons spoons = Spoons::unstated) const {
        double sum = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const Part& p = parts[i];
            sum += p.unit ? p.unit->to_base(p.number.value, spoons) : p.number.value;
        }
        return sum;
    }
    [[nodiscard]] double value(Spoons spoons = Spoons::unstated) const {
        const auto id = temperature();
        return id ? to_kelvin(*id, last().number.value) : difference(spoons);
    }
    [[nodiscard]] std::optional<UnitId> bare_measure() const {
        for (std::size_t i = count; i > 0; --i) {
            const auto& u = parts[i - 1].unit;
            if (const auto id = u ? u->bare_measure() : std::nullopt) {
                return id;
            }
        }
        return std::nullopt;
    }
    [[nodiscard]] bool fraction() const { return last().number.fraction; }
};

double middle(double low, double high) {
    return low + (high - low) / 2;
}

class AmountReader {
  public:
    AmountReader(std::string_view text, ReadFault* fault)
        : text_(text)
        , fault_(fault) {}

    std::optional<Amount> read(std::size_t& length) {
        if (!side(low_, skip_blanks(text_, 0)) || !range() || !tolerance()) {
            return std::nullopt;
        }
        length = end_;
        return amount();
    }

  private:
    std::string_view text_;
    ReadFault* fault_;
    Side low_;
    std::optional<Side> upper_; ///< of a range
    std::optional<Side> tolerance_;
    std::size_t end_ = 0;

    std::nullopt_t refuse(Kind kind, std::size_t begin, std::size_t end, std::string message,
                          std::string advice) {
        scan::report(fault_, kind, begin, end, std::move(message), std::move(advice));
        return std::nullopt;
    }

    std::string quoted(std::size_t begin, std::size_t end) const {
        return "`" + std::string(text_.substr(begin, end - begin)) + "`";
    }
    std::string words(const Side& s) const {
        return std::string(text_.substr(s.begin, s.end - s.begin));
    }

    std::optional<NumberText> number(std::size_t at) {
        auto result = read_number(text_.substr(at), fault_);
        if (!result && fault_ != nullptr) {
            fault_->begin += at;
            fault_->end += at;
        }
        return result;
    }

    /// The unit after a number, blanks before it allowed; moves `at` behind it.
    std::optional<CompoundUnit> unit_after(std::size_t& at) const {
        const std::size_t begin = skip_blanks(text_, at);
        const auto result = read_unit_prefix(text_.substr(begin));
        // `min` before a parenthesis is the function.
        if (!result || text_.substr(begin, 4) == "min(") {
            return glued_unit(begin, at);
        }
        at = begin + result->length;
        return result->unit;
    }

    /// `lb` of `2lb3oz`, which looks like a word with a digit in it: a unit only if what follows is
    /// a number and a unit again.
    std::optional<CompoundUnit> glued_unit(std::size_t begin, std::size_t& at) const {
        const std::size_t digit = text_.find_first_of("0123456789", begin);
        if (digit == std::string_view::npos || digit > scan::skip_word(text_, begin)) {
            return std::nullopt;
        }
        const auto id = find_unit(text_.substr(begin, digit - begin));
        const auto next = id ? read_number(text_.substr(digit)) : std::nullopt;
        if (!next) {
            return std::nullopt;
        }
        std::size_t after = digit + next->length;
        if (!unit_after(after)) {
            return std::nullopt;
        }
        at = digit;
        return CompoundUnit::of(*id);
    }

    bool side(Side& result, std::size_t begin) {
        result.begin = begin;
        const auto first = number(begin);
        if (!first) {
            return false;
        }
        std::size_t at = begin + first->length;
        result.parts[0] = {*first, unit_after(at)};
        result.count = 1;
        result.end = at;
        return further_parts(result);
    }

    /// The upper end of a range, or the one value.
    [[nodiscard]] const Side& high() const { return upper_ ? *upper_ : low_; }

    /// Whether a number with this unit can be followed by a smaller part.
    static bool divisible(const std::optional<CompoundUnit>& unit) {
        const auto id = unit ? unit->single() : std::nullopt;
        return id && !units::unit(*id).percent && units::unit(*id).dimension != dim::temperature;
    }

    bool further_parts(Side& side) {
        while (divisible(side.last().unit)) {
            const std::size_t begin = skip_blanks(text_, side.end);
            if (!scan::number_at(text_, begin)) {
                return true;
            }
            const auto next = number(begin);
            if (!next) {
                return false;
            }
            std::size_t at = begin + next->length;
            const auto unit = unit_after(at);
            if (!unit) {
                return true; // the caller's: a number without a unit is no part
            }
            if (!fits(side, *unit, begin, at)) {
                return false;
            }
            side.parts[side.count++] = {*next, unit};
            side.end = at;
        }
        return true;
    }

    bool fits(const Side& side, const CompoundUnit& unit, std::size_t begin, std::size_t end) {
        const Part& before = side.last();
        if (unit.dimension() != before.unit->dimension() || !divisible(unit)) {
            refuse(Kind::unit_mismatch, side.begin, end,
                   quoted(begin, end) + " cannot be a part of " + words(side) + ".",
                   "Write parts of one amount in units of one kind, such as 2 lb 3 oz.");
            return false;
        }
        if (unit.factor() >= before.unit->factor()) {
            refuse(Kind::unit_order, side.begin, end,
                   "The parts of " + quoted(side.begin, end) + " do not become smaller.",
                   "Write the larger unit first, such as 2 lb 3 oz.");
            return false;
        }
        if (!before.number.whole) {
            refuse(Kind::unit_order, side.begin, end,
                   "Only the last part of " + quoted(side.begin, end) + " can have a fraction.",
                   "Write a whole number of " + before.unit->text() +
                       ", or the amount in one unit.");
            return false;
        }
        if (side.count == Side::capacity) {
            refuse(Kind::left_over, begin, end, "An amount has at most four parts.", "");
            return false;
        }
        return true;
    }

    /// Reads `.. side` if it stands there.
    bool range() {
        end_ = low_.end;
        const std::size_t dots = skip_blanks(text_, end_);
        if (text_.substr(dots, 2) != ".." || text_.substr(dots, 3) == "...") {
            return true;
        }
        if (!side(upper_.emplace(), skip_blanks(text_, dots + 2))) {
            return false;
        }
        end_ = upper_->end;
        return share_unit() && in_order();
    }

    bool share_unit() {
        if (low_.has_unit() && !high().has_unit()) {
            refuse(Kind::missing_unit, high().begin, high().end,
                   "The upper end of the range has no unit.",
                   "Write " + words(low_) + ".." + words(high()) + " " + low_.unit().text() + ".");
            return false;
        }
        if (!low_.has_unit() && high().has_unit()) {
            if (high().count > 1) {
                refuse(Kind::missing_unit, low_.begin, low_.end,
                       "The lower end of the range has no unit, and the upper has several.",
                       "Write the units at both ends.");
                return false;
            }
            low_.parts[0].unit = high().unit();
        }
        if (low_.dimension() != high().dimension()) {
            refuse(Kind::unit_mismatch, low_.begin, high().end,
                   "One end of the range is " + describe(low_.dimension()) + ", the other " +
                       describe(high().dimension()) + ".",
                   "Write both ends in units of one kind.");
            return false;
        }
        return true;
    }

    bool in_order() {
        if (low_.value() > high().value()) {
            refuse(Kind::reversed_range, low_.begin, high().end,
                   "The range " + quoted(low_.begin, high().end) + " runs backwards.",
                   "Write the smaller amount first.");
            return false;
        }
        return true;
    }

    /// Reads `± side` if it stands there.
    bool tolerance() {
        const std::size_t sign = skip_blanks(text_, end_);
        std::size_t after = sign;
        if (scan::code_point(text_, sign).value == 0xB1) {
            after += scan::code_point(text_, sign).length;
        } else if (text_.substr(sign, 3) == "+/-") {
            after += 3;
        } else {
            return true;
        }
        if (!side(tolerance_.emplace(), skip_blanks(text_, after))) {
            return false;
        }
        end_ = tolerance_->end;
        return tolerance_fits();
    }

    bool tolerance_fits() {
        const Side& t = *tolerance_;
        if (t.has_unit() && !high().has_unit()) {
            const std::string u = t.unit().text();
            refuse(Kind::missing_unit, low_.begin, high().end,
                   "The ± has a unit and the amount before it has none.",
                   "Write " + words(high()) + " " + u + " ± " + words(t) + ".");
            return false;
        }
        if (!t.has_unit() && high().has_unit()) {
            refuse(Kind::missing_unit, t.begin, t.end, "The ± has no unit.",
                   "Write ± " + words(t) + " " + high().unit().text() + ", or ± " + words(t) +
                       " % for percent of the amount.");
            return false;
        }
        if (relative() && high().temperature()) {
            refuse(Kind::unit_mismatch, low_.begin, t.end,
                   "A temperature has no percent: its zero is only a convention.",
                   "Write the ± in °C or °F.");
            return false;
        }
        if (!relative() && t.dimension() != high().dimension()) {
            refuse(Kind::unit_mismatch, low_.begin, t.end,
                   "The amount is " + describe(high().dimension()) + ", and its ± " +
                       describe(t.dimension()) + ".",
                   "Write the ± in units of the same kind, or in %.");
            return false;
        }
        return true;
    }

    [[nodiscard]] bool relative() const {
        return tolerance_ && tolerance_->unit().percent() && !high().unit().percent();
    }

    [[nodiscard]] Amount::Measured measured(Spoons spoons) const {
        Amount::Measured m;
        m.low = low_.value(spoons);
        m.high = upper_ ? upper_->value(spoons) : m.low;
        m.value = upper_ ? middle(m.low, m.high) : m.low;
        if (tolerance_) {
            const double t = tolerance_->difference(spoons);
            m.low -= relative() ? m.low * t : t;
            m.high += relative() ? m.high * t : t;
        }
        return m;
    }

    [[nodiscard]] Amount amount() const {
        Amount a;
        const Amount::Measured us = measured(Spoons::unstated);
        a.value = us.value;
        a.low = us.low;
        a.high = us.high;
        a.dimension = high().dimension();
        a.unit = high().unit();
        a.percent = high().unit().percent();
        a.plain_number = !high().has_unit();
        a.fraction = low_.fraction() || high().fraction();
        a.range = upper_.has_value();
        a.uncertain = tolerance_.has_value();
        if (high().temperature()) {
            a.temperature_point = true;
            a.difference = middle(low_.difference(), high().difference());
        }
        a.bare_measure = high().bare_measure() ? high().bare_measure() : low_.bare_measure();
        if (!a.bare_measure && tolerance_) {
            a.bare_measure = tolerance_->bare_measure();
        }
        // Whose spoons they are matters to spoons alone.
        a.metric = a.bare_measure ? measured(Spoons::metric) : us;
        a.imperial = a.bare_measure ? measured(Spoons::imperial) : us;
        return a;
    }
};

/// Says what is wrong with what stands after a whole amount.
class LeftOver {
  public:
    LeftOver(std::string_view text, std::size_t amount_end, const Amount& amount)
        : text_(text)
        , begin_(skip_blanks(text, amount_end))
        , amount_end_(amount_end)
        , amount_(amount) {}

    void report(ReadFault* fault) const {
        if (begin_ == amount_end_ && amount_.unit.size != 0 &&
            (text_[begin_] == '/' || text_[begin_] == '*') && word_at(begin_ + 1)) {
            return unknown_unit(fault, begin_ + 1);
        }
        if (const std::size_t after = separator(); after != 0) {
            return scan::report(fault, Kind::hyphen_range, 0, text_.size(),
                                quoted(0, text_.size()) + " could be a range or something else.",
                                "Write a range with two points, such as 2..3 tbsp.");
        }
        if (amount_.plain_number && !amount_.uncertain && word_at(begin_) && !joining_word()) {
            return unknown_unit(fault, begin_);
        }
        scan::report(fault, Kind::left_over, begin_, text_.size(),
                     quoted(begin_, text_.size()) + " is left over after the amount.",
                     "Write a number with its unit, and nothing after it.");
    }

  private:
    std::string_view text_;
    std::size_t begin_;
    std::size_t amount_end_;
    const Amount& amount_;

    std::string quoted(std::size_t begin, std::size_t end) const {
        return "`" + std::string(text_.substr(begin, end - begin)) + "`";
    }
    bool word_at(std::size_t at) const { return scan::skip_word(text_, at) != at; }
    std::string_view word() const {
        return text_.substr(begin_, scan::skip_word(text_, begin_) - begin_);
    }
    bool joining_word() const {
        for (std::string_view w : {"of", "per", "each", "to", "and", "from"}) {
            if (word() == w) {
                return true;
            }
        }
        return false;
    }

    /// Where the second number after `-` or `to` begins; 0 if it is not that.
    std::size_t separator() const {
        const std::size_t dash = scan::dash_at(text_, begin_);
        const std::size_t after = dash != 0        ? begin_ + dash
                                  : word() == "to" ? begin_ + 2
                                                   : std::size_t{0};
        const std::size_t second = after != 0 ? skip_blanks(text_, after) : 0;
        return second != 0 && scan::number_at(text_, second) ? second : 0;
    }

    void unknown_unit(ReadFault* fault, std::size_t begin) const {
        const std::size_t end = scan::skip_word(text_, begin);
        const std::string_view name = text_.substr(begin, end - begin);
        std::string advice;
        if (const auto nearest = nearest_unit(name)) {
            advice = "Did you mean " + std::string(*nearest) + "?";
        } else if ((name.front() == 'e' || name.front() == 'E') && begin == amount_end_ &&
                   (name.size() == 1 || scan::digit_at(name, 1))) {
            advice = "Write the number out, without powers of ten.";
        }
        scan::report(fault, Kind::unknown_unit, begin, end, quoted(begin, end) + " is not a unit.",
                     std::move(advice));
    }
};

} // namespace

Amount Amount::in_spoons(Spoons spoons) const {
    Amount result = *this;
    if (spoons == Spoons::metric || spoons == Spoons::imperial) {
        const Measured& m = spoons == Spoons::metric ? metric : imperial;
        result.value = m.value;
        result.low = m.low;
        result.high = m.high;
    }
    return result;
}

std::optional<Amount> read_amount_prefix(std::string_view text, std::size_t& length,
                                         ReadFault* fault) {
    length = 0;
    return AmountReader(text, fault).read(length);
}

std::optional<Amount> read_amount(std::string_view text, ReadFault* fault) {
    std::size_t length = 0;
    const auto amount = read_amount_prefix(text, length, fault);
    if (amount && skip_blanks(text, length) != text.size()) {
        LeftOver(text, length, *amount).report(fault);
        return std::nullopt;
    }
    return amount;
}

} // namespace jarful::units
