#include "engine/render/appraise_report.hpp"
#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

using appraise::Appraisal;
using appraise::Line;
using units::Interval;

Json span(const std::optional<Interval>& i) {
    if (!i) return nullptr;
    return Json{{"low", json_low(*i)}, {"high", json_high(*i)}};
}

Json amount(const std::optional<appraise::Amount>& a) {
    if (!a) return nullptr;
    return Json{{"low", json_number(a->low)}, {"high", json_number(a->high)}, {"unit", a->unit}};
}

Json line_json(const Line& line) {
    Json notes = Json::array();
    for (const std::string& note : line.notes)
        notes.push_back(note);
    Json per = nullptr;
    if (line.per) {
        per = amount(line.per->amount);
        per["of"] = json_text(line.per->of);
    }
    return Json{{"number", line.number},
                {"text", line.text},
                {"sort", appraise::describe(line.sort)},
                {"understood", line.understood},
                {"amount", amount(line.amount)},
                {"per", std::move(per)},
                {"item", json_text(line.item)},
                {"material", line.material == nullptr ? Json(nullptr) : Json(line.material->name)},
                {"role", line.role ? Json(larder::describe(*line.role)) : Json(nullptr)},
                {"grams", span(line.grams)},
                {"optional", line.optional},
                {"left_out", line.left_out},
                {"could_matter", line.could_matter},
                {"notes", std::move(notes)}};
}

Json range(const Appraisal& a) {
    if (!a.low && !a.high) return nullptr;
    const auto number = [](const std::optional<plan::RangeEnd>& e) {
        return e ? json_number(e->percent) : Json(nullptr);
    };
    const auto text = [](const std::optional<plan::RangeEnd>& e,
                         const std::string plan::RangeEnd::*member) {
        return e ? json_text((*e).*member) : Json(nullptr);
    };
    return Json{{"low", number(a.low)},
                {"high", number(a.high)},
                {"low_source", text(a.low, &plan::RangeEnd::source)},
                {"high_source", text(a.high, &plan::RangeEnd::source)},
                {"low_status", text(a.low, &plan::RangeEnd::status)},
                {"high_status", text(a.high, &plan::RangeEnd::status)}};
}

Json texts(const std::vector<std::string>& list) {
    Json out = Json::array();
    for (const std::string& one : list)
        out.push_back(one);
    return out;
}

Json lean(const std::optional<appraise::Lean>& l) {
    if (!l) return nullptr;
    return Json{{"ways", appraise::lean_draws},
                {"inside", l->inside},
                {"below", l->below},
                {"above", l->above},
                {"toward", json_text(std::string(appraise::describe(*l)))}};
}

Json one(const Appraisal& a) {
    Json lines = Json::array();
    for (const Line& line : a.lines)
        lines.push_back(line_json(line));
    Json cautions = Json::array();
    for (const plan::Warning& w : a.cautions)
        cautions.push_back(
            Json{{"id", w.id}, {"title", w.title}, {"text", w.text}, {"source", w.source}});
    Json right = nullptr;
    if (a.right_g_per_kg) {
        right = span(a.right_g_per_kg);
        right["of"] = a.right_of;
    }
    return Json{{"title", json_text(a.title)},
                {"lines", std::move(lines)},
                {"vegetables_g", span(a.vegetables_g)},
                {"salt_g", span(a.salt_g)},
                {"water_g", span(a.water_g)},
                {"salt_percent", Json{{"of_vegetables", span(a.of_vegetables)},
                                      {"of_vegetables_and_water", span(a.of_vegetables_and_water)},
                                      {"of_brine", span(a.of_brine)},
                                      {"of_everything", span(a.of_everything)}}},
                {"kind", json_text(a.kind)},
                {"method", json_text(a.method)},
                {"kind_reason", json_text(a.kind_reason)},
                {"basis", a.basis ? Json(larder::key(*a.basis)) : Json(nullptr)},
                {"verdict", appraise::describe(a.verdict)},
                {"lean", lean(a.lean)},
                {"reason", json_text(a.reason)},
                {"decides", json_text(a.decides)},
                {"range", range(a)},
                {"right_g_per_kg", std::move(right)},
                {"right_g", span(appraise::right_for_list(a))},
                {"advice", texts(a.advice)},
                {"assumptions", texts(a.assumptions)},
                {"cautions", std::move(cautions)}};
}

} // namespace

std::string appraise_json(std::span<const Appraisal> appraisals) {
    Json document;
    document["format"] = "jarful.appraise/1";
    if (!appraisals.empty()) document.update(one(appraisals.front()));
    if (appraisals.size() > 1) {
        Json all = Json::array();
        for (const Appraisal& a : appraisals)
            all.push_back(one(a));
        document["recipes"] = std::move(all);
    }
    return dumped(document);
}

} // namespace jarful::render
