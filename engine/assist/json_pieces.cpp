#include "engine/assist/requests.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>

/// The smallest pieces of the protocol.
namespace jarful::assist {

using Json = nlohmann::ordered_json;

std::uint32_t whole_in(const Json& value) {
    if (!value.is_number_integer() ||
        (!value.is_number_unsigned() && value.get<std::int64_t>() < 0))
        throw Failure{errors::invalid_params, "A line or a character is a whole number."};
    constexpr std::uint64_t most = 0x7fff'ffff;
    return static_cast<std::uint32_t>(std::min(value.get<std::uint64_t>(), most));
}

Position position_in(const Json& value) {
    return {whole_in(value.at("line")), whole_in(value.at("character"))};
}

Range range_in(const Json& value) {
    return {position_in(value.at("start")), position_in(value.at("end"))};
}

Json json_of(Position position) {
    return Json{{"line", position.line}, {"character", position.character}};
}

Json json_of(Range range) {
    return Json{{"start", json_of(range.start)}, {"end", json_of(range.end)}};
}

std::string path_in(const Session& session, const Json& params) {
    return session.path_of(params.at("textDocument").at("uri").get<std::string>());
}

std::uint32_t offset_in(Session& session, const Json& params) {
    return session.text(path_in(session, params))
        .offset(position_in(params.at("position")), session.encoding);
}

Where where(Session& session, const language::Source& source, language::Place place) {
    const std::string& path = source.name_at(place.begin);
    const Text& text = session.text(path);
    if (path == source.name()) return {path, text.range(place, session.encoding)};
    // Its text stands behind the source's own.
    const auto position = [&](std::uint32_t offset) {
        return text.position(source.locate(offset), session.encoding);
    };
    return {path, {position(place.begin), position(std::max(place.begin, place.end))}};
}

Json location(Session& session, const Where& where) {
    return Json{{"uri", session.uri_of(where.path)}, {"range", json_of(where.range)}};
}

} // namespace jarful::assist
