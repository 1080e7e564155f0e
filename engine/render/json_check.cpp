#include "engine/render/check_report.hpp"
#include "engine/render/fields/results.hpp"
#include "engine/render/fields/shared.hpp"

namespace jarful::fields {

namespace {

using render::CheckedFile;
using render::CheckSummary;

std::string_view sort_word(CheckedFile::Sort sort) {
    switch (sort) {
    case CheckedFile::Sort::recipe:
        return "recipe";
    case CheckedFile::Sort::kitchen:
        return "kitchen";
    case CheckedFile::Sort::house:
        return "house";
    case CheckedFile::Sort::batch:
        return "batch";
    case CheckedFile::Sort::unknown:
        break;
    }
    return "unknown";
}
constexpr auto sort_words = one_of<CheckedFile::Sort>(
    sort_word, {CheckedFile::Sort::recipe, CheckedFile::Sort::kitchen, CheckedFile::Sort::house,
                CheckedFile::Sort::batch, CheckedFile::Sort::unknown});

/// What was judged: nothing of a file with faults.
const plan::CheckResult* judged(const CheckedFile& file) {
    return file.ok() && file.result ? &*file.result : nullptr;
}
std::string_view title(const CheckedFile& file) {
    const plan::CheckResult* result = judged(file);
    return result == nullptr ? std::string_view() : std::string_view(result->title);
}
std::optional<plan::Verdict> verdict(const CheckedFile& file) {
    const plan::CheckResult* result = judged(file);
    return result == nullptr ? std::nullopt : result->verdict;
}
const plan::SaltJudgement* salt_of(const CheckedFile& file) {
    const plan::CheckResult* result = judged(file);
    return result != nullptr && result->salt ? &*result->salt : nullptr;
}
std::span<const plan::HoldCheck> checks(const CheckedFile& file) {
    const plan::CheckResult* result = judged(file);
    return result == nullptr ? std::span<const plan::HoldCheck>() : result->checks;
}
std::string_view one_jar(const CheckedFile& file) {
    const plan::CheckResult* result = judged(file);
    return result == nullptr ? std::string_view() : std::string_view(result->one_jar);
}
std::vector<LocatedDiagnostic> diagnostics(const CheckedFile& file) {
    std::vector<LocatedDiagnostic> out;
    for (const language::Diagnostic& found : file.findings)
        out.push_back(located(file.source, found));
    return out;
}

constexpr auto checked_file_fields = fields<CheckedFile>({
    {"path", text<&CheckedFile::path>,
     "As it was found from what was named; - for standard input."},
    {"sort", choice<sort_words, &CheckedFile::sort>, "What its header says it is."},
    {"title", maybe(text<title>), "The recipe's title."},
    {"ok", flag<&CheckedFile::ok>, "Whether it has no faults."},
    {"verdict", maybe(choice<verdict_words, verdict>),
     "The worst of salt and holds; null if nothing is judged."},
    {"salt", maybe(object<salt, salt_of>), "Null if the salt is not judged."},
    {"checks", list<check, checks>, "Bounds of the house."},
    {"one_jar", sometimes(text<one_jar>),
     "That what goes into each jar is counted for one jar; only where that makes a difference."},
    {"diagnostics", list<diagnostic, diagnostics>, "Findings in the order of their places."},
});
constexpr Shape<CheckedFile> checked_file{"checked_file", "A file that was looked at.",
                                          table<checked_file_fields>};

constexpr auto summary_fields = fields<CheckSummary>({
    {"files", how_many<&CheckSummary::files>, "All files."},
    {"inside", how_many<&CheckSummary::inside>, "Recipes with that verdict."},
    {"below", how_many<&CheckSummary::below>, "Recipes with that verdict."},
    {"above", how_many<&CheckSummary::above>, "Recipes with that verdict."},
    {"undecided", how_many<&CheckSummary::undecided>, "Recipes with that verdict."},
    {"faulty", how_many<&CheckSummary::faulty>, "Files with faults, and what could not be read."},
    {"unread", how_many<&CheckSummary::unread>, "Of the faulty: what could not be read at all."},
});
constexpr Shape<CheckSummary> summary{"check_summary", "What the files come to.",
                                      table<summary_fields>};

/// The whole; it is written in pieces.
struct Checked {
    std::span<const CheckedFile> files;
    CheckSummary sum;
};
constexpr auto check_fields = fields<Checked>({
    {"files", list<checked_file, &Checked::files>,
     "In the order of the paths named, a folder's files by path."},
    {"summary", object<summary, &Checked::sum>},
});
constexpr Shape<Checked> check_shape{"check_files", "What was found in files.",
                                     table<check_fields>};

} // namespace

constexpr Result check_result{
    "check", "jarful.check/1",
    "The answer of `jarful check --json`. Percentages written 2.2 for 2.2 %.", check_shape};

} // namespace jarful::fields

namespace jarful::render {

using fields::JsonWriter;

namespace {

/// All of it but the files, in two pieces: up to the bracket before them, and from the one behind.
std::pair<std::string, std::string> around_files(const CheckSummary& sum) {
    const std::string whole =
        fields::document(fields::check_result, fields::check_shape, fields::Checked{{}, sum});
    const std::size_t cut = whole.find("[]") + 1;
    return {whole.substr(0, cut), whole.substr(cut)};
}

} // namespace

std::string check_json_begin() {
    return around_files({}).first;
}

std::string check_json_of(const CheckedFile& file) {
    JsonWriter out(2);
    fields::write_object(out, fields::checked_file, file);
    return "\n    " + out.take();
}

std::string check_json_end(const CheckSummary& sum) {
    return (sum.files > 0 ? "\n  " : "") + around_files(sum).second;
}

} // namespace jarful::render
