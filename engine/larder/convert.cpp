#include "engine/larder/convert.hpp"

#include "engine/larder/convert_parts.hpp"
#include "engine/larder/fold.hpp"

#include <algorithm>
#include <cmath>

namespace jarful::larder {

namespace {

using conversion::Portion;
using conversion::Route;
using conversion::Task;
using conversion::Way;
using units::Amount;
using units::CompoundUnit;
using units::Dimension;
using units::Spoons;
namespace dim = units::dim;

std::string in_quotes(std::string_view text) {
    return "\"" + std::string(text) + "\"";
}

class Converter {
  public:
    Converter(const ConversionRequest& request, const Larder& larder)
        : larder_(larder) {
        task_.measures = request.measures;
        if (auto words = conversion::take_apart(request, larder, fault_)) {
            task_.words = std::move(*words);
            understood_ = true;
        }
    }

    ConversionOutcome run() {
        if (!understood_ || !settle()) return {std::nullopt, std::move(fault_)};
        const auto result = conversion::reckon(task_);
        if (!result) {
            refuse("out-of-range", "That comes to no sensible figure.", "Check the amounts.");
            return {std::nullopt, std::move(fault_)};
        }
        Conversion out;
        out.from = conversion::words_of_task(task_);
        out.to = task_.to.text();
        out.result = *result;
        out.material = task_.material;
        out.measures = task_.measures;
        out.measures_matter = task_.measures_matter;
        conversion::explain(task_, out);
        return {std::move(out), std::nullopt};
    }

  private:
    const Larder& larder_;
    Task task_;
    bool understood_ = false;
    ConversionFault fault_;

    bool refuse(std::string_view code, std::string message, std::string advice,
                std::vector<std::string> nearest = {}) {
        fault_ = {std::string(code), std::move(message), std::move(advice), std::move(nearest)};
        return false;
    }

    /// Settles what is meant.
    bool settle() {
        if (!name(task_.words.what, task_.material)) return false;
        if (task_.words.per && !name(*task_.words.per, task_.per_material)) return false;
        return choose_target() && choose_routes() && measures_known();
    }

    // ---- what is meant ----------------------------------------------------------------------

    bool name(const Portion& part, const Material*& into) {
        if (part.material.empty()) return true;
        into = larder_.named(part.material);
        if (into == nullptr) {
            std::vector<std::string> names = like(part.material, nullptr);
            if (names.empty()) names = common_materials();
            return refuse("unknown-material",
                          "The larder has nothing called " + in_quotes(part.material) + ".",
                          "A kitchen's or a recipe's `material` line can say how heavy it is.",
                          std::move(names));
        }
        return true;
    }

    /// Names that may be meant: misspelt ones first, then those that share a word. With `besides`,
    /// only what can be converted.
    std::vector<std::string> like(std::string_view wanted, const Material* besides) const {
        constexpr std::size_t most = 6;
        std::vector<std::string> out;
        std::vector<const Material*> seen;
        const auto add = [&](const Material& m, std::string_view shown) {
            if (out.size() >= most || &m == besides || m.vague) return;
            if (!m.bulk_density || m.warning >= SaltWarning::reduced_sodium) return;
            if (std::find(seen.begin(), seen.end(), &m) != seen.end()) return;
            seen.push_back(&m);
            out.emplace_back(shown);
        };
        if (besides == nullptr) {
            for (const std::string_view near : larder_.offered(wanted, most)) {
                if (const Material* material = larder_.named(near)) add(*material, near);
            }
        }
        const std::string folded = singular(fold(wanted));
        for (const std::string_view word : words_of(folded)) {
            if (word.size() < 4) continue;
            for (const Material& m : materials()) {
                const std::string known = singular(fold(m.name));
                const auto parts = words_of(known);
                if (std::find(parts.begin(), parts.end(), word) != parts.end()) add(m, m.name);
            }
        }
        return out;
    }

    static std::vector<std::string> common_materials() {
        return {
            "canning salt", "fine sea salt", "coarse dense kosher salt", "coarse flake kosher salt",
            "caraway seed", "water"};
    }

    // ---- into which unit --------------------------------------------------------------------

    static CompoundUnit unit_called(std::string_view symbol) {
        return units::read_unit(symbol).value_or(CompoundUnit::of(0));
    }

    bool choose_target() {
        const Amount& amount = task_.words.what.amount;
        if (task_.words.to) {
            task_.to = *task_.words.to;
        } else if (task_.words.per) {
            task_.to = unit_called("%");
        } else if (amount.plain_number) {
            if (!task_.material) return nothing_counted();
            task_.to = unit_called("g");
        } else if (amount.dimension == dim::volume && task_.material) {
            task_.to = unit_called("g");
        } else if (amount.dimension == dim::volume) {
            return no_material(task_.words.what);
        } else if (amount.dimension == dim::mass && task_.material) {
            task_.to = spoon_for(amount);
        } else if (const auto usual = counterpart(amount)) {
            task_.to = unit_called(*usual);
        } else {
            return refuse("missing-unit", "It is not said what to convert into.",
                          "Write `to` and a unit at the end.");
        }
        return true;
    }

    bool nothing_counted() {
        return refuse("missing-unit",
                      "The number " + task_.words.what.words +
                          " has no unit, and stands for nothing.",
                      "Write a unit behind it, or a material: `3 carrots`.");
    }

    bool no_material(const Portion& part) {
        return refuse("no-material",
                      task_.words.what.words == part.words
                          ? "How heavy " + part.words + " is depends on what it holds."
                          : "How heavy the " + part.words +
                                " after `per` is depends on what it "
                                "holds.",
                      task_.words.what.words == part.words
                          ? "Name the material, or write `to` with a unit of volume, such as `to "
                            "mL`."
                          : "Name it: `per " + part.words + " water`.",
                      common_materials());
    }

    /// The spoon or cup in which a cook would measure a weight of the material.
    [[nodiscard]] CompoundUnit spoon_for(const Amount& amount) const {
        if (!task_.material->bulk_density) return unit_called("tbsp");
        const double ml = amount.value / task_.material->bulk_density->typical;
        if (ml < 12) return unit_called("tsp");
        if (ml < 60) return unit_called("tbsp");
        // There is no imperial cup.
        return unit_called(task_.measures == Measures::imperial ? "mL" : "cup");
    }

    /// The unit on the other side of the ocean.
    static std::optional<std::string_view> counterpart(const Amount& amount) {
        const auto id = amount.unit.single();
        const std::string_view symbol = id ? units::unit(*id).symbol : "";
        const double size = std::abs(amount.value);
        if (amount.percent) return "g/kg";
        if (amount.dimension.plain()) return "%";
        if (symbol == "°C") return "°F";
        if (symbol == "°F") return "°C";
        if (symbol == "lb" || symbol == "oz") return size < 1000 ? "g" : "kg";
        if (amount.dimension == dim::mass) return size < units::unit(4).factor ? "oz" : "lb";
        if (symbol == "in") return "cm";
        if (amount.dimension == dim::length) return "in";
        return std::nullopt;
    }

    // ---- by which way -----------------------------------------------------------------------

    /// The ways that are open to a portion, the one that a weight wants first.
    static std::vector<Route> routes(const Amount& amount, const Material* material,
                                     Dimension wanted) {
        std::vector<Route> out;
        const bool volume = amount.dimension == dim::volume;
        const bool mass = amount.dimension == dim::mass;
        const bool counted = amount.plain_number || amount.dimension == dim::count;
        if (material && volume) out.push_back({Way::by_density, dim::mass});
        if (material && counted) out.push_back({Way::by_piece, dim::mass});
        if (material && mass && wanted == dim::volume) {
            out.push_back({Way::into_volume, dim::volume});
        }
        if (!(material && amount.plain_number)) {
            out.push_back({Way::as_written, amount.dimension});
        }
        return out;
    }

    bool choose_routes() {
        const Dimension wanted = task_.to.dimension().value_or(Dimension{});
        const Amount& amount = task_.words.what.amount;
        if (task_.words.per &&
            (amount.temperature_point || task_.words.per->amount.temperature_point)) {
            return refuse("dimension", "A temperature cannot stand on either side of `per`.", "");
        }
        if (!task_.words.per) {
            for (const Route& route : routes(amount, task_.material, wanted)) {
                if (route.dimension != wanted) continue;
                task_.what_route = route;
                return figure_known(task_.words.what, task_.material, route.way);
            }
            return mismatch(amount.dimension, wanted);
        }
        const Amount& per = task_.words.per->amount;
        for (const Route& a : routes(amount, task_.material, {})) {
            for (const Route& b : routes(per, task_.per_material, {})) {
                // A ratio of volumes is no salt percentage: it would pass for one.
                const bool volumes = a.dimension == dim::volume && b.dimension == dim::volume;
                if (volumes || units::divide(a.dimension, b.dimension) != wanted) continue;
                task_.what_route = a;
                task_.per_route = b;
                return figure_known(task_.words.what, task_.material, a.way) &&
                       figure_known(*task_.words.per, task_.per_material, b.way);
            }
        }
        if (amount.dimension == dim::volume && !task_.material)
            return no_material(task_.words.what);
        if (per.dimension == dim::volume && !task_.per_material && wanted.plain()) {
            fault_ = {};
            no_material(*task_.words.per);
            fault_.nearest = {"water"};
            return false;
        }
        const auto ratio = units::divide(amount.dimension, per.dimension);
        return mismatch(ratio.value_or(amount.dimension), wanted);
    }

    bool mismatch(Dimension have, Dimension wanted) {
        const bool weight_and_volume = (have == dim::volume && wanted == dim::mass) ||
                                       (have == dim::mass && wanted == dim::volume);
        if (weight_and_volume && !task_.material) {
            return refuse("no-material",
                          "How many " + task_.to.text() + " " + task_.words.what.words +
                              (have == dim::volume ? " weighs" : " fills") +
                              " depends on the material.",
                          "Name it: `" + task_.words.what.words + " canning salt to " +
                              task_.to.text() + "`.",
                          common_materials());
        }
        return refuse("dimension",
                      in_quotes(task_.words.what.words) + " is " + units::describe(have) +
                          ", and " + task_.to.text() + " is a unit for " + units::describe(wanted) +
                          ".",
                      "Write `to` with a unit of the same sort.");
    }

    bool figure_known(const Portion& part, const Material* material, Way way) {
        if (way == Way::as_written) return true;
        const std::string called = std::string(material->name);
        if (way == Way::by_piece) {
            if (material->piece) return true;
            return refuse("no-piece", "The larder does not know how heavy one " + called + " is.",
                          "Weigh it, and write the weight.");
        }
        if (!material->bulk_density) {
            std::string advice = "Weigh it.";
            if (const auto warning = warning_words(material->warning); !warning.empty()) {
                advice += " " + std::string(warning);
            }
            return refuse("no-density",
                          "The larder does not know how heavy a spoon of " + called + " is.",
                          std::move(advice), like(part.material, material));
        }
        if (!material->vague) return true;
        const Figure& f = *material->bulk_density;
        // A slip in a salt's name leaves plain "salt": then the name that was meant comes first.
        std::vector<std::string> names = like(part.material, nullptr);
        return refuse("vague-material",
                      in_quotes(called) +
                          " does not say which: a tablespoon of it may be anything "
                          "from " +
                          units::print_number(std::floor(f.low * 14.79), 3) + " to " +
                          units::print_number(std::ceil(f.high * 15), 3) + " g.",
                      material->vague_hint.empty()
                          ? "Say which, or weigh it."
                          : "Weigh it, or " + std::string(material->vague_hint) + ".",
                      std::move(names));
    }

    // ---- spoons -----------------------------------------------------------------------------

    bool measures_known() {
        const auto matters = [&](const Portion& part) { return part.amount.bare_measure; };
        task_.measures_matter = matters(task_.words.what) ||
                                (task_.words.per && matters(*task_.words.per)) ||
                                task_.to.bare_measure();
        if (task_.measures != Measures::label || !task_.measures_matter) return true;
        for (const Portion* part :
             {&task_.words.what, task_.words.per ? &*task_.words.per : nullptr}) {
            if (part == nullptr || !part->amount.bare_measure) continue;
            if (!conversion::label_ratio(part->amount.unit))
                return not_on_labels(part->amount.unit);
            if (!conversion::in_one_unit(part->amount)) {
                return refuse("amount",
                              in_quotes(part->words) + " mixes measures, which a label does not.",
                              "Write it in one measure.");
            }
        }
        return conversion::label_ratio(task_.to) ? true : not_on_labels(task_.to);
    }

    bool not_on_labels(const CompoundUnit& unit) {
        return refuse(
            "measures", "The rule for labels does not say what " + unit.text() + " means.",
            "It names tsp, tbsp, floz and cup. Write `us " + unit.text() + "` if that is meant.");
    }
};

} // namespace

std::optional<Measures> find_measures(std::string_view word) {
    for (const Measures measures :
         {Measures::us, Measures::metric, Measures::imperial, Measures::label}) {
        if (word == describe(measures)) return measures;
    }
    return std::nullopt;
}

std::string_view describe(Measures measures) {
    switch (measures) {
    case Measures::us:
        return "us";
    case Measures::metric:
        return "metric";
    case Measures::imperial:
        return "imperial";
    case Measures::label:
        return "label";
    case Measures::unstated:
        break;
    }
    return "";
}

Measures measures_of(units::Spoons spoons) {
    switch (spoons) {
    case Spoons::us:
        return Measures::us;
    case Spoons::metric:
        return Measures::metric;
    case Spoons::imperial:
        return Measures::imperial;
    case Spoons::unstated:
        break;
    }
    return Measures::unstated;
}

ConversionOutcome convert(const ConversionRequest& request, const Larder& larder) {
    return Converter(request, larder).run();
}

} // namespace jarful::larder
