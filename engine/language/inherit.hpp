#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/language/tree.hpp"

#include <functional>
#include <optional>
#include <string>
#include <string_view>

/// Recipes that build on another: `based on "base-brine"`. Reading files is left to the caller.
namespace jarful::language {

/// A base that was found, or why it was not.
struct FoundBase {
    std::string path; ///< what tells one file from another, and what it is called in diagnostics
    std::string bytes;
    std::string message; ///< a sentence if it was not found or may not be used; else empty
    std::string advice;  ///< the nearest name there is, for example
    std::string code = "missing-base"; ///< of the diagnostic
    std::string nearest = {};          ///< the name that the advice asks about; empty if none
};

/// Looks a base up for the file at `from`. Called only with names that stay in the book.
using FindBase = std::function<FoundBase(std::string_view name, const std::string& from)>;

/// Bases of bases of bases … up to this many.
inline constexpr std::size_t most_bases = 16;

/// Whether a base's name stays inside the book: parts of letters, digits and marks with `/`
/// between, none of them `.` or `..`, no `/` in front, no backslash.
[[nodiscard]] bool stays_in_book(std::string_view name);

/// Whether a recipe says that it is based on another, or drops a line of one.
[[nodiscard]] bool has_base(const Document& document);

/// The recipe with what it inherits, as docs/language.md says: one document, in which the source
/// holds the texts of all files one after another, so that every place can be shown with its own
/// file (Source::name_at). A recipe without a base comes back as it is.
///
/// Reports bases that are not there, are no recipes, have faults (these, too, with their places),
/// lie outside of the book or go round in a circle.
[[nodiscard]] Document inherit(Document recipe, const std::string& path, const FindBase& find,
                               Findings& findings);

/// Puts another file's text and what was found in it behind a document, so that its findings can be
/// shown with the places of their own file.
void take_along(Document& into, Findings& findings, const Source& other,
                const std::vector<Diagnostic>& found);

} // namespace jarful::language
