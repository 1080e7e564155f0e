#pragma once

#include "engine/assist/session.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// What may stand where something is being written. Private to the room.
namespace jarful::assist {

/// Something that may stand there.
struct Offer {
    enum class Sort : std::uint8_t {
        statement,
        word,
        name,
        unit,
        material,
        kind,
        function,
        recipe
    };
    Sort sort = Sort::word;
    std::string words;  ///< as they are written
    std::string detail; ///< in a few words; may be empty
    std::string about;  ///< Markdown; may be empty
    /// With places to fill in, as a snippet of the protocol (`weigh ${1:NAME} = …`); empty where
    /// there are none.
    std::string snippet;
};

struct Offers {
    language::Place place; ///< of what is written of it so far; they are put in its stead
    std::vector<Offer> all;
};

/// What may stand at an offset: the statements of this sort of file at a line's beginning, names
/// and functions in an expression, units behind a number, materials behind `as`, kinds behind
/// `kind`, tasks behind `tend`, recipes of the book in `based on`, and the words that go on with a
/// line. Nothing in comments, and in texts values alone.
[[nodiscard]] Offers offers_at(Session& session, const std::string& path, std::uint32_t offset);

/// The function whose parentheses an offset lies in, and in which of its values.
struct CallAt {
    std::string function;
    std::size_t parameter = 0;
};
[[nodiscard]] std::optional<CallAt> call_at(const std::string& text, std::uint32_t offset);

} // namespace jarful::assist
