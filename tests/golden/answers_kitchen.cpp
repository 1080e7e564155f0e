#include "engine/kitchen/fitting.hpp"
#include "engine/kitchen/kitchen.hpp"
#include "engine/kitchen/reading.hpp"
#include "engine/language/parse.hpp"
#include "engine/sheet/builder.hpp"
#include "tests/golden/answers.hpp"

#include <fmt/core.h>

#include <array>
#include <cstdlib>
#include <vector>

namespace jarful::test {

namespace {

using namespace kitchen;

std::string of_figure(const char* what, const std::optional<larder::Figure>& f) {
    if (!f) return {};
    return fmt::format(", {} {} ({} to {}) [{}]", what, digits(f->typical), digits(f->low),
                       digits(f->high), f->source);
}

std::string of_own(const larder::OwnMaterial& m) {
    return fmt::format("material {}, {}{}{}{}{}{}{}\n", m.name, larder::describe(m.role),
                       of_figure("bulk", m.bulk_density), of_figure("true", m.true_density),
                       of_figure("salt", m.salt), of_figure("water", m.water),
                       of_figure("piece", m.piece), m.source.empty() ? "" : " from " + m.source);
}

/// The lines of a kitchen file.
std::string of_kitchen(const std::string& lines) {
    language::Findings findings;
    auto source = language::read_source("kitchen.jarful", "kitchen \"Quay\"\n" + lines, findings);
    const language::Document document = language::parse(std::move(source).value(), findings);
    const Kitchen k = read_kitchen(document, findings);
    std::string out = told(document.source, findings);
    for (const Scale& s : k.scales)
        out += fmt::format("scale {}: step {}, up to {}, within {}, error {}\n", s.name,
                           digits(s.step_g), digits(s.capacity_g), digits(s.tolerance_g),
                           digits(s.error_g()));
    for (const Vessel& v : k.vessels)
        out += fmt::format("{} {}: {} mL, {} cm2, weights {} mL, have {}\n",
                           v.crock ? "crock" : "jar", v.name, digits(v.brimful_ml),
                           digits(v.area_cm2), digits(v.weights_ml), v.have);
    for (const Constant& c : k.constants)
        out += fmt::format("{} = {} ({}), {}\n", c.name, digits(c.value), digits(c.bounds),
                           sheet::describe(c.type));
    for (const larder::OwnMaterial& m : k.materials)
        out += of_own(m);
    for (const larder::OwnMaterial& m : house_materials(document, findings))
        out += "house " + of_own(m);
    if (k.spoons != units::Spoons::unstated)
        out += fmt::format("spoons {}\n", static_cast<int>(k.spoons));
    if (k.room_kelvin) out += "room " + digits(room_celsius(k)) + " °C\n";
    return out;
}

/// `step:capacity:tolerance …; grams`.
Kitchen with_scales(const std::string& list) {
    Kitchen k;
    for (const std::string& one : words(list)) {
        const std::vector<std::string> figures = words(one, ':');
        const auto at = [&](std::size_t i) { return std::strtod(figures.at(i).c_str(), nullptr); };
        k.scales.push_back({one, at(0), at(1), at(2)});
    }
    return k;
}

std::string of_reading(const char* what, const Reading& r) {
    std::string out = fmt::format("{}: scale {}, {} g, truth {}, ", what, r.scale,
                                  digits(r.total_g), digits(r.truth));
    if (r.portions.size() > 12) return out + fmt::format("{} portions\n", r.portions.size());
    out += "portions";
    for (const double portion : r.portions)
        out += " " + digits(portion);
    return out + "\n";
}

std::string of_scales(const std::string& question) {
    const std::vector<std::string> parts = words(question, ';');
    const Kitchen k = with_scales(parts.at(0));
    std::string out;
    for (const std::string& figure : words(parts.at(1))) {
        const double grams = std::strtod(figure.c_str(), nullptr);
        out += fmt::format("{} g: best scale {}\n", figure, best_scale(k, grams));
        for (std::size_t i = 0; i < k.scales.size(); ++i)
            out += of_reading("    on", read_on(k, i, grams));
        out += of_reading("    best", best_reading(k, grams));
    }
    return out;
}

/// `grams step count`.
std::string of_steps(const std::string& question) {
    const std::vector<std::string> w = words(question);
    const double grams = std::strtod(w.at(0).c_str(), nullptr);
    const double step = std::strtod(w.at(1).c_str(), nullptr);
    // With all their digits: these are free of binary noise.
    std::string out = fmt::format("{}; so many steps are {}; portions", round_to_step(grams, step),
                                  multiple_of_step(grams, step));
    for (const double portion : portions_of(grams, std::atoi(w.at(2).c_str()), step))
        out += fmt::format(" {}", portion);
    return out;
}

std::string of_fit(const char* what, const Fit& f) {
    std::string out =
        fmt::format("{} {} mL: empty {}, left over {}{}\n", what, digits(f.volume_ml),
                    digits(f.empty_ml), digits(f.unplaced_ml), f.exact ? "" : ", not exact");
    for (const Filled& each : f.filled)
        out += fmt::format("    {} takes {}, gets {}, {} full, level {}, free {}{}\n", each.vessel,
                           digits(each.usable_ml), digits(each.fill_ml), digits(each.full),
                           digits(each.level_cm), digits(each.headspace_cm),
                           each.airy() ? ", airy" : "");
    for (const PassedOver& p : f.passed_over)
        out += fmt::format("    {} {}\n", p.vessel, p.why);
    if (!f.why.empty()) out += "    " + f.why + "\n";
    if (f.rest_brimful_ml)
        out +=
            fmt::format("    the rest would fill {}{}\n", digits(f.rest_brimful_ml),
                        f.rest_as_wide_as ? fmt::format(" as wide as {}", *f.rest_as_wide_as) : "");
    return out;
}

/// `ml[xhave][@area][-weights] …; share height; volume …[; chosen …]`.
std::string of_fitting(const std::string& question) {
    const std::vector<std::string> parts = words(question, ';');
    std::vector<Vessel> vessels;
    for (const std::string& one : words(parts.at(0))) {
        Vessel v;
        v.name = one;
        const char* at = one.c_str();
        char* end = nullptr;
        v.brimful_ml = std::strtod(at, &end);
        while (*end != '\0') {
            const char what = *end;
            const double figure = std::strtod(end + 1, &end);
            if (what == 'x') v.have = static_cast<int>(figure);
            if (what == '@') v.area_cm2 = figure;
            if (what == '-') v.weights_ml = figure;
        }
        vessels.push_back(v);
    }
    const std::vector<std::string> space = words(parts.at(1));
    const Headspace headspace{std::strtod(space.at(0).c_str(), nullptr),
                              std::strtod(space.at(1).c_str(), nullptr)};
    std::string out;
    for (const std::string& figure : words(parts.at(2))) {
        const double volume = std::strtod(figure.c_str(), nullptr);
        if (parts.size() < 4) {
            out += of_fit("fitted", fit(vessels, headspace, volume));
            continue;
        }
        std::vector<std::size_t> chosen;
        for (const std::string& index : words(parts.at(3)))
            chosen.push_back(static_cast<std::size_t>(std::atoi(index.c_str())));
        out += of_fit("chosen", fill_evenly(vessels, chosen, headspace, volume));
    }
    return out;
}

constexpr std::array all{Sort{"kitchens", of_kitchen}, Sort{"scales", of_scales},
                         Sort{"steps", of_steps}, Sort{"fittings", of_fitting}};

} // namespace

std::span<const Sort> kitchen_sorts() {
    return all;
}

} // namespace jarful::test
