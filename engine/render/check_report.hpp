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
    enum class Sort : std::uint8_t { recipe, kitchen, unknown };
    std::string path; ///< as it was found from what the user named; "-" for standard input
    Sort sort = Sort::unknown;
    language::Source source;
    std::vector<language::Diagnostic> findings;
    std::optional<plan::CheckResult> result; ///< of a recipe without faults

    /// Whether it has no faults.
    [[nodiscard]] bool ok() const;
};

struct CheckSummary {
    int files = 0, inside = 0, below = 0, above = 0, undecided = 0, faulty = 0;
};
[[nodiscard]] CheckSummary summarise(std::span<const CheckedFile> files);

/// A line for each file, with what is wrong below it, and a sum at the end.
[[nodiscard]] std::string check_text(std::span<const CheckedFile> files, const TextStyle& style);
/// Format "jarful.check/1"; described in docs/schemas/check.json.
[[nodiscard]] std::string check_json(std::span<const CheckedFile> files);

} // namespace jarful::render
