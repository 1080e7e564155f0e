#include "engine/appraise/appraise.hpp"

namespace jarful::appraise {

std::string_view describe(LineSort sort) {
    switch (sort) {
    case LineSort::ingredient:
        return "ingredient";
    case LineSort::heading:
        return "heading";
    case LineSort::method:
        return "method";
    case LineSort::remark:
        return "remark";
    case LineSort::unknown:
        return "unknown";
    }
    return "unknown";
}

std::string_view describe(const Lean& lean) {
    constexpr unsigned most = lean_draws / 2;
    if (lean.below > most) return "below";
    if (lean.above > most) return "above";
    return lean.inside > most && lean.below == 0 ? "inside" : "";
}

std::string_view describe(Verdict verdict) {
    switch (verdict) {
    case Verdict::inside:
        return "inside";
    case Verdict::below:
        return "below";
    case Verdict::above:
        return "above";
    case Verdict::undecided:
        return "undecided";
    case Verdict::not_a_ferment:
        return "not a ferment";
    }
    return "undecided";
}

} // namespace jarful::appraise
