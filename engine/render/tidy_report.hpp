#pragma once

#include "engine/language/diagnostic.hpp"
#include "engine/render/page.hpp"

#include <span>
#include <string>
#include <vector>

/// What `tidy` found in files, and how it is printed.
namespace jarful::render {

/// One file that was looked at. Its text is not kept, but where something is said of it: a folder
/// may hold very many files.
struct TidiedFile {
    std::string path;        ///< as it was found from what the user named; "-" for standard input
    bool ok = false;         ///< whether it has a canonical form
    bool changes = false;    ///< whether that differs from the file
    bool written = false;    ///< whether it took the file's place
    std::string diff;        ///< how it differs, as a unified diff; empty where nobody asked
    language::Source source; ///< empty where nothing was found
    std::vector<language::Diagnostic> findings;
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
