/// What is typed behind `convert` and `brine`, and a setting beside a recipe's name.

#include "engine/larder/convert.hpp"

#include "engine/larder/brine_mix.hpp"
#include "tests/fuzz/fuzz.hpp"

using namespace jarful;

void fuzz_one(const std::string& bytes) {
    const larder::Larder larder;
    const larder::ConversionOutcome out = larder::convert({bytes, {}, {}}, larder);
    fuzz::demand(out.conversion.has_value() != out.fault.has_value(),
                 "a conversion or a fault, and never both");
    language::Findings findings;
    const auto question = larder::read_brine_question(bytes, {}, {}, 20, findings);
    fuzz::explain_all(language::Source("the request", bytes), findings);
    fuzz::demand(question.has_value() || findings.has_faults(),
                 "nothing is refused without a word");
    static_cast<void>(plan::read_setting(bytes, findings));
}
