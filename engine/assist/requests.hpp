#pragma once

#include "engine/assist/session.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>

/// Requests of the protocol, each from its parameters to its result. Private to the room; only its
/// .cpp files include this. They throw Failure, or what the JSON library throws where a parameter
/// is not there, and the server answers with an error.
namespace jarful::assist {

/// An error for the client.
struct Failure {
    int code = 0;
    std::string message;
};
namespace errors {
inline constexpr int parse = -32700;
inline constexpr int invalid_request = -32600;
inline constexpr int no_such_method = -32601;
inline constexpr int invalid_params = -32602;
inline constexpr int internal = -32603;
inline constexpr int not_initialised = -32002;
inline constexpr int cancelled = -32800;
inline constexpr int failed = -32803;
} // namespace errors

/// What the client said that it can do.
struct Client {
    bool related = false;           ///< shows places that belong to a diagnostic
    bool snippets = false;          ///< in completions
    bool markdown = true;           ///< in hovers
    bool markdown_in_offers = true; ///< in completions
    bool document_changes = false;  ///< takes versioned edits
    bool nested_symbols = false;
};

// ---- Pieces of the protocol. ----

/// MarkupContent: words of Markdown as they are, or without its marks.
[[nodiscard]] nlohmann::ordered_json markup(std::string_view words, bool markdown);
/// A whole number, 0 or above, held below 2^31.
[[nodiscard]] std::uint32_t whole_in(const nlohmann::ordered_json& value);
[[nodiscard]] Position position_in(const nlohmann::ordered_json& value);
[[nodiscard]] Range range_in(const nlohmann::ordered_json& value);
[[nodiscard]] nlohmann::ordered_json json_of(Position position);
[[nodiscard]] nlohmann::ordered_json json_of(Range range);
/// The path of `textDocument`.
[[nodiscard]] std::string path_in(const Session& session, const nlohmann::ordered_json& params);
/// The offset of `position` in it, in what the engine reads.
[[nodiscard]] std::uint32_t offset_in(Session& session, const nlohmann::ordered_json& params);

/// A place with the file that it is in: that of an inherited line is another than the source's own.
struct Where {
    std::string path;
    Range range;
};
[[nodiscard]] Where where(Session& session, const language::Source& source, language::Place place);
[[nodiscard]] nlohmann::ordered_json location(Session& session, const Where& where);

// ---- Results. ----

/// What is wrong with a file: an array of Diagnostic.
[[nodiscard]] nlohmann::ordered_json diagnostics(Session& session, const Client& client,
                                                 const std::string& path);
[[nodiscard]] nlohmann::ordered_json code_actions(Session& session, const Client& client,
                                                  const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json formatting(Session& session,
                                                const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json inlay_hints(Session& session,
                                                 const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json code_lenses(Session& session,
                                                 const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json hover(Session& session, const Client& client,
                                           const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json completion(Session& session, const Client& client,
                                                const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json signature_help(Session& session,
                                                    const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json definition(Session& session,
                                                const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json references(Session& session,
                                                const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json document_highlight(Session& session,
                                                        const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json prepare_rename(Session& session,
                                                    const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json rename(Session& session, const Client& client,
                                            const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json document_symbols(Session& session, const Client& client,
                                                      const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json workspace_symbols(Session& session,
                                                       const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json folding_ranges(Session& session,
                                                    const nlohmann::ordered_json& params);
[[nodiscard]] nlohmann::ordered_json semantic_tokens(Session& session,
                                                     const nlohmann::ordered_json& params);
/// The names of the sorts of words that semantic_tokens() numbers.
[[nodiscard]] nlohmann::ordered_json token_types();

} // namespace jarful::assist
