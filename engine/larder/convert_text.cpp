#include "engine/larder/convert_text.hpp"

#include "engine/larder/fold.hpp"
#include "engine/larder/spoon_fill.hpp"
#include "engine/units/scan.hpp"

#include <algorithm>
#include <array>

namespace jarful::larder::conversion {

namespace {

using units::ReadFault;

/// Words for amounts that everybody's hand makes differently.
constexpr std::array<std::string_view, 14> sizeless{
    "pinch", "pinches", "dash",  "dashes", "smidgen", "handful", "handfuls",
    "knob",  "drop",    "drops", "splash", "sprig",   "sprigs",  "glug"};

std::string quoted(std::string_view text) {
    constexpr std::size_t enough = 60;
    if (text.size() <= enough) return "`" + std::string(text) + "`";
    // Cut between characters, not within one.
    std::size_t end = enough;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80)
        --end;
    return "`" + std::string(text.substr(0, end)) + "…`";
}

std::string_view code_of(ReadFault::Kind kind) {
    switch (kind) {
    case ReadFault::Kind::unknown_unit:
        return "unknown-unit";
    case ReadFault::Kind::missing_unit:
        return "missing-unit";
    case ReadFault::Kind::unit_mismatch:
    case ReadFault::Kind::unit_order:
        return "dimension";
    case ReadFault::Kind::too_large:
        return "out-of-range";
    default:
        return "amount";
    }
}

/// Words with single blanks between them, control characters taken for blanks.
std::vector<std::string> split(std::string_view text) {
    std::vector<std::string> words(1);
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t after = units::scan::skip_blanks(text, at);
        const auto byte = static_cast<unsigned char>(text[at]);
        if (after > at || byte < 0x20 || byte == 0x7F) {
            if (!words.back().empty()) words.emplace_back();
            at = std::max(after, at + 1);
        } else {
            words.back() += text[at++];
        }
    }
    if (words.back().empty()) words.pop_back();
    return words;
}

/// Whether a number ends a word: a digit or a fraction sign.
bool ends_in_number(std::string_view word) {
    if (word.empty()) return false;
    std::size_t last = word.size() - 1;
    while (last > 0 && (static_cast<unsigned char>(word[last]) & 0xC0) == 0x80)
        --last;
    return units::scan::number_at(word, last);
}

/// "°F" for the spellings of degrees that stand behind a number or after `to`.
std::optional<std::string_view> degrees(std::string_view word) {
    static constexpr std::array<std::string_view, 5> fahrenheit{"F", "f", "Fahrenheit",
                                                                "fahrenheit", "°f"};
    static constexpr std::array<std::string_view, 5> celsius{"C", "Celsius", "celsius",
                                                             "centigrade", "°c"};
    if (std::find(fahrenheit.begin(), fahrenheit.end(), word) != fahrenheit.end()) return "°F";
    if (std::find(celsius.begin(), celsius.end(), word) != celsius.end()) return "°C";
    return std::nullopt;
}

/// "68F" → "68°F": the letter glued to a number.
void spell_degrees(std::string& word) {
    for (const std::string_view letter : {"F", "f", "C"}) {
        if (!word.ends_with(letter)) continue;
        const std::string_view before = std::string_view(word).substr(0, word.size() - 1);
        if (!ends_in_number(before)) continue;
        word = std::string(before) + std::string(*degrees(letter));
        return;
    }
}

/// The spellings that the language does not have and a counter has: `fl oz`, `68 F`, `2 to 3 tbsp`.
std::vector<std::string> everyday(const std::vector<std::string>& words) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        std::string word = words[i];
        const std::string next = i + 1 < words.size() ? words[i + 1] : "";
        if ((word == "fl" || word == "fl." || word == "fluid") &&
            (next == "oz" || next == "oz." || next == "ounce" || next == "ounces")) {
            word = "floz";
            ++i;
        } else if (word == "°" && degrees(next)) {
            word = *degrees(next);
            ++i;
        } else if (word.ends_with("°") && degrees(next)) {
            word.resize(word.size() - std::string_view("°").size());
            word += *degrees(next);
            ++i;
        } else if (!out.empty() && ends_in_number(out.back()) && degrees(word)) {
            word = *degrees(word);
        } else if (word == "to" && !out.empty() && !next.empty() &&
                   units::scan::number_at(next, 0)) {
            word = "..";
        } else {
            spell_degrees(word);
        }
        out.push_back(std::move(word));
    }
    return out;
}

std::string joined(const std::vector<std::string>& words, std::size_t from, std::size_t to) {
    std::string out;
    for (std::size_t i = from; i < to && i < words.size(); ++i) {
        out += (out.empty() ? "" : " ") + words[i];
    }
    // `2 to 3 tbsp` has become `2 .. 3 tbsp`.
    if (const std::size_t dots = out.find(" .. "); dots != std::string::npos) {
        out.replace(dots, 4, "..");
    }
    return out;
}

/// "half a teaspoon", "a tbsp", "a heaped teaspoon": the number that people say.
void say_number(std::vector<std::string>& words) {
    const auto at = [&](std::size_t i) { return i < words.size() ? words[i] : std::string(); };
    const auto article = [&](std::size_t i) { return at(i) == "a" || at(i) == "an"; };
    const auto put = [&](std::string_view number, std::size_t taken) {
        words.erase(words.begin(), words.begin() + static_cast<std::ptrdiff_t>(taken));
        words.insert(words.begin(), std::string(number));
    };
    for (const auto& [name, number] :
         {std::pair<std::string_view, std::string_view>{"half", "1/2"}, {"quarter", "1/4"}}) {
        if (at(0) == name) return put(number, article(1) ? 2 : at(1) == "of" && article(2) ? 3 : 1);
        if (article(0) && at(1) == name) return put(number, 2);
    }
    if (article(0) || at(0) == "one") return put("1", 1);
    if (!words.empty() && spoon_fill(fold(at(0))) && units::find_unit(at(1)))
        words.insert(words.begin(), "1");
}

/// Takes "heaped" out from between a number and its spoon or cup; empty if there is none.
std::string take_fill(std::vector<std::string>& words) {
    for (std::size_t i = 1; i + 1 < words.size() && i < 5; ++i) {
        if (!ends_in_number(words[i - 1]) || !spoon_fill(fold(words[i]))) continue;
        const auto unit = units::find_unit(words[i + 1]);
        if (!unit || units::unit(*unit).dimension != units::dim::volume) return {};
        std::string fill = words[i];
        words.erase(words.begin() + static_cast<std::ptrdiff_t>(i));
        return fill;
    }
    return {};
}

/// An amount as much larger or smaller as the spoon is heaped or scant.
void fill_up(units::Amount& amount, units::Interval fill) {
    const auto times = [&](double& value, double& low, double& high) {
        low *= fill.low;
        high *= fill.high;
        value *= (fill.low + fill.high) / 2;
    };
    times(amount.value, amount.low, amount.high);
    times(amount.metric.value, amount.metric.low, amount.metric.high);
    times(amount.imperial.value, amount.imperial.low, amount.imperial.high);
}

class Reader {
  public:
    Reader(const Larder& larder, ConversionFault& fault)
        : larder_(larder)
        , fault_(fault) {}

    std::optional<Words> read(const ConversionRequest& request) {
        if (request.text.size() > longest_conversion || request.per.size() > longest_conversion) {
            return refuse("too-long", "That is too long for one conversion.",
                          "Write one amount on each line.");
        }
        std::vector<std::string> words = everyday(split(request.text));
        if (words.empty()) {
            return refuse("nothing", "There is nothing to convert.",
                          "Write an amount first, such as `2 tbsp canning salt to g`.");
        }
        Words out;
        if (!target(words, out)) return std::nullopt;
        const auto per = std::find(words.begin(), words.end(), "per");
        const auto at = static_cast<std::size_t>(per - words.begin());
        std::vector<std::string> base = everyday(split(request.per));
        if (per != words.end()) {
            if (!base.empty()) {
                return refuse("per-twice", "What the amount is for is said twice.",
                              "Write `per` in the text, or --per, not both.");
            }
            base.assign(per + 1, words.end());
            if (base.empty()) {
                return refuse("nothing", "Nothing stands after `per`.",
                              "Write an amount there, such as `per 5 lb`.");
            }
        }
        words.resize(at);
        const auto what = portion(std::move(words));
        if (!what) return std::nullopt;
        out.what = *what;
        if (base.empty()) return out;
        say_number(base);
        if (!units::scan::number_at(base.front(), 0)) base.insert(base.begin(), "1");
        out.per = portion(std::move(base));
        if (!out.per) return std::nullopt;
        return out;
    }

  private:
    const Larder& larder_;
    ConversionFault& fault_;

    std::nullopt_t refuse(std::string_view code, std::string message, std::string advice) {
        fault_ = {std::string(code), std::move(message), std::move(advice), {}};
        return std::nullopt;
    }

    std::nullopt_t unknown_unit(std::string_view word) {
        std::string advice = "Units are those of the language: g, kg, oz, lb, mL, L, tsp, tbsp, "
                             "cup, floz, pint, quart, gallon, %, °C, °F and others.";
        if (const auto near = units::nearest_unit(word)) {
            advice = "Did you mean " + std::string(*near) + "?";
        }
        return refuse("unknown-unit", quoted(word) + " is not a unit.", std::move(advice));
    }

    /// Takes `to UNIT` off the end; false if what stands there is no unit.
    bool target(std::vector<std::string>& words, Words& out) {
        const auto last = std::find(words.rbegin(), words.rend(), "to");
        if (last == words.rend()) return true;
        const auto at = static_cast<std::size_t>(words.rend() - last) - 1;
        std::string unit = joined(words, at + 1, words.size());
        if (const auto degree = degrees(unit)) unit = *degree;
        out.to = units::read_unit(unit);
        if (!out.to) {
            if (unit.empty()) {
                refuse("missing-unit", "Nothing stands after `to`.",
                       "Write a unit there, such as `to g`.");
            } else {
                unknown_unit(unit);
            }
            return false;
        }
        words.resize(at);
        return true;
    }

    /// "2 tbsp of canning salt": the amount, then the material.
    std::optional<Portion> portion(std::vector<std::string> words) {
        say_number(words);
        const std::string fill = take_fill(words);
        const std::string text = joined(words, 0, words.size());
        const std::size_t minus = units::scan::dash_at(text, 0);
        const std::size_t begin = units::scan::skip_blanks(text, minus);
        const std::string_view rest = std::string_view(text).substr(begin);
        if (rest.empty()) {
            return refuse("nothing", "There is no amount to convert.",
                          "Write an amount first, such as `2 tbsp canning salt to g`.");
        }
        Portion out;
        std::size_t length = 0;
        ReadFault fault;
        const auto amount = units::read_amount_prefix(rest, length, &fault);
        if (!amount) return refuse(code_of(fault.kind), fault.message, fault.advice);
        out.amount = *amount;
        if (minus != 0 && !below_zero(out.amount, text)) return std::nullopt;
        out.words = text.substr(0, begin + length);
        while (out.words.ends_with(' '))
            out.words.pop_back();
        if (minus != 0) out.words = "-" + out.words.substr(begin);
        std::size_t after = units::scan::skip_blanks(rest, length);
        if (rest.substr(after).starts_with("of ")) after += 3;
        out.material = std::string(rest.substr(after));
        if (!out.material.empty() && !names_something(out)) return std::nullopt;
        if (!fill.empty()) {
            fill_up(out.amount, *spoon_fill(fold(fill)));
            out.fill = fill;
            if (const std::size_t blank = out.words.rfind(' '); blank != std::string::npos)
                out.words.insert(blank + 1, fill + " ");
        }
        return out;
    }

    /// Only a temperature can be below nothing.
    bool below_zero(units::Amount& amount, std::string_view text) {
        const auto id = amount.unit.single();
        if (!amount.temperature_point || !id || amount.range || amount.uncertain) {
            refuse("amount", quoted(text) + " is less than nothing.",
                   "Write the amount without the sign; only a single temperature can have one.");
            return false;
        }
        const double degrees_above = amount.unit.from_base(amount.difference);
        amount.value = units::to_kelvin(*id, -degrees_above);
        amount.low = amount.high = amount.value;
        if (amount.value < 0) {
            refuse("out-of-range", quoted(text) + " is colder than anything can be.", "");
            return false;
        }
        amount.difference = -amount.difference;
        return true;
    }

    /// What follows the amount should be a material, not a slip in the unit.
    bool names_something(const Portion& part) {
        const std::string first = part.material.substr(0, part.material.find(' '));
        const bool letter = !units::scan::number_at(first, 0) &&
                            units::scan::skip_word(first, 0) > 0 && first != "%";
        if (!letter) {
            refuse("left-over", quoted(part.material) + " is left over after the amount.",
                   "Write the amount, the material, and `to` with a unit.");
            return false;
        }
        if (part.amount.temperature_point) {
            refuse("dimension", quoted(part.words) + " is a temperature, and needs no material.",
                   "If a cup is meant, write cup.");
            return false;
        }
        if (part.amount.plain_number &&
            std::find(sizeless.begin(), sizeless.end(), first) != sizeless.end()) {
            refuse("unknown-unit", quoted(first) + " has no size that everybody agrees on.",
                   "Weigh it, and write the weight.");
            return false;
        }
        if (part.amount.plain_number && larder_.named(part.material) == nullptr &&
            units::nearest_unit(first) && larder_.named(first) == nullptr) {
            unknown_unit(first);
            return false;
        }
        return true;
    }
};

} // namespace

std::optional<Words> take_apart(const ConversionRequest& request, const Larder& larder,
                                ConversionFault& fault) {
    return Reader(larder, fault).read(request);
}

} // namespace jarful::larder::conversion
