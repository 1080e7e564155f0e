#include "engine/kitchen/fitting.hpp"

#include "engine/kitchen/fewest.hpp"
#include "engine/units/amount.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace jarful::kitchen {

namespace {

/// Fills the vessels that take something, each to the same part of it.
void fill(Fit& f, const std::vector<Vessel>& vessels, const Headspace& headspace) {
    double room = 0;
    for (const Filled& each : f.filled)
        room += each.usable_ml;
    // What is short by no more than the noise of the arithmetic fits.
    const bool fits = f.volume_ml <= room * (1 + 1e-9);
    const double part = room > 0 ? std::min(1.0, f.volume_ml / room) : 0;
    for (Filled& each : f.filled) {
        const Vessel& v = vessels[each.vessel];
        each.fill_ml = part * each.usable_ml;
        const double level_ml = each.fill_ml + v.weights_ml;
        each.full = level_ml / v.brimful_ml;
        if (!v.area_cm2) continue;
        each.level_cm = level_ml / *v.area_cm2;
        each.headspace_cm = (v.brimful_ml - level_ml) / *v.area_cm2;
    }
    f.unplaced_ml = fits ? 0 : f.volume_ml - room;
    f.empty_ml = fits ? std::max(0.0, room - f.volume_ml) : 0;
    if (fits) return;
    if (headspace.height_cm <= 0) {
        f.rest_brimful_ml = f.unplaced_ml / (1 - headspace.share);
        return;
    }
    for (std::size_t i = 0; i < vessels.size(); ++i) {
        if (!vessels[i].area_cm2) continue;
        if (!f.rest_as_wide_as || *vessels[i].area_cm2 > *vessels[*f.rest_as_wide_as].area_cm2)
            f.rest_as_wide_as = i;
    }
    if (!f.rest_as_wide_as) return;
    f.rest_brimful_ml =
        std::max(f.unplaced_ml / (1 - headspace.share),
                 f.unplaced_ml + headspace.height_cm * *vessels[*f.rest_as_wide_as].area_cm2);
}

std::string why_left_over(const Fit& f, bool all, units::Shown shown) {
    if (f.unplaced_ml <= 0) return {};
    if (f.filled.empty()) return "No vessel can be used.";
    double room = 0;
    for (const Filled& each : f.filled)
        room += each.usable_ml;
    return fmt::format("It fills {}, and under their headspace {} take {}.",
                       units::print_volume(f.volume_ml, shown),
                       all ? "all usable vessels of the kitchen together" : "these vessels",
                       units::print_volume(room, shown));
}

} // namespace

std::optional<double> usable_ml(const Vessel& vessel, const Headspace& headspace,
                                std::string* why) {
    double free_ml = headspace.share * vessel.brimful_ml;
    if (headspace.height_cm > 0) {
        if (!vessel.area_cm2) {
            if (why != nullptr)
                *why = "has no width: a headspace in cm needs `across` or `section` on its line";
            return std::nullopt;
        }
        free_ml = std::max(free_ml, headspace.height_cm * *vessel.area_cm2);
    }
    const double usable = vessel.brimful_ml - free_ml - vessel.weights_ml;
    // Less than a thousandth of the vessel is the noise of the arithmetic, or no use to anybody.
    if (!(usable > 1e-3 * vessel.brimful_ml)) {
        if (why != nullptr)
            *why = vessel.weights_ml > 0 ? "has no room left under its headspace and its weights"
                                         : "has no room left under its headspace";
        return std::nullopt;
    }
    return usable;
}

Fit fit(const std::vector<Vessel>& vessels, const Headspace& headspace, double volume_ml,
        units::Shown shown) {
    Fit f;
    if (!(volume_ml > 0) || !std::isfinite(volume_ml)) return f;
    f.volume_ml = volume_ml;
    std::vector<Room> rooms;
    std::vector<std::size_t> vessel_of;
    for (std::size_t i = 0; i < vessels.size(); ++i) {
        std::string why;
        const auto usable = usable_ml(vessels[i], headspace, &why);
        if (!usable) {
            f.passed_over.push_back({i, std::move(why)});
        } else if (vessels[i].have > 0) {
            rooms.push_back({*usable, vessels[i].have});
            vessel_of.push_back(i);
        }
    }
    const Choice choice = fewest(rooms, volume_ml);
    f.exact = choice.exact;
    for (std::size_t r = 0; r < rooms.size(); ++r) {
        for (int n = 0; n < choice.times[r]; ++n) {
            Filled each;
            each.vessel = vessel_of[r];
            each.usable_ml = rooms[r].ml;
            f.filled.push_back(each);
        }
    }
    fill(f, vessels, headspace);
    f.why = why_left_over(f, true, shown);
    return f;
}

Fit fill_evenly(const std::vector<Vessel>& vessels, const std::vector<std::size_t>& chosen,
                const Headspace& headspace, double volume_ml, units::Shown shown) {
    Fit f;
    if (!(volume_ml > 0) || !std::isfinite(volume_ml)) return f;
    f.volume_ml = volume_ml;
    for (std::size_t i : chosen) {
        std::string why;
        const auto usable = usable_ml(vessels[i], headspace, &why);
        if (!usable) {
            const auto told = [&](const PassedOver& p) { return p.vessel == i; };
            if (std::none_of(f.passed_over.begin(), f.passed_over.end(), told))
                f.passed_over.push_back({i, std::move(why)});
            continue;
        }
        Filled each;
        each.vessel = i;
        each.usable_ml = *usable;
        f.filled.push_back(each);
    }
    fill(f, vessels, headspace);
    f.why = why_left_over(f, false, shown);
    return f;
}

} // namespace jarful::kitchen
