#include "engine/render/compare_report.hpp"
#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

namespace {

using Json = nlohmann::ordered_json;

Json amount(const std::optional<plan::ComparedAmount>& a) {
    if (!a) return nullptr;
    Json out{{"word", a->word}};
    if (a->pieces) {
        out["count"] = static_cast<int>(a->reading_g);
        out["exact"] = json_number(a->exact_g);
    } else {
        out["exact_g"] = json_number(a->exact_g);
        out["reading_g"] = json_number(a->reading_g);
    }
    out["share_percent"] = a->share_percent ? json_number(*a->share_percent) : Json(nullptr);
    out["material"] = json_text(a->material);
    out["role"] = json_text(a->role);
    out["fate"] = a->fate;
    out["label"] = json_text(a->label);
    out["strength"] = json_text(a->strength);
    return out;
}

std::string sort_of(const plan::ComparedLine& line) {
    if (!line.before) return "appeared";
    if (!line.after) return "gone";
    return line.differs() ? "changed" : "same";
}

Json texts(const std::vector<plan::ComparedText>& list) {
    static constexpr std::string_view names[] = {"appeared", "gone", "changed", "moved"};
    Json out = Json::array();
    for (const plan::ComparedText& text : list)
        out.push_back(Json{{"change", names[static_cast<std::size_t>(text.sort)]},
                           {"before", json_text(text.before)},
                           {"after", json_text(text.after)}});
    return out;
}

Json figure(const plan::ComparedFigure& f) {
    const auto one = [](const std::optional<double>& v) {
        return v ? json_number(*v) : Json(nullptr);
    };
    return Json{{"before", one(f.before)}, {"after", one(f.after)}};
}

Json side(const std::string& name, const std::string& title, const std::optional<int>& version,
          const std::string& kind, const plan::ComparedSalt& salt) {
    return Json{{"name", name},
                {"title", title},
                {"version", version ? Json(*version) : Json(nullptr)},
                {"kind", json_text(kind)},
                {"salt", salt.salt ? json_salt(*salt.salt) : Json(nullptr)},
                {"salt_not_judged", json_text(salt.why_not)}};
}

} // namespace

std::string compare_json(const plan::Comparison& c, const ComparedNames& names) {
    Json lines = Json::array();
    for (const plan::ComparedLine& line : c.lines)
        lines.push_back(Json{{"name", line.name},
                             {"change", sort_of(line)},
                             {"before", amount(line.before)},
                             {"after", amount(line.after)},
                             {"remarks", line.remarks}});
    return dumped(Json{
        {"format", "jarful.compare/1"},
        {"same", c.same()},
        {"batch", c.batch},
        {"before",
         side(names.before, c.title_before, c.version_before, c.kind_before, c.salt_before)},
        {"after", side(names.after, c.title_after, c.version_after, c.kind_after, c.salt_after)},
        {"lines", std::move(lines)},
        {"holds", texts(c.holds)},
        {"method", texts(c.method)},
        {"afterwards", texts(c.later)},
        {"fill_ml", figure(c.fill_ml)},
        {"headspace_percent", figure(c.headspace_percent)},
        {"headspace_cm", figure(c.headspace_cm)},
        {"topup_percent", figure(c.topup_percent)},
        {"aside", c.aside}});
}

} // namespace jarful::render
