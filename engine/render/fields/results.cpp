#include "engine/render/fields/results.hpp"

#include "engine/render/fields/schema.hpp"

#include <array>

namespace jarful::fields {

namespace {

// By name. One a line, so that two additions do not meet.
// clang-format off
constexpr std::array all_results{
    &appraise_result,
    &batch_result,
    &batch_adopt_result,
    &batch_compare_result,
    &batches_result,
    &book_result,
    &brine_result,
    &chart_result,
    &check_result,
    &compare_result,
    &convert_result,
    &jars_result,
    &mend_result,
    &new_result,
    &ranges_result,
    &salts_result,
    &tend_result,
    &tidy_result,
    &today_result,
    &trace_result,
    &weigh_result,
};
// clang-format on

} // namespace

std::span<const Result* const> results() {
    return all_results;
}

const Result* find_result(std::string_view name) {
    for (const Result* result : results())
        if (result->notes.name == name) return result;
    return nullptr;
}

} // namespace jarful::fields
