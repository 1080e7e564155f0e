#include "engine/render/convert_report.hpp"
#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

std::string joined(const std::vector<std::string>& parts) {
    std::string out;
    for (const std::string& part : parts)
        out += (out.empty() ? "" : "; ") + part;
    return out;
}

Json spread_json(const larder::Spread& spread) {
    return Json{{"low", json_low({spread.low, spread.high})},
                {"typical", json_number(spread.typical)},
                {"high", json_high({spread.low, spread.high})}};
}

void put(Json& into, const larder::Conversion& c) {
    const units::Interval bounds{c.result.low, c.result.high};
    into["from"] = c.from;
    into["to"] = c.to;
    into["value"] = json_number(c.result.typical);
    into["low"] = json_low(bounds);
    into["typical"] = json_number(c.result.typical);
    into["high"] = json_high(bounds);
    into["source"] = joined(c.sources);
    into["sources"] = c.sources;
    into["status"] = c.figure ? Json(larder::describe(c.figure->status)) : Json("by definition");
    into["material"] = c.material == nullptr ? Json(nullptr) : Json(c.material->name);
    into["figure"] = nullptr;
    if (c.figure) {
        Json figure = spread_json({c.figure->low, c.figure->typical, c.figure->high});
        figure["unit"] = c.by_piece ? "g" : "g/mL";
        into["figure"] = std::move(figure);
    }
    into["spoons"] =
        c.measures_matter ? json_text(std::string(larder::describe(c.measures))) : Json(nullptr);
    into["spoons_assumed"] = c.measures_matter && c.measures == larder::Measures::unstated;
    into["notes"] = c.notes;
}

} // namespace

std::string convert_json(const larder::Conversion& conversion) {
    Json document;
    document["format"] = "jarful.convert/1";
    put(document, conversion);
    return dumped(document);
}

std::string convert_json(std::span<const ConvertedLine> lines) {
    Json conversions = Json::array();
    Json faults = Json::array();
    for (const ConvertedLine& line : lines) {
        Json one;
        one["line"] = line.line;
        one["text"] = line.text;
        if (line.outcome.conversion) {
            put(one, *line.outcome.conversion);
            conversions.push_back(std::move(one));
        } else if (line.outcome.fault) {
            one["code"] = line.outcome.fault->code;
            one["message"] = line.outcome.fault->message;
            one["advice"] = json_text(line.outcome.fault->advice);
            one["nearest"] = line.outcome.fault->nearest;
            faults.push_back(std::move(one));
        }
    }
    Json document;
    document["format"] = "jarful.convert/1";
    document["conversions"] = std::move(conversions);
    document["faults"] = std::move(faults);
    return dumped(document);
}

std::string salts_json(larder::Measures measures) {
    const auto spread = [](const std::optional<larder::Spread>& s) {
        return s ? spread_json(*s) : Json(nullptr);
    };
    const auto warning = [](larder::SaltWarning w) -> Json {
        switch (w) {
        case larder::SaltWarning::may_cloud:
            return "may_cloud";
        case larder::SaltWarning::not_recommended:
            return "not_recommended";
        case larder::SaltWarning::reduced_sodium:
            return "reduced_sodium";
        case larder::SaltWarning::curing:
            return "curing";
        case larder::SaltWarning::none:
            break;
        }
        return nullptr;
    };
    Json salts = Json::array();
    for (const larder::SaltGrain& grain : larder::compare_salts(measures)) {
        const larder::Material& m = *grain.material;
        const auto& density = m.bulk_density;
        salts.push_back(
            Json{{"id", m.id},
                 {"name", m.name},
                 {"vague", m.vague},
                 {"teaspoon_g", spread(grain.teaspoon)},
                 {"tablespoon_g", spread(grain.tablespoon)},
                 {"replaces_tablespoon", spread(grain.replaces)},
                 {"warning", warning(m.warning)},
                 {"warning_text", json_text(std::string(larder::warning_words(m.warning)))},
                 {"note", json_text(std::string(m.note))},
                 {"source", density ? Json(density->source) : Json(nullptr)},
                 {"status", density ? Json(larder::describe(density->status)) : Json(nullptr)}});
    }
    Json document;
    document["format"] = "jarful.salts/1";
    document["spoons"] = json_text(std::string(larder::describe(measures)));
    document["spoons_assumed"] = measures == larder::Measures::unstated;
    document["salts"] = std::move(salts);
    return dumped(document);
}

} // namespace jarful::render
