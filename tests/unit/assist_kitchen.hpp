#pragma once

#include "tests/support/language_client.hpp"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

/// A kitchen and a recipe for the tests of the language server, and what an editor asks of it.
namespace jarful::test {

using Json = LanguageClient::Json;

inline constexpr const char* kitchen = "kitchen \"Ours\"\n"
                                       "scale bench reads 1 g up to 5 kg within 1 g\n"
                                       "scale pocket reads 0.1 g up to 500 g within 0.1 g\n"
                                       "let packed = 0.9 kg/L\n";
inline constexpr const char* kraut =
    "recipe \"Kraut\"\n"                                                // 0
    "kind   kraut\n"                                                    // 1
    "given  cabbage = 1.80 kg   \"shredded\"\n"                         // 2
    "weigh  carrot  = 6 % of cabbage\n"                                 // 3
    "weigh  salt    = 2.2 % of (cabbage + carrot)   as fine sea salt\n" // 4
    "count  bay     = 1 per kg of cabbage   as bay leaf\n"              // 5
    "let    space   = cabbage / packed\n"                               // 6
    "hold   salt / cabbage at most 5 %\n"                               // 7
    "step   \"Rub {salt} in, {salt / 3} each.\"\n";                     // 8

/// A book with a kitchen.
class InKitchen : public LanguageClient {
  public:
    InKitchen() { book.files["kitchen.jarful"] = kitchen; }
};

/// The hints of a file: the line, and what is behind it.
inline std::vector<std::string> hints(LanguageClient& client, const std::string& path, int from = 0,
                                      int to = 99) {
    std::vector<std::string> out;
    for (const Json& one : client.result("textDocument/inlayHint",
                                         {{"textDocument", LanguageClient::document(path)},
                                          {"range", LanguageClient::range(from, 0, to, 0)}}))
        out.push_back(one.at("position").at("line").dump() + ": " +
                      one.at("label").get<std::string>());
    return out;
}

inline std::string lens(LanguageClient& client, const std::string& path) {
    const Json found =
        client.result("textDocument/codeLens", {{"textDocument", LanguageClient::document(path)}});
    return found.empty() ? "" : found.at(0).at("command").at("title").get<std::string>();
}

inline std::string hover(LanguageClient& client, const std::string& path, int line, int character) {
    const Json found =
        client.result("textDocument/hover", LanguageClient::at(path, line, character));
    return found.is_null() ? "" : found.at("contents").at("value").get<std::string>();
}

} // namespace jarful::test
