#include "engine/larder/convert.hpp"

#include <algorithm>

namespace jarful::larder {

namespace {

/// mL of a spoon as the kitchen means it: least, ruling, most.
Spread spoon(std::string_view symbol, Measures measures) {
    const units::UnitId id = units::find_unit(symbol).value_or(0);
    const auto in = [&](units::Spoons spoons) {
        return units::unit(units::resolve_measure(id, spoons)).factor;
    };
    const double us = in(units::Spoons::us);
    const double metric = in(units::Spoons::metric);
    switch (measures) {
    case Measures::us:
        return {us, us, us};
    case Measures::metric:
    case Measures::label: // the same spoons: 5 and 15 mL
        return {metric, metric, metric};
    case Measures::imperial: {
        const double imperial = in(units::Spoons::imperial);
        return {imperial, imperial, imperial};
    }
    case Measures::unstated:
        break;
    }
    return {us, us, metric};
}

Spread weight(const Spread& ml, const Figure& density) {
    return {ml.low * density.low, ml.typical * density.typical, ml.high * density.high};
}

int group(const SaltGrain& grain) {
    if (!grain.tablespoon) return 2;
    return grain.material->vague ? 1 : 0;
}

} // namespace

std::vector<SaltGrain> compare_salts(Measures measures) {
    const Spread tsp = spoon("tsp", measures);
    const Spread tbsp = spoon("tbsp", measures);
    const Larder larder;
    const auto table = larder.find("fine table salt");
    const Figure* const fine =
        table && table->material->bulk_density ? &*table->material->bulk_density : nullptr;
    std::vector<SaltGrain> out;
    for (const Material& material : materials()) {
        if (material.role != Role::salt) continue;
        SaltGrain grain;
        grain.material = &material;
        if (const auto& density = material.bulk_density) {
            grain.teaspoon = weight(tsp, *density);
            grain.tablespoon = weight(tbsp, *density);
            // The same spoon is used for both, so that its size falls out. Two spoons of the same
            // salt hold the same however loose it lies.
            if (fine == &*density) {
                grain.replaces = Spread{1, 1, 1};
            } else if (fine != nullptr) {
                grain.replaces = Spread{fine->low / density->high, fine->typical / density->typical,
                                        fine->high / density->low};
            }
        }
        out.push_back(grain);
    }
    std::stable_sort(out.begin(), out.end(), [](const SaltGrain& a, const SaltGrain& b) {
        if (group(a) != group(b)) return group(a) < group(b);
        if (!a.tablespoon) return false;
        return a.tablespoon->typical > b.tablespoon->typical;
    });
    return out;
}

std::string_view warning_words(SaltWarning warning) {
    switch (warning) {
    case SaltWarning::may_cloud:
        return "Its additives may cloud the brine; that does no harm.";
    case SaltWarning::not_recommended:
        return "Not recommended for ferments.";
    case SaltWarning::reduced_sodium:
        return "Not for a ferment: it is partly potassium chloride, and never counted as salt "
               "here.";
    case SaltWarning::curing:
        return "Never for vegetables.";
    case SaltWarning::none:
        break;
    }
    return "";
}

} // namespace jarful::larder
