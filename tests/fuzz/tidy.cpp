/// What can be read has a tidy form that says the same and is tidy itself.

#include "engine/language/tidy.hpp"

#include "tests/fuzz/fuzz.hpp"

using namespace jarful;

void fuzz_one(const std::string& bytes) {
    const auto before = fuzz::parse(bytes);
    if (!before || !before->sound() || language::is_batch_record(before->document.source)) return;
    language::Findings findings;
    const auto once = language::tidy(before->document.source, findings);
    fuzz::explain_all(before->document.source, findings);
    if (!once) {
        fuzz::demand(findings.has_faults(), "nothing is refused without a word");
        return;
    }
    const auto after = fuzz::parse(*once);
    fuzz::demand(after && after->sound(), "a tidy file can be read");
    fuzz::demand(language::same_meaning(before->document, after->document),
                 "a tidy file says the same");
    language::Findings again;
    const auto twice = language::tidy(after->document.source, again);
    fuzz::demand(twice && *twice == *once, "a tidy file is tidy");
}
