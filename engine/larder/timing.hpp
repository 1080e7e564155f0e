#pragma once

#include "engine/larder/larder.hpp"

#include <optional>
#include <span>

/// How long ferments take, how warm, and what their pH comes to: rows as published, each with its
/// source, and which of them rule. The facts are in engine/larder/data/timing.json.
namespace jarful::larder {

enum class TimingWhat : std::uint8_t {
    ferment,   ///< a window of days, at a temperature or at none
    too_cold,  ///< below celsius_high
    too_warm,  ///< above celsius_low
    end_point, ///< pH or acid of the finished ferment
    store,     ///< how it keeps
    course     ///< something else of the ferment's course; the note says what
};

/// One row of one source. Days are counted from the packing of the jar, temperatures in °C, acid in
/// g of lactic acid per 100 g. Where sources disagree all stand, and `rules_…` says which one a
/// schedule goes by.
struct TimingRow {
    Text id;
    Text kind;   ///< as in find_kind(); "any" for all of them
    Text method; ///< as in a ruling; empty: whatever the method
    TimingWhat what = TimingWhat::course;
    std::optional<double> celsius_low, celsius_high;
    bool celsius_read = false; ///< our reading of words such as "room temperature"
    std::optional<double> days_low, days_high;
    std::optional<double> ph_low, ph_high;
    std::optional<double> acid_low, acid_high;
    bool rules_days = false; ///< a schedule may go by its days
    bool rules_ph = false;   ///< by days_high the pH should be at ph_high, or 4.6, or below
    Text source;
    Text section;
    Status status = Status::common_practice;
    Text note;
};

[[nodiscard]] std::span<const TimingRow> timing_rows();

} // namespace jarful::larder
