#include "engine/render/json_jars.hpp"

#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

Json optional(const std::optional<double>& value) {
    return value ? json_number(*value) : Json(nullptr);
}

Json item(const plan::JarItem& item) {
    Json out{{"name", item.name},
             {"label", json_text(item.label)},
             {"material", json_text(item.material)},
             {"role", item.role ? Json(larder::describe(*item.role)) : Json(nullptr)},
             {"optional", item.fate == plan::Fate::optional},
             {"fate", plan::key(item.fate)}};
    if (item.pieces) {
        out["count"] = *item.pieces;
        return out;
    }
    const bool weighed = !item.later && !item.too_small;
    Json portions = Json::array();
    for (const plan::Portion& portion : item.portions)
        if (weighed && portion.reading_g > 0)
            portions.push_back(
                Json{{"scale", portion.scale}, {"reading_g", json_number(portion.reading_g)}});
    out["exact_g"] = json_number(item.exact_g);
    out["reading_g"] = item.later ? Json(nullptr) : json_number(item.reading_g);
    out["step_g"] = json_number(item.step_g);
    out["scale"] = json_text(item.scale);
    out["low_g"] = json_low(item.truth);
    out["high_g"] = json_high(item.truth);
    out["too_small"] = item.too_small;
    out["portions"] = std::move(portions);
    return out;
}

Json items(const std::vector<plan::JarItem>& list) {
    Json out = Json::array();
    for (const plan::JarItem& each : list)
        out.push_back(item(each));
    return out;
}

Json jar(const plan::JarShare& jar) {
    return Json{{"name", jar.name},
                {"crock", jar.crock},
                {"brimful_ml", json_number(jar.brimful_ml)},
                {"usable_ml", json_number(jar.usable_ml)},
                {"weights_ml", json_number(jar.weights_ml)},
                {"fill_ml", json_number(jar.fill_ml)},
                {"full_percent", json_number(jar.full_percent)},
                {"level_cm", optional(jar.level_cm)},
                {"headspace_cm", optional(jar.headspace_cm)},
                {"airy", jar.airy},
                {"items", items(jar.items)},
                {"mixture", jar.mixture ? item(*jar.mixture) : Json(nullptr)},
                {"salt", jar.salt ? json_salt(*jar.salt) : Json(nullptr)}};
}

} // namespace

nlohmann::ordered_json json_jar_shares(const std::vector<plan::JarShare>& jars) {
    Json out = Json::array();
    for (const plan::JarShare& each : jars)
        out.push_back(jar(each));
    return out;
}

std::string jars_json(const plan::WeighOut& out) {
    const plan::JarChoice& choice = *out.jar_choice;
    Json document;
    document["format"] = "jarful.jars/1";
    document["recipe"] = Json{{"title", out.title},
                              {"version", out.version ? Json(*out.version) : Json(nullptr)},
                              {"kind", json_text(out.kind)},
                              {"method", json_text(out.method)}};
    document["kitchen"] = Json{{"name", out.kitchen}, {"built_in", out.kitchen_built_in}};
    document["verdict"] = out.verdict ? Json(plan::describe(*out.verdict)) : Json(nullptr);
    document["left_out"] = out.left_out;
    document["by_name"] = choice.by_name;
    document["volume_ml"] = json_number(choice.volume_ml);
    document["headspace_percent"] = optional(choice.headspace_percent);
    document["headspace_cm"] = optional(choice.headspace_cm);
    document["jars"] = json_jar_shares(out.jars);
    document["empty_ml"] = json_number(choice.empty_ml);
    document["best"] = choice.best;
    document["more_air"] = choice.more_air;
    document["unplaced_g"] = json_number(choice.unplaced_g);
    document["unplaced_ml"] = json_number(choice.unplaced_ml);
    document["why"] = json_text(choice.why);
    document["left_over"] = items(choice.left_over);
    document["left_mixture"] = choice.left_mixture ? item(*choice.left_mixture) : Json(nullptr);
    document["would_take"] = choice.rest_brimful_ml
                                 ? Json{{"brimful_ml", json_number(*choice.rest_brimful_ml)},
                                        {"as_wide_as", json_text(choice.rest_as_wide_as)}}
                                 : Json(nullptr);
    Json passed = Json::array();
    for (const auto& each : choice.passed_over)
        passed.push_back(Json{{"name", each.name}, {"why", each.why}});
    document["passed_over"] = std::move(passed);
    Json cautions = Json::array();
    for (const plan::Warning& warning : out.cautions)
        cautions.push_back(Json{{"id", warning.id},
                                {"title", warning.title},
                                {"text", warning.text},
                                {"source", json_text(warning.source)}});
    document["cautions"] = std::move(cautions);
    document["assumptions"] = out.assumptions;
    return dumped(document);
}

} // namespace jarful::render
