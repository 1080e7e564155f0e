/// The language server: any bytes as a stream of messages, as a message, and as the text of a
/// recipe, about which every request is asked at every place.

#include "engine/assist/frames.hpp"
#include "tests/fuzz/fuzz.hpp"
#include "tests/support/language_client.hpp"

#include <array>

using namespace jarful;
using test::LanguageClient;
using Json = LanguageClient::Json;

namespace {

/// What is sent is JSON-RPC, and an answer is a result or an error.
void look_at(const std::vector<std::string>& messages) {
    for (const std::string& message : messages) {
        const Json said = Json::parse(message, nullptr, false);
        fuzz::demand(said.is_object() && said.at("jsonrpc") == "2.0", "a message is JSON-RPC");
        fuzz::demand(said.contains("method") || said.contains("result") || said.contains("error"),
                     "a message says something");
    }
}

void work_off(assist::Server& server) {
    for (int i = 0; i < 1000 && !server.idle(); ++i)
        look_at(server.work());
}

/// Every request that has a position, and those that have none.
void ask_everything(LanguageClient& client, const std::string& path, std::size_t lines) {
    constexpr std::array<const char*, 8> at_places{
        "textDocument/hover",         "textDocument/completion", "textDocument/signatureHelp",
        "textDocument/definition",    "textDocument/references", "textDocument/documentHighlight",
        "textDocument/prepareRename", "textDocument/rename"};
    constexpr std::array<const char*, 7> whole{
        "textDocument/codeAction",         "textDocument/formatting",
        "textDocument/inlayHint",          "textDocument/codeLens",
        "textDocument/documentSymbol",     "textDocument/foldingRange",
        "textDocument/semanticTokens/full"};
    Json params{{"textDocument", LanguageClient::document(path)},
                {"range", LanguageClient::range(0, 0, 99, 0)},
                {"newName", "other"},
                {"context", Json::object()}};
    int id = 1000;
    const auto ask = [&](const char* method) {
        client.send(Json{{"id", ++id}, {"method", method}, {"params", params}});
        const std::vector<std::string> said = client.server.work();
        look_at(said);
        fuzz::demand(said.size() == 1, "a request has one answer");
        const Json answer = Json::parse(said.front());
        if (answer.contains("error"))
            fuzz::demand(answer.at("error").at("code") == -32803, "only a rename is refused");
    };
    for (const char* method : whole)
        ask(method);
    for (std::size_t line = 1; line < lines; ++line)
        for (const int character : {3, 15}) {
            params["position"] = Json{{"line", line}, {"character", character}};
            for (const char* method : at_places)
                ask(method);
        }
}

} // namespace

void fuzz_one(const std::string& bytes) {
    // As a stream.
    LanguageClient client;
    assist::Frames frames;
    frames.feed(assist::framed(R"({"id": 1, "method": "initialize", "params": {}})"));
    frames.feed(bytes);
    while (auto message = frames.next()) {
        if (message->trouble.empty())
            client.server.receive(message->body);
        else
            client.server.receive_trouble(message->trouble);
    }
    client.server.receive(bytes);
    work_off(client.server);

    // As a text, and as a change of one. JSON holds UTF-8 alone.
    LanguageClient editor;
    editor.book.files["kitchen.jarful"] = "kitchen \"K\"\nscale s reads 1 g up to 5 kg\n";
    editor.book.files["base.jarful"] = "recipe \"B\"\ngiven cabbage = 1 kg\n";
    const std::string text =
        Json::parse(Json(bytes).dump(-1, ' ', false, Json::error_handler_t::replace))
            .get<std::string>();
    editor.server.receive(R"({"id": 1, "method": "initialize", "params": {}})");
    editor.send(
        Json{{"method", "textDocument/didOpen"},
             {"params",
              {{"textDocument", {{"uri", LanguageClient::uri("a.jarful")}, {"text", text}}}}}});
    work_off(editor.server);
    ask_everything(editor, "a.jarful", 3);
    editor.send(
        Json{{"method", "textDocument/didChange"},
             {"params",
              {{"textDocument", LanguageClient::document("a.jarful")},
               {"contentChanges",
                {{{"range", LanguageClient::range(1, 2, 2, 5)}, {"text", text.substr(0, 0)}}}}}}});
    work_off(editor.server);
}
