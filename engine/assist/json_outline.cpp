#include "engine/assist/outline.hpp"
#include "engine/assist/requests.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

/// How files are built up.
namespace jarful::assist {

using Json = nlohmann::ordered_json;

namespace {

/// SymbolKind of LSP 3.17.
int kind_of(Symbol::Sort sort) {
    switch (sort) {
    case Symbol::Sort::file:
        return 1; // File
    case Symbol::Sort::quantity:
        return 13; // Variable
    case Symbol::Sort::value:
        return 14; // Constant
    case Symbol::Sort::vessel:
        return 19; // Object
    case Symbol::Sort::material:
        return 5; // Class
    case Symbol::Sort::range:
        return 22; // EnumMember
    }
    return 13;
}

Json flat(Session& session, const std::string& path, const Symbol& symbol) {
    const Range range = session.text(path).range(symbol.place, session.encoding);
    return Json{{"name", symbol.name},
                {"kind", kind_of(symbol.sort)},
                {"location", location(session, {path, range})}};
}

/// Without regard to case, as far as that is ASCII.
bool has_letters_of(std::string_view name, std::string_view wanted) {
    const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
    std::size_t at = 0;
    for (const char c : name)
        if (at < wanted.size() && small(c) == small(wanted[at])) ++at;
    return at == wanted.size();
}

} // namespace

Json document_symbols(Session& session, const Client& client, const Json& params) {
    const std::string path = path_in(session, params);
    const language::Document document = session.parsed(path).document;
    const Text& text = session.text(path);
    Json out = Json::array();
    for (const Symbol& symbol : symbols_of(document)) {
        if (!client.nested_symbols) {
            out.push_back(flat(session, path, symbol));
            continue;
        }
        out.push_back(
            Json{{"name", symbol.name},
                 {"detail", symbol.detail},
                 {"kind", kind_of(symbol.sort)},
                 {"range", json_of(text.range(symbol.place, session.encoding))},
                 {"selectionRange", json_of(text.range(symbol.name_place, session.encoding))}});
    }
    return out;
}

Json workspace_symbols(Session& session, const Json& params) {
    const std::string wanted = params.at("query").get<std::string>();
    // The book of whatever is open first: a book is what recipes are looked for in.
    std::vector<std::string> files;
    for (const auto& [uri, open] : session.open())
        for (std::string& file : session.files().book_of(open->path))
            if (std::find(files.begin(), files.end(), file) == files.end())
                files.push_back(std::move(file));
    constexpr std::size_t most = 500;
    Json out = Json::array();
    for (const std::string& file : files) {
        const language::Document document = session.parsed(file).document;
        if (document.kind == language::FileKind::batch) continue;
        for (const Symbol& symbol : symbols_of(document)) {
            if (!has_letters_of(symbol.name, wanted)) continue;
            Json one = flat(session, file, symbol);
            one["containerName"] = file;
            out.push_back(std::move(one));
            if (out.size() == most) return out;
        }
    }
    return out;
}

Json folding_ranges(Session& session, const Json& params) {
    const std::string path = path_in(session, params);
    Json out = Json::array();
    for (const Fold& fold : folds_of(session.text(path).read())) {
        Json one{{"startLine", fold.first}, {"endLine", fold.last}};
        if (fold.comment) one["kind"] = "comment";
        out.push_back(std::move(one));
    }
    return out;
}

Json token_types() {
    // In the order of Token::Sort.
    return Json::array({"keyword", "variable", "function", "number", "type", "class", "enumMember",
                        "string", "comment", "operator"});
}

Json semantic_tokens(Session& session, const Json& params) {
    const std::string path = path_in(session, params);
    const language::Document document = session.parsed(path).document;
    const Text& text = session.text(path);
    Json data = Json::array();
    Position before;
    for (const Token& token : tokens_of(document)) {
        const Range range = text.range(token.place, session.encoding);
        // None goes over the end of a line.
        if (range.start.line != range.end.line || range.start == range.end) continue;
        const bool same_line = range.start.line == before.line;
        data.push_back(range.start.line - before.line);
        data.push_back(range.start.character - (same_line ? before.character : 0));
        data.push_back(range.end.character - range.start.character);
        data.push_back(static_cast<int>(token.sort));
        data.push_back(0);
        before = range.start;
    }
    return Json{{"data", std::move(data)}};
}

} // namespace jarful::assist
