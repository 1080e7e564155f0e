#include "engine/kitchen/kitchen.hpp"

#include "engine/sheet/builder.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace jarful::kitchen {

using language::Findings;
using language::Literal;
using units::Dimension;

namespace {

/// Checks one literal: dimension, sign and size. Returns its value in base units.
std::optional<double> positive(const Literal& literal, Dimension wanted, double most,
                               std::string_view what, Findings& findings, bool zero_too = false) {
    const units::Amount& a = literal.amount;
    if (a.dimension != wanted || a.temperature_point) {
        findings.fault(
            "wrong-dimension", literal.place,
            fmt::format("{} must be {}; this is {}.", what, units::describe(wanted),
                        a.temperature_point ? "a temperature" : units::describe(a.dimension)),
            "Write it with a unit that fits.");
        return std::nullopt;
    }
    if (a.low < 0 || (a.value <= 0 && !zero_too) || a.value > most) {
        findings.fault(
            "absurd-amount", literal.place,
            fmt::format("{} cannot be {}.", what, units::print_value(a.value, a.dimension)),
            "Check the number and the unit.");
        return std::nullopt;
    }
    return a.value;
}

// Larger than anything in a kitchen, small enough to catch a wrong unit.
constexpr double most_grams = 1e6;       // a tonne
constexpr double most_millilitres = 1e6; // a cubic metre
constexpr double most_centimetres = 500;

class Reader {
  public:
    Reader(const language::Document& document, Findings& findings)
        : document_(document)
        , findings_(findings) {}

    Kitchen run() {
        for (const language::Line& line : document_.lines)
            std::visit([&](const auto& s) { take(line, s); }, line.statement);
        if (kitchen_.scales.empty()) kitchen_.scales = default_kitchen().scales;
        kitchen_.shown = shown_units(kitchen_, std::nullopt);
        work_out_constants();
        return std::move(kitchen_);
    }

  private:
    template <class Other>
    void take(const language::Line&, const Other&) {}

    void take(const language::Line&, const language::KitchenHeader& s) {
        kitchen_.name = s.name.value;
    }

    void take(const language::Line&, const language::ScaleLine& s) {
        named(s.name);
        const auto step = positive(s.step, units::dim::mass, 1e5, "A scale's step", findings_);
        const auto most =
            positive(s.capacity, units::dim::mass, most_grams, "A scale's capacity", findings_);
        std::optional<double> tolerance = step;
        if (s.tolerance)
            tolerance = positive(*s.tolerance, units::dim::mass, 1e5, "A scale's tolerance",
                                 findings_, true);
        if (!step || !most || !tolerance) return;
        if (*most < *step) {
            findings_.fault("absurd-amount", s.capacity.place,
                            "This scale carries less than one of its own steps.",
                            "Write it as in `reads 1 g up to 5 kg`.");
            return;
        }
        Scale scale{s.name.value, *step, *most, *tolerance};
        if (take_bowl(s, scale)) kitchen_.scales.push_back(std::move(scale));
    }

    /// How much of the scale is for what is weighed.
    bool take_bowl(const language::ScaleLine& s, Scale& scale) {
        if (s.bowl) {
            const auto bowl =
                positive(*s.bowl, units::dim::mass, most_grams, "An empty bowl", findings_, true);
            if (!bowl) return false;
            scale.bowl_g = *bowl;
        }
        if (s.use) {
            const auto use = positive(*s.use, units::dim::plain, 1,
                                      "What is used of a scale's capacity", findings_);
            if (!use) return false;
            scale.use = *use;
        }
        if (scale.room_g() >= scale.step_g) return true;
        findings_.fault(
            "absurd-amount", s.bowl ? s.bowl->place : s.use->place,
            "This leaves nothing of what the scale carries.",
            "Weigh in a lighter bowl on this scale, or use more of it, as in `up to 5 kg "
            "within 1 g bowl 350 g use 90 %`.");
        return false;
    }

    void take(const language::Line&, const language::VesselLine& s) {
        named(s.name);
        Vessel v;
        v.name = s.name.value;
        v.crock = s.crock;
        const auto brimful = positive(s.brimful, units::dim::volume, most_millilitres,
                                      "What a jar holds", findings_);
        if (s.across) {
            const auto across = positive(*s.across, units::dim::length, most_centimetres,
                                         "The width of a jar", findings_);
            if (across) v.area_cm2 = std::numbers::pi * *across * *across / 4;
        }
        if (s.section) {
            v.area_cm2 = positive(*s.section, units::dim::area, most_centimetres * most_centimetres,
                                  "The area of a jar", findings_);
        }
        if (s.weights)
            v.weights_ml = positive(*s.weights, units::dim::volume, most_millilitres,
                                    "The room that weights take", findings_, true)
                               .value_or(0);
        if (s.have) v.have = s.have->value;
        if (!brimful) return;
        if (v.weights_ml >= *brimful && s.weights) {
            findings_.fault("absurd-amount", s.weights->place,
                            "The weights take more room than the vessel has.",
                            "Check the two volumes.");
            return;
        }
        v.brimful_ml = *brimful;
        kitchen_.vessels.push_back(std::move(v));
    }

    void take(const language::Line& line, const language::SpoonsLine& s) {
        if (kitchen_.spoons != units::Spoons::unstated)
            findings_.fault("duplicate-line", line.keyword, "The spoons are named twice.",
                            "Keep the line that is true.");
        kitchen_.spoons = s.spoons;
    }

    void take(const language::Line& line, const language::UnitsLine& s) {
        if (units_said_)
            findings_.fault("duplicate-line", line.keyword, "The units are named twice.",
                            "Keep the line that is true.");
        units_said_ = true;
        kitchen_.shown.system = s.system;
    }

    void take(const language::Line& line, const language::RoomLine& s) {
        const units::Amount& a = s.temperature.amount;
        if (kitchen_.room_kelvin)
            findings_.fault("duplicate-line", line.keyword, "The room is described twice.",
                            "Keep the line that is true.");
        if (!a.temperature_point) {
            findings_.fault(
                "wrong-dimension", s.temperature.place,
                fmt::format("A room has a temperature; this is {}.", units::describe(a.dimension)),
                "Write it as in `room 19 °C`.");
            return;
        }
        // From deep winter to the hottest attic: anything else is a slip of the pen.
        if (a.value < 233.15 || a.value > 333.15) {
            findings_.fault("absurd-amount", s.temperature.place,
                            fmt::format("No kitchen is at {}.", units::print_temperature(a.value)),
                            "Check the number, and whether it is °C or °F.");
            return;
        }
        kitchen_.room_kelvin = a.value;
    }

    void take(const language::Line&, const language::MaterialLine& s) {
        kitchen_.materials.push_back(read_material(s, findings_));
    }

    void take(const language::Line&, const language::Quantity& q) {
        if (q.word == language::QuantityWord::let) lets_.push_back(&q);
    }

    void named(const language::Word& name) {
        const auto [it, fresh] = names_.emplace(name.value, name.place);
        if (fresh) return;
        language::Diagnostic d;
        d.code = "duplicate-name";
        d.place = name.place;
        d.message = fmt::format("There is already something called \"{}\".", name.value);
        d.advice = "Give one of the two another name.";
        d.related.push_back({it->second, "first written here"});
        findings_.add(std::move(d));
    }

    void work_out_constants() {
        if (lets_.empty()) return;
        Findings own;
        sheet::Builder builder(own, kitchen_.spoons);
        std::vector<sheet::CellId> ids;
        for (const language::Quantity* q : lets_) {
            const sheet::CellId id = builder.declare(q->name.value, q->name.place, false);
            builder.define(id, document_.expressions, q->value);
            ids.push_back(id);
        }
        const bool good = builder.resolve();
        for (const language::Diagnostic& d : own.all())
            findings_.add(d);
        if (!good) return;
        sheet::Sheet sheet = builder.build();
        for (sheet::CellId id : ids) {
            const sheet::Cell& cell = sheet.cell(id);
            if (const auto fault = sheet.fault(id)) {
                findings_.fault("not-finite", fault->place,
                                fmt::format("\"{}\" does not come to a number.", cell.name),
                                "Check for a division by zero.");
                continue;
            }
            kitchen_.constants.push_back(
                {cell.name, cell.type, sheet.value(id), sheet.interval(id)});
        }
    }

    const language::Document& document_;
    Findings& findings_;
    Kitchen kitchen_;
    bool units_said_ = false;
    std::vector<const language::Quantity*> lets_;
    std::map<std::string, language::Place> names_;
};

std::optional<larder::Figure> figure(const std::optional<Literal>& literal, Dimension wanted,
                                     double most, std::string_view what, Findings& findings) {
    if (!literal) return std::nullopt;
    const std::optional<double> value =
        positive(*literal, wanted, most, what, findings, wanted.plain());
    if (!value) return std::nullopt;
    larder::Figure f;
    f.low = literal->amount.low;
    f.typical = *value;
    f.high = literal->amount.high;
    f.status = larder::Status::common_practice;
    f.source = "stated by the cook";
    if (f.high > most) {
        findings.fault("absurd-amount", literal->place, fmt::format("{} goes too high.", what),
                       "Check the number and the unit.");
        return std::nullopt;
    }
    return f;
}

} // namespace

Kitchen default_kitchen() {
    Kitchen k;
    k.name = "built-in kitchen";
    k.built_in = true;
    k.scales.push_back({"scale", 1, 5000, 1});
    return k;
}

units::Shown shown_units(const Kitchen& kitchen, std::optional<units::Shown> asked) {
    units::Shown shown = asked.value_or(kitchen.shown);
    shown.finest_g = 0;
    for (const Scale& scale : kitchen.scales) {
        if (!units::reads_ounces(scale.step_g)) continue;
        shown.finest_g = shown.finest_g > 0 ? std::min(shown.finest_g, scale.step_g) : scale.step_g;
    }
    return shown;
}

Kitchen read_kitchen(const language::Document& document, Findings& findings) {
    return Reader(document, findings).run();
}

std::vector<larder::OwnMaterial> house_materials(const language::Document& document,
                                                 Findings& findings) {
    std::vector<larder::OwnMaterial> out;
    for (const language::Line& line : document.lines)
        if (const auto* m = std::get_if<language::MaterialLine>(&line.statement))
            out.push_back(read_material(*m, findings));
    return out;
}

larder::OwnMaterial read_material(const language::MaterialLine& line, Findings& findings) {
    larder::OwnMaterial own;
    own.name = line.name.value;
    own.role = larder::find_role(line.role.value).value_or(larder::Role::other);
    own.bulk_density = figure(line.density, units::dim::density, 25, "A density (g/mL)", findings);
    own.salt = figure(line.salt, units::dim::plain, 1, "The salt content", findings);
    own.water = figure(line.water, units::dim::plain, 1, "The water content", findings);
    own.piece = figure(line.piece, units::dim::mass, 1e5, "The weight of one", findings);
    if (line.source) own.source = line.source->value;
    return own;
}

} // namespace jarful::kitchen
