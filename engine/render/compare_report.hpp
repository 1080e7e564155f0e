#pragma once

#include "engine/plan/compare.hpp"
#include "engine/render/page.hpp"

#include <string>

/// What differs between two recipes, or between two revisions of one.
namespace jarful::render {

/// What the two are called: "winter-kraut at HEAD~3 (1f3c2aa, 2026-09-01)".
struct ComparedNames {
    std::string before, after;
};

[[nodiscard]] std::string compare_text(const plan::Comparison& comparison,
                                       const ComparedNames& names, const TextStyle& style);
/// The same in Markdown, for where a change is talked over.
[[nodiscard]] std::string compare_markdown(const plan::Comparison& comparison,
                                           const ComparedNames& names, Units units);
/// Format "jarful.compare/1"; described in docs/schemas/compare.json.
[[nodiscard]] std::string compare_json(const plan::Comparison& comparison,
                                       const ComparedNames& names);

/// The pieces that text and Markdown share; for these files only.
struct CompareRow {
    std::string name, before, after, change;
};
/// The lines that differ, with their amounts and shares.
[[nodiscard]] std::vector<CompareRow> compare_rows(const plan::Comparison& comparison, Units units);
/// Salt before and after in a sentence each.
[[nodiscard]] std::string compare_salt_words(const plan::ComparedSalt& salt);
/// Kind, room, headspace and top-up where they differ, a sentence each.
[[nodiscard]] std::vector<std::string> compare_facts(const plan::Comparison& comparison,
                                                     Units units);
/// What both were weighed for.
[[nodiscard]] std::string compare_batch(const plan::Comparison& comparison);

} // namespace jarful::render
