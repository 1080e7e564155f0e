#include "engine/render/words.hpp"

#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::render {

namespace {

/// The same figure in one system or in both, as the reader wants it.
template <class Print>
std::string in_units(Units units, Print print) {
    using System = Units::System;
    if (units != Units::both) return print(units);
    const std::string metric = print(units.in(System::metric));
    const std::string us = print(units.in(System::us));
    return us == metric ? us : metric + " (" + us + ")";
}

/// Outward to a number of decimals. What is nearer to a step than the noise of arithmetic is on it.
double outward(double value, int decimals, bool up) {
    const double scale = std::pow(10.0, decimals);
    const double steps = value * scale;
    const double noise = 1e-7;
    return (up ? std::ceil(steps - noise) : std::floor(steps + noise)) / scale;
}

std::string days(const plan::MethodLine& line) {
    const auto day = [](int number) { return "day " + std::to_string(number); };
    if (line.on_day) return "on " + day(*line.on_day);
    if (line.from_day && line.to_day && *line.from_day != *line.to_day) {
        return "from " + day(*line.from_day) + " to " + day(*line.to_day);
    }
    if (line.from_day && line.to_day) return "on " + day(*line.from_day);
    if (line.from_day) return "from " + day(*line.from_day) + " on";
    if (line.to_day) return "until " + day(*line.to_day);
    return "";
}

std::string temperatures(const plan::MethodLine& line, Units units) {
    if (!line.from_kelvin) return "";
    return in_units(units, [&](Units shown) {
        std::string low = units::print_temperature(*line.from_kelvin, shown);
        if (!line.to_kelvin) return low;
        return units::print_between(low, units::print_temperature(*line.to_kelvin, shown));
    });
}

std::string piece_words(const plan::TextPiece& piece, Units units) {
    using Sort = plan::TextPiece::Sort;
    const auto reading = [&](double grams) { return reading_words(grams, piece.step_g, units); };
    switch (piece.sort) {
    case Sort::words:
        return piece.words;
    case Sort::reading:
        return reading(piece.value);
    case Sort::portions: {
        std::vector<std::string> parts;
        for (const double portion : piece.portions)
            parts.push_back(reading(portion));
        const bool equal =
            std::adjacent_find(parts.begin(), parts.end(), std::not_equal_to<>()) == parts.end();
        return equal && !parts.empty() ? parts.front() : listed(parts);
    }
    case Sort::value:
        break;
    }
    if (piece.percent) return units::print_percent(piece.value) + " %";
    return in_units(units, [&](Units shown) {
        if (piece.temperature_point) return units::print_temperature(piece.value, shown);
        if (piece.dimension == units::dim::temperature) { // a difference
            return shown == Units::us ? units::print_number(piece.value * 1.8, 3) + " °F"
                                      : units::print_number(piece.value, 3) + " °C";
        }
        if (piece.dimension.plain()) return units::print_number(piece.value);
        return units::print_value(piece.value, piece.dimension, shown);
    });
}

} // namespace

std::string percent(double figure) {
    return units::print_percent(figure / 100);
}

std::string percents(units::Interval bounds) {
    if (std::isnan(bounds.low) || std::isnan(bounds.high)) return "not known";
    const bool from = std::isfinite(bounds.low);
    const bool to = std::isfinite(bounds.high);
    if (!from && !to) return "anything";
    if (!to) return "at least " + percent(outward(bounds.low, 2, false)) + " %";
    if (!from) return "at most " + percent(outward(bounds.high, 2, true)) + " %";
    const std::string low = percent(outward(bounds.low, 2, false));
    const std::string high = percent(outward(bounds.high, 2, true));
    return low == high ? low + " %" : low + " to " + high + " %";
}

std::string range_words(const std::optional<plan::RangeEnd>& low,
                        const std::optional<plan::RangeEnd>& high) {
    if (low && high) return percent(low->percent) + " to " + percent(high->percent) + " %";
    if (low) return "at least " + percent(low->percent) + " %";
    if (high) return "at most " + percent(high->percent) + " %";
    return "no range";
}

std::string mass(double grams, Units units) {
    return in_units(units, [&](Units shown) { return units::print_mass(grams, shown); });
}

std::string beside(double grams, double step_g, Units units) {
    if (units::reads_ounces(step_g)) {
        // A step of ounces is coarse: grams to a tenth are more than it tells.
        if (units == Units::us) return "";
        return units::print_fixed(grams, std::abs(grams) < 100 ? 1 : 0) + " g";
    }
    // As fine as the scale's grams are, not as another scale's ounces.
    return units == Units::metric ? "" : units::print_mass(grams, units::Style::us);
}

std::string reading_words(double grams, double step_g, Units units) {
    const std::string other = beside(grams, step_g, units);
    return units::print_reading(grams, step_g) + (other.empty() ? "" : " (" + other + ")");
}

std::string volume(double ml, Units units) {
    return in_units(units, [&](Units shown) { return units::print_volume(ml, shown); });
}

std::string by_spoon(double ml, Units units) {
    struct Spoon {
        double teaspoons;
        const char* words;
    };
    static constexpr Spoon spoons[] = {{1.0 / 32, "half a pinch"},
                                       {1.0 / 16, "a pinch"},
                                       {1.0 / 8, "1/8 tsp"},
                                       {1.0 / 4, "1/4 tsp"},
                                       {1.0 / 2, "1/2 tsp"},
                                       {3.0 / 4, "3/4 tsp"},
                                       {1.0, "1 tsp"}};
    constexpr double teaspoon_ml = 4.92892159375; // US, exactly: 1/768 of 231 cubic inches
    const double teaspoons = ml / teaspoon_ml;
    if (!(teaspoons > 0) || teaspoons > 1.25)
        return volume(ml, units == Units::us ? Units::us : Units::both);
    const Spoon* best = &spoons[0];
    for (const Spoon& spoon : spoons) {
        const auto off = [&](const Spoon& s) {
            return std::abs(std::log(s.teaspoons / teaspoons));
        };
        if (off(spoon) < off(*best)) best = &spoon;
    }
    if (units == Units::us) return best->words;
    return volume(ml, Units::metric) + " (" + best->words + ")";
}

std::string weighed_mass(double grams, double step_g, Units units) {
    if (units == Units::us && units::reads_ounces(step_g))
        return units::print_reading(grams, step_g);
    return mass(grams, units);
}

std::string reading_between(units::Interval truth, double step_g, Units units) {
    return units::print_reading_bounds(truth, step_g, units);
}

std::string masses(units::Interval bounds, Units units) {
    if (!std::isfinite(bounds.low) || !std::isfinite(bounds.high)) return "not known";
    return in_units(units, [&](Units shown) {
        return units::print_between(units::print_mass(bounds.low, shown),
                                    units::print_mass(bounds.high, shown));
    });
}

std::string figures(units::Interval bounds, std::string_view unit) {
    if (unit == "%") return percents(bounds);
    const std::string after = unit.empty() ? "" : " " + std::string(unit);
    const std::string low = units::print_number(bounds.low, 5);
    const std::string high = units::print_number(bounds.high, 5);
    return low == high ? low + after : low + " to " + high + after;
}

std::string plain(const plan::RichText& text, Units units) {
    std::string out;
    for (const plan::TextPiece& piece : text)
        out += piece_words(piece, units);
    return out;
}

std::string task_words(std::string_view task) {
    if (task == "burp") return "Burp: let the gas out";
    if (task == "skim") return "Skim";
    if (task == "press") return "Press under";
    if (task == "stir") return "Stir";
    if (task == "turn") return "Turn the jar";
    if (task == "top_up") return "Top up the brine";
    if (task == "rinse") return "Rinse";
    if (task == "look") return "Look it over";
    if (task == "taste") return "Taste";
    if (task == "test") return "Test the pH";
    return capital(visible(task));
}

std::string how_often(double seconds) {
    const std::string time = units::print_time(seconds);
    return "every " + (time.starts_with("1 ") ? time.substr(2) : time);
}

bool is_step(const plan::MethodLine& line) {
    using Sort = plan::MethodLine::Sort;
    return line.sort == Sort::step || line.sort == Sort::rest;
}

std::string sentence(const plan::MethodLine& line, Units units) {
    using Sort = plan::MethodLine::Sort;
    std::string remark = plain(line.text, units);
    std::string out;
    switch (line.sort) {
    case Sort::step:
        return remark;
    case Sort::rest:
        out = "Wait " + units::print_time(line.seconds.value_or(0)) + ".";
        break;
    case Sort::tend: {
        out = task_words(line.task);
        const std::string when = days(line);
        const std::string comma = out.find(':') == std::string::npos ? " " : ", ";
        if (line.seconds) out += comma + how_often(*line.seconds);
        if (!when.empty()) out += (line.seconds ? ", " : comma) + when;
        out += '.';
        break;
    }
    case Sort::ready: {
        out = "Likely ready";
        if (line.from_day) out += " on day " + std::to_string(*line.from_day);
        if (line.to_day && line.to_day != line.from_day) {
            out += " to " + std::to_string(*line.to_day);
        }
        const std::string at = temperatures(line, units);
        if (!at.empty()) out += ", at " + at;
        out += ". Taste it, and test the pH, before you believe the calendar.";
        break;
    }
    case Sort::keep:
        out = "Keeps " + visible(line.task) + " for " + std::to_string(line.count) + " " +
              line.period + (line.count == 1 || line.period.ends_with('s') ? "" : "s") + ".";
        break;
    }
    if (!remark.empty()) out += " " + stopped(capital(remark));
    return out;
}

std::string range_standing(const std::optional<plan::RangeEnd>& low,
                           const std::optional<plan::RangeEnd>& high) {
    if (!low && !high) return "no range";
    const std::string& a = low ? low->status : high->status;
    const std::string& b = high ? high->status : a;
    if (a == "published" && b == "published") return "the published range";
    if (a == b && a == "the house's own") return "the house's own range";
    if (a == b && a == "from memory") return "the range recalled from memory";
    if (a == b && a == "tried in a study") return "the range that one study tried";
    if (a == b) return "the range of " + a;
    return "the range (low: " + a + "; high: " + b + ")";
}

std::string verdict_words(const plan::SaltJudgement& salt) {
    const std::string range = range_standing(salt.low, salt.high);
    switch (salt.verdict) {
    case plan::Verdict::inside:
        return "inside " + range;
    case plan::Verdict::below:
        return "BELOW " + range + ": a safety matter";
    case plan::Verdict::above:
        return "ABOVE " + range + ": a quality matter";
    case plan::Verdict::undecided:
        break;
    }
    if (!salt.low && !salt.high) return "UNDECIDED: there is no range for it";
    return "UNDECIDED against " + range;
}

std::string stopped(std::string_view text) {
    std::string out(text);
    while (!out.empty() && out.back() == ' ')
        out.pop_back();
    const bool ends = out.empty() || out.ends_with('.') || out.ends_with('!') ||
                      out.ends_with('?') || out.ends_with("…") || out.ends_with(".)");
    if (!ends) out += '.';
    return out;
}

std::string capital(std::string_view text) {
    std::string out(text);
    const bool word = out.size() < 2 || out[1] < 'A' || out[1] > 'Z'; // "pH" stays as it is
    if (!out.empty() && word && out[0] >= 'a' && out[0] <= 'z')
        out[0] = static_cast<char>(out[0] - 32);
    return out;
}

std::string listed(const std::vector<std::string>& parts) {
    std::string out;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) out += i + 1 == parts.size() ? " and " : ", ";
        out += parts[i];
    }
    return out;
}

std::string markdown(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (std::string_view("|\\*_`<[]#").find(c) != std::string_view::npos) out += '\\';
        out += c;
    }
    return out;
}

std::string number_of(int number, const std::string& one, const std::string& many) {
    return std::to_string(number) + " " + (number == 1 ? one : many);
}

std::string cautions_in_short(const std::vector<plan::Warning>& cautions) {
    std::string words;
    for (const plan::Warning& warning : cautions) {
        const larder::Caution* caution = larder::find_caution(warning.id);
        words += (words.empty() ? "" : " ") +
                 stopped(caution != nullptr ? std::string(caution->brief) : warning.text);
    }
    return words;
}

bool of_the_house(const plan::SaltJudgement& salt) {
    const auto own = [](const std::optional<plan::RangeEnd>& end) {
        return end && end->status == larder::describe(larder::Status::house);
    };
    return own(salt.low) || own(salt.high);
}

} // namespace jarful::render
