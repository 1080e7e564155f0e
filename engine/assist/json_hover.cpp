#include "engine/assist/hover.hpp"
#include "engine/assist/requests.hpp"

#include <nlohmann/json.hpp>

namespace jarful::assist {

using Json = nlohmann::ordered_json;

Json hover(Session& session, const Client& client, const Json& params) {
    const std::string path = path_in(session, params);
    const auto told = tell(session, path, offset_in(session, params));
    if (!told) return nullptr;
    return Json{{"contents", Json{{"kind", client.markdown ? "markdown" : "plaintext"},
                                  {"value", told->words}}},
                {"range", json_of(session.text(path).range(told->place, session.encoding))}};
}

} // namespace jarful::assist
