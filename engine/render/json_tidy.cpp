#include "engine/render/json_parts.hpp"
#include "engine/render/tidy_report.hpp"
#include "engine/render/unified_diff.hpp"

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
        out["ok"] = file.tidy.has_value();
        out["changes"] = file.changes();
        out["written"] = file.written;
        out["diff"] = file.changes() ? Json(unified_diff(file.before, *file.tidy, shown_name(file)))
                                     : Json(nullptr);
        Json diagnostics = Json::array();
        for (const language::Diagnostic& found : file.findings)
            diagnostics.push_back(json_diagnostic(file.source, found));
        out["diagnostics"] = std::move(diagnostics);
        list.push_back(std::move(out));
        changes += file.changes();
        written += file.written;
        faulty += !file.tidy;
    }
    Json document;
    document["format"] = "jarful.tidy/1";
    document["files"] = std::move(list);
    document["summary"] = Json{
        {"files", files.size()}, {"changes", changes}, {"written", written}, {"faulty", faulty}};
    return dumped(document);
}

} // namespace jarful::render
