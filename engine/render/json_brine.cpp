#include "engine/render/brine_report.hpp"
#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

const char* sort_word(larder::BrineAnswer::Sort sort) {
    using Sort = larder::BrineAnswer::Sort;
    switch (sort) {
    case Sort::gauges:
        return "gauges";
    case Sort::mix:
        return "mix";
    case Sort::found:
        return "found";
    case Sort::dilute:
        return "dilute";
    case Sort::strengthen:
        return "strengthen";
    case Sort::too_strong:
        break;
    }
    return "too_strong";
}

Json strength(const std::optional<larder::Strength>& s) {
    if (!s) return nullptr;
    return Json{{"percent_of_brine", json_number(s->percent_of_brine)},
                {"percent_of_water", json_number(s->percent_of_water)},
                {"g_per_l_of_brine", json_number(s->g_per_l_of_brine)},
                {"g_per_l_of_water", json_number(s->g_per_l_of_water)},
                {"salometer", json_number(s->salometer)},
                {"baume", json_number(s->baume)},
                {"specific_gravity", json_number(s->specific_gravity)},
                {"density",
                 {{"low", json_number(s->density.low)},
                  {"typical", json_number(s->density.typical)},
                  {"high", json_number(s->density.high)},
                  {"source", std::string(s->density.source)}}}};
}

Json mix(const std::optional<larder::BrineMix>& m) {
    if (!m) return nullptr;
    return Json{{"salt_g", json_number(m->salt_g)},
                {"water_g", json_number(m->water_g)},
                {"water_ml", json_number(m->water_ml)},
                {"had_g", json_number(m->had_g)},
                {"had_ml", json_number(m->had_ml)},
                {"brine_g", json_number(m->brine_g)},
                {"brine_ml", {{"low", json_low(m->brine_ml)}, {"high", json_high(m->brine_ml)}}},
                {"undissolved_g", json_number(m->undissolved_g)}};
}

Json reading(const std::optional<plan::Item>& item) {
    if (!item) return nullptr;
    Json portions = Json::array();
    if (!item->too_small) {
        for (const plan::Portion& portion : item->portions) {
            portions.push_back(
                Json{{"scale", portion.scale}, {"reading_g", json_number(portion.reading_g)}});
        }
    }
    return Json{
        {"exact_g", json_number(item->exact_g)}, {"reading_g", json_number(item->reading_g)},
        {"step_g", json_number(item->step_g)},   {"scale", json_text(item->scale)},
        {"low_g", json_low(item->truth)},        {"high_g", json_high(item->truth)},
        {"too_small", item->too_small},          {"portions", std::move(portions)}};
}

Json weighed(const plan::BrineWeighed& b) {
    Json worst = nullptr;
    if (b.percent_of_brine) {
        worst =
            Json{{"low", json_low(*b.percent_of_brine)}, {"high", json_high(*b.percent_of_brine)}};
    }
    return Json{{"sort", sort_word(b.answer.sort)},
                {"strength_of", b.question.of_water ? "water" : "brine"},
                {"assumed", b.question.assumed},
                {"percent_of_brine", json_number(100 * b.answer.fraction)},
                {"strength", strength(b.answer.strength)},
                {"from", strength(b.answer.from)},
                {"mix", mix(b.answer.mix)},
                {"in_the_end", mix(b.answer.in_the_end)},
                {"water", reading(b.water)},
                {"salt", reading(b.salt)},
                {"as_weighed_percent", std::move(worst)}};
}

} // namespace

std::string brine_json(const plan::BrineSheet& sheet, const std::string& asked) {
    Json document;
    document["format"] = "jarful.brine/1";
    document["asked"] = asked;
    document["celsius"] = json_number(sheet.taken.question.celsius);
    document["kitchen"] = Json{{"name", sheet.kitchen}, {"built_in", sheet.kitchen_built_in}};
    document["saturated_percent_of_brine"] = json_number(100 * larder::saturation);
    document["answer"] = weighed(sheet.taken);
    document["otherwise"] = sheet.otherwise ? weighed(*sheet.otherwise) : Json(nullptr);
    return dumped(document);
}

} // namespace jarful::render
