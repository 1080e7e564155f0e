#include "engine/render/json_parts.hpp"
#include "engine/render/tidy_report.hpp"

#include <nlohmann/json.hpp>

namespace jarful::render {

using Json = nlohmann::ordered_json;

std::string tidy_json(std::span<const TidiedFile> files) {
    Json list = Json::array();
    std::size_t changes = 0;
    std::size_t written = 0;
    std::size_t faulty = 0;
    for (const TidiedFile& file : files) {
        Json out;
        out["path"] = file.path;
        out["ok"] = file.ok;
        out["changes"] = file.changes;
        out["written"] = file.written;
        out["diff"] = json_text(file.diff);
        Json diagnostics = Json::array();
        for (const language::Diagnostic& found : file.findings)
            diagnostics.push_back(json_diagnostic(file.source, found));
        out["diagnostics"] = std::move(diagnostics);
        list.push_back(std::move(out));
        changes += file.changes;
        written += file.written;
        faulty += !file.ok;
    }
    Json document;
    document["format"] = "jarful.tidy/1";
    document["files"] = std::move(list);
    document["summary"] = Json{
        {"files", files.size()}, {"changes", changes}, {"written", written}, {"faulty", faulty}};
    return dumped(document);
}

} // namespace jarful::render
