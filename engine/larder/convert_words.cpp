#include "engine/larder/convert_parts.hpp"
#include "engine/larder/fold.hpp"
#include "engine/larder/spoon_fill.hpp"

#include <algorithm>

namespace jarful::larder::conversion {

namespace {

using units::CompoundUnit;
using units::Spoons;

constexpr std::string_view label_source =
    "21 CFR 101.9(b)(5)(viii), nutrition labelling: tsp 5 mL, tbsp 15 mL, fl oz 30 mL, cup 240 mL";

const Figure& figure_of(const Material& material, Way way) {
    return way == Way::by_piece ? *material.piece : *material.bulk_density;
}

std::string figure_words(const Material& material, Way way) {
    const Figure& f = figure_of(material, way);
    std::string out(material.name);
    if (way == Way::by_piece) {
        out += ": one " + std::string(material.piece_word.empty() ? "piece" : material.piece_word) +
               " is " + units::print_number(f.typical, 4) + " g";
    } else {
        out += ": " + units::print_number(f.typical, 4) + " g/mL";
    }
    if (f.low < f.high) {
        out += " (" + units::print_number(f.low, 4) + " to " + units::print_number(f.high, 4) + ")";
    }
    out += way == Way::by_piece ? ", small to large" : " as it lies in a spoon or cup";
    return out + ", " + std::string(larder::describe(f.status));
}

class Explainer {
  public:
    Explainer(const Task& task, Conversion& out)
        : task_(task)
        , out_(out) {}

    void run() {
        add_figure(task_.material, task_.what_route.way);
        add_figure(task_.per_material, task_.per_route.way);
        add_notes();
        add_sources();
    }

  private:
    const Task& task_;
    Conversion& out_;

    void add_figure(const Material* material, Way way) {
        if (way == Way::as_written) return;
        const Figure& f = figure_of(*material, way);
        if (!out_.reckoning.empty()) out_.reckoning += "; ";
        out_.reckoning += figure_words(*material, way);
        out_.sources.emplace_back(f.source);
        if (out_.figure) return;
        out_.figure = f;
        out_.by_piece = way == Way::by_piece;
    }

    void add_notes() {
        std::vector<std::string>& notes = out_.notes;
        if (task_.measures_matter && task_.measures == Measures::unstated) assumed_measures();
        missing_measures();
        fills();
        if (out_.figure && out_.figure->status == Status::from_memory &&
            !(task_.material && task_.material->role == Role::water)) {
            notes.emplace_back("The figure is from memory: a spoon of your own, weighed, is "
                               "better.");
        }
        if (task_.words.per && task_.to.percent()) {
            notes.push_back(
                "Percent of the weight of the " + task_.words.per->words +
                (task_.per_material ? " of " + std::string(task_.per_material->name) : "") +
                ", which is 100 %.");
        }
        if (task_.material && task_.material->role == Role::salt) {
            const bool said =
                task_.material->warning == SaltWarning::may_cloud && !task_.material->note.empty();
            const std::string_view warning = warning_words(task_.material->warning);
            if (!said && !warning.empty()) notes.emplace_back(warning);
            if (!task_.material->note.empty()) notes.emplace_back(task_.material->note);
        }
    }

    /// What is taken for a heaped or a scant spoon.
    void fills() {
        for (const Portion* part :
             {&task_.words.what, task_.words.per ? &*task_.words.per : nullptr}) {
            if (part == nullptr || part->fill.empty()) continue;
            const auto fill = spoon_fill(fold(part->fill)).value_or(units::Interval(1.0));
            if (fill.point()) continue;
            out_.notes.push_back(
                "\"" + part->fill + "\" is taken for " + units::print_number(fill.low) + " to " +
                units::print_number(fill.high) + " times a level one: common practice, no source.");
        }
    }

    void assumed_measures() {
        const std::vector<units::UnitId> bare = bare_measures();
        const bool metric = std::any_of(bare.begin(), bare.end(), [](units::UnitId id) {
            return units::resolve_measure(id, Spoons::metric) != id;
        });
        if (metric) {
            out_.notes.emplace_back("Nobody says which spoons and cups: US ones are taken, and the "
                                    "figures reach to the metric ones.");
            return;
        }
        for (const units::UnitId id : bare) {
            out_.notes.push_back("Nobody says which " + std::string(units::unit(id).symbol) +
                                 " is meant: the US one is taken.");
        }
    }

    /// Measures that the chosen system does not have.
    void missing_measures() {
        if (task_.measures != Measures::metric && task_.measures != Measures::imperial) return;
        const Spoons spoons =
            task_.measures == Measures::metric ? Spoons::metric : Spoons::imperial;
        for (const units::UnitId id : bare_measures()) {
            if (units::resolve_measure(id, spoons) != id) continue;
            out_.notes.push_back("There is no " + std::string(larder::describe(task_.measures)) +
                                 " " + std::string(units::unit(id).symbol) +
                                 ": the US one is taken.");
        }
    }

    /// Every bare measure that was used, each once.
    [[nodiscard]] std::vector<units::UnitId> bare_measures() const {
        std::vector<units::UnitId> out;
        for (const units::UnitId id : used_units()) {
            if (units::unit(id).bare_measure) out.push_back(id);
        }
        return out;
    }

    [[nodiscard]] std::vector<units::UnitId> used_units() const {
        std::vector<units::UnitId> out;
        const auto add = [&](units::UnitId id) {
            if (std::find(out.begin(), out.end(), id) == out.end()) out.push_back(id);
        };
        const auto add_all = [&](const CompoundUnit& unit) {
            for (std::size_t i = 0; i < unit.size; ++i)
                add(unit.factors[i].id);
        };
        for (const Portion* part :
             {&task_.words.what, task_.words.per ? &*task_.words.per : nullptr}) {
            if (part == nullptr) continue;
            add_all(part->amount.unit);
            if (part->amount.bare_measure) add(*part->amount.bare_measure);
        }
        add_all(task_.to);
        return out;
    }

    void add_sources() {
        const auto add = [&](std::string_view source) {
            const bool there =
                std::find(out_.sources.begin(), out_.sources.end(), source) != out_.sources.end();
            if (!there && !source.empty()) out_.sources.emplace_back(source);
        };
        for (const units::UnitId id : used_units()) {
            const units::Unit& u = units::unit(id);
            // That a kilogram is a thousand grams needs no document beside others.
            const bool plain = u.symbol == "g" || u.symbol == "kg" || u.symbol == "mg" ||
                               u.symbol == "mL" || u.symbol == "L" || u.symbol == "%" ||
                               u.symbol == "piece";
            if (plain) continue;
            if (!u.bare_measure) {
                add(u.source);
            } else if (task_.measures == Measures::label) {
                add(label_source);
            } else {
                for (const System& system : systems(task_))
                    add(units::unit(units::resolve_measure(id, system.spoons)).source);
            }
        }
        if (out_.sources.empty()) add(units::unit(0).source);
    }
};

} // namespace

std::string words_of_task(const Task& task) {
    const auto words = [](const Portion& part, const Material* material) {
        if (!material) return part.words;
        // "3 carrots" as it was written: the larder has the name of one.
        if (part.amount.plain_number) return part.words + " " + part.material;
        return part.words + " of " + std::string(material->name);
    };
    std::string out = words(task.words.what, task.material);
    if (task.words.per) out += " per " + words(*task.words.per, task.per_material);
    return out;
}

void explain(const Task& task, Conversion& out) {
    Explainer(task, out).run();
}

} // namespace jarful::larder::conversion
