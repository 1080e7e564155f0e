#pragma once

#include "engine/language/tree.hpp"

/// One document's lines in another's pool and source. For this room only.
namespace jarful::language {

/// How far everything moves when a document is put behind another.
struct Shift {
    std::uint32_t text = 0; ///< places
    NodeId nodes = 0;
    std::uint32_t amounts = 0, units = 0, names = 0, arguments = 0;
};

/// Puts the source and the expressions of a document behind those of another.
[[nodiscard]] Shift append(Document& into, const Document& other);

[[nodiscard]] Place moved(Place place, const Shift& shift);
[[nodiscard]] Line moved(Line line, const Shift& shift);

} // namespace jarful::language
