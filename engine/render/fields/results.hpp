#pragma once

#include "engine/render/fields/fields.hpp"

/// Every result that is written as JSON; each stands in a json_*.cpp file of its own. results.cpp
/// lists them. (Those of pages are in engine/page/results.hpp.)
namespace jarful::fields {

extern const Result appraise_result;
extern const Result batch_adopt_result;
extern const Result batch_compare_result;
extern const Result batch_result;
extern const Result batches_result;
extern const Result book_result;
extern const Result brine_result;
extern const Result chart_result;
extern const Result check_result;
extern const Result compare_result;
extern const Result convert_result;
extern const Result jars_result;
extern const Result mend_result;
extern const Result new_result;
extern const Result ranges_result;
extern const Result salts_result;
extern const Result tend_result;
extern const Result tidy_result;
extern const Result today_result;
extern const Result trace_result;
extern const Result weigh_result;

} // namespace jarful::fields
