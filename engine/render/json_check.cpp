#include "engine/render/check_report.hpp"
#include "engine/render/json_parts.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

namespace {

const char* sort_word(CheckedFile::Sort sort) {
    switch (sort) {
    case CheckedFile::Sort::recipe:
        return "recipe";
    case CheckedFile::Sort::kitchen:
        return "kitchen";
    case CheckedFile::Sort::unknown:
        break;
    }
    return "unknown";
}

} // namespace

std::string check_json(std::span<const CheckedFile> files) {
    Json list = Json::array();
    for (const CheckedFile& file : files) {
        const bool judged = file.ok() && file.result;
        const bool verdict = judged && file.result->verdict;
        Json out{
            {"path", file.path},
            {"sort", sort_word(file.sort)},
            {"title", judged ? json_text(file.result->title) : Json(nullptr)},
            {"ok", file.ok()},
            {"verdict", verdict ? Json(plan::describe(*file.result->verdict)) : Json(nullptr)},
            {"salt", judged && file.result->salt ? json_salt(*file.result->salt) : Json(nullptr)}};
        Json checks = Json::array();
        if (judged) {
            for (const plan::HoldCheck& check : file.result->checks)
                checks.push_back(json_check_line(check));
        }
        out["checks"] = std::move(checks);
        Json diagnostics = Json::array();
        for (const language::Diagnostic& found : file.findings)
            diagnostics.push_back(json_diagnostic(file.source, found));
        out["diagnostics"] = std::move(diagnostics);
        list.push_back(std::move(out));
    }
    const CheckSummary sum = summarise(files);
    Json document;
    document["format"] = "jarful.check/1";
    document["files"] = std::move(list);
    document["summary"] =
        Json{{"files", sum.files}, {"inside", sum.inside},       {"below", sum.below},
             {"above", sum.above}, {"undecided", sum.undecided}, {"faulty", sum.faulty}};
    return dumped(document);
}

} // namespace jarful::render
