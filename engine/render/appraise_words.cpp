#include "engine/render/appraise_words.hpp"

#include "engine/render/words.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <cmath>

namespace jarful::render {

using appraise::Appraisal;
using appraise::Line;
using appraise::LineSort;
using appraise::Verdict;
using units::Interval;

namespace {

std::string rests_on(const std::optional<plan::RangeEnd>& end, const std::string& what) {
    std::string source = end->source.empty() ? "no source" : end->source;
    if (source.starts_with("common practice"))
        source = end->status;
    else if (!end->status.empty() && source.find(end->status) == std::string::npos)
        source += "; " + end->status;
    return what + percent(end->percent) + " %, rests on: " + stopped(source);
}

} // namespace

std::string appraised_mass(Interval g, Units units) {
    // No more digits than such a figure can carry.
    const auto round_to = [](double x) {
        if (x <= 0) return 0.0;
        const double step = std::pow(10, std::floor(std::log10(x)) - 2);
        return std::round(x / step) * step;
    };
    const std::string low = g.low <= 0 ? "0 g" : mass(round_to(g.low), units);
    const std::string high = mass(round_to(g.high), units);
    return low == high ? low : low + " to " + high;
}

std::string reading_words(const Line& line, Units units) {
    if (!line.understood)
        return line.could_matter ? "NOT UNDERSTOOD" : "not understood; no amount, no matter";
    std::string out(line.material->name);
    if (line.per) {
        if (line.amount && line.amount->unit == "%") {
            out += ", as a percentage";
            if (!line.per->of.empty()) out += " of " + line.per->of;
        } else {
            if (line.grams) out += ", " + appraised_mass(*line.grams, units);
            out += " for each " + units::print_number(line.per->amount.low, 4) + " " +
                   line.per->amount.unit;
            if (!line.per->of.empty()) out += " of " + line.per->of;
        }
    } else if (line.grams) {
        out += ", " + appraised_mass(*line.grams, units);
    } else if (line.role == larder::Role::salt || line.role == larder::Role::vegetable ||
               line.role == larder::Role::water) {
        out += ", no weight to be had";
    }
    if (line.optional) out += " (optional)";
    return out;
}

bool is_shown(const Line& line) {
    return line.sort == LineSort::ingredient || line.sort == LineSort::unknown;
}

std::string other_lines(const Appraisal& a) {
    std::size_t method = 0;
    std::size_t other = 0;
    for (const Line& line : a.lines) {
        if (line.sort == LineSort::method) ++method;
        if (line.sort == LineSort::remark || line.sort == LineSort::heading) ++other;
    }
    std::string rest;
    if (method > 0)
        rest += std::to_string(method) + (method == 1 ? " line" : " lines") + " of method";
    if (other > 0) {
        rest += (rest.empty() ? "" : " and ") + std::to_string(other) +
                (other == 1 ? " heading or remark" : " headings and remarks");
    }
    return rest.empty() ? rest : capital(rest) + ", of which nothing is weighed.";
}

std::vector<AppraisedSum> appraised_sums(const Appraisal& a, Units units) {
    std::vector<AppraisedSum> out;
    const auto row = [&](const char* what, const std::optional<Interval>& g) {
        out.push_back({what, g ? appraised_mass(*g, units) : "cannot be told"});
    };
    row("vegetables", a.vegetables_g);
    row("salt", a.salt_g);
    row("water and other liquid", a.water_g);
    const auto percent_row = [&](const char* what, const appraise::Percent& p) {
        if (p) out.push_back({what, percents(*p)});
    };
    percent_row("salt, of the vegetables", a.of_vegetables);
    if (a.water_g && a.water_g->high > 0)
        percent_row("of vegetables and water", a.of_vegetables_and_water);
    percent_row("of the brine", a.of_brine);
    percent_row("of everything in the jar", a.of_everything);
    return out;
}

std::string verdict_words(const Appraisal& a) {
    switch (a.verdict) {
    case Verdict::inside:
        return "inside " + range_standing(a.low, a.high);
    case Verdict::below:
        return "BELOW " + range_standing(a.low, a.high);
    case Verdict::above:
        return "ABOVE " + range_standing(a.low, a.high);
    case Verdict::undecided:
        return "UNDECIDED";
    case Verdict::not_a_ferment:
        return "NOT A FERMENT";
    }
    return {};
}

std::string lean_words(const Appraisal& a) {
    if (!a.lean) return {};
    const auto count = [](unsigned n) {
        return n < 1000 ? std::to_string(n) : fmt::format("{},{:03}", n / 1000, n % 1000);
    };
    const std::string ways = count(appraise::lean_draws) + " ways to read it";
    if (a.lean->below > 0)
        return fmt::format(
            "Of {} {} are too weak: weigh the salt. {} are inside, {} above. Each way "
            "takes every figure evenly between its ends.",
            ways, count(a.lean->below), count(a.lean->inside), count(a.lean->above));
    const std::string_view toward = appraise::describe(*a.lean);
    return fmt::format("{}Of {} {} are inside, none below, {} above. Each way takes every figure "
                       "evenly between its ends.",
                       toward.empty() ? std::string() : "Leaning " + std::string(toward) + ". ",
                       ways, count(a.lean->inside), count(a.lean->above));
}

std::string judged_as(const Appraisal& a) {
    if (a.kind.empty()) return {};
    return "Judged as " + a.kind_title + " (" + a.kind + (a.method.empty() ? "" : " " + a.method) +
           "). " + stopped(a.kind_reason);
}

std::vector<std::string> appraised_range(const Appraisal& a) {
    if (a.low && a.high && a.low->source == a.high->source && a.low->status == a.high->status) {
        const bool said = a.low->source.find(a.low->status) != std::string::npos;
        const std::string source = a.low->source.starts_with("common practice") ? a.low->status
                                   : said                                       ? a.low->source
                                          : a.low->source + "; " + a.low->status;
        return {"The range, " + range_words(a.low, a.high) + ", rests on: " + stopped(source)};
    }
    std::vector<std::string> out;
    if (a.low) out.push_back(rests_on(a.low, "Its low end, "));
    if (a.high) out.push_back(rests_on(a.high, "Its high end, "));
    return out;
}

std::string right_for_list_words(const Appraisal& a, Units units) {
    const auto right = appraise::right_for_list(a);
    if (!right) return {};
    std::string words = "Weigh the salt: " + units::print_number(right->low, 4) + " to " +
                        units::print_number(right->high, 4) + " g in all is inside for this list.";
    if (a.salt_g && a.salt_g->width() > 0.02 * a.salt_g->high)
        words += " As it stands it may be " + appraised_mass(*a.salt_g, units) + ".";
    else if (a.salt_g)
        words += " It has " + appraised_mass(*a.salt_g, units) + ".";
    return words;
}

std::string right_words(const Appraisal& a) {
    if (!a.right_g_per_kg) return {};
    return "Right would be " + units::print_number(a.right_g_per_kg->low, 3) + " to " +
           units::print_number(a.right_g_per_kg->high, 3) + " g of salt for each kilogram of " +
           a.right_of + ".";
}

} // namespace jarful::render
