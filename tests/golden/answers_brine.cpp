#include "engine/larder/brine_mix.hpp"
#include "tests/golden/answers.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cstdlib>
#include <vector>

namespace jarful::test {

namespace {

using namespace larder;

constexpr std::array gauges{"% of brine", "% of water", "g/L of brine", "g/L of water", "salometer",
                            "baume",      "sg"};

std::string of_strength(const std::optional<Strength>& s) {
    if (!s) return "too strong";
    return fmt::format("{} at {} °C: {} % of brine, {} % of water, {} g/L of brine, {} g/L of "
                       "water, {} salometer, {} baume, {} sg; {} ({} to {}) g/mL",
                       digits(s->fraction), digits(s->celsius), digits(s->percent_of_brine),
                       digits(s->percent_of_water), digits(s->g_per_l_of_brine),
                       digits(s->g_per_l_of_water), digits(s->salometer), digits(s->baume),
                       digits(s->specific_gravity), digits(s->density.typical),
                       digits(s->density.low), digits(s->density.high));
}

/// `figure celsius` by every gauge, and as a fraction by itself.
std::string by_gauges(const std::string& question) {
    const std::vector<std::string> w = words(question);
    const double figure = std::strtod(w.at(0).c_str(), nullptr);
    const double celsius = std::strtod(w.at(1).c_str(), nullptr);
    std::string out = of_strength(strength_of(figure / 100, celsius)) + "\n";
    if (const auto density = density_to_saturation(figure / 100, celsius))
        out += fmt::format("    density {} ({} to {})\n", digits(density->typical),
                           digits(density->low), digits(density->high));
    for (std::size_t i = 0; i < gauges.size(); ++i)
        if (const auto fraction = fraction_by(static_cast<Gauge>(i), figure, celsius))
            out += fmt::format("    {} {} is {}\n", w.at(0), gauges[i], digits(*fraction));
    return out;
}

std::string of_mix(const char* what, const std::optional<BrineMix>& m) {
    if (!m) return {};
    return fmt::format("    {}: salt {}, water {} g {} mL, had {} g {} mL, brine {} g {} mL, "
                       "undissolved {}\n",
                       what, digits(m->salt_g), digits(m->water_g), digits(m->water_ml),
                       digits(m->had_g), digits(m->had_ml), digits(m->brine_g), digits(m->brine_ml),
                       digits(m->undissolved_g));
}

std::string of_answer(const BrineAnswer& a) {
    constexpr std::array sorts{"gauges", "mix", "found", "dilute", "strengthen", "too strong"};
    std::string out =
        fmt::format("    {}, {}{}\n    {}\n", sorts[static_cast<std::size_t>(a.sort)],
                    digits(a.fraction), a.amount_taken ? ", of 1 kg" : "", of_strength(a.strength));
    if (a.from) out += "    from " + of_strength(a.from) + "\n";
    return out + of_mix("mix", a.mix) + of_mix("in the end", a.in_the_end);
}

std::string of_asked(const char* what, const std::optional<AskedStrength>& s,
                     const language::Source& source) {
    if (!s) return {};
    return fmt::format(", {} {} {}{} `{}`", what, digits(s->figure),
                       gauges[static_cast<std::size_t>(s->gauge)], s->said ? ", said" : "",
                       source.at(s->place));
}

/// `words [; salt G] [; of water|brine] [; celsius C]`.
std::string of_question(const std::string& question) {
    std::vector<std::string> parts = words(question, ';');
    if (question.starts_with(';')) parts.insert(parts.begin(), "");
    std::optional<double> salt;
    std::optional<bool> of_water;
    double celsius = default_celsius;
    std::string text = parts.empty() ? "" : parts.front();
    while (text.ends_with(' ') && parts.size() > 1)
        text.pop_back();
    for (std::size_t i = 1; i < parts.size(); ++i) {
        const std::vector<std::string> w = words(parts[i]);
        if (w.at(0) == "salt") salt = std::strtod(w.at(1).c_str(), nullptr);
        if (w.at(0) == "of") of_water = w.at(1) == "water";
        if (w.at(0) == "celsius") celsius = std::strtod(w.at(1).c_str(), nullptr);
    }
    language::Findings findings;
    const auto q = read_brine_question(text, salt, of_water, celsius, findings);
    const language::Source source("question", text);
    if (!q) return told(source, findings);
    std::string out = "asked";
    if (q->amount)
        out += fmt::format(" {} of {}", digits(q->amount->value),
                           q->amount_of_water ? "water" : "brine");
    out += of_asked("at", q->at, source) + of_asked("from", q->from, source);
    if (q->of_water) out += ", of water";
    if (q->assumed) out += ", assumed";
    out += "\n" + of_answer(answer_brine(*q));
    if (const auto other = taken_otherwise(*q))
        out += "  otherwise" + std::string(other->of_water ? ", of water" : ", of brine") +
               (other->assumed ? ", assumed" : "") + "\n" + of_answer(answer_brine(*other));
    return out;
}

/// `salt WORDS` or `celsius WORDS`, as behind the options of those names.
std::string of_option(const std::string& question) {
    const bool salt = question.starts_with("salt ");
    const std::string text = question.substr(question.find(' ') + 1);
    language::Findings findings;
    const auto read = salt ? read_brine_salt(text, findings) : read_brine_celsius(text, findings);
    return read ? digits(*read) : told(language::Source("option", text), findings);
}

constexpr std::array all{Sort{"strengths", by_gauges}, Sort{"brines", of_question},
                         Sort{"brine_options", of_option}};

} // namespace

std::span<const Sort> brine_sorts() {
    return all;
}

} // namespace jarful::test
