/// The record of a batch of any bytes: read, printed and read back, and how it stands on several
/// days.

#include "engine/render/batch_report.hpp"
#include "tests/fuzz/fuzz.hpp"

#include <algorithm>

using namespace jarful;

namespace {

/// The lines of a record with its entries as they stand now, as the program writes them.
std::string printed(const tend::Record& record) {
    std::string out = tend::print_record(record);
    for (const tend::Weighed& weighed : record.weighings)
        if (!weighed.taken_back) out += tend::print_weighed(weighed);
    for (const tend::Note& note : record.notes)
        out += tend::print_note(note);
    return out;
}

std::optional<tend::Record> read(const fuzz::Parsed& parsed, language::Findings& findings) {
    auto record = tend::read_record(parsed.document, findings);
    fuzz::explain_all(parsed.document.source, findings);
    return record;
}

void stands(const tend::Record& record, int days_later) {
    render::BatchReport report;
    report.path = report.name = "fuzzed";
    report.record = record;
    report.today = std::chrono::sys_days(record.begun) + std::chrono::days(days_later);
    report.standing = tend::standing(record, report.today);
    fuzz::demand(std::is_sorted(report.standing.findings.begin(), report.standing.findings.end(),
                                [](const tend::Finding& a, const tend::Finding& b) {
                                    return a.concern < b.concern;
                                }),
                 "the worst is said first");
    static_cast<void>(render::batch_text(report, {}));
    static_cast<void>(render::batch_json(report));
    static_cast<void>(render::today_text({report}, report.today, {}));
}

} // namespace

void fuzz_one(const std::string& bytes) {
    const auto parsed = fuzz::parse(bytes);
    if (!parsed || parsed->document.kind != language::FileKind::batch) return;
    language::Findings findings;
    const auto record = read(*parsed, findings);
    if (!record) {
        fuzz::demand(findings.has_faults() || !parsed->sound(),
                     "nothing is refused without a word");
        return;
    }
    for (const int days_later : {-1, 0, 3, 30, 400})
        stands(*record, days_later);
    if (findings.has_faults() || !parsed->sound()) return;

    std::string corrections = "batch \"a\" of \"b\"\nbegun 2026-01-01\n";
    std::size_t weighed = 0;
    for (const tend::Weighed& one : record->weighings) {
        weighed += one.taken_back ? 0U : 1U;
        for (const tend::Correction& correction : one.corrections)
            corrections += tend::print_correction(correction);
    }
    for (const tend::Note& note : record->notes)
        for (const tend::Correction& correction : note.corrections)
            corrections += tend::print_correction(correction);
    const auto lines = fuzz::parse(corrections);
    fuzz::demand(lines && lines->sound(), "a correction that is printed can be read");

    const auto again = fuzz::parse(printed(*record));
    fuzz::demand(again && again->sound(), "what is printed can be read");
    language::Findings none;
    const auto same = read(*again, none);
    fuzz::demand(same && !none.has_faults(), "what is printed is a record");
    fuzz::demand(same->begun == record->begun && same->kind == record->kind &&
                     same->weighings.size() == weighed &&
                     same->notes.size() == record->notes.size() &&
                     same->tending.size() == record->tending.size(),
                 "nothing is lost when a record is printed");
    fuzz::demand(printed(*same) == printed(*record), "printed twice, a record reads the same");
}
