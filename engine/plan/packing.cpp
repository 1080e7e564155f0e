#include "engine/plan/packing.hpp"

#include <algorithm>

namespace jarful::plan {

namespace {

bool chooses_jars(const Request& request, const kitchen::Kitchen& kitchen) {
    const auto about_room = [](const Setting& setting) {
        return setting.name == "jar" || setting.name == "fill";
    };
    return !kitchen.vessels.empty() &&
           std::none_of(request.settings.begin(), request.settings.end(), about_room);
}

/// The kitchen with only those of its jars that were named, each as often as it was.
kitchen::Kitchen with_only(kitchen::Kitchen kitchen, const std::vector<std::string>& names) {
    for (kitchen::Vessel& vessel : kitchen.vessels)
        vessel.have = static_cast<int>(std::count(names.begin(), names.end(), vessel.name));
    return kitchen;
}

} // namespace

std::optional<WeighOut> pack(const language::Document& recipe, const kitchen::Kitchen& kitchen,
                             Request request, language::Findings& findings,
                             RequestFindings& request_findings) {
    request.choose_jars = chooses_jars(request, kitchen);
    if (request.choose_jars) {
        language::Findings found = findings;
        RequestFindings asked;
        auto out = weigh(recipe, kitchen, request, found, asked);
        if (out && out->jar_choice && !out->jar_choice->less_air.empty()) {
            found = findings;
            asked = {};
            out =
                weigh(recipe, with_only(kitchen, out->jar_choice->less_air), request, found, asked);
        }
        const auto& all = found.all();
        const bool only_room = std::any_of(
            all.begin(), all.end(), [](const auto& finding) { return finding.code == "no-fill"; });
        if (out || !only_room) {
            findings = std::move(found);
            request_findings = std::move(asked);
            return out;
        }
        request.choose_jars = false;
    }
    return weigh(recipe, kitchen, request, findings, request_findings);
}

bool all_well(const WeighOut& out) {
    const bool too_much =
        !out.chosen_jars.empty() && out.room && out.room->fill_ml > out.usable_ml * (1 + 1e-9);
    const bool kept = out.verdict.value_or(Verdict::inside) == Verdict::inside;
    return kept && !out.no_reading && !too_much;
}

} // namespace jarful::plan
