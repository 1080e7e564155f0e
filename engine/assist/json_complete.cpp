#include "engine/assist/complete.hpp"
#include "engine/assist/meanings.hpp"
#include "engine/assist/requests.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace jarful::assist {

using Json = nlohmann::ordered_json;

namespace {

/// CompletionItemKind of LSP 3.17.
int kind_of(Offer::Sort sort) {
    switch (sort) {
    case Offer::Sort::statement:
        return 14; // Keyword
    case Offer::Sort::word:
        return 14;
    case Offer::Sort::name:
        return 6; // Variable
    case Offer::Sort::unit:
        return 11; // Unit
    case Offer::Sort::material:
        return 12; // Value
    case Offer::Sort::kind:
        return 20; // EnumMember
    case Offer::Sort::function:
        return 3; // Function
    case Offer::Sort::recipe:
        return 17; // File
    }
    return 1;
}

} // namespace

Json completion(Session& session, const Client& client, const Json& params) {
    const std::string path = path_in(session, params);
    const Offers offers = offers_at(session, path, offset_in(session, params));
    const Json range = json_of(session.text(path).range(offers.place, session.encoding));
    Json items = Json::array();
    for (const Offer& offer : offers.all) {
        const bool snippet = client.snippets && !offer.snippet.empty();
        Json item{{"label", offer.words}, {"kind", kind_of(offer.sort)}};
        if (!offer.detail.empty()) item["detail"] = offer.detail;
        if (!offer.about.empty())
            item["documentation"] = markup(offer.about, client.markdown_in_offers);
        // As they are listed here: a file's own names first.
        std::string number = std::to_string(items.size());
        item["sortText"] = std::string(4 - std::min<std::size_t>(4, number.size()), '0') + number;
        if (snippet) item["insertTextFormat"] = 2;
        item["textEdit"] =
            Json{{"range", range}, {"newText", snippet ? offer.snippet : offer.words}};
        items.push_back(std::move(item));
    }
    return Json{{"isIncomplete", false}, {"items", std::move(items)}};
}

Json signature_help(Session& session, const Json& params) {
    const std::string path = path_in(session, params);
    const auto call = call_at(session.text(path).read(), offset_in(session, params));
    const FunctionForm* form = call ? function_form(call->function) : nullptr;
    if (form == nullptr) return nullptr;
    Json parameters = Json::array();
    for (const std::string_view one : form->parameters)
        if (!one.empty()) parameters.push_back(Json{{"label", one}});
    const std::size_t active = std::min(call->parameter, parameters.size() - 1);
    Json signature{{"label", form->form},
                   {"documentation", form->about},
                   {"parameters", std::move(parameters)}};
    return Json{{"signatures", Json::array({std::move(signature)})},
                {"activeSignature", 0},
                {"activeParameter", active}};
}

} // namespace jarful::assist
