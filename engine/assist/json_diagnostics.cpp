#include "engine/assist/requests.hpp"
#include "engine/language/parse.hpp"
#include "engine/language/tidy.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

/// What is wrong with a file, and what can be done about it with one key.
namespace jarful::assist {

using Json = nlohmann::ordered_json;

namespace {

using language::Diagnostic;
using language::Fix;
using language::Place;
using language::Source;

/// Where a finding about a line of another file is shown in this one: at the `based on` line, or at
/// the top.
Place stand_in(const Session& session, const std::string& path) {
    const LoadedFile file = session.parsed(path);
    for (const language::Line& line : file.document.lines)
        if (const auto* based = std::get_if<language::BasedOnLine>(&line.statement))
            return based->base.place;
    return {};
}

/// In one text: what is wrong, and what to do.
std::string words_of(const Diagnostic& found) {
    return found.advice.empty() ? found.message : found.message + "\n" + found.advice;
}

bool of_another_file(const Source& source, const Diagnostic& found) {
    return found.place && source.name_at(found.place->begin) != source.name();
}

/// A finding in the range at which it is shown in its recipe.
Json diagnostic(Session& session, const Client& client, const std::string& path,
                const Source& source, const Diagnostic& found) {
    const bool elsewhere = of_another_file(source, found);
    const Place shown = elsewhere ? stand_in(session, path) : found.place.value_or(Place{});
    Json out{{"range", json_of(session.text(path).range(shown, session.encoding))},
             {"severity", found.severity == language::Severity::fault ? 1 : 2},
             {"code", found.code},
             {"source", "jarful"},
             {"message", words_of(found)}};
    if (!client.related) return out;
    Json related = Json::array();
    if (elsewhere)
        related.push_back(
            Json{{"location", location(session, where(session, source, *found.place))},
                 {"message", "the line is inherited from here"}});
    for (const language::Related& other : found.related)
        related.push_back(Json{{"location", location(session, where(session, source, other.place))},
                               {"message", other.text}});
    if (!related.empty()) out["relatedInformation"] = std::move(related);
    return out;
}

std::string title_of(const Source& source, const Fix& fix) {
    if (fix.words.empty()) return "Delete \"" + std::string(source.at(fix.place)) + "\"";
    const std::size_t begin = fix.words.find_first_not_of(' ');
    const std::size_t end = fix.words.find_last_not_of(' ');
    if (begin == std::string::npos) return "Add a blank";
    const std::string words = fix.words.substr(begin, end - begin + 1);
    return (fix.place.empty() ? "Add \"" : "Write \"") + words + "\"";
}

bool meet(Range a, Range b) {
    const auto before = [](Position x, Position y) {
        return x.line != y.line ? x.line < y.line : x.character < y.character;
    };
    return !before(a.end, b.start) && !before(b.end, a.start);
}

/// Whether the client wants quick fixes, or has not said what it wants.
bool wants_fixes(const Json& params) {
    if (!params.contains("context") || !params.at("context").is_object()) return true;
    const Json& context = params.at("context");
    if (!context.contains("only") || !context.at("only").is_array()) return true;
    const Json& only = context.at("only");
    return std::any_of(only.begin(), only.end(),
                       [](const Json& kind) { return kind == "quickfix" || kind == ""; });
}

} // namespace

Json diagnostics(Session& session, const Client& client, const std::string& path) {
    const Look& look = session.look(path);
    Json out = Json::array();
    for (const Diagnostic& found : look.findings())
        out.push_back(diagnostic(session, client, path, look.document().source, found));
    return out;
}

Json code_actions(Session& session, const Client& client, const Json& params) {
    const std::string path = path_in(session, params);
    const Range asked = range_in(params.at("range"));
    Json out = Json::array();
    if (!wants_fixes(params)) return out;
    const Look& look = session.look(path);
    const Source& source = look.document().source;
    for (const Diagnostic& found : look.findings()) {
        if (found.fixes.empty()) continue;
        const Json shown = diagnostic(session, client, path, source, found);
        if (!meet(range_in(shown.at("range")), asked)) continue;
        for (const Fix& fix : found.fixes) {
            const Where at = where(session, source, fix.place);
            Json edit{{"range", json_of(at.range)}, {"newText", fix.words}};
            Json changes;
            changes[session.uri_of(at.path)] = Json::array({std::move(edit)});
            Json action{{"title", title_of(source, fix)},
                        {"kind", "quickfix"},
                        {"diagnostics", Json::array({shown})}};
            // Of two readings none is the one that is meant.
            if (found.fixes.size() == 1) action["isPreferred"] = true;
            action["edit"] = Json{{"changes", std::move(changes)}};
            out.push_back(std::move(action));
        }
    }
    return out;
}

namespace {

/// One edit that turns a text into another: whole lines that are the same at both ends stay.
Json edits_between(const Text& text, const std::string& after, Encoding encoding) {
    const std::string& before = text.raw();
    if (before == after) return Json::array();
    std::size_t begin = 0;
    const std::size_t shorter = std::min(before.size(), after.size());
    for (std::size_t i = 0; i < shorter && before[i] == after[i]; ++i)
        if (before[i] == '\n') begin = i + 1;
    std::size_t end = 0; // bytes at the end of both
    for (std::size_t i = 0; i < shorter - begin; ++i) {
        const char c = before[before.size() - 1 - i];
        if (c != after[after.size() - 1 - i]) break;
        // The lines behind this line's end are the same.
        if (c == '\n') end = i;
    }
    const Range range{text.raw_position(begin, encoding),
                      text.raw_position(before.size() - end, encoding)};
    return Json::array({Json{{"range", json_of(range)},
                             {"newText", after.substr(begin, after.size() - end - begin)}}});
}

} // namespace

Json formatting(Session& session, const Json& params) {
    const std::string path = path_in(session, params);
    const Text& text = session.text(path);
    language::Findings findings;
    auto source = language::read_source(path, text.raw(), findings);
    // What cannot be tidied has its diagnostics, and a batch's record is never rewritten.
    if (!source || findings.has_faults() || language::is_batch_record(*source)) return nullptr;
    const auto tidy = language::tidy(std::move(*source), findings);
    if (!tidy) return nullptr;
    return edits_between(text, *tidy, session.encoding);
}

} // namespace jarful::assist
