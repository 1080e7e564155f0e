#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/render/page.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

/// What `tidy` found in files, and how it is printed.
namespace jarful::render {

/// One file that was looked at.
struct TidiedFile {
    std::string path; ///< as it was found from what the user named; "-" for standard input
    language::Source source;
    std::vector<language::Diagnostic> findings;
    std::string before;              ///< its bytes
    std::optional<std::string> tidy; ///< its canonical form; empty if it has none
    bool written = false;            ///< whether the canonical form took its place

    [[nodiscard]] bool changes() const { return tidy && *tidy != before; }
};

/// What a difference calls a file.
[[nodiscard]] inline std::string shown_name(const TidiedFile& file) {
    return file.path == "-" ? "standard-input" : file.path;
}

/// What a run of `tidy` was asked to do with the files.
enum class TidyTask : std::uint8_t { write, check, diff };

/// The files that change, and a sum; for `diff`, a unified diff of each and nothing else.
[[nodiscard]] std::string tidy_text(std::span<const TidiedFile> files, TidyTask task,
                                    const TextStyle& style);
/// Format "jarful.tidy/1"; described in docs/schemas/tidy.json.
[[nodiscard]] std::string tidy_json(std::span<const TidiedFile> files);

} // namespace jarful::render
