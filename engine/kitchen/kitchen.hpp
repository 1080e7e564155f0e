#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"
#include "engine/larder/house.hpp"
#include "engine/larder/larder.hpp"
#include "engine/sheet/formula.hpp"
#include "engine/units/amount.hpp"
#include "engine/units/display.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

/// The cook's own kitchen: what weighs and what holds.
namespace jarful::kitchen {

/// A scale as its maker describes it. Grams.
struct Scale {
    std::string name;
    double step_g = 1;
    double capacity_g = 5000;
    double tolerance_g = 1; ///< the display's figure, before it is rounded, is at most so far off
    double bowl_g = 0;      ///< the empty bowl that stands on it, tared; 0: nothing is said of one
    double use = 1;         ///< so much of the capacity, from above 0 to 1
    /// How far the truth may lie from one reading: tolerance and half a step.
    [[nodiscard]] double error_g() const { return tolerance_g + step_g / 2; }
    /// What it may carry, whatever stands on it included.
    [[nodiscard]] double most_g() const { return use * capacity_g; }
    /// What may be weighed at once: a scale is tared, but it carries the bowl all the same.
    [[nodiscard]] double room_g() const { return most_g() - bowl_g; }
};

/// A jar or crock. The inner area is what turns a height into a volume.
struct Vessel {
    std::string name;
    bool crock = false;
    double brimful_ml = 0;
    std::optional<double> area_cm2;
    double weights_ml = 0; ///< room that the weights take
    int have = 1;
};

/// A `let` of the kitchen, worked out.
struct Constant {
    std::string name;
    sheet::Type type;
    double value = 0;
    units::Interval bounds;
};

struct Kitchen {
    std::string name;
    bool built_in = false; ///< nobody has described a kitchen
    std::vector<Scale> scales;
    std::vector<Vessel> vessels;
    units::Spoons spoons = units::Spoons::unstated;
    units::Shown shown; ///< what is printed for people, and how fine
    std::optional<double> room_kelvin;
    std::vector<Constant> constants;
    std::vector<larder::OwnMaterial> materials; ///< those of the house first
    std::shared_ptr<const larder::House> house; ///< of the book; empty if it has no house file
};

/// How warm the kitchen is, in °C; empty if it has no `room` line.
[[nodiscard]] inline std::optional<double> room_celsius(const Kitchen& kitchen) {
    if (!kitchen.room_kelvin) return std::nullopt;
    return *kitchen.room_kelvin - units::zero_celsius;
}

/// In which units a cook of this kitchen reads: as was asked for in so many words, else as its
/// `units` line says, else in metric ones; and no finer than its scales, which may have been
/// changed since it was read.
[[nodiscard]] units::Shown shown_units(const Kitchen& kitchen, std::optional<units::Shown> asked);

/// The materials of a house file, for the front of a kitchen's.
[[nodiscard]] std::vector<larder::OwnMaterial> house_materials(const language::Document& document,
                                                               language::Findings& findings);

/// One scale that reads 1 g up to 5 kg within 1 g, so that nobody has to write a kitchen first.
[[nodiscard]] Kitchen default_kitchen();

/// A kitchen from a parsed file of FileKind::kitchen. Faults: an amount of the wrong dimension or
/// out of any sane range, a name twice, a `let` that cannot be worked out. A kitchen without a
/// `scale` line gets the default one.
[[nodiscard]] Kitchen read_kitchen(const language::Document& document,
                                   language::Findings& findings);

/// A `material` line of any file as an entry for the larder.
[[nodiscard]] larder::OwnMaterial read_material(const language::MaterialLine& line,
                                                language::Findings& findings);

} // namespace jarful::kitchen
