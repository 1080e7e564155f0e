/// A recipe's cells by two evaluators, and their intervals: the value of muParser is that of the
/// walked steps to the last bit, and lies in the interval.

#include "engine/plan/model.hpp"
#include "tests/fuzz/fuzz.hpp"

#include <bit>
#include <cmath>
#include <cstdint>

using namespace jarful;

namespace {

bool same(double a, double b) {
    return (std::isnan(a) && std::isnan(b)) ||
           std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b);
}

} // namespace

void fuzz_one(const std::string& bytes) {
    // One line a cell, in a recipe that gives them something to refer to.
    std::string text = "recipe \"F\"\nkind kraut\ngiven cabbage = 1.8 kg ± 5 g\n"
                       "given carrot = 3 oz\nlet share = 2.2 % ± 0.1 %\nlet packed = 0.9 kg/L\n"
                       "let some = 1..2 tsp\n";
    std::size_t number = 0;
    for (std::size_t at = 0; at < bytes.size() && number < 8; ++number) {
        const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
        text += "let x" + std::to_string(number) + " = " + bytes.substr(at, end - at) + "\n";
        at = end + 1;
    }
    auto parsed = fuzz::parse(text);
    if (!parsed || !parsed->sound()) return;
    language::Findings findings;
    const kitchen::Kitchen kitchen = kitchen::default_kitchen();
    const auto model = plan::compile(parsed->document, kitchen, findings);
    fuzz::explain_all(parsed->document.source, findings);
    if (!model) return;
    sheet::Sheet& sheet = *model->sheet;
    for (sheet::CellId id = 0; id < sheet.size(); ++id) {
        const double first = sheet.value(id);
        if (sheet.cell(id).formula.steps.empty()) continue;
        const double walked = sheet.value(sheet.cell(id).formula);
        fuzz::demand(same(first, walked), "muParser and the walked steps agree to the last bit");
        if (!std::isfinite(first)) {
            fuzz::demand(sheet.fault(id).has_value(), "what is not finite has a reason");
            continue;
        }
        const units::Interval bounds = sheet.interval(id);
        fuzz::demand(bounds.low <= first && first <= bounds.high, "the value lies in its interval");
    }
}
