#include "engine/page/problems.hpp"

namespace jarful::page {

namespace {

void add_all(std::vector<Problem>& list, const language::Source& source,
             const language::Findings& findings, const std::optional<std::string>& text) {
    for (const language::Diagnostic& found : findings.all())
        list.push_back({fields::located(source, found), text});
}

} // namespace

void Problems::add(const std::string& text, const language::Findings& findings) {
    add_all(list_, language::Source("the request", text), findings, text);
}

void Problems::add_each(const std::vector<std::string>& texts,
                        const std::vector<language::Findings>& findings) {
    for (std::size_t i = 0; i < texts.size() && i < findings.size(); ++i)
        add(texts[i], findings[i]);
}

void Problems::add(const language::Source& source, const language::Findings& findings) {
    add_all(list_, source, findings, std::nullopt);
}

void Problems::add(const std::vector<Found>& found) {
    for (const Found& one : found)
        add(one.source, one.findings);
}

void Problems::add(const std::string& code, const std::string& message, const std::string& advice) {
    language::Findings findings;
    findings.fault(code, std::nullopt, message, advice);
    add_all(list_, language::Source("the question", ""), findings, std::nullopt);
}

} // namespace jarful::page
