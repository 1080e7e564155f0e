/// Amounts as people write them: read, printed, and read again.

#include "engine/units/amount.hpp"
#include "tests/fuzz/fuzz.hpp"

#include <cmath>

using namespace jarful;

void fuzz_one(const std::string& bytes) {
    units::ReadFault fault;
    const auto amount = units::read_amount(bytes, &fault);
    if (!amount) {
        fuzz::demand(!fault.message.empty(), "nothing is refused without a word");
        fuzz::demand(fault.begin <= fault.end && fault.end <= bytes.size(),
                     "a place lies in the text");
        return;
    }
    fuzz::demand(std::isfinite(amount->value), "an amount is finite");
    fuzz::demand(amount->low <= amount->value && amount->value <= amount->high,
                 "an amount lies between its ends");
    for (const auto spoons : {units::Spoons::us, units::Spoons::metric, units::Spoons::imperial}) {
        const units::Amount read = amount->in_spoons(spoons);
        fuzz::demand(read.low <= read.value && read.value <= read.high,
                     "an amount lies between its ends in any spoons");
    }
    fuzz::demand(!units::print_value(amount->value, amount->dimension).empty(),
                 "every amount can be printed");
    std::size_t length = 0;
    const auto start = units::read_amount_prefix(bytes, length);
    fuzz::demand(start && length <= bytes.size() && start->value == amount->value,
                 "a whole amount is read as the start of a text, too");
}
