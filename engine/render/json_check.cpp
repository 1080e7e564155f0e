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
    case CheckedFile::Sort::house:
        return "house";
    case CheckedFile::Sort::batch:
        return "batch";
    case CheckedFile::Sort::unknown:
        break;
    }
    return "unknown";
}

} // namespace

namespace {

/// As it is printed within something else: the lines after the first further in.
std::string within(const Json& part, std::size_t margin) {
    const std::string text = indented(part);
    std::string out;
    out.reserve(text.size() * 5 / 4);
    for (const char c : text) {
        out += c;
        if (c == '\n') out.append(margin, ' ');
    }
    return out;
}

} // namespace

std::string check_json_begin() {
    return "{\n  \"format\": \"jarful.check/1\",\n  \"files\": [";
}

std::string check_json_of(const CheckedFile& file) {
    const bool judged = file.ok() && file.result;
    const bool verdict = judged && file.result->verdict;
    Json out{{"path", file.path},
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
    if (judged && !file.result->one_jar.empty()) out["one_jar"] = file.result->one_jar;
    Json diagnostics = Json::array();
    for (const language::Diagnostic& found : file.findings)
        diagnostics.push_back(json_diagnostic(file.source, found));
    out["diagnostics"] = std::move(diagnostics);
    return "\n    " + within(out, 4);
}

std::string check_json_end(const CheckSummary& sum) {
    const Json summary{{"files", sum.files},  {"inside", sum.inside},       {"below", sum.below},
                       {"above", sum.above},  {"undecided", sum.undecided}, {"faulty", sum.faulty},
                       {"unread", sum.unread}};
    return std::string(sum.files > 0 ? "\n  ]" : "]") + ",\n  \"summary\": " + within(summary, 2) +
           "\n}\n";
}

std::string check_json(std::span<const CheckedFile> files) {
    std::string out = check_json_begin();
    CheckSummary sum;
    for (const CheckedFile& file : files) {
        if (sum.files > 0) out += ',';
        out += check_json_of(file);
        sum.add(file);
    }
    return out + check_json_end(sum);
}

} // namespace jarful::render
