#include "engine/page/problems.hpp"

#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::page {

using Json = nlohmann::ordered_json;

namespace {

void add_all(Json& list, const language::Source& source, const language::Findings& findings,
             const Json& text) {
    for (const language::Diagnostic& found : findings.all()) {
        Json problem = render::json_diagnostic(source, found);
        problem["text"] = text;
        list.push_back(std::move(problem));
    }
}

} // namespace

Problems::Problems()
    : list_(std::make_unique<Json>(Json::array())) {
}
Problems::~Problems() = default;

void Problems::add(const std::string& text, const language::Findings& findings) {
    add_all(*list_, language::Source("the request", text), findings, Json(text));
}

void Problems::add_each(const std::vector<std::string>& texts,
                        const std::vector<language::Findings>& findings) {
    for (std::size_t i = 0; i < texts.size() && i < findings.size(); ++i)
        add(texts[i], findings[i]);
}

void Problems::add(const language::Source& source, const language::Findings& findings) {
    add_all(*list_, source, findings, Json(nullptr));
}

void Problems::add(const std::vector<Found>& found) {
    for (const Found& one : found)
        add(one.source, one.findings);
}

void Problems::add(const std::string& code, const std::string& message, const std::string& advice) {
    language::Findings findings;
    findings.fault(code, std::nullopt, message, advice);
    add_all(*list_, language::Source("the question", ""), findings, Json(nullptr));
}

const Json& Problems::json() const {
    return *list_;
}

} // namespace jarful::page
