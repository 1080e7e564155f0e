#include "engine/sheet/builder.hpp"
#include "engine/sheet/point_engine.hpp"
#include "engine/sheet/sheet.hpp"
#include "tests/golden/answers.hpp"

#include <fmt/core.h>

#include <array>
#include <cstdlib>
#include <map>
#include <sstream>
#include <vector>

namespace jarful::test {

namespace {

using namespace sheet;

double figure(const std::string& word) {
    return std::strtod(word.c_str(), nullptr);
}

std::string of_fault(const Sheet& s, const std::optional<ComputeFault>& fault) {
    if (!fault) return {};
    return fmt::format(", {} in {} at {}..{}",
                       fault->sort == ComputeFault::Sort::division_by_zero ? "division by zero"
                                                                           : "not finite",
                       fault->cell == no_cell ? "none" : s.cell(fault->cell).name,
                       fault->place.begin, fault->place.end);
}

std::string of_causes(const std::vector<Share>& causes) {
    std::string out;
    for (const Share& share : causes)
        out += fmt::format("{} {} {:.6g}", out.empty() ? " by" : ",", share.label, share.width);
    return out;
}

/// Value, interval, what makes it unsure, and what is wrong with it.
std::string of_cell(Sheet& s, CellId id) {
    const Formula f = Formula::of_cell(id);
    std::string out =
        fmt::format("    {} = {} ({}){}{}", s.cell(id).name, digits(s.value(id)),
                    digits(s.interval(id)), of_causes(s.causes(f)), of_fault(s, s.fault(id)));
    if (s.entered(id)) out += ", entered";
    if (const auto truth = s.observed(id)) out += ", observed " + digits(*truth);
    const auto formula = s.fault(f);
    if (formula.has_value() != s.fault(id).has_value()) out += ", the formula says otherwise";
    return out + "\n";
}

std::string of_all(Sheet& s) {
    std::string out;
    for (CellId id = 0; id < s.size(); ++id)
        out += of_cell(s, id);
    return out + fmt::format("    {} evaluations\n", s.evaluations());
}

/// A line behind `!`: `set NAME VALUE [LOW HIGH]`, `clear NAME`, `observe NAME LOW HIGH`,
/// `forget [NAME]`, `try NAME VALUE … of NAME`, `without parser`.
std::string done(Sheet& s, const std::string& line) {
    const std::vector<std::string> w = words(line);
    const auto cell = [&](std::size_t i) { return s.find(w.at(i)).value(); };
    if (w.at(0) == "set" && w.size() > 4)
        s.set(cell(1), figure(w.at(2)), {figure(w.at(3)), figure(w.at(4))});
    else if (w.at(0) == "set")
        s.set(cell(1), figure(w.at(2)));
    if (w.at(0) == "clear") s.clear(cell(1));
    if (w.at(0) == "observe") s.observe(cell(1), {figure(w.at(2)), figure(w.at(3))});
    if (w.at(0) == "forget" && w.size() > 1) s.forget_observation(cell(1));
    if (w.at(0) == "forget" && w.size() == 1) s.forget_observations();
    if (w.at(0) == "without") s.do_without_parser();
    if (w.at(0) != "try") return of_all(s);
    std::vector<double> tried;
    std::size_t i = 2;
    for (; w.at(i) != "of"; ++i)
        tried.push_back(figure(w.at(i)));
    std::vector<double> out(tried.size() + 1, -1);
    const std::size_t count = s.what_if(cell(1), tried, cell(i + 1), out);
    std::string text = fmt::format("    {} tried:", count);
    for (const double one : out)
        text += " " + digits(one);
    return text + "\n";
}

/// What the lines before the definitions say: `@ spoons metric`, `@ density NAME LOW TYPICAL HIGH`,
/// `@ vessel VALUE`.
struct Told {
    units::Spoons spoons = units::Spoons::unstated;
    std::map<std::string, Unknown> densities;
    std::optional<double> vessel;
};

Told before(const std::string& question) {
    Told told;
    std::istringstream lines(question);
    for (std::string line; std::getline(lines, line);) {
        if (!line.starts_with("@ ")) continue;
        const std::vector<std::string> w = words(line);
        if (w.at(1) == "vessel") told.vessel = figure(w.at(2));
        if (w.at(1) == "spoons")
            told.spoons = w.at(2) == "metric" ? units::Spoons::metric : units::Spoons::imperial;
        if (w.at(1) == "density")
            told.densities[w.at(2)] = {w.at(2) + "'s density",
                                       figure(w.at(3)),
                                       figure(w.at(4)),
                                       figure(w.at(5)),
                                       {},
                                       "the larder"};
    }
    return told;
}

/// Definitions `name = expression`, weighed with `*` before the name, weighed later with `~`; then
/// lines of what is done to the sheet.
std::string of_sheet(const std::string& question) {
    const Told given = before(question);
    language::Findings findings;
    Builder b(findings, given.spoons);
    std::string out;
    std::map<CellId, UnknownId> densities;
    b.hooks.true_density = [&](CellId id) -> std::optional<UnknownId> {
        const auto density = given.densities.find(b.cell(id).name);
        if (density == given.densities.end()) return std::nullopt;
        const auto [known, fresh] = densities.emplace(id, 0);
        if (fresh) known->second = b.add_unknown(density->second);
        return known->second;
    };
    b.hooks.assumed_measure = [&](units::UnitId id, language::Place place) {
        out += fmt::format("    which {}? at {}\n", units::unit(id).symbol, place.begin);
    };
    if (given.vessel) {
        const CellId room = b.declare("room", {}, false);
        b.define(room, Formula::of_constant(*given.vessel), {units::dim::volume, {}});
        b.hooks.vessel = room;
    }
    std::vector<std::string> deeds;
    std::istringstream lines(question);
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("@ ")) continue;
        if (line.starts_with("! ")) {
            deeds.push_back(line.substr(2));
            continue;
        }
        const std::size_t equals = line.find(" = ");
        const bool weighed = line.front() == '*' || line.front() == '~';
        const std::string name = line.substr(weighed ? 1 : 0, equals - (weighed ? 1 : 0));
        const CellId id = b.define_text(name, line.substr(equals + 3), weighed);
        if (line.front() == '~') b.expect(id);
    }
    const bool good = b.resolve();
    // Each place is one in its own expression.
    if (!good) return out + told(language::Source("sheet", ""), findings);
    Sheet s = b.build();
    for (CellId id = 0; id < s.size(); ++id) {
        out += fmt::format("    {}: {}; uses", s.cell(id).name, describe(s.cell(id).type));
        for (const CellId used : s.dependencies(id))
            out += " " + s.cell(used).name;
        out += "; used by";
        for (const CellId user : s.dependents(id))
            out += " " + s.cell(user).name;
        out += "; " + print_for_parser(s.cell(id).formula, s.unknowns()) + "\n";
    }
    out += of_all(s);
    for (const std::string& deed : deeds)
        out += "  " + deed + "\n" + done(s, deed);
    return out;
}

/// An expression among a few lines of a recipe.
std::string of_expression(const std::string& text) {
    language::Findings findings;
    Builder b(findings);
    b.define_text("cabbage", "1.8 kg ± 20 g");
    b.define_text("carrot", "200..300 g");
    b.define_text("packed", "0.85..0.95 kg/L");
    b.define_text("cellar", "4 °C");
    b.define_text("part", "0.25..0.5");
    b.define_text("cold", "cellar < 10 °C");
    b.define_text("open", "carrot > 250 g");
    b.define_text("none", "0 g");
    const CellId id = b.define_text("x", text);
    if (!b.resolve()) return told(language::Source("text", text), findings);
    Sheet s = b.build();
    return fmt::format("{}, {}\n{}", describe(s.cell(id).type),
                       print_for_parser(s.cell(id).formula, s.unknowns()), of_cell(s, id));
}

constexpr std::array all{Sort{"sheets", of_sheet}, Sort{"expressions", of_expression}};

} // namespace

std::span<const Sort> sheet_sorts() {
    return all;
}

} // namespace jarful::test
