#pragma once

#include "engine/assist/session.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Which names stand where, in one file and across the files of a book. Private to the room.
namespace jarful::assist {

/// A name in a file's own text.
struct Occurrence {
    std::string name; ///< NFC
    language::Place place;
    bool definition = false;
};

/// Every name of a parsed file, by place: of quantities and brines, where they are defined and
/// used (in texts too), and of a kitchen's `let` lines. Lines at fault have none.
/// @param inherited brines of what it is based on: behind `as` they are names, too.
[[nodiscard]] std::vector<Occurrence> occurrences(const language::Document& document,
                                                  const std::vector<std::string>& inherited = {});
/// The same of a file with what it is based on.
[[nodiscard]] std::vector<Occurrence> occurrences(const Session& session, const std::string& path);
/// The one at an offset, or that ends there.
[[nodiscard]] std::optional<Occurrence>
occurrence_at(const Session& session, const std::string& path, std::uint32_t offset);
/// The text of a `based on` line at an offset; null if there is none.
[[nodiscard]] const language::Text* base_at(const language::Document& document,
                                            std::uint32_t offset);

/// A name in one of several files.
struct Found {
    std::string path;
    Occurrence occurrence;
};

/// A file with those that it is based on, itself first, by their paths; ends where a base is not
/// there or a circle begins.
[[nodiscard]] std::vector<std::string> chain_of(const Session& session, const std::string& path);

/// The file that a name in a file belongs to: the deepest of its bases that has a line of that name
/// (a line that overrides it is the same name), else its kitchen; empty if it is defined nowhere.
[[nodiscard]] std::string owner_of(const Session& session, const std::string& path,
                                   std::string_view name);

/// Where a name is defined as a file sees it: its own line, else the nearest inherited one, else
/// the kitchen's.
[[nodiscard]] std::optional<Found> definition_of(const Session& session, const std::string& path,
                                                 std::string_view name);

/// Every place of a name in the recipes and the kitchen that share it; records of batches are
/// passed over. `faulty` gets the files that have lines which cannot be read, so that a place may
/// be missing.
[[nodiscard]] std::vector<Found> everywhere(const Session& session, const std::string& path,
                                            std::string_view name,
                                            std::vector<std::string>* faulty = nullptr);

/// A file that knows both a name and another one, which it would be called as; empty if none does.
[[nodiscard]] std::optional<std::string> clash_of(const Session& session, const std::string& path,
                                                  std::string_view name, std::string_view wanted);

/// Why a line would be made of something else if its name were another, in a sentence with what to
/// do first: what has no `as` is what its name says, and a brine goes before a material. Empty if
/// nothing would.
[[nodiscard]] std::optional<std::string> made_of_other(Session& session, const std::string& path,
                                                       const std::string& name,
                                                       const std::string& wanted);

} // namespace jarful::assist
