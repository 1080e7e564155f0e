#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/plan/plan.hpp"
#include "engine/render/page.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// What `check` found in files, and how it is printed.
namespace jarful::render {

/// One file that was looked at.
struct CheckedFile {
    enum class Sort : std::uint8_t { recipe, kitchen, house, batch, unknown };
    std::string path; ///< as it was found from what the user named; "-" for standard input
    Sort sort = Sort::unknown;
    bool read = true; ///< whether there was a file to read
    language::Source source;
    std::vector<language::Diagnostic> findings;
    std::optional<plan::CheckResult> result; ///< of a recipe without faults

    /// Whether it has no faults.
    [[nodiscard]] bool ok() const;
};

/// What files come to, counted one by one in their order.
struct CheckSummary {
    int files = 0, inside = 0, below = 0, above = 0, undecided = 0, faulty = 0;
    int unread = 0; ///< of the faulty: what could not be read at all
    int recipes = 0, kitchens = 0, houses = 0, records = 0; ///< of those without faults
    int not_judged = 0;                                     ///< recipes whose salt has no range
    /// Paths of the first of each, for what to do next; of what was read, of the faulty.
    std::string first_below, first_above, first_undecided, first_faulty, first_unread;
    /// Of each group that wants a hand, the first few files, for a screen.
    struct Shown {
        std::vector<CheckedFile> below, undecided, above, faulty, not_judged;
    } shown;
    void add(const CheckedFile& file);
    /// Those of files that come after.
    void add(const CheckSummary& later);

  private:
    void add_to_group(const CheckedFile& file);
};

/// How many files of a group a screen shows before it says how many more there are.
inline constexpr std::size_t most_shown = 3;

/// What many files come to, on one screen: only what wants a hand, the worst first, and how many of
/// each. The numbers add up to that of the files.
[[nodiscard]] std::string check_screen(const CheckSummary& sum, const TextStyle& style);

/// A line for each file, with what is wrong below it, and a sum at the end. A whole book is printed
/// in pieces: each file, and the end.
[[nodiscard]] std::string check_text_of(const CheckedFile& file, const TextStyle& style);
[[nodiscard]] std::string check_text_end(const CheckSummary& sum, const TextStyle& style);

/// What to do next about them: the rest of a sentence after "Next: ".
[[nodiscard]] std::string check_next(const CheckSummary& sum);

/// Format "jarful.check/1"; described in docs/schemas/check.json. In pieces: the beginning, each
/// file with a comma before all but the first, and the end.
[[nodiscard]] std::string check_json_begin();
[[nodiscard]] std::string check_json_of(const CheckedFile& file);
[[nodiscard]] std::string check_json_end(const CheckSummary& sum);

} // namespace jarful::render
