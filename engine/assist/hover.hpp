#pragma once

#include "engine/assist/session.hpp"

#include <optional>
#include <string>

/// What is known of the thing under a cursor. Private to the room.
namespace jarful::assist {

/// Words about a place.
struct Told {
    language::Place place; ///< in the file's own text
    std::string words;     ///< Markdown, which reads well as it is, too
};

/// What stands at an offset: of a name its value, between what it lies and what makes it unsure; of
/// a material what the larder knows, with the sources; of a kind its range and on what that rests;
/// of a unit its definition; of a word of the language what it means. Empty for anything else.
[[nodiscard]] std::optional<Told> tell(Session& session, const std::string& path,
                                       std::uint32_t offset);

/// What the larder knows of a material, in Markdown.
[[nodiscard]] std::string about_material(const larder::Material& material);
/// How the salt of a kind is judged, in Markdown.
[[nodiscard]] std::string about_kind(const larder::Kind& kind, std::string_view method);

} // namespace jarful::assist
