#include "engine/assist/hints.hpp"
#include "engine/assist/requests.hpp"

#include <nlohmann/json.hpp>

namespace jarful::assist {

using Json = nlohmann::ordered_json;

Json inlay_hints(Session& session, const Json& params) {
    const std::string path = path_in(session, params);
    const Range asked = range_in(params.at("range"));
    const Text& text = session.text(path);
    Json out = Json::array();
    for (const Hint& hint : hints(session.look(path))) {
        const Position at = text.position(hint.at, session.encoding);
        if (at.line < asked.start.line || at.line > asked.end.line) continue;
        Json one{{"position", json_of(at)}, {"label", hint.text}, {"paddingLeft", true}};
        if (!hint.more.empty()) one["tooltip"] = hint.more;
        out.push_back(std::move(one));
    }
    return out;
}

Json code_lenses(Session& session, const Json& params) {
    const std::string path = path_in(session, params);
    const Look& look = session.look(path);
    const std::string words = headline(look);
    const auto header = header_of(look.document());
    Json out = Json::array();
    if (words.empty() || !header) return out;
    const Range range = session.text(path).range(*header, session.encoding);
    // Words alone: there is nothing to run.
    out.push_back(
        Json{{"range", json_of(range)}, {"command", Json{{"title", words}, {"command", ""}}}});
    return out;
}

} // namespace jarful::assist
