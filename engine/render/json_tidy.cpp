#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"
#include "engine/render/tidy_report.hpp"

namespace jarful::fields {

namespace {

using render::TidiedFile;
std::vector<LocatedDiagnostic> diagnostics(const TidiedFile& file) {
    std::vector<LocatedDiagnostic> out;
    for (const language::Diagnostic& found : file.findings)
        out.push_back(located(file.source, found));
    return out;
}
constexpr auto tidied_fields = fields<TidiedFile>({
    {"path", text<&TidiedFile::path>, "As it was found from what was named; - for standard input."},
    {"ok", flag<&TidiedFile::ok>,
     "Whether it has a tidy form: it has no faults and is no record of a batch."},
    {"changes", flag<&TidiedFile::changes>, "Whether its tidy form differs from what it was."},
    {"written", flag<&TidiedFile::written>, "Whether the tidy form took its place."},
    {"diff", maybe(text<&TidiedFile::diff>),
     "A unified diff from what it was to its tidy form; null where nothing changes."},
    {"diagnostics", list<diagnostic, diagnostics>, "Findings in the order of their places."},
});
constexpr Shape<TidiedFile> tidied{"tidied_file", "A file that was looked at.",
                                   table<tidied_fields>};

struct TidySummary {
    std::size_t files = 0, changes = 0, written = 0, faulty = 0;
};
constexpr auto summary_fields = fields<TidySummary>({
    {"files", how_many<&TidySummary::files>, "All files."},
    {"changes", how_many<&TidySummary::changes>, "Files whose tidy form differs."},
    {"written", how_many<&TidySummary::written>, "Files that were written."},
    {"faulty", how_many<&TidySummary::faulty>, "Files without a tidy form."},
});
constexpr Shape<TidySummary> summary_shape{"tidy_summary", "What the files come to.",
                                           table<summary_fields>};

struct Tidied {
    std::span<const TidiedFile> files;
};
TidySummary summary(const Tidied& tidied_files) {
    TidySummary sum{.files = tidied_files.files.size()};
    for (const TidiedFile& file : tidied_files.files) {
        sum.changes += file.changes;
        sum.written += file.written;
        sum.faulty += !file.ok;
    }
    return sum;
}
constexpr auto tidy_fields = fields<Tidied>({
    {"files", list<tidied, &Tidied::files>,
     "In the order of the paths named, a folder's files by path; the record of a batch is left out "
     "where only its folder was named."},
    {"summary", object<summary_shape, summary>},
});
constexpr Shape<Tidied> tidy_shape{"tidy", "What was found in files.", table<tidy_fields>};

} // namespace

constexpr Result tidy_result{
    "tidy", "jarful.tidy/1",
    "The answer of `jarful tidy --json`: what was found in the files, and what was written.",
    tidy_shape};

} // namespace jarful::fields

namespace jarful::render {

std::string tidy_json(std::span<const TidiedFile> files) {
    return fields::document(fields::tidy_result, fields::tidy_shape, fields::Tidied{files});
}

} // namespace jarful::render
