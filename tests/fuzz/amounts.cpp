/// Amounts as people write them, and conversions.

#include "engine/larder/brine_mix.hpp"
#include "engine/larder/convert.hpp"
#include "engine/units/amount.hpp"
#include "tests/fuzz/fuzz.hpp"

#include <cmath>

using namespace jarful;

void fuzz_one(const std::string& bytes) {
    units::ReadFault fault;
    if (const auto amount = units::read_amount(bytes, &fault)) {
        fuzz::demand(std::isfinite(amount->value), "an amount is finite");
        fuzz::demand(amount->low <= amount->value && amount->value <= amount->high,
                     "an amount lies between its ends");
        const std::string printed = units::print_value(amount->value, amount->dimension);
        fuzz::demand(!printed.empty(), "every amount can be printed");
    } else {
        fuzz::demand(!fault.message.empty(), "nothing is refused without a word");
        fuzz::demand(fault.begin <= fault.end && fault.end <= bytes.size(),
                     "a place lies in the text");
    }
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
