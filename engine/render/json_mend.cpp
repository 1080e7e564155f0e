#include "engine/render/json_parts.hpp"
#include "engine/render/mend_report.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

Json json_way(const plan::Way& w) {
    Json way;
    way["text"] = w.text;
    way["add"] = Json::array();
    for (const plan::Addition& a : w.add)
        way["add"].push_back({{"name", a.name},
                              {"material", json_text(a.material)},
                              {"exact_g", json_number(a.exact_g)},
                              {"reading_g", json_number(a.reading_g)},
                              {"scale", a.scale}});
    way["salt"] = nullptr;
    if (w.salt)
        way["salt"] = {{"basis", larder::key(w.salt->basis)},
                       {"percent", json_number(w.salt->percent)},
                       {"low", json_low(w.salt->bounds)},
                       {"high", json_high(w.salt->bounds)}};
    way["holds"] = w.holds;
    way["fill_ml"] = w.fill_ml ? json_number(*w.fill_ml) : Json(nullptr);
    way["fits"] = w.fits;
    return way;
}

} // namespace

std::string mend_json(const plan::MendOut& out) {
    Json document;
    document["format"] = "jarful.mend/1";
    document["recipe"] = out.title;
    document["salt"] = out.before ? json_salt(*out.before) : Json(nullptr);
    document["salt_reason"] = json_text(out.no_salt_reason);
    document["checks"] = Json::array();
    for (const plan::HoldCheck& c : out.checks)
        document["checks"].push_back(json_check_line(c));
    document["nothing_to_mend"] = out.nothing_to_mend;
    document["usable_ml"] = out.usable_ml ? json_number(*out.usable_ml) : Json(nullptr);
    document["ways"] = Json::array();
    for (const plan::Way& w : out.ways)
        document["ways"].push_back(json_way(w));
    document["instead"] = Json::array();
    for (const plan::Warning& w : out.instead)
        document["instead"].push_back(
            {{"id", w.id}, {"title", w.title}, {"text", w.text}, {"source", json_text(w.source)}});
    return dumped(document);
}

} // namespace jarful::render
