#pragma once

#include "engine/render/fields/fields.hpp"
#include "engine/tend/dates.hpp"

/// Days of the calendar in tables of fields.
namespace jarful::fields {

/// "2026-11-25".
struct DateSort {
    static constexpr Type type{.base = Type::Base::text, .pattern = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"};
    static bool put(JsonWriter& out, tend::Date date, Presence /*unused*/) {
        out.text(tend::print_date(date));
        return true;
    }
};
template <auto get>
inline constexpr auto date = as<DateSort, get>;
template <auto get>
inline constexpr auto dates = as<ListSort<DateSort>, get>;

} // namespace jarful::fields
