#include "engine/larder/brine_mix.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>

// The words of a question about brine.

namespace jarful::larder {

using language::Findings;
using language::Place;

namespace {

Place place(std::size_t begin, std::size_t end) {
    return {static_cast<std::uint32_t>(begin),
            static_cast<std::uint32_t>(std::max(end, begin + 1))};
}

constexpr std::string_view how_to_ask =
    "Ask as in `1.5 L at 3.5 %`, `2 L of water at 5 %`, `1 L from 5 % to 2 %` or `40 salometer`.";
constexpr std::string_view strengths =
    "Write it as in `5 %`, `5 % of water`, `50 g/L`, `40 salometer`, `5 baume` or `1.036 sg`.";

class Reader {
  public:
    Reader(std::string_view text, Findings& findings)
        : text_(text)
        , findings_(findings) {
        skip();
    }

    [[nodiscard]] std::size_t at() const { return at_; }
    [[nodiscard]] bool done() const { return at_ == text_.size(); }
    [[nodiscard]] std::string_view rest() const { return text_.substr(at_); }

    /// What was read so far, with the blank behind it.
    [[nodiscard]] std::string_view passed() const { return text_.substr(0, at_); }
    [[nodiscard]] bool at_a_number() const {
        const auto number = units::read_number(rest());
        return number && number->length > 0;
    }

    /// The next word, up to a blank.
    [[nodiscard]] std::string_view word() const { return rest().substr(0, rest().find(' ')); }

    bool take(std::string_view wanted) {
        if (lower(word()) != wanted) return false;
        pass(word().size());
        return true;
    }

    void back_to(std::size_t at) { at_ = at; }

    void pass(std::size_t length) {
        at_ += length;
        skip();
    }

    /// `of water` or `of brine`; true is water.
    std::optional<bool> basis() {
        const std::size_t before = at_;
        const bool of = take("of");
        if (of) (void)take("the");
        if (of) (void)take("finished");
        if (take("water")) return true;
        if (take("brine")) return false;
        at_ = before;
        return std::nullopt;
    }

    std::nullopt_t fault(std::string code, std::size_t begin, std::string message,
                         std::string_view advice) {
        std::optional<Place> where;
        if (!text_.empty()) where = place(std::min(begin, text_.size()), text_.size());
        findings_.fault(std::move(code), where, std::move(message), std::string(advice));
        return std::nullopt;
    }

    static std::string lower(std::string_view word) {
        std::string out(word);
        std::transform(out.begin(), out.end(), out.begin(),
                       [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
        return out;
    }

    /// A mass or a volume; empty, without a fault, if what stands here is none.
    std::optional<units::Amount> amount() {
        std::size_t length = 0;
        auto read = units::read_amount_prefix(rest(), length);
        if (!read || length == 0) return std::nullopt;
        if (read->dimension != units::dim::mass && read->dimension != units::dim::volume)
            return std::nullopt;
        pass(length);
        return read;
    }

    /// The length of one number with the unit of a mass or a volume; 0 if none stands here.
    [[nodiscard]] std::size_t one_amount() const {
        const auto number = units::read_number(rest());
        if (!number || number->length == 0) return 0;
        const std::size_t at = rest().find_first_not_of(' ', number->length);
        if (at == std::string_view::npos) return 0;
        const auto unit = units::read_unit_prefix(rest().substr(at));
        const auto dimension = unit ? unit->unit.dimension() : std::nullopt;
        const bool amount =
            dimension && (*dimension == units::dim::mass || *dimension == units::dim::volume);
        return amount ? at + unit->length : 0;
    }

    std::optional<AskedStrength> strength(double celsius) {
        const std::size_t begin = at_;
        AskedStrength asked;
        const bool first = take("sg") || take("specific");
        if (first) (void)take("gravity");
        units::ReadFault wrong;
        const auto number = units::read_number(rest(), &wrong);
        if (!number || number->length == 0) {
            return fault(
                "brine-words", at_, done() ? "A strength is missing here." : "This is no strength.",
                wrong.kind == units::ReadFault::Kind::decimal_comma ? wrong.advice : strengths);
        }
        asked.figure = number->value;
        pass(number->length);
        if (first) {
            asked.gauge = Gauge::specific_gravity;
        } else if (!gauge(asked, begin)) {
            return std::nullopt;
        }
        asked.place = place(begin, at_);
        if (!fraction_by(asked.gauge, asked.figure, celsius)) {
            findings_.fault("brine-strength", asked.place, "No brine has this strength.",
                            too_much(asked.gauge));
            return std::nullopt;
        }
        return asked;
    }

  private:
    void skip() {
        while (at_ < text_.size() && text_[at_] == ' ')
            ++at_;
    }

    static std::string too_much(Gauge gauge) {
        switch (gauge) {
        case Gauge::percent_of_brine:
        case Gauge::percent_of_water:
            return "Of the brine it is less than 100 %; more than 26.395 % does not dissolve.";
        case Gauge::salometer:
            return "A salometer goes from 0, which is water, to 100, which is all that dissolves.";
        case Gauge::g_per_l_of_brine:
        case Gauge::g_per_l_of_water:
            return "A litre of finished brine holds about 317 g at the most. For the salt to a "
                   "litre of water write `of water`.";
        case Gauge::baume:
        case Gauge::specific_gravity:
            break;
        }
        return "Salt water reaches from 1.000 to about 1.204, which is 0 to about 24.6 degrees "
               "Baumé.";
    }

    /// What stands after the number.
    bool gauge(AskedStrength& asked, std::size_t begin) {
        const std::size_t unit_at = at_;
        const std::string word_here = lower(word());
        const auto is = [&](auto... words) { return ((word_here == words) || ...); };
        if (!rest().empty() && rest().front() == '%') {
            pass(1);
            const auto basis_said = basis();
            asked.said = basis_said.has_value();
            asked.gauge =
                basis_said.value_or(false) ? Gauge::percent_of_water : Gauge::percent_of_brine;
            return true;
        }
        if (is("degrees", "degree", "deg", "°")) pass(word().size());
        const std::string name = lower(word());
        const auto named = [&](auto... words) { return ((name == words) || ...); };
        if (named("salometer", "salinometer", "sal", "°s", "°sal")) {
            asked.gauge = Gauge::salometer;
        } else if (named("baume", "baumé", "bé", "be", "°bé", "°be", "°baumé", "°baume")) {
            asked.gauge = Gauge::baume;
        } else if (named("sg", "specific")) {
            asked.gauge = Gauge::specific_gravity;
        } else {
            at_ = unit_at;
            return rate(asked, begin);
        }
        pass(word().size());
        if (name == "specific") (void)take("gravity");
        return true;
    }

    /// `50 g/L`, or another mass per volume.
    bool rate(AskedStrength& asked, std::size_t begin) {
        const auto unit = units::read_unit_prefix(rest());
        const auto dimension = unit ? unit->unit.dimension() : std::nullopt;
        if (!dimension || *dimension != units::dim::density) {
            fault("brine-unit", begin,
                  "A strength needs what it is measured in" +
                      std::string(done() ? "." : ", and this is nothing of the sort."),
                  strengths);
            return false;
        }
        pass(unit->length);
        asked.figure = unit->unit.to_base(asked.figure) * 1000; // g/mL
        const auto basis_said = basis();
        asked.said = basis_said.has_value();
        asked.gauge =
            basis_said.value_or(false) ? Gauge::g_per_l_of_water : Gauge::g_per_l_of_brine;
        return true;
    }

    std::string_view text_;
    std::size_t at_ = 0;
    Findings& findings_;
};

} // namespace

std::optional<BrineQuestion> read_brine_question(std::string_view text,
                                                 std::optional<double> salt_g,
                                                 std::optional<bool> of_water, double celsius,
                                                 Findings& findings) {
    Reader reader(text, findings);
    BrineQuestion q;
    q.salt_g = salt_g;
    q.celsius = celsius;
    if (reader.done() && !salt_g)
        return reader.fault("brine-words", 0, "Nothing is asked.", how_to_ask);
    (void)reader.take("in");
    const std::size_t amount_at = reader.at();
    q.amount = reader.amount();
    if (q.amount) q.amount_of_water = reader.basis().value_or(false);
    if (q.amount && (q.amount->value <= 0 || q.amount->value > 1e6))
        return reader.fault("absurd-amount", amount_at, "Nobody mixes so much.",
                            "Between nothing and 1000 kg; check the number and the unit.");
    // `1 L 3.5 %`: two numbers, which are no amount together.
    if (!q.amount) reader.pass(reader.one_amount());
    if ((reader.at() > amount_at || salt_g) && reader.at_a_number())
        return reader.fault(
            "brine-words", reader.at(), "`at` is missing before the strength.",
            fmt::format("Write it as in `{}at {}`.", reader.passed(), reader.rest()));
    if (!q.amount) reader.back_to(amount_at);
    const bool aim = reader.take("at");
    if (aim || (!q.amount && !reader.done() && reader.word() != "from")) {
        if (!aim && salt_g && reader.word() != "at")
            return reader.fault("brine-words", reader.at(), "This is not understood.", how_to_ask);
        q.at = reader.strength(celsius);
        if (!q.at) return std::nullopt;
    } else if (reader.take("from")) {
        q.from = reader.strength(celsius);
        if (!q.from) return std::nullopt;
        if (!reader.take("to"))
            return reader.fault("brine-words", reader.at(), "To which strength?",
                                "Write it as in `1 L from 5 % to 2 %`.");
        q.at = reader.strength(celsius);
        if (!q.at) return std::nullopt;
        if (q.amount_of_water)
            return reader.fault("brine-words", amount_at, "This is water, and has no strength yet.",
                                "Name the brine that is there: `1 L from 5 % to 2 %`.");
        if (salt_g)
            return reader.fault(
                "brine-words", amount_at,
                "Salt that is to hand, and a brine that is there, are two questions.",
                "Leave out `--salt`: how much is missing is the answer.");
    }
    if (const std::size_t begin = reader.at(); !reader.done()) {
        const std::string_view behind = reader.rest();
        if (q.at && !q.amount && !q.from && !aim && reader.amount() && reader.done())
            return reader.fault(
                "brine-words", begin, "The amount stands before the strength, with `at` between.",
                fmt::format("Write it as in `{} at {}`.", behind,
                            text.substr(0, text.find_last_not_of(' ', begin - 1) + 1)));
        return reader.fault("brine-words", begin, "This is not understood.", how_to_ask);
    }
    if (q.amount && !q.at && !salt_g)
        return reader.fault("brine-words", amount_at, "At which strength?",
                            "Write it as in `1.5 L at 3.5 %`.");
    if (q.amount && q.at && salt_g)
        return reader.fault("brine-words", amount_at,
                            "Salt, amount and strength together leave nothing to be worked out.",
                            "Leave out one of them.");
    if (salt_g && !q.at && !q.amount)
        return reader.fault("brine-words", 0, "At which strength, or in how much water?",
                            "Add `at 3.5 %`, or `in 1 L of water`.");
    if ((q.from || salt_g || q.amount) && q.at && !(q.at->figure > 0))
        return reader.fault("brine-strength", q.at->place.begin, "That is water without salt.",
                            "Ask for a strength above nothing.");
    q.of_water = of_water.value_or(q.amount_of_water);
    q.assumed = !of_water.has_value();
    return q;
}

std::optional<double> read_brine_salt(std::string_view text, Findings& findings) {
    units::ReadFault wrong;
    const auto amount = units::read_amount(text, &wrong);
    if (!amount) {
        findings.fault("bad-amount", place(wrong.begin, wrong.end), wrong.message,
                       wrong.advice.empty() ? "Write it as in `--salt 40g`." : wrong.advice);
        return std::nullopt;
    }
    if (amount->dimension != units::dim::mass) {
        findings.fault("wrong-dimension", place(0, text.size()),
                       "The salt has a weight, and this is none.",
                       "Write it as in `--salt 40g`; `jarful convert` knows what a spoon weighs.");
        return std::nullopt;
    }
    if (amount->value <= 0 || amount->value > 1e6) {
        findings.fault("absurd-amount", place(0, text.size()), "Nobody has so much salt to hand.",
                       "Between nothing and 1000 kg; check the number and the unit.");
        return std::nullopt;
    }
    return amount->value;
}

std::optional<double> read_brine_celsius(std::string_view text, Findings& findings) {
    static constexpr std::array celsius{"°c", "c", "℃", "degc", "°"};
    static constexpr std::array fahrenheit{"°f", "f", "℉", "degf"};
    const auto number = units::read_number(text);
    if (number && number->length > 0) {
        std::string unit = Reader::lower(text.substr(number->length));
        unit.erase(0, std::min(unit.find_first_not_of(' '), unit.size()));
        const auto in = [&](const auto& list) {
            return std::find(list.begin(), list.end(), unit) != list.end();
        };
        std::optional<double> value;
        if (in(celsius)) value = number->value;
        if (in(fahrenheit)) value = (number->value - 32) / 1.8;
        if (value && *value >= 0 && *value <= 30) return value;
        if (value) {
            findings.fault("brine-temperature", place(0, text.size()),
                           "The densities are known from 0 to 30 °C.",
                           "Ask for a temperature between, as in `--at 15C`.");
            return std::nullopt;
        }
    }
    findings.fault("brine-temperature", place(0, text.size()), "This is no temperature.",
                   "Write it as in `--at 15C` or `--at 60F`.");
    return std::nullopt;
}

} // namespace jarful::larder
