/// What a page asks the engine: any bytes as a question, as what is typed into its fields, as a
/// list to appraise, and as the recipe itself.

#include "engine/page/answer.hpp"
#include "tests/fuzz/fuzz.hpp"

#include <nlohmann/json.hpp>

using namespace jarful;
using nlohmann::json;

namespace {

constexpr const char* text = "recipe \"Kraut\"\nkind kraut\ngiven cabbage = 1.8 kg\n"
                             "weigh apple = 8 % of cabbage optional counts as vegetable\n"
                             "weigh salt = 2.2 % of (cabbage + apple) as canning salt\n"
                             "fill (cabbage + apple) / 0.9 kg/L\nheadspace 10 %\n"
                             "step \"Rub {salt} in.\"\n";

std::string written(const json& question) {
    return question.dump(-1, ' ', false, json::error_handler_t::replace);
}

/// An answer is JSON with a status; what is refused says why; its markup has no element in it that
/// the engine does not write.
void look_at(const std::string& answer) {
    const json document = json::parse(answer, nullptr, false);
    fuzz::demand(document.is_object(), "an answer is JSON");
    const int status = document.at("status");
    fuzz::demand(status >= 0 && status <= 2, "a status is 0, 1 or 2");
    fuzz::demand(status != 2 || !document.at("problems").empty(), "a refusal says why");
    for (const char* member : {"card_html", "html"}) {
        if (!document.contains(member) || !document.at(member).is_string()) continue;
        const std::string& markup = document.at(member).get_ref<const std::string&>();
        for (const char* never : {"<script", "<img", "<a ", "<style", "<iframe"})
            fuzz::demand(markup.find(never) == std::string::npos, "markup is the engine's own");
    }
}

} // namespace

void fuzz_one(const std::string& bytes) {
    static const page::Session kraut = [] {
        page::Session session;
        static_cast<void>(session.load(written(json{{"recipe", text}})));
        return session;
    }();
    look_at(kraut.answer(bytes));
    json words = json::array();
    for (std::size_t at = 0; at <= bytes.size() && words.size() < 8;) {
        const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
        words.push_back(bytes.substr(at, std::min<std::size_t>(end - at, 400)));
        at = end + 1;
    }
    look_at(
        kraut.answer(written(json{{"do", "weigh"}, {"words", words}, {"start", "2026-11-25"}})));
    look_at(kraut.answer(written(json{{"do", "appraise"}, {"text", bytes}})));
    page::Session own;
    const json loaded = json::parse(own.load(written(json{{"recipe", bytes}})), nullptr, false);
    fuzz::demand(loaded.is_object(), "what load says is JSON");
    if (loaded.at("ok") == true) look_at(own.answer(R"({"do": "weigh"})"));
}
