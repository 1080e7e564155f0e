#include "engine/assist/hover.hpp"
#include "engine/assist/requests.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace jarful::assist {

using Json = nlohmann::ordered_json;

namespace {

/// Without the marks that this room writes: stress, code, fences, breaks and what they are kept
/// apart from by a stroke.
std::string plain(std::string_view words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const bool begins = i == 0 || words[i - 1] == '\n';
        if (begins && words.substr(i).starts_with("```")) {
            i = std::min(words.find('\n', i), words.size());
        } else if (words[i] == '\\' && i + 1 < words.size()) {
            out += words[++i];
        } else if (words.substr(i).starts_with("**")) {
            ++i;
        } else if (words.substr(i).starts_with("  \n")) {
            ++i;
        } else if (words[i] != '`') {
            out += words[i];
        }
    }
    return out;
}

} // namespace

Json markup(std::string_view words, bool markdown) {
    return Json{{"kind", markdown ? "markdown" : "plaintext"},
                {"value", markdown ? std::string(words) : plain(words)}};
}

Json hover(Session& session, const Client& client, const Json& params) {
    const std::string path = path_in(session, params);
    const auto told = tell(session, path, offset_in(session, params));
    if (!told) return nullptr;
    return Json{{"contents", markup(told->words, client.markdown)},
                {"range", json_of(session.text(path).range(told->place, session.encoding))}};
}

} // namespace jarful::assist
