#pragma once

#include "engine/assist/server.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

/// A book in memory, and an editor that asks the language server about it.
namespace jarful::test {

/// Files by their names in the folder /book; "kitchen.jarful" and "house.jarful" are theirs.
class MemoryBook : public assist::Files {
  public:
    std::map<std::string, std::string> files;

    [[nodiscard]] assist::FileContent read(const std::string& path) const override {
        const auto found = files.find(path);
        if (found == files.end())
            return {"", assist::FileFault{"missing-file", "There is no such file.", ""}};
        return {found->second, std::nullopt};
    }
    [[nodiscard]] std::optional<std::string> kitchen_of(const std::string&) const override {
        return files.count("kitchen.jarful") != 0 ? std::optional<std::string>("kitchen.jarful")
                                                  : std::nullopt;
    }
    [[nodiscard]] std::optional<std::string> house_of(const std::string&) const override {
        return files.count("house.jarful") != 0 ? std::optional<std::string>("house.jarful")
                                                : std::nullopt;
    }
    [[nodiscard]] language::FoundBase find_base(std::string_view name,
                                                const std::string&) const override {
        language::FoundBase out;
        const std::string path = std::string(name) + ".jarful";
        const auto found = files.find(path);
        if (found == files.end()) {
            out.message = "There is no recipe \"" + std::string(name) + "\" in this book.";
            return out;
        }
        out.path = path;
        out.bytes = found->second;
        return out;
    }
    [[nodiscard]] std::vector<std::string> book_of(const std::string&) const override {
        std::vector<std::string> out;
        for (const auto& [path, text] : files)
            out.push_back(path);
        return out;
    }
    [[nodiscard]] std::string shown(const std::string& absolute) const override {
        return absolute.starts_with("/book/") ? absolute.substr(6) : absolute;
    }
    [[nodiscard]] std::string absolute(const std::string& path) const override {
        return path.starts_with('/') ? path : "/book/" + path;
    }
};

/// Sends messages and keeps what comes back.
class LanguageClient {
  public:
    using Json = nlohmann::ordered_json;

    MemoryBook book;
    assist::Server server{book};
    std::vector<Json> said; ///< everything, in its order

    static std::string uri(const std::string& path) { return "file:///book/" + path; }

    void send(const Json& message) { server.receive(message.dump()); }
    void run() {
        while (!server.idle())
            for (const std::string& message : server.work())
                said.push_back(Json::parse(message));
    }
    /// The answer to a request: its `result` or `error`, with the name of which.
    Json ask(const std::string& method, Json params) {
        const int id = ++last_id_;
        send(Json{{"jsonrpc", "2.0"}, {"id", id}, {"method", method}, {"params", params}});
        run();
        for (const Json& one : said)
            if (one.contains("id") && one.at("id") == id) return one;
        return Json{{"error", "no answer"}};
    }
    Json result(const std::string& method, Json params) {
        const Json answer = ask(method, std::move(params));
        return answer.contains("result") ? answer.at("result") : answer;
    }
    void tell(const std::string& method, Json params) {
        send(Json{{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}});
        run();
    }
    Json start(Json capabilities = Json::object()) {
        Json result_of = result("initialize", Json{{"capabilities", std::move(capabilities)}});
        tell("initialized", Json::object());
        return result_of;
    }
    void open(const std::string& path, const std::string& text) {
        tell(
            "textDocument/didOpen",
            Json{{"textDocument",
                  {{"uri", uri(path)}, {"languageId", "jarful"}, {"version", 1}, {"text", text}}}});
    }
    void change(const std::string& path, Json changes) {
        tell("textDocument/didChange",
             Json{{"textDocument", {{"uri", uri(path)}, {"version", ++version_}}},
                  {"contentChanges", std::move(changes)}});
    }
    /// The diagnostics that were last published of a file; null if none were.
    [[nodiscard]] Json published(const std::string& path) const {
        for (auto one = said.rbegin(); one != said.rend(); ++one)
            if (one->contains("method") && one->at("method") == "textDocument/publishDiagnostics" &&
                one->at("params").at("uri") == uri(path))
                return one->at("params").at("diagnostics");
        return nullptr;
    }
    static Json document(const std::string& path) { return Json{{"uri", uri(path)}}; }
    static Json at(const std::string& path, int line, int character) {
        return Json{{"textDocument", document(path)},
                    {"position", {{"line", line}, {"character", character}}}};
    }
    static Json range(int line, int from, int end_line, int to) {
        return Json{{"start", {{"line", line}, {"character", from}}},
                    {"end", {{"line", end_line}, {"character", to}}}};
    }

  private:
    int last_id_ = 0;
    int version_ = 1;
};

} // namespace jarful::test
