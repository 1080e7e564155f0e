#include "engine/plan/read_request.hpp"

namespace jarful::plan {

namespace {

void read_settings(const std::vector<std::string>& words, bool certain,
                   std::vector<Setting>& settings, std::vector<language::Findings>& found) {
    for (const std::string& text : words) {
        language::Findings& findings = found.emplace_back();
        auto setting = read_setting(text, findings);
        if (!setting || findings.has_faults()) continue;
        setting->certain = certain;
        settings.push_back(std::move(*setting));
    }
}

} // namespace

bool read_request(const RequestWords& words, Request& request, RequestFindings& found) {
    read_settings(words.settings, words.yes, request.settings, found.settings);
    read_settings(words.poured, words.yes, request.poured, found.poured);
    if (words.bowl) request.bowl = read_setting("bowl=" + *words.bowl, found.bowl);
    request.without = words.without;
    request.moving = words.moving.value_or("");
    return request.settings.size() == words.settings.size() &&
           request.poured.size() == words.poured.size() &&
           (!words.bowl || (request.bowl && !found.bowl.has_faults()));
}

} // namespace jarful::plan
