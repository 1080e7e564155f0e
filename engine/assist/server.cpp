#include "engine/assist/server.hpp"

#include "engine/assist/requests.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <deque>
#include <functional>
#include <set>
#include <string_view>
#include <unordered_map>
#include <utility>

namespace jarful::assist {

using Json = nlohmann::ordered_json;

namespace {

/// How deep arrays and objects may lie in each other: no message of the protocol goes so deep.
constexpr int most_depth = 64;

bool too_deep(std::string_view text) {
    int depth = 0;
    bool in_text = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_text) {
            if (c == '\\') ++i;
            if (c == '"') in_text = false;
        } else if (c == '"') {
            in_text = true;
        } else if (c == '[' || c == '{') {
            if (++depth > most_depth) return true;
        } else if (c == ']' || c == '}') {
            --depth;
        }
    }
    return false;
}

std::string written(const Json& message) {
    return message.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string result_of(const Json& id, Json result) {
    return written(Json{{"jsonrpc", "2.0"}, {"id", id}, {"result", std::move(result)}});
}

std::string error_of(const Json& id, int code, const std::string& message) {
    return written(Json{
        {"jsonrpc", "2.0"}, {"id", id}, {"error", Json{{"code", code}, {"message", message}}}});
}

std::string notification(const char* method, Json params) {
    return written(Json{{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}});
}

bool is_id(const Json& value) {
    return value.is_string() || value.is_number_integer();
}

/// The member of a member of … ; null where one is not there.
Json at_path(const Json& value, std::initializer_list<const char*> names) {
    const Json* at = &value;
    for (const char* name : names) {
        if (!at->is_object() || !at->contains(name)) return nullptr;
        at = &at->at(name);
    }
    return *at;
}

Json capabilities(Encoding encoding) {
    Json sync{{"openClose", true}, {"change", 2}, {"save", Json{{"includeText", false}}}};
    Json out;
    out["positionEncoding"] = encoding == Encoding::utf8 ? "utf-8" : "utf-16";
    out["textDocumentSync"] = std::move(sync);
    out["codeActionProvider"] = Json{{"codeActionKinds", Json::array({"quickfix"})}};
    out["documentFormattingProvider"] = true;
    out["inlayHintProvider"] = Json{{"resolveProvider", false}};
    out["codeLensProvider"] = Json{{"resolveProvider", false}};
    out["hoverProvider"] = true;
    out["completionProvider"] =
        Json{{"triggerCharacters", Json::array({" ", "\"", "{", "("})}, {"resolveProvider", false}};
    out["signatureHelpProvider"] = Json{{"triggerCharacters", Json::array({"(", ","})}};
    out["definitionProvider"] = true;
    out["referencesProvider"] = true;
    out["documentHighlightProvider"] = true;
    out["renameProvider"] = Json{{"prepareProvider", true}};
    out["documentSymbolProvider"] = true;
    out["workspaceSymbolProvider"] = true;
    out["foldingRangeProvider"] = true;
    out["semanticTokensProvider"] =
        Json{{"legend", Json{{"tokenTypes", token_types()}, {"tokenModifiers", Json::array()}}},
             {"full", true}};
    return out;
}

} // namespace

struct Server::State {
    explicit State(const Files& files)
        : session(files) {}

    /// A message that waits, or what to send instead of dealing with one.
    struct Waiting {
        Json message;
        std::string instead;
    };

    Session session;
    Client client;
    std::deque<Waiting> waiting;
    std::set<std::string> due;                    ///< URIs of what is to be looked at
    std::map<std::string, std::string> published; ///< what was last said of each
    bool initialised = false;
    bool shut = false;
    bool ended = false;
    bool ended_well = false;

    using Messages = std::vector<std::string>;

    [[nodiscard]] Messages deal_with(const Json& message);
    [[nodiscard]] Json answer(const std::string& method, const Json& params);
    void note(const std::string& method, const Json& params);
    [[nodiscard]] Json initialise(const Json& params);
    void cancel(const Json& id);
    void change(const Json& params);
    void look_again();
    [[nodiscard]] Messages look_at_due();
};

Json Server::State::initialise(const Json& params) {
    if (initialised) throw Failure{errors::invalid_request, "This was asked for before."};
    initialised = true;
    const Json wanted = at_path(params, {"capabilities", "general", "positionEncodings"});
    if (wanted.is_array() && std::find(wanted.begin(), wanted.end(), "utf-8") != wanted.end())
        session.encoding = Encoding::utf8;
    const auto says = [&](std::initializer_list<const char*> names) {
        return at_path(params, names) == true;
    };
    client.related =
        says({"capabilities", "textDocument", "publishDiagnostics", "relatedInformation"});
    client.snippets =
        says({"capabilities", "textDocument", "completion", "completionItem", "snippetSupport"});
    client.document_changes =
        says({"capabilities", "workspace", "workspaceEdit", "documentChanges"});
    client.nested_symbols = says(
        {"capabilities", "textDocument", "documentSymbol", "hierarchicalDocumentSymbolSupport"});
    // Who does not say gets Markdown, which reads well as it is.
    const auto reads_markdown = [&](std::initializer_list<const char*> names) {
        const Json formats = at_path(params, names);
        return !formats.is_array() ||
               std::find(formats.begin(), formats.end(), "markdown") != formats.end();
    };
    client.markdown = reads_markdown({"capabilities", "textDocument", "hover", "contentFormat"});
    client.markdown_in_offers = reads_markdown(
        {"capabilities", "textDocument", "completion", "completionItem", "documentationFormat"});
    return Json{{"capabilities", capabilities(session.encoding)},
                {"serverInfo", Json{{"name", "jarful"}}}};
}

Json Server::State::answer(const std::string& method, const Json& params) {
    if (method == "initialize") return initialise(params);
    if (!initialised) throw Failure{errors::not_initialised, "`initialize` comes first."};
    if (shut) throw Failure{errors::invalid_request, "After `shutdown` comes `exit` alone."};
    if (method == "shutdown") {
        shut = true;
        return nullptr;
    }
    using Answer = std::function<Json(State&, const Json&)>;
    using S = State;
    static const std::unordered_map<std::string_view, Answer> known{
        {"textDocument/codeAction",
         [](S& s, const Json& p) { return code_actions(s.session, s.client, p); }},
        {"textDocument/formatting", [](S& s, const Json& p) { return formatting(s.session, p); }},
        {"textDocument/inlayHint", [](S& s, const Json& p) { return inlay_hints(s.session, p); }},
        {"textDocument/codeLens", [](S& s, const Json& p) { return code_lenses(s.session, p); }},
        {"textDocument/hover", [](S& s, const Json& p) { return hover(s.session, s.client, p); }},
        {"textDocument/completion",
         [](S& s, const Json& p) { return completion(s.session, s.client, p); }},
        {"textDocument/signatureHelp",
         [](S& s, const Json& p) { return signature_help(s.session, p); }},
        {"textDocument/definition", [](S& s, const Json& p) { return definition(s.session, p); }},
        {"textDocument/references", [](S& s, const Json& p) { return references(s.session, p); }},
        {"textDocument/documentHighlight",
         [](S& s, const Json& p) { return document_highlight(s.session, p); }},
        {"textDocument/prepareRename",
         [](S& s, const Json& p) { return prepare_rename(s.session, p); }},
        {"textDocument/rename", [](S& s, const Json& p) { return rename(s.session, s.client, p); }},
        {"textDocument/documentSymbol",
         [](S& s, const Json& p) { return document_symbols(s.session, s.client, p); }},
        {"workspace/symbol", [](S& s, const Json& p) { return workspace_symbols(s.session, p); }},
        {"textDocument/foldingRange",
         [](S& s, const Json& p) { return folding_ranges(s.session, p); }},
        {"textDocument/semanticTokens/full",
         [](S& s, const Json& p) { return semantic_tokens(s.session, p); }},
    };
    const auto found = known.find(method);
    if (found == known.end())
        throw Failure{errors::no_such_method, "There is no request \"" + method + "\" here."};
    return found->second(*this, params);
}

void Server::State::look_again() {
    session.changed();
    for (const auto& [uri, open] : session.open())
        due.insert(uri);
}

void Server::State::change(const Json& params) {
    Open* open = session.find(params.at("textDocument").at("uri").get<std::string>());
    if (open == nullptr) return;
    for (const Json& one : params.at("contentChanges")) {
        const auto& text = one.at("text").get_ref<const std::string&>();
        if (one.contains("range") && !one.at("range").is_null()) {
            open->text.replace(range_in(one.at("range")), session.encoding, text);
        } else {
            open->text = Text(text);
        }
    }
    const Json version = at_path(params, {"textDocument", "version"});
    if (version.is_number_integer()) open->version = version.get<std::int64_t>();
    look_again();
}

void Server::State::note(const std::string& method, const Json& params) {
    if (method == "exit") {
        ended = true;
        ended_well = shut;
        return;
    }
    if (!initialised || shut) return;
    if (method == "textDocument/didOpen") {
        const Json& document = params.at("textDocument");
        const Json version = at_path(document, {"version"});
        session.open(document.at("uri").get<std::string>(), document.at("text").get<std::string>(),
                     version.is_number_integer() ? version.get<std::int64_t>() : 0);
        look_again();
    } else if (method == "textDocument/didChange") {
        change(params);
    } else if (method == "textDocument/didClose") {
        const std::string uri = params.at("textDocument").at("uri").get<std::string>();
        session.close(uri);
        look_again();
        due.insert(uri); // what was said of it is taken back
    } else if (method == "textDocument/didSave" || method == "workspace/didChangeWatchedFiles") {
        look_again();
    }
}

void Server::State::cancel(const Json& id) {
    for (Waiting& one : waiting) {
        if (!one.message.is_object() || !one.message.contains("id") || one.message.at("id") != id)
            continue;
        one.instead = error_of(id, errors::cancelled, "This was cancelled.");
        one.message = nullptr;
    }
}

Server::State::Messages Server::State::deal_with(const Json& message) {
    const bool request = message.contains("id");
    const Json id = request ? message.at("id") : Json(nullptr);
    const std::string method = message.at("method").get<std::string>();
    const Json params = message.contains("params") ? message.at("params") : Json::object();
    try {
        if (request) return {result_of(id, answer(method, params))};
        note(method, params);
        return {};
    } catch (const Failure& failure) {
        if (request) return {error_of(id, failure.code, failure.message)};
    } catch (const Json::exception&) {
        // A parameter is not there, or is of another sort. Of a notification nobody waits to hear.
        if (request)
            return {error_of(id, errors::invalid_params,
                             "The parameters of \"" + method + "\" are not as the protocol says.")};
    }
    return {};
}

Server::State::Messages Server::State::look_at_due() {
    Messages out;
    for (const std::string& uri : std::exchange(due, {})) {
        const Open* open = session.find(uri);
        Json found = open == nullptr ? Json::array() : diagnostics(session, client, open->path);
        std::string now = written(found);
        std::string& before = published[uri];
        if (open == nullptr && (before.empty() || before == now)) {
            published.erase(uri);
            continue;
        }
        if (before == now) continue;
        before = std::move(now);
        Json params{{"uri", uri}};
        if (open != nullptr) params["version"] = open->version;
        params["diagnostics"] = std::move(found);
        out.push_back(notification("textDocument/publishDiagnostics", std::move(params)));
        if (open == nullptr) published.erase(uri);
    }
    return out;
}

Server::Server(const Files& files)
    : state_(std::make_unique<State>(files)) {
}
Server::~Server() = default;
Server::Server(Server&&) noexcept = default;
Server& Server::operator=(Server&&) noexcept = default;

void Server::receive(std::string_view message) {
    const auto refuse = [&](const Json& id, int code, const char* sentence) {
        state_->waiting.push_back({nullptr, error_of(id, code, sentence)});
    };
    if (too_deep(message))
        return refuse(nullptr, errors::invalid_request, "This message is nested too deeply.");
    Json read = Json::parse(message, nullptr, false);
    if (read.is_discarded()) return refuse(nullptr, errors::parse, "This is not JSON.");
    if (!read.is_object())
        return refuse(nullptr, errors::invalid_request,
                      "A message is an object; a list of messages is none of this protocol.");
    const bool request = read.contains("id");
    const bool named = read.contains("method") && read.at("method").is_string();
    if (!named && (read.contains("result") || read.contains("error"))) return; // to nothing asked
    if (request && !is_id(read.at("id")))
        return refuse(nullptr, errors::invalid_request, "An id is a text or a whole number.");
    if (!named)
        return refuse(request ? read.at("id") : Json(nullptr), errors::invalid_request,
                      "A message has a method.");
    if (read.at("method") == "$/cancelRequest") {
        if (const Json id = at_path(read, {"params", "id"}); is_id(id)) state_->cancel(id);
        return;
    }
    state_->waiting.push_back({std::move(read), ""});
}

void Server::receive_trouble(const std::string& sentence) {
    state_->waiting.push_back({nullptr, error_of(nullptr, errors::invalid_request, sentence)});
}

bool Server::idle() const {
    return state_->waiting.empty() && state_->due.empty();
}

std::size_t Server::waiting() const {
    return state_->waiting.size();
}

std::vector<std::string> Server::work() {
    if (state_->waiting.empty()) return state_->look_at_due();
    State::Waiting next = std::move(state_->waiting.front());
    state_->waiting.pop_front();
    if (next.message.is_null()) return {std::move(next.instead)};
    return state_->deal_with(next.message);
}

bool Server::ended() const {
    return state_->ended;
}

bool Server::ended_well() const {
    return state_->ended_well;
}

} // namespace jarful::assist
