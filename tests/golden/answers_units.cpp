#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"
#include "engine/units/together.hpp"
#include "engine/units/unit.hpp"
#include "tests/golden/answers.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

namespace jarful::test {

namespace {

using namespace units;

std::string kind_word(ReadFault::Kind kind) {
    constexpr std::array words{"not_a_number", "decimal_comma",    "hyphen_range", "hyphen_mixed",
                               "bare_point",   "zero_denominator", "too_large",    "unknown_unit",
                               "missing_unit", "unit_mismatch",    "unit_order",   "reversed_range",
                               "left_over"};
    return words[static_cast<std::size_t>(kind)];
}

std::string of_fault(const ReadFault& fault, const std::string& text) {
    std::string out =
        fmt::format("{} {}..{} `{}`\n    {}\n", kind_word(fault.kind), fault.begin, fault.end,
                    text.substr(fault.begin, fault.end - fault.begin), fault.message);
    if (!fault.advice.empty()) out += "    " + fault.advice + "\n";
    return out;
}

std::string of_number(const std::string& text) {
    ReadFault fault;
    const auto read = read_number(text, &fault);
    if (!read) return of_fault(fault, text);
    return fmt::format("{} of {} bytes{}{}\n", digits(read->value), read->length,
                       read->whole ? ", whole" : "", read->fraction ? ", a fraction" : "");
}

std::string of_measured(const Amount::Measured& m) {
    return digits(m.value) + " (" + digits(m.low) + " to " + digits(m.high) + ")";
}

std::string of_amount(const Amount& a) {
    std::string out = of_measured({a.value, a.low, a.high}) + " [" + a.unit.text() + "], " +
                      describe(a.dimension);
    const std::array flags{
        std::pair{a.percent, ", percent"},     std::pair{a.plain_number, ", plain"},
        std::pair{a.fraction, ", fraction"},   std::pair{a.range, ", range"},
        std::pair{a.uncertain, ", uncertain"}, std::pair{a.temperature_point, ", a point"}};
    for (const auto& [is, word] : flags)
        if (is) out += word;
    if (a.difference != 0) out += ", difference " + digits(a.difference);
    if (a.bare_measure)
        out += fmt::format("\n    bare {}; metric {}; imperial {}", unit(*a.bare_measure).symbol,
                           of_measured(a.metric), of_measured(a.imperial));
    return out;
}

std::string of_amount_text(const std::string& text) {
    ReadFault fault;
    std::size_t length = 0;
    const auto prefix = read_amount_prefix(text, length, &fault);
    const auto read = read_amount(text, &fault);
    std::string out;
    if (prefix && length != text.size()) out = fmt::format("first {} bytes: ", length);
    if (prefix && !read) out += of_amount(*prefix) + "\n";
    return read ? out + of_amount(*read) + "\n" : out + of_fault(fault, text);
}

/// `mass 999.95`, `number 0.5 3`, `reading 40.25 0.1`, `value 3 1 -3 0 0 0` with the exponents of
/// mass, length, time, temperature and count.
std::string printed(const std::string& question) {
    const std::vector<std::string> w = words(question);
    const auto figure = [&](std::size_t i) { return std::strtod(w.at(i).c_str(), nullptr); };
    const auto whole = [&](std::size_t i) { return std::atoi(w.at(i).c_str()); };
    const double x = figure(1);
    const std::string& what = w.front();
    if (what == "number") return print_number(x, whole(2));
    if (what == "fixed") return print_fixed(x, whole(2));
    if (what == "percent") return print_percent(x, whole(2));
    if (what == "mass") return print_mass(x) + " | " + print_mass(x, Style::us);
    if (what == "ounces") return print_mass(x * 453.59237 / 16, Style::us);
    if (what == "volume") return print_volume(x) + " | " + print_volume(x, Style::us);
    if (what == "cups") return print_volume(x * 236.5882365, Style::us);
    if (what == "spoons") return print_volume(x * 14.78676478125, Style::us);
    if (what == "time") return print_time(x);
    if (what == "kelvin") return print_temperature(x) + " | " + print_temperature(x, Style::us);
    if (what == "reading") return print_reading(x, figure(2));
    if (what == "ounce_scale") return print_reading(x * 453.59237 / 16, figure(2) * 453.59237 / 16);
    if (what == "step")
        return fmt::format("{} decimals{}; of ounces {} decimals{}", reading_decimals(x),
                           reads_ounces(x) ? ", ounces" : "", reading_decimals(x * 453.59237 / 16),
                           reads_ounces(x * 453.59237 / 16) ? ", ounces" : "");
    Dimension d;
    const std::array members{&Dimension::mass, &Dimension::length, &Dimension::time,
                             &Dimension::temperature, &Dimension::count};
    for (std::size_t i = 0; i < members.size(); ++i)
        d.*members[i] = static_cast<std::int8_t>(whole(2 + i));
    return print_value(x, d) + " | " + print_value(x, d, Style::us) + " | " + describe(d);
}

std::string of_unit(const std::string& text) {
    std::string out;
    if (const auto prefix = read_unit_prefix(text); prefix && prefix->length != text.size())
        out = fmt::format("first {} bytes: {}; ", prefix->length, prefix->unit.text());
    const auto read = read_unit(text);
    if (!read) return out + "no unit; near " + std::string(nearest_unit(text).value_or("none"));
    out += read->text() + ", " + describe(read->dimension().value_or(Dimension{}));
    for (const Spoons spoons : {Spoons::unstated, Spoons::us, Spoons::metric, Spoons::imperial})
        out += fmt::format("{}{}", spoons == Spoons::unstated ? "; " : ", ",
                           digits(read->factor(spoons)));
    out += fmt::format("; 2.2 is {} and back {}", digits(read->to_base(2.2)),
                       digits(read->from_base(2.2)));
    if (read->percent()) out += "; percent";
    if (read->single()) out += "; single";
    if (const auto bare = read->bare_measure())
        out += "; bare " + std::string(unit(*bare).symbol) + ", imperial " +
               digits(read->to_base(2.2, Spoons::imperial)) + " and back " +
               digits(read->from_base(2.2, Spoons::imperial));
    return out;
}

/// Two words with a stroke between them.
std::string together(const std::string& question) {
    const std::size_t bar = question.find('|');
    return stay_together(question.substr(0, bar), question.substr(bar + 1)) ? "together" : "apart";
}

constexpr std::array all{Sort{"numbers", of_number}, Sort{"amounts", of_amount_text},
                         Sort{"printed", printed}, Sort{"units", of_unit},
                         Sort{"together", together}};

} // namespace

std::span<const Sort> units_sorts() {
    return all;
}

} // namespace jarful::test
