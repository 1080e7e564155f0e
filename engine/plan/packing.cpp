#include "engine/plan/packing.hpp"

namespace jarful::plan {

bool all_well(const WeighOut& out) {
    const bool too_much =
        (!out.chosen_jars.empty() && out.room && out.room->fill_ml > out.usable_ml * (1 + 1e-9)) ||
        (out.jar_choice && out.jar_choice->unplaced_ml > 0);
    const bool kept = out.verdict.value_or(Verdict::inside) == Verdict::inside;
    return kept && !out.no_reading && !too_much;
}

} // namespace jarful::plan
