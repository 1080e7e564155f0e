#pragma once

#include "engine/book/repository.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/page.hpp"

#include <optional>
#include <string>
#include <vector>

/// What `book` found in a book, and how it is printed.
namespace jarful::render {

/// One recipe of the book.
struct BookRecipe {
    std::string path; ///< as it was found from what the user named
    std::string title;
    std::optional<int> version;
    std::string kind, method;
    std::optional<plan::SaltJudgement> salt;
    std::optional<plan::Verdict>
        verdict; ///< the worst of salt and bounds; empty if nothing is judged
    std::size_t faults = 0;
    std::string first_fault; ///< its message
    /// Empty where there is no history to ask, or git is told to ignore the file.
    std::optional<book::Standing> standing;
    std::optional<book::Revision> changed; ///< the commit that last changed it
};

struct BookReport {
    std::vector<BookRecipe> recipes; ///< those that were asked for, in their order
    std::size_t of = 0;              ///< how many the book has
    bool history = false;            ///< whether there was a history to ask
};

/// "as committed", "changed, not committed", …
[[nodiscard]] std::string_view describe(book::Standing standing);

[[nodiscard]] std::string book_text(const BookReport& report, const TextStyle& style);
/// Format "jarful.book/1"; described in docs/schemas/book.json.
[[nodiscard]] std::string book_json(const BookReport& report);
/// RFC 4180, with a first line of names.
[[nodiscard]] std::string book_csv(const BookReport& report);

} // namespace jarful::render
